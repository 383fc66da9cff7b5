//! Hanging whole outlines.

mod common;

use common::Chance;
use plane::{Point, Region, polygon};
use quilt::length::LengthUnit;
use quilt::stage::sleeve::{HeavyPart, SleeveChoice, SleevePlan, SleeveProblem, centre, plan};
use quilt::sums;

fn points(list: &[(f64, f64)]) -> Vec<Point> {
    list.iter().map(|&(x, y)| Point::new(x, y)).collect()
}

fn rectangle(width: f64, height: f64) -> Vec<Point> {
    points(&[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])
}

fn hang(outline: &[Point]) -> Result<SleevePlan, SleeveProblem> {
    plan(&SleeveChoice::default(), outline, &[], 0.25)
}

#[track_caller]
fn near(found: f64, expected: f64) {
    assert!((found - expected).abs() < 1e-6, "{found} is not {expected}");
}

// hillcountryquiltguild.com 2023: 60 wide, cut 59, finished 58; the top 1/2 below the edge.
#[test]
fn a_rectangle_gets_the_sleeve_of_its_sum() {
    let plan = hang(&rectangle(60.0, 72.0)).unwrap();
    let sum = sums::sleeve(60.0, 8.5, 0.25).unwrap();
    let [part] = plan.parts[..] else { panic!("{:?}", plan.parts) };
    assert_eq!((part.cut_length_in, part.finished_length_in), (59.0, 58.0));
    assert_eq!(
        (part.cut_length_in, plan.flat_in, plan.rod_most_in),
        (sum.cut_length_in, sum.flat_in, sum.rod_most_in)
    );
    near(part.top[0].y, 71.5);
    near(part.top[0].x, 1.0);
    assert_eq!((plan.above_in, plan.off_middle_in, plan.rod_length_in), (0.5, 0.0, 59.0));
    let label = plan.label.unwrap();
    near(label[0].x, 0.5);
    near(label[0].y, 0.5);
    // Wider than 90 it comes in two, as the sum says.
    let wide = hang(&rectangle(100.0, 90.0)).unwrap();
    assert_eq!(wide.parts.len(), 2);
    near(wide.parts[0].cut_length_in, sums::sleeve(100.0, 8.5, 0.25).unwrap().cut_length_in);
}

#[test]
fn an_odd_outline_is_held_evenly_about_its_centre_of_weight() {
    let mut chance = Chance(3);
    let mut hung = 0;
    for _ in 0..200 {
        let n = 5 + chance.below(5);
        let outline: Vec<Point> = (0..n)
            .map(|i| {
                let angle = std::f64::consts::TAU * (i as f64 + chance.between(-0.3, 0.3)) / n as f64;
                let radius = chance.between(16.0, 30.0);
                Point::new(radius * angle.cos(), radius * angle.sin())
            })
            .collect();
        let choice = SleeveChoice { up_deg: chance.between(-180.0, 180.0), ..SleeveChoice::default() };
        let Ok(plan) = plan(&choice, &outline, &[], 0.25) else { continue };
        hung += 1;
        let up = plane::Turn::from_degrees(choice.up_deg);
        let at = |p: Point| up.apply(p.to_vec2());
        let ends: Vec<f64> = plan.parts.iter().flat_map(|part| part.top.map(|p| at(p).x)).collect();
        near((ends[0] + ends[ends.len() - 1]) / 2.0, at(plan.centre).x);
        let region = Region::try_new(outline.clone(), Vec::new()).unwrap();
        let down = up.inverse().vec().left() * -plan.flat_in;
        for part in &plan.parts {
            near(at(part.top[0]).y, at(part.top[1]).y);
            assert!(at(part.top[0]).y - plan.flat_in >= at(plan.centre).y - 0.126);
            let sleeve = [part.top[0] + down, part.top[1] + down, part.top[1], part.top[0]];
            assert!(plane::lies_within(&sleeve, &region, plane::Pose::STAY));
        }
        if let Some(label) = plan.label {
            assert!(plane::lies_within(&label, &region, plane::Pose::STAY));
        }
        let rods: Vec<f64> = plan.tabs.iter().map(|tab| at(tab.at).y + tab.finished_length_in).collect();
        rods.iter().for_each(|rod| near(*rod, rods[0]));
        let middle = plan.tabs.iter().map(|tab| at(tab.at).x).sum::<f64>() / plan.tabs.len() as f64;
        near(middle, at(plan.centre).x);
    }
    assert!(hung >= 150, "only {hung} could be hung");
}

#[test]
fn a_point_at_the_top_stands_above_the_sleeve_and_says_so() {
    let diamond = points(&[(0.0, -30.0), (30.0, 0.0), (0.0, 30.0), (-30.0, 0.0)]);
    let plan = hang(&diamond).unwrap();
    assert!(
        plan.above_in > 10.0 && plan.sentence(LengthUnit::Inches).contains("may flop"),
        "{}",
        plan.sentence(LengthUnit::Inches)
    );
    assert!(plan.tabs.iter().any(|tab| tab.finished_length_in > 10.0));
}

