//! An area of the plane with holes, checked on the way in.

use crate::{Point, Pose, difference, intersection, polygon};
use serde::{Deserialize, Serialize};
use std::fmt;
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

/// A ring of a region: its outline, or one of its holes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ring {
    /// The outline.
    Outer,
    /// A hole, counted from 1.
    Hole(usize),
}

impl fmt::Display for Ring {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Outer => write!(f, "the outline"),
            Self::Hole(hole) => write!(f, "hole {hole}"),
        }
    }
}

/// What is wrong with a ring, and where.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum RegionProblem {
    /// Fewer than three different corners.
    #[error("{ring} has {corners} different corners: name at least 3")]
    TooFewCorners {
        /// Which ring.
        ring: Ring,
        /// How many there are.
        corners: usize,
    },
    /// A coordinate that is not a number.
    #[error("corner {corner} of {ring} is not a finite number: write it as in 2.25")]
    NotFinite {
        /// Which ring.
        ring: Ring,
        /// Which corner, counted from 1.
        corner: usize,
    },
    /// Nothing inside.
    #[error("{ring} encloses no area: its corners lie on one line; move one of them off it")]
    NoArea {
        /// Which ring.
        ring: Ring,
    },
    /// Two sides cross or touch.
    #[error(
        "sides {first} and {second} of {ring} meet near {:.2}, {:.2}: name its corners in order, once round",
        .near.x, .near.y
    )]
    SidesCross {
        /// Which ring.
        ring: Ring,
        /// The first side, counted from 1.
        first: usize,
        /// The second side.
        second: usize,
        /// About where.
        near: Point,
    },
    /// A hole that isn't inside the outline.
    #[error("hole {hole} does not lie inside the outline: move it in, or cut the outline round it")]
    HoleOutside {
        /// Which hole, counted from 1.
        hole: usize,
    },
    /// Two holes that overlap.
    #[error("holes {first} and {second} overlap: make one hole of them")]
    HolesOverlap {
        /// The first hole, counted from 1.
        first: usize,
        /// The second.
        second: usize,
    },
}

