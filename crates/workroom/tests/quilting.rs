//! Quilting among the other stages: round a figure whichever was chosen first, along the rollers as the
//! layers are loaded, designs side by side, and the lines that are followed.

mod common;

use common::*;
use plane::{Point, Region};
use quilt::stage::figure::{Figure, FigureChoice, FigureOrder, FigureSize, Path, Segment, Shape};
use quilt::stage::layers::{Frame, Guiding};
use quilt::stage::quilting::{Across, DesignKind, Machine, QuiltingChoice};
use tempfile::TempDir;
use workroom::Workroom;
use workroom::asks::{AskError, DrawAsk, LayersAsk, StageAsk, StageReport};
use workroom::quilts::{At, MAIN};

/// A piece of one patch.
fn piece(width_in: f64, height_in: f64) -> (TempDir, Workroom) {
    let (folder, mut room) = workroom();
    let cloth = enter(&mut room, width_in, height_in);
    let head = room.new_quilt("low tide", &quilt::wish::Wish::default()).unwrap();
    room.append(&head.at(), &[lay(1, cloth, (0.0, 0.0), (width_in, height_in))]).unwrap();
    (folder, room)
}

fn quilted(choice: QuiltingChoice) -> StageAsk {
    StageAsk::Quilting { thread: None, below: None, choice }
}

fn at(room: &mut Workroom) -> At {
    room.log("low tide", MAIN).unwrap().head.at()
}

fn take(room: &mut Workroom, ask: &StageAsk) -> StageReport {
    let at = at(room);
    room.take_stage(&at, ask).unwrap().1
}

/// A square of 4 whose middle lies at a place.
fn square(x: f64, y: f64, order: FigureOrder) -> FigureChoice {
    let corners = rectangle(0.0, 0.0, 4.0, 4.0);
    let path = Path { start: corners[0], segments: corners[1..].iter().map(|p| Segment::Line(*p)).collect() };
    let shape = Shape { id: "square".to_owned(), cloth: None, paths: vec![path] };
    let figure = Figure { name: "square".to_owned(), shapes: vec![shape], unit_in: Some(1.0) };
    FigureChoice { order, ..FigureChoice::usual(figure, FigureSize::AsDrawn, Point::new(x, y)) }
}

/// Whether lines run through the inside of the square about a place.
fn run_through(room: &mut Workroom, x: f64, y: f64) -> bool {
    let inner = Region { outer: rectangle(x - 1.9, y - 1.9, 3.8, 3.8), holes: Vec::new() };
    let lines = room.quilting_lines("low tide", MAIN).unwrap();
    lines.laid.strokes.iter().flat_map(|stroke| &stroke.points).any(|p| inner.contains(*p))
}

fn spiral() -> QuiltingChoice {
    QuiltingChoice { design: DesignKind::RoundSpiral, ..QuiltingChoice::default() }
}

#[test]
fn lines_go_round_a_figure_that_was_chosen_after_them_and_follow_it() {
    let (_folder, mut room) = piece(24.0, 24.0);
    take(&mut room, &quilted(spiral()));
    assert!(run_through(&mut room, 17.0, 12.0));
    take(&mut room, &StageAsk::Figure(square(17.0, 12.0, FigureOrder::BeforeQuilting)));
    assert!(!run_through(&mut room, 17.0, 12.0));
    // It is moved, and then sewn on after the quilting.
    take(&mut room, &StageAsk::Figure(square(7.0, 12.0, FigureOrder::BeforeQuilting)));
    assert!(run_through(&mut room, 17.0, 12.0) && !run_through(&mut room, 7.0, 12.0));
    take(&mut room, &StageAsk::Figure(square(7.0, 12.0, FigureOrder::AfterQuilting)));
    assert!(run_through(&mut room, 7.0, 12.0));
}

