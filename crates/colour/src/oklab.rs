//! OKLab: a space in which straight mixtures keep their hue, used for palettes and gradients.
//!
//! Source of the matrices: B. Ottosson, "A perceptual color space for image processing", 2020,
//! the ones for linear sRGB and, for tristimulus values, the ones for XYZ. The two routes differ
//! in the fourth decimal.

use crate::{Linear, Xyz};

/// A colour in OKLab.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Oklab {
    /// Lightness, 0 black to 1 white.
    pub l: f64,
    /// Green (negative) to red, about -0.4 to 0.4.
    pub a: f64,
    /// Blue (negative) to yellow.
    pub b: f64,
}

impl Oklab {
    /// The same colour as light.
    #[must_use]
    pub fn to_linear(self) -> Linear {
        let Self { l, a, b } = self;
        let cube = |v: f64| v * v * v;
        let long = cube(l + 0.396_337_777_4 * a + 0.215_803_757_3 * b);
        let middle = cube(l - 0.105_561_345_8 * a - 0.063_854_172_8 * b);
        let short = cube(l - 0.089_484_177_5 * a - 1.291_485_548_0 * b);
        Linear {
            r: 4.076_741_662_1 * long - 3.307_711_591_3 * middle + 0.230_969_929_2 * short,
            g: -1.268_438_004_6 * long + 2.609_757_401_1 * middle - 0.341_319_396_5 * short,
            b: -0.004_196_086_3 * long - 0.703_418_614_7 * middle + 1.707_614_701_0 * short,
        }
    }

    /// Straight distance; about 0.02 is just seen.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        let (l, a, b) = (self.l - other.l, self.a - other.a, self.b - other.b);
        (l * l + a * a + b * b).sqrt()
    }

    /// The colour a share `t` of the way to `other` (0 here, 1 there).
    #[must_use]
    pub fn lerp(self, other: Self, t: f64) -> Self {
        let mix = |a: f64, b: f64| a + (b - a) * t;
        Self { l: mix(self.l, other.l), a: mix(self.a, other.a), b: mix(self.b, other.b) }
    }

    /// From the responses of the eye's three cones, before their cube root.
    fn from_cones(long: f64, middle: f64, short: f64) -> Self {
        let (l, m, s) = (long.cbrt(), middle.cbrt(), short.cbrt());
        Self {
            l: 0.210_454_255_3 * l + 0.793_617_785_0 * m - 0.004_072_046_8 * s,
            a: 1.977_998_495_1 * l - 2.428_592_205_0 * m + 0.450_593_709_9 * s,
            b: 0.025_904_037_1 * l + 0.782_771_766_2 * m - 0.808_675_766_0 * s,
        }
    }
}

impl From<Linear> for Oklab {
    fn from(Linear { r, g, b }: Linear) -> Self {
        Self::from_cones(
            0.412_221_470_8 * r + 0.536_332_536_3 * g + 0.051_445_992_9 * b,
            0.211_903_498_2 * r + 0.680_699_545_1 * g + 0.107_396_956_6 * b,
            0.088_302_461_9 * r + 0.281_718_837_6 * g + 0.629_978_700_5 * b,
        )
    }
}

impl From<Xyz> for Oklab {
    fn from(Xyz { x, y, z }: Xyz) -> Self {
        Self::from_cones(
            0.818_933_010_1 * x + 0.361_866_742_4 * y - 0.128_859_713_7 * z,
            0.032_984_543_6 * x + 0.929_311_871_5 * y + 0.036_145_638_7 * z,
            0.048_200_301_8 * x + 0.264_366_269_1 * y + 0.633_851_707_0 * z,
        )
    }
}
