//! Designs over odd outlines: what they cover, what they say, and what is refused.

use super::*;
use crate::stage::thread::ThreadChoice;
use plane::fill::Sewing;

fn square(side: f64) -> Vec<Point> {
    Region::rectangle(side, side).outer
}

fn planned(choice: &QuiltingChoice, outline: &[Point]) -> Quilting {
    plan(choice, outline, &Beside::default(), &Habits::default()).expect("a plan")
}

const fn frame(reach_in: f64) -> Machine {
    Machine::Frame { reach_in, width_along_rollers: None }
}

/// An outline whose sides and angles are all different.
fn odd() -> Vec<Point> {
    [(0.0, 1.0), (9.0, 0.0), (19.0, 3.0), (21.5, 11.0), (16.0, 20.0), (6.0, 21.0), (-1.0, 12.0)]
        .map(|(x, y)| Point::new(x, y))
        .to_vec()
}

#[test]
fn every_design_covers_an_odd_outline_within_what_the_batting_allows() {
    for design in DesignKind::ALL {
        let choice = QuiltingChoice { design, spacing_in: 0.75, ..QuiltingChoice::default() };
        let done = planned(&choice, &odd());
        let gap = done.plan.widest_gap.expect("a gap").inches;
        assert!(gap < 2.0, "{design:?} leaves a gap of {gap}");
        assert!(done.plan.length_in > 300.0, "{design:?}");
        assert!(done.plan.stitches > 0.0 && done.plan.minutes > 0.0, "{design:?}");
    }
}

#[test]
fn the_unbroken_spiral_is_one_stroke() {
    let done = planned(&QuiltingChoice::default(), &odd());
    assert_eq!(done.plan.starts, 1);
    assert_eq!(gap::first_crossing(&done.fill.strokes), None);
}

#[test]
fn line_is_area_over_spacing() {
    // CHECKS T55, geometry: 60 by 80 at 1 inch is 4,800 inches.
    let choice = QuiltingChoice { design: DesignKind::Lines, spacing_in: 1.0, ..QuiltingChoice::default() };
    let done = planned(&choice, &Region::rectangle(60.0, 80.0).outer);
    assert!((done.plan.length_in - 4800.0).abs() < 1e-6, "{}", done.plan.length_in);
    assert!((done.plan.density.mean_spacing_in - 1.0).abs() < 1e-9);
    assert_eq!(done.plan.density.class, Thickness::Close);
    assert!((done.plan.density.middle_over_rim() - 1.0).abs() < 0.05);
}

#[test]
fn bobbins_run_out_on_the_line() {
    let choice = QuiltingChoice { spacing_in: 0.25, ..QuiltingChoice::default() };
    let thread = ThreadChoice { bobbin_yd: 20.0, ..ThreadChoice::default() };
    let habits = Habits { thread, ..Habits::default() };
    let done = plan(&choice, &square(20.0), &Beside::default(), &habits).expect("a plan");
    assert!(!done.plan.changes.is_empty());
    for change in &done.plan.changes {
        let on_line = done
            .fill
            .strokes
            .iter()
            .flat_map(Stroke::segments)
            .any(|(a, b)| (a.distance(change.at) + change.at.distance(b) - a.distance(b)).abs() < 1e-9);
        assert!(on_line, "{change:?}");
    }
}

#[test]
fn a_frame_cuts_a_spiral_to_pieces_and_says_so() {
    let machine = frame(12.0);
    let spiral = QuiltingChoice { machine, spacing_in: 0.5, ..QuiltingChoice::default() };
    let done = planned(&spiral, &square(60.0));
    assert_eq!(done.plan.passes.len(), 5);
    let length: f64 = done.plan.passes.iter().map(|pass| pass.length_in).sum();
    assert!((length - done.plan.length_in).abs() < 1e-6 * length);
    assert!(done.plan.cautions.iter().any(|c| matches!(c, Caution::CutByPasses { dont: true, .. })));
    // Rows along the rollers stay whole.
    let rows = QuiltingChoice { design: DesignKind::Lines, sewing: Sewing::Joined, ..spiral };
    let done = planned(&rows, &square(60.0));
    assert!(
        !done.plan.cautions.iter().any(|c| matches!(c, Caution::CutByPasses { .. })),
        "{:?}",
        done.plan.cautions
    );
}

#[test]
fn under_an_arm_the_middle_comes_first() {
    let machine = Machine::Arm { room_in: 10.0 };
    let done = planned(&QuiltingChoice { machine, ..QuiltingChoice::default() }, &square(40.0));
    let from: Vec<f64> = done.plan.passes.iter().map(|pass| pass.from_in).collect();
    assert_eq!(from, [20.0, 30.0, 10.0, 0.0]);
}

