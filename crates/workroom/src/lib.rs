//! Every use case, the store, and the ways in.
//!
//! * A [`Workroom`] is a folder: one SQLite file and pictures by their content. What a method has
//!   acknowledged is on the disk; what it refused has changed nothing.
//! * [`stash`] is the ledger of cloth and the sums of cutting; [`intake`] reads scraps from words,
//!   lists, drawings and weights; [`quilts`] keeps the sewing logs; [`bundle`] carries a quilt
//!   from one workroom to another; [`audit`] says whether the cloth that a plan counts on exists.
//! * [`photo`] reads scraps, and the piece on the table, from photographs.
//! * [`cutting`] lays what is still to be cut on the cloths of the heap; [`papers`] gathers what is printed.
//! * Rules of the trade live in `quilt`, geometry in `plane`; this crate asks, decides and writes.
//!
//! Inches throughout; y is up; outlines run counter-clockwise.

pub mod asks;
pub mod audit;
pub mod bundle;
#[doc(inline)]
pub use asks::cutting;
mod deed;
mod error;
pub mod intake;
pub mod making;
pub mod papers;
pub mod photo;
mod pictures;
pub mod quilts;
pub mod stash;
mod store;
mod workroom;

pub use error::{Result, WorkroomError, file_trouble};
pub use pictures::{MOST_PICTURE_BYTES, PictureFinder};
pub use store::{DATABASE, PICTURES, VERSION, WorkroomId};
pub use workroom::Workroom;
