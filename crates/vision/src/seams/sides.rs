//! The straight sides of a convex piece, from its outline as it was found.
//!
//! Threads, chipped corners and a ground that shows through a print leave an outline with more corners
//! than the piece has. The sides of its hull are taken, short ones that only cut a corner are left
//! out, and each that stays is laid anew through what was found along it.

use plane::{Line, Point, Turn, Vec2, polygon};

/// A corner that lies nearer to the line past it is none, in inches.
const STRAIGHT_IN: f64 = 0.12;
/// A side shorter than this may be a chipped corner, in inches, if its neighbours meet so near.
const SHORT_IN: f64 = 1.0;
/// How far from a side what was found belongs to it, in inches, and how near its ends it doesn't count.
const REACH_IN: f64 = 0.15;
const END_IN: f64 = 0.2;
/// Places along a found outline, in inches.
const EVERY_IN: f64 = 0.05;

/// The lines of the sides, counter-clockwise, the piece on the left of each.
pub(super) fn sides(outline: &[Point]) -> Vec<Line> {
    let mut ring = polygon::hull(outline);
    while ring.len() > 3 {
        let n = ring.len();
        let bend = |i: usize| {
            let (a, b) = (ring[(i + n - 1) % n], ring[(i + 1) % n]);
            Line::through(a, b).map_or(0.0, |line| line.inside_by(ring[i]).abs())
        };
        match (0..n).min_by(|&i, &j| bend(i).total_cmp(&bend(j))) {
            Some(i) if bend(i) < STRAIGHT_IN => drop(ring.remove(i)),
            _ => break,
        }
    }
    let mut lines: Vec<Line> = polygon::edges(&ring).filter_map(|(a, b)| Line::through(a, b)).collect();
    while let Some(i) = chip(&lines) {
        lines.remove(i);
    }
    let places = places(outline);
    (0..lines.len()).map(|i| refitted(&lines, i, &places).unwrap_or(lines[i])).collect()
}

/// The shortest side that only cuts off a corner.
fn chip(lines: &[Line]) -> Option<usize> {
    let n = lines.len();
    let length = |i: usize| {
        let (before, after) = (lines[(i + n - 1) % n], lines[(i + 1) % n]);
        let (a, b) = (before.crossing(lines[i])?, lines[i].crossing(after)?);
        let tip = before.crossing(after).filter(|_| before.turn_sine(after) > 0.0)?;
        let near = a.distance(tip).max(b.distance(tip)) < SHORT_IN;
        (near && a.distance(b) < SHORT_IN).then(|| a.distance(b))
    };
    if n < 4 {
        return None;
    }
    (0..n).filter_map(|i| Some((length(i)?, i))).min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, i)| i)
}

fn places(outline: &[Point]) -> Vec<Point> {
    let mut places = Vec::new();
    for (a, b) in polygon::edges(outline) {
        let n = (a.distance(b) / EVERY_IN).ceil().max(1.0);
        places.extend((0..n as usize).map(|k| a.lerp(b, (k as f64 + 0.5) / n)));
    }
    places
}

/// The line of least squares through what was found along a side.
fn refitted(lines: &[Line], i: usize, places: &[Point]) -> Option<Line> {
    let n = lines.len();
    let mut line = lines[i];
    let (a, b) = (lines[(i + n - 1) % n].crossing(line)?, line.crossing(lines[(i + 1) % n])?);
    for reach in [REACH_IN, REACH_IN / 3.0] {
        let (from, to) = (line.along(a) + END_IN, line.along(b) - END_IN);
        let near: Vec<Vec2> = places
            .iter()
            .filter(|p| line.inside_by(**p).abs() < reach && (from..=to).contains(&line.along(**p)))
            .map(|p| Vec2::new(line.along(*p), line.inside_by(*p)))
            .collect();
        let count = near.len() as f64;
        if count * EVERY_IN < 0.3 * (to - from) || near.len() < 4 {
            return (reach < REACH_IN).then_some(line);
        }
        let mean = near.iter().fold(Vec2::default(), |sum, v| sum + *v) * (1.0 / count);
        let (xx, xy) = near.iter().fold((0.0, 0.0), |(xx, xy), v| {
            let d = *v - mean;
            (xx + d.x * d.x, xy + d.x * d.y)
        });
        let way = Turn::towards(Vec2::new(1.0, if xx > 0.0 { xy / xx } else { 0.0 }))?;
        let through = line.point_at(mean.x) + line.normal.vec() * mean.y;
        line = Line::from_point(through, line.direction().then(way));
    }
    Some(line)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_chipped_corner_and_a_thread_are_no_sides() {
        let ring = [(0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (10.05, 4.1), (10.0, 4.2), (10.0, 7.6), (9.7, 8.0), (0.0, 8.0)];
        let lines = sides(&ring.map(|(x, y)| Point::new(x, y)));
        assert_eq!(lines.len(), 4, "{lines:?}");
        let corner = lines[1].crossing(lines[2]).unwrap();
        assert!(corner.distance(Point::new(10.0, 8.0)) < 0.02, "{corner:?}");
    }
}
