//! Whether a frame can be sewn: strips on every side, mitres that run out, cloth that covers.

use super::super::Top;
use super::super::sew::EASE_IN;
use super::{How, Placed};
use crate::length::MOST_IN;
use crate::log::{Bound, FrameStrip, Name};
use crate::problem::{Place, Problem, Rule};
use plane::{DECISION, Line, Point, READING, clip_half_plane};

/// The strips must name all sides, in order, of a top that turns left everywhere, with no seam
/// still open.
pub(super) fn check_round(top: &Top, strips: &[FrameStrip]) -> Result<(), Problem> {
    let n = top.outline.len();
    let amiss = |side| Problem::at(Rule::NotEverySide, Place::Side(side, None));
    let first = top.outline.iter().position(|bound| *bound == Bound::Raw(strips[0].onto));
    let first = first.ok_or(amiss(strips[0].onto))?;
    for i in 0..n.max(strips.len()) {
        let bound = top.outline[(first + i) % n];
        let fits = strips.get(i).is_some_and(|strip| i < n && bound == Bound::Raw(strip.onto));
        if !fits {
            return Err(amiss(strips.get(i).filter(|_| i >= n).map_or(bound.name(), |strip| strip.onto)));
        }
    }
    if let Some((name, _)) = top.seams.iter().find(|(_, seam)| seam.open.is_some()) {
        return Err(Problem::at(Rule::StillOpen, Place::Seam(*name)));
    }
    let corners = top.outline_points();
    let turns = |i: usize| {
        let (a, b) = (top.line(top.outline[i]), top.line(top.outline[(i + 1) % n]));
        a.zip(b).is_some_and(|(a, b)| a.turn_sine(b) > 0.0)
    };
    match (0..n).find(|&i| corners.len() != n || !turns(i)) {
        Some(i) => {
            let place = Place::Side(top.outline[i].name(), Some(crate::log::End::End));
            Err(Problem::at(Rule::InwardCorner, place))
        }
        None => Ok(()),
    }
}

/// Where neighbouring seam lines cross: corner `i` is where seam `i` starts.
pub(super) fn inner_corners(
    top: &Top,
    strips: &[FrameStrip],
    allowance_in: f64,
) -> Result<Vec<Point>, Problem> {
    let n = strips.len();
    let lines: Vec<Line> = strips
        .iter()
        .filter_map(|strip| top.line(Bound::Raw(strip.onto)).map(|line| line.inward(allowance_in)))
        .collect();
    let corners: Vec<Point> = (0..n).filter_map(|i| lines[(i + n - 1) % n].crossing(lines[i])).collect();
    for (i, strip) in strips.iter().enumerate() {
        let place = Place::Side(strip.onto, None);
        let (Some(from), Some(to)) = (corners.get(i), corners.get((i + 1) % n)) else {
            return Err(Problem::at(Rule::Nonsense, place));
        };
        if lines[i].along(*to) - lines[i].along(*from) <= READING {
            let raw = top.line(Bound::Raw(strip.onto)).unwrap_or(lines[i]);
            let deep = top.outline_points().iter().map(|&p| raw.inside_by(p)).fold(0.0, f64::max);
            return Err(Problem {
                rule: Rule::UsedUp,
                place,
                measured_in: deep,
                limit_in: 2.0 * allowance_in,
            });
        }
    }
    Ok(corners)
}

/// The mitre at the start of each strip, from the inner corner out.
pub(super) fn mitre_lines(placed: &[Placed], inner: &[Point], how: &How) -> Result<Vec<Line>, Problem> {
    let n = placed.len();
    let aimed: Vec<Line> = placed.iter().map(|strip| strip.edge.inward(how.aim_in)).collect();
    let shallow = |i: usize| {
        let place = Place::Patch(placed[i].mark);
        Problem { rule: Rule::UsedUp, place, measured_in: 0.0, limit_in: how.aim_in }
    };
    let mut mitres = Vec::with_capacity(n);
    let mut out = Vec::with_capacity(n);
    for i in 0..n {
        let before = (i + n - 1) % n;
        let to = aimed[before].crossing(aimed[i]).ok_or(shallow(i))?;
        // A strip no deeper than the aim would have its mitres run inward.
        let runs_out = [before, i].iter().all(|&k| placed[k].line.inside_by(to) > READING);
        mitres.push(Line::through(inner[i], to).filter(|_| runs_out).ok_or(shallow(i))?);
        out.push(to);
    }
    for i in 0..n {
        let long = aimed[i].along(out[(i + 1) % n]) - aimed[i].along(out[i]);
        if long <= READING {
            let place = Place::Patch(placed[i].mark);
            return Err(Problem { rule: Rule::MitresCross, place, measured_in: -long, limit_in: 0.0 });
        }
    }
    Ok(mitres)
}

/// Whether a strip, as it was cut, covers what shows of it and the allowance beyond each mitre.
pub(super) fn check_cover(
    strip: &Placed,
    onto: Name,
    flanks: [Line; 2],
    beside: [(Bound, Line); 2],
    allowance_in: f64,
) -> Result<(), Problem> {
    let along = strip.line.reversed();
    let mut need = vast(strip.ends[0].midpoint(strip.ends[1]));
    let raw = [strip.line.inward(-allowance_in), strip.edge];
    let lines = flanks.map(|flank| flank.inward(-allowance_in)).into_iter().chain(beside.map(|b| b.1));
    for line in raw.into_iter().chain(lines) {
        need = clip_half_plane(&need, line, DECISION);
    }
    if need.len() < 3 {
        return Err(Problem::at(Rule::CutScatters, Place::Patch(strip.mark)));
    }
    let mut short = [0.0_f64; 2];
    for side in strip.top.sides() {
        let Some(line) = strip.top.line(side.bound) else { continue };
        let lean = along.turn_sine(line);
        let out = need.iter().map(|&p| -line.inside_by(p)).fold(0.0, f64::max);
        let is_end = lean.abs() > 0.05;
        if out > DECISION && is_end {
            // A line that runs inward, against the outside, is the strip's flank at the end.
            let end = usize::from(lean > 0.0);
            short[end] = short[end].max(out / lean.abs());
        }
    }
    let most = EASE_IN.min(allowance_in);
    if short.iter().all(|short| *short <= most) {
        return Ok(());
    }
    let limit_in = extent(&need, along);
    let place = Place::Side(onto, None);
    let (have, slack) = (extent(&strip.top.outline_points(), along), short[0] + short[1]);
    if have >= limit_in && (short[0] <= most || short[1] <= most) {
        let measured_in = if short[0] > most { -short[0] } else { short[1] };
        return Err(Problem { rule: Rule::Slid, place, measured_in, limit_in });
    }
    Err(Problem { rule: Rule::Cover, place, measured_in: slack, limit_in })
}

/// A square larger than any piece.
fn vast(middle: Point) -> Vec<Point> {
    let far = 4.0 * MOST_IN;
    let corners = [(-far, -far), (far, -far), (far, far), (-far, far)];
    corners.map(|(x, y)| Point::new(middle.x + x, middle.y + y)).to_vec()
}

fn extent(points: &[Point], line: Line) -> f64 {
    let along = points.iter().map(|&p| line.along(p));
    let (lo, hi) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), t| (lo.min(t), hi.max(t)));
    hi - lo
}
