//! No step leaves sides that run on in one line, and a step that is refused changes nothing.

mod common;

use common::{Hand, lay, sew, tiling_error};
use plane::{Turn, polygon};
use quilt::log::{Along, Bound, End, Keep, Mark, Measured, Name, Sewing, Step};
use quilt::table::{Table, Top};
use quilt::{Place, Problem, Rule};

fn side(mark: u32, no: u16) -> Name {
    Name::new(Mark(mark), no)
}

fn square(width: f64) -> Step {
    lay(&[(0.0, 0.0), (width, 0.0), (width, width), (0.0, width)])
}

fn ell() -> Step {
    lay(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (2.0, 4.0), (2.0, 2.0), (0.0, 2.0)])
}

fn cut(side: Name, at_in: f64, degrees: f64, keep: Keep) -> Step {
    let along = Along::From { side, at_in, turn: Turn::from_degrees(degrees) };
    Step::Cut { top: Mark(1), along, keep }
}

/// Applies steps by their position, from mark 1; all but the last must hold.
fn steps(steps: &[Step]) -> (Table, Result<(), Problem>) {
    let mut table = Table::new();
    let mut last = Ok(());
    for (i, step) in steps.iter().enumerate() {
        last.expect("a step that can be done");
        last = table.apply(Mark(i as u32 + 1), step);
    }
    (table, last)
}

/// Every run of the outline and of every face has its corner, and the faces fill the outline.
fn assert_sound(top: &Top) {
    assert_eq!(top.outline_points().len(), top.outline().len(), "{:?}", top.outline());
    for face in top.faces().values() {
        assert_eq!(top.face_points(face).len(), face.around().len(), "patch {}", face.patch);
    }
    assert!(tiling_error(top) < 1e-9);
    for one in top.sides() {
        let line = top.line(one.bound).expect("a line");
        assert!(line.inside_by(one.from).abs() < 1e-9 && line.inside_by(one.to).abs() < 1e-9, "{one:?}");
    }
}

#[test]
fn flanks_in_line_with_their_neighbours_become_one_side() {
    // Just as wide as the side, and by less than can be eased narrower.
    for width in [4.0, 4.0 - 1.0 / 32.0] {
        let patch = lay(&[(0.0, 0.0), (width, 0.0), (width, 2.0), (0.0, 2.0)]);
        let (table, sewn) = steps(&[square(4.0), patch, sew(side(1, 2), side(2, 0), [false, false])]);
        sewn.expect("it covers");
        let top = table.top(Mark(1)).expect("the piece");
        assert_sound(top);
        assert_eq!(top.outline().len(), 4);
        assert!((polygon::area(&top.outline_points()) - 22.0).abs() < 1e-9);
    }
}

#[test]
fn a_slice_in_line_with_a_side_gives_both_parts_whole_edges() {
    let (table, sliced) = steps(&[ell(), cut(side(1, 4), 0.0, 0.0, Keep::Both)]);
    sliced.expect("it can be sliced");
    for (mark, area) in [(1, 8.0), (2, 4.0)] {
        let top = table.top(Mark(mark)).expect("a part");
        assert_sound(top);
        assert_eq!(top.outline().len(), 4);
        assert!((polygon::area(&top.outline_points()) - area).abs() < 1e-9);
    }
    assert!(table.top(Mark(1)).is_some_and(|top| top.has_side(side(2, 0))));
    assert!(table.top(Mark(2)).is_some_and(|top| top.has_side(side(2, 1))));
}

#[test]
fn a_trim_in_line_with_a_side_keeps_the_sides_name() {
    let (table, trimmed) = steps(&[ell(), cut(side(1, 4), 0.0, 0.0, Keep::Left)]);
    trimmed.expect("it can be trimmed");
    let top = table.top(Mark(1)).expect("the piece");
    assert_sound(top);
    let names = [0, 1, 4, 5].map(|no| Bound::Raw(side(1, no)));
    assert_eq!(top.outline(), names);
}

#[test]
fn a_cut_that_hardly_leans_is_refused_with_its_side() {
    for degrees in [0.000_001, 0.001, 0.9] {
        let steps = [square(4.0), cut(side(1, 0), 2.0, degrees, Keep::Left)];
        let mut table = Table::new();
        table.apply(Mark(1), &steps[0]).expect("a square");
        let before = table.clone();
        let problem = table.apply(Mark(2), &steps[1]).expect_err("it hardly leans");
        assert_eq!(table, before);
        if degrees < 0.01 {
            // Within 1/1024 of the side's own line it is the side: nothing is cut off.
            assert_eq!(problem.rule, Rule::CutMisses, "{degrees}");
        } else {
            assert_eq!(problem.rule, Rule::InLine, "{degrees}");
            assert!(matches!(problem.place, Place::Side(..)) && problem.measured_in < 1.0);
        }
    }
    let (_, cut) = steps(&[square(4.0), cut(side(1, 0), 2.0, 1.1, Keep::Left)]);
    cut.expect("1.1 degrees can be cut");
}

