//! Which cards agree on one flat table.
//!
//! Every three cards (two, where there are no more) propose a map; the one that most cards agree
//! with, and among those the closest, is taken, and improved with all that agree until their number
//! doesn't change. The order is fixed, so the answer is always the same.

use super::adjust::{self, Layout, adjust, off};
use super::lens::{Frame, Lens};
use super::start;
use plane::Point;
use std::cmp::Reverse;

/// Cards that agree, and their layout (in the same order).
pub(super) struct Agreed {
    pub(super) members: Vec<usize>,
    pub(super) layout: Layout,
}

/// Proposals tried, at most.
const MOST: usize = 150;

/// How far a card's corners may lie off in the picture, in pixels: corners are found to parts of
/// a pixel, but a lens bends in more ways than one, and paper never lies quite flat.
pub(super) fn allowance(card: &[Point; 4], frame: &Frame) -> f64 {
    let side = card[0].distance(card[2]) / 2.0_f64.sqrt();
    0.8 + 0.006 * side + 0.0002 * frame.half
}

/// A layout of some cards alone.
fn fit(cards: &[[Point; 4]], members: &[usize], frame: &Frame, side: f64, rounds: usize) -> Option<Layout> {
    let own: Vec<&[Point; 4]> = members.iter().map(|i| &cards[*i]).collect();
    // The bend can be large enough to spoil a start without it.
    let starts = [0.0, -0.08, 0.08].into_iter().map(Lens::of_bend).filter_map(|lens| {
        let straight: Vec<[Point; 4]> = own.iter().map(|c| c.map(|p| frame.straight(p, lens))).collect();
        let up = start::first(&straight.iter().collect::<Vec<_>>(), side)?;
        let layout = Layout::from_map(&up, lens, &own, frame, side)?;
        adjust(layout, &own, frame, side, rounds)
    });
    let cost = |l: &Layout| adjust::cost(l, &own, frame, side);
    starts
        .map(|l| (cost(&l), l))
        .filter(|(c, l)| c.is_finite() && l.is_believed())
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, l)| l)
}

/// How far the worst corner lies off when all cards are made to lie on one table, in pixels.
pub(super) fn worst_of_all(cards: &[[Point; 4]], frame: &Frame, side: f64) -> Option<f64> {
    let all: Vec<usize> = (0..cards.len()).collect();
    let layout = fit(cards, &all, frame, side, 12)?;
    let offs = cards.iter().map(|card| distance(&layout, card, frame, side));
    offs.collect::<Option<Vec<_>>>().map(|offs| offs.into_iter().fold(0.0, f64::max))
}

/// A card's corners on the table of a layout.
fn on_table(layout: &Layout, card: &[Point; 4], frame: &Frame) -> Option<[Point; 4]> {
    let up = layout.down.inverse()?;
    let mut corners = [Point::ORIGIN; 4];
    for (to, px) in corners.iter_mut().zip(card) {
        *to = up.apply(frame.straight(*px, layout.lens))?;
    }
    Some(corners)
}

/// The largest distance of a card's corners from a square's under a layout, in pixels.
pub(super) fn distance(layout: &Layout, card: &[Point; 4], frame: &Frame, side: f64) -> Option<f64> {
    let place = adjust::place(&on_table(layout, card, frame)?, side);
    let offs = off(layout, place, card, frame, side)?;
    Some(offs.iter().map(|v| v.length()).fold(0.0, f64::max))
}

/// How well a layout fits all cards: those it fits, how many are squares of any side at all, and
/// the sum of the members' distances as shares of what is allowed.
struct Score {
    members: Vec<usize>,
    squares: usize,
    sum: f64,
}

/// The mean side of a card on the table, in inches.
pub(super) fn mean_side(layout: &Layout, card: &[Point; 4], frame: &Frame) -> Option<f64> {
    let c = on_table(layout, card, frame)?;
    Some((0..4).map(|i| c[i].distance(c[(i + 1) % 4])).sum::<f64>() / 4.0)
}

fn score(layout: &Layout, cards: &[[Point; 4]], frame: &Frame, side: f64) -> Score {
    let mut score = Score { members: Vec::new(), squares: 0, sum: 0.0 };
    for (i, card) in cards.iter().enumerate() {
        let within = |side: f64| {
            let share = distance(layout, card, frame, side)? / allowance(card, frame);
            (share <= 1.0).then_some(share)
        };
        if let Some(share) = within(side) {
            score.members.push(i);
            score.sum += share;
        }
        score.squares += usize::from(mean_side(layout, card, frame).and_then(within).is_some());
    }
    score
}

