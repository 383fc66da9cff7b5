//! Largest shapes inside shapes, against published extremes: just below fits, just above does
//! not.

mod common;

use common::{Dice, points};
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
        let best = best_fit(&ask).pose().expect("what fits has a best way to fit");
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

fn check_extreme(piece: &[Point], cloth: &[Point], published: f64, within: f64) {
    let found = largest_scale(piece, cloth);
    assert!((found - published).abs() < within, "found {found}, published {published}");
}

#[test]
fn the_largest_triangle_in_the_unit_square_has_side_1_03528() {
    // Source: J. S. Madachy, Mathematical Recreations (1979), 129-131, as quoted in MathWorld,
    // "Equilateral Triangle": side sec 15 deg = sqrt6 - sqrt2.
    let square = rectangle(1.0, 1.0);
    check_extreme(&regular(3, 1.0), &square, 6_f64.sqrt() - 2_f64.sqrt(), 2e-8);
    assert!(fit_any(&regular(3, 1.035), &square));
    assert!(!fit_any(&regular(3, 1.036), &square));
}

#[test]
fn the_example_of_the_command_line_fits() {
    let piece = points(&[(0.0, 0.0), (1.03, 0.0), (0.515, 0.892)]);
    assert!(fit_any(&piece, &rectangle(1.0, 1.0)));
}

#[test]
fn the_largest_square_in_a_regular_hexagon_has_side_1_26795() {
    // Source: GeeksforGeeks, "Largest Square that can be inscribed within a hexagon": 3 - sqrt3.
    check_extreme(&regular(4, 1.0), &regular(6, 1.0), 3.0 - 3_f64.sqrt(), 2e-8);
}

#[test]
fn the_largest_square_in_an_equilateral_triangle_has_side_0_46410() {
    // Source: solve.club, "Largest square inside the triangle": 2 sqrt3 - 3.
    check_extreme(&regular(4, 1.0), &regular(3, 1.0), 2.0 * 3_f64.sqrt() - 3.0, 2e-8);
}

#[test]
fn the_largest_pentagon_in_the_unit_square_has_side_0_625738() {
    // Source: K. Duisenberg's problem of the week, 10 July 2001: x cos 45 + x cos 27 = 1.
    let side = 1.0 / (45_f64.to_radians().cos() + 27_f64.to_radians().cos());
    check_extreme(&regular(5, 1.0), &rectangle(1.0, 1.0), side, 2e-8);
}

#[test]
fn the_largest_square_in_a_regular_pentagon_has_side_1_067395() {
    // Source: K. Duisenberg's problem of the week, 13 November 1998: one corner in a corner, its
    // neighbours on sides; by the sine law sin 108 / sin 63 (printed cut off, 1.067395).
    let side = 108_f64.to_radians().sin() / 63_f64.to_radians().sin();
    check_extreme(&regular(4, 1.0), &regular(5, 1.0), side, 2e-8);
}

#[test]
fn the_largest_hexagon_covers_0_6962_of_the_unit_square() {
    // Source: Mathematics Stack Exchange, "area of the largest hexagon that can be inscribed in
    // a unit square": share of the area 3 sqrt3 - 9/2.
    let area = 3.0 * 3_f64.sqrt() - 4.5;
    let side = (area / (1.5 * 3_f64.sqrt())).sqrt();
    check_extreme(&regular(6, 1.0), &rectangle(1.0, 1.0), side, 2e-8);
}