#[test]
fn a_wide_gap_and_a_dense_middle_are_told_with_their_numbers() {
    let wide = QuiltingChoice { design: DesignKind::Lines, spacing_in: 5.0, ..QuiltingChoice::default() };
    let done = planned(&wide, &square(20.0));
    let words: Vec<String> = done.plan.cautions.iter().map(ToString::to_string).collect();
    assert!(words.iter().any(|words| words.contains("5 across; the batting allows 3")), "{words:?}");
    let spiral = QuiltingChoice {
        centre: Some(Point::new(4.0, 10.0)),
        least_in: Some(0.05),
        most_in: Some(4.0),
        ..QuiltingChoice::default()
    };
    let done = planned(&spiral, &square(20.0));
    assert!(done.plan.rows.is_some_and(|rows| rows.most.inches > rows.least.inches));
}

#[test]
fn lines_stay_off_the_edge_and_out_of_the_figure() {
    let figure = Region {
        outer: square(4.0).iter().map(|p| Point::new(p.x + 11.0, p.y + 12.0)).collect(),
        holes: Vec::new(),
    };
    let choice = QuiltingChoice {
        inside_in: 0.5,
        keep_out: vec![figure.clone().into()],
        least_in: Some(0.1),
        most_in: Some(2.5),
        ..QuiltingChoice::default()
    };
    let done = planned(&choice, &square(20.0));
    for p in done.fill.strokes.iter().flat_map(|stroke| &stroke.points) {
        assert!(p.x > 0.48 && p.x < 19.52 && p.y > 0.48 && p.y < 19.52, "{p:?}");
        let deep = [p.x - 11.0, 15.0 - p.x, p.y - 12.0, 16.0 - p.y].into_iter().fold(f64::INFINITY, f64::min);
        assert!(deep < 1.0 / 64.0 + 1e-9, "{p:?} lies in the figure");
    }
}

#[test]
fn what_makes_no_sense_is_refused() {
    let refused = |choice: &QuiltingChoice| {
        plan(choice, &square(10.0), &Beside::default(), &Habits::default()).expect_err("refused").to_string()
    };
    let base = QuiltingChoice::default();
    assert!(refused(&QuiltingChoice { spacing_in: 0.0, ..base.clone() }).contains("spacing"));
    assert!(refused(&QuiltingChoice { spacing_in: f64::NAN, ..base.clone() }).contains("spacing"));
    let far = QuiltingChoice { design: DesignKind::Lines, spacing_in: 100.0, ..base.clone() };
    assert!(refused(&far).contains("No line"));
    assert!(refused(&QuiltingChoice { inside_in: 5.5, ..base.clone() }).contains("at most 5"));
    let outside = refused(&QuiltingChoice { centre: Some(Point::new(30.0, 0.0)), ..base.clone() });
    assert!(outside.contains("centre"), "{outside}");
    let bounds = refused(&QuiltingChoice {
        least_in: Some(0.49),
        most_in: Some(0.51),
        centre: Some(Point::new(3.0, 5.0)),
        ..base
    });
    assert!(bounds.contains("widest over narrowest"), "{bounds}");
    let crossed = [(0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 4.0)].map(|(x, y)| Point::new(x, y));
    assert!(plan(&QuiltingChoice::default(), &crossed, &Beside::default(), &Habits::default()).is_err());
}

fn cautions(choice: &QuiltingChoice, outline: &[Point]) -> Vec<Caution> {
    planned(choice, outline).plan.cautions
}

