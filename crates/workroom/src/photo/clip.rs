//! The picture of one cloth: flattened, in daylight, and clear outside its outline.

use super::source::Source;
use crate::asks::Asked;
use plane::{Point, Region, Vec2, polygon};
use vision::Window;

/// Fewest and most pixels an inch of a cloth's picture.
pub(super) const PIXELS_PER_IN: [f64; 2] = [40.0, 150.0];

/// Most pixels an inch at which looks and seams are read.
const CLOSE_PER_IN: f64 = 100.0;

/// Most pixels of one cloth's picture: more than can be kept otherwise. A larger cloth gets fewer pixels
/// an inch.
const MOST_PIXELS: f64 = 6e6;

/// A flattened picture of one cloth.
#[derive(Clone, Debug, PartialEq)]
pub struct Clipped {
    /// The picture, a PNG that is clear outside the outline.
    pub png: Vec<u8>,
    /// Pixels an inch.
    pub pixels_per_in: f64,
    /// Where its top left corner lies on the table, in inches.
    pub top_left: Point,
    /// Width and height in pixels.
    pub size_px: [u32; 2],
}

impl Source {
    /// The picture within an outline on the table. Where `pixels_per_in` isn't said it has as many as
    /// the photograph has there.
    pub(super) fn clipped(&self, outline: &Region, pixels_per_in: Option<f64>) -> Asked<Clipped> {
        let window = around(outline);
        let [least, most] = PIXELS_PER_IN;
        let area = (window.high.x - window.low.x) * (window.high.y - window.low.y);
        let own = self.map.pixels_per_in(self.map.to_picture(window.low.midpoint(window.high)));
        let wished = pixels_per_in.unwrap_or(own).clamp(least, most);
        let flat = self.flat(window, wished.min((MOST_PIXELS / area).sqrt()));
        let [width, height] = [flat.picture.width, flat.picture.height];
        let mut rgba = vec![0_u8; flat.picture.rgb.len() * 4];
        let across = width.max(1) as usize;
        for (row, line) in rgba.chunks_mut(across * 4).enumerate() {
            let inside = runs(outline, &flat, row);
            for (column, pixel) in line.chunks_mut(4).enumerate() {
                let at = row * across + column;
                let middle = column as f64 + 0.5;
                if flat.seen[at] && inside.iter().filter(|x| **x < middle).count() % 2 == 1 {
                    pixel[..3].copy_from_slice(&flat.picture.rgb[at]);
                    pixel[3] = u8::MAX;
                }
            }
        }
        let png = papers::packed([width, height], rgba)?;
        Ok(Clipped {
            png,
            pixels_per_in: flat.pixels_per_in,
            top_left: flat.top_left,
            size_px: [width, height],
        })
    }

    /// The part of the table round an outline, to be looked at closely.
    pub(super) fn around(&self, outline: &Region) -> vision::Flat {
        let per_in = self.pixels_per_in().clamp(PIXELS_PER_IN[0], CLOSE_PER_IN);
        self.flat(around(outline), per_in)
    }

    /// How a cloth within an outline looks.
    pub(super) fn look(&self, outline: &Region) -> vision::Look {
        vision::look(&self.around(outline), outline)
    }
}

/// The rectangle round an outline, a little larger.
fn around(outline: &Region) -> Window {
    let (low, high) = polygon::bounds(&outline.outer).unwrap_or_default();
    let rim = Vec2::new(RIM_IN, RIM_IN);
    Window { low: low - rim, high: high + rim }
}

/// Inches round an outline that its picture has too.
const RIM_IN: f64 = 1.0 / 32.0;

/// Where the middle of a row of pixels goes into the outline and out again, in pixels, in order.
pub(super) fn runs(outline: &Region, flat: &vision::Flat, row: usize) -> Vec<f64> {
    let y = row as f64 + 0.5;
    let rings = std::iter::once(&outline.outer).chain(&outline.holes);
    let edges = rings.flat_map(|ring| polygon::edges(ring));
    let mut crossings: Vec<f64> = edges
        .map(|(a, b)| (flat.in_picture(a), flat.in_picture(b)))
        .filter(|(a, b)| (a.y <= y) != (b.y <= y))
        .map(|(a, b)| a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y))
        .collect();
    crossings.sort_by(f64::total_cmp);
    crossings
}
