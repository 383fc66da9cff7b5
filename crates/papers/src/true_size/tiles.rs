//! A shape over several pages: they overlap, and a diamond on each shared edge, half on either page, tells how they
//! are glued. Each part has a small map with itself marked: at the foot of a page of its own, or under it, where it is
//! so small that other things lie on its page too.

use super::foot::{LETTERS_IN, SQUARE_IN, WORDS_IN, words};
use super::{MARGIN_IN, MOST_PAGES, TrueSize, pack};
use crate::Paper;
use crate::PaperProblem;
use crate::overlap::{Cell, Grid, OVERLAP_IN};
use drawing::{Anchor, Item, Placement, Shape, Stroke};
use plane::{Point, Region, Vec2, intersection, polygon};

/// A part of a shape that goes over several pages.
#[derive(Clone, Debug)]
pub struct SheetPart {
    /// What it shows and where it is glued; its outline is all the room it takes.
    pub shape: TrueSize,
    /// Whether it takes a page of its own, in whose coordinates it is then.
    pub whole_page: bool,
}

/// A part that leaves less of its page than this, in inches, has it for itself.
const LEAST_LEFT_IN: f64 = 1.0;
/// Height of the map and the words under a small part, in inches.
const STRIP_IN: f64 = 0.62;
/// Width that words under a small part take, in inches.
const STRIP_WORDS_IN: f64 = 2.1;
/// Half the width of a glue mark.
const DIAMOND_IN: f64 = 0.22;

/// The shape's parts, row by row from the top.
///
/// # Errors
/// A shape without room, or one that takes more than [`MOST_PAGES`] pages.
pub fn parts(shape: &TrueSize, paper: Paper) -> Result<Vec<SheetPart>, PaperProblem> {
    let all = grid(&shape.outline, paper)?;
    Ok(all.iter().map(|tile| part(shape, tile, &all, paper)).collect())
}

fn grid(outline: &[Point], paper: Paper) -> Result<Vec<Cell>, PaperProblem> {
    let (low, high) = polygon::bounds(outline).ok_or(PaperProblem::NoOutline)?;
    let whole = Region { outer: outline.to_vec(), holes: Vec::new() };
    let shows = |cell: &Cell| {
        let part = Region { outer: cell.corners().to_vec(), holes: Vec::new() };
        intersection(&whole, &part).iter().map(Region::area).sum::<f64>() > 1e-6
    };
    let [wide, tall] = pack::room(paper);
    let cells = |room: [f64; 2]| -> Result<Vec<Cell>, PaperProblem> {
        let grid = Grid::over(high - low, room, MOST_PAGES)?;
        Ok(grid.cells(Point::new(low.x, high.y)).filter(shows).collect())
    };
    // With room for a strip below, if that takes no more.
    let all = cells([wide, tall])?;
    Ok(cells([wide, tall - STRIP_IN]).ok().filter(|lower| lower.len() <= all.len()).unwrap_or(all))
}

fn part(shape: &TrueSize, tile: &Cell, all: &[Cell], paper: Paper) -> SheetPart {
    let name = format!("{} {}", shape.name, tile.name());
    let glue = glue(&shape.outline, tile, all);
    let clip = Region { outer: tile.corners().to_vec(), holes: Vec::new() };
    let mut items = vec![Item::new(Shape::Group { clip: Some(clip), items: shape.items.clone() })];
    // All that is drawn on it.
    let mut drawn: Vec<Point> = shown(&shape.outline, tile.low, tile.high);
    glue.iter().for_each(|item| item.each_point(&mut |p| drawn.push(p)));
    items.extend(glue);
    let [wide, tall] = pack::room(paper);
    let (low, high) = polygon::bounds(&drawn).unwrap_or((tile.low, tile.high));
    let (low, width) = (low - Vec2::new(0.0, STRIP_IN), (high.x - low.x).max(STRIP_WORDS_IN + 1.2));
    // What leaves less than this of a page leaves nothing for another.
    let leaves = (tall - (high.y - low.y)).max(wide - width);
    if width > wide + 1e-9 || high.y - low.y > tall + 1e-9 || leaves < LEAST_LEFT_IN {
        let corner = Point::new(MARGIN_IN, paper.size_in()[1] - MARGIN_IN - tall);
        let by = Placement::shifted(corner - tile.low);
        let mut items: Vec<Item> = items.iter().map(|item| item.placed(by)).collect();
        let from = Point::new(MARGIN_IN + SQUARE_IN + 0.2, MARGIN_IN + WORDS_IN + 0.1);
        let room = [paper.size_in()[0] - MARGIN_IN - from.x - 2.2, SQUARE_IN - WORDS_IN - 0.1];
        items.extend(map(shape, tile, all, from, room));
        return SheetPart {
            shape: TrueSize { name, outline: pack::page_room(paper), items },
            whole_page: true,
        };
    }
    items.extend(map(shape, tile, all, low, [width - STRIP_WORDS_IN, STRIP_IN - 0.1]));
    let at = |x: f64, y: f64| Point::new(x, y);
    let (right, top) = (low.x + width, high.y);
    let outline = vec![low, at(right, low.y), at(right, top), at(low.x, top)];
    SheetPart { shape: TrueSize { name, outline, items }, whole_page: false }
}

