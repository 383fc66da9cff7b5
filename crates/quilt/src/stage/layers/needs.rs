//! What the layers use up, and what there is to do.

use super::LayersPlan;
use super::backing::{Backing, Take};
use super::basting::{BastingPlan, With};
use super::batting::{Batting, BattingWay};
use super::choice::LayersChoice;
use super::strip::{BackStrip, Source};
use crate::cloth::ClothId;
use crate::stage::enough::{Asked, Goods, StageName, WorkKind};
use crate::stage::on_hand::OnHand;

impl LayersPlan {
    /// What the layers use up, of the cloths that the plan was made from, and what there is to do.
    #[must_use]
    pub fn asks(&self, choice: &LayersChoice, cloths: &[OnHand]) -> Asked {
        let mut asked = self.backing.asks(cloths);
        asked.add(self.batting.asks(choice, cloths));
        asked.add(self.basting.asks());
        asked
    }
}

impl Backing {
    fn asks(&self, cloths: &[OnHand]) -> Asked {
        let stage = StageName::Backing;
        let mut asked = Asked::default();
        match (self.take, self.pieced.first()) {
            (Take::Whole(cloth), _) => {
                let holds = self.whole.holds.iter().find(|holds| holds.cloth == cloth);
                asked.need(stage, goods(cloth, cloths), holds.map_or(0.0, |holds| holds.cut_in2));
                asked.work(stage, WorkKind::Cut, 1.0);
            }
            (Take::Pieced, Some(pieced)) => {
                for bought in &pieced.bought {
                    let (name, usable_in) = (bought.name.clone(), bought.usable_in);
                    asked.need(stage, Goods::OffBolt { name, usable_in }, bought.length_in);
                }
                of_stash(&mut asked, stage, &pieced.strips, cloths);
                asked.work(stage, WorkKind::Cut, pieced.strips.len() as f64);
                let seams = pieced.joins.iter().map(|join| join.from.distance(join.to));
                asked.work(stage, WorkKind::Seam, seams.sum());
            }
            (Take::Pieced, None) => {}
        }
        asked
    }
}

impl Batting {
    fn asks(&self, choice: &LayersChoice, cloths: &[OnHand]) -> Asked {
        let stage = StageName::Batting;
        let mut asked = Asked::default();
        let package = |no: usize| {
            let name =
                choice.batting.packages.get(no).map_or_else(String::new, |package| package.name.clone());
            Goods::BattingPackage { name }
        };
        match self.way() {
            Some(BattingWay::Piece(holds)) => {
                asked.need(stage, goods(holds.cloth, cloths), holds.cut_in2);
                asked.work(stage, WorkKind::Cut, 1.0);
            }
            Some(BattingWay::Package(no)) => asked.need(stage, package(*no), 1.0),
            Some(BattingWay::ButtedPieces(butted) | BattingWay::ButtedPackages(butted)) => {
                of_stash(&mut asked, stage, &butted.strips, cloths);
                let mut parts = 0;
                for strip in &butted.strips {
                    if let Source::Package(no) = strip.from {
                        // Two parts of one strip are one package.
                        parts += u32::from(strip.part);
                        asked.need(stage, package(no), if strip.part && parts == 2 { 0.0 } else { 1.0 });
                    }
                }
                asked.work(stage, WorkKind::Cut, butted.strips.len() as f64);
                let joins = butted.joins.iter().map(|join| join.from.distance(join.to));
                asked.work(stage, WorkKind::HandStitch, joins.sum());
            }
            None => {}
        }
        asked
    }
}

impl BastingPlan {
    fn asks(&self) -> Asked {
        let stage = StageName::Basting;
        let mut asked = Asked::default();
        let counted = |name: &str| Goods::Counted { name: name.to_owned() };
        match &self.with {
            With::Pins(places) => {
                asked.need(stage, counted("safety pins"), places.len() as f64);
                asked.work(stage, WorkKind::Pin, places.len() as f64);
            }
            With::Spray { cans, .. } => {
                asked.need(stage, counted("cans of basting spray"), cans.map_or(0.0, f64::from));
            }
            With::Thread { rows_in, thread_in, .. } => {
                let (colour, weight) = ("basting".to_owned(), "any".to_owned());
                asked.need(stage, Goods::Thread { colour, weight }, *thread_in);
                asked.work(stage, WorkKind::BasteByHand, *rows_in);
            }
            With::Frame(_) => {}
        }
        asked
    }
}

/// The area of the strips that are cut from the stash.
fn of_stash(asked: &mut Asked, stage: StageName, strips: &[BackStrip], cloths: &[OnHand]) {
    for strip in strips {
        if let Source::Cloth { cloth, .. } = strip.from {
            asked.need(stage, goods(cloth, cloths), strip.cut_width_in * strip.cut_length_in);
        }
    }
}

fn goods(cloth: ClothId, cloths: &[OnHand]) -> Goods {
    let known = cloths.iter().find(|known| known.cloth == cloth);
    known.map_or(Goods::Cloth(cloth), OnHand::goods)
}
