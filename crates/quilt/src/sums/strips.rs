//! Strip sets.

use super::{length, seam};
use crate::length::{MeasureProblem, within};

/// Width of a strip set of `strips` strips cut `cut_in` wide: `(cut − 2s) n + 2s`.
///
/// # Errors
/// No strips, or strips that the seams use up.
pub fn strip_set_width(strips: u32, cut_in: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    within("number of strips", f64::from(strips), [1.0, 1000.0], "from 1 to 1000")?;
    let shows = length("width of a strip", cut_in)? - 2.0 * seam(seam_in)?;
    let must = "more than 0; cut the strips wider than two seams";
    within("finished width of a strip", shows, [f64::MIN_POSITIVE, f64::MAX], must)?;
    Ok(shows * f64::from(strips) + 2.0 * seam_in)
}

#[cfg(test)]
mod tests {
    use super::*;

    // vickisfabriccreations 2013/10.
    #[test]
    fn a_strip_set_is_as_wide_as_its_strips_less_the_seams() {
        assert_eq!(strip_set_width(9, 3.25, 0.25), Ok(25.25));
        assert_eq!(strip_set_width(16, 2.375, 0.25), Ok(30.5));
        let refused = strip_set_width(3, 0.5, 0.25).unwrap_err().to_string();
        assert!(refused.contains("strip") && !refused.contains("round"), "{refused}");
    }
}
