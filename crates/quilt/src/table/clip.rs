//! Cutting a closed run of named lines by one more named line.
//!
//! Corners within the tolerance of the line count as lying on it. Only names change; the corners
//! follow from the lines.

use super::top::Run;
use super::{Top, sound};
use crate::log::{Bound, Mark, Name};
use crate::problem::Problem;
use plane::{DECISION, Line, Point, Pose, READING, polygon};

/// What is left of a closed run after a cut.
pub(super) struct Clipped {
    /// The lines that remain around it; empty when nothing remains.
    pub(super) around: Vec<Bound>,
    /// How often the cut runs through it.
    pub(super) passes: usize,
}

/// What a cut took off.
#[derive(Debug, Default)]
pub(super) struct CutOff {
    /// The parts of patches cut off: the patch, where it lay, and its part as it lay.
    pub(super) parts: Vec<(Mark, Pose, Vec<Point>)>,
    /// The seams around the faces that were cut.
    pub(super) seams: Vec<Name>,
}

/// What a cut makes of one face.
struct FaceCut {
    name: Name,
    around: Vec<Bound>,
    corners: Vec<Point>,
    off: Vec<Point>,
}

/// The part of a closed outline inside `line`, which is called `name`.
pub(super) fn clip_run(runs: &[Run], line: Line, name: Bound) -> Clipped {
    let n = runs.len();
    let place = |p: Point| match line.inside_by(p) {
        d if d > DECISION => 1_i8,
        d if d < -DECISION => -1,
        _ => 0,
    };
    let at: Vec<i8> = runs.iter().map(|run| place(run.from)).collect();
    if !at.contains(&1) {
        return Clipped { around: Vec::new(), passes: 0 };
    }
    let mut kept = Vec::with_capacity(n + 1);
    let mut passes = 0;
    for (i, run) in runs.iter().enumerate() {
        match (at[i], at[(i + 1) % n]) {
            (0, -1) => {
                kept.push(name);
                passes += 1;
            }
            (1, -1) => {
                kept.extend([run.bound, name]);
                passes += 1;
            }
            (-1, -1 | 0) => {}
            // A run along the cut, with what remains on its other side.
            (0, 0) if line.along(runs[(i + 1) % n].from) < line.along(run.from) => {}
            (_, _) => kept.push(run.bound),
        }
    }
    drop_repeats(&mut kept);
    Clipped { around: kept, passes }
}

/// Drops runs that follow a run of the same name.
pub(super) fn drop_repeats(around: &mut Vec<Bound>) {
    around.dedup();
    while around.len() > 1 && around[0] == around[around.len() - 1] {
        around.pop();
    }
}

/// The part of a face that lies outside `line`, in top coordinates.
pub(super) fn outside_part(points: &[Point], line: Line) -> Vec<Point> {
    plane::clip_half_plane(points, line.reversed(), DECISION)
}

impl Top {
    /// Whether the whole outline turns left at every corner.
    pub(super) fn is_convex(&self) -> bool {
        polygon::is_convex(&self.outline_points(), DECISION)
    }

    /// The runs of the outline that lie along `line` to within 1/1024, but for `name` itself.
    pub(super) fn in_line(&self, line: Line, name: Bound) -> Vec<Bound> {
        let lies_along = |side: &super::Side| {
            side.bound != name
                && line.inside_by(side.from).abs() < READING
                && line.inside_by(side.to).abs() < READING
                && self.line(side.bound).is_some_and(|own| own.turn_cosine(line) > 0.0)
        };
        self.sides().iter().filter(|side| lies_along(side)).map(|side| side.bound).collect()
    }

    /// Runs of the outline that lie along `line` take its name and place: merging in line.
    pub(super) fn merge_in_line(&mut self, line: Line, name: Bound) {
        for old in self.in_line(line, name) {
            self.rename(old, name, line);
        }
    }

    /// One line takes another's name and place everywhere on this top.
    pub(super) fn rename(&mut self, old: Bound, new: Bound, line: Line) {
        self.lines.remove(&old);
        self.lines.insert(new, line);
        self.pruned.renamed(old, new);
        let swap = |bound: &mut Bound| {
            if *bound == old {
                *bound = new;
            }
        };
        self.outline.iter_mut().for_each(swap);
        drop_repeats(&mut self.outline);
        for face in self.faces.values_mut().filter(|face| face.around.contains(&old)) {
            face.around.iter_mut().for_each(swap);
            drop_repeats(&mut face.around);
        }
        for seam in self.seams.values_mut() {
            seam.ends.iter_mut().for_each(swap);
        }
        self.refresh_along(new);
    }

