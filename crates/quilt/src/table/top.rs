//! One top: named lines, an outline, faces and seams.

use super::boxes::Boxes;
use super::pruned::Pruned;
use super::{Face, Seam};
use crate::log::{Bound, Mark, Name};
use plane::{Line, Point, Pose, polygon};
use std::collections::BTreeMap;

/// A top: anything sewn together, from a single patch to the whole piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Top {
    pub(super) lines: BTreeMap<Bound, Line>,
    pub(super) outline: Vec<Bound>,
    pub(super) faces: BTreeMap<Name, Face>,
    pub(super) boxes: Boxes,
    pub(super) seams: BTreeMap<Name, Seam>,
    pub(super) pruned: Pruned,
}

/// A run of a closed outline, as a line and where it starts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Run {
    pub(super) bound: Bound,
    pub(super) from: Point,
}

/// Every run of a closed outline with the run before it, beginning with the last and the first.
pub(super) fn pairs(around: &[Bound]) -> impl Iterator<Item = (Bound, Bound)> + '_ {
    let before = around.last().into_iter().chain(around);
    before.zip(around).map(|(before, bound)| (*before, *bound))
}

/// One run of the outline.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Side {
    /// Its line: a free raw edge, or a seam line that sticks out.
    pub bound: Bound,
    /// Where the walk round the outline comes to it.
    pub from: Point,
    /// Where the walk leaves it.
    pub to: Point,
}

impl Side {
    /// Raw length in inches.
    #[must_use]
    pub fn length_in(&self) -> f64 {
        self.from.distance(self.to)
    }

    /// The side's name, if it is a raw edge that can be sewn.
    #[must_use]
    pub const fn name(&self) -> Option<Name> {
        match self.bound {
            Bound::Raw(name) => Some(name),
            Bound::Seam(_) => None,
        }
    }
}

impl Top {
    /// A top of one patch: its sides are named by the step that laid it.
    pub(super) fn from_patch(mark: Mark, cut: &[Point]) -> Option<Self> {
        let mut top = Self::default();
        for (no, (a, b)) in polygon::edges(cut).enumerate() {
            let bound = Bound::Raw(Name::new(mark, u16::try_from(no).ok()?));
            top.lines.insert(bound, Line::through(a, b)?);
            top.outline.push(bound);
        }
        let around = top.outline.clone();
        let name = Name::new(mark, 0);
        top.boxes.put(name, polygon::bounds(cut)?);
        top.faces.insert(name, Face { patch: mark, pose: Pose::STAY, around });
        Some(top)
    }

    /// The line of a bound.
    #[must_use]
    pub fn line(&self, bound: Bound) -> Option<Line> {
        self.lines.get(&bound).copied()
    }

    /// What shows of each patch. A patch sliced apart has a face in each part.
    #[must_use]
    pub const fn faces(&self) -> &BTreeMap<Name, Face> {
        &self.faces
    }

    /// The seams, by name.
    #[must_use]
    pub const fn seams(&self) -> &BTreeMap<Name, Seam> {
        &self.seams
    }

    /// Where two lines of this top cross. The line with the lower name goes first, so that both
    /// faces at a corner get the same bits.
    #[must_use]
    pub fn corner(&self, a: Bound, b: Bound) -> Option<Point> {
        let (first, second) = if a <= b { (a, b) } else { (b, a) };
        self.line(first)?.crossing(self.line(second)?)
    }

    /// The runs of a closed outline, each with the corner where it starts. A run whose corner
    /// doesn't exist goes on in line from the one before and is left out.
    pub(super) fn runs(&self, around: &[Bound]) -> Vec<Run> {
        pairs(around)
            .filter_map(|(before, bound)| Some(Run { bound, from: self.corner(before, bound)? }))
            .collect()
    }

    /// Corners of a closed run of lines, each between a line and the next.
    pub(super) fn corners(&self, around: &[Bound]) -> Vec<Point> {
        pairs(around).filter_map(|(before, bound)| self.corner(before, bound)).collect()
    }

    /// The raw outline, counter-clockwise: corner `i` is where side `i` starts.
    #[must_use]
    pub fn outline_points(&self) -> Vec<Point> {
        self.corners(&self.outline)
    }

    /// The lines around the outline.
    #[must_use]
    pub fn outline(&self) -> &[Bound] {
        &self.outline
    }

    /// The runs of the outline, counter-clockwise.
    #[must_use]
    pub fn sides(&self) -> Vec<Side> {
        let runs = self.runs(&self.outline);
        let next = runs.iter().cycle().skip(1);
        runs.iter()
            .zip(next)
            .map(|(run, next)| Side { bound: run.bound, from: run.from, to: next.from })
            .collect()
    }

    /// Whether this is a free raw edge of the outline.
    #[must_use]
    pub fn has_side(&self, side: Name) -> bool {
        self.outline.contains(&Bound::Raw(side))
    }

    /// What shows of a patch, counter-clockwise.
    #[must_use]
    pub fn face_points(&self, face: &Face) -> Vec<Point> {
        self.corners(&face.around)
    }

    /// The ends of a seam as it shows now; `None` when later seams swallowed it.
    #[must_use]
    pub fn seam_points(&self, name: Name) -> Option<(Point, Point)> {
        let seam = self.seams.get(&name)?;
        let bound = Bound::Seam(name);
        let line = self.line(bound)?;
        let (a, b) = (self.corner(bound, seam.ends[0])?, self.corner(bound, seam.ends[1])?);
        (line.along(b) - line.along(a) > plane::DECISION).then_some((a, b))
    }

    /// The seam that holds a patch: the one that added it, or the first that sewed onto it.
    #[must_use]
    pub fn held_by(&self, patch: Mark) -> Option<Name> {
        let around = |face: &Face| face.patch == patch;
        let face = self.faces.values().find(|face| around(face))?;
        let seams = face.around.iter().filter_map(|bound| match bound {
            Bound::Seam(name) => self.seams.get(name).map(|seam| (seam.order, *name)),
            Bound::Raw(_) => None,
        });
        seams.min().map(|(_, name)| name)
    }

    /// Raw width and height of the bounding box, in inches.
    #[must_use]
    pub fn size_in(&self) -> (f64, f64) {
        polygon::bounds(&self.outline_points()).map_or((0.0, 0.0), |(lo, hi)| (hi.x - lo.x, hi.y - lo.y))
    }

    pub(super) fn refresh_bounds(&mut self, name: Name) {
        let points = self.faces.get(&name).map(|face| self.corners(&face.around));
        if let Some(bounds) = points.and_then(|points| polygon::bounds(&points)) {
            self.boxes.put(name, bounds);
        }
    }

    /// Brings the bounding boxes of the faces along a line up to date after it has moved.
    pub(super) fn refresh_along(&mut self, bound: Bound) {
        let along = self.faces.iter().filter(|(_, face)| face.around.contains(&bound));
        let names: Vec<Name> = along.map(|(name, _)| *name).collect();
        names.into_iter().for_each(|name| self.refresh_bounds(name));
    }

    /// Moves everything on this top.
    pub(super) fn move_by(&mut self, pose: Pose) {
        for line in self.lines.values_mut() {
            *line = line.moved(pose);
        }
        for face in self.faces.values_mut() {
            face.pose = face.pose.then(pose);
        }
        let names: Vec<Name> = self.faces.keys().copied().collect();
        for name in names {
            self.refresh_bounds(name);
        }
    }
}
