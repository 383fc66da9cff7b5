//! Next piece, growing, what-ifs: a search over pieces that could be added to a centre.
//!
//! One engine serves both: *next piece* ranks the moves at one edge, *grow* takes one move after
//! another. A move is scored as shape (side, shape) + look (side, cloth) + fit (cloth, shape); each
//! term is bounded, named and weighted by the maker's wish. The result is a list of primitive
//! steps: nothing here writes a log, reads a clock or draws a random number that a seed doesn't
//! give.

mod bench;
mod centre;
pub mod centres;
mod chance;
mod choose;
mod finish;
mod growing;
mod heap;
mod joins;
mod look;
mod moves;
mod next;
mod proof;
#[doc(hidden)]
pub mod reference;
mod search;
mod shape;
mod size;
mod split;
mod start;
mod steps;
mod target;
mod terms;
mod trim;
mod weights;
mod widest;

pub use bench::{Bench, sewable_together};
pub use growing::Bend;
pub use heap::{Group, Heap, Rest};
pub use next::{Proposal, ProposedPatch, next_piece};
pub use search::{Effort, End, Goal, Grown, Unmet, Watch, grow};
pub use terms::Term;
