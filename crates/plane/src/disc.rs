//! The largest disc inside a region.
//!
//! In a convex outline without holes it is exact: the centre has the most room inside the sides.
//! Otherwise squares of the plane are searched, the most promising first, and split until none
//! can hold a centre better by more than the tolerance.

use crate::{Point, Region, polygon, slack};
use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// A disc: every point within `radius` inches of `centre`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// Its middle.
    pub centre: Point,
    /// Its radius in inches.
    pub radius: f64,
}

/// A disc inside the region whose radius is at most `tolerance` inches short of the largest;
/// `None` without area. Cost: the number of sides times some 50 to 200 squares.
#[must_use]
pub fn largest_disc(region: &Region, tolerance: f64) -> Option<Disc> {
    if region.holes.is_empty() && polygon::is_convex(&region.outer, 0.0) {
        let (centre, radius) = slack::largest_disc(&region.outer)?;
        return (radius > 0.0).then_some(Disc { centre, radius });
    }
    search(region, tolerance)
}

#[derive(Clone, Copy)]
struct Square {
    centre: Point,
    half: f64,
    depth: f64,
    bound: f64,
}

impl Square {
    fn new(region: &Region, centre: Point, half: f64) -> Self {
        let depth = depth_inside(region, centre);
        Self { centre, half, depth, bound: depth + half * std::f64::consts::SQRT_2 }
    }
}

impl PartialEq for Square {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}
impl Eq for Square {}
impl PartialOrd for Square {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}
impl Ord for Square {
    fn cmp(&self, other: &Self) -> Ordering {
        self.bound.total_cmp(&other.bound)
    }
}

fn search(region: &Region, tolerance: f64) -> Option<Disc> {
    let (lo, hi) = polygon::bounds(&region.outer)?;
    let (width, height) = (hi.x - lo.x, hi.y - lo.y);
    let half = width.min(height) / 2.0;
    let tolerance = tolerance.max(1e-9).max(width.max(height) * 1e-7);
    if !(half > 0.0 && half.is_finite() && width.is_finite() && height.is_finite()) {
        return None;
    }
    let mut best = Square::new(region, polygon::centroid(&region.outer)?, 0.0);
    let mut heap = BinaryHeap::new();
    let across = |length: f64| (length / (2.0 * half)).ceil().clamp(1.0, 64.0) as usize;
    let (columns, rows) = (across(width), across(height));
    let half = (width / columns as f64).max(height / rows as f64) / 2.0;
    for i in 0..columns {
        for j in 0..rows {
            let x = lo.x + (i as f64 + 0.5) * width / columns as f64;
            let y = lo.y + (j as f64 + 0.5) * height / rows as f64;
            heap.push(Square::new(region, Point::new(x, y), half));
        }
    }
    while let Some(square) = heap.pop() {
        if square.bound - best.depth <= tolerance {
            break;
        }
        let half = square.half / 2.0;
        for (dx, dy) in [(-half, -half), (half, -half), (-half, half), (half, half)] {
            let centre = Point::new(square.centre.x + dx, square.centre.y + dy);
            let quarter = Square::new(region, centre, half);
            if quarter.bound > best.depth + tolerance {
                if quarter.depth > best.depth {
                    best = quarter;
                }
                heap.push(quarter);
            }
        }
        if square.depth > best.depth {
            best = square;
        }
    }
    (best.depth > 0.0).then_some(Disc { centre: best.centre, radius: best.depth })
}

/// Distance to the nearest side, negative outside, in inches. Holes may overlap.
#[must_use]
pub fn depth_inside(region: &Region, p: Point) -> f64 {
    let (mut nearest, mut inside) = distance_to_ring(&region.outer, p);
    for hole in &region.holes {
        let (distance, in_hole) = distance_to_ring(hole, p);
        nearest = nearest.min(distance);
        inside &= !in_hole;
    }
    if inside { nearest.sqrt() } else { -nearest.sqrt() }
}

/// Squared distance to the nearest side, and whether the ring goes round the point.
fn distance_to_ring(ring: &[Point], p: Point) -> (f64, bool) {
    let mut nearest = f64::INFINITY;
    let mut inside = false;
    let Some(&last) = ring.last() else { return (nearest, inside) };
    let mut a = last;
    for &b in ring {
        let (side, from) = (b - a, p - a);
        let t = (from.dot(side) / side.dot(side)).clamp(0.0, 1.0);
        let off = if t.is_nan() { from } else { from - side * t };
        nearest = nearest.min(off.dot(off));
        if (a.y > p.y) != (b.y > p.y) {
            inside ^= p.x < a.x + side.x * (p.y - a.y) / side.y;
        }
        a = b;
    }
    (nearest, inside)
}
