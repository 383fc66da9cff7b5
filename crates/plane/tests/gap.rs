//! Gaps and crossings against slower methods that share nothing with them.

mod common;

use common::{Dice, plain, points};
use plane::fill::{Fill, Ground, Stroke};
use plane::gap::{Crossing, KeepOuts, Sides, first_crossing, spacing, tightest, widest};
use plane::{Point, Region, Turn};

/// Squared distances from every place of a lattice to the nearest marked one, after Felzenszwalb
/// and Huttenlocher, "Distance Transforms of Sampled Functions" (2012): lower envelopes of
/// parabolas, first along columns, then along rows.
fn distance_transform(marked: &[bool], width: usize, height: usize) -> Vec<f64> {
    let far = 1e12;
    let mut field: Vec<f64> = marked.iter().map(|&mark| if mark { 0.0 } else { far }).collect();
    for x in 0..width {
        let column: Vec<f64> = (0..height).map(|y| field[y * width + x]).collect();
        for (y, value) in envelope(&column).into_iter().enumerate() {
            field[y * width + x] = value;
        }
    }
    for y in 0..height {
        let row = envelope(&field[y * width..(y + 1) * width]);
        field[y * width..(y + 1) * width].copy_from_slice(&row);
    }
    field
}

fn envelope(f: &[f64]) -> Vec<f64> {
    let n = f.len();
    let (mut at, mut from, mut k) = (vec![0_usize; n], vec![f64::NEG_INFINITY; n + 1], 0);
    from[1] = f64::INFINITY;
    for q in 1..n {
        let meet = |p: usize| ((f[q] + (q * q) as f64) - (f[p] + (p * p) as f64)) / (2 * (q - p)) as f64;
        let mut s = meet(at[k]);
        while s <= from[k] {
            k -= 1;
            s = meet(at[k]);
        }
        k += 1;
        (at[k], from[k], from[k + 1]) = (q, s, f64::INFINITY);
    }
    let mut k = 0;
    (0..n)
        .map(|q| {
            while from[k + 1] < q as f64 {
                k += 1;
            }
            (q as f64 - at[k] as f64).powi(2) + f[at[k]]
        })
        .collect()
}

/// The widest gap's diameter on a lattice of `step` inches, right to about two steps.
fn widest_by_lattice(
    ground: &Ground,
    fill: &Fill,
    edges: &[(Point, Point)],
    reach: f64,
    step: f64,
    bounds: &Region,
) -> f64 {
    let n = (2.0 * reach / step) as usize;
    let mut marked = vec![false; n * n];
    let segments = fill.strokes.iter().flat_map(Stroke::segments).chain(edges.iter().copied());
    for (a, b) in segments {
        let steps = (2.0 * a.distance(b) / step).ceil().max(1.0) as usize;
        for i in 0..=steps {
            let p = a.lerp(b, i as f64 / steps as f64);
            let cell = |v: f64| (((v + reach) / step).round().max(0.0) as usize).min(n - 1);
            marked[cell(p.y) * n + cell(p.x)] = true;
        }
    }
    let distances = distance_transform(&marked, n, n);
    let mut most = 0.0_f64;
    for y in 0..n {
        for x in 0..n {
            let p = Point::new(x as f64 * step - reach, y as f64 * step - reach);
            if distances[y * n + x] > most
                && plane::polygon::contains(&bounds.outer, p)
                && (bounds.holes.is_empty() || ground.contains(p))
            {
                most = distances[y * n + x];
            }
        }
    }
    2.0 * most.sqrt() * step
}

fn random_fill(dice: &mut Dice, strokes: usize, reach: f64) -> Fill {
    let stroke = |dice: &mut Dice| {
        let mut p = Point::new(dice.between(-reach, reach), dice.between(-reach, reach));
        let mut way = dice.turn();
        let points = (0..12).map(|_| {
            way = way.then(Turn::from_degrees(dice.between(-50.0, 50.0)));
            p = p + way.vec() * 0.8;
            p
        });
        Stroke::open(points.collect())
    };
    Fill { strokes: (0..strokes).map(|_| stroke(dice)).collect() }
}

#[test]
fn the_widest_gap_is_what_a_distance_transform_finds() {
    let mut dice = Dice::new(1616);
    for case in 0..12 {
        let outline = plain(dice.outline(8, 9.5, 0.4));
        let hole = points(&[(-2.0, -1.0), (1.5, -2.0), (2.0, 2.0), (-1.0, 1.5)]);
        let ground = Ground::try_new(&outline, &[plain(hole)]).unwrap();
        let fill = random_fill(&mut dice, 5 + 4 * case, 8.0);
        for (keep_outs, with_edges, closed) in [
            (KeepOuts::Closed, true, true),
            (KeepOuts::SewnRound, true, false),
            (KeepOuts::Ignored, false, false),
        ] {
            let found = widest(&ground, &fill, keep_outs, 1.0 / 64.0).unwrap();
            let mut bounds = outline.clone();
            if closed {
                bounds.holes = vec![Vec::new()];
            }
            let slow =
                widest_by_lattice(&ground, &fill, &ground.edges(with_edges), 10.0, 1.0 / 32.0, &bounds);
            let diameter = 2.0 * found.radius;
            assert!((diameter - slow).abs() < 1.0 / 16.0, "{case} {keep_outs:?}: {diameter} {slow}");
        }
    }
}

