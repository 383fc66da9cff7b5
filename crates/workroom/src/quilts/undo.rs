//! Undo: the last gesture is taken back, whatever it was, over heads and ledger at once.

use crate::deed::Deed;
use crate::error::{Result, WorkroomError};
use crate::stash::Fact;
use crate::store::deeds::{self, Change, DeedRow, HeadState};
use crate::store::heads::{self, HeadRow};
use crate::store::{quilts, wishes};
use crate::workroom::Workroom;

impl Workroom {
    /// Takes the last deed back and returns what it was.
    ///
    /// # Errors
    /// Nothing to undo; a head that has changed since in a way the deeds don't know of.
    pub fn undo(&mut self) -> Result<String> {
        self.deed("undo", |deed| {
            let last = deeds::last(deed.c)?.ok_or(WorkroomError::NothingToUndo)?;
            for change in last.changes.iter().rev() {
                take_back(deed, &last, change)?;
            }
            deeds::mark_undone(deed.c, last.seq)?;
            Ok(last.what)
        })
    }

    /// What [`Workroom::undo`] would take back.
    ///
    /// # Errors
    /// Trouble with the store.
    pub fn last_deed(&self) -> Result<Option<String>> {
        Ok(deeds::last(&*self.store.view()?)?.map(|deed| deed.what))
    }
}

fn take_back(deed: &mut Deed<'_>, of: &DeedRow, change: &Change) -> Result<()> {
    match change {
        Change::Head { quilt, name, before, after } => {
            let now = heads::find(deed.c, *quilt, name)?;
            if !same(now.as_ref(), after.as_ref())? {
                return Err(WorkroomError::CannotUndo(of.what.clone()));
            }
            let Some(before) = before else { return heads::remove(deed.c, *quilt, name) };
            let (tip, sewn) = before.steps()?;
            let version = now.map_or(before.version, |head| head.version) + 1;
            heads::put(deed.c, *quilt, &HeadRow { name: name.clone(), tip, sewn, version })
        }
        Change::Fact { seq } => deed.unrecorded_fact(&Fact::Void(*seq)).map(|_| ()),
        Change::Wish { quilt, before } => wishes::put_text(deed.c, *quilt, before.as_deref()),
        Change::Quilt { quilt } => quilts::remove(deed.c, *quilt),
        Change::Name { quilt, before } => quilts::rename(deed.c, *quilt, before),
    }
}

fn same(now: Option<&HeadRow>, then: Option<&HeadState>) -> Result<bool> {
    match (now, then) {
        (None, None) => Ok(true),
        (Some(now), Some(then)) => Ok((now.tip, now.sewn) == then.steps()?),
        _ => Ok(false),
    }
}
