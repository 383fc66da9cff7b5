//! The fit of one piece: turns, margins, flaws, notches, and a slow second method.

mod common;

use common::{Dice, plain, points, total};
use plane::{
    BUDGET, Fit, FitAsk, FitCloth, FitPiece, Line, Point, Pose, Region, Turn, Turning, best_fit,
    convex_parts, difference, fits, largest_disc, lies_within, polygon, remainder, try_fit, union,
};

fn ask<'a>(piece: &'a [Point], cloth: &'a Region, turning: Turning) -> FitAsk<'a> {
    FitAsk { piece, cloth, turning, base: Turn::NONE, margin: &[] }
}

/// Area of the placed piece that sticks out of the cloth, by the boolean kernel.
fn sticking_out(piece: &[Point], cloth: &Region, pose: Pose) -> f64 {
    total(&difference(&plain(pose.apply_all(piece)), std::slice::from_ref(cloth)))
}

/// Shifts at which the piece, turned, lies in the cloth: what of a wide square is left when
/// each side of the cloth has taken away the shifts at which a part of the piece crosses it,
/// kept where the piece's first part is inside. The slow second method.
fn room_at_turn(piece: &[Point], cloth: &Region, turn: Turn) -> f64 {
    let turned: Vec<Point> = piece.iter().map(|p| Point::ORIGIN + turn.apply(p.to_vec2())).collect();
    let parts = convex_parts(&turned);
    let mut forbidden = Vec::new();
    for ring in std::iter::once(&cloth.outer).chain(&cloth.holes) {
        for (a, b) in polygon::edges(ring) {
            for part in &parts {
                let sums: Vec<Point> = part.iter().flat_map(|p| [a - p.to_vec2(), b - p.to_vec2()]).collect();
                forbidden.push(plain(polygon::hull(&sums)));
            }
        }
    }
    let wide = Region::rectangle(40.0, 40.0).moved(Pose::new(Turn::NONE, plane::Vec2::new(-20.0, -20.0)));
    let inside = |shift: Point| {
        parts.iter().all(|part| polygon::centroid(part).is_some_and(|c| cloth.contains(c + shift.to_vec2())))
    };
    difference(&wide, &union(&forbidden))
        .into_iter()
        .filter(|room| largest_disc(room, 1e-4).is_some_and(|disc| inside(disc.centre)))
        .map(|room| room.area())
        .sum()
}

fn random_pair(seed: u64) -> (Vec<Point>, Region) {
    let mut dice = Dice::new(seed);
    let corners = 3 + dice.below(4);
    let size = dice.between(0.8, 3.0);
    let piece = if seed.is_multiple_of(3) {
        dice.outline(corners + 2, size, 0.6)
    } else {
        dice.convex(corners, size)
    };
    let corners = 4 + dice.below(8);
    let rough = dice.between(0.0, 0.7);
    let mut cloth = plain(dice.outline(corners, 3.0, rough));
    if seed.is_multiple_of(2) {
        let mut hole = dice.outline(4, 0.3, 0.3);
        hole.reverse();
        cloth.holes.push(hole);
        if !hole_inside(&cloth) {
            cloth.holes.clear();
        }
    }
    (piece, cloth)
}

fn hole_inside(cloth: &Region) -> bool {
    Region::try_new(cloth.outer.clone(), cloth.holes.clone()).is_ok()
}

#[test]
fn at_one_turn_the_search_and_the_slow_method_agree() {
    let (mut yes, mut no) = (0, 0);
    for seed in 1..900 {
        let (piece, cloth) = random_pair(seed);
        let turn = Dice::new(seed + 5000).turn();
        let room = room_at_turn(&piece, &cloth, turn);
        if room > 0.0 && room < 1e-6 {
            continue;
        }
        let found = fits(&FitAsk { base: turn, ..ask(&piece, &cloth, Turning::None) });
        assert_eq!(found.is_some(), room > 0.0, "seed {seed}: room {room}");
        if let Some(pose) = found {
            assert!(sticking_out(&piece, &cloth, pose) < 1e-7, "seed {seed}");
            assert!((pose.turn.vec() - turn.vec()).length() < 1e-12);
            yes += 1;
        } else {
            no += 1;
        }
    }
    assert!(yes > 100 && no > 100, "{yes} yes, {no} no");
}

