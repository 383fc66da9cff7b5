//! Spirals, lines, waves and echoes: lengths from closed forms, nothing crosses, wobble within
//! bounds.

mod common;

use common::{Dice, plain, points};
use plane::fill::{
    CHORD_ERROR, CorneredSpiral, Corners, Crossed, Echoes, Fill, FillProblem, Ground, Lines, RoundSpiral,
    Sewing, Spacing, Stroke, Waves, Wobble, corner_gap, cornered_spiral, crossed, echoes, inward_rows, lines,
    offset_row, round_spiral, spiral_length, waves,
};
use plane::gap::{KeepOuts, Sides, first_crossing, spacing, widest};
use plane::{Point, Region, Turn, polygon};

fn regular(sides: usize, inradius: f64) -> Region {
    let reach = inradius / (std::f64::consts::PI / sides as f64).cos();
    let corner = |i: usize| Point::ORIGIN + Turn::from_degrees(360.0 * i as f64 / sides as f64).vec() * reach;
    plain((0..sides).map(corner).collect())
}

fn centred(width: f64, height: f64) -> Region {
    let (w, h) = (width / 2.0, height / 2.0);
    plain(points(&[(-w, -h), (w, -h), (w, h), (-w, h)]))
}

fn open(region: &Region) -> Ground {
    Ground::try_new(region, &[]).unwrap()
}

/// An L with a hole and a keep-out that reaches over its edge.
fn awkward() -> Ground {
    let ell = points(&[(-10.0, -10.0), (10.0, -9.0), (9.0, 1.0), (1.0, 2.0), (0.0, 9.0), (-9.0, 10.0)]);
    let hole = points(&[(-5.0, -5.0), (-2.0, -6.0), (-3.0, -3.0)]);
    let over = plain(points(&[(4.0, -12.0), (7.0, -12.0), (7.0, -6.0), (4.0, -6.0)]));
    Ground::try_new(&Region::try_new(ell, vec![hole]).unwrap(), &[over]).unwrap()
}

fn round(spacing: Spacing, least_radius_in: f64) -> RoundSpiral {
    RoundSpiral {
        centre: Point::ORIGIN,
        spacing,
        least_radius_in,
        start_deg: 0.0,
        clockwise: false,
        wobble: None,
    }
}

fn cornered(sides: usize, spacing: Spacing, least_radius_in: f64) -> CorneredSpiral {
    let centre = Point::ORIGIN;
    CorneredSpiral { centre, sides, spacing, least_radius_in, start_deg: 0.0, clockwise: false, wobble: None }
}

fn straight(angle_deg: f64, wish_in: f64, sewing: Sewing) -> Lines {
    Lines { angle_deg, spacing: Spacing::about(wish_in), through: None, sewing, wobble: None }
}

fn echo(wish_in: f64) -> Echoes {
    Echoes {
        of: None,
        spacing: Spacing::about(wish_in),
        first_in: None,
        rows: None,
        corners: Corners::Round,
        start_deg: 0.0,
        clockwise: false,
        wobble: None,
    }
}

#[track_caller]
fn check_inside(ground: &Ground, fill: &Fill) {
    for (a, b) in fill.strokes.iter().flat_map(Stroke::segments) {
        for share in [0.0, 0.3, 0.5, 1.0] {
            let p = a.lerp(b, share);
            assert!(ground.contains(p) || ground.distance_to_edge(p) < 1e-6, "{p:?} lies outside");
        }
    }
}

#[test]
fn t101_a_spiral_is_as_long_as_its_formula_says() {
    // CHECKS T101 (geometry): (R, p) -> L, and the estimate pi R^2 / p.
    for (radius, p, length, estimate) in
        [(10.0, 1.0, 314.584, 314.159), (20.0, 0.5, 2513.541, 2513.274), (24.0, 0.25, 7238.381, 7238.229)]
    {
        assert!((spiral_length(radius, p) - length).abs() < 5e-4);
        assert!((std::f64::consts::PI * radius * radius / p - estimate).abs() < 5e-4);
        let ground = open(&centred(2.0 * radius + 4.0, 2.0 * radius + 4.0));
        let fill = round_spiral(&ground, &round(Spacing::about(p), 0.0)).unwrap();
        let first = &fill.strokes[0].points;
        let cut = first.iter().position(|q| q.distance(Point::ORIGIN) > radius).unwrap();
        let laid = Stroke::open(first[..=cut].to_vec()).length();
        let beyond = first[cut].distance(Point::ORIGIN) - radius;
        let expected = spiral_length(radius + beyond, p);
        assert!((laid / expected - 1.0).abs() < 5e-4, "{laid} {expected}");
    }
}

