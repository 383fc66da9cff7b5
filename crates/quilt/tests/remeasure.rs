//! A seen outline laid on the planned one: the motion is found, and each difference is named.

use plane::{Line, Point, Pose, Turn, Vec2, polygon};
use quilt::remeasure::{LayProblem, SeamBehind, lay_on};

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

/// A rectangle 12 by 8 whose upper edge is moved by `lean` to the right.
fn leaning(lean: f64) -> Vec<Point> {
    points(&[(0.0, 0.0), (12.0, 0.0), (12.0 + lean, 8.0), (lean, 8.0)])
}

/// What is told of a piece planned as a rectangle 12 by 8.
fn told_of(seen: &[Point], behind: &[SeamBehind]) -> Vec<String> {
    let names: Vec<String> = (1..=4).map(|no: u32| no.to_string()).collect();
    lay_on(&leaning(0.0), seen, Turn::NONE).unwrap().square(behind).words(&names)
}

// Plane geometry: diagonals of a parallelogram are √((w ± s)² + h²), its corners 90° ± atan(s / h).
#[test]
fn a_piece_that_leans_is_told_by_its_diagonals_and_corners() {
    let lean = 0.25;
    let laid = lay_on(&leaning(0.0), &leaning(lean), Turn::NONE).unwrap();
    let square = laid.square(&[]);
    assert_eq!(square.opposite.len(), 2);
    for pair in &square.opposite {
        assert!((pair.seen_in[0] - pair.seen_in[1]).abs() < 1e-6, "opposite sides agree");
    }
    let [diagonals] = &square.diagonals[..] else { panic!("{square:?}") };
    let long = |s: f64| ((12.0 + s).powi(2) + 64.0).sqrt();
    assert!((diagonals.seen_in[0] - long(lean)).abs() < 1e-3, "{diagonals:?}");
    assert!((diagonals.seen_in[1] - long(-lean)).abs() < 1e-3, "{diagonals:?}");
    let off = (lean / 8.0_f64).atan().to_degrees();
    for (corner, sign) in square.corners.iter().zip([-1.0, 1.0, -1.0, 1.0]) {
        assert!((corner.planned_deg - 90.0).abs() < 1e-9);
        assert!((corner.seen_deg - 90.0 - sign * off).abs() < 0.02, "{corner:?} {off}");
    }
    let told = told_of(&leaning(lean), &[]).join("; ");
    assert!(told.contains("The diagonals differ by 7/16: the piece leans."), "{told}");
    assert!(told.contains("has 88.2 degrees; 90.0 were planned"), "{told}");
    assert!(!told.contains("Sides"), "{told}");
}

#[test]
fn opposite_sides_that_differ_are_told_and_a_true_piece_says_nothing() {
    assert_eq!(told_of(&leaning(0.0), &[]), Vec::<String>::new());
    // Within 1/16: nothing.
    assert_eq!(
        told_of(&points(&[(0.0, 0.0), (12.0, 0.0), (12.04, 8.0), (0.0, 8.0)]), &[]),
        Vec::<String>::new()
    );
    let told = told_of(&points(&[(0.0, 0.0), (12.0, 0.0), (11.875, 8.0), (0.0, 8.0)]), &[]).join("; ");
    assert!(
        told.contains("Sides 1 and 3 lie opposite and were planned alike; they differ by 1/8."),
        "{told}"
    );
    assert!(!told.contains("Sides 2 and 4"), "{told}");
}

#[test]
fn an_edge_that_bows_is_told_with_its_height_and_which_way() {
    for (height, says) in [(0.1875, "Side 1 bows out by 3/16"), (-0.1875, "Side 1 is hollow by 3/16")] {
        let mut seen: Vec<Point> = (0..48)
            .map(|k| {
                let u = f64::from(k) / 24.0 - 1.0;
                Point::new(6.0 + 6.0 * u, -height * (1.0 - u * u))
            })
            .collect();
        seen.extend(points(&[(12.0, 0.0), (12.0, 8.0), (0.0, 8.0)]));
        let told = told_of(&seen, &[]).join("; ");
        assert!(told.contains(says), "{told}");
        assert!(!told.contains("Side 3"), "{told}");
    }
}

#[test]
fn an_edge_longer_than_the_seam_behind_it_allows_is_told() {
    let line = |y: f64| Line::through(Point::new(0.0, y), Point::new(12.0, y)).unwrap();
    let seam =
        |no: u32, y: f64| SeamBehind { seam: format!("{no}a").parse().unwrap(), ends: [1, 3], line: line(y) };
    let behind = [seam(5, 6.0), seam(4, 3.0)];
    // The upper edge 3/8 longer, from the seam 3 below the middle on: its sides flare in a straight line,
    // so that the seam 2 below the edge has grown by 6/8 of it.
    let flared = points(&[(0.0, 0.0), (12.0, 0.0), (12.1875, 8.0), (-0.1875, 8.0)]);
    let laid = lay_on(&leaning(0.0), &flared, Turn::NONE).unwrap();
    let square = laid.square(&behind);
    let [stretched] = &square.stretched[..] else { panic!("{square:?}") };
    assert_eq!((stretched.side, stretched.seam), (2, seam(5, 6.0).seam), "the nearest seam");
    assert!((stretched.by_in - 0.375 * 2.0 / 8.0).abs() < 5e-3, "{stretched:?}");
    // As long all the way down: nothing is stretched.
    let wide = points(&[(0.0, 0.0), (12.375, 0.0), (12.375, 8.0), (0.0, 8.0)]);
    assert!(lay_on(&leaning(0.0), &wide, Turn::NONE).unwrap().square(&behind).stretched.is_empty());
}
