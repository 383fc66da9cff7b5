//! Follows the one level line from the first circle to the outline.
//!
//! The stroke is where height and climb agree: `height(p) = climb(turns + direction of p)`. As a
//! level line it can't meet itself. It is followed in steps that double while the line is even
//! and halve where the chord would stray, down to a length at which even the sharpest corner is
//! cut by less than the chord error.

use super::field::Field;
use super::climb::Climb;
use crate::{Point, Vec2};
use std::f64::consts::TAU;

/// Chords stray by less than this at their middle, in inches.
const STRAY: f64 = 0.004;
/// Steps are no shorter: a corner cut over this length strays by less than half of it.
const SHORTEST: f64 = 0.0125;
/// Steps are no longer.
const LONGEST: f64 = 4.0;
/// A point counts as on the line within so many inches.
const ON_LINE: f64 = 1e-4;

/// A line that takes more steps than this for each inch is going in circles.
const STEPS_AN_INCH: f64 = 10.0;

/// How far off the line a place is.
struct Off {
    inches: f64,
    rise: Vec2,
    turns: f64,
}

struct Tracer<'a> {
    field: &'a Field,
    climb: &'a Climb,
}

/// The stroke, or about where it lost its way. `most_in` bounds its length.
pub(super) fn trace(field: &Field, climb: &Climb, most_in: f64) -> Result<Vec<Point>, Point> {
    let tracer = Tracer { field, climb };
    let mut at = tracer.settle(Point::new(field.first, 0.0), 0.0).0;
    let mut turns = 0.0;
    let end = climb.end();
    let mut points = vec![at];
    let mut step = SHORTEST;
    let mut length = 0.0;
    while turns < end {
        let from = tracer.off(at, turns);
        let along = from.rise.left() * (1.0 / from.rise.length().max(1e-12));
        let longest = tracer.longest(turns);
        step = step.min(longest);
        let mut ahead = tracer.settle(at + along * step, turns);
        while step > SHORTEST && !tracer.is_straight(at, along * step, &ahead) {
            step = (step / 2.0).max(SHORTEST);
            ahead = tracer.settle(at + along * step, turns);
        }
        if step <= SHORTEST && !tracer.is_straight(at, along * step, &ahead) {
            let (corner, after) = tracer.corner(at + along * step, turns);
            let onward = after.0 - corner;
            if onward.length() > SHORTEST / 2.0 && onward.dot(along) > -0.5 * onward.length() {
                if corner.distance(at) > ON_LINE {
                    length += corner.distance(at);
                    points.push(corner);
                }
                (at, ahead) = (corner, after);
            } else {
                ahead = tracer.round_the_tip(at, along, turns).ok_or(at)?;
            }
        }
        let (next, next_turns) = (ahead.0, ahead.1.turns);
        let moved = at.distance(next);
        if !(moved > SHORTEST / 8.0 && next_turns > turns - 0.5) {
            return Err(at);
        }
        length += moved;
        if length > most_in || points.len() as f64 > STEPS_AN_INCH * most_in {
            return Err(at);
        }
        if next_turns >= end {
            let share = ((end - turns) / (next_turns - turns)).clamp(0.0, 1.0);
            points.push(at.lerp(next, share));
            break;
        }
        points.push(next);
        (at, turns, step) = (next, next_turns, step * 2.0);
    }
    Ok(points)
}

impl Tracer<'_> {
    /// How far `p` is off the line, if it lies within half a turn of `turns`.
    fn off(&self, p: Point, turns: f64) -> Off {
        let height = self.field.at(p);
        let share = p.y.atan2(p.x) / TAU;
        let turns = share + (turns - share).round();
        let (rows, growth) = self.climb.at(turns.max(0.0));
        let squared = (p.x * p.x + p.y * p.y).max(1e-12);
        let turning = Vec2::new(-p.y, p.x) * (1.0 / (squared * TAU));
        let rise = height.rise - turning * growth;
        let steep = rise.length().max(1e-9);
        Off { inches: (height.rows - rows) / steep, rise, turns }
    }

    /// The place on the line near `p`.
    fn settle(&self, mut p: Point, turns: f64) -> (Point, Off) {
        let mut off = self.off(p, turns);
        for _ in 0..6 {
            if off.inches.abs() < ON_LINE {
                break;
            }
            p = p - off.rise * (off.inches / off.rise.length().max(1e-9));
            off = self.off(p, turns);
        }
        (p, off)
    }

    /// The corner just before `beyond`, and the place a short step after it on the other side.
    fn corner(&self, beyond: Point, turns: f64) -> (Point, (Point, Off)) {
        let rise = self.off(beyond, turns).rise;
        let along = rise.left() * (1.0 / rise.length().max(1e-12));
        let (corner, _) = self.settle(beyond, turns);
        (corner, self.settle(corner + along * SHORTEST, turns))
    }

    /// Where the line leaves a small circle about `at`, having come in along `along`: the inner side is
    /// swept from behind until the outer side begins. Finds the way out of any tip.
    fn round_the_tip(&self, at: Point, along: Vec2, turns: f64) -> Option<(Point, Off)> {
        const SWEEP: usize = 48;
        let place = |share: f64| {
            let (sin, cos) = (TAU * share).sin_cos();
            at + (along * -cos + along.left() * sin) * (1.5 * SHORTEST)
        };
        let outside = |share: f64| self.off(place(share), turns).inches >= 0.0;
        let share = |i: usize| i as f64 / SWEEP as f64;
        let inner = (1..SWEEP).find(|&i| !outside(share(i)))?;
        let outer = (inner + 1..SWEEP).find(|&i| outside(share(i)))?;
        let (mut low, mut high) = (share(outer - 1), share(outer));
        for _ in 0..20 {
            let middle = f64::midpoint(low, high);
            if outside(middle) { high = middle } else { low = middle }
        }
        Some((place(low), self.off(place(low), turns)))
    }

    /// Whether the chord to the next place stands for the line.
    fn is_straight(&self, at: Point, step: Vec2, (next, there): &(Point, Off)) -> bool {
        let next = *next;
        let leaving = there.rise.left() * (1.0 / there.rise.length().max(1e-12));
        let long = step.length();
        there.inches.abs() < 10.0 * ON_LINE
            && leaving.dot(step) > 0.9 * long
            && (next - at).dot(step) > 0.9 * long * long
            && self.off(at.midpoint(next), there.turns).inches.abs() < STRAY
            && self.off(at.lerp(next, 0.25), there.turns).inches.abs() < STRAY
    }

    /// The longest step that can't pass over a step of the climb or a swing unseen.
    fn longest(&self, turns: f64) -> f64 {
        let radius = self.field.first + self.climb.apart * turns;
        let swing = self.climb.wobble.map_or(LONGEST, |wobble| wobble.step());
        let before = (1.0 - self.climb.step - turns.fract()).max(self.climb.step / 8.0) * TAU * radius;
        LONGEST.min(swing).min(0.1 + before).min(1.0 + radius / 4.0)
    }
}
