//! What a layout costs: each term written down, bounded and weighted. Smaller is better.
//!
//! The weights and thresholds are common practice, no source; the terms are:
//! * `over`: how much it is too large, as a share of the wished size, both ways;
//! * `thin`: how far an outer strip would be from the least width, in shares of that;
//! * `strips`: coping strips for each block;
//! * `outer`: share of the wished width and height that is coping round the outside;
//! * `prints`: of the length along which blocks are neighbours, the share where the same prints meet;
//! * `weights`: whether heavy blocks lie beside heavy ones: 0 when every neighbour differs, 1/2 by
//!   chance, 1 when like lies beside like (Moran's I, brought to 0..1; Moran 1950, from memory);
//! * `balance`: how far the centre of visual weight lies off the middle, over the radius of a circle
//!   of the same area, 1 from .20 on (the eye check's measure).

use super::block::Block;
use super::coping::fills;
use super::tree::{Measured, Sizes, Tree};
use serde::Serialize;

/// Blocks that a strip no wider than this parts are still neighbours to the eye, in inches.
const NEAR_IN: f64 = 2.0;

/// The centre of weight so far off the middle costs 1.
const OFF_BALANCE: f64 = 0.20;

/// The terms of a layout's cost, each before its weight.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct CentresCost {
    /// Share by which it is too large.
    pub over: f64,
    /// Outer strips too thin, 0 to 2.
    pub thin: f64,
    /// Coping strips a block.
    pub strips: f64,
    /// Share of width and height that is coping round the outside.
    pub outer: f64,
    /// Same prints beside each other, 0 to 1.
    pub prints: f64,
    /// Like weights beside each other, 0 to 1.
    pub weights: f64,
    /// Weight off the middle, 0 to 1.
    pub balance: f64,
    /// Seams that must stop short and be closed later.
    pub partial_seams: f64,
}

impl CentresCost {
    /// Everything together; 1 more for not having the wished size.
    #[must_use]
    pub fn total(&self) -> f64 {
        let looks = 2.0 * self.prints + self.weights + self.balance;
        let misses = if self.fits() { 0.0 } else { 1.0 };
        let size = misses + 50.0 * self.over + self.thin;
        size + self.strips + self.outer + looks + self.partial_seams
    }

    /// How far it is from the wished size, for a search that has no other care yet.
    pub(super) fn size_total(&self) -> f64 {
        20.0 * self.over + 0.05 * self.thin
    }

    /// Whether it is better than another: one that fits always is than one that doesn't.
    pub(super) fn is_better(&self, other: &Self) -> bool {
        match (self.fits(), other.fits()) {
            (true, false) => true,
            (false, true) => false,
            _ => self.total() < other.total() - 1e-12,
        }
    }

    /// Whether it has the wished size, with strips that are wide enough.
    #[must_use]
    pub const fn fits(&self) -> bool {
        self.over <= 0.0 && self.thin <= 0.0
    }
}

/// The wished size and what deviates from it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Goal {
    pub(super) size: [f64; 2],
    pub(super) tolerance: f64,
    pub(super) least: f64,
}

impl Goal {
    /// The length that a top of length `have` ends with, one way: coped up, or left within the
    /// tolerance.
    pub(super) fn end(&self, have: f64, way: usize) -> f64 {
        if (self.size[way] - have).abs() <= self.tolerance { have } else { self.size[way] }
    }

    /// The terms that follow from the size alone: over, thin, outer, and outer strips.
    pub(super) fn terms(&self, size: [f64; 2]) -> (CentresCost, usize) {
        let mut cost = CentresCost::default();
        let mut strips = 0;
        for (way, have) in size.into_iter().enumerate() {
            let left = self.end(have, way) - have;
            if left < -plane::READING {
                cost.over -= left / self.size[way];
            } else if !fills(have, have + left, self.least) {
                cost.thin += 1.0 - left / self.least;
            } else if left > plane::READING {
                cost.outer += left / self.size[way];
                strips += if left >= 2.0 * self.least { 2 } else { 1 };
            }
        }
        (cost, strips)
    }
}

/// Everything that a layout is judged by, counted out once.
#[derive(Clone, Debug)]
pub(super) struct Judge {
    pub(super) sizes: Sizes,
    pub(super) goal: Goal,
    /// Same prints between each two blocks, in rows.
    alike: Vec<f64>,
    /// Visual weight of each block, and the same with mean 0 and deviation 1.
    weight: Vec<f64>,
    off_mean: Vec<f64>,
}