#[test]
fn a_frame_counts_starts_thread_and_time_of_the_lines_it_has_cut() {
    let by_hand = QuiltingChoice { spacing_in: 0.5, ..QuiltingChoice::default() };
    let on_frame = QuiltingChoice { machine: frame(12.0), ..by_hand.clone() };
    let (whole, cut) = (planned(&by_hand, &square(60.0)), planned(&on_frame, &square(60.0)));
    let pieces: usize = cut.plan.passes.iter().map(|pass| pass.pieces).sum();
    assert_eq!((whole.plan.starts, cut.plan.lines), (1, 1));
    assert_eq!(cut.plan.starts, pieces);
    assert_eq!(cut.sewn.starts(), pieces);
    assert!((cut.sewn.length() - whole.fill.length()).abs() < 1e-6 * whole.fill.length());
    // Every start is paid for in thread and time.
    let more = (pieces - 1) as f64;
    let bobbins = cut.plan.changes.len() as f64 - whole.plan.changes.len() as f64;
    let time = 0.5 * more + 2.0 * bobbins;
    assert!((cut.plan.minutes - whole.plan.minutes - time).abs() < 1e-6, "{} {time}", cut.plan.minutes);
    assert!(cut.plan.needle_in > whole.plan.needle_in + more, "{}", cut.plan.needle_in);
    // Pass by pass from the top, each piece in its band.
    let mut sewn = cut.sewn.strokes.iter();
    for pass in &cut.plan.passes {
        for p in sewn.by_ref().take(pass.pieces).flat_map(|stroke| &stroke.points) {
            assert!(p.y > pass.from_in - 1e-6 && p.y < pass.to_in + 1e-6, "{pass:?} {p:?}");
        }
    }
}

#[test]
fn passes_run_along_the_rollers_as_the_layers_are_loaded() {
    let choice = QuiltingChoice { machine: frame(10.0), ..QuiltingChoice::default() };
    let outline = Region::rectangle(30.0, 50.0).outer;
    let passes = |choice: &QuiltingChoice, loaded| {
        let beside = Beside { width_along_rollers: loaded, ..Beside::default() };
        let done = plan(choice, &outline, &beside, &Habits::default()).expect("a plan");
        let bands = done.plan.passes.iter().map(|pass| (pass.across, pass.from_in, pass.to_in));
        bands.collect::<Vec<_>>()
    };
    let by_width = [(Across::Width, 20.0, 30.0), (Across::Width, 10.0, 20.0), (Across::Width, 0.0, 10.0)];
    assert_eq!(passes(&choice, Some(false)), by_width);
    assert_eq!(passes(&choice, Some(true)).len(), 5);
    assert_eq!(passes(&choice, None)[0], (Across::Height, 40.0, 50.0));
    // What the machine says goes before.
    let machine = Machine::Frame { reach_in: 10.0, width_along_rollers: Some(false) };
    assert_eq!(passes(&QuiltingChoice { machine, ..choice }, Some(true)), by_width);
}

#[test]
fn a_gap_reaches_across_what_nothing_holds_and_not_into_a_hole() {
    let shape = Region::rectangle(6.0, 6.0);
    let shape = Region {
        outer: shape.outer.iter().map(|p| Point::new(p.x + 7.0, p.y + 7.0)).collect(),
        holes: Vec::new(),
    };
    let gap = |held| {
        let keep_out = vec![KeepOut { shape: shape.clone(), held }];
        let choice = QuiltingChoice {
            design: DesignKind::Lines,
            spacing_in: 1.0,
            keep_out,
            ..QuiltingChoice::default()
        };
        planned(&choice, &square(20.0)).plan.widest_gap.expect("a gap").inches
    };
    // Rows run at half inches, so a disc of 6 has its middle in the square; where only ends of rows
    // bound it, it bulges out between them.
    assert!((gap(Held::AtEdge) - 6.0).abs() < 1.0 / 16.0, "{}", gap(Held::AtEdge));
    assert!(gap(Held::Not) > 6.0 && gap(Held::Not) < 7.1, "{}", gap(Held::Not));
    assert!((gap(Held::Hole) - 1.0).abs() < 1.0 / 16.0, "{}", gap(Held::Hole));
    // The figure of another stage counts as one that nothing holds.
    let choice = QuiltingChoice { design: DesignKind::Lines, spacing_in: 1.0, ..QuiltingChoice::default() };
    let beside = Beside { figure: vec![shape.clone()], ..Beside::default() };
    let done = plan(&choice, &square(20.0), &beside, &Habits::default()).expect("a plan");
    assert_eq!(done.plan.widest_gap.map(|found| found.inches), Some(gap(Held::Not)));
    assert!(done.fill.strokes.iter().flat_map(|stroke| &stroke.points).all(|p| !inner(&shape).contains(*p)));
}

/// What lies a hundredth inside a square.
fn inner(shape: &Region) -> Region {
    plane::offset(shape, -0.01, plane::MITRE_LIMIT).remove(0)
}

#[test]
fn a_keep_out_without_a_word_on_what_holds_it_is_held_by_nothing() {
    let text =
        r#"{ "keep_out": [ { "outer": [ {"x":0,"y":0}, {"x":1,"y":0}, {"x":0,"y":1} ], "holes": [] } ] }"#;
    let read: QuiltingChoice = serde_json::from_str(text).expect("a choice");
    assert_eq!(read.keep_out[0].held, Held::Not);
    let kept = serde_json::to_string(&read).expect("text");
    assert_eq!(serde_json::from_str::<QuiltingChoice>(&kept).expect("again"), read);
}

