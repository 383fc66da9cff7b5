//! A hanging sleeve: its strip, what it gives flat, and the rod that fits.

use super::seam;
use crate::length::{MeasureProblem, within};
use serde::Serialize;
use std::f64::consts::PI;

/// Above this width a sleeve is made in two (hillcountryquiltguild.com 2023).
pub const SPLIT_ABOVE_IN: f64 = 90.0;
/// How much is turned in at each end of a sleeve: 1/4 inch twice (the same).
pub const END_HEM_IN: f64 = 0.5;
/// How far a sleeve ends from the side of the piece (the same).
pub const CLEAR_IN: f64 = 1.0;
/// What is left between the two halves of a sleeve for a bracket (common practice, no source).
pub const BRACKET_GAP_IN: f64 = 2.0;

/// A sleeve and its rod.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Sleeve {
    /// One, or two for a wide piece.
    pub parts: u32,
    /// How long to cut each part.
    pub cut_length_in: f64,
    /// How wide to cut the strip.
    pub cut_width_in: f64,
    /// How long each part is, hemmed.
    pub finished_length_in: f64,
    /// How deep it lies flat.
    pub flat_in: f64,
    /// The thickest round rod that goes in at all: `2 × flat / π` across.
    pub rod_most_in: f64,
}

/// Strip to cut for a piece so wide: 8 1/2 for the 4 inches that shows ask for; 6 1/2 under 30
/// inches and 4 1/2 under 12, for a sleeve of 3 or 2 (the guilds' pages; that miniatures end at 12 is
/// common practice, no source).
#[must_use]
pub fn usual_sleeve_strip(width_in: f64) -> f64 {
    match width_in {
        w if w < 12.0 => 4.5,
        w if w < 30.0 => 6.5,
        _ => 8.5,
    }
}

/// How deep a tube lies flat: half the strip less a seam.
///
/// # Errors
/// A strip that its seam uses up.
pub fn flat_sleeve(strip_in: f64, seam_in: f64) -> Result<f64, MeasureProblem> {
    let strip = within("strip of the sleeve", strip_in, [0.0, 40.0], "from 0 to 40 inches")?;
    let must = "more than 0; cut the strip wider";
    within("depth of the sleeve", strip / 2.0 - seam(seam_in)?, [f64::MIN_POSITIVE, 40.0], must)
}

/// The thickest round rod for a flat depth: its round is twice the depth.
#[must_use]
pub fn rod_most(flat_in: f64) -> f64 {
    2.0 * flat_in / PI
}

/// The sleeve of a piece `width_in` wide from a strip `strip_in` wide: an inch clear at each side,
/// in two parts above 90 inches.
///
/// # Errors
/// A piece too narrow for a sleeve, or a strip that its seam uses up.
pub fn sleeve(width_in: f64, strip_in: f64, seam_in: f64) -> Result<Sleeve, MeasureProblem> {
    let must = "from 4 to 1000 inches; hang a narrower piece by a loop";
    let width = within("width of the piece", width_in, [4.0, 1000.0], must)?;
    let flat_in = flat_sleeve(strip_in, seam_in)?;
    let whole = width - 2.0 * CLEAR_IN;
    let (parts, finished) =
        if width > SPLIT_ABOVE_IN { (2, (whole - BRACKET_GAP_IN) / 2.0) } else { (1, whole) };
    Ok(Sleeve {
        parts,
        cut_length_in: finished + 2.0 * END_HEM_IN,
        cut_width_in: strip_in,
        finished_length_in: finished,
        flat_in,
        rod_most_in: rod_most(flat_in),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sums::tests::near;

    // T75 and T76, hillcountryquiltguild.com (4 and 3; the piece 60 wide), thimbleandthreadstl.org
    // (6); T77 geometry.
    #[test]
    fn published_sleeves_agree() {
        for (strip, flat) in [(8.5, 4.0), (6.5, 3.0), (12.5, 6.0)] {
            assert_eq!(flat_sleeve(strip, 0.25), Ok(flat));
        }
        let made = sleeve(60.0, 8.5, 0.25).unwrap();
        assert_eq!((made.parts, made.cut_length_in, made.finished_length_in), (1, 59.0, 58.0));
        near(made.rod_most_in, 2.546, 0.0005);
        assert_eq!(usual_sleeve_strip(60.0), 8.5);
        assert_eq!(
            (flat_sleeve(usual_sleeve_strip(29.0), 0.25), flat_sleeve(usual_sleeve_strip(10.0), 0.25)),
            (Ok(3.0), Ok(2.0))
        );
    }

    // Above 90 in two parts: hillcountryquiltguild.com.
    #[test]
    fn a_wide_sleeve_comes_in_two() {
        let (wide, limit) = (sleeve(100.0, 8.5, 0.25).unwrap(), sleeve(90.0, 8.5, 0.25).unwrap());
        assert_eq!((wide.parts, limit.parts), (2, 1));
        assert_eq!(2.0 * wide.finished_length_in + BRACKET_GAP_IN + 2.0 * CLEAR_IN, 100.0);
    }

    #[test]
    fn nonsense_is_refused() {
        assert!(sleeve(3.0, 8.5, 0.25).is_err() && sleeve(60.0, 0.5, 0.25).is_err());
        assert!(sleeve(f64::NAN, 8.5, 0.25).is_err());
    }
}
