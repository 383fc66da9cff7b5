//! The one integer lattice on which all boolean work is done: 2^40 steps an inch.
//!
//! Every ring is snapped to the same lattice, so a corner that two polygons share stays shared,
//! however often results are fed back in. One step is 9.1e-13 inch; coordinates up to a million
//! inches are carried, further out they are held at that distance. Going back to inches is exact
//! up to 8,192 inches.

use crate::{Point, Region, polygon};
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay::{IntOverlayOptions, Overlay, ShapeType};
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::core::solver::Solver;
use i_overlay::i_float::int::point::IntPoint;

/// Lattice steps in an inch.
pub(crate) const STEPS_PER_INCH: f64 = (1_u64 << 40) as f64;

/// Rings thinner than this many inches on average (twice the area over the way round) are dust
/// that snapping leaves between two parts that touch.
const DUST: f64 = 8.0 / STEPS_PER_INCH;

/// Coordinates are held within so many inches of the origin.
const REACH: f64 = 1_000_000.0;

/// A lattice point.
pub(crate) type Node = IntPoint<i64>;

/// The rings of an operand, on the lattice, outlines counter-clockwise and holes clockwise.
pub(crate) fn rings_of(regions: &[Region]) -> Vec<Vec<Node>> {
    let mut rings = Vec::with_capacity(regions.len());
    for region in regions {
        rings.push(to_nodes(&region.outer, true));
        rings.extend(region.holes.iter().map(|hole| to_nodes(hole, false)));
    }
    rings
}

/// Runs one boolean operation on welded rings and brings the result back to inches.
pub(crate) fn overlay(subject: &[Vec<Node>], clip: &[Vec<Node>], rule: OverlayRule) -> Vec<Region> {
    let sides = subject.iter().chain(clip).map(Vec::len).sum();
    let mut overlay = Overlay::<i64>::new_custom(sides, IntOverlayOptions::ogc(), Solver::default());
    for ring in subject {
        overlay.add_contour(ring, ShapeType::Subject);
    }
    for ring in clip {
        overlay.add_contour(ring, ShapeType::Clip);
    }
    overlay
        .overlay(rule, FillRule::Positive)
        .into_iter()
        .filter_map(|shape| {
            let mut rings = shape.into_iter().map(|ring| to_points(&ring));
            let outer = rings.next().filter(|ring| !is_dust(ring))?;
            Some(Region { outer, holes: rings.filter(|ring| !is_dust(ring)).collect() })
        })
        .collect()
}

/// Everything that the rings, in the winding they are given, go round more often counter-clockwise than clockwise.
pub(crate) fn wound(rings: &[Vec<Point>]) -> Vec<Region> {
    let node = |p: &Point| Node { x: to_steps(p.x), y: to_steps(p.y) };
    let rings: Vec<Vec<Node>> = rings.iter().map(|ring| ring.iter().map(node).collect()).collect();
    overlay(&rings, &[], OverlayRule::Subject)
}

fn to_nodes(ring: &[Point], counter_clockwise: bool) -> Vec<Node> {
    let nodes = ring.iter().map(|p| Node { x: to_steps(p.x), y: to_steps(p.y) });
    if (polygon::area(ring) >= 0.0) == counter_clockwise { nodes.collect() } else { nodes.rev().collect() }
}

fn to_steps(inches: f64) -> i64 {
    // `as` turns what is not a number into 0.
    (inches.clamp(-REACH, REACH) * STEPS_PER_INCH).round() as i64
}

fn to_points(ring: &[Node]) -> Vec<Point> {
    ring.iter().map(|n| Point::new(n.x as f64 / STEPS_PER_INCH, n.y as f64 / STEPS_PER_INCH)).collect()
}

fn is_dust(ring: &[Point]) -> bool {
    2.0 * polygon::area(ring).abs() <= DUST * polygon::perimeter(ring)
}
