//! Which height each keep-out has: how many rows pass it on the inner side.
//!
//! Between a keep-out and the first circle as many rows must find room as its height says, and
//! between it and the outline the rest. The height is chosen so that the tighter of both, and the
//! room between keep-outs, is as wide as it can be; and so that no row runs into the keep-out:
//! halfway between two turns where they meet it.

use super::climb::Climb;
use super::field::Field;
use super::plot::between;
use crate::{Point, polygon};
use std::f64::consts::TAU;

/// Rows beside a keep-out get this share of the room that they could have.
const SNUG: f64 = 0.995;

/// What stands round a keep-out.
struct Room {
    /// To the first circle.
    inside: f64,
    /// To the outline.
    outside: f64,
    /// Heights at which a row wouldn't run into it.
    levels: Vec<f64>,
}

/// Sets heights and row distances of all obstacles; fails with the place that has no room.
pub(super) fn set(mut field: Field, climb: &Climb, edge: &[Point]) -> Result<Field, Point> {
    let rooms: Vec<Option<Room>> = (0..field.obstacles.len()).map(|i| room(&field, climb, edge, i)).collect();
    for (obstacle, room) in field.obstacles.iter_mut().zip(&rooms) {
        obstacle.level = match room {
            None => field.rows,
            Some(room) => *middle(&room.levels).ok_or(obstacle.middle)?,
        };
    }
    for _ in 0..4 {
        for (i, room) in rooms.iter().enumerate() {
            let Some(room) = room else { continue };
            let ease = |level: f64| widest_step(&field, &rooms, i, level);
            let best = room
                .levels
                .iter()
                .copied()
                .reduce(|best, next| if ease(next) > ease(best) { next } else { best });
            field.obstacles[i].level = best.unwrap_or(field.obstacles[i].level);
        }
    }
    for i in 0..field.obstacles.len() {
        let step = SNUG * widest_step(&field, &rooms, i, field.obstacles[i].level);
        if step <= 0.0 {
            return Err(field.obstacles[i].middle);
        }
        field.obstacles[i].step = step;
    }
    Ok(field)
}

fn middle(levels: &[f64]) -> Option<&f64> {
    levels.get(levels.len() / 2)
}

/// The room of a keep-out that rows pass on both sides.
fn room(field: &Field, climb: &Climb, edge: &[Point], i: usize) -> Option<Room> {
    let obstacle = &field.obstacles[i];
    if !obstacle.free {
        return None;
    }
    let inside = obstacle.distance(Point::ORIGIN).0 - field.first;
    let outside = between(&obstacle.corners, edge);
    let along = |(a, b): (Point, Point)| (0..8).map(move |k| a.lerp(b, f64::from(k) / 8.0));
    let heights: Vec<f64> =
        polygon::edges(&obstacle.corners).flat_map(along).map(|p| field.plain(p).rows).collect();
    let low = heights.iter().copied().fold(f64::INFINITY, f64::min);
    let high = heights.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let middle = obstacle.middle;
    let share = (middle.y.atan2(middle.x) / TAU).rem_euclid(1.0);
    let between_turns = |turn: f64| f64::midpoint(climb.at(turn + share).0, climb.at(turn + 1.0 + share).0);
    let turns = (0..field.rows as usize).map(|turn| between_turns(turn as f64));
    let levels =
        turns.filter(|&level| level > low - 0.5 && level < high + 0.5 && level < field.rows).collect();
    Some(Room { inside, outside, levels })
}

/// How far apart rows can be beside obstacle `i` at a level.
fn widest_step(field: &Field, rooms: &[Option<Room>], i: usize, level: f64) -> f64 {
    let obstacle = &field.obstacles[i];
    let others = field.obstacles.iter().enumerate().filter(|&(j, _)| j != i).map(|(_, other)| {
        let rows = (other.level - level).abs();
        if rows < 1e-9 { f64::INFINITY } else { between(&obstacle.corners, &other.corners) / rows }
    });
    let inside = |distance: f64| if level > 0.0 { distance / level } else { f64::INFINITY };
    let own = match &rooms[i] {
        Some(room) => inside(room.inside).min(room.outside / (field.rows - level)),
        None => inside(obstacle.distance(Point::ORIGIN).0 - field.first),
    };
    others.fold(own, f64::min)
}
