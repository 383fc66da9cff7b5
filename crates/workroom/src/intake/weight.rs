//! Scraps by weight: how much cloth a bag of a known weight holds.

use super::IntakeProblem;
use crate::stash::NewCloth;
use plane::Region;

/// Grams of a square metre of quilting cotton, where the maker doesn't say: 4 to 5 ounces a
/// square yard is 136 to 170 (one source, and a seller's: no standard).
pub const GRAMS_PER_M2: f64 = 140.0;

/// Square inches in a square metre: 1 / 0.0254².
const IN2_PER_M2: f64 = 1.0 / (0.0254 * 0.0254);

/// Cloth of a weight, as a square of that area, its size marked as about right.
///
/// # Errors
/// Weights that aren't more than nothing, or would come to an absurd size.
pub fn from_weight(words: &str, grams: f64, grams_per_m2: f64) -> Result<NewCloth, IntakeProblem> {
    let check = |what, value: f64, most: f64, wanted| {
        let sound = value.is_finite() && value > 0.0 && value <= most;
        if sound { Ok(()) } else { Err(IntakeProblem::Number { what, value, wanted }) }
    };
    check("the weight", grams, 50_000.0, "more than 0 and at most 50,000 grams")?;
    check("the weight of a square metre", grams_per_m2, 2_000.0, "more than 0 and at most 2,000 grams")?;
    let side_in = (grams / grams_per_m2 * IN2_PER_M2).sqrt();
    check("the side of a square of that weight", side_in, super::MOST_IN, "at most 1,000 inches")?;
    let mut cloth = super::described(words, Region::rectangle(side_in, side_in));
    cloth.about = true;
    Ok(cloth)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fat_quarter_and_a_yard_weigh_what_they_should() {
        // CHECKS T71 (geometry): at 140 g/m2 an 18 x 22 piece is 35.77 g, a yard of 44 in 143.07 g,
        // and 1 kg is 7.143 m2.
        for (grams, area_in2) in [(35.77, 18.0 * 22.0), (143.07, 36.0 * 44.0), (1000.0, 7.143 * 1550.0031)] {
            let cloth = from_weight("scraps", grams, GRAMS_PER_M2).unwrap();
            assert!((cloth.outline.area() / area_in2 - 1.0).abs() < 2e-4, "{grams} g");
            assert!(cloth.about);
        }
    }

    #[test]
    fn a_weight_of_nothing_is_refused() {
        for bad in [0.0, -3.0, f64::NAN, f64::INFINITY, 1e9] {
            assert!(from_weight("scraps", bad, 140.0).is_err());
            assert!(from_weight("scraps", 10.0, bad).is_err());
        }
    }
}
