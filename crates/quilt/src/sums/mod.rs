//! The sums that makers do on paper, each with its formula.
//!
//! Lengths are inches, angles inside angles of the raw outline in degrees. Nothing here needs a
//! workroom or a log. Values that make no sense are refused with what they must be.

mod cover;
mod cut;
mod rounds;
mod strips;
mod weight;
mod yards;

pub use cover::{cover_need, tip_overshoot, trim_for_cover};
pub use cut::{half_square_allowance, quarter_square_allowance};
pub use rounds::{RoundsToGo, least_cut, round_adds, rounds_to_go};
pub use strips::strip_set_width;
pub use weight::{GSM_PER_OZ_SQ_YD, area_by_weight, weight_of_area};
pub use yards::yards_to_buy;

use crate::length::{MeasureProblem, within};

fn length(what: &'static str, inches: f64) -> Result<f64, MeasureProblem> {
    within(what, inches, [0.0, crate::length::MOST_IN], "a length from 0 to 10,000 inches")
}

fn corner(degrees: f64) -> Result<f64, MeasureProblem> {
    within("corner", degrees, [1.0, 179.0], "an inside angle from 1 to 179 degrees").map(f64::to_radians)
}

fn seam(inches: f64) -> Result<f64, MeasureProblem> {
    within("seam allowance", inches, [0.0, 2.0], "from 0 to 2 inches")
}

#[cfg(test)]
mod tests {
    #[track_caller]
    pub(super) fn near(found: f64, expected: f64, tolerance: f64) {
        assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
    }
}
