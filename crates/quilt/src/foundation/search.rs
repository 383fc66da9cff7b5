//! The search for few sections: a set is a section, or it is parted along a seam, and so on.

use super::cuts::{Cut, Opening, Parted, Set};
use super::pieces::Pieces;
use std::collections::BTreeMap;
use std::rc::Rc;

/// How sections come together.
#[derive(Debug)]
pub(super) enum Tree {
    /// Sewn one piece at a time.
    Section(Vec<(usize, Option<Cut>)>),
    /// Two parts and the seam between them, with the seams that are open meanwhile.
    Joined { parts: [Branch; 2], cut: Cut, openings: Rc<Vec<Opening>> },
    /// A part whose edge isn't straight.
    SetIn { parts: [Branch; 2] },
}

/// A tree, its pieces, and how many sections it has.
#[derive(Clone, Debug)]
pub(super) struct Branch {
    pub(super) tree: Rc<Tree>,
    pub(super) pieces: Rc<Set>,
    pub(super) sections: usize,
}

/// After so much work only the likeliest cut is followed. Looking at a set costs about the square of its size.
const WORK: usize = 60_000;

pub(super) struct Search<'a> {
    pieces: &'a Pieces,
    work: usize,
    known: BTreeMap<(Vec<usize>, Vec<usize>), Option<Branch>>,
}

impl<'a> Search<'a> {
    pub(super) const fn new(pieces: &'a Pieces) -> Self {
        Self { pieces, work: 0, known: BTreeMap::new() }
    }

    /// The set in few sections: in full seams where they serve, else with a seam left open, else set in.
    pub(super) fn best(&mut self, set: &Set) -> Branch {
        if let Some(branch) = self.in_full_seams(set, &Rc::default()) {
            return branch;
        }
        if let Some(Parted { parts, cut }) = self.likeliest(self.pieces.cuts(set, &[])) {
            let parts = parts.map(|part| self.best(&part));
            return joined(set, parts, cut, &Rc::default());
        }
        if let Some(branch) = self.with_one_open(set) {
            return branch;
        }
        self.set_in(set)
    }

    /// The set without any seam left open but those that are already; `None` when that can't be.
    fn in_full_seams(&mut self, set: &Set, openings: &Rc<Vec<Opening>>) -> Option<Branch> {
        let ignored: Vec<usize> = openings.iter().flat_map(|opening| opening.open.iter().copied()).collect();
        let key = (set.iter().copied().collect::<Vec<_>>(), ignored);
        if let Some(known) = self.known.get(&key) {
            return known.clone();
        }
        let found = self.look(set, openings, &key.1);
        self.known.insert(key, found.clone());
        found
    }

    fn look(&mut self, set: &Set, openings: &Rc<Vec<Opening>>, ignored: &[usize]) -> Option<Branch> {
        self.work += 16 + set.len() * set.len();
        let within = |no: &usize| self.pieces.contacts[*no].sides.iter().all(|piece| set.contains(piece));
        let across_open = openings.iter().any(|opening| opening.seam.iter().any(within));
        let (order, left) = self.pieces.pluck(set);
        if left.is_empty() && !across_open {
            let tree = Rc::new(Tree::Section(order));
            return Some(Branch { tree, pieces: Rc::new(set.clone()), sections: 1 });
        }
        let mut cuts = self.pieces.cuts(set, ignored);
        if self.work > WORK {
            cuts = self.likeliest(cuts).into_iter().collect();
        }
        let mut best: Option<Branch> = None;
        for Parted { parts, cut } in cuts {
            let [first, second] = &parts;
            let Some(first) = self.in_full_seams(first, openings) else {
                // What can't be sewn in full seams can't be within more of it either.
                if openings.is_empty() { return None } else { continue }
            };
            let Some(second) = self.in_full_seams(second, openings) else {
                if openings.is_empty() { return None } else { continue }
            };
            let branch = joined(set, [first, second], cut, openings);
            if best.as_ref().is_none_or(|best| branch.sections < best.sections) {
                best = Some(branch);
            }
            if best.as_ref().is_some_and(|best| best.sections == 2) {
                break;
            }
        }
        best
    }

    /// The cut that leaves the most pieces in a section of their own.
    fn likeliest(&self, cuts: Vec<Parted>) -> Option<Parted> {
        let worth = |parted: &Parted| {
            let whole = |part: &Set| if self.pieces.pluck(part).1.is_empty() { part.len() } else { 0 };
            let [first, second] = &parted.parts;
            (whole(first).max(whole(second)), first.len().min(second.len()))
        };
        cuts.into_iter().max_by_key(worth)
    }

    /// The set with an end of one seam left open; further seams only where one isn't enough.
    fn with_one_open(&mut self, set: &Set) -> Option<Branch> {
        let mut best: Option<Branch> = None;
        let ways: Vec<Rc<Vec<Opening>>> =
            self.pieces.openings(set).into_iter().map(|opening| Rc::new(vec![opening])).collect();
        for opened in &ways {
            if let Some(branch) = self.in_full_seams(set, opened)
                && best.as_ref().is_none_or(|best| branch.sections < best.sections)
            {
                best = Some(branch);
            }
        }
        best.or_else(|| self.with_more_open(set, &ways))
    }

    fn with_more_open(&mut self, set: &Set, ways: &[Rc<Vec<Opening>>]) -> Option<Branch> {
        for (i, first) in ways.iter().enumerate() {
            for second in &ways[i + 1..] {
                if self.work > WORK {
                    return None;
                }
                let both = Rc::new(first.iter().chain(second.iter()).cloned().collect::<Vec<_>>());
                if let Some(branch) = self.in_full_seams(set, &both) {
                    return Some(branch);
                }
            }
        }
        None
    }

    /// The piece with the fewest sides to the rest by itself, to be set in.
    fn set_in(&mut self, set: &Set) -> Branch {
        let sides = |piece: &usize| {
            let met = self.pieces.of[*piece].iter().map(|&no| &self.pieces.contacts[no]);
            let mut lines: Vec<usize> =
                met.filter(|met| set.contains(&met.other(*piece))).map(|met| met.line).collect();
            lines.sort_unstable();
            lines.dedup();
            (lines.len(), std::cmp::Reverse(*piece))
        };
        let alone: Set = set.iter().copied().min_by_key(sides).into_iter().collect();
        let rest: Set = set.difference(&alone).copied().collect();
        let parts = [self.best(&alone), self.best(&rest)];
        let sections = parts.iter().map(|part| part.sections).sum();
        Branch { tree: Rc::new(Tree::SetIn { parts }), pieces: Rc::new(set.clone()), sections }
    }
}

fn joined(set: &Set, parts: [Branch; 2], cut: Cut, openings: &Rc<Vec<Opening>>) -> Branch {
    let sections = parts.iter().map(|part| part.sections).sum();
    let tree = Rc::new(Tree::Joined { parts, cut, openings: Rc::clone(openings) });
    Branch { tree, pieces: Rc::new(set.clone()), sections }
}
