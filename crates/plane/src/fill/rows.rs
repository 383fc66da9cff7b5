//! Rows side by side, cut off at the edge and sewn one after the other: each for itself, to and
//! fro, or joined along the edge into long strokes.

use super::ground::{Piece, Spot};
use super::{Fill, Ground, Stroke};
use crate::Point;
use serde::{Deserialize, Serialize};

/// In which order and direction rows are sewn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sewing {
    /// All in one direction.
    OneWay,
    /// One there, the next back: the layers don't creep.
    #[default]
    ThereAndBack,
    /// There and back, and from one to the next along the edge without a stop.
    Joined,
}

/// A piece of a row in the open.
struct Part {
    row: usize,
    piece: Piece,
}

/// Cuts rows off at the edge and puts them in sewing order.
pub(super) fn sew(ground: &Ground, rows: &[Vec<Point>], sewing: Sewing) -> Fill {
    let mut parts: Vec<Part> = Vec::new();
    for (row, line) in rows.iter().enumerate() {
        parts.extend(ground.pieces(line).into_iter().map(|piece| Part { row, piece }));
    }
    match sewing {
        Sewing::OneWay => one_by_one(parts, false),
        Sewing::ThereAndBack => one_by_one(parts, true),
        Sewing::Joined => joined(ground, &parts),
    }
}

fn one_by_one(parts: Vec<Part>, alternate: bool) -> Fill {
    let mut strokes: Vec<Stroke> = Vec::with_capacity(parts.len());
    let mut row_begins = 0;
    let mut last_row = usize::MAX;
    for mut part in parts {
        if part.row != last_row {
            (last_row, row_begins) = (part.row, strokes.len());
        }
        if alternate && part.row % 2 == 1 {
            part.piece.points.reverse();
            strokes.insert(row_begins, Stroke::open(part.piece.points));
        } else {
            strokes.push(Stroke::open(part.piece.points));
        }
    }
    Fill { strokes }
}

/// An end of a part, on a ring of the edge.
#[derive(Clone, Copy)]
struct End {
    part: usize,
    /// Whether it is the part's last place.
    last: bool,
    spot: Spot,
}

fn joined(ground: &Ground, parts: &[Part]) -> Fill {
    let ends = ends_in_order(parts);
    let mut sewn = vec![false; parts.len()];
    let mut strokes = Vec::new();
    for start in 0..parts.len() {
        if sewn[start] {
            continue;
        }
        let mut points = Vec::new();
        let mut next = Some((start, true));
        while let Some((part, forward)) = next {
            sewn[part] = true;
            let line = &parts[part].piece.points;
            if forward {
                points.extend(line);
            } else {
                points.extend(line.iter().rev());
            }
            next = onward(ground, parts, &ends, &sewn, (part, forward)).map(|(way, part, forward)| {
                points.extend(way);
                (part, forward)
            });
        }
        strokes.push(Stroke::open(points));
    }
    Fill { strokes }
}

fn ends_in_order(parts: &[Part]) -> Vec<End> {
    let mut ends = Vec::with_capacity(2 * parts.len());
    for (part, Part { piece, .. }) in parts.iter().enumerate() {
        ends.extend(piece.from.map(|spot| End { part, last: false, spot }));
        ends.extend(piece.to.map(|spot| End { part, last: true, spot }));
    }
    ends.sort_by(|a, b| a.spot.ring.cmp(&b.spot.ring).then(a.spot.along.total_cmp(&b.spot.along)));
    ends
}

/// From the end of a part along the edge to a part of a neighbouring row whose end comes next
/// there: the way between, that part, and whether it is sewn forward.
fn onward(
    ground: &Ground,
    parts: &[Part],
    ends: &[End],
    sewn: &[bool],
    (part, forward): (usize, bool),
) -> Option<(Vec<Point>, usize, bool)> {
    let here = ends.iter().position(|end| end.part == part && end.last == forward)?;
    let ring = ends[here].spot.ring;
    let first = ends.partition_point(|end| end.spot.ring < ring);
    let count = ends.partition_point(|end| end.spot.ring <= ring) - first;
    let beside = |by: usize| first + (here - first + by) % count;
    let reachable = |&there: &usize| {
        !sewn[ends[there].part] && parts[ends[there].part].row.abs_diff(parts[part].row) == 1
    };
    let (up, down) = (beside(1), beside(count - 1));
    let candidates = [up, down].into_iter().filter(reachable);
    let there = candidates.max_by_key(|&there| parts[ends[there].part].row)?;
    let (from, to) = (ends[here].spot, ends[there].spot);
    let way = if there == up {
        ground.way_along(from, to)
    } else {
        let mut way = ground.way_along(to, from);
        way.reverse();
        way
    };
    Some((way, ends[there].part, !ends[there].last))
}
