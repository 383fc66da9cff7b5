//! Shapes of what could be sewn onto a side: depth, tilt of the outer edge, and flanks that run on
//! in line with the neighbours or lean in.

use crate::centre::Centre;
use crate::size;
use crate::target::{Course, Target};
use crate::weights;
use plane::{Line, Point, Turn};

/// How a flank of the new piece runs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Flank {
    /// In line with the neighbouring side, which gets longer.
    Flush,
    /// Leaning in by so many degrees from the neighbouring side: a new side.
    Lean(f64),
}

/// How far beyond the chord a leaning flank starts, in inches along the neighbouring side.
const LEAN_START_IN: f64 = 0.12;

/// A shape for one side, as lines. All run counter-clockwise round the new piece's own outline or
/// the centre's.
#[derive(Clone, Debug)]
pub(crate) struct Shape {
    /// Index of the side it goes on.
    pub(crate) side: usize,
    pub(crate) allowance: f64,
    pub(crate) depth: f64,
    pub(crate) flanks: [Flank; 2],
    /// The seam line, inside towards the centre.
    pub(crate) seam: Line,
    /// Middle of the centre's chord along the seam line.
    pub(crate) chord_middle: f64,
    /// The outer edge, raw, inside towards the centre.
    pub(crate) outer: Line,
    /// Lines of the flanks at the start and end of the side, raw, inside towards the centre.
    pub(crate) flank_lines: [Line; 2],
    /// Score of the outline that it leads to, and its parts.
    pub(crate) cost: f64,
    pub(crate) parts: ShapeParts,
}

/// Parts of the score that follow from the outline alone; each 0 (good) to about 1.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct ShapeParts {
    /// Unevenness of the outline.
    pub(crate) round: f64,
    /// How hard the new sides will be to sew on.
    pub(crate) growable: f64,
    /// How far the side gets ahead of the others, or stays behind.
    pub(crate) pace: f64,
    /// How one-sided the directions of the seams are.
    pub(crate) directions: f64,
    /// How long a straight line the seam makes inside the finished piece.
    pub(crate) line: f64,
}

/// How much a patch is cut wider than a flank that is trimmed in line after sewing, in inches.
pub(crate) const OVERHANG_IN: f64 = 0.125;

impl Shape {
    /// The line along which a flank is cut: a leaning one as it is, the other with some to spare.
    pub(crate) fn flank_as_cut(&self, end: usize) -> Line {
        match self.flanks[end] {
            Flank::Flush => self.flank_lines[end].inward(-OVERHANG_IN),
            Flank::Lean(_) => self.flank_lines[end],
        }
    }
}

const TILTS_DEG: [f64; 9] = [-15.0, -11.0, -7.0, -3.5, 0.0, 3.5, 7.0, 11.0, 15.0];
const FINE_DEPTHS: [f64; 5] = [0.45, 0.55, 0.7, 0.85, 1.0];
const DEPTHS: [f64; 4] = [0.7, 0.85, 1.0, 1.18];

/// What shaping needs to know.
pub(crate) struct Shaping<'a> {
    pub(crate) centre: &'a Centre,
    pub(crate) target: &'a Target,
    pub(crate) allowance: f64,
    /// How much roundness counts to the maker.
    pub(crate) round: f64,
    /// Depth and tilt that the maker wants, if any: finished inches and degrees.
    pub(crate) depth_in: Option<f64>,
    pub(crate) tilt_deg: Option<f64>,
    /// Whether shallow pieces are looked at as well.
    pub(crate) finer: bool,
}

/// The declared grid of shapes for a side, with their scores, best first.
pub(crate) fn shapes(how: &Shaping, side: usize) -> Vec<Shape> {
    let centre = how.centre;
    let depths: Vec<f64> = match (how.depth_in, course_of(centre, how.target, side, how.allowance)) {
        (Some(depth), _) => vec![depth],
        (None, Some(course)) if how.finer => FINE_DEPTHS.map(|share| share * course.depth).to_vec(),
        (None, Some(course)) if course.left > 1 => {
            DEPTHS.iter().map(|share| share * course.depth).filter(|depth| course.allows(*depth)).collect()
        }
        (None, Some(course)) => vec![course.depth],
        (None, None) => return Vec::new(),
    };
    let tilts = how.tilt_deg.map_or_else(|| TILTS_DEG.to_vec(), |tilt| vec![tilt]);
    let exterior =
        [corner_deg(centre, centre.before(side), side), corner_deg(centre, side, centre.after(side))];
    let flanks = exterior.map(|deg| {
        if deg >= LEAST_LEAN_DEG { vec![Flank::Flush, Flank::Lean(deg / 2.0)] } else { vec![Flank::Flush] }
    });
    let mut found = Vec::new();
    for &depth in &depths {
        for &tilt in &tilts {
            for &start in &flanks[0] {
                for &end in &flanks[1] {
                    found.extend(shape(how, side, depth, tilt, [start, end]));
                }
            }
        }
    }
    found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    found
}

/// Least turn of a corner, in degrees, at which a flank may lean in.
const LEAST_LEAN_DEG: f64 = 54.0;

