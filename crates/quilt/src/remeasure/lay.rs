//! The motion that lays one outline best on another.

use super::LayProblem;
use plane::{Line, Point, Pose, Turn, Vec2, polygon};

/// Farthest that a seen outline may lie from the planned one, root of the mean square, in inches.
pub const MOST_OFF_IN: f64 = 0.75;

/// Most that the area may differ, as a share.
const MOST_AREA: f64 = 0.25;

/// Distance between the places of an outline that are looked at, in inches, and how many at most.
const EVERY_IN: f64 = 0.25;
const MOST_PLACES: f64 = 600.0;

/// Turns nearer than this are one, in degrees.
const SAME_TURN_DEG: f64 = 4.0;

/// Outlines that lie so much farther off than the best lie as well: as a factor, and in inches.
const ALIKE: f64 = 1.5;
const ALIKE_IN: f64 = 1.0 / 64.0;

/// From here on a place that lies off counts less, in inches.
const LOOSE_IN: f64 = 0.25;

/// Rounds of drawing nearer.
const ROUNDS: usize = 24;

/// The best motion (of several as good, that nearest to a turn), how far the outline lies off by it, and a rival's turn from it in degrees.
pub(super) fn best(
    planned: &[Point],
    seen: &[Point],
    near: Turn,
) -> Result<(Pose, f64, Option<f64>), LayProblem> {
    let sound = |points: &[Point]| points.len() >= 3 && points.iter().all(|p| p.is_finite());
    if !sound(planned) || !sound(seen) {
        return Err(LayProblem::NoOutline);
    }
    let (was, is) = (polygon::area(planned), polygon::area(seen));
    if was <= 0.0 || is <= 0.0 {
        return Err(LayProblem::NoOutline);
    }
    if (is - was).abs() > MOST_AREA * was {
        return Err(LayProblem::OtherSize { seen: is, planned: was });
    }
    let there: Vec<Edge> = polygon::edges(planned).filter_map(|(a, b)| Edge::of(a, b)).collect();
    let places = places(seen);
    let mut laid: Vec<(Pose, f64)> = turns(planned, seen)
        .into_iter()
        .filter_map(|turn| drawn_near(planned, seen, &there, &places, turn))
        .collect();
    laid.sort_by(|a, b| a.1.total_cmp(&b.1));
    let Some(&(_, least)) = laid.first() else {
        return Err(LayProblem::NoOutline);
    };
    if least > MOST_OFF_IN {
        return Err(LayProblem::OtherForm { off_in: least });
    }
    // Of turns by which it lies as well, the one nearest to how the maker sees both.
    laid.retain(|(_, off)| *off < ALIKE * least + ALIKE_IN);
    let upright = |pose: Pose| between(near, pose.turn).abs();
    laid.sort_by(|a, b| upright(a.0).total_cmp(&upright(b.0)));
    let (pose, off_in) = laid[0];
    let other = laid.iter().find(|(other, _)| between(pose.turn, other.turn).abs() > 2.0 * SAME_TURN_DEG);
    Ok((pose, off_in, other.map(|(other, _)| between(pose.turn, other.turn))))
}

fn between(from: Turn, to: Turn) -> f64 {
    from.inverse().then(to).to_degrees()
}

/// A planned side: its line and where it begins and ends along it.
struct Edge {
    line: Line,
    from: f64,
    to: f64,
}

impl Edge {
    fn of(a: Point, b: Point) -> Option<Self> {
        let line = Line::through(a, b)?;
        Some(Self { line, from: line.along(a), to: line.along(b) })
    }

    /// The nearest place of the side to a point, and its distance.
    fn nearest(&self, p: Point) -> (Point, f64) {
        let foot = self.line.point_at(self.line.along(p).clamp(self.from, self.to));
        (foot, foot.distance(p))
    }
}

/// Places evenly along an outline.
pub(super) fn places(outline: &[Point]) -> Vec<Point> {
    let step = EVERY_IN.max(polygon::perimeter(outline) / MOST_PLACES);
    let mut places = Vec::new();
    for (a, b) in polygon::edges(outline) {
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a count of some hundreds"
        )]
        let n = (a.distance(b) / step).ceil().max(1.0) as u32;
        places.extend((0..n).map(|i| a.lerp(b, (f64::from(i) + 0.5) / f64::from(n))));
    }
    places
}