#[test]
fn the_widest_gap_of_nothing_is_the_largest_disc() {
    let ground = Ground::try_new(&Region::rectangle(10.0, 6.0), &[]).unwrap();
    let found = widest(&ground, &Fill::default(), KeepOuts::Closed, 1e-3).unwrap();
    assert!((found.radius - 3.0).abs() < 1e-3 && (found.centre.y - 3.0).abs() < 0.1);
}

#[test]
fn a_gap_is_really_free_of_lines() {
    let mut dice = Dice::new(99);
    let ground = Ground::try_new(&Region::rectangle(8.0, 8.0), &[]).unwrap();
    for _ in 0..20 {
        let fill = random_fill(&mut dice, 10, 8.0);
        let found = widest(&ground, &fill, KeepOuts::Closed, 0.05).unwrap();
        for (a, b) in fill.strokes.iter().flat_map(Stroke::segments) {
            for i in 0..=20 {
                assert!(a.lerp(b, f64::from(i) / 20.0).distance(found.centre) >= found.radius - 1e-9);
            }
        }
    }
}

/// Every pair looked at, by sides.
fn crosses_slowly(strokes: &[Stroke]) -> bool {
    let all: Vec<(usize, usize, Point, Point)> = strokes
        .iter()
        .enumerate()
        .flat_map(|(s, stroke)| {
            stroke.segments().enumerate().map(move |(i, (a, b))| (s, i, a, b)).collect::<Vec<_>>()
        })
        .collect();
    let side = |a: Point, b: Point, p: Point| (b - a).cross(p - a) > 0.0;
    all.iter().enumerate().any(|(k, &(s, i, a, b))| {
        all[k + 1..].iter().any(|&(t, j, c, d)| {
            !(s == t && i + 1 == j) && side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
        })
    })
}

#[test]
fn the_sweep_finds_a_crossing_just_when_there_is_one() {
    let mut dice = Dice::new(77);
    let (mut with, mut without) = (0, 0);
    for _ in 0..400 {
        let count = 1 + dice.below(3);
        let fill = random_fill(&mut dice, count, 9.0);
        let slow = crosses_slowly(&fill.strokes);
        assert_eq!(first_crossing(&fill.strokes).is_some(), slow);
        with += usize::from(slow);
        without += usize::from(!slow);
    }
    assert!(with > 30 && without > 30, "{with} {without}");
}

#[test]
fn touching_and_turning_back_count_as_crossing() {
    let stroke = |list: &[(f64, f64)]| Stroke::open(points(list));
    let long = stroke(&[(0.0, 0.0), (4.0, 0.0)]);
    let touching = [long.clone(), stroke(&[(2.0, 0.0), (2.0, 3.0)])];
    let found = first_crossing(&touching);
    assert_eq!(found, Some(Crossing { first: (0, 0), second: (1, 0), near: Point::new(2.0, 0.0) }));
    assert!(first_crossing(&[stroke(&[(0.0, 0.0), (4.0, 0.0), (1.0, 0.0)])]).is_some());
    assert!(first_crossing(&[long.clone(), stroke(&[(1.0, 0.0), (3.0, 0.0)])]).is_some());
    assert!(first_crossing(&[long, stroke(&[(0.0, 0.001), (4.0, 0.001)])]).is_none());
    let square = Stroke::closed(Region::rectangle(2.0, 2.0).outer);
    assert!(first_crossing(&[square]).is_none());
}

#[test]
fn rows_are_measured_on_the_side_asked_for_and_not_across_walls() {
    let row = |y: f64| Stroke::open(points(&[(0.0, y), (10.0, y)]));
    let rows = [row(0.0), row(1.0), row(1.6)];
    let both = spacing(&rows, &[], Sides::Both, 0.25, 4.0).unwrap();
    assert!((both.least_in - 0.6).abs() < 1e-12 && (both.most_in - 1.0).abs() < 1e-12);
    let left = spacing(&rows[..2], &[], Sides::Left, 0.25, 4.0).unwrap();
    assert_eq!(left.samples, 40);
    assert!(left.alone_at.is_some(), "nothing lies left of the upper row");
    let wall = [(Point::new(-1.0, 0.5), Point::new(11.0, 0.5))];
    assert_eq!(spacing(&rows[..2], &wall, Sides::Both, 0.25, 4.0), None);
}

#[test]
fn the_tightest_curve_of_a_circle_is_its_radius_and_corners_are_counted_apart() {
    let circle = |radius: f64| {
        let points = (0..360).map(|i| Point::ORIGIN + Turn::from_degrees(f64::from(i)).vec() * radius);
        Stroke::closed(points.collect())
    };
    for radius in [0.5, 2.0, 10.0] {
        let found = tightest(&[circle(20.0), circle(radius)]);
        assert!((found.radius_in / radius - 1.0).abs() < 0.02, "{found:?}");
        assert_eq!(found.corners, 0);
    }
    let square = tightest(&[Stroke::closed(Region::rectangle(4.0, 4.0).outer)]);
    assert_eq!((square.corners, square.radius_in), (4, f64::INFINITY));
}