/// The course planned for a side.
pub(crate) fn course_of(centre: &Centre, target: &Target, side: usize, allowance: f64) -> Option<Course> {
    let line = centre.sides[side].line;
    let done = line.inside_by(centre.middle) - allowance;
    target.course(done, target.reach(-line.normal.vec()))
}

/// The turn of the outline from side `i` to side `j`, in degrees.
fn corner_deg(centre: &Centre, i: usize, j: usize) -> f64 {
    let (a, b) = (centre.sides[i].line, centre.sides[j].line);
    a.turn_sine(b).atan2(a.turn_cosine(b)).to_degrees()
}

/// One shape, if it leaves a sound outline.
fn shape(how: &Shaping, side: usize, depth: f64, tilt_deg: f64, flanks: [Flank; 2]) -> Option<Shape> {
    let (centre, allowance) = (how.centre, how.allowance);
    let before = centre.sides[centre.before(side)].line;
    let after = centre.sides[centre.after(side)].line;
    let own = centre.sides[side].line;
    let seam = own.inward(allowance);
    let (c0, c1) = (before.crossing(seam)?, after.crossing(seam)?);
    let middle = c0.midpoint(c1) - own.normal.vec() * (depth + allowance);
    let outer = Line::from_point(middle, own.direction().then(Turn::from_degrees(tilt_deg)));
    let lines = [
        match flanks[0] {
            Flank::Flush => before,
            Flank::Lean(deg) => Line::from_point(
                c0 + before.unit() * LEAN_START_IN,
                before.direction().then(Turn::from_degrees(deg)),
            ),
        },
        match flanks[1] {
            Flank::Flush => after,
            Flank::Lean(deg) => Line::from_point(
                c1 - after.unit() * LEAN_START_IN,
                after.direction().then(Turn::from_degrees(-deg)),
            ),
        },
    ];
    let mut shape = Shape {
        side,
        allowance,
        depth,
        flanks,
        seam,
        chord_middle: seam.along(c0.midpoint(c1)),
        outer,
        flank_lines: lines,
        cost: 0.0,
        parts: ShapeParts::default(),
    };
    judge(how, &mut shape)?;
    Some(shape)
}

/// The outline after sewing a shape on: the lines in order, starting with the outer edge.
fn outline_after(centre: &Centre, shape: &Shape) -> Vec<Line> {
    let n = centre.sides.len();
    let mut lines = vec![shape.outer];
    if matches!(shape.flanks[1], Flank::Lean(_)) {
        lines.push(shape.flank_lines[1]);
    }
    lines.extend((1..n).map(|i| centre.sides[(shape.side + i) % n].line));
    if matches!(shape.flanks[0], Flank::Lean(_)) {
        lines.push(shape.flank_lines[0]);
    }
    lines
}

/// Least raw length of a side, and least and most turn of a corner in degrees, of an outline that
/// can be grown on. Towards an outline with sharper corners than that the turns may be as sharp as
/// its own and a little more.
const LEAST_SIDE_IN: f64 = 0.7;
const LEAST_TURN_DEG: f64 = 22.0;
const MOST_TURN_DEG: f64 = 112.0;
const MORE_TURN_DEG: f64 = 8.0;

/// Scores the outline that a shape leads to; `None` when it can't be grown on.
fn judge(how: &Shaping, shape: &mut Shape) -> Option<()> {
    let Shaping { centre, target, allowance, .. } = *how;
    let lines = outline_after(centre, shape);
    let n = lines.len();
    let most_turn = MOST_TURN_DEG.max(target.sharpest_turn_deg + MORE_TURN_DEG);
    let mut corners = Vec::with_capacity(n);
    let mut turns = Vec::with_capacity(n);
    for i in 0..n {
        let (a, b) = (lines[(i + n - 1) % n], lines[i]);
        let turn = a.turn_sine(b).atan2(a.turn_cosine(b)).to_degrees();
        if !(LEAST_TURN_DEG..=most_turn).contains(&turn) {
            return None;
        }
        turns.push(turn);
        corners.push(a.crossing(b)?);
    }
    for i in 0..n {
        if lines[i].along(corners[(i + 1) % n]) - lines[i].along(corners[i]) < LEAST_SIDE_IN {
            return None;
        }
    }
    let growable = growable(centre, target, &lines, &corners, &turns, allowance);
    let round = unevenness(centre, target, &corners, &turns, allowance) + askew(centre, target, shape);
    let ahead = pace(centre, target, shape, allowance);
    let directions = direction_share(centre, shape);
    let line = long_line(centre, target, shape);
    shape.parts = ShapeParts { round, growable, pace: ahead, directions, line };
    shape.cost = how.round * (weights::ROUND * round + weights::PACE * ahead)
        + weights::GROWABLE * growable
        + weights::DIRECTIONS * directions
        + weights::LINE * line;
    Some(())
}

