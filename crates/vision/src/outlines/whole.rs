//! A sewn piece whole where a patch of it looks like the table.
//!
//! A piece is nearly always convex, its sides straight. So where what was found has nooks or lacks a patch,
//! the table itself says how much its cells differ from the smooth ground; where many more cells differ
//! there is cloth, however like the table it is. The hull of all that has the right sides; each is moved
//! so that as many cells that differ as can be lie inside and as few others.

use super::Told;
use super::coarse::Coarse;
use super::mask::Mask;
use crate::Flat;
use crate::seams::{places, refitted};
use plane::{Line, Point, Turn, polygon};

/// Cells that differ more than this many times what three quarters of the table stay below speak for cloth.
const STANDS_OUT: f64 = 1.9;
/// What differs less than this is taken for uneven light, in OKLab.
const LEAST_OUT: f64 = 0.018;
/// Half the width of what is looked at together, in inches, and the share that has to stand out there.
const ABOUT_IN: f64 = 0.2;
const SHARE: f64 = 0.35;
/// How far outside of what was found the table is taken for bare, in inches.
const BARE_FROM_IN: f64 = 0.4;
/// What narrower strips are none of the piece, in inches.
const NARROW_IN: f64 = 0.2;
/// Nearer than this to a card its shadow and its paper's edge stand out, in inches.
const BESIDE_CARD_IN: f64 = 0.3;
/// What a cell that stands out counts inside, and one that doesn't.
const COUNTS: [f64; 2] = [0.75, -0.25];
/// A corner that stands out less than this from its neighbours' line is none, in inches.
const FLAT_IN: f64 = 0.22;
/// How far a side is moved at most, in inches, by what steps, and how far turned, in degrees.
const MOVED_IN: f64 = 1.2;
const STEP_IN: f64 = 0.025;
const TURNED_DEG: [f64; 7] = [0.0, -0.4, 0.4, -1.2, 1.2, -3.0, 3.0];
const ROUNDS: usize = 3;
/// What was found nearer than this to a side is its edge, in inches.
const NEAR_IN: f64 = 0.3;
/// Shorter sides that nothing was found of cut corners off, in inches.
const CHIP_IN: f64 = 0.8;
/// Share of nooks that has to stand out; else they are the table's, and the piece isn't convex.
const NOOKS: f64 = 0.1;
/// What lies nearer than this to what was found may be its shadow, in inches.
const SHADOW_IN: f64 = 0.25;

/// The convex piece of straight sides that holds what was found, on the table in inches, counter-clockwise;
/// `None` when what was found is so already, or isn't convex.
pub(super) fn whole(flat: &Flat, told: &Told, found: &[Point]) -> Option<Whole> {
    let places = places(found);
    let found = &without_slits(found);
    let seen = Seen::of(flat, told, found)?;
    let hull = seen.hull(found)?;
    let mut lines: Vec<Line> = polygon::edges(&hull).filter_map(|(a, b)| Line::through(a, b)).collect();
    while simplified(&mut lines) {}
    for _ in 0..ROUNDS {
        for i in 0..lines.len() {
            lines[i] = seen.moved(&lines, i);
        }
    }
    while simplified(&mut lines) {}
    let mut known = vec![false; lines.len()];
    for i in 0..lines.len() {
        if let Some(line) = refitted(&lines, i, &places, NEAR_IN) {
            (lines[i], known[i]) = (line, true);
        }
    }
    while let Some(i) = chip(&lines, &known) {
        lines.remove(i);
        known.remove(i);
    }
    let n = lines.len();
    let ring: Vec<Point> =
        (0..n).map(|i| lines[(i + n - 1) % n].crossing(lines[i])).collect::<Option<_>>()?;
    if n < 3 || !polygon::is_convex(&ring, 1e-6) || !seen.full(&ring, found) {
        return None;
    }
    Some(Whole { ring, known })
}

/// A whole piece.
pub(super) struct Whole {
    /// Its corners on the table in inches, counter-clockwise.
    pub(super) ring: Vec<Point>,
    /// Whether the side that begins at each corner was laid through what was found.
    pub(super) known: Vec<bool>,
}

/// A short side that nothing was found of and that only cuts a corner.
fn chip(lines: &[Line], known: &[bool]) -> Option<usize> {
    let n = lines.len();
    (0..n).filter(|&i| n > 3 && !known[i]).find(|&i| {
        let (before, after) = (lines[(i + n - 1) % n], lines[(i + 1) % n]);
        let ends = (before.crossing(lines[i]), lines[i].crossing(after), before.crossing(after));
        let (Some(a), Some(b), Some(tip)) = ends else { return false };
        before.turn_sine(after) > 0.0
            && a.distance(b) < CHIP_IN
            && lines[i].inside_by(tip).abs() < CHIP_IN / 2.0
    })
}

