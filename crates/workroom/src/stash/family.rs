//! The stash as the facts leave it: which cloths are there, what is left of each, where each came
//! from, and the numbers by which the maker calls them.

use super::{By, Fact, Left, portion};
use plane::Region;
use quilt::cloth::{Cloth, ClothId};
use quilt::log::StepId;
use quilt::supply::Supply;
use std::collections::{BTreeMap, BTreeSet};

/// One cloth of the ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// The number the maker types, from 1; given once and never again.
    pub no: u32,
    /// The cloth as it came, whole.
    pub came: Cloth,
    /// The cloth as it is now; `None` when nothing of it is there.
    pub now: Option<Cloth>,
    /// The eldest cloth in whose coordinates this one lies.
    pub root: ClothId,
    /// The fact that brought it.
    pub by: u64,
    /// The last fact that touched it.
    pub touched: u64,
}

/// The cut that was made for a sewn step.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CutFor {
    /// The fact.
    pub(crate) seq: u64,
    /// Out of which cloth.
    pub(crate) from: ClothId,
    /// The cloths that came into being with it.
    pub(crate) born: Vec<ClothId>,
    /// What the ledger had cloth for; `None` where it had cloth for all of it.
    pub(crate) only: Option<Vec<Region>>,
    /// What was trimmed off the patch since, in the cloth's coordinates.
    pub(crate) trimmed: Vec<Region>,
}

/// What a trim brought: the fact, and the cloth that came by it, if any was worth keeping.
pub(crate) type Brought = (u64, Option<ClothId>);

/// All cloths that the ledger tells of.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Stash {
    items: BTreeMap<ClothId, Item>,
    /// Every supply that came; `None` once it was given away.
    supplies: BTreeMap<ClothId, Option<Supply>>,
    families: BTreeMap<ClothId, BTreeSet<ClothId>>,
    numbers: Vec<ClothId>,
    number_of: BTreeMap<ClothId, u32>,
    cut_for: BTreeMap<(i64, u32), CutFor>,
    offcuts: BTreeMap<(i64, String), Vec<Brought>>,
    /// Into which quilt the sewn patches of another were joined.
    joined_into: BTreeMap<i64, i64>,
    upto: u64,
}

/// Which facts don't hold. A void fact may itself be voided later.
pub(crate) fn voided(facts: &[(u64, Fact)]) -> BTreeSet<u64> {
    let mut void = BTreeSet::new();
    for (seq, fact) in facts.iter().rev() {
        if let Fact::Void(target) = fact
            && !void.contains(seq)
        {
            void.insert(*target);
        }
    }
    void
}

impl Stash {
    /// The stash after these facts, each with its place in the ledger.
    #[must_use]
    pub fn replay(facts: &[(u64, Fact)]) -> Self {
        let void = voided(facts);
        let mut stash = Self::default();
        for (seq, fact) in facts {
            stash.number(fact);
            if !void.contains(seq) {
                stash.apply(*seq, fact);
            }
            stash.upto = *seq;
        }
        stash
    }

    /// Takes in one more fact. A [`Fact::Void`] needs a replay of everything; `false` says so.
    pub(crate) fn add(&mut self, seq: u64, fact: &Fact) -> bool {
        if matches!(fact, Fact::Void(_)) {
            return false;
        }
        self.number(fact);
        self.apply(seq, fact);
        self.upto = seq;
        true
    }

    /// The cut that was made for the sewn step `mark` of a quilt.
    pub(crate) fn cut_for(&self, quilt: i64, mark: u32) -> Option<&CutFor> {
        self.cut_for.get(&(quilt, mark))
    }

    /// The quilt into which what is sewn of another was joined.
    pub(crate) fn joined_into(&self, quilt: i64) -> Option<i64> {
        self.joined_into.get(&quilt).copied()
    }

    /// What the trims of a sewn step brought: each fact, and the cloth that came by it.
    pub(crate) fn offcuts_of(&self, quilt: i64, step: StepId) -> &[Brought] {
        self.offcuts.get(&(quilt, step.to_string())).map_or(&[], Vec::as_slice)
    }

    /// Whether nothing has happened to a cloth since this fact, so that it can be taken back.
    pub(crate) fn untouched_since(&self, seq: u64, cloth: ClothId) -> bool {
        self.items.get(&cloth).is_none_or(|item| item.touched <= seq)
    }

