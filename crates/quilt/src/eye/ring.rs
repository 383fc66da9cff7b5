//! The outline: how round it is, how many sides it has, and where the first patch lies in it.

use super::frame::Frame;
use super::rank::mean_and_sd;
use super::row::{EyeMark, Quality, Row, percent};
use super::scale::Value;
use crate::wish::Towards;
use plane::{Point, Vec2, polygon};

/// Directions in which the outline's radius is taken.
const DIRECTIONS: usize = 720;

/// Sides shorter than this are merged, in inches.
const SHORT_SIDE_IN: f64 = 1.0;

/// Corners that turn by less than this are merged, in degrees.
const SLIGHT_TURN_DEG: f64 = 8.0;

/// **Round.** Standard deviation over mean of the outline's radius from its centroid, over the
/// angle; and the number of sides, after merging those under 1 inch or under 8° of turn. Good: at
/// most .05, 5 to 8 sides; poor: above .08, above 9 (common practice, no source; a perfect hexagon
/// has .043). Where the maker wishes for a rectangle or a polygon, the radius is taken over the
/// wished one's, and the sides are to be as many as wished, or one more.
pub(super) fn round(frame: &Frame<'_>) -> Row {
    let wished = wished_outline(&frame.wish.towards);
    let spread = spread_over(&frame.piece.outline, frame.centre, wished.as_deref());
    let sides = sides_after_merging(&frame.piece.outline);
    let count = sides.len() as f64;
    let (good, poor) = match wished.as_ref().map(|w| w.len() as f64) {
        Some(n) => ([n, n + 1.0], [(n - 2.0).max(2.0), n + 2.0]),
        None => ([5.0, 8.0], [3.0, 9.0]),
    };
    let values =
        vec![Value::at_most("strays", spread, 0.05, 0.08), Value::between("sides", count, good, poor)];
    let shape = if wished.is_some() { "the wished outline" } else { "round" };
    let words = format!("The outline strays {:.1} % from {shape} and has {count:.0} sides.", spread * 100.0);
    Row::new(Quality::Round, values, words, vec![EyeMark::Polygon(sides)])
}

/// **The first patch stays in the middle.** Distance of its centroid from the outline's, over R.
/// Good: at most .12; poor: above .25 (common practice, no source).
pub(super) fn first_in_the_middle(frame: &Frame<'_>) -> Row {
    let Some(first) = frame.measures.get(frame.piece.first) else {
        return Row::too_soon(Quality::FirstInTheMiddle);
    };
    let values = vec![Value::at_most("off", first.r, 0.12, 0.25)];
    let words = format!("The first patch lies {} of the radius off the middle.", percent(first.r));
    let marks = vec![EyeMark::Line(frame.centre, first.centroid)];
    Row::new(Quality::FirstInTheMiddle, values, words, marks)
}

/// Standard deviation over mean of an outline's radius from its centroid, over the angle; 0 for no
/// outline. The centroid must see all of the outline; where it doesn't, the farthest counts.
#[must_use]
pub fn roundness(outline: &[Point]) -> f64 {
    polygon::centroid(outline).map_or(0.0, |centre| spread_over(outline, centre, None))
}

fn spread_over(outline: &[Point], centre: Point, wished: Option<&[Point]>) -> f64 {
    let scale = wished.map(|w| (polygon::area(outline).abs() / polygon::area(w).abs().max(1e-12)).sqrt());
    let middle = wished.and_then(polygon::centroid).unwrap_or(Point::ORIGIN);
    let radii: Vec<f64> = (0..DIRECTIONS)
        .map(|i| {
            let angle = std::f64::consts::TAU * i as f64 / DIRECTIONS as f64;
            let direction = Vec2::new(angle.cos(), angle.sin());
            let aim = wished.zip(scale).map_or(1.0, |(w, scale)| radius_along(w, middle, direction) * scale);
            radius_along(outline, centre, direction) / aim.max(1e-9)
        })
        .collect();
    let (mean, sd) = mean_and_sd(&radii);
    if mean > 0.0 { sd / mean } else { 0.0 }
}

