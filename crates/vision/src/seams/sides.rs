//! The straight sides of a convex piece, from its outline as it was found.
//!
//! Threads, chipped corners and a ground that shows through a print leave an outline with more corners
//! than the piece has. How many it has is known, since each patch takes over one side. So corners of its
//! hull that bend least and sides that only cut a corner are left out until there are so many, and each
//! that stays is laid anew through what was found along it.

use plane::{Line, Point, Turn, Vec2, polygon};

/// How far from a side what was found belongs to it, in inches, and how near its ends it doesn't count.
const REACH_IN: f64 = 0.15;
const END_IN: f64 = 0.2;
/// Places along a found outline, in inches.
const EVERY_IN: f64 = 0.05;

/// The lines of the sides, counter-clockwise, the piece on the left of each: `count` of them, or fewer
/// where the hull has no more.
pub(super) fn sides(outline: &[Point], count: usize) -> Vec<Line> {
    let mut lines: Vec<Line> =
        polygon::edges(&polygon::hull(outline)).filter_map(|(a, b)| Line::through(a, b)).collect();
    while lines.len() > count.max(3) && simplified(&mut lines, f64::INFINITY) {}
    let places = places(outline);
    (0..lines.len()).map(|i| refitted(&lines, i, &places, REACH_IN).unwrap_or(lines[i])).collect()
}

/// Leaves out one corner or one side, whichever changes least; `false` when neither can be left out, or when
/// that moves what was found by so many inches or more.
pub(crate) fn simplified(lines: &mut Vec<Line>, most_in: f64) -> bool {
    let n = lines.len();
    let at = |i: usize| lines[i % n];
    // Corner `i` lies between side `i` and the next. Two sides become the line past their corner.
    let straight = |i: usize| {
        let a = at(i + n - 1).crossing(at(i))?;
        let b = at(i + 1).crossing(at(i + 2))?;
        let line = Line::through(a, b)?;
        Some((line.inside_by(at(i).crossing(at(i + 1))?).abs(), i, Some(line)))
    };
    // A side that cuts a corner off goes, and its neighbours meet beyond it.
    let chip = |i: usize| {
        let (before, after) = (at(i + n - 1), at(i + 1));
        let tip = before.crossing(after).filter(|_| before.turn_sine(after) > 0.0)?;
        Some((at(i).inside_by(tip).abs(), i, None))
    };
    let least = (0..n).flat_map(|i| [straight(i), chip(i)]).flatten().min_by(|a, b| a.0.total_cmp(&b.0));
    let Some((_, i, line)) = least.filter(|(by, ..)| *by < most_in && n > 3) else { return false };
    if let Some(line) = line {
        lines[i] = line;
        lines.remove((i + 1) % n);
    } else {
        lines.remove(i);
    }
    true
}

/// Places along a found outline.
pub(crate) fn places(outline: &[Point]) -> Vec<Point> {
    let mut places = Vec::new();
    for (a, b) in polygon::edges(outline) {
        let n = (a.distance(b) / EVERY_IN).ceil().max(1.0);
        places.extend((0..n as usize).map(|k| a.lerp(b, (k as f64 + 0.5) / n)));
    }
    places
}

/// The line of least squares through what was found along a side, no farther from it than `reach_in`; `None`
/// when that is too little.
pub(crate) fn refitted(lines: &[Line], i: usize, places: &[Point], reach_in: f64) -> Option<Line> {
    let n = lines.len();
    let mut line = lines[i];
    let (a, b) = (lines[(i + n - 1) % n].crossing(line)?, line.crossing(lines[(i + 1) % n])?);
    for reach in [reach_in, reach_in / 3.0] {
        let (from, to) = (line.along(a) + END_IN, line.along(b) - END_IN);
        let near: Vec<Vec2> = places
            .iter()
            .filter(|p| line.inside_by(**p).abs() < reach && (from..=to).contains(&line.along(**p)))
            .map(|p| Vec2::new(line.along(*p), line.inside_by(*p)))
            .collect();
        let count = near.len() as f64;
        if count * EVERY_IN < 0.3 * (to - from) || near.len() < 4 {
            return (reach < reach_in).then_some(line);
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
        let ring = [
            (0.0, 0.0),
            (10.0, 0.0),
            (10.0, 4.0),
            (10.05, 4.1),
            (10.0, 4.2),
            (10.0, 7.6),
            (9.7, 8.0),
            (0.0, 8.0),
        ];
        let lines = sides(&ring.map(|(x, y)| Point::new(x, y)), 4);
        assert_eq!(lines.len(), 4, "{lines:?}");
        let corner = lines[1].crossing(lines[2]).unwrap();
        assert!(corner.distance(Point::new(10.0, 8.0)) < 0.02, "{corner:?}");
    }
}
