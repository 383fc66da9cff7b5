//! Drawings in true size: a page each, or tiles of several pages that overlap, with crosses where four of
//! them meet, so that they can be laid on each other.
//!
//! A tile keeps only what lies on it. At its foot stand its name and two lines, of 1 inch and of 5
//! centimetres, by which to see whether the printer kept the size.

mod part;

use crate::overlap::{Cell, Grid};
use crate::press::{Part, Sheet};
use crate::{Paper, PaperProblem};
use drawing::{Anchor, Drawing, Item, Stroke, TextItem};
use plane::{Point, Vec2};
use std::sync::Arc;

/// The most tiles: beyond that it is a pile of paper nobody lays out.
pub const MOST_TILES: usize = 400;
/// What of a page's edge stays empty: most printers can't reach it.
pub const TILE_MARGIN_IN: f64 = 0.5;

/// Length of a cross's arms.
const CROSS_IN: f64 = 0.2;
/// Letters at a tile's foot.
const NAME_IN: f64 = 0.125;

/// A part of a drawing that one page shows in true size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tile {
    /// What it shows.
    cell: Cell,
    /// Whether it is the only one.
    lone: bool,
}

/// The tiles of a drawing on which something is drawn, row by row from the top.
///
/// # Errors
/// A drawing without room, or so large that its tiles would be more than [`MOST_TILES`].
pub fn tiles(drawing: &Drawing, paper: Paper) -> Result<Vec<Tile>, PaperProblem> {
    let (low, high) = (drawing.lo, drawing.hi);
    let size = high - low;
    if !(size.x > 0.0 && size.y > 0.0 && (size.x + size.y).is_finite()) {
        return Err(PaperProblem::NoOutline);
    }
    let room_in = paper.size_in().map(|length| length - 2.0 * TILE_MARGIN_IN);
    let grid = Grid::over(size, room_in, MOST_TILES)?;
    // What the pages have to spare lies on both sides alike.
    let spare = (grid.size() - size) * 0.5;
    let first = Point::new(low.x - spare.x, high.y + spare.y);
    let shows = |cell: &Cell| part::shows(&drawing.items, cell.low, cell.high);
    Ok(grid.cells(first).filter(shows).map(|cell| Tile { cell, lone: grid.is_one() }).collect())
}

impl Tile {
    /// Its row as a letter and its column as a number: `B3`.
    #[must_use]
    pub fn name(&self) -> String {
        self.cell.name()
    }

    /// Where its crosses stand: the middle of what it shares with each neighbour. A tile without any has none
    /// drawn.
    #[must_use]
    pub fn crosses(&self) -> [Point; 4] {
        self.cell.inner_corners()
    }

    /// The page: what lies on the tile, in true size; `words` say what it is a part of.
    #[must_use]
    pub fn sheet(&self, drawing: &Drawing, words: &str, paper: Paper) -> Sheet {
        let size_in = paper.size_in();
        let name = self.name();
        let seen = Drawing {
            title: format!("{words}: {name}, in true size"),
            lo: self.cell.low,
            hi: self.cell.high,
            weight: drawing.weight,
            items: part::on_it(&drawing.items, self.cell.low, self.cell.high),
        };
        let figure = Part::Figure {
            alt: Some(seen.title.clone()),
            at: Point::new(TILE_MARGIN_IN, TILE_MARGIN_IN),
            scale: 1.0,
            drawing: Arc::new(seen),
        };
        Sheet { size_in, parts: vec![figure, Part::Furniture(vec![self.foot(words, size_in)])] }
    }

