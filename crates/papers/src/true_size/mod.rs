//! Shapes in true size on as few pages as a simple packing finds; what is larger than a page goes over several,
//! which overlap and are glued by their marks. Every page has a square of 1 inch in one of 5 cm, to hold a ruler
//! to before anything is cut.
//!
//! Inches, y up. A shape is given as it is to lie on the paper: [`turn_for`] says how to turn it first.

mod foot;
mod pack;
mod tiles;

pub use pack::in_rows;

use crate::Paper;
use crate::PaperProblem;
use crate::press::{Part, Sheet};
use drawing::{Drawing, Item, Placement};
use plane::{Point, Turn, Vec2, polygon};
use std::sync::Arc;

/// What of a page's edge stays empty: most printers can't reach it.
const MARGIN_IN: f64 = 0.5;
/// The most pages for one shape: beyond that it is a pile of paper nobody glues.
pub const MOST_PAGES: usize = 100;

/// Something to be printed in true size.
#[derive(Clone, Debug)]
pub struct TrueSize {
    /// What it is called.
    pub name: String,
    /// Its outermost line.
    pub outline: Vec<Point>,
    /// What is drawn.
    pub items: Vec<Item>,
}

/// What stands at the foot of every page.
#[derive(Clone, Debug, Default)]
pub struct Foot {
    /// What the pages are.
    pub title: String,
    /// What to know before cutting, a line each.
    pub notes: Vec<String>,
}

/// Pages, and where each shape lies.
#[derive(Clone, Debug, Default)]
pub struct TrueSizePages {
    /// The pages.
    pub sheets: Vec<Sheet>,
    /// For each shape its pages, from 1: one, or several to be glued.
    pub on: Vec<Vec<usize>>,
}

/// A page before its foot is known.
struct Page {
    items: Vec<Item>,
    names: Vec<String>,
    map: Vec<Item>,
}

/// How to turn a shape so that it lies on a page, or takes few.
#[must_use]
pub fn turn_for(outline: &[Point], paper: Paper) -> Turn {
    let [wide, tall] = pack::room(paper);
    let mut best: Option<((bool, f64), Turn)> = None;
    for (a, b) in polygon::edges(&polygon::hull(outline)) {
        let Some(along) = Turn::towards(b - a) else { continue };
        let level = along.inverse();
        for turn in [level, level.then(Turn { cos: 0.0, sin: 1.0 })] {
            let turned: Vec<Point> =
                outline.iter().map(|p| Point::ORIGIN + turn.apply(p.to_vec2())).collect();
            let Some((low, high)) = polygon::bounds(&turned) else { continue };
            let size = high - low;
            // Lying shapes make low rows.
            let lying = if size.y <= size.x { 1.0 } else { 1.0 + 1e-6 };
            let key = (size.x > wide || size.y > tall, size.x * size.y * lying);
            if best.as_ref().is_none_or(|(known, _)| key < *known) {
                best = Some((key, turn));
            }
        }
    }
    best.map_or(Turn::NONE, |(_, turn)| turn)
}

/// The shapes on pages: those that fit one first, then the large ones, each on pages of its own.
///
/// # Errors
/// A shape without room, or one that takes more than [`MOST_PAGES`] pages.
pub fn true_size(shapes: &[TrueSize], paper: Paper, foot: &Foot) -> Result<TrueSizePages, PaperProblem> {
    let bounds: Option<Vec<(Point, Point)>> =
        shapes.iter().map(|shape| polygon::bounds(&shape.outline)).collect();
    let bounds = bounds.filter(|all| all.iter().all(|(low, high)| low.is_finite() && high.is_finite()));
    let bounds = bounds.ok_or(PaperProblem::NoOutline)?;
    let sizes: Vec<[f64; 2]> = bounds.iter().map(|(low, high)| [high.x - low.x, high.y - low.y]).collect();
    let placed = pack::pack(&sizes, paper);
    let mut on = vec![Vec::new(); shapes.len()];
    let mut pages: Vec<Page> = Vec::new();
    for (no, place) in placed.iter().enumerate() {
        let Some(place) = place else { continue };
        while pages.len() <= place.page {
            pages.push(Page { items: Vec::new(), names: Vec::new(), map: Vec::new() });
        }
        let by = Placement::shifted(place.at - bounds[no].0);
        let page = &mut pages[place.page];
        page.items.extend(shapes[no].items.iter().map(|item| item.placed(by)));
        page.names.push(shapes[no].name.clone());
        on[no].push(place.page + 1);
    }
    for (no, shape) in shapes.iter().enumerate().filter(|(no, _)| placed[*no].is_none()) {
        let tiles = tiles::tiles(shape, paper)?;
        on[no] = (pages.len() + 1..=pages.len() + tiles.len()).collect();
        pages.extend(tiles);
    }
    let total = pages.len();
    let sheets = pages.into_iter().enumerate().map(|(i, page)| sheet(page, i + 1, total, paper, foot));
    Ok(TrueSizePages { sheets: sheets.collect(), on })
}

fn sheet(page: Page, number: usize, total: usize, paper: Paper, foot: &Foot) -> Sheet {
    let size_in = paper.size_in();
    let title = format!("{}, sheet {number} of {total}: {}", foot.title, page.names.join(", "));
    let mut items = page.items;
    items.extend(page.map);
    items.extend(foot::foot(foot, number, total, paper));
    let hi = Point::ORIGIN + Vec2::new(size_in[0], size_in[1]);
    let drawing = Drawing { title: title.clone(), lo: Point::ORIGIN, hi, weight: 1.0, items };
    let figure = Part::Figure { alt: Some(title), at: Point::ORIGIN, scale: 1.0, drawing: Arc::new(drawing) };
    Sheet { size_in, parts: vec![figure] }
}
