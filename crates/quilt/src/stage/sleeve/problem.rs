//! Why a piece can't be hung as wished.

use crate::length::{MeasureProblem, fraction};
use plane::RegionProblem;

/// Why there is no such sleeve.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SleeveProblem {
    /// A number that makes no sense.
    #[error(transparent)]
    Measure(#[from] MeasureProblem),
    /// The outline isn't one.
    #[error("The outline can't be hung: {0}.")]
    Outline(RegionProblem),
    /// Above its centre of weight the piece has no room for the sleeve.
    #[error(
        "Above its centre of weight the piece has no level place for a sleeve {} deep with as much of it to the left as to the right. Cut the strip narrower, turn the piece, or hang it by tabs.",
        fraction(*flat_in, 8)
    )]
    NoPlace {
        /// How deep the sleeve lies flat.
        flat_in: f64,
    },
}
