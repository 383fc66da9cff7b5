//! A mitred border: a strip on every side of a convex top, sewn in one step.
//!
//! Mitred corners are set-in seams. Each strip's seam runs the allowance inside its side and stops
//! where it meets the next strip's, the allowance from both raw edges; from there the mitre runs
//! out, towards the crossing of the two outer edges, or of their parallels `aim_in` inside them. The
//! strips may be of unequal widths. The mitre's line has the later strip on its inside: that is the
//! one it is sewn onto. What a strip has beyond a mitre's allowance is trimmed off.
//!
//! Everything is worked out on copies; nothing is touched when the step is refused.

mod fit;

use super::clip::{clip_run, drop_repeats, outside_part};
use super::sew::{merge, offcut_of};
use super::{Offcut, Seam, Top, sound};
use crate::log::{Bound, FrameStrip, Mark, Name, Press};
use crate::problem::{Place, Problem, Rule};
use fit::{check_cover, check_round, inner_corners, mitre_lines};
use plane::{DECISION, Line, Point, Pose, READING};

/// How a frame is sewn, but for its strips.
#[derive(Clone, Copy, Debug)]
pub(super) struct How {
    pub(super) mark: Mark,
    pub(super) allowance_in: f64,
    pub(super) aim_in: f64,
    pub(super) press: Press,
    pub(super) order: u32,
}

/// What a frame makes of the top.
pub(super) struct Framed {
    pub(super) top: Top,
    pub(super) offcut: Option<Offcut>,
    pub(super) seams_sewn: u32,
}

/// One strip about to be sewn: as it lies beside the top, with the lines around what will show.
struct Placed {
    mark: Mark,
    top: Top,
    outer: Bound,
    seam: Bound,
    /// The mitres at its start and end.
    mitres: [Bound; 2],
    /// The seam's line with the strip inside, where the seam starts and ends, the outer edge.
    line: Line,
    ends: [Point; 2],
    edge: Line,
}

/// Sews the strips, each with the mark that began it, onto a copy of the top.
pub(super) fn framed(
    top: &Top,
    laid: Vec<(Mark, Top)>,
    strips: &[FrameStrip],
    how: &How,
) -> Result<Framed, Problem> {
    check_round(top, strips)?;
    let inner = inner_corners(top, strips, how.allowance_in)?;
    let n = strips.len();
    let mut placed = Vec::with_capacity(n);
    for (i, ((mark, strip), how_laid)) in laid.into_iter().zip(strips).enumerate() {
        let ends = [inner[i], inner[(i + 1) % n]];
        placed.push(place(top, mark, strip, how_laid, ends, i, n, how)?);
    }
    let mitres = mitre_lines(&placed, &inner, how)?;
    let mut parts = Vec::new();
    for i in 0..n {
        let beside = [(i + n - 1) % n, (i + 1) % n].map(|j| (placed[j].outer, placed[j].edge));
        let flanks = [mitres[i], mitres[(i + 1) % n].reversed()];
        check_cover(&placed[i], strips[i].onto, flanks, beside, how.allowance_in)?;
        parts.extend(beyond(&placed[i].top, flanks, how.allowance_in));
        let touched = clip_strip(&mut placed[i], flanks, beside)?;
        end_at(&mut placed[i].top, &touched);
    }
    let mut whole = top.clone();
    let crossed = open_all(&mut whole, &placed)?;
    let old = std::mem::take(&mut whole.outline);
    for strip in &placed {
        whole.outline.extend(outer_runs(strip)?);
    }
    drop_repeats(&mut whole.outline);
    let first = whole.outline.iter().position(|bound| *bound == placed[0].outer).unwrap_or(0);
    whole.outline.rotate_left(first);
    sew(&mut whole, placed, &mitres, &inner, crossed, how);
    let names: Vec<Name> = whole.faces.keys().copied().collect();
    whole.drop_unused(old, &names);
    let line_of = |bound| whole.line(bound);
    sound::outline(&whole.outline, &[], line_of)?;
    let seams_sewn = how.order - 1 + 2 * n as u32;
    Ok(Framed { top: whole, offcut: offcut_of(how.mark, parts), seams_sewn })
}

/// Lays a strip beside its side, right side up, its seam line on the side's.
#[expect(clippy::too_many_arguments, reason = "one strip among its neighbours")]
fn place(
    top: &Top,
    mark: Mark,
    mut strip: Top,
    how_laid: &FrameStrip,
    ends: [Point; 2],
    i: usize,
    n: usize,
    how: &How,
) -> Result<Placed, Problem> {
    let FrameStrip { onto, with, outer, slide_in } = *how_laid;
    let no_side = |side| Problem::at(Rule::NoSuchSide, Place::Side(side, None));
    let line = top.line(Bound::Raw(onto)).ok_or(no_side(onto))?.inward(how.allowance_in);
    let own = strip.chord(with, how.allowance_in)?;
    if outer == with || !strip.has_side(outer) {
        return Err(no_side(outer));
    }
    if !strip.is_convex() {
        return Err(Problem::at(Rule::CutScatters, Place::Patch(mark)));
    }
    let turn = own.line.normal.inverse().then(line.normal.opposite());
    let from = own.line.point_at(f64::midpoint(own.from, own.to));
    let middle = f64::midpoint(line.along(ends[0]), line.along(ends[1]));
    strip.move_by(Pose::carrying(turn, from, line.point_at(middle + slide_in)));
    let edge = strip.line(Bound::Raw(outer)).ok_or(no_side(outer))?;
    let no = |k: usize| Bound::Seam(Name::new(how.mark, u16::try_from(k).unwrap_or(u16::MAX)));
    Ok(Placed {
        mark,
        top: strip,
        outer: Bound::Raw(outer),
        seam: no(i),
        mitres: [no(n + i), no(n + (i + 1) % n)],
        line: line.reversed(),
        ends,
        edge,
    })
}

