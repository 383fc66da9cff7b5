//! Weight of cloth and its area.

use crate::length::{MeasureProblem, within};

/// Square inches in a square metre.
const SQ_IN_PER_SQ_M: f64 = 1e6 / (crate::length::MM_PER_IN * crate::length::MM_PER_IN);

/// What one ounce a square yard is in grams a square metre: 28.349523125 g over 0.83612736 m².
pub const GSM_PER_OZ_SQ_YD: f64 = 28.349_523_125 / 0.836_127_36;

/// Area in square inches of cloth that weighs `grams` at `gsm` grams a square metre.
///
/// # Errors
/// A weight below 0, or a cloth outside 10 to 2000 g/m².
pub fn area_by_weight(grams: f64, gsm: f64) -> Result<f64, MeasureProblem> {
    let grams = within("weight", grams, [0.0, 1e6], "from 0 to 1,000,000 grams")?;
    Ok(grams / heaviness(gsm)? * SQ_IN_PER_SQ_M)
}

/// Weight in grams of an area in square inches at `gsm` grams a square metre.
///
/// # Errors
/// An area below 0, or a cloth outside 10 to 2000 g/m².
pub fn weight_of_area(sq_in: f64, gsm: f64) -> Result<f64, MeasureProblem> {
    let area = within("area", sq_in, [0.0, 1e9], "0 square inches or more")?;
    Ok(area / SQ_IN_PER_SQ_M * heaviness(gsm)?)
}

fn heaviness(gsm: f64) -> Result<f64, MeasureProblem> {
    within("cloth's weight", gsm, [10.0, 2000.0], "from 10 to 2000 grams a square metre")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;

    // Arithmetic from the definitions of ounce, yard and inch.
    #[test]
    fn cloth_weighs_what_its_area_says() {
        near(GSM_PER_OZ_SQ_YD, 33.9057, 0.00005);
        near(GSM_PER_OZ_SQ_YD * 16.0 / (3.5 * 45.0 / 36.0), 124.0, 0.05);
        near(weight_of_area(18.0 * 22.0, 140.0).unwrap(), 35.77, 0.005);
        near(weight_of_area(36.0 * 44.0, 140.0).unwrap(), 143.07, 0.005);
        near(area_by_weight(1000.0, 140.0).unwrap() / SQ_IN_PER_SQ_M, 7.143, 0.0005);
        assert!(area_by_weight(-1.0, 140.0).is_err() && area_by_weight(1.0, 0.0).is_err());
    }
}
