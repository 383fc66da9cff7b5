//! Cutting a polygon by half-planes.

use crate::{Line, Point};

/// The part of a polygon inside `line`. Corners within `tolerance` inches of the line count as
/// inside and stay where they are. For a polygon that isn't convex the result can carry doubled
/// edges along the line where parts were joined by it; its area is right all the same.
#[must_use]
pub fn clip_half_plane(points: &[Point], line: Line, tolerance: f64) -> Vec<Point> {
    let n = points.len();
    let mut kept = Vec::with_capacity(n + 2);
    for i in 0..n {
        let (p, q) = (points[i], points[(i + 1) % n]);
        let (dp, dq) = (line.inside_by(p), line.inside_by(q));
        if dp >= -tolerance {
            kept.push(p);
        }
        if (dp > tolerance && dq < -tolerance) || (dp < -tolerance && dq > tolerance) {
            kept.push(p.lerp(q, dp / (dp - dq)));
        }
    }
    if kept.len() < 3 { Vec::new() } else { kept }
}

/// The part of a polygon inside all sides of a convex counter-clockwise outline.
#[must_use]
pub fn clip_convex(points: &[Point], convex: &[Point], tolerance: f64) -> Vec<Point> {
    crate::polygon::edges(convex)
        .filter_map(|(a, b)| Line::through(a, b))
        .fold(points.to_vec(), |kept, line| clip_half_plane(&kept, line, tolerance))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::polygon::area;

    #[test]
    fn a_square_cut_through_its_middle_leaves_half() {
        let square = [(0.0, 0.0), (2.0, 0.0), (2.0, 2.0), (0.0, 2.0)].map(|(x, y)| Point::new(x, y));
        let line = Line::through(Point::new(1.0, 0.0), Point::new(1.0, 2.0)).unwrap();
        let left = clip_half_plane(&square, line, 0.0);
        let right = clip_half_plane(&square, line.reversed(), 0.0);
        assert_eq!((area(&left), area(&right)), (2.0, 2.0));
        assert_eq!(area(&clip_convex(&square, &left, 0.0)), 2.0);
    }
}
