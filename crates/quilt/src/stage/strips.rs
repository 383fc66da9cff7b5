//! The strips of a border or a ring: the shape each is cut to, whatever it is made of.
//!
//! A strip lies outside its side's seam line, which runs the allowance s inside the raw edge. It
//! reaches from s inside that line (its own allowance, folded under) to `sewn` outside it: it is cut
//! `sewn + s` wide. Sewn one after the other, a strip ends in line with its neighbours' edges as they
//! are then: raw sides, or outer edges of strips sewn before. Mitred, it ends s beyond its mitres.
//! At the seam line the strips of every order but the mitred come to the same length in all,
//! `P − 2s Σ cot A + (W − 2s) Σ 1/sin A` with W the cut width; the longest of them doesn't.
//!
//! A strip's own coordinates: x along it from the end of its side to the start, as it lies when it is
//! turned over to be sewn, y outward from its raw edge. Side 0 is sewn, side 2 becomes the outer edge.

use super::piece::{Piece, PieceSide};
use super::strip_problem::StripProblem;
use plane::{Line, Point, Pose, READING, polygon};
use serde::{Deserialize, Serialize};

/// In which order strips are sewn round a piece.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Order {
    /// First sides of which no two are neighbours, the longest in total, then those between.
    #[default]
    ApartFirst,
    /// Each in turn.
    InTurn,
    /// Each in turn, the first seam sewn in part and closed at the end: all corners look alike.
    InTurnPartial,
    /// All, with mitred corners.
    Mitred,
}

impl Order {
    /// Every order.
    pub const ALL: [Self; 4] = [Self::ApartFirst, Self::InTurn, Self::InTurnPartial, Self::Mitred];
}

/// How much of the first seam stays open at most, in inches, when it is sewn in part (common
/// practice, no source).
const OPEN_IN: f64 = 2.0;

/// One strip.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Strip {
    /// Which side it is sewn to, from 0.
    pub side: usize,
    /// The shape it is cut to, in its own coordinates, counter-clockwise: corner 0 at the end of the
    /// side, corner 1 at its start, then the outer edge.
    pub cut: [Point; 4],
    /// From its own coordinates to where it lies beside the piece.
    pub lies: Pose,
    /// Cut width in inches: from raw edge to raw edge.
    pub cut_wide_in: f64,
    /// Cut length in inches of its sewn edge.
    pub cut_inner_in: f64,
    /// Cut length in inches of its outer edge.
    pub cut_outer_in: f64,
    /// Length in inches that a bar must have for it to be cut from, square ends.
    pub cut_bar_in: f64,
    /// Length in inches along the seam line, its ends in line with its neighbours; mitred, from
    /// inner corner to inner corner.
    pub seam_in: f64,
    /// Angle in degrees between its outer edge and its end, at the start of the side.
    pub start_deg: f64,
    /// The same at the end of the side.
    pub end_deg: f64,
    /// Inches of the seam left open at the start of the side, where the first seam is sewn in part.
    pub open_in: Option<f64>,
    /// How far the middle of its own seam line lies beyond that of the side's, in inches.
    pub slide_in: f64,
}

impl Strip {
    /// Area of the cut shape in square inches.
    #[must_use]
    pub fn cut_sq_in(&self) -> f64 {
        polygon::area(&self.cut)
    }
}

/// One value for each side, from one for all or one for each.
pub(super) fn spread(values: &[f64], sides: usize) -> Result<Vec<f64>, StripProblem> {
    match values {
        [one] => Ok(vec![*one; sides]),
        _ if values.len() == sides => Ok(values.to_vec()),
        _ => Err(StripProblem::Widths { given: values.len(), sides }),
    }
}

/// Whether a width is a number and can be told from a smaller one with a ruler.
pub(super) fn exceeds(width_in: f64, least_in: f64) -> bool {
    width_in.is_finite() && width_in > least_in + READING
}

/// The lines along which strips are sewn and end.
pub(super) struct Lines {
    pub(super) raw: Vec<Line>,
    pub(super) seam: Vec<Line>,
    pub(super) outer: Vec<Line>,
}

