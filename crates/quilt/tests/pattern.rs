//! Templates against figures worked out on paper: two squares of 4 cut, sewn with a quarter.

use plane::{Point, Pose, polygon};
use quilt::cloth::ClothId;
use quilt::log::{Mark, Name, Press, Sewing, Step};
use quilt::pattern::{Lines, Template, lines_round, templates};
use quilt::table::Table;

fn rectangle(width: f64, height: f64) -> Vec<Point> {
    [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)].map(|(x, y)| Point::new(x, y)).to_vec()
}

/// A square of 4 with another of 4 sewn to its right side.
fn two_squares() -> Table {
    let mut table = Table::new();
    for mark in [1, 2] {
        let lay = Step::Lay { cloth: ClothId(u64::from(mark)), at: Pose::STAY, cut: rectangle(4.0, 4.0) };
        table.apply(Mark(mark), &lay).unwrap();
    }
    let sew = Sewing::Join {
        onto: Name::new(Mark(1), 1),
        with: Name::new(Mark(2), 3),
        slide_in: 0.0,
        allowance_in: 0.25,
        stop: None,
        flush: [false; 2],
        press: Press::Over,
    };
    table.apply(Mark(3), &Step::Sew(sew)).unwrap();
    table
}

fn found() -> (Vec<Template>, quilt::foundation::Pieces) {
    let table = two_squares();
    let (_, top) = table.piece().unwrap();
    templates(&table, top, 0.25)
}

fn size(points: &[Point]) -> [f64; 2] {
    let (low, high) = polygon::bounds(points).unwrap();
    [high.x - low.x, high.y - low.y]
}

#[test]
fn a_template_is_cut_as_the_patch_was_and_sewn_a_quarter_inside() {
    let (found, _) = found();
    assert_eq!(found.iter().map(|t| t.number.as_str()).collect::<Vec<_>>(), ["1", "2"]);
    for template in &found {
        // 3 3/4 shows across, and the allowance comes to it on the seam's side only: 4 by 4 as it was cut.
        assert!((size(&template.shows)[0] - 3.75).abs() < 1e-9);
        assert!((polygon::area(&template.lines.cut) - 16.0).abs() < 1e-9);
        assert_eq!(size(&template.lines.cut).map(|inches| (inches * 1e6).round() / 1e6), [4.0, 4.0]);
        assert!((polygon::area(&template.lines.seam) - 3.5 * 3.5).abs() < 1e-9);
    }
}

#[test]
fn notches_of_a_seam_lie_at_the_same_place_and_point_apart() {
    let (found, _) = found();
    let [a, b] = [0, 1].map(|no| &found[no].lines.notches);
    assert_eq!((a.len(), b.len()), (1, 1));
    assert_eq!((a[0].neighbour.as_str(), b[0].neighbour.as_str()), ("2", "1"));
    assert!(a[0].from.distance(b[0].from) < 1e-9);
    assert!((a[0].to - a[0].from + (b[0].to - b[0].from)).length() < 1e-9);
    assert!((a[0].from.distance(a[0].to) - 0.25).abs() < 1e-9);
}

#[test]
fn both_together_have_the_lines_of_the_whole() {
    let (found, pieces) = found();
    let names = ["A1".to_owned(), "A2".to_owned()];
    let whole = lines_round(&[0, 1], &found, &pieces, &names, 0.25);
    // 7 1/2 by 4 raw; all of its edge is raw, so that is where it is cut.
    assert!((polygon::area(&whole.cut) - 30.0).abs() < 1e-6);
    assert!((polygon::area(&whole.seam) - 7.0 * 3.5).abs() < 1e-6);
    assert!(whole.notches.is_empty());
    let one = lines_round(&[1], &found, &pieces, &names, 0.25);
    assert_eq!(one.notches.len(), 1);
    assert_eq!(one.notches[0].neighbour, "A1");
}

#[test]
fn a_mirrored_template_runs_the_right_way_round_and_back_again() {
    let (found, _) = found();
    let over = |p: Point| Point::new(-p.x, p.y);
    let mirrored = found[0].lines.placed(true, over);
    assert!(polygon::area(&mirrored.cut) > 0.0 && polygon::area(&mirrored.seam) > 0.0);
    assert_eq!(mirrored.placed(true, over), found[0].lines);
}

