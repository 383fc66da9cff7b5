//! Several designs of quilting side by side on one piece: what each comes to, and how it looks.

use super::beside::beside_quilting;
use super::draw::{DrawAsk, options};
use super::error::{AskError, Asked};
use super::finished::Wanted;
use crate::workroom::Workroom;
use drawing::Drawing;
use quilt::length::{fraction, many};
use quilt::stage::quilting::{QuiltingChoice, QuiltingPlan};
use quilt::stage::{ChosenLast, quilting};

/// One design among several.
#[derive(Clone, Debug)]
pub struct DesignCompared {
    /// What was asked.
    pub choice: QuiltingChoice,
    /// What it comes to, or what stands against it.
    pub plan: Result<QuiltingPlan, String>,
    /// The piece with it, from the side that was asked for; without lines where they can't be laid.
    pub drawing: Drawing,
}

/// Designs side by side.
#[derive(Clone, Debug)]
pub struct DesignsCompared {
    /// Each design, in the order asked.
    pub designs: Vec<DesignCompared>,
    /// The pictures side by side, each with its name and what it comes to.
    pub side_by_side: Drawing,
}

impl Workroom {
    /// Designs of quilting side by side on the piece of a head, with everything else that is chosen.
    /// Nothing is changed.
    ///
    /// # Errors
    /// Nothing on the table; no such head. A design that can't be laid is told among the others.
    pub fn compare_quilting(
        &mut self,
        quilt: &str,
        head: &str,
        choices: &[QuiltingChoice],
        ask: DrawAsk,
    ) -> Asked<DesignsCompared> {
        let allowance_in = self.wish(quilt)?.allowance_in;
        let log = self.log(quilt, head)?;
        let sewn = log.steps[..log.sewn].iter().map(|step| step.entry.mark).collect();
        let cloths = &self.every_cloth()?;
        let table = &self.table(quilt, head)?;
        let (top, piece) = table.piece().ok_or(AskError::NothingOnTable)?;
        let raw = piece.outline_points();
        let on_hand = &self.on_hand(quilt, head)?;
        let what = &options(Some(&sewn), ask);
        let wanted = Wanted { table, top, cloths, what, back: ask.back, allowance_in, on_hand };
        let habits = self.habits()?;
        let mut designs = Vec::with_capacity(choices.len());
        for choice in choices {
            let chosen = ChosenLast { quilting: Some(choice), ..ChosenLast::of(table.stages()) };
            let beside = beside_quilting(&chosen, &raw, on_hand)?;
            let plan = quilting::plan(choice, &raw, &beside, &habits);
            let plan = plan.map(|done| done.plan).map_err(|problem| problem.to_string());
            let drawing = self.draw_finished(&wanted, &chosen)?.ok_or(AskError::NothingOnTable)?;
            designs.push(DesignCompared { choice: choice.clone(), plan, drawing });
        }
        let shown = designs.iter().map(|design| (design.caption(), &design.drawing)).collect();
        let side_by_side = drawing::side_by_side("Designs of quilting side by side", shown);
        Ok(DesignsCompared { designs, side_by_side })
    }
}

impl DesignCompared {
    /// Its name and what it comes to, line by line.
    #[must_use]
    pub fn caption(&self) -> Vec<String> {
        let name = self.choice.design.words().to_owned();
        let Ok(plan) = &self.plan else { return vec![name, "can't be laid here".to_owned()] };
        let starts = many(plan.starts, "start", "starts");
        let gap = plan
            .widest_gap
            .map_or_else(String::new, |gap| format!(", widest gap {}", fraction(gap.inches, 16)));
        let line = format!("{:.0} in, {starts}, {:.0} min{gap}", plan.length_in, plan.minutes);
        vec![name, line]
    }
}
