//! Angles as makers write them: `30`, `-22.5`, `30°`, `30 deg`. Degrees inside; never stored, see
//! [`plane::Turn`].

use super::fraction::unsigned_zero;
use super::problem::{MeasureProblem, within};
use super::read::{read_number, split_sign};
use plane::Turn;
use serde::Serialize;
use std::fmt;
use std::str::FromStr;

/// An angle. Degrees inside; finite.
#[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct Angle(f64);

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
        let degrees = read_number(number.trim_end(), all)
            .map_err(|_| MeasureProblem::NoAngle { text: all.chars().take(40).collect() })?;
        Self::try_from_degrees(if negative { -degrees } else { degrees })
    }
}

impl fmt::Display for Angle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}°", unsigned_zero((self.0 * 10.0).round()) / 10.0)
    }
}
