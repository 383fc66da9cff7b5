//! Rendered photographs are what they say they are.

use colour::{Lab, Linear, Srgb, difference};
use demo::scene::{Recipe, Scene, piece_scene, scene};
use demo::{frozen_heap, sewn};
use plane::{Point, Vec2, polygon};
use quilt::table::replay;
use vision::cards::pattern;
use vision::{Picture, decode, find_cards};

/// A small picture, so that tests stay quick.
const SMALL: &[[u32; 2]] = &[[1344, 1008]];

fn small(seed: u64) -> Scene {
    // Larger cards than usual, so that a cell is still many pixels wide.
    let recipe = Recipe { card_side_in: [2.4, 2.6], ..Recipe::NORMAL.in_size(SMALL) };
    scene(&recipe, seed, &pattern)
}

/// Green light of a picture at a place, blended between the four nearest pixels.
fn light(picture: &Picture, px: Point) -> f64 {
    let (x, y) = ((px.x - 0.5).floor(), (px.y - 0.5).floor());
    let (right, down) = (px.x - 0.5 - x, px.y - 0.5 - y);
    let pixel = |i: i64, j: i64| {
        let [r, g, b] = picture.at(x as i64 + i, y as i64 + j);
        Srgb::new(r, g, b).to_linear().g
    };
    let upper = pixel(0, 0) * (1.0 - right) + pixel(1, 0) * right;
    let lower = pixel(0, 1) * (1.0 - right) + pixel(1, 1) * right;
    upper * (1.0 - down) + lower * down
}

/// How far outside a line the light is halfway between dark and white, in pixels: by the share of
/// dark along a line across it, which blur doesn't change.
fn half_contrast(picture: &Picture, at: Point, outward: Vec2) -> f64 {
    let profile: Vec<f64> =
        (-40..=40).map(|k| light(picture, at + outward * (f64::from(k) / 10.0))).collect();
    let (dark, white) = (profile[0], profile[80]);
    let share: f64 = profile.iter().map(|l| (white - l) / (white - dark)).sum::<f64>() / 81.0;
    share * 8.1 - 4.05
}

/// The corners' map against the pixels themselves: the outer border of each card lies where the
/// truth has it.
#[test]
fn edges_of_cards_are_where_the_truth_says() {
    let mut sides = 0;
    for seed in [1, 2, 3] {
        let Scene { picture, truth } = small(seed);
        for card in &truth.cards {
            for side in 0..4 {
                let (a, b) = (card.corners_in[side], card.corners_in[(side + 1) % 4]);
                let offs: Vec<f64> = (0..40)
                    .map(|i| {
                        let on_table = a.lerp(b, 0.1 + 0.8 * (f64::from(i) + 0.5) / 40.0);
                        let along = (b - a) * (1e-4 / (b - a).length());
                        let at = truth.camera.to_picture(on_table);
                        let way = truth.camera.to_picture(on_table + along) - at;
                        // Anticlockwise on the table with y up: inside is left; the picture's y is down.
                        let out = Vec2::new(way.y, -way.x) * (-1.0 / way.length());
                        half_contrast(&picture, at, out)
                    })
                    .collect();
                let mean = offs.iter().sum::<f64>() / 40.0;
                assert!(mean.abs() < 0.1, "seed {seed}, card {}, side {side}: {mean} px off", card.no);
                sides += 1;
            }
        }
    }
    assert!(sides >= 40, "{sides}");
}

/// The detector was written apart from the renderer: both agree on numbers, on which corner is the
/// first, and on where it is.
#[test]
fn cards_are_read_with_their_numbers_and_corners() {
    let mut found = 0;
    for seed in [1, 2, 3] {
        let Scene { picture, truth } = small(seed);
        let cards = find_cards(&picture);
        for card in &truth.cards {
            let Some(read) = cards.iter().find(|read| read.no == card.no) else { continue };
            found += 1;
            for (one, other) in read.corners.iter().zip(card.corners_px) {
                assert!(one.distance(other) < 0.5, "seed {seed}, card {}: {one:?} {other:?}", card.no);
            }
        }
        assert_eq!(truth.cards.len(), 4);
    }
    assert!(found >= 11, "{found} of 12");
}

fn mean(parts: impl Iterator<Item = Linear>) -> Lab {
    let all: Vec<Linear> = parts.collect();
    let share = 1.0 / all.len() as f64;
    let sum = all.iter().fold(Linear::default(), |sum, l| {
        Linear::new(sum.r + l.r * share, sum.g + l.g * share, sum.b + l.b * share)
    });
    sum.into()
}

