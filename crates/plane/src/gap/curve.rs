//! The tightest curve along strokes.
//!
//! Where the direction changes by more than [`CORNER_DEG`] within [`WITHIN`] inches it is a
//! corner, where one stops and turns; elsewhere the radius is that of the circle through points of
//! the stroke at least a quarter inch before and after, which lie on the curve itself.

use crate::Point;
use crate::fill::Stroke;

/// A corner turns by more degrees than this.
pub const CORNER_DEG: f64 = 20.0;
/// Within so many inches.
pub const WITHIN: f64 = 1.0 / 16.0;
/// Places before and after are so far away.
const BESIDE: f64 = 0.25;

/// The smallest curve of a fill.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tightest {
    /// Its radius in inches; infinite when everything is straight.
    pub radius_in: f64,
    /// Where it is.
    pub at: Option<Point>,
    /// How many corners are turned besides.
    pub corners: usize,
}

/// The tightest curve of the strokes and the number of their corners.
#[must_use]
pub fn tightest(strokes: &[Stroke]) -> Tightest {
    let mut found = Tightest { radius_in: f64::INFINITY, at: None, corners: 0 };
    for stroke in strokes {
        of_stroke(stroke, &mut found);
    }
    found
}

fn of_stroke(stroke: &Stroke, found: &mut Tightest) {
    let mut points = stroke.points.clone();
    points.dedup();
    if stroke.closed && points.len() > 2 {
        points.extend([points[0], points[1]]);
    }
    let limit = CORNER_DEG.to_radians().cos();
    let mut last_corner = f64::NEG_INFINITY;
    let mut along = 0.0;
    for i in 1..points.len().saturating_sub(1) {
        along += points[i - 1].distance(points[i]);
        let (here, before, after) = (points[i], back(&points, i, WITHIN), on(&points, i, WITHIN));
        let (u, v) = (here - before, after - here);
        if u.dot(v) < limit * u.length() * v.length() {
            if along - last_corner > 2.0 * WITHIN {
                found.corners += 1;
            }
            last_corner = along;
            continue;
        }
        if along - last_corner < BESIDE {
            continue;
        }
        let (Some(before), Some(after)) = (point_before(&points, i), point_after(&points, i)) else {
            continue;
        };
        if corner_between(&points, i, limit) {
            continue;
        }
        let radius = circle(before, here, after);
        if radius < found.radius_in {
            (found.radius_in, found.at) = (radius, Some(here));
        }
    }
}

/// Whether a corner lies within the places looked at after `i`.
fn corner_between(points: &[Point], i: usize, limit: f64) -> bool {
    let mut gone = 0.0;
    for k in i + 1..points.len() - 1 {
        gone += points[k - 1].distance(points[k]);
        if gone > BESIDE {
            return false;
        }
        let (u, v) = (points[k] - back(points, k, WITHIN), on(points, k, WITHIN) - points[k]);
        if u.dot(v) < limit * u.length() * v.length() {
            return true;
        }
    }
    false
}

/// The place at least so far before `i` along the points, or the first.
fn back(points: &[Point], i: usize, far: f64) -> Point {
    let mut gone = 0.0;
    for k in (1..=i).rev() {
        let long = points[k].distance(points[k - 1]);
        if gone + long >= far {
            return points[k].lerp(points[k - 1], (far - gone) / long);
        }
        gone += long;
    }
    points[0]
}

/// The place at least so far after `i`, or the last.
fn on(points: &[Point], i: usize, far: f64) -> Point {
    let mut gone = 0.0;
    for k in i + 1..points.len() {
        let long = points[k].distance(points[k - 1]);
        if gone + long >= far {
            return points[k - 1].lerp(points[k], (far - gone) / long);
        }
        gone += long;
    }
    points[points.len() - 1]
}

/// The first point at least [`BESIDE`] before point `i`.
fn point_before(points: &[Point], i: usize) -> Option<Point> {
    points[..i].iter().rev().copied().find(|p| p.distance(points[i]) >= BESIDE)
}

/// The first point at least [`BESIDE`] after point `i`.
fn point_after(points: &[Point], i: usize) -> Option<Point> {
    points[i + 1..].iter().copied().find(|p| p.distance(points[i]) >= BESIDE)
}

/// Radius of the circle through three places.
fn circle(a: Point, b: Point, c: Point) -> f64 {
    let twice_area = (b - a).cross(c - a).abs();
    let sides = a.distance(b) * b.distance(c) * c.distance(a);
    if twice_area > 1e-12 * sides.cbrt().powi(2) { sides / (2.0 * twice_area) } else { f64::INFINITY }
}
