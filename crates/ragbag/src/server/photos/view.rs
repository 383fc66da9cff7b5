//! Photographs on the wire. Places on the table are in inches, x to the right and y up.

use crate::server::error::Said;
use crate::server::view::{RowView, ShadeView};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// What photographs are measured by.
#[derive(Serialize, ToSchema)]
pub(crate) struct CardsView {
    /// The side of the cards' black square, in inches.
    pub(crate) side_in: f64,
    /// Most bytes of a picture that are read.
    pub(crate) most_bytes: u64,
}

/// The cards, measured on the paper.
#[derive(Deserialize, ToSchema)]
pub(crate) struct CardsBody {
    /// The side of the black square as a maker writes it: "2", "50.5 mm".
    pub(crate) side: String,
}

/// What a photograph is of.
#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum PhotoOf {
    /// Scraps, or cloth of any kind, for the heap.
    Scraps,
    /// The piece on the table.
    Piece,
}

/// A photograph that was given.
#[derive(Serialize, ToSchema)]
pub(crate) struct PhotoView {
    /// By which it is asked for again.
    pub(crate) photo: u64,
    /// The file's name.
    pub(crate) name: String,
    /// Whether it has been read: then what was found is here, or else an error.
    pub(crate) ended: bool,
    /// What is being done with it while it is read, in words.
    #[schema(required)]
    pub(crate) doing: Option<String>,
    #[schema(required)]
    pub(crate) seen: Option<TabletopView>,
    #[schema(required)]
    pub(crate) error: Option<Said>,
}

/// What a photograph shows of the table.
#[derive(Serialize, ToSchema)]
pub(crate) struct TabletopView {
    /// The picture as from straight above.
    pub(crate) flat_url: String,
    /// Where on the table it lies: left, bottom, width and height, in inches.
    pub(crate) window_in: [f64; 4],
    /// How it was measured and how far it can be trusted, in sentences.
    pub(crate) words: Vec<String>,
    /// Numbers of the cloths that were entered from the same picture before.
    pub(crate) entered_before: Vec<u32>,
    /// Corners of the cards that it was measured by.
    pub(crate) cards: Vec<Vec<[f64; 2]>>,
    pub(crate) found: Vec<FoundView>,
}

/// A cloth that was found.
#[derive(Serialize, ToSchema)]
pub(crate) struct FoundView {
    /// Its place among those found, from 0.
    pub(crate) no: usize,
    /// Its outline as it is now, counter-clockwise.
    pub(crate) outline: Vec<[f64; 2]>,
    pub(crate) holes: Vec<Vec<[f64; 2]>>,
    /// Whether the maker has put its points right.
    pub(crate) corrected: bool,
    pub(crate) width_in: f64,
    pub(crate) height_in: f64,
    pub(crate) area_in2: f64,
    /// It runs out of the picture: there is more of it.
    pub(crate) cut_off: bool,
    /// What should be looked at, in sentences.
    pub(crate) doubts: Vec<String>,
    /// A name by its looks.
    pub(crate) name: String,
    pub(crate) colours: Vec<ShadeView>,
    /// Which ways up its print may be used, in words.
    pub(crate) runs: String,
    /// Its print in words: how large, how busy.
    pub(crate) print: String,
    /// Prints of the heap that look like it, likest first.
    pub(crate) alike: Vec<AlikeView>,
    /// Places of other cloths of the picture that look like it, likest first.
    pub(crate) beside: Vec<usize>,
}

/// A print of the heap that looks like a cloth that was found.
#[derive(Serialize, ToSchema)]
pub(crate) struct AlikeView {
    /// The print's number.
    pub(crate) print: String,
    /// The likest cloth of that print.
    pub(crate) no: u32,
    pub(crate) name: String,
}

/// The outline of a found cloth, put right by the maker.
#[derive(Deserialize, ToSchema)]
pub(crate) struct OutlineBody {
    /// Its corners in order, in inches; none to have it again as it was found.
    pub(crate) outline: Option<Vec<[f64; 2]>>,
}

/// Which of the found cloths come into the heap.
#[derive(Deserialize, ToSchema)]
pub(crate) struct KeepBody {
    pub(crate) kept: Vec<KeptBody>,
}

/// A found cloth that comes into the heap.
#[derive(Deserialize, ToSchema)]
pub(crate) struct KeptBody {
    /// Its place among those found.
    pub(crate) no: usize,
    pub(crate) name: String,
    /// What the maker says is of the same print; none for a print of its own.
    pub(crate) same: Option<SameView>,
}

