//! Colour as the eye sees it: sRGB in and out, CIELAB and OKLab, differences, palettes, and how
//! heavy or warm a colour looks.
//!
//! * The white is D65 with the 2° observer throughout; nothing here adapts to another white.
//! * [`Lab`] is what is stored and averaged; [`Srgb`] is what goes to and comes from pictures.
//! * [`difference`] is CIEDE2000 as published and for judging; [`Quick`] is near it and for
//!   searching.
//! * Nothing here knows cloth, reads a clock or draws a random number. Nothing panics: of numbers
//!   that aren't finite, sums and differences aren't finite either, and [`Lab::to_srgb`] and
//!   [`nearest_word`] give some colour.

mod difference;
mod feel;
mod lab;
mod linear;
mod mean;
mod oklab;
mod palette;
mod quick;
mod srgb;
mod words;
mod xyz;

pub use difference::{difference, plain_difference};
pub use feel::{activity, heat, visual_weight};
pub use lab::Lab;
pub use linear::Linear;
pub use mean::mean;
pub use oklab::Oklab;
pub use palette::{Swatch, palette};
pub use quick::Quick;
pub use srgb::{HexProblem, Srgb};
pub use words::{all_words, nearest_word, read_words, words};
pub use xyz::Xyz;
