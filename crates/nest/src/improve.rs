//! Taking out and putting back: a cloth is emptied and its pieces are sought a place elsewhere; a part is laid anew
//! from another end; neighbours are let go together. What is better is kept, and for a while what is a little worse.

use crate::ask::{Answer, Ask, Placed};
use crate::bands::straighten;
use crate::budget::Budget;
use crate::faults::is_allowed;
use crate::problem::NestProblem;
use crate::state::{At, State};

/// So few pieces are also laid anew all at once.
const FEW: usize = 8;
/// After so many rounds without a better answer a length is squeezed.
const STALE: u32 = 12;

/// Finds places for pieces. `seen` is called before each round with how many are done, and stops it by answering no:
/// what was best until then is answered.
///
/// # Errors
/// What can't be asked. That pieces find no place is an answer.
pub fn nest(ask: &Ask, seen: &mut dyn FnMut(u32) -> bool) -> Result<Answer, NestProblem> {
    nest_from(ask, &[], seen)
}

/// As [`nest`], from places that pieces have already: those that are sound are begun with, and no piece that has one
/// ends without. In which part of its cloth a piece lies is found here.
///
/// # Errors
/// As [`nest`].
pub fn nest_from(
    ask: &Ask,
    places: &[Placed],
    seen: &mut dyn FnMut(u32) -> bool,
) -> Result<Answer, NestProblem> {
    let mut state = State::new(ask)?;
    state.begin_with(places);
    let left: Vec<usize> = (0..ask.pieces.len()).filter(|&piece| state.at[piece].is_none()).collect();
    state.put_all(&left);
    let mut budget = Budget::new(ask.effort.rounds, seen);
    let hopeless = state.hopeless();
    let mut now = state.cost();
    let mut kept = state.remember();
    let (mut best, mut least) = (kept.clone(), now);
    let costs = state.all_cost / ask.cloths.len() as f64;
    let mut since = 0_u32;
    while budget.next() {
        since += 1;
        if state.is_one_length() && since > STALE && state.at.iter().all(Option::is_some) {
            state.restore(&best);
            state.squeeze(&mut budget);
            best = state.remember();
            break;
        }
        let done = state.change(&hopeless, since, &mut budget);
        let cost = if done { state.cost() } else { f64::INFINITY };
        let worse = 0.03 * costs * budget.left();
        if cost <= now + worse {
            now = cost;
            kept = state.remember();
            if cost < least - 1e-9 {
                (least, since) = (cost, 0);
                best.clone_from(&kept);
            }
        } else {
            state.restore(&kept);
        }
    }
    state.restore(&best);
    straighten(&mut state);
    Ok(state.answer())
}

/// Takes pieces out and puts them back, those without a place too.
fn shake(state: &mut State<'_>, out: &[usize], barred: &[usize]) {
    for &piece in out {
        state.take(piece);
    }
    let free: Vec<usize> = (0..state.at.len()).filter(|&piece| state.at[piece].is_none()).collect();
    let noise = if state.at.len() <= FEW { 1.0 } else { 0.8 * state.chance.share() };
    let mut left = Vec::new();
    for piece in state.by_area(&free, noise) {
        if !state.put_best(piece, barred, 0.5 * noise) {
            left.push(piece);
        }
    }
    if !barred.is_empty() {
        for piece in left {
            state.put_best(piece, &[], 0.0);
        }
    }
}

