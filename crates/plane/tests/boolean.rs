//! Unions, intersections, differences: areas add up, seams close, grids hold.

mod common;

use common::{Dice, plain, points, total};
use plane::{Point, Pose, Region, Turn, Vec2, difference, intersection, polygon, remainder, union};

#[test]
fn parts_of_a_pair_add_up_to_its_whole() {
    for seed in 1..400 {
        let mut dice = Dice::new(seed);
        let corners = 3 + dice.below(10);
        let a = plain(dice.outline(corners, 3.0, 0.6)).moved(dice.pose(1.5));
        let b = plain(dice.outline(corners, 2.0, 0.6)).moved(dice.pose(1.5));
        let both = total(&intersection(&a, &b));
        let first_only = total(&difference(&a, std::slice::from_ref(&b)));
        let second_only = total(&difference(&b, std::slice::from_ref(&a)));
        let either = total(&union(&[a.clone(), b.clone()]));
        assert!((first_only + both - a.area()).abs() < 1e-9, "seed {seed}");
        assert!((second_only + both - b.area()).abs() < 1e-9, "seed {seed}");
        assert!((first_only + both + second_only - either).abs() < 1e-9, "seed {seed}");
    }
}

/// A fan of triangles in rings, each brought to its place by its own pose from its own
/// coordinates, so that shared corners differ in the last bits.
fn posed_triangles(rings: usize, per_ring: usize, dice: &mut Dice) -> Vec<Region> {
    let at = |ring: usize, k: usize| {
        let turn = Turn::from_degrees(360.0 * (k % per_ring) as f64 / per_ring as f64);
        Point::ORIGIN + turn.vec() * (ring as f64)
    };
    let mut found = Vec::new();
    for ring in 0..rings {
        for k in 0..per_ring {
            let (a, b) = (at(ring, k), at(ring, k + 1));
            let (c, d) = (at(ring + 1, k + 1), at(ring + 1, k));
            let mut triangles = vec![vec![a, c, d]];
            if ring > 0 {
                triangles.push(vec![a, b, c]);
            }
            for mut corners in triangles {
                if polygon::area(&corners) < 0.0 {
                    corners.reverse();
                }
                let pose = dice.pose(20.0);
                let away = pose.inverse().apply_all(&corners);
                found.push(plain(pose.apply_all(&away)));
            }
        }
    }
    found
}

#[test]
fn patches_sewn_on_one_by_one_leave_one_outline_without_threads() {
    let mut dice = Dice::new(7);
    let triangles = posed_triangles(10, 16, &mut dice);
    assert!(triangles.len() > 288);
    let sum = total(&triangles);
    let mut grown: Vec<Region> = Vec::new();
    for triangle in &triangles {
        grown.push(triangle.clone());
        grown = union(&grown);
    }
    assert_eq!(grown.len(), 1, "one piece");
    assert!(grown[0].holes.is_empty(), "{} holes", grown[0].holes.len());
    assert_eq!(grown[0].outer.len(), 16, "only the true corners");
    assert!((grown[0].area() - sum).abs() < 1e-9);
    let at_once = union(&triangles);
    assert_eq!((at_once.len(), at_once[0].holes.len()), (1, 0));
}

#[test]
fn a_corner_in_the_middle_of_a_seam_leaves_no_slit() {
    for seed in 1..200 {
        let mut dice = Dice::new(seed);
        let pose = dice.pose(30.0);
        let share = dice.between(0.1, 0.9);
        let lower = points(&[(0.0, 0.0), (7.0, -3.0), (7.0, 0.0)]);
        let (left, right) = (Point::new(0.0, 0.0), Point::new(7.0, 0.0));
        let middle = left.lerp(right, share);
        let one = vec![left, middle, Point::new(2.0, 3.0)];
        let other = vec![middle, right, Point::new(2.0, 3.0)];
        let parts: Vec<Region> = [lower, one, other].into_iter().map(|p| plain(pose.apply_all(&p))).collect();
        let whole = union(&parts);
        assert_eq!((whole.len(), whole[0].holes.len()), (1, 0), "seed {seed}");
        assert_eq!(whole[0].outer.len(), 4, "seed {seed}");
    }
}

#[test]
fn a_frame_keeps_its_hole_and_loses_it_when_it_is_filled() {
    let square = Region::rectangle(4.0, 4.0);
    let window = Region::rectangle(2.0, 2.0).moved(Pose::new(Turn::NONE, Vec2::new(1.0, 1.0)));
    let frame = difference(&square, std::slice::from_ref(&window));
    assert_eq!((frame.len(), frame[0].holes.len(), frame[0].area()), (1, 1, 12.0));
    assert!(polygon::area(&frame[0].holes[0]) < 0.0, "holes run clockwise");
    assert!(intersection(&frame[0], &window).is_empty());
    let filled = union(&[frame[0].clone(), window]);
    assert_eq!((filled.len(), filled[0].holes.len(), filled[0].area()), (1, 0, 16.0));
}

#[test]
fn squares_that_touch_at_a_corner_or_side_have_nothing_in_common() {
    let one = Region::rectangle(1.0, 1.0);
    for (x, y, parts) in [(1.0, 0.0, 1), (1.0, 0.5, 1), (1.0, 1.0, 2)] {
        let other = one.moved(Pose::new(Turn::NONE, Vec2::new(x, y)));
        assert!(intersection(&one, &other).is_empty());
        let both = union(&[one.clone(), other]);
        assert_eq!((both.len(), total(&both)), (parts, 2.0), "shift {x}, {y}");
    }
}

#[test]
fn what_is_cut_along_the_edge_leaves_no_threads() {
    // a pose out by less than the tolerance of a fit
    for seed in 1..200 {
        let mut dice = Dice::new(seed);
        let cloth = Region::rectangle(5.0, 3.0);
        let off = dice.between(-9e-10, 9e-10);
        let tilt = Turn::from_degrees(dice.between(-9e-9, 9e-9));
        let piece = Pose::new(tilt, Vec2::new(off, off)).apply_all(&Region::rectangle(2.0, 3.0).outer);
        let rest = remainder(&cloth, &piece);
        assert_eq!(rest.len(), 1, "seed {seed}");
        assert_eq!(rest[0].outer.len(), 4, "seed {seed}: {:?}", rest[0].outer);
        assert!((rest[0].area() - 9.0).abs() < 1e-7);
    }
}

#[test]
fn empty_far_and_endless_operands_do_no_harm() {
    let square = Region::rectangle(1.0, 1.0);
    let nothing = Region::default();
    assert!(union(&[]).is_empty() && union(std::slice::from_ref(&nothing)).is_empty());
    assert!(intersection(&square, &nothing).is_empty());
    assert_eq!(total(&difference(&square, std::slice::from_ref(&nothing))), 1.0);
    let wild = plain(points(&[(f64::NAN, 0.0), (f64::INFINITY, 1.0), (0.0, f64::NEG_INFINITY)]));
    let line = plain(points(&[(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)]));
    let _ = union(&[wild, square.clone()]);
    assert_eq!(total(&union(&[line, square])), 1.0);
}
