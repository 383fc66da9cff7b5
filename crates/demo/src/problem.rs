//! Why a picture can't be made.

use thiserror::Error;

/// What stands in the way of a picture.
#[derive(Debug, Error)]
pub enum PictureProblem {
    /// The encoder refused it: no pixels, or too many.
    #[error("a picture of {width} by {height} pixels can't be written as PNG: {source}")]
    Encoding {
        /// Pixels a row.
        width: u32,
        /// Rows.
        height: u32,
        /// What the encoder says.
        source: png::EncodingError,
    },
    /// The JPEG encoder refused it: no pixels, or too many.
    #[error("a picture of {width} by {height} pixels can't be written as JPEG: {source}")]
    Jpeg {
        /// Pixels a row.
        width: u32,
        /// Rows.
        height: u32,
        /// What the encoder says.
        source: jpeg_encoder::EncodingError,
    },
    /// The scrap is of a print that its heap doesn't have.
    #[error(
        "{scrap} is of print {print} of its heap, counted from 0, which has only {prints}. \
         Hint: paint a scrap from the heap it came from."
    )]
    NoSuchPrint {
        /// The scrap's name.
        scrap: String,
        /// The print it names.
        print: usize,
        /// How many there are.
        prints: usize,
    },
}
