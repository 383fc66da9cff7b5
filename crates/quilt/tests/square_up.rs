//! Squaring up: targets against published extremes and geometry, and cuts that really are made.

mod common;

use common::{Hand, check_tiling, cloth, lay, sew, trued};
use plane::{Point, Region, Turn, grow_outline, polygon};
use quilt::cloth::{Cloth, Runs};
use quilt::length::LengthUnit;
use quilt::log::{Mark, Measured, Name, Step};
use quilt::stage::border::{self, BorderChoice};
use quilt::stage::square_up::{
    Goal, LargestKind, SquareProblem, SquareUpChoice, SquareUpPlan, plan, trueness,
};
use quilt::stage::{JoinKind, Order, Piece, PieceProblem};
use quilt::table::Table;

const S: f64 = 0.25;

fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn to(goal: Goal) -> SquareUpChoice {
    SquareUpChoice::to(goal)
}

fn one_patch(corners: &[Point]) -> (Hand, Mark) {
    let mut hand = Hand::new(0);
    (hand.table, hand.entries) = (Table::new(), Vec::new());
    let corners: Vec<(f64, f64)> = corners.iter().map(|p| (p.x, p.y)).collect();
    let mark = hand.try_step(lay(&corners)).expect("a patch");
    (hand, mark)
}

fn regular(sides: u32, edge: f64) -> Vec<Point> {
    let radius = edge / (2.0 * (std::f64::consts::PI / f64::from(sides)).sin());
    let corner = |i| Turn::from_degrees(360.0 * f64::from(i) / f64::from(sides)).vec() * radius;
    (0..sides).map(|i| Point::new(corner(i).x, corner(i).y)).collect()
}

/// The plan's steps, done on the table that it was made for.
fn done(hand: &Hand, mark: Mark, plan: &SquareUpPlan) -> Hand {
    let mut hand = hand.clone();
    for step in &plan.steps {
        hand.try_step(step.clone()).expect("it was planned");
    }
    let top = &hand.table.tops()[&mark];
    check_tiling(top);
    assert_eq!(top.outline_points(), plan.corners);
    hand
}

fn squared(
    hand: &Hand,
    mark: Mark,
    goal: Goal,
    cloth: Option<&Cloth>,
) -> Result<SquareUpPlan, SquareProblem> {
    plan(&hand.table, mark, &to(goal), cloth, S, hand.next_mark())
}

// T65: oakvillequiltersguild.ca (opposite sides and diagonals equal); numbers by geometry.
#[test]
fn a_skewed_rectangle_has_diagonals_that_differ() {
    let true_one = trueness(&Region::rectangle(60.0, 80.0).outer);
    assert_eq!(true_one.diagonals_in, [100.0, 100.0]);
    assert!((true_one.diagonals_agree, true_one.sides_agree) == (Some(true), Some(true)));
    let skewed = trueness(&points(&[(0.0, 0.0), (60.0, 0.0), (61.0, 80.0), (1.0, 80.0)]));
    let mut diagonals = skewed.diagonals_in.clone();
    diagonals.sort_by(f64::total_cmp);
    assert!((diagonals[0] - 99.4032).abs() < 5e-5 && (diagonals[1] - 100.6032).abs() < 5e-5);
    assert!(
        (skewed.diagonals_agree, skewed.sides_agree) == (Some(false), Some(true)),
        "opposite sides don't tell"
    );
    for sides in [5, 6, 7] {
        let other = trueness(&regular(sides, 10.0));
        assert_eq!((other.diagonals_agree, other.sides_agree), (None, None), "{sides}");
        assert!(other.diagonals_in.is_empty() && other.opposite_sides_in.is_empty());
    }
}

