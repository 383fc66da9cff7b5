//! The table `facts`: the ledger of cloth, in order, as JSON. Facts are only ever added.

use crate::error::{Result, WorkroomError};
use crate::stash::Fact;
use rusqlite::Connection;

pub(super) const CREATE: &str = "
CREATE TABLE facts (
    seq  INTEGER PRIMARY KEY AUTOINCREMENT,
    json TEXT NOT NULL
) STRICT";

/// Adds a fact and returns its place in the ledger.
pub(crate) fn insert(c: &Connection, fact: &Fact) -> Result<u64> {
    let json = serde_json::to_string(fact)
        .map_err(|e| WorkroomError::damaged(format!("a fact can't be written: {e}")))?;
    c.prepare_cached("INSERT INTO facts (json) VALUES (?1)")?.execute([json])?;
    Ok(c.last_insert_rowid().unsigned_abs())
}

/// All facts after `seq`, in order.
pub(crate) fn after(c: &Connection, seq: u64) -> Result<Vec<(u64, Fact)>> {
    let mut select = c.prepare_cached("SELECT seq, json FROM facts WHERE seq > ?1 ORDER BY seq")?;
    let mut rows = select.query([i64::try_from(seq).unwrap_or(i64::MAX)])?;
    let mut facts = Vec::new();
    while let Some(row) = rows.next()? {
        let seq: i64 = row.get(0)?;
        let json = row.get_ref(1)?.as_str().map_err(rusqlite::Error::from)?;
        let fact = serde_json::from_str(json)
            .map_err(|e| WorkroomError::damaged(format!("fact {seq} of the stash can't be read: {e}")))?;
        facts.push((seq.unsigned_abs(), fact));
    }
    Ok(facts)
}
