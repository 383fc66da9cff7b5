//! Lengths as makers write them, and angles.
//!
//! Read are `2 1/4`, `2-1/4`, `2 1/4"`, `2¼`, `2.25`, `2,25`, `3 in`, `57 mm`, `5.7 cm`, `1/8 yd`,
//! `half a yard`, `1'`; without a unit a number is inches. Refused, with the place and what to do: what isn't a number, a fraction
//! over nothing, a negative length where none makes sense, and more than [`MOST_IN`]. Printing
//! rounds to the fraction asked for and never shows one that can be shortened.

mod angle;
mod fraction;
mod problem;
mod read;
mod scale;

pub use angle::Angle;
pub use fraction::{fraction, many, round_up, sixteenths, whole_up, yards};
pub use problem::MeasureProblem;
pub(crate) use problem::within;
pub use scale::Scale;

use fraction::{pretty, unsigned_zero};
use read::{read_number, split_sign, split_unit};
use serde::Serialize;
use std::fmt;
use std::str::FromStr;

/// The longest length that is believed, in inches: some 250 metres of cloth.
pub const MOST_IN: f64 = 10_000.0;

/// Millimetres in an inch, exactly, since 1959.
pub const MM_PER_IN: f64 = 25.4;

/// A length. Inches inside; finite, and no longer than [`MOST_IN`] either way.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct Length(f64);

impl Length {
    /// A length in inches.
    ///
    /// # Errors
    /// When it isn't finite or longer than [`MOST_IN`] either way.
    pub fn try_from_inches(inches: f64) -> Result<Self, MeasureProblem> {
        within("length in inches", inches, [-MOST_IN, MOST_IN], "a number up to 10,000").map(Self)
    }

    /// Inches.
    #[must_use]
    pub const fn inches(self) -> f64 {
        self.0
    }

    /// Reads a length that may be negative, such as a slide along an edge.
    ///
    /// # Errors
    /// What can't be read, and how to write it.
    pub fn parse_signed(text: &str) -> Result<Self, MeasureProblem> {
        let all = text.trim();
        let (negative, rest) = split_sign(all);
        let (number, unit_in) = split_unit(rest, all)?;
        let inches = read_number(number, all)? * unit_in;
        if inches > MOST_IN {
            return Err(MeasureProblem::TooLong { text: all.to_owned(), inches });
        }
        Ok(Self(if negative { -inches } else { inches }))
    }

    /// As a mixed fraction to the nearest of `parts` to the inch: `2 1/4`.
    #[must_use]
    pub fn fraction(self, parts: u32) -> String {
        fraction(self.0, parts)
    }

    /// As a mixed fraction to the nearest of `parts` to the inch, set as printers do: `2¼`, `2³⁄₁₆`.
    #[must_use]
    pub fn pretty(self, parts: u32) -> String {
        pretty(self.0, parts)
    }

    /// In whole millimetres: `57 mm`.
    #[must_use]
    pub fn mm(self) -> String {
        format!("{:.0} mm", unsigned_zero((self.0 * MM_PER_IN).round()))
    }

    /// In centimetres, to the millimetre: `5.7 cm`.
    #[must_use]
    pub fn cm(self) -> String {
        format!("{:.1} cm", unsigned_zero((self.0 * MM_PER_IN).round()) / 10.0)
    }
}

impl FromStr for Length {
    type Err = MeasureProblem;
    /// Reads a length that can't be negative.
    fn from_str(text: &str) -> Result<Self, MeasureProblem> {
        let length = Self::parse_signed(text)?;
        if split_sign(text.trim()).0 {
            return Err(MeasureProblem::Negative { text: text.trim().to_owned() });
        }
        Ok(length)
    }
}

