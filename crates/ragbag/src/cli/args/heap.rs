//! What can be said of cloth.

use super::choices::YesNo;
use clap::{Args, Subcommand};
use std::path::PathBuf;

/// What isn't cloth within an outline, in the cloth's inches.
#[derive(Debug, Args)]
pub(crate) struct Spots {
    /// Corners of a stain or a thin place; several may be given. A rectangle begins at 0,0.
    #[arg(long, global = true, value_name = "CORNERS")]
    pub(crate) flaw: Vec<String>,
    /// Corners of a hole; several may be given.
    #[arg(long, global = true, value_name = "CORNERS")]
    pub(crate) hole: Vec<String>,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Way {
    /// In words: "red stripe, about 3 by 5".
    #[command(after_help = "Example: ragbag add words \"red stripe, about 3 by 5\"")]
    Words {
        /// The words.
        words: String,
    },
    /// A rectangle.
    #[command(after_help = "Example: ragbag add rectangle \"rust dot\" 4-1/2 7")]
    Rectangle {
        /// What it is called; colour words give its look.
        name: String,
        /// Width.
        width: String,
        /// Height, along the lengthwise grain.
        height: String,
    },
    /// A polygon.
    #[command(
        after_help = "Example: ragbag add polygon \"slate leaf\" \"0,0 5,0 4,6 1,5-1/2\" --flaw \"2,2 3,2 3,3\""
    )]
    Polygon {
        /// What it is called.
        name: String,
        /// Its corners.
        corners: String,
    },
    /// Outlines from an SVG file with real units.
    #[command(after_help = "Example: ragbag add svg scraps.svg")]
    Svg {
        /// The file.
        file: PathBuf,
    },
    /// A list: CSV with columns name, width, height…
    #[command(after_help = "Example: ragbag add list scraps.csv")]
    List {
        /// The file.
        file: PathBuf,
    },
    /// By weight: one whole piece of cloth of that weight, as a square. Not for a bag of bits.
    #[command(after_help = "Example: ragbag add weight \"blue bits\" 120 --grams-per-m2 140")]
    Weight {
        /// What it is called.
        name: String,
        /// Grams, or ounces as in 4oz.
        grams: String,
        /// Weight of the cloth.
        #[arg(long, default_value_t = workroom::intake::GRAMS_PER_M2)]
        grams_per_m2: f64,
    },
}

#[derive(Debug, Subcommand)]
pub(crate) enum Strips {
    /// Sew strips side by side.
    #[command(after_help = "Example: ragbag strips sew 3:1.5 8:2 5:1.25 --length 12")]
    Sew {
        /// Cloth number and cut width of each strip.
        #[arg(required = true, value_name = "CLOTH:WIDTH")]
        strips: Vec<String>,
        /// Length of the strips.
        #[arg(long)]
        length: String,
    },
    /// Slice a strip set across, square or slanted.
    #[command(after_help = "Example: ragbag strips slice 40 --width 2 --lean 30")]
    Slice {
        /// The set's number.
        set: u32,
        /// Width of the slices.
        #[arg(long)]
        width: String,
        /// How far they lean from square, in degrees.
        #[arg(long, default_value_t = 0.0, allow_hyphen_values = true)]
        lean: f64,
        /// How many; as many as there are when not said.
        #[arg(long)]
        count: Option<usize>,
    },
    /// Unpick a pieced cloth into the cloths it was sewn from.
    #[command(after_help = "Example: ragbag strips unpick 41")]
    Unpick {
        /// Its number.
        cloth: u32,
    },
}

#[derive(Debug, Args)]
pub(crate) struct CutArgs {
    /// The side the cut starts from.
    pub(crate) side: String,
    /// How far from its start; without it the cut runs along the side itself.
    #[arg(long)]
    pub(crate) at: Option<String>,
    /// How far the cut turns left from the side, in degrees. What lies left of it stays.
    #[arg(long, allow_hyphen_values = true, default_value_t = 90.0)]
    pub(crate) turn: f64,
}

#[derive(Debug, Args)]
pub(crate) struct ChangeArgs {
    /// The cloth's number.
    pub(crate) cloth: u32,
    /// What you call it.
    #[arg(long)]
    pub(crate) name: Option<String>,
    /// Where it is kept.
    #[arg(long)]
    pub(crate) place: Option<String>,
    /// Whether its size is only about right.
    #[arg(long)]
    pub(crate) about: Option<YesNo>,
    /// Corners of its edge, measured better. Of a cloth that has been cut since: of the whole, as it
    /// came; what was cut out stays cut out.
    #[arg(long, value_name = "CORNERS")]
    pub(crate) outline: Option<String>,
    /// Corners of a hole; several may be given, and they take the place of those known before.
    #[arg(long, value_name = "CORNERS")]
    pub(crate) hole: Vec<String>,
    /// It has no hole.
    #[arg(long, conflicts_with = "hole")]
    pub(crate) no_hole: bool,
    /// Its print runs one way, and up is so many degrees from the right of its outline, to the left: 90 is as
    /// it lies.
    #[arg(long, value_name = "DEGREES", allow_hyphen_values = true)]
    pub(crate) up: Option<f64>,
    /// Cotton, linen and so on.
    #[arg(long)]
    pub(crate) fibre: Option<String>,
    /// Whether it has been washed.
    #[arg(long)]
    pub(crate) washed: Option<YesNo>,
    /// Whether its colour bleeds.
    #[arg(long)]
    pub(crate) bleeds: Option<YesNo>,
    /// Corners of a stain or a thin place, in the cloth's inches; several may be given, and they take
    /// the place of those known before.
    #[arg(long, value_name = "CORNERS")]
    pub(crate) flaw: Vec<String>,
    /// It has no stain and no thin place.
    #[arg(long, conflicts_with = "flaw")]
    pub(crate) sound: bool,
}
