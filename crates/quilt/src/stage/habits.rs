//! The maker's own hand: stitches, thread and pace, the same for every stage.

use super::enough::Rates;
use super::thread::{ThreadChoice, ThreadProblem};
use serde::{Deserialize, Serialize};

/// How a maker sews, and how fast.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Habits {
    /// Stitches and thread.
    pub thread: ThreadChoice,
    /// Minutes, and what an hour is worth.
    pub rates: Rates,
}

impl Habits {
    /// # Errors
    /// The first number that makes no sense, and what it must be.
    pub fn check(&self) -> Result<(), ThreadProblem> {
        self.thread.check()?;
        Ok(self.rates.check()?)
    }
}
