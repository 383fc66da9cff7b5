//! Many blocks: slicing trees by chance, from good starts.
//!
//! Threshold accepting (Dueck, Scheuer 1990): a change is taken when it makes the cost worse by no
//! more than a threshold that falls to nothing. Changes are: two blocks change places, a block is
//! taken out and joined to another unit, a join lies the other way, a block is turned, the two units
//! of a join change places. All chances come of the seed, and no function is used that machines round
//! differently, so the same seed gives the same layout everywhere.

use super::cost::{CentresCost, Judge};
use super::tree::{Measured, Sign, Tree};
use crate::chance::Chance;

/// Blocks times changes tried from each start while the size alone counts, and the most changes.
const SIZE_TRIES: usize = 5_400_000;
const MOST_TRIES: usize = 250_000;

/// What is tried, and how it is judged.
#[derive(Clone, Copy, Debug)]
struct Run {
    changes: Changes,
    /// Whether looks count, or the size alone.
    looks: bool,
    tries: usize,
    /// The threshold at the beginning.
    threshold: f64,
}

/// Which changes may be made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Changes {
    /// All, with or without turning blocks.
    All { may_turn: bool },
    /// Those that change no size: units of a join change places, and blocks of one size.
    Seats,
    /// Blocks change places, whichever size they have: in rows of equal places.
    Places,
}

/// The best tree found from one that stays as large as it is; its looks count.
pub(super) fn seat(judge: &Judge, start: Tree, changes: Changes, chance: &mut Chance) -> (Tree, CentresCost) {
    run(judge, start, Run { changes, looks: true, tries: 30_000, threshold: 0.25 }, chance)
}

/// The best tree of any size. First the size alone counts, from several starts (rows, columns, and
/// blocks in an order by chance) until one fits. That one, or the one that comes nearest, goes on with
/// its looks counted too.
pub(super) fn many(judge: &Judge, may_turn: bool, chance: &mut Chance) -> (Tree, CentresCost) {
    let changes = Changes::All { may_turn };
    let tries = (SIZE_TRIES / judge.sizes.blocks.len().max(1)).min(MOST_TRIES);
    let by_size = Run { changes, looks: false, tries, threshold: 1.0 };
    let mut best: Option<(Tree, CentresCost)> = None;
    for start in starts(judge, chance) {
        let next = run(judge, start, by_size, chance);
        if best.as_ref().is_none_or(|best| next.1.is_better(&best.1)) {
            best = Some(next);
        }
        if best.as_ref().is_some_and(|best| best.1.fits()) {
            break;
        }
    }
    let start = best.map_or_else(|| Tree::rows(&[], 1), |best| best.0);
    run(judge, start, Run { looks: true, tries: 40_000, threshold: 0.1, ..by_size }, chance)
}

fn run(judge: &Judge, start: Tree, how: Run, chance: &mut Chance) -> (Tree, CentresCost) {
    let mut measured = Measured::default();
    let mut cost = |tree: &Tree| {
        if how.looks { judge.cost(tree, &mut measured) } else { judge.size_cost(tree, &mut measured) }
    };
    let total = |cost: &CentresCost| if how.looks { cost.total() } else { cost.size_total() };
    let first = cost(&start);
    let mut now = (start, total(&first));
    let mut best = (now.0.clone(), first);
    if judge.sizes.blocks.len() < 2 {
        return best;
    }
    let mut next = now.0.clone();
    for tried in 0..how.tries {
        let left = 1.0 - tried as f64 / how.tries as f64;
        next.clone_from(&now.0);
        if !change(&mut next, judge, how.changes, chance) {
            continue;
        }
        let found = cost(&next);
        let found_total = total(&found);
        if found_total <= now.1 + how.threshold * left * left {
            std::mem::swap(&mut now.0, &mut next);
            now.1 = found_total;
            if found.is_better(&best.1) {
                best.0.clone_from(&now.0);
                best.1 = found;
                if !how.looks && found.fits() {
                    return best;
                }
            }
        }
    }
    best
}

fn starts(judge: &Judge, chance: &mut Chance) -> Vec<Tree> {
    let blocks = &judge.sizes.blocks;
    let n = blocks.len();
    let sorted = |way: usize| {
        let mut order: Vec<usize> = (0..n).collect();
        order.sort_by(|&a, &b| blocks[b][way].total_cmp(&blocks[a][way]).then(a.cmp(&b)));
        order
    };
    let mut shuffled: Vec<usize> = (0..n).collect();
    for i in (1..n).rev() {
        shuffled.swap(i, below(chance, i + 1));
    }
    let across = (1..=n).find(|k| k * k >= n).unwrap_or(1);
    vec![
        shelves(&sorted(1), judge, Sign::Beside),
        shelves(&sorted(0), judge, Sign::Above),
        Tree::rows(&shuffled, across),
    ]
}

