//! The line along the middle of a narrow shape: through the centres of the discs that touch both its
//! sides, from the furthest corner to the one furthest from it.

use super::simple::simpler;
use super::touch::{Touch, touches};
use super::way::Way;
use plane::{Point, Region, Turn, polygon};

/// The line is straightened as far as it stays within so many inches of the centres.
const SIMPLER_IN: f64 = 1.0 / 64.0;
/// Ends sharper than this run out to their tip, others end square.
const POINTED_DEG: f64 = 60.0;

/// The middle line of an outline, and how wide the outline is along it at most.
pub(super) fn centre_line(outline: &[Point]) -> (Vec<Point>, f64) {
    let way = Way::new(outline);
    let Some((a, b)) = furthest(outline) else { return (Vec::new(), 0.0) };
    let across = across(&way, way.at(a), way.at(b));
    let widest = across.iter().map(|touch| touch.width_in).fold(0.0, f64::max);
    let mut line: Vec<Point> = across.iter().map(|touch| touch.centre).collect();
    finish_end(&way, a, widest, &mut line);
    line.reverse();
    finish_end(&way, b, widest, &mut line);
    line.reverse();
    if line.len() < 2 {
        line = vec![outline[a], outline[b]];
    }
    (simpler(&line, SIMPLER_IN), widest)
}

/// The discs that touch both ways from one end to the other, in order from the start.
fn across(way: &Way<'_>, start_in: f64, end_in: f64) -> Vec<Touch> {
    let region = Region { outer: way.corners.to_vec(), holes: Vec::new() };
    let half = way.forward(start_in, end_in);
    let on_near = |along_in: f64| way.forward(start_in, along_in) <= half;
    let mut across: Vec<Touch> = touches(&region)
        .into_iter()
        .filter(|touch| on_near(touch.from.along_in) && !on_near(touch.other.along_in))
        .collect();
    let from_start = |touch: &Touch| way.forward(start_in, touch.from.along_in);
    across.sort_by(|x, y| from_start(x).total_cmp(&from_start(y)));
    across
}

/// Leads the beginning of the line out: to a pointed tip, else straight on to the edge, without the
/// centres of discs that touch the end itself.
fn finish_end(way: &Way<'_>, tip: usize, widest_in: f64, line: &mut Vec<Point>) {
    let at = way.corners[tip];
    // Shorter than half a square end, so that it can't reach round it.
    let arm = (widest_in * 0.45).min(way.length_in / 8.0);
    if way.angle_deg(way.at(tip), arm) < POINTED_DEG {
        line.insert(0, at);
        return;
    }
    let from_end = widest_in.min(way.length_in / 8.0);
    let kept = line.iter().position(|p| p.distance(at) > from_end).unwrap_or(0);
    line.drain(..kept);
    let (Some(&first), Some(&inner)) = (line.first(), line.get(line.len() / 8 + 1)) else { return };
    if let Some(edge) = Turn::towards(first - inner).and_then(|ahead| edge_ahead(way, first, ahead)) {
        line.insert(0, edge);
    }
}

/// Where one first meets the outline, going straight on from a place inside.
fn edge_ahead(way: &Way<'_>, from: Point, ahead: Turn) -> Option<Point> {
    let u = ahead.vec();
    let hits = polygon::edges(way.corners).filter_map(|(a, b)| {
        let (left, right) = (u.cross(a - from), u.cross(b - from));
        let at = a.lerp(b, left / (left - right));
        ((left > 0.0) != (right > 0.0) && (at - from).dot(u) > 0.0).then_some(at)
    });
    hits.min_by(|a, b| a.distance(from).total_cmp(&b.distance(from)))
}

/// The two corners that lie furthest apart.
fn furthest(outline: &[Point]) -> Option<(usize, usize)> {
    let hull = polygon::hull(outline);
    let mut best: Option<(f64, Point, Point)> = None;
    for (i, &a) in hull.iter().enumerate() {
        for &b in &hull[i + 1..] {
            let apart = a.distance(b);
            if best.is_none_or(|(most, _, _)| apart > most) {
                best = Some((apart, a, b));
            }
        }
    }
    let (_, a, b) = best?;
    let index = |p: Point| outline.iter().position(|q| *q == p);
    Some((index(a)?, index(b)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn a_bent_leg_gets_a_line_along_its_middle() {
        let leg = points(&[(0.0, 0.0), (0.1, 0.0), (0.6, 2.0), (0.1, 4.0), (0.0, 4.0), (0.5, 2.0)]);
        let (line, widest) = centre_line(&leg);
        assert!((0.09..0.11).contains(&widest), "{widest}");
        assert!(line.len() <= 5, "{line:?}");
        let reach = line.windows(2).map(|pair| pair[0].distance(pair[1])).sum::<f64>();
        assert!((reach - 2.0 * 0.5_f64.hypot(2.0)).abs() < 0.1, "{reach}");
        assert!(line.iter().any(|p| p.distance(Point::new(0.55, 2.0)) < 0.06), "{line:?}");
    }

    #[test]
    fn a_beak_runs_out_to_its_point() {
        let beak = points(&[(0.0, 0.0), (2.0, -0.1), (2.0, 0.1)]);
        let (line, _) = centre_line(&beak);
        let tip = line.iter().map(|p| p.distance(Point::ORIGIN)).fold(f64::INFINITY, f64::min);
        assert!(tip < 1e-9, "{line:?}");
        assert!(line.iter().all(|p| p.y.abs() < 0.06), "{line:?}");
    }
}
