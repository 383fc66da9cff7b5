//! What a slice leaves out of each half: lines and seams that lie wholly on the other.
//!
//! The lines of the half that a slice brings are named by their place in the order of all lines of
//! the top, and stored steps call sides by these names. So what is left out is counted on: a half
//! remembers where in the order its pruned lines stood, as runs of names with none in use between
//! them, and the next slice passes over as many numbers. Nothing else of them is kept.

use super::Top;
use crate::log::{Bound, Name};
use plane::Line;
use std::collections::{BTreeMap, BTreeSet};

/// The names of what slices have left out of a top.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Pruned {
    /// Runs of pruned lines: the first's name, and how many.
    runs: BTreeMap<Bound, u32>,
    /// Lines in use that a pruned seam ended at: when they go, they are counted with the pruned.
    ends: BTreeSet<Bound>,
    /// Seams that were open when they were pruned. Sewing the rest of one is done elsewhere.
    open: BTreeSet<Name>,
}

impl Pruned {
    fn count(&mut self, bound: Bound, lines: u32) {
        let run = self.runs.entry(bound).or_default();
        *run = run.saturating_add(lines);
    }

    /// Takes note that a line has gone.
    pub(super) fn line_gone(&mut self, bound: Bound) {
        if self.ends.remove(&bound) {
            self.count(bound, 1);
        }
    }

    /// Takes note that a line bears another name.
    pub(super) fn renamed(&mut self, old: Bound, new: Bound) {
        if self.ends.remove(&old) {
            self.ends.insert(new);
        }
    }

    /// What was pruned from a top that was sewn on is pruned from the whole.
    pub(super) fn merge(&mut self, other: Self) {
        other.runs.into_iter().for_each(|(bound, lines)| self.count(bound, lines));
        self.ends.extend(other.ends);
        self.open.extend(other.open);
    }

    /// Whether an open seam of this name was pruned; asked once.
    pub(super) fn close(&mut self, seam: Name) -> bool {
        self.open.remove(&seam)
    }

    /// New names for `lines` and for what was pruned among them, numbered by `name` from 2 on in
    /// the order of the old. Where the numbers run out, the lowest that pruned lines hold are taken.
    pub(super) fn reborn(
        &self,
        lines: &BTreeMap<Bound, Line>,
        own: Bound,
        name: impl Fn(u16) -> Name,
    ) -> (BTreeMap<Bound, Bound>, Self) {
        let as_new = |old: Bound, no: u16| match old {
            Bound::Raw(_) => Bound::Raw(name(no)),
            Bound::Seam(_) => Bound::Seam(name(no)),
        };
        let mut order: Vec<(Bound, Option<u32>)> = lines.keys().map(|line| (*line, None)).collect();
        order.extend(self.runs.iter().map(|(run, lines)| (*run, Some(*lines))));
        order.sort_unstable_by_key(|(bound, _)| *bound);
        let (mut next, mut names, mut pruned) = (2_u32, BTreeMap::new(), Self::default());
        let (mut without, mut spare, mut last_run) = (Vec::new(), Vec::new(), None);
        for (old, run) in order {
            let no = u16::try_from(next).unwrap_or(u16::MAX);
            match run {
                None if old == own => {
                    names.insert(old, own);
                    continue;
                }
                None => {
                    last_run = None;
                    if next < u32::from(u16::MAX) {
                        names.insert(old, as_new(old, no));
                    } else {
                        without.push(old);
                    }
                }
                Some(lines) => {
                    let new = as_new(old, no);
                    let run = last_run.filter(|run| {
                        matches!(
                            (run, new),
                            (Bound::Raw(_), Bound::Raw(_)) | (Bound::Seam(_), Bound::Seam(_))
                        )
                    });
                    pruned.count(run.unwrap_or(new), lines);
                    last_run = run.or(Some(new));
                    spare.push(no..u16::try_from(next.saturating_add(lines)).unwrap_or(u16::MAX));
                }
            }
            next = next.saturating_add(run.unwrap_or(1));
        }
        let spare = spare.into_iter().flatten().chain(std::iter::repeat(u16::MAX));
        names.extend(without.into_iter().zip(spare).map(|(old, no)| (old, as_new(old, no))));
        let to = |old: &Bound| names.get(old).copied();
        pruned.ends = self.ends.iter().filter_map(to).collect();
        (names, pruned)
    }
}

impl Top {
    /// The lines that the outline and the faces run along.
    pub(super) fn bounds_in_use(&self) -> BTreeSet<Bound> {
        let around = self.faces.values().flat_map(|face| &face.around);
        self.outline.iter().chain(around).copied().collect()
    }

    /// Leaves out the seams that `keeps` doesn't name, and all lines that nothing here runs along
    /// or ends at.
    pub(super) fn prune(&mut self, keeps: impl Fn(Bound) -> bool) {
        let seams = std::mem::take(&mut self.seams);
        let (kept, gone): (BTreeMap<_, _>, BTreeMap<_, _>) =
            seams.into_iter().partition(|(name, _)| keeps(Bound::Seam(*name)));
        self.pruned.ends.extend(gone.values().flat_map(|seam| seam.ends));
        self.pruned.open.extend(gone.iter().filter(|(_, seam)| seam.open.is_some()).map(|(name, _)| *name));
        self.seams = kept;
        let mut used = self.bounds_in_use();
        for (name, seam) in &self.seams {
            used.insert(Bound::Seam(*name));
            used.extend(seam.ends);
        }
        let dead: Vec<Bound> = self.lines.keys().filter(|line| !used.contains(line)).copied().collect();
        for line in dead {
            self.lines.remove(&line);
            self.pruned.count(line, 1);
        }
        self.pruned.ends.retain(|end| self.lines.contains_key(end));
    }
}
