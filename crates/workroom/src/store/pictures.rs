//! The table `pictures`: which pictures lie in the folder. A row is written when its file is safe.

use crate::error::Result;
use rusqlite::{Connection, OptionalExtension};

pub(super) const CREATE: &str = "
CREATE TABLE pictures (
    hash   TEXT PRIMARY KEY,
    format TEXT NOT NULL,
    bytes  INTEGER NOT NULL
) STRICT, WITHOUT ROWID";

pub(crate) fn insert(c: &Connection, hash: &str, format: &str, bytes: usize) -> Result<()> {
    c.execute(
        "INSERT INTO pictures (hash, format, bytes) VALUES (?1, ?2, ?3) ON CONFLICT DO NOTHING",
        (hash, format, i64::try_from(bytes).unwrap_or(i64::MAX)),
    )?;
    Ok(())
}

/// The format of a picture that is there.
pub(crate) fn format(c: &Connection, hash: &str) -> Result<Option<String>> {
    let mut select = c.prepare_cached("SELECT format FROM pictures WHERE hash = ?1")?;
    Ok(select.query_row([hash], |row| row.get(0)).optional()?)
}