impl Region {
    /// A region from an outline and holes in any winding. Doubled corners are dropped.
    ///
    /// # Errors
    /// The first [`RegionProblem`] found: too few corners, a coordinate that isn't finite, no
    /// area, sides that cross, a hole that isn't inside the outline or overlaps another. Holes may
    /// touch the outline and each other.
    pub fn try_new(outer: Vec<Point>, holes: Vec<Vec<Point>>) -> Result<Self, RegionProblem> {
        let outer = checked_ring(outer, Ring::Outer)?;
        let mut inside: Vec<Self> = Vec::with_capacity(holes.len());
        let whole = Self { outer: outer.clone(), holes: Vec::new() };
        for (i, hole) in holes.into_iter().enumerate() {
            let hole = Self { outer: checked_ring(hole, Ring::Hole(i + 1))?, holes: Vec::new() };
            let touching = crate::DECISION * polygon::perimeter(&hole.outer);
            let covers = |parts: Vec<Self>| parts.iter().map(Self::area).sum::<f64>() > touching;
            if covers(difference(&hole, std::slice::from_ref(&whole))) {
                return Err(RegionProblem::HoleOutside { hole: i + 1 });
            }
            if let Some(first) = inside.iter().position(|other| covers(intersection(other, &hole))) {
                return Err(RegionProblem::HolesOverlap { first: first + 1, second: i + 1 });
            }
            inside.push(hole);
        }
        Ok(Self { outer, holes: inside.into_iter().map(|hole| hole.outer).collect() })
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

fn checked_ring(mut corners: Vec<Point>, ring: Ring) -> Result<Vec<Point>, RegionProblem> {
    if let Some(i) = corners.iter().position(|p| !p.is_finite()) {
        return Err(RegionProblem::NotFinite { ring, corner: i + 1 });
    }
    corners.dedup_by(|a, b| a.distance(*b) < crate::DECISION);
    while corners.len() > 1 && corners[0].distance(corners[corners.len() - 1]) < crate::DECISION {
        corners.pop();
    }
    if corners.len() < 3 {
        return Err(RegionProblem::TooFewCorners { ring, corners: corners.len() });
    }
    if polygon::area(&polygon::hull(&corners)) < crate::DECISION {
        return Err(RegionProblem::NoArea { ring });
    }
    if let Some((first, second, near)) = crossing_sides(&corners) {
        return Err(RegionProblem::SidesCross { ring, first, second, near });
    }
    let area = polygon::area(&corners);
    if area.abs() < crate::DECISION {
        return Err(RegionProblem::NoArea { ring });
    }
    if (area > 0.0) != (ring == Ring::Outer) {
        corners.reverse();
    }
    Ok(corners)
}

/// The numbers of the first two sides that cross, overlap or touch without being neighbours.
fn crossing_sides(ring: &[Point]) -> Option<(usize, usize, Point)> {
    let n = ring.len();
    let side = |i: usize| (ring[i], ring[(i + 1) % n]);
    for i in 0..n {
        for j in i + 1..n {
            let ((a, b), (c, d)) = (side(i), side(j));
            let neighbours = j == i + 1 || (i == 0 && j == n - 1);
            let near = if neighbours { folds_back(a, b, c, d, j == i + 1) } else { meets(a, b, c, d) };
            if let Some(near) = near {
                return Some((i + 1, j + 1, near));
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
        assert_eq!(
            problem,
            RegionProblem::SidesCross { ring: Ring::Outer, first: 1, second: 3, near: Point::new(1.0, 1.0) }
        );
    }

    #[test]
    fn nothing_numbers_and_slivers_are_refused() {
        let line = points(&[(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)]);
        assert_eq!(Region::try_new(line, vec![]), Err(RegionProblem::NoArea { ring: Ring::Outer }));
        let nan = points(&[(0.0, 0.0), (f64::NAN, 0.0), (0.0, 1.0)]);
        assert_eq!(
            Region::try_new(nan, vec![]),
            Err(RegionProblem::NotFinite { ring: Ring::Outer, corner: 2 })
        );
    }

    fn box_of(from: f64, to: f64) -> Vec<Point> {
        points(&[(from, from), (to, from), (to, to), (from, to)])
    }

    #[test]
    fn holes_that_overlap_each_other_or_the_outside_are_refused() {
        let holed =
            |holes: Vec<Vec<Point>>| Region::try_new(box_of(0.0, 6.0), holes).map(|region| region.area());
        assert_eq!(holed(vec![box_of(1.0, 2.0), box_of(3.0, 5.0)]), Ok(31.0));
        assert_eq!(holed(vec![box_of(0.0, 2.0), box_of(2.0, 5.0)]), Ok(23.0), "they may touch");
        let overlap = Err(RegionProblem::HolesOverlap { first: 1, second: 2 });
        for second in
            [box_of(2.0, 5.0), box_of(2.0, 3.0), box_of(1.0, 4.0), box_of(0.5, 5.0), box_of(3.5, 5.0)]
        {
            assert_eq!(holed(vec![box_of(1.0, 4.0), second]), overlap);
        }
        for hole in [box_of(5.0, 7.0), box_of(7.0, 8.0), box_of(-1.0, 2.0), box_of(-1.0, 7.0)] {
            assert_eq!(holed(vec![hole]), Err(RegionProblem::HoleOutside { hole: 1 }));
        }
        // All corners inside the arms of a U, the sides across its notch.
        let u =
            [(0.0, 0.0), (6.0, 0.0), (6.0, 6.0), (4.0, 6.0), (4.0, 2.0), (2.0, 2.0), (2.0, 6.0), (0.0, 6.0)];
        let across = points(&[(1.0, 3.0), (5.0, 3.0), (5.0, 5.0), (1.0, 5.0)]);
        let refused = Region::try_new(points(&u), vec![across]);
        assert_eq!(refused, Err(RegionProblem::HoleOutside { hole: 1 }));
    }

    #[test]
    fn every_problem_says_what_to_do() {
        let flat = points(&[(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)]);
        let words = Region::try_new(box_of(-1.0, 3.0), vec![flat]).unwrap_err().to_string();
        assert_eq!(words, "hole 1 encloses no area: its corners lie on one line; move one of them off it");
    }
}
