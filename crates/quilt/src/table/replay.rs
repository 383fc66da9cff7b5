//! Replay: from a path of the log to what lies on the table.

use super::Table;
use crate::log::{Entry, Mark, StepId};
use crate::problem::Problem;

/// Where a replay stopped, and why. Everything before is on the table; nothing after is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Halt {
    /// Position of the entry in the path, from 0.
    pub at: usize,
    /// The step.
    pub mark: Mark,
    /// The rule it breaks.
    pub problem: Problem,
}

/// Replays a path. It reads nothing but the entries: no stash, no clock, no seed.
#[must_use]
pub fn replay(path: &[Entry]) -> (Table, Option<Halt>) {
    let mut table = Table::new();
    for (at, entry) in path.iter().enumerate() {
        if let Err(problem) = table.apply_entry(entry) {
            return (table, Some(Halt { at, mark: entry.mark, problem }));
        }
    }
    (table, None)
}

/// Replays stored bytes, one entry each, and checks that they lead to `tip`.
///
/// # Errors
/// A sentence saying which entry can't be read, or that the bytes don't lead to the tip.
pub fn replay_bytes<B: AsRef<[u8]>>(path: &[B], tip: StepId) -> Result<(Table, Option<Halt>), String> {
    let mut id = None;
    let mut entries = Vec::with_capacity(path.len());
    for (i, bytes) in path.iter().enumerate() {
        let bytes = bytes.as_ref();
        id = Some(StepId::of(id, bytes));
        let entry =
            Entry::from_bytes(bytes).map_err(|e| format!("entry {} of the log can't be read: {e}", i + 1))?;
        entries.push(entry);
    }
    if id != Some(tip) {
        return Err("the log's bytes do not lead to its tip: the file is damaged".to_owned());
    }
    Ok(replay(&entries))
}
