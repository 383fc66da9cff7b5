//! Strip sets and other pieced cloth where everything is bought: no shop sells them, so what they are sewn from is bought.

use super::NoPlace;
use super::wanted::{Lies, Of, Wanted};
use crate::stash::{Item, Stash, stripes};
use plane::{Line, Point, Region, Turn, clip_half_plane, polygon};
use quilt::cloth::{Cloth, ClothId, Kind, Part};
use serde::Serialize;
use std::collections::BTreeMap;

/// A pieced cloth that is to be sewn before pieces are cut from it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ToSew {
    /// Its number in the heap.
    pub no: u32,
    /// What its maker calls it.
    pub name: String,
    /// Of how many strips it is sewn.
    pub strips: usize,
    /// How long and high it is sewn, in inches.
    pub size_in: [f64; 2],
    /// The allowance of its seams, in inches.
    pub allowance_in: f64,
    /// What is cut from it then.
    pub pieces: Vec<String>,
}

impl ToSew {
    /// It in a sentence; `length` writes a length.
    #[must_use]
    pub fn words(&self, length: &dyn Fn(f64) -> String) -> String {
        let [long, high] = self.size_in.map(length);
        format!(
            "No. {} ({}) is no cloth off a bolt: sew it anew of its {} strips in their order, with seams of {}, {long} by {high} \
             in all, then cut from it {}.",
            self.no,
            self.name,
            self.strips,
            length(self.allowance_in),
            self.pieces.join(", ")
        )
    }
}

/// What is bought, with the strips of pieced cloths in place of the pieces that are cut from them.
#[derive(Default)]
pub(super) struct Unsewn {
    pub(super) wanted: Vec<Wanted>,
    pub(super) to_sew: Vec<ToSew>,
    pub(super) no_place: Vec<NoPlace>,
}

/// Puts strips in place of pieces that are cut from pieced cloth.
pub(super) fn unsewn(wanted: Vec<Wanted>, stash: &Stash, allowance_in: f64) -> Unsewn {
    let mut found = Unsewn::default();
    let mut from: BTreeMap<ClothId, Vec<Wanted>> = BTreeMap::new();
    for piece in wanted {
        let pieced = match piece.of {
            Of::Cloth(cloth) => stash.get(stash.root(cloth)).filter(|item| item.came.parts.len() > 1),
            _ => None,
        };
        match pieced {
            Some(item) => from.entry(item.came.id).or_default().push(piece),
            None => found.wanted.push(piece),
        }
    }
    for (cloth, pieces) in from {
        let Some(item) = stash.get(cloth) else { continue };
        match strips(item, &pieces, stash, allowance_in) {
            Some((strips, size_in)) => {
                found.to_sew.push(ToSew {
                    no: item.no,
                    name: item.came.name.clone(),
                    strips: strips.len(),
                    size_in,
                    allowance_in,
                    pieces: pieces.into_iter().map(|piece| piece.name).collect(),
                });
                found.wanted.extend(strips);
            }
            None => found.no_place.extend(pieces.into_iter().map(|piece| NoPlace {
                why: format!(
                    "it is cut from No. {} ({}), which is sewn of bits that are themselves pieced: no shop sells it. Sew that \
                     first, or cut from the heap (without `--buy-all`).",
                    item.no, item.came.name
                ),
                name: piece.name,
            })),
        }
    }
    found
}

/// The strips that a pieced cloth is sewn of, and its size: a strip set only as long as its pieces reach. `None` where
/// one of them is pieced itself.
fn strips(
    item: &Item,
    pieces: &[Wanted],
    stash: &Stash,
    allowance_in: f64,
) -> Option<(Vec<Wanted>, [f64; 2])> {
    let set =
        if item.came.kind == Kind::StripSet { shortened(&item.came, pieces) } else { item.came.clone() };
    let whole = |id: ClothId| stash.get(id).map(|item| &item.came).filter(|came| came.parts.is_empty());
    let unpicked = stripes(&set, allowance_in, whole);
    if unpicked.len() < set.parts.len() {
        return None;
    }
    let strips = unpicked.iter().zip(1..).filter_map(|(strip, i)| {
        let cloth = strip.parent?;
        let lies = Lies::ByPrint { turn: Turn::NONE, grain: strip.grain, runs: strip.look.runs };
        let name = format!("strip {i} of No. {} ({})", item.no, item.came.name);
        let outline = strip.outline.outer.clone();
        Some(Wanted { name, mark: None, outline, of: Of::Cloth(cloth), lies, laid: None, joinable: None })
    });
    let (low, high) = polygon::bounds(&set.outline.outer)?;
    Some((strips.collect(), [high.x - low.x, high.y - low.y]))
}

/// A strip set only as far along its strips as pieces reach; x runs along them.
fn shortened(set: &Cloth, pieces: &[Wanted]) -> Cloth {
    let laid = pieces.iter().filter_map(|piece| Some(piece.laid?.1.apply_all(&piece.outline)));
    let reach = laid
        .flatten()
        .map(|p| p.x)
        .fold([f64::INFINITY, f64::NEG_INFINITY], |[l, h], x| [l.min(x), h.max(x)]);
    let is_known = reach[0] < reach[1] && pieces.iter().all(|piece| piece.laid.is_some());
    if !is_known {
        return set.clone();
    }
    let cut = |points: &[Point]| {
        let from = Line::from_point(Point::new(reach[0], 0.0), Turn::QUARTER.opposite());
        let to = Line::from_point(Point::new(reach[1], 0.0), Turn::QUARTER);
        clip_half_plane(&clip_half_plane(points, from, 0.0), to, 0.0)
    };
    let parts = set.parts.iter().map(|part| Part { shows: cut(&part.shows), ..part.clone() });
    let parts = parts.filter(|part| part.shows.len() > 2).collect();
    Cloth { outline: Region { outer: cut(&set.outline.outer), holes: Vec::new() }, parts, ..set.clone() }
}
