//! Hand work on a figure: stitches, thread and time, by the same sums as all other hand sewing.

use super::FigureProblem;
use crate::stage::enough::{StageName, Work, WorkKind};
use crate::stage::habits::Habits;
use crate::stage::thread::Job;
use serde::Serialize;

/// What a figure takes by hand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct HandWork {
    /// Edge turned under and sewn, finished, both edges of bias stems included.
    pub turned_in: f64,
    /// Length of all stitched rows; a line wider than a row has several side by side.
    pub rows_in: f64,
    /// Stitches of edges and rows.
    pub stitches: u32,
    /// Thread in inches: whole needlefuls.
    pub thread_in: f64,
    /// Needlefuls.
    pub needlefuls: u32,
    /// Minutes at the maker's rates.
    pub minutes: f64,
}

impl HandWork {
    /// The work for so many inches of turned edge and of stitched rows.
    ///
    /// # Errors
    /// Habits that make no sense.
    pub fn of(turned_in: f64, rows_in: f64, habits: &Habits) -> Result<Self, FigureProblem> {
        habits.check()?;
        let each = |inches: f64| (inches * habits.thread.hand_stitches_per_in - 1e-9).ceil().max(0.0) as u32;
        let edges = habits.thread.needlefuls(Job::Applique, turned_in)?;
        let needlefuls = edges + habits.thread.needlefuls(Job::StitchedRows, rows_in)?;
        let lengths = Self { turned_in, rows_in, ..Self::default() };
        Ok(Self {
            stitches: each(turned_in) + each(rows_in),
            thread_in: needlefuls * habits.thread.needleful_in,
            needlefuls: needlefuls as u32,
            minutes: habits.rates.minutes_of(&lengths.work()),
            ..lengths
        })
    }

    /// What there is to do.
    #[must_use]
    pub fn work(&self) -> [Work; 2] {
        let of = |kind, amount| Work { stage: StageName::Figure, kind, amount };
        [of(WorkKind::TurnUnder, self.turned_in), of(WorkKind::StitchRow, self.rows_in)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Stitches 1/8 apart: thesprucecrafts.com, kathykwylie.com 2015 (needle-turn). The rest follows
    // from the formula, which is geometry; 14 of each 18 inches are sewn (common practice, no source).
    #[test]
    fn a_yard_of_edge_takes_eight_stitches_an_inch_and_twice_its_length_in_thread() {
        let of = |turned_in, rows_in| HandWork::of(turned_in, rows_in, &Habits::default()).unwrap();
        let work = of(36.0, 0.0);
        assert_eq!((work.stitches, work.needlefuls), (288, (72.0_f64 / 14.0).ceil() as u32));
        assert_eq!((work.thread_in, work.minutes), (6.0 * 18.0, 54.0));
        // Four times its length: one forward, two behind, one for the dips.
        assert_eq!(of(0.0, 7.0).thread_in, 2.0 * 18.0);
        assert_eq!(of(0.0, 0.0), HandWork::default());
    }

    #[test]
    fn a_makers_own_rates_and_thread_count() {
        let mut habits = Habits::default();
        habits.rates.minutes_per_turned_in = 3.0;
        habits.thread.needleful_in = 24.0;
        let work = HandWork::of(10.0, 0.0, &habits).unwrap();
        assert_eq!((work.minutes, work.thread_in), (30.0, 24.0));
        habits.rates.minutes_per_row_in = -1.0;
        assert!(HandWork::of(10.0, 0.0, &habits).is_err());
    }
}
