//! What a line means, and how that is drawn.
//!
//! Dashed for sewing and solid for cutting is how printed patterns have always done it. Widths and
//! dashes are inches at weight 1, which suits a piece of about 20 inches; a drawing's weight
//! scales them all.

use crate::ink::{CHALK, CHALK_SHADE, INK, MADDER, THREAD};
use colour::Srgb;

/// What a line means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stroke {
    /// A sewn seam: short stitches in the ditch between two cloths.
    Stitches,
    /// Planned: a soft dashed line.
    Chalk,
    /// Cut, or to be cut: a thin plain line.
    CutLine,
    /// To be sewn along: a thin dashed line.
    SeamLine,
    /// The edge of something as a whole.
    Outline,
    /// What the hand is on: madder red.
    Mark,
    /// A thin line that leads from words to what they are about.
    Leader,
}

/// One stroke of the pen along a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pass {
    /// Its colour.
    pub colour: Srgb,
    /// Its opacity, 0 to 1.
    pub opacity: f64,
    /// Its width in inches.
    pub width_in: f64,
    /// Length of dash and gap in inches; `None` for a plain line.
    pub dash_in: Option<[f64; 2]>,
}

const fn plain(colour: Srgb, opacity: f64, width_in: f64) -> Pass {
    Pass { colour, opacity, width_in, dash_in: None }
}

const fn dashed(colour: Srgb, opacity: f64, width_in: f64, dash_in: [f64; 2]) -> Pass {
    Pass { colour, opacity, width_in, dash_in: Some(dash_in) }
}

impl Stroke {
    /// How the line is drawn, lowest pass first.
    #[must_use]
    pub const fn passes(self) -> &'static [Pass] {
        const STITCHES: &[Pass] = &[plain(INK, 0.34, 0.05), dashed(THREAD, 0.9, 0.024, [0.085, 0.055])];
        const CHALKED: &[Pass] =
            &[dashed(CHALK_SHADE, 0.55, 0.062, [0.2, 0.12]), dashed(CHALK, 0.95, 0.034, [0.2, 0.12])];
        const CUT: &[Pass] = &[plain(INK, 1.0, 0.02)];
        const SEAM: &[Pass] = &[dashed(INK, 1.0, 0.02, [0.1, 0.07])];
        const OUTLINE: &[Pass] = &[plain(INK, 1.0, 0.035)];
        const MARKED: &[Pass] = &[plain(MADDER, 1.0, 0.06)];
        const LEADER: &[Pass] = &[plain(INK, 0.55, 0.012)];
        match self {
            Self::Stitches => STITCHES,
            Self::Chalk => CHALKED,
            Self::CutLine => CUT,
            Self::SeamLine => SEAM,
            Self::Outline => OUTLINE,
            Self::Mark => MARKED,
            Self::Leader => LEADER,
        }
    }

    /// A word for style sheets and for people who read the file.
    #[must_use]
    pub const fn class(self) -> &'static str {
        match self {
            Self::Stitches => "stitches",
            Self::Chalk => "chalk",
            Self::CutLine => "cut",
            Self::SeamLine => "seam-line",
            Self::Outline => "outline",
            Self::Mark => "mark",
            Self::Leader => "leader",
        }
    }
}
