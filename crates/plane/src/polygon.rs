//! Measures of a simple polygon given as its corners in order.
//!
//! Areas are signed: counter-clockwise is positive. The functions take any slice of points and
//! return zero (or `None`) for fewer corners than they need.

use crate::{Point, Vec2};

/// Signed area in square inches.
#[must_use]
pub fn area(points: &[Point]) -> f64 {
    let Some(&origin) = points.first() else { return 0.0 };
    points.windows(2).map(|w| (w[0] - origin).cross(w[1] - origin)).sum::<f64>() / 2.0
}

/// Centre of area; `None` when the area is nothing.
#[must_use]
pub fn centroid(points: &[Point]) -> Option<Point> {
    let &origin = points.first()?;
    let (mut twice, mut sum) = (0.0, Vec2::default());
    for w in points.windows(2) {
        let (a, b) = (w[0] - origin, w[1] - origin);
        let cross = a.cross(b);
        twice += cross;
        sum += (a + b) * cross;
    }
    (twice.abs() > 1e-15).then(|| origin + sum * (1.0 / (3.0 * twice)))
}

/// Length all round, in inches.
#[must_use]
pub fn perimeter(points: &[Point]) -> f64 {
    edges(points).map(|(a, b)| a.distance(b)).sum()
}

/// The sides in order, the last one closing the outline.
pub fn edges(points: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    (0..points.len()).map(move |i| (points[i], points[(i + 1) % points.len()]))
}

/// Lower left and upper right corner of the bounding box; `None` without points.
#[must_use]
pub fn bounds(points: &[Point]) -> Option<(Point, Point)> {
    let &first = points.first()?;
    Some(points.iter().fold((first, first), |(lo, hi), p| {
        (Point::new(lo.x.min(p.x), lo.y.min(p.y)), Point::new(hi.x.max(p.x), hi.y.max(p.y)))
    }))
}

/// Whether every corner turns left or goes straight on, to within `tolerance` square inches of
/// the cross product at the corner.
#[must_use]
pub fn is_convex(points: &[Point], tolerance: f64) -> bool {
    let n = points.len();
    n >= 3
        && (0..n).all(|i| {
            let (a, b, c) = (points[i], points[(i + 1) % n], points[(i + 2) % n]);
            (b - a).cross(c - b) >= -tolerance
        })
}

/// Least width over all directions, in inches: the narrowest parallel slot the hull passes.
/// The narrowest slot always has one side of the hull lying on it.
#[must_use]
pub fn least_width(points: &[Point]) -> f64 {
    let hull = hull(points);
    let width = edges(&hull)
        .filter_map(|(a, b)| {
            let length = a.distance(b);
            (length > 0.0).then(|| hull.iter().map(|&p| (b - a).cross(p - a) / length).fold(0.0, f64::max))
        })
        .fold(f64::INFINITY, f64::min);
    if width.is_finite() { width } else { 0.0 }
}

/// Greatest distance between two corners, in inches.
#[must_use]
pub fn diameter(points: &[Point]) -> f64 {
    let mut most = 0.0_f64;
    for (i, a) in points.iter().enumerate() {
        for b in &points[i + 1..] {
            most = most.max(a.distance(*b));
        }
    }
    most
}

/// Whether `p` lies inside, by the even-odd rule. Points on the outline may go either way.
#[must_use]
pub fn contains(points: &[Point], p: Point) -> bool {
    edges(points).fold(false, |inside, (a, b)| {
        let spans = (a.y > p.y) != (b.y > p.y);
        if spans && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y) { !inside } else { inside }
    })
}

/// Convex hull, counter-clockwise, without corners on straight sides (Andrew's monotone chain).
#[must_use]
pub fn hull(points: &[Point]) -> Vec<Point> {
    let mut sorted = points.to_vec();
    sorted.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    sorted.dedup();
    if sorted.len() < 3 {
        return sorted;
    }
    let half = |points: &mut dyn Iterator<Item = Point>| {
        let mut chain: Vec<Point> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..] {
                if (b - a).cross(p - b) > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut hull = half(&mut sorted.iter().copied());
    hull.extend(half(&mut sorted.iter().rev().copied()));
    hull
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square(side: f64) -> Vec<Point> {
        vec![Point::new(0.0, 0.0), Point::new(side, 0.0), Point::new(side, side), Point::new(0.0, side)]
    }

    #[test]
    fn a_square_measures_as_it_should() {
        let s = square(2.0);
        assert_eq!(area(&s), 4.0);
        assert_eq!(centroid(&s), Some(Point::new(1.0, 1.0)));
        assert_eq!(perimeter(&s), 8.0);
        assert_eq!(least_width(&s), 2.0);
        assert_eq!(diameter(&s), 8.0_f64.sqrt());
        assert!(is_convex(&s, 0.0));
        assert!(contains(&s, Point::new(0.5, 1.5)) && !contains(&s, Point::new(2.5, 1.0)));
    }

    #[test]
    fn a_hull_drops_what_lies_inside_or_on_a_side() {
        let mut points = square(2.0);
        points.push(Point::new(1.0, 1.0));
        points.push(Point::new(1.0, 0.0));
        assert_eq!(hull(&points), square(2.0));
    }
}
