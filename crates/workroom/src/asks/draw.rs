//! Drawings of a head or a step, as SVG.

use super::error::{AskError, Asked};
use super::finished::Wanted;
use super::heap::Claimed;
use super::propose::{Offer, laid};
use crate::audit::claims;
use crate::workroom::Workroom;
use drawing::{ClothOptions, FrontOptions, PlannedCut};
use plane::{Point, Region};
use quilt::cloth::ClothId;
use quilt::length::LengthUnit;
use quilt::log::{Entry, Mark, StepId};
use quilt::marks::{numbered_through, ruler};
use quilt::stage::ChosenLast;
use quilt::stage::on_hand::OnHand;
use quilt::table::{Table, Top};
use std::collections::{BTreeMap, BTreeSet};

/// The seam allowance that a top is sewn with, that of its last seam: what its free edges will lose.
fn sewn_with_in(top: &Top) -> f64 {
    let last = top.seams().last_key_value();
    last.map_or(FrontOptions::default().allowance_in, |(_, seam)| seam.allowance_in)
}

/// What is asked of a drawing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct DrawAsk {
    /// The back instead of the front.
    pub back: bool,
    /// Names of patches and sides.
    pub labels: bool,
    /// Lengths.
    pub measures: bool,
    /// Mean colours instead of pictures.
    pub flat: bool,
    /// The photograph that the piece was measured by last, in the place of the cloth that it shows;
    /// the cloth where there is none.
    pub photo: bool,
    /// In which unit lengths are told.
    pub unit: LengthUnit,
}

impl Workroom {
    /// The piece at a step, with everything else on the table beside it. Steps up to `sewn` are
    /// drawn as sewn, the rest as chalk. Once something is chosen of the later stages, the finished
    /// piece is drawn, unless names or measures are asked for.
    ///
    /// # Errors
    /// No such step; nothing on the table.
    pub fn draw(
        &mut self,
        tip: StepId,
        sewn: Option<&BTreeSet<Mark>>,
        ask: DrawAsk,
    ) -> Asked<drawing::Drawing> {
        let table = self.table_at(tip)?;
        self.draw_table(tip, &table, sewn, ask)
    }

    /// As [`Workroom::draw`], of what would lie on the table after a step: a look at a stage.
    ///
    /// # Errors
    /// Nothing on the table.
    pub fn draw_table(
        &mut self,
        tip: StepId,
        table: &Table,
        sewn: Option<&BTreeSet<Mark>>,
        ask: DrawAsk,
    ) -> Asked<drawing::Drawing> {
        let cloths = self.every_cloth()?;
        let (top, piece) = table.piece().ok_or(AskError::NothingOnTable)?;
        let allowance_in = sewn_with_in(piece);
        let photographed = if ask.photo { self.photographed(tip)?.map(|(_, photo)| photo) } else { None };
        let what = FrontOptions { photographed, allowance_in, ..options(sewn, ask) };
        // Names and measures are those of the top.
        if !ask.labels && !ask.measures && table.tops().len() == 1 {
            let on_hand = &self.on_hand_at(tip, sewn)?;
            let (cloths, what, back) = (&cloths, &what, ask.back);
            let wanted = Wanted { table, top, cloths, what, back, allowance_in, on_hand };
            if let Some(drawing) = self.draw_finished(&wanted, &ChosenLast::of(table.stages()))? {
                return Ok(drawing);
            }
        }
        Ok(match (ask.back, table.tops().len() > 1) {
            (true, true) => drawing::table_back(table, &cloths, &what)?,
            (true, false) => drawing::back(table, top, &cloths, &what)?,
            (false, true) => drawing::table_drawing(table, &cloths, &what)?,
            (false, false) => drawing::front(table, top, &cloths, &what)?,
        })
    }

    /// Every cloth as a stage may use it at a step, with the steps up to `sewn` cut already.
    pub(super) fn on_hand_at(&mut self, tip: StepId, sewn: Option<&BTreeSet<Mark>>) -> Asked<Vec<OnHand>> {
        let entries: Vec<Entry> = self.path(tip)?.into_iter().map(|step| step.entry).collect();
        let done = entries.iter().take_while(|entry| sewn.is_none_or(|sewn| sewn.contains(&entry.mark)));
        let done = done.count();
        let stash = self.stash()?;
        Ok(Claimed::by_entries(&entries, done, None, stash).on_hand(stash))
    }

    /// The piece with an offer laid on it.
    ///
    /// # Errors
    /// No such step; nothing on the table.
    pub fn draw_offer(&mut self, tip: StepId, offer: &Offer, ask: DrawAsk) -> Asked<drawing::Drawing> {
        let cloths = self.every_cloth()?;
        let table = self.table_at(tip)?;
        let (top, piece) = table.piece().ok_or(AskError::NothingOnTable)?;
        let what = FrontOptions { allowance_in: sewn_with_in(piece), ..options(None, ask) };
        let proposal = laid(&offer.proposal, &table);
        Ok(drawing::proposal_drawing(&table, top, &cloths, &what, &proposal)?)
    }

