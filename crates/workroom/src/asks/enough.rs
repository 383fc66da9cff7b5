//! Enough? Everything that a piece takes to its end, held against what there is.

use super::beside::{beside_quilting, figure_plan};
use super::edge::sleeve_plan;
use super::enough_needs::{Needs, binding, figure, serves_any, sleeve};
use super::error::{AskError, Asked};
use super::heap::Claimed;
use super::stage::cant;
use crate::quilts::Log;
use crate::workroom::Workroom;
use plane::fill::{Fill, Stroke};
use quilt::cloth::ClothId;
use quilt::length::fraction;
use quilt::log::{Mark, RunKind};
use quilt::stage::binding::{self as bind, BindingProblem};
use quilt::stage::enough::{
    self, Enough, Goods, Have, Known, Rates, Shop, StageName, UsedInTop, WorkKind, used_in_top,
};
use quilt::stage::habits::Habits;
use quilt::stage::thread::{self, ThreadPlan, Work};
use quilt::stage::{ChosenLast, layers, quilting};
use quilt::sums::Wished;
use quilt::supply::{Supply, SupplyKind, USUAL_WEIGHT};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// The report of enough, with what it was made from.
#[derive(Clone, Debug, Serialize)]
pub struct EnoughReport {
    /// What is needed, what there is, what is short, and what to buy.
    pub enough: Enough,
    /// How much of each print the top uses.
    pub used: UsedInTop,
    /// Thread of each stage that takes some, in the order of work.
    pub thread: Vec<StageThread>,
    /// The stages that every piece takes and that aren't decided yet, in the order of work: nothing is
    /// counted for them. A sleeve and a figure are for whoever wants them.
    pub undecided: Vec<&'static str>,
    /// What it was reckoned from where nothing is laid yet: the wish alone.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wished: Option<Wished>,
}

impl EnoughReport {
    /// Whether there is enough, and of what that can't be told yet: a sentence or two.
    #[must_use]
    pub fn verdict(&self) -> String {
        let open = self.undecided.join(", ");
        if let Some(wished) = &self.wished {
            return format!(
                "Nothing is laid yet. By the wish it will be about {} by {}, of about {} pieces; a quarter more than is cut \
                 is counted, and colours of the heap by area. Not counted: {open}.",
                fraction(wished.size_in[0], 4),
                fraction(wished.size_in[1], 4),
                wished.pieces
            );
        }
        match (self.enough.is_enough(), self.undecided.is_empty()) {
            (true, true) => "There is enough of everything.".to_owned(),
            (true, false) => {
                format!(
                    "There is enough of everything that is decided. Not decided yet, and not counted: {open}."
                )
            }
            (false, true) => "There isn't enough yet.".to_owned(),
            (false, false) => format!("There isn't enough yet. Not decided yet, and not counted: {open}."),
        }
    }
}

/// The thread of one stage.
#[derive(Clone, Debug, Serialize)]
pub struct StageThread {
    /// Which stage.
    pub stage: StageName,
    /// How much, and for what.
    pub plan: ThreadPlan,
}

impl Workroom {
    /// Holds everything that is chosen and planned at a head against the heap, by the maker's own
    /// habits. What is sewn already has left it.
    ///
    /// # Errors
    /// Nothing on the table; a choice that the outline no longer allows; rates that make no sense.
    pub fn enough(&mut self, quilt: &str, head: &str, shop: &Shop, rates: &Rates) -> Asked<EnoughReport> {
        let sewn = self.log(quilt, head)?.sewn;
        self.enough_after(quilt, head, shop, rates, sewn)
    }

    /// Everything that a piece takes from the first cut to the last stitch, whatever of it is sewn.
    ///
    /// # Errors
    /// As [`Workroom::enough`].
    pub fn takes(&mut self, quilt: &str, head: &str, shop: &Shop, rates: &Rates) -> Asked<EnoughReport> {
        self.enough_after(quilt, head, shop, rates, 0)
    }

