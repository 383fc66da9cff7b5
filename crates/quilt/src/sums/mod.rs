//! The sums that makers do on paper, each with its formula.
//!
//! Lengths are inches, angles inside angles of the raw outline in degrees. Nothing here needs a
//! workroom or a log. Values that make no sense are refused with what they must be.

mod backing;
mod bias;
mod binding;
mod border;
mod cover;
mod cut;
mod rounds;
mod shrink;
mod sleeve;
mod spiral;
mod strips;
mod thread;
mod weight;
mod wished;
mod yards;

pub use backing::{BACKING_SEAM_IN, Panels, Seams, backing, backing_run, panels_across};
pub use bias::{Bias, bias_from_square, bias_strips, selvage_measure, square_by_area, square_for_bias};
pub use binding::{
    BindingStrips, HANDLING_IN, Join, LAP_IN, bare_binding_width, binding_back, binding_seam, binding_strips,
    binding_width, single_fold_width, strips_by_extra,
};
pub use border::{BorderProblem, BorderSide, MitredBorder, mitred_border};
pub use cover::{cover_need, tip_overshoot, trim_for_cover};
pub use cut::{
    CutShape, CutSize, allowance, cut_size, half_square_allowance, printed_setting_squares,
    quarter_square_allowance, setting_squares, squares_from,
};
pub use rounds::{RoundsToGo, least_cut, round_adds, rounds_to_go};
pub use shrink::{after_shrinking, before_shrinking, shrunk_percent};
pub use sleeve::{
    BRACKET_GAP_IN, CLEAR_IN, END_HEM_IN, SPLIT_ABOVE_IN, Sleeve, flat_sleeve, rod_most, sleeve,
    usual_sleeve_strip,
};
pub use spiral::{corner_gap, spiral_by_area, spiral_length};
pub use strips::strip_set_width;
pub use thread::{
    FLAT_RATIO, Lockstitch, ThreadSize, bobbin_ratio, hand_ratio, line_of_area, lockstitch, lockstitch_ratio,
    stitches_per_in, with_waste,
};
pub use weight::{GSM_PER_OZ_SQ_YD, area_by_weight, weight_of_area};
pub use wished::{WASTE, Wished, WishedColour, wished};
pub use yards::{length_by_area, yards_to_buy};

use crate::length::{MeasureProblem, within};

fn length(what: &'static str, inches: f64) -> Result<f64, MeasureProblem> {
    within(what, inches, [0.0, crate::length::MOST_IN], "a length from 0 to 10,000 inches")
}

fn some(what: &'static str, inches: f64) -> Result<f64, MeasureProblem> {
    let most = [f64::MIN_POSITIVE, crate::length::MOST_IN];
    within(what, inches, most, "a length longer than 0, at most 10,000 inches")
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
