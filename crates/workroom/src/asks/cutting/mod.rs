//! The cutting plan: all that is still to be cut for a head, laid on the cloths of the heap as they really are, and
//! what is to be bought.
//!
//! Patches that the chalk plans keep their place on their cloth, since that is what the eye has judged; they may be
//! sought new places. What the later stages take (binding, back, figure, sleeve, label) is laid into what is free.
//! Cloth that isn't there is told as a length off the bolt.

mod bolts;
mod draw;
mod joins;
mod lay;
mod left;
mod near;
mod sets;
mod spare;
mod strokes;
mod told;
mod wanted;

pub use joins::JoinedStrip;
pub use near::TooNear;
pub use sets::ToSew;
pub use spare::Elsewhere;

use super::error::{AskError, Asked};
use crate::workroom::Workroom;
use nest::{Effort, Order, Room};
use plane::Point;
use quilt::cloth::ClothId;
use quilt::log::Mark;
use serde::Serialize;
use std::collections::BTreeMap;

/// How a cutting plan is wished.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CuttingWish {
    /// Planned patches are sought better places too, on their own print, from where they are planned; otherwise they
    /// keep theirs.
    pub anew: bool,
    /// As though there were no heap: everything off the bolt.
    pub buy_all: bool,
    /// What is left between pieces for the blade, in inches.
    pub between_in: f64,
    /// What is left to the edges of the cloth, in inches.
    pub edge_in: f64,
    /// Usable width of bolts, in inches; what the shop's setting says when `None`.
    pub bolt_in: Option<f64>,
    /// How long it is sought.
    pub effort: Effort,
}

impl Default for CuttingWish {
    fn default() -> Self {
        let effort = Effort { rounds: 200, ..Effort::default() };
        Self { anew: false, buy_all: false, between_in: 0.0, edge_in: 0.0, bolt_in: None, effort }
    }
}

/// A piece on its cloth.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutPiece {
    /// In which order it is cut on its cloth, from 1.
    pub no: usize,
    /// What it is for.
    pub name: String,
    /// The step that lays it, for a patch.
    pub mark: Option<Mark>,
    /// What is cut, in the cloth's coordinates, in inches.
    pub outline: Vec<Point>,
    /// Whether the plan or a choice had given it this place before.
    pub was_laid: bool,
    /// Whether straight cuts right through don't part it from its neighbours: it is cut along its own edges.
    pub by_its_edges: bool,
}

/// One cloth with what is cut from it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutCloth {
    /// Which.
    pub cloth: ClothId,
    /// Its number in the heap.
    pub no: u32,
    /// What its maker calls it.
    pub name: String,
    /// In the order of cutting.
    pub pieces: Vec<CutPiece>,
    /// The long straight cuts, in their order: they come first. Each ends where what it parts is used up.
    pub long_cuts: Vec<[Point; 2]>,
    /// What is cut from it, in square inches.
    pub used_in2: f64,
    /// Of each part worth keeping that is left, after the long cuts too, the largest rectangle along the threads that
    /// lies whole in it: width by height, the largest first, in inches.
    pub left_in: Vec<[f64; 2]>,
}

/// A length to buy.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ToBuy {
    /// Which print, or for what.
    pub name: String,
    /// Usable width of the bolt, in inches.
    pub usable_in: f64,
    /// How much of its length the pieces take, in inches.
    pub length_in: f64,
    /// What to ask for: rounded up as the shop sells, in inches.
    pub buy_in: f64,
    /// The same in the shop's words: `1/8 yd`.
    pub ask: String,
    /// The pieces as they lie on it; x runs along the selvage.
    pub pieces: Vec<CutPiece>,
    /// The long straight cuts, in their order.
    pub long_cuts: Vec<[Point; 2]>,
}

/// A piece without a place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NoPlace {
    /// What it is for.
    pub name: String,
    /// Why, and what would help.
    pub why: String,
}

/// Everything that is cut.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct CuttingPlan {
    /// By the number of the cloth.
    pub cloths: Vec<CutCloth>,
    /// What is to be bought.
    pub to_buy: Vec<ToBuy>,
    /// Strips that are cut in bits and joined.
    pub joined: Vec<JoinedStrip>,
    /// Pieced cloths that are sewn of what is bought, where everything is.
    pub to_sew: Vec<ToSew>,
    /// What has no place.
    pub no_place: Vec<NoPlace>,
    /// What lies nearer together, or to the edge, than asked.
    pub too_near: Vec<TooNear>,
    /// Patches planned on whole lengths that would lie in offcuts too.
    pub elsewhere: Vec<Elsewhere>,
}

