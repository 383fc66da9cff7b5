//! Tiles in true size: a page each, overlapping, with crosses where four of them meet.

use super::{FREE, Guide, Ink, LINES, MARGIN_IN, MARKS, MOST_TILES, OUTLINE, OnPage, Paper};
use crate::PaperProblem;
use crate::pdf::Page;
use plane::fill::Stroke;
use plane::{Point, Vec2, polygon};
use quilt::length::{MM_PER_IN, fraction};

/// How much of the piece two neighbours both show.
const OVERLAP_IN: f64 = 0.5;
/// Length of a cross's arms.
const CROSS_IN: f64 = 0.2;
/// Letters of a tile's name.
const NAME_IN: f64 = 0.14;

/// A part of the piece that one page shows.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tile {
    /// From the top, and from the left, from 0.
    row: usize,
    column: usize,
    /// What it shows.
    low: Point,
    high: Point,
}

/// The tiles on which something is drawn, row by row from the top.
pub(super) fn tiles(guide: &Guide<'_>, paper: Paper) -> Result<Vec<Tile>, PaperProblem> {
    let (low, high) = polygon::bounds(guide.outline).unwrap_or_default();
    let [wide, tall] = paper.size_in().map(|length| length - 2.0 * MARGIN_IN);
    let count = |length: f64, page: f64| {
        ((length - OVERLAP_IN) / (page - OVERLAP_IN) - 1e-9).ceil().max(1.0) as usize
    };
    let size = high - low;
    let (columns, rows) = (count(size.x, wide), count(size.y, tall));
    if columns.saturating_mul(rows) > MOST_TILES {
        let tiles = columns.saturating_mul(rows);
        return Err(PaperProblem::TooManyTiles { tiles, most: MOST_TILES });
    }
    // What the pages have to spare lies on both sides alike.
    let spare = |length: f64, page: f64, count: usize| {
        (count as f64 * (page - OVERLAP_IN) + OVERLAP_IN - length) / 2.0
    };
    let first = Point::new(low.x - spare(size.x, wide, columns), high.y + spare(size.y, tall, rows));
    let all = (0..rows).flat_map(|row| (0..columns).map(move |column| (row, column)));
    let tile = |(row, column): (usize, usize)| {
        let left = first.x + column as f64 * (wide - OVERLAP_IN);
        let top = first.y - row as f64 * (tall - OVERLAP_IN);
        Tile { row, column, low: Point::new(left, top - tall), high: Point::new(left + wide, top) }
    };
    Ok(all.map(tile).filter(|tile| tile.shows(guide)).collect())
}

/// A tile's row as letters and its column as a number, both from 0: `B3`.
pub(crate) fn tile_name(row: usize, column: usize) -> String {
    let mut row = row;
    let mut letters = String::new();
    loop {
        letters.insert(0, char::from(b'A' + (row % 26) as u8));
        match (row / 26).checked_sub(1) {
            Some(more) => row = more,
            None => break,
        }
    }
    format!("{letters}{}", column + 1)
}

impl Tile {
    /// Its row as a letter and its column as a number: `B3`.
    pub(super) fn name(&self) -> String {
        tile_name(self.row, self.column)
    }

    /// Where its crosses stand: the middle of what it shares with each neighbour.
    pub(super) fn inner_corners(&self) -> [Point; 4] {
        let half = Vec2::new(OVERLAP_IN / 2.0, OVERLAP_IN / 2.0);
        let (low, high) = (self.low + half, self.high - half);
        [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]
    }

    fn shows(&self, guide: &Guide<'_>) -> bool {
        let rings = std::iter::once(guide.outline).chain(guide.free.iter().map(Vec::as_slice));
        let mut edges = rings.flat_map(polygon::edges);
        let mut lines = guide.lines.strokes.iter().flat_map(Stroke::segments);
        edges.any(|(a, b)| self.cut(a, b).is_some()) || lines.any(|(a, b)| self.cut(a, b).is_some())
    }

    pub(super) fn page(&self, guide: &Guide<'_>, paper: Paper) -> Page {
        let mut page = Page::new(paper.size_in());
        let on_page = OnPage { from: self.low, to: Point::new(MARGIN_IN, MARGIN_IN), scale: 1.0 };
        self.ring(&mut page, on_page, guide.outline, OUTLINE);
        guide.free.iter().for_each(|ring| self.ring(&mut page, on_page, ring, FREE));
        for stroke in &guide.lines.strokes {
            for part in self.parts(stroke.segments()) {
                page.line(&on_page.all(&part), false, LINES);
            }
        }
        for corner in self.inner_corners() {
            let at = on_page.at(corner);
            for arm in [Vec2::new(CROSS_IN, 0.0), Vec2::new(0.0, CROSS_IN)] {
                page.line(&[at - arm, at + arm], false, Ink::plain(MARKS, 0.01));
            }
        }
        let apart_in = self.high.x - self.low.x - OVERLAP_IN;
        let words = format!(
            "{}: {}. Print at 100 %; from cross to cross, across: {} in, {:.0} mm.",
            guide.title,
            self.name(),
            fraction(apart_in, 16),
            apart_in * MM_PER_IN
        );
        page.words(Point::new(MARGIN_IN, 0.5 * MARGIN_IN), NAME_IN, false, &words);
        page
    }