impl Judge {
    pub(super) fn new(blocks: &[Block], sizes: Sizes, goal: Goal) -> Self {
        let n = blocks.len() as f64;
        let alike = blocks.iter().flat_map(|a| blocks.iter().map(|b| a.alike(b))).collect();
        let weight: Vec<f64> = blocks.iter().map(|block| block.weight).collect();
        let mean = weight.iter().sum::<f64>() / n;
        let deviation = (weight.iter().map(|w| (w - mean).powi(2)).sum::<f64>() / n).sqrt();
        let scaled = |w: &f64| if deviation > 1e-9 { (w - mean) / deviation } else { 0.0 };
        let off_mean = weight.iter().map(scaled).collect();
        Self { sizes, goal, alike, weight, off_mean }
    }

    /// The cost of a tree.
    pub(super) fn cost(&self, tree: &Tree, measured: &mut Measured) -> CentresCost {
        let mut cost = self.size_cost(tree, measured);
        measured.place_down(tree);
        self.looks(&measured.corners, &measured.lying, &mut cost);
        cost
    }

    /// The cost of a tree, without how it looks.
    pub(super) fn size_cost(&self, tree: &Tree, measured: &mut Measured) -> CentresCost {
        measured.size_up(tree, &self.sizes);
        let (mut cost, outer) = self.goal.terms(measured.size);
        cost.strips = (measured.strips + outer) as f64 / self.weight.len() as f64;
        cost
    }

    /// The terms of looks, for blocks with these corners and sizes.
    pub(super) fn looks(&self, corners: &[[f64; 2]], lying: &[[f64; 2]], cost: &mut CentresCost) {
        let n = corners.len();
        let (mut length, mut same, mut like) = (0.0, 0.0, 0.0);
        for i in 0..n {
            for j in i + 1..n {
                let along = beside([corners[i], lying[i]], [corners[j], lying[j]]);
                length += along;
                same += along * self.alike[i * n + j];
                like += along * self.off_mean[i] * self.off_mean[j];
            }
        }
        if length > 0.0 {
            cost.prints = same / length;
            cost.weights = (1.0 + (like / length).clamp(-1.0, 1.0)) / 2.0;
        }
        cost.balance = (self.off_balance(corners, lying) / OFF_BALANCE).min(1.0);
    }

    /// How far the centre of weight lies off the centre of area, over the radius.
    fn off_balance(&self, corners: &[[f64; 2]], lying: &[[f64; 2]]) -> f64 {
        let (mut areas, mut weights) = (0.0, 0.0);
        let (mut middle, mut heavy) = ([0.0; 2], [0.0; 2]);
        for ((corner, size), weight) in corners.iter().zip(lying).zip(&self.weight) {
            let area = size[0] * size[1];
            areas += area;
            weights += weight * area;
            for way in 0..2 {
                let at = corner[way] + size[way] / 2.0;
                middle[way] += at * area;
                heavy[way] += at * area * weight;
            }
        }
        if weights <= 0.0 {
            return 0.0;
        }
        let off = |way: usize| heavy[way] / weights - middle[way] / areas;
        (off(0).powi(2) + off(1).powi(2)).sqrt() / (areas / std::f64::consts::PI).sqrt()
    }
}

/// Along how many inches two rectangles are neighbours.
fn beside([a, a_size]: [[f64; 2]; 2], [b, b_size]: [[f64; 2]; 2]) -> f64 {
    let shared = |way: usize| (a[way] + a_size[way]).min(b[way] + b_size[way]) - a[way].max(b[way]);
    let (x, y) = (shared(0), shared(1));
    match (x > 0.0, y > 0.0) {
        (false, true) if x >= -NEAR_IN => y,
        (true, false) if y >= -NEAR_IN => x,
        // Sizes added up in another order may overlap by a rounding.
        (true, true) => x.max(y),
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbours_are_counted_along_what_they_share() {
        let one = [[0.0, 0.0], [4.0, 4.0]];
        assert_eq!(beside(one, [[4.0, 1.0], [4.0, 4.0]]), 3.0);
        assert_eq!(beside(one, [[1.0, 5.0], [4.0, 4.0]]), 3.0, "a narrow strip between");
        assert_eq!(beside(one, [[7.0, 0.0], [4.0, 4.0]]), 0.0, "a wide strip between");
        assert_eq!(beside(one, [[4.0, 4.0], [4.0, 4.0]]), 0.0, "a corner");
    }
}