/// Corners of what of an outline lies in a box.
fn shown(outline: &[Point], low: Point, high: Point) -> Vec<Point> {
    let window = vec![low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)];
    let [whole, window] = [outline.to_vec(), window].map(|outer| Region { outer, holes: Vec::new() });
    intersection(&whole, &window).into_iter().flat_map(|region| region.outer).collect()
}

/// The middle of each overlap, with the neighbour's name on the strip that goes under or over it.
fn glue(outline: &[Point], tile: &Cell, all: &[Cell]) -> Vec<Item> {
    let half = OVERLAP_IN / 2.0;
    let (low, high) = (tile.low, tile.high);
    let ways: [(isize, isize); 4] = [(0, 1), (0, -1), (1, 0), (-1, 0)];
    let mut items = Vec::new();
    for (down, right) in ways {
        let at = |from: usize, by: isize| from.checked_add_signed(by);
        let next = at(tile.row, down).zip(at(tile.column, right));
        let there = |other: &&Cell| next == Some((other.row, other.column));
        let Some(next) = all.iter().find(there) else { continue };
        // What both show, and of it what the shape takes.
        let both =
            [low.x.max(next.low.x), low.y.max(next.low.y), high.x.min(next.high.x), high.y.min(next.high.y)];
        let strip = shown(outline, Point::new(both[0], both[1]), Point::new(both[2], both[3]));
        let Some((from, to)) = polygon::bounds(&strip) else { continue };
        let ends = match (down, right) {
            (0, 1) => [Point::new(high.x - half, from.y), Point::new(high.x - half, to.y)],
            (0, _) => [Point::new(low.x + half, from.y), Point::new(low.x + half, to.y)],
            (1, _) => [Point::new(from.x, low.y + half), Point::new(to.x, low.y + half)],
            _ => [Point::new(from.x, high.y - half), Point::new(to.x, high.y - half)],
        };
        items.push(Item::line(ends.to_vec(), Stroke::Leader));
        let middle = ends[0].midpoint(ends[1]);
        let way = |x: f64, y: f64| middle + Vec2::new(x, y) * DIAMOND_IN;
        items.push(Item::closed(
            vec![way(1.0, 0.0), way(0.0, 1.0), way(-1.0, 0.0), way(0.0, -1.0)],
            Stroke::Mark,
        ));
        let beside = if down == 0 { Vec2::new(0.0, -0.45) } else { Vec2::new(0.55, 0.0) };
        items.push(words(middle + beside, LETTERS_IN, Anchor::Middle, true, &next.name()));
    }
    items
}

/// All pages of the shape, small, this one marked, with words beside them.
fn map(shape: &TrueSize, tile: &Cell, all: &[Cell], from: Point, room: [f64; 2]) -> Vec<Item> {
    let corners: Vec<Point> = all.iter().flat_map(Cell::corners).collect();
    let Some((low, high)) = polygon::bounds(&corners) else { return Vec::new() };
    let scale = (room[0] / (high.x - low.x)).min(room[1] / (high.y - low.y));
    let at = |p: Point| from + (p - low) * scale;
    let inner = |tile: &Cell| {
        let half = OVERLAP_IN / 2.0;
        let corner = at(tile.low + Vec2::new(half, half));
        let size = (tile.high - tile.low - Vec2::new(OVERLAP_IN, OVERLAP_IN)) * scale;
        (corner, size)
    };
    let mut items: Vec<Item> =
        vec![Item::closed(shape.outline.iter().map(|p| at(*p)).collect(), Stroke::CutLine)];
    for other in all {
        let (corner, size) = inner(other);
        let way = |x: f64, y: f64| corner + Vec2::new(size.x * x, size.y * y);
        let ring = vec![way(0.0, 0.0), way(1.0, 0.0), way(1.0, 1.0), way(0.0, 1.0)];
        let here = other.row == tile.row && other.column == tile.column;
        items.push(Item::closed(ring, if here { Stroke::Mark } else { Stroke::Leader }));
        let letters = LETTERS_IN.min(size.y * 0.7).min(size.x * 0.4);
        items.push(words(way(0.5, 0.5), letters, Anchor::Middle, here, &other.name()));
    }
    let said = at(Point::new(high.x, high.y)) + Vec2::new(0.15, -LETTERS_IN);
    let lines = [
        format!("{}, part {}", shape.name, tile.name()),
        format!("of {} parts. Glue them", all.len()),
        "diamond on diamond.".to_owned(),
    ];
    for (i, line) in lines.iter().enumerate() {
        let y = said.y - i as f64 * LETTERS_IN * 1.35;
        items.push(words(Point::new(said.x, y), LETTERS_IN, Anchor::Start, i == 0, line));
    }
    items
}