#[test]
fn a_round_spiral_keeps_to_its_curve_and_begins_at_the_least_radius() {
    let ground = open(&centred(60.0, 60.0));
    for clockwise in [false, true] {
        let choice = RoundSpiral { start_deg: 30.0, clockwise, ..round(Spacing::about(0.5), 0.75) };
        let fill = round_spiral(&ground, &choice).unwrap();
        let stroke = &fill.strokes[0].points;
        assert!((stroke[0] - (Point::ORIGIN + Turn::from_degrees(30.0).vec() * 0.75)).length() < 1e-9);
        let hand = if clockwise { -1.0 } else { 1.0 };
        let mut turned = 0.0;
        for side in stroke.windows(2) {
            let (a, b) = (side[0].to_vec2(), side[1].to_vec2());
            let step = hand * a.cross(b).atan2(a.dot(b));
            assert!(step > 0.0);
            for share in [0.25, 0.5, 0.75] {
                let p = side[0].lerp(side[1], share).to_vec2();
                let angle = turned + hand * a.cross(p).atan2(a.dot(p));
                let radius = 0.75 + 0.5 * angle / std::f64::consts::TAU;
                assert!((p.length() - radius).abs() < CHORD_ERROR, "{} {radius}", p.length());
            }
            turned += step;
        }
    }
}

#[test]
fn past_the_nearest_edge_a_round_spiral_falls_into_arcs() {
    let ground = open(&centred(20.0, 20.0));
    let fill = round_spiral(&ground, &round(Spacing::about(0.5), 0.5)).unwrap();
    // Radii from 10 to 14.14 in steps of 1/2: eight turns, each cut off by all four sides.
    assert!((30..=36).contains(&fill.starts()), "{}", fill.starts());
    assert_eq!(first_crossing(&fill.strokes), None);
    check_inside(&ground, &fill);
    assert!((fill.length() * 0.5 / 400.0 - 1.0).abs() < 0.01);
    let inside = Ground::try_new(&regular(24, 10.0), &[]).unwrap();
    assert!(round_spiral(&inside, &round(Spacing::about(0.5), 0.5)).unwrap().starts() < 30);
}

#[test]
fn spirals_with_corners_gape_as_geometry_says() {
    // TRADE 5: widest gap 2p / (1 + sin(A/2)): 1.333 p at 60 degrees, 1.172 p at 90.
    assert!((corner_gap(3, 1.0) - 4.0 / 3.0).abs() < 1e-12);
    assert!((corner_gap(4, 1.0) - 1.1716).abs() < 5e-5);
    for sides in 3..=12 {
        let choice = cornered(sides, Spacing::about(1.0), 0.2);
        let ground = Ground::try_new(&regular(sides, 8.0), &[regular(sides, 2.2)]).unwrap();
        let fill = cornered_spiral(&open(&regular(sides, 12.0)), &choice).unwrap();
        assert_eq!(first_crossing(&fill.strokes), None);
        let gap = widest(&ground, &fill, KeepOuts::Closed, 1e-4).unwrap();
        assert!((2.0 * gap.radius - corner_gap(sides, 1.0)).abs() < 2e-3, "{sides}: {}", 2.0 * gap.radius);
        let rows = spacing(&fill.strokes, &[], Sides::Both, 0.25, 3.0).unwrap();
        assert!((rows.median_in - 1.0).abs() < 1e-9, "{rows:?}");
    }
}

#[test]
fn t102_rows_inside_a_polygon_are_as_long_as_its_area_over_their_distance() {
    // CHECKS T102 (geometry): at p/2, 3p/2, ... in a polygon whose inradius is a whole number of
    // p: 40 loops, 3200; 30 loops, 1491.1688.
    for (sides, inradius, p, loops, length) in [(4, 20.0, 0.5, 40, 3200.0), (8, 15.0, 0.5, 30, 1491.1688)] {
        let shape = regular(sides, inradius);
        let fill = echoes(&open(&shape), &Echoes { spacing: Spacing::about(p), ..echo(p) }).unwrap();
        assert_eq!(fill.starts(), loops);
        assert!((fill.length() - shape.area() / p).abs() < 1e-6);
        assert!((fill.length() - length).abs() < 1e-4);
        let one_by_one: f64 = (0..loops)
            .flat_map(|i| offset_row(&shape.outer, -(i as f64 + 0.5) * p, Corners::Round))
            .map(|row| polygon::perimeter(&row))
            .sum();
        assert!((one_by_one - fill.length()).abs() < 1e-6);
    }
}

