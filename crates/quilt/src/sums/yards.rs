//! Lengths as the shop sells them.

use super::length;
use crate::length::MeasureProblem;

/// Yards to buy for a length, rounded up to the next eighth.
///
/// # Errors
/// A length below 0 or above 10,000 inches.
pub fn yards_to_buy(inches: f64) -> Result<f64, MeasureProblem> {
    let yards = length("length", inches)? / 36.0;
    Ok(((yards - 1e-9) * 8.0).ceil().max(0.0) / 8.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    // castillejacotton and sylviasquiltdepot.com, by their lengths; 27 inches are 3/4 of a yard.
    #[test]
    fn yards_are_bought_by_the_eighth() {
        for (inches, yards) in [(27.5, 0.875), (12.5, 0.375), (188.0, 5.25), (27.0, 0.75), (0.0, 0.0)] {
            assert_eq!(yards_to_buy(inches), Ok(yards));
        }
    }
}
