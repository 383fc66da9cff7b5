//! Rows at a distance from an outline, inside or outside: the curves that keep it exactly.
//!
//! A convex outline shrinks without any search: its corners move evenly, each on its own straight
//! way, until a side has shrunk to nothing and drops out. Otherwise all sides are moved and joined
//! as they come, with an arc or a tip where they gape, and what winds the wrong way falls away.

use super::CHORD_ERROR;
use crate::lattice::wound;
use crate::{Line, MITRE_LIMIT, Point, Vec2, polygon};
use serde::{Deserialize, Serialize};

/// Arcs are laid to this share of the chord error.
const SHARE: f64 = 0.6;

/// How rows turn where an outline's corner opens.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Corners {
    /// On an arc about the corner, at the exact distance.
    #[default]
    Round,
    /// In a tip, if it isn't too long.
    Sharp,
}

/// The curves `distance` inches outside (inside when negative) a counter-clockwise outline. Cost: a
/// few microseconds and half a microsecond a corner.
#[must_use]
pub fn offset_row(outline: &[Point], distance: f64, corners: Corners) -> Vec<Vec<Point>> {
    if distance < 0.0 && polygon::is_convex(outline, 1e-12) {
        return inward_rows(outline, &[-distance]).unwrap_or_default().pop().into_iter().collect();
    }
    let raw = raw_row(outline, distance, corners);
    let parts = wound(&[raw]);
    parts.into_iter().flat_map(|part| std::iter::once(part.outer).chain(part.holes)).collect()
}

/// Rows inside a convex outline at rising distances, as far as there is room; `None` when it isn't
/// convex.
#[must_use]
pub fn inward_rows(outline: &[Point], distances: &[f64]) -> Option<Vec<Vec<Point>>> {
    if !polygon::is_convex(outline, 1e-12) {
        return None;
    }
    let mut sides: Vec<Line> = polygon::edges(outline).filter_map(|(a, b)| Line::through(a, b)).collect();
    sides.dedup_by(|next, side| side.turn_sine(*next).abs() < 1e-9);
    while sides.len() > 3 && sides[sides.len() - 1].turn_sine(sides[0]).abs() < 1e-9 {
        sides.pop();
    }
    let mut rows = Vec::with_capacity(distances.len());
    let mut moving = Moving::new(sides)?;
    for &distance in distances {
        while distance > moving.until {
            let Some(next) = moving.without_shrunk() else { return Some(rows) };
            moving = next;
        }
        rows.push(moving.at(distance));
    }
    Some(rows)
}

/// Corners that move evenly while the sides move inward.
struct Moving {
    sides: Vec<Line>,
    /// Where each corner would be at distance 0, and how it moves for each inch. Corner `i` lies
    /// between side `i` and the next.
    corners: Vec<(Point, Vec2)>,
    /// How far in the first side shrinks to nothing.
    until: f64,
}

impl Moving {
    fn new(sides: Vec<Line>) -> Option<Self> {
        let n = sides.len();
        if n < 3 {
            return None;
        }
        let corner = |i: usize| {
            let (side, next) = (sides[i], sides[(i + 1) % n]);
            let start = side.crossing(next)?;
            Some((start, side.inward(1.0).crossing(next.inward(1.0))? - start))
        };
        let corners: Vec<(Point, Vec2)> = (0..n).map(corner).collect::<Option<_>>()?;
        let until = (0..n)
            .map(|i| shrinks_by(sides[i], corners[(i + n - 1) % n], corners[i]))
            .fold(f64::INFINITY, f64::min);
        Some(Self { sides, corners, until })
    }

    fn at(&self, distance: f64) -> Vec<Point> {
        self.corners.iter().map(|&(start, by)| start + by * distance).collect()
    }

    /// The outline without the side that has shrunk first; `None` when nothing is left.
    fn without_shrunk(&self) -> Option<Self> {
        let n = self.sides.len();
        let shrunk = (0..n).min_by(|&i, &j| {
            let by = |i: usize| shrinks_by(self.sides[i], self.corners[(i + n - 1) % n], self.corners[i]);
            by(i).total_cmp(&by(j))
        })?;
        let mut sides = self.sides.clone();
        sides.remove(shrunk);
        let next = Self::new(sides)?;
        (next.until > self.until - 1e-9).then_some(next)
    }
}

/// How far in a side between two moving corners is no longer than nothing.
fn shrinks_by(side: Line, (a, a_by): (Point, Vec2), (b, b_by): (Point, Vec2)) -> f64 {
    let along = side.unit();
    let (long, shrinking) = (along.dot(b - a), along.dot(a_by - b_by));
    if shrinking > 1e-12 { long / shrinking } else { f64::INFINITY }
}

/// All sides moved and joined as they come; it may cross itself.
fn raw_row(outline: &[Point], distance: f64, corners: Corners) -> Vec<Point> {
    let n = outline.len();
    let mut raw = Vec::with_capacity(3 * n);
    let outward = |a: Point, b: Point| (b - a).left() * (-1.0 / a.distance(b).max(1e-300));
    for i in 0..n {
        let (a, b, c) = (outline[(i + n - 1) % n], outline[i], outline[(i + 1) % n]);
        if a == b || b == c {
            continue;
        }
        let (from, to) = (outward(a, b), outward(b, c));
        let (sine, cosine) = (from.cross(to), from.dot(to));
        if sine * distance < 0.0 {
            raw.extend([b + from * distance, b, b + to * distance]);
        } else if corners == Corners::Sharp && 2.0 / (1.0 + cosine).max(1e-12) < MITRE_LIMIT * MITRE_LIMIT {
            raw.push(b + (from + to) * (distance / (1.0 + cosine)));
        } else {
            arc(&mut raw, b, from * distance, sine.atan2(cosine));
        }
    }
    raw
}

/// An arc about `middle` from `from`, turning by `turn` radians.
fn arc(line: &mut Vec<Point>, middle: Point, from: Vec2, turn: f64) {
    let chord = 2.0 * (1.0 - (SHARE * CHORD_ERROR / from.length()).min(1.0)).acos();
    let steps = (turn.abs() / chord.max(1e-3)).ceil().max(1.0);
    for i in 0..=steps as usize {
        let (sin, cos) = (turn * i as f64 / steps).sin_cos();
        line.push(middle + from * cos + from.left() * sin);
    }
}
