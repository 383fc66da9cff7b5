//! The lines of quilting by themselves in true size, for whoever follows them: one line a stroke.

use crate::display::weight_for;
use crate::{Drawing, Item, Stroke, Tag};
use plane::fill::Fill;
use plane::{Point, Region, polygon};

/// The strokes over the outline and what is kept free. Each stroke is one line, numbered in sewing order.
#[must_use]
pub fn lines_drawing(title: &str, outline: &[Point], free: &[Region], fill: &Fill) -> Drawing {
    let (low, high) = polygon::bounds(outline).unwrap_or_default();
    let weight = weight_for(high.x - low.x, high.y - low.y);
    let rings = free.iter().flat_map(|region| std::iter::once(&region.outer).chain(&region.holes));
    let mut items = vec![Item::closed(outline.to_vec(), Stroke::Outline).tagged(Tag::class("piece"))];
    items.extend(rings.map(|ring| Item::closed(ring.clone(), Stroke::Leader).tagged(Tag::class("free"))));
    let strokes = fill.strokes.iter().enumerate().map(|(i, stroke)| {
        let line = if stroke.closed { Item::closed } else { Item::line };
        line(stroke.points.clone(), Stroke::CutLine).tagged(Tag::class("stroke").with("stroke", i + 1))
    });
    items.push(Item::group("quilting", strokes.collect()));
    Drawing::around(title, items, weight, 0.5 * weight)
}
