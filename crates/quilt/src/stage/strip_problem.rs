//! Why strips can't be sewn round a piece: which side, by how much, and what to do. Sides are counted
//! from 1, as makers count them.

use super::piece::PieceProblem;
use crate::length::fraction;
use thiserror::Error;

/// Why strips can't be sewn round a piece.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum StripProblem {
    /// The piece can't be gone round.
    #[error(transparent)]
    Piece(#[from] PieceProblem),
    /// A seam allowance that is none.
    #[error("A seam allowance of {0} inches makes no sense: it is from 0 to 2.")]
    Allowance(f64),
    /// A list of widths that doesn't fit the sides.
    #[error("{given} widths were given for {sides} sides: give one for all, or one for each side.")]
    Widths {
        /// How many were given.
        given: usize,
        /// How many sides there are.
        sides: usize,
    },
    /// A side that isn't there.
    #[error("There is no side {given}: the piece has {sides}.")]
    NoSide {
        /// What was given, from 1.
        given: usize,
        /// How many there are.
        sides: usize,
    },
    /// A strip so narrow that nothing of it would show.
    #[error(
        "On side {side} the strip is {} from its seam to the raw edge, and binding takes {}: make it wider than that.",
        fraction(*.width_in, 16), fraction(*.least_in, 16)
    )]
    TooNarrow {
        /// Which side, from 1.
        side: usize,
        /// Width in inches from the seam to the raw edge.
        width_in: f64,
        /// What it must exceed.
        least_in: f64,
    },
    /// A strip wider than the piece it goes round.
    #[error(
        "On side {side} the strip is {} wide (raw, from its seam), wider than the whole piece, which is {} across: make it narrower, or sew it as two borders.",
        fraction(*.width_in, 8), fraction(*.most_in, 8)
    )]
    TooWide {
        /// Which side, from 1.
        side: usize,
        /// Width in inches from the seam to the raw edge.
        width_in: f64,
        /// The piece's least raw width.
        most_in: f64,
    },
    /// A width trimmed to that is more than the width sewn.
    #[error(
        "On side {side} the strip is to be trimmed to {}, but it is sewn only {} wide: sew it wider.",
        fraction(*.trimmed_in, 8), fraction(*.sewn_in, 8)
    )]
    TrimmedWider {
        /// Which side, from 1.
        side: usize,
        /// Width in inches after trimming.
        trimmed_in: f64,
        /// Width in inches as sewn.
        sewn_in: f64,
    },
    /// A side that the seams of its neighbours use up.
    #[error(
        "Side {side} is {length_in:.2} inches long (raw): with seams of {} on its neighbours nothing of it would be left. Trim it away first.",
        fraction(*.allowance_in, 16)
    )]
    SideTooShort {
        /// Which side, from 1.
        side: usize,
        /// Its raw length in inches.
        length_in: f64,
        /// The seam allowance in inches.
        allowance_in: f64,
    },
    /// A side so short that the seam beside it would take it whole.
    #[error(
        "The seam on side {by} would swallow side {side}, which lies {missing_in:.2} inches too shallow: sew side {side} first, or trim it away."
    )]
    Swallowed {
        /// The short side, from 1.
        side: usize,
        /// The side whose seam would take it.
        by: usize,
        /// How much deeper it must reach, in inches.
        missing_in: f64,
    },
    /// A strip that comes to a point before its outer edge.
    #[error(
        "The strip on side {side} would come to a point {} before its outer edge is reached: sew its neighbours first, or make it narrower.",
        fraction(*.missing_in, 8)
    )]
    ComesToAPoint {
        /// Which side, from 1.
        side: usize,
        /// How much of its outer edge is missing, or how much deeper it must reach for the next
        /// seam, in inches.
        missing_in: f64,
    },
}
