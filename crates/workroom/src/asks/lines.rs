//! The lines of quilting that are chosen at a head, to be followed by a hand or a machine.

use super::beside::beside_quilting;
use super::error::{AskError, Asked};
use super::stage::cant;
use super::told::capital;
use crate::workroom::Workroom;
use plane::fill::Fill;
use plane::{Point, Region};
use quilt::length::{LengthUnit, many};
use quilt::stage::quilting::{Caution, Quilting, QuiltingChoice, QuiltingPlan};
use quilt::stage::{ChosenLast, quilting};

/// Lines with what they lie on.
#[derive(Clone, Debug)]
pub struct QuiltingLines {
    /// The piece's raw outline.
    pub outline: Vec<Point>,
    /// What is kept free of lines.
    pub free: Vec<Region>,
    /// What was chosen.
    pub choice: QuiltingChoice,
    /// The strokes as the design lays them.
    pub laid: Fill,
    /// The strokes as they are sewn: on a frame cut at the edges of its passes.
    pub sewn: Fill,
    /// What they come to.
    pub plan: QuiltingPlan,
}

impl Workroom {
    /// What was chosen last for the quilting of a head.
    ///
    /// # Errors
    /// No such quilt or head.
    pub fn quilting_chosen(&mut self, quilt: &str, head: &str) -> Asked<Option<QuiltingChoice>> {
        let table = self.table(quilt, head)?;
        Ok(ChosenLast::of(table.stages()).quilting.cloned())
    }

    /// The lines of quilting that are chosen at a head.
    ///
    /// # Errors
    /// Nothing on the table, no quilting chosen, or what stands against the lines.
    pub fn quilting_lines(&mut self, quilt: &str, head: &str) -> Asked<QuiltingLines> {
        let table = self.table(quilt, head)?;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let outline = top.outline_points();
        let chosen = ChosenLast::of(table.stages());
        let choice = chosen.quilting.ok_or_else(|| AskError::CantBe {
            what: "no quilting has been chosen yet".to_owned(),
            hint: "Choose it by a plan file: ragbag finish my-plan.toml; docs/PLAN.md tells what it can say."
                .to_owned(),
        })?;
        let beside = beside_quilting(&chosen, &outline, &self.on_hand(quilt, head)?)?;
        let habits = self.habits()?;
        let Quilting { fill: laid, sewn, plan } =
            quilting::plan(choice, &outline, &beside, &habits).map_err(cant)?;
        let own = choice.keep_out.iter().map(|kept| kept.shape.clone());
        let free = own.chain(beside.figure).collect();
        Ok(QuiltingLines { free, choice: choice.clone(), laid, sewn, plan, outline })
    }
}

impl QuiltingLines {
    /// What a maker wants to read beside the lines, a sentence each: what they come to, the thread, what
    /// speaks against them, and what to be careful of.
    #[must_use]
    pub fn notes(&self, unit: LengthUnit) -> Vec<String> {
        let plan = &self.plan;
        let starts = many(plan.starts, "start", "starts");
        let mut notes = vec![format!(
            "{}: {} of line, {starts}, about {:.0} minutes.",
            capital(self.choice.design.words()),
            unit.run(plan.length_in),
            plan.minutes
        )];
        let named = self.choice.thread.as_ref().map(|thread| format!(" ({})", thread.name));
        notes.push(format!(
            "Thread: {} above{}, {} below, {} wound.",
            unit.thread(plan.needle_in),
            named.unwrap_or_default(),
            unit.thread(plan.bobbin_in),
            many(plan.bobbins as usize, "bobbin", "bobbins")
        ));
        if !plan.changes.is_empty() {
            notes.push("A bobbin runs out at each numbered ring.".to_owned());
        }
        let told = plan.cautions.iter().any(|caution| matches!(caution, Caution::WideGap { .. }));
        if let Some(gap) = plan.widest_gap.filter(|_| !told) {
            let (gap, most) = (unit.length(gap.inches, 16), unit.length(plan.most_gap_in, 8));
            notes.push(format!("The widest gap is {gap} across; the batting allows {most}."));
        }
        if let Some(gap) = plan.corner_gap_in {
            notes.push(format!("At its corners the spiral gapes to {}.", unit.length(gap, 16)));
        }
        notes.extend(plan.cautions.iter().map(|caution| caution.sentence(unit)));
        notes.push(
            "Needles and pins hurt: take out every pin before the needle comes to it, count pins in and out, keep fingers \
             off the needle's way, and switch the machine off to thread it."
                .to_owned(),
        );
        notes
    }
}
