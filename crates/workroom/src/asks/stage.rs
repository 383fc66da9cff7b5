//! The stages after the centre: a look at one before it is taken, and taking it.
//!
//! A ring, a border and squaring up are steps that sew and cut; layers, quilting, binding, sleeve and
//! figure are choices that the log keeps and everything else is worked out from.

use super::beside::{beside_quilting, figure_plan};
use super::cloth_name::{ClothName, LayersAsk, check_cloth};
use super::edge::sleeve_plan;
use super::error::{AskError, Asked};
use super::heap::Claimed;
use super::spools::ThreadAsk;
use super::told::nearest_place;
use crate::quilts::{At, Head};
use crate::workroom::Workroom;
use plane::Point;
use quilt::log::{Entry, Mark, Run, RunKind, Stage, Step};
use quilt::stage::binding::{BindingChoice, FinishPlan};
use quilt::stage::border::{BorderChoice, BorderPlan};
use quilt::stage::figure::{FigureChoice, FigurePlan};
use quilt::stage::layers::LayersPlan;
use quilt::stage::on_hand::OnHand;
use quilt::stage::quilting::{QuiltingChoice, QuiltingPlan};
use quilt::stage::ring::{RingChoice, RingPlan};
use quilt::stage::sleeve::{SleeveChoice, SleevePlan};
use quilt::stage::square_up::{SquareUpChoice, SquareUpPlan};
use quilt::stage::{Chosen, ChosenLast, Piece};
use quilt::stage::{binding, border, layers, quilting, ring, square_up};
use quilt::table::Table;
use serde::{Deserialize, Serialize};

/// What is asked of a stage.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StageAsk {
    /// A ring from a strip set of the heap.
    Ring {
        /// The strip set.
        cloth: ClothName,
        /// How.
        #[serde(flatten)]
        choice: RingChoice,
    },
    /// A border of one cloth.
    Border {
        /// The cloth; only the sums when not said.
        #[serde(default)]
        cloth: Option<ClothName>,
        /// How.
        #[serde(flatten)]
        choice: BorderChoice,
    },
    /// Squaring up.
    SquareUp {
        /// What corners are cut from, where some are filled up.
        #[serde(default)]
        cloth: Option<ClothName>,
        /// To what.
        #[serde(flatten)]
        choice: SquareUpChoice,
    },
    /// Backing, batting, basting.
    Layers(LayersAsk),
    /// Quilting.
    Quilting {
        /// The thread on top: a colour, a spool by name, `nearest` or `contrasting` to the front.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        thread: Option<ThreadAsk>,
        /// The thread below, the same against the back.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        below: Option<ThreadAsk>,
        /// How.
        #[serde(flatten)]
        choice: QuiltingChoice,
    },
    /// Binding or facing.
    Binding {
        /// What strips are cut from.
        #[serde(default)]
        from: Option<ClothName>,
        /// How.
        #[serde(flatten)]
        choice: BindingChoice,
    },
    /// Sleeve and label.
    Sleeve(SleeveChoice),
    /// The figure.
    Figure(FigureChoice),
}

/// What a stage says.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum StageReport {
    /// A ring.
    Ring(RingPlan),
    /// A border.
    Border(BorderPlan),
    /// Squaring up.
    SquareUp(SquareUpPlan),
    /// Layers.
    Layers(LayersPlan),
    /// Quilting.
    Quilting(QuiltingPlan),
    /// Binding or facing.
    Binding(FinishPlan),
    /// Sleeve and label.
    Sleeve(SleevePlan),
    /// The figure.
    Figure(FigurePlan),
}

/// A stage looked at before it is taken.
#[derive(Clone, Debug)]
pub struct StageLook {
    /// What it says.
    pub report: StageReport,
    /// The steps that would do it; none where the heap hasn't the cloth.
    pub entries: Vec<Entry>,
    /// The table as it would be.
    pub table: Table,
}

/// What a plan makes of an ask: its report, and its steps under a kind of run.
type Planned = (StageReport, RunKind, Vec<Step>);

