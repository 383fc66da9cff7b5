//! Outlines grown and shrunk by parallel sides, with mitred corners.
//!
//! Growing is the union of the region with a strip outside each side, ended at the mitre line
//! where the corner opens; shrinking takes the strips inside away. That is the definition
//! itself, so no loops are left to resolve, parts may merge or vanish, and the corners come out
//! as crossings of the shifted sides. Where a mitre would reach further than the limit (a
//! multiple of the distance) the corner is cut straight between the two shifted ends. Convex
//! outlines take a direct way through half-planes.

use crate::{Line, Point, Region, Turn, Vec2, clip_half_plane, difference, polygon, union};

/// The usual mitre limit: tips down to 9.6 degrees stay pointed.
pub const MITRE_LIMIT: f64 = 12.0;

/// The outline grown by `inches` on all sides (shrunk when negative), counter-clockwise. Of
/// several parts the largest is returned; empty when nothing is left.
#[must_use]
pub fn grow_outline(points: &[Point], inches: f64) -> Vec<Point> {
    if inches < 0.0 && polygon::is_convex(points, 0.0) {
        return shrink_convex(points, -inches);
    }
    if inches >= 0.0 {
        return grow_sides(points, &vec![inches; points.len()]);
    }
    let region = Region { outer: points.to_vec(), holes: Vec::new() };
    largest_outline(offset(&region, inches, MITRE_LIMIT))
}

/// The outline with each side moved outward by its own margin in inches; side `i` runs from
/// corner `i` to the next. Missing margins are 0, negative ones count as 0.
#[must_use]
pub fn grow_sides(points: &[Point], margins: &[f64]) -> Vec<Point> {
    let margins: Vec<f64> =
        (0..points.len()).map(|i| margins.get(i).copied().unwrap_or(0.0).max(0.0)).collect();
    if margins.iter().all(|&m| m == 0.0) {
        return points.to_vec();
    }
    if polygon::is_convex(points, 0.0)
        && let Some(grown) = grow_convex(points, &margins)
    {
        return grown;
    }
    let mut parts = vec![Region { outer: points.to_vec(), holes: Vec::new() }];
    add_strips(points, &margins, MITRE_LIMIT, &mut parts);
    largest_outline(union(&parts))
}

/// The region with all its sides moved by `inches`: outward when positive (holes shrink), inward
/// when negative (holes grow). `mitre_limit` bounds how far a corner may reach, as a multiple of
/// the distance; see [`MITRE_LIMIT`].
#[must_use]
pub fn offset(region: &Region, inches: f64, mitre_limit: f64) -> Vec<Region> {
    let mut strips = Vec::new();
    for ring in std::iter::once(&region.outer).chain(&region.holes) {
        add_strips(ring, &vec![inches; ring.len()], mitre_limit, &mut strips);
    }
    if inches < 0.0 {
        return difference(region, &strips);
    }
    strips.push(region.clone());
    union(&strips)
}

fn largest_outline(regions: Vec<Region>) -> Vec<Point> {
    regions
        .into_iter()
        .map(|region| region.outer)
        .max_by(|a, b| polygon::area(a).total_cmp(&polygon::area(b)))
        .unwrap_or_default()
}

fn shrink_convex(points: &[Point], inches: f64) -> Vec<Point> {
    polygon::edges(points)
        .filter_map(|(a, b)| Line::through(a, b))
        .fold(points.to_vec(), |kept, line| clip_half_plane(&kept, line.inward(inches), 0.0))
}