#[test]
fn a_rectangle_fits_a_rectangle_just_when_carvers_formula_says_so() {
    // Source: W. B. Carver (1957), in J. E. Wetzel, "Rectangles in Rectangles", Mathematics
    // Magazine 73 (2000): p >= q in a >= b just when p <= a and q <= b, or p > a, q <= b and
    // ((a + b) / (p + q))^2 + ((a - b) / (p - q))^2 >= 2. His example: 9 x 4 is not in 8 x 6.
    assert!(!fit_any(&rectangle(9.0, 4.0), &rectangle(8.0, 6.0)));
    let mut dice = Dice::new(1957);
    let (mut turned, mut refused) = (0, 0);
    for _ in 0..3000 {
        let (a, b) = (dice.between(2.0, 6.0), dice.between(1.0, 2.0));
        let p = a * dice.between(0.9, 1.2);
        let q = (b * dice.share()).min(p);
        let value = ((a + b) / (p + q)).powi(2) + ((a - b) / (p - q)).powi(2) - 2.0;
        let slanting = p > a && q <= b && value >= 0.0;
        if p > a && value.abs() < 1e-7 {
            continue;
        }
        let fits = (p <= a && q <= b) || slanting;
        assert_eq!(fit_any(&rectangle(p, q), &rectangle(a, b)), fits, "{p} x {q} in {a} x {b}");
        turned += usize::from(slanting);
        refused += usize::from(!fits);
    }
    assert!(turned > 100 && refused > 100, "{turned} turned, {refused} refused");
}

#[test]
fn a_thin_bar_reaches_from_corner_to_corner_less_its_width() {
    // Source: Carver's formula with a = b = 1: (p + q)^2 = 2.
    for q in [0.01, 0.1, 0.2, 0.4] {
        let longest = 2_f64.sqrt() - q;
        let square = rectangle(1.0, 1.0);
        assert!(fit_any(&rectangle(longest - 1e-8, q), &square), "width {q}");
        assert!(!fit_any(&rectangle(longest + 1e-8, q), &square), "width {q}");
    }
}

/// Post's condition for a triangle with sides p, q, r in one with sides a, b, c, and by how much
/// it holds, relatively.
fn post(inner: [f64; 3], outer: [f64; 3]) -> f64 {
    let area = |[a, b, c]: [f64; 3]| {
        let (a, b, c) = (a * a, b * b, c * c);
        (2.0 * (a * b + b * c + c * a) - a * a - b * b - c * c).sqrt() / 4.0
    };
    let (f, g) = (area(outer), area(inner));
    let mut best = f64::NEG_INFINITY;
    for turn in 0..3 {
        let [a, b, c] = [outer[turn], outer[(turn + 1) % 3], outer[(turn + 2) % 3]];
        for [i, j, k] in [[0, 1, 2], [0, 2, 1], [1, 0, 2], [1, 2, 0], [2, 0, 1], [2, 1, 0]] {
            let [p, q, r] = [inner[i], inner[j], inner[k]];
            let one = (f * (q * q + r * r - p * p)).max(g * (b * b + c * c - a * a));
            let other = (f * (p * p + r * r - q * q)).max(g * (a * a + c * c - b * b));
            let room = 2.0 * f * c * r - one - other;
            best = best.max(room / (2.0 * f * c * r));
        }
    }
    best
}

#[test]
fn a_triangle_fits_a_triangle_just_when_posts_condition_says_so() {
    // Source: K. A. Post, "Triangle in a triangle: on a problem of Steinhaus", Geometriae
    // Dedicata 45 (1993) 115-120: one of 18 inequalities. It allows a mirrored copy; so either
    // the triangle or its mirror image must fit here.
    let mut dice = Dice::new(1993);
    let (mut yes, mut no, mut only_mirrored) = (0, 0, 0);
    for _ in 0..4000 {
        let size = dice.between(1.5, 2.6);
        let (inner, outer) = (dice.outline(3, size, 0.6), dice.outline(3, 3.0, 0.6));
        let sides = |t: &[Point]| [0, 1, 2].map(|i| t[i].distance(t[(i + 1) % 3]));
        let room = post(sides(&inner), sides(&outer));
        if room.abs() < 1e-7 {
            continue;
        }
        let mirrored: Vec<Point> = inner.iter().rev().map(|p| Point::new(-p.x, p.y)).collect();
        let (straight, mirrored) = (fit_any(&inner, &outer), fit_any(&mirrored, &outer));
        assert_eq!(straight || mirrored, room > 0.0, "{inner:?} in {outer:?}: {room}");
        yes += usize::from(straight);
        no += usize::from(room < 0.0);
        only_mirrored += usize::from(mirrored && !straight);
    }
    assert!(yes > 200 && no > 200 && only_mirrored > 10, "{yes} {no} {only_mirrored}");
}
