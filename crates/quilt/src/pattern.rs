//! Templates: what others cut so that a piece can be made again. Each patch as it shows, with the allowance all
//! round, and marks where it meets its neighbours, at the same place on both sides of a seam.
//!
//! Coordinates are those of the top, in inches, seen from the right side.

use crate::cloth::ClothId;
use crate::foundation::{Pieces, Stretch};
use crate::log::{Bound, Mark};
use crate::table::{Face, Patch, Table, Top};
use plane::{
    Line, Point, Pose, READING, Region, Turn, Vec2, clip_half_plane, difference, grow_sides, polygon, union,
};
use std::collections::BTreeMap;

/// A template.
#[derive(Clone, Debug, PartialEq)]
pub struct Template {
    /// The number of its patch; the parts of a patch that was sliced are `12.1`, `12.2`.
    pub number: String,
    /// The step that laid the patch.
    pub patch: Mark,
    /// Which cloth was used.
    pub cloth: ClothId,
    /// What shows of the patch, raw sides included.
    pub shows: Vec<Point>,
    /// For each side of what shows the allowance of its seam; `None` for a raw side.
    pub margins: Vec<Option<f64>>,
    /// Its lines and marks.
    pub lines: Lines,
    /// From the cloth to the top.
    pub lies: Pose,
}

/// What is cut, sewn and marked of a shape.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Lines {
    /// Where it is sewn.
    pub seam: Vec<Point>,
    /// Where it is cut.
    pub cut: Vec<Point>,
    /// Middles of what it shares with each neighbour.
    pub notches: Vec<Notch>,
    /// Where two neighbours meet along one of its sides: from the seam line outward.
    pub meetings: Vec<[Point; 2]>,
}

/// A mark that lies on its match when two pieces are laid together.
#[derive(Clone, Debug, PartialEq)]
pub struct Notch {
    /// On the seam line.
    pub from: Point,
    /// On the cut line.
    pub to: Point,
    /// The neighbour's number.
    pub neighbour: String,
    /// How long the shared part of the seam is, in inches.
    pub shared_in: f64,
}

/// Tips that reach further than this many allowances beyond the seam's corner are cut off
/// (common practice, no source).
const LONGEST_TIP: f64 = 2.5;
/// Where they are cut off, in allowances beyond the seam's corner.
const BLUNT_TIP: f64 = 1.25;
/// Seam lines that share less than this are not notched, in inches.
const SHORTEST_SHARED_IN: f64 = 0.25;
/// Length of the mark where two neighbours meet, as a share of the allowance.
const MEETING_SHARE: f64 = 0.5;

/// The templates of a top and where they meet, in the order of its patches. Raw sides of the outline are cut lines already: there
/// the seam lies `allowance_in` inside.
#[must_use]
pub fn templates(table: &Table, top: &Top, allowance_in: f64) -> (Vec<Template>, Pieces) {
    let faces: Vec<(&Face, Vec<Point>, &Patch)> = top
        .faces()
        .values()
        .filter_map(|face| Some((face, top.face_points(face), table.patches().get(&face.patch)?)))
        .filter(|(_, points, _)| points.len() >= 3)
        .collect();
    let numbers = numbers(faces.iter().map(|(face, ..)| face.patch));
    let outlines: Vec<Vec<Point>> = faces.iter().map(|(_, points, _)| points.clone()).collect();
    let pieces = Pieces::new(&outlines);
    let found = faces.into_iter().zip(&numbers).map(|((face, shows, patch), number)| {
        let margins: Vec<Option<f64>> =
            polygon::edges(&shows).map(|(a, b)| margin(top, face, a, b)).collect();
        let lines = Lines::new(&shows, &margins, allowance_in);
        let lies = patch.at.inverse().then(face.pose);
        let number = number.clone();
        Template { number, patch: face.patch, cloth: patch.cloth, shows, margins, lines, lies }
    });
    let mut found: Vec<Template> = found.collect();
    let seams: Vec<Vec<Point>> = found.iter().map(|template| template.lines.seam.clone()).collect();
    for (no, template) in found.iter_mut().enumerate() {
        for (other, stretch) in pieces.around(no) {
            let Some(ends) = shared(stretch, [&seams[no], &seams[other]]) else { continue };
            template.lines.mark(&template.shows, &template.margins, ends, &numbers[other]);
        }
    }
    (found, pieces)
}

