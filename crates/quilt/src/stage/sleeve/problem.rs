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
    /// The piece has no room for the sleeve, nor for tabs.
    #[error(
        "Above its centre of weight the piece has no level place for a sleeve {} deep, nor is its upper edge wide enough for tabs that clear its sides: turn it with up_deg, set clear_in smaller, or hang it by a loop.",
        fraction(*flat_in, 8)
    )]
    NoPlace {
        /// How deep the sleeve lies flat.
        flat_in: f64,
    },
}
