//! Borders: the figures in print (the T numbers are those of the design notes' list of values), the
//! formulas for lengths, and steps that really sew on a piece.

mod common;

use common::{Hand, check_tiling, cloth, trued};
use plane::{Point, Region, Turn, grow_outline, intersection, lies_within, polygon};
use quilt::cloth::{Cloth, Runs};
use quilt::length::LengthUnit;
use quilt::log::{Mark, Step};
use quilt::stage::border::{
    BorderChoice, BorderPlan, Grain, PrintLies, border_sum, compare, every_order, plan, shows_sq_in,
};
use quilt::stage::{JoinKind, Order, Piece, PieceProblem, StripProblem};

const S: f64 = 0.25;

fn regular(sides: u32, edge: f64) -> Vec<Point> {
    let radius = edge / (2.0 * (std::f64::consts::PI / f64::from(sides)).sin());
    let corner = |i| Turn::from_degrees(360.0 * f64::from(i) / f64::from(sides)).vec() * radius;
    (0..sides).map(|i| Point::new(corner(i).x, corner(i).y)).collect()
}

fn rectangle(wide: f64, high: f64) -> Vec<Point> {
    Region::rectangle(wide, high).outer
}

fn choice(sewn_in: &[f64]) -> BorderChoice {
    let usual: BorderChoice =
        serde_json::from_str(r#"{"sewn_in":[2.5]}"#).expect("the rest has usual values");
    BorderChoice { sewn_in: sewn_in.to_vec(), ..usual }
}

#[track_caller]
fn near(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

// T88: mitre angles off square are 180 / n (geometry).
#[test]
fn mitres_of_regular_pieces_lean_as_the_table_says() {
    for (n, degrees) in [(3, 60.0), (4, 45.0), (5, 36.0), (6, 30.0), (8, 22.5), (12, 15.0)] {
        let piece = Piece::of_outline(&regular(n, 10.0)).unwrap();
        let sum = border_sum(&piece, 1.0, S).unwrap();
        for side in &sum.sides {
            near(side.start_off_square_deg, degrees, 1e-9);
            near(side.end_off_square_deg, degrees, 1e-9);
        }
        let plan = plan(&piece, &BorderChoice { order: Order::Mitred, ..choice(&[1.25]) }, None, S).unwrap();
        for mitre in &plan.mitres {
            near(mitre.own_off_square_deg, degrees, 1e-9);
            near(mitre.before_off_square_deg, degrees, 1e-9);
        }
    }
}

// T89, T90, T92 to T95 (geometry): edge, width, outer edge, outer perimeter, border area.
#[test]
fn borders_of_regular_pieces_are_as_long_and_large_as_the_table_says() {
    for (n, edge, w, outer, round, area) in [
        (6, 10.0, 4.0, 14.6188, 87.7128, 295.4256),
        (8, 10.0, 4.0, 13.3137, 106.5097, 373.0193),
        (4, 20.0, 4.0, 28.0, 112.0, 384.0),
        (3, 12.0, 3.0, 22.3923, 67.1769, 154.7654),
        (5, 10.0, 3.0, 14.3593, 71.7963, 182.6944),
        (12, 6.0, 2.0, 7.0718, 84.8616, 156.8616),
    ] {
        let sum = border_sum(&Piece::of_outline(&regular(n, edge)).unwrap(), w, S).unwrap();
        near(sum.outer_perimeter_in, round, 5e-5);
        near(sum.area_sq_in, area, 5e-5);
        sum.sides.iter().for_each(|side| near(side.outer_in, outer, 5e-5));
    }
}

// T89, T90, T92 (geometry): cut width, long and short raw edge.
#[test]
fn mitred_strips_are_cut_as_long_as_the_table_says() {
    for (n, edge, long, short) in
        [(6, 10.0, 15.4848, 10.2887), (8, 10.0, 14.0620, 10.3341), (4, 20.0, 29.2071, 20.2071)]
    {
        let sum = border_sum(&Piece::of_outline(&regular(n, edge)).unwrap(), 4.0, S).unwrap();
        near(sum.cut_wide_in, 4.5, 1e-12);
        for side in &sum.sides {
            near(side.cut_long_in, long, 5e-5);
            near(side.cut_short_in, short, 5e-5);
        }
    }
}

// T97 (geometry).
#[test]
fn a_rectangle_gains_the_area_that_the_table_says() {
    let sum = border_sum(&Piece::of_outline(&rectangle(20.0, 30.0)).unwrap(), 3.0, S).unwrap();
    near(sum.area_sq_in, 336.0, 1e-9);
    near(sum.outer_perimeter_in, 2.0 * (26.0 + 36.0), 1e-9);
}

// T98: quiltingboard t168402: a strip of X + 2Y + 1 for a quilt X and borders Y in all, mitred; 65 and
// 75 for borders of 1, 2 1/2 and 3 1/2 on 50 by 60. The long raw edge of a strip is the finished quilt
// and 2Y + 2s(1 + √2): the rule leaves 5/16 over where X is the raw size, and is 3/16 short where it is
// the finished one.
#[test]
fn the_rule_for_mitred_strips_holds_for_raw_sizes_only() {
    let total = 1.0 + 2.5 + 3.5;
    for (shrink, over) in [(S, 0.292_9), (0.0, -0.207_1)] {
        let quilt = Piece::of_outline(&grow_outline(&rectangle(50.0, 60.0), -shrink)).unwrap();
        let sum = border_sum(&quilt, total, S).unwrap();
        for (side, (x, rule)) in sum.sides.iter().zip([(50.0, 65.0), (60.0, 75.0)]) {
            near(x + 2.0 * total + 1.0, rule, 1e-12);
            near(rule - side.cut_long_in, over, 5e-5);
        }
    }
}

/// A five-sided piece whose sides and angles are all different.
fn odd() -> Piece {
    let corners = [(0.0, 0.0), (19.0, 1.5), (23.0, 13.0), (9.0, 22.0), (-4.0, 11.0)];
    Piece::of_outline(&corners.map(|(x, y)| Point::new(x, y))).unwrap()
}

// `P − 2s Σ cot A + (W − 2s) Σ 1/sin A` (geometry): for every order in which strips end in line with
// their neighbours. Mitred, they end on their mitres, and the sum is another.
#[test]
fn every_sewn_order_takes_the_same_length_in_all_but_not_the_same_longest_strip() {
    let piece = odd();
    let (sewn, corners) = (3.25, (0..5).map(|i| piece.corner_deg(i).to_radians()));
    let (cot, cosec) =
        corners.fold((0.0, 0.0), |(cot, cosec), a: f64| (cot + 1.0 / a.tan(), cosec + 1.0 / a.sin()));
    let round = polygon::perimeter(&piece.corners());
    let cut = sewn + S;
    let expected = round - 2.0 * S * cot + (cut - 2.0 * S) * cosec;
    let mut longest = Vec::new();
    for (order, plan) in every_order(&piece, &choice(&[sewn]), None, S) {
        let plan = plan.unwrap();
        let total = if order == Order::Mitred {
            let half = (0..5).map(|i| 1.0 / (piece.corner_deg(i).to_radians() / 2.0).tan());
            round - 2.0 * S * half.sum::<f64>()
        } else {
            expected
        };
        near(plan.seam_total_in, total, 1e-9);
        longest.push(plan.cut_longest_in);
    }
    assert!(longest.iter().any(|long| (long - longest[0]).abs() > 0.5), "{longest:?}");
}

// T92: a square of 20 (finished), 4 wide, mitred: strips 4 1/2 wide (cut), 29.2071 and 20.2071 long
// (geometry), area (29.2071 + 20.2071) / 2 · 4 1/2 each. Sewn straight on (arithmetic): raw sides of
// 20 1/2; apart first two of 20 1/2 and two of 28 1/2; in turn 20 1/2, twice 24 1/2, 28 1/2; with the first
// seam sewn in part all four 24 1/2.
#[test]
fn the_orders_stand_side_by_side() {
    let raw = Piece::of_outline(&rectangle(20.5, 20.5)).unwrap();
    let rows = compare(&raw, &choice(&[4.25]), None, S);
    assert_eq!(rows.iter().map(|row| row.order).collect::<Vec<_>>(), Order::ALL);
    let expected = [
        (vec![20.5, 20.5, 28.5, 28.5], 98.0 * 4.5),
        (vec![20.5, 24.5, 24.5, 28.5], 98.0 * 4.5),
        (vec![24.5; 4], 98.0 * 4.5),
        (vec![29.2071; 4], 4.0 * 4.5 * (29.2071 + 20.2071) / 2.0),
    ];
    for (row, (bars, area)) in rows.iter().zip(&expected) {
        let mut long: Vec<f64> = row.strips.iter().map(|strip| strip.cut_bar_in).collect();
        long.sort_by(f64::total_cmp);
        long.iter().zip(bars).for_each(|(found, long)| near(*found, *long, 1e-4));
        assert!(row.strips.iter().all(|strip| (strip.cut_wide_in - 4.5).abs() < 1e-9));
        near(row.cut_sq_in, *area, 1e-3);
        assert_eq!((row.joins, row.fits, row.short_in, &row.refused), (None, None, 0.0, &None));
    }
    assert_eq!(
        rows.iter().map(|row| (row.mitres, row.partial_seams)).collect::<Vec<_>>(),
        [(0, 0), (0, 0), (0, 1), (4, 0)]
    );
    // A cloth of 4 1/2 by 100 holds 98 in a row; four bars of the mitred strips take 116.83.
    let (narrow, longer) = (cloth(4.5, 100.0, Runs::AnyWay), cloth(4.5, 117.0, Runs::AnyWay));
    let asked = BorderChoice { join: JoinKind::Never, ..choice(&[4.25]) };
    let rows = compare(&raw, &asked, Some(&narrow), S);
    let fits: Vec<Option<bool>> = rows.iter().map(|row| row.fits).collect();
    assert_eq!(fits, [Some(true), Some(true), Some(true), Some(false)]);
    assert!(rows[3].short_in > 0.0);
    let rows = compare(&raw, &asked, Some(&longer), S);
    assert!(rows.iter().all(|row| row.fits == Some(true) && row.joins == Some(0)), "{rows:?}");
    near(rows[3].cut_sq_in, expected[3].1, 1e-3);
    // Straight strips of 98 don't fit in 97 1/2: half an inch is missing.
    let short = cloth(4.5, 97.5, Runs::AnyWay);
    let rows = compare(&raw, &asked, Some(&short), S);
    for row in &rows[..3] {
        assert_eq!(row.fits, Some(false), "{:?}", row.order);
        near(row.short_in, 0.5, 1e-9);
    }
    // What can't be sewn says why in its row.
    let rows = compare(&raw, &choice(&[40.0]), None, S);
    assert!(rows.iter().all(|row| row.refused.as_ref().is_some_and(|why| why.contains("wider than"))));
}

#[test]
fn a_border_is_told_in_the_order_of_sewing() {
    let asked = BorderChoice { trimmed_in: vec![4.0], ..choice(&[4.25]) };
    let square = Piece::of_outline(&rectangle(20.5, 20.5)).unwrap();
    let words = plan(&square, &asked, None, S).unwrap().sentence(LengthUnit::Inches);
    assert!(
        words.starts_with("Border: sides that are no neighbours first, then those between. Sewn"),
        "{words}"
    );
    assert!(words.contains("\nSide 1: cut 20 1/2 by 4 1/2.\nSide 3"), "{words}");
    assert!(
        words.contains("Sewn 4 1/4 wide from the seam, trimmed to 4, it shows 3 3/4 when bound. 441 square"),
        "{words}"
    );
    let mitred = BorderChoice { order: Order::Mitred, ..asked.clone() };
    let words = plan(&square, &mitred, None, S).unwrap().sentence(LengthUnit::Inches);
    assert!(words.contains("Side 1: cut 29 1/4 by 4 1/2, its ends at 45 and 45 degrees."), "{words}");
    let short = cloth(4.5, 97.5, Runs::AnyWay);
    let never = BorderChoice { join: JoinKind::Never, ..asked };
    let words = plan(&square, &never, Some(&short), S).unwrap().sentence(LengthUnit::Inches);
    assert!(words.contains("no room for all strips: 1/2 short along them."), "{words}");
}

#[test]
fn sides_apart_come_first_and_are_the_longest_in_total() {
    let plan = plan(&odd(), &choice(&[3.25]), None, S).unwrap();
    let order: Vec<usize> = plan.strips.iter().map(|strip| strip.side).collect();
    let piece = odd();
    let long: Vec<f64> = piece.sides.iter().map(quilt::stage::PieceSide::length_in).collect();
    // All pairs of sides that are no neighbours, by hand.
    let pairs = [(0, 2), (0, 3), (1, 3), (1, 4), (2, 4)];
    let best = pairs.into_iter().max_by(|a, b| (long[a.0] + long[a.1]).total_cmp(&(long[b.0] + long[b.1])));
    assert_eq!((order[0], order[1]), best.unwrap());
    let mut all = order.clone();
    all.sort_unstable();
    assert_eq!(all, [0, 1, 2, 3, 4]);
    // On a rectangle the long sides come first.
    let tall = Piece::of_outline(&rectangle(20.0, 30.0)).unwrap();
    let sides = |plan: BorderPlan| plan.strips.iter().map(|strip| strip.side).collect::<Vec<_>>();
    assert_eq!(sides(quilt::stage::border::plan(&tall, &choice(&[3.0]), None, S).unwrap()), [1, 3, 0, 2]);
}

// A border trimmed to 2 from its seam shows 1 3/4 when bound (the design notes, section 1.4).
#[test]
fn the_four_widths_of_a_border_differ() {
    let asked = BorderChoice { trimmed_in: vec![2.0], ..choice(&[2.5]) };
    let plan = plan(&odd(), &asked, None, S).unwrap();
    assert_eq!((plan.sewn_in[0], plan.trimmed_in[0], plan.bound_in[0]), (2.5, 2.0, 1.75));
    plan.strips.iter().for_each(|strip| near(strip.cut_wide_in, 2.75, 1e-12));
    // What shows, against strips 1 3/4 wide all round: P w + w² Σ cot(A/2) of what shows within.
    let within = Piece::of_outline(&grow_outline(&odd().corners(), -S)).unwrap();
    let cot: f64 = (0..5).map(|i| 1.0 / (within.corner_deg(i).to_radians() / 2.0).tan()).sum();
    let area = 1.75 * polygon::perimeter(&within.corners()) + 1.75 * 1.75 * cot;
    near(shows_sq_in(&plan, &odd()), area, 1e-9);
}

// The outer edge of side 1 gains (w2 + w1 cos A) / sin A, and the mitre isn't the bisector (geometry).
#[test]
fn an_unequal_mitre_gains_what_the_formula_says() {
    let piece = odd();
    let widths = [2.0, 3.5, 2.75, 3.0, 2.5];
    let asked = BorderChoice { order: Order::Mitred, ..choice(&widths) };
    let plan = plan(&piece, &asked, None, S).unwrap();
    for mitre in &plan.mitres {
        let a = mitre.corner_deg.to_radians();
        let (w1, w2) = (widths[(mitre.corner + 4) % 5], widths[mitre.corner]);
        near(mitre.before_gains_in, (w2 + w1 * a.cos()) / a.sin(), 1e-9);
        near(mitre.own_gains_in, (w1 + w2 * a.cos()) / a.sin(), 1e-9);
        let bisector = 90.0 - mitre.corner_deg / 2.0;
        assert!((mitre.own_off_square_deg - bisector).abs() > 0.5, "{mitre:?}");
        near(mitre.own_off_square_deg + mitre.before_off_square_deg, 2.0 * bisector, 1e-9);
    }
}

/// Sews a plan on a piece and holds the table against what the plan says.
fn sew(hand: &mut Hand, mark: Mark, piece: &Piece, plan: &BorderPlan, steps: Vec<Step>) {
    let first = hand.next_mark();
    for (i, step) in steps.into_iter().enumerate() {
        let done = hand.try_step(step.clone());
        assert!(done.is_ok(), "{:?}, step {i} of {:?}: {} {step:?}", plan.order, first, done.unwrap_err());
    }
    let top = &hand.table.tops()[&mark];
    check_tiling(top);
    let corners = top.outline_points();
    assert_eq!(corners.len(), piece.sides.len(), "{:?}: {:?}", plan.order, top.outline());
    for corner in &plan.raw_corners {
        let off = corners.iter().map(|p| p.distance(*corner)).fold(f64::INFINITY, f64::min);
        assert!(off < 1e-7, "{:?}: {off} off at {corner:?}", plan.order);
    }
    assert!(top.seams().values().all(|seam| seam.open.is_none()));
}

#[test]
fn planned_steps_sew_every_order_on_pieces_sewn_at_random() {
    let length = cloth(44.0, 120.0, Runs::AnyWay);
    let (mut sewn, mut joins) = (0, 0);
    for seed in 0..30 {
        let Some((hand, mark)) = trued(seed) else { continue };
        let piece = Piece::of(mark, &hand.table.tops()[&mark]).unwrap();
        for (k, order) in Order::ALL.into_iter().enumerate() {
            let sewn_in: Vec<f64> = match (seed + k as u64) % 3 {
                0 => vec![1.5],
                1 => vec![2.25],
                _ => (0..piece.sides.len()).map(|i| 1.75 + 0.125 * i as f64).collect(),
            };
            let trimmed_in: Vec<f64> =
                if seed % 2 == 0 { Vec::new() } else { sewn_in.iter().map(|width| width - 0.25).collect() };
            let grain = if seed % 4 < 2 { Grain::Lengthwise } else { Grain::Crosswise };
            let asked = BorderChoice { order, trimmed_in, grain, ..choice(&sewn_in) };
            let plan = match plan(&piece, &asked, Some(&length), S) {
                Ok(plan) => plan,
                Err(
                    StripProblem::ComesToAPoint { .. }
                    | StripProblem::SideTooShort { .. }
                    | StripProblem::Swallowed { .. },
                ) => continue,
                Err(problem) => panic!("seed {seed}: {problem}"),
            };
            let mut hand = hand.clone();
            let steps = plan.steps(&piece, &length, hand.next_mark()).expect("the cloth is long enough");
            sew(&mut hand, mark, &piece, &plan, steps);
            joins += plan.cutting.as_ref().unwrap().joins;
            sewn += 1;
        }
    }
    assert!(sewn > 40, "{sewn} sewn, {joins} joined");
}

/// The odd piece as one patch on a table of its own.
fn laid() -> (Hand, Mark) {
    let mut hand = Hand::new(0);
    (hand.table, hand.entries) = (quilt::table::Table::new(), Vec::new());
    let corners: Vec<(f64, f64)> = odd().corners().iter().map(|p| (p.x, p.y)).collect();
    let mark = hand.try_step(common::lay(&corners)).expect("a patch");
    (hand, mark)
}

/// Joined where the cloth is short: every bit lies in the cloth, no two overlap, and joins keep an
/// eighth of the strip off its middle.
#[test]
fn strips_are_joined_away_from_the_middle_where_the_cloth_is_short() {
    for join in [JoinKind::Straight, JoinKind::Diagonal] {
        let short = cloth(44.0, 17.0, Runs::AnyWay);
        let (hand, mark) = laid();
        let piece = Piece::of(mark, &hand.table.tops()[&mark]).unwrap();
        for (order, plan) in every_order(&piece, &BorderChoice { join, ..choice(&[1.75]) }, Some(&short), S) {
            let plan = plan.unwrap();
            let cutting = plan.cutting.as_ref().unwrap();
            assert!(cutting.fits && cutting.joins > 0, "{order:?}: {cutting:?}");
            check_cutting(cutting, &short);
            for strip in &cutting.strips {
                let long = plan.strips.iter().find(|s| s.side == strip.side).unwrap().cut_bar_in;
                for at in &strip.joins_at_in {
                    assert!((at - long / 2.0).abs() >= long / 8.0 - 1e-9, "{at} of {long}");
                }
            }
            let mut hand = hand.clone();
            let steps = plan.steps(&piece, &short, hand.next_mark()).unwrap();
            sew(&mut hand, mark, &piece, &plan, steps);
        }
        let never = BorderChoice { join: JoinKind::Never, ..choice(&[1.75]) };
        let plan = plan(&piece, &never, Some(&short), S).unwrap();
        let cutting = plan.cutting.as_ref().unwrap();
        let long = plan.strips.iter().map(|strip| strip.cut_bar_in).fold(0.0, f64::max);
        assert!(!cutting.fits && cutting.joins == 0 && long > 17.0);
        let worst = cutting.strips.iter().map(|strip| strip.missing_in).fold(0.0, f64::max);
        near(worst, long - 17.0, 1e-6);
        assert_eq!(plan.steps(&piece, &short, Mark(900)), None);
    }
}

/// Bits against the second kernel.
fn check_cutting(cutting: &quilt::stage::Cutting, cloth: &Cloth) {
    let bits: Vec<_> = cutting.strips.iter().flat_map(|strip| &strip.bits).collect();
    let laid: Vec<Region> =
        bits.iter().map(|bit| Region { outer: bit.at.apply_all(&bit.cut), holes: Vec::new() }).collect();
    for (bit, at) in bits.iter().zip(&laid) {
        assert!(lies_within(&bit.cut, &cloth.outline, bit.at), "{at:?}");
        for flaw in &cloth.flaws {
            assert!(intersection(at, flaw).iter().map(Region::area).sum::<f64>() < 1e-7);
        }
    }
    for (i, one) in laid.iter().enumerate() {
        for other in &laid[i + 1..] {
            let both: f64 = intersection(one, other).iter().map(Region::area).sum();
            assert!(both < 1e-7, "{both} square inches are cut twice");
        }
    }
}

#[test]
fn a_print_with_a_top_points_outward_on_every_side_or_the_plan_says_by_how_much_it_cannot() {
    let top = Turn::from_degrees(90.0);
    let piece = odd();
    let asked = BorderChoice { print: PrintLies::Outward, join: JoinKind::Never, ..choice(&[3.25]) };
    // Strips lie across the print: 44 inches wide, a strip of 3 1/2 takes a band.
    let wide = cloth(44.0, 14.0, Runs::OneWay(top));
    let narrow = cloth(44.0, 9.0, Runs::OneWay(top));
    for (order, plan) in every_order(&piece, &asked, Some(&wide), S) {
        let plan = plan.unwrap();
        let cutting = plan.cutting.as_ref().unwrap();
        assert!(cutting.fits, "{order:?}: {cutting:?}");
        check_cutting(cutting, &wide);
        for strip in &cutting.strips {
            let lies = plan.strips.iter().find(|s| s.side == strip.side).unwrap().lies;
            // From the print's top on the cloth to the strip, to where it lies.
            let on_piece = top.then(strip.bits[0].at.turn.inverse()).then(lies.turn).vec();
            let out = piece.sides[strip.side].line.normal.opposite().vec();
            near(on_piece.dot(out), 1.0, 1e-9);
        }
    }
    let (mut fit, mut fail) = (0, 0);
    for (_, plan) in every_order(&piece, &asked, Some(&narrow), S) {
        let cutting = plan.unwrap().cutting.unwrap();
        check_cutting(&cutting, &narrow);
        if cutting.fits {
            fit += 1;
        } else {
            fail += 1;
        }
        assert_eq!(cutting.fits, cutting.missing_in == 0.0);
    }
    assert!(fail > 0, "{fit} orders fit in two bands");
}

/// A mitred strip is longer outside, and head to foot two of them lie closer: with a top they can't.
#[test]
fn trapezoids_of_a_one_way_print_cannot_lie_head_to_foot() {
    let piece = Piece::of_outline(&rectangle(12.0, 12.0)).unwrap();
    let up = Turn::QUARTER;
    let asked =
        |print| BorderChoice { print, order: Order::Mitred, join: JoinKind::Never, ..choice(&[4.25]) };
    // Four strips 4 1/2 wide in two bands: two of them take 38.4 end to end, 34 head to foot.
    let fits = |print, long: f64| {
        let cloth = cloth(long, 9.001, Runs::OneWay(up));
        let asked = BorderChoice { grain: Grain::Crosswise, ..asked(print) };
        plan(&piece, &asked, Some(&cloth), S).unwrap().cutting.unwrap().fits
    };
    let one = plan(&piece, &asked(PrintLies::Outward), None, S).unwrap().cut_longest_in;
    assert!(fits(PrintLies::Outward, 2.0 * one + 0.01));
    assert!(!fits(PrintLies::Outward, 2.0 * one - 0.1));
    assert!(fits(PrintLies::ByGrain, 2.0 * one - 4.0));
}

#[test]
fn strips_keep_off_flaws_and_holes_of_an_odd_cloth() {
    let mut odd_cloth = cloth(44.0, 30.0, Runs::AnyWay);
    odd_cloth.outline.outer[1].y = 3.0;
    odd_cloth.outline.outer[2].x = 40.0;
    let flaw = [(10.0, 8.0), (13.0, 8.0), (13.0, 11.0), (10.0, 11.0)].map(|(x, y)| Point::new(x, y));
    odd_cloth.flaws = vec![Region { outer: flaw.to_vec(), holes: Vec::new() }];
    let plan = plan(&odd(), &BorderChoice { grain: Grain::Crosswise, ..choice(&[2.5]) }, Some(&odd_cloth), S);
    let cutting = plan.unwrap().cutting.unwrap();
    assert!(cutting.fits, "{cutting:?}");
    check_cutting(&cutting, &odd_cloth);
}

#[test]
fn borders_that_make_no_sense_are_refused_with_the_numbers() {
    let piece = odd();
    let refused = |asked: &BorderChoice| plan(&piece, asked, None, S).expect_err("it is refused");
    let wide = refused(&choice(&[40.0]));
    assert!(matches!(wide, StripProblem::TooWide { side: 1, width_in, .. } if width_in == 40.0), "{wide}");
    assert!(wide.to_string().contains("wider than the whole piece"), "{wide}");
    assert!(matches!(refused(&choice(&[0.25])), StripProblem::TooNarrow { side: 1, .. }));
    assert!(matches!(refused(&choice(&[f64::NAN])), StripProblem::TooNarrow { .. }));
    assert!(matches!(refused(&choice(&[2.0, 3.0])), StripProblem::Widths { given: 2, sides: 5 }));
    assert!(matches!(refused(&choice(&[])), StripProblem::Widths { given: 0, sides: 5 }));
    let trimmed = BorderChoice { trimmed_in: vec![3.0], ..choice(&[2.5]) };
    assert!(matches!(refused(&trimmed), StripProblem::TrimmedWider { side: 1, .. }));
    let side = BorderChoice { first_side: 5, ..choice(&[2.5]) };
    assert!(matches!(refused(&side), StripProblem::NoSide { given: 6, sides: 5 }));
    let bow = [(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)].map(|(x, y)| Point::new(x, y));
    assert!(matches!(Piece::of_outline(&bow), Err(PieceProblem::Outline(_))));
    let ell = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 4.0), (2.0, 2.0), (0.0, 2.0)];
    let inward = Piece::of_outline(&ell.map(|(x, y)| Point::new(x, y))).expect_err("it is refused");
    assert!(inward.to_string().contains("turns inward by 90 degrees"), "{inward}");
    let mut hand = laid().0;
    let mark = hand.try_step(common::lay(&ell)).unwrap();
    let on_table = Piece::of(mark, &hand.table.tops()[&mark]).expect_err("it is refused");
    assert!(matches!(on_table, PieceProblem::Inward { .. }));
    let stub =
        [(0.0, 0.0), (12.0, 0.0), (12.2, 0.1), (12.2, 12.0), (0.0, 12.0)].map(|(x, y)| Point::new(x, y));
    let piece = Piece::of_outline(&stub).unwrap();
    let short = plan(&piece, &choice(&[2.0]), None, S);
    assert!(matches!(short, Err(StripProblem::Swallowed { side: 2, by: 1, .. })), "{short:?}");
}
