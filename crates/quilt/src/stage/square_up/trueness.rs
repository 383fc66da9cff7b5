//! Whether a shape is true: opposite sides and diagonals of equal length.
//!
//! Opposite sides and diagonals are those of a shape of four corners; no others need to agree. What differs by no more than 1/16 inch agrees (common practice, no source).

use plane::Point;
use serde::Serialize;

/// How far lengths may differ and still agree, in inches.
const AGREE_IN: f64 = 1.0 / 16.0;

/// What a tape measure says about a shape.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Trueness {
    /// Raw lengths of the diagonals from corner to opposite corner, in inches; none unless it has four
    /// corners.
    pub diagonals_in: Vec<f64>,
    /// Raw lengths of opposite sides, in inches.
    pub opposite_sides_in: Vec<[f64; 2]>,
    /// Whether the diagonals agree; only said of four corners.
    pub diagonals_agree: Option<bool>,
    /// Whether opposite sides agree; only said of four corners.
    pub sides_agree: Option<bool>,
}

/// Measures a shape.
#[must_use]
pub fn trueness(corners: &[Point]) -> Trueness {
    let [a, b, c, d] = *corners else {
        return Trueness {
            diagonals_in: Vec::new(),
            opposite_sides_in: Vec::new(),
            diagonals_agree: None,
            sides_agree: None,
        };
    };
    let diagonals = [a.distance(c), b.distance(d)];
    let opposite = [[a.distance(b), c.distance(d)], [b.distance(c), d.distance(a)]];
    let agree = |pair: &[f64; 2]| (pair[0] - pair[1]).abs() <= AGREE_IN;
    Trueness {
        diagonals_agree: Some(agree(&diagonals)),
        sides_agree: Some(opposite.iter().all(agree)),
        diagonals_in: diagonals.to_vec(),
        opposite_sides_in: opposite.to_vec(),
    }
}
