//! A small seeded generator of shapes for the property tests.
#![allow(dead_code, reason = "each test file uses its own part")]

use plane::{Point, Pose, Region, Turn, Vec2, polygon};

/// xorshift64*: the same numbers on every machine.
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    pub(crate) fn share(&mut self) -> f64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        (self.0.wrapping_mul(0x2545_f491_4f6c_dd1d) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    pub(crate) fn below(&mut self, n: usize) -> usize {
        (self.share() * n as f64) as usize
    }

    pub(crate) fn turn(&mut self) -> Turn {
        Turn::from_degrees(self.between(-180.0, 180.0))
    }

    pub(crate) fn pose(&mut self, reach: f64) -> Pose {
        Pose::new(self.turn(), Vec2::new(self.between(-reach, reach), self.between(-reach, reach)))
    }

    /// A star-shaped outline of about `size`; `rough` 0 is nearly convex, .7 has deep notches.
    pub(crate) fn outline(&mut self, corners: usize, size: f64, rough: f64) -> Vec<Point> {
        (0..corners)
            .map(|i| {
                let at = (i as f64 + self.between(-0.3, 0.3)) * 360.0 / corners as f64;
                Point::ORIGIN + Turn::from_degrees(at).vec() * (size * self.between(1.0 - rough, 1.0))
            })
            .collect()
    }

    /// Convex with about as many corners.
    pub(crate) fn convex(&mut self, corners: usize, size: f64) -> Vec<Point> {
        polygon::hull(&self.outline(corners, size, 0.4))
    }
}

pub(crate) fn plain(outer: Vec<Point>) -> Region {
    Region { outer, holes: Vec::new() }
}

pub(crate) fn total(regions: &[Region]) -> f64 {
    regions.iter().map(Region::area).sum()
}

pub(crate) fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}
