//! The maker's own seam: what one of her seams really eats, calibrated once from strips.
//!
//! Strips of a known width are sewn side by side and pressed; what is missing across, shared out
//! over the two edges of every seam, is what each edge loses. Inches throughout.

use crate::length::{MeasureProblem, within};
use serde::{Deserialize, Serialize};

/// What one seam eats of each of its two edges, turn of cloth included, in inches.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OwnSeam {
    eats_in: f64,
}

impl OwnSeam {
    /// The seam as it is planned: exactly its allowance of each edge, 1/4 inch.
    pub const QUARTER: Self = Self { eats_in: 0.25 };

    /// From `strips` strips each cut `cut_in` wide that measure `across_in` when sewn together and
    /// pressed: (strips × cut − across) / (2 (strips − 1)).
    ///
    /// # Errors
    /// Fewer than two strips, lengths that aren't positive, or a seam that would eat less than 1/16
    /// or more than 1 inch of an edge.
    pub fn calibrated(strips: u32, cut_in: f64, across_in: f64) -> Result<Self, MeasureProblem> {
        within("number of strips", f64::from(strips), [2.0, 100.0], "from 2 to 100")?;
        within("width of a strip", cut_in, [0.25, 100.0], "from 1/4 to 100 inches")?;
        within("width of the sewn strips", across_in, [0.25, 10_000.0], "from 1/4 to 10,000 inches")?;
        let eats = (f64::from(strips) * cut_in - across_in) / (2.0 * f64::from(strips - 1));
        let must = "from 1/16 to 1 inch of each edge; measure the strips again, after the iron";
        within("seam that follows from these strips", eats, [1.0 / 16.0, 1.0], must)
            .map(|eats_in| Self { eats_in })
    }

    /// What it eats of one edge.
    #[must_use]
    pub const fn eats_in(self) -> f64 {
        self.eats_in
    }

    /// What it eats in all, of both edges.
    #[must_use]
    pub fn whole_in(self) -> f64 {
        2.0 * self.eats_in
    }

    /// How much narrower than planned a piece comes out with `seams` seams across, planned with
    /// `allowance_in`; negative when wider.
    #[must_use]
    pub fn loss_in(self, seams: u32, allowance_in: f64) -> f64 {
        f64::from(seams) * 2.0 * (self.eats_in - allowance_in)
    }

    /// What shows of a patch cut `cut_in` wide between two seams.
    #[must_use]
    pub fn finished_in(self, cut_in: f64) -> f64 {
        cut_in - 2.0 * self.eats_in
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // The seam test of three 1 1/2 strips: 3 1/2 across and 1 in the middle; two strips and other
    // widths beside it. Source: quiltcentric; quiltingaffection 2014; quilting.about.com; avalanden
    // 2010.
    #[test]
    fn three_strips_of_one_and_a_half_make_three_and_a_half() {
        let own = OwnSeam::calibrated(3, 1.5, 3.5).unwrap();
        assert_eq!(own, OwnSeam::QUARTER);
        assert_eq!(own.finished_in(1.5), 1.0);
        assert_eq!(own.finished_in(2.0), 1.5);
        assert_eq!(own.finished_in(5.0), 4.5);
        assert_eq!(OwnSeam::calibrated(2, 2.5, 4.5).unwrap(), OwnSeam::QUARTER);
    }

    // Common practice, no source: 3 7/16 across means 17/32 a seam and 3/8 over twelve.
    #[test]
    fn a_sixteenth_short_loses_three_eighths_over_twelve_seams() {
        let own = OwnSeam::calibrated(3, 1.5, 3.0 + 7.0 / 16.0).unwrap();
        assert_eq!(own.whole_in(), 17.0 / 32.0);
        assert_eq!(own.loss_in(12, 0.25), 3.0 / 8.0);
    }

    #[test]
    fn strips_that_can_not_be_so_are_refused() {
        for (strips, cut, across) in [
            (1, 1.5, 1.5),
            (3, 1.5, 4.5),
            (3, 1.5, 0.3),
            (3, f64::NAN, 3.5),
            (3, 1.5, f64::INFINITY),
            (0, 1.5, 3.5),
        ] {
            assert!(OwnSeam::calibrated(strips, cut, across).is_err(), "{strips} {cut} {across}");
        }
    }
}
