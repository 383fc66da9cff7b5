//! Why a paper can't be made.

use quilt::length::fraction;
use thiserror::Error;

/// What stands in the way of a paper.
#[derive(Debug, Error)]
pub enum PaperProblem {
    /// Not a number of pixels an inch that can be drawn at.
    #[error("{pixels_per_in} pixels an inch make no picture. Hint: 96 suits a screen, 300 paper.")]
    Scale {
        /// What was asked.
        pixels_per_in: f64,
    },
    /// More pixels than can be drawn at once.
    #[error(
        "At {pixels_per_in} pixels an inch the picture would have {megapixels:.0} million pixels; \
         the most is {most:.0} million. Hint: {fits:.0} pixels an inch fit."
    )]
    TooLarge {
        /// What was asked.
        pixels_per_in: f64,
        /// What that makes, in millions.
        megapixels: f64,
        /// The most, in millions.
        most: f64,
        /// The finest scale that fits.
        fits: f64,
    },
    /// The drawing can't be read as SVG.
    #[error("The drawing can't be read as SVG: {reason}")]
    NotSvg {
        /// What the reader says.
        reason: String,
    },
    /// The picture can't be packed as PNG.
    #[error("The picture can't be packed as PNG: {reason}")]
    NotPacked {
        /// What the packer says.
        reason: String,
    },
    /// A stroke without a point.
    #[error("Stroke {stroke} has no points. Hint: leave it out.")]
    EmptyStroke {
        /// Which, counted from 1.
        stroke: usize,
    },
    /// A point of a stroke that lies nowhere.
    #[error(
        "Point {point} of stroke {stroke} is no place within a million inches. Hint: check the unit it was drawn in."
    )]
    NoPlace {
        /// Which stroke, counted from 1.
        stroke: usize,
        /// Which of its points, counted from 1.
        point: usize,
    },
    /// An outline that has no room.
    #[error("The piece has no outline to draw. Hint: sew something first.")]
    NoOutline,
    /// More tiles than anybody lays out.
    #[error(
        "In true size it would be {tiles} pages; the most is {most}. Hint: print the overview alone, or have the lines plotted from SVG or DXF."
    )]
    TooManyTiles {
        /// How many.
        tiles: usize,
        /// The most.
        most: usize,
    },
    /// The pages can't be bound to a file.
    #[error("The pages can't be bound to a file: {reason}")]
    NotBound {
        /// What the format's rules say.
        reason: String,
    },
    /// Paper that leaves no room, or that no file can have.
    #[error(
        "Paper of {} by {} inches can't be printed on. Hint: the least is {} by {} inches, so that words and squares have room between the margins; the most is {} inches either way.",
        fraction(*.width_in, 16), fraction(*.height_in, 16), fraction(.least_in[0], 16), fraction(.least_in[1], 16), most_in
    )]
    PaperSize {
        /// What was asked.
        width_in: f64,
        /// What was asked.
        height_in: f64,
        /// The least width and height, in inches.
        least_in: [f64; 2],
        /// The longest side, in inches.
        most_in: f64,
    },
    /// Words that are no paper.
    #[error(
        "`{said}` is no paper. Hint: name one of {names}, or its width and height, as in 8-1/2x14 or 297mmx420mm."
    )]
    NoSuchPaper {
        /// What was asked.
        said: String,
        /// Which have a name.
        names: String,
    },
    /// Measuring cards that can't be printed.
    #[error(
        "Cards with a side of {side_in} inches can't be printed on this paper. Hint: the side of the black square may be {least_in} to {most_in} inches; 2 suits most tables."
    )]
    CardSide {
        /// What was asked.
        side_in: f64,
        /// The least, in inches.
        least_in: f64,
        /// The most, in inches.
        most_in: f64,
    },
    /// A folder without any type.
    #[error("{place} holds no type. Hint: name a folder with .ttf or .otf files, or do without words.")]
    NoType {
        /// Which.
        place: String,
    },
    /// A file or folder of type can't be read.
    #[error("{place} can't be read: {source}. Hint: name a folder with .ttf or .otf files.")]
    Unread {
        /// Which.
        place: String,
        /// Why.
        source: std::io::Error,
    },
}