#[test]
fn the_quick_way_inward_agrees_with_cutting_half_planes() {
    let mut dice = Dice::new(102);
    for _ in 0..300 {
        let outline = dice.convex(9, 20.0);
        let distances: Vec<f64> = (0..60).map(|i| 0.17 + 0.4 * f64::from(i)).collect();
        let rows = inward_rows(&outline, &distances).unwrap();
        for (i, &distance) in distances.iter().enumerate() {
            let slow = plane::grow_outline(&outline, -distance);
            let area = rows.get(i).map_or(0.0, |row| polygon::area(row));
            assert!(
                (area - polygon::area(&slow)).abs() < 1e-7,
                "{distance}: {area} {}",
                polygon::area(&slow)
            );
        }
    }
}

#[test]
fn rows_round_a_shape_lie_at_their_distance_all_along() {
    let mut dice = Dice::new(31);
    for _ in 0..60 {
        let shape = dice.outline(8, 5.0, 0.6);
        let away = |p: Point| {
            let far = |(a, b): (Point, Point)| {
                let share = ((p - a).dot(b - a) / (b - a).dot(b - a)).clamp(0.0, 1.0);
                p.distance(a.lerp(b, share))
            };
            polygon::edges(&shape).map(far).fold(f64::INFINITY, f64::min)
        };
        for distance in [0.3, 1.0, 4.0, -0.3, -1.0] {
            for row in offset_row(&shape, distance, Corners::Round) {
                for (a, b) in polygon::edges(&row) {
                    for share in [0.0, 0.5] {
                        let off = away(a.lerp(b, share)) - distance.abs();
                        assert!(off.abs() < CHORD_ERROR, "{distance}: off by {off}");
                    }
                }
            }
        }
    }
}

#[test]
fn matchstick_lines_are_counted_and_turn_about() {
    // 8 inches at 1/8, the first half a spacing inside: 64 rows of 8 inches.
    let ground = open(&centred(8.0, 8.0));
    let fill = lines(&ground, &straight(0.0, 0.125, Sewing::ThereAndBack)).unwrap();
    assert_eq!(fill.starts(), 64);
    assert!((fill.length() - 512.0).abs() < 1e-9);
    for (i, stroke) in fill.strokes.iter().enumerate() {
        assert_eq!(stroke.points[0].x < 0.0, i % 2 == 0, "row {i}");
    }
    let one_way = lines(&ground, &straight(0.0, 0.125, Sewing::OneWay)).unwrap();
    assert!(one_way.strokes.iter().all(|stroke| stroke.points[0].x < 0.0));
    let rows = spacing(&fill.strokes, &[], Sides::Both, 0.25, 1.0).unwrap();
    assert!((rows.least_in - 0.125).abs() < 1e-9 && (rows.most_in - 0.125).abs() < 1e-9);
    let gap = widest(&ground, &fill, KeepOuts::Closed, 0.001).unwrap();
    assert!((2.0 * gap.radius - 0.125).abs() < 0.002);
}

#[test]
fn joined_lines_go_on_along_the_edge_and_sew_the_same_rows() {
    let ground = open(&centred(8.0, 6.0));
    let fill = lines(&ground, &straight(0.0, 0.5, Sewing::Joined)).unwrap();
    assert_eq!(fill.starts(), 1);
    assert!((fill.length() - (12.0 * 8.0 + 11.0 * 0.5)).abs() < 1e-9);
    let mut dice = Dice::new(5);
    for _ in 0..100 {
        let ground = if dice.share() < 0.5 { awkward() } else { open(&plain(dice.outline(9, 10.0, 0.6))) };
        let angle = dice.between(0.0, 180.0);
        let apart = lines(&ground, &straight(angle, 0.4, Sewing::ThereAndBack)).unwrap();
        let joined = lines(&ground, &straight(angle, 0.4, Sewing::Joined)).unwrap();
        assert!(joined.starts() < apart.starts() / 2, "{} {}", joined.starts(), apart.starts());
        assert_eq!(first_crossing(&joined.strokes), None);
        assert_eq!(first_crossing(&apart.strokes), None);
        check_inside(&ground, &joined);
        assert!((apart.length() - ground.area() / 0.4).abs() < 0.15 * apart.length());
        assert!(joined.length() > apart.length() - 1e-9);
    }
}

