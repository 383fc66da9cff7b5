//! Linear sRGB: amounts of light of a screen's three primaries, which may be mixed and averaged.

use crate::{Srgb, Xyz};

/// Light of three primaries; 0 to 1 each where a screen can show it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Linear {
    /// Red light.
    pub r: f64,
    /// Green light.
    pub g: f64,
    /// Blue light.
    pub b: f64,
}

impl Linear {
    /// Light from its three amounts.
    #[must_use]
    pub const fn new(r: f64, g: f64, b: f64) -> Self {
        Self { r, g, b }
    }

    /// The same colour as tristimulus values (IEC 61966-2-1, exact fractions).
    #[must_use]
    pub fn to_xyz(self) -> Xyz {
        let Self { r, g, b } = self;
        Xyz {
            x: 506_752.0 / 1_228_815.0 * r + 87_881.0 / 245_763.0 * g + 12_673.0 / 70_218.0 * b,
            y: 87_098.0 / 409_605.0 * r + 175_762.0 / 245_763.0 * g + 12_673.0 / 175_545.0 * b,
            z: 7_918.0 / 409_605.0 * r + 87_881.0 / 737_289.0 * g + 1_001_167.0 / 1_053_270.0 * b,
        }
    }

    /// The nearest colour of a screen, each channel cut off where it runs out.
    #[must_use]
    pub fn to_srgb(self) -> Srgb {
        Srgb { r: encode(self.r), g: encode(self.g), b: encode(self.b) }
    }

    /// The light a share `t` of the way to `other` (0 here, 1 there), as two inks blend.
    #[must_use]
    pub fn lerp(self, other: Self, t: f64) -> Self {
        let mix = |a: f64, b: f64| a + (b - a) * t;
        Self { r: mix(self.r, other.r), g: mix(self.g, other.g), b: mix(self.b, other.b) }
    }
}

/// One channel of light as a screen's number (IEC 61966-2-1).
fn encode(light: f64) -> u8 {
    let light = light.clamp(0.0, 1.0);
    let value = if light <= 0.003_130_8 { 12.92 * light } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 };
    (value * 255.0).round() as u8
}
