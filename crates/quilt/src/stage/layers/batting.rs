//! The batting: what is needed, and where it comes from: a piece of the stash, packages, or two or more
//! pieces butted, edge to edge and never overlapped, with no join near a seam of the back beside it.

use super::backing::Backing;
use super::choice::{LayersChoice, SeamRun};
use super::layout::{self, Laid, LayoutAsk, MOST_STRIPS, Offer};
use super::problem::LayersProblem;
use super::squared::{Rectangle, checked};
use super::stash_strips::{self, StashStrip, Wanted};
use super::strip::{BackStrip, Join, Source, join, too_narrow};
use super::whole::{Holds, Needed, Seen, Whole, whole};
use crate::cloth::{ClothId, Kind};
use crate::stage::on_hand::OnHand;
use plane::{FitAsk, Point, Region, Turn, Turning, best_fit, grow_outline};
use serde::{Deserialize, Serialize};

/// Everything about the batting.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Batting {
    /// How much more than the piece on each side.
    pub overage_in: f64,
    /// What must be covered, cut: the outline and the overage; on a frame the rectangle.
    pub needed: Vec<Point>,
    /// The squared rectangle around the piece with the overage, cut.
    pub rectangle: Rectangle,
    /// The ways to have it, in the order in which they are looked for.
    pub ways: Vec<BattingWay>,
    /// Which of them is taken.
    pub take: usize,
    /// Cloths of which it could not be decided whether they hold it.
    pub undecided: Vec<ClothId>,
}

/// A sort of way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WayKind {
    /// One piece of the stash.
    Piece,
    /// Pieces of the stash, butted.
    ButtedPieces,
    /// One package.
    Package,
    /// Packages, butted.
    ButtedPackages,
}

/// A way to have the batting.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BattingWay {
    /// One piece of the stash: the one with the least left over.
    Piece(Holds),
    /// Pieces of the stash, butted.
    ButtedPieces(Butted),
    /// The smallest package that holds it, by its place in the choice.
    Package(usize),
    /// Packages, butted.
    ButtedPackages(Butted),
}

impl BattingWay {
    /// What sort it is.
    #[must_use]
    pub const fn kind(&self) -> WayKind {
        match self {
            Self::Piece(_) => WayKind::Piece,
            Self::ButtedPieces(_) => WayKind::ButtedPieces,
            Self::Package(_) => WayKind::Package,
            Self::ButtedPackages(_) => WayKind::ButtedPackages,
        }
    }
}

/// Pieces laid edge to edge, seen from the front: from the left when the joins run along, from below
/// when across. Nothing overlaps.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Butted {
    /// Which way the joins run.
    pub joins_run: SeamRun,
    /// The pieces in order, cut.
    pub strips: Vec<BackStrip>,
    /// Where they join.
    pub joins: Vec<Join>,
    /// What to do at a join.
    pub how: &'static str,
    /// How far the nearest join is from a seam of the back that runs beside it; `None` when none does.
    pub off_seam_in: Option<f64>,
    /// Whether all choices of pieces were tried; of many only the widest and the cheapest are.
    pub all_tried: bool,
}

/// Plans the batting under a back.
///
/// # Errors
/// An outline or a number that is none; no way to have it, or not the way that was chosen.
pub fn batting(
    choice: &LayersChoice,
    outline: &[Point],
    back: &Backing,
    cloths: &[OnHand],
) -> Result<Batting, LayersProblem> {
    choice.check()?;
    let outline = checked(outline)?;
    let overage_in = choice.batting_overage_in();
    let rectangle = Rectangle::around(&outline, choice.backing.squared)?.grown(overage_in);
    let needed = match choice.guiding.frame() {
        Some(_) => rectangle.corners(),
        None => grow_outline(&outline, overage_in),
    };
    let pieces: Vec<&OnHand> =
        cloths.iter().filter(|cloth| choice.batting.from_stash && cloth.kind == Kind::Batting).collect();
    let looking = Looking { choice, back, rectangle: &rectangle, needed: &needed, pieces: &pieces };
    let Whole { holds, undecided } = looking.whole();
    let mut ways: Vec<BattingWay> = holds.into_iter().take(1).map(BattingWay::Piece).collect();
    ways.extend(looking.butted(&looking.stash_offers()).map(BattingWay::ButtedPieces));
    match looking.package() {
        Some(package) => ways.push(BattingWay::Package(package)),
        None => ways.extend(looking.butted(&looking.package_offers()).map(BattingWay::ButtedPackages)),
    }
    let wished = choice.batting.way;
    let take = ways.iter().position(|way| wished.is_none_or(|kind| way.kind() == kind));
    let take = take.ok_or_else(|| looking.why_not())?;
    Ok(Batting { overage_in, needed, rectangle, ways, take, undecided })
}

impl Batting {
    /// The way that is taken.
    #[must_use]
    pub fn way(&self) -> Option<&BattingWay> {
        self.ways.get(self.take)
    }
}

struct Looking<'a> {
    choice: &'a LayersChoice,
    back: &'a Backing,
    rectangle: &'a Rectangle,
    needed: &'a [Point],
    pieces: &'a [&'a OnHand],
}

/// What can be laid side by side when the joins run one way.
struct Offers {
    joins_run: SeamRun,
    offers: Vec<Offer>,
    sources: Vec<Source>,
    /// Square inches that one of each offer costs.
    costs: Vec<f64>,
}

