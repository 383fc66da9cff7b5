//! Why quilting lines can't be laid.

use crate::length::{MeasureProblem, fraction};
use crate::stage::thread::ThreadProblem;
use plane::RegionProblem;
use plane::fill::FillProblem;

/// What stands against a design.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum QuiltingProblem {
    /// A number that makes no sense.
    #[error(transparent)]
    Measure(#[from] MeasureProblem),
    /// The outline isn't one.
    #[error("The outline can't be quilted: {0}.")]
    Outline(RegionProblem),
    /// Nothing is left that far inside.
    #[error(
        "Nothing of the piece lies {} inside its edge: at most {} can be kept free.",
        fraction(*inside_in, 8), fraction(*most_in, 8)
    )]
    NothingInside {
        /// How far inside lines were to stay.
        inside_in: f64,
        /// Radius of the largest disc in the outline.
        most_in: f64,
    },
    /// Rows so far apart that none falls on the piece.
    #[error("No line falls on the piece with rows {} apart: bring them closer.", fraction(*spacing_in, 8))]
    NoLine {
        /// The spacing asked for.
        spacing_in: f64,
    },
    /// The lines themselves.
    #[error("The lines can't be laid: {0}.")]
    Fill(#[from] FillProblem),
    /// The thread.
    #[error(transparent)]
    Thread(#[from] ThreadProblem),
}