#[test]
fn the_needs_are_those_of_the_lines_that_are_drawn() {
    let (_folder, mut room) = piece(24.0, 24.0);
    take(&mut room, &quilted(spiral()));
    take(&mut room, &StageAsk::Figure(square(17.0, 12.0, FigureOrder::BeforeQuilting)));
    let ask = quilted(spiral());
    let StageReport::Quilting(asked) = room.look_at_stage("low tide", MAIN, &ask).unwrap().report else {
        panic!("quilting")
    };
    let lines = room.quilting_lines("low tide", MAIN).unwrap();
    assert_eq!(lines.plan, asked);
    // A figure on the top alone holds nothing: the gap is as wide as it.
    assert!(asked.widest_gap.is_some_and(|gap| gap.inches > 4.0), "{:?}", asked.widest_gap);
    let needed = |room: &mut Workroom| {
        let report = room.enough("low tide", MAIN, &Default::default(), &Default::default()).unwrap();
        report.thread.iter().map(|thread| thread.plan.needle_in).sum::<f64>()
    };
    let by_hand = needed(&mut room);
    let machine = Machine::Frame { reach_in: 8.0, width_along_rollers: None };
    take(&mut room, &quilted(QuiltingChoice { machine, ..spiral() }));
    let cut = room.quilting_lines("low tide", MAIN).unwrap();
    assert!(cut.sewn.starts() > cut.laid.starts() + 20);
    assert!(needed(&mut room) > by_hand + 20.0, "each start on the frame has its thread");
}

#[test]
fn a_figure_that_the_lines_cannot_go_round_is_refused_and_nothing_changes() {
    let (_folder, mut room) = piece(24.0, 24.0);
    take(&mut room, &quilted(spiral()));
    let before = at(&mut room);
    let over_the_centre = StageAsk::Figure(square(12.0, 12.0, FigureOrder::BeforeQuilting));
    let refused = room.take_stage(&before, &over_the_centre).unwrap_err();
    let AskError::CantBe { what, hint } = refused else { panic!("{refused:?}") };
    assert!(
        what.contains("can't go round the figure") && hint.contains("after the quilting"),
        "{what} {hint}"
    );
    assert_eq!(at(&mut room), before);
}

#[test]
fn passes_run_as_the_layers_are_loaded() {
    let (_folder, mut room) = piece(24.0, 40.0);
    let across = |room: &mut Workroom| {
        let machine = Machine::Frame { reach_in: 10.0, width_along_rollers: None };
        let ask = quilted(QuiltingChoice { machine, ..spiral() });
        match room.look_at_stage("low tide", MAIN, &ask).unwrap().report {
            StageReport::Quilting(plan) => (plan.passes[0].across, plan.passes.len()),
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(across(&mut room), (Across::Height, 4));
    let guiding = Guiding::Frame(Frame::default());
    take(&mut room, &StageAsk::Layers(LayersAsk { guiding, ..LayersAsk::default() }));
    // The longer edge lies along the rollers, so that it is moved on less often.
    assert_eq!(across(&mut room), (Across::Width, 3));
}

#[test]
fn designs_are_compared_side_by_side_and_nothing_changes() {
    let (_folder, mut room) = piece(20.0, 20.0);
    take(&mut room, &quilted(spiral()));
    let before = at(&mut room);
    let design = |design, spacing_in| QuiltingChoice { design, spacing_in, ..QuiltingChoice::default() };
    let choices =
        [design(DesignKind::Lines, 1.0), design(DesignKind::Waves, 1.0), design(DesignKind::Lines, 90.0)];
    let compared = room.compare_quilting("low tide", MAIN, &choices, DrawAsk::default()).unwrap();
    assert_eq!(at(&mut room), before);
    for (choice, design) in choices.iter().zip(&compared.designs).take(2) {
        let ask = quilted(choice.clone());
        let StageReport::Quilting(alone) = room.look_at_stage("low tide", MAIN, &ask).unwrap().report else {
            panic!("quilting")
        };
        assert_eq!(design.plan.as_ref(), Ok(&alone));
    }
    assert!(compared.designs[2].plan.as_ref().is_err_and(|why| why.contains("No line")));
    let svg = compared.side_by_side.to_svg(&drawing::svg::SvgOptions::default());
    for words in ["straight lines", "400 in, 20 starts", "waves", "be laid here"] {
        assert!(svg.contains(words), "{words}");
    }
    assert_eq!(svg.matches("class=\"quilting\"").count(), 2);
}

#[test]
fn without_a_choice_there_are_no_lines() {
    let (_folder, mut room) = piece(20.0, 20.0);
    let refused = room.quilting_lines("low tide", MAIN).unwrap_err();
    assert!(refused.to_string().contains("no quilting has been chosen yet"), "{refused}");
}
