//! Screen numbers and light (IEC 61966-2-1), by table: there are millions to turn.

use colour::{Linear, Srgb};
use std::sync::LazyLock;

/// Steps of the table back; fine enough that every screen number comes back as itself.
const STEPS: usize = 1 << 14;

static LIGHT: LazyLock<[f32; 256]> = LazyLock::new(|| {
    std::array::from_fn(|i| Srgb { r: i as u8, g: 0, b: 0 }.to_linear().r as f32)
});

static BACK: LazyLock<Vec<u8>> =
    LazyLock::new(|| (0..=STEPS).map(|i| Linear::new(i as f64 / STEPS as f64, 0.0, 0.0).to_srgb().r).collect());

/// Light of a screen number, 0 to 1.
pub(crate) fn light_of(value: u8) -> f32 {
    LIGHT[usize::from(value)]
}

/// The screen number of some light, cut off at 0 and 1.
pub(crate) fn encoded(light: f32) -> u8 {
    BACK[(light.clamp(0.0, 1.0) * STEPS as f32 + 0.5) as usize]
}

#[cfg(test)]
mod tests {
    use super::{encoded, light_of};

    #[test]
    fn every_number_comes_back() {
        for value in 0..=255 {
            assert_eq!(encoded(light_of(value)), value);
        }
        assert_eq!(encoded(f32::NAN), 0);
        assert_eq!((encoded(-1.0), encoded(7.0)), (0, 255));
    }
}