    fn ring(&self, page: &mut Page, on_page: OnPage, ring: &[Point], ink: Ink) {
        for part in self.parts(polygon::edges(ring)) {
            page.line(&on_page.all(&part), false, ink);
        }
    }

    /// What of a line lies on the tile, each part in one.
    fn parts(&self, segments: impl Iterator<Item = (Point, Point)>) -> Vec<Vec<Point>> {
        let mut parts: Vec<Vec<Point>> = Vec::new();
        for (a, b) in segments {
            let Some((from, to)) = self.cut(a, b) else { continue };
            match parts.last_mut().filter(|part| part.last() == Some(&from)) {
                Some(part) => part.push(to),
                None => parts.push(vec![from, to]),
            }
        }
        parts
    }

    /// The part of a straight line that lies on the tile.
    fn cut(&self, a: Point, b: Point) -> Option<(Point, Point)> {
        let by = b - a;
        let mut ends = [0.0_f64, 1.0];
        for (at, step, low, high) in
            [(a.x, by.x, self.low.x, self.high.x), (a.y, by.y, self.low.y, self.high.y)]
        {
            if step.abs() < 1e-12 {
                if at < low || at > high {
                    return None;
                }
                continue;
            }
            let (first, last) = ((low - at) / step, (high - at) / step);
            ends = [ends[0].max(first.min(last)), ends[1].min(first.max(last))];
        }
        let place = |share: f64| if share == 1.0 { b } else { a + by * share };
        (ends[0] < ends[1]).then(|| (place(ends[0]), place(ends[1])))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::fill::Fill;

    #[test]
    fn tiles_cover_the_piece_and_neighbours_share_their_crosses() {
        let outline = [(0.0, 0.0), (20.0, 0.0), (20.0, 15.0), (0.0, 15.0)].map(|(x, y)| Point::new(x, y));
        let lines = Fill { strokes: vec![Stroke::open(vec![Point::new(1.0, 1.0), Point::new(19.0, 14.0)])] };
        let guide =
            Guide { title: "", outline: &outline, free: &[], lines: &lines, changes: &[], notes: &[] };
        let tiles = tiles(&guide, Paper::Letter).expect("few tiles");
        let names: Vec<String> = tiles.iter().map(Tile::name).collect();
        assert_eq!(names, ["A1", "A2", "A3", "B1", "B2", "B3"]);
        let [left, right, below] = [0, 1, 3].map(|i| tiles[i].inner_corners());
        assert!(left[1].distance(right[0]) < 1e-9 && left[2].distance(right[3]) < 1e-9);
        assert!(left[0].distance(below[3]) < 1e-9);
        assert!(tiles[0].low.x <= 0.0 && tiles[2].high.x >= 20.0);
        assert!(tiles[0].high.y >= 15.0 && tiles[3].low.y <= 0.0);
        // A stroke is cut to its tiles and nothing of it is lost.
        let long = |tile: &Tile| {
            let inner = tile.inner_corners();
            let inner = Tile { low: inner[0], high: inner[2], ..*tile };
            let parts = inner.parts(lines.strokes[0].segments());
            parts.iter().map(|part| Stroke::open(part.clone()).length()).sum::<f64>()
        };
        let all: f64 = tiles.iter().map(long).sum();
        assert!((all - lines.length()).abs() < 1e-9, "{all}");
    }

    #[test]
    fn a_tile_with_nothing_on_it_is_left_out() {
        let outline = [(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)].map(|(x, y)| Point::new(x, y));
        let named = |lines: &Fill| {
            let guide = Guide { title: "", outline: &outline, free: &[], lines, changes: &[], notes: &[] };
            let tiles = tiles(&guide, Paper::Letter).expect("few tiles");
            tiles.iter().map(Tile::name).collect::<Vec<_>>()
        };
        let bare = named(&Fill { strokes: Vec::new() });
        assert!(!bare.contains(&"C3".to_owned()) && bare.contains(&"A1".to_owned()), "{bare:?}");
        let (from, to) = (Point::new(2.0, 18.0), Point::new(38.0, 18.0));
        let lined = named(&Fill { strokes: vec![Stroke::open(vec![from, to])] });
        assert!(lined.contains(&"C3".to_owned()) && lined.len() > bare.len(), "{lined:?}");
    }

    #[test]
    fn rows_go_on_after_the_last_letter() {
        let tile = Tile { row: 27, column: 4, low: Point::ORIGIN, high: Point::ORIGIN };
        assert_eq!(tile.name(), "AB5");
    }
}
