//! Sewing: two tops become one along a seam line.
//!
//! The seam line runs `allowance` inside the side sewn onto. A seam removes the strip between the
//! side and its chord, the part of the seam line inside the top; the patch must cover that chord,
//! which is longer than the raw edge at obtuse corners: a patch cut to the raw edge would leave a
//! notch at both ends, and the next edge couldn't be sewn (common practice, no source).

use super::clip::{clip_run, drop_repeats, outside_part};
use super::{Offcut, OffcutPart, Seam, Top, sound};
use crate::log::{Bound, End, Mark, Name, Press};
use crate::problem::{Place, Problem, Rule};
use plane::{DECISION, Line, Point, Pose, READING, clip_convex, polygon};

/// How far a patch may fall short of the seam line and still be eased to cover it: 1/32 inch,
/// what a maker's hands can do (common practice, no source).
pub(super) const EASE_IN: f64 = 1.0 / 32.0;

/// A side about to be sewn: its seam line and where that ends.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chord {
    /// The seam line, inside towards the top.
    pub(super) line: Line,
    /// The lines it ends at, in the direction of the side.
    pub(super) ends: [Bound; 2],
    /// Where it starts and ends along the line.
    pub(super) from: f64,
    pub(super) to: f64,
    /// Indices of the runs of the outline it ends at.
    before: usize,
    after: usize,
}

impl Chord {
    pub(super) fn length(&self) -> f64 {
        self.to - self.from
    }
}

impl Top {
    /// The seam line of a side and the runs of the outline it ends at. Short neighbouring sides
    /// that lie wholly inside the allowance are passed over.
    pub(super) fn chord(&self, side: Name, allowance_in: f64) -> Result<Chord, Problem> {
        let bound = Bound::Raw(side);
        let run = (self.outline.iter().position(|b| *b == bound))
            .ok_or(Problem::at(Rule::NoSuchSide, Place::Side(side, None)))?;
        let raw = self.line(bound).ok_or(Problem::at(Rule::NoSuchSide, Place::Side(side, None)))?;
        let line = raw.inward(allowance_in);
        let corners = self.outline_points();
        let n = corners.len();
        if n != self.outline.len() {
            return Err(Problem::at(Rule::Nonsense, Place::Side(side, None)));
        }
        let inward = |end| Problem::at(Rule::InwardCorner, Place::Side(side, Some(end)));
        let mut before = (run + n - 1) % n;
        while before != run && !self.waits(before) && line.inside_by(corners[before]) <= DECISION {
            // What lies beyond the side's own line isn't within the allowance: it is in the way.
            if raw.inside_by(corners[before]) < -READING {
                return Err(inward(End::Start));
            }
            before = (before + n - 1) % n;
        }
        let mut after = (run + 1) % n;
        while after != run && !self.waits(after) && line.inside_by(corners[(after + 1) % n]) <= DECISION {
            if raw.inside_by(corners[(after + 1) % n]) < -READING {
                return Err(inward(End::End));
            }
            after = (after + 1) % n;
        }
        let used_up = || {
            let depth = corners.iter().map(|&p| raw.inside_by(p)).fold(0.0, f64::max);
            let place = Place::Side(side, None);
            Problem { rule: Rule::UsedUp, place, measured_in: depth, limit_in: 2.0 * allowance_in }
        };
        if before == run || after == run || before == after {
            return Err(used_up());
        }
        if !self.turns_left_or_waits(before, run) {
            return Err(inward(End::Start));
        }
        if !self.turns_left_or_waits(run, after) {
            return Err(inward(End::End));
        }
        let ends = [self.outline[before], self.outline[after]];
        let at = |end: Bound| self.line(end).and_then(|l| line.crossing(l)).map(|p| line.along(p));
        let (Some(from), Some(to)) = (at(ends[0]), at(ends[1])) else {
            return Err(Problem::at(Rule::Nonsense, Place::Side(side, None)));
        };
        if to - from <= READING {
            return Err(used_up());
        }
        Ok(Chord { line, ends, from, to, before, after })
    }

