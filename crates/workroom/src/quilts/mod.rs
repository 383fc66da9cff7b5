//! Quilts: named trees of steps with heads, and what can be done with them.
//!
//! A head has a tip, how far it is sewn, and a number of changes. Whoever writes names the number
//! they know; if somebody else was quicker, nothing happens and they are told.

mod amend;
mod append;
mod bench;
mod sewn;
mod shelf;
mod times;
mod undo;
mod unpick;

pub use amend::{Amend, Amended};
pub(crate) use append::JoinedFrom;
pub use append::next_mark;
pub(crate) use bench::Bench;
pub use sewn::SewnReport;
pub(crate) use sewn::tell_sewn;
pub use shelf::{Log, LogStep, QuiltInfo};
pub use times::{Moment, StepTimes};
pub use unpick::UnpickReport;

use crate::deed::Deed;
use crate::error::{Result, WorkroomError};
use crate::store::entries;
use crate::store::heads::{self, HeadRow};
use crate::store::quilts::{self, QuiltKey};
use quilt::log::{Entry, StepId};
use rusqlite::Connection;

/// The head that every quilt has from the start.
pub const MAIN: &str = "main";

/// Quilt and head of `NAME`, or `NAME:HEAD`.
#[must_use]
pub fn head_named(name: &str) -> (String, String) {
    let (quilt, head) = name.split_once(':').unwrap_or((name, MAIN));
    (quilt.to_owned(), head.to_owned())
}

/// A head, and the number of changes at which the caller knows it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct At {
    /// The quilt's name.
    pub quilt: String,
    /// The head's name.
    pub head: String,
    /// The number of changes.
    pub version: u64,
}

/// A head as it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// The quilt's name.
    pub quilt: String,
    /// Its own name.
    pub name: String,
    /// The last step; `None` on the empty table.
    pub tip: Option<StepId>,
    /// The last step that is sewn; the rest of the path is chalk.
    pub sewn: Option<StepId>,
    /// How often it has changed.
    pub version: u64,
}

impl Head {
    pub(crate) fn of(quilt: &str, row: HeadRow) -> Self {
        let HeadRow { name, tip, sewn, version } = row;
        Self { quilt: quilt.to_owned(), name, tip, sewn, version }
    }

    /// What a caller names who wants to change it.
    #[must_use]
    pub fn at(&self) -> At {
        At { quilt: self.quilt.clone(), head: self.name.clone(), version: self.version }
    }
}

/// The quilt and the head at which the caller knows it.
fn known_head(c: &Connection, at: &At) -> Result<(QuiltKey, HeadRow)> {
    let key = quilts::get(c, &at.quilt)?;
    let row = heads::find(c, key, &at.head)?
        .ok_or_else(|| WorkroomError::NoSuchHead { quilt: at.quilt.clone(), head: at.head.clone() })?;
    if row.version != at.version {
        return Err(WorkroomError::HeadMoved {
            quilt: at.quilt.clone(),
            head: at.head.clone(),
            expected: at.version,
            found: row.version,
        });
    }
    Ok((key, row))
}

/// One step of a path.
struct PathStep {
    id: StepId,
    entry: Entry,
    bytes: Vec<u8>,
}

/// The path to a tip, read.
fn path(c: &Connection, tip: Option<StepId>) -> Result<Vec<PathStep>> {
    let read = |row: entries::Row| {
        let entry = Entry::from_bytes(&row.bytes)
            .map_err(|e| WorkroomError::damaged(format!("step {} can't be read: {e}", row.id)))?;
        Ok(PathStep { id: row.id, entry, bytes: row.bytes })
    };
    entries::path(c, tip)?.into_iter().map(read).collect()
}

/// How many steps of a path are sewn.
fn sewn_count(path: &[PathStep], sewn: Option<StepId>) -> usize {
    sewn.and_then(|sewn| path.iter().position(|step| step.id == sewn)).map_or(0, |i| i + 1)
}

/// All that is sewn, on whatever head it reaches furthest: reality has no branches.
fn sewn_path(c: &Connection, key: QuiltKey) -> Result<Vec<PathStep>> {
    let mut furthest = None;
    for head in heads::all(c, key)? {
        if entries::is_before(c, furthest, head.sewn)? {
            furthest = head.sewn;
        }
    }
    path(c, furthest)
}

/// The last of the first `count` steps.
fn step_before(path: &[PathStep], count: usize) -> Option<StepId> {
    count.checked_sub(1).and_then(|i| path.get(i)).map(|step| step.id)
}

/// Moves the sewn mark of every other head that is sewn beyond `to` back to `to`: reality has no
/// branches.
fn retract_sewn(deed: &mut Deed<'_>, key: QuiltKey, except: &str, to: Option<StepId>) -> Result<()> {
    for head in heads::all(deed.c, key)? {
        let beyond = head.sewn != to && entries::is_before(deed.c, to, head.sewn)?;
        if head.name != except && head.sewn.is_some() && beyond {
            deed.put_head(key, Some(&head), &head.name, head.tip, to)?;
        }
    }
    Ok(())
}

/// Checks a name for a quilt or a head.
pub(crate) fn check_name(name: &str) -> Result<()> {
    let why = if name.trim().is_empty() {
        "it is empty"
    } else if name.trim() != name {
        "it begins or ends with a space"
    } else if name.chars().count() > 100 {
        "it is longer than 100 letters"
    } else if name.chars().any(char::is_control) {
        "it has a character in it that can't be seen"
    } else {
        return Ok(());
    };
    Err(WorkroomError::BadName { name: name.to_owned(), why })
}
