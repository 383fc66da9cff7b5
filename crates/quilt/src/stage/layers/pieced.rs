//! Pieced backs: the best way with all there is, with each bolt by itself, and with the stash alone.

use super::choice::{Bolt, LayersChoice, SeamRun};
use super::layout::{self, Laid, LayoutAsk, MOST_STRIPS, Offer};
use super::problem::LayersProblem;
use super::squared::Rectangle;
use super::stash_strips::{self, StashStrip, Wanted};
use super::strip::{BackStrip, Join, Source, join, too_narrow};
use crate::length::LengthUnit;
use crate::stage::on_hand::OnHand;
use serde::Serialize;

/// So many ways are told, the best.
const MOST_WAYS: usize = 12;

/// A back of strips, seen from the front: from the left when the seams run along, from below when
/// across. From its own right side it is the other way round.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PiecedBack {
    /// Which way its seams run.
    pub seams: SeamRun,
    /// Its strips in order.
    pub strips: Vec<BackStrip>,
    /// Where its seams lie.
    pub joins: Vec<Join>,
    /// How far the nearest seam is from the middle; `None` without a seam.
    pub off_centre_in: Option<f64>,
    /// Whether that is as far as wished.
    pub is_off_centre: bool,
    /// Whether all choices of strips were tried; with many bolts only the widest and the cheapest are
    /// weighed against each other, and a better way may be passed over.
    pub all_tried: bool,
    /// What to buy.
    pub bought: Vec<Bought>,
}

impl PiecedBack {
    /// The cutting list: lengths are told up, so that nothing is cut short.
    #[must_use]
    pub fn cutting(&self, unit: LengthUnit) -> Vec<String> {
        let named = |inches: f64| format!("{}{}", unit.up(inches, 8), unit.name_after(inches));
        let off_bolts = self.bought.iter().map(|bought| {
            let Bought { name, usable_in, strips, length_in, words, .. } = bought;
            let (width, run) = (named(*usable_in), named(length_in / f64::from((*strips).max(1))));
            format!("Off {name}, {width} wide, take {words}: cut {strips} of {run} along it.")
        });
        let strips = (1..).zip(&self.strips).map(|(no, strip)| {
            let from = match &strip.from {
                Source::Cloth { name, .. } => format!(" from {name}"),
                Source::Bolt(bolt) => self
                    .bought
                    .iter()
                    .find(|bought| bought.bolt == *bolt)
                    .map_or_else(String::new, |bought| format!(" from {}", bought.name)),
                Source::Package(_) => String::new(),
            };
            let part = if strip.part { ", one of two parts cut from one strip" } else { "" };
            let (width, run) = (unit.up(strip.cut_width_in, 8), named(strip.cut_length_in));
            format!("Strip {no}: {width} by {run}{from}{part}.")
        });
        off_bolts.chain(strips).collect()
    }
}

/// A length to buy.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Bought {
    /// Which bolt, by its place in the choice.
    pub bolt: usize,
    /// Its name.
    pub name: String,
    /// Its usable width.
    pub usable_in: f64,
    /// How many strips of it, end to end.
    pub strips: u32,
    /// The length they take, cut.
    pub length_in: f64,
    /// The length to buy, rounded up to the shop's step.
    pub buy_in: f64,
    /// The same in the shop's words.
    pub words: String,
}

/// A search for pieced backs.
pub(super) struct Piecing<'a> {
    pub(super) choice: &'a LayersChoice,
    pub(super) rectangle: &'a Rectangle,
    pub(super) cloths: &'a [OnHand],
}

