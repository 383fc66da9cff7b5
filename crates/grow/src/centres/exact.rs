//! Few blocks: every slicing tree, by subsets.
//!
//! For each subset of the blocks, every size that some tree over it can have is kept once, with the
//! fewest strips. A set is made of two disjoint subsets, side by side or one above the other; which of
//! the two comes first changes no size. Sizes that are too large already are dropped. So the tree that
//! is found has the fewest strips and the least outer coping of all. For n blocks that stay upright
//! there are 1, 2, 12, 120, 1680, 30240 combinations: from 7 on the search by chance takes over.

use super::coping::{common, is_short};
use super::cost::Goal;
use super::tree::{Sign, Sizes, Tree};
use std::collections::BTreeMap;

/// Most blocks laid out exactly: upright, and when they may be turned.
pub(super) const EXACT_BLOCKS: [usize; 2] = [6, 5];

/// How a size came about.
#[derive(Clone, Copy, Debug)]
enum Made {
    Block { turned: bool },
    Join { sign: Sign, parts: [(usize, usize); 2] },
}

#[derive(Clone, Copy, Debug)]
struct Entry {
    size: [f64; 2],
    strips: usize,
    made: Made,
}

/// The tree with the least cost of size and strips; `None` when no tree fits.
pub(super) fn best(sizes: &Sizes, goal: Goal, may_turn: bool) -> Option<Tree> {
    let n = sizes.blocks.len();
    let all = (1_usize << n) - 1;
    let mut found: Vec<Vec<Entry>> = vec![Vec::new(); all + 1];
    for set in 1..=all {
        let mut by_size = BTreeMap::new();
        if set.is_power_of_two() {
            let block = set.trailing_zeros() as usize;
            for turned in [false, true].into_iter().take(1 + usize::from(may_turn)) {
                let size = sizes.lying(block, turned);
                keep(&mut by_size, Entry { size, strips: 0, made: Made::Block { turned } }, goal);
            }
        }
        let lowest = set & set.wrapping_neg();
        let mut first = set & (set - 1);
        while first != 0 {
            let second = set & !first;
            if second & lowest != 0 {
                join_all(&mut by_size, &found, [second, first], sizes.least, goal);
            }
            first = (first - 1) & set;
        }
        found[set] = by_size.into_values().collect();
    }
    let cost = |entry: &Entry| {
        let (terms, outer) = goal.terms(entry.size);
        let strips = (entry.strips + outer) as f64 / n as f64;
        terms.fits().then_some(terms.outer + strips)
    };
    let costs = found[all].iter().enumerate().filter_map(|(i, entry)| Some((cost(entry)?, i)));
    let (_, best) = costs.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let mut tree = Tree { signs: Vec::new(), turned: vec![false; n] };
    write(&mut tree, &found, (all, best));
    Some(tree)
}

fn join_all(
    by_size: &mut BTreeMap<[i64; 2], Entry>,
    found: &[Vec<Entry>],
    [one, other]: [usize; 2],
    least: f64,
    goal: Goal,
) {
    for (i, a) in found[one].iter().enumerate() {
        for (j, b) in found[other].iter().enumerate() {
            for (sign, along) in [(Sign::Beside, 0), (Sign::Above, 1)] {
                let across = 1 - along;
                let shared = common(a.size[across], b.size[across], least);
                let coped = [a, b].iter().filter(|unit| is_short(unit.size[across], shared)).count();
                let mut size = [shared; 2];
                size[along] = a.size[along] + b.size[along];
                let made = Made::Join { sign, parts: [(one, i), (other, j)] };
                keep(by_size, Entry { size, strips: a.strips + b.strips + coped, made }, goal);
            }
        }
    }
}

/// Keeps a size unless it is too large, or known with fewer strips.
fn keep(by_size: &mut BTreeMap<[i64; 2], Entry>, entry: Entry, goal: Goal) {
    let most = |way: usize| goal.size[way] + goal.tolerance + plane::READING;
    if (0..2).any(|way| entry.size[way] > most(way)) {
        return;
    }
    let key = entry.size.map(|length| (length / plane::READING).round() as i64);
    let known = by_size.entry(key).or_insert(entry);
    if entry.strips < known.strips {
        *known = entry;
    }
}

fn write(tree: &mut Tree, found: &[Vec<Entry>], (set, i): (usize, usize)) {
    match found[set][i].made {
        Made::Block { turned } => {
            let block = set.trailing_zeros() as usize;
            tree.turned[block] = turned;
            tree.signs.push(Sign::Block(block));
        }
        Made::Join { sign, parts: [one, other] } => {
            write(tree, found, one);
            write(tree, found, other);
            tree.signs.push(sign);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::centres::tree::Measured;

    /// Pieces of a square cut apart at random are put together again without a strip.
    #[test]
    fn what_was_sliced_apart_is_put_together_without_coping() {
        let mut chance = crate::chance::Chance::new(11);
        for _ in 0..20 {
            let mut rects: Vec<[f64; 2]> = vec![[24.0, 24.0]];
            while rects.len() < 6 {
                let i = (0..rects.len())
                    .max_by(|&a, &b| (rects[a][0] * rects[a][1]).total_cmp(&(rects[b][0] * rects[b][1])));
                let [w, h] = rects.remove(i.unwrap_or(0));
                let share = (chance.between(0.3, 0.7) * 32.0).round() / 32.0;
                if w >= h {
                    rects.extend([[w * share, h], [w - w * share, h]]);
                } else {
                    rects.extend([[w, h * share], [w, h - h * share]]);
                }
            }
            let sizes = Sizes { blocks: rects.clone(), place: None, least: 0.5 };
            let goal = Goal { size: [24.0, 24.0], tolerance: 0.0, least: 0.5 };
            let tree = best(&sizes, goal, false).expect("a layout");
            let mut measured = Measured::default();
            measured.size_up(&tree, &sizes);
            assert_eq!(measured.strips, 0, "{rects:?}");
            assert!((0..2).all(|way| (measured.size[way] - 24.0).abs() < 1e-9));
        }
    }
}