    /// Whether run `i` is the free part of a seam that was left open for a later piece.
    fn waits(&self, i: usize) -> bool {
        matches!(self.outline[i], Bound::Seam(name) if self.seams.get(&name).is_some_and(|s| s.open.is_some()))
    }

    /// Whether the outline turns left from run `i` to run `j`, or one of them waits.
    fn turns_left_or_waits(&self, i: usize, j: usize) -> bool {
        let lines = self.line(self.outline[i]).zip(self.line(self.outline[j]));
        lines.is_some_and(|(a, b)| a.turn_sine(b) > 0.0) || self.waits(i) || self.waits(j)
    }

    /// The outline without the side and what lies between it and the chord, from the run after it
    /// round to the run before it.
    fn rest_of(&self, chord: &Chord) -> Vec<Bound> {
        let n = self.outline.len();
        let runs = self.outline.iter().cycle().skip(chord.after);
        runs.take((chord.before + n - chord.after) % n + 1).copied().collect()
    }

    /// Takes the strip outside the chord off the faces; returns the seams around those that were
    /// cut. On an error the top is unchanged.
    fn open_at(&mut self, chord: &Chord, seam: Bound, line: Line) -> Result<Vec<Name>, Problem> {
        let reaching = self.faces_reaching(line);
        let in_strip = if self.is_convex() { None } else { Some(self.in_strip(&reaching, chord, line)?) };
        let names = in_strip.as_ref().unwrap_or(&reaching);
        self.check_open(names, line)?;
        let rest = self.rest_of(chord);
        let touched = self.clip_faces(names, line, seam)?.seams;
        let dropped: Vec<Bound> = self.outline.iter().filter(|b| !rest.contains(b)).copied().collect();
        self.outline = rest;
        self.drop_unused(dropped, &reaching);
        Ok(touched)
    }

    /// Refuses a seam across the open part of another: one that would cut the faces on both sides of
    /// it. A piece that ends against the part that hangs free cuts one of them only.
    fn check_open(&self, names: &[Name], line: Line) -> Result<(), Problem> {
        let mut met: Vec<(Name, bool)> = Vec::new();
        for face in names.iter().filter_map(|name| self.faces.get(name)) {
            for bound in &face.around {
                let Some((seam, end)) = self.open_end(*bound) else { continue };
                let points = self.face_points(face);
                let is_cut = |p: Option<Point>| p.is_some_and(|p| line.inside_by(p) < -DECISION);
                let farthest =
                    points.iter().copied().min_by(|a, b| line.inside_by(*a).total_cmp(&line.inside_by(*b)));
                let Some(own) = self.line(*bound).filter(|_| is_cut(end) && is_cut(farthest)) else {
                    continue;
                };
                let is_left = points.iter().map(|&p| own.inside_by(p)).sum::<f64>() > 0.0;
                if met.contains(&(seam, !is_left)) {
                    return Err(Problem::at(Rule::StillOpen, Place::Seam(seam)));
                }
                met.push((seam, is_left));
            }
        }
        Ok(())
    }

    /// The name of a seam that is still open, and where its open end lies.
    fn open_end(&self, bound: Bound) -> Option<(Name, Option<Point>)> {
        let Bound::Seam(name) = bound else { return None };
        let seam = self.seams.get(&name)?;
        let (end, _) = seam.open?;
        let end = if end == End::Start { seam.ends[0] } else { seam.ends[1] };
        Some((name, self.corner(bound, end)))
    }

