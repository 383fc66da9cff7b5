//! Numbered migrations. A released one is never edited; the next change is the next number.

use super::{WorkroomId, deeds, entries, facts, heads, meta, pictures, quilts, refusals, settings, wishes};
use crate::error::{Result, WorkroomError};
use rusqlite::{Connection, TransactionBehavior};
use std::path::Path;

/// What each migration runs, the first one first.
const MIGRATIONS: &[&[&str]] = &[
    &[
        meta::CREATE,
        quilts::CREATE,
        entries::CREATE,
        heads::CREATE,
        wishes::CREATE,
        facts::CREATE,
        pictures::CREATE,
        refusals::CREATE,
        settings::CREATE,
        deeds::CREATE,
    ],
    // No table changes: the ledger tells of supplies too, which a program of version 1 can't read.
    &[],
    &[deeds::WITH_TIME],
];

/// The version that this program writes.
pub const VERSION: i64 = MIGRATIONS.len() as i64;

/// The version of a database; `None` when it holds nothing at all.
pub(super) fn version_of(c: &Connection) -> Result<Option<i64>> {
    let count = |sql| c.query_row(sql, [], |row| row.get::<_, i64>(0));
    if count("SELECT count(*) FROM sqlite_schema")? == 0 {
        return Ok(None);
    }
    if count("SELECT count(*) FROM sqlite_schema WHERE type = 'table' AND name = 'meta'")? == 0 {
        return Err(WorkroomError::damaged("the database there is not a workroom's"));
    }
    meta::version(c).map(Some)
}

/// Runs what is missing, all of it or nothing.
pub(super) fn bring_up(c: &mut Connection, folder: &Path, id: Option<WorkroomId>) -> Result<()> {
    if version_of(c)? == Some(VERSION) {
        return Ok(());
    }
    let t = c.transaction_with_behavior(TransactionBehavior::Immediate)?;
    // Another program may have done it while this one waited.
    let found = version_of(&t)?.unwrap_or(0);
    if found > VERSION {
        return Err(WorkroomError::NewerVersion { folder: folder.to_owned(), found, known: VERSION });
    }
    for sql in MIGRATIONS.iter().skip(usize::try_from(found).unwrap_or(0)).flat_map(|m| m.iter()) {
        t.execute_batch(sql)?;
    }
    if found == 0 {
        let id = id.map_or_else(|| meta::draw_id(&t), Ok)?;
        meta::insert(&t, VERSION, id)?;
    } else {
        meta::set_version(&t, VERSION)?;
    }
    Ok(t.commit()?)
}
