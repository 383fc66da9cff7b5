//! Designs over odd outlines: what they cover, what they say, and what is refused.

use super::*;
use crate::stage::thread::ThreadChoice;
use plane::fill::Sewing;

fn square(side: f64) -> Vec<Point> {
    Region::rectangle(side, side).outer
}

fn planned(choice: &QuiltingChoice, outline: &[Point]) -> Quilting {
    plan(choice, outline, &Habits::default()).expect("a plan")
}

/// An outline whose sides and angles are all different.
fn odd() -> Vec<Point> {
    [(0.0, 1.0), (9.0, 0.0), (19.0, 3.0), (21.5, 11.0), (16.0, 20.0), (6.0, 21.0), (-1.0, 12.0)]
        .map(|(x, y)| Point::new(x, y))
        .to_vec()
}

#[test]
fn every_design_covers_an_odd_outline_within_what_the_batting_allows() {
    for design in [
        DesignKind::RoundSpiral,
        DesignKind::CorneredSpiral,
        DesignKind::UnbrokenSpiral,
        DesignKind::Lines,
        DesignKind::Crossed,
        DesignKind::Echoes,
        DesignKind::Waves,
    ] {
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
    let threads = Habits { thread, ..Habits::default() };
    let done = plan(&choice, &square(20.0), &threads).expect("a plan");
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
    let machine = Machine::Frame { reach_in: 12.0 };
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
    let from: Vec<f64> = done.plan.passes.iter().map(|pass| pass.from_y_in).collect();
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
        keep_out: vec![figure.clone()],
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
        plan(choice, &square(10.0), &Habits::default()).expect_err("refused").to_string()
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
    assert!(plan(&QuiltingChoice::default(), &crossed, &Habits::default()).is_err());
}
