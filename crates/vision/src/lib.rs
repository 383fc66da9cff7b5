//! Photographs to outlines and looks. Knows no quilts, and reads no file.
//!
//! * A [`Picture`] is what a camera saw, upright, in eight bits a channel.
//! * A [`Flat`] is a part of the table seen from straight above, in true size.
//! * [`find_cloths`] gives the outline of each cloth on it, [`find_piece`] that of a sewn piece, [`look`] how
//!   a cloth looks, and [`same_print`] how likely two are of one print.
//! * [`seams`] tells which patches were sewn to a piece since it was last known.
//!
//! Places in a picture are in pixels, x to the right and y down, the middle of the first pixel at
//! (0.5, 0.5). Places on the table are in inches, y up.

pub mod cards;
pub mod decode;
mod flat;
pub mod flatten;
pub mod light;
mod looks;
mod outlines;
mod picture;
mod resample;
pub mod seams;
mod share;

pub use cards::{Card, find_cards, see_cards};
pub use decode::{PictureProblem, decode};
pub use flat::Flat;
pub use flatten::{FlattenProblem, Flattening, Window, flatten};
pub use light::{Light, read_light};
pub use looks::{Look, PrintSize, Runs, Shade, look, looks, same_print};
pub use outlines::{Doubt, Found, corrected, find_cloths, find_piece};
pub use picture::Picture;
pub use resample::{LARGEST_FLAT, resample};
