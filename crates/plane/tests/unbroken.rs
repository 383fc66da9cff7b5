//! The unbroken spiral: one stroke from a circle to the outline, whatever is in its way.

mod common;

use common::{Dice, plain, points};
use plane::fill::{
    CHORD_ERROR, Fill, FillProblem, Ground, Spacing, Unbroken, UnbrokenSpiral, Wobble, unbroken_spiral,
};
use plane::gap::{KeepOuts, first_crossing, widest};
use plane::{Point, Region, Turn, polygon};

/// Rows may be this uneven where a test isn't about evenness.
fn loose(wish_in: f64) -> Spacing {
    Spacing { wish_in, least_in: 0.3 * wish_in, most_in: 2.5 * wish_in }
}

fn choice(spacing: Spacing) -> UnbrokenSpiral {
    UnbrokenSpiral {
        centre: Point::ORIGIN,
        spacing,
        least_radius_in: 0.5,
        start_deg: None,
        clockwise: false,
        wobble: None,
    }
}

fn disc(x: f64, y: f64, radius: f64) -> Region {
    plain(
        (0..36).map(|i| Point::new(x, y) + Turn::from_degrees(f64::from(i) * 10.0).vec() * radius).collect(),
    )
}

/// Nine sides, all different.
fn nine_sided() -> Region {
    let corners = [
        (3.0, 33.0),
        (44.0, 30.5),
        (80.0, 32.0),
        (122.0, 32.7),
        (158.0, 30.0),
        (204.0, 31.2),
        (243.0, 33.0),
        (281.0, 30.7),
        (318.0, 32.0),
    ];
    plain(corners.map(|(at, reach)| Point::ORIGIN + Turn::from_degrees(at).vec() * reach).to_vec())
}

/// Nearest distance from `p` to pieces of the stroke that lie more than `apart` inches further along it.
fn to_later_rows(stroke: &[Point], along: &[f64], at: f64, p: Point, apart: f64) -> f64 {
    let first = along.partition_point(|&begins| begins < at + apart);
    stroke[first.min(stroke.len() - 1)..]
        .windows(2)
        .map(|w| {
            let (side, from) = (w[1] - w[0], p - w[0]);
            let share = (from.dot(side) / side.dot(side)).clamp(0.0, 1.0);
            p.distance(w[0].lerp(w[1], share))
        })
        .fold(f64::INFINITY, f64::min)
}

/// One stroke; no crossing; inside the outline and outside the keep-outs; the outline sewn at
/// the end; nowhere nearer to itself than the least spacing.
#[track_caller]
fn check(ground: &Ground, laid: &Unbroken, bounds: &Spacing) {
    assert_eq!(laid.fill.starts(), 1);
    assert_eq!(first_crossing(&laid.fill.strokes), None);
    assert!(laid.spacing.least_in >= bounds.least_in && laid.spacing.most_in <= bounds.most_in);
    let stroke = &laid.fill.strokes[0].points;
    let near_edge = |p: Point| ground.distance_to_edge(p) <= CHORD_ERROR;
    for p in stroke {
        assert!(ground.contains(*p) || near_edge(*p), "{p:?} lies outside");
    }
    let mut sewn = 0.0;
    for side in stroke.windows(2) {
        let middle = side[0].midpoint(side[1]);
        assert!(ground.contains(middle) || near_edge(middle), "{middle:?} lies outside");
        if near_edge(side[0]) && near_edge(side[1]) {
            sewn += side[0].distance(side[1]);
        }
    }
    let round = polygon::perimeter(&ground.open()[0].outer);
    assert!(sewn > round - 20.0 * bounds.wish_in, "{sewn} of {round} inches of the outline are sewn");
}

#[test]
fn it_starts_as_a_circle_and_ends_as_the_outline() {
    let ground = Ground::try_new(&nine_sided(), &[]).unwrap();
    let bounds = Spacing::about(0.5);
    let laid = unbroken_spiral(&ground, &choice(bounds)).unwrap();
    check(&ground, &laid, &bounds);
    let stroke = &laid.fill.strokes[0].points;
    assert!((stroke[0].distance(Point::ORIGIN) - 0.5).abs() < 1e-3);
    for p in stroke.iter().take_while(|p| p.x > 0.0 && p.y >= 0.0) {
        let circle = 0.5 + 0.5 * p.y.atan2(p.x) / std::f64::consts::TAU;
        assert!((p.distance(Point::ORIGIN) - circle).abs() < 0.02, "the first quarter turn is round");
    }
    assert!(
        laid.spacing.most_in / laid.spacing.least_in < 1.1 * laid.sides_ratio * 1.1,
        "{:?}",
        laid.spacing
    );
}

