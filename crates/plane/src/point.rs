//! A place and a displacement, in inches. They are different types: two places can't be added.

use serde::{Deserialize, Serialize};
use std::ops::{Add, AddAssign, Mul, Neg, Sub};

/// A place on the plane, in inches.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Up.
    pub y: f64,
}

/// A displacement on the plane, in inches.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Vec2 {
    /// To the right.
    pub x: f64,
    /// Up.
    pub y: f64,
}

impl Point {
    /// The place where both axes start.
    pub const ORIGIN: Self = Self::new(0.0, 0.0);

    /// A place from its two coordinates.
    #[must_use]
    #[inline]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The displacement from the origin to here.
    #[must_use]
    #[inline]
    pub const fn to_vec2(self) -> Vec2 {
        Vec2::new(self.x, self.y)
    }

    /// Straight distance to another place.
    #[must_use]
    #[inline]
    pub fn distance(self, other: Self) -> f64 {
        (self - other).length()
    }

    /// The place a share `t` of the way to `other` (0 here, 1 there).
    #[must_use]
    #[inline]
    pub fn lerp(self, other: Self, t: f64) -> Self {
        self + (other - self) * t
    }

    /// The place halfway to `other`.
    #[must_use]
    #[inline]
    pub fn midpoint(self, other: Self) -> Self {
        self.lerp(other, 0.5)
    }

    /// Whether both coordinates are finite numbers.
    #[must_use]
    #[inline]
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }
}

impl Vec2 {
    /// A displacement from its two components.
    #[must_use]
    #[inline]
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// Scalar product.
    #[must_use]
    #[inline]
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// Cross product: positive when `other` lies counter-clockwise of `self`.
    #[must_use]
    #[inline]
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// Length in inches.
    #[must_use]
    #[inline]
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// A quarter turn counter-clockwise.
    #[must_use]
    #[inline]
    pub const fn left(self) -> Self {
        Self::new(-self.y, self.x)
    }
}

impl Sub for Point {
    type Output = Vec2;
    #[inline]
    fn sub(self, other: Self) -> Vec2 {
        Vec2::new(self.x - other.x, self.y - other.y)
    }
}

impl Add<Vec2> for Point {
    type Output = Self;
    #[inline]
    fn add(self, by: Vec2) -> Self {
        Self::new(self.x + by.x, self.y + by.y)
    }
}

impl Sub<Vec2> for Point {
    type Output = Self;
    #[inline]
    fn sub(self, by: Vec2) -> Self {
        Self::new(self.x - by.x, self.y - by.y)
    }
}

impl Add for Vec2 {
    type Output = Self;
    #[inline]
    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y)
    }
}

impl AddAssign for Vec2 {
    #[inline]
    fn add_assign(&mut self, other: Self) {
        *self = *self + other;
    }
}

impl Sub for Vec2 {
    type Output = Self;
    #[inline]
    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }
}

impl Mul<f64> for Vec2 {
    type Output = Self;
    #[inline]
    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by)
    }
}

impl Neg for Vec2 {
    type Output = Self;
    #[inline]
    fn neg(self) -> Self {
        Self::new(-self.x, -self.y)
    }
}