impl Piecing<'_> {
    /// The ways, the best first.
    pub(super) fn ways(&self) -> Result<Vec<PiecedBack>, LayersProblem> {
        let bolts = &self.choice.backing.bolts;
        if bolts.is_empty() && !self.choice.backing.from_stash {
            return Err(LayersProblem::NothingToCutFrom { layer: "back" });
        }
        let wished = self.choice.backing.seams;
        let runs =
            [SeamRun::Along, SeamRun::Across].into_iter().filter(|run| wished.is_none_or(|w| w == *run));
        let mut found: Vec<(Laid, PiecedBack)> = Vec::new();
        let mut problem = None;
        for run in runs {
            match self.one_way(run) {
                Ok(ways) => found.extend(ways),
                Err(refused) => problem = problem.or(Some(refused)),
            }
        }
        // Stable: of equal ways the one along comes first.
        found.sort_by(|a, b| a.0.rank(&b.0));
        let all_tried = found.iter().all(|(laid, _)| laid.all_tried);
        let mut ways: Vec<PiecedBack> = Vec::with_capacity(found.len());
        for (_, way) in found {
            let way = PiecedBack { all_tried, ..way };
            if !ways.contains(&way) {
                ways.push(way);
            }
        }
        ways.truncate(MOST_WAYS);
        let none = LayersProblem::NothingToCutFrom { layer: "back" };
        if ways.is_empty() { Err(problem.unwrap_or(none)) } else { Ok(ways) }
    }

    /// The best way with all there is, with each bolt by itself, and with the stash alone.
    fn one_way(&self, seams: SeamRun) -> Result<Vec<(Laid, PiecedBack)>, LayersProblem> {
        let one = OneWay::new(self, seams)?;
        let whole = self.choice.backing.bolts.len();
        let strips = one.offers.len() - whole;
        let mut sets = vec![vec![true; one.offers.len()]];
        for bolt in 0..whole {
            sets.push((0..one.offers.len()).map(|i| i == bolt).collect());
        }
        if strips > 0 {
            sets.push((0..one.offers.len()).map(|i| i >= whole).collect());
        }
        let found: Vec<_> = sets.iter().filter_map(|set| one.best(set)).collect();
        if found.is_empty() { Err(one.why_not()) } else { Ok(found) }
    }
}

/// The offers for seams that run one way.
struct OneWay<'a> {
    choice: &'a LayersChoice,
    rectangle: &'a Rectangle,
    seams: SeamRun,
    /// What must be covered.
    need_in: f64,
    /// How long each strip is.
    run_in: f64,
    /// The bolts, then the strips of the stash.
    offers: Vec<Offer>,
    stash: Vec<StashStrip>,
    /// Rollers too short for the seams, so that only one strip will do.
    single: Option<f64>,
}

impl<'a> OneWay<'a> {
    fn new(piecing: &Piecing<'a>, seams: SeamRun) -> Result<Self, LayersProblem> {
        let (choice, rectangle) = (piecing.choice, piecing.rectangle);
        let back = &choice.backing;
        let (need_in, run_in) = match seams {
            SeamRun::Along => (rectangle.width_in, rectangle.length_in),
            SeamRun::Across => (rectangle.length_in, rectangle.width_in),
        };
        let rollers = choice.guiding.frame().and_then(|frame| frame.roller_in);
        if let Some(roller_in) = rollers.filter(|rollers| need_in.min(run_in) > *rollers) {
            return Err(LayersProblem::Rollers { needs_in: need_in.min(run_in), roller_in });
        }
        let lies = |bolt: &Bolt| back.upright && bolt.one_way && seams == SeamRun::Across;
        let mut offers: Vec<Offer> = back
            .bolts
            .iter()
            .map(|bolt| Offer { width_in: bolt.usable_in, most: if lies(bolt) { 0 } else { MOST_STRIPS } })
            .collect();
        let wanted =
            Wanted { run_in, least_in: back.least_strip_in, most_in: need_in, seams, upright: back.upright };
        let cloths = piecing.cloths.iter().filter(|cloth| back.from_stash && cloth.is_back_cloth());
        let stash = stash_strips::strips(&wanted, cloths);
        offers.extend(stash.iter().map(|strip| Offer { width_in: strip.width_in, most: 1 }));
        let single = rollers.filter(|rollers| run_in > *rollers);
        Ok(Self { choice, rectangle, seams, need_in, run_in, offers, stash, single })
    }

