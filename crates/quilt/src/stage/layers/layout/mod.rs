//! Strips of cloth side by side until they are wide enough: which, in what order, how wide each is cut.
//!
//! Strips `u1 … un` sewn with `s` show `Σ u − 2 s (n − 1)`; butted, `s` is 0. The declared choices,
//! all of which are tried:
//! * up to [`MOST_STRIPS`] strips, none of which could be left out; where joins must be kept off, also
//!   one strip more than that;
//! * every order; only the two at the ends are cut narrower, the ones between keep their width;
//! * or one strip is cut in two lengthwise, a part for each end, the others between.
//!
//! The best is what costs least; of those what keeps its joins away from where they must not be, has
//! the fewest joins, takes the least cloth, and lies farthest from those places; then the first in the
//! order of the offers. How wide the two ends are cut is a number and not a choice from a list: with
//! it all joins move together, and their distance from the nearest such place is greatest at a bound or
//! half-way between two of its zeros. Those are tried, so that the farthest is found.
//!
//! All of this is tried for up to [`MOST_OFFERS`] offers and [`MOST_ROWS`] rows, the cheapest choices
//! with the fewest strips first. Of more offers the widest are weighed and, of the others, those that
//! cost least for what they cover. Where a search was cut like that, [`Laid::all_tried`] says so.

mod bound;
mod order;
mod row;

use std::cmp::Ordering;

/// So many strips at most.
pub(super) const MOST_STRIPS: u32 = 6;

/// So many offers are weighed against each other.
pub(super) const MOST_OFFERS: usize = 12;

/// About so many rows are laid; those of one choice of strips are never cut.
const MOST_ROWS: usize = 60_000;

/// So much of a strip shows at least, in inches, where its ends' width is free.
const SHOWS_IN: f64 = 1.0;

/// Lengths this near each other are the same, in inches.
const TIE_IN: f64 = 1e-9;

/// Strips of one width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Offer {
    /// How wide.
    pub(super) width_in: f64,
    /// How many at most.
    pub(super) most: u32,
}

/// What is asked.
#[derive(Clone, Copy, Debug)]
pub(super) struct LayoutAsk<'a> {
    /// Width to cover, cut.
    pub(super) need_in: f64,
    /// Allowance of each side of a seam; 0 where strips are butted.
    pub(super) seam_in: f64,
    /// What there is.
    pub(super) offers: &'a [Offer],
    /// Places that no join should be near, from the left.
    pub(super) keep_off: &'a [f64],
    /// How near is near.
    pub(super) apart_in: f64,
    /// Whether a layout whose joins can't be kept off is refused.
    pub(super) must: bool,
}

/// One strip of a layout.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Strip {
    /// Which offer it is of.
    pub(super) offer: usize,
    /// How wide it is cut.
    pub(super) cut_in: f64,
    /// Whether it is one of the two parts of a strip cut in two.
    pub(super) part: bool,
}

/// Strips in order from the left.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Laid {
    /// The strips.
    pub(super) strips: Vec<Strip>,
    /// How many of each offer are taken.
    pub(super) counts: Vec<u32>,
    /// Where they join, from the left.
    pub(super) joins_at_in: Vec<f64>,
    /// What it costs.
    pub(super) cost: f64,
    /// The least distance of a join from a place that it should be off; `None` without either.
    pub(super) clear_in: Option<f64>,
    /// Whether every join is far enough off.
    pub(super) is_clear: bool,
    /// Whether all choices were tried; else a better one may have been passed over.
    pub(super) all_tried: bool,
    /// Width taken of the offers.
    taken_in: f64,
}

impl Laid {
    /// The better comes first.
    pub(super) fn rank(&self, other: &Self) -> Ordering {
        let near = |a: f64, b: f64| if (a - b).abs() < TIE_IN { Ordering::Equal } else { a.total_cmp(&b) };
        let far = |laid: &Self| laid.clear_in.unwrap_or(f64::MAX);
        near(self.cost, other.cost)
            .then(other.is_clear.cmp(&self.is_clear))
            .then(self.joins_at_in.len().cmp(&other.joins_at_in.len()))
            .then(near(self.taken_in, other.taken_in))
            .then(near(far(other), far(self)))
    }
}

/// The best layout, with what a choice of so many of each offer costs; `None` when there is none.
pub(super) fn best(ask: &LayoutAsk<'_>, cost: &dyn Fn(&[u32]) -> f64) -> Option<Laid> {
    bound::worth_trying(ask, cost).map_or_else(
        || best_of_all(ask, cost),
        |kept| {
            let offers: Vec<Offer> = kept.iter().map(|&i| ask.offers[i]).collect();
            let spread = |counts: &[u32]| bound::spread(&kept, counts, ask.offers.len());
            let few = LayoutAsk { offers: &offers, ..*ask };
            let mut laid = best_of_all(&few, &|counts| cost(&spread(counts)))?;
            laid.counts = spread(&laid.counts);
            laid.strips.iter_mut().for_each(|strip| strip.offer = kept[strip.offer]);
            laid.all_tried = false;
            Some(laid)
        },
    )
}