    /// Of the faces that reach outside the seam line, those in the strip between side and chord.
    fn in_strip(&self, reaching: &[Name], chord: &Chord, line: Line) -> Result<Vec<Name>, Problem> {
        let corners = self.outline_points();
        let n = corners.len();
        let mut strip = vec![line.point_at(chord.to), line.point_at(chord.from)];
        let mut i = (chord.before + 1) % n;
        while i != (chord.after + 1) % n {
            strip.push(corners[i]);
            i = (i + 1) % n;
        }
        let mut names = Vec::new();
        for &name in reaching {
            let Some(face) = self.faces.get(&name) else { continue };
            let points = self.face_points(face);
            let outside = outside_part(&points, line);
            let within = polygon::area(&clip_convex(&points, &polygon::hull(&strip), DECISION));
            if within > 1e-9 {
                if (polygon::area(&outside) - within).abs() > 1e-7 {
                    return Err(Problem::at(Rule::CutScatters, Place::Patch(face.patch)));
                }
                names.push(name);
            }
        }
        Ok(names)
    }
}

/// How two sides are to be joined.
#[derive(Clone, Copy, Debug)]
pub(super) struct Join {
    pub(super) mark: Mark,
    pub(super) onto: Name,
    pub(super) with: Name,
    pub(super) slide_in: f64,
    pub(super) allowance_in: f64,
    pub(super) stop: Option<(End, f64)>,
    pub(super) flush: [bool; 2],
    pub(super) press: Press,
    pub(super) order: u32,
    pub(super) added: Mark,
}

/// What is known of a seam before anything is touched.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plan {
    chord: Chord,
    own: Chord,
    /// How far the patch falls short of the chord at its start and end; negative when it covers.
    shorts: [f64; 2],
}

/// Checks that both sides can be sewn and that the patch covers the chord.
pub(super) fn plan(top: &Top, patch: &Top, how: &Join) -> Result<Plan, Problem> {
    let chord = top.chord(how.onto, how.allowance_in)?;
    let own = patch.chord(how.with, how.allowance_in)?;
    if let Some((end, open)) = how.stop.filter(|(_, open)| *open >= chord.length()) {
        let place = Place::Side(how.onto, Some(end));
        return Err(Problem { rule: Rule::OpenTooLong, place, measured_in: open, limit_in: chord.length() });
    }
    let middle = f64::midpoint(chord.from, chord.to) + how.slide_in;
    let half = own.length() / 2.0;
    let shorts = [middle - half - chord.from, chord.to - middle - half];
    let end = match shorts.map(|short| short > EASE_IN) {
        [false, false] => return Ok(Plan { chord, own, shorts }),
        [true, false] => Some(End::Start),
        [false, true] => Some(End::End),
        [true, true] => None,
    };
    let (place, limit_in) = (Place::Side(how.onto, end), chord.length());
    let short = limit_in - own.length();
    if short > 2.0 * EASE_IN {
        return Err(Problem { rule: Rule::Cover, place, measured_in: short, limit_in });
    }
    let room = (-short / 2.0).max(0.0);
    let measured_in = how.slide_in.clamp(-room, room) - how.slide_in;
    Err(Problem { rule: Rule::Slid, place, measured_in, limit_in })
}

/// Sews `patch` onto `top` as planned. On an error the top is unchanged: all that can be refused is
/// found out on the patch, which is the caller's copy.
pub(super) fn join(
    top: &mut Top,
    mut patch: Top,
    plan: &Plan,
    how: &Join,
) -> Result<Option<Offcut>, Problem> {
    let Plan { chord, own, shorts } = *plan;
    let seam_line = chord.line;
    let reversed = seam_line.reversed();
    patch.move_by(placing(&chord, &own, how.slide_in));
    ease(&mut patch, &own, shorts)?;
    let offcut = offcut_of(how.mark, overhang(top, &patch, &chord, how));
    let seam = Bound::Seam(Name::new(how.mark, 0));
    let moved = Chord { line: reversed, ..own };
    let with_touched = patch.open_at(&moved, seam, reversed)?;
    patch.lines.insert(seam, seam_line);
    patch.outline.push(seam);
    let untrimmed = patch.outline.clone();
    trim_flush(top, &mut patch, &chord, how)?;
    let line_of = |bound| top.line(bound).or_else(|| patch.line(bound));
    let outline = joined(&top.rest_of(&chord), &opened(&patch.outline, seam), seam, &chord, line_of);
    sound::outline(&outline, &[&top.outline, &untrimmed], line_of)?;
    let onto_touched = top.open_at(&chord, seam, seam_line)?;
    merge(top, patch);
    let crosses = crossing_seams(top, onto_touched, with_touched, seam);
    top.lines.insert(seam, seam_line);
    top.outline = outline;
    let open = how.stop.filter(|(_, open)| *open > 0.0);
    top.seams.insert(
        seam.name(),
        Seam {
            order: how.order,
            allowance_in: how.allowance_in,
            press: how.press,
            sewn_in: chord.length() - open.map_or(0.0, |(_, open)| open),
            ends: chord.ends,
            crosses,
            open,
            added: how.added,
        },
    );
    tidy_stubs(top, seam);
    Ok(offcut)
}

