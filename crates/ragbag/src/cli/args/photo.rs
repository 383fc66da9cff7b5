//! What can be said of photographs and measuring cards.

use clap::{Args, Subcommand};
use papers::Paper;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(crate) struct CardsArgs {
    /// The file, a .pdf.
    #[arg(long)]
    pub(crate) to: PathBuf,
    /// The paper: a4, letter, legal, a3, or WIDTHxHEIGHT.
    #[arg(long, default_value = "a4", value_name = "SIZE")]
    pub(crate) paper: Paper,
    /// Side of a card's black square.
    #[arg(long, default_value = "2")]
    pub(crate) side: String,
}

#[derive(Debug, Subcommand)]
pub(crate) enum ScrapWay {
    /// Scraps from photographs with measuring cards beside them.
    #[command(
        after_help = "Example: ragbag scrap photo heap-1.jpg heap-2.jpg\n\nPrint the cards first: ragbag cards --to cards.pdf"
    )]
    Photo(PhotoArgs),
    /// Show, or tell once, the side of the cards' black square as it measures on the paper.
    #[command(after_help = "Example: ragbag scrap card-side 1-31/32")]
    CardSide {
        /// The side; shown when not said.
        side: Option<String>,
    },
    /// Put the outline of a cloth right by its corners, or list them.
    #[command(
        after_help = "Example: ragbag scrap outline 12 --corner \"4 1/8,3\"\n         ragbag scrap outline 12 --whole \"0,0 4-1/8,0 4,3 0,3\""
    )]
    Outline(OutlineArgs),
}

#[derive(Debug, Args)]
pub(crate) struct OutlineArgs {
    /// The cloth's number.
    pub(crate) cloth: u32,
    /// Where a corner really lies, in the cloth's inches: it takes the place of the nearest corner within 1/4 inch,
    /// or becomes a corner of the nearest side. Several may be given.
    #[arg(long, value_name = "X,Y", allow_hyphen_values = true)]
    pub(crate) corner: Vec<String>,
    /// All corners anew.
    #[arg(long, value_name = "CORNERS", conflicts_with = "corner", allow_hyphen_values = true)]
    pub(crate) whole: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct EyeArgs {
    /// A picture of a piece that needn't be known here, with measuring cards beside it: what can be told from it
    /// alone. The wish of a quilt counts when --quilt names one.
    #[arg(long, value_name = "PICTURE")]
    pub(crate) photo: Option<PathBuf>,
    /// What the next seam takes of the raw edge all round in that picture; 0 where the piece is finished. The
    /// wish's seam allowance when not said.
    #[arg(long, requires = "photo")]
    pub(crate) edge: Option<String>,
    /// Side of the cards' black square in that picture; that told by `scrap card-side` when not said.
    #[arg(long, requires = "photo")]
    pub(crate) side: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct PhotoArgs {
    /// Pictures (JPEG, PNG, WebP), or folders of them.
    #[arg(required = true, value_name = "PICTURE|FOLDER")]
    pub(crate) pictures: Vec<PathBuf>,
    /// Side of the cards' black square in these pictures; that told by `scrap card-side` when not said.
    #[arg(long)]
    pub(crate) side: Option<String>,
    /// Look only: tell what is found and enter nothing.
    #[arg(long)]
    pub(crate) look: bool,
    /// What the scraps are called, with a number each; by colour and picture when not said.
    #[arg(long = "as", value_name = "NAME")]
    pub(crate) called: Option<String>,
    /// Enter the scraps of a picture that was entered before once more.
    #[arg(long)]
    pub(crate) again: bool,
    /// Pixels an inch of the scraps' pictures, 40 to 150; those of the photograph when not said.
    #[arg(long)]
    pub(crate) pixels: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct RemeasureArgs {
    /// Which quilt.
    #[arg(value_name = "QUILT")]
    pub(crate) piece: String,
    /// The picture of the piece, with measuring cards beside it.
    #[arg(long, value_name = "PICTURE")]
    pub(crate) photo: PathBuf,
    /// Look only: tell the differences and change nothing.
    #[arg(long)]
    pub(crate) look: bool,
    /// By how many degrees, leftwards, the picture must be turned to stand as the drawing does. Told only
    /// of a piece so regular that it could lie in several ways.
    #[arg(long, default_value_t = 0.0, allow_hyphen_values = true, value_name = "DEG")]
    pub(crate) turned: f64,
    /// Side of the cards' black square in this picture; that told by `scrap card-side` when not said.
    #[arg(long)]
    pub(crate) side: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct CatchUpArgs {
    /// Which quilt.
    #[arg(value_name = "QUILT")]
    pub(crate) piece: String,
    /// The picture of the piece, with measuring cards beside it.
    #[arg(value_name = "PICTURE")]
    pub(crate) photo: PathBuf,
    /// Look only: tell what is new and change nothing.
    #[arg(long)]
    pub(crate) look: bool,
    /// Of which cloth a patch is, where the first guess is wrong: 2=14 says patch 2 is of No. 14.
    #[arg(long = "cloth", value_name = "PATCH=NO")]
    pub(crate) cloths: Vec<String>,
    /// A patch that stays as it was found: a region with its picture, of no cloth of the heap.
    #[arg(long = "as-found", value_name = "PATCH")]
    pub(crate) as_found: Vec<usize>,
    /// Take the whole piece as it was found: one patch with its picture, in the place of all that is
    /// known of it.
    #[arg(long, conflicts_with_all = ["cloths", "as_found"])]
    pub(crate) in_one: bool,
    /// With --in-one: by how many degrees, leftwards, the picture must be turned to stand as the drawing does.
    #[arg(long, default_value_t = 0.0, allow_hyphen_values = true, value_name = "DEG", requires = "in_one")]
    pub(crate) turned: f64,
    /// Side of the cards' black square in this picture; that told by `scrap card-side` when not said.
    #[arg(long)]
    pub(crate) side: Option<String>,
}