/// Crossings of neighbouring shifted sides; `None` when a side would vanish, or a tip is so
/// sharp that it has to be cut off.
fn grow_convex(points: &[Point], margins: &[f64]) -> Option<Vec<Point>> {
    let n = points.len();
    let sides: Vec<Side> = (0..n).map(|i| Side::of(points, margins, i)).collect::<Option<_>>()?;
    let grown: Vec<Point> = (0..n)
        .map(|i| {
            let corner = Corner::between(&sides[(i + n - 1) % n], &sides[i], MITRE_LIMIT);
            corner.tip.map(|tip| points[i] + tip)
        })
        .collect::<Option<_>>()?;
    let all_sides_left = (0..n).all(|i| (grown[(i + 1) % n] - grown[i]).dot(sides[i].along.vec()) > 0.0);
    all_sides_left.then_some(grown)
}

/// A side and its signed distance, outward positive.
struct Side {
    along: Turn,
    by: f64,
}

impl Side {
    fn of(points: &[Point], distances: &[f64], i: usize) -> Option<Self> {
        let along = Turn::towards(points[(i + 1) % points.len()] - points[i])?;
        Some(Self { along, by: distances[i] })
    }

    /// Displacement of the side.
    fn shift(&self) -> Vec2 {
        self.along.left().vec() * -self.by
    }
}

/// What happens at the corner between two sides.
struct Corner {
    /// From the corner to the crossing of the shifted sides, if it is within the limit.
    tip: Option<Vec2>,
    /// Whether the strips gape here, so that the mitre has to be filled.
    opens: bool,
}

impl Corner {
    fn between(before: &Side, after: &Side, limit: f64) -> Self {
        let (u, v) = (before.along.vec(), after.along.vec());
        let sine = u.cross(v);
        let widest = before.by.abs().max(after.by.abs());
        let straight = sine.abs() < 1e-9 && u.dot(v) > 0.0;
        let tip = if straight {
            (before.by == after.by).then(|| before.shift())
        } else if sine == 0.0 {
            None
        } else {
            // w with -left(u)·w = before.by and -left(v)·w = after.by
            let w = (u * after.by - v * before.by) * (1.0 / sine);
            (w.length() <= limit * widest.max(f64::MIN_POSITIVE)).then_some(w)
        };
        Self { tip, opens: sine * (before.by + after.by) > 0.0 || straight }
    }
}

/// Adds the strip beside each side of a ring, with mitres, or with cut-off tips over the limit.
fn add_strips(ring: &[Point], distances: &[f64], limit: f64, strips: &mut Vec<Region>) {
    let kept: Vec<usize> = (0..ring.len()).filter(|&i| Side::of(ring, distances, i).is_some()).collect();
    let sides: Vec<Side> = kept.iter().filter_map(|&i| Side::of(ring, distances, i)).collect();
    let n = sides.len();
    for (k, side) in sides.iter().enumerate() {
        let (i, next) = (kept[k], kept[(k + 1) % n]);
        let (a, b) = (ring[i], ring[next]);
        let start = Corner::between(&sides[(k + n - 1) % n], side, limit);
        let end = Corner::between(side, &sides[(k + 1) % n], limit);
        let a_out = a + start.tip.filter(|_| start.opens).unwrap_or(side.shift());
        let b_out = b + end.tip.filter(|_| end.opens).unwrap_or(side.shift());
        if side.by != 0.0 {
            strips.push(plain(strip_between(a, b, a_out, b_out)));
        }
        if end.opens && end.tip.is_none() {
            let next_shift = sides[(k + 1) % n].shift();
            strips.push(plain(vec![b, b + side.shift(), b + next_shift]));
        }
    }
}

/// The strip from side `ab` to its shifted ends; a triangle where the ends pass each other.
fn strip_between(a: Point, b: Point, a_out: Point, b_out: Point) -> Vec<Point> {
    if (b_out - a_out).dot(b - a) > 0.0 {
        return vec![a, a_out, b_out, b];
    }
    let (u, v) = (a_out - a, b_out - b);
    let cross = u.cross(v);
    if cross == 0.0 {
        return vec![a, a_out, b];
    }
    vec![a, a + u * ((b - a).cross(v) / cross), b]
}

fn plain(outer: Vec<Point>) -> Region {
    Region { outer, holes: Vec::new() }
}
