//! Binding the edge of any polygon, inside corners too, or facing it.
//!
//! The outline is the trimmed raw edge, which is also the edge when bound. A double strip is sewn on
//! with its raw edges on the piece's, a seam `s` inside them, and folded over the edge to the back. The
//! strip needs the length of the raw edge, what inside corners take extra, and the overlap of the
//! closing join; extra for handling is said apart and counts in no sum.
//!
//! Where a tip is too sharp to fold, the strip is cut there and its sides are bound apart; then no
//! closing join is left.

mod corner;
mod course;
mod facing;
mod in_cloth;
mod lay;
mod layout;
mod leftover;
mod problem;
mod room;
mod supply;
mod words;

pub use corner::{Corner, Curve, Way};
pub use course::Spot;
pub use facing::{FacingPlan, FacingStrip};
pub use in_cloth::{LEAST_STRIP_IN, LaidStrips, strips_in};
pub use lay::JoinAt;
pub use leftover::{Leftover, leftover, leftover_of};
pub use problem::BindingProblem;
pub use supply::{Supply, SupplyCloth};

use crate::length::within;
use crate::sums::{self, Join, LAP_IN};
use course::Course;
use plane::{Point, Region};
use problem::LEAST_SEAM_IN;
use serde::{Deserialize, Serialize};

/// What sticks out at a tip where two sides are bound apart: trimmed flush or turned in (common
/// practice, no source).
pub const TAIL_IN: f64 = 1.0;

/// The widest cloth that is believed, in inches.
const MOST_USABLE_IN: f64 = 500.0;

/// How the edge is finished.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Finish {
    /// A binding, seen from both sides.
    Bound,
    /// A facing, seen from the back alone.
    Faced,
}

/// What the maker wishes for the edge.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct BindingChoice {
    /// Binding or facing.
    pub finish: Finish,
    /// The cloth that strips are cut from, where that is settled.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cloth: Option<crate::cloth::ClothId>,
    /// Cut width of a binding strip; 2 1/4 is usual (common practice, no source).
    pub strip_width_in: f64,
    /// The seam it is sewn on with, which is also what shows on the front.
    pub seam_in: f64,
    /// Thickness of the edge it goes round.
    pub thickness_in: f64,
    /// Where the strip comes from.
    pub supply: Supply,
    /// How strips are joined, the closing join too.
    pub join: Join,
    /// Usable width of the cloth.
    pub usable_in: f64,
    /// Extra for handling, said apart.
    pub handling_in: f64,
    /// How far joins stay from corners: 3 inches (common practice, no source).
    pub join_clear_in: f64,
    /// What is left open for the closing join: 8 inches or more (common practice, no source).
    pub closing_gap_in: f64,
    /// From this inside angle on a corner isn't folded but turned (common practice, no source).
    pub pivot_from_deg: f64,
    /// Below this inside angle sides are bound apart (common practice, no source).
    pub apart_below_deg: f64,
    /// Cut width of a facing strip, folded in half.
    pub facing_width_in: f64,
}

impl Default for BindingChoice {
    fn default() -> Self {
        Self {
            finish: Finish::Bound,
            cloth: None,
            strip_width_in: 2.25,
            seam_in: 0.25,
            thickness_in: 0.125,
            supply: Supply::Straight,
            join: Join::Diagonal,
            usable_in: 40.0,
            handling_in: sums::HANDLING_IN,
            join_clear_in: 3.0,
            closing_gap_in: 8.0,
            pivot_from_deg: 150.0,
            apart_below_deg: 60.0,
            facing_width_in: 3.0,
        }
    }
}