    /// Up to which fact it has been replayed.
    pub(crate) const fn upto(&self) -> u64 {
        self.upto
    }

    /// Whether a name is given already.
    pub(crate) fn knows(&self, id: ClothId) -> bool {
        self.number_of.contains_key(&id)
    }

    /// How many numbers have been given.
    pub(crate) fn given(&self) -> usize {
        self.numbers.len()
    }

    /// Numbers are given even by facts that were voided later, so that none is given twice.
    fn number(&mut self, fact: &Fact) {
        for id in fact.numbered() {
            if !self.number_of.contains_key(&id) {
                self.numbers.push(id);
                let no = u32::try_from(self.numbers.len()).unwrap_or(u32::MAX);
                self.number_of.insert(id, no);
            }
        }
    }

    fn apply(&mut self, seq: u64, fact: &Fact) {
        for id in fact.needs() {
            if let Some(item) = self.items.get_mut(id) {
                item.touched = seq;
            }
        }
        match fact {
            Fact::Came { cloth, left } => {
                let now = match left {
                    Left::Whole => Some(cloth.clone()),
                    Left::Part(region) => Some(portion(cloth, region.clone(), cloth.id)),
                    Left::Nothing => None,
                };
                self.come(seq, cloth, now);
            }
            Fact::Cut { from, by, taken, beyond_in2, .. } => {
                self.leave(*from);
                self.all_come(seq, fact);
                if let By::Step { quilt, mark, .. } = by {
                    let born = fact.cloths().map(|cloth| cloth.id).collect();
                    let only = (*beyond_in2 > 0.0).then(|| taken.clone());
                    let cut = CutFor { seq, from: *from, born, only, trimmed: Vec::new() };
                    self.cut_for.insert((*quilt, *mark), cut);
                }
            }
            Fact::Unpicked { by, gone, .. } => {
                if let By::Step { quilt, mark, .. } = by {
                    self.cut_for.remove(&(*quilt, *mark));
                }
                gone.iter().for_each(|id| self.leave(*id));
                self.all_come(seq, fact);
            }
            Fact::Offcut { by, came, off, .. } => {
                self.all_come(seq, fact);
                if let By::Step { quilt, step, .. } = by {
                    for off in off {
                        if let Some(cut) = self.cut_for.get_mut(&(*quilt, off.patch)) {
                            cut.trimmed.push(off.region.clone());
                        }
                    }
                    let came = came.as_ref().map(|cloth| cloth.id);
                    self.offcuts.entry((*quilt, step.clone())).or_default().push((seq, came));
                }
            }
            Fact::StripSet { .. } => self.all_come(seq, fact),
            Fact::Changed { cloth, changes } => {
                if let Some(item) = self.items.get_mut(cloth) {
                    changes.apply_to(item);
                }
            }
            Fact::Gone { cloth } => {
                self.leave(*cloth);
                self.supplies.entry(*cloth).and_modify(|supply| *supply = None);
            }
            Fact::Supplied { supply } => {
                self.supplies.insert(supply.id, Some(supply.clone()));
            }
            Fact::Joined { from, into, patches } => {
                for [own, there] in patches {
                    if let Some(cut) = self.cut_for.remove(&(*from, *own)) {
                        self.cut_for.insert((*into, *there), cut);
                    }
                }
                self.joined_into.insert(*from, *into);
            }
            Fact::Void(_) => {}
        }
    }

    fn leave(&mut self, id: ClothId) {
        if let Some(item) = self.items.get_mut(&id) {
            item.now = None;
        }
    }

    fn all_come(&mut self, seq: u64, fact: &Fact) {
        for cloth in fact.cloths() {
            self.come(seq, cloth, Some(cloth.clone()));
        }
    }

    fn come(&mut self, seq: u64, cloth: &Cloth, now: Option<Cloth>) {
        if let Some(item) = self.items.get_mut(&cloth.id) {
            (item.now, item.touched) = (now, seq);
            return;
        }
        let root = cloth.parent.and_then(|p| self.items.get(&p)).map_or(cloth.id, |p| p.root);
        let no = self.number_of.get(&cloth.id).copied().unwrap_or(0);
        self.families.entry(root).or_default().insert(cloth.id);
        self.items.insert(cloth.id, Item { no, came: cloth.clone(), now, root, by: seq, touched: seq });
    }