#[test]
fn rows_are_within_bounds_by_a_slow_second_look() {
    let ground = Ground::try_new(&nine_sided(), &[disc(14.0, 3.0, 3.0)]).unwrap();
    let bounds = Spacing { wish_in: 0.75, least_in: 0.5, most_in: 1.0 };
    let laid = unbroken_spiral(&ground, &choice(bounds)).unwrap();
    check(&ground, &laid, &bounds);
    let stroke = &laid.fill.strokes[0].points;
    let mut along = vec![0.0];
    for side in stroke.windows(2) {
        along.push(along[along.len() - 1] + side[0].distance(side[1]));
    }
    let (mut looked, mut next) = (0, 0.0);
    for (i, side) in stroke.windows(2).enumerate() {
        while next < along[i + 1] {
            let p = side[0].lerp(side[1], (next - along[i]) / (along[i + 1] - along[i]));
            let apart = to_later_rows(stroke, &along, next, p, 3.0);
            let walls = ground.distance_to_edge(p);
            assert!(apart >= bounds.least_in - 1e-9, "{apart} at {p:?}");
            assert!(apart <= bounds.most_in + 1e-9 || walls <= bounds.most_in, "{apart} at {p:?}");
            looked += 1;
            next += 0.25;
        }
    }
    assert!(looked > 15_000, "{looked}");
}

#[test]
fn it_flows_round_keep_outs_in_the_middle_near_the_rim_and_behind_each_other() {
    let quad = plain(points(&[(12.0, -3.0), (17.0, -2.0), (16.5, 3.0), (13.0, 4.0)]));
    let cases: [&[Region]; 5] = [
        &[quad],
        &[disc(25.0, 0.0, 2.5)],
        &[disc(11.0, 0.0, 3.0), disc(22.0, 1.0, 2.5), disc(-12.0, -12.0, 3.5)],
        &[disc(10.0, 5.0, 3.0), disc(14.5, 8.0, 2.4)],
        &[disc(0.0, 29.0, 4.0)],
    ];
    for keep_outs in cases {
        let ground = Ground::try_new(&nine_sided(), keep_outs).unwrap();
        let laid =
            unbroken_spiral(&ground, &choice(loose(0.5))).unwrap_or_else(|problem| panic!("{problem}"));
        check(&ground, &laid, &loose(0.5));
        let gap = widest(&ground, &laid.fill, KeepOuts::Closed, 1.0 / 16.0).unwrap();
        assert!(gap.radius < 0.75, "{gap:?}");
    }
}

#[test]
fn random_outlines_and_keep_outs_are_filled_or_refused_with_a_figure() {
    let mut dice = Dice::new(46_000);
    let (mut laid_count, mut refused) = (0, 0);
    for case in 0..60 {
        let outline = plain(dice.outline(9, 40.0, 0.25));
        let keep_outs: Vec<Region> = (0..dice.below(3))
            .map(|_| {
                let place = Point::ORIGIN
                    + Turn::from_degrees(dice.between(0.0, 360.0)).vec() * dice.between(8.0, 30.0);
                let size = dice.between(1.0, 4.0);
                let shape = dice.outline(6, size, 0.4);
                plain(shape.into_iter().map(|p| place + (p - Point::ORIGIN)).collect())
            })
            .collect();
        let ground = Ground::try_new(&outline, &keep_outs).unwrap();
        let choice = UnbrokenSpiral { clockwise: case % 2 == 1, ..choice(loose(0.75)) };
        match unbroken_spiral(&ground, &choice) {
            Ok(laid) => {
                check(&ground, &laid, &choice.spacing);
                laid_count += 1;
            }
            Err(FillProblem::Uneven { ratio, sides, .. }) => {
                assert!(ratio > sides && sides >= 1.0, "{ratio} {sides}");
                refused += 1;
            }
            Err(problem) => panic!("case {case}: {problem}"),
        }
    }
    assert!(laid_count >= 57, "{laid_count} laid, {refused} refused");
}

#[test]
fn deep_notches_and_sharp_tips_are_followed_to_the_point() {
    let mut dice = Dice::new(65);
    let mut laid_count = 0;
    for _ in 0..25 {
        let ground = Ground::try_new(&plain(dice.outline(9, 30.0, 0.6)), &[]).unwrap();
        let wide = Spacing { wish_in: 0.75, least_in: 0.1, most_in: 3.0 };
        if let Ok(laid) = unbroken_spiral(&ground, &choice(wide)) {
            check(&ground, &laid, &wide);
            laid_count += 1;
        }
    }
    assert!(laid_count >= 23, "{laid_count}");
}

