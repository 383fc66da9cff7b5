//! The order of cutting: first the long straight cuts that go right through and cut no piece, then what they leave.

use plane::{Line, Point, READING, clip_half_plane, polygon};
use serde::Serialize;

/// A straight cut through all that is left of a part.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LongCut {
    /// Its ends, in the cloth's coordinates: at the box round the pieces and the cloth.
    pub from: Point,
    /// The other end.
    pub to: Point,
}

/// In which order pieces are cut.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Order {
    /// The straight cuts, in their order.
    pub cuts: Vec<LongCut>,
    /// The pieces in the order in which they come free.
    pub pieces: Vec<usize>,
    /// Those that no straight cut parts from their neighbours: they are cut out along their own edges.
    pub round_edges: Vec<usize>,
}

/// How far a line may run into a piece and still only touch it, in inches.
const TOUCH_IN: f64 = 2.0 * READING;

/// Finds the order for pieces that lie on one cloth: `outlines` in the cloth's coordinates, `cloth` its outline.
#[must_use]
pub fn order(outlines: &[Vec<Point>], cloth: &[Point]) -> Order {
    let mut order = Order::default();
    let group: Vec<usize> = (0..outlines.len()).collect();
    part(outlines, &group, &polygon::hull(cloth), &mut order);
    order
}

/// Parts a group by the longest cut that can be, then each half.
fn part(outlines: &[Vec<Point>], group: &[usize], region: &[Point], order: &mut Order) {
    match group {
        [] => return,
        [one] => return order.pieces.push(*one),
        _ => {}
    }
    let mut best: Option<(f64, Line, [Point; 2])> = None;
    for &piece in group {
        for (a, b) in polygon::edges(&outlines[piece]) {
            let Some(line) = Line::through(a, b) else { continue };
            let Some([left, right]) = halves(outlines, group, line) else { continue };
            let Some(ends) = chord(region, line) else { continue };
            // The longest; of equals the one that parts most evenly.
            let even = left.len().min(right.len()) as f64 / group.len() as f64;
            let worth = ends[0].distance(ends[1]) + 0.01 * even;
            if best.as_ref().is_none_or(|(most, ..)| worth > most + 1e-9) {
                best = Some((worth, line, ends));
            }
        }
    }
    let Some((_, line, [from, to])) = best else {
        order.pieces.extend(group);
        order.round_edges.extend(group);
        return;
    };
    let Some([left, right]) = halves(outlines, group, line) else { return };
    order.cuts.push(LongCut { from, to });
    part(outlines, &left, &clip_half_plane(region, line, 0.0), order);
    part(outlines, &right, &clip_half_plane(region, line.reversed(), 0.0), order);
}

/// The pieces on both sides of a line that cuts none and has some on each.
fn halves(outlines: &[Vec<Point>], group: &[usize], line: Line) -> Option<[Vec<usize>; 2]> {
    let (mut left, mut right) = (Vec::new(), Vec::new());
    for &piece in group {
        let reach = outlines[piece].iter().map(|&p| line.inside_by(p));
        let (low, high) = reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), d| (l.min(d), h.max(d)));
        match (low >= -TOUCH_IN, high <= TOUCH_IN) {
            (true, _) => left.push(piece),
            (_, true) => right.push(piece),
            _ => return None,
        }
    }
    (!left.is_empty() && !right.is_empty()).then_some([left, right])
}

/// Where a line crosses a convex outline.
fn chord(region: &[Point], line: Line) -> Option<[Point; 2]> {
    let mut crossings: Vec<Point> = Vec::new();
    for (a, b) in polygon::edges(region) {
        let (da, db) = (line.inside_by(a), line.inside_by(b));
        if (da > 0.0) != (db > 0.0) {
            crossings.push(a.lerp(b, da / (da - db)));
        }
    }
    match crossings[..] {
        [from, to] => Some([from, to]),
        _ => None,
    }
}