#[test]
fn what_is_kept_beyond_a_side_ends_at_the_cut() {
    let along = Along::Side(side(1, 4));
    let step = Step::Cut { top: Mark(1), along, keep: Keep::Right };
    let (table, kept) = steps(&[ell(), step]);
    kept.expect("it can be cut");
    let top = table.top(Mark(1)).expect("the arm");
    assert_sound(top);
    assert!((polygon::area(&top.outline_points()) - 4.0).abs() < 1e-9);
    assert!(top.has_side(side(2, 0)) && !top.has_side(side(1, 4)));
}

#[test]
fn a_notched_patch_that_is_refused_leaves_the_square_whole() {
    let notched = lay(&[(0.0, 0.0), (9.0, 0.0), (9.0, 1.0), (5.5, 1.5), (9.0, 2.0), (9.0, 3.0), (0.0, 3.0)]);
    for flush in [[false, false], [true, true], [true, false], [false, true]] {
        for no in 0..7 {
            let mut table = Table::new();
            table.apply(Mark(1), &square(4.0)).expect("a square");
            table.apply(Mark(2), &notched).expect("the patch");
            let before = table.clone();
            let done = table.apply(Mark(3), &sew(side(1, 1), side(2, no), flush));
            match done {
                Ok(()) => assert_sound(table.top(Mark(1)).expect("the piece")),
                Err(_) => assert_eq!(table, before, "side {no}, {flush:?}"),
            }
        }
    }
}

/// A step of any kind at all, with numbers in and out of range.
fn wild_step(hand: &mut Hand) -> Step {
    let sides: Vec<Name> =
        hand.table.tops().values().flat_map(Top::sides).filter_map(|side| side.name()).collect();
    let mut pick = || sides[hand.chance.below(sides.len())];
    let (onto, with) = (pick(), pick());
    let (top, _) = hand.table.piece().expect("a piece");
    let lean = [0.0, 1e-6, 0.02, 0.5, 1.5, 30.0, 90.0, -45.0, 179.9];
    let turn = Turn::from_degrees(lean[hand.chance.below(lean.len())]);
    let at_in = hand.chance.between(-0.5, 4.0);
    let keep = [Keep::Left, Keep::Right, Keep::Both][hand.chance.below(3)];
    let flush = [hand.chance.below(2) == 0, hand.chance.below(2) == 0];
    match hand.chance.below(8) {
        0 => Step::Cut { top, along: Along::Side(onto), keep },
        1 | 2 => Step::Cut { top, along: Along::From { side: onto, at_in, turn }, keep },
        3 => {
            let line = hand.table.top_with_side(onto).and_then(|top| hand.table.top(top));
            let line = line.and_then(|top| top.line(Bound::Raw(onto))).expect("a line");
            let line = line.inward(hand.chance.between(-0.3, 0.3));
            let top = hand.table.top_with_side(onto).expect("its top");
            Step::Measure { top, sides: vec![Measured { side: onto, line }], shown: None }
        }
        4 | 5 => match sew(onto, with, flush) {
            Step::Sew(Sewing::Join { onto, with, allowance_in, flush, press, .. }) => {
                let stop = (hand.chance.below(3) == 0).then_some((End::End, at_in.abs()));
                let slide_in = [0.0, 0.25, -0.4][hand.chance.below(3)];
                Step::Sew(Sewing::Join { onto, with, slide_in, allowance_in, stop, flush, press })
            }
            other => other,
        },
        6 => ell(),
        _ => square(hand.chance.between(2.0, 5.0)),
    }
}

#[test]
fn whatever_is_tried_tops_stay_sound_and_refusals_change_nothing() {
    let (mut done, mut refused) = (0, 0);
    for seed in 0..60 {
        let mut hand = Hand::new(seed);
        for i in 0..60 {
            let step = wild_step(&mut hand);
            let before = hand.table.clone();
            if hand.try_step(step.clone()).is_ok() {
                done += 1;
                for top in hand.table.tops().values() {
                    assert_eq!(top.outline_points().len(), top.outline().len(), "seed {seed}, {i}: {step:?}");
                    assert!(
                        tiling_error(top) < 1e-6,
                        "seed {seed}, step {i}: {step:?} {}",
                        tiling_error(top)
                    );
                }
            } else {
                refused += 1;
                assert_eq!(hand.table, before, "seed {seed}, step {i}: {step:?}");
            }
        }
    }
    assert!(done > 500 && refused > 500, "{done} done, {refused} refused");
}
