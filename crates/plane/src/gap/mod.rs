//! What lies between lines: the widest gap, how far apart rows are, the tightest curve, and proof
//! that nothing crosses.

mod crossing;
mod curve;
pub(crate) mod grid;
mod spacing;
mod widest;

pub use crossing::{Crossing, crossings, first_crossing};
pub use curve::{CORNER_DEG, Tightest, WITHIN, tightest};
pub use spacing::{RowSpacing, Sides, spacing};
pub use widest::{KeepOuts, WIDEST_TOLERANCE, widest, widest_within};
