//! The straight line of what lies along each planned side.

use super::lay::{places, solved};
use super::{CornerSeen, SideSeen};
use plane::{Line, Point, Turn, Vec2, polygon};

/// What lies nearer to a corner than this belongs to no side, in inches: cloth's corners are round.
const CORNER_IN: f64 = 0.375;

/// Farthest that an edge may lie from its side, in inches.
const REACH_IN: f64 = 1.5;

/// Share of a side that must be seen.
const LEAST_SEEN: f64 = 0.4;

/// Largest turn of a seen line from its side that is believed, in degrees.
const MOST_TURN_DEG: f64 = 12.0;

/// A side as it was seen: its own line, how far what was seen strays from it, and how far it bows out.
#[derive(Clone, Copy)]
pub(super) struct Seen {
    line: Line,
    strays_in: f64,
    bows_in: f64,
}

pub(super) type Along = Option<Seen>;

/// For each planned side the line of the places along it.
pub(super) fn along(planned: &[Point], here: &[Point]) -> Vec<Along> {
    let edges: Vec<(Point, Point)> = polygon::edges(planned).collect();
    let mut taken: Vec<Vec<Point>> = vec![Vec::new(); edges.len()];
    let seen_edges: Vec<(Point, Point)> = polygon::edges(here).collect();
    for p in places(here) {
        let nearest = edges
            .iter()
            .enumerate()
            .filter_map(|(i, (a, b))| {
                let line = Line::through(*a, *b)?;
                let t = line.along(p) - line.along(*a);
                let long = a.distance(*b);
                let foot = line.point_at(line.along(*a) + t.clamp(0.0, long));
                let margin = CORNER_IN.min(long / 8.0);
                let inside = t > margin && t < long - margin;
                Some((i, foot.distance(p), inside))
            })
            .min_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((i, off, true)) = nearest
            && off <= REACH_IN
            && runs_with(&seen_edges, p, edges[i])
        {
            taken[i].push(p);
        }
    }
    edges.iter().zip(&taken).map(|((a, b), places)| straight(*a, *b, places)).collect()
}

/// Whether the edge that a place lies on runs more or less as a side does.
fn runs_with(edges: &[(Point, Point)], p: Point, side: (Point, Point)) -> bool {
    let on = edges.iter().min_by(|a, b| off(**a, p).total_cmp(&off(**b, p)));
    let Some((a, b)) = on else { return false };
    let (here, there) = (*b - *a, side.1 - side.0);
    here.dot(there) > 0.7 * here.length() * there.length()
}

fn off((a, b): (Point, Point), p: Point) -> f64 {
    let along = b - a;
    let t = ((p - a).dot(along) / along.dot(along).max(f64::MIN_POSITIVE)).clamp(0.0, 1.0);
    a.lerp(b, t).distance(p)
}

/// The line of least squares (across it) through places, those that stray left out once.
fn straight(a: Point, b: Point, places: &[Point]) -> Along {
    let planned = Line::through(a, b)?;
    let first = through(places, planned)?;
    let median = {
        let mut offs: Vec<f64> = places.iter().map(|p| first.inside_by(*p).abs()).collect();
        offs.sort_by(f64::total_cmp);
        offs.get(offs.len() / 2).copied()?
    };
    let near: Vec<Point> = places
        .iter()
        .copied()
        .filter(|p| first.inside_by(*p).abs() <= (3.0 * median).max(1.0 / 64.0))
        .collect();
    let line = through(&near, planned)?;
    let (low, high) = near
        .iter()
        .map(|p| planned.along(*p))
        .fold((f64::INFINITY, -f64::INFINITY), |(low, high), t| (low.min(t), high.max(t)));
    let turned = planned.normal.inverse().then(line.normal).to_degrees().abs();
    if high - low < LEAST_SEEN * a.distance(b) || turned > MOST_TURN_DEG {
        return None;
    }
    let strays = places.iter().map(|p| line.inside_by(*p).abs()).fold(0.0, f64::max);
    Some(Seen { line, strays_in: strays, bows_in: bow(line, a.distance(b), &near) })
}