fn best_of_all(ask: &LayoutAsk<'_>, cost: &dyn Fn(&[u32]) -> f64) -> Option<Laid> {
    let mut choices: Vec<(f64, Vec<u32>)> =
        covers(ask).into_iter().map(|counts| (cost(&counts), counts)).collect();
    choices.sort_by(|a, b| a.0.total_cmp(&b.0).then(strips(&a.1).cmp(&strips(&b.1))));
    let mut best: Option<Laid> = None;
    let mut rows = 0;
    for (cost, counts) in choices {
        if best.as_ref().is_some_and(|best| cost > best.cost + TIE_IN) {
            break;
        }
        if rows > MOST_ROWS {
            best.iter_mut().for_each(|best| best.all_tried = false);
            break;
        }
        let laid = row::arranged(ask, &counts, cost);
        rows += laid.len();
        for laid in laid.into_iter().filter(|laid| laid.is_clear || !ask.must) {
            if best.as_ref().is_none_or(|best| laid.rank(best) == Ordering::Less) {
                best = Some(laid);
            }
        }
    }
    best
}

/// How many strips of the widest offer the width would take, whatever the most.
pub(super) fn least_strips(ask: &LayoutAsk<'_>) -> Option<(f64, u32)> {
    let widest = ask.offers.iter().map(|offer| offer.width_in).fold(0.0, f64::max);
    let gain = widest - 2.0 * ask.seam_in;
    (gain > 0.0).then(|| (widest, ((ask.need_in - 2.0 * ask.seam_in) / gain - TIE_IN).ceil().max(1.0) as u32))
}

/// What the widest strips cover that may lie side by side.
pub(super) fn reach(ask: &LayoutAsk<'_>) -> f64 {
    let twice = 2.0 * ask.seam_in;
    let mut widths: Vec<f64> = ask
        .offers
        .iter()
        .flat_map(|offer| std::iter::repeat_n(offer.width_in, offer.most.min(MOST_STRIPS) as usize))
        .filter(|width| *width > twice)
        .collect();
    widths.sort_by(|a, b| b.total_cmp(a));
    let shown: f64 = widths.iter().take(MOST_STRIPS as usize).map(|width| width - twice).sum();
    if widths.is_empty() { 0.0 } else { shown + twice }
}

/// Every choice of strips that is wide enough and from which none can be left out; with one more
/// strip too where joins must be kept off.
fn covers(ask: &LayoutAsk<'_>) -> Vec<Vec<u32>> {
    let mut found = Vec::new();
    choose(ask, 0, &mut vec![0; ask.offers.len()], &mut found);
    if ask.must {
        let one_more: Vec<Vec<u32>> = found.iter().flat_map(|counts| with_one_more(ask, counts)).collect();
        found.extend(one_more);
        found.sort_unstable_by(|a, b| b.cmp(a));
        found.dedup();
    }
    found
}

fn with_one_more(ask: &LayoutAsk<'_>, counts: &[u32]) -> Vec<Vec<u32>> {
    let more = |i: usize| {
        let mut more = counts.to_vec();
        more[i] += 1;
        more
    };
    let room = strips(counts) < MOST_STRIPS;
    let offers = ask.offers.iter().zip(counts).enumerate();
    offers
        .filter(|(_, (offer, n))| room && **n < offer.most && offer.width_in > 2.0 * ask.seam_in)
        .map(|(i, _)| more(i))
        .collect()
}

fn choose(ask: &LayoutAsk<'_>, from: usize, counts: &mut Vec<u32>, found: &mut Vec<Vec<u32>>) {
    if is_enough(ask, width(ask, counts)) {
        let least = ask.offers.iter().zip(&*counts).filter(|(_, n)| **n > 0).map(|(offer, _)| offer.width_in);
        let without = width(ask, counts) - least.fold(f64::INFINITY, f64::min) + 2.0 * ask.seam_in;
        if strips(counts) == 1 || !is_enough(ask, without) {
            found.push(counts.clone());
        }
        return;
    }
    if strips(counts) == MOST_STRIPS {
        return;
    }
    for next in from..ask.offers.len() {
        if counts[next] < ask.offers[next].most && ask.offers[next].width_in > 2.0 * ask.seam_in {
            counts[next] += 1;
            choose(ask, next, counts, found);
            counts[next] -= 1;
        }
    }
}

fn is_enough(ask: &LayoutAsk<'_>, width_in: f64) -> bool {
    width_in >= ask.need_in - TIE_IN
}

fn strips(counts: &[u32]) -> u32 {
    counts.iter().sum()
}

/// What so many of each offer show side by side, raw at both ends.
fn width(ask: &LayoutAsk<'_>, counts: &[u32]) -> f64 {
    let all: f64 = ask.offers.iter().zip(counts).map(|(offer, n)| offer.width_in * f64::from(*n)).sum();
    all - 2.0 * ask.seam_in * (f64::from(strips(counts)) - 1.0).max(0.0)
}

#[cfg(test)]
mod tests;