/// A ring whose nooks are left out where they go in farther than so much of their width.
const SLIT: f64 = 0.5;

fn without_slits(ring: &[Point]) -> Vec<Point> {
    let hull = polygon::hull(ring);
    let on_hull: Vec<usize> =
        (0..ring.len()).filter(|&i| hull.iter().any(|p| p.distance(ring[i]) < 1e-9)).collect();
    let mut kept = Vec::new();
    for (k, &from) in on_hull.iter().enumerate() {
        let to = on_hull[(k + 1) % on_hull.len()];
        kept.push(ring[from]);
        let nook: Vec<Point> =
            (1..(to + ring.len() - from) % ring.len()).map(|j| ring[(from + j) % ring.len()]).collect();
        let Some(mouth) = Line::through(ring[from], ring[to]) else { continue };
        let deep = nook.iter().map(|p| mouth.inside_by(*p)).fold(0.0, f64::max);
        // Where the edge leaves the mouth and comes back to it.
        let near = |p: &&Point| mouth.inside_by(**p) < 0.1 * deep;
        let first = nook.iter().take_while(near).last().unwrap_or(&ring[from]);
        let last = nook.iter().rev().take_while(near).last().unwrap_or(&ring[to]);
        if deep < SLIT * first.distance(*last) {
            kept.extend(nook);
        }
    }
    kept
}

/// Which cells stand out from the table.
struct Seen<'a> {
    flat: &'a Flat,
    coarse: &'a Coarse,
    out: Mask,
    /// What isn't known: cards, and what the camera didn't see.
    unknown: Mask,
}

impl<'a> Seen<'a> {
    fn of(flat: &'a Flat, told: &'a Told, found: &[Point]) -> Option<Self> {
        // Lines of a mat stand out too; without any, the finest prints are seen best in the picture itself.
        let calm = if told.ink.is_some() { &told.calm } else { &told.coarse };
        let mut seen = Self {
            flat,
            coarse: calm,
            out: Mask::new(calm.width, calm.height),
            unknown: Mask::new(calm.width, calm.height),
        };
        let away = plane::grow_outline(&polygon::hull(found), BARE_FROM_IN);
        let off = |i: usize| {
            let place = [(i % calm.width) as f64 + 0.5, (i / calm.width) as f64 + 0.5];
            told.ground.off(place, calm.lab[i]).distance()
        };
        let paper = told.paper.closed(2);
        let mut bare = Vec::new();
        for i in 0..calm.lab.len() {
            seen.unknown.cells[i] = !calm.seen[i] || paper.cells[i];
            if !seen.unknown.cells[i] && i % 3 == 0 && !polygon::contains(&away, seen.at(i)) {
                bare.push(off(i));
            }
        }
        bare.sort_by(f64::total_cmp);
        let limit = (STANDS_OUT * bare.get(bare.len() * 3 / 4)?).max(LEAST_OUT);
        for i in 0..calm.lab.len() {
            seen.out.cells[i] = !seen.unknown.cells[i] && !told.lines.cells[i] && off(i) > limit;
        }
        Some(seen)
    }

    /// Where a cell lies on the table.
    fn at(&self, i: usize) -> Point {
        let cell = self.coarse.cell as f64;
        let (column, row) = (i % self.coarse.width, i / self.coarse.width);
        self.flat.on_table(Point::new((column as f64 + 0.5) * cell, (row as f64 + 0.5) * cell))
    }

    /// The hull of what was found and of what stands out beside it.
    fn hull(&self, found: &[Point]) -> Option<Vec<Point>> {
        let reach = (ABOUT_IN * self.coarse.per_in) as usize;
        let mut cloth = dense(&self.out, reach);
        let beside = self.unknown.grown((BESIDE_CARD_IN * self.coarse.per_in) as usize);
        cloth.cells.iter_mut().zip(&beside.cells).for_each(|(cell, beside)| *cell &= !beside);
        let mut cloth = cloth.opened((NARROW_IN * self.coarse.per_in / 2.0) as usize);
        let inside: Vec<bool> =
            (0..cloth.cells.len()).map(|i| polygon::contains(found, self.at(i))).collect();
        cloth.cells.iter_mut().zip(&inside).for_each(|(cell, inside)| *cell |= inside);
        let piece =
            cloth.parts().into_iter().max_by_key(|part| part.iter().filter(|&&i| inside[i]).count())?;
        Some(polygon::hull(&piece.into_iter().map(|i| self.at(i)).collect::<Vec<_>>()))
    }

