//! Whether a shape is true: opposite sides and diagonals of equal length.
//!
//! Opposite sides and diagonals are those of a shape with an even number of corners: from a corner to
//! the one half round. What differs by no more than 1/16 inch agrees (common practice, no source).

use plane::Point;
use serde::Serialize;

/// How far lengths may differ and still agree, in inches.
const AGREE_IN: f64 = 1.0 / 16.0;

/// What a tape measure says about a shape.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Trueness {
    /// Raw lengths of the diagonals from corner to opposite corner, in inches; none for an odd number
    /// of corners.
    pub diagonals_in: Vec<f64>,
    /// Raw lengths of opposite sides, in inches.
    pub opposite_sides_in: Vec<[f64; 2]>,
    /// Whether the diagonals agree.
    pub diagonals_agree: bool,
    /// Whether opposite sides agree.
    pub sides_agree: bool,
}

/// Measures a shape.
#[must_use]
pub fn trueness(corners: &[Point]) -> Trueness {
    let n = corners.len();
    let half = if n.is_multiple_of(2) { n / 2 } else { 0 };
    let side = |i: usize| corners[i % n].distance(corners[(i + 1) % n]);
    let diagonals_in: Vec<f64> = (0..half).map(|i| corners[i].distance(corners[i + half])).collect();
    let opposite_sides_in: Vec<[f64; 2]> = (0..half).map(|i| [side(i), side(i + half)]).collect();
    let spread = |lengths: &[f64]| {
        let (lo, hi) = lengths.iter().fold((f64::INFINITY, 0.0_f64), |(lo, hi), l| (lo.min(*l), hi.max(*l)));
        hi - lo
    };
    Trueness {
        diagonals_agree: spread(&diagonals_in) <= AGREE_IN,
        sides_agree: opposite_sides_in.iter().all(|pair| spread(pair) <= AGREE_IN),
        diagonals_in,
        opposite_sides_in,
    }
}
