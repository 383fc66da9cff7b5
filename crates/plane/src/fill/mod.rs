//! Lines to quilt over any outline.

mod ground;
mod problem;
mod spacing;
mod stroke;
mod unbroken;
mod wobble;

pub use ground::Ground;
pub use problem::FillProblem;
pub use spacing::{LEAST_SPACING, MOST_LENGTH, Spacing};
pub use stroke::{CHORD_ERROR, Fill, Stroke};
pub use unbroken::{Unbroken, UnbrokenSpiral, unbroken_spiral};
pub use wobble::Wobble;
