//! Layouts that are given: which can be sliced, which can be sewn one piece at a time, and how many
//! seams the others must stop short. `quilt/tests/grid_counts.rs` counts the same grids by sewing
//! every order on the table; nothing is shared with it.

mod grids;

use grids::for_each_dissection;
use grow::centres::{CentresProblem, Rect, Sewn, can_be_sewn_one_at_a_time, can_be_sliced, judge};

/// All / in full seams / one piece at a time.
fn counts(rows: usize, columns: usize) -> [usize; 3] {
    let mut counts = [0; 3];
    for_each_dissection(rows, columns, &mut |rects| {
        counts[0] += 1;
        counts[1] += usize::from(can_be_sliced(rects));
        counts[2] += usize::from(can_be_sewn_one_at_a_time(rects));
    });
    counts
}

/// CHECKS T99: computed by brute force; OEIS A116694 (comment on 3x3); guillotine partitions:
/// Ackerman, Barequet, Pinter, SODA 2004.
#[test]
fn as_many_layouts_of_grids_can_be_sliced_as_were_counted() {
    assert_eq!(counts(2, 2), [8, 8, 7]);
    assert_eq!(counts(2, 3), [34, 34, 22]);
    assert_eq!(counts(3, 3), [322, 320, 93]);
    assert_eq!(counts(3, 4), [3164, 3118, 340]);
    assert_eq!(counts(4, 4), [70878, 68480, 1483]);
}

/// CHECKS T99: what can't be sliced needs at least five pieces. Each such layout of the 3x4 and the
/// 4x4 grid has an order with partial seams, in which every seam is sewn once and whole in the end.
#[test]
fn what_cannot_be_sliced_takes_five_pieces_and_a_partial_seam() {
    for (rows, columns) in [(3, 3), (3, 4), (4, 4)] {
        let (mut partial, mut two) = (0, 0);
        for_each_dissection(rows, columns, &mut |rects| {
            if can_be_sliced(rects) {
                return;
            }
            assert!(rects.len() >= 5, "{rects:?}");
            let judged = judge(rects).expect("an order");
            assert!(!judged.sliceable && judged.partial_seams >= 1, "{rects:?}");
            let closed = judged.seams.iter().filter(|seam| matches!(seam.sewn, Sewn::Closes(_))).count();
            assert_eq!(closed, judged.partial_seams);
            assert_eq!(judged.seams.len() - closed, rects.len() - 1);
            assert!((all_seams(rects) - judged.seams.iter().map(|s| s.length_in).sum::<f64>()).abs() < 1e-9);
            partial += 1;
            two += usize::from(judged.partial_seams > 1);
        });
        let wanted = [(3, 3, 2), (3, 4, 46), (4, 4, 2398)].iter().find(|w| (w.0, w.1) == (rows, columns));
        assert_eq!(Some(partial), wanted.map(|w| w.2));
        println!(
            "{rows} x {columns}: {partial} not sliceable, {two} of them with more than one partial seam"
        );
    }
}

/// Length of all lines between places: half of all edges that aren't outside.
fn all_seams(rects: &[Rect]) -> f64 {
    let (w, h) = rects
        .iter()
        .fold((0.0_f64, 0.0_f64), |(w, h), r| (w.max(r.x_in + r.width_in), h.max(r.y_in + r.height_in)));
    rects.iter().map(|r| r.width_in + r.height_in).sum::<f64>() - w - h
}

fn rects(rects: &[[f64; 4]]) -> Vec<Rect> {
    rects.iter().map(|&[row, column, h, w]| Rect::new(column, row, w, h)).collect()
}

/// CHECKS T100: the pinwheel and its one partial seam; piecebynumber.com/partial_seams.htm.
#[test]
fn a_pinwheel_takes_one_partial_seam_and_it_is_named() {
    let wheel = rects(&[
        [0.0, 0.0, 2.0, 1.0],
        [0.0, 1.0, 1.0, 2.0],
        [1.0, 1.0, 1.0, 1.0],
        [1.0, 2.0, 2.0, 1.0],
        [2.0, 0.0, 1.0, 2.0],
    ]);
    let judged = judge(&wheel).expect("an order");
    assert!(!judged.sliceable && !judged.in_rows && !judged.one_at_a_time);
    assert_eq!((judged.partial_seams, judged.seams.len()), (1, 5));
    assert!(matches!(judged.seams[0].sewn, Sewn::StopsShort { .. }), "{:?}", judged.seams);
    assert_eq!(judged.seams[4].sewn, Sewn::Closes(0));
    // It joins the middle to one of the bars.
    let mut both = [judged.seams[0].first.clone(), judged.seams[0].second.clone()].concat();
    both.sort_unstable();
    assert!(both.contains(&2) && both.len() == 2);
    assert!(judged.seams[1..4].iter().all(|seam| seam.sewn == Sewn::Whole));
}

/// CHECKS T100: the four-patch.
#[test]
fn a_four_patch_is_sewn_in_rows_and_not_one_at_a_time() {
    let four =
        rects(&[[0.0, 0.0, 1.0, 1.0], [0.0, 1.0, 1.0, 1.0], [1.0, 0.0, 1.0, 1.0], [1.0, 1.0, 1.0, 1.0]]);
    let judged = judge(&four).expect("an order");
    assert!(judged.sliceable && judged.in_rows && !judged.one_at_a_time);
    let units: Vec<_> = judged.seams.iter().map(|s| (s.first.clone(), s.second.clone())).collect();
    assert_eq!(units, [(vec![0], vec![1]), (vec![2], vec![3]), (vec![0, 1], vec![2, 3])]);
    assert_eq!(judged.partial_seams, 0);
}

/// Two pinwheels side by side: each its own partial seam, closed by its own number.
#[test]
fn partial_seams_are_counted_in_every_part() {
    let wheel = [[0, 0, 2, 1], [0, 1, 1, 2], [1, 1, 1, 1], [1, 2, 2, 1], [2, 0, 1, 2]];
    let both: Vec<Rect> = [0, 3]
        .into_iter()
        .flat_map(|x| {
            wheel.map(|[r, c, h, w]| Rect::new(f64::from(c + x), f64::from(r), f64::from(w), f64::from(h)))
        })
        .collect();
    let judged = judge(&both).expect("an order");
    assert_eq!((judged.partial_seams, judged.seams.len()), (2, 11));
    for seam in &judged.seams {
        if let Sewn::Closes(begun) = seam.sewn {
            assert_eq!(judged.seams[begun].at_in, seam.at_in);
            assert!(matches!(judged.seams[begun].sewn, Sewn::StopsShort { .. }));
        }
    }
}

#[test]
fn places_that_overlap_or_leave_a_gap_are_refused_with_the_place() {
    let overlap = judge(&[Rect::new(0.0, 0.0, 2.0, 2.0), Rect::new(1.5, 0.0, 2.0, 2.0)]);
    assert_eq!(overlap, Err(CentresProblem::PlacesOverlap { first: 1, second: 2, area_sq_in: 1.0 }));
    let gap = judge(&[Rect::new(0.0, 0.0, 4.0, 2.0), Rect::new(0.0, 2.0, 3.0, 2.0)]);
    assert_eq!(gap, Err(CentresProblem::PlacesGap { area_sq_in: 2.0, x_in: 3.0, y_in: 2.0 }));
    for bad in [f64::NAN, f64::INFINITY, -1.0, 0.0] {
        let problem = judge(&[Rect::new(0.0, 0.0, bad, 2.0)]);
        assert!(matches!(problem, Err(CentresProblem::OutOfRange { .. })), "{bad}: {problem:?}");
    }
}
