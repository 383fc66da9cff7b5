//! Layouts against the trade's figures, and against a slow second method.

use super::*;

fn ask<'a>(need_in: f64, offers: &'a [Offer], keep_off: &'a [f64]) -> LayoutAsk<'a> {
    LayoutAsk { need_in, seam_in: 0.5, offers, keep_off, apart_in: 6.0, must: false }
}

fn bolt(width_in: f64) -> Offer {
    Offer { width_in, most: MOST_STRIPS }
}

/// One a strip.
fn each(counts: &[u32]) -> f64 {
    f64::from(strips(counts))
}

// T23 (olfa.com's rule, geometry). The trap: two strips of 42 are said to cover 84.
#[test]
fn each_seam_takes_two_allowances() {
    let offers = [bolt(42.0)];
    for (need, seam, strips) in [
        (42.0, 0.5, 1),
        (42.1, 0.5, 2),
        (83.0, 0.5, 2),
        (83.1, 0.5, 3),
        (84.0, 0.5, 3),
        (124.0, 0.5, 3),
        (124.1, 0.5, 4),
        (83.5, 0.25, 2),
        (84.0, 0.25, 3),
        (125.0, 0.25, 3),
        (125.1, 0.25, 4),
    ] {
        let ask = LayoutAsk { seam_in: seam, ..ask(need, &offers, &[]) };
        assert_eq!(best(&ask, &each).unwrap().counts, [strips], "{need} {seam}");
        assert_eq!(least_strips(&ask), Some((42.0, strips)));
    }
}

#[test]
fn what_is_sewn_is_as_wide_as_asked() {
    let offers = [bolt(42.0), Offer { width_in: 17.25, most: 2 }, Offer { width_in: 31.0, most: 1 }];
    for tenth in 100..2000_u32 {
        let need = f64::from(tenth) / 10.0;
        let laid = best(&ask(need, &offers, &[need / 2.0]), &each).unwrap();
        let cut: f64 = laid.strips.iter().map(|strip| strip.cut_in).sum();
        assert!((cut - laid.joins_at_in.len() as f64 - need).abs() < 1e-9, "{need}: {laid:?}");
        assert!(laid.strips.iter().all(|strip| strip.cut_in <= offers[strip.offer].width_in + 1e-9));
        assert_eq!(laid.clear_in.is_none(), laid.joins_at_in.is_empty());
    }
}

// Bellaonline.com: one full width in the middle, half widths each side.
#[test]
fn a_seam_in_the_middle_is_moved_by_splitting_one_strip() {
    let laid = best(&ask(76.0, &[bolt(42.0)], &[38.0]), &each).unwrap();
    let cut: Vec<f64> = laid.strips.iter().map(|strip| strip.cut_in).collect();
    assert_eq!(cut, [18.0, 42.0, 18.0]);
    assert_eq!((laid.counts.as_slice(), laid.clear_in), ([2].as_slice(), Some(20.5)));
    // 83 takes all of two strips: no room for a third seam, and one strip more costs more.
    let full = best(&ask(83.0, &[bolt(42.0)], &[41.5]), &each).unwrap();
    assert_eq!((full.joins_at_in.as_slice(), full.is_clear), ([41.5].as_slice(), false));
    let offers = [bolt(42.0)];
    let must = LayoutAsk { must: true, ..ask(83.0, &offers, &[41.5]) };
    assert_eq!(best(&must, &each).unwrap().counts, [3]);
}

#[test]
fn nothing_is_found_where_nothing_is_wide_enough() {
    assert!(best(&ask(83.5, &[Offer { width_in: 42.0, most: 2 }], &[]), &each).is_none());
    assert!(best(&ask(10.0, &[], &[]), &each).is_none());
    assert!(best(&ask(10.0, &[bolt(1.0)], &[]), &each).is_none(), "the seams use it up");
    let offers = [bolt(42.0)];
    let far = ask(42.0 * 6.0, &offers, &[]);
    assert_eq!((best(&far, &each), least_strips(&far)), (None, Some((42.0, 7))));
}

/// The slow second method: every order of three strips that are all needed, the first cut to every
/// 1/64.
#[test]
fn no_place_of_the_cuts_is_farther_off() {
    let offers = [10.0, 9.0, 7.5].map(|width_in| Offer { width_in, most: 1 });
    for places in [[7.0, 13.0], [2.0, 9.0], [5.0, 5.5], [0.0, 20.0]] {
        let ask = LayoutAsk { apart_in: 0.01, ..ask(20.0, &offers, &places) };
        let found = best(&ask, &each).unwrap();
        assert_eq!(found.joins_at_in.len(), 2);
        let mut farthest = 0.0_f64;
        for order in order::orders(vec![0, 1, 2]) {
            for cut in 0..=640 {
                let first = f64::from(cut) / 64.0;
                let ends = 22.0 - offers[order[1]].width_in;
                let widths = [first, offers[order[1]].width_in, ends - first];
                let strips =
                    order.iter().zip(widths).map(|(&offer, cut_in)| Strip { offer, cut_in, part: false });
                if widths[0].min(widths[2]) >= 2.0
                    && let Some(laid) = row::laid(&ask, &found.counts, found.cost, strips.collect())
                {
                    farthest = farthest.max(laid.clear_in.unwrap());
                }
            }
        }
        let clear = found.clear_in.unwrap();
        assert!(clear >= farthest - 1e-9 && clear < farthest + 1.0 / 64.0, "{places:?}: {clear} {farthest}");
    }
}