#[test]
fn turning_freely_finds_whatever_any_of_many_turns_finds() {
    let (mut yes, mut no, mut unknown) = (0, 0, 0);
    for seed in 1..160 {
        let (piece, cloth) = random_pair(seed);
        let prepared = (FitPiece::new(&piece, &[]).unwrap(), FitCloth::new(&cloth).unwrap());
        match try_fit(&prepared.0, &prepared.1, Turning::Any, Turn::NONE, 10 * BUDGET) {
            Fit::Yes(pose) => {
                assert!(sticking_out(&piece, &cloth, pose) < 1e-7, "seed {seed}");
                assert!(lies_within(&piece, &cloth, pose));
                yes += 1;
            }
            Fit::No => {
                for k in 0..72 {
                    let turn = Turn::from_degrees(5.0 * f64::from(k));
                    let room = room_at_turn(&piece, &cloth, turn);
                    assert!(room < 1e-7, "seed {seed}: room {room} at {} degrees", 5 * k);
                }
                no += 1;
            }
            Fit::Unknown => unknown += 1,
        }
    }
    assert!(yes > 40 && no > 15 && unknown < 4, "{yes} yes, {no} no, {unknown} unknown");
}

#[test]
fn every_outline_fits_its_own_copy_wherever_it_lies() {
    for seed in 1..120 {
        let mut dice = Dice::new(seed);
        let corners = 3 + dice.below(6);
        let outline =
            if seed.is_multiple_of(2) { dice.convex(corners, 2.0) } else { dice.outline(corners, 2.0, 0.5) };
        let cloth = plain(outline.clone()).moved(dice.pose(5.0));
        let found = fits(&ask(&outline, &cloth, Turning::Any));
        assert!(found.is_some(), "seed {seed}: {outline:?}");
        let smaller: Vec<Point> = outline.iter().map(|p| Point::new(p.x * 1.001, p.y * 1.001)).collect();
        assert!(fits(&ask(&smaller, &cloth, Turning::Any)).is_none(), "seed {seed}");
    }
}

#[test]
fn a_piece_cut_from_a_cloth_fits_it_and_never_mirrored() {
    let piece = points(&[(0.0, 0.0), (3.0, 0.0), (0.0, 1.0)]);
    let mirrored = plain(points(&[(0.0, 0.0), (0.0, 1.0), (-3.0, 0.0)]));
    assert!(fits(&ask(&piece, &plain(piece.clone()), Turning::Any)).is_some());
    assert!(fits(&ask(&piece, &mirrored, Turning::Any)).is_none());
}

#[test]
fn a_print_that_runs_one_way_is_not_turned() {
    let tall = points(&[(0.0, 0.0), (1.0, 0.0), (1.0, 3.0), (0.0, 3.0)]);
    let wide = Region::rectangle(3.0, 1.0);
    assert!(fits(&ask(&tall, &wide, Turning::None)).is_none());
    assert!(fits(&ask(&tall, &wide, Turning::HalfTurns)).is_none());
    assert!(fits(&ask(&tall, &wide, Turning::Any)).is_some());
    let quarter = FitAsk { base: Turn::QUARTER, ..ask(&tall, &wide, Turning::None) };
    assert_eq!(fits(&quarter).map(|p| p.turn), Some(Turn::QUARTER));
    // a wedge, and the cloth it leaves when it stands on its head
    let wedge = points(&[(0.0, 0.0), (2.0, 0.0), (1.0, 3.0)]);
    let hanging = plain(points(&[(0.0, 3.0), (1.0, 0.0), (2.0, 3.0)]));
    assert!(fits(&ask(&wedge, &hanging, Turning::None)).is_none());
    let found = fits(&ask(&wedge, &hanging, Turning::HalfTurns)).unwrap();
    assert_eq!(found.turn, Turn::HALF);
}

#[test]
fn a_rough_cut_needs_its_margin_too() {
    let square = Region::rectangle(2.0, 2.0).outer;
    let cloth = Region::rectangle(2.6, 3.0);
    let with = |margin: &[f64]| fits(&FitAsk { margin, ..ask(&square, &cloth, Turning::Any) });
    assert!(with(&[]).is_some() && with(&[0.3; 4]).is_some());
    assert!(with(&[0.375; 4]).is_none());
    let pose = with(&[0.375, 0.0, 0.375, 0.0]).expect("on two opposite sides there is room");
    assert!(lies_within(&square, &cloth, pose));
    assert!(!lies_within(&Region::rectangle(2.7, 2.0).outer, &cloth, pose));
}

