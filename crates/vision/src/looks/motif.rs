//! How large what is printed on the ground is.

use super::grid::Grid;
use super::spectrum::Signal;

/// The size of what is printed, in inches. The print is one number a place (how far along the direction in
/// which its colours differ most); what lies well above the middle and what lies well below it are its two
/// sides, each in connected parts. Of stripes it is the width of the wider ones, of ripples twice that,
/// from crest to crest. Otherwise it is the middle length, by area, of the parts of the side that is less of the print, or of the
/// other where that side hangs together as one, as a net does; and where both do, six times `half_in`, the
/// shift at which the print has lost half its agreement with itself. Where neither side is a ground and the
/// parts are longer than five times that shift, motifs touch in chains: the mean of length and breadth (their
/// geometric one) counts, ten times the shift at most. Elsewhere at most twelve times counts. Strokes that
/// lean one way count by their length. `coherence` is how much the gradients keep to
/// one line. Ours; no source.
pub(super) fn motif_in(grid: &Grid, print: &Signal, coherence: f64, half_in: f64) -> f64 {
    let side = |sign: f64| -> Vec<bool> {
        print.values.iter().zip(&grid.on).map(|(v, on)| *on && sign * v > OFF * print.deviation).collect()
    };
    let mut sides = [side(1.0), side(-1.0)];
    sides.sort_by_key(|mask| mask.iter().filter(|cell| **cell).count());
    let parts = sides.map(|mask| measured(&mask, grid));
    if coherence > RIPPLED {
        let widths = parts.iter().flatten().map(|part| (part.area / part.long.max(1e-9), part.area));
        let width = by_area(widths.collect(), 0.8).unwrap_or(6.0 * half_in);
        return if coherence > super::runs::STRIPED { width } else { 2.0 * width };
    }
    let across = (grid.inside().count() as f64).sqrt() / grid.per_in;
    let whole = |parts: &[Part]| {
        by_area(parts.iter().map(|part| (part.short, part.area)).collect(), 0.5)
            .is_none_or(|short| short > 0.6 * across)
    };
    let leans = coherence >= super::runs::LEANS;
    let no_ground = parts.iter().all(|parts| !whole(parts));
    let size = |parts: &Vec<Part>| {
        let length = |part: &Part| match part.long {
            long if leans => long,
            long if no_ground && long > 5.0 * half_in => (long * part.short).sqrt().min(10.0 * half_in),
            long => long.min(12.0 * half_in),
        };
        by_area(parts.iter().map(|part| (length(part), part.area)).collect(), 0.5)
    };
    parts.iter().find(|parts| !whole(parts)).and_then(size).unwrap_or(6.0 * half_in)
}

/// A connected part of a print, in inches and square inches.
struct Part {
    long: f64,
    short: f64,
    area: f64,
}

/// The parts of a side that are no noise.
fn measured(mask: &[bool], grid: &Grid) -> Vec<Part> {
    let square = grid.per_in * grid.per_in;
    let large = |part: &Vec<usize>| part.len() as f64 / square >= LEAST_AREA;
    let measure = |part: Vec<usize>| {
        let [long, short] = extents(&part, grid.width).map(|px| px / grid.per_in);
        Part { long, short, area: part.len() as f64 / square }
    };
    crate::share::parts(mask, grid.width).into_iter().filter(large).map(measure).collect()
}

/// The size below which this share of the area lies, of sizes with their areas.
fn by_area(mut sizes: Vec<(f64, f64)>, share: f64) -> Option<f64> {
    sizes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let total: f64 = sizes.iter().map(|(_, area)| area).sum();
    let mut sum = 0.0;
    sizes.into_iter().find_map(|(size, area)| {
        sum += area;
        (sum >= share * total).then_some(size)
    })
}

/// Coherence of gradients from which on a print is of stripes or ripples.
const RIPPLED: f64 = 0.83;
/// In deviations: so far from the middle a place is of one side.
const OFF: f64 = 0.5;
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
