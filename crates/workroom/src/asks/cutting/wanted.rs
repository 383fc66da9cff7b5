//! All that is still to be cut for a head.

use super::joins::Joinable;
use crate::asks::beside::figure_plan;
use crate::asks::edge::sleeve_plan;
use crate::asks::error::{AskError, Asked};
use crate::asks::stage::cant;
use crate::workroom::Workroom;
use plane::{Point, Pose, Region, Turn};
use quilt::cloth::{ClothId, Runs};
use quilt::log::{Mark, Step};
use quilt::stage::binding::{self as bind, BindingChoice, FinishPlan, Supply, SupplyCloth};
use quilt::stage::figure::{CutFrom, LineKind};
use quilt::stage::layers::{self, Source, Take};
use quilt::stage::{ChosenLast, on_hand::OnHand};
use quilt::sums::Join;

/// Allowance all round a label, in inches (common practice, no source).
const LABEL_SEAM_IN: f64 = 0.25;

/// How a piece may lie on its cloth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Lies {
    /// As its print allows; on the print that it was planned for it is turned so.
    ByPrint {
        /// The turn that was planned, from the piece's coordinates to the cloth's.
        turn: Turn,
        /// The grain of that cloth.
        grain: Turn,
        /// What its print allows.
        runs: Runs,
    },
    /// Upright on the wall, where the print has a top.
    Upright,
    /// Along the threads or across them.
    Straight,
    /// At 45 degrees to them.
    Bias,
}

/// What a piece may be cut from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Of {
    /// This cloth, what else there is of its family, or of its print.
    Cloth(ClothId),
    /// Any patchwork cloth.
    Any,
    /// What is to be bought: a number for what belongs together.
    Bolt(&'static str),
}

/// A piece to be cut.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Wanted {
    pub(super) name: String,
    pub(super) mark: Option<Mark>,
    pub(super) outline: Vec<Point>,
    pub(super) of: Of,
    pub(super) lies: Lies,
    /// Where the plan has laid it already.
    pub(super) laid: Option<(ClothId, Pose)>,
    /// How it may be cut in bits where no cloth has room for the whole.
    pub(super) joinable: Option<Joinable>,
}

impl Wanted {
    fn strip(name: String, [long, wide]: [f64; 2], of: Of, lies: Lies) -> Self {
        let outline = Region::rectangle(long, wide).outer;
        Self { name, mark: None, outline, of, lies, laid: None, joinable: None }
    }

    fn lying(name: String, cloth: ClothId, outline: Vec<Point>) -> Self {
        let laid = Some((cloth, Pose::STAY));
        let (of, lies) = (Of::Cloth(cloth), Lies::Straight);
        Self { name, mark: None, outline, of, lies, laid, joinable: None }
    }
}

impl Workroom {
    /// All that is still to be cut for a head: what the chalk plans, then what each stage takes.
    pub(super) fn wanted(&mut self, quilt: &str, head: &str) -> Asked<Vec<Wanted>> {
        let allowance_in = self.wish(quilt)?.allowance_in;
        let habits = self.habits()?;
        let table = self.table(quilt, head)?;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let raw = top.outline_points();
        let mut wanted = self.planned(quilt, head)?;
        let chosen = ChosenLast::of(table.stages());
        let on_hand = self.on_hand(quilt, head)?;
        if let Some(choice) = chosen.layers {
            let back = layers::backing(choice, &raw, &on_hand).map_err(cant)?;
            wanted.extend(backing(&back));
        }
        if let Some(choice) = chosen.figure {
            let plan = figure_plan(choice, top, &on_hand, &habits)?;
            for (patch, from) in plan.patches.iter().zip(&plan.cut_from) {
                let of = patch.cloth.map_or(Of::Any, Of::Cloth);
                let laid = match from {
                    CutFrom::Fits(pose) => patch.cloth.map(|cloth| (cloth, *pose)),
                    _ => None,
                };
                let name = format!("figure, {}", patch.shape);
                wanted.push(Wanted {
                    name,
                    mark: None,
                    outline: patch.cut.outer.clone(),
                    of,
                    lies: Lies::Upright,
                    laid,
                    joinable: None,
                });
            }
            for line in &plan.lines {
                if let LineKind::BiasStem { cut_width_in, cut_length_in, .. } = line.kind {
                    let of = line.cloth.map_or(Of::Any, Of::Cloth);
                    let name = format!("figure, {}", line.shape);
                    wanted.push(Wanted::strip(name, [cut_length_in, cut_width_in], of, Lies::Bias));
                }
            }
        }
        if let Some(choice) = chosen.binding {
            let plan = bind::plan(choice, &raw, allowance_in).map_err(cant)?;
            wanted.extend(binding(choice, &plan, allowance_in));
        }
        if let Some(choice) = chosen.sleeve {
            let plan = sleeve_plan(choice, &chosen, top, &on_hand, allowance_in)?;
            let parts = plan.parts.iter().map(|part| ("sleeve", part.cut_length_in, plan.cut_width_in));
            let tabs = plan.tabs.iter().map(|tab| ("tab", tab.cut_length_in, plan.tab_cut_width_in));
            let all: Vec<_> = if plan.has_sleeve { parts.collect() } else { tabs.collect() };
            let of = all.len();
            for (i, (what, long, wide)) in all.into_iter().enumerate() {
                wanted.push(Wanted::strip(counted(what, i, of), [long, wide], Of::Any, Lies::Straight));
            }
            if plan.label.is_some() {
                let size = choice.label_in.map(|side| side + 2.0 * LABEL_SEAM_IN);
                wanted.push(Wanted::strip("label".to_owned(), size, Of::Any, Lies::Straight));
            }
        }
        Ok(wanted)
    }

