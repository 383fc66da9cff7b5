//! From the bytes of a picture file to an upright [`Picture`].
//!
//! JPEG, PNG and WebP, eight or sixteen bits, grey or colour, with or without transparency (laid on
//! white). Of a moving picture the first frame is taken. The orientation tag is obeyed, and a colour
//! profile; where there is none the numbers are sRGB.
//!
//! Memory is bounded: the size is read before anything else, and nothing over [`LARGEST_PIXELS`] is
//! begun. What the decoders may hold at once is [`LARGEST_MEMORY`]; the finished picture takes three
//! bytes a pixel beside it, and as much again while it is turned upright.

mod kind;
mod profile;

use crate::Picture;
use image::codecs::{jpeg::JpegDecoder, png::PngDecoder, webp::WebPDecoder};
use image::metadata::Orientation;
use image::{DynamicImage, ImageDecoder, ImageError, Limits, RgbImage};
use kind::Kind;
use std::io::Cursor;
use std::panic::{AssertUnwindSafe, catch_unwind};
use thiserror::Error;

/// Most pixels a picture may have.
pub const LARGEST_PIXELS: u64 = 80_000_000;

/// Most bytes the decoders may take at once.
pub const LARGEST_MEMORY: u64 = 8 * LARGEST_PIXELS;

/// Fewest pixels along a side: below, nothing could be measured.
pub const SMALLEST_SIDE: u32 = 16;

/// Why a file can't be read as a picture.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum PictureProblem {
    /// There is nothing in it.
    #[error("the file is empty; copy it from the phone again")]
    Empty,
    /// It is a picture of a kind that isn't read.
    #[error("this is a {0} file, which Ragbag can't read; save or send it as JPEG, PNG or WebP")]
    OtherKind(&'static str),
    /// It is none.
    #[error("this file is not a picture; choose a JPEG, PNG or WebP")]
    NotAPicture,
    /// It ends before the picture does.
    #[error("the picture stops before its end: only a part of the file is there; copy it again")]
    Truncated,
    /// Its bytes make no picture.
    #[error("the picture is damaged and can't be read ({0}); copy it again or take another")]
    Damaged(String),
    /// It is kept as amounts of printing inks.
    #[error("the picture is kept in printing inks (CMYK), which have no sure colour; save it as sRGB")]
    Inks,
    /// It has too many pixels.
    #[error(
        "the picture has {width} by {height} pixels, over the limit of {} million; make it smaller first",
        LARGEST_PIXELS / 1_000_000
    )]
    TooLarge {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
    },
    /// It has too few.
    #[error("the picture has only {width} by {height} pixels; at least {SMALLEST_SIDE} each way are needed")]
    TooSmall {
        /// Pixels across.
        width: u32,
        /// Pixels down.
        height: u32,
    },
}

/// Reads a picture, upright and in eight bits.
///
/// # Errors
/// When the bytes are no picture of a known kind, stop early, are damaged, are kept in printing
/// inks, or the picture is too large or too small.
pub fn decode(bytes: &[u8]) -> Result<Picture, PictureProblem> {
    let kind = kind::of(bytes)?;
    // The decoders are other people's; should one stumble over its own feet, the picture is damaged.
    catch_unwind(AssertUnwindSafe(|| read(bytes, kind)))
        .unwrap_or_else(|_| Err(PictureProblem::Damaged("the reading broke off".to_owned())))
}

fn read(bytes: &[u8], kind: Kind) -> Result<Picture, PictureProblem> {
    let source = Cursor::new(bytes);
    let limits = || {
        let mut limits = Limits::default();
        limits.max_alloc = Some(LARGEST_MEMORY);
        limits
    };
    match kind {
        Kind::Jpeg => upright(JpegDecoder::new(source).map_err(worded)?, limits()),
        Kind::Png => upright(PngDecoder::with_limits(source, limits()).map_err(worded)?, limits()),
        Kind::WebP => upright(WebPDecoder::new(source).map_err(worded)?, limits()),
    }
}

fn upright(mut decoder: impl ImageDecoder, limits: Limits) -> Result<Picture, PictureProblem> {
    let (width, height) = decoder.dimensions();
    if u64::from(width) * u64::from(height) > LARGEST_PIXELS {
        return Err(PictureProblem::TooLarge { width, height });
    }
    if width.min(height) < SMALLEST_SIDE {
        return Err(PictureProblem::TooSmall { width, height });
    }
    decoder.set_limits(limits).map_err(worded)?;
    // A broken tag is no reason to lose a picture.
    let orientation = decoder.orientation().unwrap_or(Orientation::NoTransforms);
    let profile = decoder.icc_profile().unwrap_or_default();
    let image = DynamicImage::from_decoder(decoder).map_err(worded)?;
    let image = if image.color().has_alpha() { on_white(&image) } else { image.into_rgb8() };
    // Turned when it is small: three bytes a pixel.
    let mut image = DynamicImage::ImageRgb8(image);
    image.apply_orientation(orientation);
    let mut image = image.into_rgb8();
    if let Some(profile) = profile {
        profile::to_srgb(&mut image, &profile);
    }
    let (width, height) = image.dimensions();
    let (rgb, _) = image.as_raw().as_chunks::<3>();
    Ok(Picture { width, height, rgb: rgb.to_vec() })
}

/// The picture laid on white, as far as it can be seen through.
fn on_white(image: &DynamicImage) -> RgbImage {
    let image = image.to_rgba8();
    let mut laid = RgbImage::new(image.width(), image.height());
    for (to, from) in laid.pixels_mut().zip(image.pixels()) {
        let [r, g, b, a] = from.0.map(u32::from);
        to.0 = [r, g, b].map(|c| ((c * a + 255 * (255 - a) + 127) / 255) as u8);
    }
    laid
}

/// A decoder's complaint in words of ours.
#[expect(clippy::needless_pass_by_value, reason = "it stands where errors are turned into others")]
fn worded(error: ImageError) -> PictureProblem {
    // Complaints about the end come as text only from one of the decoders.
    let text = error.to_string();
    let ends = ["unexpected end", "failed to fill", "exhausted", "enough"];
    match error {
        ImageError::IoError(_) => PictureProblem::Truncated,
        _ if ends.iter().any(|word| text.contains(word)) => PictureProblem::Truncated,
        ImageError::Limits(_) => {
            PictureProblem::Damaged("it asks for more memory than a picture may".to_owned())
        }
        ImageError::Unsupported(_) => PictureProblem::Damaged("its way of packing is not known".to_owned()),
        _ => PictureProblem::Damaged("its bytes don't fit together".to_owned()),
    }
}
