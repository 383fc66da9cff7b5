//! Straight strips where nothing is lost by them: the pieces of a part laid anew in bands across it, deepest first, so
//! that the first cuts are long and straight. It is kept when every piece has a place and they reach no further in.

use crate::ask::Turns;
use crate::seek::Turned;
use crate::state::{At, State};

/// How much further in bands may reach, in inches.
const FURTHER_IN: f64 = 1.0 / 64.0;
/// Steps across a part in which a place in a band is sought.
const STEPS: u32 = 64;

/// Lays each part in bands that loses nothing by it.
pub(crate) fn straighten(state: &mut State<'_>) {
    for ground in 0..state.grounds.len() {
        let on = state.grounds[ground].on.clone();
        if on.len() < 2 {
            continue;
        }
        let (before, far) = (state.remember(), state.far(ground));
        let is_better = |state: &State<'_>| {
            on.iter().all(|&piece| state.at[piece].is_some()) && state.far(ground) <= far + FURTHER_IN
        };
        for &piece in &on {
            state.take(piece);
        }
        lay(state, ground, &on);
        if !is_better(state) {
            state.restore(&before);
        }
    }
}

/// A piece at the turn at which it is least deep, and how it lies then.
fn flattest(state: &State<'_>, ground: usize, piece: usize) -> Option<(At, Turned)> {
    let there = &state.grounds[ground];
    let Turns::Only(turns) = &state.source(piece, there.cloth)?.turns else { return None };
    let lie = turns.iter().map(|&turn| {
        let turned = Turned::new(state.shape(piece), &there.frame, turn);
        (At { ground, turn, by: plane::Vec2::default() }, turned)
    });
    let fitting = lie.filter(|(_, turned)| turned.high[1] - turned.low[1] <= there.frame.wide());
    fitting.min_by(|a, b| deep(&a.1).total_cmp(&deep(&b.1)))
}

fn deep(turned: &Turned) -> f64 {
    turned.high[0] - turned.low[0]
}

fn lay(state: &mut State<'_>, ground: usize, pieces: &[usize]) {
    let mut left: Vec<(usize, At, Turned)> = Vec::new();
    for &piece in pieces {
        let Some((at, turned)) = flattest(state, ground, piece) else { return };
        left.push((piece, at, turned));
    }
    left.sort_by(|a, b| {
        let long = |turned: &Turned| turned.high[1] - turned.low[1];
        deep(&b.2).total_cmp(&deep(&a.2)).then(long(&b.2).total_cmp(&long(&a.2))).then(a.0.cmp(&b.0))
    });
    let frame = state.grounds[ground].frame.clone();
    let (mut from, step) = (0.0, frame.wide() / f64::from(STEPS));
    while !left.is_empty() && from < frame.long() {
        let (mut across, mut band) = (0.0, 0.0_f64);
        let mut waiting = Vec::new();
        for (piece, at, turned) in left {
            let mut found = None;
            let mut side = across;
            while found.is_none() && side + turned.high[1] - turned.low[1] <= frame.wide() + step {
                let by = frame.at(from - turned.low[0], side - turned.low[1]);
                if state.is_free(piece, At { by, ..at }) {
                    found = Some(by);
                } else {
                    side += step;
                }
            }
            match found {
                Some(mut by) => {
                    let mut back = step;
                    while side > across && back > crate::shape::TOUCH_IN / 2.0 {
                        let nearer = by - frame.across * back;
                        if state.is_free(piece, At { by: nearer, ..at }) {
                            by = nearer;
                        }
                        back /= 2.0;
                    }
                    state.put(piece, At { by, ..at });
                    across = by.dot(frame.across) - frame.at(0.0, 0.0).dot(frame.across) + turned.high[1];
                    band = band.max(deep(&turned));
                }
                None => waiting.push((piece, at, turned)),
            }
        }
        from += if band > 0.0 { band } else { step };
        left = waiting;
    }
}
