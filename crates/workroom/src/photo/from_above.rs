//! A photograph as the table looks from straight above, to be shown under what was found on it.

use super::read::PhotoMeasured;
use crate::asks::Asked;
use plane::Point;

/// Most pixels of the table from above: enough for a screen.
const MOST_PIXELS: f64 = 2.4e6;

/// The table from straight above, in daylight; clear where the camera saw nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct FromAbove {
    /// The picture, a PNG.
    pub png: Vec<u8>,
    /// Where its lower left corner lies on the table, in inches.
    pub low: Point,
    /// Where its upper right corner lies.
    pub high: Point,
}

impl PhotoMeasured {
    /// The part of the table that the picture shows well, from straight above.
    ///
    /// # Errors
    /// A picture that can't be written.
    pub fn from_above(&self) -> Asked<FromAbove> {
        let source = &self.source;
        let window = source.map.field();
        let area = (window.high.x - window.low.x) * (window.high.y - window.low.y);
        let flat = source.flat(window, source.pixels_per_in().min((MOST_PIXELS / area).sqrt()));
        let size_px = [flat.picture.width, flat.picture.height];
        let seen = flat.picture.rgb.iter().zip(&flat.seen);
        let rgba =
            seen.flat_map(|(&[r, g, b], &seen)| if seen { [r, g, b, u8::MAX] } else { [0; 4] }).collect();
        let [width, height] = size_px.map(f64::from);
        // Pixels are whole: the picture may end a part of one beyond the window.
        let (low, high) = (flat.on_table(Point::new(0.0, height)), flat.on_table(Point::new(width, 0.0)));
        Ok(FromAbove { png: papers::packed(size_px, rgba)?, low, high })
    }

    /// The corners of the cards it was measured by, on the table, in inches.
    #[must_use]
    pub fn cards_on_table(&self) -> Vec<[Point; 4]> {
        let map = &self.source.map;
        map.used().iter().map(|card| card.corners.map(|px| map.to_table(px))).collect()
    }
}
