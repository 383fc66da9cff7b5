//! The audit of finished shapes against the maker's limits.
//!
//! This is the last word on whether a piece keeps its limits, so it shares nothing with any search:
//! it takes the raw faces and lines from the table and does its own cutting and measuring. Width and
//! corners are those of the *finished* shape, the face less the allowance along each edge that is
//! still free. Inches and degrees. The width of a face that isn't convex, which no search makes, is
//! that of its hull.

use crate::layers::Layers;
use crate::log::Bound;
use crate::problem::{Place, Problem, Rule};
use crate::table::{Face, Top};
use crate::wish::Limits;
use plane::{Line, Point, polygon};

/// Corners nearer than this to the line between their neighbours are none, in inches.
const STRAIGHT_IN: f64 = 1.0 / 64.0;

/// Everything about a top that breaks the limits: shapes too thin, corners too sharp, places too
/// thick. Shapes come in the order of their names, thick places last.
#[must_use]
pub fn audit(top: &Top, allowance_in: f64, limits: &Limits) -> Vec<Problem> {
    let mut problems = Vec::new();
    for face in top.faces().values() {
        let shape = finished(top, face, allowance_in);
        let place = Place::Patch(face.patch);
        let width = width_of(&shape);
        if width < limits.thin_in - plane::READING {
            problems.push(Problem {
                rule: Rule::TooThin,
                place,
                measured_in: width,
                limit_in: limits.thin_in,
            });
        }
        let sharpest = sharpest_deg(&shape);
        if sharpest < limits.sharp_deg - 1e-6 {
            problems.push(Problem {
                rule: Rule::TooSharp,
                place,
                measured_in: sharpest,
                limit_in: limits.sharp_deg,
            });
        }
    }
    problems.extend(too_thick(top, limits));
    problems
}

fn too_thick(top: &Top, limits: &Limits) -> Vec<Problem> {
    let points = Layers::of(top).thickest(limits.most_layers);
    let problem = |at, layers: u32| Problem {
        rule: Rule::TooThick,
        place: Place::At(at),
        measured_in: f64::from(layers),
        limit_in: f64::from(limits.most_layers),
    };
    points.into_iter().map(|thick| problem(thick.at, thick.layers)).collect()
}

/// The least width of what a face shows when every free edge has been sewn, in inches.
#[must_use]
pub fn finished_width_in(top: &Top, face: &Face, allowance_in: f64) -> f64 {
    width_of(&finished(top, face, allowance_in))
}

/// The face less the allowance along each of its free edges.
fn finished(top: &Top, face: &Face, allowance_in: f64) -> Vec<Point> {
    let mut shape = top.face_points(face);
    if !polygon::is_convex(&shape, plane::DECISION) {
        return top.finished_points(face, allowance_in);
    }
    for bound in face.around() {
        if let (Bound::Raw(_), Some(line)) = (bound, top.line(*bound)) {
            shape = cut_away(&shape, line, allowance_in);
        }
    }
    shape
}

/// What is left of a shape at least `deep` inside a line.
fn cut_away(shape: &[Point], line: Line, deep: f64) -> Vec<Point> {
    let mut kept = Vec::new();
    for (i, &p) in shape.iter().enumerate() {
        let q = shape[(i + 1) % shape.len()];
        let (p_in, q_in) = (line.inside_by(p) - deep, line.inside_by(q) - deep);
        if p_in >= 0.0 {
            kept.push(p);
        }
        if p_in * q_in < 0.0 {
            kept.push(p + (q - p) * (p_in / (p_in - q_in)));
        }
    }
    kept
}

/// Least distance between two parallel lines with the shape between them, one along an edge; 0
/// for a shape with no area.
fn width_of(shape: &[Point]) -> f64 {
    let mut least = f64::INFINITY;
    for (i, &p) in shape.iter().enumerate() {
        for &q in &shape[i + 1..] {
            let along = q - p;
            let length = along.length();
            if length < 1e-9 {
                continue;
            }
            let off = shape.iter().map(|&r| along.cross(r - p) / length);
            let (low, high) = off.fold((0.0_f64, 0.0_f64), |(low, high), d| (low.min(d), high.max(d)));
            // Only a line with all of the shape on one side bounds it.
            if low > -1e-9 || high < 1e-9 {
                least = least.min(high - low);
            }
        }
    }
    if least.is_finite() { least } else { 0.0 }
}

