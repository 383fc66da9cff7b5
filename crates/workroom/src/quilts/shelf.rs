//! Making, listing and naming quilts and heads; reading logs; wishes and refusals.

use super::sewn::already_sewn;
use super::{At, Head, MAIN, check_name, known_head, path, sewn_count, step_before};
use crate::deed::Deed;
use crate::error::{Result, WorkroomError};
use crate::store::deeds::{Change, HeadState};
use crate::store::quilts::QuiltKey;
use crate::store::{entries, heads, quilts, refusals, wishes};
use crate::workroom::Workroom;
use quilt::log::{Entry, StepId};
use quilt::wish::Wish;

/// A quilt and its heads.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct QuiltInfo {
    /// Its name.
    pub name: String,
    /// Its heads, by name.
    pub heads: Vec<Head>,
}

/// One step of a log.
#[derive(Clone, Debug, PartialEq)]
pub struct LogStep {
    /// The entry's name.
    pub id: StepId,
    /// What was done.
    pub entry: Entry,
}

/// The path of a head.
#[derive(Clone, Debug, PartialEq)]
pub struct Log {
    /// The head.
    pub head: Head,
    /// Its steps, first one first.
    pub steps: Vec<LogStep>,
    /// How many of them are sewn.
    pub sewn: usize,
}

impl Log {
    /// The entries alone.
    #[must_use]
    pub fn entries(&self) -> Vec<Entry> {
        self.steps.iter().map(|step| step.entry.clone()).collect()
    }
}

impl Workroom {
    /// Begins a quilt with an empty table, its head called [`MAIN`].
    ///
    /// # Errors
    /// A name that is taken or can't be used; a wish that makes no sense.
    pub fn new_quilt(&mut self, name: &str, wish: &Wish) -> Result<Head> {
        check_name(name)?;
        let json = wish_text(wish)?;
        self.deed("new quilt", |deed| {
            let key = quilts::insert(deed.c, name)?;
            deed.changed(Change::Quilt { quilt: key });
            wishes::put_text(deed.c, key, Some(&json))?;
            Ok(Head::of(name, deed.put_head(key, None, MAIN, None, None)?))
        })
    }

    /// Refuses a name for a new quilt that can't be used or is taken, before anything is begun.
    ///
    /// # Errors
    /// As said.
    pub fn free_name(&self, name: &str) -> Result<()> {
        check_name(name)?;
        match quilts::find(&*self.store.view()?, name)? {
            Some(_) => Err(WorkroomError::QuiltTaken(name.to_owned())),
            None => Ok(()),
        }
    }

    /// Gives a quilt another name.
    ///
    /// # Errors
    /// No such quilt; a name that is taken or can't be used.
    pub fn rename_quilt(&mut self, name: &str, to: &str) -> Result<()> {
        check_name(to)?;
        self.deed("rename quilt", |deed| {
            let key = quilts::get(deed.c, name)?;
            quilts::rename(deed.c, key, to)?;
            deed.changed(Change::Name { quilt: key, before: name.to_owned() });
            Ok(())
        })
    }

    /// All quilts with their heads, by name.
    ///
    /// # Errors
    /// Trouble with the store.
    pub fn quilts(&self) -> Result<Vec<QuiltInfo>> {
        let view = self.store.view()?;
        let mut all = Vec::new();
        for (key, name) in quilts::all(&view)? {
            let heads = heads::all(&view, key)?.into_iter().map(|row| Head::of(&name, row)).collect();
            all.push(QuiltInfo { name, heads });
        }
        Ok(all)
    }

    /// One head as it is now.
    ///
    /// # Errors
    /// No such quilt or head.
    pub fn head(&self, quilt: &str, head: &str) -> Result<Head> {
        let view = self.store.view()?;
        let key = quilts::get(&view, quilt)?;
        let row = heads::find(&view, key, head)?
            .ok_or_else(|| WorkroomError::NoSuchHead { quilt: quilt.to_owned(), head: head.to_owned() })?;
        Ok(Head::of(quilt, row))
    }

    /// The log of a head.
    ///
    /// # Errors
    /// No such head; stored bytes that have changed.
    pub fn log(&self, quilt: &str, head: &str) -> Result<Log> {
        let head = self.head(quilt, head)?;
        let steps = path(&*self.store.view()?, head.tip)?;
        let sewn = sewn_count(&steps, head.sewn);
        let steps = steps.into_iter().map(|step| LogStep { id: step.id, entry: step.entry }).collect();
        Ok(Log { head, steps, sewn })
    }

    /// The path to any step, as names and entries, whatever head it belongs to.
    ///
    /// # Errors
    /// No such step; stored bytes that have changed.
    pub fn path(&self, tip: StepId) -> Result<Vec<LogStep>> {
        let steps = path(&*self.store.view()?, Some(tip))?;
        Ok(steps.into_iter().map(|step| LogStep { id: step.id, entry: step.entry }).collect())
    }

