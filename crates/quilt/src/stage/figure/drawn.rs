//! A figure as its maker drew it: closed shapes in their order, with their curves kept.
//!
//! Coordinates are the drawing's own units, y up. Curves are kept because they are flattened only
//! once the size is known: a figure drawn small and sewn large would show its corners otherwise.

use crate::cloth::ClothId;
use plane::{Point, Vec2};
use serde::{Deserialize, Serialize};

/// A figure: what the maker's drawing says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Figure {
    /// What it is called.
    pub name: String,
    /// Its shapes, the lowest layer first.
    pub shapes: Vec<Shape>,
    /// How many inches one unit of the drawing is, where the drawing says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit_in: Option<f64>,
}

/// One layer of a figure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shape {
    /// Its name, different from that of every other shape of the figure.
    pub id: String,
    /// The cloth it is to be cut from, where that is settled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cloth: Option<ClothId>,
    /// Its outline first, then its holes; each closed.
    pub paths: Vec<Path>,
}

/// A closed way round; the last segment ends where the first began, by a line if need be.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Path {
    /// Where it starts.
    pub start: Point,
    /// Where it goes from there.
    pub segments: Vec<Segment>,
}

/// A part of a path, from where the one before ended.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Segment {
    /// Straight to a point.
    Line(Point),
    /// A cubic curve: two control points, then its end.
    Curve(Point, Point, Point),
}

impl Segment {
    /// Where it ends.
    #[must_use]
    pub const fn end(self) -> Point {
        match self {
            Self::Line(end) | Self::Curve(_, _, end) => end,
        }
    }
}

/// Most points of a flattened figure.
pub const MOST_POINTS: usize = 20_000;

impl Path {
    /// The path as corners after `motion`, which must take lines to lines: no point of the path is
    /// further than `chord_error_in` from them. A cubic cut into n equal parts is within
    /// `6/8 · max(|p0 − 2 p1 + p2|, |p1 − 2 p2 + p3|) / n²` of its chords, since an eighth of the
    /// greatest second derivative bounds the height of an arc over its chord.
    pub(super) fn flattened(&self, motion: impl Fn(Point) -> Point, chord_error_in: f64) -> Vec<Point> {
        let mut at = motion(self.start);
        let mut ring = vec![at];
        for &segment in &self.segments {
            let from = at;
            at = motion(segment.end());
            if let Segment::Curve(first, second, _) = segment {
                let curve = [from, motion(first), motion(second), at];
                let parts = parts_of(curve, chord_error_in);
                ring.extend((1..parts).map(|k| on_curve(curve, k as f64 / parts as f64)));
            }
            ring.push(at);
            if ring.len() > MOST_POINTS {
                break;
            }
        }
        ring.dedup_by(|a, b| a.distance(*b) < chord_error_in / 16.0);
        while ring.len() > 1 && ring[0].distance(ring[ring.len() - 1]) < chord_error_in / 16.0 {
            ring.pop();
        }
        ring
    }
}

impl Path {
    /// All its points, control points included.
    pub(super) fn points(&self) -> impl Iterator<Item = Point> + '_ {
        let of = |segment: &Segment| match *segment {
            Segment::Line(end) => [end; 3],
            Segment::Curve(first, second, end) => [first, second, end],
        };
        std::iter::once(self.start).chain(self.segments.iter().flat_map(of))
    }

    /// Points among which are the furthest to each side: the corners, and the places on each curve
    /// where it runs upright or level.
    pub(super) fn extremes(&self) -> Vec<Point> {
        let mut at = self.start;
        let mut found = vec![at];
        for &segment in &self.segments {
            if let Segment::Curve(first, second, end) = segment {
                let curve = [at, first, second, end];
                let turning = [curve.map(|p| p.x), curve.map(|p| p.y)].into_iter().flat_map(turning_points);
                found.extend(turning.map(|t| on_curve(curve, t)));
            }
            at = segment.end();
            found.push(at);
        }
        found
    }
}

/// Where between 0 and 1 a cubic in one coordinate turns back: the roots of its derivative.
fn turning_points([p0, p1, p2, p3]: [f64; 4]) -> Vec<f64> {
    let (a, b, c) = (p3 - 3.0 * p2 + 3.0 * p1 - p0, 2.0 * (p2 - 2.0 * p1 + p0), p1 - p0);
    let root = (b * b - 4.0 * a * c).max(0.0).sqrt();
    // The two forms together never divide two small differences.
    let q = -0.5 * (b + b.signum() * root);
    [q / a, c / q].into_iter().filter(|t| *t > 0.0 && *t < 1.0).collect()
}

fn parts_of([p0, p1, p2, p3]: [Point; 4], chord_error_in: f64) -> usize {
    let bend = |a: Point, b: Point, c: Point| ((a - b) + (c - b)).length();
    let most = bend(p0, p1, p2).max(bend(p1, p2, p3));
    let parts = (0.75 * most / chord_error_in).sqrt().ceil();
    if parts.is_finite() { (parts as usize).clamp(1, MOST_POINTS) } else { 1 }
}

fn on_curve([p0, p1, p2, p3]: [Point; 4], t: f64) -> Point {
    let s = 1.0 - t;
    let weighed = |p: Point, w: f64| p.to_vec2() * w;
    let sum: Vec2 = weighed(p0, s * s * s)
        + weighed(p1, 3.0 * s * s * t)
        + weighed(p2, 3.0 * s * t * t)
        + weighed(p3, t * t * t);
    Point::new(sum.x, sum.y)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_curve_reaches_as_far_as_it_does() {
        let p = Point::new;
        let curve = Segment::Curve(p(1.0, 3.0), p(4.0, -3.0), p(5.0, 0.0));
        let path = Path { start: p(0.0, 0.0), segments: vec![curve] };
        let fine = path.flattened(|q| q, 1e-7);
        let (lo, hi) = plane::polygon::bounds(&fine).unwrap();
        let (exact_lo, exact_hi) = plane::polygon::bounds(&path.extremes()).unwrap();
        assert!((lo - exact_lo).length() < 1e-6 && (hi - exact_hi).length() < 1e-6);
        assert!(lo.y < -0.5 && hi.y > 0.5, "it swings beyond its ends: {lo:?} {hi:?}");
    }

    #[test]
    fn a_curve_is_flattened_to_the_error_asked_for_after_scaling() {
        // A quarter of a circle of radius 1 by the usual cubic, which is within .0003 of it.
        let k = 0.552_284_75;
        let p = Point::new;
        let path = Path {
            start: p(1.0, 0.0),
            segments: vec![Segment::Curve(p(1.0, k), p(k, 1.0), p(0.0, 1.0)), Segment::Line(p(0.0, 0.0))],
        };
        let mut counts = Vec::new();
        for scale in [0.5, 2.0, 8.0, 32.0] {
            let ring = path.flattened(|q| p(q.x * scale, q.y * scale), 1.0 / 256.0);
            let arc = &ring[..ring.len() - 1];
            for pair in arc.windows(2) {
                let sag = scale - pair[0].midpoint(pair[1]).to_vec2().length();
                assert!(sag.abs() < 1.0 / 256.0 + 0.0004 * scale, "{scale}: {sag}");
            }
            counts.push(arc.len());
        }
        // At most twice as many corners for four times the size.
        assert!(counts.windows(2).all(|pair| pair[1] <= 2 * pair[0] && pair[1] > pair[0]), "{counts:?}");
    }
}
