//! Splitting a shape into scraps by joins that lean, and judging the cells.

use crate::centre::Centre;
use crate::joins::{self, Across};
use crate::shape::Shape;
use crate::target::Target;
use crate::weights;
use plane::{DECISION, Line, Point, clip_half_plane, polygon};
use quilt::wish::Limits;

/// One cell of a unit: one scrap.
#[derive(Clone, Debug)]
pub(crate) struct Cell {
    /// Cut shape, in the centre's coordinates, counter-clockwise: the first side is the one sewn
    /// onto the centre, then the side towards its start, the outer edge, and the side towards its
    /// end.
    pub(crate) cut: [Point; 4],
    /// Finished shape.
    pub(crate) finished: [Point; 4],
    pub(crate) area: f64,
    pub(crate) cut_area: f64,
    pub(crate) centroid: Point,
    pub(crate) parts: CellParts,
    /// Which of the cut's sides are free, so that scraps are cut with more to spare there.
    pub(crate) free: [bool; 4],
}

/// Parts of the score of one cell; each 0 (good) to about 1.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct CellParts {
    /// Long and thin.
    pub(crate) bar: f64,
    /// Two long sides nearly parallel.
    pub(crate) strip: f64,
    /// Larger or smaller than wished at its place.
    pub(crate) step: f64,
}

/// A shape with its joins.
#[derive(Clone, Debug)]
pub(crate) struct Unit {
    pub(crate) shape: Shape,
    /// Join lines in order from the side's start; running outward, inside towards the end.
    pub(crate) joins: Vec<Line>,
    pub(crate) cells: Vec<Cell>,
    /// How near its joins come to older joins, where layers stack up.
    pub(crate) stacked: f64,
    pub(crate) cost: f64,
}

/// Least width over greatest length of a piece that is not taken for a thread.
const LEAST_SLENDER: f64 = 0.19;

/// Most cells of one unit: a long edge of a large centre takes many.
pub(crate) const MOST_CELLS: usize = 48;

/// Up to so many cells the patterns suffice; the joins of longer edges are chosen one by one.
pub(crate) const USUAL_CELLS: usize = 5;

/// What splitting needs to know besides the shape.
pub(crate) struct Splitting<'a> {
    pub(crate) centre: &'a Centre,
    pub(crate) target: &'a Target,
    pub(crate) allowance: f64,
    pub(crate) limits: Limits,
    /// Weights of long thin pieces and of size.
    pub(crate) chunky: f64,
    pub(crate) step: f64,
}

impl Splitting<'_> {
    /// The weighted score of a cell by itself.
    pub(crate) fn cell_cost(&self, cell: &Cell) -> f64 {
        let parts = &cell.parts;
        self.chunky * (weights::BAR * parts.bar + weights::STRIP * parts.strip)
            + self.step * weights::STEP * parts.step
    }
}

/// The declared grid of splits of a shape: the best few sound ones.
pub(crate) fn splits(how: &Splitting, shape: &Shape, keep: usize, finer: bool) -> Vec<Unit> {
    let Some(across) = Across::of(shape) else { return Vec::new() };
    let [low, high] = across.ends;
    let place = shape.seam.point_at(f64::midpoint(low, high)) - shape.seam.normal.vec() * (shape.depth / 2.0);
    let wished = how.target.size(how.target.share(place - how.centre.middle));
    let width = widths(shape, low, high, how.allowance);
    let ideal = (width / wished.max(shape.depth * 0.75)).round().max(1.0) as usize;
    let counts = if finer {
        ideal + 1..=(ideal + 3).min(6.max(ideal + 1)).min(MOST_CELLS)
    } else {
        ideal.saturating_sub(1).max(1)..=(ideal + 1).min(5.max(ideal)).min(MOST_CELLS)
    };
    let mut units = Vec::new();
    for count in counts {
        if count == 1 {
            units.extend(unit(how, shape, Vec::new()));
            continue;
        }
        units.extend(joins::patterned(how, &across, count).filter_map(|row| unit(how, shape, row)));
    }
    if units.is_empty() && (USUAL_CELLS + 1..=MOST_CELLS).contains(&ideal) {
        units.extend(joins::row(how, &across, ideal).and_then(|row| unit(how, shape, row)));
    }
    units.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    units.truncate(keep);
    units
}

/// Mean finished width of a shape.
fn widths(shape: &Shape, low: f64, high: f64, allowance: f64) -> f64 {
    let top = shape
        .outer
        .crossing(shape.flank_lines[0])
        .zip(shape.outer.crossing(shape.flank_lines[1]))
        .map_or(0.0, |(a, b)| a.distance(b));
    (f64::midpoint(high - low, top) - 2.0 * allowance).max(0.1)
}

fn unit(how: &Splitting, shape: &Shape, joins: Vec<Line>) -> Option<Unit> {
    let count = joins.len() + 1;
    let stacked = joins.iter().map(|join| near_older(how, shape, *join)).sum::<Option<f64>>()?;
    let mut cells = Vec::with_capacity(count);
    for i in 0..count {
        let start = (i > 0).then(|| joins[i - 1]);
        let end = joins.get(i).map(|join| join.reversed());
        cells.push(cell(how, shape, start, end)?);
    }
    let total: f64 = cells.iter().map(|c| c.area).sum();
    let cells_cost: f64 =
        cells.iter().map(|c| how.cell_cost(c) * f64::midpoint(c.area / total, 1.0 / count as f64)).sum();
    let cost = shape.cost + cells_cost + weights::STACKED * stacked;
    Some(Unit { shape: shape.clone(), joins, cells, stacked, cost })
}

