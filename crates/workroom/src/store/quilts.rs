//! The table `quilts`: their names.

use crate::error::{Result, WorkroomError};
use rusqlite::{Connection, OptionalExtension};

pub(super) const CREATE: &str = "
CREATE TABLE quilts (
    id   INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL UNIQUE
) STRICT";

/// A quilt's number in this workroom.
pub(crate) type QuiltKey = i64;

pub(crate) fn insert(c: &Connection, name: &str) -> Result<QuiltKey> {
    if find(c, name)?.is_some() {
        return Err(WorkroomError::QuiltTaken(name.to_owned()));
    }
    c.execute("INSERT INTO quilts (name) VALUES (?1)", [name])?;
    Ok(c.last_insert_rowid())
}

pub(crate) fn find(c: &Connection, name: &str) -> Result<Option<QuiltKey>> {
    let mut select = c.prepare_cached("SELECT id FROM quilts WHERE name = ?1")?;
    Ok(select.query_row([name], |row| row.get(0)).optional()?)
}

/// The quilt of that name.
pub(crate) fn get(c: &Connection, name: &str) -> Result<QuiltKey> {
    find(c, name)?.ok_or_else(|| WorkroomError::NoSuchQuilt(name.to_owned()))
}

/// All quilts, by name.
pub(crate) fn all(c: &Connection) -> Result<Vec<(QuiltKey, String)>> {
    let mut select = c.prepare_cached("SELECT id, name FROM quilts ORDER BY name")?;
    let rows = select.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
    Ok(rows.collect::<std::result::Result<_, _>>()?)
}

pub(crate) fn rename(c: &Connection, key: QuiltKey, name: &str) -> Result<()> {
    if find(c, name)?.is_some_and(|other| other != key) {
        return Err(WorkroomError::QuiltTaken(name.to_owned()));
    }
    c.execute("UPDATE quilts SET name = ?2 WHERE id = ?1", (key, name))?;
    Ok(())
}

/// Takes a quilt's name and heads away; its steps stay in `entries`.
pub(crate) fn remove(c: &Connection, key: QuiltKey) -> Result<()> {
    c.execute("DELETE FROM quilts WHERE id = ?1", [key])?;
    Ok(())
}
