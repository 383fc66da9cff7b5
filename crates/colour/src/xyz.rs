//! CIE XYZ tristimulus values, 2° observer, scaled so that white has Y = 1.
//!
//! The matrices to and from linear sRGB are the exact fractions that follow from the primaries of
//! IEC 61966-2-1 and the white at x = 0.3127, y = 0.3290.

use crate::Linear;

/// A colour as tristimulus values; white has `y` = 1.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Xyz {
    /// X.
    pub x: f64,
    /// Y, the luminance.
    pub y: f64,
    /// Z.
    pub z: f64,
}

impl Xyz {
    /// The white of daylight at 6500 K, from its chromaticity x = 0.3127, y = 0.3290.
    pub const WHITE: Self = Self { x: 3127.0 / 3290.0, y: 1.0, z: 3583.0 / 3290.0 };

    /// The same colour as light of a screen's three primaries.
    #[must_use]
    pub fn to_linear(self) -> Linear {
        let Self { x, y, z } = self;
        Linear {
            r: 12_831.0 / 3_959.0 * x - 329.0 / 214.0 * y - 1_974.0 / 3_959.0 * z,
            g: -851_781.0 / 878_810.0 * x + 1_648_619.0 / 878_810.0 * y + 36_519.0 / 878_810.0 * z,
            b: 705.0 / 12_673.0 * x - 2_585.0 / 12_673.0 * y + 705.0 / 667.0 * z,
        }
    }
}

impl From<Linear> for Xyz {
    fn from(light: Linear) -> Self {
        light.to_xyz()
    }
}
