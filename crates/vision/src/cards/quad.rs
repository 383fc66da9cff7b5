//! The four-sided figure around an outline, if it is one.

use plane::Point;

/// Longest side by shortest.
const LONGEST_TO_SHORTEST: f64 = 6.0;
/// Shortest side, in pixels of the picture searched.
const SHORTEST: f64 = 9.0;
/// More corners than this after rounding: the outline is round or ragged.
const MOST_CORNERS: usize = 60;

/// Doubled area of three places, positive where they turn anticlockwise with y up.
fn turn(a: Point, b: Point, c: Point) -> f64 {
    (b - a).cross(c - a)
}

fn area(corners: &[Point]) -> f64 {
    let pairs = corners.iter().zip(corners.iter().cycle().skip(1));
    pairs.map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum::<f64>() / 2.0
}

/// The convex hull of an outline, by its outermost points of each row.
fn hull(path: &[(i32, i32)]) -> Vec<Point> {
    let rows = path.iter().fold((i32::MAX, i32::MIN), |(a, b), p| (a.min(p.1), b.max(p.1)));
    let mut ends = vec![(i32::MAX, i32::MIN); (rows.1 - rows.0 + 1) as usize];
    for (x, y) in path {
        let end = &mut ends[(y - rows.0) as usize];
        *end = (end.0.min(*x), end.1.max(*x));
    }
    let place = |x: i32, row: usize| Point::new(f64::from(x), f64::from(rows.0) + row as f64);
    let chain = |points: &mut dyn Iterator<Item = Point>| {
        let mut kept: Vec<Point> = Vec::new();
        for p in points {
            while kept.len() >= 2 && turn(kept[kept.len() - 2], kept[kept.len() - 1], p) <= 0.0 {
                kept.pop();
            }
            kept.push(p);
        }
        kept
    };
    let mut right = chain(&mut ends.iter().enumerate().map(|(row, end)| place(end.1, row)));
    let left = chain(&mut ends.iter().enumerate().rev().map(|(row, end)| place(end.0, row)));
    right.extend(left);
    right.dedup();
    if right.first() == right.last() {
        right.pop();
    }
    right
}

/// Where the lines through two pairs of places cross.
pub(super) fn crossing(a: Point, b: Point, c: Point, d: Point) -> Option<Point> {
    let (u, v) = (b - a, d - c);
    let sine = u.cross(v);
    let at = a + u * ((c - a).cross(v) / sine);
    at.is_finite().then_some(at)
}

/// Leaves out corners nearer than `near` to the line past them.
fn rounded(mut corners: Vec<Point>, near: f64) -> Vec<Point> {
    let mut i = 0;
    while i < corners.len() && corners.len() > 4 {
        let n = corners.len();
        let (before, after) = (corners[(i + n - 1) % n], corners[(i + 1) % n]);
        let off = turn(before, corners[i], after).abs() / before.distance(after).max(1e-9);
        if off < near {
            corners.remove(i);
            i = i.saturating_sub(1);
        } else {
            i += 1;
        }
    }
    corners
}

/// Takes sides away, the one that adds least first, until four are left.
fn four(mut corners: Vec<Point>) -> Option<[Point; 4]> {
    while corners.len() > 4 {
        let n = corners.len();
        let added = |i: usize| {
            let (a, b, c, d) =
                (corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n], corners[(i + 2) % n]);
            let tip = crossing(a, b, d, c)?;
            // The tip must lie beyond the side that goes.
            let beyond = (tip - b).dot(b - a) >= 0.0 && (tip - c).dot(c - d) >= 0.0;
            beyond.then(|| (turn(b, tip, c).abs(), i, tip))
        };
        let (_, i, tip) = (0..n).filter_map(added).min_by(|a, b| a.0.total_cmp(&b.0))?;
        corners[i] = tip;
        corners.remove((i + 1) % n);
    }
    corners.try_into().ok()
}

/// The four corners around an outline of lattice points, running anticlockwise as one looks at
/// the picture; None unless its hull fills four sides.
pub(super) fn around(path: &[(i32, i32)]) -> Option<[Point; 4]> {
    let hull = hull(path);
    if hull.len() < 4 {
        return None;
    }
    let size = area(&hull);
    let corners = rounded(hull, 0.4);
    if corners.len() > MOST_CORNERS {
        return None;
    }
    let mut quad = four(corners)?;
    let sides = [0, 1, 2, 3].map(|i: usize| quad[i].distance(quad[(i + 1) % 4]));
    let longest = sides.iter().copied().fold(0.0, f64::max);
    let shortest = sides.iter().copied().fold(f64::MAX, f64::min);
    // A pixel's stairs along each side, and one part in twelve.
    let allowed = size * 1.08 + 0.5 * sides.iter().sum::<f64>();
    if shortest < SHORTEST || longest > LONGEST_TO_SHORTEST * shortest || area(&quad) > allowed {
        return None;
    }
    // With y down the hull ran clockwise as seen.
    quad.reverse();
    Some(quad)
}
