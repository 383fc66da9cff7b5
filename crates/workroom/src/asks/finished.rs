//! The finished piece as a drawing: what is chosen of the later stages, laid over the top.

use super::beside::{beside_quilting, figure_plan};
use super::edge::sleeve_plan;
use super::error::Asked;
use crate::workroom::Workroom;
use colour::Srgb;
use drawing::{Backed, Drawing, Edged, Figured, FrontOptions, Hung, HungBy, Made, Quilted, Stages};
use quilt::cloth::{Cloth, ClothId};
use quilt::length::MM_PER_IN;
use quilt::log::Mark;
use quilt::stage::habits::Habits;
use quilt::stage::on_hand::OnHand;
use quilt::stage::quilting::{QuiltingChoice, ThreadColour};
use quilt::stage::{ChosenLast, binding, layers, quilting};
use quilt::table::Table;
use std::collections::BTreeMap;

/// Undyed thread, where no colour is chosen.
const UNDYED: Srgb = Srgb::from_number(0xf4_ee_e2);
/// A binding whose cloth isn't settled, and tabs or sleeve: calico a shade darker.
const PLAIN: Srgb = Srgb::from_number(0xd8_cf_bd);

/// What is to be drawn, and of which top.
pub(super) struct Wanted<'a> {
    pub(super) table: &'a Table,
    pub(super) top: Mark,
    pub(super) cloths: &'a BTreeMap<ClothId, Cloth>,
    pub(super) what: &'a FrontOptions,
    pub(super) back: bool,
    pub(super) allowance_in: f64,
    /// What a stage may cut from.
    pub(super) on_hand: &'a [OnHand],
}

impl Workroom {
    /// The piece with what is chosen laid over it; `None` where nothing is chosen yet. A choice that
    /// the outline no longer allows is left out: the stage itself says why.
    pub(super) fn draw_finished(
        &mut self,
        wanted: &Wanted<'_>,
        chosen: &ChosenLast<'_>,
    ) -> Asked<Option<Drawing>> {
        let Some(top) = wanted.table.top(wanted.top).filter(|_| *chosen != ChosenLast::default()) else {
            return Ok(None);
        };
        let raw = top.outline_points();
        let habits = self.habits()?;
        let beside = beside_quilting(chosen, &raw, wanted.on_hand).unwrap_or_default();
        let lines = chosen.quilting.and_then(|choice| quilting::lay(choice, &raw, &beside).ok());
        let back = chosen.layers.and_then(|choice| layers::backing(choice, &raw, wanted.on_hand).ok());
        let edge = chosen.binding.and_then(|choice| binding::plan(choice, &raw, wanted.allowance_in).ok());
        let figure = chosen.figure.and_then(|choice| figure_plan(choice, top, wanted.on_hand, &habits).ok());
        let hung = chosen
            .sleeve
            .and_then(|choice| sleeve_plan(choice, chosen, top, wanted.on_hand, wanted.allowance_in).ok());
        let bolts = chosen.layers.map_or(0, |choice| choice.backing.bolts.len());
        let stages = Stages {
            quilting: lines
                .as_ref()
                .zip(chosen.quilting)
                .map(|(fill, choice)| quilted(fill, choice, &habits)),
            backing: back.as_ref().map(|plan| Backed { plan, bolts: vec![PLAIN; bolts] }),
            edge: edge.as_ref().zip(chosen.binding).map(|(plan, choice)| Edged {
                plan,
                made: choice.cloth.map_or(Made::Plain(PLAIN), Made::Of),
                join: choice.join,
            }),
            figure: figure.as_ref().zip(chosen.figure).map(|(plan, choice)| Figured {
                plan,
                drawn: &choice.figure,
                order: choice.order,
            }),
            hanging: hung.as_ref().map(|plan| Hung {
                plan,
                by: if plan.has_sleeve { HungBy::Sleeve } else { HungBy::Tabs },
                made: Made::Plain(PLAIN),
                label: Vec::new(),
            }),
        };
        let &Wanted { table, top, cloths, what, back, .. } = wanted;
        Ok(Some(if back {
            drawing::finished_back(table, top, cloths, what, &stages)?
        } else {
            drawing::finished_front(table, top, cloths, what, &stages)?
        }))
    }
}

fn quilted<'a>(fill: &'a plane::fill::Fill, choice: &QuiltingChoice, habits: &Habits) -> Quilted<'a> {
    let colour = |thread: &ThreadColour| thread.lab.to_srgb();
    let front = choice.thread.as_ref().map_or(UNDYED, colour);
    let stitch_in = habits.thread.quilting_stitch_mm / MM_PER_IN;
    Quilted { fill, front, back: choice.below.as_ref().map_or(front, colour), stitch_in }
}
