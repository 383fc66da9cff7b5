//! How near outlines lie to each other.

use plane::{Point, polygon};

/// The distance between two outlines that don't cross, in inches; 0 where a corner of one lies inside the other.
#[must_use]
pub fn gap(one: &[Point], other: &[Point]) -> f64 {
    let inside = |of: &[Point], by: &[Point]| of.iter().any(|&p| polygon::contains(by, p));
    if inside(one, other) || inside(other, one) { 0.0 } else { rims_apart(one, other) }
}

/// The distance between two rims that don't cross, whether one lies in the other or beside it, in inches.
#[must_use]
pub fn rims_apart(one: &[Point], other: &[Point]) -> f64 {
    let corners = |of: &[Point], to: &[Point]| {
        let edges = polygon::edges(to);
        edges.flat_map(|edge| of.iter().map(move |&p| off(p, edge))).fold(f64::INFINITY, f64::min)
    };
    corners(one, other).min(corners(other, one))
}

/// From a point to an edge.
fn off(p: Point, (a, b): (Point, Point)) -> f64 {
    let way = b - a;
    let squared = way.dot(way);
    let share = if squared > 0.0 { ((p - a).dot(way) / squared).clamp(0.0, 1.0) } else { 0.0 };
    p.distance(a.lerp(b, share))
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::{Region, Vec2};

    #[test]
    fn squares_are_as_far_apart_as_their_nearest_corners() {
        let square = Region::rectangle(2.0, 2.0).outer;
        let moved = |x: f64, y: f64| square.iter().map(|&p| p + Vec2::new(x, y)).collect::<Vec<_>>();
        assert!((gap(&square, &moved(2.5, 0.7)) - 0.5).abs() < 1e-12);
        assert!((gap(&square, &moved(5.0, 6.0)) - 5.0).abs() < 1e-12, "3, 4, 5");
        assert!(gap(&square, &moved(1.0, 1.0)) < 1e-12);
        let cloth = Region::rectangle(10.0, 10.0).outer;
        assert!((rims_apart(&cloth, &moved(3.0, 0.25)) - 0.25).abs() < 1e-12);
    }
}