impl Lines {
    pub(super) fn of(piece: &Piece, sewn_in: &[f64], allowance_in: f64) -> Result<Self, StripProblem> {
        if !(0.0..=2.0).contains(&allowance_in) {
            return Err(StripProblem::Allowance(allowance_in));
        }
        let most_in = polygon::least_width(&piece.corners());
        for (i, &width_in) in sewn_in.iter().enumerate() {
            let side = i + 1;
            if !exceeds(width_in, allowance_in) {
                return Err(StripProblem::TooNarrow { side, width_in, least_in: allowance_in });
            }
            if width_in > most_in {
                return Err(StripProblem::TooWide { side, width_in, most_in });
            }
        }
        let raw: Vec<Line> = piece.sides.iter().map(|side| side.line).collect();
        let seam: Vec<Line> = raw.iter().map(|line| line.inward(allowance_in)).collect();
        let outer: Vec<Line> = seam.iter().zip(sewn_in).map(|(line, width)| line.inward(-width)).collect();
        if let Some((i, _)) = first_lost(&seam) {
            let length_in = piece.sides[i].length_in();
            return Err(StripProblem::SideTooShort { side: i + 1, length_in, allowance_in });
        }
        if let Some((i, missing_in)) = first_lost(&outer) {
            return Err(StripProblem::ComesToAPoint { side: i + 1, missing_in });
        }
        Ok(Self { raw, seam, outer })
    }

    fn count(&self) -> usize {
        self.raw.len()
    }
}

/// Corners of an outline given by its lines: corner `i` is where line `i` starts.
pub(super) fn corners_of(lines: &[Line]) -> Vec<Point> {
    let n = lines.len();
    (0..n).filter_map(|i| lines[(i + n - 1) % n].crossing(lines[i])).collect()
}

/// The first line that has no length among its neighbours, and how much is missing.
fn first_lost(lines: &[Line]) -> Option<(usize, f64)> {
    let corners = corners_of(lines);
    let n = lines.len();
    (0..n).find_map(|i| {
        let (from, to) = (corners.get(i)?, corners.get((i + 1) % n)?);
        let long = lines[i].along(*to) - lines[i].along(*from);
        (long <= READING).then_some((i, -long))
    })
}

/// The strips round a piece in the order of sewing. `sewn_in` are widths from the seam to the raw
/// edge, one for each side; `aim_in` is how far inside the outer edges mitres aim; the turn round the
/// piece begins at side `first`, from 0.
///
/// # Errors
/// A width, side or allowance that makes no sense, a side too short to sew, a strip that comes to a
/// point.
pub fn strips(
    piece: &Piece,
    sewn_in: &[f64],
    aim_in: f64,
    order: Order,
    first: usize,
    allowance_in: f64,
) -> Result<Vec<Strip>, StripProblem> {
    let sides = piece.sides.len();
    let sewn_in = spread(sewn_in, sides)?;
    if first >= sides {
        return Err(StripProblem::NoSide { given: first + 1, sides });
    }
    let lines = Lines::of(piece, &sewn_in, allowance_in)?;
    let made = match order {
        Order::Mitred => mitred(&lines, aim_in, first, allowance_in),
        Order::ApartFirst => as_they_go(&lines, &apart_first(piece, &lines, allowance_in), allowance_in),
        Order::InTurn => in_order(&lines, &turn_from(first, sides), allowance_in),
        Order::InTurnPartial => partial(&lines, &turn_from(first, sides), allowance_in),
    };
    made.into_iter().collect()
}

fn turn_from(first: usize, sides: usize) -> Vec<usize> {
    (0..sides).map(|i| (first + i) % sides).collect()
}

