//! Square up: cutting a piece to a true shape, or filling it up to a rectangle and cutting then.
//!
//! All sizes are raw. Only cutting is done to a wished shape, so it must lie inside the piece, which
//! must be convex: each cut runs straight across. A rectangle by corners is first sewn larger. The plan
//! says what is lost, which patches get thinner than they may, and whether what comes out is true.

mod corners;
mod goal;
mod problem;
mod trueness;
mod upright;
mod words;
mod work;

pub use corners::CornerPiece;
pub use problem::SquareProblem;
pub use trueness::{Trueness, trueness};
pub use upright::Shape;
pub use words::CUTTER;

use super::piece::Piece;
use crate::cloth::Cloth;
use crate::length::within;
use crate::limits::finished_width_in;
use crate::log::{Mark, Name, Step};
use crate::stage::ChosenLast;
use crate::table::{Table, Top};
use plane::{Point, Turn, polygon};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use work::{Work, apart, lines_of};

/// Which shape is to be as large as fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LargestKind {
    /// A rectangle of any proportion.
    Rectangle,
    /// A square.
    Square,
    /// A circle.
    Circle,
}

/// What a piece is squared up to; all sizes raw.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Goal {
    /// Each outer side to a width from its border's seam.
    BorderLine {
        /// Inches from the seam.
        from_seam_in: f64,
    },
    /// A wished convex polygon, where it lies on the piece.
    Polygon {
        /// Its corners in the piece's coordinates, inches.
        corners: Vec<Point>,
    },
    /// A rectangle of given size, where it has most room.
    Rectangle {
        /// Width in inches.
        width_in: f64,
        /// Height in inches.
        height_in: f64,
        /// How far it is turned, in degrees; as suits best when left out.
        #[serde(default)]
        turn_deg: Option<f64>,
    },
    /// A circle of given size, in as many cuts as keep within 1/64.
    Circle {
        /// Its width across in inches.
        diameter_in: f64,
    },
    /// The largest of a kind that fits.
    Largest {
        /// Of which kind.
        kind: LargestKind,
    },
    /// A rectangle round the piece, filled up with large corners on the straight grain.
    RectangleByCorners {
        /// Width in inches; that of the piece when left out, and never more.
        #[serde(default)]
        width_in: Option<f64>,
        /// Height in inches.
        #[serde(default)]
        height_in: Option<f64>,
        /// How far it is turned, in degrees.
        #[serde(default)]
        turn_deg: f64,
    },
}

/// What the maker asks of squaring up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SquareUpChoice {
    /// To what.
    pub goal: Goal,
    /// Patches that finish thinner than this are named, in inches.
    #[serde(default = "half")]
    pub thin_in: f64,
    /// Whether a rectangle is turned upright on the table when it is cut, its wished width level: up on
    /// the wall is up there. Quilting and figure that are decided on already lie by the table, so that
    /// nothing is turned under them.
    #[serde(default = "yes")]
    pub upright: bool,
}

impl SquareUpChoice {
    /// To a goal, as is usual.
    #[must_use]
    pub const fn to(goal: Goal) -> Self {
        Self { goal, thin_in: half(), upright: true }
    }
}

const fn half() -> f64 {
    0.5
}

const fn yes() -> bool {
    true
}

/// A patch that gets thinner.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Thinned {
    /// Which patch.
    pub patch: Mark,
    /// Finished width before, in inches.
    pub before_in: f64,
    /// Finished width afterwards, in inches.
    pub after_in: f64,
}

/// Everything about a squaring up.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SquareUpPlan {
    /// The shape it is to have, raw, where it lies on the piece before that is turned.
    pub target: Vec<Point>,
    /// The raw outline that comes out.
    pub corners: Vec<Point>,
    /// What shape that is, and its raw size.
    pub shape: Shape,
    /// How far the piece is turned to stand upright, in degrees counter-clockwise.
    pub turned_deg: f64,
    /// How far what comes out still has to be turned to stand upright.
    pub leans_deg: f64,
    /// How far what comes out lies from the target at most, in inches.
    pub off_in: f64,
    /// How many cuts it takes by hand: a circle is one round cut, for which the log has many straight
    /// ones.
    pub cuts: usize,
    /// Raw area cut off the piece as it was, in square inches.
    pub lost_sq_in: f64,
    /// The same in per cent.
    pub lost_percent: f64,
    /// Patches that are cut away wholly.
    pub gone: Vec<Mark>,
    /// Patches that get thinner and finish thinner than they may.
    pub thin: Vec<Thinned>,
    /// What they may finish at the least, in inches.
    pub thin_in: f64,
    /// Whether what comes out is true.
    pub trueness: Trueness,
    /// Corner pieces, where it is filled up.
    pub pieces: Vec<CornerPiece>,
    /// The steps in order; empty when a corner has no cloth with room.
    pub steps: Vec<Step>,
}

