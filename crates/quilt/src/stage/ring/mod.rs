//! Ring: slices of a strip set, joined end to end and sewn side by side round a piece.
//!
//! Slices are cut across the set, square or leaning. Slanted ones are bias on both long edges; they
//! are joined with an offset of `2s tan lean` along their raw ends, so that they cross at the seam
//! line and not at the raw edge. Whole slices begin anew at each side; unpicked, the stripes go on
//! from side to side round the piece, and single stripes serve. What a side has too much of is
//! trimmed off half at each end.

mod pattern;
mod steps;
mod words;

pub use pattern::{Run, Stripe};

use super::piece::Piece;
use super::strip_problem::StripProblem;
use super::strips::{Order, Strip, strips};
use crate::cloth::Cloth;
use crate::length::{fraction, round_up};
use crate::log::{Mark, Step};
use pattern::{Set, slices};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// What the maker asks of a ring.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RingChoice {
    /// Cut width of a slice in inches, square to its cuts.
    pub slice_in: f64,
    /// How far slices lean from square, in degrees, to the right going up the set; −60 to 60.
    #[serde(default)]
    pub lean_deg: f64,
    /// Whether slices are unpicked, so that single stripes serve.
    #[serde(default)]
    pub unpick: bool,
    /// In which order the sides are sewn.
    #[serde(default)]
    pub order: Order,
    /// The side to begin with, from 0.
    #[serde(default)]
    pub first_side: usize,
}

/// Why a ring can't be sewn.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum RingProblem {
    /// Its strips don't go round the piece.
    #[error(transparent)]
    Strips(#[from] StripProblem),
    /// Not a strip set.
    #[error("`{name}` is no strip set: it has {parts} parts. A ring takes a set of 2 strips or more.")]
    NoSet {
        /// What it is called.
        name: String,
        /// How many parts it has.
        parts: usize,
    },
    /// A lean out of bounds.
    #[error("Slices can't lean {0} degrees: it must be between -60 and 60.")]
    Lean(f64),
    /// Slices that their seams would use up.
    #[error(
        "Slices {} wide (cut) would be used up by their seams: make them wider than {}.",
        fraction(*.slice_in, 16), fraction(*.least_in, 16)
    )]
    Narrow {
        /// Cut width in inches.
        slice_in: f64,
        /// What it must exceed.
        least_in: f64,
    },
    /// A stripe that a seam at the end of its slice would use up.
    #[error(
        "Stripe {stripe} of the set would be lost in a seam of {} when slices are joined end to end.",
        fraction(*.allowance_in, 16)
    )]
    StripeLost {
        /// Which stripe, from 1.
        stripe: usize,
        /// Seam allowance in inches.
        allowance_in: f64,
    },
    /// A set too short for all slices.
    #[error(
        "The set is {} long (cut) where it has its whole height, and {slices} slices take {}: it is {} short. {remedy}",
        fraction(*.have_in, 16), fraction(round_up(*.need_in, 16), 16), fraction(round_up(*.missing_in, 16), 16)
    )]
    SetTooShort {
        /// How many slices are needed.
        slices: usize,
        /// What they take, in inches of set.
        need_in: f64,
        /// How long the set is where it has its whole height.
        have_in: f64,
        /// What is missing.
        missing_in: f64,
        /// What would help.
        remedy: String,
    },
}

/// One side of a ring.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RingSide {
    /// Which side, from 0.
    pub side: usize,
    /// Its runs of stripes, from the start of the side to its end.
    pub runs: Vec<Run>,
    /// Raw length that the side needs along the strip, in inches; leaning ends included.
    pub need_in: f64,
    /// Raw length of its runs joined, in inches.
    pub have_in: f64,
    /// What is trimmed off at each end, in inches along the strip.
    pub trimmed_in: f64,
    /// Where its seams between stripes lie, in inches from the start of its seam line; only those
    /// that show.
    pub seams_at_in: Vec<f64>,
    /// The first stripe that shows, from 0.
    pub first_stripe: usize,
    /// The last stripe that shows.
    pub last_stripe: usize,
    /// Whether the next side goes on with the stripe after the last: else the pattern breaks there.
    pub goes_on: bool,
    /// Whether one cloth meets itself at the corner at its end.
    pub meets_itself: bool,
    /// The side whose strip runs over the corner at its end; `None` where it is mitred.
    pub runs_over: Option<usize>,
}

