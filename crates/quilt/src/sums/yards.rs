//! Lengths as the shop sells them.

use super::length;
use crate::length::{MeasureProblem, within};

/// Yards to buy for a length, rounded up to the next eighth.
///
/// # Errors
/// A length below 0 or above 10,000 inches.
pub fn yards_to_buy(inches: f64) -> Result<f64, MeasureProblem> {
    let yards = length("length", inches)? / 36.0;
    Ok(((yards - 1e-9) * 8.0).ceil().max(0.0) / 8.0)
}

/// How long a piece of this width is that has an area: the most that cloth can give with no seam and
/// nothing left over, so a bound and never a cutting plan.
///
/// # Errors
/// An area below 0 or a width outside 1/4 to 200 inches.
pub fn length_by_area(area_in2: f64, width_in: f64) -> Result<f64, MeasureProblem> {
    let area = within("area", area_in2, [0.0, 1e9], "0 square inches or more")?;
    Ok(area / within("width", width_in, [0.25, 200.0], "from 1/4 to 200 inches")?)
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

    // T18 getasquiltingstudio.com; T30 quiltingboard t225279.
    #[test]
    fn cloth_of_another_width_has_another_length() {
        let length = length_by_area(18.0 * 18.0, 42.0).unwrap();
        assert!((length - 7.714).abs() < 0.0005);
        assert_eq!(length.ceil(), 8.0);
        assert_eq!(length_by_area(3.0 * 36.0 * 44.0, 110.0), Ok(43.2));
        assert!(length_by_area(-1.0, 42.0).is_err() && length_by_area(1.0, 0.0).is_err());
    }
}
