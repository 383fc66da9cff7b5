//! The edge of a cloth in full resolution: where light is halfway between cloth and ground.
//!
//! Halfway in light, not in what the eye sees: lens and air mix light, so the place where both lie
//! half is where the edge is, however dark one of them.

use crate::Flat;
use crate::share::LIGHT;
use plane::{Point, Vec2};

/// A place where the edge was found.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hit {
    /// In pixels.
    pub(super) at: Point,
    /// How far along the side it was looked for, in pixels.
    pub(super) along: f64,
    /// How far outside the side it lies, in pixels.
    pub(super) out: f64,
    /// The cloth just inside and what lies just outside, as square roots of light.
    pub(super) inner: [f32; 3],
    /// See `inner`.
    pub(super) outer: [f32; 3],
}

/// Difference of two square roots of light.
pub(super) fn apart(one: [f32; 3], other: [f32; 3]) -> f32 {
    one.iter().zip(other).map(|(a, b)| (a - b) * (a - b)).sum::<f32>().sqrt()
}

/// Light at a place, blended between the four nearest pixels.
pub(super) fn light(flat: &Flat, p: Point) -> [f32; 3] {
    let (x, y) = (p.x - 0.5, p.y - 0.5);
    let (left, top) = (x.floor(), y.floor());
    let (across, down) = ((x - left) as f32, (y - top) as f32);
    let weights =
        [(1.0 - across) * (1.0 - down), across * (1.0 - down), (1.0 - across) * down, across * down];
    let picture = &flat.picture;
    let width = picture.width as usize;
    let inside = left >= 0.0 && top >= 0.0 && left + 1.0 < f64::from(picture.width);
    let first = top.max(0.0) as usize * width + left.max(0.0) as usize;
    let four = match picture.rgb.get(first..first + width + 2) {
        Some(from) if inside => [from[0], from[1], from[width], from[width + 1]],
        _ => [(0, 0), (1, 0), (0, 1), (1, 1)].map(|(i, j)| picture.at(left as i64 + i, top as i64 + j)),
    };
    let mut sum = [0.0; 3];
    for (pixel, weight) in four.iter().zip(weights) {
        for (total, value) in sum.iter_mut().zip(pixel) {
            *total += weight * LIGHT[usize::from(*value)];
        }
    }
    sum
}

/// Whether a place was seen.
pub(super) fn seen(flat: &Flat, p: Point) -> bool {
    let (x, y) = (p.x.floor(), p.y.floor());
    let inside =
        x >= 0.0 && y >= 0.0 && x < f64::from(flat.picture.width) && y < f64::from(flat.picture.height);
    inside && flat.seen.get(y as usize * flat.picture.width as usize + x as usize).copied().unwrap_or(false)
}

/// How an edge is looked for; lengths in pixels.
#[derive(Clone, Copy, Debug)]
pub(super) struct Search {
    /// How far on both sides.
    pub(super) reach: f64,
    /// How often along it.
    pub(super) every: f64,
    /// How far its ends are left out.
    pub(super) end: f64,
    /// In what steps across it.
    pub(super) step: f64,
    /// How the lines of the mat differ from it, in square roots of light.
    pub(super) ink: Option<[f32; 3]>,
}

/// Looks for the edge on both sides of a straight piece. The cloth lies to the right of the way from `a` to
/// `b` (y runs down).
pub(super) fn hits(flat: &Flat, [a, b]: [Point; 2], search: Search) -> Vec<Hit> {
    let length = a.distance(b);
    if length < 1e-6 {
        return Vec::new();
    }
    let way = (b - a) * (1.0 / length);
    let out = Vec2::new(way.y, -way.x);
    let end = search.end.min(length * 0.25);
    let count = ((length - 2.0 * end) / search.every).ceil().max(5.0) as usize;
    (0..=count)
        .filter_map(|k| {
            let along = end + (length - 2.0 * end) * k as f64 / count as f64;
            let place = a + way * along;
            let profile = Profile::across(flat, place, [way, out], search)?;
            let (off, inner, outer) = profile.edge(flat.pixels_per_in, search.ink)?;
            Some(Hit { at: place + out * off, along, out: off, inner, outer })
        })
        .collect()
}

/// Light along a line from outside inwards, in even steps.
struct Profile {
    reach: f64,
    step: f64,
    light: Vec<[f32; 3]>,
    root: Vec<[f32; 3]>,
}

impl Profile {
    fn across(flat: &Flat, place: Point, [way, out]: [Vec2; 2], search: Search) -> Option<Self> {
        let Search { reach, step, .. } = search;
        let count = (2.0 * reach / step) as usize + 1;
        let mut list = Vec::with_capacity(count);
        for k in 0..count {
            let p = place + out * (reach - k as f64 * step);
            if !seen(flat, p) {
                return None;
            }
            let three = [-1.2, 0.0, 1.2].map(|off| light(flat, p + way * off));
            list.push(std::array::from_fn(|c| (three[0][c] + three[1][c] + three[2][c]) / 3.0));
        }
        let root = list.iter().map(|light: &[f32; 3]| light.map(f32::sqrt)).collect();
        Some(Self { reach, step, light: list, root })
    }

