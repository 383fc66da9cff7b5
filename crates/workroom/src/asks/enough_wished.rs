//! Enough? Of a piece that is only wished for: what it takes is reckoned from the wish, and held against the heap
//! colour by colour.

use super::enough::EnoughReport;
use super::enough_needs::Needs;
use super::error::Asked;
use super::heap::Claimed;
use super::stage::cant;
use crate::stash::Stash;
use crate::workroom::Workroom;
use colour::{Lab, difference, nearest_word};
use quilt::length::fraction;
use quilt::stage::binding::BindingChoice;
use quilt::stage::enough::{self, Goods, Have, Shop, StageName, UsedInTop, WorkKind};
use quilt::stage::habits::Habits;
use quilt::sums::{self, BACKING_SEAM_IN, HANDLING_IN, WASTE, Wished};
use quilt::wish::Wish;

/// How far back and batting reach beyond the piece on every side, in inches (as the layers have it by default).
const BEYOND_IN: f64 = 4.0;
/// A scrap counts for the colour that it comes nearest to, unless it is further away than this (CIEDE2000).
const OF_COLOUR: f64 = 30.0;

impl Workroom {
    /// What a piece takes of which nothing is laid yet.
    pub(super) fn enough_wished(&mut self, wish: &Wish, shop: &Shop, habits: &Habits) -> Asked<EnoughReport> {
        let wished = sums::wished(wish).map_err(cant)?;
        let mut needs = Needs::default();
        let colours = colours(&wished);
        for (goods, _, amount) in &colours {
            needs.asked.need(StageName::Centre, goods.clone(), *amount);
        }
        needs.asked.work(StageName::Centre, WorkKind::Cut, f64::from(wished.pieces));
        needs.asked.work(StageName::Centre, WorkKind::Seam, wished.seams_in);
        around(&wished, shop, &mut needs)?;
        let have = there(self.stash()?, &colours);
        let enough = enough::enough(&needs.asked, &have, shop, &habits.rates).map_err(cant)?;
        let used =
            UsedInTop { prints: Vec::new(), seams_in: 0.0, to_sew_in: wished.seams_in, to_sew: Vec::new() };
        let undecided = vec!["quilting", "thread"];
        Ok(EnoughReport { enough, used, thread: Vec::new(), undecided, wished: Some(wished) })
    }
}

/// Cloth for the front, colour by colour, with what is trimmed off and lies between.
fn colours(wished: &Wished) -> Vec<(Goods, Option<Lab>, f64)> {
    let mut all: Vec<(Goods, Option<Lab>, f64)> = Vec::new();
    for (i, colour) in wished.colours.iter().enumerate() {
        let purpose = match colour.lab.map(nearest_word) {
            None => "the front".to_owned(),
            // The same word may come twice on the way.
            Some(word) if wished.colours.len() > 1 => {
                format!("the front, {} of {} outward: {word}", i + 1, wished.colours.len())
            }
            Some(word) => format!("the front, {word}"),
        };
        all.push((Goods::AnyCloth { purpose }, colour.lab, WASTE * colour.cut_in2));
    }
    let sparks = "the front, sparks that stand out".to_owned();
    all.push((Goods::AnyCloth { purpose: sparks }, None, WASTE * wished.sparks_in2));
    all
}

/// Back, batting and binding of a piece so large.
fn around(wished: &Wished, shop: &Shop, needs: &mut Needs) -> Asked<()> {
    let [width, height] = wished.size_in;
    let back = sums::backing(width, height, BEYOND_IN, shop.usable_in, BACKING_SEAM_IN).map_err(cant)?;
    let goods = Goods::OffBolt { name: "any cloth, for the back".to_owned(), usable_in: shop.usable_in };
    let long_in = f64::from(back.panels) * back.panel_length_cut_in;
    needs.asked.need(StageName::Backing, goods, long_in);
    let size = [width, height].map(|inches| fraction(inches + 2.0 * BEYOND_IN, 4));
    let batting = format!("batting, {} by {}", size[0], size[1]);
    needs.asked.need(StageName::Batting, Goods::Counted { name: batting }, 1.0);
    let strip_in = BindingChoice::default().strip_width_in;
    let round_in = wished.round_in;
    let goods = Goods::Binding { name: "any cloth".to_owned(), strip_in, bias: false };
    needs.asked.need(StageName::Binding, goods, round_in + HANDLING_IN);
    needs.asked.work(StageName::Binding, WorkKind::BindByMachine, round_in);
    needs.asked.work(StageName::Binding, WorkKind::HandStitch, round_in);
    Ok(())
}

/// What the heap has of each colour, by area: a cloth counts for the colour that it comes nearest to.
fn there(stash: &Stash, colours: &[(Goods, Option<Lab>, f64)]) -> Vec<Have> {
    let mut have: Vec<Have> =
        colours.iter().map(|(goods, ..)| Have { goods: goods.clone(), amount: 0.0 }).collect();
    for cloth in Claimed::nothing().on_hand(stash).iter().filter(|cloth| cloth.is_patchwork()) {
        let Some(item) = stash.get(cloth.cloth) else { continue };
        let mean = item.came.look.mean();
        let away = |lab: &Option<Lab>| lab.map_or(OF_COLOUR, |lab| difference(lab, mean));
        let nearest = colours
            .iter()
            .enumerate()
            .map(|(i, (_, lab, _))| (i, away(lab)))
            .min_by(|a, b| a.1.total_cmp(&b.1));
        if let Some(have) = nearest.and_then(|(i, _)| have.get_mut(i)) {
            have.amount += cloth.area_in2();
        }
    }
    have
}
