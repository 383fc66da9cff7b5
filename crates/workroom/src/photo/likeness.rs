//! Which prints of the heap, and which neighbours in the picture, look like a cloth: for the maker to
//! confirm, never to decide.

use super::looks::as_seen;
use crate::stash::Stash;
use quilt::cloth::{ClothId, Look};
use serde::Serialize;
use std::collections::BTreeMap;
use vision::same_print;

/// Most prints that are offered.
const MOST: usize = 5;
/// Looks less alike than this aren't offered.
const LEAST: f64 = 0.05;

/// A print of the heap that looks like a cloth that was found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Candidate {
    /// The print's number.
    #[serde(serialize_with = "hexadecimal")]
    pub print: u64,
    /// The likest cloth of that print.
    pub cloth: ClothId,
    /// Its number in the heap.
    pub no: u32,
    /// Its name.
    pub name: String,
    /// How like it looks, 0 to 1: for ranking, not for deciding.
    pub likeness: f64,
}

/// Another cloth of the same picture that looks like one.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Alike {
    /// Its place among the cloths found, from 0.
    pub which: usize,
    /// How like it looks, 0 to 1.
    pub likeness: f64,
}

/// The looks of the heap, as they are known now.
pub(super) struct Known(Vec<(u64, ClothId, u32, String, Look)>);

impl Known {
    /// All cloths of the heap that are of a print, those of which nothing is left too: their print may
    /// have come again.
    pub(super) fn of(stash: &Stash) -> Self {
        let known = stash.items().filter_map(|item| {
            let cloth = item.now.as_ref().unwrap_or(&item.came);
            Some((cloth.print?, cloth.id, item.no, cloth.name.clone(), cloth.look.clone()))
        });
        Self(known.collect())
    }

    /// The prints that look like a seen one, likest first, each by its likest cloth.
    pub(super) fn like(&self, seen: &vision::Look) -> Vec<Candidate> {
        let mut best: BTreeMap<u64, Candidate> = BTreeMap::new();
        for (print, cloth, no, name, look) in &self.0 {
            let likeness = same_print(seen, &as_seen(look, seen.motif_in));
            if likeness >= LEAST && best.get(print).is_none_or(|other| other.likeness < likeness) {
                let (print, cloth, no) = (*print, *cloth, *no);
                best.insert(print, Candidate { print, cloth, no, name: name.clone(), likeness });
            }
        }
        let mut ranked: Vec<Candidate> = best.into_values().collect();
        ranked.sort_by(|a, b| b.likeness.total_cmp(&a.likeness).then(a.no.cmp(&b.no)));
        ranked.truncate(MOST);
        ranked
    }
}

/// For each look of a picture the others that are like it, likest first.
pub(super) fn alike(looks: &[vision::Look]) -> Vec<Vec<Alike>> {
    let like = |(i, look): (usize, &vision::Look)| {
        let others = looks.iter().enumerate().filter(|(j, _)| *j != i);
        let mut like: Vec<Alike> =
            others.map(|(which, other)| Alike { which, likeness: same_print(look, other) }).collect();
        like.retain(|one| one.likeness >= LEAST);
        like.sort_by(|a, b| b.likeness.total_cmp(&a.likeness).then(a.which.cmp(&b.which)));
        like.truncate(MOST);
        like
    };
    looks.iter().enumerate().map(like).collect()
}

fn hexadecimal<S: serde::Serializer>(print: &u64, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(&format!("{print:x}"))
}