impl BindingChoice {
    fn check(&self) -> Result<(), BindingProblem> {
        let to_12 = "from 0 to 12 inches";
        within("extra for handling", self.handling_in, [0.0, 100.0], "from 0 to 100 inches")?;
        within("distance of joins from corners", self.join_clear_in, [0.0, 12.0], to_12)?;
        within("closing gap", self.closing_gap_in, [0.0, 24.0], "from 0 to 24 inches")?;
        within("seam", self.seam_in, [LEAST_SEAM_IN, 2.0], "from 1/16 to 2 inches")?;
        within("angle to pivot from", self.pivot_from_deg, [120.0, 180.0], "from 120 to 180 degrees")?;
        within("angle to bind apart", self.apart_below_deg, [10.0, 120.0], "from 10 to 120 degrees")?;
        within("usable width", self.usable_in, [4.0, MOST_USABLE_IN], "from 4 to 500 inches")?;
        Ok(())
    }
}

/// Where the ring of the binding is closed.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Closing {
    /// Where sewing begins.
    pub from: Spot,
    /// Where it ends.
    pub to: Spot,
    /// The middle of the gap, where the two ends are joined.
    pub middle: Spot,
    /// How much is left open between.
    pub gap_in: f64,
    /// How far the two ends overlap when they are cut.
    pub overlap_in: f64,
    /// Whether the longest side is too short for the gap that was wished.
    pub is_short: bool,
}

/// What the strip's width comes to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct BindingWidth {
    /// What shows on the front.
    pub front_finished_in: f64,
    /// What lies on the back.
    pub back_finished_in: f64,
    /// How far the fold reaches beyond the seam line on the back; 1/16 is needed.
    pub lap_in: f64,
    /// The seam that the strip would just fill, for an even binding.
    pub seam_filled_in: f64,
    /// The least cut width for the seam chosen.
    pub least_strip_width_cut_in: f64,
}

/// All about a binding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BindingPlan {
    /// Round the raw edge, and what inside corners take extra.
    pub net_length_in: f64,
    /// The part of it that inside corners take.
    pub inside_corners_in: f64,
    /// Net length, closing overlap, and the tails where sides are bound apart.
    pub length_needed_in: f64,
    /// What the strips give once they are joined, before the closing join.
    pub length_got_in: f64,
    /// What one join of the strips takes.
    pub join_loss_in: f64,
    /// Extra for handling, as wished; in no other number.
    pub handling_in: f64,
    /// What of it isn't there.
    pub handling_short_in: f64,
    /// The least number of strips that reaches round; more are cut where joins must keep clear.
    pub strips_least: usize,
    /// How many strips the trade's rule says, the way round and 10 by the usable width; for straight strips
    /// of no named cloth. It leaves the joins out.
    pub strips_by_rule: Option<usize>,
    /// Cut width of the strips.
    pub strip_width_cut_in: f64,
    /// The strips in the order in which they are joined, as they are cut for the joins to fall where
    /// they are named. The last has the rest to spare.
    pub strips_cut_in: Vec<f64>,
    /// The cloth they are cut from.
    pub cloth: SupplyCloth,
    /// Widths.
    pub width: BindingWidth,
    /// The corners in order.
    pub corners: Vec<Corner>,
    /// The curves.
    pub curves: Vec<Curve>,
    /// The joins in order.
    pub joins: Vec<JoinAt>,
    /// The closing join; none where sides are bound apart.
    pub closing: Option<Closing>,
    /// The edge of what shows within the binding.
    pub shows_outline: Vec<Point>,
}

/// The finish of an edge.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FinishPlan {
    /// A binding.
    Bound(Box<BindingPlan>),
    /// A facing.
    Faced(FacingPlan),
}

/// The finish of a trimmed, raw outline; `allowance_in` is the seam of straight joins and tubes.
///
/// # Errors
/// A [`BindingProblem`]: an outline that isn't one, a strip too narrow for its seam, a side too short
/// to fold, a neck, a curve on the straight grain, a leftover that doesn't reach.
pub fn plan(
    choice: &BindingChoice,
    outline: &[Point],
    allowance_in: f64,
) -> Result<FinishPlan, BindingProblem> {
    choice.check()?;
    let allowance = within("seam allowance", allowance_in, [0.0, 2.0], "from 0 to 2 inches")?;
    let outline = Region::try_new(outline.to_vec(), Vec::new()).map_err(BindingProblem::Outline)?.outer;
    match choice.finish {
        Finish::Bound => Ok(FinishPlan::Bound(Box::new(bind(choice, &outline, allowance)?))),
        Finish::Faced => facing::face(choice, &outline, allowance).map(FinishPlan::Faced),
    }
}

