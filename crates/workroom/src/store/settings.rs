//! The table `settings`: the maker's own numbers and habits, by name, as JSON.

use crate::error::Result;
use rusqlite::{Connection, OptionalExtension};

pub(super) const CREATE: &str = "
CREATE TABLE settings (
    name TEXT PRIMARY KEY,
    json TEXT NOT NULL
) STRICT, WITHOUT ROWID";

pub(crate) fn get(c: &Connection, name: &str) -> Result<Option<String>> {
    let mut select = c.prepare_cached("SELECT json FROM settings WHERE name = ?1")?;
    Ok(select.query_row([name], |row| row.get(0)).optional()?)
}

pub(crate) fn put(c: &Connection, name: &str, json: &str) -> Result<()> {
    c.execute(
        "INSERT INTO settings (name, json) VALUES (?1, ?2) ON CONFLICT DO UPDATE SET json = ?2",
        (name, json),
    )?;
    Ok(())
}
