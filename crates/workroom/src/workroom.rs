//! A workroom: a folder with the stash and the quilts, and every use case on it. Use cases are
//! methods, each in the file of its subject; each is one transaction.

use crate::deed::{Deed, catch_up};
use crate::error::{Result, WorkroomError};
use crate::quilts::Bench;
use crate::stash::{Stash, Usable};
use crate::store::{Store, WorkroomId, deeds, meta, settings};
use serde::Serialize;
use serde::de::DeserializeOwned;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::path::Path;

/// An open workroom.
#[derive(Debug)]
pub struct Workroom {
    pub(crate) store: Store,
    id: WorkroomId,
    stash: Stash,
    pub(crate) bench: Option<Bench>,
}

/// The setting that holds the rule for leftovers.
const USABLE: &str = "usable";

impl Workroom {
    /// Makes a workroom in a folder, which is made if it isn't there.
    ///
    /// # Errors
    /// When one is there already, or the folder can't be written.
    pub fn create(folder: &Path) -> Result<Self> {
        Self::with(Store::create(folder, None)?)
    }

    /// As [`Workroom::create`], with an own name that is given instead of drawn. For tests and
    /// demonstrations that must come out the same every time.
    ///
    /// # Errors
    /// As [`Workroom::create`].
    pub fn create_as(folder: &Path, id: WorkroomId) -> Result<Self> {
        Self::with(Store::create(folder, Some(id))?)
    }

    /// Opens the workroom in a folder.
    ///
    /// # Errors
    /// When there is none, when it is of a newer version (it is then left as it is), or when it
    /// can't be read or written.
    pub fn open(folder: &Path) -> Result<Self> {
        Self::with(Store::open(folder)?)
    }

    /// Opens the workroom in a folder, or makes one when there is none.
    ///
    /// # Errors
    /// As [`Workroom::create`] and [`Workroom::open`].
    pub fn open_or_create(folder: &Path) -> Result<Self> {
        match Self::open(folder) {
            Err(WorkroomError::NoWorkroom { .. }) => match Self::create(folder) {
                // Another program was quicker.
                Err(WorkroomError::AlreadyThere { .. }) => Self::open(folder),
                made => made,
            },
            opened => opened,
        }
    }

    fn with(store: Store) -> Result<Self> {
        let id = meta::id(&*store.view()?)?;
        Ok(Self { store, id, stash: Stash::default(), bench: None })
    }

    /// The folder it lies in.
    #[must_use]
    pub fn folder(&self) -> &Path {
        self.store.folder()
    }

    /// Its own name, which no other workroom has.
    #[must_use]
    pub const fn id(&self) -> WorkroomId {
        self.id
    }

    /// The stash as it is now, with what other programs have added.
    ///
    /// # Errors
    /// When the ledger can't be read.
    pub fn stash(&mut self) -> Result<&Stash> {
        catch_up(&*self.store.view()?, &mut self.stash)?;
        Ok(&self.stash)
    }

    /// A setting of the maker's; `None` when it was never set.
    ///
    /// # Errors
    /// When it can't be read as what is wanted.
    pub fn setting<T: DeserializeOwned>(&self, name: &str) -> Result<Option<T>> {
        let text = settings::get(&*self.store.view()?, name)?;
        text.map(|json| serde_json::from_str(&json))
            .transpose()
            .map_err(|e| WorkroomError::damaged(format!("the setting `{name}` can't be read: {e}")))
    }

    /// Sets a setting. Settings are no part of a deed.
    ///
    /// # Errors
    /// When it can't be written.
    pub fn set<T: Serialize>(&mut self, name: &str, value: &T) -> Result<()> {
        let json = serde_json::to_string(value)
            .map_err(|e| WorkroomError::damaged(format!("the setting `{name}` can't be written: {e}")))?;
        let transaction = self.store.begin()?;
        settings::put(&transaction, name, &json)?;
        transaction.commit()
    }

    /// From which size on leftovers are kept.
    ///
    /// # Errors
    /// When the setting can't be read.
    pub fn usable(&self) -> Result<Usable> {
        Ok(self.setting(USABLE)?.unwrap_or_default())
    }

    /// Sets from which size on leftovers are kept.
    ///
    /// # Errors
    /// Limits that aren't 0 or more; trouble with the store.
    pub fn set_usable(&mut self, usable: Usable) -> Result<()> {
        let limits = [
            ("the least width of a leftover", usable.least_width_in),
            ("the least area of a leftover", usable.least_area_in2),
        ];
        for (what, value) in limits {
            if !(value.is_finite() && value >= 0.0) {
                return Err(WorkroomError::BadNumber { what, value, wanted: "0 or more" });
            }
        }
        self.set(USABLE, &usable)
    }

    /// Does a deed: all of it, or nothing. When this returns well it is on the disk, unless it is a
    /// part of a larger one.
    pub(crate) fn deed<T>(&mut self, what: &str, act: impl FnOnce(&mut Deed<'_>) -> Result<T>) -> Result<T> {
        let usable = self.usable()?;
        let Self { store, stash, id, .. } = self;
        let is_part = store.is_within();
        let write = store.begin()?;
        let mut deed = Deed::begin(&write, stash, usable, *id)?;
        let done = act(&mut deed);
        let changes = deed.into_changes();
        let done = done.and_then(|value| {
            if !is_part && !changes.is_empty() {
                deeds::insert(&write, what, &changes)?;
            }
            write.commit().map(|()| value)
        });
        if done.is_ok() {
            store.remember(&changes);
        } else {
            // What was rolled back may already be in the stash in memory: read it anew.
            *stash = Stash::default();
        }
        done
    }

    /// Does several deeds as one: all of them, or nothing; undoing takes them back together. With
    /// `keep` false nothing stays, however it went: that is how a plan is looked at.
    ///
    /// # Errors
    /// Whatever stands against one of them; trouble with the store.
    pub(crate) fn as_one<T, E: From<WorkroomError>>(
        &mut self,
        what: &str,
        keep: bool,
        act: impl FnOnce(&mut Self) -> Result<T, E>,
    ) -> Result<T, E> {
        if self.store.is_within() {
            return act(self);
        }
        self.store.open_whole()?;
        // What breaks on the way leaves nothing open behind.
        let done = match catch_unwind(AssertUnwindSafe(|| act(self))) {
            Ok(done) => done,
            Err(broken) => {
                self.store.drop_whole();
                (self.stash, self.bench) = (Stash::default(), None);
                resume_unwind(broken);
            }
        };
        let done = match done {
            Ok(value) if keep => self.store.keep_whole(what).map(|()| value).map_err(E::from),
            done => {
                self.store.drop_whole();
                done
            }
        };
        if done.is_err() || !keep {
            self.stash = Stash::default();
            self.bench = None;
        }
        done
    }
}
