//! A shape over several pages: they overlap, and a diamond on each shared edge, half on either page, tells how they
//! are glued. Each page has a small map with itself marked.

use super::foot::{LETTERS_IN, SQUARE_IN, WORDS_IN, words};
use super::{MARGIN_IN, MOST_PAGES, Page, TrueSize, pack};
use crate::Paper;
use crate::PaperProblem;
use crate::overlap::{Cell, Grid, OVERLAP_IN};
use drawing::{Anchor, Item, Placement, Shape, Stroke};
use plane::{Point, Region, Vec2, intersection, polygon};

/// Half the width of a glue mark.
const DIAMOND_IN: f64 = 0.22;

/// The shape's pages, row by row from the top.
pub(super) fn tiles(shape: &TrueSize, paper: Paper) -> Result<Vec<Page>, PaperProblem> {
    let all = grid(&shape.outline, paper)?;
    Ok(all.iter().map(|tile| page(shape, tile, &all, paper)).collect())
}

fn grid(outline: &[Point], paper: Paper) -> Result<Vec<Cell>, PaperProblem> {
    let (low, high) = polygon::bounds(outline).ok_or(PaperProblem::NoOutline)?;
    let whole = Region { outer: outline.to_vec(), holes: Vec::new() };
    let shows = |cell: &Cell| {
        let part = Region { outer: cell.corners().to_vec(), holes: Vec::new() };
        intersection(&whole, &part).iter().map(Region::area).sum::<f64>() > 1e-6
    };
    let grid = Grid::over(high - low, pack::room(paper), MOST_PAGES)?;
    Ok(grid.cells(Point::new(low.x, high.y)).filter(shows).collect())
}

fn page(shape: &TrueSize, tile: &Cell, all: &[Cell], paper: Paper) -> Page {
    let corner = Point::new(MARGIN_IN, paper.size_in()[1] - MARGIN_IN - pack::room(paper)[1]);
    let by = Placement::shifted(corner - tile.low);
    let clip = Region { outer: by.apply_all(&tile.corners()), holes: Vec::new() };
    let shown = shape.items.iter().map(|item| item.placed(by)).collect();
    let mut items = vec![Item::new(Shape::Group { clip: Some(clip), items: shown })];
    items.extend(glue(tile, all).iter().map(|item| item.placed(by)));
    Page { items, names: vec![format!("{} {}", shape.name, tile.name())], map: map(shape, tile, all, paper) }
}

/// The middle of each overlap, with the neighbour's name on the strip that goes under or over it.
fn glue(tile: &Cell, all: &[Cell]) -> Vec<Item> {
    let half = OVERLAP_IN / 2.0;
    let (low, high) = (tile.low, tile.high);
    let ways: [(isize, isize); 4] = [(0, 1), (0, -1), (1, 0), (-1, 0)];
    let mut items = Vec::new();
    for (down, right) in ways {
        let at = |from: usize, by: isize| from.checked_add_signed(by);
        let next = at(tile.row, down).zip(at(tile.column, right));
        let there = |other: &&Cell| next == Some((other.row, other.column));
        let Some(next) = all.iter().find(there) else { continue };
        let ends = match (down, right) {
            (0, 1) => [Point::new(high.x - half, low.y), Point::new(high.x - half, high.y)],
            (0, _) => [Point::new(low.x + half, low.y), Point::new(low.x + half, high.y)],
            (1, _) => [Point::new(low.x, low.y + half), Point::new(high.x, low.y + half)],
            _ => [Point::new(low.x, high.y - half), Point::new(high.x, high.y - half)],
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

/// All pages of the shape, small, this one marked.
fn map(shape: &TrueSize, tile: &Cell, all: &[Cell], paper: Paper) -> Vec<Item> {
    let corners: Vec<Point> = all.iter().flat_map(Cell::corners).collect();
    let Some((low, high)) = polygon::bounds(&corners) else { return Vec::new() };
    let from = Point::new(MARGIN_IN + SQUARE_IN + 0.2, MARGIN_IN + WORDS_IN + 0.1);
    let room = [paper.size_in()[0] - MARGIN_IN - from.x - 2.2, SQUARE_IN - WORDS_IN - 0.1];
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
        format!("of {} sheets. Glue them", all.len()),
        "diamond on diamond.".to_owned(),
    ];
    for (i, line) in lines.iter().enumerate() {
        let y = said.y - i as f64 * LETTERS_IN * 1.35;
        items.push(words(Point::new(said.x, y), LETTERS_IN, Anchor::Start, i == 0, line));
    }
    items
}