impl Workroom {
    /// A look at a stage at a head. Nothing is changed.
    ///
    /// # Errors
    /// Nothing on the table, no such cloth, or what stands against the stage.
    pub fn look_at_stage(&mut self, quilt: &str, head: &str, ask: &StageAsk) -> Asked<StageLook> {
        let first = self.next_mark(quilt, head)?;
        let mut table = self.table(quilt, head)?;
        let (report, kind, steps) = self.plan_stage(quilt, head, &table, ask)?;
        let told = serde_json::to_string(ask).ok();
        let entries: Vec<Entry> = (first.0..)
            .zip(steps)
            .map(|(mark, step)| {
                let ask = told.clone().filter(|_| mark == first.0);
                Entry { mark: Mark(mark), run: Some(Run { first, kind, ask }), step }
            })
            .collect();
        let allowance_in = self.wish(quilt)?.allowance_in;
        for entry in &entries {
            if let Err(problem) = table.apply_entry(entry) {
                return Err(AskError::refused(problem, table.piece().map(|(_, top)| top), allowance_in));
            }
        }
        Ok(StageLook { report, entries, table })
    }

    /// Takes a stage: its steps are appended as chalk, in one deed.
    ///
    /// # Errors
    /// As [`Workroom::look_at_stage`]; a heap without the cloth; a figure that has no room where it is
    /// wished; a head that moved in the meantime. Nothing is changed then.
    pub fn take_stage(&mut self, at: &At, ask: &StageAsk) -> Asked<(Head, StageReport)> {
        let look = self.look_at_stage(&at.quilt, &at.head, ask)?;
        if look.entries.is_empty() {
            return Err(no_steps(&look.report));
        }
        if let StageReport::Figure(plan) = &look.report
            && !plan.place.fits
        {
            return Err(no_place(plan));
        }
        let head = self.check_and_append(at, &look.entries, true)?;
        Ok((head, look.report))
    }

    fn plan_stage(&mut self, quilt: &str, head: &str, table: &Table, ask: &StageAsk) -> Asked<Planned> {
        let allowance_in = self.wish(quilt)?.allowance_in;
        let first = self.next_mark(quilt, head)?;
        let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let raw = top.outline_points();
        let choose = |chosen: Chosen| vec![Step::Choose(Stage::Planned(Box::new(chosen)))];
        Ok(match ask {
            StageAsk::Ring { cloth, choice } => {
                let set = self.cloth_free(quilt, head, cloth)?;
                let piece = Piece::of(mark, top).map_err(cant)?;
                let plan = ring::plan(&piece, choice, &set, allowance_in).map_err(cant)?;
                let steps = plan.steps(&piece, choice, &set, first).map_err(cant)?;
                (StageReport::Ring(plan), RunKind::Ring, steps)
            }
            StageAsk::Border { cloth, choice } => {
                let cloth = cloth.as_ref().map(|name| self.cloth_free(quilt, head, name)).transpose()?;
                let piece = Piece::of(mark, top).map_err(cant)?;
                let plan = border::plan(&piece, choice, cloth.as_ref(), allowance_in).map_err(cant)?;
                let steps = cloth.and_then(|cloth| plan.steps(&piece, &cloth, first)).unwrap_or_default();
                (StageReport::Border(plan), RunKind::Border, steps)
            }
            StageAsk::SquareUp { cloth, choice } => {
                let cloth = cloth.as_ref().map(|name| self.cloth_free(quilt, head, name)).transpose()?;
                let plan = square_up::plan(table, mark, choice, cloth.as_ref(), allowance_in, first);
                let plan = plan.map_err(cant)?;
                let steps = plan.steps.clone();
                (StageReport::SquareUp(plan), RunKind::SquareUp, steps)
            }
            StageAsk::Layers(ask) => {
                let choice = self.layers_choice(quilt, head, ask)?;
                let plan = layers::plan(&choice, &raw, &self.on_hand(quilt, head)?).map_err(cant)?;
                (StageReport::Layers(plan), RunKind::Finishing, choose(Chosen::Layers(choice)))
            }
            StageAsk::Quilting { thread, below, choice } => {
                let mut choice = choice.clone();
                self.choose_threads(quilt, head, [thread.as_ref(), below.as_ref()], &mut choice)?;
                let chosen = ChosenLast { quilting: Some(&choice), ..ChosenLast::of(table.stages()) };
                let beside = beside_quilting(&chosen, &raw, &self.on_hand(quilt, head)?)?;
                let done = quilting::plan(&choice, &raw, &beside, &self.habits()?).map_err(cant)?;
                (StageReport::Quilting(done.plan), RunKind::Finishing, choose(Chosen::Quilting(choice)))
            }
            StageAsk::Binding { from, choice } => {
                let chosen = match from {
                    Some(name) => self.binding_from([quilt, head], name, choice, &raw)?,
                    None => choice.clone(),
                };
                let plan = binding::plan(&chosen, &raw, allowance_in).map_err(cant)?;
                (StageReport::Binding(plan), RunKind::Finishing, choose(Chosen::Binding(chosen)))
            }
            StageAsk::Sleeve(choice) => {
                let chosen = ChosenLast::of(table.stages());
                let plan = sleeve_plan(choice, &chosen, top, &self.on_hand(quilt, head)?, allowance_in)?;
                (StageReport::Sleeve(plan), RunKind::Finishing, choose(Chosen::Sleeve(choice.clone())))
            }
            StageAsk::Figure(choice) => {
                let stash = self.stash()?;
                let mut cloths = choice.figure.shapes.iter().filter_map(|shape| shape.cloth);
                cloths.try_for_each(|cloth| check_cloth(stash, cloth))?;
                let on_hand = self.on_hand(quilt, head)?;
                let plan = figure_plan(choice, top, &on_hand, &self.habits()?)?;
                let chosen = ChosenLast { figure: Some(choice), ..ChosenLast::of(table.stages()) };
                can_be_quilted_round(&chosen, &raw, &on_hand)?;
                (StageReport::Figure(plan), RunKind::Finishing, choose(Chosen::Figure(choice.clone())))
            }
        })
    }

