//! CIELAB under D65, 2° observer.

use serde::{Deserialize, Serialize};

/// A colour in CIELAB (D65). Plain numbers, so that it can be stored and averaged.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Lab {
    /// Lightness L*, 0 black to 100 white.
    pub l: f64,
    /// Green (negative) to red.
    pub a: f64,
    /// Blue (negative) to yellow.
    pub b: f64,
}