/// The longest part of a stretch that lies on both of two seam lines: where raw edges meet within the outer allowance
/// only, there is none.
fn shared(stretch: Stretch, seams: [&[Point]; 2]) -> Option<[Point; 2]> {
    let line = Line::through(stretch.from, stretch.to)?;
    let mut parts = vec![(line.along(stretch.from), line.along(stretch.to))];
    for seam in seams {
        let on = along(line, seam);
        let both = |&(from, to): &(f64, f64)| {
            on.iter().map(|(low, high)| (from.max(*low), to.min(*high))).collect::<Vec<_>>()
        };
        parts = parts.iter().flat_map(both).collect();
    }
    let (from, to) = parts.into_iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))?;
    (to - from >= SHORTEST_SHARED_IN).then(|| [from, to].map(|at| line.point_at(at)))
}

/// The sides of an outline that lie along a line, as ways on it; those that go on in each other are one.
fn along(line: Line, outline: &[Point]) -> Vec<(f64, f64)> {
    let lies = |p: Point| line.inside_by(p).abs() <= 2.0 * READING;
    let ways = polygon::edges(outline).filter(|(a, b)| lies(*a) && lies(*b)).map(|(a, b)| {
        let ends = [line.along(a), line.along(b)];
        (ends[0].min(ends[1]), ends[0].max(ends[1]))
    });
    let mut ways: Vec<(f64, f64)> = ways.collect();
    ways.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut joined: Vec<(f64, f64)> = Vec::new();
    for (from, to) in ways {
        match joined.last_mut().filter(|last| from <= last.1 + READING) {
            Some(last) => last.1 = last.1.max(to),
            None => joined.push((from, to)),
        }
    }
    joined
}

/// The lines round several pieces that are sewn together first; `names` names each piece to its neighbours.
#[must_use]
pub fn lines_round(
    members: &[usize],
    templates: &[Template],
    pieces: &Pieces,
    names: &[String],
    allowance_in: f64,
) -> Lines {
    let shown = members.iter().map(|no| Region { outer: templates[*no].shows.clone(), holes: Vec::new() });
    let whole = union(&shown.collect::<Vec<_>>());
    let whole = whole.into_iter().max_by(|a, b| a.area().total_cmp(&b.area()));
    let outline = whole.map_or_else(Vec::new, |region| region.outer);
    let margin = |(a, b): (Point, Point)| {
        let middle = a.midpoint(b);
        let of = |no: &usize| {
            let template = &templates[*no];
            let on = |(a, b): &(Point, Point)| lies_on(*a, *b, middle).is_some();
            polygon::edges(&template.shows).position(|edge| on(&edge)).map(|side| template.margins[side])
        };
        members.iter().find_map(of).flatten()
    };
    let margins: Vec<Option<f64>> = polygon::edges(&outline).map(margin).collect();
    let (outline, margins) = without_straight_corners(&outline, &margins);
    let mut lines = Lines::new(&outline, &margins, allowance_in);
    for &no in members {
        for (other, stretch) in pieces.around(no).filter(|(other, _)| !members.contains(other)) {
            let seams = [no, other].map(|no| templates[no].lines.seam.as_slice());
            let Some(ends) = shared(stretch, seams) else { continue };
            lines.mark(&outline, &margins, ends, &names[other]);
        }
    }
    lines
}

/// A shape without corners that lie in line with their neighbours, where both sides have the same margin.
fn without_straight_corners(shape: &[Point], margins: &[Option<f64>]) -> (Vec<Point>, Vec<Option<f64>>) {
    let n = shape.len();
    let kept = (0..n).filter(|&i| {
        let (before, after) = (shape[(i + n - 1) % n], shape[(i + 1) % n]);
        let bends =
            Line::through(before, after).is_none_or(|line| line.inside_by(shape[i]).abs() > STRAIGHT_IN);
        bends || margins.get((i + n - 1) % n) != margins.get(i)
    });
    kept.map(|i| (shape[i], margins.get(i).copied().flatten())).unzip()
}

