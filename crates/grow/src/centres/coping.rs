//! Coping: strips that bring what is too small up to what it is sewn to. Finished inches.
//!
//! No strip finishes thinner than the least. Where two units differ by less than that, a strip of the
//! difference would be too thin: the larger one gets a strip of the least width, and the smaller one
//! a strip wider by the difference.

use plane::READING;

/// The least length to which two units can both be brought.
pub(super) fn common(a: f64, b: f64, least: f64) -> f64 {
    let (small, large) = if a < b { (a, b) } else { (b, a) };
    if fills(small, large, least) { large } else { large + least }
}

/// The least length to which all units can be brought.
pub(super) fn common_of(lengths: &[f64], least: f64) -> f64 {
    let most = lengths.iter().copied().fold(0.0, f64::max);
    let mut tries: Vec<f64> = lengths.iter().map(|l| l + least).filter(|l| *l > most).collect();
    tries.push(most);
    tries.sort_by(f64::total_cmp);
    let holds = |&to: &f64| lengths.iter().all(|&l| fills(l, to, least));
    tries.into_iter().find(holds).unwrap_or(most + least)
}

/// Whether `have` is `want` already, or leaves room for a strip.
pub(super) fn fills(have: f64, want: f64, least: f64) -> bool {
    let left = want - have;
    left.abs() <= READING || left >= least - READING
}

/// Whether a strip is needed to bring `have` up to `want`.
pub(super) fn is_short(have: f64, want: f64) -> bool {
    want - have > READING
}

/// The strips at both ends, or at one, that bring the top up to its wished length: at both, so that
/// it stays in the middle, where both are wide enough.
pub(super) fn outer(have: f64, want: f64, least: f64) -> [f64; 2] {
    let left = want - have;
    if !is_short(have, want) {
        [0.0; 2]
    } else if left >= 2.0 * least {
        [left / 2.0; 2]
    } else {
        [0.0, left]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_strip_is_thinner_than_the_least() {
        for (a, b, want) in [(10.0, 10.0, 10.0), (10.0, 9.5, 10.0), (10.0, 9.75, 10.5), (10.0, 6.0, 10.0)] {
            assert_eq!(common(a, b, 0.5), want);
            assert_eq!(common(b, a, 0.5), want);
            assert_eq!(common_of(&[a, b], 0.5), want);
        }
        // 9.75 would be left with a quarter inch, at 10.5 with three quarters.
        assert_eq!(common_of(&[10.0, 9.75, 9.0], 0.5), 10.5);
        // At 10.5 the 10.25 is left with a quarter inch; 10.75 leaves 3/4, 1/2.
        assert_eq!(common_of(&[10.0, 10.25, 10.25], 0.5), 10.75);
        assert_eq!(outer(10.0, 10.75, 0.5), [0.0, 0.75]);
        assert_eq!(outer(10.0, 12.0, 0.5), [1.0, 1.0]);
        assert_eq!(outer(10.0, 10.0, 0.5), [0.0, 0.0]);
    }

    /// A slow second method: the least of a fine grid of lengths that all can be brought to.
    #[test]
    fn the_common_length_is_the_least_there_is() {
        let mut chance = crate::chance::Chance::new(5);
        for _ in 0..200 {
            let lengths: Vec<f64> = (0..5).map(|_| (chance.between(8.0, 10.0) * 8.0).round() / 8.0).collect();
            let most = lengths.iter().copied().fold(0.0, f64::max);
            let grid = (0..200).map(|i| most + f64::from(i) / 8.0);
            let slow = grid.into_iter().find(|&to| lengths.iter().all(|&l| fills(l, to, 0.5)));
            assert_eq!(Some(common_of(&lengths, 0.5)), slow, "{lengths:?}");
        }
    }
}
