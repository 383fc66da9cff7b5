//! Flat geometry in inches: points, lines, polygons, clipping, offsets, and whether one shape
//! fits into another.
//!
//! * Coordinates are `f64` inches, x to the right, **y up**; outlines run counter-clockwise.
//! * Everything here is a value; nothing keeps state, reads a clock or draws a random number.
//! * `plane` never knows what cloth is.
//!
//! Decisions between "inside" and "outside" are made at [`DECISION`]; lengths are read and merged
//! at [`READING`]; what a maker's hand can do is a tolerance of the caller's.

mod clip;
mod line;
mod point;
pub mod polygon;
mod pose;
mod region;
mod turn;

pub use clip::{clip_convex, clip_half_plane};
pub use line::Line;
pub use point::{Point, Vec2};
pub use pose::Pose;
pub use region::{Region, RegionProblem};
pub use turn::Turn;

/// Distance in inches below which a decision between inside and outside is a tie.
pub const DECISION: f64 = 1e-9;

/// Distance in inches at which lengths are read and lines are merged: 1/1024.
pub const READING: f64 = 1.0 / 1024.0;