    /// Every cloth as a stage of a head may use it.
    ///
    /// # Errors
    /// No such quilt or head.
    pub fn on_hand(&mut self, quilt: &str, head: &str) -> Asked<Vec<OnHand>> {
        let log = self.log(quilt, head)?;
        let stash = self.stash()?;
        Ok(Claimed::by(&log, None, stash).on_hand(stash))
    }
}

/// Whether the lines that are chosen can still be laid beside a figure.
fn can_be_quilted_round(chosen: &ChosenLast<'_>, raw: &[Point], on_hand: &[OnHand]) -> Asked<()> {
    let Some(choice) = chosen.quilting else { return Ok(()) };
    let beside = beside_quilting(chosen, raw, on_hand)?;
    match quilting::lay(choice, raw, &beside) {
        Ok(_) => Ok(()),
        Err(problem) => Err(AskError::CantBe {
            what: format!("the quilting that is chosen can't go round the figure there. {problem}"),
            hint: "Move the figure, sew it on after the quilting, or choose other lines first.".to_owned(),
        }),
    }
}

/// What a stage's own problem says. Its message has the place, the numbers and the way out.
pub(super) fn cant(problem: impl std::fmt::Display) -> AskError {
    AskError::CantBe { what: problem.to_string(), hint: String::new() }
}

fn no_steps(report: &StageReport) -> AskError {
    let (what, hint) = match report {
        StageReport::Border(plan) => match &plan.cutting {
            Some(cutting) => (
                format!(
                    "the cloth hasn't room for all strips: {} are missing along them",
                    quilt::length::fraction(cutting.missing_in, 8)
                ),
                "Take another cloth, a narrower border, another order, or let the print lie by its grain.",
            ),
            None => ("no cloth was named for the border".to_owned(), "Name one: cloth = 12, or its name."),
        },
        StageReport::SquareUp(plan) if plan.cuts == 0 && plan.pieces.is_empty() => {
            ("the piece has that shape already: there is nothing to cut".to_owned(), "")
        }
        _ => (
            "a corner has no cloth with room".to_owned(),
            "Name a larger cloth for the corners: cloth = 12, or its name.",
        ),
    };
    AskError::CantBe { what, hint: hint.to_owned() }
}

fn no_place(plan: &FigurePlan) -> AskError {
    AskError::CantBe {
        what: "the figure comes too near the binding there".to_owned(),
        hint: nearest_place(&plan.place, quilt::length::LengthUnit::Inches),
    }
}
