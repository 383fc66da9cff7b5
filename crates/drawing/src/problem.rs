//! Why a drawing can't be made.

use quilt::log::Mark;
use thiserror::Error;

/// What stands in the way of a drawing.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum DrawingProblem {
    /// There is no top by that mark on the table.
    #[error(
        "There is nothing on the table begun by step {top}, so there is nothing to draw. Hint: {}",
        hint(there)
    )]
    NoSuchTop {
        /// The mark asked for.
        top: Mark,
        /// The tops that are there.
        there: Vec<Mark>,
    },
    /// The table is empty.
    #[error("The table is empty, so there is nothing to draw. Hint: lay a first patch.")]
    EmptyTable,
}

fn hint(there: &[Mark]) -> String {
    match there {
        [] => "the table is empty: lay a first patch.".to_owned(),
        some => {
            let names: Vec<String> = some.iter().map(ToString::to_string).collect();
            format!("on the table are the pieces begun by steps {}.", names.join(", "))
        }
    }
}