    /// With so many steps of the log done.
    fn enough_after(
        &mut self,
        quilt: &str,
        head: &str,
        shop: &Shop,
        rates: &Rates,
        done: usize,
    ) -> Asked<EnoughReport> {
        let habits = Habits { rates: rates.clone(), ..self.habits()? };
        let wish = self.wish(quilt)?;
        let allowance_in = wish.allowance_in;
        let log = self.log(quilt, head)?;
        let table = self.table(quilt, head)?;
        if table.piece().is_none() {
            return self.enough_wished(&wish, shop, &habits);
        }
        let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let raw = top.outline_points();
        let on_hand = self.on_hand(quilt, head)?;
        let stash = self.stash()?;
        let print_of = |cloth: ClothId| stash.get(cloth).and_then(|item| item.came.print);
        let sewn: BTreeSet<Mark> = log.steps.iter().take(done).map(|step| step.entry.mark).collect();
        let is_done = |step: Mark| sewn.contains(&step);
        let stages = stages_of(&log);
        let stage_of = |step: Mark| stages.get(&step).copied().unwrap_or(StageName::Centre);
        let known = Known { print_of: &print_of, is_done: &is_done, stage_of: &stage_of };
        let used = used_in_top(&table, mark, allowance_in, &known).map_err(cant)?;
        let goods_of = |cloth: ClothId| Goods::of_cloth(cloth, print_of(cloth));
        let mut needs = Needs::default();
        needs.asked.add(used.asks());
        for part in &used.to_sew {
            needs.seams(part.stage, part.seams.seams);
        }
        let chosen = ChosenLast::of(table.stages());
        if let Some(choice) = chosen.layers {
            let plan = layers::plan(choice, &raw, &on_hand).map_err(cant)?;
            needs.asked.add(plan.asks(choice, &on_hand));
            needs.seams(StageName::Backing, plan.backing.seams().map_or(0, |back| back.joins.len()));
        }
        if let Some(choice) = chosen.binding {
            match bind::plan(choice, &raw, allowance_in) {
                Ok(plan) => binding(choice, &plan, &goods_of, &mut needs),
                // Strips at hand that are too short are what this report is there to tell.
                Err(BindingProblem::LeftoverShort { has_in, needed_in, .. }) => {
                    needs.at_hand(choice, [needed_in, has_in], needed_in);
                }
                Err(problem) => return Err(cant(problem)),
            }
        }
        if let Some(choice) = chosen.sleeve {
            let plan = sleeve_plan(choice, &chosen, top, &on_hand, allowance_in)?;
            sleeve(choice, &plan, &mut needs);
        }
        let mut strokes_in = Vec::new();
        if let Some(choice) = chosen.quilting {
            let beside = beside_quilting(&chosen, &raw, &on_hand)?;
            strokes_in = strokes(&quilting::sewn(choice, &raw, &beside).map_err(cant)?);
        }
        let all = Claimed::nothing().on_hand(stash);
        let supplies: Vec<Supply> = stash.supplies().into_iter().map(|(_, supply)| supply.clone()).collect();
        if let Some(choice) = chosen.figure {
            figure(&figure_plan(choice, top, &on_hand, &habits)?, &goods_of_all(&all), &mut needs);
        }
        let thread = threads(&mut needs, &chosen, &strokes_in, &habits, &supplies)?;
        // What the chalk claims is among the needs, so it counts as there.
        let mut have: Vec<Have> = all.iter().filter_map(Have::cloth).collect();
        have.append(&mut needs.had);
        have.extend(serves_any(&needs.asked, &all));
        have.extend(supplies.iter().map(|supply| had(supply, &chosen)));
        let enough = enough::enough(&needs.asked, &have, shop, &habits.rates).map_err(cant)?;
        Ok(EnoughReport { enough, used, thread, undecided: undecided(&chosen), wished: None })
    }
}

