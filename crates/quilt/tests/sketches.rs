//! The eye check against two sketches that were measured before it was written.
//!
//! The sketches are what half an hour's prototype of growing made, in flat colours; their shapes are
//! kept in `data`, in inches to three decimals. The figures are those of the design notes' table of
//! what the eye judges (common practice, no source); they were taken from the shapes as drawn.

use colour::{Lab, Srgb};
use plane::{Line, Point, polygon};
use quilt::cloth::ClothId;
use quilt::eye::{
    EyeCheck, Grade, Quality, SeamLine, Shape, Shapes, eye_check, longest_line, roundness, total_cost,
};
use quilt::log::Mark;
use quilt::wish::Wish;

const SKETCHES: [&str; 2] = [include_str!("data/sketch-0.txt"), include_str!("data/sketch-2.txt")];

fn shape(i: usize, line: &str) -> Shape {
    let (hex, corners) = line.split_once(' ').expect("a colour, then corners");
    let channel = |k: usize| u8::from_str_radix(&hex[k..k + 2], 16).expect("a colour");
    let number = |text: &str| text.parse::<f64>().expect("a coordinate");
    let point =
        |pair: &str| pair.split_once(',').map(|(x, y)| Point::new(number(x), number(y))).expect("a point");
    let mut points: Vec<Point> = corners.split(' ').map(point).collect();
    if polygon::area(&points) < 0.0 {
        points.reverse();
    }
    let srgb = Srgb { r: channel(0), g: channel(2), b: channel(4) };
    let patch = Mark(u32::try_from(i).expect("few shapes"));
    Shape { patch, points, lab: Lab::from(srgb), print: None, cloth: ClothId(i as u64) }
}

/// A sketch as the eye sees it: its outline is the hull, its seams are all sides off the outline.
fn sketch(text: &str) -> Shapes {
    let lines = text.lines().filter(|line| !line.starts_with('#'));
    let shapes: Vec<Shape> = lines.enumerate().map(|(i, line)| shape(i, line)).collect();
    let all: Vec<Point> = shapes.iter().flat_map(|s| s.points.clone()).collect();
    let outline = polygon::hull(&all);
    let rim: Vec<Line> = polygon::edges(&outline).filter_map(|(a, b)| Line::through(a, b)).collect();
    let outside = |p: Point| rim.iter().any(|line| line.inside_by(p) < 0.02);
    let seams = shapes
        .iter()
        .flat_map(|s| polygon::edges(&s.points).map(|(a, b)| (a, b, s.patch)).collect::<Vec<_>>())
        .filter(|(a, b, _)| !outside(a.midpoint(*b)))
        .map(|(a, b, added)| SeamLine { a, b, order: added.0, added, covered: [None, None] })
        .collect();
    Shapes { outline, allowance_in: 0.0, shapes, seams, touches: Vec::new(), first: 0 }
}

fn check(number: usize) -> EyeCheck {
    eye_check(&sketch(SKETCHES[number]), &Wish::default())
}

#[track_caller]
fn expect(check: &EyeCheck, quality: Quality, name: &str, expected: f64, tolerance: f64) {
    let row = check.row(quality).expect("every quality has a row");
    let value = row.values.iter().find(|v| v.name == name).expect("the row has this number").value;
    assert!((value - expected).abs() <= tolerance, "{quality:?} {name}: {value}, not {expected}");
}

#[test]
fn the_first_sketch_measures_as_published() {
    let s0 = check(0);
    expect(&s0, Quality::Round, "strays", 0.044, 0.0005);
    expect(&s0, Quality::Round, "sides", 8.0, 0.0);
    expect(&s0, Quality::FirstInTheMiddle, "off", 0.05, 0.005);
    // Published .10: with the first of the 48 rays along x it is .103, half a step off it .108.
    expect(&s0, Quality::NoSideAhead, "spread", 0.10, 0.011);
    expect(&s0, Quality::NoLogCabin, "ranks", 2.85, 0.02);
    expect(&s0, Quality::NoBars, "bars", 0.78, 0.005);
    expect(&s0, Quality::NoBars, "median", 0.23, 0.005);
    expect(&s0, Quality::Wedges, "wedges", 0.45, 0.005);
    expect(&s0, Quality::SizeInStep, "slope", 1.81, 0.005);
    expect(&s0, Quality::SizeInStep, "scatter", 0.30, 0.005);
    expect(&s0, Quality::Balance, "off", 0.034, 0.0005);
    expect(&s0, Quality::DirectionsMixed, "mixed", 0.97, 0.005);
}

