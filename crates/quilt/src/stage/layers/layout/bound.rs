//! Of more offers than can be weighed against each other, those worth trying.

use super::{LayoutAsk, MOST_OFFERS, MOST_STRIPS, TIE_IN};

/// The offers worth trying, by their places; `None` where all of them are. As many of the widest as a
/// layout may have strips, so that what can be covered at all still can; then those that cost least for
/// each inch they cover.
pub(super) fn worth_trying(ask: &LayoutAsk<'_>, cost: &dyn Fn(&[u32]) -> f64) -> Option<Vec<usize>> {
    let twice = 2.0 * ask.seam_in;
    let useful = |i: &usize| ask.offers[*i].most > 0 && ask.offers[*i].width_in > twice + TIE_IN;
    let mut open: Vec<usize> = (0..ask.offers.len()).filter(useful).collect();
    if open.len() <= MOST_OFFERS {
        return None;
    }
    open.sort_by(|a, b| ask.offers[*b].width_in.total_cmp(&ask.offers[*a].width_in).then(a.cmp(b)));
    let mut kept: Vec<usize> = open.drain(..MOST_STRIPS as usize).collect();
    // What an inch costs when the offer alone covers it all, or as much as it can.
    let each = |i: &usize| {
        let covers = ask.offers[*i].width_in - twice;
        let strips = ((ask.need_in - twice) / covers - TIE_IN).ceil().max(1.0) as u32;
        let strips = strips.min(ask.offers[*i].most);
        cost(&spread(&[*i], &[strips], ask.offers.len())) / (f64::from(strips) * covers).min(ask.need_in)
    };
    let mut by_cost: Vec<(f64, usize)> = open.into_iter().map(|i| (each(&i), i)).collect();
    by_cost.sort_by(|a, b| a.0.total_cmp(&b.0));
    kept.extend(by_cost.into_iter().map(|(_, i)| i).take(MOST_OFFERS - MOST_STRIPS as usize));
    kept.sort_unstable();
    Some(kept)
}

/// Counts of some offers as counts of all `len` of them.
pub(super) fn spread(kept: &[usize], counts: &[u32], len: usize) -> Vec<u32> {
    let mut all = vec![0; len];
    kept.iter().zip(counts).for_each(|(i, count)| all[*i] = *count);
    all
}