#[test]
fn a_flaw_in_the_middle_leaves_only_the_sides() {
    let flaw = points(&[(2.0, 2.0), (2.0, 3.0), (3.0, 3.0), (3.0, 2.0)]);
    let cloth = Region { outer: Region::rectangle(5.0, 5.0).outer, holes: vec![flaw] };
    let fits_size =
        |w: f64, h: f64| fits(&ask(&Region::rectangle(w, h).outer, &cloth, Turning::Any)).is_some();
    assert!(fits_size(5.0, 2.0) && fits_size(2.0, 2.0));
    assert!(!fits_size(2.01, 4.9) && !fits_size(3.0, 3.0));
    // a triangle across the corner just touches the flaw: its long side passes (2, 2)
    let leg = 4.0;
    let corner = points(&[(0.0, 0.0), (leg, 0.0), (0.0, leg)]);
    assert!(fits(&ask(&corner, &cloth, Turning::Any)).is_some());
    let corner = points(&[(0.0, 0.0), (leg + 1e-6, 0.0), (0.0, leg + 1e-6)]);
    assert!(fits(&ask(&corner, &cloth, Turning::Any)).is_none());
}

#[test]
fn a_bar_passes_the_bend_of_an_ell_as_far_as_geometry_lets_it() {
    // An ell of arms 1 wide and 3 long. A bar of width w at 45 degrees, its long side through
    // the inner corner (1, 1), ends on the outer sides: x + y = 2 there, so it is
    // 2 sqrt2 - 2 w long, if that is under the arms' own 3-inch room. Geometry, no source.
    let ell = plain(points(&[(0.0, 0.0), (3.0, 0.0), (3.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)]));
    // a piece of two bars is not convex: an elbow that only lies in the bend
    let elbow = points(&[(0.0, 0.0), (2.5, 0.0), (2.5, 0.9), (0.9, 0.9), (0.9, 2.5), (0.0, 2.5)]);
    assert!(fits(&ask(&elbow, &ell, Turning::Any)).is_some());
    let thick = points(&[(0.0, 0.0), (2.5, 0.0), (2.5, 1.1), (1.1, 1.1), (1.1, 2.5), (0.0, 2.5)]);
    assert!(fits(&ask(&thick, &ell, Turning::Any)).is_none());
    let across = |length: f64, width: f64| {
        let piece = Region::rectangle(length, width).outer;
        let turn = Turn::from_degrees(135.0);
        fits(&FitAsk { base: turn, ..ask(&piece, &ell, Turning::None) }).is_some()
    };
    for width in [0.1, 0.3] {
        let longest = 2.0 * 2_f64.sqrt() - 2.0 * width;
        assert!(across(longest - 1e-6, width), "width {width}");
        assert!(!across(longest + 1e-6, width), "width {width}");
    }
}

#[test]
fn margins_of_a_thousandth_of_a_millionth_are_told_apart() {
    let cloth = Region::rectangle(3.0, 2.0);
    let fits_width = |w: f64| fits(&ask(&Region::rectangle(w, 2.0).outer, &cloth, Turning::Any)).is_some();
    assert!(fits_width(3.0) && fits_width(3.0 + 1e-10));
    assert!(!fits_width(3.0 + 1e-8));
}

#[test]
fn the_best_fit_keeps_the_rest_together() {
    let cloth = Region::rectangle(8.0, 6.0);
    let piece = Region::rectangle(3.0, 2.0).outer;
    let pose = best_fit(&ask(&piece, &cloth, Turning::Any)).pose().unwrap();
    let rest = remainder(&cloth, &pose.apply_all(&piece));
    assert_eq!(rest.len(), 1);
    assert!((rest[0].area() - 42.0).abs() < 1e-9);
    let placed = pose.apply_all(&piece);
    let cut_in_corner = cloth.outer.iter().any(|c| placed.iter().any(|p| p.distance(*c) < 1e-9));
    assert!(cut_in_corner, "{placed:?}");
    let disc = largest_disc(&rest[0], 0.01).unwrap();
    assert!(disc.radius > 2.4, "the largest disc left has radius {}", disc.radius);
}

#[test]
fn the_best_fit_leaves_no_worse_a_rest_than_the_first() {
    let (mut roomier, mut asked) = (0, 0);
    for seed in 1..200 {
        let (piece, cloth) = random_pair(seed);
        let question = ask(&piece, &cloth, Turning::Any);
        let (Some(first), Some(best)) = (fits(&question), best_fit(&question).pose()) else { continue };
        assert!(lies_within(&piece, &cloth, best), "seed {seed}");
        let disc_left = |pose: Pose| {
            remainder(&cloth, &pose.apply_all(&piece))
                .iter()
                .filter_map(|rest| largest_disc(rest, 1e-3))
                .map(|disc| disc.radius)
                .fold(0.0, f64::max)
        };
        asked += 1;
        roomier += usize::from(disc_left(best) >= disc_left(first) - 1e-3);
    }
    assert!(asked > 60 && roomier * 10 > asked * 9, "{roomier} of {asked}");
}

