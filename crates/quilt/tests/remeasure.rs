//! A seen outline laid on the planned one: the motion is found, and each difference is named.

use plane::{Line, Point, Pose, Turn, Vec2, polygon};
use quilt::remeasure::{LayProblem, lay_on};

fn points(corners: &[(f64, f64)]) -> Vec<Point> {
    corners.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

/// A centre as they come: no two sides or corners alike.
fn centre() -> Vec<Point> {
    points(&[(0.0, 0.0), (7.0, -1.5), (13.0, 2.0), (14.5, 9.0), (9.0, 14.0), (2.0, 12.5), (-2.0, 6.0)])
}

fn names() -> Vec<String> {
    (1..=7).map(|no: u32| no.to_string()).collect()
}

/// The polygon whose sides lie further in by so much each.
fn sides_moved(outline: &[Point], inward: &[f64]) -> Vec<Point> {
    let lines: Vec<Line> = polygon::edges(outline)
        .zip(inward)
        .filter_map(|((a, b), by)| Some(Line::through(a, b)?.inward(*by)))
        .collect();
    let n = lines.len();
    (0..n).filter_map(|i| lines[(i + n - 1) % n].crossing(lines[i])).collect()
}

#[test]
fn the_same_outline_elsewhere_comes_out_as_planned() {
    let pose = Pose::new(Turn::from_degrees(143.0), Vec2::new(31.0, -8.0));
    let mut seen = pose.apply_all(&centre());
    seen.rotate_left(3);
    let laid = lay_on(&centre(), &seen, Turn::NONE).unwrap();
    assert!(laid.off_in < 1e-6, "{}", laid.off_in);
    assert_eq!(laid.rival_deg, None);
    assert!(laid.differences(&names()).is_empty(), "{:?}", laid.differences(&names()));
    let back = pose.then(laid.pose);
    assert!(back.by.length() < 1e-6 && back.turn.sin.abs() < 1e-8);
}

#[test]
fn one_side_trimmed_too_far_is_named_with_its_neighbours_lengths() {
    let inward = [0.0, 0.0, 0.0, 0.25, 0.0, 0.0, 0.0];
    let seen = sides_moved(&centre(), &inward);
    let laid = lay_on(&centre(), &seen, Turn::NONE).unwrap();
    let planned: Vec<f64> = polygon::edges(&centre()).map(|(a, b)| a.distance(b)).collect();
    let truth: Vec<f64> = polygon::edges(&seen).map(|(a, b)| a.distance(b)).collect();
    for (i, side) in laid.sides.iter().enumerate() {
        assert!((side.planned_in - planned[i]).abs() < 1e-9);
        assert!((side.seen_in - truth[i]).abs() < 0.01, "side {i}: {} for {}", side.seen_in, truth[i]);
    }
    let told = laid.differences(&names()).join("; ");
    assert!(told.contains("Side 3 came out") && told.contains("shorter"), "{told}");
    assert!(!told.contains("Side 1 came out") && !told.contains("Side 7 came out"), "{told}");
}

#[test]
fn a_square_can_be_laid_on_four_ways_and_that_is_told() {
    let square = points(&[(0.0, 0.0), (12.0, 0.0), (12.0, 12.0), (0.0, 12.0)]);
    let laid = lay_on(&square, &square, Turn::NONE).unwrap();
    assert!(laid.pose.turn.sin.abs() < 1e-6 && laid.pose.turn.cos > 0.0, "as the picture stands");
    let turned = lay_on(&square, &square, Turn::from_degrees(100.0)).unwrap();
    assert!((turned.pose.turn.to_degrees() - 90.0).abs() < 1e-3);
    let rival = laid.rival_deg.expect("another turn is as good");
    assert!((rival.abs() % 90.0) < 1e-3 || (90.0 - rival.abs() % 90.0) < 1e-3, "{rival}");
}

#[test]
fn a_wavy_side_is_said_to_stray() {
    let mut seen = Vec::new();
    for (i, (a, b)) in polygon::edges(&centre()).enumerate() {
        for k in 0..24_u32 {
            let t = f64::from(k) / 24.0;
            let wave = if i == 1 && k > 0 { 0.2 * (t * 3.0 * std::f64::consts::TAU).sin() } else { 0.0 };
            let out = Line::through(a, b).unwrap().normal.vec() * -wave;
            seen.push(a.lerp(b, t) + out);
        }
    }
    let laid = lay_on(&centre(), &seen, Turn::NONE).unwrap();
    let told = laid.differences(&names()).join("; ");
    assert!(told.contains("Side 2 isn't straight"), "{told}");
    assert!(!told.contains("Side 5 isn't straight"), "{told}");
}

#[test]
fn what_is_another_piece_is_refused_with_its_numbers() {
    let small = points(&[(0.0, 0.0), (5.0, 0.0), (5.0, 5.0), (0.0, 5.0)]);
    assert!(matches!(lay_on(&centre(), &small, Turn::NONE), Err(LayProblem::OtherSize { .. })));
    let long = points(&[(0.0, 0.0), (32.0, 0.0), (32.0, 5.6), (0.0, 5.6)]);
    assert!(matches!(lay_on(&centre(), &long, Turn::NONE), Err(LayProblem::OtherForm { .. })));
    assert_eq!(lay_on(&centre(), &small[..2], Turn::NONE), Err(LayProblem::NoOutline));
    let nan = points(&[(0.0, f64::NAN), (5.0, 0.0), (5.0, 5.0)]);
    assert_eq!(lay_on(&centre(), &nan, Turn::NONE), Err(LayProblem::NoOutline));
}

#[test]
fn moved_sides_are_found_at_any_turn() {
    let mut dice = Dice(7);
    for _ in 0..60 {
        let inward: Vec<f64> = (0..7).map(|_| 0.6 * dice.roll() - 0.3).collect();
        let truth = sides_moved(&centre(), &inward);
        let pose = Pose::new(
            Turn::from_degrees(360.0 * dice.roll()),
            Vec2::new(100.0 * dice.roll(), 100.0 * dice.roll()),
        );
        let laid = lay_on(&centre(), &pose.apply_all(&truth), Turn::NONE).unwrap();
        for (side, (a, b)) in laid.sides.iter().zip(polygon::edges(&truth)) {
            assert!(side.line.is_some());
            assert!((side.seen_in - a.distance(b)).abs() < 0.02, "{} for {}", side.seen_in, a.distance(b));
        }
    }
}

/// Numbers from 0 to 1 by a linear congruence (the constants of Knuth's MMIX, from memory).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(self.0 >> 33).unwrap()) / f64::from(u32::MAX >> 1)
    }
}
