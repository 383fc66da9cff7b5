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

/// Takes one side of a figure away, its neighbours running on until they meet: all ways to do so, with
/// the area that each adds, the least first.
fn without_one(corners: &[Point]) -> Vec<(f64, Vec<Point>)> {
    let n = corners.len();
    let without = |i: usize| {
        let (a, b, c, d) = (corners[(i + n - 1) % n], corners[i], corners[(i + 1) % n], corners[(i + 2) % n]);
        let tip = crossing(a, b, d, c)?;
        // The tip must lie beyond the side that goes.
        let beyond = (tip - b).dot(b - a) >= 0.0 && (tip - c).dot(c - d) >= 0.0;
        let mut rest = corners.to_vec();
        rest[i] = tip;
        rest.remove((i + 1) % n);
        beyond.then(|| (turn(b, tip, c).abs(), rest))
    };
    let mut all: Vec<(f64, Vec<Point>)> = (0..n).filter_map(without).collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0));
    all
}

/// Takes sides away, the one that adds least first, until four are left. Of five, any may be the one
/// that hides a corner: the likeliest three figures.
fn four(mut corners: Vec<Point>) -> Vec<[Point; 4]> {
    while corners.len() > 5 {
        let Some((_, rest)) = without_one(&corners).into_iter().next() else { return Vec::new() };
        corners = rest;
    }
    match <[Point; 4]>::try_from(corners) {
        Ok(four) => vec![four],
        Err(five) => {
            without_one(&five).into_iter().take(3).filter_map(|(_, rest)| rest.try_into().ok()).collect()
        }
    }
}

/// Four corners around an outline.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Quad {
    /// The corners, anticlockwise as one looks at the picture.
    pub(super) corners: [Point; 4],
    /// What shows of it, where a corner or two are hidden: a convex outline, clockwise as one looks at
    /// the picture. None where all of it shows.
    pub(super) shows: Option<Vec<Point>>,
}

impl Quad {
    /// The same in a picture that is so many times larger.
    pub(super) fn scaled(&self, by: f64) -> Self {
        let larger = |p: &Point| Point::new(p.x * by, p.y * by);
        Self {
            corners: self.corners.map(|p| larger(&p)),
            shows: self.shows.as_ref().map(|shows| shows.iter().map(larger).collect()),
        }
    }
}

/// Shortest side of a figure that is hidden in part: smaller ones wouldn't read.
const SHORTEST_OF_HIDDEN: f64 = 20.0;
/// Least share of a card that must show where it is hidden in part.
const SHOWS: f64 = 0.72;

/// Longest side by shortest where a corner is hidden, so that fewer figures are tried.
const LONGEST_OF_HIDDEN: f64 = 3.0;

/// The four corners around an outline of lattice points where its hull fills four sides or most of them;
/// the likeliest first where several may be meant.
pub(super) fn around(path: &[(i32, i32)]) -> Vec<Quad> {
    let hull = hull(path);
    if hull.len() < 4 {
        return Vec::new();
    }
    let size = area(&hull);
    let shows = rounded(hull, 0.4);
    if shows.len() > MOST_CORNERS {
        return Vec::new();
    }
    let mut found = Vec::new();
    for (place, mut corners) in four(shows.clone()).into_iter().enumerate() {
        let sides = [0, 1, 2, 3].map(|i: usize| corners[i].distance(corners[(i + 1) % 4]));
        let longest = sides.iter().copied().fold(0.0, f64::max);
        let shortest = sides.iter().copied().fold(f64::MAX, f64::min);
        // A pixel's stairs along each side, and one part in twelve.
        let full = area(&corners);
        let whole = full <= size * 1.08 + 0.5 * sides.iter().sum::<f64>();
        let hidden = full > size * 1.02 + 0.1 * sides.iter().sum::<f64>();
        // With y down the hull ran clockwise as seen.
        corners.reverse();
        if place == 0 && whole && shortest >= SHORTEST && longest <= LONGEST_TO_SHORTEST * shortest {
            found.push(Quad { corners, shows: None });
        }
        let seemly = shortest >= SHORTEST_OF_HIDDEN && longest <= LONGEST_OF_HIDDEN * shortest;
        if hidden && seemly && full * SHOWS <= size {
            found.push(Quad { corners, shows: Some(shows.clone()) });
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The lattice outline of a square of 80 steps, with its upper left corner cut off by `cut` steps
    /// each way.
    fn outline(cut: i32) -> Vec<(i32, i32)> {
        let mut path: Vec<(i32, i32)> = (0..80).map(|x| (100 + x, 180)).collect();
        path.extend((0..80).map(|y| (180, 180 - y)));
        path.extend((0..80 - cut).map(|x| (180 - x, 100)));
        path.extend((0..cut).flat_map(|k| [(100 + cut - k, 100 + k), (100 + cut - k, 101 + k)]));
        path.extend((0..80 - cut).map(|y| (100, 100 + cut + y)));
        path
    }

    #[test]
    fn a_corner_that_is_cut_off_is_made_up_for_and_what_shows_is_told() {
        for cut in [0, 20, 30, 46] {
            let square = [(100.0, 100.0), (100.0, 180.0), (180.0, 180.0), (180.0, 100.0)];
            let is_square = |quad: &&Quad| {
                square
                    .iter()
                    .all(|(x, y)| quad.corners.iter().any(|corner| corner.distance(Point::new(*x, *y)) < 1.5))
            };
            let found = around(&outline(cut));
            let quad = found.iter().rfind(is_square).unwrap_or_else(|| panic!("{cut}: {found:?}"));
            assert_eq!(quad.shows.is_some(), cut > 0, "{cut}");
            if let Some(shows) = &quad.shows {
                let cut_off = f64::from(cut * cut) / 2.0;
                assert!((area(shows).abs() - (6_400.0 - cut_off)).abs() < 120.0, "{cut}: {}", area(shows));
            }
        }
        // Half of a card is no card.
        assert!(around(&outline(70)).iter().all(|quad| quad.shows.is_none()));
    }
}
