//! Adding steps after a head's tip.

use super::shelf::put_wish;
use super::unpick::check_not_joined;
use super::{At, Bench, Head, known_head, path};
use crate::deed::Deed;
use crate::error::Result;
use crate::stash::Fact;
use crate::store::{entries, heads, quilts};
use crate::workroom::Workroom;
use quilt::log::{Entry, Mark, StepId};
use quilt::table::Table;
use quilt::wish::Wish;

/// What is sewn of a quilt that is joined into another: its patches' marks there and here.
#[derive(Clone, Debug)]
pub(crate) struct JoinedFrom {
    pub(crate) quilt: String,
    pub(crate) patches: Vec<[Mark; 2]>,
}

impl Workroom {
    /// Adds steps after the tip, all of them or none, and moves the head there.
    ///
    /// # Errors
    /// A step that can't be carried out, with its problem; a head that has moved in the meantime.
    pub fn append(&mut self, at: &At, steps: &[Entry]) -> Result<Head> {
        self.append_with(at, steps, None)
    }

    /// Begins a quilt with these steps, of which the first `sewn` are sewn, in one deed.
    ///
    /// # Errors
    /// A name that is taken or can't be used; a wish that makes no sense; a step that can't be carried
    /// out.
    pub(crate) fn new_quilt_of(
        &mut self,
        name: &str,
        wish: &Wish,
        steps: &[Entry],
        sewn: usize,
        joined: &[JoinedFrom],
    ) -> Result<Head> {
        self.as_one("new quilt", true, |room| {
            let at = room.new_quilt(name, wish)?.at();
            let (done, chalk) = steps.split_at(sewn.min(steps.len()));
            let head = room.append(&at, done)?;
            let head = room.deed("sewn", |deed| {
                let (key, head) = known_head(deed.c, &head.at())?;
                if head.tip.is_none() {
                    return Ok(Head::of(name, head));
                }
                let head = deed.put_head(key, Some(&head), &head.name, head.tip, head.tip)?;
                for from in joined.iter().filter(|from| !from.patches.is_empty()) {
                    let own = quilts::get(deed.c, &from.quilt)?;
                    check_not_joined(deed, own)?;
                    let patches = from.patches.iter().map(|marks| marks.map(|mark| mark.0)).collect();
                    deed.fact(&Fact::Joined { from: own, into: key, patches })?;
                }
                Ok(Head::of(name, head))
            })?;
            room.append(&head.at(), chalk)
        })
    }

    /// As [`Workroom::append`], and sets the wish that the steps were found by, in one deed.
    ///
    /// # Errors
    /// As [`Workroom::append`]; a wish that makes no sense.
    pub fn append_wishing(&mut self, at: &At, steps: &[Entry], wish: &Wish) -> Result<Head> {
        self.append_with(at, steps, Some(wish))
    }

    fn append_with(&mut self, at: &At, steps: &[Entry], wish: Option<&Wish>) -> Result<Head> {
        let mut bench = self.bench_at(at)?;
        for entry in steps {
            bench.apply(entry)?;
        }
        let head = self.deed("append", |deed| {
            let (key, head) = known_head(deed.c, at)?;
            wish.map_or(Ok(()), |wish| put_wish(deed, key, wish))?;
            let tip = insert_after(deed, head.tip, steps)?;
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

    /// Begins what-ifs, each with its own steps after the tip, and sets the wish that they were
    /// found by: all in one deed. They are called `what-if-1`, `what-if-2`… by the first numbers
    /// that are free.
    ///
    /// # Errors
    /// As [`Workroom::append_wishing`]; no head is begun then.
    pub fn begin_what_ifs(&mut self, at: &At, variants: &[&[Entry]], wish: &Wish) -> Result<Vec<Head>> {
        let bench = self.bench_at(at)?;
        for steps in variants {
            let mut bench = bench.clone();
            steps.iter().try_for_each(|entry| bench.apply(entry))?;
        }
        self.bench = Some(bench);
        self.deed("what-ifs", |deed| {
            let (key, head) = known_head(deed.c, at)?;
            put_wish(deed, key, wish)?;
            let (mut heads, mut number) = (Vec::new(), 1_u32);
            for steps in variants {
                while heads::find(deed.c, key, &format!("what-if-{number}"))?.is_some() {
                    number += 1;
                }
                let tip = insert_after(deed, head.tip, steps)?;
                let begun = deed.put_head(key, None, &format!("what-if-{number}"), tip, head.sewn)?;
                heads.push(Head::of(&at.quilt, begun));
            }
            Ok(heads)
        })
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

fn insert_after(deed: &Deed<'_>, mut tip: Option<StepId>, steps: &[Entry]) -> Result<Option<StepId>> {
    for entry in steps {
        tip = Some(entries::insert(deed.c, tip, &entry.to_bytes())?);
    }
    Ok(tip)
}

/// The mark after the greatest one used.
#[must_use]
pub fn next_mark(greatest: Option<Mark>) -> Mark {
    Mark(greatest.map_or(1, |mark| mark.0.saturating_add(1)))
}
