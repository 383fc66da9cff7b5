//! The table `entries`: the steps of all quilts, by name, as stored bytes. They are never changed
//! and never removed.

use crate::error::{Result, WorkroomError};
use quilt::log::StepId;
use rusqlite::{Connection, OptionalExtension};

pub(super) const CREATE: &str = "
CREATE TABLE entries (
    id     BLOB PRIMARY KEY CHECK (length(id) = 32),
    parent BLOB REFERENCES entries (id),
    depth  INTEGER NOT NULL,
    bytes  BLOB NOT NULL
) STRICT, WITHOUT ROWID";

/// A stored entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Row {
    pub(crate) id: StepId,
    pub(crate) parent: Option<StepId>,
    pub(crate) bytes: Vec<u8>,
}

/// Adds an entry after its parent and returns its name. One that is there already stays.
pub(crate) fn insert(c: &Connection, parent: Option<StepId>, bytes: &[u8]) -> Result<StepId> {
    let id = StepId::of(parent, bytes);
    let depth = match parent {
        Some(parent) => depth(c, parent)?.ok_or(WorkroomError::NoSuchStep(parent))? + 1,
        None => 1,
    };
    let mut insert = c.prepare_cached(
        "INSERT INTO entries (id, parent, depth, bytes) VALUES (?1, ?2, ?3, ?4) ON CONFLICT DO NOTHING",
    )?;
    insert.execute((id.0, parent.map(|p| p.0), depth, bytes))?;
    Ok(id)
}

/// How many entries lie on the path to an entry, itself included; `None` when there is no such.
pub(crate) fn depth(c: &Connection, id: StepId) -> Result<Option<i64>> {
    let mut select = c.prepare_cached("SELECT depth FROM entries WHERE id = ?1")?;
    Ok(select.query_row([id.0], |row| row.get(0)).optional()?)
}

/// The parent of an entry.
pub(crate) fn parent(c: &Connection, id: StepId) -> Result<Option<StepId>> {
    let mut select = c.prepare_cached("SELECT parent FROM entries WHERE id = ?1")?;
    let parent: Option<Option<[u8; 32]>> = select.query_row([id.0], |row| row.get(0)).optional()?;
    Ok(parent.ok_or(WorkroomError::NoSuchStep(id))?.map(StepId))
}

/// The path to a tip, first step first. Names are checked against the bytes on the way.
pub(crate) fn path(c: &Connection, tip: Option<StepId>) -> Result<Vec<Row>> {
    let Some(tip) = tip else { return Ok(Vec::new()) };
    let mut select = c.prepare_cached(
        "WITH RECURSIVE up (id, parent, bytes, depth) AS (
             SELECT id, parent, bytes, depth FROM entries WHERE id = ?1
             UNION ALL
             SELECT e.id, e.parent, e.bytes, e.depth FROM entries e JOIN up ON e.id = up.parent)
         SELECT id, parent, bytes FROM up",
    )?;
    let rows = select.query_map([tip.0], |row| {
        let parent: Option<[u8; 32]> = row.get(1)?;
        Ok(Row { id: StepId(row.get(0)?), parent: parent.map(StepId), bytes: row.get(2)? })
    })?;
    let mut path = rows.collect::<std::result::Result<Vec<_>, _>>()?;
    path.reverse();
    check(&path, tip)?;
    Ok(path)
}

fn check(path: &[Row], tip: StepId) -> Result<()> {
    let mut before = None;
    for row in path {
        if row.parent != before || StepId::of(before, &row.bytes) != row.id {
            return Err(WorkroomError::damaged(format!("the stored bytes of step {} have changed", row.id)));
        }
        before = Some(row.id);
    }
    if before == Some(tip) { Ok(()) } else { Err(WorkroomError::NoSuchStep(tip)) }
}

/// Whether `first` lies on the path to `second`, or is it. `None` is the empty table, before
/// every first step.
pub(crate) fn is_before(c: &Connection, first: Option<StepId>, second: Option<StepId>) -> Result<bool> {
    let (Some(first), Some(second)) = (first, second) else { return Ok(first.is_none()) };
    let no_step = || WorkroomError::NoSuchStep(first);
    let goal = depth(c, first)?.ok_or_else(no_step)?;
    let mut at = second;
    let mut level = depth(c, second)?.ok_or(WorkroomError::NoSuchStep(second))?;
    while level > goal {
        let Some(up) = parent(c, at)? else { return Ok(false) };
        (at, level) = (up, level - 1);
    }
    Ok(at == first)
}