#[test]
fn a_piece_without_a_place_for_a_sleeve_comes_with_tabs() {
    let plan = hang(&rectangle(60.0, 3.0)).unwrap();
    assert!(!plan.has_sleeve && plan.parts.is_empty());
    // Evenly, an inch clear of the sides, 8 apart at the most: 58 in 8 gaps.
    assert_eq!(plan.tabs.len(), 9);
    near(plan.tabs[0].at.x, 1.0);
    near(plan.tabs[8].at.x, 59.0);
    near(plan.rod_length_in, 59.0);
    // An inch up to the rod, over it and down again, half an inch sewn in at both ends.
    assert_eq!((plan.tabs[0].finished_length_in, plan.tabs[0].cut_length_in), (1.0, 3.0));
    let words = plan.sentence(LengthUnit::Inches);
    assert!(words.contains("hang it by 9 tabs") && words.contains("cut 4 wide and 3, 3"), "{words}");
    assert!(words.contains("The label has no room."), "{words}");
    // Above 90 inches a sleeve comes in two by what it is kept clear of the sides.
    let choice = SleeveChoice { clear_in: 6.0, ..SleeveChoice::default() };
    let parts = |wide: f64| plan_of(&choice, &rectangle(wide, 60.0)).parts.len();
    assert_eq!((parts(89.0), parts(91.0)), (1, 2));
}

fn plan_of(choice: &SleeveChoice, outline: &[Point]) -> SleevePlan {
    plan(choice, outline, &[], 0.25).unwrap()
}

#[test]
fn tabs_sit_on_the_upper_edge_and_not_down_the_sides() {
    // Its sides fall much more steeply than 45 degrees.
    let trapezoid = points(&[(0.0, 0.0), (20.0, 0.0), (17.0, 14.0), (3.0, 14.0)]);
    let plan = hang(&trapezoid).unwrap();
    assert!(plan.tabs.len() >= 2);
    plan.tabs.iter().for_each(|tab| near(tab.at.y, 14.0));
    let across: Vec<f64> = plan.tabs.iter().map(|tab| tab.at.x).collect();
    assert!(across[across.len() - 1] - across[0] > 13.0, "{across:?}");
}

#[test]
fn two_prongs_are_held_by_two_parts_that_mirror_each_other() {
    let prongs = points(&[
        (0.0, 0.0),
        (40.0, 0.0),
        (40.0, 40.0),
        (28.0, 40.0),
        (28.0, 10.0),
        (10.0, 10.0),
        (10.0, 40.0),
        (0.0, 40.0),
    ]);
    let plan = hang(&prongs).unwrap();
    let [left, right] = plan.parts[..] else { panic!("{:?}", plan.parts) };
    near(left.finished_length_in, right.finished_length_in);
    near(plan.centre.x - left.top[1].x, right.top[0].x - plan.centre.x);
    assert_eq!(plan.above_in, 0.5);
}

#[test]
fn a_heavy_part_draws_the_centre_towards_it() {
    let outline = rectangle(40.0, 30.0);
    let figure = points(&[(30.0, 10.0), (38.0, 10.0), (38.0, 20.0), (30.0, 20.0)]);
    let figure = Region { outer: figure, holes: Vec::new() };
    let heavy = [HeavyPart { outline: figure, adds: 1.5 }];
    let at = centre(&outline, &heavy).unwrap();
    near(at.x, (1200.0 * 20.0 + 120.0 * 34.0) / 1320.0);
    let plan = plan(&SleeveChoice::default(), &outline, &heavy, 0.25).unwrap();
    assert!(plan.off_middle_in > 1.0);
    near(plan.parts[0].top[0].midpoint(plan.parts[0].top[1]).x, at.x);
    near(polygon::area(&outline), 1200.0);
    // What is cut out of it weighs nothing.
    let hole = points(&[(30.0, 10.0), (30.0, 20.0), (34.0, 20.0), (34.0, 10.0)]);
    let holed = Region { holes: vec![hole], ..heavy[0].outline.clone() };
    let at = centre(&outline, &[HeavyPart { outline: holed, adds: 1.5 }]).unwrap();
    near(at.x, (1200.0 * 20.0 + 60.0 * 36.0) / 1260.0);
}

#[test]
fn what_cannot_be_hung_is_refused() {
    // Narrower than its own clear sides: no sleeve and no tab.
    assert!(matches!(hang(&rectangle(1.5, 30.0)), Err(SleeveProblem::NoPlace { .. })));
    assert!(matches!(
        hang(&points(&[(0.0, 0.0), (9.0, 9.0), (9.0, 0.0), (0.0, 9.0)])),
        Err(SleeveProblem::Outline(_))
    ));
    for choice in [
        SleeveChoice { strip_width_in: Some(0.5), ..SleeveChoice::default() },
        SleeveChoice { up_deg: f64::NAN, ..SleeveChoice::default() },
        SleeveChoice { clear_in: -1.0, ..SleeveChoice::default() },
        SleeveChoice { label_in: [4.0, f64::INFINITY], ..SleeveChoice::default() },
    ] {
        assert!(plan(&choice, &rectangle(40.0, 30.0), &[], 0.25).is_err(), "{choice:?}");
    }
    let usual: SleeveChoice = serde_json::from_str("{}").unwrap();
    assert_eq!(usual, SleeveChoice::default());
}