impl State<'_> {
    /// Puts pieces where they lie already, those that may lie so.
    fn begin_with(&mut self, places: &[Placed]) {
        for placed in places.iter().filter(|placed| is_allowed(self.ask, placed)) {
            let (turn, middle) = (placed.at.turn, self.shape(placed.piece).middle);
            for ground in self.grounds_of[placed.cloth].clone() {
                let at = At { ground, turn, by: placed.at.by + turn.apply(middle) };
                if self.at[placed.piece].is_none() && self.is_free(placed.piece, at) {
                    self.put(placed.piece, at);
                    self.must[placed.piece] = true;
                }
            }
        }
    }

    /// Puts pieces one after the other: each where it costs least, or, where that leaves some over, each where there is
    /// room first, whichever is better.
    fn put_all(&mut self, pieces: &[usize]) {
        let before = self.remember();
        for piece in self.by_area(pieces, 0.0) {
            self.put_best(piece, &[], 0.0);
        }
        if self.at.iter().all(Option::is_some) {
            return;
        }
        let (cost, best) = (self.cost(), self.remember());
        self.restore(&before);
        for piece in self.by_area(pieces, 0.0) {
            self.put_first(piece);
        }
        if self.cost() > cost {
            self.restore(&best);
        }
    }

    /// One change, by taking out and putting back or by pushing; `false` when it came to nothing that is sound.
    fn change(&mut self, hopeless: &[bool], since: u32, budget: &mut Budget<'_>) -> bool {
        let way = self.chance.share();
        let is_left = self.at.iter().zip(hopeless).any(|(at, hopeless)| at.is_none() && !hopeless);
        if is_left && since > 4 && way < 0.6 {
            return self.push_in(hopeless, budget);
        }
        if !is_left && since > 4 && way < 0.15 && self.ask.cloths.len() > 1 {
            let opened: Vec<usize> =
                (0..self.grounds.len()).filter(|&g| !self.grounds[g].on.is_empty()).collect();
            if opened.len() > 1 {
                let ground = self.an_empty_one(&opened);
                return self.push_out(self.grounds[ground].cloth, budget);
            }
        }
        let (out, barred) = self.choose();
        shake(self, &out, &barred);
        true
    }

    /// Which pieces fit none of their cloths even by themselves. What lies anywhere comes back to it.
    fn hopeless(&mut self) -> Vec<bool> {
        let mut hopeless = vec![false; self.at.len()];
        let left: Vec<usize> = (0..self.at.len()).filter(|&piece| self.at[piece].is_none()).collect();
        if !left.is_empty() {
            let before = self.remember();
            self.clear();
            for piece in left {
                hopeless[piece] = !self.fits_alone(piece) && !self.fits_pushed(piece);
            }
            self.restore(&before);
        }
        hopeless
    }

    /// Which pieces are taken out, and which cloths are not to be used again at once.
    fn choose(&mut self) -> (Vec<usize>, Vec<usize>) {
        let opened: Vec<usize> =
            (0..self.grounds.len()).filter(|&g| !self.grounds[g].on.is_empty()).collect();
        if opened.is_empty() {
            return (Vec::new(), Vec::new());
        }
        let way = self.chance.share();
        let several = self.ask.cloths.len() > 1;
        if self.at.len() <= FEW && way < 0.5 {
            // Few pieces are laid anew all at once, each time from other ends.
            for ground in 0..self.grounds.len() {
                let heading = self.chance.below(16) as u8;
                self.grounds[ground].frame.turn(heading);
            }
            let count = self.ask.cloths.len();
            let barred = (0..self.chance.below(count)).map(|_| self.chance.below(count)).collect();
            return ((0..self.at.len()).collect(), barred);
        }
        if several && way < 0.1 {
            // Some cloths are given up for others.
            let mut barred: Vec<usize> = Vec::new();
            for _ in 0..=self.chance.below(3) {
                barred.push(self.grounds[opened[self.chance.below(opened.len())]].cloth);
            }
            return (self.all_on(&barred), barred);
        }
        if several && way < 0.45 {
            let ground = self.an_empty_one(&opened);
            let cloth = self.grounds[ground].cloth;
            let mut out = self.all_on(&[cloth]);
            for _ in 0..self.chance.below(3) {
                let other = opened[self.chance.below(opened.len())];
                if self.grounds[other].cloth != cloth {
                    out.extend(self.some_of(other));
                }
            }
            return (out, vec![cloth]);
        }
        let ground = opened[self.chance.below(opened.len())];
        if way < 0.75 {
            let out = self.grounds[ground].on.clone();
            let heading = self.chance.below(16) as u8;
            self.grounds[ground].frame.turn(heading);
            return (out, Vec::new());
        }
        let mut out = self.some_of(ground);
        if several {
            let other = opened[self.chance.below(opened.len())];
            out.extend(self.some_of(other));
        }
        out.sort_unstable();
        out.dedup();
        (out, Vec::new())
    }

    /// One of some parts: the emptier, the likelier.
    fn an_empty_one(&mut self, opened: &[usize]) -> usize {
        let weight = |&ground: &usize| {
            let there = &self.grounds[ground];
            (1.02 - there.filled / there.area).powi(2)
        };
        let weights: Vec<f64> = opened.iter().map(weight).collect();
        let mut at = self.chance.share() * weights.iter().sum::<f64>();
        for (&ground, weight) in opened.iter().zip(weights) {
            at -= weight;
            if at <= 0.0 {
                return ground;
            }
        }
        opened[0]
    }

    /// All pieces of some cloths.
    fn all_on(&self, cloths: &[usize]) -> Vec<usize> {
        let on = self.grounds.iter().filter(|ground| cloths.contains(&ground.cloth));
        on.flat_map(|ground| ground.on.iter().copied()).collect()
    }

    /// A piece of a part with those nearest to it.
    fn some_of(&mut self, ground: usize) -> Vec<usize> {
        let on = self.grounds[ground].on.clone();
        if on.is_empty() {
            return on;
        }
        let first = on[self.chance.below(on.len())];
        let count = 1 + self.chance.below(6.min(on.len()));
        let by = |piece: usize| self.at[piece].map(|At { by, .. }| by).unwrap_or_default();
        let mut near: Vec<(f64, usize)> = on.iter().map(|&p| ((by(p) - by(first)).length(), p)).collect();
        near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        near.into_iter().take(count).map(|(_, piece)| piece).collect()
    }
}
