//! The table `heads`: for each quilt its named tips, how far each is sewn, and how often it has
//! changed.

use super::quilts::QuiltKey;
use crate::error::Result;
use quilt::log::StepId;
use rusqlite::{Connection, OptionalExtension, Row};

pub(super) const CREATE: &str = "
CREATE TABLE heads (
    quilt   INTEGER NOT NULL REFERENCES quilts (id) ON DELETE CASCADE,
    name    TEXT NOT NULL,
    tip     BLOB REFERENCES entries (id),
    sewn    BLOB REFERENCES entries (id),
    version INTEGER NOT NULL,
    PRIMARY KEY (quilt, name)
) STRICT, WITHOUT ROWID";

/// One head as stored.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct HeadRow {
    pub(crate) name: String,
    pub(crate) tip: Option<StepId>,
    pub(crate) sewn: Option<StepId>,
    pub(crate) version: u64,
}

fn read(row: &Row<'_>) -> rusqlite::Result<HeadRow> {
    let step = |bytes: Option<[u8; 32]>| bytes.map(StepId);
    let version: i64 = row.get(3)?;
    Ok(HeadRow {
        name: row.get(0)?,
        tip: step(row.get(1)?),
        sewn: step(row.get(2)?),
        version: version.unsigned_abs(),
    })
}

pub(crate) fn find(c: &Connection, quilt: QuiltKey, name: &str) -> Result<Option<HeadRow>> {
    let mut select =
        c.prepare_cached("SELECT name, tip, sewn, version FROM heads WHERE quilt = ?1 AND name = ?2")?;
    Ok(select.query_row((quilt, name), read).optional()?)
}

/// All heads of a quilt: the table itself, then the others by name.
pub(crate) fn all(c: &Connection, quilt: QuiltKey) -> Result<Vec<HeadRow>> {
    let mut select = c.prepare_cached(
        "SELECT name, tip, sewn, version FROM heads WHERE quilt = ?1 ORDER BY name <> 'main', name",
    )?;
    let rows = select.query_map([quilt], read)?;
    Ok(rows.collect::<std::result::Result<_, _>>()?)
}

/// Writes a head as it is given, its number of changes included.
pub(crate) fn put(c: &Connection, quilt: QuiltKey, head: &HeadRow) -> Result<()> {
    let mut put = c.prepare_cached(
        "INSERT INTO heads (quilt, name, tip, sewn, version) VALUES (?1, ?2, ?3, ?4, ?5)
         ON CONFLICT DO UPDATE SET tip = ?3, sewn = ?4, version = ?5",
    )?;
    let version = i64::try_from(head.version).unwrap_or(i64::MAX);
    put.execute((quilt, &head.name, head.tip.map(|s| s.0), head.sewn.map(|s| s.0), version))?;
    Ok(())
}

pub(crate) fn remove(c: &Connection, quilt: QuiltKey, name: &str) -> Result<()> {
    c.execute("DELETE FROM heads WHERE quilt = ?1 AND name = ?2", (quilt, name))?;
    Ok(())
}