    /// Crosses, name and the two lines to measure, on the page itself.
    fn foot(&self, words: &str, [width, height]: [f64; 2]) -> Part {
        let on_page = |p: Point| Point::new(TILE_MARGIN_IN, TILE_MARGIN_IN) + (p - self.cell.low);
        let arms = [Vec2::new(CROSS_IN, 0.0), Vec2::new(0.0, CROSS_IN)];
        let crosses = self.crosses().map(on_page);
        let mut items: Vec<Item> = crosses
            .iter()
            .filter(|_| !self.lone)
            .flat_map(|at| arms.map(|arm| Item::line(vec![*at - arm, *at + arm], Stroke::CutLine)))
            .collect();
        let foot = 0.5 * TILE_MARGIN_IN;
        items.extend(ruler(Point::new(width - TILE_MARGIN_IN - 5.0 / 2.54, foot), 5.0 / 2.54, "5 cm"));
        items.extend(ruler(Point::new(width - TILE_MARGIN_IN - 5.0 / 2.54 - 1.3, foot), 1.0, "1 in"));
        // What is said must end where the lines begin.
        let room = width - 2.0 * TILE_MARGIN_IN - 5.0 / 2.54 - 1.6;
        let name = if self.lone { String::new() } else { format!("{}   ", self.name()) };
        let said = format!("{name}{words}. Print at 100 %.");
        let size_in = NAME_IN.min(room / drawing::words_width_in(&said, 1.0).max(1e-9));
        let at = Point::new(TILE_MARGIN_IN, foot);
        let said = TextItem { anchor: Anchor::Start, bold: true, ..TextItem::level(at, size_in, said) };
        items.push(Item::text(said));
        let page = Drawing {
            title: String::new(),
            lo: Point::ORIGIN,
            hi: Point::new(width, height),
            weight: 0.4,
            items,
        };
        Part::Figure { alt: None, at: Point::ORIGIN, scale: 1.0, drawing: Arc::new(page) }
    }
}

/// A line to measure, with a tick at either end and its length over it.
fn ruler(from: Point, long_in: f64, words: &str) -> Vec<Item> {
    let to = from + Vec2::new(long_in, 0.0);
    let tick = Vec2::new(0.0, 0.06);
    let line = |a: Point, b: Point| Item::line(vec![a, b], Stroke::CutLine);
    let over = from.midpoint(to) + Vec2::new(0.0, 0.09);
    vec![
        line(from, to),
        line(from - tick, from + tick),
        line(to - tick, to + tick),
        Item::text(TextItem::level(over, 0.11, words)),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rectangle(wide: f64, high: f64, more: Vec<Vec<Point>>) -> Drawing {
        let corners = [(0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high)].map(|(x, y)| Point::new(x, y));
        let mut items = vec![Item::closed(corners.to_vec(), Stroke::Outline)];
        items.extend(more.into_iter().map(|points| Item::line(points, Stroke::CutLine)));
        Drawing::around("", items, 1.0, 0.0)
    }

    #[test]
    fn tiles_cover_the_piece_and_neighbours_share_their_crosses() {
        let line = vec![Point::new(1.0, 1.0), Point::new(19.0, 14.0)];
        let tiles = tiles(&rectangle(20.0, 15.0, vec![line]), Paper::Letter).expect("few tiles");
        let names: Vec<String> = tiles.iter().map(Tile::name).collect();
        assert_eq!(names, ["A1", "A2", "A3", "B1", "B2", "B3"]);
        let [left, right, below] = [0, 1, 3].map(|i| tiles[i].crosses());
        assert!(left[1].distance(right[0]) < 1e-9 && left[2].distance(right[3]) < 1e-9);
        assert!(left[0].distance(below[3]) < 1e-9);
        assert!(tiles[0].cell.low.x <= 0.0 && tiles[2].cell.high.x >= 20.0, "nothing is left over");
        assert!(tiles[0].cell.high.y >= 15.0 && tiles[5].cell.low.y <= 0.0, "nothing is left over");
    }

    #[test]
    fn a_tile_with_nothing_on_it_is_left_out() {
        let named = |lines: Vec<Vec<Point>>| {
            let tiles = tiles(&rectangle(40.0, 40.0, lines), Paper::Letter).expect("few tiles");
            tiles.iter().map(Tile::name).collect::<Vec<_>>()
        };
        let bare = named(Vec::new());
        assert!(!bare.contains(&"C3".to_owned()) && bare.contains(&"A1".to_owned()), "{bare:?}");
        let lined = named(vec![vec![Point::new(2.0, 18.0), Point::new(38.0, 18.0)]]);
        assert!(lined.contains(&"C3".to_owned()) && lined.len() > bare.len(), "{lined:?}");
    }

    #[test]
    fn rows_go_on_after_the_last_letter() {
        let cell = Cell { row: 27, column: 4, low: Point::ORIGIN, high: Point::ORIGIN };
        let tile = Tile { cell, lone: false };
        assert_eq!(tile.name(), "AB5");
    }
}
