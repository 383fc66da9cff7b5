//! Whether two cloths are of one print.

use super::{Look, Runs, Shade};
use colour::difference;

/// How likely two looks are of one print, 0 to 1: for ranking, not for deciding. Colours with their
/// shares count most, then busyness, scale and whether there is a direction; how the cloths are
/// turned doesn't count. Ours; no source.
#[must_use]
pub fn same_print(one: &Look, other: &Look) -> f64 {
    let colours = cost(&one.shades, &other.shades);
    let busy = (one.busy - other.busy).abs() / 0.15;
    let scale = |look: &Look| look.motif_in.max(0.05).ln();
    let size = (scale(one) - scale(other)).abs() / 1.0;
    let kind = |runs: Runs| match runs {
        Runs::AnyWay => 0,
        Runs::BothWays { .. } => 1,
        Runs::OneWay { .. } => 2,
    };
    let turned = if kind(one.runs) == kind(other.runs) { 0.0 } else { 0.5 };
    (-(colours / 5.0).powi(2) - busy * busy - size * size - turned).exp()
}

/// Mean difference when the shares of one are moved to those of the other, dearest last: each pair of
/// colours in the order of their difference takes what both still have.
fn cost(one: &[Shade], other: &[Shade]) -> f64 {
    let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
    for (i, a) in one.iter().enumerate() {
        for (j, b) in other.iter().enumerate() {
            pairs.push((difference(a.lab, b.lab), i, j));
        }
    }
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut left: Vec<f64> = one.iter().map(|shade| shade.share).collect();
    let mut right: Vec<f64> = other.iter().map(|shade| shade.share).collect();
    let mut sum = 0.0;
    for (apart, i, j) in pairs {
        let moved = left[i].min(right[j]);
        left[i] -= moved;
        right[j] -= moved;
        sum += moved * apart;
    }
    sum
}
