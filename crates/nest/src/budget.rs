//! How long it is sought: rounds are counted, and whoever waits may stop.

/// Rounds that are left.
pub(crate) struct Budget<'a> {
    pub(crate) done: u32,
    pub(crate) rounds: u32,
    seen: &'a mut dyn FnMut(u32) -> bool,
    stopped: bool,
}

impl<'a> Budget<'a> {
    pub(crate) fn new(rounds: u32, seen: &'a mut dyn FnMut(u32) -> bool) -> Self {
        Self { done: 0, rounds, seen, stopped: false }
    }

    /// Takes a round; none is left when it says no.
    pub(crate) fn next(&mut self) -> bool {
        if self.stopped || self.done >= self.rounds {
            return false;
        }
        self.stopped = !(self.seen)(self.done);
        if !self.stopped {
            self.done += 1;
        }
        !self.stopped
    }

    /// What is left of it, from 1 to 0.
    pub(crate) fn left(&self) -> f64 {
        1.0 - f64::from(self.done) / f64::from(self.rounds.max(1))
    }
}
