//! What is being drawn, gathered once: the table, one top of it, the cloths and the wishes.

use crate::display::weight_for;
use crate::looks::Looks;
use crate::there::there;
use crate::{DrawingProblem, FrontOptions};
use plane::{DECISION, Line, Point};
use quilt::log::{Bound, Mark, Name};
use quilt::table::{Face, Seam, Side, Table, Top};
use std::collections::BTreeSet;

/// One top and all that is needed to draw it.
pub(crate) struct Scene<'a> {
    pub(crate) table: &'a Table,
    pub(crate) top: &'a Top,
    pub(crate) looks: &'a Looks<'a>,
    pub(crate) what: &'a FrontOptions,
    pub(crate) weight: f64,
    /// The faces that are on the piece already, not only planned.
    pub(crate) there: BTreeSet<Name>,
}

impl<'a> Scene<'a> {
    pub(crate) fn of(
        table: &'a Table,
        top: Mark,
        looks: &'a Looks<'a>,
        what: &'a FrontOptions,
    ) -> Result<Self, DrawingProblem> {
        let missing = || DrawingProblem::NoSuchTop { top, there: table.tops().keys().copied().collect() };
        let began = top;
        let top = table.top(top).ok_or_else(missing)?;
        let (width, height) = top.size_in();
        let there = there(top, began, what);
        Ok(Self { table, top, looks, what, weight: weight_for(width, height), there })
    }

    /// The shape in which a face is drawn: raw, or what will show when all is sewn.
    pub(crate) fn face_outline(&self, face: &Face) -> Vec<Point> {
        if self.what.finished {
            self.top.finished_points(face, self.what.allowance_in)
        } else {
            self.top.face_points(face)
        }
    }

    /// The line of a bound as it is drawn: free edges move in when the finished shape is shown.
    pub(crate) fn line(&self, bound: Bound) -> Option<Line> {
        let line = self.top.line(bound)?;
        let moves = self.what.finished && matches!(bound, Bound::Raw(_));
        Some(if moves { line.inward(self.what.allowance_in) } else { line })
    }

    /// The sides around the piece as they are drawn. Finished, a side that is swallowed has no
    /// run any more.
    pub(crate) fn sides(&self) -> Vec<Side> {
        if self.what.finished {
            self.top.finished_sides(self.top.outline(), self.what.allowance_in)
        } else {
            self.top.sides()
        }
    }

    /// The ends of a seam as it is drawn, in the direction of its line.
    pub(crate) fn seam_ends(&self, name: Name, seam: &Seam) -> Option<(Point, Point)> {
        if !self.what.finished {
            return self.top.seam_points(name);
        }
        let line = self.line(Bound::Seam(name))?;
        let [a, b] = seam.ends().map(|end| self.line(end).and_then(|end| line.crossing(end)));
        let (a, b) = (a?, b?);
        (line.along(b) - line.along(a) > DECISION).then_some((a, b))
    }

    /// The runs around a face, each with where it starts and ends; empty when a corner is missing.
    pub(crate) fn runs(&self, face: &Face) -> Vec<(Bound, Point, Point)> {
        let corners = self.top.face_points(face);
        if corners.len() != face.around().len() {
            return Vec::new();
        }
        let edges = plane::polygon::edges(&corners);
        face.around().iter().zip(edges).map(|(bound, (a, b))| (*bound, a, b)).collect()
    }

    /// The word for the size that lengths on this drawing are.
    pub(crate) const fn size_word(&self) -> &'static str {
        if self.what.finished { "finished" } else { "raw" }
    }
}