    /// The path to any step, as stored bytes.
    ///
    /// # Errors
    /// No such step; stored bytes that have changed.
    pub fn path_bytes(&self, tip: StepId) -> Result<Vec<Vec<u8>>> {
        Ok(entries::path(&*self.store.view()?, Some(tip))?.into_iter().map(|row| row.bytes).collect())
    }

    /// Begins a what-if: another head whose tip is a step of an existing one, or the empty table.
    ///
    /// # Errors
    /// A step that isn't on the path of `at`; a name that is taken or can't be used.
    pub fn what_if(&mut self, at: &At, from: Option<StepId>, name: &str) -> Result<Head> {
        check_name(name)?;
        self.deed("what-if", |deed| {
            let (key, head) = known_head(deed.c, at)?;
            if heads::find(deed.c, key, name)?.is_some() {
                return Err(WorkroomError::HeadTaken { quilt: at.quilt.clone(), head: name.to_owned() });
            }
            let path = path(deed.c, head.tip)?;
            let count = match from {
                Some(step) => on_path(&path, step)?,
                None => 0,
            };
            let sewn = step_before(&path, count.min(sewn_count(&path, head.sewn)));
            Ok(Head::of(&at.quilt, deed.put_head(key, None, name, from, sewn)?))
        })
    }

    /// Takes a what-if away. Its steps stay in the store; undoing brings it back.
    ///
    /// # Errors
    /// The head [`MAIN`]; a head that alone holds sewn steps; one that has moved in the meantime.
    pub fn drop_what_if(&mut self, at: &At) -> Result<()> {
        if at.head == MAIN {
            return Err(WorkroomError::BadName { name: MAIN.to_owned(), why: "every quilt keeps that head" });
        }
        self.deed("drop what-if", |deed| {
            let (key, head) = known_head(deed.c, at)?;
            heads::remove(deed.c, key, &head.name)?;
            if let Some(sewn) = head.sewn
                && !already_sewn(deed, key, sewn)?
            {
                return Err(WorkroomError::SewnOnlyHere { quilt: at.quilt.clone(), head: head.name });
            }
            let before = Some(HeadState::of(&head));
            deed.changed(Change::Head { quilt: key, name: head.name, before, after: None });
            Ok(())
        })
    }

    /// What the maker wishes of a quilt.
    ///
    /// # Errors
    /// No such quilt.
    pub fn wish(&self, quilt: &str) -> Result<Wish> {
        let view = self.store.view()?;
        wishes::get(&view, quilts::get(&view, quilt)?)
    }

    /// Sets what the maker wishes of a quilt.
    ///
    /// # Errors
    /// No such quilt; a wish that makes no sense.
    pub fn set_wish(&mut self, quilt: &str, wish: &Wish) -> Result<()> {
        self.deed("wish", |deed| {
            let key = quilts::get(deed.c, quilt)?;
            put_wish(deed, key, wish)
        })
    }

    /// Remembers that the maker refused a proposal, as JSON of the caller's own form.
    ///
    /// # Errors
    /// No such quilt.
    pub fn refuse(&mut self, quilt: &str, proposal: &str) -> Result<()> {
        let transaction = self.store.begin()?;
        let key = quilts::get(&transaction, quilt)?;
        refusals::insert(&transaction, key, proposal)?;
        transaction.commit()
    }

    /// The proposals that the maker refused, oldest first.
    ///
    /// # Errors
    /// No such quilt.
    pub fn refusals(&self, quilt: &str) -> Result<Vec<String>> {
        let view = self.store.view()?;
        refusals::all(&view, quilts::get(&view, quilt)?)
    }

    /// Forgets what was refused.
    ///
    /// # Errors
    /// No such quilt.
    pub fn forget_refusals(&mut self, quilt: &str) -> Result<()> {
        let transaction = self.store.begin()?;
        let key = quilts::get(&transaction, quilt)?;
        refusals::clear(&transaction, key)?;
        transaction.commit()
    }
}

/// How many steps lead to `step`, itself included.
pub(super) fn on_path(path: &[super::PathStep], step: StepId) -> Result<usize> {
    path.iter().position(|s| s.id == step).map(|i| i + 1).ok_or(WorkroomError::NotOnPath(step))
}

/// Sets the wish of a quilt, if it is another than before.
pub(super) fn put_wish(deed: &mut Deed<'_>, key: QuiltKey, wish: &Wish) -> Result<()> {
    let (text, before) = (wish_text(wish)?, wishes::get_text(deed.c, key)?);
    if before.as_ref() != Some(&text) {
        wishes::put_text(deed.c, key, Some(&text))?;
        deed.changed(Change::Wish { quilt: key, before });
    }
    Ok(())
}

fn wish_text(wish: &Wish) -> Result<String> {
    wish.check()?;
    serde_json::to_string(wish).map_err(|e| WorkroomError::damaged(format!("a wish can't be written: {e}")))
}
