//! Colour as the eye sees it: sRGB in and out, CIELAB and OKLab, differences, palettes, and how
//! heavy or warm a colour looks.

mod lab;

pub use lab::Lab;