#[test]
fn the_second_sketch_measures_as_published() {
    let s2 = check(1);
    expect(&s2, Quality::Round, "strays", 0.078, 0.001);
    expect(&s2, Quality::Round, "sides", 7.0, 0.0);
    expect(&s2, Quality::FirstInTheMiddle, "off", 0.06, 0.005);
    expect(&s2, Quality::NoSideAhead, "spread", 0.17, 0.005);
    expect(&s2, Quality::NoLogCabin, "ranks", 2.9, 0.05);
    expect(&s2, Quality::NoBars, "bars", 0.75, 0.005);
    expect(&s2, Quality::NoBars, "median", 0.25, 0.006);
    expect(&s2, Quality::Wedges, "wedges", 0.44, 0.005);
    expect(&s2, Quality::SizeInStep, "slope", 2.31, 0.005);
    expect(&s2, Quality::SizeInStep, "scatter", 0.27, 0.005);
    expect(&s2, Quality::Balance, "off", 0.005, 0.0005);
    // Published .88, with the sides of the outline counted in; see below.
    expect(&s2, Quality::DirectionsMixed, "mixed", 0.87, 0.005);
}

/// The published .97 and .88 count every side of every shape, those of the outline too; the row's
/// own definition, seams only, gives .97 and .87.
#[test]
fn directions_are_as_mixed_as_published_with_the_outline_counted_in() {
    for (number, published) in [(0, 0.97), (1, 0.88)] {
        let mut shapes = sketch(SKETCHES[number]);
        let rim = polygon::edges(&shapes.outline.clone())
            .map(|(a, b)| SeamLine { a, b, order: 0, added: Mark(0), covered: [None, None] })
            .collect::<Vec<_>>();
        shapes.seams.extend(rim);
        let check = eye_check(&shapes, &Wish::default());
        expect(&check, Quality::DirectionsMixed, "mixed", published, 0.005);
    }
}

/// The published 1.32 and 1.39 are those of the longest line anywhere; both lie wholly outside .75 R.
/// The row's own definition, most of it inside, gives 1.13 and 1.17.
#[test]
fn the_longest_line_is_as_published_when_it_may_lie_outside() {
    for (number, anywhere, inside) in [(0, 1.32, 1.13), (1, 1.39, 1.17)] {
        let shapes = sketch(SKETCHES[number]);
        let centre = polygon::centroid(&shapes.outline).expect("an outline");
        let radius = (polygon::area(&shapes.outline) / std::f64::consts::PI).sqrt();
        let length =
            longest_line(&shapes, centre, 100.0 * radius).map_or(0.0, |(a, b)| a.distance(b) / radius);
        assert!((length - anywhere).abs() < 0.005, "{length}");
        expect(&check(number), Quality::NoLongLine, "longest", inside, 0.005);
    }
}

#[test]
fn the_sketches_fail_on_log_cabin_bars_and_wedges() {
    for number in [0, 1] {
        let check = check(number);
        for gate in [Quality::NoLogCabin, Quality::NoBars, Quality::Wedges] {
            assert_eq!(check.row(gate).map(|row| row.grade), Some(Grade::Poor), "sketch {number}: {gate:?}");
        }
        assert!(!check.gates_passed && total_cost(&check) > 6.0);
    }
}

#[test]
fn the_outline_is_as_round_whichever_way_it_lies() {
    let shapes = sketch(SKETCHES[0]);
    let turned: Vec<Point> = shapes
        .outline
        .iter()
        .map(|p| Point::ORIGIN + plane::Turn::from_degrees(17.0).apply(p.to_vec2()))
        .collect();
    assert!((roundness(&shapes.outline) - roundness(&turned)).abs() < 1e-3);
}

#[test]
fn every_number_is_finite_and_every_row_has_words() {
    for text in SKETCHES {
        let mut shapes = sketch(text);
        for keep in [71, 20, 6, 2, 1, 0] {
            shapes.shapes.truncate(keep);
            let check = eye_check(&shapes, &Wish::default());
            assert_eq!(check.rows.len(), Quality::ALL.len());
            for row in &check.rows {
                assert!(!row.words.is_empty() && row.values.iter().all(|v| v.value.is_finite()), "{row:?}");
            }
            assert!(total_cost(&check).is_finite());
        }
    }
}
