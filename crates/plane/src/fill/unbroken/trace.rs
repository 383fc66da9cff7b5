//! Follows the one level line from the first circle to the outline.
//!
//! The stroke is where height and climb agree: `height(p) = climb(turns + direction of p)`. As a
//! level line it can't meet itself. It is followed in steps that double while the line is even
//! and halve where the chord would stray, down to a length at which even the sharpest corner is
//! cut by less than the chord error.

use super::climb::Climb;
use super::field::Field;
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
    let (mut at, mut turns, mut step) = (tracer.settle(Point::new(field.first, 0.0), 0.0).0, 0.0, SHORTEST);
    let (end, mut length, mut points) = (climb.end(), 0.0, vec![at]);
    while turns < end {
        let ahead = tracer.advance(at, turns, step).ok_or(at)?;
        if let Some(corner) = ahead.corner {
            length += at.distance(corner);
            points.push(corner);
            at = corner;
        }
        let moved = at.distance(ahead.to);
        length += moved;
        let circles = length > most_in || points.len() as f64 > STEPS_AN_INCH * most_in;
        if moved <= SHORTEST / 8.0 || ahead.turns <= turns - 0.5 || circles {
            return Err(at);
        }
        let share = if ahead.turns > end { (end - turns) / (ahead.turns - turns) } else { 1.0 };
        points.push(at.lerp(ahead.to, share.clamp(0.0, 1.0)));
        (at, turns, step) = (ahead.to, ahead.turns, ahead.step * 2.0);
    }
    Ok(points)
}

/// One step along the line.
struct Ahead {
    /// A corner passed on the way.
    corner: Option<Point>,
    to: Point,
    turns: f64,
    /// How long it was.
    step: f64,
}

impl Tracer<'_> {
    /// The longest step up to `step` whose chord stands for the line; over a corner, the shortest.
    fn advance(&self, at: Point, turns: f64, step: f64) -> Option<Ahead> {
        let rise = self.off(at, turns).rise;
        let along = rise.left() * (1.0 / rise.length().max(1e-12));
        let mut step = step.min(self.longest(turns));
        loop {
            let ahead = self.settle(at + along * step, turns);
            if self.is_straight(at, along * step, &ahead) {
                return Some(Ahead { corner: None, to: ahead.0, turns: ahead.1.turns, step });
            }
            if step <= SHORTEST {
                break;
            }
            step = (step / 2.0).max(SHORTEST);
        }
        let (corner, (to, after)) = self.corner(at + along * step, turns);
        let onward = to - corner;
        if onward.length() > SHORTEST / 2.0 && onward.dot(along) > -0.5 * onward.length() {
            let corner = (corner.distance(at) > ON_LINE).then_some(corner);
            return Some(Ahead { corner, to, turns: after.turns, step });
        }
        let (to, after) = self.round_the_tip(at, along, turns)?;
        Some(Ahead { corner: None, to, turns: after.turns, step })
    }

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

#[cfg(test)]
mod tests {
    use super::super::plot::Plot;
    use super::super::{UnbrokenSpiral, levels};
    use super::*;
    use crate::Region;
    use crate::fill::{CHORD_ERROR, Ground, Spacing};

    /// All along its chords the stroke is within the chord error of the level line.
    #[test]
    fn chords_stay_within_the_chord_error() {
        let corners = [(-20.0, -18.0), (19.0, -22.0), (24.0, 3.0), (6.0, 12.0), (2.0, 25.0), (-21.0, 16.0)];
        let outer = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        let keep_out = [(8.0, -8.0), (13.0, -7.0), (12.0, -3.0)].map(|(x, y)| Point::new(x, y)).to_vec();
        let ground = Ground::try_new(
            &Region { outer, holes: Vec::new() },
            &[Region { outer: keep_out, holes: Vec::new() }],
        );
        let choice = UnbrokenSpiral {
            centre: Point::ORIGIN,
            spacing: Spacing { wish_in: 0.5, least_in: 0.1, most_in: 2.0 },
            least_radius_in: 0.5,
            start_deg: None,
            clockwise: false,
            wobble: Some(crate::fill::Wobble::new(0.05, 9)),
        };
        let plot = Plot::new(&ground.unwrap(), &choice).unwrap();
        let rows = 36.0;
        let field = Field { rows, even: rows / (plot.mean - 0.5), ..plot.field.clone() };
        let wobble = choice.wobble.map(|wobble| wobble.in_rows(2.0));
        let climb = Climb { rows, step: 0.02, wobble, first: 0.5, apart: 1.0 / field.even };
        let field = levels::set(field, &climb, &plot.edge).unwrap();
        let points = trace(&field, &climb, plot.most_length).unwrap();
        let tracer = Tracer { field: &field, climb: &climb };
        let (mut turns, mut most) = (0.0, 0.0_f64);
        for side in points.windows(2) {
            for share in [0.0, 0.2, 0.4, 0.6, 0.8] {
                let off = tracer.off(side[0].lerp(side[1], share), turns);
                turns = off.turns;
                most = most.max(off.inches.abs());
            }
        }
        assert!(turns > 36.0 && most < CHORD_ERROR, "{turns} turns, off by {most}");
    }
}