/// Sides of which no two are neighbours, the longest in total, then the others. A side on which a
/// strip would come to a point between its neighbours' raw edges waits for theirs.
fn apart_first(piece: &Piece, lines: &Lines, allowance_in: f64) -> Vec<usize> {
    let can_be_first = |i: &usize| next_strip(lines, &lines.raw, *i, allowance_in).is_ok();
    let worth = |(i, side): (usize, &PieceSide)| if can_be_first(&i) { side.length_in() } else { 0.0 };
    let long: Vec<f64> = piece.sides.iter().enumerate().map(worth).collect();
    let n = long.len();
    // Best choice along an open chain of sides, by whether the chain may use its last one.
    let chain = |from: usize, to: usize| -> (f64, Vec<usize>) {
        let (mut before, mut best) = ((0.0, Vec::new()), (0.0, Vec::new()));
        for (i, worth) in long.iter().enumerate().take(to).skip(from) {
            let mut with: (f64, Vec<usize>) = before.clone();
            with.0 += worth;
            with.1.push(i);
            before = best.clone();
            if with.0 > best.0 + READING {
                best = with;
            }
        }
        best
    };
    let (without_last, without_first) = (chain(0, n - 1), chain(1, n));
    let set = if without_first.0 > without_last.0 + READING { without_first.1 } else { without_last.1 };
    let between = (0..n).filter(|i| !set.contains(i));
    set.iter().copied().chain(between).collect()
}

/// The strip on side `i` when the outline's edges lie along `edges`.
fn next_strip(lines: &Lines, edges: &[Line], i: usize, allowance_in: f64) -> Result<Strip, StripProblem> {
    let n = lines.count();
    let beside = [(i + n - 1) % n, (i + 1) % n];
    let flanks = beside.map(|k| edges[k]);
    let chord = chord(lines.seam[i], flanks);
    check_beside(lines, edges, i)?;
    strip(lines, i, flanks, chord, chord, allowance_in)
}

/// Whether the edges beside side `i` reach deeper than its seam: else it would swallow them.
fn check_beside(lines: &Lines, edges: &[Line], i: usize) -> Result<(), StripProblem> {
    let n = lines.count();
    for (beside, beyond) in [((i + n - 1) % n, (i + n - 2) % n), ((i + 1) % n, (i + 2) % n)] {
        let deep = edges[beside].crossing(edges[beyond]).map_or(0.0, |p| lines.seam[i].inside_by(p));
        if deep <= READING {
            let (side, missing_in) = (beside + 1, -deep);
            return Err(if edges[beside] == lines.raw[beside] {
                StripProblem::Swallowed { side, by: i + 1, missing_in }
            } else {
                StripProblem::ComesToAPoint { side, missing_in }
            });
        }
    }
    Ok(())
}

fn in_order(lines: &Lines, order: &[usize], allowance_in: f64) -> Vec<Result<Strip, StripProblem>> {
    let mut edges = lines.raw.clone();
    let sewn = |&i: &usize| {
        let made = next_strip(lines, &edges, i, allowance_in);
        edges[i] = lines.outer[i];
        made
    };
    order.iter().map(sewn).collect()
}

/// In the order given, but that a strip which would come to a point waits for others.
fn as_they_go(lines: &Lines, order: &[usize], allowance_in: f64) -> Vec<Result<Strip, StripProblem>> {
    let mut edges = lines.raw.clone();
    let mut waiting = order.to_vec();
    let mut made = Vec::with_capacity(order.len());
    while !waiting.is_empty() {
        let can = |i: &usize| next_strip(lines, &edges, *i, allowance_in).is_ok();
        let i = waiting.remove(waiting.iter().position(can).unwrap_or(0));
        made.push(next_strip(lines, &edges, i, allowance_in));
        edges[i] = lines.outer[i];
    }
    made
}

/// The first strip reaches over the end of the last, which ends against its free part.
fn partial(lines: &Lines, order: &[usize], allowance_in: f64) -> Vec<Result<Strip, StripProblem>> {
    let n = lines.count();
    let (first, last) = (order[0], order[n - 1]);
    let mut made = in_order(lines, order, allowance_in);
    let next = (first + 1) % n;
    let over = [lines.outer[last], lines.raw[next]];
    let side = chord(lines.seam[first], [lines.raw[last], lines.raw[next]]);
    let own =
        strip(lines, first, over, side, chord(lines.seam[first], over), allowance_in).map(|mut strip| {
            let sewn = side[1] - side[0];
            strip.open_in = Some(OPEN_IN.min(sewn / 2.0));
            strip
        });
    made[0] = check_beside(lines, &lines.raw, first).and(own);
    let before = (last + n - 1) % n;
    let against = [lines.outer[before], lines.raw[first]];
    let to_seam = chord(lines.seam[last], [lines.outer[before], lines.seam[first]]);
    let checked = made[n - 1].as_ref().map(|_| ()).map_err(Clone::clone);
    made[n - 1] = checked
        .and_then(|()| strip(lines, last, against, to_seam, chord(lines.seam[last], against), allowance_in));
    made
}

