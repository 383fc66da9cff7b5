//! One choice of strips laid in a row: its orders, and how wide the two ends are cut.

use super::order::orders;
use super::{Laid, LayoutAsk, SHOWS_IN, Strip, TIE_IN};
use std::cmp::Ordering;

/// The ways to lay a choice of strips: for each order the best place of the cuts at the ends.
pub(super) fn arranged(ask: &LayoutAsk<'_>, counts: &[u32], cost: f64) -> Vec<Laid> {
    let taken: Vec<usize> =
        counts.iter().enumerate().flat_map(|(i, n)| std::iter::repeat_n(i, *n as usize)).collect();
    let mut laid: Vec<Laid> =
        orders(taken.clone()).iter().filter_map(|order| in_order(ask, counts, cost, order)).collect();
    for split in 0..taken.len() {
        if split > 0 && taken[split] == taken[split - 1] {
            continue;
        }
        let mut between = taken.clone();
        let cut = between.remove(split);
        if !between.is_empty() {
            laid.extend(
                orders(between).iter().filter_map(|between| split_at_ends(ask, counts, cost, cut, between)),
            );
        }
    }
    laid
}

fn in_order(ask: &LayoutAsk<'_>, counts: &[u32], cost: f64, order: &[usize]) -> Option<Laid> {
    let wide = |i: usize| ask.offers[order[i]].width_in;
    if order.len() == 1 {
        let strips = vec![Strip { offer: order[0], cut_in: ask.need_in, part: false }];
        return laid(ask, counts, cost, strips);
    }
    let last = order.len() - 1;
    let ends = ends_in(ask, &order[1..last], last);
    let least = 2.0 * ask.seam_in + SHOWS_IN;
    let [low, high] = [(ends - wide(last)).max(least), wide(0).min(ends - least)];
    // Where an end can't show an inch, it shows what is left.
    let [low, high] = if low <= high + TIE_IN {
        [low.min(high), high]
    } else {
        [(ends - wide(last)).max(0.0), wide(0).min(ends)]
    };
    let row = Row { order: &order[1..last], ends, halves: None };
    row.best(ask, counts, cost, [order[0], order[last]], [high, low])
}

fn split_at_ends(
    ask: &LayoutAsk<'_>,
    counts: &[u32],
    cost: f64,
    cut: usize,
    between: &[usize],
) -> Option<Laid> {
    let ends = ends_in(ask, between, between.len() + 1);
    let least = 2.0 * ask.seam_in + SHOWS_IN;
    if ends > ask.offers[cut].width_in + TIE_IN || ends < 2.0 * least {
        return None;
    }
    let row = Row { order: between, ends, halves: Some(cut) };
    row.best(ask, counts, cost, [cut, cut], [ends - least, least])
}

/// What is left for the two ends together, cut.
fn ends_in(ask: &LayoutAsk<'_>, between: &[usize], joins: usize) -> f64 {
    let between: f64 = between.iter().map(|&i| ask.offers[i].width_in).sum();
    ask.need_in + 2.0 * ask.seam_in * joins as f64 - between
}

/// Strips between two ends that share a width.
struct Row<'a> {
    order: &'a [usize],
    ends: f64,
    halves: Option<usize>,
}

impl Row<'_> {
    /// The best width of the first end between two bounds; the first bound where it makes no
    /// difference.
    fn best(
        &self,
        ask: &LayoutAsk<'_>,
        counts: &[u32],
        cost: f64,
        ends: [usize; 2],
        bounds: [f64; 2],
    ) -> Option<Laid> {
        let joins = joins_at(ask, &self.strips(ask, ends, 0.0));
        let mut zeros: Vec<f64> =
            joins.iter().flat_map(|join| ask.keep_off.iter().map(move |at| at - join)).collect();
        zeros.sort_by(f64::total_cmp);
        let within = bounds[0].min(bounds[1])..=bounds[0].max(bounds[1]);
        let between = zeros.windows(2).map(|pair| f64::midpoint(pair[0], pair[1]));
        let widths = bounds.into_iter().chain(between.filter(|first| within.contains(first)));
        let tried = widths.filter_map(|first| laid(ask, counts, cost, self.strips(ask, ends, first)));
        tried.reduce(|best, next| if next.rank(&best) == Ordering::Less { next } else { best })
    }

    fn strips(&self, ask: &LayoutAsk<'_>, [left, right]: [usize; 2], first: f64) -> Vec<Strip> {
        let part = self.halves.is_some();
        let mut strips = vec![Strip { offer: left, cut_in: first, part }];
        strips.extend(self.order.iter().map(|&offer| Strip {
            offer,
            cut_in: ask.offers[offer].width_in,
            part: false,
        }));
        strips.push(Strip { offer: right, cut_in: self.ends - first, part });
        strips
    }
}

pub(super) fn laid(ask: &LayoutAsk<'_>, counts: &[u32], cost: f64, strips: Vec<Strip>) -> Option<Laid> {
    let fits = |strip: &Strip| {
        strip.cut_in > 2.0 * ask.seam_in - TIE_IN && strip.cut_in <= ask.offers[strip.offer].width_in + TIE_IN
    };
    if !strips.iter().all(fits) {
        return None;
    }
    let joins_at_in = joins_at(ask, &strips);
    let distances = joins_at_in.iter().flat_map(|join| ask.keep_off.iter().map(move |at| (join - at).abs()));
    let clear_in = distances.reduce(f64::min);
    let taken_in = ask.offers.iter().zip(counts).map(|(offer, n)| offer.width_in * f64::from(*n)).sum();
    Some(Laid {
        strips,
        counts: counts.to_vec(),
        joins_at_in,
        cost,
        clear_in,
        is_clear: clear_in.is_none_or(|clear| clear >= ask.apart_in - TIE_IN),
        all_tried: true,
        taken_in,
    })
}

/// Where strips join, from the left raw edge.
fn joins_at(ask: &LayoutAsk<'_>, strips: &[Strip]) -> Vec<f64> {
    let mut at = ask.seam_in;
    strips[..strips.len().saturating_sub(1)]
        .iter()
        .map(|strip| {
            at += strip.cut_in - 2.0 * ask.seam_in;
            at
        })
        .collect()
}
