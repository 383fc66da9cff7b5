//! How far a proof that there is no room stays a proof while the piece turns on.
//!
//! Three rules that can't hold together at one turn, with their deciding corners held fast, are
//! a bound for every turn: slack times (sum of weights) = -(sum of weight times distance), a
//! trigonometric polynomial of the turn, of degree 1 when the three normals are all fixed or all
//! turning (its end has a closed form), else of degree 2 (its end is approached from the safe
//! side with a bound on the second derivative, which converges quadratically). All in + - * / √.

use super::rule::RuleAt;
use crate::slack::weights;
use crate::{Turn, Vec2};

/// How far to turn on.
pub(crate) enum Next {
    /// No turn at all can do.
    Never,
    /// By this much, counter-clockwise; nothing before it can do.
    By(Turn),
}

/// Rounds of the approach; stopping early is safe.
const ROUNDS: usize = 12;
/// Longest single step of the approach, as the tangent of half its angle.
const STEP: f64 = 0.25;

/// How far the three rules stay in each other's way, by more than `allowed` inches.
pub(crate) fn next_turn(rules: [&RuleAt; 3], u: Turn, allowed: f64) -> Next {
    let turning = rules.iter().filter(|r| r.turns).count();
    let (weight, _) = weights(rules.map(|r| r.plane.normal));
    if turning == 0 || turning == 3 {
        return end_of_arc(rules, weight, u, allowed);
    }
    Next::By(approach(rules, weight, u, allowed))
}

/// Where `k · u` has risen to the sum of the constants.
fn end_of_arc(rules: [&RuleAt; 3], weight: [f64; 3], u: Turn, allowed: f64) -> Next {
    let (mut level, mut k) = (0.0, Vec2::default());
    for (rule, w) in rules.iter().zip(weight) {
        level += w * (rule.constant - allowed);
        k += rule.k * w;
    }
    let square = k.dot(k);
    let rest = square - level * level;
    if rest < 0.0 {
        return if level > 0.0 { Next::Never } else { Next::By(Turn::NONE) };
    }
    let end = (k * level - k.left() * rest.sqrt()) * (1.0 / square);
    match Turn::towards(end) {
        Some(end) => Next::By(end.then(u.inverse())),
        None => Next::By(Turn::NONE),
    }
}

/// The polynomial `a0 + a1 cos + b1 sin + a2 cos2 + b2 sin2` of the angle turned on by.
#[derive(Clone, Copy, Default)]
struct Wave {
    a0: f64,
    a1: f64,
    b1: f64,
    a2: f64,
    b2: f64,
}

impl Wave {
    /// Adds (w cos + v sin)(c + p cos + q sin).
    fn add_turning(&mut self, (w, v): (f64, f64), c: f64, (p, q): (f64, f64)) {
        self.a0 += (w * p + v * q) / 2.0;
        self.a1 += w * c;
        self.b1 += v * c;
        self.a2 += (w * p - v * q) / 2.0;
        self.b2 += (w * q + v * p) / 2.0;
    }

    /// Adds w (c + p cos + q sin).
    fn add_fixed(&mut self, w: f64, c: f64, (p, q): (f64, f64)) {
        self.a0 += w * c;
        self.a1 += w * p;
        self.b1 += w * q;
    }

    /// Value and slope at an angle given by its cosine and sine.
    fn at(&self, t: Turn) -> (f64, f64) {
        let (c2, s2) = (t.cos * t.cos - t.sin * t.sin, 2.0 * t.sin * t.cos);
        (
            self.a0 + self.a1 * t.cos + self.b1 * t.sin + self.a2 * c2 + self.b2 * s2,
            self.b1 * t.cos - self.a1 * t.sin + 2.0 * (self.b2 * c2 - self.a2 * s2),
        )
    }

    fn most_bend(&self) -> f64 {
        self.a1.hypot(self.b1) + 4.0 * self.a2.hypot(self.b2)
    }
}

