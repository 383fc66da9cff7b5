//! Enough? Everything that a piece takes to its end, held against what there is.

use super::beside::{beside_quilting, figure_plan};
use super::edge::sleeve_plan;
use super::error::{AskError, Asked};
use super::heap::Claimed;
use super::stage::cant;
use crate::workroom::Workroom;
use plane::fill::{Fill, Stroke};
use quilt::cloth::{ClothId, Kind};
use quilt::log::Mark;
use quilt::stage::binding::{self, BindingChoice, FinishPlan, Supply};
use quilt::stage::enough::{
    self, Asked as Needs, Enough, Goods, Have, Known, Rates, Shop, StageName, UsedInTop, WorkKind,
    used_in_top,
};
use quilt::stage::quilting;
use quilt::stage::sleeve::SleevePlan;
use quilt::stage::thread::{self, Pieced, ThreadChoice, ThreadPlan, Work};
use quilt::stage::{ChosenLast, layers};
use serde::Serialize;
use std::collections::BTreeSet;

/// The report of enough, with what it was made from.
#[derive(Clone, Debug, Serialize)]
pub struct EnoughReport {
    /// What is needed, what there is, what is short, and what to buy.
    pub enough: Enough,
    /// How much of each print the top uses.
    pub used: UsedInTop,
    /// Thread for everything.
    pub thread: ThreadPlan,
}

impl Workroom {
    /// Holds everything that is chosen and planned at a head against the heap. What is sewn already
    /// has left it.
    ///
    /// # Errors
    /// Nothing on the table; a choice that the outline no longer allows; rates that make no sense.
    pub fn enough(&mut self, quilt: &str, head: &str, shop: &Shop, rates: &Rates) -> Asked<EnoughReport> {
        let allowance_in = self.wish(quilt)?.allowance_in;
        let log = self.log(quilt, head)?;
        let table = self.table(quilt, head)?;
        let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let raw = top.outline_points();
        let stash = self.stash()?;
        let print_of = |cloth: ClothId| stash.get(cloth).and_then(|item| item.came.print);
        let sewn: BTreeSet<Mark> = log.steps[..log.sewn].iter().map(|step| step.entry.mark).collect();
        let is_done = |step: Mark| sewn.contains(&step);
        let known = Known { print_of: &print_of, is_done: &is_done };
        let used = used_in_top(&table, mark, allowance_in, &known).map_err(cant)?;
        let mut needs = used.asks(StageName::Centre);
        let on_hand = self.on_hand(quilt, head)?;
        let chosen = ChosenLast::of(table.stages());
        let mut work = Work { pieced: Pieced::of(top), ..Work::default() };
        if let Some(choice) = chosen.layers {
            needs.add(layers::plan(choice, &raw, &on_hand).map_err(cant)?.asks(choice, &on_hand));
        }
        if let Some(choice) = chosen.quilting {
            let beside = beside_quilting(&chosen, &raw, &on_hand)?;
            let sewn = quilting::sewn(choice, &raw, &beside).map_err(cant)?;
            lines(&sewn, &mut needs, &mut work);
        }
        if let Some(choice) = chosen.binding {
            let plan = binding::plan(choice, &raw, allowance_in).map_err(cant)?;
            let print = choice.cloth.and_then(|cloth| self.stash().ok()?.get(cloth)?.came.print);
            let from = choice.cloth.map(|cloth| Goods::of_cloth(cloth, print));
            finish(choice, &plan, from, &mut needs, &mut work);
        }
        if let Some(choice) = chosen.sleeve {
            let plan = sleeve_plan(choice, &chosen, top, &on_hand, allowance_in)?;
            hanging(&plan, &mut needs, &mut work);
        }
        if let Some(choice) = chosen.figure {
            let plan = figure_plan(choice, top, &on_hand)?;
            needs.work(StageName::Figure, WorkKind::HandStitch, plan.hand.turned_in + plan.hand.rows_in);
            for patch in &plan.patches {
                if let Some(cloth) = patch.cloth {
                    let print = self.stash()?.get(cloth).and_then(|item| item.came.print);
                    needs.need(StageName::Figure, Goods::of_cloth(cloth, print), patch.cut_area_sq_in);
                }
            }
            work.applique_in += plan.hand.turned_in;
        }
        let threads = thread::plan(&ThreadChoice::default(), &work).map_err(cant)?;
        let spool = Goods::Thread { colour: colour_of(&chosen), weight: "50".to_owned() };
        needs.need(StageName::Quilting, spool, threads.needle_in + threads.bobbin_in);
        // What the chalk claims is among the needs, so it counts as there.
        let stash = self.stash()?;
        let all = Claimed::nothing().on_hand(stash);
        let mut have: Vec<Have> = all.iter().filter_map(Have::cloth).collect();
        have.extend(all.iter().filter(|cloth| cloth.kind == Kind::Binding).map(|cloth| {
            let (low, high) =
                cloth.free.first().and_then(|part| plane::polygon::bounds(&part.outer)).unwrap_or_default();
            let (a, b) = (high.x - low.x, high.y - low.y);
            Have::binding(cloth.name.clone(), a.min(b), false, a.max(b))
        }));
        let enough = enough::enough(&needs, &have, shop, rates).map_err(cant)?;
        Ok(EnoughReport { enough, used, thread: threads })
    }
}

