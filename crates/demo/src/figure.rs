//! The figure of the demo: a heron, drawn by us as closed paths, about 6 2/3 by 10 inches.
//!
//! Lowest layer first: far and near leg with their toes, body, neck, wing, head, beak, crest, eye. Legs,
//! toes and beak are thin shapes, and the eye a small one: they become stitches by themselves.

/// The heron as an SVG file.
pub const HERON: &str = include_str!("heron.svg");