/// Plans the squaring up of the piece begun by step `mark`; its steps are called `first` and on.
/// `cloth` is what corners are cut from.
///
/// # Errors
/// A piece that isn't convex, a wish that makes no sense or doesn't fit, or a step that the table
/// refuses. The table itself is never touched.
pub fn plan(
    table: &Table,
    mark: Mark,
    choice: &SquareUpChoice,
    cloth: Option<&Cloth>,
    allowance_in: f64,
    first: Mark,
) -> Result<SquareUpPlan, SquareProblem> {
    let top = table.top(mark).ok_or(SquareProblem::NoTop(mark))?;
    let piece = Piece::of(mark, top)?;
    within("least finished width of a patch", choice.thin_in, [0.0, 12.0], "from 0 to 12 inches")?;
    let target = goal::target(&choice.goal, &piece, top)?;
    let mut work = Work { table: table.clone(), mark, first, steps: Vec::new() };
    let mut pieces = Vec::new();
    if matches!(choice.goal, Goal::RectangleByCorners { .. }) {
        let corners = corners::corners(&piece, &target, cloth, allowance_in, first)?;
        pieces = corners.pieces;
        corners.steps.into_iter().try_for_each(|step| work.apply(step).map_err(SquareProblem::Step))?;
    }
    work.cut_all(&target.lines)?;
    let after = work.table.top(mark).ok_or(SquareProblem::NoTop(mark))?;
    let cut = after.outline_points();
    let off_in = apart(&cut, &target.lines).max(apart(&target.corners, &lines_of(&cut)));
    let lost_sq_in = lost(top, after);
    let (gone, thin) = thinned(top, after, choice.thin_in, allowance_in);
    let cuts = work.steps.iter().filter(|step| matches!(step, Step::Cut { .. })).count();
    let lean = upright::lean(&choice.goal, &target.corners, &cut);
    let (mut turned_deg, mut leans_deg) = (0.0, lean.map_or(0.0, Turn::to_degrees));
    if let Some(by) = lean.filter(|_| choice.upright && !is_laid_out(table)) {
        work.apply(Step::Turn { top: mark, by }).map_err(SquareProblem::Step)?;
        (turned_deg, leans_deg) = (leans_deg, 0.0);
    }
    let corners = work.table.top(mark).map(Top::outline_points).ok_or(SquareProblem::NoTop(mark))?;
    let has_cloth = pieces.iter().all(|piece| piece.has_room == Some(true));
    let shape = upright::shape(&choice.goal, &target.corners, &cut);
    Ok(SquareUpPlan {
        off_in,
        cuts: if matches!(shape, Shape::Circle { .. }) { cuts.min(1) } else { cuts },
        turned_deg,
        leans_deg,
        lost_sq_in,
        lost_percent: 100.0 * lost_sq_in / polygon::area(&top.outline_points()),
        gone,
        thin,
        thin_in: choice.thin_in,
        trueness: trueness(&corners),
        target: target.corners,
        corners,
        shape,
        pieces,
        steps: if has_cloth { work.steps } else { Vec::new() },
    })
}

/// Whether something is decided on that lies by the table.
fn is_laid_out(table: &Table) -> bool {
    let chosen = ChosenLast::of(table.stages());
    chosen.quilting.is_some() || chosen.figure.is_some()
}

/// Area that shows of the patches there were, before less afterwards.
fn lost(before: &Top, after: &Top) -> f64 {
    let area = |top: &Top, name: &Name| {
        top.faces().get(name).map_or(0.0, |face| polygon::area(&top.face_points(face)))
    };
    before.faces().keys().map(|name| area(before, name) - area(after, name)).sum()
}

/// Patches that are gone, and those that got thinner than they may.
fn thinned(before: &Top, after: &Top, thin_in: f64, allowance_in: f64) -> (Vec<Mark>, Vec<Thinned>) {
    let (mut gone, mut thin) = (Vec::new(), BTreeMap::new());
    for (name, face) in before.faces() {
        let Some(now) = after.faces().get(name) else {
            gone.push(face.patch);
            continue;
        };
        let after_in = finished_width_in(after, now, allowance_in);
        if after_in >= thin_in - plane::READING {
            continue;
        }
        let before_in = finished_width_in(before, face, allowance_in);
        if after_in < before_in - plane::READING {
            thin.insert(*name, Thinned { patch: face.patch, before_in, after_in });
        }
    }
    (gone, thin.into_values().collect())
}
