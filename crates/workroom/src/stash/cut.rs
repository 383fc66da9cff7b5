//! Cutting a shape out of a cloth: what is taken, what is left, and what is waste.
//!
//! Taken, left and waste are disjoint, and their union is the cloth (to about 1e-7 inch along
//! the cut). A shape may run out over the cloth's edge by 1/1024 inch, the tolerance at which
//! lengths are read; beyond that the caller is told by how much.

use super::Usable;
use plane::{Point, READING, Region, polygon};

/// A shape cut out of a cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutting {
    /// What is taken: the shape, or as much of it as there is cloth for.
    pub taken: Vec<Region>,
    /// Usable rest, the largest first.
    pub rest: Vec<Region>,
    /// Rest too small to keep.
    pub waste: Vec<Region>,
    /// What of the shape lies outside the cloth, if that is more than lengths are read to.
    pub outside: Option<Outside>,
}

/// How much of a shape a cloth has no room for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outside {
    /// Area outside, in square inches.
    pub area_in2: f64,
    /// How far it sticks out at most, in inches.
    pub by_in: f64,
}

/// Takes `piece`, a simple polygon counter-clockwise in the cloth's coordinates, out of `cloth`.
#[must_use]
pub fn take(cloth: &Region, piece: &[Point], usable: Usable) -> Cutting {
    let shape = Region { outer: piece.to_vec(), holes: Vec::new() };
    let beyond = plane::difference(&shape, std::slice::from_ref(cloth));
    let outside = outside_of(cloth, &beyond);
    let taken = if beyond.is_empty() { vec![shape] } else { plane::intersection(cloth, &shape) };
    let mut left = plane::remainder(cloth, piece);
    left.sort_by(|a, b| b.area().total_cmp(&a.area()).then_with(|| lowest(a).total_cmp(&lowest(b))));
    let (rest, waste) = left.into_iter().partition(|region| usable.keeps(region));
    Cutting { taken, rest, waste, outside }
}

/// How much lies beyond the cloth, unless it is within reading. `beyond` is a shape less the
/// cloth. It sticks out as far as its furthest corner; where it covers a hole, all corners lie on
/// the edge, and it is as deep as the largest disc in it.
pub(crate) fn outside_of(cloth: &Region, beyond: &[Region]) -> Option<Outside> {
    let corners = beyond.iter().flat_map(|region| &region.outer);
    let furthest = corners.map(|&p| -plane::depth_inside(cloth, p)).fold(0.0, f64::max);
    let discs = beyond.iter().filter_map(|region| plane::largest_disc(region, READING / 2.0));
    let by_in = discs.map(|disc| disc.radius).fold(furthest, f64::max);
    let area_in2 = beyond.iter().map(Region::area).sum();
    (by_in > READING).then_some(Outside { area_in2, by_in })
}

fn lowest(region: &Region) -> f64 {
    polygon::bounds(&region.outer).map_or(0.0, |(lo, _)| lo.x + lo.y)
}
