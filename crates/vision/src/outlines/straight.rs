//! From a rough ring to a clean one: each side a line through the edge that was found, each corner
//! where two of them meet.

use super::bumps::without_bumps;
use super::edge::{Hit, Search, apart, hits, light};
use super::trace::{bends, corners};
use crate::Flat;
use plane::{Point, Vec2};

/// How closely the edge is looked for: while the sides still move, and at the end.
#[derive(Clone, Copy, Debug)]
enum Pace {
    Rough,
    Fine,
}

/// A side and what was found along it.
#[derive(Clone, Debug)]
pub(super) struct Side {
    pub(super) a: Point,
    pub(super) b: Point,
    /// What was found, as good as it is; empty when nothing was.
    pub(super) hits: Vec<Hit>,
    /// Middle distance of what was found from the side, in pixels.
    spread: f64,
}

/// A ring as it was found.
#[derive(Clone, Debug)]
pub(super) struct Drawn {
    /// Corners, in pixels.
    pub(super) corners: Vec<Point>,
    /// Middle contrast along it, as a difference of square roots of light.
    pub(super) contrast: f64,
    /// Share of its length where an edge was found.
    pub(super) found: f64,
    /// Middle distance of the found edge from the sides, in inches.
    pub(super) spread_in: f64,
}

/// Draws a rough ring (in pixels, cloth to the right of its way) afresh; `ink` is how the lines of the mat
/// differ from it.
pub(super) fn drawn(flat: &Flat, rough: &[Point], ink: Option<[f32; 3]>) -> Drawn {
    let inch = flat.pixels_per_in;
    let kept = corners(rough, 0.055 * inch);
    let mut ring: Vec<Point> = kept.iter().map(|&i| rough[i]).collect();
    let mut sides = found(flat, &ring, 0.16, Pace::Rough, ink);
    ring = joined(&sides, inch);
    for pace in [Pace::Rough, Pace::Fine] {
        ring = without_blunt_tips(flat, &sides, ring);
        ring = without_bumps(flat, &sides, ring);
        ring = without_straight_corners(&ring, 0.016 * inch);
        sides = found(flat, &ring, 0.11, pace, ink);
        ring = joined(&sides, inch);
    }
    ring = bent(&sides, inch);
    sides = found(flat, &ring, 0.11, Pace::Fine, ink);
    ring = without_bumps(flat, &sides, joined(&sides, inch));
    ring = without_straight_corners(&ring, 0.008 * inch);
    measured(&sides, ring, inch)
}

/// Moves the sides of a ring (in pixels, cloth to the right of its way) to the edges found along them, but for
/// those that are known; each begins at its corner. None is added and none left out.
pub(super) fn straightened(flat: &Flat, rough: &[Point], known: &[bool], ink: Option<[f32; 3]>) -> Drawn {
    let inch = flat.pixels_per_in;
    let mut ring = rough.to_vec();
    let mut sides = Vec::new();
    for (reach, pace) in [(0.16, Pace::Rough), (0.11, Pace::Fine), (0.08, Pace::Fine)] {
        sides = found(flat, &ring, reach, pace, ink);
        for (i, side) in sides.iter_mut().enumerate().filter(|(i, _)| known[*i]) {
            (side.a, side.b) = (ring[i], ring[(i + 1) % ring.len()]);
        }
        ring = joined(&sides, inch);
    }
    measured(&sides, ring, inch)
}

fn measured(sides: &[Side], corners: Vec<Point>, inch: f64) -> Drawn {
    let all: f64 = sides.iter().map(|side| side.a.distance(side.b)).sum();
    let good = sides.iter().filter(|side| !side.hits.is_empty());
    let found = good.clone().map(|side| side.a.distance(side.b)).sum::<f64>() / all.max(1e-9);
    let contrasts = good.clone().flat_map(|side| &side.hits).map(|h| f64::from(apart(h.inner, h.outer)));
    let spread =
        good.map(|side| side.spread * side.a.distance(side.b)).sum::<f64>() / (all * found).max(1e-9);
    Drawn { corners, contrast: middle(contrasts), found, spread_in: spread / inch }
}

/// The middle of some numbers; 0 of none.
pub(super) fn middle(numbers: impl Iterator<Item = f64>) -> f64 {
    let mut list: Vec<f64> = numbers.collect();
    list.sort_by(f64::total_cmp);
    list.get(list.len() / 2).copied().unwrap_or(0.0)
}