/// Blocks in bands, each filled up to the wished length.
fn shelves(order: &[usize], judge: &Judge, within: Sign) -> Tree {
    let way = usize::from(within == Sign::Above);
    let mut bands: Vec<Vec<usize>> = Vec::new();
    let mut left = 0.0;
    for &block in order {
        let length = judge.sizes.blocks[block][way];
        match bands.last_mut() {
            Some(band) if length <= left => band.push(block),
            _ => {
                bands.push(vec![block]);
                left = judge.goal.size[way];
            }
        }
        left -= length;
    }
    Tree::bands(bands.iter().map(Vec::as_slice), within, order.len())
}

fn below(chance: &mut Chance, n: usize) -> usize {
    (chance.next() % n.max(1) as u64) as usize
}

/// Makes one change; says whether there was one.
fn change(tree: &mut Tree, judge: &Judge, changes: Changes, chance: &mut Chance) -> bool {
    let n = judge.sizes.blocks.len();
    match (changes, below(chance, 8)) {
        (Changes::Places, _) | (_, 0 | 1) => {
            let (a, b) = (below(chance, n), below(chance, n));
            let alike = || tree.turned[a] == tree.turned[b] && judge.sizes.blocks[a] == judge.sizes.blocks[b];
            if a == b || (changes == Changes::Seats && !alike()) {
                return false;
            }
            exchange(tree, a, b);
            true
        }
        (Changes::Seats, _) | (_, 2 | 3) => mirror(tree, chance),
        (_, 4) => flip(tree, chance),
        (Changes::All { may_turn: true }, 5) => {
            let block = below(chance, n);
            tree.turned[block] = !tree.turned[block];
            true
        }
        _ => {
            let block = below(chance, n);
            replant(tree, block, chance)
        }
    }
}

fn exchange(tree: &mut Tree, a: usize, b: usize) {
    for sign in &mut tree.signs {
        match sign {
            Sign::Block(block) if *block == a => *block = b,
            Sign::Block(block) if *block == b => *block = a,
            _ => {}
        }
    }
}

/// A join drawn by chance: of n blocks there are n − 1.
fn a_join(tree: &Tree, chance: &mut Chance) -> Option<usize> {
    let joins = tree.signs.len() / 2;
    let drawn = below(chance, joins);
    let mut places = tree.signs.iter().enumerate().filter(|(_, sign)| !sign.is_block());
    places.nth(drawn).map(|(i, _)| i)
}

fn mirror(tree: &mut Tree, chance: &mut Chance) -> bool {
    let Some(i) = a_join(tree, chance) else { return false };
    let [first, second, end] = tree.parts(i);
    tree.signs[first..end].rotate_left(second - first);
    true
}

fn flip(tree: &mut Tree, chance: &mut Chance) -> bool {
    let Some(i) = a_join(tree, chance) else { return false };
    tree.signs[i] = tree.signs[i].other();
    true
}

/// Takes a block out and joins it to another unit.
fn replant(tree: &mut Tree, block: usize, chance: &mut Chance) -> bool {
    let Some(at) = tree.signs.iter().position(|sign| *sign == Sign::Block(block)) else { return false };
    if tree.signs.len() < 3 {
        return false;
    }
    let join = join_of(&tree.signs, at);
    tree.signs.remove(join);
    tree.signs.remove(at);
    let after = below(chance, tree.signs.len());
    let sign = if below(chance, 2) == 0 { Sign::Beside } else { Sign::Above };
    tree.signs.insert(after + 1, sign);
    tree.signs.insert(after + 1, Sign::Block(block));
    true
}

/// The sign that joins the block at `at` to its sibling.
fn join_of(signs: &[Sign], at: usize) -> usize {
    let mut open = 0_usize;
    for (i, sign) in signs.iter().enumerate().skip(at + 1) {
        if sign.is_block() {
            open += 1;
        } else if open <= 1 {
            return i;
        } else {
            open -= 1;
        }
    }
    signs.len() - 1
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Whether every join has two units, and each block comes once.
    fn is_sound(tree: &Tree, blocks: usize) -> bool {
        let mut open = 0;
        let mut met = vec![0; blocks];
        for sign in &tree.signs {
            match sign {
                Sign::Block(block) => {
                    met[*block] += 1;
                    open += 1;
                }
                _ if open < 2 => return false,
                _ => open -= 1,
            }
        }
        open == 1 && met.iter().all(|&times| times == 1)
    }

    #[test]
    fn changes_leave_a_tree_a_tree() {
        let mut chance = Chance::new(3);
        let order: Vec<usize> = (0..9).collect();
        let mut tree = Tree::rows(&order, 3);
        let mut seen = std::collections::BTreeSet::new();
        for i in 0..3000 {
            match i % 4 {
                0 => assert!(mirror(&mut tree, &mut chance)),
                1 => assert!(flip(&mut tree, &mut chance)),
                2 => exchange(&mut tree, i % 9, (i + 3) % 9),
                _ => assert!(replant(&mut tree, i % 9, &mut chance)),
            }
            assert!(is_sound(&tree, 9), "{tree:?}");
            seen.insert(format!("{:?}", tree.signs));
        }
        assert!(seen.len() > 2500, "{}", seen.len());
    }
}
