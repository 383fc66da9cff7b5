//! How near a grown outline comes to the wished size.
//!
//! A round outline, or one with five sides and more, is as wide as the circle of the same area: what
//! it has too little on one side it may have too much on another. A triangle or a square is trued up
//! before anything is sewn round it, and then what is missing at a corner is missing. So its size is
//! that of the largest outline like the wished one, not turned, that can be cut from what was grown:
//! that is what the maker has in hand after trueing up.

use crate::target::Target;
use plane::{Line, Point, polygon};

/// Up to so many sides the size is that of what can be cut.
const CUT_SIDES: usize = 4;

/// Within so many inches the wished size is reached.
pub(crate) const REACHED_IN: f64 = 0.5;

/// Whether the size of what is grown towards is that of what can be cut from it.
pub(crate) fn is_cut(target: &Target) -> bool {
    target.sides <= CUT_SIDES
}

/// How far a finished outline is off the wished width, in inches; below 0 when it is smaller. The
/// width is the diameter of the circle of the same area.
pub(crate) fn off(outline: &[Point], target: &Target) -> f64 {
    let wished = 2.0 * target.radius;
    if is_cut(target) {
        return wished * (largest(outline, &target.outline) - 1.0);
    }
    2.0 * (polygon::area(outline) / std::f64::consts::PI).sqrt() - wished
}

/// What is trued off beyond the wished outline, as a share of it; 0 when nothing will be cut.
pub(crate) fn waste(outline: &[Point], target: &Target) -> f64 {
    let wished = std::f64::consts::PI * target.radius * target.radius;
    if is_cut(target) { (polygon::area(outline) / wished - 1.0).max(0.0) } else { 0.0 }
}

/// How many times the size of a shape its largest copy, moved but not turned, has in a convex
/// outline; 0 when there is no such copy.
fn largest(outline: &[Point], shape: &[Point]) -> f64 {
    // A copy `k` times the size moved by `(x, y)` lies inside a side when its corner furthest out
    // does: nx x + ny y + k least >= at. The largest k lies where three such bounds meet.
    let bounds: Vec<[f64; 4]> = polygon::edges(outline)
        .filter_map(|(a, b)| Line::through(a, b))
        .map(|line| {
            let normal = line.normal.vec();
            let least = shape.iter().map(|p| normal.dot(p.to_vec2())).fold(f64::INFINITY, f64::min);
            [normal.x, normal.y, least, line.at]
        })
        .collect();
    let n = bounds.len();
    let mut best: f64 = 0.0;
    for i in 0..n {
        for j in i + 1..n {
            for l in j + 1..n {
                let Some([x, y, k]) = meet([bounds[i], bounds[j], bounds[l]]) else { continue };
                let inside = |[nx, ny, least, at]: &[f64; 4]| nx * x + ny * y + least * k >= at - SLIP_IN;
                if k > best && bounds.iter().all(inside) {
                    best = k;
                }
            }
        }
    }
    best
}

/// By how much a corner may lie outside for rounding, in inches.
const SLIP_IN: f64 = 1e-7;

/// Where three planes meet, by Cramer's rule.
fn meet(planes: [[f64; 4]; 3]) -> Option<[f64; 3]> {
    let [a, b, c] = planes;
    let det = |u: [f64; 3], v: [f64; 3], w: [f64; 3]| {
        u[0] * (v[1] * w[2] - v[2] * w[1]) - v[0] * (u[1] * w[2] - u[2] * w[1])
            + w[0] * (u[1] * v[2] - u[2] * v[1])
    };
    let column = |i: usize| [a[i], b[i], c[i]];
    let [x, y, k, at] = [column(0), column(1), column(2), column(3)];
    let whole = det(x, y, k);
    (whole.abs() > 1e-12).then(|| [det(at, y, k) / whole, det(x, at, k) / whole, det(x, y, at) / whole])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(corners: &[(f64, f64)]) -> Vec<Point> {
        corners.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn the_largest_square_in_a_rectangle_is_as_wide_as_its_short_side() {
        let square = points(&[(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)]);
        let rectangle = points(&[(3.0, 1.0), (13.0, 1.0), (13.0, 7.0), (3.0, 7.0)]);
        assert!((largest(&rectangle, &square) - 3.0).abs() < 1e-9);
    }

    // A square with a side along the base of a triangle of base b and height h has the side
    // b h / (b + h) (similar triangles).
    #[test]
    fn the_largest_square_on_the_base_of_a_triangle_is_that_of_similar_triangles() {
        let square = points(&[(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)]);
        let (b, h) = (9.0, 6.0);
        let triangle = points(&[(0.0, 0.0), (b, 0.0), (4.0, h)]);
        assert!((largest(&triangle, &square) - b * h / (b + h)).abs() < 1e-9);
    }

    // Slow second method: copies at the places of a fine grid, each as large as it can be there.
    #[test]
    fn the_largest_copy_agrees_with_a_fine_grid() {
        let shape = points(&[(-1.0, -0.6), (1.2, -0.5), (0.1, 1.3)]);
        let outline = points(&[(-5.0, -4.0), (3.0, -5.0), (7.0, 1.0), (2.0, 6.0), (-6.0, 3.0)]);
        let lines: Vec<Line> = polygon::edges(&outline).filter_map(|(a, b)| Line::through(a, b)).collect();
        let at = |x: f64, y: f64| {
            let reach = |line: &Line| {
                let most = shape.iter().map(|p| -line.normal.vec().dot(p.to_vec2())).fold(0.0, f64::max);
                line.inside_by(Point::new(x, y)) / most.max(1e-9)
            };
            lines.iter().map(reach).fold(f64::INFINITY, f64::min)
        };
        let grid =
            (-120..120).flat_map(|x| (-120..120).map(move |y| (f64::from(x) / 20.0, f64::from(y) / 20.0)));
        let slow = grid.map(|(x, y)| at(x, y)).fold(0.0, f64::max);
        let is = largest(&outline, &shape);
        assert!(is >= slow - 1e-9 && is - slow < 0.06, "{is} against {slow}");
    }
}
