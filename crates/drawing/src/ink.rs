//! Colours: what areas are filled with. Cloth is the colour; everything else steps back.

use colour::{Lab, Srgb};

/// The ink of lines and words: a warm near-black.
pub const INK: Srgb = Srgb::from_number(0x2b_23_20);
/// The one accent, for what the hand is on: madder red.
pub const MADDER: Srgb = Srgb::from_number(0xa3_32_2b);
/// The ground: unbleached calico.
pub const CALICO: Srgb = Srgb::from_number(0xf4_ee_e2);
/// What is planned: chalk, a soft blue white.
pub const CHALK: Srgb = Srgb::from_number(0xf3_f7_fa);
/// What chalk casts on pale cloth, so that it can be seen there.
pub(crate) const CHALK_SHADE: Srgb = Srgb::from_number(0x4f_62_72);
/// Undyed thread.
pub(crate) const THREAD: Srgb = Srgb::from_number(0xfb_f6_ea);
/// Cloth nobody knows the look of.
pub(crate) const UNKNOWN: Srgb = Srgb::from_number(0xcf_c8_bb);
/// What the wrong side of a cloth pales towards.
const WARM_WHITE: Srgb = Srgb::from_number(0xf6_f1_e7);

/// How far the wrong side of a cloth is mixed towards a warm white.
pub const WRONG_SIDE_SHARE: f64 = 0.55;

/// What an area is filled with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Paint {
    /// One colour and its opacity, 0 to 1.
    Colour(Srgb, f64),
    /// Calico, with the weave hardly to be guessed.
    Calico,
}

impl Paint {
    /// An opaque colour.
    #[must_use]
    pub const fn solid(colour: Srgb) -> Self {
        Self::Colour(colour, 1.0)
    }
}

/// The paler look of a colour from the wrong side of the cloth: [`WRONG_SIDE_SHARE`] of the way
/// to a warm white, mixed in CIELAB.
#[must_use]
pub fn wrong_side(right: Lab) -> Lab {
    let white = WARM_WHITE.to_lab();
    let mix = |from: f64, to: f64| from + (to - from) * WRONG_SIDE_SHARE;
    Lab::new(mix(right.l, white.l), mix(right.a, white.a), mix(right.b, white.b))
}
