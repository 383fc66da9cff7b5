//! The table `wishes`: what the maker wishes of each quilt, as JSON.

use super::quilts::QuiltKey;
use crate::error::{Result, WorkroomError};
use quilt::wish::Wish;
use rusqlite::{Connection, OptionalExtension};

pub(super) const CREATE: &str = "
CREATE TABLE wishes (
    quilt INTEGER PRIMARY KEY REFERENCES quilts (id) ON DELETE CASCADE,
    json  TEXT NOT NULL
) STRICT";

/// The wish of a quilt; the usual one when none was made.
pub(crate) fn get(c: &Connection, quilt: QuiltKey) -> Result<Wish> {
    match get_text(c, quilt)? {
        Some(json) => serde_json::from_str(&json)
            .map_err(|e| WorkroomError::damaged(format!("the wish of a quilt can't be read: {e}"))),
        None => Ok(Wish::default()),
    }
}

pub(crate) fn get_text(c: &Connection, quilt: QuiltKey) -> Result<Option<String>> {
    let mut select = c.prepare_cached("SELECT json FROM wishes WHERE quilt = ?1")?;
    Ok(select.query_row([quilt], |row| row.get(0)).optional()?)
}

/// Writes the wish of a quilt, or takes it away.
pub(crate) fn put_text(c: &Connection, quilt: QuiltKey, json: Option<&str>) -> Result<()> {
    match json {
        Some(json) => c.execute(
            "INSERT INTO wishes (quilt, json) VALUES (?1, ?2) ON CONFLICT DO UPDATE SET json = ?2",
            (quilt, json),
        )?,
        None => c.execute("DELETE FROM wishes WHERE quilt = ?1", [quilt])?,
    };
    Ok(())
}
