//! Joins across a shape: where they are placed, and how they lean.
//!
//! A handful of patterns of leaning joins are tried first. With many scraps in a row it happens that
//! some cell of every pattern breaks a limit; then a row of joins is found station by station: each
//! station has a few places and leans, of all rows that lead to one of them the cheapest is kept,
//! and of these the [`KEPT`] cheapest go on.

use crate::shape::Shape;
use crate::split::{self, Splitting, USUAL_CELLS};
use crate::weights;
use plane::{Line, Turn};

/// Leans of the joins from square, in degrees, taken in turn: wedges come from leaning to and fro.
const PATTERNS: [[f64; 4]; 6] = [
    [24.0, -24.0, 24.0, -24.0],
    [-24.0, 24.0, -24.0, 24.0],
    [17.0, -30.0, 20.0, -26.0],
    [-17.0, 30.0, -20.0, 26.0],
    [32.0, -17.0, 30.0, -18.0],
    [-32.0, 17.0, -30.0, 18.0],
];

/// How far a join may slide from its place, in mean widths of a cell.
const SLIDES: [f64; 3] = [0.0, 0.13, -0.13];

/// Leans of a join of a row from square, in degrees.
const LEANS_DEG: [f64; 4] = [-29.0, -19.0, 19.0, 29.0];

/// How much of a flank's lean the joins next to it take on, the nearest first.
const LIKE_FLANK: [f64; 3] = [0.7, 0.45, 0.25];

/// Rows that go on from a station.
const KEPT: usize = 8;

/// Least difference of lean between neighbouring joins, in degrees: what lies between is a wedge.
const WEDGE_DEG: f64 = 14.0;

/// How far a join keeps from older seams' ends, in allowances.
const CLEAR: f64 = 1.4;

/// A shape as joins see it. They are placed where it is half as deep, so that leaning does not starve
/// one cell.
pub(crate) struct Across<'a> {
    shape: &'a Shape,
    /// Where the seam starts and ends along its line.
    pub(crate) ends: [f64; 2],
    outward: Turn,
    /// Half the shape's depth.
    half: f64,
    /// How far each flank runs along the seam for each inch outward.
    runs: [f64; 2],
    /// Where the shape starts and ends half as deep.
    middle: [f64; 2],
}

impl<'a> Across<'a> {
    pub(crate) fn of(shape: &'a Shape) -> Option<Self> {
        let seam = shape.seam;
        let at = |line: Line| seam.crossing(line).map(|p| seam.along(p));
        let ends = [at(shape.flank_lines[0])?, at(shape.flank_lines[1])?];
        let (along, half) = (seam.direction(), shape.depth / 2.0);
        let outward = along.left().opposite();
        let runs = shape.flank_lines.map(|line| {
            let out = line.direction().vec().dot(outward.vec());
            if out.abs() < 1e-6 { 0.0 } else { line.direction().vec().dot(along.vec()) / out }
        });
        let middle = [ends[0] + runs[0] * half, ends[1] + runs[1] * half];
        Some(Self { shape, ends, outward, half, runs, middle })
    }

    /// The join at a share of the way, leaning so far from square.
    fn join(&self, share: f64, lean_deg: f64) -> Line {
        let [from, to] = self.middle;
        let at = self.shape.seam.point_at(from + (to - from) * share) + self.outward.vec() * self.half;
        Line::from_point(at, self.outward.then(Turn::from_degrees(lean_deg)))
    }
}

/// The patterns of joins that part a shape into so many cells, at least two.
pub(crate) fn patterned<'a>(
    how: &'a Splitting<'a>,
    across: &'a Across<'a>,
    count: usize,
) -> impl Iterator<Item = Vec<Line>> + 'a {
    PATTERNS.iter().flat_map(move |pattern| {
        SLIDES.iter().map(move |slide| {
            let join = |i: usize| {
                let share = (i as f64 + slide * if i.is_multiple_of(2) { -1.0 } else { 1.0 }) / count as f64;
                let join = across.join(share, pattern[(i - 1) % 4]);
                if count > USUAL_CELLS { clear(how, across.shape, join) } else { join }
            };
            (1..count).map(join).collect()
        })
    })
}

