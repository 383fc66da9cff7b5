//! Where something comes to lie on a drawing: a rigid motion, perhaps after a mirroring.
//!
//! Cloth has a right side, so a [`Pose`] never mirrors; the back of a piece is seen from behind,
//! so a drawing may.

use plane::{Point, Pose, Turn, Vec2};

/// First mirrored from left to right (x becomes -x) or not, then moved.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placement {
    /// Whether x changes its sign first.
    pub mirrored: bool,
    /// The motion after that.
    pub pose: Pose,
}

impl Placement {
    /// Leaves everything where it is.
    pub const STAY: Self = Self::moved(Pose::STAY);
    /// Turns the drawing over, as one turns a piece over to its back.
    pub const TURN_OVER: Self = Self { mirrored: true, pose: Pose::STAY };

    /// A motion without mirroring.
    #[must_use]
    pub const fn moved(pose: Pose) -> Self {
        Self { mirrored: false, pose }
    }

    /// A shift by so many inches.
    #[must_use]
    pub const fn shifted(by: Vec2) -> Self {
        Self::moved(Pose::new(Turn::NONE, by))
    }

    /// Where `p` comes to lie.
    #[must_use]
    pub fn apply(self, p: Point) -> Point {
        self.pose.apply(if self.mirrored { Point::new(-p.x, p.y) } else { p })
    }

    /// Where all of `points` come to lie.
    #[must_use]
    pub fn apply_all(self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|&p| self.apply(p)).collect()
    }

    /// This placement, then `next`.
    #[must_use]
    pub fn then(self, next: Self) -> Self {
        let seen = if next.mirrored {
            let Pose { turn, by } = self.pose;
            Pose::new(turn.inverse(), Vec2::new(-by.x, by.y))
        } else {
            self.pose
        };
        Self { mirrored: self.mirrored != next.mirrored, pose: seen.then(next.pose) }
    }

    /// The placement that undoes this one.
    #[must_use]
    pub fn inverse(self) -> Self {
        let back = Self::moved(self.pose.inverse());
        if self.mirrored { back.then(Self::TURN_OVER) } else { back }
    }

    /// The direction `turn` after this placement.
    #[must_use]
    pub fn turned(self, turn: Turn) -> Turn {
        let seen = if self.mirrored { Turn { cos: -turn.cos, sin: turn.sin } } else { turn };
        seen.then(self.pose.turn)
    }

    /// The coefficients `[a, b, c, d, e, f]` of `x' = a x + c y + e`, `y' = b x + d y + f`, y up.
    #[must_use]
    pub fn matrix(self) -> [f64; 6] {
        let Pose { turn: Turn { cos, sin }, by } = self.pose;
        let flip = if self.mirrored { -1.0 } else { 1.0 };
        [cos * flip, sin * flip, -sin, cos, by.x, by.y]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_placements_in_a_row_are_one() {
        let poses = [(30.0, 1.0, 2.0), (-100.0, -3.0, 0.25), (0.0, 0.0, 0.0)];
        let mut all = Vec::new();
        for (degrees, x, y) in poses {
            let pose = Pose::new(Turn::from_degrees(degrees), Vec2::new(x, y));
            all.extend([Placement { mirrored: false, pose }, Placement { mirrored: true, pose }]);
        }
        let p = Point::new(0.7, -1.9);
        for &one in &all {
            for &next in &all {
                assert!(one.then(next).apply(p).distance(next.apply(one.apply(p))) < 1e-12);
            }
            assert!(one.inverse().apply(one.apply(p)).distance(p) < 1e-12);
            let [a, b, c, d, e, f] = one.matrix();
            let by_matrix = Point::new(a * p.x + c * p.y + e, b * p.x + d * p.y + f);
            assert!(by_matrix.distance(one.apply(p)) < 1e-12);
        }
    }
}
