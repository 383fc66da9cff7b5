//! The trade: what cloth is, the sewing log and its replay, the audit, the eye check, the sums.
//!
//! No input or output, no clock, no random numbers. Inches throughout; y is up.

pub mod catch_up;
pub mod cloth;
pub mod eye;
pub mod foundation;
pub mod layers;
pub mod length;
pub mod limits;
pub mod log;
pub mod marks;
pub mod own_seam;
pub mod pattern;
mod problem;
pub mod remeasure;
pub mod remedy;
pub mod rounds;
pub mod stage;
pub mod sums;
pub mod supply;
pub mod table;
pub mod wish;

pub use problem::{Place, Problem, Rule};
