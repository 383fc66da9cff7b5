//! Why a figure can't be planned at all: what, where, how much, and what to do.

use plane::RegionProblem;
use thiserror::Error;

/// What is wrong with a figure or with what is asked of it. Nothing was planned.
#[derive(Clone, Debug, PartialEq, Error)]
#[non_exhaustive]
pub enum FigureProblem {
    /// Thread or minutes that make no sense.
    #[error(transparent)]
    Thread(#[from] crate::stage::thread::ThreadProblem),
    /// No shapes.
    #[error("the figure has no shapes: draw at least one closed outline")]
    Nothing,
    /// Two shapes of one name.
    #[error("two shapes of the figure are called `{id}`: give each its own name")]
    SameName {
        /// The name.
        id: String,
    },
    /// A shape asked about that isn't there.
    #[error("the figure has no shape `{id}`; it has {has}")]
    NoSuchShape {
        /// What was asked about.
        id: String,
        /// Those there are.
        has: String,
    },
    /// A number that makes no sense.
    #[error("the figure's {what} is {value}: it must be {wanted}")]
    Number {
        /// Which number.
        what: &'static str,
        /// What it is.
        value: f64,
        /// What it must be.
        wanted: &'static str,
    },
    /// As drawn, but the drawing doesn't say how large that is.
    #[error("the drawing doesn't say how large it is: give the figure's width or its height")]
    NoTrueSize,
    /// A shape that encloses nothing sound, at the size asked for.
    #[error("shape `{id}` of the figure, coordinates in inches: {problem}")]
    Shape {
        /// Which shape.
        id: String,
        /// What is wrong.
        problem: RegionProblem,
    },
    /// More corners than can be planned.
    #[error(
        "the figure has {found} points after its curves are flattened, and at most {most} can be planned: draw it with fewer, longer curves"
    )]
    TooManyPoints {
        /// How many it has.
        found: usize,
        /// The most.
        most: usize,
    },
    /// The piece itself is unsound.
    #[error("the outline that the figure is to lie on: {0}")]
    Outline(RegionProblem),
}
