//! Whether any stroke crosses itself or another.
//!
//! The plane is swept cell by cell: two pieces of line that meet share a cell, so each pair in
//! a cell is looked at and no meeting is missed. Pieces that follow one another in a stroke may
//! meet at the place they share, and nowhere else.

use super::grid::{Grid, Segment};
use crate::fill::Stroke;
use crate::{Point, polygon};

/// Two pieces of line that meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Stroke and piece, counted from 0.
    pub first: (usize, usize),
    /// Stroke and piece, counted from 0.
    pub second: (usize, usize),
    /// About where.
    pub near: Point,
}

/// The first meeting found, or `None`: then the strokes are proved free of crossings and touches.
#[must_use]
pub fn first_crossing(strokes: &[Stroke]) -> Option<Crossing> {
    crossings(strokes, |_, _| true).next()
}

/// All meetings of pieces for which `of_interest` holds, given the numbers of their strokes.
/// A meeting in several cells comes several times.
pub fn crossings(
    strokes: &[Stroke],
    of_interest: impl Fn(usize, usize) -> bool,
) -> impl Iterator<Item = Crossing> {
    let mut parts: Vec<(usize, usize, usize)> = Vec::new();
    let mut segments: Vec<Segment> = Vec::new();
    for (number, stroke) in strokes.iter().enumerate() {
        let count = stroke.segments().count();
        for (i, segment) in stroke.segments().enumerate() {
            parts.push((number, i, if stroke.closed { count } else { usize::MAX }));
            segments.push(segment);
        }
    }
    let places: Vec<Point> = segments.iter().flat_map(|&(a, b)| [a, b]).collect();
    let (low, high) = polygon::bounds(&places).unwrap_or_default();
    let length: f64 = segments.iter().map(|(a, b)| a.distance(*b)).sum();
    let area = (high.x - low.x) * (high.y - low.y);
    let grid = Grid::new(&segments, low, high, (area / length.max(1e-9)).max(1e-3));
    let mut found = Vec::new();
    for row in 0..grid.rows {
        for column in 0..grid.columns {
            let items = grid.in_cell(column, row);
            for (k, &i) in items.iter().enumerate() {
                for &j in &items[k + 1..] {
                    let (one, other) = (parts[i as usize], parts[j as usize]);
                    if let Some(near) =
                        meeting(segments[i as usize], segments[j as usize], follows(one, other))
                        && of_interest(one.0, other.0)
                    {
                        found.push(Crossing { first: (one.0, one.1), second: (other.0, other.1), near });
                    }
                }
            }
        }
    }
    found.into_iter()
}

/// Which piece follows the other in their stroke.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Order {
    Apart,
    SecondFollows,
    FirstFollows,
}

fn follows(one: (usize, usize, usize), other: (usize, usize, usize)) -> Order {
    let after = |a: (usize, usize, usize), b: (usize, usize, usize)| a.0 == b.0 && (a.1 + 1) % a.2 == b.1;
    if after(one, other) {
        Order::SecondFollows
    } else if after(other, one) {
        Order::FirstFollows
    } else {
        Order::Apart
    }
}

fn meeting((a, b): Segment, (c, d): Segment, order: Order) -> Option<Point> {
    match order {
        Order::SecondFollows => return turns_back(a, b, d),
        Order::FirstFollows => return turns_back(c, d, b),
        Order::Apart => {}
    }
    if a.x.min(b.x) > c.x.max(d.x)
        || a.x.max(b.x) < c.x.min(d.x)
        || a.y.min(b.y) > c.y.max(d.y)
        || a.y.max(b.y) < c.y.min(d.y)
    {
        return None;
    }
    let (u, v) = (b - a, d - c);
    let (c_side, d_side) = (u.cross(c - a), u.cross(d - a));
    let (a_side, b_side) = (v.cross(a - c), v.cross(b - c));
    let apart = |one: f64, other: f64| (one > 0.0 && other > 0.0) || (one < 0.0 && other < 0.0);
    if apart(c_side, d_side) || apart(a_side, b_side) {
        return None;
    }
    Some(if a_side == b_side { a } else { a.lerp(b, a_side / (a_side - b_side)) })
}

/// The middle place, where the way back lies on the way there.
fn turns_back(before: Point, middle: Point, after: Point) -> Option<Point> {
    let (u, v) = (before - middle, after - middle);
    (u.cross(v) == 0.0 && u.dot(v) > 0.0).then_some(middle)
}
