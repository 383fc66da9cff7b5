//! Neighbours that touch, told apart where an edge shows.
//!
//! Two cloths that touch make a shape with nooks. A straight cut from a nook is tried where the
//! colours on both its sides differ all along, and where the two parts differ as a whole: the
//! stripes of one cloth do the first, not the second.

use super::coarse::Coarse;
use super::mask::Mask;
use super::trace::{corners, rings};
use plane::{Point, Vec2, polygon};
use std::collections::BTreeMap;

/// The cloths in a part, each with whether it was cut from others.
pub(super) fn apart(coarse: &Coarse, part: &Mask) -> Vec<(Mask, bool)> {
    let mut whole = vec![(part.clone(), false)];
    let mut done = Vec::new();
    while let Some((mask, touching)) = whole.pop() {
        let cut = if done.len() + whole.len() < MOST { best_cut(coarse, &mask) } else { None };
        match cut {
            Some((one, other)) => whole.extend([(one, true), (other, true)]),
            None => done.push((mask, touching)),
        }
    }
    done
}

/// The cut that divides best, if one does.
fn best_cut(coarse: &Coarse, mask: &Mask) -> Option<(Mask, Mask)> {
    let ring = rings(mask).into_iter().max_by(|a, b| polygon::area(a).total_cmp(&polygon::area(b)))?;
    let ring: Vec<Point> = corners(&ring, 0.07 * coarse.per_in).into_iter().map(|i| ring[i]).collect();
    let mut cuts: Vec<(f64, Point, Point)> = candidates(&ring, coarse.per_in)
        .into_iter()
        .filter_map(|(a, b)| Some((unlike_along(coarse, mask, a, b)?, a, b)))
        .filter(|(score, _, _)| *score > UNLIKE)
        .collect();
    cuts.sort_by(|a, b| b.0.total_cmp(&a.0));
    let least = (LEAST_PART * coarse.per_in * coarse.per_in) as usize;
    cuts.into_iter().take(6).find_map(|(_, a, b)| {
        let (one, other) = divided(mask, a, b)?;
        let count = |part: &Mask| part.cells.iter().filter(|cell| **cell).count();
        let large = count(&one) >= least && count(&other) >= least;
        (large && of_two(&colours(coarse, &one), &colours(coarse, &other))).then_some((one, other))
    })
}

/// Straight cuts that begin in a nook: to another nook, to a corner, straight on along a side, or
/// straight across.
fn candidates(ring: &[Point], per_in: f64) -> Vec<(Point, Point)> {
    let n = ring.len();
    let mut list = Vec::new();
    if n < 5 {
        return list;
    }
    for i in 0..n {
        let (last, here, next) = (ring[(i + n - 1) % n], ring[i], ring[(i + 1) % n]);
        let (u, v) = (here - last, next - here);
        if u.cross(v) > -0.17 * u.length() * v.length() {
            continue;
        }
        for (j, &other) in ring.iter().enumerate() {
            if j != i && (j + 1) % n != i && (i + 1) % n != j {
                list.push((here, other));
            }
        }
        for way in [u, v * -1.0] {
            list.extend(beyond(ring, i, way).map(|p| (here, p)));
        }
    }
    list.retain(|(a, b)| {
        let length = a.distance(*b);
        let inside = |t: f64| polygon::contains(ring, a.lerp(*b, t));
        length > 0.4 * per_in && (1..10).all(|k| inside(f64::from(k) / 10.0))
    });
    list
}

/// Where a ray from corner `i` first leaves the ring.
fn beyond(ring: &[Point], i: usize, way: Vec2) -> Option<Point> {
    let from = ring[i];
    let n = ring.len();
    (0..n)
        .filter(|&k| k != i && (k + 1) % n != i)
        .filter_map(|k| {
            let (a, b) = (ring[k], ring[(k + 1) % n]);
            let cross = way.cross(b - a);
            if cross.abs() < 1e-9 {
                return None;
            }
            let t = (a - from).cross(b - a) / cross;
            let s = (a - from).cross(way) / cross;
            (t > 1e-6 && (0.0..=1.0).contains(&s)).then_some(t)
        })
        .min_by(f64::total_cmp)
        .map(|t| from + way * t)
}