#[test]
fn a_line_goes_through_the_place_asked_for() {
    let ground = open(&centred(8.0, 6.0));
    let choice = Lines { through: Some(Point::new(0.0, 0.1)), ..straight(0.0, 0.5, Sewing::OneWay) };
    let fill = lines(&ground, &choice).unwrap();
    assert!(fill.strokes.iter().any(|stroke| (stroke.points[0].y - 0.1).abs() < 1e-9));
    assert!(fill.strokes.windows(2).all(|w| (w[1].points[0].y - w[0].points[0].y - 0.5).abs() < 1e-9));
}

#[test]
fn crossed_lines_are_two_sets() {
    let ground = awkward();
    let (first, second) =
        (straight(30.0, 0.5, Sewing::ThereAndBack), straight(120.0, 0.5, Sewing::ThereAndBack));
    let fill = crossed(&ground, &Crossed { first, second }).unwrap();
    let starts = lines(&ground, &first).unwrap().starts() + lines(&ground, &second).unwrap().starts();
    assert_eq!(fill.starts(), starts);
    assert!(first_crossing(&fill.strokes).is_some());
    let same = crossed(&ground, &Crossed { first, second: Lines { angle_deg: 210.5, ..second } });
    assert!(matches!(same, Err(FillProblem::Number { .. })));
}

#[test]
fn waves_stay_apart_and_steep_ones_are_refused() {
    let ground = awkward();
    let rows = straight(20.0, 0.5, Sewing::ThereAndBack);
    let choice = Waves { lines: rows, height_in: 0.3, length_in: 4.0 };
    let fill = waves(&ground, &choice).unwrap();
    assert_eq!(first_crossing(&fill.strokes), None);
    check_inside(&ground, &fill);
    let walls = ground.edges(true);
    let apart = spacing(&fill.strokes, &walls, Sides::Both, 0.25, 2.0).unwrap();
    assert!(apart.least_in >= 0.75 * 0.5 && apart.median_in <= 0.5, "{apart:?}");
    let Err(FillProblem::Steep { most_height, .. }) = waves(&ground, &Waves { height_in: 2.0, ..choice })
    else {
        panic!("flanks at 72 degrees");
    };
    assert!(waves(&ground, &Waves { height_in: most_height * 0.999, ..choice }).is_ok());
    assert!(waves(&ground, &Waves { height_in: most_height * 1.001, ..choice }).is_err());
}

#[test]
fn echoes_of_a_shape_go_outward_to_the_edge() {
    let shape = plain(points(&[(-2.0, -1.0), (2.0, -1.5), (1.0, 1.0), (0.2, 0.0), (-1.0, 2.0)]));
    let ground = Ground::try_new(&centred(16.0, 12.0), std::slice::from_ref(&shape)).unwrap();
    for corners in [Corners::Round, Corners::Sharp] {
        let choice = Echoes { of: Some(shape.clone()), corners, ..echo(0.5) };
        let fill = echoes(&ground, &choice).unwrap();
        assert_eq!(first_crossing(&fill.strokes), None);
        check_inside(&ground, &fill);
        assert!(fill.strokes[0].closed && !fill.strokes[fill.starts() - 1].closed);
        assert!((fill.length() * 0.5 / ground.area() - 1.0).abs() < 0.06, "{}", fill.length());
        let few = echoes(&ground, &Echoes { rows: Some(3), ..choice }).unwrap();
        assert_eq!(few.strokes[..], fill.strokes[..few.starts()]);
    }
}

#[test]
fn echoes_begin_where_they_are_asked_to_and_turn_as_asked() {
    let ground = open(&centred(12.0, 12.0));
    for (start_deg, clockwise) in [(90.0, false), (37.0, true)] {
        let fill = echoes(&ground, &Echoes { start_deg, clockwise, ..echo(0.5) }).unwrap();
        for stroke in &fill.strokes {
            let first = stroke.points[0] - Point::ORIGIN;
            assert!(first.cross(Turn::from_degrees(start_deg).vec()).abs() < 1e-9);
            assert_eq!(polygon::area(&stroke.points) < 0.0, clockwise);
        }
    }
}

