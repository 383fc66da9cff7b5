//! sRGB with eight bits a channel, as pictures and style sheets have it, and its six hexadecimal
//! digits.

use crate::{Lab, Linear, Oklab};
use serde::{Deserialize, Serialize};
use std::fmt;
use std::str::FromStr;
use std::sync::LazyLock;
use thiserror::Error;

/// A colour of a screen. Written and stored as `#rrggbb`; `#rgb` is read as well.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(into = "String", try_from = "String")]
pub struct Srgb {
    /// Red, 0 to 255.
    pub r: u8,
    /// Green.
    pub g: u8,
    /// Blue.
    pub b: u8,
}

/// What is wrong with a colour in hexadecimal digits.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum HexProblem {
    /// Not three or six of them.
    #[error("`{text}` is not a colour: it has {digits} digits; write # and 6 digits, as in #26428b")]
    Length {
        /// What was read.
        text: String,
        /// How many digits it has.
        digits: usize,
    },
    /// Something else than 0 to 9 and a to f.
    #[error("`{text}` is not a colour: `{found}` is not a hexadecimal digit (0 to 9, a to f)")]
    Digit {
        /// What was read.
        text: String,
        /// The first character that is no digit.
        found: char,
    },
}

impl Srgb {
    /// A colour from its three channels.
    #[must_use]
    pub const fn new(r: u8, g: u8, b: u8) -> Self {
        Self { r, g, b }
    }

    /// A colour from one number, as in `0x26428b`. The topmost byte is not looked at.
    #[must_use]
    pub const fn from_number(rgb: u32) -> Self {
        let [_, r, g, b] = rgb.to_be_bytes();
        Self { r, g, b }
    }

    /// The same colour as light (IEC 61966-2-1), from a table.
    #[must_use]
    pub fn to_linear(self) -> Linear {
        let light = |channel: u8| LIGHT[usize::from(channel)];
        Linear { r: light(self.r), g: light(self.g), b: light(self.b) }
    }

    /// The same colour in CIELAB.
    #[must_use]
    pub fn to_lab(self) -> Lab {
        self.into()
    }

    /// The same colour in OKLab.
    #[must_use]
    pub fn to_oklab(self) -> Oklab {
        self.to_linear().into()
    }
}

/// Light for each of a channel's numbers.
static LIGHT: LazyLock<[f64; 256]> = LazyLock::new(|| {
    std::array::from_fn(|number| {
        let value = number as f64 / 255.0;
        if value <= 0.040_45 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    })
});

impl fmt::Display for Srgb {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{:02x}{:02x}{:02x}", self.r, self.g, self.b)
    }
}

impl From<Srgb> for String {
    fn from(srgb: Srgb) -> Self {
        srgb.to_string()
    }
}

impl TryFrom<String> for Srgb {
    type Error = HexProblem;
    fn try_from(text: String) -> Result<Self, HexProblem> {
        text.parse()
    }
}

impl FromStr for Srgb {
    type Err = HexProblem;
    fn from_str(text: &str) -> Result<Self, HexProblem> {
        let trimmed = text.trim();
        let digits = trimmed.strip_prefix('#').unwrap_or(trimmed);
        let values = digits
            .chars()
            .map(|found| {
                let problem = || HexProblem::Digit { text: text.to_owned(), found };
                found.to_digit(16).map(|value| value as u8).ok_or_else(problem)
            })
            .collect::<Result<Vec<u8>, _>>()?;
        match values[..] {
            [r, g, b] => Ok(Self { r: r * 17, g: g * 17, b: b * 17 }),
            [a, b, c, d, e, f] => Ok(Self { r: a * 16 + b, g: c * 16 + d, b: e * 16 + f }),
            _ => Err(HexProblem::Length { text: text.to_owned(), digits: values.len() }),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_colour_is_read_as_it_is_written() {
        for number in (0..=0xff_ffff).step_by(4_099) {
            let srgb = Srgb::from_number(number);
            assert_eq!(srgb.to_string().parse(), Ok(srgb));
            assert_eq!(srgb.to_linear().to_srgb(), srgb);
            assert_eq!(srgb.to_lab().to_srgb(), srgb);
            assert_eq!(srgb.to_oklab().to_linear().to_srgb(), srgb);
        }
        assert_eq!("#F0a".parse(), Ok(Srgb::new(0xff, 0x00, 0xaa)));
        assert_eq!(" 26428b ".parse(), Ok(Srgb::from_number(0x26428b)));
    }

    #[test]
    fn what_is_no_colour_is_refused_with_what_is_wrong() {
        let problem = "#26428".parse::<Srgb>().unwrap_err();
        assert_eq!(problem, HexProblem::Length { text: "#26428".into(), digits: 5 });
        let problem = "#2642g0".parse::<Srgb>().unwrap_err();
        assert_eq!(problem, HexProblem::Digit { text: "#2642g0".into(), found: 'g' });
        for bad in ["", "#", "##123456", "éa", "#12345678"] {
            assert!(bad.parse::<Srgb>().is_err(), "{bad}");
        }
    }
}
