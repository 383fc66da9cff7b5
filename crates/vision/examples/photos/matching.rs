//! Found outlines against true ones.

use plane::{Point, Region, intersection, polygon};

/// Which found outline is which true one: pairs of their places in the lists, each used once, the
/// ones that overlap most first. They must share half of what both cover.
pub(crate) fn matched(truth: &[Region], found: &[Region]) -> Vec<(usize, usize)> {
    let mut likely: Vec<(f64, usize, usize)> = Vec::new();
    for (i, one) in truth.iter().enumerate() {
        for (j, other) in found.iter().enumerate() {
            let both: f64 = intersection(one, other).iter().map(Region::area).sum();
            let share = both / (one.area() + other.area() - both).max(f64::MIN_POSITIVE);
            if share >= 0.5 {
                likely.push((share, i, j));
            }
        }
    }
    likely.sort_by(|a, b| b.0.total_cmp(&a.0));
    let mut pairs: Vec<(usize, usize)> = Vec::new();
    for (_, i, j) in likely {
        if pairs.iter().all(|pair| pair.0 != i && pair.1 != j) {
            pairs.push((i, j));
        }
    }
    pairs
}

/// Whether a found outline lies mostly on any of these.
pub(crate) fn lies_on(found: &Region, truth: &[Region]) -> bool {
    truth.iter().any(|one| {
        let both: f64 = intersection(one, found).iter().map(Region::area).sum();
        both >= 0.5 * found.area()
    })
}

/// Root of the mean square distance between two outlines in inches, along both.
pub(crate) fn outline_distance(one: &Region, other: &Region) -> f64 {
    let (mut sum, mut count) = (0.0, 0.0);
    for (from, to) in [(one, other), (other, one)] {
        for p in along(from) {
            sum += off(to, p).powi(2);
            count += 1.0;
        }
    }
    f64::sqrt(sum / count)
}

/// Places along an outline, a twentieth of an inch apart.
fn along(region: &Region) -> Vec<Point> {
    let edges = rings(region).flat_map(|ring| polygon::edges(ring));
    edges
        .flat_map(|(a, b)| {
            let steps = (a.distance(b) * 20.0).ceil().max(1.0) as usize;
            (0..steps).map(move |k| a.lerp(b, (k as f64 + 0.5) / steps as f64))
        })
        .collect()
}

fn rings(region: &Region) -> impl Iterator<Item = &Vec<Point>> {
    region.holes.iter().chain([&region.outer])
}

/// How far a place lies from an outline.
fn off(region: &Region, p: Point) -> f64 {
    let edges = rings(region).flat_map(|ring| polygon::edges(ring));
    edges
        .map(|(a, b)| {
            let side = b - a;
            let t = (side.dot(p - a) / side.dot(side).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
            p.distance(a.lerp(b, t))
        })
        .fold(f64::INFINITY, f64::min)
}