/// Lays the patch's seam line on the top's, facing it, middle on middle and then slid.
fn placing(chord: &Chord, own: &Chord, slide_in: f64) -> Pose {
    let turn = own.line.normal.inverse().then(chord.line.normal.opposite());
    let from = own.line.point_at(f64::midpoint(own.from, own.to));
    let to = chord.line.point_at(f64::midpoint(chord.from, chord.to) + slide_in);
    Pose::carrying(turn, from, to)
}

/// Where the patch falls short by no more than can be eased, its flank is let out to the end of
/// the seam line. The patch's flanks run the other way round: the line after its side lies at the
/// start of the side sewn onto.
fn ease(patch: &mut Top, own: &Chord, shorts: [f64; 2]) -> Result<(), Problem> {
    let flanks = [own.ends[1], own.ends[0]];
    let along = own.line;
    for (short, flank) in shorts.into_iter().zip(flanks) {
        if short > DECISION
            && let Some(line) = patch.lines.get_mut(&flank)
        {
            line.at -= short * along.turn_sine(*line).abs().min(1.0);
            patch.refresh_along(flank);
        }
    }
    // Where a mitre ran to the flank's corner, its face now reaches beyond the side next to it.
    let is_let_out = shorts.iter().any(|short| *short > DECISION);
    if is_let_out && patch.faces.len() > 1 && patch.is_convex() {
        super::measure::trim_to_outline(patch)?;
    }
    Ok(())
}

/// The parts of the patch that stick out beyond the neighbours of the side sewn onto, where they
/// are to be trimmed in line. The trim comes after the seam and goes through its allowance too.
/// What sticks out by no more than lengths are read is none.
fn overhang(top: &Top, patch: &Top, chord: &Chord, how: &Join) -> Vec<(Mark, Pose, Vec<Point>)> {
    let lines = how.flush.iter().zip(chord.ends).filter(|(flush, _)| **flush);
    let lines: Vec<Line> = lines.filter_map(|(_, bound)| top.line(bound)).collect();
    let mut parts = Vec::new();
    for face in patch.faces.values() {
        let mut points = patch.face_points(face);
        for &line in &lines {
            if points.iter().any(|&p| line.inside_by(p) < -READING) {
                parts.push((face.patch, face.pose, outside_part(&points, line)));
                points = plane::clip_half_plane(&points, line, DECISION);
            }
        }
    }
    parts
}

/// Trims the patch in line with the neighbours of the side sewn onto, where that was asked. Where
/// it wasn't, a flank that lies in line all the same takes the neighbour's name.
fn trim_flush(top: &Top, patch: &mut Top, chord: &Chord, how: &Join) -> Result<(), Problem> {
    for (i, (flush, bound)) in how.flush.into_iter().zip(chord.ends).enumerate() {
        let Some(line) = top.line(bound) else { continue };
        if !flush {
            let rest = opened(&patch.outline, Bound::Seam(Name::new(how.mark, 0)));
            let flank = if i == 0 { rest.first() } else { rest.last() };
            if let Some(flank) = flank.filter(|flank| patch.in_line(line, bound).contains(flank)) {
                patch.rename(*flank, bound, line);
            }
            continue;
        }
        patch.merge_in_line(line, bound);
        let clipped = clip_run(&patch.runs(&patch.outline), line, bound);
        if clipped.around.is_empty() || clipped.passes > 1 {
            return Err(Problem::at(Rule::CutScatters, Place::Patch(how.added)));
        }
        let names = patch.faces_reaching(line);
        patch.clip_faces(&names, line, bound)?;
        patch.outline = clipped.around;
    }
    Ok(())
}