    /// A side moved and turned to where it parts best what stands out from what doesn't.
    fn moved(&self, lines: &[Line], i: usize) -> Line {
        let n = lines.len();
        let side = lines[i];
        let ends = (lines[(i + n - 1) % n].crossing(side), side.crossing(lines[(i + 1) % n]));
        let (Some(a), Some(b)) = ends else { return side };
        let middle = a.midpoint(b);
        let reach = a.distance(b) / 2.0 + MOVED_IN;
        let mut near: Vec<(Point, f64)> = Vec::new();
        for k in 0..self.out.cells.len() {
            let p = self.at(k);
            let inside = |(j, line): (usize, &Line)| j == i || line.inside_by(p) > 0.0;
            if side.inside_by(p).abs() < 2.0 * MOVED_IN
                && p.distance(middle) < reach + MOVED_IN
                && !self.unknown.cells[k]
                && lines.iter().enumerate().all(inside)
            {
                near.push((p, COUNTS[usize::from(!self.out.cells[k])]));
            }
        }
        let mut best = (f64::NEG_INFINITY, side);
        let steps = (2.0 * MOVED_IN / STEP_IN) as usize;
        for degrees in TURNED_DEG {
            let turned = Line::from_point(middle, side.direction().then(Turn::from_degrees(degrees)));
            // What lies farther in than each step counts.
            let mut sums = vec![0.0; steps + 2];
            for (p, counts) in &near {
                let k = ((turned.inside_by(*p) + MOVED_IN) / STEP_IN).floor();
                if k >= 0.0 {
                    sums[(k as usize).min(steps + 1)] += counts;
                }
            }
            let mut sum = 0.0;
            for k in (0..=steps).rev() {
                sum += sums[k + 1];
                let by = k as f64 * STEP_IN + STEP_IN - MOVED_IN;
                let score = sum - 0.02 * by.abs() - 0.02 * degrees.abs();
                if score > best.0 {
                    best = (score, turned.inward(by));
                }
            }
        }
        best.1
    }

    /// Whether what a ring adds to what was found is cloth.
    fn full(&self, ring: &[Point], found: &[Point]) -> bool {
        let inner: Vec<Point> = polygon::edges(ring)
            .filter_map(|(a, b)| Line::through(a, b))
            .fold(ring.to_vec(), |ring, line| plane::clip_half_plane(&ring, line.inward(0.1), 1e-9));
        let near = |p: Point| {
            polygon::edges(found).any(|(a, b)| {
                let side = b - a;
                let t = (side.dot(p - a) / side.dot(side).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
                p.distance(a.lerp(b, t)) < SHADOW_IN
            })
        };
        let (mut out, mut all) = (0, 0);
        for k in 0..self.out.cells.len() {
            let p = self.at(k);
            if !self.unknown.cells[k]
                && polygon::contains(&inner, p)
                && !polygon::contains(found, p)
                && !near(p)
            {
                all += 1;
                out += usize::from(self.out.cells[k]);
            }
        }
        f64::from(out as u32) >= NOOKS * f64::from(all as u32)
    }
}

/// Cells about which at least the wanted share is set.
fn dense(mask: &Mask, reach: usize) -> Mask {
    let (width, height) = (mask.width, mask.height);
    let mut sums = vec![0_u32; (width + 1) * (height + 1)];
    for row in 0..height {
        for column in 0..width {
            let at = (row + 1) * (width + 1) + column + 1;
            sums[at] = u32::from(mask.cells[row * width + column]) + sums[at - 1] + sums[at - width - 1]
                - sums[at - width - 2];
        }
    }
    let mut dense = Mask::new(width, height);
    for row in 0..height {
        for column in 0..width {
            let (left, right) = (column.saturating_sub(reach), (column + reach + 1).min(width));
            let (top, bottom) = (row.saturating_sub(reach), (row + reach + 1).min(height));
            let at = |row: usize, column: usize| sums[row * (width + 1) + column];
            let sum = at(bottom, right) + at(top, left) - at(top, right) - at(bottom, left);
            let all = (right - left) * (bottom - top);
            dense.cells[row * width + column] = f64::from(sum) > SHARE * all as f64;
        }
    }
    dense
}

/// Leaves out the corner or side that changes least; `false` when each of them counts.
fn simplified(lines: &mut Vec<Line>) -> bool {
    crate::seams::simplified(lines, FLAT_IN)
}
