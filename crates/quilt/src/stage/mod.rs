//! The stages between the last patch of a centre and a finished piece.
//!
//! Each stage has a choice (what the maker asks for; the log stores it), and a plan worked out from
//! the choice and the real outline. A plan is pure: the same choice gives the same plan. Lengths are
//! inches, and each name or note says whether they are cut, raw, finished or bound.

mod bands;
pub mod border;
mod cutting;
mod layout;
mod piece;
pub mod ring;
pub mod square_up;
mod strip_problem;
mod strips;
mod trim;

pub use cutting::{Bit, CutStrip, Cutting, JoinKind};
pub use piece::{Piece, PieceProblem, PieceSide};
pub use strip_problem::StripProblem;
pub use strips::{Order, Strip, strips};
