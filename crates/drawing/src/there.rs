//! Which patches are on the piece already, and which are only planned.

use crate::FrontOptions;
use quilt::log::{Bound, Mark, Name};
use quilt::table::Top;
use std::collections::{BTreeMap, BTreeSet};

/// The faces that hang together by sewn seams with the patch that began the top; of a top that was
/// cut off another, with its first one.
pub(crate) fn there(top: &Top, began: Mark, what: &FrontOptions) -> BTreeSet<Name> {
    let first = top.faces().iter().find(|(_, face)| face.patch == began);
    let Some((first, _)) = first.or_else(|| top.faces().first_key_value()) else { return BTreeSet::new() };
    let mut seams: BTreeMap<Name, Vec<Name>> = BTreeMap::new();
    let mut faces: BTreeMap<Name, Vec<Name>> = BTreeMap::new();
    for (name, face) in top.faces().iter().filter(|(_, face)| what.is_sewn(face.patch)) {
        let own = seams.entry(*name).or_default();
        for bound in face.around() {
            if matches!(bound, Bound::Seam(seam) if what.is_sewn(seam.by)) {
                own.push(bound.name());
                faces.entry(bound.name()).or_default().push(*name);
            }
        }
    }
    let mut there = BTreeSet::new();
    let mut next = vec![*first];
    while let Some(face) = next.pop() {
        if let Some(seams) = seams.remove(&face) {
            there.insert(face);
            next.extend(seams.iter().filter_map(|seam| faces.remove(seam)).flatten());
        }
    }
    there
}
