//! Lengths as true fractions of an inch, as drawings show them.

use quilt::length::Length;

/// A length in inches as a whole number and a fraction, to the nearest `1 / denominator`, set as
/// printers do: `2¼`, `5³⁄₁₆`. What is no length of cloth (not a number, or miles of it) is a dash.
#[must_use]
pub fn fraction(inches: f64, denominator: u32) -> String {
    Length::try_from_inches(inches).map_or_else(|_| "–".to_owned(), |length| length.pretty(denominator))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_set_as_fractions() {
        for (inches, denominator, words) in
            [(2.25, 8, "2¼"), (5.375, 8, "5⅜"), (5.1875, 16, "5³⁄₁₆"), (3.0, 8, "3"), (f64::NAN, 8, "–")]
        {
            assert_eq!(fraction(inches, denominator), words);
        }
    }
}
