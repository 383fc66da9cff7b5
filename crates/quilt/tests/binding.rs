//! Binding and facing of whole outlines.

mod common;

use common::{Chance, cloth};
use plane::{Point, Region, polygon};
use quilt::cloth::{Cloth, Kind, Runs};
use quilt::length::LengthUnit;
use quilt::stage::binding::{
    BindingChoice, BindingPlan, BindingProblem, FacingPlan, Finish, FinishPlan, LaidStrips, Supply,
    SupplyCloth, TAIL_IN, Way, plan, strips_in,
};
use quilt::sums::{Join, binding_strips, binding_width};

const SEAM_IN: f64 = 0.25;

fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn rectangle(width: f64, height: f64) -> Vec<Point> {
    points(&[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])
}

fn bind(choice: &BindingChoice, outline: &[Point]) -> Result<BindingPlan, BindingProblem> {
    match plan(choice, outline, SEAM_IN)? {
        FinishPlan::Bound(plan) => Ok(*plan),
        FinishPlan::Faced(plan) => panic!("{plan:?}"),
    }
}

fn face(choice: &BindingChoice, outline: &[Point]) -> Result<FacingPlan, BindingProblem> {
    match plan(&BindingChoice { finish: Finish::Faced, ..choice.clone() }, outline, SEAM_IN)? {
        FinishPlan::Faced(plan) => Ok(plan),
        FinishPlan::Bound(plan) => panic!("{plan:?}"),
    }
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6, "{found} is not {expected}");
}

fn leftovers(lengths_in: &[f64]) -> BindingChoice {
    let supply = Supply::Leftovers { lengths_in: lengths_in.to_vec(), is_bias: false };
    BindingChoice { supply, ..BindingChoice::default() }
}

/// A heptagon with no two sides or angles alike.
fn odd() -> Vec<Point> {
    points(&[(0.0, 0.0), (14.0, -5.0), (29.0, 0.5), (34.0, 16.0), (25.0, 30.0), (9.0, 32.0), (-4.0, 17.0)])
}

#[test]
fn a_rectangle_is_bound_as_its_sum_says() {
    let throw = bind(&BindingChoice::default(), &rectangle(60.0, 72.0)).unwrap();
    let sum = binding_strips(264.0, 2.25, 40.0, Join::Diagonal, SEAM_IN).unwrap();
    near(throw.net_length_in, 264.0);
    near(throw.length_needed_in, sum.length_needed_in);
    assert_eq!(throw.strips_least, sum.strips as usize);
    assert_eq!((throw.inside_corners_in, throw.corners.len(), throw.curves.len()), (0.0, 4, 0));
    assert!(
        throw.corners.iter().all(|corner| corner.way == Way::Fold && (corner.stop_in - 0.25).abs() < 1e-9)
    );
    let closing = throw.closing.unwrap();
    assert!([2, 4].contains(&closing.middle.side), "on a longest side");
    assert_eq!((closing.gap_in, closing.overlap_in, closing.is_short), (8.0, 2.25, false));
    // Handling is in no sum.
    let more = bind(&BindingChoice { handling_in: 50.0, ..BindingChoice::default() }, &rectangle(60.0, 72.0))
        .unwrap();
    assert_eq!(
        (more.length_needed_in, more.strips_cut_in.len()),
        (throw.length_needed_in, throw.strips_cut_in.len())
    );
    near(more.handling_short_in, 50.0 - (more.length_got_in - more.length_needed_in));
}

