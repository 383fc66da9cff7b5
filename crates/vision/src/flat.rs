//! The table from straight above.

use crate::Picture;
use plane::Point;

/// A rectangle of the table, flattened to true size.
#[derive(Clone, Debug, PartialEq)]
pub struct Flat {
    /// Its pixels, rows from the top.
    pub picture: Picture,
    /// Pixels an inch, both ways.
    pub pixels_per_in: f64,
    /// Where its upper left corner lies on the table, in inches, y up.
    pub top_left: Point,
    /// Which pixels the camera saw; the others lie outside its picture.
    pub seen: Vec<bool>,
}

impl Flat {
    /// Where a place of the flattened picture lies on the table, in inches.
    #[must_use]
    pub fn on_table(&self, px: Point) -> Point {
        Point::new(self.top_left.x + px.x / self.pixels_per_in, self.top_left.y - px.y / self.pixels_per_in)
    }

    /// Where a place on the table lies in the flattened picture, in pixels.
    #[must_use]
    pub fn in_picture(&self, inch: Point) -> Point {
        Point::new(
            (inch.x - self.top_left.x) * self.pixels_per_in,
            (self.top_left.y - inch.y) * self.pixels_per_in,
        )
    }
}
