//! A point whose straight distance to another is about the difference of their colours: for
//! sorting and pruning in a search, where the exact formula is too dear.
//!
//! CIELAB is warped so that straight distance comes near CIEDE2000 for small and middling
//! differences: lightness and chroma are compressed by the integrals of the formula's own weights.
//! What that can't follow (the blue corner, how hue weighs) is left out; the test says how far off
//! it is. Make the point once per colour and keep it.

use crate::Lab;
use crate::difference::stretch;

/// A colour as a place in a space where distance is about CIEDE2000.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Quick([f64; 3]);

impl Quick {
    /// The place of a colour.
    #[must_use]
    pub fn new(lab: Lab) -> Self {
        let off = lab.l - 50.0;
        let light = ((1.0 + 0.015 * off.abs()).ln() / 0.015).copysign(off);
        let a = lab.a * stretch(lab.chroma());
        let chroma = (a * a + lab.b * lab.b).sqrt();
        if chroma == 0.0 {
            return Self([light, 0.0, 0.0]);
        }
        let warp = (1.0 + 0.045 * chroma).ln() / (0.045 * chroma);
        Self([light, a * warp, lab.b * warp])
    }

    /// About the CIEDE2000 difference of the two colours.
    #[must_use]
    pub fn difference(self, other: Self) -> f64 {
        self.square(other).sqrt()
    }

    /// The difference squared, for comparing only.
    #[must_use]
    pub fn square(self, other: Self) -> f64 {
        let [l, a, b] = [0, 1, 2].map(|i| self.0[i] - other.0[i]);
        l * l + a * a + b * b
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Srgb, difference};

    #[test]
    fn it_is_near_the_exact_difference_for_nine_pairs_in_ten() {
        let colours: Vec<Lab> =
            (0..700_u32).map(|i| Srgb::from_number(i.wrapping_mul(2_654_435_761) >> 8).to_lab()).collect();
        let (mut near, mut all) = (0, 0);
        for (i, &one) in colours.iter().enumerate() {
            for &other in &colours[..i] {
                let exact = difference(one, other);
                if exact < 30.0 {
                    let quick = Quick::new(one).difference(Quick::new(other));
                    near += u32::from((quick / exact - 1.0).abs() < 0.2);
                    all += 1;
                }
            }
        }
        assert!(all > 10_000 && f64::from(near) > 0.9 * f64::from(all), "{near} of {all}");
    }

    #[test]
    fn a_grey_has_a_place_and_equals_are_nothing_apart() {
        let grey = Quick::new(Lab::new(40.0, 0.0, 0.0));
        assert_eq!(grey.difference(grey), 0.0);
        let paler = Quick::new(Lab::new(50.0, 0.0, 0.0)).difference(grey);
        let exact = difference(Lab::new(50.0, 0.0, 0.0), Lab::new(40.0, 0.0, 0.0));
        assert!((paler - exact).abs() < 0.4, "{paler} {exact}");
    }
}