#[test]
fn a_half_turn_only_best_fit_keeps_to_its_turns() {
    for seed in 1..60 {
        let (piece, cloth) = random_pair(seed);
        let base = Dice::new(seed + 900).turn();
        let question = FitAsk { base, ..ask(&piece, &cloth, Turning::HalfTurns) };
        assert_eq!(fits(&question).is_some(), best_fit(&question).pose().is_some(), "seed {seed}");
        if let Some(pose) = best_fit(&question).pose() {
            let (u, v) = (pose.turn.vec(), base.vec());
            assert!((u - v).length() < 1e-12 || (u + v).length() < 1e-12);
            assert!(lies_within(&piece, &cloth, pose));
        }
    }
}

#[test]
fn flaws_may_overlap_and_reach_over_the_edge() {
    let square =
        |x: f64, y: f64, side: f64| points(&[(x, y), (x, y + side), (x + side, y + side), (x + side, y)]);
    let flaws = vec![square(1.0, 1.0, 2.0), square(2.0, 2.0, 2.0), square(8.0, -1.0, 3.0)];
    let cloth = Region { outer: Region::rectangle(10.0, 6.0).outer, holes: flaws };
    let prepared = FitCloth::new(&cloth).unwrap();
    assert!((prepared.summary.area - (60.0 - 4.0 - 4.0 + 1.0 - 4.0)).abs() < 1e-9);
    let fits_size = |w: f64, h: f64| {
        let piece = Region::rectangle(w, h).outer;
        let pose = fits(&ask(&piece, &cloth, Turning::None));
        if let Some(pose) = pose {
            assert!(sticking_out(&piece, &cloth, pose) < 1e-9);
        }
        pose.is_some()
    };
    assert!(fits_size(4.0, 6.0) && fits_size(6.0, 4.0) && fits_size(10.0, 2.0));
    assert!(!fits_size(4.01, 6.0) && !fits_size(6.01, 4.0) && !fits_size(10.0, 2.01));
    let corner = Region::rectangle(1.0, 1.0).outer;
    let placed = Pose::new(Turn::NONE, plane::Vec2::new(4.0, 0.0)).apply_all(&corner);
    assert!((total(&remainder(&cloth, &placed)) - 48.0).abs() < 1e-9);
}

#[test]
fn nonsense_does_not_fit_and_does_no_harm() {
    let cloth = Region::rectangle(3.0, 2.0);
    let square = Region::rectangle(1.0, 1.0).outer;
    let none = [
        vec![],
        points(&[(0.0, 0.0)]),
        points(&[(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)]),
        points(&[(0.0, 0.0), (f64::NAN, 0.0), (1.0, 1.0)]),
        points(&[(0.0, 0.0), (f64::INFINITY, 0.0), (1.0, 1.0)]),
    ];
    for piece in &none {
        assert_eq!(fits(&ask(piece, &cloth, Turning::Any)), None);
        assert_eq!(best_fit(&ask(piece, &cloth, Turning::Any)).pose(), None);
        assert_eq!(fits(&ask(&square, &plain(piece.clone()), Turning::Any)), None);
    }
    let clockwise: Vec<Point> = square.iter().rev().copied().collect();
    assert_eq!(fits(&ask(&clockwise, &cloth, Turning::Any)), None, "a mirrored outline is refused");
    let bow = points(&[(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.1)]);
    let _ = fits(&ask(&square, &plain(bow), Turning::Any));
}

#[test]
fn doubled_corners_and_corners_on_straight_sides_change_nothing() {
    let cloth = plain(points(&[
        (0.0, 0.0),
        (1.5, 0.0),
        (3.0, 0.0),
        (3.0, 0.0),
        (3.0, 2.0),
        (1.0, 2.0),
        (0.0, 2.0),
        (0.0, 1.0),
    ]));
    let piece = points(&[(0.0, 0.0), (1.0, 0.0), (3.0, 0.0), (3.0, 2.0), (3.0, 2.0), (0.0, 2.0)]);
    assert!(fits(&ask(&piece, &cloth, Turning::Any)).is_some());
    assert!(best_fit(&ask(&piece, &cloth, Turning::Any)).pose().is_some());
    let line = Line::through(Point::new(0.0, 0.0), Point::new(1.0, 0.0)).unwrap();
    assert_eq!(line.inside_by(Point::new(0.0, 2.0)), 2.0);
}