/// What sticks out beyond the mitres' allowances, as it lies.
fn beyond(strip: &Top, flanks: [Line; 2], allowance_in: f64) -> Vec<(Mark, Pose, Vec<Point>)> {
    let mut parts = Vec::new();
    for face in strip.faces.values() {
        let points = strip.face_points(face);
        for line in flanks.map(|flank| flank.inward(-allowance_in)) {
            if points.iter().any(|&p| line.inside_by(p) < -READING) {
                parts.push((face.patch, face.pose, outside_part(&points, line)));
            }
        }
    }
    parts
}

/// Cuts a strip to its seam, its mitres and its neighbours' outer edges; returns the seams of its
/// own that were cut.
fn clip_strip(
    strip: &mut Placed,
    flanks: [Line; 2],
    beside: [(Bound, Line); 2],
) -> Result<Vec<Name>, Problem> {
    let [start, end] = strip.mitres;
    let cuts = [(strip.seam, strip.line), (start, flanks[0]), (end, flanks[1]), beside[0], beside[1]];
    let mut touched = Vec::new();
    for (bound, line) in cuts {
        let top = &mut strip.top;
        let clipped = clip_run(&top.runs(&top.outline), line, bound);
        if clipped.around.len() < 3 || clipped.passes > 1 {
            return Err(Problem::at(Rule::CutScatters, Place::Patch(strip.mark)));
        }
        let names = top.faces_reaching(line);
        touched.extend(top.clip_faces(&names, line, bound)?.seams);
        top.outline = clipped.around;
    }
    touched.sort_unstable();
    touched.dedup();
    Ok(touched)
}

/// Forgets seams of a strip that were trimmed away wholly.
fn end_at(strip: &mut Top, touched: &[Name]) {
    for &name in touched {
        let bound = Bound::Seam(name);
        if !strip.faces.values().any(|face| face.around.contains(&bound)) {
            strip.seams.remove(&name);
            strip.lines.remove(&bound);
        }
    }
}

/// Takes the allowance off the top's faces along every seam; returns the seams cut by each.
fn open_all(whole: &mut Top, placed: &[Placed]) -> Result<Vec<Vec<Name>>, Problem> {
    let mut crossed = Vec::with_capacity(placed.len());
    for strip in placed {
        let inside = strip.line.reversed();
        let names = whole.faces_reaching(inside);
        crossed.push(whole.clip_faces(&names, inside, strip.seam)?.seams);
    }
    Ok(crossed)
}

/// The runs of a strip's outline that become the whole's, from its start to its end.
fn outer_runs(strip: &Placed) -> Result<Vec<Bound>, Problem> {
    let around = &strip.top.outline;
    let n = around.len();
    let scattered = Problem::at(Rule::CutScatters, Place::Patch(strip.mark));
    let from = around.iter().position(|bound| *bound == strip.mitres[0]).ok_or(scattered)?;
    let round: Vec<Bound> = (1..n).map(|i| around[(from + i) % n]).collect();
    let runs: Vec<Bound> = round.iter().copied().take_while(|bound| *bound != strip.mitres[1]).collect();
    let as_planned = round.len() == runs.len() + 2 && runs.contains(&strip.outer);
    if as_planned { Ok(runs) } else { Err(scattered) }
}

/// Brings the strips to the top and notes the seams: first all along the sides, then the mitres.
fn sew(
    whole: &mut Top,
    placed: Vec<Placed>,
    mitres: &[Line],
    inner: &[Point],
    crossed: Vec<Vec<Name>>,
    how: &How,
) {
    let n = placed.len();
    let outers: Vec<Bound> = placed.iter().map(|strip| strip.outer).collect();
    let mut mitre_names = Vec::with_capacity(n);
    let seam = |order: usize, sewn_in, ends, added| Seam {
        order: how.order + order as u32,
        allowance_in: how.allowance_in,
        press: how.press,
        sewn_in,
        ends,
        crosses: Vec::new(),
        open: None,
        added,
    };
    for (i, (strip, crossed)) in placed.into_iter().zip(crossed).enumerate() {
        let (own, [start, end]) = (strip.seam, strip.mitres);
        let mut along = seam(i, strip.ends[0].distance(strip.ends[1]), [start, end], strip.mark);
        merge(whole, strip.top);
        whole.lines.insert(own, strip.line.reversed());
        whole.lines.insert(start, mitres[i]);
        along.crosses = crossed;
        along
            .crosses
            .extend(whole.seams.iter().filter(|(_, s)| s.ends.contains(&own)).map(|(name, _)| *name));
        along.crosses.retain(|name| whole.seams.get(name).is_some_and(|s| s.ends.contains(&own)));
        along.crosses.sort_unstable();
        along.crosses.dedup();
        whole.seams.insert(own.name(), along);
        whole.seams.insert(start.name(), seam(n + i, 0.0, [own, strip.outer], strip.mark));
        mitre_names.push(start.name());
    }
    for (i, name) in mitre_names.into_iter().enumerate() {
        // Aimed inside the edges, a mitre leaves the piece through one of the two.
        let outs = [outers[i], outers[(i + n - 1) % n]].map(|outer| {
            let length = whole.line(outer).and_then(|edge| mitres[i].crossing(edge));
            (length.map_or(f64::INFINITY, |out| inner[i].distance(out)), outer)
        });
        let (length, outer) = if outs[1].0 < outs[0].0 - DECISION { outs[1] } else { outs[0] };
        if let Some(mitre) = whole.seams.get_mut(&name) {
            (mitre.sewn_in, mitre.ends[1]) = (length, outer);
        }
    }
}
