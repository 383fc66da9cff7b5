//! A small generator of chances from a seed (SplitMix64; Steele, Lea, Flood 2014): the same on every machine.

/// A stream of chances.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Chance(u64);

impl Chance {
    pub(crate) const fn new(seed: u64) -> Self {
        Self(seed)
    }

    pub(crate) const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        mixed(self.0)
    }

    /// From 0 to 1, without 1.
    pub(crate) fn share(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// From 0 to below `count`; 0 when that is 0.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        ((self.share() * count as f64) as usize).min(count.saturating_sub(1))
    }
}

/// A number well mixed, for telling contents apart.
pub(crate) const fn mixed(z: u64) -> u64 {
    let z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}
