//! Border: strips of plain cloth round a piece.
//!
//! A border has four widths: it is cut `sewn + s` wide; `sewn` is from its seam to the raw edge; it
//! may be trimmed even afterwards, to `trimmed` from the seam; and it shows `trimmed − s` when bound.
//! Strips of a one-way print that is to point outward on every side are cut across the print, and
//! trapezoids of it can't be turned head to foot.

mod compare;
pub(super) mod steps;
mod sums;
mod words;

pub use compare::{OrderRow, StripRow, compare, every_order};
pub use sums::{BorderSum, MitredSide, border_sum};

use super::cutting::{self, CutStrip, Cutting, JoinKind, Lie};
use super::piece::Piece;
use super::strip_problem::StripProblem;
use super::strips::{Lines, Order, Strip, corners_of, exceeds, spread, strips};
use crate::cloth::{Cloth, Runs};
use crate::log::{Mark, Step};
use plane::{Point, Turn, Turning, polygon};
use serde::{Deserialize, Serialize};

/// How a print lies on the strips.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum PrintLies {
    /// By the grain alone: strips are cut along it or across it, either way round.
    #[default]
    ByGrain,
    /// Pointing outward on every side.
    Outward,
    /// Upright on the wall on every side.
    Upright,
}

/// Which way of the grain strips are cut along.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grain {
    /// Along the lengthwise threads: it stretches least.
    #[default]
    Lengthwise,
    /// Across them, from selvage to selvage.
    Crosswise,
}

/// What the maker asks of a border.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct BorderChoice {
    /// Width in inches from the seam to the raw edge as sewn; one for all sides, or one for each.
    pub sewn_in: Vec<f64>,
    /// Width in inches from the seam to the raw edge after trimming; empty to leave it as sewn.
    #[serde(default)]
    pub trimmed_in: Vec<f64>,
    /// In which order.
    #[serde(default)]
    pub order: Order,
    /// The side to begin with, from 0, where the order leaves it open.
    #[serde(default)]
    pub first_side: usize,
    /// How strips are joined where the cloth is short.
    #[serde(default)]
    pub join: JoinKind,
    /// How the print lies.
    #[serde(default)]
    pub print: PrintLies,
    /// Which way of the grain, where the print doesn't say.
    #[serde(default)]
    pub grain: Grain,
}

/// A mitred corner.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Mitre {
    /// The corner, by the side that starts there, from 0.
    pub corner: usize,
    /// The piece's inside angle there, in degrees.
    pub corner_deg: f64,
    /// How far the end of the strip before it leans from square, in degrees.
    pub before_off_square_deg: f64,
    /// The same for the strip that starts there; they differ between unequal widths.
    pub own_off_square_deg: f64,
    /// How much longer the raw outer edge of the strip before gets there than its seam line, in
    /// inches.
    pub before_gains_in: f64,
    /// The same for the strip that starts there.
    pub own_gains_in: f64,
    /// Length in inches of the mitre's seam, to the raw edge.
    pub seam_in: f64,
}

/// Everything about a border.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BorderPlan {
    /// In which order.
    pub order: Order,
    /// Seam allowance in inches.
    pub allowance_in: f64,
    /// Width from the seam to the raw edge as sewn, side by side, in inches.
    pub sewn_in: Vec<f64>,
    /// Width from the seam to the raw edge after trimming, in inches.
    pub trimmed_in: Vec<f64>,
    /// Width that shows when bound, in inches.
    pub bound_in: Vec<f64>,
    /// The strips in the order of sewing.
    pub strips: Vec<Strip>,
    /// The mitres, when it is mitred.
    pub mitres: Vec<Mitre>,
    /// Length of all strips along their seam lines, in inches.
    pub seam_total_in: f64,
    /// The longest bar to cut, in inches.
    pub cut_longest_in: f64,
    /// Area of all cut shapes in square inches, without joins.
    pub cut_sq_in: f64,
    /// Corners of the raw outline as sewn.
    pub sewn_corners: Vec<Point>,
    /// Corners of the raw outline after trimming.
    pub raw_corners: Vec<Point>,
    /// Corners of what shows when bound.
    pub bound_corners: Vec<Point>,
    /// What the cloth gives, when one was named.
    pub cutting: Option<Cutting>,
}

/// Plans a border round a piece, cut from `cloth` if one is given.
///
/// # Errors
/// Widths that make no sense, a border wider than the piece, sides too short to sew.
pub fn plan(
    piece: &Piece,
    choice: &BorderChoice,
    cloth: Option<&Cloth>,
    allowance_in: f64,
) -> Result<BorderPlan, StripProblem> {
    let n = piece.sides.len();
    let sewn_in = spread(&choice.sewn_in, n)?;
    let trimmed_in = trimmed(choice, &sewn_in, allowance_in)?;
    let aim_in = aim(&sewn_in, &trimmed_in, allowance_in);
    let strips = strips(piece, &sewn_in, aim_in, choice.order, choice.first_side, allowance_in)?;
    let lines = Lines::of(piece, &sewn_in, allowance_in)?;
    let at = |inside: &[f64], less: f64| {
        let moved = lines.seam.iter().zip(inside).map(|(line, width)| line.inward(less - width));
        corners_of(&moved.collect::<Vec<_>>())
    };
    let mitres = if choice.order == Order::Mitred { mitres(piece, &lines, aim_in) } else { Vec::new() };
    let cutting = cloth.map(|cloth| {
        let lies: Vec<Lie> = strips.iter().map(|strip| lie(strip, cloth, choice)).collect();
        cutting::cut(&strips, &lies, cloth, choice.join, allowance_in)
    });
    Ok(BorderPlan {
        order: choice.order,
        allowance_in,
        bound_in: trimmed_in.iter().map(|width| width - allowance_in).collect(),
        seam_total_in: strips.iter().map(|strip| strip.seam_in).sum(),
        cut_longest_in: strips.iter().map(|strip| strip.cut_bar_in).fold(0.0, f64::max),
        cut_sq_in: strips.iter().map(Strip::cut_sq_in).sum(),
        sewn_corners: at(&sewn_in, 0.0),
        raw_corners: at(&trimmed_in, 0.0),
        bound_corners: at(&trimmed_in, allowance_in),
        sewn_in,
        trimmed_in,
        strips,
        mitres,
        cutting,
    })
}

