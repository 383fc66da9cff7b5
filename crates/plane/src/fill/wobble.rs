//! A hand's wobble: a smooth line that wanders to both sides, the same for the same seed.
//!
//! Between places a wave apart the line swings from one drawn value to the next without a kink.
//! Values come from mixing the bits of seed and place; nothing is kept between calls.

use serde::{Deserialize, Serialize};

/// How unsteady the hand is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Wobble {
    /// At most so far to either side, in inches.
    pub amplitude_in: f64,
    /// From one swing to the next, in inches along the line.
    #[serde(default = "usual_wave")]
    pub wave_in: f64,
    /// Which hand: the same number gives the same line.
    #[serde(default)]
    pub seed: u64,
}

const fn usual_wave() -> f64 {
    4.0
}

impl Wobble {
    /// A wobble of so many inches, with the usual wave of 4 inches.
    #[must_use]
    pub const fn new(amplitude_in: f64, seed: u64) -> Self {
        Self { amplitude_in, wave_in: usual_wave(), seed }
    }

    /// How far the row numbered `row` is off at `along` inches, within the amplitude.
    #[must_use]
    pub fn at(&self, row: i64, along: f64) -> f64 {
        self.amplitude_in * self.share(row, along).0
    }

    /// The same hand, its amplitude told in rows.
    pub(crate) fn in_rows(self, rows_an_inch: f64) -> Self {
        Self { amplitude_in: self.amplitude_in * rows_an_inch, ..self }
    }

    /// The swing from -1 to 1, and how it changes for each inch.
    pub(crate) fn share(&self, row: i64, along: f64) -> (f64, f64) {
        let at = along / self.wave_in;
        let (place, t) = (at.floor(), at - at.floor());
        let from = drawn(self.seed, row, place as i64);
        let to = drawn(self.seed, row, place as i64 + 1);
        let swing = from + (to - from) * t * t * (3.0 - 2.0 * t);
        (swing, (to - from) * 6.0 * t * (1.0 - t) / self.wave_in)
    }

    /// The steepest that it gets: rise over run.
    pub(crate) fn steepest(&self) -> f64 {
        3.0 * self.amplitude_in / self.wave_in
    }

    /// A step along the line short enough to follow the swings.
    pub(crate) fn step(&self) -> f64 {
        self.wave_in / 8.0
    }
}

/// A number from -1 to 1 for a place (the mixer of splitmix64).
fn drawn(seed: u64, row: i64, place: i64) -> f64 {
    let mut z = seed
        .wrapping_mul(0x9e37_79b9_7f4a_7c15)
        .wrapping_add((row as u64).wrapping_mul(0xd1b5_4a32_d192_ed03))
        .wrapping_add((place as u64).wrapping_mul(0x8cb9_2ba7_2f3d_8dd7));
    for (shift, by) in [(30, 0xbf58_476d_1ce4_e5b9), (27, 0x94d0_49bb_1331_11eb)] {
        z = (z ^ (z >> shift)).wrapping_mul(by);
    }
    ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_stays_within_its_amplitude_and_uses_it() {
        let wobble = Wobble::new(0.1, 3);
        let swings: Vec<f64> = (0..40_000).map(|i| wobble.at(5, f64::from(i) * 0.05)).collect();
        let most = swings.iter().fold(0.0_f64, |most, s| most.max(s.abs()));
        assert!(most <= 0.1 && most > 0.09, "{most}");
        let steepest = swings.windows(2).map(|w| (w[1] - w[0]).abs() / 0.05).fold(0.0, f64::max);
        assert!(steepest <= wobble.steepest(), "{steepest}");
        assert_eq!(wobble.at(5, 17.25), Wobble::new(0.1, 3).at(5, 17.25));
        assert_ne!(wobble.at(5, 17.25), Wobble::new(0.1, 4).at(5, 17.25));
    }
}
