//! Outlines with fewer corners, for speed: what hinders only ever grows and what may be covered only ever shrinks, so
//! that what is found free is free.

use plane::{Point, Region, Vec2};

/// Outlines of so few corners stay as they are.
const FEW: usize = 24;
/// How far an outline may move, in inches.
const MOST_IN: f64 = 1.0 / 32.0;

/// A part of a cloth with fewer corners, nowhere larger.
pub(crate) fn smaller(region: &Region) -> Region {
    let holes = region.holes.iter().map(|hole| {
        // Holes run clockwise: their cloth is on the left as well.
        plain(hole)
    });
    Region { outer: plain(&region.outer), holes: holes.collect() }
}

/// A piece with fewer corners, nowhere smaller.
pub(crate) fn larger(outline: &[Point]) -> Vec<Point> {
    let mut turned: Vec<Point> = outline.iter().rev().copied().collect();
    turned = plain(&turned);
    turned.reverse();
    turned
}

/// Leaves out corners at which what is on the left sticks out by little.
fn plain(ring: &[Point]) -> Vec<Point> {
    if ring.len() <= FEW {
        return ring.to_vec();
    }
    // Each corner with how far the side that starts there has moved already.
    let mut left: Vec<(Point, f64)> = ring.iter().map(|&p| (p, 0.0)).collect();
    while left.len() > FEW {
        let count = left.len();
        let costs = (0..count).filter_map(|i| {
            let (before, at, after) = (left[(i + count - 1) % count], left[i], left[(i + 1) % count]);
            let high = height(before.0, at.0, after.0)? + before.1.max(at.1);
            (high <= MOST_IN).then_some((high, i))
        });
        let mut costs: Vec<(f64, usize)> = costs.collect();
        costs.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        // Many at once, none beside another.
        let mut gone = vec![false; count];
        for (high, i) in costs {
            let (before, after) = ((i + count - 1) % count, (i + 1) % count);
            if gone[before] || gone[after] || holds_a_corner(&left, before, i, after) {
                continue;
            }
            gone[i] = true;
            left[before].1 = high;
        }
        if !gone.contains(&true) {
            break;
        }
        let mut i = 0;
        left.retain(|_| {
            i += 1;
            !gone[i - 1]
        });
    }
    left.into_iter().map(|(p, _)| p).collect()
}

/// How far a corner sticks out to the right of the side that would pass it; `None` where it doesn't.
fn height(before: Point, at: Point, after: Point) -> Option<f64> {
    let side = after - before;
    let long = side.length();
    let out = -cross(side, at - before) / long.max(1e-300);
    (long > 1e-6 && out >= 0.0 && (at - before).dot(side) >= 0.0 && (after - at).dot(side) >= 0.0)
        .then_some(out)
}

fn cross(a: Vec2, b: Vec2) -> f64 {
    a.x * b.y - a.y * b.x
}

/// Whether another corner lies in the triangle that goes.
fn holds_a_corner(ring: &[(Point, f64)], before: usize, at: usize, after: usize) -> bool {
    let [a, b, c] = [before, at, after].map(|i| ring[i].0);
    let inside = |p: Point| {
        [(a, b), (b, c), (c, a)].into_iter().all(|(from, to)| cross(to - from, p - from) >= -1e-12)
    };
    ring.iter().enumerate().any(|(i, &(p, _))| ![before, at, after].contains(&i) && inside(p))
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::difference;

    /// A disc of 3 inches with ragged edges.
    fn ragged(corners: usize) -> Vec<Point> {
        let corner = |i: usize| {
            let turn = plane::Turn::from_degrees(360.0 * i as f64 / corners as f64);
            Point::ORIGIN + turn.vec() * (3.0 + 0.006 * (i * 7 % 5) as f64)
        };
        (0..corners).map(corner).collect()
    }

    fn region(outer: Vec<Point>) -> Region {
        Region { outer, holes: Vec::new() }
    }

    fn outside(one: &Region, other: &Region) -> f64 {
        difference(one, std::slice::from_ref(other)).iter().map(Region::area).sum()
    }

    #[test]
    fn fewer_corners_err_on_the_safe_side_and_by_little() {
        let whole = region(ragged(300));
        let (less, more) = (smaller(&whole), region(larger(&whole.outer)));
        for (one, name) in [(&less, "cloth"), (&more, "piece")] {
            assert!(one.outer.len() < 150, "{name}: {} corners", one.outer.len());
            let off = (one.area() - whole.area()).abs();
            assert!(off > 0.0 && off < MOST_IN * plane::polygon::perimeter(&whole.outer), "{name}: {off}");
        }
        assert!(outside(&less, &whole) < 1e-9, "cloth only shrinks");
        assert!(outside(&whole, &more) < 1e-9, "pieces only grow");
    }

    #[test]
    fn a_hole_only_grows_and_few_corners_stay() {
        let mut hole = ragged(200);
        hole.reverse();
        let frame = Region { outer: Region::rectangle(20.0, 20.0).outer, holes: vec![hole.clone()] };
        let frame =
            Region { outer: frame.outer.iter().map(|&p| p - Vec2::new(10.0, 10.0)).collect(), ..frame };
        let less = smaller(&frame);
        assert_eq!(less.outer, frame.outer);
        assert!(less.holes[0].len() < 100);
        assert!(outside(&less, &frame) < 1e-9 && less.area() < frame.area());
    }
}