/// An offcut from what was cut off faces as they lay.
pub(super) fn offcut_of(by: Mark, parts: Vec<(Mark, Pose, Vec<Point>)>) -> Option<Offcut> {
    let parts: Vec<OffcutPart> = parts
        .into_iter()
        .map(|(patch, pose, off)| OffcutPart { patch, piece: pose.inverse().apply_all(&off), pose })
        .collect();
    (!parts.is_empty()).then_some(Offcut { by, parts })
}

/// The outline without the seam, from the run after it round to the run before it.
fn opened(outline: &[Bound], seam: Bound) -> Vec<Bound> {
    let n = outline.len();
    outline
        .iter()
        .position(|b| *b == seam)
        .map_or_else(|| outline.to_vec(), |at| (1..n).map(|i| outline[(at + i) % n]).collect())
}

/// Of the seams touched on either side, those that now end at this one.
fn crossing_seams(top: &Top, onto: Vec<Name>, with: Vec<Name>, seam: Bound) -> Vec<Name> {
    let mut names = onto;
    names.extend(with);
    names.retain(|name| top.seams.get(name).is_some_and(|s| s.ends.contains(&seam)));
    names.sort_unstable();
    names
}

/// Everything of the patch comes to the top; lines they share keep the top's place.
pub(super) fn merge(top: &mut Top, patch: Top) {
    for (bound, line) in patch.lines {
        top.lines.entry(bound).or_insert(line);
    }
    top.faces.extend(patch.faces);
    top.boxes.extend(patch.boxes);
    top.seams.extend(patch.seams);
    top.pruned.merge(patch.pruned);
}

/// The joined outline. Where the patch sticks out beyond an end, the seam line itself shows there.
fn joined(
    onto: &[Bound],
    patch: &[Bound],
    seam: Bound,
    chord: &Chord,
    line_of: impl Fn(Bound) -> Option<Line>,
) -> Vec<Bound> {
    let at = |bound| line_of(bound).and_then(|line| chord.line.crossing(line));
    let gap = |end: Bound, flank: Bound| {
        end != flank && at(end).zip(at(flank)).is_some_and(|(a, b)| a.distance(b) > DECISION)
    };
    let mut outline = onto.to_vec();
    if let (Some(&first), Some(&last)) = (patch.first(), patch.last()) {
        if gap(chord.ends[0], first) {
            outline.push(seam);
        }
        outline.extend_from_slice(patch);
        if gap(chord.ends[1], last) {
            outline.push(seam);
        }
    }
    drop_repeats(&mut outline);
    outline
}

/// Drops runs of seam line of no length, and gives runs in line on both sides of one the older
/// name.
fn tidy_stubs(top: &mut Top, newest: Bound) {
    loop {
        let sides = top.sides();
        let n = sides.len();
        let Some(i) = (0..n).find(|&i| {
            matches!(sides[i].bound, Bound::Seam(_))
                && sides[i].bound != newest
                && sides[i].length_in() < READING
        }) else {
            return;
        };
        let (before, after) = (sides[(i + n - 1) % n].bound, sides[(i + 1) % n].bound);
        top.outline.remove(i);
        if let (Some(a), Some(b)) = (top.line(before), top.line(after))
            && a.turn_cosine(b) > 0.0
            && a.turn_sine(b).abs() < 1e-6
        {
            let (old, new) = if before < after { (after, before) } else { (before, after) };
            let line = if before < after { a } else { b };
            top.rename(old, new, line);
        }
    }
}
