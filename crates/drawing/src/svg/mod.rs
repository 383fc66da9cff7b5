//! Drawings as SVG in true size (SVG 2: `href` without a namespace).
//!
//! The page's width and height carry the unit `in`, and one unit of the file is one inch, so that
//! any program opens it in true size. Positions are those of the drawing with y turned down.
//! Every picture stands once in `defs` and is used by reference; cost and size grow with the
//! number of items. The same drawing gives the same bytes.

mod base64;
mod definitions;
mod escape;
mod export;
mod number;
mod pictures;
mod thread;
mod writer;

pub use definitions::{PictureKey, key_of};
pub use pictures::Pictures;

use crate::Drawing;

/// How a drawing is written.
#[derive(Clone, Copy, Debug)]
pub struct SvgOptions<'a> {
    /// Where its pictures come from.
    pub pictures: Pictures<'a>,
    /// Stands before every id of the file, so that several drawings can share a page.
    pub id_prefix: &'a str,
}

impl Default for SvgOptions<'_> {
    fn default() -> Self {
        Self { pictures: Pictures::None, id_prefix: "" }
    }
}

impl Drawing {
    /// The drawing as SVG, with one inch of the drawing one inch of the page.
    #[must_use]
    pub fn to_svg(&self, options: &SvgOptions<'_>) -> String {
        export::svg(self, options)
    }
}