#[test]
fn a_middle_denser_than_the_rim_is_told_with_how_many_times() {
    // Nine echoes about a small square reach half way and a little further.
    let square_in_the_middle = Region::rectangle(1.0, 1.0);
    let of = Region {
        outer: square_in_the_middle.outer.iter().map(|p| Point::new(p.x + 9.5, p.y + 9.5)).collect(),
        holes: Vec::new(),
    };
    let echoes = |rows| QuiltingChoice {
        design: DesignKind::Echoes,
        echo_of: Some(of.clone()),
        echo_rows: Some(rows),
        ..QuiltingChoice::default()
    };
    let found = cautions(&echoes(14), &square(20.0));
    let times = found.iter().find_map(|caution| match caution {
        Caution::DenseMiddle { times } => Some(*times),
        _ => None,
    });
    let density = planned(&echoes(14), &square(20.0)).plan.density;
    assert!(times.is_some_and(|times| times > 1.6 && (times - density.middle / density.rim).abs() < 1e-12));
    let few = cautions(&echoes(4), &square(20.0));
    assert!(few.contains(&Caution::BareRim), "{few:?}");
    // Rows all over are even.
    let even = QuiltingChoice { design: DesignKind::Echoes, ..QuiltingChoice::default() };
    let even = cautions(&even, &square(20.0));
    assert!(!even.iter().any(|c| matches!(c, Caution::DenseMiddle { .. } | Caution::BareRim)), "{even:?}");
}

#[test]
fn hundreds_of_starts_on_a_frame_are_a_reason_not_to() {
    let rows = QuiltingChoice { design: DesignKind::Lines, spacing_in: 0.25, ..QuiltingChoice::default() };
    let on_frame = QuiltingChoice { machine: frame(12.0), ..rows.clone() };
    assert!(cautions(&on_frame, &square(60.0)).contains(&Caution::ManyStarts { starts: 240, dont: true }));
    // Rows across the rollers are cut at every pass.
    let across = QuiltingChoice { angle_deg: 90.0, ..on_frame };
    let cut = Caution::CutByPasses { pieces: 1200, lines: 240, dont: true };
    assert!(cautions(&across, &square(60.0)).contains(&cut), "{:?}", cautions(&across, &square(60.0)));
    assert!(cautions(&rows, &square(15.0)).contains(&Caution::ManyStarts { starts: 60, dont: false }));
    let joined = QuiltingChoice { sewing: Sewing::Joined, ..rows };
    assert_eq!(cautions(&joined, &square(15.0)), []);
}

#[test]
fn tight_curves_and_dense_lines_all_one_way_are_told() {
    let tight = QuiltingChoice {
        design: DesignKind::RoundSpiral,
        first_radius_in: 0.125,
        ..QuiltingChoice::default()
    };
    let found = cautions(&tight, &square(10.0));
    let radius = |caution: &Caution| match caution {
        Caution::TightCurve { radius_in } => Some(*radius_in),
        _ => None,
    };
    assert!(found.iter().find_map(radius).is_some_and(|radius| radius < 0.5), "{found:?}");
    let one_way =
        QuiltingChoice { design: DesignKind::Lines, sewing: Sewing::OneWay, ..QuiltingChoice::default() };
    assert!(cautions(&one_way, &square(10.0)).contains(&Caution::PullsOneWay));
    let back = QuiltingChoice { sewing: Sewing::ThereAndBack, ..one_way };
    assert!(!cautions(&back, &square(10.0)).contains(&Caution::PullsOneWay));
}

#[test]
fn a_spiral_says_how_wide_it_gapes_at_its_corners() {
    // TRADE 5, geometry: 1.333 spacings at corners of 60 degrees, 1.172 at 90.
    for (sides, gap) in [(3, 1.333), (4, 1.172), (6, 1.072), (12, 1.017)] {
        let choice = QuiltingChoice {
            design: DesignKind::CorneredSpiral,
            sides,
            spacing_in: 1.0,
            ..QuiltingChoice::default()
        };
        let found = planned(&choice, &square(30.0)).plan.corner_gap_in;
        assert!(found.is_some_and(|found| (found - gap).abs() < 1e-3), "{sides}: {found:?}");
    }
    assert_eq!(planned(&QuiltingChoice::default(), &square(30.0)).plan.corner_gap_in, None);
}
