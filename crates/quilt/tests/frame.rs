//! The mitred border as one step: faces tile the outline, names and seams are as promised, layers
//! are counted as the trade counts them, and what can't be sewn leaves the table as it was.

mod common;

use common::{Hand, bars, check_tiling, frame, tiling_error};
use plane::{Line, Point, Turn, grow_outline, polygon};
use quilt::log::{Along, Bound, FrameStrip, Keep, Mark, Name, Step};
use quilt::table::Table;
use quilt::{Place, Rule};

const S: f64 = 0.25;

/// A piece sewn at random and cut to a convex polygon.
fn sewn(seed: u64) -> Hand {
    let mut hand = Hand::new(seed);
    for i in 0..60 {
        if i % 4 == 2 {
            hand.trim()
        } else {
            hand.add_piece()
        };
    }
    hand
}

#[test]
fn a_mitred_border_tiles_the_outline_round_pieces_sewn_at_random() {
    let (mut framed, mut worked_on) = (0, 0);
    for seed in 0..40 {
        let mut hand = sewn(seed);
        let (top, piece) = hand.table.piece().map(|(mark, top)| (mark, top.clone())).expect("a piece");
        if piece.sides().iter().any(|side| side.name().is_none())
            || !polygon::is_convex(&piece.outline_points(), 1e-9)
        {
            continue;
        }
        let corners = piece.outline_points();
        let widths: &[f64] = if seed % 2 == 0 { &[2.25] } else { &[1.5, 2.75, 2.0] };
        let (n, laid) = (corners.len(), hand.table.tops().len());
        let strips = bars(&mut hand, top, widths, 40.0);
        let Ok(mark) = hand.try_step(frame(strips.clone(), if seed % 3 == 0 { S } else { 0.0 })) else {
            continue;
        };
        framed += 1;
        let top = hand.table.piece().expect("a piece").1;
        check_tiling(top);
        assert_eq!(hand.table.tops().len(), laid, "every strip has come to the piece");
        let outer: Vec<Bound> = strips.iter().map(|strip| Bound::Raw(strip.outer)).collect();
        assert_eq!(top.outline(), outer, "the outer edges keep their names: seed {seed}");
        if seed % 2 == 0 {
            let inner = grow_outline(&corners, -S);
            let grown = grow_outline(&inner, 2.25);
            assert!((polygon::area(&top.outline_points()) - polygon::area(&grown)).abs() < 1e-7);
            let drawn = top.faces().len() - n;
            assert!(drawn > 3, "the centre shows");
        }
        for i in 0..n {
            let along = &top.seams()[&Name::new(mark, i as u16)];
            let (a, b) = top.seam_points(Name::new(mark, i as u16)).expect("a seam");
            assert!((along.sewn_in - a.distance(b)).abs() < 1e-9);
            let mitre = &top.seams()[&Name::new(mark, (n + i) as u16)];
            let (a, b) = top.seam_points(Name::new(mark, (n + i) as u16)).expect("a mitre");
            assert!((mitre.sewn_in - a.distance(b)).abs() < 1e-9);
            assert!(mitre.order > along.order, "the mitres come last");
        }
        // And a framed piece can be worked on like any other.
        let mut worked = 0;
        for round in 0..6 {
            worked += usize::from(match round % 3 {
                0 => hand.slice_and_rejoin(),
                1 => hand.add_piece(),
                _ => hand.trim(),
            });
            let (whole, parts) = (hand.table.piece().expect("a piece").1, hand.table.tops());
            assert!(parts.values().all(|top| tiling_error(top) < 1e-7), "seed {seed}, round {round}");
            assert!(whole.faces().len() > n);
        }
        worked_on += worked;
    }
    assert!(framed > 15, "only {framed} of 40 could be framed");
    assert!(worked_on > 2 * framed, "only {worked_on} later steps");
}

fn square(side: f64) -> Hand {
    let mut hand = Hand::new(0);
    (hand.table, hand.entries) = (Table::new(), Vec::new());
    let corners = [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)];
    hand.try_step(common::lay(&corners)).expect("a square");
    hand
}

// Seams that meet: one crossing another 5, a third 7 (common practice, no source).
#[test]
fn where_two_strips_and_a_mitre_meet_there_are_seven_layers() {
    let mut hand = square(10.5);
    let strips = bars(&mut hand, Mark(1), &[3.25], 4.0);
    hand.try_step(frame(strips, 0.0)).expect("it can be framed");
    let top = hand.table.piece().expect("a piece").1;
    let thick = quilt::layers::thickest(top, 3);
    assert_eq!(thick[0].layers, 7);
    let corners = [(0.25, 0.25), (10.25, 0.25), (10.25, 10.25), (0.25, 10.25)].map(|(x, y)| Point::new(x, y));
    for corner in corners {
        let there = thick.iter().filter(|thick| thick.at.distance(corner) < 0.1);
        assert_eq!(there.map(|thick| thick.seams.len()).collect::<Vec<_>>(), [3]);
    }
    for thick in thick.iter().filter(|thick| thick.layers > 5) {
        let near = corners.iter().any(|corner| thick.at.distance(*corner) < 0.75);
        assert!(near && thick.layers == 7, "{thick:?}");
    }
    assert_eq!(quilt::layers::Layers::of(top).at(Point::new(5.0, 5.0)), 1);
}

