//! A rigid motion: turn about the origin, then shift. There is no mirror, because cloth has a
//! right side.

use crate::{Point, Turn, Vec2};
use serde::{Deserialize, Serialize};

/// A rigid motion of the plane without mirroring.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Pose {
    /// First turn about the origin,
    pub turn: Turn,
    /// then shift by so much.
    pub by: Vec2,
}

impl Pose {
    /// Leaves everything where it is.
    pub const STAY: Self = Self { turn: Turn::NONE, by: Vec2::new(0.0, 0.0) };

    /// A motion from its turn and shift.
    #[must_use]
    #[inline]
    pub const fn new(turn: Turn, by: Vec2) -> Self {
        Self { turn, by }
    }

    /// Turns by `turn` so that `from` comes to lie on `to`.
    #[must_use]
    pub fn carrying(turn: Turn, from: Point, to: Point) -> Self {
        Self { turn, by: to.to_vec2() - turn.apply(from.to_vec2()) }
    }

    /// Where `p` comes to lie.
    #[must_use]
    #[inline]
    pub fn apply(self, p: Point) -> Point {
        let v = self.turn.apply(p.to_vec2()) + self.by;
        Point::new(v.x, v.y)
    }

    /// Where all of `points` come to lie.
    #[must_use]
    pub fn apply_all(self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|&p| self.apply(p)).collect()
    }

    /// This motion, then `next`.
    #[must_use]
    #[inline]
    pub fn then(self, next: Self) -> Self {
        Self { turn: self.turn.then(next.turn), by: next.turn.apply(self.by) + next.by }
    }

    /// The motion that undoes this one.
    #[must_use]
    #[inline]
    pub fn inverse(self) -> Self {
        let turn = self.turn.inverse();
        Self { turn, by: -turn.apply(self.by) }
    }
}
