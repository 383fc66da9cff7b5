//! Covering a seam line: what a patch needs there, and what its tips reach beyond it.

use super::{corner, length, seam};
use crate::length::{MeasureProblem, within};

/// The length a patch must have along the seam line to cover a raw edge:
/// `edge − seam (cot A1 + cot A2)`. At obtuse corners that is more than the edge.
///
/// # Errors
/// A corner outside 1 to 179 degrees, a seam outside 0 to 2 inches, an edge that is none, or a
/// seam that would use the edge up.
pub fn cover_need(edge_in: f64, a1_deg: f64, a2_deg: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    let most = crate::length::MOST_IN;
    let edge =
        within("edge", edge_in, [f64::MIN_POSITIVE, most], "longer than 0, and at most 10,000 inches")?;
    let s = seam(seam_in)?;
    let need = edge - s * (1.0 / corner(a1_deg)?.tan() + 1.0 / corner(a2_deg)?.tan());
    let must = "more than 0; the corners are too sharp for so wide a seam on so short an edge";
    within("length left at the seam line", need, [f64::MIN_POSITIVE, f64::MAX], must)
}

/// How far a tip's raw point reaches beyond its finished point: `seam / sin(b/2)`.
///
/// # Errors
/// A tip outside 1 to 179 degrees or a seam outside 0 to 2 inches.
pub fn tip_overshoot(tip_deg: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    Ok(seam(seam_in)? / (corner(tip_deg)? / 2.0).sin())
}

/// How much to trim off the neighbour at a corner of `corner_deg` so that the seam line gets
/// `short_in` shorter there: `short × sin A`.
///
/// # Errors
/// A corner outside 1 to 179 degrees or a length below 0.
pub fn trim_for_cover(short_in: f64, corner_deg: f64) -> Result<f64, MeasureProblem> {
    Ok(length("missing length", short_in)? * corner(corner_deg)?.sin())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;

    // Common practice, no source; the figures follow from the geometry of a strip s wide.
    #[test]
    fn a_patch_must_cover_the_seam_line_not_the_raw_edge() {
        near(cover_need(5.375, 128.0, 135.0, 0.25).unwrap(), 5.820, 0.0005);
        near(cover_need(9.25, 140.0, 146.0, 0.25).unwrap(), 9.919, 0.0005);
        for (corner, extra) in [(108.0, 0.163), (120.0, 0.289), (135.0, 0.500), (150.0, 0.866)] {
            near(cover_need(6.0, corner, corner, 0.25).unwrap() - 6.0, extra, 0.001);
        }
        near(cover_need(6.0, 90.0, 90.0, 0.25).unwrap(), 6.0, 1e-12);
        for bad in [(5.0, 0.0, 90.0, 0.25), (5.0, 90.0, 180.0, 0.25), (f64::NAN, 90.0, 90.0, 0.25)] {
            assert!(cover_need(bad.0, bad.1, bad.2, bad.3).is_err(), "{bad:?}");
        }
        assert!(cover_need(1.0, 20.0, 20.0, 0.25).is_err(), "the seam uses the edge up");
        assert!(cover_need(0.0, 140.0, 140.0, 0.25).is_err(), "an edge that is none");
    }

    // Common practice, no source.
    #[test]
    fn a_tip_reaches_beyond_its_finished_point() {
        for (tip, reach) in [(60.0, 0.50), (30.0, 0.97), (20.0, 1.44)] {
            near(tip_overshoot(tip, 0.25).unwrap(), reach, 0.005);
        }
    }
}
