//! A directed straight line with an inside: the half-plane on its left.

use crate::{Point, Pose, Turn, Vec2};
use serde::{Deserialize, Serialize};

/// A straight line. The inside is where `normal · p >= at`; walking along [`Line::direction`]
/// has the inside on the left, as along the side of a counter-clockwise outline.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Line {
    /// Unit normal, pointing inside.
    pub normal: Turn,
    /// Signed distance of the line from the origin along the normal, in inches.
    pub at: f64,
}

impl Line {
    /// The line through `a` and then `b`, inside on the left; `None` when they coincide.
    #[must_use]
    pub fn through(a: Point, b: Point) -> Option<Self> {
        Turn::towards(b - a).map(|along| Self::from_point(a, along))
    }

    /// The line through `p` in the direction `along`, inside on the left.
    #[must_use]
    pub fn from_point(p: Point, along: Turn) -> Self {
        let normal = along.left();
        Self { normal, at: normal.vec().dot(p.to_vec2()) }
    }

    /// The direction of walking with the inside on the left.
    #[must_use]
    pub const fn direction(self) -> Turn {
        Turn { cos: self.normal.sin, sin: -self.normal.cos }
    }

    /// Signed distance of `p`: positive inside, in inches.
    #[must_use]
    pub fn inside_by(self, p: Point) -> f64 {
        self.normal.vec().dot(p.to_vec2()) - self.at
    }

    /// Position of `p`'s foot along the line, in inches from the origin's foot.
    #[must_use]
    pub fn along(self, p: Point) -> f64 {
        self.direction().vec().dot(p.to_vec2())
    }

    /// The point at position `t` along the line, in inches.
    #[must_use]
    pub fn point_at(self, t: f64) -> Point {
        let v = self.normal.vec() * self.at + self.direction().vec() * t;
        Point::new(v.x, v.y)
    }

    /// The parallel line `inches` further inside.
    #[must_use]
    pub fn inward(self, inches: f64) -> Self {
        Self { normal: self.normal, at: self.at + inches }
    }

    /// The same line with inside and outside exchanged.
    #[must_use]
    pub fn reversed(self) -> Self {
        Self { normal: self.normal.opposite(), at: -self.at }
    }

    /// Where two lines cross; `None` when they are parallel to within 1e-7 rad.
    #[must_use]
    pub fn crossing(self, other: Self) -> Option<Point> {
        let (n, m) = (self.normal.vec(), other.normal.vec());
        let det = n.cross(m);
        (det.abs() > 1e-7).then(|| {
            Point::new((self.at * m.y - other.at * n.y) / det, (n.x * other.at - m.x * self.at) / det)
        })
    }

    /// The line after a rigid motion of everything on it.
    #[must_use]
    pub fn moved(self, pose: Pose) -> Self {
        let normal = self.normal.then(pose.turn);
        Self { normal, at: self.at + normal.vec().dot(pose.by) }
    }

    /// Sine of the turn from this line to `other`: positive when `other` turns left, as at a
    /// convex corner of a counter-clockwise outline.
    #[must_use]
    pub fn turn_sine(self, other: Self) -> f64 {
        self.normal.vec().cross(other.normal.vec())
    }

    /// Cosine of the turn from this line to `other`.
    #[must_use]
    pub fn turn_cosine(self, other: Self) -> f64 {
        self.normal.vec().dot(other.normal.vec())
    }

    /// The unit vector along the line.
    #[must_use]
    pub fn unit(self) -> Vec2 {
        self.direction().vec()
    }
}