impl fmt::Display for Length {
    /// To the nearest eighth, with the inch sign.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}\"", self.fraction(8))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_is_read_however_makers_write_it() {
        for (text, inches) in [
            ("2 1/4", 2.25),
            ("2-1/4", 2.25),
            ("2 1/4\"", 2.25),
            ("2¼", 2.25),
            ("2 ¼ in", 2.25),
            ("2.25", 2.25),
            (".5", 0.5),
            ("3 in", 3.0),
            ("3 in.", 3.0),
            ("3IN", 3.0),
            ("7/8\"", 0.875),
            ("⅞", 0.875),
            ("3⁄8", 0.375),
            ("57 mm", 57.0 / 25.4),
            ("5.7cm", 57.0 / 25.4),
            ("1 m", 1000.0 / 25.4),
            ("1/8 yd", 4.5),
            ("1 1/2 yd", 54.0),
            ("2 ft", 24.0),
            ("1'", 12.0),
            ("1 1/2′", 18.0),
            ("2,5", 2.5),
            ("2,5 cm", 2.5 / 2.54),
            ("half yard", 18.0),
            ("half a yard", 18.0),
            ("quarter yd", 9.0),
            ("0", 0.0),
        ] {
            let read: Length = text.parse().unwrap();
            assert!((read.inches() - inches).abs() < 1e-12, "{text}: {}", read.inches());
        }
    }

    #[test]
    fn nonsense_is_refused_with_its_place_and_what_to_do() {
        for (text, says) in [
            ("", "missing"),
            ("  ", "missing"),
            ("2 1/0", "0 parts"),
            ("nan", "can't be read"),
            ("inf", "can't be read"),
            ("1e5", "can't be read"),
            ("-2", "minus"),
            ("-0", "minus"),
            ("2 5/4", "`5/4` can't be read"),
            ("2 1/4 1/8", "can't be read"),
            ("2 furlongs", "`furlongs`"),
            ("1/2/3", "can't be read"),
            ("2.5 1/4", "can't be read"),
            ("1/-4", "can't be read"),
            (".", "can't be read"),
            ("10001", "longer than any cloth"),
            ("400 yd", "14400 inches"),
            ("¼¼", "can't be read"),
            ("5-", "can't be read"),
            ("+5-", "can't be read"),
            ("2--1/4", "can't be read"),
            ("2,5,1", "decimal comma"),
            ("1,000", "a decimal comma"),
            ("2 - 1/4", "can't be read"),
            ("2-3", "can't be read"),
        ] {
            let refused = text.parse::<Length>().unwrap_err().to_string();
            assert!(refused.contains(says), "{text}: {refused}");
        }
        assert_eq!(Length::parse_signed("-1/2").unwrap().inches(), -0.5);
        for bad in ["+-5", "-+5", "--5", "- -5", "-5-"] {
            assert!(Length::parse_signed(bad).is_err(), "{bad}");
        }
        assert_eq!(Length::parse_signed("-2-¼").unwrap().inches(), -2.25);
        assert!(Length::try_from_inches(f64::NAN).is_err());
    }

    #[test]
    fn what_is_printed_is_read_back_as_it_was() {
        for eighth in 0..200_u32 {
            let length = Length::try_from_inches(f64::from(eighth) / 16.0).unwrap();
            assert_eq!(length.fraction(16).parse::<Length>().unwrap(), length);
            assert_eq!(fraction(length.inches(), 64), length.fraction(16));
        }
    }

    #[test]
    fn fractions_are_shortened_and_set_as_fractions() {
        let shown = |inches: f64, parts| {
            let length = Length::try_from_inches(inches).unwrap();
            (length.fraction(parts), length.pretty(parts))
        };
        let both = |a: &str, b: &str| (a.to_owned(), b.to_owned());
        assert_eq!(shown(2.25, 64), both("2 1/4", "2¼"));
        assert_eq!(shown(0.1875, 16), both("3/16", "³⁄₁₆"));
        assert_eq!(shown(-0.5, 8), both("-1/2", "−½"));
        assert_eq!(shown(-0.01, 8), both("0", "0"));
        assert_eq!(shown(2.99, 8), both("3", "3"));
        assert_eq!(Length::try_from_inches(2.25).unwrap().mm(), "57 mm");
        assert_eq!(Length::try_from_inches(2.25).unwrap().cm(), "5.7 cm");
        assert_eq!(fraction(f64::NAN, 8), "0");
    }

    #[test]
    fn rounding_up_leaves_what_is_already_on_the_ruler() {
        assert_eq!(round_up(0.235, 8), 0.25);
        assert_eq!(round_up(0.25, 8), 0.25);
        assert_eq!(round_up(0.2505, 8), 0.25);
        assert_eq!(round_up(0.26, 8), 0.375);
    }

    #[test]
    fn angles_are_degrees() {
        for text in ["128", "128°", "128 deg", "128 degrees"] {
            assert_eq!(text.parse::<Angle>().unwrap().degrees(), 128.0);
        }
        assert_eq!("-22.5".parse::<Angle>().unwrap().to_string(), "-22.5°");
        for bad in ["", "361", "nan", "north", "+-5", "5-"] {
            let refused = bad.parse::<Angle>().unwrap_err().to_string();
            assert!(refused.contains("angle") && !refused.contains("length"), "{bad}: {refused}");
        }
    }
}
