//! CIELAB under D65, 2° observer.

use crate::{Linear, Srgb, Xyz};
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

impl Lab {
    /// A colour from its three coordinates.
    #[must_use]
    pub const fn new(l: f64, a: f64, b: f64) -> Self {
        Self { l, a, b }
    }

    /// Chroma C*: distance from grey, 0 or more.
    #[must_use]
    pub fn chroma(self) -> f64 {
        (self.a * self.a + self.b * self.b).sqrt()
    }

    /// Hue angle in degrees, 0 up to 360, red at about 40; 0 for greys.
    #[must_use]
    pub fn hue_deg(self) -> f64 {
        if self.a == 0.0 && self.b == 0.0 {
            return 0.0;
        }
        self.b.atan2(self.a).to_degrees().rem_euclid(360.0)
    }

    /// Whether all three coordinates are finite numbers.
    #[must_use]
    pub fn is_finite(self) -> bool {
        self.l.is_finite() && self.a.is_finite() && self.b.is_finite()
    }

    /// The same colour as tristimulus values (ISO/CIE 11664-4, with the exact fractions for the
    /// break between cube root and line).
    #[must_use]
    pub fn to_xyz(self) -> Xyz {
        let fy = (self.l + 16.0) / 116.0;
        let back = |f: f64| {
            let cube = f * f * f;
            if cube > EPSILON { cube } else { (116.0 * f - 16.0) / KAPPA }
        };
        let white = Xyz::WHITE;
        Xyz {
            x: back(fy + self.a / 500.0) * white.x,
            y: back(fy) * white.y,
            z: back(fy - self.b / 200.0) * white.z,
        }
    }

    /// The same colour as light; outside 0 to 1 when no screen can show it.
    #[must_use]
    pub fn to_linear(self) -> Linear {
        self.to_xyz().to_linear()
    }

    /// The nearest colour of a screen, each channel cut off where it runs out.
    #[must_use]
    pub fn to_srgb(self) -> Srgb {
        self.to_linear().to_srgb()
    }
}

impl From<Xyz> for Lab {
    fn from(xyz: Xyz) -> Self {
        let forward = |t: f64| if t > EPSILON { t.cbrt() } else { (KAPPA * t + 16.0) / 116.0 };
        let white = Xyz::WHITE;
        let (fx, fy, fz) = (forward(xyz.x / white.x), forward(xyz.y / white.y), forward(xyz.z / white.z));
        Self { l: 116.0 * fy - 16.0, a: 500.0 * (fx - fy), b: 200.0 * (fy - fz) }
    }
}

impl From<Linear> for Lab {
    fn from(light: Linear) -> Self {
        light.to_xyz().into()
    }
}

impl From<Srgb> for Lab {
    fn from(srgb: Srgb) -> Self {
        srgb.to_linear().into()
    }
}

/// Where the cube root gives way to a line: (6/29)³.
const EPSILON: f64 = 216.0 / 24_389.0;
/// Slope of that line: (29/3)³.
const KAPPA: f64 = 24_389.0 / 27.0;
