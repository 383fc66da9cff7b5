//! Pictures for paper and screen: PNG from drawings, and from any SVG; DXF for cutters and frames; PDF for
//! whatever is printed.
//!
//! * The heavy dependencies stay here.
//! * Sizes are inches and pixels an inch. Only [`Fonts::in_folder`] reads files; the rest is a
//!   function of its arguments.

mod cards;
pub mod dxf;
pub mod flow;
mod fonts;
mod guide;
mod overlap;
mod paint;
mod pen;
mod png;
pub mod press;
mod problem;
mod size;
mod source;
mod svg_layers;
mod tiles;
pub mod true_size;

pub use cards::{CELLS, CardCells, cards};
pub use fonts::Fonts;
pub use guide::{Guide, guide};
pub use paint::{FindPicture, paint};
pub use pen::{pen_number, pen_size};
pub use png::{LARGEST_PIXELS, PicturesByAddress, packed, png};
pub use problem::PaperProblem;
pub use size::{OtherSize, Paper};
pub use svg_layers::svg_layers;
pub use tiles::{MOST_TILES, TILE_MARGIN_IN, Tile, tiles};