/// In white, even light that gives paper its own lightness, cloth has the colours of its print.
#[test]
fn cloth_has_the_colours_of_its_print() {
    let even = Recipe {
        uneven: [0.0, 0.0],
        cast: 0.0,
        exposure: [0.876, 0.876],
        cut_off: 0.0,
        ..Recipe::NORMAL.in_size(SMALL)
    };
    let mut seen = 0;
    for seed in [4, 5] {
        let Scene { picture, truth } = scene(&even, seed, &pattern);
        for cloth in truth.cloths.iter().filter(|cloth| cloth.outline.area() > 12.0) {
            let (low, high) = polygon::bounds(&cloth.outline.outer).unwrap();
            let steps = 60;
            let places = (0..steps * steps).map(|i| {
                let share = |k: i32| (f64::from(k) + 0.5) / f64::from(steps);
                low + Vec2::new((high.x - low.x) * share(i % steps), (high.y - low.y) * share(i / steps))
            });
            // Not within a tenth of an inch of the edge, where blur mixes in the mat.
            let inner = places.filter(|p| {
                [(0.1, 0.0), (-0.1, 0.0), (0.0, 0.1), (0.0, -0.1)]
                    .iter()
                    .all(|&(x, y)| cloth.outline.contains(*p + Vec2::new(x, y)))
            });
            let found = mean(inner.map(|p| {
                let px = truth.camera.to_picture(p);
                let [r, g, b] = picture.at(px.x as i64, px.y as i64);
                Srgb::new(r, g, b).to_linear()
            }));
            let wanted = mean_of_shades(cloth.look.shades.iter().map(|s| (s.lab, s.share)));
            let off = difference(found, wanted);
            assert!(off < 4.0, "seed {seed}: {off} between {found:?} and {wanted:?}");
            seen += 1;
        }
    }
    assert!(seen >= 6, "{seen}");
}

/// Shades mixed as light.
fn mean_of_shades(shades: impl Iterator<Item = (Lab, f64)>) -> Lab {
    let sum = shades.fold(Linear::default(), |sum, (lab, share)| {
        let light = lab.to_linear();
        Linear::new(sum.r + light.r * share, sum.g + light.g * share, sum.b + light.b * share)
    });
    sum.into()
}

#[test]
fn what_is_laid_lies_apart_and_where_the_picture_shows_it() {
    let mut cut_off = 0;
    for seed in 10..16 {
        let recipe = Recipe::HARD.in_size(&[[256, 192]]);
        let Scene { truth, .. } = scene(&recipe, seed, &pattern);
        for (i, cloth) in truth.cloths.iter().enumerate() {
            let seen = cloth.outline.outer.iter().all(|p| truth.camera.sees(*p, 0.0));
            assert_eq!(seen, !cloth.cut_off, "seed {seed}");
            cut_off += u32::from(cloth.cut_off);
            let fine = |p: &Point| truth.camera.least_pixels_per_in(*p) >= recipe.least_pixels_per_in;
            assert!(cloth.cut_off || cloth.outline.outer.iter().all(fine), "seed {seed}");
            for other in &truth.cloths[..i] {
                let both = plane::intersection(&cloth.outline, &other.outline);
                let area: f64 = both.iter().map(plane::Region::area).sum();
                assert!(area < 1e-6, "seed {seed}: two cloths share {area} square inches");
            }
        }
        for card in &truth.cards {
            assert!(card.corners_in.iter().all(|p| truth.camera.sees(*p, 0.0)));
        }
    }
    assert!(cut_off > 0);
}

#[test]
fn a_jpeg_reads_back_as_it_was() {
    let Scene { picture, truth } = small(1);
    let jpeg = Scene { picture: picture.clone(), truth }.to_jpeg().unwrap();
    let back = decode(&jpeg).unwrap();
    assert_eq!([back.width, back.height], [picture.width, picture.height]);
    let pairs = back.rgb.as_flattened().iter().zip(picture.rgb.as_flattened());
    let off: f64 = pairs.map(|(a, b)| f64::from(a.abs_diff(*b))).sum();
    let off = off / (3 * picture.rgb.len()) as f64;
    assert!(off < 4.0, "{off}");
}

#[test]
fn a_seed_gives_the_same_picture_again() {
    let recipe = Recipe::HARD.in_size(&[[320, 240]]);
    let [one, again, other] = [7, 7, 8].map(|seed| scene(&recipe, seed, &pattern).picture);
    assert_eq!(one, again);
    assert_ne!(one, other);
}

/// Before and after five more patches: every patch lies there as the table has it, and what was
/// there before is as large as it was, less what the new seams took.
#[test]
fn a_half_made_piece_lies_there_as_it_was_sewn() {
    let sewn = sewn(3, 14, 24);
    assert_eq!(sewn.patches(), 14);
    let recipe = Recipe { least_pixels_per_in: 0.0, ..Recipe::NORMAL.in_size(SMALL) };
    for (patches, seed) in [(9, 5), (14, 6)] {
        let (table, halt) = replay(sewn.until(patches));
        assert!(halt.is_none(), "{halt:?}");
        let (_, top) = table.piece().unwrap();
        let Scene { truth, .. } = piece_scene(&recipe, seed, &pattern, &table, &sewn.heap).unwrap();
        let piece = truth.piece.unwrap();
        assert!((piece.area() - polygon::area(&top.outline_points())).abs() < 1e-9);
        assert_eq!(truth.cloths.len(), patches);
        for (cloth, face) in truth.cloths.iter().zip(top.faces().values()) {
            assert_eq!(cloth.cloth, table.patches()[&face.patch].cloth);
            assert!((cloth.outline.area() - polygon::area(&top.face_points(face))).abs() < 1e-9);
            assert!(cloth.outline.outer.iter().all(|p| truth.camera.sees(*p, 0.0)));
        }
        assert_eq!(truth.cards.len(), 4);
    }
    let (table, _) = replay(sewn.until(9));
    assert!(piece_scene(&recipe, 5, &pattern, &table, &frozen_heap(4, 12)).is_none(), "of another heap");
}
