//! Joins along a long edge, each chosen against the one before it.
//!
//! A handful of patterns of leaning joins are tried first. With many scraps in a row it happens that
//! some cell of every pattern breaks a limit; then a row of joins is found station by station: each station has a few places and leans, of all rows that lead to one
//! of them the cheapest is kept, and of these the [`KEPT`] cheapest go on.

use crate::shape::Shape;
use crate::split::{self, Splitting};
use crate::weights;
use plane::{Line, Turn};

/// Leans of a join from square, in degrees.
const LEANS_DEG: [f64; 4] = [-29.0, -19.0, 19.0, 29.0];

/// How far a join may slide from its station, in mean widths of a cell.
const SLIDES: [f64; 3] = [0.0, 0.13, -0.13];

/// How much of a flank's lean the joins next to it take on, the nearest first.
const LIKE_FLANK: [f64; 3] = [0.7, 0.45, 0.25];

/// Rows that go on from a station.
const KEPT: usize = 8;

/// Least difference of lean between neighbouring joins, in degrees: what lies between is a wedge.
const WEDGE_DEG: f64 = 14.0;

/// How far a join keeps from older seams' ends, in allowances.
const CLEAR: f64 = 1.4;

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
pub(crate) fn row(how: &Splitting, shape: &Shape, count: usize) -> Option<Vec<Line>> {
    let stations = stations(how, shape, count)?;
    // Mean scores are compared, as the unit's own score is the mean over its cells.
    let cell = |start: Option<Line>, end: Option<Line>| {
        split::cell(how, shape, start, end.map(Line::reversed)).map(|cell| how.cell_cost(&cell))
    };
    let mut rows: Vec<Vec<Reached>> = Vec::with_capacity(stations.len());
    for joins in stations {
        let reached = joins.into_iter().filter_map(|join| {
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

/// For each station the joins that it offers.
fn stations(how: &Splitting, shape: &Shape, count: usize) -> Option<Vec<Vec<Join>>> {
    let (low, high) = split::ends(shape)?;
    let across = shape.seam.direction();
    let outward = across.left().opposite();
    let half = shape.depth / 2.0;
    // Run of a flank along the seam for each inch outward.
    let run = |line: Line| {
        let out = line.direction().vec().dot(outward.vec());
        if out.abs() < 1e-6 { 0.0 } else { line.direction().vec().dot(across.vec()) / out }
    };
    let runs = shape.flank_lines.map(run);
    let (from, to) = (low + runs[0] * half, high + runs[1] * half);
    let share = 1.0 / count as f64;
    let station = |i: usize| {
        let like =
            |near: usize, end: usize| LIKE_FLANK.get(near).map(|much| runs[end].atan().to_degrees() * much);
        let flanks = [like(i - 1, 0), like(count - 1 - i, 1)];
        let leans: Vec<f64> = LEANS_DEG.into_iter().chain(flanks.into_iter().flatten()).collect();
        let mut joins: Vec<Join> = Vec::with_capacity(leans.len() * SLIDES.len());
        for slide in SLIDES {
            let at =
                shape.seam.point_at(from + (to - from) * share * (i as f64 + slide)) + outward.vec() * half;
            for &lean_deg in &leans {
                let line = Line::from_point(at, outward.then(Turn::from_degrees(lean_deg)));
                let line = clear(how, shape, line);
                let near =
                    split::near_older(how, shape, line).map(|near| weights::STACKED * count as f64 * near);
                joins.extend(near.map(|near| Join { line, lean_deg, near }));
            }
        }
        joins
    };
    Some((1..count).map(station).collect())
}

/// A join slid along the seam until it clears the end of the older seam nearest to it.
pub(crate) fn clear(how: &Splitting, shape: &Shape, join: Line) -> Line {
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
