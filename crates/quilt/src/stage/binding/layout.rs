//! Where a binding begins, in how many parts it is sewn on, and the best layout of its strips.

use super::course::Course;
use super::lay::{self, Laid, Rules, Run};
use super::{BindingChoice, Closing, TAIL_IN, supply};

/// Where the strip may begin, best first: the middle of the longest side and to both sides of it, as
/// far as the gap keeps clear of corners; where sides are bound apart, the first such corner.
pub(super) fn starts(choice: &BindingChoice, course: &Course) -> Vec<f64> {
    if let Some(&corner) = course.apart().first() {
        return vec![course.corner_in(corner)];
    }
    let (from, length) = course.longest();
    let middle = from + length / 2.0;
    let room = ((length - choice.closing_gap_in) / 2.0 - choice.join_clear_in).max(0.0);
    let step = (room / 20.0).max(0.25);
    let shifts = (1..=20).map(|k| f64::from(k) * step).take_while(|shift| *shift <= room);
    std::iter::once(middle).chain(shifts.flat_map(|shift| [middle - shift, middle + shift])).collect()
}

/// The parts that the strip is sewn on in: one ring, or from tip to tip.
pub(super) fn runs(course: &Course, start: f64, overlap_in: f64) -> Vec<Run> {
    let apart = course.apart();
    let net = course.net_in();
    if apart.is_empty() {
        return vec![Run { from_in: start, net_in: net, tail_in: overlap_in / 2.0 }];
    }
    let run = |k: usize| {
        let (from_in, to) = (course.corner_in(apart[k]), course.corner_in(apart[(k + 1) % apart.len()]));
        Run {
            from_in,
            net_in: if to > from_in { to - from_in } else { to - from_in + net },
            tail_in: TAIL_IN,
        }
    };
    (0..apart.len()).map(run).collect()
}

/// Fewest strips first, then most joins clear of corners, then nearest the middle of the side. Where
/// the strips don't reach with joins kept clear, they fall where they fall.
pub(super) fn best_layout(
    choice: &BindingChoice,
    course: &Course,
    starts: &[f64],
    overlap_in: f64,
    stock: &supply::Stock,
) -> Option<(f64, Laid)> {
    let ring = course.apart().is_empty();
    let from_end_in = if ring { choice.closing_gap_in / 2.0 } else { choice.join_clear_in };
    [true, false].into_iter().find_map(|keeps_clear| {
        let rules =
            Rules { loss_in: stock.join_loss_in, clear_in: choice.join_clear_in, from_end_in, keeps_clear };
        let layouts = starts.iter().filter_map(|&start| {
            let laid = lay::lay(course, &runs(course, start, overlap_in), &rules, &stock.lengths_in)?;
            Some((start, laid))
        });
        layouts.min_by_key(|(_, laid)| (laid.cut_in.len(), laid.unclear()))
    })
}

pub(super) fn closing(choice: &BindingChoice, course: &Course, middle: f64, overlap_in: f64) -> Closing {
    let (_, longest) = course.longest();
    let gap_in = choice.closing_gap_in.min(longest);
    Closing {
        from: course.spot(middle + gap_in / 2.0),
        to: course.spot(middle - gap_in / 2.0),
        middle: course.spot(middle),
        gap_in,
        overlap_in,
        is_short: gap_in < choice.closing_gap_in,
    }
}
