//! The heap as the search sees it: what is left of each cloth, measured, and gathered by look.

use colour::{Lab, Quick};
use plane::{FitCloth, Region};
use quilt::cloth::{Cloth, ClothId, Look, Runs};
use std::collections::BTreeMap;
use std::sync::Arc;

/// One part of a cloth that can still be cut from.
#[derive(Clone, Debug)]
pub struct Rest {
    /// Which cloth.
    pub cloth: ClothId,
    /// Index of its group.
    pub group: usize,
    /// Which ways up its print may be used, in its own coordinates: scraps of one print lie as they
    /// were cut.
    pub runs: Runs,
    /// The part, in the cloth's own coordinates.
    pub region: Arc<Region>,
    /// The same, measured and ready for fitting.
    pub room: Arc<FitCloth>,
}

/// Cloths that look the same: scraps of one print, or a single odd scrap.
#[derive(Clone, Debug)]
pub struct Group {
    /// The print, if it is known.
    pub print: Option<u64>,
    /// How it looks.
    pub look: Look,
    /// Its mean colour.
    pub lab: Lab,
    /// The same, for quick comparing.
    pub quick: Quick,
    /// Whether the maker wants it used up.
    pub use_up: bool,
}

/// What there is to cut from. Cheap to clone: the search keeps one for each state.
#[derive(Clone, Debug, Default)]
pub struct Heap {
    groups: Arc<Vec<Group>>,
    group_of: Arc<BTreeMap<ClothId, usize>>,
    /// For each group, what is left, smallest first.
    rests: Vec<Arc<Vec<Rest>>>,
}

/// How a cloth on the table looks.
pub(crate) struct Known {
    /// Its group; past the end for a cloth that isn't in the heap.
    pub(crate) group: usize,
    pub(crate) print: Option<u64>,
    pub(crate) lab: Lab,
    pub(crate) quick: Quick,
}

/// Parts narrower than this, or smaller, are not cut from again: 1 inch and 1.5 square inches.
const LEAST_WIDTH_IN: f64 = 1.0;
const LEAST_AREA_IN2: f64 = 1.5;

impl Heap {
    /// A heap from cloths and, for each, the parts of it that are free to cut from.
    #[must_use]
    pub fn new<'a>(cloths: impl IntoIterator<Item = (&'a Cloth, Vec<Region>)>, use_up: &[ClothId]) -> Self {
        let mut groups: Vec<Group> = Vec::new();
        let mut rests: Vec<Vec<Rest>> = Vec::new();
        let mut by_print = BTreeMap::new();
        let mut group_of = BTreeMap::new();
        for (cloth, parts) in cloths {
            let fresh = groups.len();
            let group = cloth.print.map_or(fresh, |print| *by_print.entry(print).or_insert(fresh));
            if group == fresh {
                let lab = cloth.look.mean();
                let quick = Quick::new(lab);
                let look = cloth.look.clone();
                groups.push(Group { print: cloth.print, look, lab, quick, use_up: false });
                rests.push(Vec::new());
            }
            group_of.insert(cloth.id, group);
            groups[group].use_up |= use_up.contains(&cloth.id);
            rests[group].extend(parts.iter().filter_map(|part| rest(cloth.id, group, cloth.look.runs, part)));
        }
        for parts in &mut rests {
            parts.sort_by(|a, b| a.area().total_cmp(&b.area()).then(a.cloth.cmp(&b.cloth)));
        }
        Self {
            groups: Arc::new(groups),
            group_of: Arc::new(group_of),
            rests: rests.into_iter().map(Arc::new).collect(),
        }
    }

    /// The groups.
    #[must_use]
    pub fn groups(&self) -> &[Group] {
        &self.groups
    }

    /// What is left of a group, smallest first.
    #[must_use]
    pub fn rests(&self, group: usize) -> &[Rest] {
        &self.rests[group]
    }

    /// How a cloth looks; middle grey and of no group when it isn't known.
    pub(crate) fn look_of(&self, cloth: ClothId) -> Known {
        self.group_of.get(&cloth).map_or_else(
            || {
                let lab = Lab { l: 50.0, a: 0.0, b: 0.0 };
                Known { group: usize::MAX, print: None, lab, quick: Quick::new(lab) }
            },
            |&group| {
                let Group { print, lab, quick, .. } = self.groups[group];
                Known { group, print, lab, quick }
            },
        )
    }

    /// Which ways up a cloth's print may be used, if anything is left of it.
    pub(crate) fn runs_of(&self, cloth: ClothId) -> Option<Runs> {
        let group = *self.group_of.get(&cloth)?;
        self.rests(group).iter().find(|rest| rest.cloth == cloth).map(|rest| rest.runs)
    }

    /// Area left in all, in square inches.
    #[must_use]
    pub fn area_left(&self) -> f64 {
        self.rests.iter().flat_map(|rests| rests.iter()).map(Rest::area).sum()
    }

    /// Cuts a polygon, in cloth coordinates, out of one rest of a group.
    pub(crate) fn cut(&mut self, group: usize, index: usize, piece: &[plane::Point]) {
        let rests = Arc::make_mut(&mut self.rests[group]);
        let old = rests.remove(index);
        for part in plane::remainder(&old.region, piece) {
            if let Some(new) = rest(old.cloth, group, old.runs, &part) {
                let at = rests.partition_point(|r| r.area() < new.area());
                rests.insert(at, new);
            }
        }
    }
}

impl Rest {
    /// Area in square inches.
    #[must_use]
    pub fn area(&self) -> f64 {
        self.room.summary.area
    }
}

fn rest(cloth: ClothId, group: usize, runs: Runs, part: &Region) -> Option<Rest> {
    if part.area() < LEAST_AREA_IN2 || plane::polygon::least_width(&part.outer) < LEAST_WIDTH_IN {
        return None;
    }
    let room = Arc::new(FitCloth::new(part)?);
    Some(Rest { cloth, group, runs, region: Arc::new(part.clone()), room })
}