/// A heap of columns of unit cells, some cells missing as flaws, as a region and as cells.
fn cell_cloth(dice: &mut Dice) -> (Region, Vec<Vec<bool>>) {
    let columns = 3 + dice.below(4);
    let heights: Vec<usize> = (0..columns).map(|_| 1 + dice.below(6)).collect();
    let mut cells: Vec<Vec<bool>> = (0..columns).map(|x| (0..6).map(|y| y < heights[x]).collect()).collect();
    let mut corners = vec![(0, 0), (columns, 0)];
    for x in (0..columns).rev() {
        corners.extend([(x + 1, heights[x]), (x, heights[x])]);
    }
    let at = |(x, y): (usize, usize)| Point::new(x as f64 / 64.0, y as f64 / 64.0);
    let mut outer: Vec<Point> = corners.into_iter().map(at).collect();
    outer.dedup();
    let mut holes = Vec::new();
    let (x, y) = (1 + dice.below(columns - 2), 1 + dice.below(3));
    let around = (x - 1..=x + 1).all(|i| heights[i] >= y + 2);
    if around && dice.share() < 0.6 {
        cells[x][y] = false;
        holes.push([(x, y), (x, y + 1), (x + 1, y + 1), (x + 1, y)].map(at).to_vec());
    }
    (Region { outer, holes }, cells)
}

/// An ell or a rectangle of cells, as an outline and as cells.
fn cell_piece(dice: &mut Dice) -> (Vec<Point>, Vec<(usize, usize)>) {
    let (w, h) = (1 + dice.below(3), 1 + dice.below(3));
    let (cut_w, cut_h) = (dice.below(w), dice.below(h));
    let corners = if cut_w > 0 && cut_h > 0 {
        vec![(0, 0), (w, 0), (w, h - cut_h), (w - cut_w, h - cut_h), (w - cut_w, h), (0, h)]
    } else {
        vec![(0, 0), (w, 0), (w, h), (0, h)]
    };
    let is_cut = |x: usize, y: usize| cut_w > 0 && cut_h > 0 && x >= w - cut_w && y >= h - cut_h;
    let cells = (0..w).flat_map(|x| (0..h).map(move |y| (x, y))).filter(|&(x, y)| !is_cut(x, y)).collect();
    let outline = corners.into_iter().map(|(x, y)| Point::new(x as f64 / 64.0, y as f64 / 64.0));
    (outline.collect(), cells)
}

#[test]
fn on_the_grid_of_64ths_the_answer_is_that_of_counting_cells() {
    let (mut yes, mut no) = (0, 0);
    for seed in 1..3000 {
        let mut dice = Dice::new(seed);
        let (cloth, cells) = cell_cloth(&mut dice);
        let (piece, taken) = cell_piece(&mut dice);
        let free = |x: usize, y: usize| {
            taken.iter().all(|(i, j)| cells.get(x + i).and_then(|c| c.get(y + j)).copied().unwrap_or(false))
        };
        let expected = (0..7).any(|x| (0..7).any(|y| free(x, y)));
        let question = ask(&piece, &cloth, Turning::None);
        let found = fits(&question);
        assert_eq!(found.is_some(), expected, "seed {seed}: {piece:?} in {cloth:?}");
        assert_eq!(best_fit(&question).pose().is_some(), expected, "seed {seed}");
        if expected {
            assert!(fits(&ask(&piece, &cloth, Turning::Any)).is_some(), "seed {seed}");
        }
        yes += usize::from(expected);
        no += usize::from(!expected);
    }
    assert!(yes > 300 && no > 300, "{yes} yes, {no} no");
}

#[test]
fn the_answer_is_the_same_far_away_and_in_large() {
    for seed in 1..150 {
        let (piece, cloth) = random_pair(seed);
        let near = fits(&ask(&piece, &cloth, Turning::Any)).is_some();
        let mut dice = Dice::new(seed + 77);
        let (there, here) = (dice.pose(400.0), dice.pose(400.0));
        let far = fits(&ask(&there.apply_all(&piece), &cloth.moved(here), Turning::Any));
        assert_eq!(far.is_some(), near, "seed {seed}: moved");
        let by = |p: &Point| Point::new(p.x * 16.0, p.y * 16.0);
        let large = Region {
            outer: cloth.outer.iter().map(by).collect(),
            holes: cloth.holes.iter().map(|h| h.iter().map(by).collect()).collect(),
        };
        let piece: Vec<Point> = piece.iter().map(by).collect();
        assert_eq!(fits(&ask(&piece, &large, Turning::Any)).is_some(), near, "seed {seed}: large");
    }
}