/// Every so many of the cards, spread over all where those would be too many.
fn proposals(count: usize, size: usize) -> Vec<Vec<usize>> {
    let mut all: Vec<Vec<usize>> = vec![Vec::new()];
    for _ in 0..size {
        all = all
            .into_iter()
            .flat_map(|some| {
                let next = some.last().map_or(0, |last| last + 1);
                (next..count).map(move |i| [some.clone(), vec![i]].concat())
            })
            .collect();
    }
    let every = all.len().div_ceil(MOST).max(1);
    all.into_iter().step_by(every).collect()
}

fn best(cards: &[[Point; 4]], proposals: &[Vec<usize>], frame: &Frame, side: f64) -> Option<Vec<usize>> {
    let tried = proposals.iter().filter_map(|members| {
        let layout = fit(cards, members, frame, side, 12)?;
        Some(score(&layout, cards, frame, side))
    });
    let rank = |s: &Score| (Reverse(s.members.len()), Reverse(s.squares));
    tried.min_by(|a, b| rank(a).cmp(&rank(b)).then(a.sum.total_cmp(&b.sum))).map(|score| score.members)
}

/// A card is left out when the others agree this many times better without it, by the ratio of
/// mean squares (an F test); with it the corners must lie off by more than they are ever found.
const WITHOUT: f64 = 15.0;
/// Corners' likely error, as equations to spare that nothing is known of yet.
const EXPECTED: f64 = 8.0;

/// Leaves out, one by one, cards that agree too badly beside how well the others do: slightly curled, or
/// with a thread over an edge. At least three stay.
fn sift(cards: &[[Point; 4]], mut agreed: Agreed, frame: &Frame, side: f64) -> Agreed {
    let cost = |a: &Agreed| {
        let own: Vec<&[Point; 4]> = a.members.iter().map(|i| &cards[*i]).collect();
        adjust::cost(&a.layout, &own, frame, side)
    };
    while agreed.members.len() > 3 {
        let all = cost(&agreed);
        let without = (0..agreed.members.len()).filter_map(|i| {
            let mut members = agreed.members.clone();
            members.remove(i);
            let layout = fit(cards, &members, frame, side, 20)?;
            let less = Agreed { members, layout };
            Some((cost(&less), less))
        });
        let Some((rest, less)) = without.min_by(|a, b| a.0.total_cmp(&b.0)) else { break };
        // Five equations to spare a card, beyond its place and turn; eight common numbers.
        let spare = 5.0 * less.members.len() as f64 - 8.0;
        let ratio = ((all - rest) / 5.0) / ((rest + EXPECTED) / (spare + EXPECTED));
        if ratio < WITHOUT {
            break;
        }
        agreed = less;
    }
    agreed
}

/// The cards that agree on one table; of a single card itself.
pub(super) fn agree(cards: &[[Point; 4]], frame: &Frame, side: f64) -> Option<Agreed> {
    most(cards, frame, side).map(|agreed| sift(cards, agreed, frame, side))
}

/// The most cards that lie within what is allowed.
fn most(cards: &[[Point; 4]], frame: &Frame, side: f64) -> Option<Agreed> {
    let all: Vec<usize> = (0..cards.len()).collect();
    // Nearly always all agree.
    if let Some(layout) = fit(cards, &all, frame, side, 30)
        && score(&layout, cards, frame, side).members.len() == all.len()
    {
        return Some(Agreed { members: all, layout });
    }
    let threes = best(cards, &proposals(cards.len(), 3), frame, side).unwrap_or_default();
    let mut members = match threes.len() {
        0..3 => best(cards, &proposals(cards.len(), 2), frame, side)?,
        _ => threes,
    };
    if members.is_empty() {
        return None;
    }
    let mut layout = fit(cards, &members, frame, side, 30)?;
    for _ in 0..4 {
        let next = score(&layout, cards, frame, side).members;
        if next == members || next.len() < 2 {
            break;
        }
        layout = fit(cards, &next, frame, side, 30)?;
        members = next;
    }
    Some(Agreed { members, layout })
}
