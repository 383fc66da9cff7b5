//! What is left of a cloth is always a sound region: it can be written down and read again.

mod common;

use common::{Dice, plain, points, total};
use plane::{Point, Pose, Region, Turn, Vec2, intersection, polygon, remainder};

/// Whether each part is sound, and the same when it is read again.
fn assert_sound(regions: &[Region], case: &str) {
    for region in regions.iter().filter(|region| region.area() > 1e-6) {
        let read = Region::try_new(region.outer.clone(), region.holes.clone());
        let read = read.unwrap_or_else(|problem| panic!("{case}: {problem} {region:?}"));
        assert!((read.area() - region.area()).abs() < 1e-9, "{case}");
    }
}

/// A corner of the cut lies on the edge of the cloth, a hair inside it: the case of a maker's quilt.
#[test]
fn a_window_that_touches_the_edge_with_a_corner_is_a_hole_and_no_fold_of_the_outline() {
    for off in [0.0, 5e-10, -5e-10, 3e-9, 5e-8, 9e-13, -9e-13] {
        let cloth = Region::rectangle(6.0, 5.0);
        let piece = points(&[(0.1, 3.0), (1.6, 2.8), (3.2, 4.7), (1.0, 5.0 - off)]);
        let rest = remainder(&cloth, &piece);
        assert_eq!((rest.len(), rest[0].holes.len()), (1, 1), "{off}");
        assert_sound(&rest, &format!("{off}"));
        assert!((total(&rest) - 30.0 + polygon::area(&piece)).abs() < 1e-6);
    }
}

/// Cuts one after another, each with a corner on the edge of what is left, in any position.
#[test]
fn rests_of_cuts_that_touch_the_edge_are_sound() {
    for seed in 1..3000 {
        let mut dice = Dice::new(seed);
        let corners = 3 + dice.below(5);
        let cloth = plain(dice.convex(corners, 6.0)).moved(dice.pose(5.0));
        let mut rest = vec![cloth];
        for cut in 0..4 {
            let Some(from) = rest.first().cloned() else { break };
            let rings: Vec<&Vec<Point>> = std::iter::once(&from.outer).chain(&from.holes).collect();
            let ring = rings[dice.below(rings.len())];
            let i = dice.below(ring.len());
            let share = if dice.below(3) == 0 { 0.0 } else { dice.share() };
            let touch = ring[i].lerp(ring[(i + 1) % ring.len()], share);
            let off = [0.0, 1e-12, 1e-10, 5e-10, 3e-9, 4e-8, 9e-8, 3e-7][dice.below(8)];
            let corners = 3 + dice.below(4);
            let piece = dice.convex(corners, 2.0);
            let turned = Pose::new(dice.turn(), Vec2::new(0.0, 0.0)).apply_all(&piece);
            let near = dice.turn().vec() * off;
            let piece = Pose::new(Turn::NONE, touch + near - turned[0]).apply_all(&turned);
            let shape = plain(piece.clone());
            let case = format!("seed {seed}, cut {cut}");
            rest = remainder(&from, &piece);
            assert_sound(&rest, &case);
            let sum = total(&rest) + total(&intersection(&from, &shape));
            assert!((sum - from.area()).abs() < 1e-5, "{case}");
            rest.sort_by(|a, b| b.area().total_cmp(&a.area()));
        }
    }
}
