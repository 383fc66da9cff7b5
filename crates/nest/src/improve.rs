//! Taking out and putting back: a cloth is emptied and its pieces are sought a place elsewhere; a part is laid anew
//! from another end; neighbours are let go together. What is better is kept, and for a while what is a little worse.

use crate::ask::{Answer, Ask};
use crate::bands::straighten;
use crate::problem::NestProblem;
use crate::state::{At, State};

/// So few pieces are also laid anew all at once.
const FEW: usize = 8;

/// Finds places for pieces. `seen` is called before each round with how many are done, and stops it by answering no:
/// what was best until then is answered.
///
/// # Errors
/// What can't be asked. That pieces find no place is an answer.
pub fn nest(ask: &Ask, seen: &mut dyn FnMut(u32) -> bool) -> Result<Answer, NestProblem> {
    let mut state = State::new(ask)?;
    let all: Vec<usize> = (0..ask.pieces.len()).collect();
    for piece in state.by_area(&all, 0.0) {
        state.put_best(piece, &[], 0.0);
    }
    let rounds = ask.effort.rounds;
    let mut now = state.cost();
    let mut kept = state.remember();
    let (mut best, mut least) = (kept.clone(), now);
    let costs = state.all_cost / ask.cloths.len() as f64;
    for round in 0..rounds {
        if !seen(round) {
            break;
        }
        let (out, barred) = state.choose();
        shake(&mut state, &out, &barred);
        let cost = state.cost();
        let worse = 0.03 * costs * (1.0 - f64::from(round) / f64::from(rounds));
        if cost <= now + worse {
            now = cost;
            kept = state.remember();
            if cost < least - 1e-9 {
                least = cost;
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
