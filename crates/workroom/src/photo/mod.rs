//! Photographs into the workroom: scraps with measuring cards beside them become cloth, and the piece
//! on the table becomes its measured outline.
//!
//! * [`Workroom::read_photo`] looks and changes nothing. What it saw is a [`PhotoRead`].
//! * [`Workroom::enter_photo`] enters what the maker keeps of it, in one deed.
//! * [`Workroom::look_by_eye`] is the eye check of a piece that needn't be known here.
//! * [`Workroom::look_at_photo`] and [`Workroom::remeasure_photo`] do the same for the piece.
//! * [`Workroom::look_to_catch_up`] and [`Workroom::catch_up`] do the same for what was sewn since.
//!
//! Places in a picture are in pixels, y down; places on the table in inches, y up. Files are the
//! caller's: here are bytes.

mod catch_up;
mod clip;
mod doubts;
mod enter;
mod eye;
mod from_above;
mod likeness;
mod looks;
mod piece;
mod print_words;
mod problem;
mod read;
mod settings;
mod source;
mod stages;

pub use catch_up::MadeOf;
pub use clip::Clipped;
pub use enter::{Kept, PrintOf};
pub use eye::{NOT_TOLD, PhotoEye};
pub use from_above::FromAbove;
pub use likeness::{Alike, Candidate};
pub use piece::PhotoRemeasured;
pub use problem::PhotoProblem;
pub use read::{CardSeen, CardUnused, PhotoAsk, PhotoCloth, PhotoMeasured, PhotoRead, REACH_IN};
pub use settings::{PRINTED_SIDE_IN, check_side};
pub use stages::{Reading, Watch};

/// Most bytes of a photograph that are read.
pub const MOST_PHOTO_BYTES: u64 = 64 << 20;

/// The patterns of the measuring cards, by number: rows of cells from the top, black where true.
#[must_use]
pub fn card_patterns() -> Vec<papers::CardCells> {
    (0..vision::cards::COUNT).filter_map(vision::cards::pattern).collect()
}
