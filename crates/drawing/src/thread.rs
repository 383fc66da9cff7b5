//! Thread that lies on top of cloth, in its own colour and true width.
//!
//! A seam's stitches are drawn as what they mean ([`crate::Stroke`]); quilting is seen as what it is.

use colour::Srgb;
use plane::fill;

/// Lines of thread of one colour and width.
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadItem {
    /// The lines, in sewing order.
    pub strokes: Vec<fill::Stroke>,
    /// Colour of the thread.
    pub colour: Srgb,
    /// Its true width in inches, whatever the weight of the drawing.
    pub width_in: f64,
    /// Length of stitch and gap in inches; `None` for a plain line.
    pub dash_in: Option<[f64; 2]>,
    /// How far a soft shade reaches out beside it: thread sinks into the layers, and without a shade
    /// it can't be seen on cloth of its own colour. 0 for none.
    pub shade_in: f64,
}

impl ThreadItem {
    /// Length of all lines in inches.
    #[must_use]
    pub fn length_in(&self) -> f64 {
        self.strokes.iter().map(fill::Stroke::length).sum()
    }
}