// Largest square in a triangle, pentagon and hexagon of side 1 and largest rectangle in a triangle
// (half its area): the values of `plane/tests/fit_extremes.rs`, where their sources are named.
#[test]
fn the_largest_of_a_kind_is_as_large_as_published() {
    for (sides, square) in [
        (3, 2.0 * 3.0_f64.sqrt() - 3.0),
        (5, 108.0_f64.to_radians().sin() / 63.0_f64.to_radians().sin()),
        (6, 3.0 - 3.0_f64.sqrt()),
    ] {
        let (hand, mark) = one_patch(&regular(sides, 10.0));
        let plan = squared(&hand, mark, Goal::Largest { kind: LargestKind::Square }, None).unwrap();
        let side = plan.target[0].distance(plan.target[1]);
        assert!((side - 10.0 * square).abs() < 2e-3, "{sides}: {side}");
        done(&hand, mark, &plan);
    }
    let triangle = points(&[(0.0, 0.0), (30.0, 0.0), (11.0, 17.0)]);
    let (hand, mark) = one_patch(&triangle);
    let plan = squared(&hand, mark, Goal::Largest { kind: LargestKind::Rectangle }, None).unwrap();
    let half = polygon::area(&triangle) / 2.0;
    assert!((polygon::area(&plan.target) - half).abs() < 0.05, "{}", polygon::area(&plan.target));
    assert!((plan.lost_percent - 50.0).abs() < 0.05);
    // The largest circle in a triangle: twice the area over the perimeter.
    let plan = squared(&hand, mark, Goal::Largest { kind: LargestKind::Circle }, None).unwrap();
    let radius = 2.0 * polygon::area(&triangle) / polygon::perimeter(&triangle);
    let circle = std::f64::consts::PI * radius * radius;
    let area = polygon::area(&plan.corners);
    assert!(area > circle - 1e-6 && area < circle + std::f64::consts::TAU * radius / 64.0);
}

