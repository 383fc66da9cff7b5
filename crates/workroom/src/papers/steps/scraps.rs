//! The cloths as they are when each patch is cut: what earlier patches of the same log have left.

use crate::stash::Stash;
use plane::{Point, Region, polygon};
use quilt::cloth::{Cloth, ClothId, Kind};
use quilt::log::Mark;
use quilt::marks::{Ruler, ruler};
use quilt::table::Patch;
use std::collections::{BTreeMap, BTreeSet};

/// Names of cloths that are sewn together and longer than this are left out.
const LONGEST_NAME: usize = 24;

/// A patch as it is cut.
#[derive(Clone, Debug)]
pub(super) struct CutOut {
    /// The step that lays it: the number it is called by.
    pub(super) patch: Mark,
    /// What its cloth is called.
    pub(super) name: String,
    /// The cloth's number in the stash, where it has one.
    pub(super) no: Option<u32>,
    /// The scrap it is cut from, as it is then; `None` where nothing is known of it.
    pub(super) scrap: Option<Cloth>,
    /// What is cut, on the cloth.
    pub(super) outline: Vec<Point>,
    /// Which of its edges is first sewn, where one is.
    pub(super) base: Option<usize>,
    /// How, with the ruler.
    pub(super) ruler: Ruler,
}

/// What is left of the cloths.
#[derive(Debug)]
pub(super) struct Scraps<'a> {
    stash: &'a Stash,
    /// What of each family of cloths is still whole; nothing is known yet of one that isn't here.
    left: BTreeMap<ClothId, Vec<Region>>,
    /// The families of which patches of this log have been cut already.
    given: BTreeSet<ClothId>,
}

impl<'a> Scraps<'a> {
    /// Before anything is cut; `sewn` are the cloths of the patches that have been cut since.
    pub(super) fn new(stash: &'a Stash, sewn: impl IntoIterator<Item = ClothId>) -> Self {
        let given = sewn.into_iter().map(|cloth| stash.root(cloth)).collect();
        Self { stash, left: BTreeMap::new(), given }
    }

    /// The patch as it is cut, with the edge by which it is first sewn; after it, its cloth has less.
    pub(super) fn cut(&mut self, mark: Mark, patch: &Patch, base: Option<usize>) -> CutOut {
        let outline = patch.at.apply_all(&patch.cut);
        let shape = Region { outer: outline.clone(), holes: Vec::new() };
        let root = self.stash.root(patch.cloth);
        let item = self.stash.get(patch.cloth);
        let (stash, given) = (self.stash, &self.given);
        let left = self.left.entry(root).or_insert_with(|| {
            let now: Vec<Region> =
                stash.family(root).into_iter().map(|cloth| cloth.outline.clone()).collect();
            let came = stash.get(root).map(|item| item.came.outline.clone());
            // What has given already is told as it was before.
            if now.is_empty() || given.contains(&root) { came.into_iter().collect() } else { now }
        });
        let covered =
            |region: &Region| plane::intersection(region, &shape).iter().map(Region::area).sum::<f64>();
        let best = (0..left.len()).max_by(|a, b| covered(&left[*a]).total_cmp(&covered(&left[*b])));
        let held = best.filter(|at| covered(&left[*at]) > 0.5 * shape.area()).map(|at| left.remove(at));
        if let Some(held) = &held {
            left.extend(plane::remainder(held, &outline).into_iter().filter(is_worth_keeping));
        }
        let held = held.or_else(|| item.map(|item| item.came.outline.clone()));
        let ruler = held.as_ref().map(|held| ruler(&outline, held)).unwrap_or_default();
        let scrap = item.zip(held).map(|(item, held)| Cloth { outline: held, ..item.came.clone() });
        let name = item.map_or_else(|| "a cloth that isn't known here".to_owned(), |item| called(&item.came));
        CutOut { patch: mark, name, no: item.map(|item| item.no), scrap, outline, base, ruler }
    }
}

/// A cloth's name; one that is sewn together is rarely known by it, so its kind is enough where that is long.
fn called(cloth: &Cloth) -> String {
    match cloth.kind {
        Kind::StripSet if cloth.name.chars().count() > LONGEST_NAME => "the strip set".to_owned(),
        Kind::Pieced if cloth.name.chars().count() > LONGEST_NAME => "the pieced cloth".to_owned(),
        _ => cloth.name.clone(),
    }
}

/// Slivers that a blade leaves are no scraps.
fn is_worth_keeping(part: &Region) -> bool {
    polygon::least_width(&part.outer) > 0.25
}

impl CutOut {
    /// The edge by which it is first sewn, on the cloth.
    pub(super) fn edge(&self) -> Option<[Point; 2]> {
        polygon::edges(&self.outline).nth(self.base?).map(|(from, to)| [from, to])
    }

    /// Its size with that edge as the base, or its longest: how long that is, and how far it reaches square to it;
    /// both rounded up to the eighth, so that what is cut by eye is enough.
    pub(super) fn at_least_in(&self) -> [f64; 2] {
        let cut = &self.outline;
        let longest = || {
            let lengths = polygon::edges(cut).map(|(a, b)| a.distance(b)).enumerate();
            lengths.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(i, _)| i)
        };
        let base = self.base.or_else(longest).unwrap_or(0);
        let Some((a, b)) = polygon::edges(cut).nth(base) else { return [0.0, 0.0] };
        let length = a.distance(b).max(1e-9);
        let along = (b - a) * (1.0 / length);
        let reach = |by: plane::Vec2| {
            let all = cut.iter().map(|p| by.dot(*p - a));
            let (low, high) = all.fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)));
            quilt::length::round_up(high - low, 8)
        };
        [reach(along), reach(along.left())]
    }
}
