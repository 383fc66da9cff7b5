//! Binding from the cloth that is named, and hanging by the piece's real weight.

use super::beside::figure_plan;
use super::cloth_name::ClothName;
use super::error::Asked;
use super::stage::cant;
use crate::workroom::Workroom;
use plane::Point;
use quilt::cloth::{Cloth, Kind};
use quilt::stage::ChosenLast;
use quilt::stage::binding::BindingChoice;
use quilt::stage::habits::Habits;
use quilt::stage::on_hand::OnHand;
use quilt::stage::sleeve::{self, HeavyPart, LAYER_ADDS, SleeveChoice, SleevePlan};
use quilt::table::Top;

impl Workroom {
    /// A binding with its strips laid in the cloth that is named; all leftovers of binding that answer to
    /// the name are taken together.
    ///
    /// # Errors
    /// No such cloth; one that doesn't hold the strips, with what is missing.
    pub(super) fn binding_from(
        &mut self,
        [quilt, head]: [&str; 2],
        from: &ClothName,
        choice: &BindingChoice,
        raw: &[Point],
    ) -> Asked<BindingChoice> {
        let allowance_in = self.wish(quilt)?.allowance_in;
        let stash = self.stash()?;
        let there = stash.items().filter(|item| from.is(item)).filter_map(|item| item.now.clone());
        let mut cloths: Vec<Cloth> = there.filter(|cloth| cloth.kind == Kind::Binding).collect();
        if cloths.is_empty() {
            cloths.push(self.cloth_free(quilt, head, from)?);
        }
        let laid = choice.laid_in(raw, allowance_in, &cloths).map_err(cant)?;
        Ok(BindingChoice { cloth: cloths.first().map(|cloth| cloth.id), ..laid })
    }
}

/// How a piece hangs, with the weight of its figure where that lies.
///
/// # Errors
/// As [`sleeve::plan`], or a figure that can't be laid out.
pub(super) fn sleeve_plan(
    choice: &SleeveChoice,
    chosen: &ChosenLast<'_>,
    top: &Top,
    on_hand: &[OnHand],
    allowance_in: f64,
) -> Asked<SleevePlan> {
    // What a patch weighs doesn't come of how fast it is sewn.
    let habits = Habits::default();
    let figure = chosen.figure.map(|figure| figure_plan(figure, top, on_hand, &habits)).transpose()?;
    let patches = figure.into_iter().flat_map(|figure| figure.patches);
    let heavy: Vec<HeavyPart> =
        patches.map(|patch| HeavyPart { outline: patch.finished, adds: LAYER_ADDS }).collect();
    sleeve::plan(choice, &top.outline_points(), &heavy, allowance_in).map_err(cant)
}