#[test]
fn a_long_tip_is_cut_off_but_never_into_the_allowance() {
    // A sliver of 10 degrees: its mitre would reach 0.25 / sin 5 degrees, almost three inches.
    let height = 6.0 * 10.0_f64.to_radians().tan();
    let shape: Vec<Point> = [(0.0, 0.0), (6.0, 0.0), (6.0, height)].map(|(x, y)| Point::new(x, y)).to_vec();
    let lines = Lines::new(&shape, &[Some(0.25); 3], 0.25);
    assert_eq!(lines.seam, shape);
    let reach = lines.cut.iter().map(|p| -p.x).fold(0.0, f64::max);
    assert!((0.25..0.45).contains(&reach), "{reach}");
    for corner in &shape {
        let inside = polygon::edges(&lines.cut)
            .filter_map(|(a, b)| Some(plane::Line::through(a, b)?.inside_by(*corner)))
            .fold(f64::INFINITY, f64::min);
        assert!(inside >= 0.25 - 1e-9, "{inside}");
    }
}

#[test]
fn a_corner_in_line_changes_nothing_even_when_it_leans_in_by_a_hair() {
    let mut shape = rectangle(4.0, 3.0);
    let plain = Lines::new(&shape, &[Some(0.25); 4], 0.25);
    shape.insert(1, Point::new(2.0, 1e-9));
    let lines = Lines::new(&shape, &[Some(0.25); 5], 0.25);
    assert_eq!(lines, plain);
    assert!((polygon::area(&lines.cut) - 4.5 * 3.5).abs() < 1e-9);
}

/// A square of 4 with a piece to its right whose raw edge meets it over `shared` inches.
fn meeting(shared: f64) -> (Vec<Template>, quilt::foundation::Pieces) {
    let mut table = Table::new();
    for (mark, height) in [(1, 4.0), (2, shared)] {
        let lay = Step::Lay { cloth: ClothId(u64::from(mark)), at: Pose::STAY, cut: rectangle(4.0, height) };
        table.apply(Mark(mark), &lay).unwrap();
    }
    let sew = Sewing::Join {
        onto: Name::new(Mark(2), 3),
        with: Name::new(Mark(1), 1),
        slide_in: 0.5,
        allowance_in: 0.25,
        stop: None,
        flush: [false; 2],
        press: Press::Over,
    };
    table.apply(Mark(3), &Step::Sew(sew)).unwrap();
    let (_, top) = table.piece().unwrap();
    templates(&table, top, 0.25)
}

#[test]
fn notches_stand_only_where_seam_lines_share_a_quarter_of_an_inch_or_more() {
    // The piece is sewn a quarter inside its raw ends: of what raw edges share half an inch goes.
    for (shared, sewn) in [(0.4, None), (0.7, None), (0.8, Some(0.3)), (2.0, Some(1.5))] {
        let (found, _) = meeting(shared);
        for template in &found {
            let Lines { notches, seam, cut, meetings } = &template.lines;
            let lengths: Vec<f64> = notches.iter().map(|notch| notch.shared_in).collect();
            assert_eq!(lengths.len(), usize::from(sewn.is_some()), "{shared}: {lengths:?}");
            assert!(sewn.is_none_or(|sewn| (lengths[0] - sewn).abs() < 1e-6), "{shared}: {lengths:?}");
            assert!(sewn.is_some() || meetings.is_empty(), "{shared}: {meetings:?}");
            for notch in notches {
                let off = |outline: &[Point], p: Point| {
                    polygon::edges(outline)
                        .filter_map(|(a, b)| Some(plane::Line::through(a, b)?.inside_by(p).abs()))
                        .fold(f64::INFINITY, f64::min)
                };
                assert!(off(seam, notch.from) < 1e-9 && off(cut, notch.to) < 1e-9, "{shared}: {notch:?}");
            }
        }
        let middles: Vec<Point> = found.iter().flat_map(|t| t.lines.notches.iter().map(|n| n.from)).collect();
        assert!(middles.windows(2).all(|pair| pair[0].distance(pair[1]) < 1e-9), "{middles:?}");
    }
}