/// A corner no further than this from the line through its neighbours is none, in inches.
const STRAIGHT_IN: f64 = 1e-6;

/// Which line a point between two others lies on, if it does.
fn lies_on(a: Point, b: Point, middle: Point) -> Option<Line> {
    let line = Line::through(a, b)?;
    let along = line.along(middle);
    let lies = line.inside_by(middle).abs() < READING && along > line.along(a) && along < line.along(b);
    lies.then_some(line)
}

/// Each patch's number; where a patch shows in several parts they are counted.
fn numbers(patches: impl Iterator<Item = Mark> + Clone) -> Vec<String> {
    let mut shown: BTreeMap<Mark, usize> = BTreeMap::new();
    patches.clone().for_each(|patch| *shown.entry(patch).or_default() += 1);
    let mut counted: BTreeMap<Mark, usize> = BTreeMap::new();
    patches
        .map(|patch| {
            let part = counted.entry(patch).or_default();
            *part += 1;
            if shown.get(&patch) == Some(&1) { patch.to_string() } else { format!("{patch}.{part}") }
        })
        .collect()
}

/// The allowance of the seam that a side of a face lies on; `None` for a raw side.
fn margin(top: &Top, face: &Face, a: Point, b: Point) -> Option<f64> {
    let on = |bound: &Bound| {
        let Bound::Seam(name) = bound else { return None };
        let line = top.line(*bound)?;
        let lies = [a, b].iter().all(|p| line.inside_by(*p).abs() < 1e-6);
        lies.then(|| top.seams().get(name).map(|seam| seam.allowance_in)).flatten()
    };
    face.around().iter().find_map(on)
}

/// The shape without a strip along its raw sides.
fn within(points: &[Point], raw: &[(Point, Point)], inches: f64) -> Vec<Point> {
    if polygon::is_convex(points, plane::DECISION) {
        let lines = raw.iter().filter_map(|(a, b)| Line::through(*a, *b));
        return lines.fold(points.to_vec(), |left, line| {
            clip_half_plane(&left, line.inward(inches), plane::DECISION)
        });
    }
    let strips: Vec<Region> = raw
        .iter()
        .filter_map(|&(a, b)| {
            let along = Line::through(a, b)?;
            let (unit, normal) = (along.unit(), along.normal.vec());
            let (a, b) = (a - unit * inches, b + unit * inches);
            Some(Region { outer: vec![a, b, b + normal * inches, a + normal * inches], holes: Vec::new() })
        })
        .collect();
    let left = difference(&Region { outer: points.to_vec(), holes: Vec::new() }, &strips);
    left.into_iter().max_by(|a, b| a.area().total_cmp(&b.area())).map_or_else(Vec::new, |region| region.outer)
}

/// The cut line without its long tips.
fn blunted(points: &[Point], margins: &[Option<f64>], cut: Vec<Point>) -> Vec<Point> {
    let n = points.len();
    if !polygon::is_convex(points, plane::DECISION) {
        return cut;
    }
    let mut cut = cut;
    for i in 0..n {
        let (before, at, after) = (points[(i + n - 1) % n], points[i], points[(i + 1) % n]);
        let widths = [(i + n - 1) % n, i].map(|side| margins.get(side).copied().flatten().unwrap_or(0.0));
        let wide = widths[0].max(widths[1]);
        let (Some(to), Some(from)) = (Turn::towards(before - at), Turn::towards(after - at)) else {
            continue;
        };
        let Some(out) = Turn::towards(-(to.vec() + from.vec())) else { continue };
        let reach = cut.iter().map(|p| (*p - at).dot(out.vec())).fold(0.0, f64::max);
        if wide > 0.0 && reach > LONGEST_TIP * wide {
            // Across the tip: the inside lies away from it.
            let far = out.vec().dot(at.to_vec2()) + BLUNT_TIP * wide;
            let line = Line { normal: out.opposite(), at: -far };
            cut = clip_half_plane(&cut, line, plane::DECISION);
        }
    }
    cut
}