/// Every turn that brings an edge in line with a side; short edges are left out.
fn turns(planned: &[Point], seen: &[Point]) -> Vec<Turn> {
    let longest = polygon::edges(seen).map(|(a, b)| a.distance(b)).fold(0.0, f64::max);
    let directions = |points: &[Point], least: f64| -> Vec<Turn> {
        polygon::edges(points)
            .filter(|(a, b)| a.distance(*b) >= least)
            .filter_map(|(a, b)| Turn::towards(b - a))
            .collect()
    };
    let mut turns: Vec<Turn> = Vec::new();
    for there in directions(planned, 0.0) {
        for here in directions(seen, 0.3 * longest) {
            let turn = here.inverse().then(there);
            if turns.iter().all(|t| between(*t, turn).abs() > SAME_TURN_DEG) {
                turns.push(turn);
            }
        }
    }
    turns
}

/// Begun by a turn with the middles on each other, then drawn nearer: small motions that are the
/// least squares of the distances from the nearest sides (iterated closest points, point to line).
fn drawn_near(
    planned: &[Point],
    seen: &[Point],
    there: &[Edge],
    places: &[Point],
    turn: Turn,
) -> Option<(Pose, f64)> {
    let middle = polygon::centroid(seen)?;
    let mut pose = Pose::carrying(turn, middle, polygon::centroid(planned)?);
    for _ in 0..ROUNDS {
        let Some(step) = step(there, places, pose) else { break };
        pose = pose.then(step);
        if step.by.length() < 1e-6 && step.turn.sin.abs() < 1e-8 {
            break;
        }
    }
    // Both ways: a seen outline that leaves a planned side bare lies off too.
    let here: Vec<Edge> = polygon::edges(&pose.apply_all(seen)).filter_map(|(a, b)| Edge::of(a, b)).collect();
    let back = self::places(planned);
    let there_off = mean_square(there, places.iter().map(|p| pose.apply(*p)));
    let back_off = mean_square(&here, back.iter().copied());
    Some((pose, there_off.midpoint(back_off).sqrt()))
}

fn mean_square(edges: &[Edge], places: impl Iterator<Item = Point>) -> f64 {
    let (sum, n) = places.fold((0.0, 0.0), |(sum, n), p| {
        let off = edges.iter().map(|edge| edge.nearest(p).1).fold(f64::INFINITY, f64::min);
        (sum + off * off, n + 1.0)
    });
    if n > 0.0 { sum / n } else { f64::INFINITY }
}

/// One small motion: minimises Σ w (n · (p + φ × (p − m) + t − foot))² over φ and t.
fn step(there: &[Edge], places: &[Point], pose: Pose) -> Option<Pose> {
    let here: Vec<Point> = places.iter().map(|p| pose.apply(*p)).collect();
    #[expect(clippy::cast_precision_loss, reason = "a count of some hundreds")]
    let n = here.len() as f64;
    let sum = here.iter().fold(Vec2::new(0.0, 0.0), |sum, p| sum + p.to_vec2());
    let middle = Point::new(sum.x / n, sum.y / n);
    let mut system = [[0.0; 4]; 3];
    for p in here {
        let (edge, foot, off) = there
            .iter()
            .map(|edge| {
                let (foot, off) = edge.nearest(p);
                (edge, foot, off)
            })
            .min_by(|a, b| a.2.total_cmp(&b.2))?;
        let normal = edge.line.normal.vec();
        let weight = if off > LOOSE_IN { LOOSE_IN / off } else { 1.0 };
        let row = [(p - middle).left().dot(normal), normal.x, normal.y, normal.dot(foot - p)];
        for (i, line) in system.iter_mut().enumerate() {
            for (value, other) in line.iter_mut().zip(row) {
                *value += weight * row[i] * other;
            }
        }
    }
    let [angle, x, y] = solved(system)?;
    let turn = Turn::towards(Vec2::new(1.0, angle))?;
    let to = Point::new(middle.x + x, middle.y + y);
    Some(Pose::carrying(turn, middle, to))
}

/// Three unknowns by elimination with the largest pivot.
pub(super) fn solved(mut rows: [[f64; 4]; 3]) -> Option<[f64; 3]> {
    for column in 0..3 {
        let pivot = (column..3).max_by(|&a, &b| rows[a][column].abs().total_cmp(&rows[b][column].abs()))?;
        if rows[pivot][column].abs() < 1e-9 {
            return None;
        }
        rows.swap(column, pivot);
        let lead = rows[column];
        for (i, row) in rows.iter_mut().enumerate() {
            if i != column {
                let factor = row[column] / lead[column];
                row.iter_mut().zip(lead).for_each(|(x, l)| *x -= factor * l);
            }
        }
    }
    Some([rows[0][3] / rows[0][0], rows[1][3] / rows[1][1], rows[2][3] / rows[2][2]])
}
