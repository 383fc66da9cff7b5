//! PNG from SVG. For a piece with pictures [`crate::paint`] is much quicker.

use crate::{Fonts, PaperProblem};
use resvg::tiny_skia::{IntSize, Pixmap, Transform};
use resvg::usvg::{self, ImageHrefResolver, ImageKind};
use std::sync::Arc;

/// Finds a picture by the address the drawing gives for it (`/pictures/3fa1….png`). A picture
/// that isn't found is left out; what lies under it shows.
pub type PicturesByAddress<'a> = &'a (dyn Fn(&str) -> Option<Vec<u8>> + Sync);

/// The most pixels a picture may have: 100 million, 400 megabytes while it is drawn.
pub const LARGEST_PIXELS: f64 = 100e6;

/// CSS pixels an inch: what the SVG reader takes an inch for.
const READER_PIXELS_PER_IN: f64 = 96.0;

/// Any SVG as PNG, so many pixels an inch, on a clear ground where the drawing has none. The
/// size in pixels is that of the page, rounded up. Words need `fonts`: without any they are left
/// out.
///
/// # Errors
/// A scale that makes no picture, more than [`LARGEST_PIXELS`], or what isn't SVG.
pub fn png(
    svg: &str,
    pixels_per_in: f64,
    fonts: &Fonts,
    pictures: PicturesByAddress<'_>,
) -> Result<Vec<u8>, PaperProblem> {
    let tree = read(svg, fonts, pictures)?;
    let size_in = [tree.size().width(), tree.size().height()].map(|px| f64::from(px) / READER_PIXELS_PER_IN);
    let (width, height) = size_px(size_in, pixels_per_in)?;
    let mut pixels = Pixmap::new(width, height).ok_or(PaperProblem::Scale { pixels_per_in })?;
    let scale = (pixels_per_in / READER_PIXELS_PER_IN) as f32;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut pixels.as_mut());
    pixels.encode_png().map_err(|problem| PaperProblem::NotPacked { reason: problem.to_string() })
}

fn read(svg: &str, fonts: &Fonts, pictures: PicturesByAddress<'_>) -> Result<usvg::Tree, PaperProblem> {
    let options = usvg::Options {
        fontdb: fonts.database(),
        dpi: READER_PIXELS_PER_IN as f32,
        image_href_resolver: ImageHrefResolver {
            resolve_data: ImageHrefResolver::default_data_resolver(),
            resolve_string: Box::new(move |address, _| pictures(address).and_then(kind)),
        },
        ..usvg::Options::default()
    };
    usvg::Tree::from_str(svg, &options)
        .map_err(|problem| PaperProblem::NotSvg { reason: problem.to_string() })
}

/// What sort of picture the bytes are, by their first ones.
fn kind(bytes: Vec<u8>) -> Option<ImageKind> {
    let is = |start: &[u8]| bytes.starts_with(start);
    if is(b"\x89PNG\r\n\x1a\n") {
        Some(ImageKind::PNG(Arc::new(bytes)))
    } else if is(b"\xff\xd8\xff") {
        Some(ImageKind::JPEG(Arc::new(bytes)))
    } else if is(b"RIFF") {
        Some(ImageKind::WEBP(Arc::new(bytes)))
    } else {
        None
    }
}

/// Width and height in pixels of a page of so many inches.
pub(crate) fn size_px(size_in: [f64; 2], pixels_per_in: f64) -> Result<(u32, u32), PaperProblem> {
    if !pixels_per_in.is_finite() || pixels_per_in <= 0.0 {
        return Err(PaperProblem::Scale { pixels_per_in });
    }
    let [width, height] = size_in.map(|length| (length * pixels_per_in - 1e-3).ceil().max(1.0));
    let pixels = width * height;
    if pixels > LARGEST_PIXELS {
        return Err(PaperProblem::TooLarge {
            pixels_per_in,
            megapixels: pixels / 1e6,
            most: LARGEST_PIXELS / 1e6,
            fits: (pixels_per_in * (LARGEST_PIXELS / pixels).sqrt()).floor(),
        });
    }
    Ok((width as u32, height as u32))
}

/// A picture's file as pixels, stretched to the size it is said to have; `None` when it can't be
/// read.
pub(crate) fn pixels_of_image(file: &[u8], [width, height]: [u32; 2]) -> Option<Pixmap> {
    if let Some(pixels) = Pixmap::decode_png(file).ok().filter(|p| [p.width(), p.height()] == [width, height])
    {
        return Some(pixels);
    }
    let svg = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}"><image width="{width}" height="{height}" preserveAspectRatio="none" href="picture"/></svg>"#
    );
    kind(file.to_vec())?;
    let tree = read(&svg, &Fonts::none(), &|_| Some(file.to_vec())).ok()?;
    let mut pixels = Pixmap::new(width, height)?;
    resvg::render(&tree, Transform::identity(), &mut pixels.as_mut());
    Some(pixels)
}

/// Pixels as a PNG: red, green, blue and cover, row by row from the top. A pixel is either there or
/// clear: its cover is 255, or all four are 0.
///
/// # Errors
/// A size that isn't that of the pixels, or none.
pub fn packed([width, height]: [u32; 2], rgba: Vec<u8>) -> Result<Vec<u8>, PaperProblem> {
    let wrong = || PaperProblem::NotPacked { reason: format!("{width} by {height} pixels don't fit them") };
    let size = IntSize::from_wh(width, height).ok_or_else(wrong)?;
    let pixels = Pixmap::from_vec(rgba, size).ok_or_else(wrong)?;
    pixels.encode_png().map_err(|problem| PaperProblem::NotPacked { reason: problem.to_string() })
}
