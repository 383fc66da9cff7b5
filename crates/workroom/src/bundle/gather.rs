//! Gathering what belongs to a quilt: its heads, every step on their paths, and the cloth they
//! use with what it was cut from and pieced from.

use super::BUNDLE_VERSION;
use super::form::{ClothForm, Document, EntryForm, FORMAT, HeadForm, PictureForm};
use crate::error::{Result, WorkroomError};
use crate::papers::own_words;
use crate::stash::Stash;
use crate::store::{entries, heads, quilts, wishes};
use crate::workroom::Workroom;
use quilt::cloth::{ClothId, Picture};
use quilt::log::{Entry, Stage, Step, StepId};
use quilt::stage::quilting::ThreadColour;
use quilt::supply::Supply;
use quilt::wish::Wish;
use std::collections::{BTreeMap, BTreeSet};

impl Workroom {
    /// Everything of a quilt, in a fixed order.
    pub(super) fn gather(&mut self, quilt: &str) -> Result<Document> {
        self.stash()?;
        let view = self.store.view()?;
        let key = quilts::get(&view, quilt)?;
        let wish = wishes::get(&view, key)?;
        let words = own_words::get(&view, key)?;
        let heads = heads::all(&view, key)?;
        let mut seen: BTreeSet<StepId> = BTreeSet::new();
        let mut steps = Vec::new();
        let mut used = used_by_wish(&wish);
        let mut threads = Vec::new();
        let mut shown: BTreeMap<String, String> = BTreeMap::new();
        for head in &heads {
            for row in entries::path(&view, head.tip)? {
                if seen.insert(row.id) {
                    if let Ok(entry) = Entry::from_bytes(&row.bytes) {
                        used.extend(used_by(&entry.step));
                        threads.extend(threads_of(&entry.step));
                        shown.extend(
                            shown_by(&entry.step).into_iter().map(|p| (p.hash.clone(), p.format.clone())),
                        );
                    }
                    steps.push(form_of(row)?);
                }
            }
        }
        drop(view);
        let cloths = cloths_of(self.stash()?, used);
        let supplies = spools_of(self.stash()?, &threads);
        let pictures: BTreeMap<String, String> = cloths
            .iter()
            .filter_map(|form| form.cloth.picture.as_ref())
            .map(|picture| (picture.hash.clone(), picture.format.clone()))
            .chain(shown)
            .collect();
        let text = |step: Option<StepId>| step.map(|s| s.to_string());
        let heads =
            heads.into_iter().map(|h| HeadForm { name: h.name, tip: text(h.tip), sewn: text(h.sewn) });
        Ok(Document {
            format: FORMAT.to_owned(),
            version: BUNDLE_VERSION,
            name: quilt.to_owned(),
            wish,
            words,
            heads: heads.collect(),
            entries: steps,
            cloths,
            supplies,
            pictures: pictures.into_iter().map(|(hash, format)| PictureForm { hash, format }).collect(),
        })
    }
}

fn form_of(row: entries::Row) -> Result<EntryForm> {
    let stored = String::from_utf8(row.bytes)
        .map_err(|_| WorkroomError::damaged(format!("step {} is not text", row.id)))?;
    let parent = row.parent.map(|parent| parent.to_string());
    Ok(EntryForm { id: row.id.to_string(), parent, stored })
}

fn used_by(step: &Step) -> Vec<ClothId> {
    match step {
        Step::Lay { cloth, .. } => vec![*cloth],
        Step::Choose(Stage::Planned(chosen)) => chosen.cloths(),
        _ => Vec::new(),
    }
}

/// The photograph that a step keeps.
pub(super) fn shown_by(step: &Step) -> Option<&Picture> {
    match step {
        Step::Measure { shown: Some(shown), .. } => Some(&shown.picture),
        _ => None,
    }
}

fn threads_of(step: &Step) -> Vec<ThreadColour> {
    match step {
        Step::Choose(Stage::Planned(chosen)) => chosen.threads().into_iter().cloned().collect(),
        _ => Vec::new(),
    }
}

/// The spools that are there of these threads, by number.
fn spools_of(stash: &Stash, threads: &[ThreadColour]) -> Vec<Supply> {
    let chosen = |supply: &Supply| {
        let spool = supply.spool();
        spool.is_some_and(|spool| threads.iter().any(|t| t.name == spool.name && t.lab == spool.lab))
    };
    stash.supplies().into_iter().map(|(_, supply)| supply).filter(|supply| chosen(supply)).cloned().collect()
}

fn used_by_wish(wish: &Wish) -> BTreeSet<ClothId> {
    let motif = wish.motif.as_ref().map(|motif| motif.cloth);
    wish.spare.iter().chain(&wish.use_up).copied().chain(motif).collect()
}

/// The cloths, what they come from, and what is left of them elsewhere, by number: so that every
/// cloth comes after its parent.
fn cloths_of(stash: &Stash, used: BTreeSet<ClothId>) -> Vec<ClothForm> {
    let mut wanted = BTreeSet::new();
    let mut open: Vec<ClothId> = used.into_iter().collect();
    while let Some(id) = open.pop() {
        let Some(item) = stash.get(id) else { continue };
        if wanted.insert((item.no, id)) {
            open.extend(item.came.parent);
            open.extend(item.came.parts.iter().map(|part| part.cloth));
            open.extend(stash.family(id).iter().map(|cloth| cloth.id));
        }
    }
    let found = wanted.into_iter().filter_map(|(_, id)| stash.get(id));
    found
        .map(|item| ClothForm {
            cloth: item.came.clone(),
            left: item.now.as_ref().map(|now| now.outline.clone()),
        })
        .collect()
}