    /// How far outside the middle the edge lies, and the colours inside and outside.
    fn edge(&self, per_in: f64, ink: Option<[f32; 3]>) -> Option<(f64, [f32; 3], [f32; 3])> {
        let n = self.root.len();
        // The middle, not the mean: a line of the mat may run along the edge.
        let outer: [f32; 3] =
            std::array::from_fn(|c| middle(self.root[..n * 2 / 5].iter().map(|colour| colour[c])));
        let mut apart: Vec<f32> = self.root.iter().map(|&colour| apart(colour, outer)).collect();
        let mut contrast = middle(apart[n / 2..].iter().copied());
        // Where cloth isn't of the lines' colour itself, lines count as the table they are printed on.
        if let Some(ink) = ink {
            let off: Vec<f32> = self.root.iter().map(|&colour| off_ink(colour, outer, ink)).collect();
            let left = middle(off[n / 2..].iter().copied());
            if left > (0.5 * contrast).max(2.0 * FAINTEST) {
                (apart, contrast) = (off, left);
            }
        }
        if contrast < FAINTEST {
            return None;
        }
        let least = (0.4 * contrast).max(0.6 * FAINTEST);
        // A line of the mat is left again before this.
        let lasting = ((0.06 * per_in / self.step) as usize).max(4);
        let first = (0..n.saturating_sub(lasting))
            .find(|&k| apart[k..k + lasting].iter().filter(|&&d| d > least).count() * 8 >= lasting * 7)?;
        self.halfway(first as f64, per_in)
    }

    /// The place near `start` where light is halfway between what lies beyond it on both sides.
    fn halfway(&self, start: f64, per_in: f64) -> Option<(f64, [f32; 3], [f32; 3])> {
        let n = self.light.len();
        let gap = 3.0 / self.step;
        let wide = ((0.04 * per_in).max(3.0) / self.step) as usize;
        let mut at = start;
        let mut sides = None;
        for _ in 0..3 {
            let from = (at + gap).round().max(0.0) as usize;
            let until = (at - gap).round();
            if from + 2 > n || until < 2.0 {
                return None;
            }
            let until = until as usize;
            let inside = mean(&self.light, from, (from + wide).min(n));
            let outside = mean(&self.light, until.saturating_sub(wide), until);
            let way: [f32; 3] = std::array::from_fn(|c| inside[c] - outside[c]);
            let square = way.iter().map(|v| v * v).sum::<f32>();
            if square < 1e-6 {
                return None;
            }
            let share = |k: usize| {
                let light = &self.light[k];
                (0..3).map(|c| (light[c] - outside[c]) * way[c]).sum::<f32>() / square
            };
            let low = (at - gap).max(0.0) as usize;
            let high = ((at + gap) as usize).min(n - 2);
            let crossing = (low..=high)
                .filter_map(|k| {
                    let (here, next) = (share(k), share(k + 1));
                    (here < 0.5 && next >= 0.5).then(|| k as f64 + f64::from((0.5 - here) / (next - here)))
                })
                .min_by(|a, b| (a - at).abs().total_cmp(&(b - at).abs()))?;
            at = crossing;
            sides = Some((inside.map(f32::sqrt), outside.map(f32::sqrt)));
        }
        let (inner, outer) = sides?;
        Some((self.reach - at * self.step, inner, outer))
    }
}

/// Difference of a colour from the ground and everything between it and the lines printed on it. `ink` was
/// seen through cells that hold some ground, so the lines may differ more than it.
fn off_ink(colour: [f32; 3], ground: [f32; 3], ink: [f32; 3]) -> f32 {
    let off: [f32; 3] = std::array::from_fn(|c| colour[c] - ground[c]);
    let dot = |a: [f32; 3], b: [f32; 3]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f32>();
    let share = (dot(off, ink) / dot(ink, ink).max(1e-9)).clamp(0.0, 1.6);
    apart(off, ink.map(|v| v * share))
}

/// The middle of some numbers; 0 of none.
fn middle(numbers: impl Iterator<Item = f32>) -> f32 {
    let mut list: Vec<f32> = numbers.collect();
    if list.is_empty() {
        return 0.0;
    }
    let half = list.len() / 2;
    *list.select_nth_unstable_by(half, f32::total_cmp).1
}

/// Mean of entries `from` up to `to`.
fn mean(list: &[[f32; 3]], from: usize, to: usize) -> [f32; 3] {
    let part = list.get(from..to.max(from + 1)).unwrap_or_default();
    let count = part.len().max(1) as f32;
    std::array::from_fn(|c| part.iter().map(|colour| colour[c]).sum::<f32>() / count)
}

/// The least difference of square roots of light that counts as an edge.
const FAINTEST: f32 = 0.025;