impl Looking<'_> {
    fn whole(&self) -> Whole {
        let axis = self.rectangle.across;
        let ask = Needed { shape: self.needed, axis, seen: Seen::EitherSide, upright: false, chosen: None };
        whole(&ask, self.pieces.iter().copied())
    }

    fn package(&self) -> Option<usize> {
        let packages = self.choice.batting.packages.iter().enumerate();
        let holding = packages.filter(|(_, package)| {
            let cloth = Region::rectangle(package.width_in, package.length_in);
            let (turning, base) = (Turning::Any, Turn::NONE);
            best_fit(&FitAsk { piece: self.needed, cloth: &cloth, turning, base, margin: &[] })
                .pose()
                .is_some()
        });
        let area = |package: &super::Package| package.width_in * package.length_in;
        holding.min_by(|a, b| area(a.1).total_cmp(&area(b.1))).map(|(no, _)| no)
    }

    /// Width to cover and length of each strip.
    const fn sizes(&self, joins_run: SeamRun) -> (f64, f64) {
        match joins_run {
            SeamRun::Along => (self.rectangle.width_in, self.rectangle.length_in),
            SeamRun::Across => (self.rectangle.length_in, self.rectangle.width_in),
        }
    }

    fn stash_offers(&self) -> [Offers; 2] {
        [SeamRun::Along, SeamRun::Across].map(|joins_run| {
            let (most_in, run_in) = self.sizes(joins_run);
            let least_in = self.choice.batting.least_strip_in;
            let wanted = Wanted { run_in, least_in, most_in, seams: joins_run, upright: false };
            let strips = stash_strips::strips(&wanted, self.pieces.iter().copied());
            let source =
                |strip: StashStrip| Source::Cloth { cloth: strip.cloth, name: strip.name, lies: strip.cut };
            Offers {
                joins_run,
                offers: strips.iter().map(|strip| Offer { width_in: strip.width_in, most: 1 }).collect(),
                costs: vec![0.0; strips.len()],
                sources: strips.into_iter().map(source).collect(),
            }
        })
    }

    fn package_offers(&self) -> [Offers; 2] {
        [SeamRun::Along, SeamRun::Across].map(|joins_run| {
            let (_, run_in) = self.sizes(joins_run);
            let mut found = Offers { joins_run, offers: Vec::new(), sources: Vec::new(), costs: Vec::new() };
            for (no, package) in self.choice.batting.packages.iter().enumerate() {
                let (wide, long) = (package.width_in, package.length_in);
                for (width_in, length_in) in [(wide, long), (long, wide)] {
                    if length_in >= run_in - 1e-9 {
                        found.offers.push(Offer { width_in, most: MOST_STRIPS });
                        found.sources.push(Source::Package(no));
                        found.costs.push(wide * long);
                    }
                }
            }
            found
        })
    }

    /// The seams of the back that run beside such joins, from the batting's own edge.
    fn seams_beside(&self, joins_run: SeamRun) -> Vec<f64> {
        let beside = self.back.seams().filter(|back| back.seams == joins_run);
        let shift = self.choice.batting_overage_in() - self.back.overage_in;
        beside.map_or_else(Vec::new, |back| back.joins.iter().map(|join| join.at_in + shift).collect())
    }

    fn ask<'b>(&self, offers: &'b Offers, beside: &'b [f64]) -> LayoutAsk<'b> {
        LayoutAsk {
            need_in: self.sizes(offers.joins_run).0,
            seam_in: 0.0,
            offers: &offers.offers,
            keep_off: beside,
            apart_in: self.choice.batting.apart_in,
            must: true,
        }
    }

    /// The best of both ways of the joins; only what has a join.
    fn butted(&self, both: &[Offers; 2]) -> Option<Butted> {
        let found = both.iter().filter_map(|offers| {
            let beside = self.seams_beside(offers.joins_run);
            let cost =
                |counts: &[u32]| counts.iter().zip(&offers.costs).map(|(n, each)| f64::from(*n) * each).sum();
            let laid = layout::best(&self.ask(offers, &beside), &cost)?;
            (laid.strips.len() > 1).then_some((laid, offers))
        });
        let best = found.reduce(|best, next| if next.0.rank(&best.0).is_lt() { next } else { best });
        best.map(|(laid, offers)| self.butt(&laid, offers))
    }

    fn butt(&self, laid: &Laid, offers: &Offers) -> Butted {
        let (_, cut_length_in) = self.sizes(offers.joins_run);
        let strips = laid.strips.iter().map(|strip| BackStrip {
            from: offers.sources[strip.offer].clone(),
            cut_width_in: strip.cut_in,
            cut_length_in,
            part: strip.part,
        });
        Butted {
            joins_run: offers.joins_run,
            strips: strips.collect(),
            joins: laid.joins_at_in.iter().map(|at| join(self.rectangle, offers.joins_run, *at)).collect(),
            how: "Lay the cut edges against each other, never over each other, and hold them with wide \
                  stitches by hand.",
            off_seam_in: laid.clear_in,
            all_tried: laid.all_tried,
        }
    }

    fn why_not(&self) -> LayersProblem {
        let offers = match self.choice.batting.way {
            Some(WayKind::Piece | WayKind::ButtedPieces) => self.stash_offers(),
            Some(WayKind::Package | WayKind::ButtedPackages) | None => self.package_offers(),
        };
        if let (Some(WayKind::Package), Some(largest)) = (self.choice.batting.way, self.largest_package()) {
            return LayersProblem::NoPackage {
                width_in: self.rectangle.width_in,
                length_in: self.rectangle.length_in,
                largest,
            };
        }
        too_narrow("batting", &self.ask(&offers[0], &self.seams_beside(SeamRun::Along)))
    }

    fn largest_package(&self) -> Option<String> {
        let area = |package: &&super::Package| package.width_in * package.length_in;
        let packages = self.choice.batting.packages.iter();
        packages.max_by(|a, b| area(a).total_cmp(&area(b))).map(|package| package.name.clone())
    }
}