#[test]
fn no_wobble_crosses_a_neighbour_or_leaves_the_bounds() {
    let p = 0.5;
    let bounds = Spacing { wish_in: p, least_in: 0.3 * p, most_in: 1.7 * p };
    let ground = awkward();
    let walls = ground.edges(true);
    for seed in 0..6 {
        let wobble = Some(Wobble { amplitude_in: 0.15, wave_in: 3.0, seed });
        let rows = Lines { spacing: bounds, wobble, ..straight(25.0, p, Sewing::ThereAndBack) };
        let fills = [
            lines(&ground, &rows).unwrap(),
            lines(&ground, &Lines { sewing: Sewing::Joined, ..rows }).unwrap(),
            waves(
                &ground,
                &Waves {
                    lines: Lines { wobble: Some(Wobble::new(0.1, seed)), ..rows },
                    height_in: 0.2,
                    length_in: 5.0,
                },
            )
            .unwrap(),
            round_spiral(&ground, &RoundSpiral { wobble, ..round(bounds, 0.5) }).unwrap(),
            cornered_spiral(&ground, &CorneredSpiral { wobble, ..cornered(6, bounds, 0.5) }).unwrap(),
            echoes(&ground, &Echoes { spacing: bounds, wobble, ..echo(p) }).unwrap(),
        ];
        for (i, fill) in fills.iter().enumerate() {
            assert_eq!(first_crossing(&fill.strokes), None, "design {i}, seed {seed}");
            check_inside(&ground, fill);
            // Joined rows come together in sharp corners of the edge, echoes in the middle.
            let apart = spacing(&fill.strokes, &walls, Sides::Both, 0.25, 2.0).unwrap();
            assert!(
                [1, 5].contains(&i) || apart.least_in >= bounds.least_in - 1e-9,
                "design {i}, seed {seed}: {apart:?}"
            );
        }
        assert_eq!(fills[0], lines(&ground, &rows).unwrap());
        let too_much = Lines { wobble: Some(Wobble::new(0.2, seed)), ..rows };
        assert!(
            matches!(lines(&ground, &too_much), Err(FillProblem::Wobble { most, .. }) if most > 0.15 && most < 0.175)
        );
    }
}

#[test]
fn foolish_numbers_are_refused() {
    let ground = open(&centred(8.0, 8.0));
    let bad = |wish_in: f64| {
        matches!(lines(&ground, &straight(0.0, wish_in, Sewing::OneWay)), Err(FillProblem::Number { .. }))
    };
    assert!(bad(0.0) && bad(-1.0) && bad(f64::NAN) && bad(0.01));
    assert!(lines(&ground, &straight(f64::INFINITY, 0.5, Sewing::OneWay)).is_err());
    assert!(cornered_spiral(&ground, &cornered(2, Spacing::about(0.5), 0.5)).is_err());
    assert!(cornered_spiral(&ground, &cornered(13, Spacing::about(0.5), 0.5)).is_err());
    let outside = RoundSpiral { centre: Point::new(9.0, 0.0), ..round(Spacing::about(0.5), 0.5) };
    assert!(matches!(round_spiral(&ground, &outside), Err(FillProblem::CentreOutside { .. })));
    let words =
        FillProblem::CentreTooTight { at: Point::new(3.75, 0.0), radius: 0.5, room: 0.25 }.to_string();
    let tight = RoundSpiral { centre: Point::new(3.75, 0.0), ..round(Spacing::about(0.5), 0.5) };
    assert_eq!(round_spiral(&ground, &tight).unwrap_err().to_string(), words);
    let vast = open(&centred(900.0, 900.0));
    assert!(matches!(lines(&vast, &straight(0.0, 0.125, Sewing::OneWay)), Err(FillProblem::TooMuch { .. })));
    let covered = Ground::try_new(&centred(8.0, 8.0), &[centred(9.0, 9.0)]);
    assert_eq!(covered.unwrap_err(), FillProblem::NothingLeft);
    let bow = plain(points(&[(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)]));
    assert!(matches!(Ground::try_new(&bow, &[]), Err(FillProblem::Outline(_))));
    assert!(matches!(
        Ground::try_new(&centred(8.0, 8.0), &[bow]),
        Err(FillProblem::KeepOut { number: 1, .. })
    ));
}
