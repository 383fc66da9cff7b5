//! Lengths and angles as makers write them.
//!
//! Read are `2 1/4`, `2-1/4`, `2 1/4"`, `2¼`, `2.25`, `3 in`, `57 mm`, `5.7 cm`, `1/8 yd`; without a
//! unit a number is inches. Refused, with the place and what to do: what isn't a number, a fraction
//! over nothing, a negative length where none makes sense, and more than [`MOST_IN`]. Printing
//! rounds to the fraction asked for and never shows one that can be shortened.

use plane::Turn;
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

/// An angle. Degrees inside; finite.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct Angle(f64);

/// Why a text or a number is no measure that can be worked with.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MeasureProblem {
    /// Nothing was written.
    #[error("A length is missing: write one, as in 2 1/4 or 57 mm.")]
    Empty,
    /// Something in it can't be read.
    #[error(
        "`{text}` is not a measure: `{part}` can't be read. Write it as in 2 1/4, 2.25, 57 mm or 1/8 yd."
    )]
    Unreadable {
        /// All that was written.
        text: String,
        /// The part that can't be read.
        part: String,
    },
    /// A fraction over nothing.
    #[error("`{text}` is not a length: nothing can be divided into 0 parts. Write the fraction as in 1/4.")]
    OverNothing {
        /// All that was written.
        text: String,
    },
    /// Below zero, where that makes no sense.
    #[error("`{text}` is less than nothing: this length can't be negative. Leave out the minus sign.")]
    Negative {
        /// All that was written.
        text: String,
    },
    /// Longer than any cloth.
    #[error("`{text}` is {inches:.0} inches, longer than any cloth: the most is {most:.0}. Check the unit.", most = MOST_IN)]
    TooLong {
        /// All that was written.
        text: String,
        /// What it comes to.
        inches: f64,
    },
    /// A value outside what the sum can be done for.
    #[error("The {what} is {found}: it must be {must}.")]
    OutOfRange {
        /// What the value is.
        what: &'static str,
        /// What was given.
        found: f64,
        /// What is asked for, as words.
        must: &'static str,
    },
}

/// Refuses a value that isn't finite or doesn't lie between `least` and `most`.
pub(crate) fn within(
    what: &'static str,
    found: f64,
    [least, most]: [f64; 2],
    must: &'static str,
) -> Result<f64, MeasureProblem> {
    if found.is_finite() && found >= least && found <= most {
        Ok(found)
    } else {
        Err(MeasureProblem::OutOfRange { what, found, must })
    }
}

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
        let Mixed { negative, whole, top, bottom } = mixed(self.0, parts);
        let sign = if negative { "−" } else { "" };
        if top == 0 {
            return format!("{sign}{whole}");
        }
        let whole = if whole == 0 { String::new() } else { whole.to_string() };
        let glyph = GLYPHS.iter().find(|(_, t, b)| (*t, *b) == (top, bottom));
        match glyph {
            Some((glyph, ..)) => format!("{sign}{whole}{glyph}"),
            None => format!("{sign}{whole}{}⁄{}", digits(top, &RAISED), digits(bottom, &LOWERED)),
        }
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

impl Angle {
    /// An angle in degrees.
    ///
    /// # Errors
    /// When it is more than a full turn either way, or no number.
    pub fn try_from_degrees(degrees: f64) -> Result<Self, MeasureProblem> {
        within("angle in degrees", degrees, [-360.0, 360.0], "a number of degrees up to 360").map(Self)
    }

    /// Degrees.
    #[must_use]
    pub const fn degrees(self) -> f64 {
        self.0
    }

    /// As a turn, counter-clockwise.
    #[must_use]
    pub fn turn(self) -> Turn {
        Turn::from_degrees(self.0)
    }
}

impl FromStr for Angle {
    type Err = MeasureProblem;
    fn from_str(text: &str) -> Result<Self, MeasureProblem> {
        let all = text.trim();
        let (negative, rest) = split_sign(all);
        let number = ["°", "degrees", "deg"].iter().find_map(|u| rest.strip_suffix(u)).unwrap_or(rest);
        let degrees = read_number(number.trim_end(), all)?;
        Self::try_from_degrees(if negative { -degrees } else { degrees })
    }
}

impl fmt::Display for Angle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°", unsigned_zero((self.0 * 10.0).round()) / 10.0)
    }
}

/// As a mixed fraction to the nearest of `parts` to the inch: `2 1/4`.
#[must_use]
pub fn fraction(inches: f64, parts: u32) -> String {
    let Mixed { negative, whole, top, bottom } = mixed(inches, parts);
    let sign = if negative { "-" } else { "" };
    match (whole, top) {
        (_, 0) => format!("{sign}{whole}"),
        (0, _) => format!("{sign}{top}/{bottom}"),
        _ => format!("{sign}{whole} {top}/{bottom}"),
    }
}

/// The next length up on a ruler with `parts` to the inch; what lies within 1/1024 counts as there.
#[must_use]
pub fn round_up(inches: f64, parts: u32) -> f64 {
    let parts = f64::from(parts.max(1));
    ((inches - plane::READING) * parts).ceil() / parts
}

struct Mixed {
    negative: bool,
    whole: u64,
    top: u64,
    bottom: u64,
}

