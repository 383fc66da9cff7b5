//! The largest rectangle by area, of any ratio and turn, inside a convex outline.
//!
//! At one turn the widths and heights that fit form a convex set, so the area has one peak over
//! the ratio.

use super::{Largest, Room, best_turn, peak};
use crate::{Point, Region, Turn, Vec2, polygon};

/// Ratios from 1 : e^6 to e^6 : 1 are tried.
const LONGEST: f64 = 6.0;

/// The largest rectangle by area, with `scale` 1; `None` when the outline isn't convex, has holes
/// or no room.
#[must_use]
pub fn largest_rectangle(region: &Region) -> Option<Largest> {
    if !region.holes.is_empty() || !polygon::is_convex(&region.outer, 0.0) {
        return None;
    }
    let room = Room::new(&region.outer)?;
    let side = |ratio: f64| (ratio / 2.0).exp();
    let spokes = |ratio: f64| {
        let (w, h) = (side(ratio) / 2.0, side(-ratio) / 2.0);
        [(-w, -h), (w, -h), (w, h), (-w, h)].map(|(x, y)| Vec2::new(x, y))
    };
    let size = |degrees: f64, ratio: f64| room.scale(&spokes(ratio), degrees).map_or(0.0, |(scale, _)| scale);
    let best_ratio = |degrees: f64| peak(-LONGEST, LONGEST, &|ratio| size(degrees, ratio));
    let degrees = best_turn(180.0, |degrees| size(degrees, best_ratio(degrees)));
    let ratio = best_ratio(degrees);
    let (scale, at): (f64, Point) = room.scale(&spokes(ratio), degrees)?;
    let turn = Turn::from_degrees(degrees);
    let corners = spokes(ratio).iter().map(|&v| at + turn.apply(v) * scale).collect();
    Some(Largest { corners, scale: 1.0, turn })
}