fn mitred(lines: &Lines, aim_in: f64, first: usize, allowance_in: f64) -> Vec<Result<Strip, StripProblem>> {
    let n = lines.count();
    let inner = corners_of(&lines.seam);
    let aimed: Vec<Line> = lines.outer.iter().map(|line| line.inward(aim_in)).collect();
    let out = corners_of(&aimed);
    if let Some((i, missing_in)) = first_lost(&aimed) {
        return vec![Err(StripProblem::ComesToAPoint { side: i + 1, missing_in })];
    }
    let mitre = |i: usize| Line::through(inner[i], out[i]);
    let one = |i: usize| {
        let next = (i + 1) % n;
        let missing = StripProblem::ComesToAPoint { side: i + 1, missing_in: 0.0 };
        let (Some(start), Some(end)) = (mitre(i), mitre(next)) else { return Err(missing) };
        let flanks = [start.inward(-allowance_in), end.reversed().inward(-allowance_in)];
        let line = lines.seam[i];
        let chord = [line.along(inner[i]), line.along(inner[next])];
        strip(lines, i, flanks, chord, chord, allowance_in)
    };
    turn_from(first, n).into_iter().map(one).collect()
}

/// Where a seam line starts and ends between two lines.
fn chord(seam: Line, flanks: [Line; 2]) -> [f64; 2] {
    flanks.map(|flank| seam.crossing(flank).map_or(0.0, |p| seam.along(p)))
}

/// A strip on side `i` that ends at `flanks`, the start of the side first. `side` is the chord of the
/// side along the seam line, `sewn` what of the strip counts as its length there.
fn strip(
    lines: &Lines,
    i: usize,
    flanks: [Line; 2],
    side: [f64; 2],
    sewn: [f64; 2],
    allowance_in: f64,
) -> Result<Strip, StripProblem> {
    let seam = lines.seam[i];
    let (raw, outer) = (seam.inward(allowance_in), lines.outer[i]);
    let lost = |missing_in: f64| StripProblem::ComesToAPoint { side: i + 1, missing_in };
    let at = |line: Line, end: usize| line.crossing(flanks[end]).ok_or_else(|| lost(0.0));
    let placed = [at(raw, 1)?, at(raw, 0)?, at(outer, 0)?, at(outer, 1)?];
    let along = |p: Point| seam.along(p);
    let outer_in = along(placed[3]) - along(placed[2]);
    let inner_in = along(placed[0]) - along(placed[1]);
    if outer_in.min(inner_in) <= READING {
        return Err(lost(-outer_in.min(inner_in)));
    }
    let own = chord(seam, flanks);
    let far = placed.iter().map(|&p| along(p)).fold(f64::NEG_INFINITY, f64::max);
    let lies = Pose::carrying(seam.direction().opposite(), Point::ORIGIN, raw.point_at(far));
    let cut = placed.map(|p| lies.inverse().apply(p));
    let bar = cut.iter().map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
    let angle = |a: Point, corner: Point, b: Point| {
        let (u, v) = (a - corner, b - corner);
        u.cross(v).abs().atan2(u.dot(v)).to_degrees()
    };
    Ok(Strip {
        side: i,
        cut,
        lies,
        cut_wide_in: raw.at - outer.at,
        cut_inner_in: inner_in,
        cut_outer_in: outer_in,
        cut_bar_in: bar,
        seam_in: sewn[1] - sewn[0],
        start_deg: angle(cut[1], cut[2], cut[3]),
        end_deg: angle(cut[0], cut[3], cut[2]),
        open_in: None,
        slide_in: f64::midpoint(own[0], own[1]) - f64::midpoint(side[0], side[1]),
    })
}
