//! Bias on the edges that stay outside, where cloth stretches.

use crate::log::{Bound, Mark};
use crate::table::Top;
use plane::{Point, Turn};
use serde::Serialize;

/// Above this an edge is at risk.
const RISKY: f64 = 0.5;

/// Above this share of risky edges something should be done: staystitch, lift the iron, put a
/// straight-grain border on.
const TOO_MUCH: f64 = 0.30;

/// One outer edge.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BiasEdge {
    /// Whose patch.
    pub patch: Mark,
    /// Its raw start.
    pub from: Point,
    /// Its raw end.
    pub to: Point,
    /// 0 along the threads, 1 on the true bias.
    pub risk: f64,
}

/// Bias on the outer edges.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bias {
    /// Every outer edge whose grain is known.
    pub edges: Vec<BiasEdge>,
    /// Share of their length with a risk above .5.
    pub risky_share: f64,
    /// Whether that is more than 30 %.
    pub too_much: bool,
}

/// Bias on the free edges of a top: risk = sin²(2g), g the angle between the edge and the nearest
/// thread (0, 15, 30, 45°: 0, .25, .75, 1). `grain` tells the direction of the lengthwise threads
/// in a patch's own coordinates. Over 30 % of the length beyond .5 is too much (common practice, no
/// source).
#[must_use]
pub fn bias_on_outer_edges(top: &Top, grain: &dyn Fn(Mark) -> Option<Turn>) -> Bias {
    let mut edges = Vec::new();
    for face in top.faces().values() {
        let Some(threads) = grain(face.patch).map(|turn| turn.then(face.pose.turn)) else { continue };
        let (points, around) = (top.face_points(face), face.around());
        for (i, bound) in around.iter().enumerate().filter(|_| points.len() == around.len()) {
            let (from, to) = (points[i], points[(i + 1) % points.len()]);
            if matches!(bound, Bound::Raw(_)) {
                edges.push(BiasEdge { patch: face.patch, from, to, risk: risk(to - from, threads) });
            }
        }
    }
    let length = |edge: &BiasEdge| edge.from.distance(edge.to);
    let all: f64 = edges.iter().map(length).sum();
    let risky: f64 = edges.iter().filter(|edge| edge.risk > RISKY).map(length).fold(0.0, |a, b| a + b);
    let risky_share = if all > 0.0 { risky / all } else { 0.0 };
    Bias { edges, risky_share, too_much: risky_share > TOO_MUCH }
}

/// sin²(2g) = (2 sin g cos g)², the same for either thread.
fn risk(edge: plane::Vec2, threads: Turn) -> f64 {
    let square = edge.dot(edge);
    if square <= 0.0 {
        return 0.0;
    }
    let double = 2.0 * edge.cross(threads.vec()) * edge.dot(threads.vec()) / square;
    double * double
}

#[cfg(test)]
mod tests {
    use super::*;

    // 0, 15, 30, 45 degrees: 0, .25, .75, 1 (common practice, no source).
    #[test]
    fn risk_is_greatest_on_the_true_bias() {
        for (degrees, expected) in
            [(0.0, 0.0), (15.0, 0.25), (30.0, 0.75), (45.0, 1.0), (60.0, 0.75), (90.0, 0.0)]
        {
            let found = risk(Turn::from_degrees(degrees).vec() * 3.0, Turn::NONE);
            assert!((found - expected).abs() < 1e-12, "{degrees}: {found}");
        }
    }
}
