//! What was chosen and sewn of the later stages at a head, worked out again: for the papers.
//!
//! Rings and borders are steps; what was asked of them stands in the log beside the first of them, and the
//! piece that they were planned on is the table before it.

use super::beside::figure_plan;
use super::cloth_name::ClothName;
use super::edge::sleeve_plan;
use super::error::{AskError, Asked};
use super::heap::Claimed;
use super::stage::{StageAsk, StageReport, cant};
use crate::quilts::Head;
use crate::workroom::Workroom;
use plane::{Point, Region};
use quilt::cloth::Cloth;
use quilt::log::{Entry, Mark, RunKind};
use quilt::stage::binding::{BindingChoice, FinishPlan};
use quilt::stage::figure::{FigureChoice, FigurePlan};
use quilt::stage::habits::Habits;
use quilt::stage::layers::{LayersChoice, LayersPlan};
use quilt::stage::on_hand::OnHand;
use quilt::stage::sleeve::{SleeveChoice, SleevePlan};
use quilt::stage::{ChosenLast, Piece, binding, border, layers, ring};
use quilt::table::{Table, Top, replay};

/// A head with all that its later stages are worked out from.
pub(crate) struct Taken {
    table: Table,
    mark: Mark,
    on_hand: Vec<OnHand>,
    habits: Habits,
    /// Seam allowance in inches.
    pub(crate) allowance_in: f64,
}

/// A ring or a border that was sewn or is planned.
pub(crate) struct Round {
    /// What it says: [`StageReport::Ring`] or [`StageReport::Border`].
    pub(crate) report: StageReport,
    /// The raw outline of the piece before it.
    pub(crate) before: Vec<Point>,
}

impl Workroom {
    /// What the later stages of a head are worked out from.
    ///
    /// # Errors
    /// No such quilt or head; nothing on the table.
    pub(crate) fn taken(&mut self, head: &Head) -> Asked<Taken> {
        let table = self.table(&head.quilt, &head.name)?;
        let (mark, _) = table.piece().ok_or(AskError::NothingOnTable)?;
        let on_hand = self.on_hand(&head.quilt, &head.name)?;
        let allowance_in = self.wish(&head.quilt)?.allowance_in;
        Ok(Taken { table, mark, on_hand, habits: self.habits()?, allowance_in })
    }

    /// The rings and borders of a head, in the order they are sewn.
    ///
    /// # Errors
    /// No such quilt or head.
    pub(crate) fn rounds(&mut self, head: &Head) -> Asked<Vec<Round>> {
        let allowance_in = self.wish(&head.quilt)?.allowance_in;
        let entries = self.log(&head.quilt, &head.name)?.entries();
        let mut rounds = Vec::new();
        for (i, entry) in entries.iter().enumerate() {
            let Some(run) = entry.run.as_ref().filter(|run| run.first == entry.mark) else { continue };
            if !matches!(run.kind, RunKind::Ring | RunKind::Border) {
                continue;
            }
            let asked = run.ask.as_ref().and_then(|ask| serde_json::from_str::<StageAsk>(ask).ok());
            let before = entries.get(..i).unwrap_or_default();
            if let Some(round) = asked.and_then(|ask| self.round(before, &ask, allowance_in).transpose()) {
                rounds.push(round?);
            }
        }
        Ok(rounds)
    }

    fn round(&mut self, before: &[Entry], ask: &StageAsk, allowance_in: f64) -> Asked<Option<Round>> {
        let (table, halt) = replay(before);
        let Some((mark, top)) = table.piece().filter(|_| halt.is_none()) else { return Ok(None) };
        let outline = top.outline_points();
        let piece = Piece::of(mark, top).map_err(cant)?;
        let report = match ask {
            StageAsk::Ring { cloth, choice } => {
                let Some(set) = self.as_it_was(before, cloth)? else { return Ok(None) };
                StageReport::Ring(ring::plan(&piece, choice, &set, allowance_in).map_err(cant)?)
            }
            StageAsk::Border { cloth, choice } => {
                let cloth = match cloth {
                    Some(name) => self.as_it_was(before, name)?,
                    None => None,
                };
                let plan = border::plan(&piece, choice, cloth.as_ref(), allowance_in).map_err(cant)?;
                StageReport::Border(plan)
            }
            _ => return Ok(None),
        };
        Ok(Some(Round { report, before: outline }))
    }

    /// A cloth as it came, less what the steps before cut from it; the one with the largest part.
    fn as_it_was(&mut self, before: &[Entry], name: &ClothName) -> Asked<Option<Cloth>> {
        let stash = self.stash()?;
        let claimed = Claimed::by_entries(before, 0, None, stash);
        let mut found: Option<(Region, Cloth)> = None;
        for item in stash.items().filter(|item| name.is(item)) {
            let largest = claimed.free_of(item, &item.came);
            let largest = largest.into_iter().max_by(|a, b| a.area().total_cmp(&b.area()));
            let Some(outline) = largest else { continue };
            if found.as_ref().is_none_or(|(most, _)| outline.area() > most.area()) {
                let cloth = Cloth { outline: outline.clone(), flaws: Vec::new(), ..item.came.clone() };
                found = Some((outline, cloth));
            }
        }
        Ok(found.map(|(_, cloth)| cloth))
    }
}

impl Taken {
    fn top(&self) -> Asked<&Top> {
        self.table.top(self.mark).ok_or(AskError::NothingOnTable)
    }

    fn chosen(&self) -> ChosenLast<'_> {
        ChosenLast::of(self.table.stages())
    }

    /// The raw outline.
    pub(crate) fn raw(&self) -> Asked<Vec<Point>> {
        Ok(self.top()?.outline_points())
    }

    /// The layers that are chosen.
    pub(crate) fn layers(&self) -> Asked<(&LayersChoice, LayersPlan)> {
        let choice = self.chosen().layers.ok_or_else(|| not_chosen("layers"))?;
        Ok((choice, layers::plan(choice, &self.raw()?, &self.on_hand).map_err(cant)?))
    }

    /// The binding or facing that is chosen.
    pub(crate) fn binding(&self) -> Asked<(&BindingChoice, FinishPlan)> {
        let choice = self.chosen().binding.ok_or_else(|| not_chosen("binding"))?;
        Ok((choice, binding::plan(choice, &self.raw()?, self.allowance_in).map_err(cant)?))
    }

    /// The figure that is chosen.
    pub(crate) fn figure(&self) -> Asked<(&FigureChoice, FigurePlan)> {
        let choice = self.chosen().figure.ok_or_else(|| not_chosen("figure"))?;
        Ok((choice, figure_plan(choice, self.top()?, &self.on_hand, &self.habits)?))
    }

    /// The sleeve that is chosen.
    pub(crate) fn sleeve(&self) -> Asked<(&SleeveChoice, SleevePlan)> {
        let chosen = self.chosen();
        let choice = chosen.sleeve.ok_or_else(|| not_chosen("sleeve"))?;
        Ok((choice, sleeve_plan(choice, &chosen, self.top()?, &self.on_hand, self.allowance_in)?))
    }
}

fn not_chosen(stage: &str) -> AskError {
    AskError::CantBe {
        what: format!("no {stage} has been chosen yet"),
        hint: "Choose it by a plan file: ragbag finish my-plan.toml; docs/PLAN.md tells what it can say."
            .to_owned(),
    }
}
