//! What is left of a cloth once its long cuts are made and its pieces are out.

use crate::stash::Usable;
use plane::{Line, Point, Pose, Region, Turn, Vec2, difference, polygon};

/// How wide a cut is taken to be, in inches: what it parts doesn't hang together.
const SLIT_IN: f64 = 2e-3;
/// Into so many steps a part is divided along each side, besides at its corners.
const STEPS: u32 = 64;
/// A part with more corners than this is divided by steps alone.
const MOST_CORNERS: usize = 160;
/// Nearer than this, lines of the grid are one, and edges only touch them, in inches.
const TOUCH_IN: f64 = 1e-6;

/// Of each part worth keeping the largest rectangle along the threads that lies whole in it, as width and height in
/// inches, the largest first.
pub(super) fn left(
    cloth: &Region,
    taken: &[Region],
    cuts: &[[Point; 2]],
    grain: Turn,
    usable: Usable,
) -> Vec<[f64; 2]> {
    let all: Vec<Region> = taken.iter().cloned().chain(cuts.iter().filter_map(slit)).collect();
    let level = Pose { turn: grain.inverse(), by: Vec2::default() };
    let parts = difference(cloth, &all).into_iter().filter(|part| usable.keeps(part));
    let mut sizes: Vec<[f64; 2]> = parts.map(|part| upright(&part.moved(level))).collect();
    sizes.sort_by(|a, b| (b[0] * b[1]).total_cmp(&(a[0] * a[1])));
    sizes
}

/// A cut as the cloth that it takes away.
fn slit(&[from, to]: &[Point; 2]) -> Option<Region> {
    let line = Line::through(from, to)?;
    let aside = line.inward(SLIT_IN / 2.0).point_at(0.0) - line.point_at(0.0);
    let outer = vec![from + aside * -1.0, to + aside * -1.0, to + aside, from + aside];
    Some(Region { outer, holes: Vec::new() })
}

/// Width and height of the largest rectangle with level sides that lies whole in a region, by area: exact where the
/// region has only level and upright edges, otherwise short of it by at most a 64th of the region on each side.
fn upright(region: &Region) -> [f64; 2] {
    let rings: Vec<&Vec<Point>> = std::iter::once(&region.outer).chain(&region.holes).collect();
    let corners: Vec<Point> = rings.iter().flat_map(|ring| ring.iter().copied()).collect();
    let (xs, ys) = (lines(&corners, |p| p.x), lines(&corners, |p| p.y));
    let edges: Vec<(Point, Point)> = rings.iter().flat_map(|ring| polygon::edges(ring)).collect();
    let mut high = vec![0.0; xs.len().saturating_sub(1)];
    let columns: Vec<Vec<bool>> = xs.windows(2).map(|x| column(&edges, [x[0], x[1]], &ys)).collect();
    let mut best = [0.0; 2];
    for row in 0..ys.len().saturating_sub(1) {
        for (high, column) in high.iter_mut().zip(&columns) {
            *high = if column[row] { *high + ys[row + 1] - ys[row] } else { 0.0 };
        }
        for from in 0..high.len() {
            let mut least = f64::INFINITY;
            for to in from..high.len() {
                least = high[to].min(least);
                if least <= 0.0 {
                    break;
                }
                let size = [xs[to + 1] - xs[from], least];
                if size[0] * size[1] > best[0] * best[1] {
                    best = size;
                }
            }
        }
    }
    best
}

/// Where a region is divided along an axis.
fn lines(corners: &[Point], along: impl Fn(&Point) -> f64) -> Vec<f64> {
    let all = || corners.iter().map(&along);
    let (low, high) = (all().fold(f64::INFINITY, f64::min), all().fold(f64::NEG_INFINITY, f64::max));
    let steps = (0..=STEPS).map(|step| low + (high - low) * f64::from(step) / f64::from(STEPS));
    let mut at: Vec<f64> = steps.collect();
    if corners.len() <= MOST_CORNERS {
        at.extend(all());
    }
    at.sort_by(f64::total_cmp);
    at.dedup_by(|a, b| *a - *b < TOUCH_IN);
    at
}

/// Which cells of a column lie whole in a region, from the lowest up.
fn column(edges: &[(Point, Point)], [left, right]: [f64; 2], ys: &[f64]) -> Vec<bool> {
    let middle = f64::midpoint(left, right);
    let mut crossings: Vec<f64> = Vec::new();
    let mut crossed = vec![false; ys.len().saturating_sub(1)];
    for &(a, b) in edges {
        let (a, b) = if a.x <= b.x { (a, b) } else { (b, a) };
        if b.x <= left + TOUCH_IN || a.x >= right - TOUCH_IN {
            continue;
        }
        let at = |x: f64| a.y + (b.y - a.y) * ((x - a.x) / (b.x - a.x)).clamp(0.0, 1.0);
        if a.x <= middle && middle < b.x {
            crossings.push(at(middle));
        }
        let (low, high) = (at(left).min(at(right)), at(left).max(at(right)));
        for (cell, y) in crossed.iter_mut().zip(ys.windows(2)) {
            *cell |= low < y[1] - TOUCH_IN && high > y[0] + TOUCH_IN;
        }
    }
    let inside = |y: &[f64]| {
        let centre = f64::midpoint(y[0], y[1]);
        crossings.iter().filter(|&&crossing| crossing < centre).count() % 2 == 1
    };
    crossed.iter().zip(ys.windows(2)).map(|(crossed, y)| !crossed && inside(y)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(x: f64, y: f64, side: f64) -> Region {
        let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)];
        let outer = corners.map(|(dx, dy)| Point::new(x + dx, y + dy)).to_vec();
        Region { outer, holes: Vec::new() }
    }

    fn near(found: &[[f64; 2]], wished: &[[f64; 2]]) {
        let is_near =
            |(a, b): (&[f64; 2], &[f64; 2])| (a[0] - b[0]).abs() < 0.01 && (a[1] - b[1]).abs() < 0.01;
        assert!(
            found.len() == wished.len() && found.iter().zip(wished).all(is_near),
            "{found:?}, not {wished:?}"
        );
    }

    #[test]
    fn round_a_hole_the_largest_whole_rectangle_is_left_and_not_the_bounds() {
        let cloth = Region::rectangle(36.0, 42.0);
        let hole = [square(12.0, 10.0, 12.0)];
        // Above the hole 36 by 20.
        near(&left(&cloth, &hole, &[], Turn::NONE, Usable::default()), &[[36.0, 20.0]]);
        // With threads upright, width runs along them.
        near(&left(&cloth, &hole, &[], Turn::QUARTER, Usable::default()), &[[20.0, 36.0]]);
    }

    #[test]
    fn a_long_cut_parts_what_is_left() {
        let cut = [[Point::new(0.0, 4.0), Point::new(20.0, 4.0)]];
        let cloth = Region::rectangle(20.0, 10.0);
        near(&left(&cloth, &[], &cut, Turn::NONE, Usable::default()), &[[20.0, 6.0], [20.0, 4.0]]);
    }

    #[test]
    fn a_triangle_holds_half_of_itself() {
        // The largest rectangle in a triangle has half its area, half its base wide.
        let outer = vec![Point::new(0.0, 0.0), Point::new(16.0, 0.0), Point::new(0.0, 10.0)];
        near(&[upright(&Region { outer, holes: Vec::new() })], &[[8.0, 5.0]]);
    }
}
