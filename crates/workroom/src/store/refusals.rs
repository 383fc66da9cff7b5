//! The table `refusals`: proposals that the maker did not want, so that they don't come again.

use super::quilts::QuiltKey;
use crate::error::Result;
use rusqlite::Connection;

pub(super) const CREATE: &str = "
CREATE TABLE refusals (
    seq   INTEGER PRIMARY KEY AUTOINCREMENT,
    quilt INTEGER NOT NULL REFERENCES quilts (id) ON DELETE CASCADE,
    json  TEXT NOT NULL
) STRICT";

pub(crate) fn insert(c: &Connection, quilt: QuiltKey, json: &str) -> Result<()> {
    c.execute("INSERT INTO refusals (quilt, json) VALUES (?1, ?2)", (quilt, json))?;
    Ok(())
}

/// All refusals of a quilt, oldest first.
pub(crate) fn all(c: &Connection, quilt: QuiltKey) -> Result<Vec<String>> {
    let mut select = c.prepare_cached("SELECT json FROM refusals WHERE quilt = ?1 ORDER BY seq")?;
    let rows = select.query_map([quilt], |row| row.get(0))?;
    Ok(rows.collect::<std::result::Result<_, _>>()?)
}

/// Forgets them.
pub(crate) fn clear(c: &Connection, quilt: QuiltKey) -> Result<()> {
    c.execute("DELETE FROM refusals WHERE quilt = ?1", [quilt])?;
    Ok(())
}
