//! Flat geometry in inches: points, lines, polygons, clipping, offsets, and whether one shape
//! fits into another.
//!
//! * Coordinates are `f64` inches, x to the right, **y up**; outlines run counter-clockwise.
//! * Everything here is a value; nothing keeps state, reads a clock or draws a random number.
//! * `plane` never knows what cloth is.
//!
//! Decisions between "inside" and "outside" are made at [`DECISION`]; lengths are read and merged
//! at [`READING`]; what a maker's hand can do is a tolerance of the caller's.

mod boolean;
mod clip;
mod disc;
pub mod fill;
mod fit;
pub mod gap;
pub mod largest;
mod lattice;
mod line;
mod offset;
mod parts;
mod point;
pub mod polygon;
mod pose;
mod region;
mod shape;
mod slack;
mod turn;
mod weld;

pub use boolean::{difference, intersection, remainder, union};
pub use clip::{clip_convex, clip_half_plane};
pub use disc::{Disc, depth_inside, largest_disc};
pub use fit::{
    BUDGET, Fit, FitAsk, FitCloth, FitPiece, THOROUGH, Turning, best_fit, best_of, fits, lies_within, try_fit,
};
pub use line::Line;
pub use offset::{MITRE_LIMIT, grow_outline, grow_sides, offset};
pub use parts::convex_parts;
pub use point::{Point, Vec2};
pub use pose::Pose;
pub use region::{Region, RegionProblem, Ring};
pub use shape::{ShapeSummary, TooLarge};
pub use turn::Turn;

/// Distance in inches below which a decision between inside and outside is a tie.
pub const DECISION: f64 = 1e-9;

/// Distance in inches at which lengths are read and lines are merged: 1/1024.
pub const READING: f64 = 1.0 / 1024.0;
