//! Why a fill can't be laid, where, by how much, and what to do.

use crate::{Point, RegionProblem};
use thiserror::Error;

/// What stands against a fill. Lengths in inches.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum FillProblem {
    /// The outline is no sound region.
    #[error("the outline to fill: {0}")]
    Outline(RegionProblem),
    /// A keep-out is no sound region.
    #[error("keep-out {number}: {problem}")]
    KeepOut {
        /// Which, counted from 1.
        number: usize,
        /// What is wrong with it.
        problem: RegionProblem,
    },
    /// The shape to echo is no sound region.
    #[error("the shape to echo: {0}")]
    Shape(RegionProblem),
    /// Nothing is open.
    #[error(
        "the keep-outs cover the whole outline, so there is nothing to quilt: leave one out or make it smaller"
    )]
    NothingLeft,
    /// A number outside what makes sense.
    #[error("{what} is {given}: give {least} to {most}")]
    Number {
        /// Which number.
        what: &'static str,
        /// What was given.
        given: f64,
        /// The least that is taken.
        least: f64,
        /// The most.
        most: f64,
    },
    /// Bounds the wrong way round.
    #[error(
        "rows {wish:.3} apart are wished, but the bounds are {least:.3} to {most:.3}: name least, wish and most in rising order, all over 0"
    )]
    Bounds {
        /// The least spacing.
        least: f64,
        /// The wished spacing.
        wish: f64,
        /// The greatest spacing.
        most: f64,
    },
    /// The hand would leave the bounds.
    #[error(
        "a wobble of {given:.3} would break the bounds of the spacing: it may be at most {most:.3}; widen the bounds or steady the hand"
    )]
    Wobble {
        /// The amplitude asked for.
        given: f64,
        /// The greatest amplitude within the bounds.
        most: f64,
    },
    /// Rows come too close on the flanks of waves.
    #[error(
        "waves {height:.3} high bring rows to {narrowest:.3} of each other on their flanks, less than {least:.3}: make them at most {most_height:.3} high, or longer"
    )]
    Steep {
        /// Swing to either side.
        height: f64,
        /// Distance on the flanks.
        narrowest: f64,
        /// The bound.
        least: f64,
        /// The greatest swing that holds it at this length, without wobble.
        most_height: f64,
    },
    /// The centre isn't in the open.
    #[error("the centre at {:.2}, {:.2} lies outside the outline or in a keep-out: move it in", .at.x, .at.y)]
    CentreOutside {
        /// The centre.
        at: Point,
    },
    /// No room for the first turn.
    #[error("the first turn has a radius of {radius:.3}, but the centre at {:.2}, {:.2} is only {room:.3} from the edge: move it, or make the turn smaller", .at.x, .at.y)]
    CentreTooTight {
        /// The centre.
        at: Point,
        /// The first turn's radius.
        radius: f64,
        /// Distance to the nearest edge.
        room: f64,
    },
    /// One stroke would have to be more uneven than the bounds allow.
    #[error(
        "an unbroken spiral from {:.2}, {:.2} has rows {narrowest:.3} apart near {:.1}, {:.1} and {widest:.3} near {:.1}, {:.1}, widest over narrowest {ratio:.3} \
         (the sides alone ask for {sides:.3}); the bounds allow {allowed:.3}: widen them, move the centre, or take another design",
        .centre.x, .centre.y, .narrowest_at.x, .narrowest_at.y, .widest_at.x, .widest_at.y
    )]
    Uneven {
        /// The centre.
        centre: Point,
        /// Least spacing reached.
        narrowest: f64,
        /// Where.
        narrowest_at: Point,
        /// Greatest spacing reached.
        widest: f64,
        /// Where.
        widest_at: Point,
        /// Widest over narrowest that this spiral can give.
        ratio: f64,
        /// Farthest over nearest side: no spiral from here can do with less.
        sides: f64,
        /// What the bounds allow.
        allowed: f64,
    },
    /// The rows lose their way.
    #[error("an unbroken spiral finds no way round near {:.2}, {:.2}: a keep-out or a notch leaves too little room there; make it smaller, move the centre, or take lines", .near.x, .near.y)]
    NoWay {
        /// About where.
        near: Point,
    },
    /// A piece of open ground cut off from the rest.
    #[error(
        "keep-outs cut the outline into {parts} parts, and one stroke can't sew them all: fill each for itself"
    )]
    Parted {
        /// How many.
        parts: usize,
    },
    /// More line than anyone sews.
    #[error("about {length:.0} inches of line would be needed, more than {most:.0}: take rows further apart")]
    TooMuch {
        /// The estimate.
        length: f64,
        /// The limit.
        most: f64,
    },
}
