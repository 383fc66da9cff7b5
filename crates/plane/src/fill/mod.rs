//! Lines to quilt over any outline.

mod echo;
mod ground;
mod lines;
mod offset_rows;
mod problem;
mod rows;
mod spacing;
mod spiral;
mod stroke;
mod unbroken;
mod wobble;

pub use echo::{Echoes, echoes};
pub use ground::Ground;
pub use lines::{Crossed, Lines, Waves, crossed, lines, waves};
pub use offset_rows::{Corners, inward_rows, offset_row};
pub use problem::FillProblem;
pub use rows::Sewing;
pub use spacing::{LEAST_SPACING, MOST_LENGTH, Spacing};
pub use spiral::{CorneredSpiral, RoundSpiral, corner_gap, cornered_spiral, round_spiral, spiral_length};
pub use stroke::{CHORD_ERROR, Fill, Stroke};
pub use unbroken::{Unbroken, UnbrokenSpiral, unbroken_spiral};
pub use wobble::Wobble;
