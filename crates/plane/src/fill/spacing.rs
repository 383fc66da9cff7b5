//! How far apart rows are wished, and within which bounds.

use super::{FillProblem, Ground, Wobble};
use serde::{Deserialize, Serialize};

/// No rows closer than this: below the stitch itself. Matchstick lines are 1/8 apart.
pub const LEAST_SPACING: f64 = 1.0 / 16.0;

/// No bound below this: rows closer than 1/64 inch are one row.
const LEAST_BOUND: f64 = 1.0 / 64.0;

/// No more line than this, in inches; some 30 bed-size quilts in matchstick lines.
pub const MOST_LENGTH: f64 = 3_000_000.0;

/// The distance of rows in inches.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spacing {
    /// As wished.
    pub wish_in: f64,
    /// Never less.
    pub least_in: f64,
    /// Never more.
    pub most_in: f64,
}

impl Spacing {
    /// As wished, a quarter more or less allowed.
    #[must_use]
    pub fn about(wish_in: f64) -> Self {
        Self { wish_in, least_in: 0.75 * wish_in, most_in: 1.25 * wish_in }
    }

    /// Widest over narrowest that the bounds allow.
    #[must_use]
    pub fn ratio(&self) -> f64 {
        self.most_in / self.least_in
    }

    pub(super) fn check(&self, ground: &Ground) -> Result<(), FillProblem> {
        let Self { wish_in: wish, least_in: least, most_in: most } = *self;
        number("the spacing", wish, LEAST_SPACING, 1000.0)?;
        if !(least >= LEAST_BOUND && least <= wish && wish <= most && most.is_finite()) {
            return Err(FillProblem::Bounds { least, wish, most });
        }
        let length = ground.area() / wish;
        if length > MOST_LENGTH {
            return Err(FillProblem::TooMuch { length, most: MOST_LENGTH });
        }
        Ok(())
    }

    /// Refuses a wobble by which neighbouring rows `apart` inches apart could leave the bounds.
    /// Where both lean, rows come closer by the cosine of the lean.
    pub(super) fn check_wobble(&self, wobble: Option<Wobble>, apart: f64) -> Result<(), FillProblem> {
        let Some(wobble) = wobble else { return Ok(()) };
        number("the wobble", wobble.amplitude_in, 0.0, 10.0)?;
        number("the wobble's wave", wobble.wave_in, 0.5, 1000.0)?;
        let holds = |amplitude: f64| {
            let lean = 1.0 / (1.0 + Wobble { amplitude_in: amplitude, ..wobble }.steepest().powi(2)).sqrt();
            (apart - 2.0 * amplitude) * lean >= self.least_in && apart + 2.0 * amplitude <= self.most_in
        };
        if holds(wobble.amplitude_in) || wobble.amplitude_in == 0.0 {
            return Ok(());
        }
        let (mut low, mut high) = (0.0, wobble.amplitude_in);
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            if holds(middle) { low = middle } else { high = middle }
        }
        Err(FillProblem::Wobble { given: wobble.amplitude_in, most: low })
    }
}

/// Refuses a number that is not within its limits.
pub(super) fn number(what: &'static str, given: f64, least: f64, most: f64) -> Result<(), FillProblem> {
    if given >= least && given <= most {
        Ok(())
    } else {
        Err(FillProblem::Number { what, given, least, most })
    }
}