/// How near a join comes to where older joins and seams end at the seam; `None` when it would lie
/// on one of them: the allowances of three seams in one place are seven layers.
pub(crate) fn near_older(how: &Splitting, shape: &Shape, join: Line) -> Option<f64> {
    let at = shape.seam.along(shape.seam.crossing(join)?);
    let mut near = 0.0;
    for along in how.centre.sides[shape.side].along.iter().filter(|along| along.to.is_finite()) {
        let gap = (at - along.to).abs() / shape.allowance;
        if gap < 1.2 {
            return None;
        }
        near += ((2.6 - gap) / 1.4).max(0.0);
    }
    Some(near)
}

/// The cell between two joins, or a join and a flank; `None` when it breaks a limit.
pub(crate) fn cell(how: &Splitting, shape: &Shape, start: Option<Line>, end: Option<Line>) -> Option<Cell> {
    let s = how.allowance;
    let seam = shape.seam.reversed();
    let finished_lines = [
        seam,
        start.unwrap_or_else(|| shape.flank_lines[0].inward(s)),
        shape.outer.inward(s),
        end.unwrap_or_else(|| shape.flank_lines[1].inward(s)),
    ];
    let finished = quad(finished_lines)?;
    let least = least_width(&finished_lines, &finished);
    if least < LEAST_SLENDER * polygon::diameter(&finished)
        || least < how.limits.thin_in + 1e-6
        || sharpest_deg(&finished) < how.limits.sharp_deg + 0.01
    {
        return None;
    }
    let cut_lines = [
        seam.inward(-s),
        start.map_or_else(|| shape.flank_as_cut(0), |line| line.inward(-s)),
        shape.outer,
        end.map_or_else(|| shape.flank_as_cut(1), |line| line.inward(-s)),
    ];
    let cut = quad(cut_lines)?;
    let area = polygon::area(&finished);
    let centroid = polygon::centroid(&finished)?;
    let share = how.target.share(centroid - how.centre.middle);
    let parts = CellParts {
        bar: ((0.62 - least / polygon::diameter(&finished)) / 0.36).clamp(0.0, 2.0),
        strip: strip(&finished),
        step: ((area.sqrt() / (0.93 * how.target.size(share))).ln().abs() / 0.5 - 0.75).clamp(0.0, 2.0),
    };
    let cut_area = polygon::area(&cut);
    let free = [false, start.is_none(), true, end.is_none()];
    Some(Cell { cut, finished, area, cut_area, centroid, parts, free })
}

/// The four-sided polygon of lines in order, if its corners go round properly.
fn quad(lines: [Line; 4]) -> Option<[Point; 4]> {
    let mut corners = [Point::ORIGIN; 4];
    for i in 0..4 {
        if lines[i].turn_sine(lines[(i + 1) % 4]) <= 0.05 {
            return None;
        }
        corners[i] = lines[(i + 3) % 4].crossing(lines[i])?;
    }
    let sound = (0..4).all(|i| lines[i].along(corners[(i + 1) % 4]) - lines[i].along(corners[i]) > 0.3);
    sound.then_some(corners)
}

/// Least width of a convex four-sided polygon whose sides lie on these lines.
fn least_width(lines: &[Line; 4], corners: &[Point; 4]) -> f64 {
    lines
        .iter()
        .map(|line| corners.iter().map(|&p| line.inside_by(p)).fold(0.0, f64::max))
        .fold(f64::INFINITY, f64::min)
}

/// The smallest corner in degrees.
pub(crate) fn sharpest_deg(points: &[Point]) -> f64 {
    let n = points.len();
    (0..n)
        .map(|i| {
            let (p, q, r) = (points[(i + n - 1) % n], points[i], points[(i + 1) % n]);
            let (u, v) = (p - q, r - q);
            u.cross(v).abs().atan2(u.dot(v)).to_degrees()
        })
        .fold(180.0, f64::min)
}

/// How nearly parallel the two longest sides are, unless they meet at 12 degrees or more.
fn strip(points: &[Point; 4]) -> f64 {
    let mut sides: Vec<(f64, plane::Vec2)> =
        polygon::edges(points).map(|(a, b)| (a.distance(b), b - a)).collect();
    sides.sort_by(|a, b| b.0.total_cmp(&a.0));
    let (u, v) = (sides[0].1, sides[1].1);
    let angle = u.cross(v).abs().atan2(u.dot(v).abs()).to_degrees();
    ((14.0 - angle) / 6.0).clamp(0.0, 1.0)
}

/// A placed shape cut by the free sides' allowance, for the first patch.
pub(crate) fn finished_of(points: &[Point], allowance: f64) -> Vec<Point> {
    polygon::edges(points)
        .filter_map(|(a, b)| Line::through(a, b))
        .fold(points.to_vec(), |kept, line| clip_half_plane(&kept, line.inward(allowance), DECISION))
}
