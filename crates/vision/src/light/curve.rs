//! Screen numbers and light (IEC 61966-2-1), by table: there are millions to turn.

use crate::share::LIGHT;
use colour::Linear;
use std::sync::LazyLock;

/// Steps of the table back; fine enough that every screen number comes back as itself.
const STEPS: usize = 1 << 14;

static BACK: LazyLock<Vec<u8>> = LazyLock::new(|| {
    (0..=STEPS).map(|i| Linear::new(i as f64 / STEPS as f64, 0.0, 0.0).to_srgb().r).collect()
});

/// Both tables, for where every lookup counts.
#[derive(Clone, Copy)]
pub(crate) struct Curve {
    light: &'static [f32; 256],
    back: &'static [u8],
}

impl Curve {
    pub(crate) fn new() -> Self {
        Self { light: &LIGHT, back: &BACK }
    }

    /// Light of a screen number, 0 to 1.
    #[inline]
    pub(crate) fn light_of(self, value: u8) -> f32 {
        self.light[usize::from(value)]
    }

    /// The screen number of some light, cut off at 0 and 1.
    #[inline]
    pub(crate) fn encoded(self, light: f32) -> u8 {
        self.back[(light.clamp(0.0, 1.0) * STEPS as f32 + 0.5) as usize]
    }
}

/// Light of a screen number, 0 to 1.
#[inline]
pub(crate) fn light_of(value: u8) -> f32 {
    LIGHT[usize::from(value)]
}

#[cfg(test)]
mod tests {
    use super::Curve;

    #[test]
    fn every_number_comes_back() {
        let curve = Curve::new();
        for value in 0..=255 {
            assert_eq!(curve.encoded(curve.light_of(value)), value);
        }
        assert_eq!(curve.encoded(f32::NAN), 0);
        assert_eq!((curve.encoded(-1.0), curve.encoded(7.0)), (0, 255));
    }
}
