//! Why a text or a number is no measure, and the check of a range.

use super::MOST_IN;

/// Why a text or a number is no measure that can be worked with.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MeasureProblem {
    /// Nothing was written.
    #[error("A length is missing: write one, as in 2 1/4 or 57 mm.")]
    Empty,
    /// Something in it can't be read.
    #[error("{}", unreadable(.text, .part))]
    Unreadable {
        /// All that was written.
        text: String,
        /// The part that can't be read.
        part: String,
    },
    /// A comma that may stand for thousands or for a decimal point.
    #[error("`{text}` may be thousands or a decimal comma: write it without thousands, as in 2,5 or 2.5.")]
    Comma {
        /// All that was written.
        text: String,
    },
    /// No angle.
    #[error("`{text}` is not an angle: write degrees, as in 30 or -22.5.")]
    NoAngle {
        /// All that was written.
        text: String,
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
    #[error("The {what} is {}: it must be {must}.", told(*.found))]
    OutOfRange {
        /// What the value is.
        what: &'static str,
        /// What was given.
        found: f64,
        /// What is asked for, as words.
        must: &'static str,
    },
}

/// A number without what reckoning leaves behind, to four places; so small a one as it is.
fn told(found: f64) -> f64 {
    let rounded = (found * 1e4).round() / 1e4;
    if rounded.is_finite() && rounded != 0.0 { rounded } else { found }
}

fn unreadable(text: &str, part: &str) -> String {
    let told = if text == part {
        format!("`{text}` can't be read as a measure")
    } else {
        format!("`{text}` is not a measure: `{part}` can't be read")
    };
    format!("{told}. Write it as in 2 1/4, 2.25, 57 mm or 1/8 yd.")
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
