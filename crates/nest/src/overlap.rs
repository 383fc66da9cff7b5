//! How deep things lie in each other, for pushing them apart: from the discs inside them, since only the order of
//! depths matters and the engine says whether there is any. After the overlap proxy of Gardeyn, Vanden Berghe and
//! Wauters, "An open-source heuristic to reboot 2D nesting research" (2025), with distances to the outside added.

use jagua_rs::geometry::primitives::SPolygon;
use plane::{Point, Region, Vec2, polygon};

/// Discs this share of a thing's length from each other still count as in each other, a little.
const SOFT: f32 = 0.002;
/// Cells along the longer side of a part, for distances to its edge.
const CELLS: usize = 48;

/// Depth of two outlines in each other; never 0.
pub(crate) fn between(one: &SPolygon, other: &SPolygon) -> f64 {
    let soft = SOFT * one.diameter().max(other.diameter());
    let mut sum = 0.0;
    for a in &one.surrogate().poles {
        for b in &other.surrogate().poles {
            let (dx, dy) = (a.center.0 - b.center.0, a.center.1 - b.center.1);
            let deep = a.radius + b.radius - (dx * dx + dy * dy).sqrt();
            // Discs that only come near each other still say which way is out.
            let deep = if deep >= soft { deep } else { soft * soft / (2.0 * soft - deep) };
            sum += deep * a.radius.min(b.radius);
        }
    }
    scaled(sum, (one.area() * other.area()).sqrt())
}

/// Depth from a sum over discs: as a length, larger for larger things, which move with more pain.
fn scaled(sum: f32, area: f32) -> f64 {
    f64::from((sum + 1e-3 * area).sqrt() * area.sqrt())
}

/// Distances to the outer edge of a part, on a grid about its middle, positive inside.
#[derive(Clone, Debug)]
pub(crate) struct Edge {
    low: Vec2,
    cell: f64,
    wide: usize,
    high: usize,
    distance: Vec<f32>,
}

impl Edge {
    pub(crate) fn new(region: &Region, middle: Vec2) -> Self {
        let ring: Vec<Point> = region.outer.iter().map(|&p| p - middle).collect();
        let (low, to) = polygon::bounds(&ring).unwrap_or_default();
        let cell = ((to.x - low.x).max(to.y - low.y) / CELLS as f64).max(1e-6);
        let count = |from: f64, to: f64| ((to - from) / cell).ceil() as usize + 2;
        let (wide, high) = (count(low.x, to.x), count(low.y, to.y));
        let mut distance = Vec::with_capacity(wide * high);
        for row in 0..high {
            for column in 0..wide {
                let p = Point::new(low.x + column as f64 * cell, low.y + row as f64 * cell);
                let edges = polygon::edges(&ring).map(|(a, b)| to_side(p, a, b));
                let near = edges.fold(f64::INFINITY, f64::min).sqrt();
                distance.push(if polygon::contains(&ring, p) { near } else { -near } as f32);
            }
        }
        Self { low: low.to_vec2(), cell, wide, high, distance }
    }

    /// How far inside a place is; what lies beyond the grid counts on from its edge.
    fn inside_by(&self, x: f64, y: f64) -> f64 {
        let (u, v) = ((x - self.low.x) / self.cell, (y - self.low.y) / self.cell);
        let (most_u, most_v) = ((self.wide - 1) as f64, (self.high - 1) as f64);
        let (cu, cv) = (u.clamp(0.0, most_u), v.clamp(0.0, most_v));
        let beyond = (u - cu).hypot(v - cv) * self.cell;
        let (i, j) = ((cu as usize).min(self.wide - 2), (cv as usize).min(self.high - 2));
        let (fu, fv) = (cu - i as f64, cv - j as f64);
        let at = |i: usize, j: usize| f64::from(self.distance[j * self.wide + i]);
        let row = |j: usize| at(i, j) * (1.0 - fu) + at(i + 1, j) * fu;
        row(j) * (1.0 - fv) + row(j + 1) * fv - beyond
    }

    /// How deep an outline lies outside; never 0.
    pub(crate) fn outside(&self, outline: &SPolygon) -> f64 {
        let mut sum = 0.0;
        for disc in &outline.surrogate().poles {
            let inside = self.inside_by(f64::from(disc.center.0), f64::from(disc.center.1)) as f32;
            sum += 2.0 * (disc.radius - inside).max(0.0) * disc.radius;
        }
        scaled(sum, outline.area())
    }
}

/// Depth of an outline that reaches so many inches too far.
pub(crate) fn beyond(outline: &SPolygon, inches: f64) -> f64 {
    scaled(2.0 * inches as f32 * outline.area().sqrt(), outline.area())
}

/// Squared distance from a place to a side.
fn to_side(p: Point, a: Point, b: Point) -> f64 {
    let (side, from) = (b - a, p - a);
    let along = (from.dot(side) / side.dot(side).max(1e-300)).clamp(0.0, 1.0);
    let off = from - side * along;
    off.dot(off)
}