/// The slow second method: every list of up to four strips in every order, cut along a grid of
/// quarter inches, with the cost and the clearance alone.
#[test]
fn no_layout_on_a_grid_is_better() {
    let offers = [bolt(12.0), Offer { width_in: 9.0, most: 1 }, Offer { width_in: 7.5, most: 2 }];
    let costs = [3.0, 0.0, 1.0];
    let cost = |counts: &[u32]| counts.iter().zip(costs).map(|(n, c)| f64::from(*n) * c).sum::<f64>();
    for quarter in 30..110_u32 {
        let need = f64::from(quarter) / 4.0;
        let off = [need / 2.0, need / 3.0];
        let ask = LayoutAsk { apart_in: 2.0, ..ask(need, &offers, &off) };
        let found = best(&ask, &cost);
        let slow = on_a_grid(&ask, &cost);
        let Some((least, clear)) = slow else {
            assert!(found.is_none_or(|laid| laid.strips.len() > 4), "{need}");
            continue;
        };
        let found = found.unwrap();
        assert!(found.cost <= least + 1e-9, "{need}: {found:?} {least}");
        if found.cost > least - 1e-9 && clear {
            assert!(found.is_clear, "{need}: {found:?}");
        }
    }
}

/// Least cost, and whether a layout of it is clear.
fn on_a_grid(ask: &LayoutAsk<'_>, cost: &dyn Fn(&[u32]) -> f64) -> Option<(f64, bool)> {
    let mut best: Option<(f64, bool)> = None;
    for list in lists(ask.offers.len(), 4) {
        let mut counts = vec![0; ask.offers.len()];
        list.iter().for_each(|&i| counts[i] += 1);
        let over = width(ask, &counts) - ask.need_in;
        if over < -1e-9 || counts.iter().zip(ask.offers).any(|(n, offer)| *n > offer.most) {
            continue;
        }
        for step in 0..=(over * 4.0) as u32 {
            let mut strips: Vec<Strip> = list
                .iter()
                .map(|&offer| Strip { offer, cut_in: ask.offers[offer].width_in, part: false })
                .collect();
            let last = strips.len() - 1;
            strips[0].cut_in -= f64::from(step) / 4.0;
            strips[last].cut_in -= over - f64::from(step) / 4.0;
            let Some(laid) = row::laid(ask, &counts, cost(&counts), strips) else { continue };
            let better = best.is_none_or(|(least, clear)| {
                laid.cost < least - 1e-9 || (laid.cost < least + 1e-9 && laid.is_clear && !clear)
            });
            if better {
                best = Some((laid.cost, laid.is_clear));
            }
        }
    }
    best
}

fn lists(kinds: usize, most: usize) -> Vec<Vec<usize>> {
    let mut all: Vec<Vec<usize>> = vec![Vec::new()];
    let mut from = 0;
    for _ in 0..most {
        let until = all.len();
        for i in from..until {
            for kind in 0..kinds {
                let mut longer = all[i].clone();
                longer.push(kind);
                all.push(longer);
            }
        }
        from = until;
    }
    all.retain(|list| !list.is_empty());
    all
}

// A slow second method for what is cut: the cheapest bolt by itself, which is among the choices.
#[test]
fn of_two_hundred_bolts_the_cheapest_is_found_and_the_cut_is_told() {
    let offers: Vec<Offer> = (0..200).map(|i| bolt(20.0 + f64::from(i) * 0.37)).collect();
    let width = |i: usize| offers[i].width_in;
    // A narrow one that is nearly given away; of the others an inch costs the same.
    let price = |i: usize| if i == 3 { 0.01 } else { width(i) };
    let cost = |counts: &[u32]| counts.iter().enumerate().map(|(i, n)| f64::from(*n) * price(i)).sum::<f64>();
    let need = 100.0;
    let laid = best(&ask(need, &offers, &[need / 2.0]), &cost).unwrap();
    assert!(!laid.all_tried);
    assert_eq!((laid.counts.len(), laid.counts[3], strips(&laid.counts)), (200, 5, 5), "{laid:?}");
    assert!(laid.strips.iter().all(|strip| strip.offer == 3));
    // What only the widest cover is still covered.
    let wide = best(&ask(500.0, &offers, &[]), &cost).unwrap();
    assert_eq!(strips(&wide.counts), 6);
    let few = best(&ask(need, &offers[..MOST_OFFERS], &[need / 2.0]), &cost).unwrap();
    assert!(few.all_tried);
}

#[test]
fn a_search_among_many_equal_strips_ends_and_says_that_it_was_cut() {
    let offers: Vec<Offer> = (0..12).map(|i| Offer { width_in: 20.0 + f64::from(i), most: 1 }).collect();
    // Five or six of them are needed, and all are free: those with the fewest joins come first.
    let laid = best(&LayoutAsk { must: true, ..ask(135.0, &offers, &[67.5]) }, &|_| 0.0).unwrap();
    assert!(!laid.all_tried && laid.is_clear && laid.strips.len() == 5, "{laid:?}");
}
