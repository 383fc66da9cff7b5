//! Adding steps after a head's tip.

use super::{At, Bench, Head, known_head, path};
use crate::error::Result;
use crate::store::entries;
use crate::workroom::Workroom;
use quilt::log::{Entry, Mark};
use quilt::table::Table;

impl Workroom {
    /// Adds steps after the tip, all of them or none, and moves the head there.
    ///
    /// # Errors
    /// A step that can't be carried out, with its problem; a head that has moved in the meantime.
    pub fn append(&mut self, at: &At, steps: &[Entry]) -> Result<Head> {
        let mut bench = self.bench_at(at)?;
        for entry in steps {
            bench.apply(entry)?;
        }
        let head = self.deed("append", |deed| {
            let (key, head) = known_head(deed.c, at)?;
            let mut tip = head.tip;
            for entry in steps {
                tip = Some(entries::insert(deed.c, tip, &entry.to_bytes())?);
            }
            if tip == head.tip {
                return Ok(Head::of(&at.quilt, head));
            }
            let head = deed.put_head(key, Some(&head), &head.name, tip, head.sewn)?;
            Ok(Head::of(&at.quilt, head))
        })?;
        bench.tip = head.tip;
        self.bench = Some(bench);
        Ok(head)
    }

    /// What lies on the table at a head's tip.
    ///
    /// # Errors
    /// No such head; a log that can't be replayed.
    pub fn table(&mut self, quilt: &str, head: &str) -> Result<Table> {
        let at = self.head(quilt, head)?.at();
        let bench = self.bench_at(&at)?;
        let table = bench.table.clone();
        self.bench = Some(bench);
        Ok(table)
    }

    /// The mark for the next step of a head: one more than the greatest on its path.
    ///
    /// # Errors
    /// No such head; a log that can't be replayed.
    pub fn next_mark(&mut self, quilt: &str, head: &str) -> Result<Mark> {
        let at = self.head(quilt, head)?.at();
        let bench = self.bench_at(&at)?;
        let mark = next_mark(bench.marks.last().copied());
        self.bench = Some(bench);
        Ok(mark)
    }

    /// The table at the head's tip, taken from where it was kept or replayed.
    fn bench_at(&mut self, at: &At) -> Result<Bench> {
        let view = self.store.view()?;
        let (_, head) = known_head(&view, at)?;
        match self.bench.take() {
            Some(bench) if bench.tip == head.tip => Ok(bench),
            _ => Bench::replay(&path(&view, head.tip)?),
        }
    }
}

/// The mark after the greatest one used.
#[must_use]
pub fn next_mark(greatest: Option<Mark>) -> Mark {
    Mark(greatest.map_or(1, |mark| mark.0.saturating_add(1)))
}