    /// The patches of steps that aren't sewn.
    fn planned(&mut self, quilt: &str, head: &str) -> Asked<Vec<Wanted>> {
        let log = self.log(quilt, head)?;
        let stash = self.stash()?;
        let entries = log.entries();
        let lays = entries.iter().skip(log.sewn).filter_map(|entry| match &entry.step {
            Step::Lay { cloth, at, cut } => Some((entry.mark, *cloth, *at, cut.clone())),
            _ => None,
        });
        Ok(lays
            .map(|(mark, cloth, at, outline)| {
                let came = stash.get(cloth).map(|item| &item.came);
                let runs = came.map_or(Runs::AnyWay, |came| came.look.runs);
                let grain = came.map_or(Turn::NONE, |came| came.grain);
                let lies = Lies::ByPrint { turn: at.turn, grain, runs };
                let name = format!("patch {mark}");
                Wanted {
                    name,
                    mark: Some(mark),
                    outline,
                    of: Of::Cloth(cloth),
                    lies,
                    laid: Some((cloth, at)),
                    joinable: None,
                }
            })
            .collect())
    }
}

/// The cloth of the back: whole, or strips where they lie or off a bolt.
fn backing(back: &layers::Backing) -> Vec<Wanted> {
    if let Take::Whole(cloth) = back.take {
        let held = back.whole.holds.iter().filter(|held| held.cloth == cloth);
        return held.map(|held| Wanted::lying("back".to_owned(), cloth, held.cut.clone())).collect();
    }
    let strips = back.seams().map_or(&[][..], |pieced| &pieced.strips);
    let one = |(i, strip): (usize, &layers::BackStrip)| {
        let name = counted("back strip", i, strips.len());
        match &strip.from {
            Source::Cloth { cloth, lies, .. } => Wanted::lying(name, *cloth, lies.clone()),
            Source::Bolt(_) | Source::Package(_) => {
                let size = [strip.cut_length_in, strip.cut_width_in];
                Wanted::strip(name, size, Of::Bolt("the back"), Lies::Straight)
            }
        }
    };
    strips.iter().enumerate().map(one).collect()
}

/// The strips of a binding or facing. Leftovers of binding are there and cut.
fn binding(choice: &BindingChoice, plan: &FinishPlan, allowance_in: f64) -> Vec<Wanted> {
    let of = choice.cloth.map_or(Of::Bolt("the binding"), Of::Cloth);
    let plan = match plan {
        FinishPlan::Faced(plan) => {
            let count = plan.strips.len();
            let strips = plan.strips.iter().enumerate().map(|(i, strip)| {
                let size = [strip.cut_length_in, plan.cut_width_in];
                let loss_in = Join::Straight.loss_in(plan.cut_width_in, allowance_in);
                let joinable = Some(Joinable { join: Join::Straight, loss_in });
                Wanted { joinable, ..Wanted::strip(counted("facing", i, count), size, of, Lies::Straight) }
            });
            return strips.collect();
        }
        FinishPlan::Bound(plan) => plan,
    };
    if matches!(choice.supply, Supply::Leftovers { .. }) {
        return Vec::new();
    }
    if let SupplyCloth::Square { side_cut_in, .. } = plan.cloth {
        let name = "binding, a square for one bias strip".to_owned();
        return vec![Wanted::strip(name, [side_cut_in; 2], of, Lies::Straight)];
    }
    let is_bias = match choice.supply {
        Supply::Laid { is_bias, .. } => is_bias,
        Supply::BiasStrips => true,
        _ => false,
    };
    let lies = if is_bias { Lies::Bias } else { Lies::Straight };
    let count = plan.strips_cut_in.len();
    let strips = plan.strips_cut_in.iter().enumerate();
    let joinable = Some(Joinable { join: choice.join, loss_in: plan.join_loss_in });
    strips
        .map(|(i, long)| {
            let size = [*long, plan.strip_width_cut_in];
            Wanted { joinable, ..Wanted::strip(counted("binding strip", i, count), size, of, lies) }
        })
        .collect()
}

/// A name with its number, where there are several.
fn counted(name: &str, i: usize, of: usize) -> String {
    if of > 1 { format!("{name} {}", i + 1) } else { name.to_owned() }
}

/// Whether a cloth on hand serves where any does.
pub(super) fn serves_any(cloth: &OnHand) -> bool {
    cloth.is_patchwork()
}
