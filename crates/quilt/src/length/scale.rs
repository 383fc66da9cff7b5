//! In which unit lengths are told.

use super::{Length, fraction};
use std::fmt;

/// The scale on the maker's ruler.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Scale {
    /// Inches and their parts.
    #[default]
    Inches,
    /// Centimetres, to the millimetre.
    Centimetres,
}

/// Square centimetres in a square inch.
const CM2_PER_IN2: f64 = 2.54 * 2.54;

impl Scale {
    /// A length that is given in inches: to the nearest of `parts` to the inch, `2 1/4`, or in centimetres with
    /// their word, `5.7 cm`. What is no length, or beyond belief, is told in inches.
    #[must_use]
    pub fn length(self, inches: f64, parts: u32) -> String {
        match (self, Length::try_from_inches(inches)) {
            (Self::Centimetres, Ok(length)) => length.cm(),
            _ => fraction(inches, parts),
        }
    }

    /// The same without the word of the unit, for a drawing that says it elsewhere: `2 1/4`, `5.7`.
    #[must_use]
    pub fn figure(self, inches: f64, parts: u32) -> String {
        let words = self.length(inches, parts);
        words.strip_suffix(" cm").map_or_else(|| words.clone(), str::to_owned)
    }

    /// The word for square inches or square centimetres.
    #[must_use]
    pub const fn squares(self) -> &'static str {
        match self {
            Self::Inches => "square inches",
            Self::Centimetres => "square cm",
        }
    }

    /// An area that is given in square inches, in the squares of the scale.
    #[must_use]
    pub fn area(self, square_inches: f64) -> f64 {
        match self {
            Self::Inches => square_inches,
            Self::Centimetres => square_inches * CM2_PER_IN2,
        }
    }
}

impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Inches => "inches",
            Self::Centimetres => "centimetres",
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_and_an_area_are_told_in_the_unit_of_the_scale() {
        assert_eq!(Scale::Inches.length(2.25, 8), "2 1/4");
        assert_eq!(Scale::Centimetres.length(2.25, 8), "5.7 cm");
        assert_eq!(Scale::Centimetres.figure(2.25, 8), "5.7");
        assert_eq!(Scale::Inches.figure(2.25, 8), "2 1/4");
        // 1 inch is 2.54 cm, so 100 square inches are 645.16 square centimetres.
        assert!((Scale::Centimetres.area(100.0) - 645.16).abs() < 1e-9);
        assert!((Scale::Inches.area(100.0) - 100.0).abs() < 1e-12);
    }
}