/// The least inside corner in degrees; 180 for a shape without corners.
fn sharpest_deg(shape: &[Point]) -> f64 {
    let corners = true_corners(shape);
    let n = corners.len();
    if n < 3 {
        return 180.0;
    }
    (0..n)
        .filter_map(|i| {
            let (before, at, after) = (corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]);
            let (a, b) = (before - at, after - at);
            // Clockwise from `a` to `b` is inside; a corner that turns inward is no sharp one.
            let turn = b.cross(a);
            (turn > 0.0).then(|| turn.atan2(a.dot(b)).to_degrees())
        })
        .fold(180.0, f64::min)
}

/// The corners that remain when those are left out that lie within 1/64 of the line between their
/// neighbours, the nearest first.
fn true_corners(shape: &[Point]) -> Vec<Point> {
    let mut corners = shape.to_vec();
    while corners.len() > 3 {
        let n = corners.len();
        let off = |i: usize| off_chord(corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n]);
        let straightest = (0..n).min_by(|&i, &j| off(i).total_cmp(&off(j)));
        match straightest {
            Some(i) if off(i) < STRAIGHT_IN => corners.remove(i),
            _ => break,
        };
    }
    corners
}

fn off_chord(a: Point, p: Point, b: Point) -> f64 {
    let along = b - a;
    let length = along.length();
    if length < 1e-9 { p.distance(a) } else { (along.cross(p - a) / length).abs() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shape(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn width_and_corners_are_those_of_the_figure() {
        let triangle = shape(&[(0.0, 0.0), (2.0, 0.0), (1.0, 3.0_f64.sqrt())]);
        assert!((width_of(&triangle) - 3.0_f64.sqrt()).abs() < 1e-12);
        assert!((sharpest_deg(&triangle) - 60.0).abs() < 1e-9);
        let bar = shape(&[(0.0, 0.0), (4.0, 0.0), (4.0, 0.4), (0.0, 0.4)]);
        assert!((width_of(&bar) - 0.4).abs() < 1e-12);
        assert!((sharpest_deg(&bar) - 90.0).abs() < 1e-9);
        assert_eq!(width_of(&[]), 0.0);
    }

    // An L with arms an inch wide keeps both: half-planes would leave the elbow alone.
    #[test]
    fn a_face_with_an_inward_corner_is_measured_with_both_its_arms() {
        use crate::log::{Mark, Step};
        let cut = shape(&[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)]);
        let mut table = crate::table::Table::new();
        let lay = Step::Lay { cloth: crate::cloth::ClothId(1), at: plane::Pose::STAY, cut };
        table.apply(Mark(1), &lay).unwrap();
        let limits = Limits { thin_in: 1.0, ..Limits::default() };
        assert_eq!(audit(table.top(Mark(1)).unwrap(), 0.25, &limits), []);
    }

    #[test]
    fn a_corner_within_a_sixty_fourth_of_straight_is_none() {
        let blunted = shape(&[(0.0, 0.0), (3.0, 0.0), (3.0, 0.004), (0.0, 1.0)]);
        assert!((sharpest_deg(&blunted) - (1.0_f64 / 3.0).atan().to_degrees()).abs() < 0.2);
        let inward = shape(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 1.0), (0.0, 4.0)]);
        assert!((sharpest_deg(&inward) - 33.69).abs() < 0.01);
    }

    // The narrowest slot by turning the shape through small steps: a slow second method.
    #[test]
    fn width_agrees_with_turning_the_shape() {
        let odd = shape(&[(0.0, 0.0), (2.3, 0.4), (2.9, 1.7), (1.1, 2.2), (-0.4, 1.0)]);
        let slow = (0..18_000).map(|i| {
            let turn = plane::Turn::from_degrees(f64::from(i) / 100.0).vec();
            let (lo, hi) = odd.iter().fold((f64::MAX, f64::MIN), |(lo, hi), p| {
                let d = turn.dot(p.to_vec2());
                (lo.min(d), hi.max(d))
            });
            hi - lo
        });
        let slow = slow.fold(f64::MAX, f64::min);
        assert!((width_of(&odd) - slow).abs() < 1e-3 && width_of(&odd) <= slow + 1e-9);
    }
}
