//! An area of the plane with holes, checked on the way in.

use crate::{Point, Pose, polygon};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// A simple polygon with holes. `outer` runs counter-clockwise, `holes` clockwise. Made by hand
/// it may be anything; [`Region::try_new`] checks it and puts the windings right.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Region {
    /// The outline.
    pub outer: Vec<Point>,
    /// The holes, disjoint and inside the outline.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub holes: Vec<Vec<Point>>,
}

/// What is wrong with an outline, and where.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum RegionProblem {
    /// Fewer than three different corners.
    #[error("the outline has {corners} different corners; it needs at least 3")]
    TooFewCorners {
        /// How many there are.
        corners: usize,
    },
    /// A coordinate that is not a number.
    #[error("corner {corner} is not a finite number")]
    NotFinite {
        /// Which corner, counted from 1.
        corner: usize,
    },
    /// Nothing inside.
    #[error("the outline encloses no area")]
    NoArea,
    /// Two sides cross or touch.
    #[error("sides {first} and {second} cross near {}, {}", .near.x, .near.y)]
    SidesCross {
        /// The first side, counted from 1.
        first: usize,
        /// The second side.
        second: usize,
        /// About where.
        near: Point,
    },
    /// A hole that isn't inside the outline.
    #[error("hole {hole} does not lie inside the outline")]
    HoleOutside {
        /// Which hole, counted from 1.
        hole: usize,
    },
}

impl Region {
    /// A region from an outline and holes in any winding. Doubled corners are dropped.
    ///
    /// # Errors
    /// The first [`RegionProblem`] found: too few corners, a coordinate that isn't finite, no
    /// area, sides that cross, a hole outside.
    pub fn try_new(outer: Vec<Point>, holes: Vec<Vec<Point>>) -> Result<Self, RegionProblem> {
        let outer = checked_ring(outer, true)?;
        let holes = holes.into_iter().map(|hole| checked_ring(hole, false)).collect::<Result<Vec<_>, _>>()?;
        for (i, hole) in holes.iter().enumerate() {
            if !hole.iter().all(|&p| polygon::contains(&outer, p)) {
                return Err(RegionProblem::HoleOutside { hole: i + 1 });
            }
        }
        Ok(Self { outer, holes })
    }

    /// A rectangle with its lower left corner at the origin.
    #[must_use]
    pub fn rectangle(width_in: f64, height_in: f64) -> Self {
        let corners = [(0.0, 0.0), (width_in, 0.0), (width_in, height_in), (0.0, height_in)];
        Self { outer: corners.map(|(x, y)| Point::new(x, y)).to_vec(), holes: Vec::new() }
    }

    /// Area without the holes, in square inches.
    #[must_use]
    pub fn area(&self) -> f64 {
        polygon::area(&self.outer) + self.holes.iter().map(|h| polygon::area(h)).sum::<f64>()
    }

    /// Whether `p` is inside the outline and in no hole.
    #[must_use]
    pub fn contains(&self, p: Point) -> bool {
        polygon::contains(&self.outer, p) && !self.holes.iter().any(|h| polygon::contains(h, p))
    }

    /// The region after a rigid motion.
    #[must_use]
    pub fn moved(&self, pose: Pose) -> Self {
        Self {
            outer: pose.apply_all(&self.outer),
            holes: self.holes.iter().map(|h| pose.apply_all(h)).collect(),
        }
    }
}

fn checked_ring(mut ring: Vec<Point>, counter_clockwise: bool) -> Result<Vec<Point>, RegionProblem> {
    if let Some(i) = ring.iter().position(|p| !p.is_finite()) {
        return Err(RegionProblem::NotFinite { corner: i + 1 });
    }
    ring.dedup_by(|a, b| a.distance(*b) < crate::DECISION);
    while ring.len() > 1 && ring[0].distance(ring[ring.len() - 1]) < crate::DECISION {
        ring.pop();
    }
    if ring.len() < 3 {
        return Err(RegionProblem::TooFewCorners { corners: ring.len() });
    }
    if let Some(problem) = crossing_sides(&ring) {
        return Err(problem);
    }
    let area = polygon::area(&ring);
    if area.abs() < crate::DECISION {
        return Err(RegionProblem::NoArea);
    }
    if (area > 0.0) != counter_clockwise {
        ring.reverse();
    }
    Ok(ring)
}

/// The first two sides that cross, overlap or touch without being neighbours.
fn crossing_sides(ring: &[Point]) -> Option<RegionProblem> {
    let n = ring.len();
    let side = |i: usize| (ring[i], ring[(i + 1) % n]);
    for i in 0..n {
        for j in i + 1..n {
            let ((a, b), (c, d)) = (side(i), side(j));
            let neighbours = j == i + 1 || (i == 0 && j == n - 1);
            let near = if neighbours { folds_back(a, b, c, d, j == i + 1) } else { meets(a, b, c, d) };
            if let Some(near) = near {
                return Some(RegionProblem::SidesCross { first: i + 1, second: j + 1, near });
            }
        }
    }
    None
}

fn folds_back(a: Point, b: Point, c: Point, d: Point, in_order: bool) -> Option<Point> {
    let (before, corner, after) = if in_order { (a, b, d) } else { (c, d, b) };
    let (u, v) = (before - corner, after - corner);
    let straight = u.cross(v).abs() <= 1e-12 * u.length() * v.length();
    (straight && u.dot(v) > 0.0).then_some(corner)
}

fn meets(a: Point, b: Point, c: Point, d: Point) -> Option<Point> {
    let (u, v) = (b - a, d - c);
    let side_of = |from: Point, along: crate::Vec2, p: Point| along.cross(p - from);
    let (c1, d1) = (side_of(a, u, c), side_of(a, u, d));
    let (a1, b1) = (side_of(c, v, a), side_of(c, v, b));
    if c1 * d1 < 0.0 && a1 * b1 < 0.0 {
        return Some(a.lerp(b, a1 / (a1 - b1)));
    }
    let on = |p: Point, from: Point, along: crate::Vec2, cross: f64| {
        let t = along.dot(p - from) / along.dot(along);
        (cross.abs() <= 1e-12 * along.length() && (0.0..=1.0).contains(&t)).then_some(p)
    };
    on(c, a, u, c1).or_else(|| on(d, a, u, d1)).or_else(|| on(a, c, v, a1)).or_else(|| on(b, c, v, b1))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn a_clockwise_outline_is_turned_round() {
        let r = Region::try_new(points(&[(0.0, 0.0), (0.0, 1.0), (1.0, 0.0)]), vec![]).unwrap();
        assert_eq!(r.area(), 0.5);
    }

    #[test]
    fn a_bow_tie_is_refused_with_its_place() {
        let bow = points(&[(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)]);
        let problem = Region::try_new(bow, vec![]).unwrap_err();
        assert_eq!(problem, RegionProblem::SidesCross { first: 1, second: 3, near: Point::new(1.0, 1.0) });
    }

    #[test]
    fn nothing_numbers_and_slivers_are_refused() {
        let line = points(&[(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)]);
        assert!(Region::try_new(line, vec![]).is_err());
        let nan = points(&[(0.0, 0.0), (f64::NAN, 0.0), (0.0, 1.0)]);
        assert_eq!(Region::try_new(nan, vec![]), Err(RegionProblem::NotFinite { corner: 2 }));
    }
}
