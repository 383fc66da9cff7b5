//! Union, intersection and difference of regions.
//!
//! Operands may touch, share sides, have holes (which may overlap each other or reach over the
//! outline, as flaws do), lie on the 1/64-inch grid or be empty. Results are disjoint regions, outlines
//! counter-clockwise and holes clockwise, without corners on straight sides; where a hole touches
//! the outline it stays a hole, and no ring touches itself. Decided on one
//! lattice of 2^40 steps an inch; what differs by less than 2^-34 inch (5.8e-11) is welded
//! first, and rings thinner than 2^-37 inch on average are dropped. The area is right to
//! about 1e-10 square inch for each inch of outline.

use crate::lattice::{Node, STEPS_PER_INCH, overlay, rings_of};
use crate::weld::weld;
use crate::{DECISION, Point, Region, polygon};
use i_overlay::core::overlay_rule::OverlayRule;

/// Corners and sides closer than this many inches become one before the operation.
const WELD: f64 = 64.0 / STEPS_PER_INCH;

/// Everything covered by any of `regions`.
#[must_use]
pub fn union(regions: &[Region]) -> Vec<Region> {
    run(regions, &[], OverlayRule::Union, WELD)
}

/// What is covered by both.
#[must_use]
pub fn intersection(first: &Region, second: &Region) -> Vec<Region> {
    if apart(&first.outer, &second.outer) {
        return Vec::new();
    }
    run(std::slice::from_ref(first), std::slice::from_ref(second), OverlayRule::Intersect, WELD)
}

/// What `from` covers and none of `taken` does.
#[must_use]
pub fn difference(from: &Region, taken: &[Region]) -> Vec<Region> {
    difference_within(from, taken, WELD)
}

/// What is left of `cloth` when `piece` is cut out of it. Parts of the cut that run within
/// 1e-7 inch of the cloth's edge are taken to run along it, so no threads are left there, nor
/// anything, cloth or hole, under [`DECISION`] square inches. Each part is sound as
/// [`Region::try_new`] asks.
#[must_use]
pub fn remainder(cloth: &Region, piece: &[Point]) -> Vec<Region> {
    let piece = Region { outer: piece.to_vec(), holes: Vec::new() };
    let mut left = difference_within(cloth, std::slice::from_ref(&piece), 1e-7);
    let counts = |ring: &Vec<Point>| polygon::area(ring).abs() >= DECISION;
    left.retain(|part| counts(&part.outer));
    left.iter_mut().for_each(|part| part.holes.retain(counts));
    left
}

fn difference_within(from: &Region, taken: &[Region], weld_in: f64) -> Vec<Region> {
    let near: Vec<Region> = taken.iter().filter(|t| !apart(&from.outer, &t.outer)).cloned().collect();
    run(std::slice::from_ref(from), &near, OverlayRule::Difference, weld_in)
}

fn run(subject: &[Region], clip: &[Region], rule: OverlayRule, weld_in: f64) -> Vec<Region> {
    let mut rings: Vec<Vec<Node>> = rings_of(subject);
    let clip_from = rings.len();
    rings.extend(rings_of(clip));
    weld(&mut rings, weld_in * STEPS_PER_INCH);
    let (subject, clip) = rings.split_at(clip_from);
    overlay(subject, clip, rule)
}

/// Whether the bounding boxes have nothing in common.
fn apart(first: &[Point], second: &[Point]) -> bool {
    match (polygon::bounds(first), polygon::bounds(second)) {
        (Some((lo, hi)), Some((other_lo, other_hi))) => {
            hi.x < other_lo.x || hi.y < other_lo.y || other_hi.x < lo.x || other_hi.y < lo.y
        }
        _ => true,
    }
}