impl Workroom {
    /// Lays all that is still to be cut for a head. `seen` is told how many rounds of seeking are done, and stops it
    /// by answering no; what was found until then is answered.
    ///
    /// # Errors
    /// No such quilt or head, nothing on the table, nothing left to cut, room that makes no sense.
    pub fn cutting(
        &mut self,
        quilt: &str,
        head: &str,
        wish: &CuttingWish,
        seen: &mut dyn FnMut(u32) -> bool,
    ) -> Asked<CuttingPlan> {
        Room { between_in: wish.between_in, edge_in: wish.edge_in }
            .check()
            .map_err(|problem| refused(&problem))?;
        let wanted = self.wanted(quilt, head)?;
        if wanted.is_empty() {
            return Err(AskError::CantBe {
                what: "nothing is left to cut: every patch is sewn, and no later stage that takes cloth is chosen".to_owned(),
                hint: "Plan more of the piece, or choose its binding, back or figure by a plan file.".to_owned(),
            });
        }
        let shop = self.shop()?;
        let usable_in = wish.bolt_in.unwrap_or(shop.usable_in);
        let named: Vec<(ClothId, String)> = self.named_cloths()?;
        let name_of = |cloth: ClothId| {
            let found = named.iter().find(|(id, _)| *id == cloth);
            found.map_or_else(|| "cloth that is not in the heap".to_owned(), |(_, name)| name.clone())
        };
        if wish.buy_all {
            let allowance_in = self.wish(quilt)?.allowance_in;
            let sets::Unsewn { wanted, to_sew, mut no_place } =
                sets::unsewn(wanted, self.stash()?, allowance_in);
            let bought = bolts::all(&wanted, &name_of, usable_in, shop.cloth_by, wish, seen)?;
            no_place.extend(bought.no_place);
            let (to_buy, joined) = (bought.to_buy, bought.joined);
            return Ok(CuttingPlan { to_buy, joined, to_sew, no_place, ..CuttingPlan::default() });
        }
        let (mut plan, to_buy) = self.laid_in_heap(quilt, head, &wanted, wish, seen)?;
        let bought = bolts::all(&to_buy, &name_of, usable_in, shop.cloth_by, wish, seen)?;
        plan.to_buy = bought.to_buy;
        plan.joined.extend(bought.joined);
        plan.no_place.extend(bought.no_place);
        Ok(plan)
    }

    /// Every cloth with the name that its print goes by: that of its first cloth.
    fn named_cloths(&mut self) -> Asked<Vec<(ClothId, String)>> {
        let stash = self.stash()?;
        let mut first: BTreeMap<u64, (u32, String)> = BTreeMap::new();
        for item in stash.items() {
            let Some(print) = item.came.print else { continue };
            let named = first.entry(print).or_insert_with(|| (item.no, item.came.name.clone()));
            if item.no < named.0 {
                *named = (item.no, item.came.name.clone());
            }
        }
        let name = |item: &crate::stash::Item| {
            let print = item.came.print.and_then(|print| first.get(&print));
            print.map_or_else(|| item.came.name.clone(), |(_, name)| name.clone())
        };
        Ok(stash.items().map(|item| (item.came.id, name(item))).collect())
    }
}

/// What stands against a question of places.
fn refused(problem: &nest::NestProblem) -> AskError {
    AskError::Nonsense { what: problem.to_string(), hint: "Nothing was changed.".to_owned() }
}

/// Pieces in the order in which they are cut.
fn in_order(pieces: &[CutPiece], cloth: &[Point]) -> (Vec<CutPiece>, Vec<[Point; 2]>) {
    let outlines: Vec<Vec<Point>> = pieces.iter().map(|piece| piece.outline.clone()).collect();
    let Order { cuts, pieces: order, round_edges } = nest::order(&outlines, cloth);
    let numbered = order.iter().enumerate().map(|(i, &piece)| CutPiece {
        no: i + 1,
        by_its_edges: round_edges.contains(&piece),
        ..pieces[piece].clone()
    });
    (numbered.collect(), cuts.into_iter().map(|cut| [cut.from, cut.to]).collect())
}