/// Each side of a ring moved to the edge found along it, looked for so far on both sides, in inches.
fn found(flat: &Flat, ring: &[Point], reach: f64, pace: Pace, ink: Option<[f32; 3]>) -> Vec<Side> {
    let inch = flat.pixels_per_in;
    let (every, step) = match pace {
        Pace::Rough => (0.06, 1.0),
        Pace::Fine => (0.025, 0.5),
    };
    let search = Search { reach: reach * inch, every: (every * inch).max(1.5), end: 0.09 * inch, step, ink };
    (0..ring.len())
        .map(|i| {
            let (a, b) = (ring[i], ring[(i + 1) % ring.len()]);
            moved(a, b, hits(flat, [a, b], search), inch)
        })
        .collect()
}

/// A robust line through what was found: threads that stick out and prints that mislead are left
/// out (Tukey's weights).
fn moved(a: Point, b: Point, hits: Vec<Hit>, inch: f64) -> Side {
    let length = a.distance(b);
    let nothing = Side { a, b, hits: Vec::new(), spread: 0.0 };
    if hits.len() < 3 || length < 1e-6 {
        return nothing;
    }
    let mut height = middle(hits.iter().map(|hit| hit.out));
    let mut slope = 0.0;
    for round in 0..6 {
        let off = |hit: &Hit| hit.out - height - slope * (hit.along - length / 2.0);
        let scale = middle(hits.iter().map(|hit| off(hit).abs())).max(0.15);
        let reach = 4.5 * scale * if round == 0 { 2.0 } else { 1.0 };
        let (mut w, mut wx, mut wxx, mut wy, mut wxy) = (0.0, 0.0, 0.0, 0.0, 0.0);
        for hit in &hits {
            let share = off(hit) / reach;
            if share.abs() < 1.0 {
                let weight = (1.0 - share * share).powi(2);
                let x = hit.along - length / 2.0;
                w += weight;
                wx += weight * x;
                wxx += weight * x * x;
                wy += weight * hit.out;
                wxy += weight * x * hit.out;
            }
        }
        let bottom = w * wxx - wx * wx;
        // A short side has its place corrected, its direction only a little.
        let held = w * (0.1 * inch).powi(2) * 0.5;
        if w < 2.0 {
            return nothing;
        }
        slope = (w * wxy - wx * wy) / (bottom + w * held).max(1e-9);
        height = (wy - slope * wx) / w;
    }
    let way = (b - a) * (1.0 / length);
    let out = Vec2::new(way.y, -way.x);
    let at = |x: f64| out * (height + slope * x);
    let (from, to) = (a + at(-length / 2.0), b + at(length / 2.0));
    let spread = middle(hits.iter().map(|hit| (hit.out - height - slope * (hit.along - length / 2.0)).abs()));
    Side { a: from, b: to, hits, spread }
}

/// Where two lines meet.
fn meeting(one: &Side, other: &Side) -> Option<Point> {
    let (u, v) = (one.b - one.a, other.b - other.a);
    let cross = u.cross(v);
    if cross.abs() < LEAST_TURN * u.length() * v.length() {
        return None;
    }
    Some(one.a + u * ((other.a - one.a).cross(v) / cross))
}

/// The ring of the corners where neighbouring sides meet.
fn joined(sides: &[Side], inch: f64) -> Vec<Point> {
    let n = sides.len();
    let mut ring = Vec::with_capacity(n);
    for i in 0..n {
        let (before, here) = (&sides[(i + n - 1) % n], &sides[i]);
        let middle = before.b.midpoint(here.a);
        match meeting(before, here) {
            Some(p) if p.distance(middle) < 0.2 * inch => ring.push(p),
            _ => ring.push(middle),
        }
    }
    ring
}

