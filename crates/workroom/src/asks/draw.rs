//! Drawings of a head or a step, as SVG.

use super::error::{AskError, Asked};
use super::propose::{Offer, laid};
use crate::workroom::Workroom;
use drawing::{ClothOptions, FrontOptions};
use quilt::cloth::ClothId;
use quilt::log::{Mark, StepId};
use std::collections::BTreeSet;

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
}

impl Workroom {
    /// The piece at a step, with everything else on the table beside it. Steps up to `sewn` are
    /// drawn as sewn, the rest as chalk.
    ///
    /// # Errors
    /// No such step; nothing on the table.
    pub fn draw(
        &mut self,
        tip: StepId,
        sewn: Option<&BTreeSet<Mark>>,
        ask: DrawAsk,
    ) -> Asked<drawing::Drawing> {
        let cloths = self.every_cloth()?;
        let table = self.table_at(tip)?;
        let (top, _) = table.piece().ok_or(AskError::NothingOnTable)?;
        let what = options(sewn, ask);
        Ok(if ask.back {
            drawing::back(&table, top, &cloths, &what)?
        } else if table.tops().len() > 1 {
            drawing::table_drawing(&table, &cloths, &what)?
        } else {
            drawing::front(&table, top, &cloths, &what)?
        })
    }

    /// The piece with an offer laid on it.
    ///
    /// # Errors
    /// No such step; nothing on the table.
    pub fn draw_offer(&mut self, tip: StepId, offer: &Offer, ask: DrawAsk) -> Asked<drawing::Drawing> {
        let cloths = self.every_cloth()?;
        let table = self.table_at(tip)?;
        let (top, _) = table.piece().ok_or(AskError::NothingOnTable)?;
        let proposal = laid(&offer.proposal, &table);
        Ok(drawing::proposal_drawing(&table, top, &cloths, &options(None, ask), &proposal)?)
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

    /// The marks of the steps up to and including `sewn` on the path to it.
    ///
    /// # Errors
    /// No such step.
    pub fn sewn_marks(&self, sewn: Option<StepId>) -> Asked<BTreeSet<Mark>> {
        let path = sewn.map(|sewn| self.path(sewn)).transpose()?.unwrap_or_default();
        Ok(path.into_iter().map(|step| step.entry.mark).collect())
    }
}

fn options(sewn: Option<&BTreeSet<Mark>>, ask: DrawAsk) -> FrontOptions {
    FrontOptions {
        labels: ask.labels,
        measures: ask.measures,
        flat: ask.flat,
        sewn: sewn.cloned(),
        ..FrontOptions::default()
    }
}
