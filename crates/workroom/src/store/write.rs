//! Writes and views, alone or as parts of a larger write that is all or nothing.

use super::Store;
use super::deeds::{self, Change};
use crate::error::Result;
use rusqlite::{Connection, Savepoint, Transaction, TransactionBehavior};
use std::ops::Deref;

/// A write. Dropped without a commit, nothing of it stays.
#[derive(Debug)]
pub(crate) enum Write<'a> {
    /// On its own.
    Alone(Transaction<'a>),
    /// A part of a larger one.
    Part(Savepoint<'a>),
}

impl Write<'_> {
    pub(crate) fn commit(self) -> Result<()> {
        match self {
            Self::Alone(transaction) => Ok(transaction.commit()?),
            Self::Part(part) => Ok(part.commit()?),
        }
    }
}

impl Deref for Write<'_> {
    type Target = Connection;

    fn deref(&self) -> &Connection {
        match self {
            Self::Alone(transaction) => transaction,
            Self::Part(part) => part,
        }
    }
}

/// A consistent view for reading; within a larger write it sees what that has written.
#[derive(Debug)]
pub(crate) enum View<'a> {
    /// On its own.
    Alone(Transaction<'a>),
    /// Within a larger write.
    Within(&'a Connection),
}

impl Deref for View<'_> {
    type Target = Connection;

    fn deref(&self) -> &Connection {
        match self {
            Self::Alone(transaction) => transaction,
            Self::Within(connection) => connection,
        }
    }
}

impl Store {
    /// Begins a write; other programs wait until it ends.
    pub(crate) fn begin(&mut self) -> Result<Write<'_>> {
        Ok(if self.whole.is_some() {
            Write::Part(self.connection.savepoint()?)
        } else {
            Write::Alone(self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?)
        })
    }

    /// A consistent view for reading.
    pub(crate) fn view(&self) -> Result<View<'_>> {
        Ok(if self.whole.is_some() {
            View::Within(&self.connection)
        } else {
            View::Alone(self.connection.unchecked_transaction()?)
        })
    }

    /// Whether a larger write is open.
    pub(crate) const fn is_within(&self) -> bool {
        self.whole.is_some()
    }

    /// Opens a larger write: until it ends, writes are parts of it.
    pub(crate) fn open_whole(&mut self) -> Result<()> {
        self.connection.execute_batch("BEGIN IMMEDIATE")?;
        self.whole = Some(Vec::new());
        Ok(())
    }

    /// What a part changed: undoing takes all parts back together.
    pub(crate) fn remember(&mut self, changes: &[Change]) {
        self.whole.iter_mut().for_each(|whole| whole.extend(changes.iter().cloned()));
    }

    /// Ends the larger write, and keeps it as one deed.
    pub(crate) fn keep_whole(&mut self, what: &str) -> Result<()> {
        let changes = self.whole.take().unwrap_or_default();
        let kept = if changes.is_empty() { Ok(()) } else { deeds::insert(&self.connection, what, &changes) };
        kept.and_then(|()| Ok(self.connection.execute_batch("COMMIT")?)).inspect_err(|_| self.roll_back())
    }

    /// Ends the larger write, and keeps nothing of it.
    pub(crate) fn drop_whole(&mut self) {
        self.whole = None;
        self.roll_back();
    }

    /// Where this fails, the database has rolled back on its own or does so when it is closed.
    fn roll_back(&self) {
        let _ = self.connection.execute_batch("ROLLBACK");
    }
}
