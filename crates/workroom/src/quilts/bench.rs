//! The table of the last tip that was worked at, kept so that one more step costs one step.

use super::PathStep;
use crate::error::{Result, WorkroomError};
use quilt::log::{Entry, Mark, StepId};
use quilt::table::{Offcut, Table};
use std::collections::BTreeSet;

/// What lies on the table at a tip, and which marks its path has used.
#[derive(Clone, Debug)]
pub(crate) struct Bench {
    pub(super) tip: Option<StepId>,
    pub(super) table: Table,
    pub(super) marks: BTreeSet<Mark>,
}

impl Bench {
    /// Replays a path.
    pub(super) fn replay(path: &[PathStep]) -> Result<Self> {
        let mut bench = Self { tip: None, table: Table::new(), marks: BTreeSet::new() };
        for step in path {
            bench.apply(&step.entry)?;
            bench.tip = Some(step.id);
        }
        Ok(bench)
    }

    /// Applies one more entry and tells what it trimmed off.
    pub(super) fn apply_for_offcuts(&mut self, entry: &Entry) -> Result<Vec<Offcut>> {
        let before = self.table.offcuts().len();
        self.apply(entry)?;
        Ok(self.table.offcuts().get(before..).unwrap_or_default().to_vec())
    }

    /// Applies one more entry. On an error the table is as it was.
    pub(super) fn apply(&mut self, entry: &Entry) -> Result<()> {
        let refused = |problem| WorkroomError::Refused { mark: entry.mark, problem };
        if self.marks.contains(&entry.mark) {
            let place = quilt::Place::Step(entry.mark);
            return Err(refused(quilt::Problem::at(quilt::Rule::MarkTaken, place)));
        }
        self.table.apply_entry(entry).map_err(refused)?;
        self.marks.insert(entry.mark);
        Ok(())
    }
}