/// For each side, how short the top of a wedge of the wished depth on it would be.
fn growable(
    centre: &Centre,
    target: &Target,
    lines: &[Line],
    corners: &[Point],
    turns: &[f64],
    allowance: f64,
) -> f64 {
    let n = lines.len();
    let way = |i: usize| {
        let done = lines[i].inside_by(centre.middle) - allowance;
        (done, target.reach(-lines[i].normal.vec()))
    };
    let courses: Vec<_> = (0..n).map(|i| target.course(way(i).0, way(i).1)).collect();
    let share = |i: usize| way(i).0 / way(i).1.max(1e-6);
    // A neighbour that is due no later than this side makes it longer first.
    let gain = |i: usize, j: usize, turn: f64| match courses[j] {
        Some(course) if share(j) < share(i) + 0.02 => course.depth / turn.to_radians().sin(),
        _ => 0.0,
    };
    let cot = |deg: f64| 1.0 / deg.to_radians().tan();
    let mut cost = 0.0;
    for i in 0..n {
        let Some(course) = courses[i] else { continue };
        let (before, after) = ((i + n - 1) % n, (i + 1) % n);
        let length =
            corners[i].distance(corners[after]) + gain(i, before, turns[i]) + gain(i, after, turns[after]);
        let top = length - course.depth * (cot(turns[i]) + cot(turns[after]));
        let short = (1.0 - top / (0.9 * course.depth).max(0.8)).max(0.0);
        let sharp = ((32.0 - turns[i]) / 12.0).max(0.0);
        cost += short * short + sharp * sharp;
    }
    (cost / 2.0).min(2.0)
}

/// How uneven the corners are: sd over mean of their distance from the middle, each as a share of
/// the way, and of the turns.
fn unevenness(centre: &Centre, target: &Target, corners: &[Point], turns: &[f64], allowance: f64) -> f64 {
    let n = corners.len() as f64;
    let shares: Vec<f64> = corners.iter().map(|c| target.share(*c - centre.middle)).collect();
    let mean = shares.iter().sum::<f64>() / n;
    let spread = (shares.iter().map(|s| (s - mean).powi(2)).sum::<f64>() / n).sqrt();
    let even = 360.0 / n;
    let turning = (turns.iter().map(|t| ((t - even) / even).powi(2)).sum::<f64>() / n).sqrt();
    // Early outlines are small: a course of unevenness is natural there.
    let inside = mean * target.radius - allowance;
    let natural = 0.25 * target.size(mean) / inside.max(0.5);
    let wished = (4.5 + 5.0 * mean).min(target.sides as f64);
    let poor_count = (n - wished).abs() - 0.6;
    ((spread / mean.max(1e-6) - natural).max(0.0) / 0.08 + 0.5 * turning + 0.5 * poor_count.max(0.0)).min(3.0)
}

/// How far the new outer edge is turned from the nearest side of an outline that is to be cut: what
/// lies askew is cut off again. It counts more the further out.
fn askew(centre: &Centre, target: &Target, shape: &Shape) -> f64 {
    if !size::is_cut(target) {
        return 0.0;
    }
    let outward = -shape.outer.normal.vec();
    let share = shape.outer.inside_by(centre.middle) / target.reach(outward).max(1e-6);
    target.askew_deg(outward) / ASKEW_DEG * share
}

/// So much askew at the rim counts as much as an uneven outline.
const ASKEW_DEG: f64 = 20.0;

/// How far the new side lies beyond where it should be by now, in courses, against the mean of
/// the others.
fn pace(centre: &Centre, target: &Target, shape: &Shape, allowance: f64) -> f64 {
    let share =
        |line: Line| (line.inside_by(centre.middle) - allowance) / target.reach(-line.normal.vec()).max(1e-6);
    let new = share(shape.outer);
    let others = centre.sides.iter().enumerate().filter(|(i, _)| *i != shape.side);
    let (sum, count) = others.fold((0.0, 0.0), |(s, c), (_, side)| (s + share(side.line), c + 1.0));
    let course = target.size(new) / target.radius.max(1e-6);
    let past = (new - 1.0).max(0.0) * target.radius / 0.25;
    ((new - sum / count - course).max(0.0) / course + past).min(3.0)
}

/// How much of the seams' length already runs in the direction of the new seam and outer edge.
fn direction_share(centre: &Centre, shape: &Shape) -> f64 {
    let total: f64 = centre.directions.iter().sum();
    if total < 1.0 {
        return 0.0;
    }
    let share = |line: Line| centre.directions[crate::centre::direction_bin(line.unit())] / total * 12.0;
    ((share(shape.outer) - 1.0) / 2.0).clamp(0.0, 1.0)
}

/// How far the seam is longer than it may be inside the finished piece.
fn long_line(centre: &Centre, target: &Target, shape: &Shape) -> f64 {
    let ends = shape.flank_lines.map(|line| line.crossing(shape.seam));
    let [Some(a), Some(b)] = ends else { return 0.0 };
    let middle = target.share(a.midpoint(b) - centre.middle);
    let fade = ((0.85 - middle) / 0.2).clamp(0.0, 1.0);
    fade * (a.distance(b) / (0.66 * target.radius) - 1.0).clamp(0.0, 1.5)
}
