//! Lines to quilt over any outline, convex or not, with places to keep free.
//!
//! A [`Ground`] is an outline less its keep-outs. Each design is a plain choice and a function that
//! lays it over a ground: [`round_spiral`], [`cornered_spiral`], [`unbroken_spiral`], [`lines()`],
//! [`crossed`], [`waves()`], [`echoes()`]. What comes back is a [`Fill`]: strokes in sewing order, as
//! corners of a line that strays from the curve by at most [`CHORD_ERROR`]. Nothing is sewn outside
//! the outline or in a keep-out; the edge itself may be sewn.
//!
//! All is deterministic: a hand's [`Wobble`] comes from a seed. What can't be held to is refused
//! with a number ([`FillProblem`]). How wide gaps came out is measured by [`crate::gap`].
//!
//! One stroke crosses neither itself nor another of the same set, wobble or not; two sets of crossed
//! lines do.

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