fn lines(fill: &Fill, needs: &mut Needs, work: &mut Work) {
    work.quilting_strokes_in = fill.strokes.iter().map(Stroke::length).collect();
    needs.work(StageName::Quilting, WorkKind::Quilt, fill.length());
    needs.work(StageName::Quilting, WorkKind::Start, fill.starts() as f64);
}

/// Binding is cut from a cloth of the heap where one is named, else it is to be bought.
fn finish(
    choice: &BindingChoice,
    plan: &FinishPlan,
    from: Option<Goods>,
    needs: &mut Needs,
    work: &mut Work,
) {
    match plan {
        FinishPlan::Bound(plan) => {
            let bias = matches!(choice.supply, Supply::BiasStrips | Supply::BiasSquare);
            let width = choice.strip_width_in;
            let bought = || Goods::Binding { name: "any cloth".to_owned(), strip_in: width, bias };
            match from {
                Some(cloth) => {
                    let cut: f64 = plan.strips_cut_in.iter().sum();
                    needs.need(StageName::Binding, cloth, cut * width);
                }
                None => needs.need(StageName::Binding, bought(), plan.length_needed_in),
            }
            needs.work(StageName::Binding, WorkKind::BindByMachine, plan.net_length_in);
            needs.work(StageName::Binding, WorkKind::HandStitch, plan.net_length_in);
            work.binding_in += plan.net_length_in;
            work.binding_by_hand_in += plan.net_length_in;
        }
        FinishPlan::Faced(plan) => {
            let length: f64 = plan.area_cut_in2 / plan.cut_width_in.max(0.1);
            let strip_in = plan.cut_width_in;
            let bought = Goods::Binding { name: "any cloth".to_owned(), strip_in, bias: false };
            match from {
                Some(cloth) => needs.need(StageName::Binding, cloth, plan.area_cut_in2),
                None => needs.need(StageName::Binding, bought, length),
            }
            needs.work(StageName::Binding, WorkKind::BindByMachine, length);
            needs.work(StageName::Binding, WorkKind::HandStitch, length);
            work.binding_in += length;
            work.binding_by_hand_in += length;
        }
    }
}

/// Sleeve or tabs, rod and label; the sleeve is stitched down along both its long edges.
fn hanging(plan: &SleevePlan, needs: &mut Needs, work: &mut Work) {
    let (strip_in, long): (f64, f64) = if plan.has_sleeve {
        (plan.cut_width_in, plan.parts.iter().map(|part| part.cut_length_in).sum())
    } else {
        (plan.tab_cut_width_in, plan.tabs.iter().map(|tab| tab.cut_length_in).sum())
    };
    let strip = Goods::Binding { name: "any cloth, for the sleeve".to_owned(), strip_in, bias: false };
    needs.need(StageName::Sleeve, strip, long);
    let rod = format!("rod, {} long", quilt::length::fraction(plan.rod_length_in, 8));
    needs.need(StageName::Sleeve, Goods::Counted { name: rod }, 1.0);
    needs.work(StageName::Sleeve, WorkKind::HandStitch, 2.0 * long);
    work.binding_by_hand_in += 2.0 * long;
}

fn colour_of(chosen: &ChosenLast<'_>) -> String {
    let named = chosen.quilting.and_then(|quilting| quilting.thread.as_ref());
    named.map_or_else(|| "any".to_owned(), |thread| thread.name.clone())
}
