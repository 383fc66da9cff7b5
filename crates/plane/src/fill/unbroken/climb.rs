//! Which height the stroke has reached after so many turns.
//!
//! Inner turns climb evenly, one row a turn. A spiral that climbed so to the end would meet the
//! outline in a wedge; so over the last turns the climb is gathered more and more into a short
//! step just before the start direction comes round, and the last turn is level: the outline.

use crate::fill::Wobble;

/// So many last turns pass from an even climb to a step, or half of them if there are fewer.
const GATHERING: f64 = 48.0;

/// Turns to rows.
#[derive(Clone, Copy, Debug)]
pub(super) struct Climb {
    /// The outline's height.
    pub(super) rows: f64,
    /// Share of a turn that a step takes.
    pub(super) step: f64,
    /// Its amplitude counted in rows.
    pub(super) wobble: Option<Wobble>,
    /// Radius of the first turn and its growth by row, to tell inches along the stroke.
    pub(super) first: f64,
    pub(super) apart: f64,
}

impl Climb {
    /// Where the stroke stops, in turns: where the last step begins, as far from itself as rows
    /// are apart.
    pub(super) fn end(&self) -> f64 {
        self.rows + 1.0 - self.step
    }

    /// Height after so many turns, and its growth by turn.
    pub(super) fn at(&self, turns: f64) -> (f64, f64) {
        let turn = turns.floor();
        let share = turns - turn;
        let gathering = (self.rows / 2.0).min(GATHERING);
        let gathered = ((turn - (self.rows - 1.0 - gathering)) / gathering).clamp(0.0, 1.0);
        let into = ((share - (1.0 - self.step)) / self.step).clamp(0.0, 1.0);
        let (step, rise) = (into * into * (3.0 - 2.0 * into), 6.0 * into * (1.0 - into) / self.step);
        let height = turn + (1.0 - gathered) * share + gathered * step;
        let growth = (1.0 - gathered) + gathered * rise;
        if height >= self.rows || turn >= self.rows {
            return (self.rows, 0.0);
        }
        let Some(wobble) = self.wobble else { return (height, growth) };
        let (swing, by_inch) = wobble.share(0, self.inches(turns));
        let fade = turns.min(self.rows - height).clamp(0.0, 1.0);
        let by_turn = by_inch * std::f64::consts::TAU * (self.first + self.apart * turns);
        let by = wobble.amplitude_in * fade;
        (height + by * swing, growth + by * by_turn)
    }

    /// About how many inches have been sewn after so many turns.
    fn inches(&self, turns: f64) -> f64 {
        std::f64::consts::TAU * turns * (self.first + self.apart * turns / 2.0)
    }
}
