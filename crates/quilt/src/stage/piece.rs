//! The piece as a stage finds it: a convex raw outline with the names of its sides.
//!
//! Strips are sewn along whole sides, and a seam past an inward corner can't be sewn straight: so a
//! ring or a border wants a piece that turns left at every corner, by 1 degree or more. Inches,
//! counter-clockwise; sides are counted from 1 in messages, from 0 here.

use crate::log::{Bound, Mark, Name};
use crate::table::Top;
use plane::{Line, Point, Region, RegionProblem, polygon};
use thiserror::Error;

/// The least turn at a corner that counts as one, in degrees.
const LEAST_TURN_DEG: f64 = 1.0;

/// One raw side of a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PieceSide {
    /// Its name on the table.
    pub name: Name,
    /// Its raw edge, inside on the left.
    pub line: Line,
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
}

impl PieceSide {
    /// Raw length in inches.
    #[must_use]
    pub fn length_in(&self) -> f64 {
        self.from.distance(self.to)
    }
}

/// A piece with a convex raw outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The step that began it.
    pub top: Mark,
    /// Its raw sides, counter-clockwise.
    pub sides: Vec<PieceSide>,
}

/// Why an outline can't be gone round.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PieceProblem {
    /// No outline at all, or one that crosses itself.
    #[error("The outline can't be used: {0}.")]
    Outline(RegionProblem),
    /// A corner that turns inward.
    #[error(
        "The corner at {:.2}, {:.2} turns inward by {turn_deg:.0} degrees, and no strip can be sewn straight past it: square the piece up first.",
        .at.x, .at.y
    )]
    Inward {
        /// Where.
        at: Point,
        /// How far it turns the wrong way, in degrees.
        turn_deg: f64,
    },
    /// Two sides that run on in one line.
    #[error(
        "The corner at {:.2}, {:.2} turns by only {turn_deg:.1} degrees: trim along one of its sides, so that they are one.",
        .at.x, .at.y
    )]
    Straight {
        /// Where.
        at: Point,
        /// How far it turns, in degrees.
        turn_deg: f64,
    },
    /// A seam line that sticks out shows as a side.
    #[error("Seam {0} sticks out at the edge: trim the piece there first.")]
    SeamShows(Name),
}

impl Piece {
    /// The piece begun by step `mark`.
    ///
    /// # Errors
    /// An outline that isn't convex, or with a seam sticking out.
    pub fn of(mark: Mark, top: &Top) -> Result<Self, PieceProblem> {
        let seam = top.outline().iter().find(|bound| matches!(bound, Bound::Seam(_)));
        if let Some(seam) = seam {
            return Err(PieceProblem::SeamShows(seam.name()));
        }
        let sides = top.sides();
        let corners: Vec<Point> = sides.iter().map(|side| side.from).collect();
        check(&corners)?;
        let side = |side: &crate::table::Side| {
            let line = top.line(side.bound)?;
            Some(PieceSide { name: side.bound.name(), line, from: side.from, to: side.to })
        };
        Ok(Self { top: mark, sides: sides.iter().filter_map(side).collect() })
    }

    /// A piece that is on no table: its sides are those of step 0, in order.
    ///
    /// # Errors
    /// An outline that isn't convex, or that crosses itself.
    pub fn of_outline(corners: &[Point]) -> Result<Self, PieceProblem> {
        let region = Region::try_new(corners.to_vec(), Vec::new()).map_err(PieceProblem::Outline)?;
        check(&region.outer)?;
        let side = |(no, (from, to)): (usize, (Point, Point))| {
            let name = Name::new(Mark(0), u16::try_from(no).ok()?);
            Some(PieceSide { name, line: Line::through(from, to)?, from, to })
        };
        let sides = polygon::edges(&region.outer).enumerate().filter_map(side).collect();
        Ok(Self { top: Mark(0), sides })
    }

    /// Its corners: corner `i` is where side `i` starts.
    #[must_use]
    pub fn corners(&self) -> Vec<Point> {
        self.sides.iter().map(|side| side.from).collect()
    }

    /// The inside angle of the raw outline at the start of side `i`, in degrees.
    #[must_use]
    pub fn corner_deg(&self, i: usize) -> f64 {
        let n = self.sides.len();
        let (before, own) = (self.sides[(i + n - 1) % n].line, self.sides[i % n].line);
        180.0 - turn_deg(before, own)
    }
}

fn turn_deg(a: Line, b: Line) -> f64 {
    a.turn_sine(b).atan2(a.turn_cosine(b)).to_degrees()
}

fn check(corners: &[Point]) -> Result<(), PieceProblem> {
    Region::try_new(corners.to_vec(), Vec::new()).map_err(PieceProblem::Outline)?;
    let lines: Vec<Line> = polygon::edges(corners).filter_map(|(a, b)| Line::through(a, b)).collect();
    let n = lines.len();
    for i in 0..n {
        let turn = turn_deg(lines[(i + n - 1) % n], lines[i]);
        if turn < LEAST_TURN_DEG {
            let at = corners[i];
            let inward = turn <= -LEAST_TURN_DEG;
            return Err(if inward {
                PieceProblem::Inward { at, turn_deg: -turn }
            } else {
                PieceProblem::Straight { at, turn_deg: turn }
            });
        }
    }
    Ok(())
}
