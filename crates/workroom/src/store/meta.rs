//! The table `meta`: the workroom's version and its own name.

use crate::error::Result;
use rusqlite::Connection;

pub(super) const CREATE: &str = "
CREATE TABLE meta (
    one     INTEGER PRIMARY KEY CHECK (one = 1),
    version INTEGER NOT NULL,
    id      BLOB NOT NULL CHECK (length(id) = 16)
) STRICT";

/// Sixteen bytes that no other workroom has. Names of cloths are derived from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct WorkroomId(pub [u8; 16]);

/// Sixteen random bytes, drawn by the database.
pub(super) fn draw_id(c: &Connection) -> Result<WorkroomId> {
    Ok(WorkroomId(c.query_row("SELECT randomblob(16)", [], |row| row.get(0))?))
}

pub(super) fn insert(c: &Connection, version: i64, id: WorkroomId) -> Result<()> {
    c.execute("INSERT INTO meta (one, version, id) VALUES (1, ?1, ?2)", (version, id.0))?;
    Ok(())
}

pub(super) fn version(c: &Connection) -> Result<i64> {
    Ok(c.query_row("SELECT version FROM meta", [], |row| row.get(0))?)
}

pub(super) fn set_version(c: &Connection, version: i64) -> Result<()> {
    c.execute("UPDATE meta SET version = ?1", [version])?;
    Ok(())
}

/// The workroom's own name.
pub(crate) fn id(c: &Connection) -> Result<WorkroomId> {
    Ok(WorkroomId(c.query_row("SELECT id FROM meta", [], |row| row.get(0))?))
}
