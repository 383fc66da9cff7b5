//! Slices across a strip set, and the single stripes that come of unpicking.

use super::portion;
use crate::error::{Result, WorkroomError};
use plane::{DECISION, Line, Point, Region, polygon};
use quilt::cloth::{Cloth, ClothId, Part};

/// How a strip set is sliced.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Across {
    /// Cut width of a slice, square to its cuts, in inches.
    pub width_in: f64,
    /// How far the cuts lean from square, in degrees, to the right going up; −75 to 75.
    pub lean_deg: f64,
    /// How much to leave at the left before the first slice, in inches.
    pub from_in: f64,
    /// At most so many slices; as many as there is room for when `None`.
    pub count: Option<usize>,
}

/// The slices as polygons in the set's coordinates, from left to right.
///
/// # Errors
/// A width, lean or start that makes no sense.
pub fn slices(set: &Region, across: &Across) -> Result<Vec<Vec<Point>>> {
    let wrong = |what, value, wanted| Err(WorkroomError::BadNumber { what, value, wanted });
    let Across { width_in, lean_deg, from_in, count } = *across;
    if !(width_in.is_finite() && width_in > plane::READING) {
        return wrong("the width of a slice", width_in, "more than nothing");
    }
    if !(lean_deg.is_finite() && lean_deg.abs() <= 75.0) {
        return wrong("the lean of a slice", lean_deg, "between -75 and 75 degrees");
    }
    if !(from_in.is_finite() && from_in >= 0.0) {
        return wrong("the start of the first slice", from_in, "0 or more");
    }
    let Some((lo, hi)) = polygon::bounds(&set.outer) else { return Ok(Vec::new()) };
    let (sin, cos) = lean_deg.to_radians().sin_cos();
    let drift = (hi.y - lo.y) * sin / cos;
    let step = width_in / cos;
    let mut at = lo.x + from_in + (-drift).max(0.0);
    let mut found = Vec::new();
    while at + step + drift.max(0.0) <= hi.x + DECISION && count.is_none_or(|most| found.len() < most) {
        let corners = [(at, lo.y), (at + step, lo.y), (at + step + drift, hi.y), (at + drift, hi.y)];
        found.push(corners.map(|(x, y)| Point::new(x, y)).to_vec());
        at += step;
    }
    Ok(found)
}

/// The single stripes of a pieced cloth, unpicked, each in the coordinates of the cloth it was cut
/// from; `whole` looks that up. Where a seam was, a stripe has its allowance back. Exact for
/// convex parts; a part that isn't convex comes without its allowance.
#[must_use]
pub fn stripes<'a>(
    cloth: &Cloth,
    allowance_in: f64,
    whole: impl Fn(ClothId) -> Option<&'a Cloth>,
) -> Vec<Cloth> {
    let back = |part: &Part| {
        let from = whole(part.cloth)?;
        let shape = with_allowance(&part.shows, &cloth.outline, allowance_in);
        let outline = Region { outer: part.pose.inverse().apply_all(&shape), holes: Vec::new() };
        let mut stripe = portion(from, outline, ClothId(0));
        stripe.parent = Some(from.id);
        Some(stripe)
    };
    cloth.parts.iter().filter_map(back).collect()
}

/// A part with its sides moved out by the allowance, except those on the cloth's own edge.
fn with_allowance(shows: &[Point], cloth: &Region, allowance_in: f64) -> Vec<Point> {
    let inside = |a: Point, b: Point| plane::depth_inside(cloth, a.midpoint(b)) > plane::READING;
    let lines: Vec<Line> = polygon::edges(shows)
        .filter_map(|(a, b)| {
            let out = if inside(a, b) { allowance_in } else { 0.0 };
            Line::through(a, b).map(|line| line.inward(-out))
        })
        .collect();
    let n = lines.len();
    let corners: Option<Vec<Point>> = (0..n).map(|i| lines[(i + n - 1) % n].crossing(lines[i])).collect();
    match corners {
        Some(corners) if n >= 3 && polygon::is_convex(shows, DECISION) => corners,
        _ => shows.to_vec(),
    }
}
