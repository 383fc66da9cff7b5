//! A direction or a rotation as a unit vector. Angles are parsed and printed, never stored, so
//! that composing turns uses + − × ÷ √ only and gives the same bits on every machine.

use crate::Vec2;
use serde::{Deserialize, Serialize};

/// A rotation, or equally a direction: the cosine and sine of its angle.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Turn {
    /// Cosine of the angle.
    pub cos: f64,
    /// Sine of the angle, counter-clockwise positive.
    pub sin: f64,
}

impl Turn {
    /// No turn; the direction of x.
    pub const NONE: Self = Self { cos: 1.0, sin: 0.0 };
    /// A quarter turn counter-clockwise; the direction of y.
    pub const QUARTER: Self = Self { cos: 0.0, sin: 1.0 };
    /// Half a turn.
    pub const HALF: Self = Self { cos: -1.0, sin: 0.0 };

    /// The direction of `v`, or `None` when it is too short to have one.
    #[must_use]
    pub fn towards(v: Vec2) -> Option<Self> {
        let length = v.length();
        (length > 1e-12 && length.is_finite()).then(|| Self { cos: v.x / length, sin: v.y / length })
    }

    /// A turn by so many degrees counter-clockwise. For reading input; replay never calls it.
    #[must_use]
    pub fn from_degrees(degrees: f64) -> Self {
        let (sin, cos) = degrees.to_radians().sin_cos();
        Self { cos, sin }
    }

    /// The angle in degrees, above -180 and up to 180.
    #[must_use]
    pub fn to_degrees(self) -> f64 {
        self.sin.atan2(self.cos).to_degrees()
    }

    /// This turn, then `next`.
    #[must_use]
    #[inline]
    pub fn then(self, next: Self) -> Self {
        let cos = self.cos * next.cos - self.sin * next.sin;
        let sin = self.sin * next.cos + self.cos * next.sin;
        let length = (cos * cos + sin * sin).sqrt();
        Self { cos: cos / length, sin: sin / length }
    }

    /// The turn that undoes this one.
    #[must_use]
    #[inline]
    pub const fn inverse(self) -> Self {
        Self { cos: self.cos, sin: -self.sin }
    }

    /// The opposite direction: half a turn more.
    #[must_use]
    pub const fn opposite(self) -> Self {
        Self { cos: -self.cos, sin: -self.sin }
    }

    /// A quarter turn further counter-clockwise.
    #[must_use]
    pub const fn left(self) -> Self {
        Self { cos: -self.sin, sin: self.cos }
    }

    /// The unit vector in this direction.
    #[must_use]
    #[inline]
    pub const fn vec(self) -> Vec2 {
        Vec2::new(self.cos, self.sin)
    }

    /// `v` turned by this.
    #[must_use]
    #[inline]
    pub fn apply(self, v: Vec2) -> Vec2 {
        Vec2::new(self.cos * v.x - self.sin * v.y, self.sin * v.x + self.cos * v.y)
    }
}
