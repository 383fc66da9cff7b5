//! Largest shapes inside shapes, against published extremes: just below fits, just above does
//! not.

use plane::{FitAsk, Point, Region, Turn, Turning, best_fit, fits, lies_within};

fn regular(corners: usize, side: f64) -> Vec<Point> {
    let reach = side / (2.0 * (std::f64::consts::PI / corners as f64).sin());
    (0..corners)
        .map(|i| {
            let turn = Turn::from_degrees(360.0 * i as f64 / corners as f64 + 7.3);
            Point::ORIGIN + turn.vec() * reach
        })
        .collect()
}

fn rectangle(width: f64, height: f64) -> Vec<Point> {
    Region::rectangle(width, height).outer
}

fn fit_any(piece: &[Point], cloth: &[Point]) -> bool {
    let cloth = Region { outer: cloth.to_vec(), holes: Vec::new() };
    let ask = FitAsk { piece, cloth: &cloth, turning: Turning::Any, base: Turn::NONE, margin: &[] };
    let pose = fits(&ask);
    if let Some(pose) = pose {
        assert!(lies_within(piece, &cloth, pose), "a pose was given at which it sticks out");
        let best = best_fit(&ask).expect("what fits has a best way to fit");
        assert!(lies_within(piece, &cloth, best));
    }
    pose.is_some()
}

/// The largest scale at which `piece` fits, by halving, to 1e-10.
fn largest_scale(piece: &[Point], cloth: &[Point]) -> f64 {
    let (mut low, mut high) = (0.0, 10.0);
    for _ in 0..40 {
        let middle = (low + high) / 2.0;
        let scaled: Vec<Point> = piece.iter().map(|p| Point::new(p.x * middle, p.y * middle)).collect();
        if middle == 0.0 || fit_any(&scaled, cloth) { low = middle } else { high = middle }
    }
    low
}

fn check_extreme(piece: &[Point], cloth: &[Point], published: f64) {
    let found = largest_scale(piece, cloth);
    assert!((found - published).abs() < 2e-8, "found {found}, published {published}");
}

#[test]
fn the_largest_triangle_in_the_unit_square_has_side_1_03528() {
    // Source: E. W. Weisstein, "Equilateral Triangle", MathWorld: side sec 15 deg = sqrt6 - sqrt2.
    let square = rectangle(1.0, 1.0);
    check_extreme(&regular(3, 1.0), &square, 6_f64.sqrt() - 2_f64.sqrt());
    assert!(fit_any(&regular(3, 1.035), &square));
    assert!(!fit_any(&regular(3, 1.036), &square));
}

#[test]
fn the_example_of_the_command_line_fits() {
    let piece = [(0.0, 0.0), (1.03, 0.0), (0.515, 0.892)].map(|(x, y)| Point::new(x, y));
    assert!(fit_any(&piece, &rectangle(1.0, 1.0)));
}

#[test]
fn the_largest_square_in_a_regular_hexagon_has_side_1_26795() {
    // Source: MathWorld, "Hexagon" (largest inscribed square): 3 - sqrt3 for side 1.
    check_extreme(&regular(4, 1.0), &regular(6, 1.0), 3.0 - 3_f64.sqrt());
}

#[test]
fn the_largest_square_in_an_equilateral_triangle_has_side_0_46410() {
    // Source: MathWorld, "Triangle Square Inscribing": 2 sqrt3 - 3 for side 1.
    check_extreme(&regular(4, 1.0), &regular(3, 1.0), 2.0 * 3_f64.sqrt() - 3.0);
}