    /// Faces whose bounding box reaches outside `line`, or to it within 1/1024: all that a cut
    /// along it can touch, and all that can name a run of the outline which it takes away.
    pub(super) fn faces_reaching(&self, line: Line) -> Vec<Name> {
        self.boxes.reaching(line)
    }

    /// Cuts the named faces by `line`, called `bound`. Faces of which nothing remains are taken off
    /// the top; seams that reached outside now end at `bound`. On an error the top is unchanged.
    pub(super) fn clip_faces(&mut self, names: &[Name], line: Line, bound: Bound) -> Result<CutOff, Problem> {
        let is_new = !self.lines.contains_key(&bound);
        self.lines.entry(bound).or_insert(line);
        match self.cut_faces(names, line, bound) {
            Ok(cuts) => Ok(self.take_cuts(cuts, line, bound)),
            Err(problem) => {
                if is_new {
                    self.lines.remove(&bound);
                }
                Err(problem)
            }
        }
    }

    /// What a cut makes of those of the named faces that it goes through.
    fn cut_faces(&self, names: &[Name], line: Line, bound: Bound) -> Result<Vec<FaceCut>, Problem> {
        let mut cuts = Vec::new();
        for &name in names {
            let Some(face) = self.faces.get(&name) else { continue };
            let runs = self.runs(&face.around);
            if runs.iter().all(|run| line.inside_by(run.from) >= -DECISION) {
                continue;
            }
            let points: Vec<Point> = runs.iter().map(|run| run.from).collect();
            let around = clip_run(&runs, line, bound).around;
            let corners = self.corners(&around);
            sound::corners_exist(&around, &corners, face.patch)?;
            cuts.push(FaceCut { name, around, corners, off: outside_part(&points, line) });
        }
        Ok(cuts)
    }

    fn take_cuts(&mut self, cuts: Vec<FaceCut>, line: Line, bound: Bound) -> CutOff {
        let mut cut_off = CutOff::default();
        for FaceCut { name, around, corners, off } in cuts {
            let Some(face) = self.faces.get_mut(&name) else { continue };
            cut_off.seams.extend(face.around.iter().filter_map(|b| match b {
                Bound::Seam(seam) if *b != bound => Some(*seam),
                _ => None,
            }));
            if off.len() > 2 && polygon::area(&off) > 1e-12 {
                cut_off.parts.push((face.patch, face.pose, off));
            }
            match polygon::bounds(&corners) {
                Some(bounds) if around.len() >= 3 => {
                    face.around = around;
                    self.boxes.put(name, bounds);
                }
                _ => {
                    self.faces.remove(&name);
                    self.boxes.remove(name);
                }
            }
        }
        cut_off.seams.sort_unstable();
        cut_off.seams.dedup();
        for &seam in &cut_off.seams {
            self.end_seam_at(seam, line, bound);
        }
        cut_off
    }

    /// Ends of a seam that lie outside `line` are moved to it.
    fn end_seam_at(&mut self, name: Name, line: Line, bound: Bound) {
        let Some(seam) = self.seams.get(&name) else { return };
        let own = Bound::Seam(name);
        let outside =
            seam.ends.map(|end| self.corner(own, end).is_some_and(|p| line.inside_by(p) < -DECISION));
        if let Some(seam) = self.seams.get_mut(&name) {
            for (end, out) in seam.ends.iter_mut().zip(outside) {
                if out {
                    *end = bound;
                }
            }
        }
    }

    /// Forgets lines that no face, outline or seam names any more. `near` are the faces that
    /// reached the cut by which these runs of the outline went: no other can name them.
    pub(super) fn drop_unused(&mut self, mut gone: Vec<Bound>, near: &[Name]) {
        gone.retain(|bound| !self.outline.contains(bound));
        for face in near.iter().filter_map(|name| self.faces.get(name)) {
            gone.retain(|bound| !face.around.contains(bound));
        }
        gone.retain(|bound| !matches!(bound, Bound::Seam(name) if self.seams.contains_key(name)));
        gone.retain(|bound| !self.seams.values().any(|seam| seam.ends.contains(bound)));
        for bound in gone {
            self.lines.remove(&bound);
            self.pruned.line_gone(bound);
        }
    }
}
