//! Offsets: distances, inverses, margins a side.

mod common;

use common::{Dice, plain, points, total};
use plane::{Point, Region, depth_inside, grow_outline, grow_sides, offset, polygon};

#[test]
fn a_square_grown_by_a_quarter_is_half_an_inch_wider() {
    let grown = grow_outline(&Region::rectangle(2.0, 3.0).outer, 0.25);
    assert_eq!(polygon::area(&grown), 2.5 * 3.5);
    assert_eq!(grow_outline(&grown, -0.25), points(&[(0.0, 0.0), (2.0, 0.0), (2.0, 3.0), (0.0, 3.0)]));
    assert!(grow_outline(&Region::rectangle(2.0, 3.0).outer, -1.1).is_empty());
}

#[test]
fn growing_a_convex_outline_adds_what_its_corners_say() {
    // Source: area grows by perimeter * d + d^2 * sum of cot(A/2); geometry, no source needed.
    for seed in 1..200 {
        let mut dice = Dice::new(seed);
        let corners = 3 + dice.below(7);
        let shape = dice.convex(corners, 3.0);
        let d = dice.between(0.01, 0.6);
        let n = shape.len();
        let mitres: f64 = (0..n)
            .map(|i| {
                let (a, b, c) = (shape[(i + n - 1) % n], shape[i], shape[(i + 1) % n]);
                let (u, v) = (a - b, c - b);
                let cosine = u.dot(v) / (u.length() * v.length());
                ((1.0 + cosine) / (1.0 - cosine)).sqrt()
            })
            .sum();
        let expected = polygon::area(&shape) + polygon::perimeter(&shape) * d + d * d * mitres;
        let grown = grow_outline(&shape, d);
        assert_eq!(grown.len(), n, "seed {seed}");
        assert!((polygon::area(&grown) - expected).abs() < 1e-9, "seed {seed}");
        let back = grow_outline(&grown, -d);
        assert!((polygon::area(&back) - polygon::area(&shape)).abs() < 1e-9, "seed {seed}");
    }
}

#[test]
fn shrinking_keeps_exactly_the_points_deep_enough_inside() {
    for seed in 1..120 {
        let mut dice = Dice::new(seed);
        let shape = plain(dice.outline(9, 3.0, 0.5));
        let d = dice.between(0.05, 0.4);
        let kept = offset(&shape, -d, 100.0);
        for _ in 0..60 {
            let p = Point::new(dice.between(-3.0, 3.0), dice.between(-3.0, 3.0));
            let depth = depth_inside(&shape, p);
            if depth > d + 1e-9 {
                assert!(kept.iter().any(|k| k.contains(p)), "seed {seed}: {p:?} was lost");
            }
            // strips end square at points that stick in, so nearer points go at least when
            // they lie beside a side
            if depth > 0.0 && depth < d - 1e-9 && beside_a_side(&shape, p, depth) {
                assert!(!kept.iter().any(|k| k.contains(p)), "seed {seed}: {p:?} was kept");
            }
        }
    }
}

fn beside_a_side(shape: &Region, p: Point, depth: f64) -> bool {
    polygon::edges(&shape.outer).any(|(a, b)| {
        let along = (p - a).dot(b - a) / (b - a).dot(b - a);
        let off = (b - a).cross(p - a) / a.distance(b);
        (0.0..=1.0).contains(&along) && (off - depth).abs() < 1e-9
    })
}

#[test]
fn a_frame_grows_into_its_window_and_shrinks_away_from_it() {
    let window = points(&[(1.0, 1.0), (1.0, 3.0), (3.0, 3.0), (3.0, 1.0)]);
    let frame = Region { outer: Region::rectangle(4.0, 4.0).outer, holes: vec![window] };
    assert!((total(&offset(&frame, 0.25, 12.0)) - (4.5 * 4.5 - 1.5 * 1.5)).abs() < 1e-10);
    assert!((total(&offset(&frame, -0.25, 12.0)) - (3.5 * 3.5 - 2.5 * 2.5)).abs() < 1e-10);
    assert!(offset(&frame, -0.6, 12.0).is_empty());
    assert!((total(&offset(&frame, 1.5, 12.0)) - 49.0).abs() < 1e-10);
}

#[test]
fn each_side_gets_its_own_margin() {
    let square = Region::rectangle(2.0, 2.0).outer;
    let grown = grow_sides(&square, &[0.5, 0.0, 0.25, 0.0]);
    assert!((polygon::area(&grown) - 2.0 * 2.75).abs() < 1e-12);
    // a notch narrower than its margins closes
    let notched =
        points(&[(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.2, 2.0), (2.0, 1.0), (1.8, 2.0), (0.0, 2.0)]);
    let grown = grow_sides(&notched, &[0.0, 0.0, 0.0, 0.3, 0.3, 0.0, 0.0]);
    assert!(polygon::area(&grown) > polygon::area(&notched) + 0.19, "{grown:?}");
    // an ell keeps its inner corner
    let ell = points(&[(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (1.0, 1.0), (1.0, 2.0), (0.0, 2.0)]);
    let grown = grow_outline(&ell, 0.25);
    assert_eq!(grown.len(), 6);
    assert!((polygon::area(&grown) - (2.5 * 1.5 + 1.5 * 1.0)).abs() < 1e-10);
}

#[test]
fn a_tip_sharper_than_the_limit_is_cut_off() {
    let sliver = points(&[(0.0, 0.0), (10.0, 0.0), (10.0, 0.4)]);
    let grown = grow_outline(&sliver, 0.25);
    let (low, _) = polygon::bounds(&grown).unwrap();
    assert!(low.x > -0.3, "the tip reaches {}", -low.x);
    let reach = total(&offset(&plain(sliver), 0.25, 100.0));
    assert!(reach > polygon::area(&grown), "with a wide limit it stays pointed");
}