impl BorderPlan {
    /// The steps that sew the border, the first called `first`; `None` unless the plan has a cloth
    /// with room for every strip.
    #[must_use]
    pub fn steps(&self, piece: &Piece, cloth: &Cloth, first: Mark) -> Option<Vec<Step>> {
        let cutting = self.cutting.as_ref().filter(|cutting| cutting.fits)?;
        Some(steps::steps(self, piece, cutting, cloth.id, first))
    }
}

fn trimmed(choice: &BorderChoice, sewn_in: &[f64], allowance_in: f64) -> Result<Vec<f64>, StripProblem> {
    if choice.trimmed_in.is_empty() {
        return Ok(sewn_in.to_vec());
    }
    let trimmed = spread(&choice.trimmed_in, sewn_in.len())?;
    for (i, (&width, &sewn)) in trimmed.iter().zip(sewn_in).enumerate() {
        if width > sewn + plane::READING {
            return Err(StripProblem::TrimmedWider { side: i + 1, trimmed_in: width, sewn_in: sewn });
        }
        if !exceeds(width, allowance_in) {
            return Err(StripProblem::TooNarrow { side: i + 1, width_in: width, least_in: allowance_in });
        }
    }
    Ok(trimmed)
}

/// How far inside the raw edges mitres aim: at the corner of what shows when bound, when the same is
/// trimmed off every side; else at that of the raw edges less the binding's seam.
fn aim(sewn_in: &[f64], trimmed_in: &[f64], allowance_in: f64) -> f64 {
    let off: Vec<f64> = sewn_in.iter().zip(trimmed_in).map(|(sewn, trimmed)| sewn - trimmed).collect();
    let same = off.iter().all(|o| (o - off[0]).abs() < plane::READING);
    allowance_in + if same { off[0] } else { 0.0 }
}

fn mitres(piece: &Piece, lines: &Lines, aim_in: f64) -> Vec<Mitre> {
    let n = piece.sides.len();
    let inner = corners_of(&lines.seam);
    let aimed: Vec<plane::Line> = lines.outer.iter().map(|line| line.inward(aim_in)).collect();
    let out = corners_of(&aimed);
    let raw = corners_of(&lines.outer);
    let mitre = |i: usize| {
        let before = (i + n - 1) % n;
        let along = out[i] - inner[i];
        let off_square = |k: usize| {
            let line = lines.seam[k];
            (along.dot(line.unit()).abs()).atan2(-along.dot(line.normal.vec())).to_degrees()
        };
        let gains = |k: usize| lines.seam[k].along(raw[i]) - lines.seam[k].along(inner[i]);
        Mitre {
            corner: i,
            corner_deg: piece.corner_deg(i),
            before_off_square_deg: off_square(before),
            own_off_square_deg: off_square(i),
            before_gains_in: gains(before),
            own_gains_in: -gains(i),
            seam_in: inner[i].distance(raw[i]),
        }
    };
    (0..n).map(mitre).collect()
}

/// How a strip may lie on the cloth.
fn lie(strip: &Strip, cloth: &Cloth, choice: &BorderChoice) -> Lie {
    let runs = cloth.look.runs;
    let outward = |top: Turn| Turn::QUARTER.inverse().then(top);
    let grain = match choice.grain {
        Grain::Lengthwise => cloth.grain,
        Grain::Crosswise => cloth.grain.left(),
    };
    let by_grain = Lie { base: grain, half_turns: true };
    match (choice.print, runs) {
        (PrintLies::Outward, Runs::OneWay(top)) => Lie { base: outward(top), half_turns: false },
        (PrintLies::Outward, Runs::BothWays(way)) => Lie { base: outward(way), half_turns: true },
        (PrintLies::Upright, Runs::OneWay(_)) => {
            let (turning, base) = runs.turning(strip.lies.turn.inverse().then(Turn::QUARTER));
            Lie { base, half_turns: turning == Turning::HalfTurns }
        }
        (PrintLies::Upright, Runs::BothWays(way)) => {
            let (_, base) = Runs::OneWay(way).turning(strip.lies.turn.inverse().then(Turn::QUARTER));
            Lie { base, half_turns: true }
        }
        _ => by_grain,
    }
}

/// Area in square inches that a border adds to what shows: the bound outline less what shows of the
/// piece within its seams.
#[must_use]
pub fn shows_sq_in(plan: &BorderPlan, piece: &Piece) -> f64 {
    let within = plane::grow_outline(&piece.corners(), -plan.allowance_in);
    polygon::area(&plan.bound_corners) - polygon::area(&within)
}
