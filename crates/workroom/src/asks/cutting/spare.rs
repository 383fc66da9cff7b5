//! Patches planned on a length that is whole, where an offcut of the same print would hold them.

use super::lay::question;
use super::wanted::Wanted;
use super::{CutPiece, CuttingPlan, CuttingWish, refused};
use crate::asks::capital;
use crate::asks::error::Asked;
use crate::stash::{Item, Stash};
use nest::Effort;
use plane::{Region, ShapeSummary};
use quilt::cloth::{ClothId, Kind};
use quilt::log::Mark;
use quilt::stage::on_hand::OnHand;
use serde::Serialize;
use std::collections::BTreeMap;

/// A patch that would lie in an offcut too.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Elsewhere {
    /// What it is called.
    pub name: String,
    /// The step that lays it.
    pub mark: Option<Mark>,
    /// The number of the length that it is planned on.
    pub planned_no: u32,
    /// The number of the cloth that would hold it.
    pub no: u32,
}

/// More is cut off a cloth than this share of it: it is no whole length any more.
const WHOLE: f64 = 0.99;

/// Whether nothing has been cut from a length.
fn is_whole(item: &Item) -> bool {
    let area = |region: &Region| region.area();
    item.came.kind == Kind::Length
        && item.came.parent.is_none()
        && item.now.as_ref().is_some_and(|now| area(&now.outline) > WHOLE * area(&item.came.outline))
}

/// Where patches that keep their place on a whole length would lie as well, all of them together: in cloth of the same
/// print that is smaller and isn't a whole length. `there` is what is free beside everything in the plan.
pub(super) fn elsewhere(
    kept: &[(&Wanted, ClothId)],
    there: &[(&Item, OnHand)],
    on: &BTreeMap<ClothId, Vec<CutPiece>>,
    stash: &Stash,
    wish: &CuttingWish,
) -> Asked<Vec<Elsewhere>> {
    let from = |cloth: ClothId| stash.get(cloth).filter(|item| is_whole(item));
    let on_lengths: Vec<(&Wanted, &Item)> =
        kept.iter().filter_map(|&(piece, held)| Some((piece, from(held)?))).collect();
    let pieces: Vec<Wanted> = on_lengths.iter().map(|(piece, _)| (*piece).clone()).collect();
    let mut ask = question(&pieces, there, on, stash, wish);
    let parts: Vec<Vec<ShapeSummary>> =
        there.iter().map(|(_, cloth)| cloth.free.iter().filter_map(ShapeSummary::of).collect()).collect();
    for (piece, (_, length)) in ask.pieces.iter_mut().zip(&on_lengths) {
        let shape = ShapeSummary::of(&Region { outer: piece.outline.clone(), holes: Vec::new() });
        piece.from.retain(|source| {
            let (item, cloth) = &there[source.cloth];
            let may = |part: &ShapeSummary| shape.as_ref().is_some_and(|shape| part.forbids(shape).is_none());
            let is_smaller = cloth.area_in2() < length.came.outline.area() && item.came.id != length.came.id;
            is_smaller && !is_whole(item) && parts[source.cloth].iter().any(may)
        });
    }
    let mut open = ask.pieces.iter().map(|piece| !piece.from.is_empty());
    let on_lengths: Vec<(&Wanted, &Item)> =
        on_lengths.into_iter().filter(|_| open.next() == Some(true)).collect();
    ask.pieces.retain(|piece| !piece.from.is_empty());
    if ask.pieces.is_empty() {
        return Ok(Vec::new());
    }
    ask.effort = Effort { rounds: 0, ..ask.effort };
    let answer = nest::first_fit(&ask).map_err(|problem| refused(&problem))?;
    let mut found: Vec<Elsewhere> = answer
        .placed
        .iter()
        .map(|at| {
            let (piece, length) = on_lengths[at.piece];
            let (name, mark) = (piece.name.clone(), piece.mark);
            Elsewhere { name, mark, planned_no: length.no, no: there[at.cloth].0.no }
        })
        .collect();
    found.sort_by_key(|one| (one.no, one.mark));
    Ok(found)
}

impl CuttingPlan {
    /// That patches would lie in offcuts too, a sentence for each of those.
    #[must_use]
    pub fn elsewhere_words(&self) -> Vec<String> {
        let mut by: BTreeMap<u32, Vec<&str>> = BTreeMap::new();
        for one in &self.elsewhere {
            by.entry(one.no).or_default().push(&one.name);
        }
        let say = |(no, names): (&u32, &Vec<&str>)| {
            let names = capital(&names.join(", "));
            let planned = if names.contains(',') { "they are" } else { "it is" };
            format!(
                "{names} would also lie in No. {no}, which is smaller than the whole length that {planned} planned on; \
                 `--anew` weighs that too."
            )
        };
        by.iter().map(say).collect()
    }
}
