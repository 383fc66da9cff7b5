//! The passes of a machine that reaches only so far.
//!
//! On a frame the piece lies between two rollers and is sewn band by band from the top; every line
//! that crosses from one band to the next is stopped and joined. Under an arm the piece is sewn from
//! its middle outward, one half and then, turned round, the other, with what is sewn rolled up: lines
//! needn't stop, but nothing further from the needle than the arm has room for can be sewn in one
//! hold.

use super::Machine;
use plane::Point;
use plane::fill::Fill;
use serde::Serialize;

/// One pass.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pass {
    /// Which, from 1, in sewing order.
    pub no: usize,
    /// Lower edge of the band, in the piece's own y.
    pub from_y_in: f64,
    /// Upper edge.
    pub to_y_in: f64,
    /// Length of line in it.
    pub length_in: f64,
    /// Pieces of line in it: as many starts on a frame.
    pub pieces: usize,
    /// Of those, how many go on from a line of the band before and are joined to it.
    pub joins: usize,
}

pub(super) fn passes(machine: Machine, fill: &Fill, outline: &[Point]) -> Vec<Pass> {
    let Some((low, high)) = plane::polygon::bounds(outline) else { return Vec::new() };
    let bands = match machine {
        Machine::Hand => return Vec::new(),
        Machine::Frame { reach_in } => from_the_top(low.y, high.y, reach_in),
        Machine::Arm { room_in } => from_the_middle(low.y, high.y, room_in),
    };
    let mut passes: Vec<Pass> = Vec::new();
    for (i, (from, to)) in bands.iter().enumerate() {
        // Lines along the outermost edge belong to its band.
        let below = if *from <= low.y { f64::NEG_INFINITY } else { *from };
        let above = if *to >= high.y { f64::INFINITY } else { *to };
        let (length_in, pieces) = inside(fill, below, above);
        passes.push(Pass { no: i + 1, from_y_in: *from, to_y_in: *to, length_in, pieces, joins: 0 });
    }
    let crossings: Vec<usize> = bands.iter().map(|(_, to)| crossings(fill, *to)).collect();
    for (i, pass) in passes.iter_mut().enumerate() {
        // A band shares a border with one that was sewn before it: the one above on a frame, the one
        // nearer to the middle under an arm.
        let before = bands[..i].iter().any(|(from, _)| (*from - pass.to_y_in).abs() < 1e-9);
        let below = bands[..i].iter().position(|(_, to)| (*to - pass.from_y_in).abs() < 1e-9);
        pass.joins = if before { crossings[i] } else { 0 } + below.map_or(0, |j| crossings[j]);
    }
    passes
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

/// Length of line between two heights, and in how many pieces.
fn inside(fill: &Fill, from: f64, to: f64) -> (f64, usize) {
    let (mut length, mut pieces) = (0.0, 0);
    for stroke in &fill.strokes {
        let mut was_inside = false;
        for (a, b) in stroke.segments() {
            let part = share(a.y, b.y, from, to);
            length += part * a.distance(b);
            let goes_in = part > 0.0;
            pieces += usize::from(goes_in && !was_inside);
            was_inside = goes_in && b.y >= from && b.y <= to;
        }
    }
    (length, pieces)
}

/// Which share of the way from `a` to `b` lies between two heights.
fn share(a: f64, b: f64, from: f64, to: f64) -> f64 {
    let (low, high) = (a.min(b), a.max(b));
    if high - low < 1e-12 {
        return f64::from(u8::from(low >= from && low < to));
    }
    ((high.min(to) - low.max(from)) / (high - low)).max(0.0)
}

/// How many times lines cross a height.
fn crossings(fill: &Fill, y: f64) -> usize {
    fill.strokes
        .iter()
        .flat_map(plane::fill::Stroke::segments)
        .filter(|(a, b)| (a.y > y) != (b.y > y))
        .count()
}