    /// Everything that is or was there, by id.
    pub fn items(&self) -> impl Iterator<Item = &Item> {
        self.items.values()
    }

    /// What is there now, by number.
    #[must_use]
    pub fn present(&self) -> Vec<(u32, &Cloth)> {
        let mut there: Vec<(u32, &Cloth)> =
            self.items.values().filter_map(|item| Some((item.no, item.now.as_ref()?))).collect();
        there.sort_by_key(|(no, _)| *no);
        there
    }

    /// One cloth of the ledger.
    #[must_use]
    pub fn get(&self, id: ClothId) -> Option<&Item> {
        self.items.get(&id)
    }

    /// The cloth that the maker calls by this number.
    #[must_use]
    pub fn by_number(&self, no: u32) -> Option<&Item> {
        let at = usize::try_from(no).ok()?.checked_sub(1)?;
        self.items.get(self.numbers.get(at)?)
    }

    /// The supplies that are there, by number.
    #[must_use]
    pub fn supplies(&self) -> Vec<(u32, &Supply)> {
        let number = |id: ClothId| self.number_of.get(&id).copied().unwrap_or(0);
        let mut there: Vec<(u32, &Supply)> =
            self.supplies.values().flatten().map(|supply| (number(supply.id), supply)).collect();
        there.sort_by_key(|(no, _)| *no);
        there
    }

    /// The supply that the maker calls by this number.
    #[must_use]
    pub fn supply(&self, no: u32) -> Option<&Supply> {
        let at = usize::try_from(no).ok()?.checked_sub(1)?;
        self.supplies.get(self.numbers.get(at)?)?.as_ref()
    }

    /// Whether a supply is or was there. One whose coming was undone never was.
    pub(crate) fn had_supply(&self, id: ClothId) -> bool {
        self.supplies.contains_key(&id)
    }

    /// The cloths that are there now and lie in the coordinates of this one: itself, its rests and
    /// what was given back of it.
    #[must_use]
    pub fn family(&self, id: ClothId) -> Vec<&Cloth> {
        let root = self.items.get(&id).map_or(id, |item| item.root);
        let members = self.families.get(&root).into_iter().flatten();
        members.filter_map(|id| self.items.get(id)?.now.as_ref()).collect()
    }

    /// The eldest cloth in whose coordinates this one lies.
    #[must_use]
    pub fn root(&self, id: ClothId) -> ClothId {
        self.items.get(&id).map_or(id, |item| item.root)
    }

    /// Of the family, the cloth that has most of `piece`.
    #[must_use]
    pub fn holder(&self, id: ClothId, piece: &Region) -> Option<&Cloth> {
        let covered = |cloth: &Cloth| -> f64 {
            plane::intersection(&cloth.outline, piece).iter().map(Region::area).sum()
        };
        let mut best: Option<(f64, &Cloth)> = None;
        for cloth in self.family(id) {
            let area = covered(cloth);
            let own = cloth.id == id;
            if best.is_none_or(|(most, _)| area > most + 1e-9 || (own && area >= most - 1e-9)) {
                best = Some((area, cloth));
            }
        }
        best.map(|(_, cloth)| cloth)
    }

    /// Ancestors of a cloth, the nearest first.
    #[must_use]
    pub fn lineage(&self, id: ClothId) -> Vec<ClothId> {
        let mut line = Vec::new();
        let mut at = self.items.get(&id).and_then(|item| item.came.parent);
        while let Some(parent) = at {
            if line.contains(&parent) {
                break;
            }
            line.push(parent);
            at = self.items.get(&parent).and_then(|item| item.came.parent);
        }
        line
    }

    /// The cloths that are there of the same print, itself left out.
    #[must_use]
    pub fn same_print(&self, id: ClothId) -> Vec<&Cloth> {
        let Some(print) = self.items.get(&id).and_then(|item| item.came.print) else { return Vec::new() };
        let there = self.items.values().filter_map(|item| item.now.as_ref());
        there.filter(|cloth| cloth.id != id && cloth.print == Some(print)).collect()
    }
}
