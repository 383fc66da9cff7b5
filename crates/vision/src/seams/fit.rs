//! The motion that lays corners on corners.

use plane::{Point, Pose, Turn, Vec2};

/// The motion that lays one list of points on another of the same length with the least sum of squares,
/// and the root of the mean square that is left.
pub(super) fn laid(from: &[Point], to: &[Point]) -> Option<(Pose, f64)> {
    let n = from.len() as f64;
    let middle = |points: &[Point]| {
        let sum = points.iter().fold(Vec2::new(0.0, 0.0), |sum, p| sum + p.to_vec2()) * (1.0 / n);
        Point::new(sum.x, sum.y)
    };
    if from.len() < 2 || from.len() != to.len() {
        return None;
    }
    let (here, there) = (middle(from), middle(to));
    let (mut cos, mut sin) = (0.0, 0.0);
    for (a, b) in from.iter().zip(to) {
        let (u, v) = (*a - here, *b - there);
        cos += u.dot(v);
        sin += u.cross(v);
    }
    let pose = Pose::carrying(Turn::towards(Vec2::new(cos, sin))?, here, there);
    let square: f64 = from.iter().zip(to).map(|(a, b)| pose.apply(*a).distance(*b).powi(2)).sum();
    Some((pose, (square / n).sqrt()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_moved_ring_is_laid_back() {
        let ring = [(0.0, 0.0), (4.0, 1.0), (3.0, 5.0)].map(|(x, y)| Point::new(x, y));
        let pose = Pose::new(Turn::from_degrees(77.0), Vec2::new(3.0, -2.0));
        let (found, off) = laid(&ring, &pose.apply_all(&ring)).unwrap();
        assert!(off < 1e-9 && (found.by - pose.by).length() < 1e-9, "{found:?} {off}");
    }
}