/// How far the middle of a side lies outside its ends: with `u` from -1 at one end to 1 at the other, the
/// parabola of least squares is `c + d u + e u²`, and its middle lies `-e` farther out than its ends. 0
/// where too little was seen to tell.
fn bow(line: Line, long_in: f64, places: &[Point]) -> f64 {
    let along: Vec<f64> = places.iter().map(|p| line.along(*p)).collect();
    let (low, high) =
        along.iter().fold((f64::INFINITY, -f64::INFINITY), |(low, high), t| (low.min(*t), high.max(*t)));
    let middle = low.midpoint(high);
    let mut rows = [[0.0; 4]; 3];
    for (p, t) in places.iter().zip(along) {
        let u = (t - middle) / (0.5 * long_in).max(f64::MIN_POSITIVE);
        let powers = [1.0, u, u * u];
        // Out of the piece is out of the line.
        let out = -line.inside_by(*p);
        for (row, power) in rows.iter_mut().zip(powers) {
            row.iter_mut().zip([1.0, u, u * u, out]).for_each(|(x, y)| *x += power * y);
        }
    }
    solved(rows).map_or(0.0, |[_, _, e]| -e)
}

fn through(places: &[Point], planned: Line) -> Option<Line> {
    if places.len() < 3 {
        return None;
    }
    #[expect(clippy::cast_precision_loss, reason = "a count of some hundreds")]
    let n = places.len() as f64;
    let sum = places.iter().fold(Vec2::new(0.0, 0.0), |sum, p| sum + p.to_vec2());
    let middle = Point::new(sum.x / n, sum.y / n);
    let (mut xx, mut xy, mut yy) = (0.0, 0.0, 0.0);
    for p in places {
        let d = *p - middle;
        xx += d.x * d.x;
        xy += d.x * d.y;
        yy += d.y * d.y;
    }
    // The direction of most spread: half the angle of (xx - yy, 2 xy).
    let angle = 0.5 * (2.0 * xy).atan2(xx - yy);
    let along = Turn::towards(Vec2::new(angle.cos(), angle.sin()))?;
    let line = Line::from_point(middle, along);
    let same_way = line.unit().dot(planned.unit()) > 0.0;
    Some(if same_way { line } else { line.reversed() })
}

/// Each side's length and each corner, where the lines that were found cross; a side that wasn't
/// seen keeps its planned line.
pub(super) fn measured(planned: &[Point], found: &[Along]) -> (Vec<SideSeen>, Vec<CornerSeen>) {
    let n = planned.len();
    let lines: Vec<Option<Line>> = polygon::edges(planned)
        .zip(found)
        .map(|((a, b), along)| along.map(|seen| seen.line).or_else(|| Line::through(a, b)))
        .collect();
    let corners: Vec<CornerSeen> = (0..n)
        .map(|i| {
            let before = lines[(i + n - 1) % n];
            let seen = before.zip(lines[i]).and_then(|(a, b)| a.crossing(b));
            // Lines that run nearly alike cross anywhere: such a corner stays where it was planned.
            let seen = seen.filter(|p| p.distance(planned[i]) <= 2.0 * REACH_IN).unwrap_or(planned[i]);
            CornerSeen { planned: planned[i], seen }
        })
        .collect();
    let sides = found
        .iter()
        .enumerate()
        .map(|(i, along)| {
            let (from, to) = (corners[i], corners[(i + 1) % n]);
            SideSeen {
                line: along.map(|seen| seen.line),
                planned_in: from.planned.distance(to.planned),
                seen_in: from.seen.distance(to.seen),
                strays_in: along.map_or(0.0, |seen| seen.strays_in),
                bows_in: along.map_or(0.0, |seen| seen.bows_in),
            }
        })
        .collect();
    (sides, corners)
}
