//! Trims that go before a piece: a corner cut off, or an edge turned, so that the next piece can
//! be sewn on well.

use crate::centre::{Along, Centre, Side};
use crate::split::sharpest_deg;
use plane::{DECISION, Line, Point, Turn, clip_half_plane, polygon};
use quilt::log::{Along as Where, Keep, Mark, Name, Step};
use quilt::wish::Limits;

/// A cut from a point on a side, turned left from it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Trim {
    /// The top it cuts: the step that began it.
    pub(crate) top: Mark,
    pub(crate) side: Name,
    pub(crate) at_in: f64,
    pub(crate) turn: Turn,
    /// Square inches trimmed off.
    pub(crate) area: f64,
}

impl Trim {
    /// The step of the log.
    pub(crate) const fn step(&self) -> Step {
        let along = Where::From { side: self.side, at_in: self.at_in, turn: self.turn };
        Step::Cut { top: self.top, along, keep: Keep::Left }
    }
}

/// How far from a corner it may be cut off, in inches.
const CAPS_IN: [f64; 4] = [0.8, 1.1, 1.6, 2.2];
/// By how many degrees an edge may be turned.
const TURNS_DEG: [f64; 4] = [-10.0, -5.0, 5.0, 10.0];

/// Corners of a side that could be cut off, each with the centre after it.
pub(crate) fn caps(centre: &Centre, side: usize, allowance: f64, limits: Limits) -> Vec<(Trim, Centre)> {
    let corners = centre.corners();
    let n = corners.len();
    if n != centre.sides.len() {
        return Vec::new();
    }
    let mut found = Vec::new();
    for (first, second) in [(centre.before(side), side), (side, centre.after(side))] {
        let (a, b) = (centre.sides[first].line, centre.sides[second].line);
        let turn = a.turn_sine(b).atan2(a.turn_cosine(b)).to_degrees();
        let lengths = [first, second].map(|i| corners[i].distance(corners[(i + 1) % n]));
        for cap in CAPS_IN {
            if turn > 52.0 && lengths.iter().all(|length| length - cap > 0.95) {
                let at_in = lengths[0] - cap;
                found.extend(cut(centre, first, at_in, turn / 2.0, allowance, limits));
            }
        }
    }
    found
}

/// Ways to turn a side about one of its ends.
pub(crate) fn turns(centre: &Centre, side: usize, allowance: f64, limits: Limits) -> Vec<(Trim, Centre)> {
    let corners = centre.corners();
    if corners.len() != centre.sides.len() {
        return Vec::new();
    }
    let length = corners[side].distance(corners[centre.after(side)]);
    TURNS_DEG
        .iter()
        .filter_map(|deg| cut(centre, side, if *deg > 0.0 { 0.0 } else { length }, *deg, allowance, limits))
        .collect()
}

/// The centre after a cut, if nothing gets too thin.
fn cut(
    centre: &Centre,
    side: usize,
    at_in: f64,
    deg: f64,
    allowance: f64,
    limits: Limits,
) -> Option<(Trim, Centre)> {
    let own = centre.sides[side].line;
    let corners = centre.corners();
    let from = *corners.get(side)? + own.unit() * at_in;
    let turn = Turn::from_degrees(deg);
    let line = Line::from_point(from, own.direction().then(turn));
    let area = polygon::area(&clip_half_plane(&corners, line.reversed(), DECISION));
    let mut after = centre.clone();
    let name = Name::new(Mark(centre.next_mark), 0);
    let trim = Trim { top: centre.top, side: centre.sides[side].name, at_in, turn, area };
    after.next_mark += 1;
    after.trimmed_area += area;
    after.sides = sides_after(centre, &corners, line, name, allowance)?;
    thin(&mut after, line, allowance, limits)?;
    Some((trim, after))
}

/// The sides that remain, with the cut among them.
fn sides_after(
    centre: &Centre,
    corners: &[Point],
    line: Line,
    name: Name,
    allowance: f64,
) -> Option<Vec<Side>> {
    let n = centre.sides.len();
    let inside = |p: Point| line.inside_by(p) > DECISION;
    let mut sides = Vec::with_capacity(n + 1);
    let mut cut_along = Vec::new();
    for i in 0..n {
        let (from, to) = (corners[i], corners[(i + 1) % n]);
        if inside(from) || inside(to) {
            sides.push(centre.sides[i].clone());
        }
        if !inside(to) && inside(from) {
            sides.push(Side { name, line, along: Vec::new() });
        }
    }
    let rail = line.inward(allowance);
    for i in 0..centre.placed.len() {
        let shape = &centre.placed.get(i).shape;
        let on: Vec<f64> = crossings(shape, rail);
        if let [.., _] = on[..] {
            let (from, to) =
                on.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), t| (a.min(*t), b.max(*t)));
            cut_along.push(Along { from, to, placed: i });
        }
    }
    cut_along.sort_by(|a, b| a.from.total_cmp(&b.from));
    let made = sides.iter_mut().find(|side| side.name == name)?;
    made.along = cut_along;
    (sides.len() >= 3).then_some(sides)
}

/// Where a line crosses the outline of a shape, along the line.
fn crossings(shape: &[Point], line: Line) -> Vec<f64> {
    polygon::edges(shape)
        .filter_map(|(a, b)| {
            let (da, db) = (line.inside_by(a), line.inside_by(b));
            (da * db < 0.0).then(|| line.along(a.lerp(b, da / (da - db))))
        })
        .collect()
}

/// Trims the finished shapes along the cut; `None` when one gets too thin or too sharp.
fn thin(after: &mut Centre, line: Line, allowance: f64, limits: Limits) -> Option<()> {
    let rail = line.inward(allowance);
    for i in 0..after.placed.len() {
        let old = after.placed.get(i).clone();
        if old.shape.iter().all(|&p| rail.inside_by(p) >= -DECISION) {
            continue;
        }
        let shape = clip_half_plane(&old.shape, rail, DECISION);
        let sound = shape.len() > 2
            && polygon::least_width(&shape) >= limits.thin_in + 1e-6
            && sharpest_deg(&shape) >= limits.sharp_deg;
        if !sound {
            return None;
        }
        let (area, centroid) = (polygon::area(&shape), polygon::centroid(&shape)?);
        after.recount(i, shape, area, centroid);
    }
    Some(())
}
