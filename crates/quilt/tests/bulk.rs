//! Nine layers on tops that were sewn step by step: one seam 3, each further one through the same
//! place two more (common practice, no source).

mod common;

use common::{lay, sew};
use plane::{Point, Turn};
use quilt::Rule;
use quilt::layers::{Layers, thickest};
use quilt::limits::audit;
use quilt::log::{Along, Keep, Mark, Name, Press, Sewing, Step};
use quilt::remedy::{Remedy, remedies};
use quilt::table::{Table, Top};
use quilt::wish::Limits;

fn rectangle(width: f64, height: f64) -> Step {
    lay(&[(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)])
}

fn apply(table: &mut Table, steps: &mut Vec<Step>, step: Step) -> Mark {
    steps.push(step);
    let mark = Mark(steps.len() as u32);
    table.apply(mark, &steps[steps.len() - 1]).unwrap_or_else(|problem| panic!("step {mark}: {problem}"));
    mark
}

fn piece(table: &Table) -> &Top {
    table.piece().expect("a piece").1
}

/// Cuts the piece along a line, what lies left of it stays, and sews a strip onto the cut.
fn cap(table: &mut Table, steps: &mut Vec<Step>, past: Point, turn: Turn) {
    let direction = turn.vec();
    // Where the line comes into the piece, as the maker reads it off a side.
    let entry = piece(table).sides().into_iter().find_map(|side| {
        let along = side.to - side.from;
        let det = along.cross(direction);
        let at = (past - side.from).cross(direction) / det;
        (det > 0.0 && (0.0..=1.0).contains(&at)).then_some((side, at * along.length()))
    });
    let (side, at_in) = entry.expect("the line runs through the piece");
    let own = Turn::towards(side.to - side.from).expect("a length");
    let along = Along::From { side: side.name().expect("a raw edge"), at_in, turn: own.inverse().then(turn) };
    let top = table.piece().expect("a piece").0;
    let cut = apply(table, steps, Step::Cut { top, along, keep: Keep::Left });
    let strip = apply(table, steps, rectangle(14.0, 3.0));
    apply(table, steps, sew(Name::new(cut, 0), Name::new(strip, 0), [true, true]));
}

/// Two patches, a third across both, and two corners cut off past the crossing: four seams that
/// come within a quarter inch of 2 3/4, 2 3/4.
fn four_seams_through_one_place() -> (Table, Vec<Step>) {
    let (mut table, mut steps) = (Table::new(), Vec::new());
    let first = apply(&mut table, &mut steps, rectangle(3.0, 3.0));
    let second = apply(&mut table, &mut steps, rectangle(3.0, 3.0));
    apply(&mut table, &mut steps, sew(Name::new(first, 1), Name::new(second, 3), [true, true]));
    let across = apply(&mut table, &mut steps, rectangle(7.0, 3.0));
    apply(&mut table, &mut steps, sew(Name::new(first, 2), Name::new(across, 0), [true, true]));
    for degrees in [135.0, 170.0] {
        let turn = Turn::from_degrees(degrees);
        // The seam line comes to lie a little beyond the crossing, its allowance over it.
        let past = Point::new(2.75, 2.75) - turn.left().vec() * 0.27;
        cap(&mut table, &mut steps, past, turn);
    }
    (table, steps)
}

#[test]
fn four_seams_through_one_place_make_nine_layers_which_are_refused() {
    let (table, _) = four_seams_through_one_place();
    let thick = thickest(piece(&table), 9);
    assert_eq!(thick.iter().map(|t| (t.layers, t.seams.len())).collect::<Vec<_>>(), [(9, 4)]);
    assert_eq!(Layers::of(piece(&table)).at(thick[0].at), 9);
    assert!(thick[0].at.distance(Point::new(2.75, 2.75)) < 0.5, "{:?}", thick[0].at);
    let refused = audit(piece(&table), 0.25, &Limits::default());
    let problem =
        refused.into_iter().find(|problem| problem.rule == Rule::TooThick).expect("nine is too thick");
    assert_eq!((problem.measured_in, problem.limit_in), (9.0, 9.0));
}

#[test]
fn nine_layers_are_mended_by_the_remedy_that_is_named() {
    let (table, mut steps) = four_seams_through_one_place();
    let thick = |table: &Table| {
        audit(piece(table), 0.25, &Limits::default()).into_iter().find(|p| p.rule == Rule::TooThick)
    };
    let problem = thick(&table).expect("nine is too thick");
    let Some(Remedy::PressOpen { seam }) = remedies(&problem, piece(&table), 0.25).first().copied() else {
        panic!("the first remedy is to press a seam open");
    };
    if let Step::Sew(Sewing::Join { press, .. }) = &mut steps[seam.by.0 as usize - 1] {
        *press = Press::Open;
    }
    let mut mended = Table::new();
    for (i, step) in steps.iter().enumerate() {
        mended.apply(Mark(i as u32 + 1), step).expect("it was sewn before");
    }
    assert_eq!(thick(&mended), None);
    assert_eq!(thickest(piece(&mended), 7).first().map(|t| t.layers), Some(8));
}