fn mixed(inches: f64, parts: u32) -> Mixed {
    let parts = u64::from(parts.max(1));
    // Anything a length can hold is far below 2^53 parts; what isn't finite shows as 0.
    let known = if inches.is_finite() { inches.abs().min(1e9) } else { 0.0 };
    let all = (known * parts as f64).round() as u64;
    let (whole, top) = (all / parts, all % parts);
    let shared = common(top, parts);
    Mixed { negative: inches < 0.0 && all > 0, whole, top: top / shared, bottom: parts / shared }
}

fn common(a: u64, b: u64) -> u64 {
    if b == 0 { a.max(1) } else { common(b, a % b) }
}

fn unsigned_zero(value: f64) -> f64 {
    if value == 0.0 { 0.0 } else { value }
}

fn split_sign(text: &str) -> (bool, &str) {
    match text.strip_prefix(['-', '−']) {
        Some(rest) => (true, rest.trim_start()),
        None => (false, text.strip_prefix('+').unwrap_or(text).trim_start()),
    }
}

/// The number, and the inches in its unit.
fn split_unit<'a>(text: &'a str, all: &str) -> Result<(&'a str, f64), MeasureProblem> {
    let end = text.trim_end_matches(|c: char| c.is_alphabetic() || matches!(c, '"' | '″' | '”' | '.'));
    let end = if text[end.len()..].chars().any(|c| c != '.') { end } else { text };
    let unit = text[end.len()..].trim_end_matches('.').to_lowercase();
    let inches = match unit.as_str() {
        "" | "in" | "inch" | "inches" | "\"" | "″" | "”" => 1.0,
        "mm" => 1.0 / MM_PER_IN,
        "cm" => 10.0 / MM_PER_IN,
        "m" => 1000.0 / MM_PER_IN,
        "ft" | "foot" | "feet" => 12.0,
        "yd" | "yds" | "yard" | "yards" => 36.0,
        _ => return Err(unreadable(all, &text[end.len()..])),
    };
    Ok((end.trim_end(), inches))
}

fn unreadable(all: &str, part: &str) -> MeasureProblem {
    let cut = |text: &str| text.chars().take(40).collect::<String>();
    MeasureProblem::Unreadable { text: cut(all), part: cut(part) }
}

/// A decimal, a fraction, or a whole number with a fraction after it; not negative.
fn read_number(number: &str, all: &str) -> Result<f64, MeasureProblem> {
    if all.is_empty() {
        return Err(MeasureProblem::Empty);
    }
    let spelled = spell_out(number);
    let parts: Vec<&str> = spelled.split([' ', '-']).filter(|part| !part.is_empty()).collect();
    match parts[..] {
        [one] if one.contains('/') => read_fraction(one, all),
        [one] => read_decimal(one, all),
        [whole, part] if part.contains('/') && whole.bytes().all(|b| b.is_ascii_digit()) => {
            let rest = read_fraction(part, all)?;
            if rest >= 1.0 { Err(unreadable(all, part)) } else { Ok(read_decimal(whole, all)? + rest) }
        }
        _ => Err(unreadable(all, number)),
    }
}

/// Fraction glyphs and the fraction slash written as plain digits.
fn spell_out(number: &str) -> String {
    let mut plain = String::with_capacity(number.len());
    for c in number.chars() {
        match GLYPHS.iter().find(|(glyph, ..)| *glyph == c) {
            Some((_, top, bottom)) => plain.push_str(&format!(" {top}/{bottom}")),
            None if c == '⁄' => plain.push('/'),
            None if c.is_whitespace() => plain.push(' '),
            None => plain.push(c),
        }
    }
    plain.trim().to_owned()
}

fn read_decimal(text: &str, all: &str) -> Result<f64, MeasureProblem> {
    let plain = text.bytes().all(|b| b.is_ascii_digit() || b == b'.') && text.len() <= 24;
    let value: Option<f64> = if plain { text.parse().ok() } else { None };
    value.filter(|v| v.is_finite()).ok_or_else(|| unreadable(all, text))
}

fn read_fraction(text: &str, all: &str) -> Result<f64, MeasureProblem> {
    let whole = |part: &str| {
        let digits = !part.is_empty() && part.len() <= 9 && part.bytes().all(|b| b.is_ascii_digit());
        if digits { read_decimal(part, all) } else { Err(unreadable(all, text)) }
    };
    let (top, bottom) = text.split_once('/').ok_or_else(|| unreadable(all, text))?;
    let (top, bottom) = (whole(top)?, whole(bottom)?);
    if bottom == 0.0 {
        return Err(MeasureProblem::OverNothing { text: all.to_owned() });
    }
    Ok(top / bottom)
}

fn digits(number: u64, glyphs: &[char; 10]) -> String {
    let plain = number.to_string();
    plain.bytes().filter_map(|b| glyphs.get(usize::from(b.wrapping_sub(b'0')))).collect()
}

const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
const LOWERED: [char; 10] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉'];
const GLYPHS: [(char, u64, u64); 9] = [
    ('¼', 1, 4),
    ('½', 1, 2),
    ('¾', 3, 4),
    ('⅛', 1, 8),
    ('⅜', 3, 8),
    ('⅝', 5, 8),
    ('⅞', 7, 8),
    ('⅓', 1, 3),
    ('⅔', 2, 3),
];

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
        ] {
            let refused = text.parse::<Length>().unwrap_err().to_string();
            assert!(refused.contains(says), "{text}: {refused}");
        }
        assert_eq!(Length::parse_signed("-1/2").unwrap().inches(), -0.5);
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
        for bad in ["", "361", "nan", "north"] {
            assert!(bad.parse::<Angle>().is_err(), "{bad}");
        }
    }
}
