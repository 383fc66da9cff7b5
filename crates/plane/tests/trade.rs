//! Offsets and cuts against the figures that the trade prints for allowances and borders (the T
//! numbers are those of the design notes' list of values). Inches.

use plane::{Line, Point, Turn, clip_half_plane, grow_outline, polygon};

const SEAM_IN: f64 = 0.25;

fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn regular(sides: u32, edge: f64) -> Vec<Point> {
    let radius = edge / (2.0 * (std::f64::consts::PI / f64::from(sides)).sin());
    let corner = |i| Turn::from_degrees(360.0 * f64::from(i) / f64::from(sides)).vec() * radius;
    (0..sides).map(|i| Point::new(corner(i).x, corner(i).y)).collect()
}

fn edge(outline: &[Point]) -> f64 {
    outline[0].distance(outline[1])
}

#[track_caller]
fn near(found: f64, expected: f64, tolerance: f64) {
    assert!((found - expected).abs() <= tolerance, "{found} is not {expected}");
}

// karencombs.com page 31 (7/8 and 1 1/4 in round figures).
#[test]
fn right_triangles_grow_by_the_printed_allowances() {
    let finished = points(&[(0.0, 0.0), (3.0, 0.0), (0.0, 3.0)]);
    let cut = grow_outline(&finished, SEAM_IN);
    let (low, high) = polygon::bounds(&cut).unwrap();
    near(high.x - low.x - 3.0, 0.853_553, 1e-6);
    near(polygon::diameter(&cut) - polygon::diameter(&finished), 1.207_107, 1e-6);
}

// quilting.about.com; mythicseam.com (finished height 4 1/4).
#[test]
fn equilateral_triangles_grow_by_three_seams_in_height() {
    let finished = regular(3, 4.25 / (3.0_f64.sqrt() / 2.0));
    let cut = grow_outline(&finished, SEAM_IN);
    near(polygon::least_width(&cut), 5.0, 1e-9);
    near(edge(&cut) - edge(&finished), 0.866_025, 1e-6);
    near(edge(&finished), 4.9075, 5e-5);
}

// slaneyquiltingstudio; quiltingreadersgarden 2018/04.
#[test]
fn hexagons_grow_by_two_seams_from_flat_to_flat() {
    let finished = grow_outline(&regular(6, 3.25 / 3.0_f64.sqrt()), -SEAM_IN);
    near(polygon::least_width(&finished), 2.75, 1e-9);
    near(edge(&finished), 1.587_713, 1e-6);
    near(edge(&grow_outline(&finished, SEAM_IN)) - edge(&finished), 0.288_675, 1e-6);
    near(polygon::area(&regular(6, 2.5)), 16.2380, 5e-5);
}

// mathhomeworkanswers 30631.
#[test]
fn a_square_without_its_corners_is_a_regular_octagon() {
    for (a, side) in [(10.0_f64, 4.1421), (2.25, 0.931_98)] {
        let off = a / (2.0 + std::f64::consts::SQRT_2);
        let mut outline = points(&[(0.0, 0.0), (a, 0.0), (a, a), (0.0, a)]);
        let ends = [
            ((off, 0.0), (0.0, off)),
            ((a, off), (a - off, 0.0)),
            ((a - off, a), (a, a - off)),
            ((0.0, a - off), (off, a)),
        ];
        for (from, to) in ends {
            let line = Line::through(Point::new(from.0, from.1), Point::new(to.0, to.1)).unwrap();
            let cut = if line.inside_by(Point::new(a / 2.0, a / 2.0)) > 0.0 { line } else { line.reversed() };
            outline = clip_half_plane(&outline, cut, plane::DECISION);
        }
        assert_eq!(outline.len(), 8);
        polygon::edges(&outline).for_each(|(p, q)| near(p.distance(q), side, 6e-5));
    }
}

// Geometry: the outer edge of a mitred border is e + 2 w cot(A/2).
#[test]
fn borders_round_regular_polygons_measure_as_listed() {
    for (sides, inner, wide, outer, around, area) in [
        (6, 10.0, 4.0, 14.6188, 87.7128, 295.4256),
        (8, 10.0, 4.0, 13.3137, 106.5097, 373.0193),
        (4, 20.0, 4.0, 28.0, 112.0, 384.0),
        (3, 12.0, 3.0, 22.3923, 67.1769, 154.7654),
        (5, 10.0, 3.0, 14.3593, 71.7963, 182.6944),
        (12, 6.0, 2.0, 7.0718, 84.8616, 156.8616),
    ] {
        let inside = regular(sides, inner);
        let outside = grow_outline(&inside, wide);
        near(edge(&outside), outer, 6e-5);
        near(polygon::perimeter(&outside), around, 6e-5);
        near(polygon::area(&outside) - polygon::area(&inside), area, 6e-5);
    }
    let inside = points(&[(0.0, 0.0), (20.0, 0.0), (20.0, 30.0), (0.0, 30.0)]);
    near(polygon::area(&grow_outline(&inside, 3.0)) - 600.0, 336.0, 1e-9);
}
