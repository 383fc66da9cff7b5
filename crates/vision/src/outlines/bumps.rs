//! Bits of table that were taken for cloth, off its sides again.

use super::edge::{apart, light};
use super::straight::{Side, beside};
use super::trace::off_line;
use crate::Flat;
use plane::{Point, Vec2};

/// Table that was taken for cloth makes a bump: where a side goes on in the same line behind a detour, and
/// much of what the detour takes in looks like what lies outside, the detour goes.
pub(super) fn without_bumps(flat: &Flat, sides: &[Side], ring: Vec<Point>) -> Vec<Point> {
    let inch = flat.pixels_per_in;
    let n = ring.len();
    if sides.len() != n {
        return ring;
    }
    let mut gone = vec![false; n];
    for i in 0..n {
        for corners in (3..=MOST_IN_BUMP).filter(|corners| corners + 2 <= n) {
            let (before, after) = (&sides[i], &sides[(i + corners) % n]);
            let path: Vec<Point> = (1..=corners).map(|k| ring[(i + k) % n]).collect();
            let [from, .., to] = path[..] else { continue };
            let middle = from.midpoint(to);
            let near = |p: &Point| off_line(from, to, *p) < 0.25 * inch && p.distance(middle) < 0.7 * inch;
            let free = (1..=corners).all(|k| !gone[(i + k) % n]);
            if free
                && goes_on(before, after, inch)
                && path.iter().all(near)
                && is_table(flat, before, after, &path)
            {
                (2..corners).for_each(|k| gone[(i + k) % n] = true);
                break;
            }
        }
    }
    let kept: Vec<Point> = ring.iter().zip(&gone).filter(|(_, gone)| !**gone).map(|(p, _)| *p).collect();
    if kept.len() < 3 { ring } else { kept }
}

/// Whether one side lies in the line of the other and goes its way.
fn goes_on(before: &Side, after: &Side, inch: f64) -> bool {
    let (u, v) = (before.b - before.a, after.b - after.a);
    let [one, other] = [u, v].map(Vec2::length);
    let long = one.min(other) > 0.15 * inch && one.max(other) > 0.3 * inch;
    let (base, ends) = if one > other { (before, [after.a, after.b]) } else { (after, [before.a, before.b]) };
    let way = (base.b - base.a) * (1.0 / one.max(other).max(1e-9));
    long && u.dot(v) > 0.98 * one * other
        && ends.iter().all(|&end| way.cross(end - base.a).abs() < 0.035 * inch)
        && !before.hits.is_empty()
        && !after.hits.is_empty()
}

/// Whether what a detour takes in beyond the line from its first to its last corner is much like what lies
/// outside its two sides.
fn is_table(flat: &Flat, before: &Side, after: &Side, path: &[Point]) -> bool {
    let [from, .., to] = path[..] else { return false };
    let outside = path.iter().map(|&p| (to - from).cross(p - from)).sum::<f64>() < 0.0;
    let (inner, outer) = beside(before, after);
    let (mut table, mut count) = (0, 0);
    for pair in path.windows(2) {
        for (k, depth) in [(0.25, 0.4), (0.5, 0.3), (0.5, 0.6), (0.75, 0.4), (0.5, 0.8)] {
            let rim = pair[0].lerp(pair[1], k);
            let along = (to - from) * (1.0 / from.distance(to).max(1e-9));
            let foot = from + along * along.dot(rim - from);
            if foot.distance(rim) < 2.0 {
                continue;
            }
            let colour = light(flat, foot.lerp(rim, depth)).map(f32::sqrt);
            count += 1;
            table += usize::from(apart(colour, outer) < 0.4 * apart(inner, outer));
        }
    }
    outside && count >= 4 && table * 3 > count
}

/// Most corners of a bump, its two ends among them.
const MOST_IN_BUMP: usize = 8;