    /// One cloth of the stash.
    ///
    /// # Errors
    /// No such cloth.
    pub fn draw_cloth(&mut self, cloth: ClothId, what: &ClothOptions) -> Asked<drawing::Drawing> {
        let cloths = self.every_cloth()?;
        let item = self.stash()?.get(cloth).ok_or(crate::WorkroomError::NoSuchCloth(cloth))?;
        let shown = item.now.as_ref().unwrap_or(&item.came).clone();
        Ok(drawing::cloth_drawing(&shown, &cloths, what))
    }

    /// One cloth as it is to be cut for a patch of an offer: its edges with their letters and lengths,
    /// and the ruler's lines by the numbers of the words. `None` for a patch that isn't there.
    ///
    /// # Errors
    /// A ledger that can't be read.
    pub fn draw_cut(&mut self, offer: &Offer, patch: usize) -> Asked<Option<drawing::Drawing>> {
        let cloths = self.every_cloth()?;
        let Some(plan) = offer.proposal.patches.get(patch) else { return Ok(None) };
        let shape = Region { outer: plan.on_cloth.clone(), holes: Vec::new() };
        let stash = self.stash()?;
        let Some(held) = stash.holder(plan.cloth, &shape).or_else(|| stash.get(plan.cloth).map(|i| &i.came))
        else {
            return Ok(None);
        };
        let cut = PlannedCut { outline: plan.on_cloth.clone(), label: String::new(), cut: false };
        let rulers = vec![ruler(&plan.on_cloth, &held.outline)];
        let what =
            ClothOptions { cuts: vec![cut], letters: true, lengths: true, rulers, ..ClothOptions::default() };
        Ok(Some(drawing::cloth_drawing(held, &cloths, &what)))
    }

    /// One cloth of the stash with what a head plans to cut from it, and the sentences for it. Without
    /// `labels` and `measures` no letters and no lengths.
    ///
    /// # Errors
    /// No such cloth; no such head.
    pub fn draw_cloth_for(
        &mut self,
        cloth: ClothId,
        of: Option<(&str, &str)>,
        ask: DrawAsk,
    ) -> Asked<(drawing::Drawing, Vec<String>)> {
        let claimed = match of {
            Some((quilt, head)) => {
                let log = self.log(quilt, head)?;
                claims(&log.entries(), log.sewn)
            }
            None => BTreeMap::new(),
        };
        let cloths = self.every_cloth()?;
        let stash = self.stash()?;
        let item = stash.get(cloth).ok_or(crate::WorkroomError::NoSuchCloth(cloth))?;
        let shown = item.now.as_ref().unwrap_or(&item.came);
        let of_it = claimed.iter().filter(|(other, _)| stash.root(**other) == item.root);
        let parts: Vec<_> = of_it
            .flat_map(|(other, parts)| parts.iter().map(move |part| (*other, part)))
            .filter(|(other, part)| {
                stash.holder(*other, &part.region).is_some_and(|held| held.id == shown.id)
            })
            .map(|(_, part)| part)
            .collect();
        let outlines: Vec<Vec<Point>> = parts.iter().map(|part| part.region.outer.clone()).collect();
        let ruler = numbered_through(&outlines, &shown.outline);
        let told = ruler.words.clone();
        let cuts = parts.iter().map(|part| PlannedCut {
            outline: part.region.outer.clone(),
            label: part.mark.to_string(),
            cut: false,
        });
        let what = ClothOptions {
            labels: ask.labels,
            flat: ask.flat,
            cuts: cuts.collect(),
            letters: ask.labels,
            lengths: ask.measures,
            rulers: vec![ruler],
            ..ClothOptions::default()
        };
        Ok((drawing::cloth_drawing(shown, &cloths, &what), told))
    }

    /// The marks of the steps up to and including `sewn` on the path to it.
    ///
    /// # Errors
    /// No such step.
    pub fn sewn_marks(&self, sewn: Option<StepId>) -> Asked<BTreeSet<Mark>> {
        let path = sewn.map(|sewn| self.path(sewn)).transpose()?.unwrap_or_default();
        Ok(path.into_iter().map(|step| step.entry.mark).collect())
    }
}

pub(super) fn options(sewn: Option<&BTreeSet<Mark>>, ask: DrawAsk) -> FrontOptions {
    FrontOptions {
        labels: ask.labels,
        measures: ask.measures,
        flat: ask.flat,
        sewn: sewn.cloned(),
        unit: ask.unit,
        ..FrontOptions::default()
    }
}
