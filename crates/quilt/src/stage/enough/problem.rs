//! Why there is no report, where, and what to do.

use super::{Goods, StageName};
use crate::length::MeasureProblem;

/// Why what is needed can't be held against what there is.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum EnoughProblem {
    /// A number that makes no sense.
    #[error(transparent)]
    Measure(#[from] MeasureProblem),
    /// A stage asks for an amount that is none.
    #[error("The {stage} asks for {amount} {} of {goods}: it must be 0 or more. Plan that stage again.", goods.unit())]
    Needed {
        /// Which stage.
        stage: StageName,
        /// Of what.
        goods: Goods,
        /// What it asks for.
        amount: f64,
    },
    /// The stash says that there is an amount that is none.
    #[error("The stash has {amount} {} of {goods}: it must be 0 or more. Measure it again.", goods.unit())]
    Had {
        /// Of what.
        goods: Goods,
        /// What it says.
        amount: f64,
    },
    /// Work that is none.
    #[error("The {stage} has an amount of work of {amount}: it must be 0 or more. Plan that stage again.")]
    Work {
        /// Which stage.
        stage: StageName,
        /// What it says.
        amount: f64,
    },
    /// No such top on the table.
    #[error("There is no piece on the table to count: sew one first, or name one that is there.")]
    NoTop,
}