#[test]
fn the_strips_are_as_long_as_what_lies_between_their_joins() {
    let (mut chance, mut bound) = (Chance(7), 0);
    for round in 0..200 {
        let n = 4 + chance.below(6);
        let outline: Vec<Point> = (0..n)
            .map(|i| {
                let angle = std::f64::consts::TAU * (i as f64 + chance.between(-0.25, 0.25)) / n as f64;
                let radius = chance.between(24.0, 40.0);
                Point::new(radius * angle.cos(), radius * angle.sin())
            })
            .collect();
        let join = if round % 2 == 0 { Join::Straight } else { Join::Diagonal };
        let choice = BindingChoice { join, apart_below_deg: 20.0, ..BindingChoice::default() };
        let Ok(plan) = bind(&choice, &outline) else { continue };
        let n = plan.strips_cut_in.len();
        assert!(n >= plan.strips_least && plan.joins.len() == n - 1, "{round}");
        assert!(plan.strips_cut_in.iter().all(|cut| *cut <= 40.0 + 1e-9 && *cut > 0.0));
        // Joined and closed, the strips are the net length.
        let joined: f64 = plan.strips_cut_in.iter().sum::<f64>() - plan.join_loss_in * n as f64;
        near(joined, plan.net_length_in);
        let extra: f64 = plan.corners.iter().map(|corner| corner.extra_in).sum();
        near(plan.net_length_in, polygon::perimeter(&outline) + extra);
        for at in &plan.joins {
            let spot = at.spot;
            let (a, b) = polygon::edges(&outline).nth(spot.side - 1).unwrap();
            near(a.distance(spot.at) + spot.at.distance(b), a.distance(b));
            let near = outline.iter().any(|corner| corner.distance(spot.at) < 3.0 - 1e-6);
            assert!(!(near && at.is_clear && plan.inside_corners_in == 0.0), "{round}: {at:?}");
        }
        bound += 1;
    }
    assert!(bound >= 150, "only {bound} could be bound");
}

#[test]
fn joins_keep_clear_of_corners_and_of_the_gap() {
    let plan = bind(&BindingChoice::default(), &odd()).unwrap();
    assert!(plan.joins.iter().all(|join| join.is_clear), "{:?}", plan.joins);
    let closing = plan.closing.unwrap();
    for join in &plan.joins {
        assert!(
            join.spot.side != closing.middle.side
                || (join.spot.along_in - closing.middle.along_in).abs() >= 4.0 - 1e-6
        );
        assert!(join.sentence(LengthUnit::Inches).contains(&format!("side {}", join.spot.side)));
    }
    // With corners everywhere some join must lie nearer, and says so.
    let n = 24_u32;
    let many: Vec<Point> = (0..n)
        .map(|i| std::f64::consts::TAU * f64::from(i) / f64::from(n))
        .map(|a| Point::new(14.0 * a.cos(), 14.0 * a.sin()))
        .collect();
    let choice = BindingChoice { pivot_from_deg: 170.0, ..BindingChoice::default() };
    let plan = bind(&choice, &many).unwrap();
    assert!(plan.joins.iter().all(|join| !join.is_clear) && !plan.joins.is_empty());
    assert!(plan.closing.unwrap().is_short);
}

#[test]
fn a_leftover_short_by_a_sixteenth_is_refused_by_how_much() {
    let outline = rectangle(60.0, 72.0);
    let exact = bind(&leftovers(&[266.25]), &outline).unwrap();
    assert_eq!((exact.strips_cut_in.len(), exact.joins.len()), (1, 0));
    assert!(matches!(exact.cloth, SupplyCloth::Leftovers(reach) if reach.is_enough && reach.over_in == 0.0));
    match bind(&leftovers(&[266.25 - 1.0 / 16.0]), &outline) {
        Err(problem @ BindingProblem::LeftoverShort { short_in, .. }) => {
            near(short_in, 1.0 / 16.0);
            assert!(problem.to_string().contains("1/16 short"), "{problem}");
        }
        other => panic!("{other:?}"),
    }
    // Two that reach only if the join may fall anywhere.
    let two = bind(&leftovers(&[62.25, 206.25]), &outline).unwrap();
    assert_eq!(two.joins.len(), 1);
    assert!(bind(&leftovers(&[300.0, 3.0]), &outline).is_err(), "a bit that its join uses up");
    assert!(bind(&leftovers(&[]), &outline).is_err() && bind(&leftovers(&[f64::NAN]), &outline).is_err());
}

