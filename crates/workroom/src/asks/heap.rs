//! The heap as a plan may use it: what is in the stash, less its flaws and what the plan has claimed
//! already.

use super::error::Asked;
use crate::audit::{claims, promised_elsewhere};
use crate::quilts::{Log, MAIN};
use crate::stash::{Item, Stash};
use crate::workroom::Workroom;
use ::grow::Heap;
use plane::Region;
use quilt::Problem;
use quilt::cloth::{Cloth, ClothId, Kind};
use quilt::log::{Entry, Mark};
use quilt::stage::on_hand::OnHand;
use quilt::wish::Wish;
use std::collections::BTreeMap;

impl Workroom {
    /// What a head may still cut from, with every cloth that it shows or could show.
    ///
    /// # Errors
    /// No such quilt or head.
    pub fn heap_for(&mut self, quilt: &str, head: &str) -> Asked<(Heap, BTreeMap<ClothId, Cloth>)> {
        let wish = self.wish(quilt)?;
        let log = self.log(quilt, head)?;
        let stash = self.stash()?;
        let claimed = Claimed::by(&log, None, stash);
        Ok((heap(stash, &claimed, &wish), every_cloth(stash)))
    }

    /// How much of each cloth a head's chalk claims, in square inches.
    ///
    /// # Errors
    /// No such quilt or head.
    pub fn claimed_areas(&mut self, quilt: &str, head: &str) -> Asked<BTreeMap<ClothId, f64>> {
        let log = self.log(quilt, head)?;
        let claimed = claims(&log.entries(), log.sewn);
        Ok(claimed
            .into_iter()
            .map(|(cloth, parts)| (cloth, parts.iter().map(|part| part.region.area()).sum()))
            .collect())
    }

    /// Where a head's chalk counts on cloth that another quilt's counts on too, each with that
    /// quilt's name. It is no hindrance: the first cut wins.
    ///
    /// # Errors
    /// No such quilt or head.
    pub fn promised_elsewhere(&mut self, quilt: &str, head: &str) -> Asked<Vec<(String, Problem)>> {
        let log = self.log(quilt, head)?;
        let own = claims(&log.entries(), log.sewn);
        let mut found = Vec::new();
        for other in self.quilts()?.into_iter().filter(|other| other.name != quilt) {
            let log = self.log(&other.name, MAIN)?;
            let theirs = claims(&log.entries(), log.sewn);
            let problems = promised_elsewhere(&own, &theirs, self.stash()?);
            found.extend(problems.into_iter().map(|problem| (other.name.clone(), problem)));
        }
        Ok(found)
    }

    /// Every cloth that ever came, as it came.
    ///
    /// # Errors
    /// A ledger that can't be read.
    pub fn every_cloth(&mut self) -> Asked<BTreeMap<ClothId, Cloth>> {
        Ok(every_cloth(self.stash()?))
    }
}

fn every_cloth(stash: &Stash) -> BTreeMap<ClothId, Cloth> {
    stash.items().map(|item| (item.came.id, item.came.clone())).collect()
}

/// What a head's chalk claims. Cloth lies in its eldest's coordinates, so a claim on one of a family
/// counts for all of it.
pub(crate) struct Claimed(BTreeMap<ClothId, Vec<Region>>);

impl Claimed {
    /// What the steps claim that are not sewn yet; `but` is the step of a patch that is let go.
    pub(super) fn by(log: &Log, but: Option<Mark>, stash: &Stash) -> Self {
        Self::by_entries(&log.entries(), log.sewn, but, stash)
    }

    /// The same for entries of which so many are sewn.
    pub(super) fn by_entries(entries: &[Entry], sewn: usize, but: Option<Mark>, stash: &Stash) -> Self {
        let mut claimed: BTreeMap<ClothId, Vec<Region>> = BTreeMap::new();
        for (cloth, parts) in claims(entries, sewn) {
            let parts = parts.into_iter().filter(|claim| Some(claim.mark) != but);
            claimed.entry(stash.root(cloth)).or_default().extend(parts.map(|claim| claim.region));
        }
        Self(claimed)
    }

    /// Nothing.
    pub(super) const fn nothing() -> Self {
        Self(BTreeMap::new())
    }

    /// Claims one more part of a cloth, in its coordinates.
    pub(super) fn add(&mut self, root: ClothId, part: Region) {
        self.0.entry(root).or_default().push(part);
    }

    /// Every cloth that is there, with the parts of it that are free.
    pub(super) fn on_hand(&self, stash: &Stash) -> Vec<OnHand> {
        let there = stash.items().filter_map(|item| Some((item.now.as_ref()?, self.free(item))));
        there.map(|(now, free)| OnHand::with_free(now, free)).collect()
    }

    /// The parts of a cloth that are there, sound and free.
    pub(super) fn free(&self, item: &Item) -> Vec<Region> {
        item.now.as_ref().map_or_else(Vec::new, |now| self.free_of(item, now))
    }

    /// The same of a cloth as it was once.
    pub(super) fn free_of(&self, item: &Item, was: &Cloth) -> Vec<Region> {
        let claimed = self.0.get(&item.root).into_iter().flatten();
        let taken: Vec<Region> = was.flaws.iter().chain(claimed).cloned().collect();
        if taken.is_empty() { vec![was.outline.clone()] } else { plane::difference(&was.outline, &taken) }
    }
}

/// What may be cut into patches, less what is claimed.
pub(super) fn heap(stash: &Stash, claimed: &Claimed, wish: &Wish) -> Heap {
    // Batting, a whole back and leftovers of binding are no patchwork cloth.
    let patchwork =
        stash.items().filter(|item| !matches!(item.came.kind, Kind::Batting | Kind::Backing | Kind::Binding));
    Heap::new(patchwork.map(|item| (&item.came, claimed.free(item))), &wish.use_up)
}
