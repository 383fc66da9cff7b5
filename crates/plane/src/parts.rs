//! A simple polygon as a few convex parts: ears are clipped, then triangles are joined across
//! common diagonals as long as the result stays convex (at most four times as many parts as
//! needed).
//!
//! Corners are counter-clockwise, in inches. Corners on a straight side make no part of their
//! own. An outline that touches itself is taken apart as far as it goes; what has no area is
//! left out.

use crate::{Point, polygon};

/// Convex counter-clockwise parts that together cover the polygon.
#[must_use]
pub fn convex_parts(points: &[Point]) -> Vec<Vec<Point>> {
    if polygon::is_convex(points, 0.0) {
        return vec![points.to_vec()];
    }
    let mut parts = triangles(points);
    join(points, &mut parts);
    parts.iter().map(|part| part.iter().map(|&i| points[i]).collect()).collect()
}

fn turn(points: &[Point], a: usize, b: usize, c: usize) -> f64 {
    (points[b] - points[a]).cross(points[c] - points[b])
}

/// Ear clipping; the ear with the fattest shape first would be nicer, the first is enough.
fn triangles(points: &[Point]) -> Vec<Vec<usize>> {
    let mut left: Vec<usize> = (0..points.len()).collect();
    let mut found = Vec::with_capacity(points.len());
    while left.len() > 3 {
        let n = left.len();
        let corner = |k: usize| (left[(k + n - 1) % n], left[k], left[(k + 1) % n]);
        let flat = (0..n).find(|&k| {
            let (a, b, c) = corner(k);
            turn(points, a, b, c).abs() <= 1e-15
        });
        let ear = flat.or_else(|| (0..n).find(|&k| is_ear(points, &left, corner(k))));
        let Some(k) = ear else { break };
        let (a, b, c) = corner(k);
        if flat.is_none() {
            found.push(vec![a, b, c]);
        }
        left.remove(k);
    }
    if let [a, b, c] = left[..]
        && turn(points, a, b, c) > 1e-15
    {
        found.push(left);
    }
    found
}

fn is_ear(points: &[Point], left: &[usize], (a, b, c): (usize, usize, usize)) -> bool {
    turn(points, a, b, c) > 0.0
        && left.iter().filter(|&&i| i != a && i != b && i != c).all(|&i| {
            let p = points[i];
            p == points[a]
                || p == points[b]
                || p == points[c]
                || [(a, b), (b, c), (c, a)]
                    .iter()
                    .any(|&(s, t)| (points[t] - points[s]).cross(p - points[s]) < 0.0)
        })
}

fn join(points: &[Point], parts: &mut Vec<Vec<usize>>) {
    let mut i = 0;
    while i < parts.len() {
        let joined = (i + 1..parts.len())
            .find_map(|j| joined_if_convex(points, &parts[i], &parts[j]).map(|ring| (j, ring)));
        if let Some((j, ring)) = joined {
            parts[i] = ring;
            parts.remove(j);
        } else {
            i += 1;
        }
    }
}

/// Both parts as one ring, if they share a side and stay convex.
fn joined_if_convex(points: &[Point], one: &[usize], other: &[usize]) -> Option<Vec<usize>> {
    for k in 0..one.len() {
        let (a, b) = (one[k], one[(k + 1) % one.len()]);
        let Some(m) = (0..other.len()).find(|&m| other[m] == b && other[(m + 1) % other.len()] == a) else {
            continue;
        };
        // one from b round to a, then other from after a round to before b
        let ring: Vec<usize> = (0..one.len())
            .map(|s| one[(k + 1 + s) % one.len()])
            .chain((2..other.len()).map(|s| other[(m + s) % other.len()]))
            .collect();
        let n = ring.len();
        let convex = (0..n).all(|s| turn(points, ring[s], ring[(s + 1) % n], ring[(s + 2) % n]) >= 0.0);
        if convex {
            return Some(ring);
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn an_ell_falls_into_two_rectangles_worth_of_parts() {
        let ell = points(&[(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0), (1.0, 2.0), (0.0, 2.0)]);
        let parts = convex_parts(&ell);
        assert_eq!(parts.len(), 2);
        assert_eq!(parts.iter().map(|p| polygon::area(p)).sum::<f64>(), 3.0);
    }

    #[test]
    fn a_star_falls_into_convex_parts_of_the_same_area() {
        let star: Vec<Point> = (0..10)
            .map(|i| {
                let v = crate::Turn::from_degrees(36.0 * f64::from(i)).vec();
                let reach = if i % 2 == 0 { 2.0 } else { 0.7 };
                Point::ORIGIN + v * reach
            })
            .collect();
        let parts = convex_parts(&star);
        assert!(parts.iter().all(|p| polygon::is_convex(p, 1e-12)));
        let sum: f64 = parts.iter().map(|p| polygon::area(p)).sum();
        assert!((sum - polygon::area(&star)).abs() < 1e-12);
    }
}