#[test]
fn a_binding_wider_than_a_short_side_can_fold_is_refused() {
    // A corner cut off: its side is 1 1/2 long, with 135 degrees at both ends.
    let cut = 1.5 / std::f64::consts::SQRT_2;
    let outline = points(&[(0.0, 0.0), (30.0, 0.0), (30.0, 20.0 - cut), (30.0 - cut, 20.0), (0.0, 20.0)]);
    assert!(bind(&BindingChoice::default(), &outline).is_ok());
    let wide = |seam: f64| BindingChoice {
        seam_in: seam,
        strip_width_in: binding_width(seam, 0.125).unwrap(),
        ..BindingChoice::default()
    };
    match bind(&wide(2.0), &outline) {
        Err(problem @ BindingProblem::ShortSide { side: 3, most_finished_in, .. }) => {
            assert!(bind(&wide(most_finished_in - 1e-6), &outline).is_ok());
            assert!(bind(&wide(most_finished_in + 1e-3), &outline).is_err());
            let words = problem.to_string();
            assert!(words.contains("sew it with a seam of 1 11/16 and strips cut 10 1/2,"), "{words}");
            let advised = BindingChoice { seam_in: 1.6875, strip_width_in: 10.5, ..BindingChoice::default() };
            assert!(bind(&advised, &outline).is_ok());
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn strips_too_wide_for_a_short_side_are_to_be_cut_narrower() {
    // Two corners cut off: one side is 2 long, the other 1.
    let (one, two) = (2.0 / std::f64::consts::SQRT_2, 1.0 / std::f64::consts::SQRT_2);
    let outline = points(&[
        (0.0, 0.0),
        (30.0, 0.0),
        (30.0, 20.0 - one),
        (30.0 - one, 20.0),
        (two, 20.0),
        (0.0, 20.0 - two),
    ]);
    for seam_in in [0.25, 0.375, 0.5] {
        let wide = BindingChoice { strip_width_in: 12.0, seam_in, ..BindingChoice::default() };
        let problem = bind(&wide, &outline).unwrap_err();
        assert!(matches!(problem, BindingProblem::ShortSide { side: 5, .. }), "{problem:?}");
        let words = problem.to_string();
        let strip = words.split_once("cut its strips ").unwrap().1.split_once(" wide or less").unwrap().0;
        let strip_width_in = strip.parse::<quilt::length::Length>().unwrap().inches();
        assert!(strip_width_in < 6.0, "{words}");
        assert!(bind(&BindingChoice { strip_width_in, ..wide.clone() }, &outline).is_ok(), "{words}");
        // An eighth more is too much again.
        let more = BindingChoice { strip_width_in: strip_width_in + 0.125, ..wide };
        assert!(bind(&more, &outline).is_err(), "{words}");
    }
}

#[test]
fn a_strip_that_does_not_close_is_refused_with_what_it_needs() {
    let narrow = BindingChoice { strip_width_in: 1.75, ..BindingChoice::default() };
    match bind(&narrow, &odd()) {
        Err(BindingProblem::StripTooNarrow { needs_in, seam_fits_in, .. }) => {
            near(needs_in, 1.875);
            assert!(bind(&BindingChoice { strip_width_in: needs_in, ..narrow.clone() }, &odd()).is_ok());
            assert!(bind(&BindingChoice { seam_in: seam_fits_in, ..narrow.clone() }, &odd()).is_ok());
        }
        other => panic!("{other:?}"),
    }
}

// Perimeter and 10 by 40 (christaquilts.com) says five strips for 190, and six are needed.
#[test]
fn a_binding_is_told_with_the_rule_that_falls_short() {
    let plan = plan(&BindingChoice::default(), &rectangle(50.0, 45.0), SEAM_IN).unwrap();
    let words = plan.sentence(LengthUnit::Inches);
    assert!(words.starts_with("Binding: 192 1/4 needed. 6 strips 2 1/4 wide, a length of 13 1/2"), "{words}");
    assert!(words.contains("says 5 strips: it leaves the joins out, and is short."), "{words}");
    assert!(words.contains("it shows 1/4 on the front and 1/2 on the back"), "{words}");
    assert!(words.contains("stop 8 before that; cut the ends to overlap 2 1/4"), "{words}");
    assert!(words.contains("Corner 1: stop 1/4 before it"), "{words}");
    let faced = BindingChoice { finish: Finish::Faced, ..BindingChoice::default() };
    let words = quilt::stage::binding::plan(&faced, &rectangle(50.0, 45.0), SEAM_IN)
        .unwrap()
        .sentence(LengthUnit::Inches);
    assert!(words.contains("side 1: 50, joined from 2; side 2: 45, joined from 2"), "{words}");
}

#[test]
fn no_advice_is_below_its_own_least() {
    // A strip of 1/2 fills a seam of 1/48, and none below 1/16 is sewn.
    let thin = BindingChoice { strip_width_in: 0.5, ..BindingChoice::default() };
    let words = bind(&thin, &odd()).unwrap_err().to_string();
    assert!(words.contains("must be 1 7/8 or wider. Cut it wider.") && !words.contains("sew it"), "{words}");
    // Whatever is advised can be done, for odd thicknesses too.
    for thickness_in in [0.0, 0.0625, 0.1, 0.125, 0.2] {
        for strip in 4..=16_u32 {
            let choice = BindingChoice {
                strip_width_in: f64::from(strip) / 8.0,
                thickness_in,
                seam_in: 0.5,
                ..BindingChoice::default()
            };
            let Err(problem @ BindingProblem::StripTooNarrow { .. }) = bind(&choice, &odd()) else {
                continue;
            };
            let words = problem.to_string();
            let Some((_, seam)) = words.split_once("sew it with ") else { continue };
            let seam: quilt::length::Length = seam.trim_end_matches('.').parse().unwrap();
            let advised = BindingChoice { seam_in: seam.inches(), ..choice };
            assert!(bind(&advised, &odd()).is_ok(), "{words}");
        }
        for short in 1..=12_u32 {
            let cut = f64::from(short) / 8.0 / std::f64::consts::SQRT_2;
            let (a, b) = (30.0 - cut, 20.0 - cut);
            let outline = points(&[(0.0, 0.0), (30.0, 0.0), (30.0, b), (a, 20.0), (0.0, 20.0)]);
            let choice = BindingChoice {
                thickness_in,
                seam_in: 1.9,
                strip_width_in: 12.0,
                ..BindingChoice::default()
            };
            let words = bind(&choice, &outline).unwrap_err().to_string();
            let Some((_, said)) = words.split_once("sew it with a seam of ") else {
                assert!(words.contains("no binding folds there"), "{words}");
                continue;
            };
            let (seam, rest) = said.split_once(" and strips cut ").unwrap();
            let strip = rest.split_once(", or").unwrap().0;
            let [seam, strip] =
                [seam, strip].map(|text| text.parse::<quilt::length::Length>().unwrap().inches());
            let advised = BindingChoice { seam_in: seam, strip_width_in: strip, thickness_in, ..choice };
            assert!(bind(&advised, &outline).is_ok(), "{words}");
        }
    }
}

/// A cloth of this shape, its lengthwise threads along y.
fn of_shape(list: &[(f64, f64)]) -> Cloth {
    Cloth { outline: Region { outer: points(list), holes: Vec::new() }, ..cloth(1.0, 1.0, Runs::AnyWay) }
}

/// The strips lie in the cloth and not over each other, and their corners are as far apart as said.
fn check_laid(cloth: &Cloth, laid: &LaidStrips, width_in: f64) {
    let strips: Vec<Region> =
        laid.corners.iter().map(|c| Region { outer: c.to_vec(), holes: Vec::new() }).collect();
    for (strip, length) in strips.iter().zip(&laid.lengths_in) {
        near(strip.area(), length * width_in);
        near(strip.outer[0].distance(strip.outer[1]), *length);
        let out: f64 =
            plane::difference(strip, std::slice::from_ref(&cloth.outline)).iter().map(Region::area).sum();
        assert!(out < 1e-6, "{out} lies outside");
    }
    for (i, one) in strips.iter().enumerate() {
        for other in &strips[i + 1..] {
            assert!(plane::intersection(one, other).iter().map(Region::area).sum::<f64>() < 1e-6);
        }
    }
}

#[test]
fn strips_are_laid_in_the_cloth_that_is_named() {
    let outline = rectangle(60.0, 72.0);
    let usual = BindingChoice::default();
    // A length of 42 by 36: along it lie 18 strips of 36, across it 16 of 42: seven across reach, by
    // 7 · 42 − 6 · 2 1/4 = 280 1/2, and eight along.
    let length = cloth(42.0, 36.0, Runs::AnyWay);
    let laid = strips_in(&length, 2.25, false, 2.25, 266.25);
    assert_eq!((laid.lengths_in.len(), laid.lengths_in[0], laid.along), (16, 42.0, "across the grain"));
    check_laid(&length, &laid, 2.25);
    let choice = usual.laid_in(&outline, SEAM_IN, std::slice::from_ref(&length)).unwrap();
    let plan = bind(&choice, &outline).unwrap();
    assert_eq!((plan.strips_least, plan.strips_cut_in.len()), (7, 7));
    assert!(plan.strips_cut_in.iter().all(|cut| *cut <= 42.0 + 1e-9));
    assert!(matches!(plan.cloth, SupplyCloth::Laid { strips: 16, .. }));
    // A fat quarter, 18 by 21, gives 9 of 18 or 8 of 21: 8 · 21 − 7 · 2 1/4 = 152 1/4 at the most.
    let quarter = cloth(21.0, 18.0, Runs::AnyWay);
    match usual.laid_in(&outline, SEAM_IN, &[quarter]) {
        Err(problem @ BindingProblem::ClothShort { strips: 8, .. }) => {
            let words = problem.to_string();
            assert!(words.contains("holds 8 strips 2 1/4 wide"), "{words}");
            assert!(words.contains("give 152 1/4, and 266 1/4 are needed. 114 are missing"), "{words}");
        }
        other => panic!("{other:?}"),
    }
    // A real outline: an L, and one with a hole, hold less than the box round them.
    let mut ell = of_shape(&[(0.0, 0.0), (44.0, 0.0), (44.0, 12.0), (10.0, 12.0), (10.0, 40.0), (0.0, 40.0)]);
    for is_bias in [false, true] {
        let laid = strips_in(&ell, 2.25, is_bias, 2.25, 1000.0);
        assert!(!laid.lengths_in.is_empty());
        check_laid(&ell, &laid, 2.25);
        assert!(laid.lengths_in.iter().sum::<f64>() * 2.25 < ell.outline.area());
    }
    ell.flaws = vec![Region {
        outer: points(&[(20.0, 5.0), (21.0, 5.0), (21.0, 6.0), (20.0, 6.0)]),
        holes: Vec::new(),
    }];
    let flawed = strips_in(&ell, 2.25, false, 2.25, 1000.0);
    ell.outline.holes = vec![ell.flaws[0].outer.iter().rev().copied().collect()];
    check_laid(&ell, &flawed, 2.25);
}

#[test]
fn a_facing_and_a_square_of_bias_are_held_against_the_cloth_too() {
    let outline = rectangle(60.0, 72.0);
    let length = cloth(42.0, 36.0, Runs::AnyWay);
    let faced = BindingChoice { finish: Finish::Faced, ..BindingChoice::default() };
    let laid = faced.laid_in(&outline, SEAM_IN, std::slice::from_ref(&length)).unwrap();
    assert!(face(&laid, &outline).is_ok());
    // Strips of 42 at the most, so that 60 and 72 are joined from two, and again from the same cloth.
    assert!(face(&laid, &outline).unwrap().strips.iter().all(|strip| strip.lengths == 2));
    assert_eq!(laid.laid_in(&outline, SEAM_IN, std::slice::from_ref(&length)), Ok(laid.clone()));
    let small = cloth(21.0, 18.0, Runs::AnyWay);
    assert!(matches!(
        faced.laid_in(&outline, SEAM_IN, std::slice::from_ref(&small)),
        Err(BindingProblem::ClothShort { .. })
    ));
    let square = BindingChoice { supply: Supply::BiasSquare, ..BindingChoice::default() };
    assert!(square.laid_in(&outline, SEAM_IN, &[length]).is_ok());
    assert!(matches!(square.laid_in(&outline, SEAM_IN, &[small]), Err(BindingProblem::NoSquare { .. })));
}

#[test]
fn leftovers_of_binding_are_named_for_the_next_piece() {
    let outline = rectangle(60.0, 72.0);
    let rest = |long: f64| Cloth {
        kind: Kind::Binding,
        outline: Region::rectangle(long, 2.25),
        ..cloth(1.0, 1.0, Runs::AnyWay)
    };
    let usual = BindingChoice::default();
    let choice = usual.laid_in(&outline, SEAM_IN, &[rest(62.25), rest(206.25)]).unwrap();
    assert_eq!(choice.supply, Supply::Leftovers { lengths_in: vec![206.25, 62.25], is_bias: false });
    assert!(bind(&choice, &outline).is_ok());
    let short = usual.laid_in(&outline, SEAM_IN, &[rest(62.25), rest(206.25 - 1.0 / 16.0)]).unwrap();
    match bind(&short, &outline) {
        Err(problem @ BindingProblem::LeftoverShort { .. }) => {
            assert!(problem.to_string().contains("1/16 short"), "{problem}");
        }
        other => panic!("{other:?}"),
    }
    let wide = BindingChoice { strip_width_in: 2.5, ..usual.clone() };
    assert!(matches!(
        wide.laid_in(&outline, SEAM_IN, &[rest(300.0)]),
        Err(BindingProblem::LeftoverNarrow { .. })
    ));
    // Cut at 45 degrees to its threads it is bias.
    let bias = Cloth { grain: plane::Turn::from_degrees(45.0), ..rest(300.0) };
    let choice = usual.laid_in(&outline, SEAM_IN, &[bias]).unwrap();
    assert_eq!(choice.supply, Supply::Leftovers { lengths_in: vec![300.0], is_bias: true });
    // A facing from leftovers that don't reach is refused as well.
    let faced = BindingChoice { finish: Finish::Faced, facing_width_in: 2.25, ..usual };
    let choice = faced.laid_in(&outline, SEAM_IN, &[rest(263.0)]).unwrap();
    assert!(matches!(face(&choice, &outline), Err(BindingProblem::LeftoverShort { .. })));
}

#[test]
fn an_inside_corner_takes_length_and_a_notch_too_narrow_is_refused() {
    let l = points(&[(0.0, 0.0), (30.0, 0.0), (30.0, 12.0), (12.0, 12.0), (12.0, 30.0), (0.0, 30.0)]);
    let plan = bind(&BindingChoice::default(), &l).unwrap();
    near(plan.inside_corners_in, 0.5);
    near(plan.net_length_in, 120.5);
    assert_eq!(plan.corners[3].way, Way::Clip);
    assert!(
        plan.corners[3].sentence(LengthUnit::Inches).contains("clip 3/8"),
        "{}",
        plan.corners[3].sentence(LengthUnit::Inches)
    );
    // Two squares joined by a neck half an inch wide.
    let neck = points(&[
        (0.0, 0.0),
        (20.0, 0.0),
        (20.0, 9.75),
        (25.0, 9.75),
        (25.0, 0.0),
        (45.0, 0.0),
        (45.0, 20.0),
        (25.0, 20.0),
        (25.0, 10.25),
        (20.0, 10.25),
        (20.0, 20.0),
        (0.0, 20.0),
    ]);
    assert!(matches!(bind(&BindingChoice::default(), &neck), Err(BindingProblem::Neck { .. })));
}

#[test]
fn a_sharp_tip_is_bound_apart_or_blunted() {
    let kite = points(&[(0.0, 0.0), (40.0, -14.0), (52.0, 0.0), (40.0, 14.0)]);
    let plan = bind(&BindingChoice::default(), &kite).unwrap();
    let tip = plan.corners[0];
    assert_eq!((tip.way, plan.closing), (Way::Apart, None));
    near(plan.length_needed_in, polygon::perimeter(&kite) + 2.0 * TAIL_IN);
    assert!(
        tip.sentence(LengthUnit::Inches).contains("cut the tip off"),
        "{}",
        tip.sentence(LengthUnit::Inches)
    );
    // Blunted as proposed, it is one ring again.
    let off = tip.blunt_in.unwrap();
    let half = (tip.inside_deg.to_radians() / 2.0).tan() * off;
    let blunt = points(&[(off, -half), (40.0, -14.0), (52.0, 0.0), (40.0, 14.0), (off, half)]);
    let plan = bind(&BindingChoice::default(), &blunt).unwrap();
    assert!(plan.closing.is_some() && plan.corners.iter().all(|corner| corner.way != Way::Apart));
}

#[test]
fn a_curve_needs_bias() {
    let round: Vec<Point> = (0..90)
        .map(|i| std::f64::consts::TAU * f64::from(i) / 90.0)
        .map(|a| Point::new(18.0 * a.cos(), 18.0 * a.sin()))
        .collect();
    match bind(&BindingChoice::default(), &round) {
        Err(BindingProblem::CurveNeedsBias { radius_in, .. }) => assert!((radius_in - 18.0).abs() < 0.1),
        other => panic!("{other:?}"),
    }
    assert!(matches!(face(&BindingChoice::default(), &round), Err(BindingProblem::CurveNeedsBias { .. })));
    for supply in [Supply::BiasStrips, Supply::BiasSquare] {
        let plan = bind(&BindingChoice { supply, ..BindingChoice::default() }, &round).unwrap();
        assert_eq!(plan.curves.len(), 1);
        assert!(plan.length_got_in >= plan.length_needed_in - 1e-9);
        match plan.cloth {
            SupplyCloth::Square { side_cut_in, by_area_in } => {
                assert!(by_area_in < side_cut_in, "the rule is short");
            }
            SupplyCloth::BiasLengths { cuts, length_cut_in, yards } => {
                let area = f64::from(cuts) * length_cut_in * 40.0;
                assert!(
                    area >= plan.length_needed_in * 2.25 && yards * 36.0 >= f64::from(cuts) * length_cut_in
                );
            }
            other => panic!("{other:?}"),
        }
    }
    let huge = rectangle(2400.0, 2400.0);
    let square =
        BindingChoice { supply: Supply::BiasSquare, strip_width_in: 6.0, ..BindingChoice::default() };
    assert!(matches!(bind(&square, &huge), Err(BindingProblem::TooMuchBias { .. })));
}

#[test]
fn a_facing_takes_a_seam_off_every_side() {
    let l = points(&[(0.0, 0.0), (30.0, 0.0), (30.0, 12.0), (12.0, 12.0), (12.0, 30.0), (0.0, 30.0)]);
    let plan = face(&BindingChoice::default(), &l).unwrap();
    near(plan.depth_finished_in, 1.25);
    let shrunk = plane::grow_outline(&l, -SEAM_IN);
    near(polygon::area(&plan.finished_outline), polygon::area(&shrunk));
    let lengths: Vec<f64> = plan.strips.iter().map(|strip| strip.cut_length_in).collect();
    for (found, expected) in lengths.iter().zip([30.0, 12.0, 19.5, 19.5, 12.0, 30.0]) {
        near(*found, expected);
    }
    let deep = BindingChoice { facing_width_in: 20.0, ..BindingChoice::default() };
    assert!(matches!(face(&deep, &l), Err(BindingProblem::Neck { .. })));
}

#[test]
fn a_choice_is_stored_in_plain_words_and_read_back() {
    let usual: BindingChoice = serde_json::from_str("{}").unwrap();
    assert_eq!(usual, BindingChoice::default());
    let choice = BindingChoice { supply: Supply::BiasSquare, join: Join::Straight, ..leftovers(&[]) };
    let text = serde_json::to_string(&choice).unwrap();
    assert!(
        text.contains(r#""strip_width_in":2.25"#) && text.contains(r#""supply":"bias_square""#),
        "{text}"
    );
    assert_eq!(serde_json::from_str::<BindingChoice>(&text).unwrap(), choice);
}

#[test]
fn nonsense_is_refused() {
    let bow = points(&[(0.0, 0.0), (20.0, 20.0), (20.0, 0.0), (0.0, 20.0)]);
    assert!(matches!(bind(&BindingChoice::default(), &bow), Err(BindingProblem::Outline(_))));
    for choice in [
        BindingChoice { seam_in: 0.0, ..BindingChoice::default() },
        BindingChoice { strip_width_in: f64::NAN, ..BindingChoice::default() },
        BindingChoice { thickness_in: -1.0, ..BindingChoice::default() },
        BindingChoice { closing_gap_in: f64::INFINITY, ..BindingChoice::default() },
        BindingChoice { join_clear_in: -3.0, ..BindingChoice::default() },
        BindingChoice { usable_in: 0.0, ..BindingChoice::default() },
        BindingChoice { pivot_from_deg: 0.0, ..BindingChoice::default() },
        BindingChoice { facing_width_in: 0.0, finish: Finish::Faced, ..BindingChoice::default() },
    ] {
        assert!(plan(&choice, &odd(), SEAM_IN).is_err(), "{choice:?}");
    }
    assert!(plan(&BindingChoice::default(), &odd(), f64::NAN).is_err());
}