/// What is of the same print.
#[derive(Deserialize, ToSchema)]
#[serde(tag = "kind", rename_all = "snake_case")]
pub(crate) enum SameView {
    /// A print of the heap, by its number.
    Heap { print: String },
    /// Another cloth of the picture that is kept too, by its place.
    Beside { no: usize },
}

/// A found cloth as the piece on the table, held against a plan.
#[derive(Deserialize, ToSchema)]
pub(crate) struct PieceBody {
    pub(crate) quilt: String,
    pub(crate) head: String,
    pub(crate) tip: Option<String>,
    /// Its place among those found.
    pub(crate) no: usize,
    /// By how many degrees, counter-clockwise, the piece has to be turned to lie as it is drawn.
    pub(crate) turned_deg: Option<f64>,
}

/// What was sewn since the last step, asked of a found cloth as the piece on the table.
#[derive(Deserialize, ToSchema)]
pub(crate) struct CatchUpBody {
    pub(crate) quilt: String,
    pub(crate) head: String,
    pub(crate) tip: Option<String>,
    /// Its place among those found.
    pub(crate) no: usize,
}

/// What was sewn since, as the maker confirms it.
#[derive(Deserialize, ToSchema)]
pub(crate) struct CaughtUpBody {
    pub(crate) quilt: String,
    pub(crate) head: String,
    pub(crate) tip: Option<String>,
    /// Its place among those found.
    pub(crate) no: usize,
    /// For each new patch, in order, its cloth; none for one that stays as it was found, a region with its
    /// picture.
    pub(crate) made_of: Vec<Option<String>>,
}

/// What was sewn since the last step, as far as it is seen.
#[derive(Serialize, ToSchema)]
pub(crate) struct CaughtUpView {
    /// All in a sentence.
    pub(crate) words: String,
    /// In an order in which they can have been sewn.
    pub(crate) patches: Vec<NewPatchView>,
    /// Where the outline came out otherwise, in sentences.
    pub(crate) differences: Vec<String>,
}

/// A patch that is in no step yet.
#[derive(Serialize, ToSchema)]
pub(crate) struct NewPatchView {
    /// What shows of it on the table.
    pub(crate) outline: Vec<[f64; 2]>,
    /// Where it was sewn and how large it is, in words.
    pub(crate) words: String,
    /// The cloths it may be of, likest first.
    pub(crate) guesses: Vec<GuessView>,
    /// The cloth it is taken to be of when nothing else is said; none where no cloth looks like it.
    #[schema(required)]
    pub(crate) likest: Option<String>,
    /// What should be looked at twice, in sentences.
    pub(crate) doubts: Vec<String>,
}

/// A cloth that a patch may be of.
#[derive(Serialize, ToSchema)]
pub(crate) struct GuessView {
    pub(crate) cloth: String,
    pub(crate) no: u32,
    pub(crate) name: String,
}

/// The piece as it was seen, against its plan.
#[derive(Serialize, ToSchema)]
pub(crate) struct PieceSeenView {
    /// All in a sentence.
    pub(crate) words: String,
    pub(crate) sides: Vec<SideSeenView>,
    /// Every difference, in sentences.
    pub(crate) differences: Vec<String>,
    /// What isn't square or flat, in sentences; empty when all agrees.
    pub(crate) square: Vec<String>,
    /// Another turn in degrees by which it would lie nearly as well.
    #[schema(required)]
    pub(crate) rival_deg: Option<f64>,
    /// The motion that lays the flattened picture on the drawing of the front, as the six numbers of an
    /// SVG matrix, an inch a unit.
    pub(crate) laid: [f64; 6],
}

/// What the eye sees in a picture of a piece.
#[derive(Serialize, ToSchema)]
pub(crate) struct PhotoEyeView {
    /// Round, balance and drift.
    pub(crate) rows: Vec<RowView>,
    /// Mean colours of rings of equal width, from the middle outward.
    pub(crate) rings: Vec<ShadeView>,
    /// How large it is, and what can't be told.
    pub(crate) words: String,
}

/// A side as it was seen.
#[derive(Serialize, ToSchema)]
pub(crate) struct SideSeenView {
    /// Its name in the plan; none for an open seam.
    #[schema(required)]
    pub(crate) name: Option<String>,
    pub(crate) planned_in: f64,
    /// None where too little of it was seen.
    #[schema(required)]
    pub(crate) seen_in: Option<f64>,
}
