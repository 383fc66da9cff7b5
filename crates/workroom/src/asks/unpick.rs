//! Going back by one run.

use super::error::{AskError, Asked};
use crate::quilts::{At, UnpickReport};
use crate::workroom::Workroom;

impl Workroom {
    /// Goes back by one run: the last piece, trim or growing.
    ///
    /// # Errors
    /// Nothing to unpick; a head that moved.
    pub fn unpick_run(&mut self, at: &At) -> Asked<UnpickReport> {
        let log = self.log(&at.quilt, &at.head)?;
        let last = log.steps.last().ok_or(AskError::NothingOnTable)?;
        let run = last.entry.run.as_ref().map_or(last.entry.mark, |run| run.first);
        let keep = log
            .steps
            .iter()
            .position(|step| step.entry.run.as_ref().map_or(step.entry.mark, |own| own.first) == run);
        let to = keep.and_then(|count| count.checked_sub(1)).map(|i| log.steps[i].id);
        Ok(self.unpick(at, to)?)
    }
}