fn approach(rules: [&RuleAt; 3], weight: [f64; 3], u: Turn, allowed: f64) -> Turn {
    let mut wave = Wave::default();
    let mut until: Option<Turn> = None;
    for i in 0..3 {
        let (one, two) = (rules[(i + 1) % 3], rules[(i + 2) % 3]);
        let rule = rules[i];
        let c = rule.constant - allowed;
        let swing = (-rule.k.dot(u.vec()), -rule.k.dot(u.left().vec()));
        if one.turns == two.turns {
            wave.add_fixed(weight[i], c, swing);
        } else {
            let slope = if one.turns {
                one.plane.normal.left().cross(two.plane.normal)
            } else {
                one.plane.normal.cross(two.plane.normal.left())
            };
            wave.add_turning((weight[i], slope), c, swing);
            // the weight is gone where cos * weight + sin * slope = 0
            let end = Turn::towards(Vec2::new(-slope, weight[i].max(0.0))).unwrap_or(Turn::NONE);
            if until.is_none_or(|t| end.cos > t.cos) {
                until = Some(end);
            }
        }
    }
    let bend = wave.most_bend().max(f64::MIN_POSITIVE);
    let mut by = Turn::NONE;
    for _ in 0..ROUNDS {
        let (value, slope) = wave.at(by);
        if value <= 0.0 {
            break;
        }
        let angle = (slope + (slope * slope + 2.0 * value * bend).sqrt()) / bend;
        by = by.then(by_half_tangent((angle / 2.0).min(STEP)));
        if let Some(end) = until
            && by.cos <= end.cos
        {
            return end;
        }
        if angle < 1e-13 || by.cos < -0.5 {
            break;
        }
    }
    by
}

/// A turn by twice the arc tangent of `t`, which is less than `2 t`.
fn by_half_tangent(t: f64) -> Turn {
    let d = 1.0 + t * t;
    Turn { cos: (1.0 - t * t) / d, sin: 2.0 * t / d }
}

#[cfg(test)]
mod tests {
    use super::super::prepared::{FitCloth, FitPiece};
    use super::super::rule::Rule;
    use super::*;
    use crate::slack::{HalfPlane, most_room};
    use crate::{Point, Region};

    fn ring(corners: u32, size: f64, start: f64) -> Vec<Point> {
        (0..corners)
            .map(|i| {
                let at = start + 360.0 * f64::from(i) / f64::from(corners);
                let reach = size * (1.0 + 0.2 * f64::from((i * 7) % 3));
                Point::ORIGIN + Turn::from_degrees(at).vec() * reach
            })
            .collect()
    }

    /// Slack at a turn under the hull's walls and some sides against some obstacles.
    fn room_at(rules: &[Rule], basis: [usize; 3], u: Turn) -> (Vec<RuleAt>, crate::slack::Room) {
        let now: Vec<RuleAt> = rules.iter().map(|r| r.at(u)).collect();
        let planes: Vec<HalfPlane> = now.iter().map(|r| r.plane).collect();
        let room = most_room(&planes, basis).expect("the walls surround");
        (now, room)
    }

    #[test]
    fn no_turn_that_is_jumped_over_has_room() {
        let (mut jumps, mut mixed) = (0, 0);
        for case in 0..60_u32 {
            let start = f64::from(case) * 11.0;
            let piece = FitPiece::new(&ring(3 + case % 3, 1.5, start), &[]).expect("has area");
            let outer = ring(4 + case % 4, 2.0, -start);
            let cloth = FitCloth::new(&Region { outer, holes: vec![] }).expect("has area");
            let bar = [Point::new(0.2, -0.1), Point::new(0.5, 0.0), Point::new(0.1, 0.4)];
            let body = &piece.hull.points[..];
            let mut rules: Vec<Rule> =
                cloth.hull.sides.iter().map(|&wall| Rule::Wall { wall, body }).collect();
            for side in piece.hull.sides.iter().take(case as usize % 3) {
                rules.push(Rule::Side { side: *side, obstacle: &bar });
            }
            for k in 0..40 {
                let u = Turn::from_degrees(9.0 * f64::from(k));
                let (now, room) = room_at(&rules, cloth.basis, u);
                if room.slack >= 0.0 {
                    continue;
                }
                let deciding = room.basis.map(|i| &now[i]);
                let turning = deciding.iter().filter(|r| r.turns).count();
                let by = match next_turn(deciding, u, 0.0) {
                    Next::By(by) => by,
                    Next::Never => Turn::HALF,
                };
                let whole = by.to_degrees().rem_euclid(360.0);
                for step in 0..20 {
                    let part = Turn::from_degrees(whole * f64::from(step) / 20.0);
                    let slack = room_at(&rules, cloth.basis, u.then(part)).1.slack;
                    assert!(slack < 1e-9, "case {case} turn {k}: slack {slack} on the way");
                }
                jumps += usize::from(whole > 0.0);
                mixed += usize::from(turning == 1 || turning == 2);
            }
        }
        assert!(jumps > 300 && mixed > 60, "{jumps} jumps, {mixed} of mixed rules");
    }
}
