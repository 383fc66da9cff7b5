//! The heap as a plan may use it: what is in the stash, less what the plan has claimed already.

use super::error::Asked;
use crate::audit::claims;
use crate::quilts::Log;
use crate::stash::Stash;
use crate::workroom::Workroom;
use ::grow::Heap;
use plane::Region;
use quilt::cloth::{Cloth, ClothId};
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
        Ok((heap(stash, &log, &wish), every_cloth(stash)))
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

/// Cloth lies in its eldest's coordinates, so a claim on one of a family counts for all of it.
fn heap(stash: &Stash, log: &Log, wish: &Wish) -> Heap {
    let mut claimed: BTreeMap<ClothId, Vec<Region>> = BTreeMap::new();
    for (cloth, parts) in claims(&log.entries(), log.sewn) {
        claimed.entry(stash.root(cloth)).or_default().extend(parts.into_iter().map(|claim| claim.region));
    }
    let none = Vec::new();
    let cloths: Vec<(&Cloth, Vec<Region>)> = stash
        .items()
        .map(|item| {
            let free = item.now.as_ref().map_or_else(Vec::new, |now| {
                let mut taken = now.flaws.clone();
                taken.extend(claimed.get(&item.root).unwrap_or(&none).iter().cloned());
                if taken.is_empty() {
                    vec![now.outline.clone()]
                } else {
                    plane::difference(&now.outline, &taken)
                }
            });
            (&item.came, free)
        })
        .collect();
    Heap::new(cloths, &wish.use_up)
}