/// Distance from `from` to the farthest side in a direction, a unit vector.
pub(super) fn radius_along(outline: &[Point], from: Point, direction: Vec2) -> f64 {
    let mut farthest = 0.0_f64;
    for (a, b) in polygon::edges(outline) {
        let (u, v) = (direction.cross(a - from), direction.cross(b - from));
        if (u > 0.0) != (v > 0.0) {
            farthest = farthest.max(direction.dot(a.lerp(b, u / (u - v)) - from));
        }
    }
    farthest
}

/// The corners that are left when sides under 1 inch and turns under 8° are merged, shortest and
/// slightest first. Never fewer than three.
#[must_use]
pub(super) fn sides_after_merging(outline: &[Point]) -> Vec<Point> {
    let mut corners = outline.to_vec();
    while corners.len() > 3 {
        let n = corners.len();
        let length = |i: usize| corners[i].distance(corners[(i + 1) % n]);
        let turn = |i: usize| turn_deg(corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]);
        let slightest = (0..n).min_by(|&i, &j| turn(i).total_cmp(&turn(j)));
        let shortest = (0..n).min_by(|&i, &j| length(i).total_cmp(&length(j)));
        match (slightest, shortest) {
            (Some(i), _) if turn(i) < SLIGHT_TURN_DEG => {
                corners.remove(i);
            }
            (_, Some(i)) if length(i) < SHORT_SIDE_IN => {
                corners[i] = corners[i].midpoint(corners[(i + 1) % n]);
                corners.remove((i + 1) % n);
            }
            _ => break,
        }
    }
    corners
}

/// By how much the way from `a` over `p` to `b` turns, either way.
fn turn_deg(a: Point, p: Point, b: Point) -> f64 {
    let (u, v) = (p - a, b - p);
    u.cross(v).atan2(u.dot(v)).abs().to_degrees()
}

/// The outline wished for, about its own centre; `None` when round or free.
fn wished_outline(towards: &Towards) -> Option<Vec<Point>> {
    match towards {
        Towards::Round { .. } | Towards::Free => None,
        Towards::Polygon(points) => (polygon::area(points) > 1e-9).then(|| points.clone()),
        Towards::Rectangle { width_in, height_in } => {
            let (w, h) = (width_in / 2.0, height_in / 2.0);
            let corners = [(-w, -h), (w, -h), (w, h), (-w, h)].map(|(x, y)| Point::new(x, y));
            (w > 0.0 && h > 0.0).then(|| corners.to_vec())
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn regular(n: u32, radius: f64) -> Vec<Point> {
        let corner = |i: u32| {
            let turn = plane::Turn::from_degrees(f64::from(i) * 360.0 / f64::from(n));
            Point::ORIGIN + turn.vec() * radius
        };
        (0..n).map(corner).collect()
    }

    // A perfect hexagon: .043. The radius of a regular polygon over the angle is 1/cos on each side,
    // so mean and mean square have closed forms (geometry, no source).
    #[test]
    fn a_regular_polygon_is_as_round_as_its_formula_says() {
        for (n, expected) in [(6_u32, Some(0.043)), (4, None), (8, None)] {
            let half = std::f64::consts::PI / f64::from(n);
            let mean = (1.0 / half.cos() + half.tan()).ln() / half;
            let square = half.tan() / half;
            let exact = (square - mean * mean).sqrt() / mean;
            let found = roundness(&regular(n, 7.0));
            assert!((found - exact).abs() < 5e-4, "{n}: {found} {exact}");
            assert!(expected.is_none_or(|e| (found - e).abs() < 0.0005), "{found}");
        }
    }

    #[test]
    fn short_sides_and_slight_turns_are_merged() {
        assert_eq!(sides_after_merging(&regular(8, 10.0)).len(), 8);
        let mut blunted = regular(6, 10.0);
        let (a, b) = (blunted[0].lerp(blunted[5], 0.03), blunted[0].lerp(blunted[1], 0.03));
        blunted[0] = b;
        blunted.push(a);
        assert_eq!(sides_after_merging(&blunted).len(), 6);
    }
}
