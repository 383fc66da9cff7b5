//! A small generator of chances from a seed (SplitMix64; Steele, Lea, Flood 2014): the same on
//! every machine.

/// A stream of chances.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Evenly between `lo` and `hi`.
    pub(crate) fn between(&mut self, lo: f64, hi: f64) -> f64 {
        lo + (hi - lo) * ((self.next() >> 11) as f64 / (1_u64 << 53) as f64)
    }
}
