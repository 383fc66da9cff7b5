//! Cuts along a straight line: a trim, a squaring up, a slicing apart.

use super::clip::clip_run;
use super::sew::offcut_of;
use super::{Offcut, Top, sound};
use crate::log::{Along, Bound, Mark, Name};
use crate::problem::{Place, Problem, Rule};
use plane::Line;

/// The line of a cut, inside on the left of its direction.
pub(super) fn line_of(top: &Top, along: Along) -> Result<Line, Problem> {
    match along {
        Along::Side(side) => top
            .line(Bound::Raw(side))
            .filter(|_| top.has_side(side))
            .ok_or(Problem::at(Rule::NoSuchSide, Place::Side(side, None))),
        Along::From { side, at_in, turn } => {
            let found = top.sides().into_iter().find(|s| s.name() == Some(side));
            let start = found.ok_or(Problem::at(Rule::NoSuchSide, Place::Side(side, None)))?;
            let line = top.line(start.bound).ok_or(Problem::at(Rule::NoSuchSide, Place::Side(side, None)))?;
            let from = start.from + line.unit() * at_in;
            Ok(Line::from_point(from, line.direction().then(turn)))
        }
    }
}

/// The oldest side of a top that a cut along `line` is in line with, and its line: cutting along it
/// is cutting along the side. Without one the cut keeps its own.
pub(super) fn older_in_line(top: &Top, line: Line, bound: Bound) -> (Line, Bound) {
    let older = raw_in_line(top, line, bound).into_iter().min();
    older.and_then(|older| Some((top.line(older)?, older))).unwrap_or((line, bound))
}

fn raw_in_line(top: &Top, line: Line, bound: Bound) -> Vec<Bound> {
    let mut sides = top.in_line(line, bound);
    sides.retain(|side| matches!(side, Bound::Raw(_)));
    sides
}

/// Trims a top, keeping the inside of `line`, which is called `bound`; sides in line with it take
/// that name. On an error the top is unchanged.
pub(super) fn trim(top: &mut Top, line: Line, bound: Bound, mark: Mark) -> Result<Option<Offcut>, Problem> {
    let in_line = raw_in_line(top, line, bound);
    if !in_line.is_empty() {
        let mut merged = top.clone();
        in_line.into_iter().for_each(|side| merged.rename(side, bound, line));
        let offcut = trim(&mut merged, line, bound, mark)?;
        *top = merged;
        return Ok(offcut);
    }
    let own_line = top.outline.contains(&bound);
    let clipped = clip_run(&top.runs(&top.outline), line, bound);
    let place = Place::Step(mark);
    if clipped.passes == 0 || clipped.around.len() < 3 {
        return Err(Problem::at(Rule::CutMisses, place));
    }
    let runs = clipped.around.iter().filter(|b| **b == bound).count();
    if (clipped.passes > 1 && !own_line) || runs > 1 {
        return Err(Problem::at(Rule::CutScatters, place));
    }
    let line_of = |b: Bound| if b == bound { Some(line) } else { top.line(b) };
    sound::outline(&clipped.around, &[&top.outline], line_of)?;
    let names = top.faces_reaching(line);
    let gone: Vec<Bound> = top.outline.iter().filter(|b| !clipped.around.contains(b)).copied().collect();
    let parts = top.clip_faces(&names, line, bound)?.parts;
    top.outline = clipped.around;
    top.drop_unused(gone, &names);
    Ok(offcut_of(mark, parts))
}

/// Divides a top in two: the left part stays, the right part is returned with its faces and lines
/// born anew by the cut. Each keeps the lines and seams that lie in it; seams that later ones
/// swallowed stay with the left part. On an error the top is unchanged.
pub(super) fn divide(top: &mut Top, line: Line, mark: Mark) -> Result<Top, Problem> {
    let mut right = top.clone();
    trim(&mut right, line.reversed(), Bound::Raw(Name::new(mark, 1)), mark)?;
    trim(top, line, Bound::Raw(Name::new(mark, 0)), mark)?;
    let (on_left, on_right) = (top.bounds_in_use(), right.bounds_in_use());
    top.prune(|seam| on_left.contains(&seam) || !on_right.contains(&seam));
    let mut right = reborn(&right, mark);
    let on_right = right.bounds_in_use();
    right.prune(|seam| on_right.contains(&seam));
    Ok(right)
}

/// The same top under names that no other top has: everything is named anew, in order.
fn reborn(top: &Top, mark: Mark) -> Top {
    let own = Bound::Raw(Name::new(mark, 1));
    let (bounds, pruned) = top.pruned.reborn(&top.lines, own, |no| Name::new(mark, no));
    let to = |b: &Bound| bounds.get(b).copied().unwrap_or(*b);
    let mut born = Top {
        lines: top.lines.iter().map(|(b, line)| (to(b), *line)).collect(),
        outline: top.outline.iter().map(to).collect(),
        pruned,
        ..Top::default()
    };
    for (no, face) in top.faces.values().enumerate() {
        let mut face = face.clone();
        face.around = face.around.iter().map(to).collect();
        let name = Name::new(mark, u16::try_from(no).unwrap_or(u16::MAX));
        born.faces.insert(name, face);
        born.refresh_bounds(name);
    }
    for (name, seam) in &top.seams {
        let mut seam = seam.clone();
        seam.ends = seam.ends.map(|end| to(&end));
        seam.crosses = seam.crosses.iter().map(|c| to(&Bound::Seam(*c)).name()).collect();
        born.seams.insert(to(&Bound::Seam(*name)).name(), seam);
    }
    born
}
