//! How wide the gaps between lines are.

pub(crate) mod grid;
mod spacing;

pub use spacing::{RowSpacing, Sides, spacing};
