//! Moves that push: a piece without a place is forced in where it lies in least, a cloth's pieces are forced into
//! others, a length is made shorter; then all is pushed apart. What can't be is taken back by whoever asked.

use crate::ask::Price;
use crate::budget::Budget;
use crate::seek::closer;
use crate::state::{At, State};
use plane::READING;

/// So many rounds in a row may bring nothing.
const PATIENCE: u32 = 24;
/// The same for a piece by itself.
const ALONE: u32 = 6;
/// The same where the whole answer is one length.
const LONG_PATIENCE: u32 = 40;
/// By what share a length is made shorter at once, at most and at least.
const SHORTER: [f64; 2] = [0.02, 0.001];
/// Pieces are pushed about on up to so many parts at once.
const AT_ONCE: usize = 4;
/// A part fuller than this is not pushed into.
const FULL: f64 = 0.97;

impl State<'_> {
    /// Whether all is cut off one part whose length counts.
    pub(crate) fn is_one_length(&self) -> bool {
        self.grounds.len() == 1 && matches!(self.ask.cloths[self.grounds[0].cloth].price, Price::ByLength(_))
    }

    /// Forces in a piece without a place. Whether anything was tried and is sound.
    pub(crate) fn push_in(&mut self, hopeless: &[bool], budget: &mut Budget<'_>) -> bool {
        let left = (0..self.at.len()).filter(|&piece| self.at[piece].is_none() && !hopeless[piece]);
        let left: Vec<(f64, usize)> = left.map(|piece| (self.shape(piece).area, piece)).collect();
        let Some(piece) = self.one_by(&left) else { return false };
        let mut into: Vec<usize> = Vec::new();
        for _ in 0..=self.chance.below(AT_ONCE) {
            let choice = self.with_room(piece, &into);
            if let Some(ground) = self.one_by(&choice) {
                into.push(ground);
            }
        }
        if into.is_empty() || !self.force(piece, &into) || !self.push_apart(&into, PATIENCE, budget) {
            return false;
        }
        for ground in into {
            self.settle(ground);
        }
        true
    }

    /// Forces the pieces of a cloth into others that are opened. Whether anything was tried and is sound.
    pub(crate) fn push_out(&mut self, cloth: usize, budget: &mut Budget<'_>) -> bool {
        let out: Vec<usize> = self.grounds_of[cloth]
            .iter()
            .flat_map(|&ground| self.grounds[ground].on.iter().copied())
            .collect();
        for &piece in &out {
            self.take(piece);
        }
        let mut into: Vec<usize> = Vec::new();
        for piece in self.by_area(&out, 0.0) {
            let mut choice = self.with_room(piece, &[]);
            choice.retain(|&(_, ground)| self.is_opened(self.grounds[ground].cloth));
            let Some(ground) = self.one_by(&choice) else { return false };
            if !self.force(piece, &[ground]) {
                return false;
            }
            into.push(ground);
        }
        into.sort_unstable();
        into.dedup();
        if into.is_empty() || !self.push_apart(&into, PATIENCE, budget) {
            return false;
        }
        for ground in into {
            self.settle(ground);
        }
        true
    }

    /// Whether a piece fits one of its cloths while nothing lies anywhere, sought by pushing.
    pub(crate) fn fits_pushed(&mut self, piece: usize) -> bool {
        let (go_on, grounds) = (&mut |_| true, self.with_room(piece, &[]));
        let mut budget = Budget::new(u32::MAX, go_on);
        grounds.into_iter().any(|(_, ground)| {
            let fits = self.force(piece, &[ground]) && self.push_apart(&[ground], ALONE, &mut budget);
            self.take(piece);
            fits
        })
    }

    /// The parts that may still take a piece, by how much is free.
    fn with_room(&self, piece: usize, but: &[usize]) -> Vec<(f64, usize)> {
        let area = self.shape(piece).area;
        let of = self.ask.pieces[piece].from.iter().flat_map(|source| &self.grounds_of[source.cloth]);
        let free = of.filter(|ground| !but.contains(ground)).filter_map(|&ground| {
            let there = &self.grounds[ground];
            let free = FULL * there.area - there.filled - area;
            (free > 0.0).then_some((free, ground))
        });
        free.collect()
    }

    /// One of some, the likelier the larger its number.
    fn one_by(&mut self, choice: &[(f64, usize)]) -> Option<usize> {
        let mut at = self.chance.share() * choice.iter().map(|one| one.0).sum::<f64>();
        for &(weight, one) in choice {
            at -= weight;
            if at <= 0.0 {
                return Some(one);
            }
        }
        choice.last().map(|one| one.1)
    }

    /// Moves what lies on a part as near to its first end as it goes, the nearest first.
    pub(crate) fn settle(&mut self, ground: usize) {
        let frame = self.grounds[ground].frame.clone();
        let far = |state: &Self, piece: usize| {
            state.at[piece].map_or(0.0, |at| frame.far(state.shape(piece), at.turn, at.by))
        };
        let mut on = self.grounds[ground].on.clone();
        on.sort_by(|&a, &b| far(self, a).total_cmp(&far(self, b)).then(a.cmp(&b)));
        for piece in on {
            let Some(at) = self.at[piece] else { continue };
            self.take(piece);
            let which = self.shape_of[piece];
            let (shape, room) = (&self.shapes[which], &mut self.rooms[which]);
            let collisions = &self.grounds[ground].collisions;
            let free = &mut |by| collisions.is_free(shape, room, at.turn, by);
            let by = closer(&frame, shape, at.turn, at.by, free);
            self.put(piece, At { by, ..at });
        }
    }

    /// Makes the one length shorter for as long as there are rounds.
    pub(crate) fn squeeze(&mut self, budget: &mut Budget<'_>) {
        let mut best = self.remember();
        let mut far = self.far(0);
        let least = self.area / self.grounds[0].frame.wide();
        let [at_most, at_least] = SHORTER;
        let mut share = at_most;
        let mut failed = 0_u32;
        while budget.done < budget.rounds && far > least + READING {
            let before = budget.done;
            self.grounds[0].limit = Some((far * (1.0 - share)).max(least));
            let mut nearest = best.clone();
            let note = &mut |state: &Self| nearest = state.remember();
            if self.push_apart_noting(&[0], LONG_PATIENCE, budget, note) {
                far = self.far(0);
                best = self.remember();
                failed = 0;
                share = (share * 1.5).min(at_most);
                continue;
            }
            if budget.done == before {
                break;
            }
            failed += 1;
            share = (share * 0.5).max(at_least);
            // From what came nearest a few times, then anew from what is sound.
            if failed.is_multiple_of(4) {
                self.restore(&best);
            } else {
                self.restore(&nearest);
            }
            if share <= at_least {
                self.swap_two();
            }
        }
        self.grounds[0].limit = None;
        self.restore(&best);
    }

    /// Lets two pieces change places: the larger, the likelier.
    fn swap_two(&mut self) {
        let all: Vec<(f64, usize)> =
            self.grounds[0].on.iter().map(|&piece| (self.shape(piece).area, piece)).collect();
        let (Some(one), Some(other)) = (self.one_by(&all), self.one_by(&all)) else { return };
        let (Some(a), Some(b)) = (self.at[one], self.at[other]) else { return };
        if self.shape_of[one] == self.shape_of[other] {
            return;
        }
        let is_any = self.source(one, 0) == self.source(other, 0);
        self.take(one);
        self.take(other);
        let turn = |own: At, new: At| if is_any { new.turn } else { own.turn };
        self.put(one, At { by: b.by, turn: turn(a, b), ..a });
        self.put(other, At { by: a.by, turn: turn(b, a), ..b });
    }
}
