//! Poses at which a piece lies with a side along a side of the cloth, pushed to where it stops.
//!
//! Along one side of the cloth the shift has one degree of freedom left. The hull allows an
//! interval of it and each obstacle forbids one; the ends of what is left are the poses where
//! the piece meets something else: corners, mostly.

use super::overlap::{Placed, beyond_moving};
use super::prepared::{FitCloth, FitPiece};
use super::rule::Rule;
use crate::{DECISION, Line, Point, Pose, Turn, polygon};

/// Directions of the sides, the longest first.
pub(crate) fn longest_sides(points: &[Point]) -> impl Iterator<Item = Turn> + use<> {
    let mut sides: Vec<(f64, Turn)> =
        polygon::edges(points).filter_map(|(a, b)| Some((a.distance(b), Turn::towards(b - a)?))).collect();
    sides.sort_by(|a, b| b.0.total_cmp(&a.0));
    sides.into_iter().map(|(_, turn)| turn)
}

/// The sides of the cloth's outline and holes as lines with the cloth inside.
pub(crate) fn cloth_lines(cloth: &FitCloth) -> Vec<Line> {
    let rings = std::iter::once(&cloth.region.outer).chain(&cloth.region.holes);
    let mut lines: Vec<(f64, Line)> = rings
        .flat_map(|ring| polygon::edges(ring))
        .filter_map(|(a, b)| Some((a.distance(b), Line::through(a, b)?)))
        .collect();
    lines.sort_by(|a, b| b.0.total_cmp(&a.0));
    lines.into_iter().map(|(_, line)| line).collect()
}

/// The poses, in centred coordinates, at which the piece at this turn touches `line` and stops
/// against something at either end.
pub(crate) fn stops_along(piece: &FitPiece, cloth: &FitCloth, line: Line, turn: Turn, found: &mut Vec<Pose>) {
    let body = &piece.hull.points;
    let touch = Rule::Wall { wall: crate::slack::HalfPlane { normal: line.normal.vec(), at: line.at }, body }
        .at(turn)
        .plane;
    let (start, along) = (touch.normal * touch.at, line.unit());
    let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
    for &wall in &cloth.hull.sides {
        let plane = Rule::Wall { wall, body }.at(turn).plane;
        let (value, slope) = (plane.normal.dot(start) - plane.at, plane.normal.dot(along));
        if slope.abs() < 1e-9 {
            if value < -DECISION / 2.0 {
                return;
            }
        } else if slope > 0.0 {
            low = low.max(-value / slope);
        } else {
            high = high.min(-value / slope);
        }
    }
    if low > high + DECISION / 2.0 || !low.is_finite() || !high.is_finite() {
        return;
    }
    let mut taken: Vec<(f64, f64)> = Vec::new();
    let placed = Placed::new(piece, Pose::new(turn, start));
    for part in placed.parts() {
        for obstacle in &cloth.obstacles {
            taken.extend(beyond_moving(part, obstacle, along));
        }
    }
    for at in free_ends(low, high.max(low), &mut taken) {
        found.push(Pose::new(turn, start + along * at));
    }
}

/// Ends of what the taken open intervals leave of `low..=high`.
fn free_ends(low: f64, high: f64, taken: &mut [(f64, f64)]) -> Vec<f64> {
    taken.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut ends = Vec::new();
    let mut free_from = low;
    for &(from, to) in taken.iter() {
        if to <= free_from {
            continue;
        }
        if from > high {
            break;
        }
        if from >= free_from {
            ends.extend([free_from, from]);
        }
        free_from = free_from.max(to);
    }
    if free_from <= high {
        ends.extend([free_from, high]);
    }
    ends.dedup_by(|a, b| (*a - *b).abs() < DECISION);
    ends
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_obstacles_leave_has_its_ends_listed_once() {
        assert_eq!(free_ends(0.0, 10.0, &mut []), [0.0, 10.0]);
        assert_eq!(free_ends(0.0, 10.0, &mut [(2.0, 3.0)]), [0.0, 2.0, 3.0, 10.0]);
        assert_eq!(free_ends(0.0, 10.0, &mut [(2.0, 5.0), (-1.0, 3.0)]), [5.0, 10.0]);
        assert!(free_ends(0.0, 10.0, &mut [(-2.0, 15.0)]).is_empty());
    }
}