/// Everything about a ring.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RingPlan {
    /// In which order the sides are sewn.
    pub order: Order,
    /// Seam allowance in inches.
    pub allowance_in: f64,
    /// Cut width of a slice in inches.
    pub slice_in: f64,
    /// How far slices lean, in degrees.
    pub lean_deg: f64,
    /// Width that shows between the ring's seam and the next, or when bound, in inches.
    pub shows_in: f64,
    /// What one slice adds along a side, in inches.
    pub slice_adds_in: f64,
    /// How far the raw ends of two slices are offset when they are joined, in inches along the end.
    pub offset_in: f64,
    /// Whether the long edges are bias.
    pub is_bias: bool,
    /// The stripes of the set.
    pub stripes: Vec<Stripe>,
    /// How many slices it takes without unpicking.
    pub slices_whole: usize,
    /// How many slices it takes when they are unpicked.
    pub slices_unpicked: usize,
    /// How long a set is used up without unpicking, in inches.
    pub set_used_whole_in: f64,
    /// How long a set is used up with unpicking, in inches.
    pub set_used_unpicked_in: f64,
    /// How long the set is where it has its whole height, in inches.
    pub set_in: f64,
    /// Whether slices are unpicked in this plan.
    pub is_unpicked: bool,
    /// The sides, in order round the piece.
    pub sides: Vec<RingSide>,
    /// The shapes that the sides' strips are trimmed to, in the order of sewing.
    pub strips: Vec<Strip>,
}

/// Plans a ring of slices from a strip set round a piece.
///
/// # Errors
/// A set that is none or too short, widths that make no sense, a ring wider than the piece.
pub fn plan(
    piece: &Piece,
    choice: &RingChoice,
    set: &Cloth,
    allowance_in: f64,
) -> Result<RingPlan, RingProblem> {
    let set = Set::of(set, choice, allowance_in)?;
    let sewn_in = [choice.slice_in - allowance_in];
    let strips = strips(piece, &sewn_in, allowance_in, choice.order, choice.first_side, allowance_in)?;
    let needs: Vec<f64> = (0..piece.sides.len())
        .filter_map(|side| strips.iter().find(|strip| strip.side == side))
        .map(|strip| bounds(strip, set.lean)[1] - bounds(strip, set.lean)[0])
        .collect();
    let (whole, unpicked) = (set.in_slices(&needs), set.in_stripes(&needs));
    let (slices_whole, slices_unpicked) = (slices(&whole), slices(&unpicked));
    let have_in = set.span[1] - set.span[0];
    let taken = if choice.unpick { slices_unpicked } else { slices_whole };
    check_length(&set, taken, slices_unpicked, have_in)?;
    let runs = if choice.unpick { unpicked } else { whole };
    let sides = (0..needs.len()).map(|i| side(&set, &strips, &runs, &needs, i, choice.order)).collect();
    Ok(RingPlan {
        order: choice.order,
        allowance_in,
        slice_in: choice.slice_in,
        lean_deg: choice.lean_deg,
        shows_in: choice.slice_in - 2.0 * allowance_in,
        slice_adds_in: (set.height_in() - 2.0 * allowance_in) / set.cosine,
        offset_in: 2.0 * allowance_in * set.lean.abs(),
        is_bias: choice.lean_deg != 0.0,
        stripes: set.stripes.clone(),
        slices_whole,
        slices_unpicked,
        set_used_whole_in: set.used_in(slices_whole),
        set_used_unpicked_in: set.used_in(slices_unpicked),
        set_in: have_in,
        is_unpicked: choice.unpick,
        sides,
        strips,
    })
}

impl RingPlan {
    /// The steps that sew the ring, the first called `first`. Parts of one unpicked slice share its
    /// seams' allowances in the set's coordinates, as they did in the set.
    ///
    /// # Errors
    /// As [`plan`], for another set than the plan was made with.
    pub fn steps(
        &self,
        piece: &Piece,
        choice: &RingChoice,
        set: &Cloth,
        first: Mark,
    ) -> Result<Vec<Step>, RingProblem> {
        let sliced = Set::of(set, choice, self.allowance_in)?;
        Ok(steps::steps(self, piece, &sliced, set.id, first))
    }
}

