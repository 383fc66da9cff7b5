//! Why thread can't be reckoned.

use crate::length::MeasureProblem;

/// Why there is no plan for the thread.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ThreadProblem {
    /// A number that makes no sense.
    #[error(transparent)]
    Measure(#[from] MeasureProblem),
    /// A bobbin that its tails use up.
    #[error(
        "A bobbin of {bobbin_in:.0} inches holds no more than the two tails of one stroke, {tails_in:.0} inches: give what yours really holds."
    )]
    BobbinTooSmall {
        /// What it holds.
        bobbin_in: f64,
        /// A tail at the start and one at the stop.
        tails_in: f64,
    },
}
