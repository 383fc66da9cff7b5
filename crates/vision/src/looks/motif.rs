//! How large what is printed on the ground is.

use super::grid::Grid;

/// The middle size, by area, of what stands on the ground of a print, in inches: a motif's length, a stripe's
/// width. `shades` names each place's main colour, the ground being 0. `half_in` is the shift at which the
/// print has lost half its agreement with itself: six times that stands in for a net or a check, which
/// hang together as one, and motifs that touch are taken for at most twelve times that. Ours; no source.
pub(super) fn motif_in(grid: &Grid, shades: &[Option<usize>], half_in: f64) -> f64 {
    let fallback_in = 6.0 * half_in;
    let reach = (0.05 * grid.per_in).round().max(1.0) as usize;
    let printed: Vec<bool> = shades.iter().map(|shade| shade.is_some_and(|k| k > 0)).collect();
    let joined = grown(&grown(&printed, grid.width, reach, true), grid.width, reach, false);
    let joined: Vec<bool> = joined.iter().zip(&grid.on).map(|(a, b)| *a && *b).collect();
    let all = grid.inside().count() as f64;
    let across = all.sqrt() / grid.per_in;
    let mut sizes: Vec<(f64, f64)> = Vec::new();
    for part in parts(&joined, grid.width) {
        let area = part.len() as f64 / (grid.per_in * grid.per_in);
        if area < LEAST_AREA {
            continue;
        }
        let [long, short] = extents(&part, grid.width).map(|px| px / grid.per_in);
        let size = match () {
            () if short > 0.7 * across => fallback_in,
            () if long > 0.7 * across && long > 2.5 * short => short,
            () => long.min(12.0 * half_in),
        };
        sizes.push((size, area));
    }
    sizes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let total: f64 = sizes.iter().map(|(_, area)| area).sum();
    let mut sum = 0.0;
    for (size, area) in sizes {
        sum += area;
        if sum * 2.0 >= total {
            return size;
        }
    }
    fallback_in
}

/// In square inches: less is noise.
const LEAST_AREA: f64 = 0.004;

/// Length and breadth of an oval, or a bar, that is spread as the places are.
fn extents(part: &[usize], width: usize) -> [f64; 2] {
    let n = part.len() as f64;
    let at = |i: usize| ((i % width) as f64, (i / width) as f64);
    let (mut x, mut y) = (0.0, 0.0);
    for &i in part {
        x += at(i).0 / n;
        y += at(i).1 / n;
    }
    let (mut xx, mut xy, mut yy) = (1.0 / 12.0, 0.0, 1.0 / 12.0);
    for &i in part {
        let (dx, dy) = (at(i).0 - x, at(i).1 - y);
        xx += dx * dx / n;
        xy += dx * dy / n;
        yy += dy * dy / n;
    }
    let (middle, half) = ((xx + yy) / 2.0, ((xx - yy) / 2.0).hypot(xy));
    // A bar of length L has the deviation L/√12, an oval L/4.
    [middle + half, middle - half].map(|square| 3.6 * square.max(0.0).sqrt())
}

/// Grown (or shrunk) by a square.
fn grown(mask: &[bool], width: usize, reach: usize, wanted: bool) -> Vec<bool> {
    let height = mask.len() / width.max(1);
    let pass = |from: &[bool], along: bool| -> Vec<bool> {
        (0..from.len())
            .map(|i| {
                let (place, count, step) =
                    if along { (i % width, width, 1) } else { (i / width, height, width) };
                let low = place - place.min(reach);
                let high = (place + reach).min(count - 1);
                let first = i - (place - low) * step;
                let any = (0..=high - low).any(|k| from[first + k * step] == wanted);
                if any { wanted } else { !wanted }
            })
            .collect()
    };
    pass(&pass(mask, true), false)
}

/// The connected parts of a mask.
fn parts(mask: &[bool], width: usize) -> Vec<Vec<usize>> {
    let mut left = mask.to_vec();
    let mut parts = Vec::new();
    for first in 0..left.len() {
        if !left[first] {
            continue;
        }
        left[first] = false;
        let mut part = vec![first];
        let mut next = 0;
        while let Some(&i) = part.get(next) {
            next += 1;
            for j in crate::share::neighbours(i, width, left.len() / width) {
                if left[j] {
                    left[j] = false;
                    part.push(j);
                }
            }
        }
        parts.push(part);
    }
    parts
}
