//! A small generator of random numbers of our own, so that a seed gives the same numbers for ever.
//!
//! The step is a golden-ratio counter whose bits are mixed by two multiplications and shifts;
//! good enough for scattering leaves, not for secrets.

/// Random numbers from a seed.
#[derive(Clone, Debug)]
pub(crate) struct Dice {
    state: u64,
}

impl Dice {
    /// Dice for a seed and a purpose: other purposes give independent numbers.
    pub(crate) const fn new(seed: u64, purpose: u64) -> Self {
        Self { state: mix(seed ^ mix(purpose)) }
    }

    /// The next 64 bits.
    pub(crate) const fn bits(&mut self) -> u64 {
        self.state = self.state.wrapping_add(GOLDEN);
        mix(self.state)
    }

    /// Evenly from 0 up to 1.
    pub(crate) fn share(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Evenly between two numbers.
    pub(crate) fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.share()
    }

    /// A whole number below `count`; 0 when there is none.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        ((self.share() * count as f64) as usize).min(count.saturating_sub(1))
    }

    /// Whether something with this chance happens.
    pub(crate) fn chance(&mut self, chance: f64) -> bool {
        self.share() < chance
    }

    /// A normal number with mean 0 and deviation 1: a sum of twelve even ones, so that it needs
    /// no function that differs between machines and never strays past 6.
    pub(crate) fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.share()).sum::<f64>() - 6.0
    }

    /// One entry of a list by weight.
    pub(crate) fn pick<T: Copy>(&mut self, list: &[(T, f64)]) -> Option<T> {
        let total: f64 = list.iter().map(|(_, weight)| weight).sum();
        let mut rest = self.share() * total;
        for &(entry, weight) in list {
            if rest < weight {
                return Some(entry);
            }
            rest -= weight;
        }
        list.last().map(|&(entry, _)| entry)
    }
}

/// The step of the counter: 2⁶⁴ over the golden ratio, odd.
const GOLDEN: u64 = 0x9e37_79b9_7f4a_7c15;

/// Mixes all bits of a number into all bits of the answer; different numbers give different ones.
pub(crate) const fn mix(number: u64) -> u64 {
    let mut bits = number.wrapping_add(GOLDEN);
    bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    bits ^ (bits >> 31)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_even_normal_and_the_same_again() {
        let mut dice = Dice::new(1, 2);
        let mut again = Dice::new(1, 2);
        let (mut mean, mut normal, mut square) = (0.0, 0.0, 0.0);
        for _ in 0..20_000 {
            let share = dice.share();
            assert_eq!(share, again.share());
            assert!((0.0..1.0).contains(&share));
            mean += share / 20_000.0;
            let n = dice.normal();
            again.normal();
            normal += n / 20_000.0;
            square += n * n / 20_000.0;
        }
        assert!((mean - 0.5).abs() < 0.01 && normal.abs() < 0.03 && (square - 1.0).abs() < 0.04);
        assert_ne!(Dice::new(1, 3).bits(), Dice::new(1, 2).bits());
    }

    #[test]
    fn a_pick_goes_by_weight_and_bounds_hold() {
        let mut dice = Dice::new(5, 0);
        let picked = (0..9_000).filter(|_| dice.pick(&[('a', 2.0), ('b', 1.0)]) == Some('a')).count();
        assert!((5_800..6_200).contains(&picked), "{picked}");
        assert!((0..1000).all(|_| dice.below(3) < 3));
        assert_eq!(dice.below(0), 0);
        assert_eq!(dice.pick::<u8>(&[]), None);
    }
}