impl Lines {
    /// The seam line and the cut line round a shape whose sides have margins; a side without one is raw, and is
    /// sewn `allowance_in` inside.
    #[must_use]
    pub fn new(shape: &[Point], margins: &[Option<f64>], allowance_in: f64) -> Self {
        let (shape, margins) = &without_straight_corners(shape, margins);
        let raw: Vec<(Point, Point)> = polygon::edges(shape)
            .zip(margins)
            .filter(|(_, margin)| margin.is_none())
            .map(|(edge, _)| edge)
            .collect();
        let grown: Vec<f64> = margins.iter().map(|margin| margin.unwrap_or(0.0)).collect();
        let cut = blunted(shape, margins, grow_sides(shape, &grown));
        Self { seam: within(shape, &raw, allowance_in), cut, ..Self::default() }
    }

    /// The same as they lie after `place`; a mirroring turns outlines round, and they are turned back.
    #[must_use]
    pub fn placed(&self, mirrored: bool, place: impl Fn(Point) -> Point) -> Self {
        let all = |points: &[Point]| {
            let points = points.iter().map(|p| place(*p));
            if mirrored { points.rev().collect() } else { points.collect::<Vec<Point>>() }
        };
        let notch = |notch: &Notch| Notch { from: place(notch.from), to: place(notch.to), ..notch.clone() };
        Self {
            seam: all(&self.seam),
            cut: all(&self.cut),
            notches: self.notches.iter().map(notch).collect(),
            meetings: self.meetings.iter().map(|ends| ends.map(&place)).collect(),
        }
    }

    /// Marks what a shape shares with a neighbour: `ends` lie on its seam line.
    fn mark(&mut self, shape: &[Point], margins: &[Option<f64>], ends: [Point; 2], neighbour: &str) {
        let middle = ends[0].midpoint(ends[1]);
        let on =
            |((a, b), margin): ((Point, Point), &Option<f64>)| Some((lies_on(a, b, middle)?, (*margin)?));
        let Some((line, margin)) = polygon::edges(shape).zip(margins).find_map(on) else { return };
        let sewn = along(line, &self.seam);
        let at = line.along(middle);
        let Some((low, high)) = sewn.into_iter().find(|(low, high)| (*low..=*high).contains(&at)) else {
            return;
        };
        let out = -line.normal.vec();
        // On the shape's own line, so that it begins there exactly.
        let own = |p: Point| line.point_at(line.along(p));
        let from = own(middle);
        self.notches.push(Notch {
            from,
            to: self.within_cut(from, out * margin),
            neighbour: neighbour.to_owned(),
            shared_in: ends[0].distance(ends[1]),
        });
        let apart = |end: &Point| (line.along(*end) - low).min(high - line.along(*end)) > 0.1;
        for end in ends.map(own).into_iter().filter(apart) {
            let known = self.meetings.iter().any(|[at, _]| at.distance(end) < 0.02);
            if !known {
                self.meetings.push([end, self.within_cut(end, out * (margin * MEETING_SHARE))]);
            }
        }
    }

    /// Where a way outward from the seam line ends: at the cut line, if that comes first.
    fn within_cut(&self, from: Point, by: Vec2) -> Point {
        let share = |(a, b): (Point, Point)| {
            let line = Line::through(a, b)?;
            let [here, there] = [from, from + by].map(|p| line.inside_by(p));
            // Runs out through the line, between its ends.
            let share = (here >= 0.0 && there < 0.0).then(|| here / (here - there))?;
            let at = line.along(from + by * share);
            (line.along(a)..=line.along(b)).contains(&at).then_some(share)
        };
        from + by * polygon::edges(&self.cut).filter_map(share).fold(1.0, f64::min)
    }
}
