//! Next piece, growing, what-ifs: a search over pieces that could be added to a centre.
//!
//! One engine serves both: *next piece* ranks the moves at one edge, *grow* takes one move after
//! another. A move is scored as shape (side, shape) + look (side, cloth) + fit (cloth, shape); each
//! term is bounded, named and weighted by the maker's wish. The result is a list of primitive
//! steps: nothing here writes a log, reads a clock or draws a random number that a seed doesn't
//! give.

mod centre;
mod chance;
mod choose;
mod heap;
mod look;
mod moves;
mod search;
mod shape;
mod split;
mod start;
mod steps;
mod target;
mod trim;

pub use heap::{Group, Heap, Rest};
pub use search::{Effort, End, Goal, Grown, Watch, grow};
