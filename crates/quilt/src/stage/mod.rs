//! From a pieced top to a finished piece, one module a stage.
//!
//! Each stage has a *choice*, the maker's own parameters, which the log stores; a *plan*, everything
//! the stage says, computed from the choice and the real outline; and a pure function from one to
//! the other that refuses with a typed problem, its place, its numbers and a way out. Nothing here
//! reads the stash or the log: cloths and outlines are passed in as values. Outlines are inches,
//! counter-clockwise; every length says whether it is cut, raw, finished or bound.

mod bands;
pub mod binding;
pub mod border;
mod chosen;
mod cutting;
pub mod enough;
pub mod figure;
pub mod habits;
pub mod layers;
mod layout;
pub mod on_hand;
mod piece;
pub mod quilting;
pub mod ring;
pub mod sleeve;
pub mod square_up;
mod strip_problem;
mod strips;
pub mod thread;
mod trim;

pub use chosen::{Chosen, ChosenLast};
pub use cutting::{Bit, CutStrip, Cutting, JoinKind};
pub use piece::{Piece, PieceProblem, PieceSide};
pub use strip_problem::StripProblem;
pub use strips::{Order, Strip, strips};
