//! A ring as steps of the log: slices are laid and joined, then sewn on like a border's strips.

use super::super::border::steps::{Made, Ready, Seam, round};
use super::super::piece::Piece;
use super::super::strips::{Order, Strip};
use super::pattern::{Run, Set};
use super::{RingPlan, bounds};
use crate::cloth::ClothId;
use crate::log::{Along, Keep, Mark, Name, Step};
use plane::{Point, Pose, Turn};

pub(super) fn steps(plan: &RingPlan, piece: &Piece, set: &Set, cloth: ClothId, first: Mark) -> Vec<Step> {
    let mut made = Made::new(first);
    let ready = &mut |made: &mut Made, i: usize| {
        let strip = &plan.strips[i];
        strip_of(made, set, strip, &plan.sides[strip.side].runs, cloth)
    };
    round(
        &mut made,
        &plan.strips,
        plan.order == Order::Mitred,
        plan.allowance_in,
        piece,
        plan.allowance_in,
        ready,
    );
    made.steps
}

/// Lays the runs of a side and joins them into one strip. Stripes run from the start of the side to
/// its end, and x the other way: the last run is laid first.
fn strip_of(made: &mut Made, set: &Set, strip: &Strip, runs: &[Run], cloth: ClothId) -> Ready {
    let [from, to] = bounds(strip, set.lean);
    let long = set.joined_in(runs);
    let begins = from - (long - (to - from)) / 2.0;
    let first = made.next();
    let (mut at, mut before) = (begins, first);
    for (i, run) in runs.iter().rev().enumerate() {
        let laid = made.add(slice(set, *run, at, cloth));
        if i > 0 {
            let (onto, with) = (Name::new(before, 1), Name::new(laid, 3));
            made.join(Seam { onto, with, slide_in: 0.0, stop: None, allowance_in: set.allowance_in });
        }
        before = laid;
        at += set.run_shows_in(*run);
    }
    let (mut end, mut ends_at) = (Name::new(before, 1), begins + long - set.allowance_in * set.lean);
    let [low, high] = at_seam_line(strip, set.allowance_in);
    if strip.open_in.is_some() && ends_at - high > plane::READING {
        // The end that reaches over the last strip is no neighbour's to trim.
        end = Name::new(made.add(trim_end(strip, first, begins)), 0);
        ends_at = high;
    }
    let own = f64::midpoint(begins - set.allowance_in * set.lean, ends_at);
    Ready { bit: first, end, slide_in: strip.slide_in + f64::midpoint(low, high) - own }
}

/// Where a strip's shape begins and ends along its seam line.
fn at_seam_line(strip: &Strip, allowance_in: f64) -> [f64; 2] {
    let deep = allowance_in / strip.cut_wide_in;
    [strip.cut[0].lerp(strip.cut[3], deep).x, strip.cut[1].lerp(strip.cut[2], deep).x]
}

/// Trims the end of a joined strip to the strip's own shape.
fn trim_end(strip: &Strip, first: Mark, begins: f64) -> Step {
    let along = Turn::towards(strip.cut[2] - strip.cut[1]).unwrap_or(Turn::QUARTER);
    let along = Along::From { side: Name::new(first, 0), at_in: strip.cut[1].x - begins, turn: along };
    Step::Cut { top: first, along, keep: Keep::Left }
}

/// A run of a slice as a patch in the strip's coordinates, beginning at `at` on the sewn raw edge.
fn slice(set: &Set, run: Run, at: f64, cloth: ClothId) -> Step {
    let s = set.allowance_in;
    let (low, high) = (set.seams[run.from] - s, set.seams[run.to + 1] + s);
    let long = (high - low) / set.cosine;
    let (wide, back) = (set.slice_in, set.slice_in * set.lean);
    let corners = [(at, 0.0), (at + long, 0.0), (at + long - back, wide), (at - back, wide)];
    // Along the strip is down the slice, so that its first stripe lies at the start of the side.
    let turn = Turn { cos: -set.cosine * set.lean, sin: -set.cosine };
    let from = Point::new(set.slice_from(run.slice) + high * set.lean, high);
    let pose = Pose::carrying(turn, Point::new(at, 0.0), from);
    Step::Lay { cloth, at: pose, cut: corners.map(|(x, y)| Point::new(x, y)).to_vec() }
}