/// Sharp tips come out blunt: where the sides on both sides of a short one meet not far beyond it, and what
/// lies between is cloth (or, in a nook, ground), the short side goes.
fn without_blunt_tips(flat: &Flat, sides: &[Side], ring: Vec<Point>) -> Vec<Point> {
    let inch = flat.pixels_per_in;
    let n = ring.len();
    if n < 4 || sides.len() != n {
        return ring;
    }
    let mut gone = vec![false; n];
    let mut clean = ring.clone();
    for i in 0..n {
        let (a, b) = (ring[i], ring[(i + 1) % n]);
        let (last, next) = ((i + n - 1) % n, (i + 1) % n);
        let long = |k: usize| ring[k].distance(ring[(k + 1) % n]) > 1.5 * a.distance(b);
        if a.distance(b) > 0.3 * inch || gone[i] || gone[last] || !long(last) || !long(next) {
            continue;
        }
        let Some(tip) = meeting(&sides[last], &sides[next]) else { continue };
        let middle = a.midpoint(b);
        if tip.distance(middle) > 0.8 * inch {
            continue;
        }
        let outward = (b - a).cross(tip - a) < 0.0;
        if tip.distance(middle) < 0.06 * inch
            || is_cloth_at(flat, &sides[last], &sides[next], middle, tip) == outward
        {
            gone[next] = true;
            clean[i] = tip;
        }
    }
    clean.into_iter().zip(gone).filter(|(_, gone)| !gone).map(|(p, _)| p).collect()
}

/// Whether what lies between a short side and the tip beyond it looks like the cloth rather than like what
/// lies outside.
fn is_cloth_at(flat: &Flat, before: &Side, after: &Side, middle: Point, tip: Point) -> bool {
    let (inner, outer) = beside(before, after);
    let cloth = [0.25, 0.4, 0.55]
        .iter()
        .filter(|&&t| {
            let colour = light(flat, middle.lerp(tip, t)).map(f32::sqrt);
            apart(colour, outer) > 0.5 * apart(inner, outer)
        })
        .count();
    !(before.hits.is_empty() && after.hits.is_empty()) && cloth >= 2
}

/// The cloth and what lies outside near where two sides come together, as square roots of light.
pub(super) fn beside(before: &Side, after: &Side) -> ([f32; 3], [f32; 3]) {
    let near: Vec<&Hit> = before.hits.iter().rev().take(6).chain(after.hits.iter().take(6)).collect();
    let mean = |of: fn(&Hit) -> [f32; 3]| -> [f32; 3] {
        std::array::from_fn(|c| near.iter().map(|hit| of(hit)[c]).sum::<f32>() / near.len().max(1) as f32)
    };
    (mean(|hit| hit.inner), mean(|hit| hit.outer))
}

/// Without corners that lie within `tolerance` of the line between their neighbours.
fn without_straight_corners(ring: &[Point], tolerance: f64) -> Vec<Point> {
    let kept = corners(ring, tolerance);
    if kept.len() < 3 { ring.to_vec() } else { kept.into_iter().map(|i| ring[i]).collect() }
}

/// Sides along which the edge runs in a curve get corners of their own.
fn bent(sides: &[Side], inch: f64) -> Vec<Point> {
    let ring = joined(sides, inch);
    let n = ring.len();
    let mut all = Vec::with_capacity(n);
    for (i, side) in sides.iter().enumerate() {
        all.push(ring[i]);
        if side.hits.len() < 9 || side.a.distance(side.b) < 0.4 * inch || side.spread < 0.006 * inch {
            continue;
        }
        let calm: Vec<Point> = side.hits.windows(5).map(middle_of).collect();
        let path: Vec<Point> =
            std::iter::once(ring[i]).chain(calm).chain(std::iter::once(ring[(i + 1) % n])).collect();
        all.extend(bends(&path, 0.022 * inch).into_iter().map(|k| path[k]));
    }
    all
}

/// The place of five neighbours that is in the middle as seen across the side.
fn middle_of(five: &[Hit]) -> Point {
    let mut sorted: Vec<&Hit> = five.iter().collect();
    sorted.sort_by(|a, b| a.out.total_cmp(&b.out));
    let (mid, place) = (sorted[sorted.len() / 2], five[five.len() / 2]);
    // Moved along the way across, from the place in the middle of the five.
    if five.len() < 2 {
        return place.at;
    }
    let way = five[five.len() - 1].at - five[0].at;
    let across = way.left() * (1.0 / way.length().max(1e-9));
    let lift = (mid.at - place.at).dot(across);
    place.at + across * lift
}

/// Sine of the least angle between two lines that make a corner.
const LEAST_TURN: f64 = 0.09;
