//! Measuring: what is on the table replaces what was planned.

use super::Top;
use crate::log::{Bound, End, Measured, Name};
use crate::problem::{Place, Problem, Rule};
use plane::{DECISION, Line, polygon};

/// A copy of the top with its sides where they were measured. Faces follow, because they name the
/// sides.
///
/// # Errors
/// A side that isn't there, or measures by which a side or a patch would be turned over.
pub(super) fn measured(top: &Top, sides: &[Measured]) -> Result<Top, Problem> {
    let mut moved = top.clone();
    for m in sides {
        let bound = Bound::Raw(m.side);
        let finite = m.line.at.is_finite() && m.line.normal.cos.is_finite() && m.line.normal.sin.is_finite();
        let unit = (m.line.normal.vec().length() - 1.0).abs() < 1e-9;
        if !finite || !unit {
            return Err(Problem::at(Rule::Nonsense, Place::Side(m.side, None)));
        }
        if !top.has_side(m.side) {
            return Err(Problem::at(Rule::NoSuchSide, Place::Side(m.side, None)));
        }
        moved.lines.insert(bound, m.line);
    }
    let corner_gone = super::top::pairs(&moved.outline).find(|(a, b)| moved.corner(*a, *b).is_none());
    if let Some((_, bound)) = corner_gone {
        return Err(turned_over(Place::Side(bound.name(), Some(End::Start))));
    }
    check_sides(top, &moved)?;
    if moved.is_convex() {
        trim_to_outline(&mut moved)?;
    }
    check_faces(top, &moved)?;
    let names: Vec<Name> = moved.faces.keys().copied().collect();
    names.into_iter().for_each(|name| moved.refresh_bounds(name));
    Ok(moved)
}

fn turned_over(place: Place) -> Problem {
    Problem::at(Rule::TurnsOver, place)
}

/// Every side still runs the way it ran.
fn check_sides(before: &Top, after: &Top) -> Result<(), Problem> {
    let (old, new) = (before.sides(), after.sides());
    for (o, n) in old.iter().zip(&new) {
        if (o.to - o.from).dot(n.to - n.from) <= 0.0 {
            return Err(turned_over(o.name().map_or(Place::At(o.from), |name| Place::Side(name, None))));
        }
    }
    Ok(())
}

/// Where three lines met in a point, moving one opens a gap or an overlap: faces are cut to every
/// side of a convex outline.
pub(super) fn trim_to_outline(top: &mut Top) -> Result<(), Problem> {
    let lines: Vec<(Bound, Line)> = top.outline.iter().filter_map(|b| Some((*b, top.line(*b)?))).collect();
    let names: Vec<Name> = top.faces.keys().copied().collect();
    for name in &names {
        top.refresh_bounds(*name);
    }
    for (bound, line) in lines {
        let reaching = top.faces_reaching(line);
        top.clip_faces(&reaching, line, bound)?;
    }
    Ok(())
}

/// Every face is still there, the right way round, and together they fill the outline.
fn check_faces(before: &Top, after: &Top) -> Result<(), Problem> {
    let mut sum = 0.0;
    for (name, old) in &before.faces {
        let gone = || turned_over(Place::Patch(old.patch));
        let face = after.faces.get(name).ok_or_else(gone)?;
        let points = after.face_points(face);
        let area = polygon::area(&points);
        if points.len() < 3 || area <= DECISION {
            return Err(gone());
        }
        sum += area;
    }
    let outline = polygon::area(&after.outline_points());
    if (outline - sum).abs() > 1e-6 * outline.max(1.0) {
        let moved = before.outline.iter().find(|bound| before.line(**bound) != after.line(**bound));
        let side = moved.or(before.outline.first()).map(|bound| Place::Side(bound.name(), None));
        return Err(turned_over(side.unwrap_or(Place::At(plane::Point::ORIGIN))));
    }
    Ok(())
}
