//! Joining centres: how a bed-size top is really made.
//!
//! Several centres, each squared to a rectangle (a *block*), are joined by straight seams into a
//! larger top: in rows of equal places, in a layout of mixed sizes that can be sliced from edge to
//! edge, or where the maker says. Blocks that are too small are brought up to size by coping strips;
//! neighbours are chosen so that prints and weights don't pile up. A layout that can't be sewn with
//! full straight seams is recognised, and the seams that must stop short are named and counted.
//!
//! Sizes of blocks and layouts are *finished* inches: what shows between seams; y is up, the lower
//! left corner of the layout is the origin. What is to be cut says so. Everything is a value: the
//! same blocks, choice and seed give the same plan.

mod block;
mod check;
mod choice;
mod coping;
mod cost;
mod exact;
mod given;
mod layout;
mod partial;
mod plan;
mod problem;
mod search;
mod seated;
mod square;
mod steps;
mod story;
mod tree;

pub use block::{Block, PrintShare};
pub use choice::{Arrangement, CentresChoice, LEAST_COPING_IN, Seat};
pub use cost::CentresCost;
pub use given::{Judged, can_be_sewn_one_at_a_time, can_be_sliced, judge};
pub use layout::{CentreSeam, Part, Rect, Runs, Sewn, What};
pub use plan::{CentresPlan, CopingStrip, Found, MOST_BLOCKS, plan};
pub use problem::CentresProblem;
pub use steps::{CentresSteps, steps};