fn undecided(chosen: &ChosenLast<'_>) -> Vec<&'static str> {
    let decided = [
        ("layers", chosen.layers.is_some()),
        ("quilting", chosen.quilting.is_some()),
        ("binding", chosen.binding.is_some()),
    ];
    decided.into_iter().filter(|(_, is)| !is).map(|(name, _)| name).collect()
}

/// The stage that each step belongs to, where it isn't the centre.
fn stages_of(log: &Log) -> BTreeMap<Mark, StageName> {
    let of = |kind| match kind {
        RunKind::Ring => Some(StageName::Ring),
        RunKind::Border => Some(StageName::Border),
        RunKind::SquareUp => Some(StageName::SquareUp),
        _ => None,
    };
    let steps = log.steps.iter().map(|step| &step.entry);
    steps.filter_map(|entry| Some((entry.mark, of(entry.run.as_ref()?.kind)?))).collect()
}

fn goods_of_all(all: &[quilt::stage::on_hand::OnHand]) -> impl Fn(ClothId) -> Goods {
    let known: BTreeMap<ClothId, Goods> = all.iter().map(|cloth| (cloth.cloth, cloth.goods())).collect();
    move |cloth| known.get(&cloth).cloned().unwrap_or(Goods::Cloth(cloth))
}

fn strokes(fill: &Fill) -> Vec<f64> {
    fill.strokes.iter().map(Stroke::length).collect()
}

/// The thread of each stage, from the work that it asks for; it is added to what is needed.
fn threads(
    needs: &mut Needs,
    chosen: &ChosenLast<'_>,
    strokes_in: &[f64],
    habits: &Habits,
    supplies: &[Supply],
) -> Asked<Vec<StageThread>> {
    let mut found = Vec::new();
    for stage in StageName::ALL {
        let mut work = needs.work_of(stage);
        if stage == StageName::Quilting {
            work.quilting_strokes_in = strokes_in.to_vec();
        }
        let plan = thread::plan(&habits.thread, &work).map_err(cant)?;
        if plan.jobs.is_empty() {
            continue;
        }
        let (above, below) = names(chosen, stage);
        for (name, amount) in [(above, plan.needle_in), (below, plan.bobbin_in)] {
            needs.asked.need(stage, spool_goods(name, supplies), amount);
        }
        if stage == StageName::Quilting {
            let (length, starts) = (strokes_in.iter().sum(), strokes_in.len() as f64);
            needs.asked.work(stage, WorkKind::Quilt, length);
            needs.asked.work(stage, WorkKind::Start, starts);
            needs.asked.work(stage, WorkKind::Bobbin, plan.changes.len() as f64);
        }
        found.push(StageThread { stage, plan });
    }
    Ok(found)
}

/// What is sewn in whatever colour there is.
const ANY: &str = "any";

/// The threads above and below, by name.
fn names<'a>(chosen: &ChosenLast<'a>, stage: StageName) -> (&'a str, &'a str) {
    let quilting = chosen.quilting.filter(|_| stage == StageName::Quilting);
    let above = quilting.and_then(|choice| choice.thread.as_ref()).map_or(ANY, |thread| &thread.name);
    let below = quilting.and_then(|choice| choice.below.as_ref()).map_or(above, |thread| &thread.name);
    (above, below)
}

/// Thread of a name, in the size that its spool has.
fn spool_goods(name: &str, supplies: &[Supply]) -> Goods {
    let of = |supply: &Supply| match &supply.what {
        SupplyKind::Thread { weight, .. } if supply.name == name => Some(weight.clone()),
        _ => None,
    };
    let weight = supplies.iter().find_map(of).unwrap_or_else(|| USUAL_WEIGHT.to_owned());
    Goods::Thread { colour: name.to_owned(), weight }
}

/// What a supply counts as: a spool that the quilting doesn't name serves for what is sewn in any
/// colour.
fn had(supply: &Supply, chosen: &ChosenLast<'_>) -> Have {
    let (above, below) = names(chosen, StageName::Quilting);
    let (goods, amount) = supply.goods();
    let goods = match goods {
        Goods::Thread { colour, weight } if colour != above && colour != below => {
            Goods::Thread { colour: ANY.to_owned(), weight }
        }
        other => other,
    };
    Have { goods, amount }
}

impl Needs {
    /// What is sewn in a stage, as far as it takes thread.
    fn work_of(&self, stage: StageName) -> Work {
        let amount = |kind| {
            let of = self.asked.work.iter().filter(|work| work.stage == stage && work.kind == kind);
            of.map(|work| work.amount).sum::<f64>()
        };
        Work {
            pieced: thread::Pieced { seams: self.seams_of(stage), length_in: amount(WorkKind::Seam) },
            binding_in: amount(WorkKind::BindByMachine),
            binding_by_hand_in: amount(WorkKind::HandStitch),
            applique_in: amount(WorkKind::TurnUnder),
            stitched_rows_in: amount(WorkKind::StitchRow),
            ..Work::default()
        }
    }
}