// Geometry: the largest rectangle in a rectangle is itself, however slim; in a square of 20 turned by 45
// degrees the largest square has the side 20 / √2, 78.57 % of 18.
#[test]
fn slim_pieces_and_wished_turns_are_told_true() {
    for (long, wide) in [(60.0, 2.0), (90.0, 0.75)] {
        let slim = Region::rectangle(long, wide).outer;
        let leaning: Vec<Point> =
            slim.iter().map(|p| Point::ORIGIN + Turn { cos: 0.8, sin: 0.6 }.apply(p.to_vec2())).collect();
        for corners in [slim, leaning] {
            let (hand, mark) = one_patch(&corners);
            let plan = squared(&hand, mark, Goal::Largest { kind: LargestKind::Rectangle }, None).unwrap();
            assert!(
                (polygon::area(&plan.target) - long * wide).abs() < 0.2,
                "{}",
                polygon::area(&plan.target)
            );
        }
    }
    let (hand, mark) = one_patch(&Region::rectangle(20.0, 20.0).outer);
    let goal = Goal::Rectangle { width_in: 18.0, height_in: 18.0, turn_deg: Some(45.0) };
    match squared(&hand, mark, goal, None) {
        Err(problem @ SquareProblem::NoRoom { percent, .. }) => {
            assert!((percent - 100.0 * 20.0 / 2.0_f64.sqrt() / 18.0).abs() < 1e-6, "{percent}");
            assert!(problem.to_string().contains("78.5 per cent"), "{problem}");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn turns_and_widths_that_are_no_numbers_are_refused() {
    let (hand, mark) = one_patch(&Region::rectangle(10.0, 8.0).outer);
    for turn_deg in [f64::NAN, f64::INFINITY, 1e9] {
        for goal in [
            Goal::Rectangle { width_in: 4.0, height_in: 3.0, turn_deg: Some(turn_deg) },
            Goal::RectangleByCorners { width_in: None, height_in: None, turn_deg },
        ] {
            assert!(matches!(squared(&hand, mark, goal, None), Err(SquareProblem::Measure(_))), "{turn_deg}");
        }
    }
    for thin_in in [f64::NAN, -1.0, f64::INFINITY] {
        let choice = SquareUpChoice { thin_in, ..to(Goal::Circle { diameter_in: 4.0 }) };
        assert!(plan(&hand.table, mark, &choice, None, S, Mark(9)).is_err(), "{thin_in}");
    }
}

#[test]
fn pieces_sewn_at_random_are_cut_to_rectangles_and_circles() {
    let (mut cut, mut thinned) = (0, 0);
    for seed in 0..40 {
        let Some((hand, mark)) = trued(seed) else { continue };
        let top = &hand.table.tops()[&mark];
        let before = polygon::area(&top.outline_points());
        for goal in [
            Goal::Rectangle { width_in: 9.0, height_in: 7.5, turn_deg: None },
            Goal::Rectangle { width_in: 6.0, height_in: 8.0, turn_deg: Some(20.0) },
            Goal::Circle { diameter_in: 8.0 },
            Goal::Largest { kind: LargestKind::Rectangle },
            Goal::Largest { kind: LargestKind::Square },
            Goal::Largest { kind: LargestKind::Circle },
        ] {
            let plan = match squared(&hand, mark, goal.clone(), None) {
                Ok(plan) => plan,
                Err(SquareProblem::NoRoom { percent, .. }) => {
                    assert!(percent < 100.0);
                    continue;
                }
                Err(problem) => panic!("seed {seed}: {goal:?}: {problem}"),
            };
            assert!(plan.off_in <= 1.0 / 64.0, "seed {seed}: {goal:?}: {}", plan.off_in);
            let after = polygon::area(&plan.corners);
            assert!((plan.lost_sq_in - (before - after)).abs() < 1e-6);
            done(&hand, mark, &plan);
            thinned += plan.thin.len() + plan.gone.len();
            cut += 1;
            if matches!(goal, Goal::Rectangle { .. } | Goal::Largest { kind: LargestKind::Square }) {
                assert_eq!(plan.corners.len(), 4);
                assert_eq!(plan.trueness.sides_agree, Some(true));
                assert_eq!(plan.trueness.diagonals_agree, Some(true));
            }
        }
    }
    assert!(cut > 60 && thinned > 20, "{cut} cut, {thinned} patches thinned");
}

#[test]
fn a_circle_keeps_within_a_sixty_fourth_in_as_few_cuts_as_do() {
    let (hand, mark) = one_patch(&Region::rectangle(60.0, 50.0).outer);
    let plan = squared(&hand, mark, Goal::Circle { diameter_in: 40.0 }, None).unwrap();
    let centre = polygon::centroid(&plan.corners).unwrap();
    for (a, b) in polygon::edges(&plan.corners) {
        assert!(a.distance(centre) <= 20.0 + 1.0 / 64.0);
        let middle = a.midpoint(b).distance(centre);
        assert!((20.0 - 1e-6..20.0 + 1.0 / 64.0).contains(&middle), "{middle}");
    }
    // Tangents whose corners lie h outside: n = π / acos(r / (r + h)) (geometry), h 1/128.
    let least = std::f64::consts::PI / (20.0_f64 / (20.0 + 1.0 / 128.0)).acos();
    assert_eq!(plan.steps.len(), least.ceil() as usize);
    done(&hand, mark, &plan);
    // To the hand it is one cut, it has no diagonals, and its size is said.
    assert_eq!((plan.cuts, plan.trueness.diagonals_agree), (1, None));
    let words = plan.sentence(LengthUnit::Inches);
    assert!(words.contains("one round cut takes 58.1 % off. It is 40 across (raw)."), "{words}");
    assert!(!words.contains("iagonals"), "{words}");
}

/// A border sewn wide and unevenly is trimmed to its own line.
#[test]
fn a_border_is_trimmed_to_a_width_from_its_own_seam() {
    let (mut trimmed, length) = (0, cloth(44.0, 120.0, Runs::AnyWay));
    for seed in 0..20 {
        let Some((mut hand, mark)) = trued(seed) else { continue };
        let piece = Piece::of(mark, &hand.table.tops()[&mark]).unwrap();
        for order in [Order::ApartFirst, Order::Mitred] {
            let choice = BorderChoice {
                sewn_in: vec![2.25],
                trimmed_in: Vec::new(),
                order,
                first_side: 0,
                join: JoinKind::Diagonal,
                print: border::PrintLies::ByGrain,
                grain: border::Grain::Lengthwise,
            };
            let Ok(sewn) = border::plan(&piece, &choice, Some(&length), S) else { continue };
            let mut hand = hand.clone();
            for step in sewn.steps(&piece, &length, hand.next_mark()).unwrap() {
                hand.try_step(step).unwrap();
            }
            // One side came out an eighth narrower, as measured.
            let top = &hand.table.tops()[&mark];
            let side = top.sides()[1].name().unwrap();
            let line = top.line(top.sides()[1].bound).unwrap().inward(0.125);
            hand.try_step(Step::Measure { top: mark, sides: vec![Measured { side, line }], shown: None })
                .unwrap();
            let plan = squared(&hand, mark, Goal::BorderLine { from_seam_in: 2.0 }, None).unwrap();
            let within = grow_outline(&grow_outline(&piece.corners(), -S), 2.0);
            assert!((polygon::area(&plan.corners) - polygon::area(&within)).abs() < 1e-6, "seed {seed}");
            done(&hand, mark, &plan);
            trimmed += 1;
            let narrow = squared(&hand, mark, Goal::BorderLine { from_seam_in: 2.2 }, None).unwrap_err();
            let SquareProblem::NarrowBorder { have_in, .. } = narrow else { panic!("{narrow}") };
            assert!((have_in - 2.125).abs() < 1e-9);
        }
        let bare = squared(&hand, mark, Goal::BorderLine { from_seam_in: 60.0 }, None);
        assert!(bare.is_err());
        hand.chance.next();
    }
    assert!(trimmed > 8, "{trimmed} trimmed");
}

#[test]
fn polygons_become_rectangles_by_corners_on_the_straight_grain() {
    let yardage = cloth(44.0, 60.0, Runs::AnyWay);
    let octagon = grow_outline(&regular(8, 8.0), S);
    let (hand, mark) = one_patch(&octagon);
    let turn_deg = 22.5;
    let goal = |turn_deg| Goal::RectangleByCorners { width_in: None, height_in: None, turn_deg };
    let plan = squared(&hand, mark, goal(turn_deg), Some(&yardage)).unwrap();
    assert_eq!(plan.pieces.len(), 4, "four sides lie on the square");
    assert_eq!(plan.corners.len(), 4);
    assert!(plan.pieces.iter().all(|piece| piece.cut.len() == 3 && piece.has_room == Some(true)));
    // A corner of an octagon of side 8 in its square: 8/√2, and the seams take 2s(1 + √2) + √2/2 more…
    // at the least the finished leg and a half-square triangle's allowance.
    let leg = 8.0 / 2.0_f64.sqrt() + S * (2.0 + 2.0_f64.sqrt());
    assert!(plan.pieces.iter().all(|piece| piece.cut_size_in.iter().all(|size| *size >= leg - 1e-9)));
    assert_eq!(plan.trueness.sides_agree, Some(true));
    assert_eq!(plan.trueness.diagonals_agree, Some(true));
    let after = done(&hand, mark, &plan);
    for patch in after.table.patches().iter().filter(|(patch, _)| **patch != mark) {
        // The rectangle's sides run along or across the threads.
        let face = after.table.tops()[&mark].faces().values().find(|face| face.patch == *patch.0).unwrap();
        let grain = yardage.grain.then(patch.1.at.turn.inverse()).then(face.pose.turn);
        let off = (grain.to_degrees() - turn_deg - plan.turned_deg).rem_euclid(90.0);
        assert!(off.min(90.0 - off) < 1e-6, "{off} degrees off the grain");
    }
    let bare = squared(&hand, mark, goal(turn_deg), None).unwrap();
    assert!(bare.steps.is_empty() && bare.pieces.iter().all(|piece| piece.has_room.is_none()));
    let tiny = cloth(5.0, 5.0, Runs::AnyWay);
    let none = squared(&hand, mark, goal(turn_deg), Some(&tiny)).unwrap();
    assert!(none.steps.is_empty() && none.pieces.iter().all(|piece| piece.has_room == Some(false)));
}

#[test]
fn odd_polygons_become_rectangles_too() {
    let yardage = cloth(60.0, 90.0, Runs::AnyWay);
    let mut filled = 0;
    for seed in 0..40 {
        let Some((hand, mark)) = trued(seed) else { continue };
        for turn_deg in [0.0, 17.0] {
            let goal = Goal::RectangleByCorners { width_in: None, height_in: None, turn_deg };
            let plan = match squared(&hand, mark, goal, Some(&yardage)) {
                Ok(plan) => plan,
                Err(SquareProblem::Step(problem)) => {
                    // A side so short that a seam beside it takes it.
                    assert_eq!(problem.rule, quilt::Rule::NoSuchSide, "seed {seed}: {problem}");
                    continue;
                }
                Err(problem) => panic!("seed {seed}: {problem}"),
            };
            assert_eq!(plan.corners.len(), 4, "seed {seed}");
            assert!(plan.off_in < 1e-6 && plan.trueness.diagonals_agree == Some(true));
            done(&hand, mark, &plan);
            filled += 1;
        }
    }
    assert!(filled > 15, "{filled} filled");
}

#[test]
fn what_gets_thin_and_what_is_lost_is_named() {
    let (mut hand, first) = one_patch(&Region::rectangle(8.0, 8.0).outer);
    let bar = hand.try_step(lay(&[(0.0, 0.0), (9.0, 0.0), (9.0, 2.0), (0.0, 2.0)])).unwrap();
    hand.try_step(sew(Name::new(first, 1), Name::new(bar, 0), [true, true])).unwrap();
    // 8 and 2 less four quarters: 9 1/2 wide. Cut to 8 1/2 at the bar's side it shows 3/4 − 1/4.
    let rectangle =
        |right: f64| Goal::Polygon { corners: points(&[(0.0, 0.0), (right, 0.0), (right, 8.0), (0.0, 8.0)]) };
    let plan = squared(&hand, first, rectangle(8.25), None).unwrap();
    assert_eq!(plan.cuts, 1);
    assert!(
        (plan.lost_sq_in - 1.25 * 8.0).abs() < 1e-9 && (plan.lost_percent - 100.0 * 1.25 / 9.5).abs() < 1e-9
    );
    assert_eq!((plan.thin.len(), plan.thin[0].patch), (1, bar));
    assert!((plan.thin[0].before_in - 1.5).abs() < 1e-9 && (plan.thin[0].after_in - 0.25).abs() < 1e-9);
    let gone = squared(&hand, first, rectangle(7.5), None).unwrap();
    assert_eq!(gone.gone, [bar]);
    assert!(squared(&hand, first, rectangle(9.5), None).unwrap().steps.is_empty(), "it has that shape");
}

#[test]
fn wishes_that_make_no_sense_are_refused_and_nothing_changes() {
    let (hand, mark) = one_patch(&Region::rectangle(10.0, 8.0).outer);
    let refused = |goal: Goal| squared(&hand, mark, goal, None).expect_err("it is refused");
    let bow = Goal::Polygon { corners: points(&[(1.0, 1.0), (9.0, 7.0), (9.0, 1.0), (1.0, 7.0)]) };
    let crosses = refused(bow);
    assert!(matches!(crosses, SquareProblem::Crosses(_)));
    assert!(crosses.to_string().contains("Nothing was cut"), "{crosses}");
    let ell = points(&[(1.0, 1.0), (9.0, 1.0), (9.0, 7.0), (5.0, 7.0), (5.0, 4.0), (1.0, 4.0)]);
    let inward = refused(Goal::Polygon { corners: ell });
    assert!(matches!(inward, SquareProblem::Target(PieceProblem::Inward { .. })), "{inward}");
    let out = refused(Goal::Polygon { corners: points(&[(1.0, 1.0), (12.0, 1.0), (5.0, 7.0)]) });
    assert!(
        matches!(out, SquareProblem::Outside { missing_in, .. } if (missing_in - 2.0).abs() < 1e-9),
        "{out}"
    );
    let large = refused(Goal::Rectangle { width_in: 20.0, height_in: 16.0, turn_deg: None });
    assert!(
        matches!(large, SquareProblem::NoRoom { percent, .. } if (percent - 50.0).abs() < 0.1),
        "{large}"
    );
    let circle = refused(Goal::Circle { diameter_in: 16.0 });
    assert!(
        matches!(circle, SquareProblem::NoRoom { percent, .. } if (percent - 50.0).abs() < 0.1),
        "{circle}"
    );
    for size in [0.0, -3.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(refused(Goal::Circle { diameter_in: size }), SquareProblem::Size(_)));
        let flat = Goal::Rectangle { width_in: size, height_in: 2.0, turn_deg: None };
        assert!(matches!(refused(flat), SquareProblem::Size(_)));
        assert!(matches!(refused(Goal::BorderLine { from_seam_in: size }), SquareProblem::Size(_)));
    }
    assert!(matches!(refused(Goal::BorderLine { from_seam_in: 2.0 }), SquareProblem::NoBorder { side: 1 }));
    let wide = Goal::RectangleByCorners { width_in: Some(11.0), height_in: None, turn_deg: 0.0 };
    assert!(matches!(refused(wide), SquareProblem::WiderThanPiece { .. }));
    let none = plan(&hand.table, Mark(77), &to(Goal::Circle { diameter_in: 2.0 }), None, S, Mark(900));
    assert_eq!(none.unwrap_err(), SquareProblem::NoTop(Mark(77)));
}

// Half the largest rectangle's sizes in a tilted one are its own (geometry); what is squared stands level.
#[test]
fn a_rectangle_stands_upright_when_it_is_cut() {
    let lean = |degrees: f64, corners: &[Point]| -> Vec<Point> {
        let turn = Turn::from_degrees(degrees);
        corners.iter().map(|p| Point::ORIGIN + turn.apply(p.to_vec2())).collect()
    };
    let rectangle = Goal::Rectangle { width_in: 10.0, height_in: 16.0, turn_deg: Some(25.0) };
    let (hand, mark) = one_patch(&Region::rectangle(30.0, 30.0).outer);
    let plan = squared(&hand, mark, rectangle.clone(), None).unwrap();
    assert!((plan.turned_deg + 25.0).abs() < 1e-9 && plan.leans_deg == 0.0, "{}", plan.turned_deg);
    let after = done(&hand, mark, &plan);
    let (wide, high) = after.table.tops()[&mark].size_in();
    assert!((wide - 10.0).abs() < 1e-9 && (high - 16.0).abs() < 1e-9, "{wide} by {high}");
    assert!(
        plan.sentence(LengthUnit::Inches).contains("It is 10 by 16 (raw), turned 25 degrees"),
        "{}",
        plan.sentence(LengthUnit::Inches)
    );
    // The patch turned with its cloth: its print leans as it did before to its own edges.
    let face = after.table.tops()[&mark].faces().values().next().unwrap();
    assert!((face.pose.turn.to_degrees() + 25.0).abs() < 1e-9);

    let asked = SquareUpChoice { upright: false, ..to(rectangle.clone()) };
    let as_it_lies = quilt::stage::square_up::plan(&hand.table, mark, &asked, None, S, Mark(9)).unwrap();
    assert!((as_it_lies.leans_deg + 25.0).abs() < 1e-9 && as_it_lies.turned_deg == 0.0);
    assert!(
        as_it_lies.sentence(LengthUnit::Inches).contains("up_deg = -25.00"),
        "{}",
        as_it_lies.sentence(LengthUnit::Inches)
    );

    // What leans is turned the least; one that has its shape already is only turned.
    for (degrees, turned) in [(30.0, -30.0), (60.0, 30.0), (170.0, 10.0), (-100.0, 10.0)] {
        let (hand, mark) = one_patch(&lean(degrees, &Region::rectangle(12.0, 9.0).outer));
        let plan = squared(&hand, mark, Goal::Largest { kind: LargestKind::Rectangle }, None).unwrap();
        assert!((plan.turned_deg - turned).abs() < 0.01, "{degrees}: {}", plan.turned_deg);
        done(&hand, mark, &plan);
        let own = lean(degrees, &Region::rectangle(12.0, 9.0).outer);
        let plan = squared(&hand, mark, Goal::Polygon { corners: own }, None).unwrap();
        assert_eq!((plan.cuts, plan.steps.len()), (0, 1), "{degrees}");
        done(&hand, mark, &plan);
    }
    // Under quilting that is decided on nothing is turned.
    let mut quilted = hand.clone();
    let chosen = quilt::stage::Chosen::Quilting(quilt::stage::quilting::QuiltingChoice::default());
    let stage = quilt::log::Stage::Planned(Box::new(chosen));
    quilted.try_step(Step::Choose(stage)).unwrap();
    let plan = squared(&quilted, mark, rectangle, None).unwrap();
    assert!(plan.turned_deg == 0.0 && (plan.leans_deg + 25.0).abs() < 1e-9);
}

// The choice as the log stores it.
#[test]
fn a_stored_choice_reads_back() {
    let text = r#"{"goal":{"rectangle":{"width_in":9.0,"height_in":7.5}}}"#;
    let choice: SquareUpChoice = serde_json::from_str(text).unwrap();
    assert_eq!(choice, to(Goal::Rectangle { width_in: 9.0, height_in: 7.5, turn_deg: None }));
    let again = serde_json::to_string(&choice).unwrap();
    assert_eq!(serde_json::from_str::<SquareUpChoice>(&again).unwrap(), choice);
}
