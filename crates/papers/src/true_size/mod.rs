//! Shapes in true size on pages; what is larger than a page is cut in [`parts`], which overlap and are glued by
//! their marks. Every page has a square of 1 inch in one of 5 cm, to hold a ruler to before anything is cut.
//!
//! Inches, y up. [`turn_for`] says how a shape is turned to take little room, [`page_room`] where it may lie, and
//! [`in_rows_on_pages`] where a simple packing lays it.

mod foot;
mod pack;
mod tiles;

pub use pack::{GAP_IN, in_rows, page_room};
pub use tiles::{SheetPart, parts};

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

impl TrueSize {
    /// The same elsewhere on the paper.
    #[must_use]
    pub fn shifted(&self, by: Vec2) -> Self {
        let place = Placement::shifted(by);
        Self {
            name: self.name.clone(),
            outline: place.apply_all(&self.outline),
            items: self.items.iter().map(|item| item.placed(place)).collect(),
        }
    }
}

/// What stands at the foot of every page.
#[derive(Clone, Debug, Default)]
pub struct Foot {
    /// What the pages are.
    pub title: String,
    /// What to know before cutting, a line each.
    pub notes: Vec<String>,
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

/// Where a simple packing lays shapes: on which page, from 0, and how far they are moved; `None` for those that are
/// larger than the room of a page.
///
/// # Errors
/// A shape without room.
pub fn in_rows_on_pages(
    outlines: &[Vec<Point>],
    paper: Paper,
) -> Result<Vec<Option<(usize, Vec2)>>, PaperProblem> {
    let bounds: Option<Vec<(Point, Point)>> =
        outlines.iter().map(|outline| polygon::bounds(outline)).collect();
    let bounds = bounds.filter(|all| all.iter().all(|(low, high)| low.is_finite() && high.is_finite()));
    let bounds = bounds.ok_or(PaperProblem::NoOutline)?;
    let sizes: Vec<[f64; 2]> = bounds.iter().map(|(low, high)| [high.x - low.x, high.y - low.y]).collect();
    let places = pack::pack(&sizes, paper).into_iter().zip(&bounds);
    Ok(places.map(|(place, (low, _))| place.map(|place| (place.page, place.at - *low))).collect())
}

/// Shapes as pages: each with its page, from 0, and in the coordinates of the page.
#[must_use]
pub fn true_size(shapes: &[(usize, TrueSize)], paper: Paper, foot: &Foot) -> Vec<Sheet> {
    let total = shapes.iter().map(|(page, _)| page + 1).max().unwrap_or(0);
    (0..total)
        .map(|page| {
            let on: Vec<&TrueSize> =
                shapes.iter().filter(|(at, _)| *at == page).map(|(_, shape)| shape).collect();
            sheet(&on, page + 1, total, paper, foot)
        })
        .collect()
}

fn sheet(on: &[&TrueSize], number: usize, total: usize, paper: Paper, foot: &Foot) -> Sheet {
    let size_in = paper.size_in();
    let names: Vec<&str> = on.iter().map(|shape| shape.name.as_str()).collect();
    let title = format!("{}, sheet {number} of {total}: {}", foot.title, names.join(", "));
    let mut items: Vec<Item> = on.iter().flat_map(|shape| shape.items.iter().cloned()).collect();
    items.extend(foot::foot(foot, number, total, paper));
    let hi = Point::ORIGIN + Vec2::new(size_in[0], size_in[1]);
    let drawing = Drawing { title: title.clone(), lo: Point::ORIGIN, hi, weight: 1.0, items };
    let figure = Part::Figure { alt: Some(title), at: Point::ORIGIN, scale: 1.0, drawing: Arc::new(drawing) };
    Sheet { size_in, parts: vec![figure] }
}
