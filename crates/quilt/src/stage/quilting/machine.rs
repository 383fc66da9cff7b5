//! The passes of a machine that reaches only so far.
//!
//! On a frame the piece lies between two rollers and is sewn band by band from the top; every line
//! that goes from one band to the next is stopped there and joined. Bands run along the rollers, so
//! they cut the piece by its height when its width lies along them, and by its width when it is
//! loaded the other way: then it is turned a quarter to the left, and its right edge comes to the
//! top. Under an arm the piece is sewn from its middle outward, one half and then, turned round, the
//! other, with what is sewn rolled up: lines needn't stop, but nothing further from the needle than
//! the arm has room for can be sewn in one hold.

use super::Machine;
use plane::Point;
use plane::fill::{Fill, Stroke};
use serde::Serialize;

/// What passes divide.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Across {
    /// The piece's height: its width lies along the rollers.
    #[default]
    Height,
    /// Its width: its height lies along the rollers.
    Width,
}

impl Across {
    /// How far up a place lies as the piece is loaded.
    const fn up(self, p: Point) -> f64 {
        match self {
            Self::Height => p.y,
            Self::Width => p.x,
        }
    }
}

/// One pass.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pass {
    /// Which, from 1, in sewing order.
    pub no: usize,
    /// Whether it is a band of the piece's height or of its width.
    pub across: Across,
    /// Lower edge of the band, in the piece's own y, or its left edge in x.
    pub from_in: f64,
    /// Upper edge, or right edge.
    pub to_in: f64,
    /// Length of line in it.
    pub length_in: f64,
    /// Pieces of line in it: as many starts on a frame.
    pub pieces: usize,
    /// Of those, how many go on from a line of the band before and are joined to it.
    pub joins: usize,
}

/// The passes of a design, and the strokes as they are really sewn.
pub(super) struct Passes {
    pub(super) passes: Vec<Pass>,
    /// On a frame, the lines cut at the edges of the bands, band by band; else as they were laid.
    pub(super) sewn: Fill,
}

/// Divides a design among the passes of the machine.
pub(super) fn passes(machine: Machine, across: Across, fill: &Fill, outline: &[Point]) -> Passes {
    let across = if matches!(machine, Machine::Frame { .. }) { across } else { Across::Height };
    let Some((low, high)) = plane::polygon::bounds(outline) else {
        return Passes { passes: Vec::new(), sewn: fill.clone() };
    };
    let (low, high) = (across.up(low), across.up(high));
    let bands = match machine {
        Machine::Hand => Vec::new(),
        Machine::Frame { reach_in, .. } => from_the_top(low, high, reach_in),
        Machine::Arm { room_in } => from_the_middle(low, high, room_in),
    };
    let (mut passes, mut sewn): (Vec<Pass>, Vec<Stroke>) = (Vec::new(), Vec::new());
    for (i, (from, to)) in bands.iter().enumerate() {
        // Lines along the outermost edge belong to its band.
        let below = if *from <= low { f64::NEG_INFINITY } else { *from };
        let above = if *to >= high { f64::INFINITY } else { *to };
        let inside: Vec<Stroke> =
            fill.strokes.iter().flat_map(|stroke| pieces(stroke, across, below, above)).collect();
        let length_in = inside.iter().map(Stroke::length).sum();
        let joins = joins(fill, across, &bands[..i], (*from, *to));
        let pieces = inside.len();
        passes.push(Pass { no: i + 1, across, from_in: *from, to_in: *to, length_in, pieces, joins });
        sewn.extend(inside);
    }
    let is_cut = matches!(machine, Machine::Frame { .. });
    Passes { passes, sewn: if is_cut { Fill { strokes: sewn } } else { fill.clone() } }
}

fn from_the_top(low: f64, high: f64, reach: f64) -> Vec<(f64, f64)> {
    let count = ((high - low) / reach - 1e-9).ceil().max(1.0) as usize;
    (0..count).map(|i| ((high - (i + 1) as f64 * reach).max(low), high - i as f64 * reach)).collect()
}

fn from_the_middle(low: f64, high: f64, room: f64) -> Vec<(f64, f64)> {
    let middle = f64::midpoint(low, high);
    let count = ((high - middle) / room - 1e-9).ceil().max(1.0) as usize;
    let up = (0..count).map(|i| (middle + i as f64 * room, (middle + (i + 1) as f64 * room).min(high)));
    let down = (0..count).map(|i| ((middle - (i + 1) as f64 * room).max(low), middle - i as f64 * room));
    up.chain(down).collect()
}