/// How unlike the strips on both sides of a cut are, in the third of it where they are likest.
fn unlike_along(coarse: &Coarse, mask: &Mask, a: Point, b: Point) -> Option<f64> {
    let length = a.distance(b);
    let way = (b - a) * (1.0 / length);
    let across = way.left();
    let thirds = (0..3).map(|third| {
        let side = |sign: f64| {
            let mut list = Vec::new();
            let count = (length / 3.0).ceil() as usize;
            for k in 0..count {
                let along = a + way * (length * (third as f64 + (k as f64 + 0.5) / count as f64) / 3.0);
                for depth in 2..(0.4 * coarse.per_in) as usize {
                    let p = along + across * (sign * depth as f64);
                    let (column, row) = (p.x.floor() as i64, p.y.floor() as i64);
                    if mask.at(column, row) {
                        list.push(coarse.lab[row as usize * coarse.width + column as usize]);
                    }
                }
            }
            list
        };
        let (left, right) = (side(1.0), side(-1.0));
        (left.len() > 4 && right.len() > 4).then(|| unlike(&left, &right))
    });
    thirds.collect::<Option<Vec<f64>>>()?.into_iter().min_by(f64::total_cmp)
}

fn colours(coarse: &Coarse, mask: &Mask) -> Vec<[f32; 3]> {
    coarse.lab.iter().zip(&mask.cells).filter(|(_, cell)| **cell).map(|(lab, _)| *lab).collect()
}

/// Shares of two heaps in bins of colours.
type Bins = BTreeMap<[i16; 3], [f64; 2]>;

/// How unlike two heaps of colours are, 0 to 1: the share of either that has no counterpart, in
/// bins of 0.05, each colour shared out among the bins round it.
fn unlike(one: &[[f32; 3]], other: &[[f32; 3]]) -> f64 {
    1.0 - gathered(one, other).values().map(|[a, b]| a.min(*b)).sum::<f64>()
}

/// Whether two heaps of colours are of two cloths: most of each is next to absent in the other. A
/// stripe that is most of a small part is still some of the large one.
fn of_two(one: &[[f32; 3]], other: &[[f32; 3]]) -> bool {
    let bins = gathered(one, other);
    let new =
        |i: usize| bins.values().filter(|pair| pair[1 - i] < 0.12 * pair[i]).map(|pair| pair[i]).sum::<f64>();
    new(0) > 0.5 && new(1) > 0.5
}

/// Shares of both heaps in each bin.
fn gathered(one: &[[f32; 3]], other: &[[f32; 3]]) -> Bins {
    let mut bins = Bins::new();
    for (which, list) in [one, other].into_iter().enumerate() {
        for lab in list {
            let place = lab.map(|v| v / 0.05 - 0.5);
            let low = place.map(f32::floor);
            for corner in 0..8_usize {
                let mut share = 1.0 / list.len() as f64;
                let bin = std::array::from_fn(|c| {
                    let up = corner >> c & 1;
                    let part = f64::from(place[c] - low[c]);
                    share *= if up == 1 { part } else { 1.0 - part };
                    low[c] as i16 + up as i16
                });
                bins.entry(bin).or_default()[which] += share;
            }
        }
    }
    bins
}

/// The parts of a mask on both sides of the cut from `a` to `b`; `None` when the cut doesn't divide
/// it in two.
fn divided(mask: &Mask, a: Point, b: Point) -> Option<(Mask, Mask)> {
    let mut open = mask.clone();
    let reach = (b - a) * (2.0 / a.distance(b));
    let (a, b) = (a - reach, b + reach);
    let steps = (a.distance(b) * 3.0).ceil() as usize;
    let mut on_cut = Vec::new();
    for k in 0..=steps {
        let p = a.lerp(b, k as f64 / steps as f64);
        for (dx, dy) in [(0, 0), (1, 0), (0, 1)] {
            let (column, row) = (p.x.floor() as i64 + dx, p.y.floor() as i64 + dy);
            if open.at(column, row) {
                let i = row as usize * mask.width + column as usize;
                open.cells[i] = false;
                on_cut.push(i);
            }
        }
    }
    let mut parts = open.parts();
    parts.sort_by_key(|part| std::cmp::Reverse(part.len()));
    let [first, second, ..] = &parts[..] else { return None };
    let (mut one, mut other) = (mask.of(first), mask.of(second));
    let left_of = |i: usize| {
        let p = Point::new((i % mask.width) as f64 + 0.5, (i / mask.width) as f64 + 0.5);
        (b - a).cross(p - a) > 0.0
    };
    let first_left = first.iter().filter(|&&i| left_of(i)).count() * 2 > first.len();
    for i in on_cut {
        let part = if left_of(i) == first_left { &mut one } else { &mut other };
        part.cells[i] = true;
    }
    Some((one, other))
}

/// Most cloths that are told apart in one part.
const MOST: usize = 8;
/// How unlike both sides must be.
const UNLIKE: f64 = 0.62;
/// In square inches.
const LEAST_PART: f64 = 0.5;
