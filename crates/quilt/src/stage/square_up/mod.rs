//! Square up: cutting a piece to a true shape, or filling it up to a rectangle and cutting then.
//!
//! All sizes are raw. Only cutting is done to a wished shape, so it must lie inside the piece, which
//! must be convex: each cut runs straight across. A rectangle by corners is first sewn larger. The plan
//! says what is lost, which patches get thinner than they may, and whether what comes out is true.

mod corners;
mod goal;
mod problem;
mod trueness;

pub use corners::CornerPiece;
pub use problem::SquareProblem;
pub use trueness::{Trueness, trueness};

use super::piece::Piece;
use super::trim::Paper;
use crate::cloth::Cloth;
use crate::length::within;
use crate::limits::finished_width_in;
use crate::log::{Mark, Name, Step};
use crate::table::{Table, Top};
use crate::{Problem, Rule};
use plane::{Line, Point, polygon};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// A cut that the table refuses may be left out when it would take off no more than this, in inches.
const NEAR_IN: f64 = 1.0 / 64.0;

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
}

const fn half() -> f64 {
    0.5
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
    /// The shape it is to have, raw.
    pub target: Vec<Point>,
    /// The raw outline that comes out.
    pub corners: Vec<Point>,
    /// How far what comes out lies from the target at most, in inches.
    pub off_in: f64,
    /// How many cuts it takes.
    pub cuts: usize,
    /// Raw area cut off the piece as it was, in square inches.
    pub lost_sq_in: f64,
    /// The same in per cent.
    pub lost_percent: f64,
    /// Patches that are cut away wholly.
    pub gone: Vec<Mark>,
    /// Patches that get thinner and finish thinner than they may.
    pub thin: Vec<Thinned>,
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
    let corners = after.outline_points();
    let lost_sq_in = lost(top, after);
    let has_cloth = pieces.iter().all(|piece| piece.has_room == Some(true));
    let (gone, thin) = thinned(top, after, choice.thin_in, allowance_in);
    Ok(SquareUpPlan {
        off_in: apart(&corners, &target.lines).max(apart(&target.corners, &lines_of(&corners))),
        cuts: work.steps.iter().filter(|step| matches!(step, Step::Cut { .. })).count(),
        lost_sq_in,
        lost_percent: 100.0 * lost_sq_in / polygon::area(&top.outline_points()),
        gone,
        thin,
        trueness: trueness(&corners),
        target: target.corners,
        corners,
        pieces,
        steps: if has_cloth { work.steps } else { Vec::new() },
    })
}

/// The table as it becomes, with the steps that made it so.
struct Work {
    table: Table,
    mark: Mark,
    first: Mark,
    steps: Vec<Step>,
}

impl Work {
    fn next(&self) -> Mark {
        Mark(self.first.0 + self.steps.len() as u32)
    }

    fn apply(&mut self, step: Step) -> Result<(), Problem> {
        self.table.apply(self.next(), &step)?;
        self.steps.push(step);
        Ok(())
    }

    /// The next cut along a line, if it takes anything off.
    fn cut(&self, line: Line) -> Option<Step> {
        let top = self.table.top(self.mark)?;
        let side = |side: &crate::table::Side| Some((side.name()?, top.line(side.bound)?));
        let sides: Vec<(Name, Line)> = top.sides().iter().filter_map(side).collect();
        Paper { sides }.cut(self.mark, line, self.next())
    }

    /// Cuts along every line. One that is refused because it runs in line with a side, or nearly so,
    /// is tried again after the others, which may take that side away.
    fn cut_all(&mut self, lines: &[Line]) -> Result<(), SquareProblem> {
        let mut waiting = lines.to_vec();
        while !waiting.is_empty() {
            let (count, mut refused, mut later) = (waiting.len(), None, Vec::new());
            for line in waiting {
                let Some(step) = self.cut(line) else { continue };
                match self.apply(step) {
                    Ok(()) => {}
                    Err(problem) if matches!(problem.rule, Rule::InLine | Rule::CutMisses) => {
                        refused = Some(problem);
                        later.push(line);
                    }
                    Err(problem) => return Err(SquareProblem::Step(problem)),
                }
            }
            if later.len() == count {
                let corners = self.table.top(self.mark).map(Top::outline_points).unwrap_or_default();
                return match refused {
                    Some(problem) if apart(&corners, &later) > NEAR_IN => Err(SquareProblem::Step(problem)),
                    _ => Ok(()),
                };
            }
            waiting = later;
        }
        Ok(())
    }
}

fn lines_of(corners: &[Point]) -> Vec<Line> {
    polygon::edges(corners).filter_map(|(a, b)| Line::through(a, b)).collect()
}

/// How far points lie outside lines at most.
fn apart(points: &[Point], lines: &[Line]) -> f64 {
    let out = |p: &Point| lines.iter().map(|line| -line.inside_by(*p)).fold(0.0, f64::max);
    points.iter().map(out).fold(0.0, f64::max)
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
