//! From finished sizes to cut ones.

use super::seam;
use crate::length::MeasureProblem;

/// What to add to the finished leg of a half-square triangle when cutting: `s (2 + √2)`.
///
/// # Errors
/// A seam outside 0 to 2 inches.
pub fn half_square_allowance(seam_in: f64) -> Result<f64, MeasureProblem> {
    Ok(seam(seam_in)? * (2.0 + std::f64::consts::SQRT_2))
}

/// What to add to the finished long side of a quarter-square triangle: `2 s (1 + √2)`.
///
/// # Errors
/// A seam outside 0 to 2 inches.
pub fn quarter_square_allowance(seam_in: f64) -> Result<f64, MeasureProblem> {
    Ok(2.0 * seam(seam_in)? * (1.0 + std::f64::consts::SQRT_2))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;

    // karencombs.com page 31; grannymaudsgirl 2018 (finished 2 and 3).
    #[test]
    fn triangles_get_the_usual_allowances() {
        near(half_square_allowance(0.25).unwrap(), 0.853_553, 1e-6);
        near(quarter_square_allowance(0.25).unwrap(), 1.207_107, 1e-6);
        for (finished, cut) in [(2.0, 2.875), (3.0, 3.875)] {
            let exact = finished + half_square_allowance(0.25).unwrap();
            assert_eq!(crate::length::round_up(exact, 8), cut);
        }
    }
}