/// The parts of a stroke between two heights, in sewing order. One that lies wholly between them stays
/// as it is; a ring that is cut begins where it first comes in.
fn pieces(stroke: &Stroke, across: Across, from: f64, to: f64) -> Vec<Stroke> {
    let mut parts: Vec<Vec<Point>> = Vec::new();
    let mut goes_on = false;
    let mut begins_inside = false;
    for (i, (a, b)) in stroke.segments().enumerate() {
        let Some([enters, leaves]) = between(across.up(a), across.up(b), from, to) else {
            goes_on = false;
            continue;
        };
        begins_inside |= i == 0 && enters == 0.0;
        match parts.last_mut().filter(|_| goes_on && enters == 0.0) {
            Some(part) => part.push(a.lerp(b, leaves)),
            None => parts.push(vec![a.lerp(b, enters), a.lerp(b, leaves)]),
        }
        goes_on = leaves == 1.0;
    }
    if stroke.closed && begins_inside && goes_on {
        if parts.len() == 1 {
            return vec![stroke.clone()];
        }
        // What comes in last goes on over the place where the ring begins.
        if let Some(last) = parts.pop() {
            let first = std::mem::replace(&mut parts[0], last);
            parts[0].extend(first.into_iter().skip(1));
        }
    }
    parts.into_iter().map(Stroke::open).collect()
}

/// From which to which share of the way from height `a` to `b` it lies between two heights; `None` where
/// it doesn't, or only touches. A level way belongs to the band above it.
fn between(a: f64, b: f64, from: f64, to: f64) -> Option<[f64; 2]> {
    if (a - b).abs() < 1e-12 {
        return (a >= from && a < to).then_some([0.0, 1.0]);
    }
    let share = |height: f64| ((height - a) / (b - a)).clamp(0.0, 1.0);
    let (first, last) = if a < b { (from, to) } else { (to, from) };
    let enters = if first.is_finite() { share(first) } else { 0.0 };
    let leaves = if last.is_finite() { share(last) } else { 1.0 };
    (leaves > enters).then_some([enters, leaves])
}

/// How many lines go on from a band that was sewn before: the one above on a frame, the one nearer to
/// the middle under an arm.
fn joins(fill: &Fill, across: Across, before: &[(f64, f64)], (from, to): (f64, f64)) -> usize {
    let above = before.iter().any(|(other, _)| (*other - to).abs() < 1e-9);
    let below = before.iter().any(|(_, other)| (*other - from).abs() < 1e-9);
    let count = |height: f64, is: bool| if is { crossings(fill, across, height) } else { 0 };
    count(to, above) + count(from, below)
}

/// How many times lines cross a height.
fn crossings(fill: &Fill, across: Across, height: f64) -> usize {
    let above = |p: Point| across.up(p) > height;
    let ways = fill.strokes.iter().flat_map(Stroke::segments);
    ways.filter(|(a, b)| above(*a) != above(*b)).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(points: &[(f64, f64)]) -> Stroke {
        Stroke::open(points.iter().map(|&(x, y)| Point::new(x, y)).collect())
    }

    #[test]
    fn a_line_that_leaves_and_comes_back_is_cut_twice() {
        let there = line(&[(0.0, 1.0), (5.0, 6.0), (10.0, 1.0)]);
        assert_eq!(
            pieces(&there, Across::Height, 0.0, 4.0),
            [line(&[(0.0, 1.0), (3.0, 4.0)]), line(&[(7.0, 4.0), (10.0, 1.0)])]
        );
        assert_eq!(pieces(&there, Across::Height, 4.0, 8.0), [line(&[(3.0, 4.0), (5.0, 6.0), (7.0, 4.0)])]);
        // It only touches the height of 6.
        assert_eq!(pieces(&there, Across::Height, 6.0, 9.0), []);
    }

    #[test]
    fn a_ring_is_whole_in_its_band_and_falls_in_two_at_an_edge() {
        let square = [(1.0, 1.0), (3.0, 1.0), (3.0, 3.0), (1.0, 3.0)].map(|(x, y)| Point::new(x, y));
        let ring = Stroke::closed(square.to_vec());
        assert_eq!(pieces(&ring, Across::Height, 0.0, 4.0), std::slice::from_ref(&ring));
        let lower = pieces(&ring, Across::Height, 0.0, 2.0);
        assert_eq!(lower, [line(&[(1.0, 2.0), (1.0, 1.0), (3.0, 1.0), (3.0, 2.0)])]);
        let upper = pieces(&ring, Across::Height, 2.0, 4.0);
        assert_eq!(upper, [line(&[(3.0, 2.0), (3.0, 3.0), (1.0, 3.0), (1.0, 2.0)])]);
        // The other way round the right half is cut off.
        let right = pieces(&ring, Across::Width, 2.0, 4.0);
        assert_eq!(right, [line(&[(2.0, 1.0), (3.0, 1.0), (3.0, 3.0), (2.0, 3.0)])]);
    }
}
