//! The table `deeds`: each gesture of the maker's, with what takes it back.

use super::heads::HeadRow;
use super::quilts::QuiltKey;
use crate::error::{Result, WorkroomError};
use quilt::log::StepId;
use rusqlite::{Connection, OptionalExtension};
use serde::{Deserialize, Serialize};

pub(super) const CREATE: &str = "
CREATE TABLE deeds (
    seq    INTEGER PRIMARY KEY AUTOINCREMENT,
    what   TEXT NOT NULL,
    back   TEXT NOT NULL,
    undone INTEGER NOT NULL DEFAULT 0
) STRICT";

/// When each deed was done, in seconds since 1970; unknown for deeds of before this was kept.
pub(super) const WITH_TIME: &str = "ALTER TABLE deeds ADD COLUMN at INTEGER";

/// A head as a deed remembers it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct HeadState {
    pub(crate) tip: Option<String>,
    pub(crate) sewn: Option<String>,
    pub(crate) version: u64,
}

impl HeadState {
    pub(crate) fn of(head: &HeadRow) -> Self {
        let text = |step: Option<StepId>| step.map(|s| s.to_string());
        Self { tip: text(head.tip), sewn: text(head.sewn), version: head.version }
    }

    pub(crate) fn steps(&self) -> Result<(Option<StepId>, Option<StepId>)> {
        let step = |text: &Option<String>| text.as_ref().map(|t| t.parse()).transpose();
        let bad = |e| WorkroomError::damaged(format!("a deed can't be read: {e}"));
        Ok((step(&self.tip).map_err(bad)?, step(&self.sewn).map_err(bad)?))
    }
}

/// One change of a deed, with what takes it back.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(crate) enum Change {
    /// A head was made (no `before`), moved, or taken away (no `after`).
    Head { quilt: QuiltKey, name: String, before: Option<HeadState>, after: Option<HeadState> },
    /// A fact was added to the stash.
    Fact { seq: u64 },
    /// A wish was made or changed.
    Wish { quilt: QuiltKey, before: Option<String> },
    /// A quilt was begun.
    Quilt { quilt: QuiltKey },
    /// A quilt was given another name.
    Name { quilt: QuiltKey, before: String },
}

/// A deed as stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct DeedRow {
    pub(crate) seq: i64,
    pub(crate) what: String,
    pub(crate) changes: Vec<Change>,
}

pub(crate) fn insert(c: &Connection, what: &str, changes: &[Change]) -> Result<()> {
    let back = serde_json::to_string(changes)
        .map_err(|e| WorkroomError::damaged(format!("a deed can't be written: {e}")))?;
    c.prepare_cached("INSERT INTO deeds (what, back, at) VALUES (?1, ?2, unixepoch())")?
        .execute((what, back))?;
    Ok(())
}

/// The last deed that stands.
pub(crate) fn last(c: &Connection) -> Result<Option<DeedRow>> {
    let mut select =
        c.prepare_cached("SELECT seq, what, back FROM deeds WHERE undone = 0 ORDER BY seq DESC LIMIT 1")?;
    let row = select.query_row([], |row| Ok((row.get(0)?, row.get(1)?, row.get::<_, String>(2)?)));
    row.optional()?.map(|(seq, what, back)| parse(seq, what, &back)).transpose()
}

/// The deeds that stand and are called `what`, last one first.
pub(crate) fn called(c: &Connection, what: &str) -> Result<Vec<DeedRow>> {
    let mut select = c.prepare_cached(
        "SELECT seq, what, back FROM deeds WHERE undone = 0 AND what = ?1 ORDER BY seq DESC LIMIT 200",
    )?;
    let rows = select.query_map([what], |row| Ok((row.get(0)?, row.get(1)?, row.get::<_, String>(2)?)))?;
    let rows = rows.collect::<std::result::Result<Vec<_>, _>>()?;
    rows.into_iter().map(|(seq, what, back)| parse(seq, what, &back)).collect()
}

/// A deed that stands, with when it was done.
#[derive(Clone, Debug)]
pub(crate) struct Dated {
    /// Seconds since 1970, and day and time as this machine's clock told them.
    pub(crate) at: Option<(i64, String)>,
    pub(crate) changes: Vec<Change>,
}

/// All deeds that stand, first one first.
pub(crate) fn dated(c: &Connection) -> Result<Vec<Dated>> {
    let mut select = c.prepare_cached(
        "SELECT seq, what, back, at, strftime('%Y-%m-%d %H:%M:%S', at, 'unixepoch', 'localtime')
         FROM deeds WHERE undone = 0 ORDER BY seq",
    )?;
    let rows = select.query_map([], |row| {
        let at: Option<i64> = row.get(3)?;
        Ok((row.get(0)?, row.get(1)?, row.get::<_, String>(2)?, at.zip(row.get(4)?)))
    })?;
    let rows = rows.collect::<std::result::Result<Vec<_>, _>>()?;
    let read = |(seq, what, back, at): (i64, String, String, Option<(i64, String)>)| {
        Ok(Dated { at, changes: parse(seq, what, &back)?.changes })
    };
    rows.into_iter().map(read).collect()
}

fn parse(seq: i64, what: String, back: &str) -> Result<DeedRow> {
    let changes = serde_json::from_str(back)
        .map_err(|e| WorkroomError::damaged(format!("deed {seq} can't be read: {e}")))?;
    Ok(DeedRow { seq, what, changes })
}

pub(crate) fn mark_undone(c: &Connection, seq: i64) -> Result<()> {
    c.execute("UPDATE deeds SET undone = 1 WHERE seq = ?1", [seq])?;
    Ok(())
}
