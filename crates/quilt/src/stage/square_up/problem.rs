//! Why a piece can't be squared up: what, where, by how much, and what to do.

use super::super::piece::PieceProblem;
use crate::Problem;
use crate::length::{MeasureProblem, fraction};
use crate::log::Mark;
use plane::{Point, RegionProblem};
use thiserror::Error;

/// Why a piece can't be squared up so.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum SquareProblem {
    /// Nothing of that name on the table.
    #[error("There is nothing on the table begun by step {0}.")]
    NoTop(Mark),
    /// The piece isn't convex.
    #[error(transparent)]
    Piece(#[from] PieceProblem),
    /// A number that makes no sense.
    #[error(transparent)]
    Measure(#[from] MeasureProblem),
    /// A size that is none.
    #[error("A size of {0} inches makes no sense: give one above 0.")]
    Size(f64),
    /// An outline that would cross itself.
    #[error("Squared up so, the outline would cross itself or have no area: {0}. Nothing was cut.")]
    Crosses(RegionProblem),
    /// An outline whose sides would run the other way round.
    #[error(
        "Squared up so, the outline would be turned over: its sides lie nearer the middle than they may."
    )]
    TurnedOver,
    /// A wished shape that can't be cut straight.
    #[error("The wished shape can't be cut with straight cuts. {0}")]
    Target(PieceProblem),
    /// A wished shape that sticks out of the piece.
    #[error(
        "The wished shape sticks out of the piece at {:.2}, {:.2}, by {missing_in:.2} inches: move it, make it smaller, or sew on a border first.",
        .at.x, .at.y
    )]
    Outside {
        /// Its corner that is farthest out.
        at: Point,
        /// How far, in inches.
        missing_in: f64,
    },
    /// A shape too large for the piece.
    #[error("The piece has no room for {what}: at {} per cent of that size it would fit.", rounded_down(*percent))]
    NoRoom {
        /// Which shape.
        what: String,
        /// The largest that fits, in per cent.
        percent: f64,
    },
    /// A rectangle wider than the piece.
    #[error(
        "Corners fill a piece up to the rectangle round it, {} here; {} needs a border first.",
        fraction(*.most_in, 8), fraction(*.asked_in, 8)
    )]
    WiderThanPiece {
        /// What was asked, in inches.
        asked_in: f64,
        /// What there is.
        most_in: f64,
    },
    /// A side without a border.
    #[error("Side {side} has no border seam to measure from.")]
    NoBorder {
        /// Which side, from 1.
        side: usize,
    },
    /// A border narrower than it is to be trimmed to.
    #[error(
        "On side {side} the border is only {} wide from its seam (raw) at its narrowest, not {}: trim to that, or sew it wider.",
        fraction(*.have_in, 16), fraction(*.asked_in, 16)
    )]
    NarrowBorder {
        /// Which side, from 1.
        side: usize,
        /// How wide it is, in inches.
        have_in: f64,
        /// What was asked.
        asked_in: f64,
    },
    /// A side that no corner piece can be sewn to.
    #[error("No corner can be sewn to side {side}: it lies outside the rectangle.")]
    NoCorner {
        /// Which side, from 1.
        side: usize,
    },
    /// A step that the table refuses.
    #[error("{0}")]
    Step(Problem),
}

/// To a tenth, and never more than fits.
fn rounded_down(percent: f64) -> f64 {
    (percent * 10.0 + 1e-6).floor() / 10.0
}