// Unequal mitre: the outer edge of side 1 gains (w2 + w1 cos A) / sin A (geometry).
#[test]
fn an_unequal_mitre_runs_to_where_the_trimmed_edges_cross() {
    let mut hand = square(10.5);
    let strips = bars(&mut hand, Mark(1), &[2.25, 4.25], 6.0);
    let mark = hand.try_step(frame(strips, S)).expect("it can be framed");
    let top = hand.table.piece().expect("a piece").1;
    check_tiling(top);
    // The bottom is 2 1/4 deep, the right 4 1/4: bound they show 2 and 4.
    let (from, to) = top.seam_points(Name::new(mark, 4 + 1)).expect("a mitre");
    let mitre = Line::through(from, to).expect("a length");
    assert!(from.distance(Point::new(10.25, 0.25)) < 1e-9);
    assert!(mitre.inside_by(Point::new(14.25, -1.75)).abs() < 1e-9, "through the bound corner");
    let bisector = Line::from_point(from, Turn::from_degrees(-45.0));
    assert!(bisector.inside_by(to).abs() > 0.5, "not the bisector");
}

#[test]
fn a_frame_that_cannot_be_sewn_leaves_the_table_as_it_was() {
    let mut hand = square(10.5);
    let strips = bars(&mut hand, Mark(1), &[3.25], 4.0);
    let before = hand.table.clone();
    let mut refused = |strips: Vec<FrameStrip>, aim_in: f64, rule: Rule| {
        let problem = hand.try_step(frame(strips, aim_in)).expect_err("it is refused");
        assert_eq!(problem.rule, rule, "{problem}");
        assert_eq!(hand.table, before);
        problem
    };
    refused(strips[..3].to_vec(), 0.0, Rule::NotEverySide);
    let mut swapped = strips.clone();
    swapped.swap(1, 2);
    refused(swapped, 0.0, Rule::NotEverySide);
    refused(Vec::new(), 0.0, Rule::Nonsense);
    let mut twice = strips.clone();
    twice[1].with = twice[0].with;
    refused(twice, 0.0, Rule::SameTop);
    let mut lost = strips.clone();
    lost[2].outer = Name::new(Mark(77), 0);
    refused(lost, 0.0, Rule::NoSuchSide);
    refused(strips.clone(), 5.0, Rule::UsedUp);
    let mut slid = strips.clone();
    slid[0].slide_in = 4.0;
    let problem = refused(slid, 0.0, Rule::Slid);
    assert!(problem.measured_in < -0.25, "slide it back: {problem}");
    // On a piece with blunted corners a short strip beside much wider ones comes to a point.
    let mut blunt = square(10.5);
    let along = Along::From { side: Name::new(Mark(1), 0), at_in: 9.0, turn: Turn::from_degrees(45.0) };
    blunt.try_step(Step::Cut { top: Mark(1), along, keep: Keep::Left }).expect("a corner off");
    let mut strips = bars(&mut blunt, Mark(1), &[1.0], 12.0);
    let wide = bars(&mut blunt, Mark(1), &[4.0], 12.0);
    strips[1] = wide[1];
    let problem = blunt.try_step(frame(strips, 0.0)).expect_err("it is refused");
    assert_eq!(problem.rule, Rule::MitresCross, "{problem}");
    assert!(problem.measured_in > 0.1, "{problem}");
    let short = bars(&mut hand, Mark(1), &[3.25], 0.5);
    let before = hand.table.clone();
    let problem = hand.try_step(frame(short, 0.0)).expect_err("it is too short");
    assert_eq!((problem.rule, problem.place), (Rule::Cover, Place::Side(Name::new(Mark(1), 0), None)));
    assert_eq!(hand.table, before);
}

#[test]
fn what_a_strip_has_beyond_its_mitres_allowance_is_an_offcut() {
    let mut hand = square(10.5);
    let strips = bars(&mut hand, Mark(1), &[3.25], 4.0);
    hand.try_step(frame(strips, 0.0)).expect("it can be framed");
    let long: f64 = 10.5 + 4.0 * 3.25;
    // The strip less its trapezoid with the mitres' allowances (square 10, strip 3 1/2 wide).
    let kept = 3.5 * (10.0 + 2.0 * 0.25 * 2.0_f64.sqrt() + (3.25 - 0.25));
    let off: f64 = hand.table.offcuts()[0].parts.iter().map(|part| polygon::area(&part.piece)).sum();
    assert!((off - 4.0 * (3.5 * long - kept)).abs() < 1e-9, "{off}");
}

// Bytes of a stored frame, so that a log with one opens for ever.
#[test]
fn a_stored_frame_reads_back_as_it_was() {
    let name = |by, no| Name::new(Mark(by), no);
    let strip = FrameStrip { onto: name(1, 0), with: name(2, 0), outer: name(2, 2), slide_in: 0.5 };
    let step = frame(vec![strip], 0.25);
    let text = serde_json::to_string(&step).expect("it is written");
    assert_eq!(
        text,
        r#"{"sew":{"frame":{"strips":[{"onto":"1a","with":"2a","outer":"2c","slide_in":0.5}],"allowance_in":0.25,"aim_in":0.25,"press":"over"}}}"#
    );
    assert_eq!(serde_json::from_str::<Step>(&text).expect("it is read"), step);
}