#[test]
fn bounds_that_the_outline_cant_give_are_refused_with_the_ratio_it_can() {
    // MODEL: 90 x 108 asks for 1.20 at least.
    let bed = plain(points(&[(-45.0, -54.0), (45.0, -54.0), (45.0, 54.0), (-45.0, 54.0)]));
    let ground = Ground::try_new(&bed, &[]).unwrap();
    let narrow = Spacing { wish_in: 1.0, least_in: 0.92, most_in: 1.09 };
    let Err(FillProblem::Uneven { ratio, sides, allowed, .. }) = unbroken_spiral(&ground, &choice(narrow))
    else {
        panic!("1.18 can't be held");
    };
    assert!((sides - 1.2).abs() < 1e-9 && ratio > sides && allowed < sides, "{ratio} {sides} {allowed}");
    let given =
        Spacing { wish_in: 1.0, least_in: 1.0 / (1.04 * ratio).sqrt(), most_in: (1.04 * ratio).sqrt() };
    let laid = unbroken_spiral(&ground, &choice(given)).unwrap();
    check(&ground, &laid, &given);
}

#[test]
fn turned_and_mirrored_it_is_the_same_spiral() {
    let ground = Ground::try_new(&nine_sided(), &[]).unwrap();
    let lay = |start_deg: f64, clockwise: bool| {
        let choice = UnbrokenSpiral { start_deg: Some(start_deg), clockwise, ..choice(loose(1.0)) };
        unbroken_spiral(&ground, &choice).unwrap()
    };
    let turning = |fill: &Fill| {
        let points = &fill.strokes[0].points;
        points.windows(2).map(|w| (w[0] - Point::ORIGIN).cross(w[1] - w[0])).sum::<f64>()
    };
    for start in [0.0, 77.0, -140.0] {
        let (one, other) = (lay(start, false), lay(start, true));
        let first = one.fill.strokes[0].points[0] - Point::ORIGIN;
        assert!((Turn::from_degrees(start).vec() - first * 2.0).length() < 1e-3);
        assert!(turning(&one.fill) > 0.0 && turning(&other.fill) < 0.0);
        assert!((one.fill.length() / other.fill.length() - 1.0).abs() < 0.01);
    }
}

#[test]
fn a_wobble_stays_within_bounds_and_is_refused_beyond_them() {
    let ground = Ground::try_new(&nine_sided(), &[disc(14.0, 3.0, 3.0)]).unwrap();
    let bounds = Spacing { wish_in: 0.5, least_in: 0.25, most_in: 0.75 };
    let wobbly = |amplitude_in: f64, seed: u64| {
        unbroken_spiral(
            &ground,
            &UnbrokenSpiral { wobble: Some(Wobble::new(amplitude_in, seed)), ..choice(bounds) },
        )
    };
    for seed in 0..3 {
        let laid = wobbly(0.04, seed).unwrap();
        check(&ground, &laid, &bounds);
        assert_eq!(laid, wobbly(0.04, seed).unwrap());
    }
    assert_ne!(wobbly(0.04, 1).unwrap().fill, wobbly(0.04, 2).unwrap().fill);
    let Err(FillProblem::Wobble { most, .. }) = wobbly(0.2, 1) else { panic!("rows 0.1 to 0.9 apart") };
    assert!(most > 0.1 && most < 0.125, "{most}");
}

#[test]
fn foolish_asks_are_refused_with_their_place() {
    let ground = Ground::try_new(&nine_sided(), &[disc(14.0, 3.0, 3.0)]).unwrap();
    let ask = |change: &dyn Fn(&mut UnbrokenSpiral)| {
        let mut choice = choice(loose(0.5));
        change(&mut choice);
        unbroken_spiral(&ground, &choice).unwrap_err()
    };
    let outside = Point::new(50.0, 0.0);
    assert_eq!(ask(&|c| c.centre = outside), FillProblem::CentreOutside { at: outside });
    let in_keep_out = Point::new(14.0, 3.0);
    assert_eq!(ask(&|c| c.centre = in_keep_out), FillProblem::CentreOutside { at: in_keep_out });
    assert!(matches!(ask(&|c| c.centre = Point::new(f64::NAN, 0.0)), FillProblem::CentreOutside { .. }));
    assert!(matches!(ask(&|c| c.centre = Point::new(10.6, 3.0)), FillProblem::CentreTooTight { .. }));
    assert!(matches!(ask(&|c| c.least_radius_in = f64::NAN), FillProblem::Number { .. }));
    assert!(matches!(ask(&|c| c.spacing.wish_in = 0.0), FillProblem::Number { .. }));
    assert!(matches!(ask(&|c| c.spacing.least_in = 0.6), FillProblem::Bounds { .. }));
    assert!(matches!(ask(&|c| c.wobble = Some(Wobble::new(f64::NAN, 0))), FillProblem::Number { .. }));
    let band = plain(points(&[(-40.0, -1.0), (40.0, -1.0), (40.0, 1.0), (-40.0, 1.0)]));
    let parted = Ground::try_new(&nine_sided(), &[band]).unwrap();
    let parts =
        unbroken_spiral(&parted, &UnbrokenSpiral { centre: Point::new(0.0, 10.0), ..choice(loose(0.5)) });
    assert_eq!(parts.unwrap_err(), FillProblem::Parted { parts: 2 });
}