fn bind(choice: &BindingChoice, outline: &[Point], allowance_in: f64) -> Result<BindingPlan, BindingProblem> {
    let width = width(choice)?;
    let deep = width.back_finished_in.max(width.front_finished_in);
    let angles = corner::inside_angles(outline);
    let (corners, curves) = corner::corners(outline, choice, deep);
    check_curves(choice, &curves)?;
    room::check_sides(outline, &angles, deep, [choice.seam_in, choice.thickness_in])?;
    room::check_necks(outline, &angles, deep)?;

    let course = Course::new(&corners);
    let overlap = choice.join.loss_in(choice.strip_width_in, allowance_in);
    let starts = layout::starts(choice, &course);
    let needed = lay::needed_in(&layout::runs(&course, starts[0], overlap));
    let stock = supply::stock(choice, needed, allowance_in)?;
    let (start, laid) = layout::best_layout(choice, &course, &starts, overlap, &stock).ok_or_else(|| {
        let has_in = stock.lengths_in.iter().sum();
        BindingProblem::LeftoverShort { has_in, needed_in: needed, short_in: needed - has_in }
    })?;
    Ok(BindingPlan {
        net_length_in: course.net_in(),
        inside_corners_in: corners.iter().map(|corner| corner.extra_in).sum(),
        length_needed_in: needed,
        length_got_in: needed + laid.spare_in,
        join_loss_in: stock.join_loss_in,
        handling_in: choice.handling_in,
        handling_short_in: (choice.handling_in - laid.spare_in).max(0.0),
        strips_least: stock.least,
        strips_by_rule: supply::by_rule(choice, outline)?,
        strip_width_cut_in: choice.strip_width_in,
        cloth: stock.cloth(choice, laid.cut_in.len())?,
        width,
        closing: course.apart().is_empty().then(|| layout::closing(choice, &course, start, overlap)),
        corners,
        curves,
        joins: laid.joins,
        strips_cut_in: laid.cut_in,
        shows_outline: room::inner_edge(outline, &angles, choice.seam_in),
    })
}

/// Refuses a strip that doesn't close over its seam.
fn width(choice: &BindingChoice) -> Result<BindingWidth, BindingProblem> {
    let BindingChoice { strip_width_in, seam_in, thickness_in, .. } = *choice;
    let back = sums::binding_back(strip_width_in, seam_in, thickness_in)?;
    let (least, fills) =
        (sums::binding_width(seam_in, thickness_in)?, sums::binding_seam(strip_width_in, thickness_in));
    let lap_in = back - seam_in;
    if lap_in < LAP_IN - 1e-9 {
        let seam_fits_in = fills.unwrap_or(0.0);
        return Err(BindingProblem::StripTooNarrow {
            strip_width_in,
            seam_in,
            needs_in: least,
            seam_fits_in,
        });
    }
    Ok(BindingWidth {
        front_finished_in: seam_in,
        back_finished_in: back,
        lap_in,
        seam_filled_in: fills?,
        least_strip_width_cut_in: least,
    })
}

/// A strip on the straight grain doesn't go round a curve.
fn check_curves(choice: &BindingChoice, curves: &[Curve]) -> Result<(), BindingProblem> {
    match curves.first() {
        Some(&Curve { first, last, radius_in }) if !choice.supply.is_bias() => {
            Err(BindingProblem::CurveNeedsBias { first, last, radius_in })
        }
        _ => Ok(()),
    }
}