    fn ask<'b>(&'b self, offers: &'b [Offer], middle: &'b [f64]) -> LayoutAsk<'b> {
        let back = &self.choice.backing;
        LayoutAsk {
            need_in: self.need_in,
            seam_in: back.seam_in,
            offers,
            keep_off: middle,
            apart_in: back.off_centre_in,
            must: back.off_centre_must,
        }
    }

    fn best(&self, set: &[bool]) -> Option<(Laid, PiecedBack)> {
        let kept = |(offer, kept): (&Offer, &bool)| {
            let one = self.single.is_none() || offer.width_in >= self.need_in;
            Offer { most: if *kept && one { offer.most } else { 0 }, ..*offer }
        };
        let offers: Vec<Offer> = self.offers.iter().zip(set).map(kept).collect();
        let laid = layout::best(&self.ask(&offers, &[self.need_in / 2.0]), &|counts| self.cost(counts))?;
        let way = self.pieced(&laid);
        Some((laid, way))
    }

    /// Money where every bolt has its price, else square inches of cloth bought.
    fn cost(&self, counts: &[u32]) -> f64 {
        let back = &self.choice.backing;
        let priced = back.bolts.iter().all(|bolt| bolt.price.is_some());
        let each = back.bolts.iter().zip(counts).map(|(bolt, strips)| {
            let length = f64::from(*strips) * self.run_in;
            match bolt.price {
                Some(price) if priced => price * back.sold_by.in_unit(back.sold_by.steps(length)),
                _ => back.sold_by.round_up(length) * bolt.usable_in,
            }
        });
        each.sum()
    }

    fn pieced(&self, laid: &Laid) -> PiecedBack {
        let strips: Vec<BackStrip> = laid
            .strips
            .iter()
            .map(|strip| BackStrip {
                from: self.source(strip.offer),
                cut_width_in: strip.cut_in,
                cut_length_in: self.run_in,
                part: strip.part,
            })
            .collect();
        let bought: Vec<Bought> = self.bought(&laid.counts);
        PiecedBack {
            seams: self.seams,
            joins: laid.joins_at_in.iter().map(|at| join(self.rectangle, self.seams, *at)).collect(),
            off_centre_in: laid.clear_in,
            is_off_centre: laid.is_clear,
            all_tried: laid.all_tried,
            strips,
            bought,
        }
    }

    fn source(&self, offer: usize) -> Source {
        match offer.checked_sub(self.choice.backing.bolts.len()).and_then(|no| self.stash.get(no)) {
            None => Source::Bolt(offer),
            Some(strip) => {
                Source::Cloth { cloth: strip.cloth, name: strip.name.clone(), lies: strip.cut.clone() }
            }
        }
    }

    fn bought(&self, counts: &[u32]) -> Vec<Bought> {
        let sold = self.choice.backing.sold_by;
        let bolts = self.choice.backing.bolts.iter().zip(counts).enumerate();
        bolts
            .filter(|(_, (_, strips))| **strips > 0)
            .map(|(no, (bolt, strips))| {
                let length_in = f64::from(*strips) * self.run_in;
                Bought {
                    bolt: no,
                    name: bolt.name.clone(),
                    usable_in: bolt.usable_in,
                    strips: *strips,
                    length_in,
                    buy_in: sold.round_up(length_in),
                    words: sold.words(length_in),
                }
            })
            .collect()
    }

    fn why_not(&self) -> LayersProblem {
        if let Some(roller_in) = self.single {
            return LayersProblem::Rollers { needs_in: self.run_in, roller_in };
        }
        let lying = self.offers.iter().zip(&self.choice.backing.bolts).find(|(offer, _)| offer.most == 0);
        if let Some((_, bolt)) = lying {
            return LayersProblem::LiesOnItsSide { name: bolt.name.clone() };
        }
        too_narrow("back", &self.ask(&self.offers, &[]))
    }
}
