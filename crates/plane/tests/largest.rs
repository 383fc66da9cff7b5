//! Largest shapes of a kind inside an outline, against published extremes and by a second
//! method.

mod common;

use common::{Dice, plain, points};
use plane::largest::{
    Largest, largest_disc, largest_of_ratio, largest_rectangle, largest_regular, largest_square,
};
use plane::{Pose, Region, Turn, Vec2, lies_within, polygon};

const STILL: Pose = Pose::new(Turn::NONE, Vec2::new(0.0, 0.0));

fn regular(corners: usize, side: f64) -> Region {
    let reach = side / (2.0 * (std::f64::consts::PI / corners as f64).sin());
    let corner = |i: usize| {
        plane::Point::ORIGIN + Turn::from_degrees(360.0 * i as f64 / corners as f64 + 7.3).vec() * reach
    };
    plain((0..corners).map(corner).collect())
}

fn side(found: &Largest) -> f64 {
    found.corners[0].distance(found.corners[1])
}

#[track_caller]
fn check(region: &Region, found: Option<Largest>, published_side: f64) {
    let found = found.expect("there is room");
    let shrunk = inside_by_a_hair(&found);
    assert!(lies_within(&shrunk, region, STILL), "it sticks out: {found:?}");
    assert!(
        (side(&found) - published_side).abs() < 1e-8,
        "found {}, published {published_side}",
        side(&found)
    );
}

/// The shape a billionth smaller, so that touching counts as inside.
fn inside_by_a_hair(found: &Largest) -> Vec<plane::Point> {
    let middle = polygon::centroid(&found.corners).expect("it has area");
    found.corners.iter().map(|&p| p.lerp(middle, 1e-9)).collect()
}

#[test]
fn the_largest_triangle_in_the_unit_square_has_side_1_03528() {
    // Source: J. S. Madachy, Mathematical Recreations (1979), 129-131, as quoted in MathWorld,
    // "Equilateral Triangle": side sec 15 deg = sqrt6 - sqrt2.
    let square = Region::rectangle(1.0, 1.0);
    check(&square, largest_regular(&square, 3), 6_f64.sqrt() - 2_f64.sqrt());
}

#[test]
fn the_largest_square_in_a_regular_hexagon_has_side_1_26795() {
    // Source: GeeksforGeeks, "Largest Square that can be inscribed within a hexagon": 3 - sqrt3.
    check(&regular(6, 1.0), largest_square(&regular(6, 1.0)), 3.0 - 3_f64.sqrt());
}

#[test]
fn the_largest_square_in_a_triangle_and_a_pentagon() {
    // Sources: solve.club, "Largest square inside the triangle": 2 sqrt3 - 3; K. Duisenberg's
    // problem of the week, 13 November 1998: sin 108 / sin 63.
    check(&regular(3, 1.0), largest_square(&regular(3, 1.0)), 2.0 * 3_f64.sqrt() - 3.0);
    let published = 108_f64.to_radians().sin() / 63_f64.to_radians().sin();
    check(&regular(5, 1.0), largest_square(&regular(5, 1.0)), published);
}

#[test]
fn the_largest_pentagon_and_hexagon_in_the_unit_square() {
    // Sources: K. Duisenberg's problem of the week, 10 July 2001: x cos 45 + x cos 27 = 1;
    // Mathematics Stack Exchange, "area of the largest hexagon that can be inscribed in a unit
    // square": area 3 sqrt3 - 9/2.
    let square = Region::rectangle(1.0, 1.0);
    let pentagon = 1.0 / (45_f64.to_radians().cos() + 27_f64.to_radians().cos());
    check(&square, largest_regular(&square, 5), pentagon);
    let hexagon = ((3.0 * 3_f64.sqrt() - 4.5) / (1.5 * 3_f64.sqrt())).sqrt();
    check(&square, largest_regular(&square, 6), hexagon);
}

#[test]
fn a_thin_bar_reaches_from_corner_to_corner_less_its_width() {
    // Source: W. B. Carver (1957), in J. E. Wetzel, "Rectangles in Rectangles" (2000), with
    // a = b = 1: (p + q)^2 = 2; so p = ratio q gives q = sqrt2 / (1 + ratio).
    let square = Region::rectangle(1.0, 1.0);
    for ratio in [3.0, 5.0, 20.0] {
        check(&square, largest_of_ratio(&square, ratio), ratio * 2_f64.sqrt() / (1.0 + ratio));
    }
}

#[test]
fn the_largest_rectangle_in_a_triangle_is_half_of_it() {
    // From memory: L. H. Lange, "Several hyperbolic encounters" (1976); half, in any triangle.
    let mut dice = Dice::new(1976);
    for _ in 0..12 {
        let triangle = plain(dice.outline(3, 8.0, 0.5));
        let found = largest_rectangle(&triangle).expect("there is room");
        assert!(lies_within(&inside_by_a_hair(&found), &triangle, STILL));
        let half = triangle.area() / 2.0;
        let area = polygon::area(&found.corners);
        assert!((area - half).abs() < 1e-6 * half, "{area} {half}");
    }
}

#[test]
fn the_largest_rectangle_in_a_rectangle_is_itself() {
    let found = largest_rectangle(&Region::rectangle(9.0, 4.0)).expect("there is room");
    assert!((polygon::area(&found.corners) - 36.0).abs() < 1e-6);
}

#[test]
fn a_notched_outline_holds_what_the_slow_search_finds() {
    // An L of two 2 x 6 bars: the largest square has the inside corner on a side's middle or
    // stands in one bar; by hand, upright in the corner it is 2, and none larger fits upright.
    let ell = plain(points(&[(0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (2.0, 2.0), (2.0, 6.0), (0.0, 6.0)]));
    let found = largest_square(&ell).expect("there is room");
    assert!(lies_within(&inside_by_a_hair(&found), &ell, STILL));
    assert!((side(&found) - 2.0).abs() < 0.003, "{}", side(&found));
    assert!(largest_rectangle(&ell).is_none(), "only convex outlines");
}

#[test]
fn no_regular_polygon_beats_the_disc_and_many_sides_come_close() {
    let mut dice = Dice::new(8);
    for _ in 0..30 {
        let outline = plain(dice.convex(9, 20.0));
        let disc = largest_disc(&outline, 1e-6).expect("there is room");
        let found = largest_regular(&outline, 48).expect("there is room");
        let inscribed = found.scale * (std::f64::consts::PI / 48.0).cos();
        assert!(
            inscribed <= disc.radius + 1e-9
                && inscribed > 0.99 * disc.radius * (std::f64::consts::PI / 48.0).cos()
        );
    }
}

#[test]
fn nothing_fits_in_nothing() {
    assert_eq!(largest_square(&Region::default()), None);
    assert_eq!(largest_regular(&Region::rectangle(1.0, 1.0), 2), None);
    assert_eq!(largest_of_ratio(&Region::rectangle(1.0, 1.0), f64::NAN), None);
}