/// A join that a station offers.
#[derive(Clone, Copy)]
struct Join {
    line: Line,
    lean_deg: f64,
    /// What older seams' ends near it cost.
    near: f64,
}

/// A join at a station, and the cheapest row that leads to it.
struct Reached {
    join: Join,
    cost: f64,
    /// Which of the joins of the station before.
    from: usize,
}

/// The joins that part a shape into so many cells, or `None` when none do without breaking a limit.
pub(crate) fn row(how: &Splitting, across: &Across, count: usize) -> Option<Vec<Line>> {
    let cell = |start: Option<Line>, end: Option<Line>| {
        split::cell(how, across.shape, start, end.map(Line::reversed)).map(|cell| how.cell_cost(&cell))
    };
    let mut rows: Vec<Vec<Reached>> = Vec::with_capacity(count);
    for i in 1..count {
        let reached = station(how, across, i, count).into_iter().filter_map(|join| {
            let ways: Vec<(usize, f64)> = rows.last().map_or_else(
                || cell(None, Some(join.line)).map(|cost| (0, cost)).into_iter().collect(),
                |before| {
                    let wedge = |last: &Reached| (last.join.lean_deg - join.lean_deg).abs() >= WEDGE_DEG;
                    let way = |(i, last): (usize, &Reached)| {
                        Some((i, last.cost + cell(Some(last.join.line), Some(join.line))?))
                    };
                    before.iter().enumerate().filter(|(_, last)| wedge(last)).filter_map(way).collect()
                },
            );
            let (from, cost) = ways.into_iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
            Some(Reached { join, cost: cost + join.near, from })
        });
        let mut reached: Vec<Reached> = reached.collect();
        reached.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        reached.truncate(KEPT);
        rows.push(reached);
    }
    let ends = rows.last()?.iter().enumerate();
    let ended = ends.filter_map(|(i, last)| Some((i, last.cost + cell(Some(last.join.line), None)?)));
    let (mut at, _) = ended.min_by(|a, b| a.1.total_cmp(&b.1))?;
    let mut joins = Vec::with_capacity(rows.len());
    for row in rows.iter().rev() {
        joins.push(row[at].join.line);
        at = row[at].from;
    }
    joins.reverse();
    Some(joins)
}

/// The joins that a station offers.
fn station(how: &Splitting, across: &Across, i: usize, count: usize) -> Vec<Join> {
    let like = |near: usize, run: f64| LIKE_FLANK.get(near).map(|much| run.atan().to_degrees() * much);
    let flanks = [like(i - 1, across.runs[0]), like(count - 1 - i, across.runs[1])];
    let leans: Vec<f64> = LEANS_DEG.into_iter().chain(flanks.into_iter().flatten()).collect();
    let mut joins = Vec::with_capacity(leans.len() * SLIDES.len());
    for slide in SLIDES {
        for &lean_deg in &leans {
            let line = clear(how, across.shape, across.join((i as f64 + slide) / count as f64, lean_deg));
            let near = split::near_older(how, across.shape, line);
            joins.extend(near.map(|near| Join {
                line,
                lean_deg,
                near: weights::STACKED * count as f64 * near,
            }));
        }
    }
    joins
}

/// A join slid along the seam until it clears the end of the older seam nearest to it.
fn clear(how: &Splitting, shape: &Shape, join: Line) -> Line {
    let Some(meets) = shape.seam.crossing(join) else { return join };
    let at = shape.seam.along(meets);
    let gaps = how.centre.sides[shape.side].along.iter().map(|along| at - along.to);
    let nearest = gaps.filter(|gap| gap.is_finite()).min_by(|a, b| a.abs().total_cmp(&b.abs()));
    let wanted = CLEAR * shape.allowance;
    match nearest {
        Some(gap) if gap.abs() < wanted => {
            let by = if gap < 0.0 { -wanted - gap } else { wanted - gap };
            Line::from_point(shape.seam.point_at(at + by), join.direction())
        }
        _ => join,
    }
}
