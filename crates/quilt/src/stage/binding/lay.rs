//! Where the joins of a strip fall: strips laid one after the other, each cut shorter where its join
//! would come too near a corner.
//!
//! Positions run along the whole strip, tails included. A strip cut `c` long joins the next with
//! `loss` of both lying over each other; the middle of that is the join. Each join is put as far on
//! as its strip reaches and the corners allow, which takes the fewest strips there can be.

use super::course::{Course, Spot};
use crate::length::LengthUnit;
use serde::Serialize;

/// A join of two strips.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct JoinAt {
    /// Where on the edge.
    #[serde(flatten)]
    pub spot: Spot,
    /// How far it is from the nearest corner that is folded, turned or clipped; none on an edge that
    /// is all one curve.
    pub from_corner_in: Option<f64>,
    /// Whether that is as far as wished.
    pub is_clear: bool,
}

impl JoinAt {
    /// Where it falls, in words.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        let near = if self.is_clear { "" } else { ", nearer a corner than wished" };
        format!(
            "A join on side {}, {} from its start{near}.",
            self.spot.side,
            unit.length(self.spot.along_in, 8)
        )
    }
}

/// A part of the strip that is sewn on in one go, with a tail at each end.
pub(super) struct Run {
    /// Where on the course it begins.
    pub(super) from_in: f64,
    /// How much of the course it binds.
    pub(super) net_in: f64,
    /// What sticks out at either end.
    pub(super) tail_in: f64,
}

/// What a layout keeps to.
pub(super) struct Rules {
    /// What a join takes.
    pub(super) loss_in: f64,
    /// How far a join stays from a corner.
    pub(super) clear_in: f64,
    /// How far it stays from either end of a run.
    pub(super) from_end_in: f64,
    /// Whether it does; otherwise joins fall as far on as the strips reach.
    pub(super) keeps_clear: bool,
}

/// Strips as they are cut, and their joins.
pub(super) struct Laid {
    pub(super) cut_in: Vec<f64>,
    pub(super) joins: Vec<JoinAt>,
    /// What is left of the last strip.
    pub(super) spare_in: f64,
}

impl Laid {
    /// How many joins are nearer a corner than wished.
    pub(super) fn unclear(&self) -> usize {
        self.joins.iter().filter(|join| !join.is_clear).count()
    }
}

/// Length of all runs with their tails.
pub(super) fn needed_in(runs: &[Run]) -> f64 {
    runs.iter().map(|run| run.net_in + 2.0 * run.tail_in).sum()
}

/// Lays strips of these lengths; `None` when they run out.
pub(super) fn lay(course: &Course, runs: &[Run], rules: &Rules, lengths: &[f64]) -> Option<Laid> {
    let line = Line::new(course, runs, rules);
    let half = rules.loss_in / 2.0;
    let end = line.total_in - half;
    let (mut at, mut laid) = (half, Laid { cut_in: Vec::new(), joins: Vec::new(), spare_in: 0.0 });
    for &length in lengths {
        let reach = at + length - rules.loss_in;
        if reach >= end - 1e-9 {
            laid.cut_in.push(end - at + rules.loss_in);
            laid.spare_in = (reach - end).max(0.0);
            return Some(laid);
        }
        let least = at + 1.0;
        let join = line.latest_clear(least, reach).unwrap_or_else(|| line.best_of(least.min(reach), reach));
        laid.cut_in.push(join - at + rules.loss_in);
        laid.joins.push(line.join(join, rules.clear_in));
        at = join;
    }
    None
}

/// The strip laid out straight: where its corners and its forbidden stretches lie.
struct Line<'a> {
    course: &'a Course,
    /// Start on the line, start on the course, length.
    runs: Vec<[f64; 3]>,
    corners: Vec<f64>,
    closed: Vec<[f64; 2]>,
    total_in: f64,
}

impl<'a> Line<'a> {
    fn new(course: &'a Course, runs: &[Run], rules: &Rules) -> Self {
        let (mut at, mut placed, mut closed, mut corners) = (0.0, Vec::new(), Vec::new(), Vec::new());
        for run in runs {
            let start = at + run.tail_in;
            closed.push([at - 1.0, start + rules.from_end_in]);
            let end = start + run.net_in;
            at = end + run.tail_in;
            closed.push([end - rules.from_end_in, at + 1.0]);
            for corner in course.hard() {
                let along = (course.corner_in(corner) - run.from_in).rem_euclid(course.net_in());
                // A run all round one tip ends at the corner where it began.
                let passes =
                    [along, along + course.net_in()].into_iter().filter(|at| *at <= run.net_in + 1e-9);
                corners.extend(passes.map(|at| start + at));
            }
            placed.push([start, run.from_in, run.net_in]);
        }
        corners.sort_by(f64::total_cmp);
        closed.extend(corners.iter().map(|&at| [at - rules.clear_in, at + rules.clear_in]));
        if !rules.keeps_clear {
            closed.clear();
        }
        Self { course, runs: placed, corners, closed, total_in: at }
    }

    /// The last place up to `most` that is in no forbidden stretch.
    fn latest_clear(&self, least: f64, most: f64) -> Option<f64> {
        let mut at = most;
        while let Some([from, _]) = self.closed.iter().find(|[from, to]| *from + 1e-9 < at && at < *to - 1e-9)
        {
            at = *from;
        }
        (at >= least).then_some(at)
    }

    /// Where no place is clear: the one farthest from any corner.
    fn best_of(&self, least: f64, most: f64) -> f64 {
        let middles = self.corners.windows(2).map(|pair| pair[0].midpoint(pair[1]));
        let inside = middles.filter(|at| (least..=most).contains(at));
        inside.fold(
            most,
            |best, at| if self.corner_distance(at) > self.corner_distance(best) { at } else { best },
        )
    }

    fn corner_distance(&self, at: f64) -> Option<f64> {
        self.corners.iter().map(|corner| (corner - at).abs()).reduce(f64::min)
    }

    fn join(&self, at: f64, clear_in: f64) -> JoinAt {
        let run = self.runs.iter().rev().find(|run| run[0] <= at).or(self.runs.first());
        let on_course = run.map_or(0.0, |[start, from, net]| from + (at - start).clamp(0.0, *net));
        let from_corner_in = self.corner_distance(at);
        let is_clear = from_corner_in.is_none_or(|from| from >= clear_in - 1e-6);
        JoinAt { spot: self.course.spot(on_course), from_corner_in, is_clear }
    }
}