fn check_length(set: &Set, slices: usize, unpicked: usize, have_in: f64) -> Result<(), RingProblem> {
    let need_in = set.used_in(slices);
    let missing_in = need_in - have_in;
    if missing_in <= plane::READING {
        return Ok(());
    }
    let unpicked_short_in = set.used_in(unpicked) - have_in;
    let remedy = if unpicked >= slices {
        "Sew more of the set, or cut the slices narrower.".to_owned()
    } else if unpicked_short_in <= plane::READING {
        format!("Unpicked, {unpicked} slices are enough.")
    } else {
        format!(
            "Unpicked, {unpicked} slices would do, and it is still {} short. Sew more of the set, or cut the slices narrower.",
            fraction(round_up(unpicked_short_in, 16), 16)
        )
    };
    Err(RingProblem::SetTooShort { slices, need_in, have_in, missing_in, remedy })
}

/// Where a joined strip must begin and end on its sewn raw edge to hold a strip's shape, when its
/// ends lean back by `lean` inches for each inch outward.
fn bounds(strip: &Strip, lean: f64) -> [f64; 2] {
    let at = strip.cut.map(|p| p.x + p.y * lean);
    [at[0].min(at[3]), at[1].max(at[2])]
}

fn side(set: &Set, strips: &[Strip], runs: &[Vec<Run>], needs: &[f64], i: usize, order: Order) -> RingSide {
    let n = needs.len();
    let next = (i + 1) % n;
    let have_in = set.joined_in(&runs[i]);
    let trimmed_in = (have_in - needs[i]) / 2.0;
    let strip = strips.iter().find(|strip| strip.side == i);
    let (seams_at_in, ends) = shown(set, &runs[i], trimmed_in, strip);
    let next_strip = strips.iter().find(|strip| strip.side == next);
    let next_off = (set.joined_in(&runs[next]) - needs[next]) / 2.0;
    let (_, next_ends) = shown(set, &runs[next], next_off, next_strip);
    let count = set.stripes.len();
    let order_of = |side: usize| strips.iter().position(|strip| strip.side == side).unwrap_or(0);
    let last_over_first = order_of(i).max(order_of(next)) == n - 1 && order_of(i).min(order_of(next)) == 0;
    let later = if order_of(i) > order_of(next) { i } else { next };
    let runs_over = match order {
        Order::Mitred => None,
        Order::InTurnPartial if last_over_first && n > 2 => Some(next),
        _ => Some(later),
    };
    RingSide {
        side: i,
        runs: runs[i].clone(),
        need_in: needs[i],
        have_in,
        trimmed_in,
        seams_at_in,
        first_stripe: ends[0],
        last_stripe: ends[1],
        goes_on: next_ends[0] == (ends[1] + 1) % count,
        meets_itself: set.stripes[ends[1]].cloth == set.stripes[next_ends[0]].cloth,
        runs_over,
    }
}

/// Where stripes meet along the seam line of a side, from its start, and the first and last stripe
/// that show there.
fn shown(set: &Set, runs: &[Run], trimmed_in: f64, strip: Option<&Strip>) -> (Vec<f64>, [usize; 2]) {
    let Some(strip) = strip else { return (Vec::new(), [0, 0]) };
    let s = set.allowance_in;
    // Along the sewn raw edge from the far end in x, which lies at the start of the side; at the seam
    // line the ends of the stripes lie `s · lean` further back.
    let far = bounds(strip, set.lean)[1] + trimmed_in - s / set.cosine - s * set.lean;
    let deep = s / strip.cut_wide_in;
    let at_seam = [strip.cut[0].lerp(strip.cut[3], deep).x, strip.cut[1].lerp(strip.cut[2], deep).x];
    let mut at = far;
    let (mut seams, mut ends) = (Vec::new(), [usize::MAX, 0]);
    for run in runs {
        for stripe in run.from..=run.to {
            let to = at - set.stripes[stripe].shows_in / set.cosine;
            if at > at_seam[0] + plane::READING && to < at_seam[1] - plane::READING {
                if ends[0] == usize::MAX {
                    ends[0] = stripe;
                } else {
                    seams.push(at_seam[1] - at);
                }
                ends[1] = stripe;
            }
            at = to;
        }
    }
    if ends[0] == usize::MAX {
        ends[0] = runs.first().map_or(0, |run| run.from);
        ends[1] = ends[0];
    }
    (seams, ends)
}
