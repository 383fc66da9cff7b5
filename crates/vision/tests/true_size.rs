//! From a rendered picture to the table in true size and in daylight.

mod common;

use colour::{Srgb, difference};
use common::{Camera, Dice, Laid, Shot};
use plane::Point;
use vision::light::PAPER;
use vision::{Window, find_cards, flatten, read_light, resample};

const SIZE: [u32; 2] = [1600, 1200];

fn laid() -> [Laid; 4] {
    let card = |no, x, y, turn_deg| Laid { no, at: Point::new(x, y), turn_deg, side: 1.57 };
    [card(0, -9.0, 4.0, 10.0), card(1, 7.0, 4.5, 80.0), card(2, -8.5, -6.0, 200.0), card(3, 8.5, -6.0, -30.0)]
}

fn camera() -> Camera {
    Camera {
        tilt_deg: 25.0,
        towards_deg: 40.0,
        roll_deg: 5.0,
        k1: -0.02,
        k2: 0.004,
        ..Camera::plain(SIZE, 62.0)
    }
}

#[test]
fn a_card_in_the_flat_is_a_square_of_its_side() {
    let mut dice = Dice::new(21);
    let picture = Shot::new(camera()).take(&laid(), &mut dice);
    let map = flatten(&find_cards(&picture), 1.57, SIZE).unwrap();
    let window = map.field();
    let flat = resample(&picture, &map, window, 60.0);
    assert_eq!(flat.seen.len(), flat.picture.rgb.len());
    let again = find_cards(&flat.picture);
    assert_eq!(again.len(), 4, "cards in the flat");
    for card in &again {
        for i in 0..4 {
            let side = card.corners[i].distance(card.corners[(i + 1) % 4]) / 60.0;
            assert!((side / 1.57 - 1.0).abs() < 0.003, "{side}");
        }
        // The flat and the map tell of the same places.
        let there = flat.on_table(card.middle());
        let seen = map.used().iter().find(|other| other.no == card.no).unwrap();
        assert!(there.distance(map.to_table(seen.middle())) < 0.01);
    }
}

#[test]
fn what_the_camera_did_not_see_is_marked() {
    let mut dice = Dice::new(22);
    let picture = Shot::new(camera()).take(&laid(), &mut dice);
    let map = flatten(&find_cards(&picture), 1.57, SIZE).unwrap();
    let window = Window { low: Point::new(-40.0, -1.0), high: Point::new(1.0, 1.0) };
    let flat = resample(&picture, &map, window, 20.0);
    assert_eq!((flat.picture.width, flat.picture.height), (820, 40));
    assert!(!flat.seen[0] && flat.seen[810]);
    for (x, seen) in flat.seen.iter().take(820).enumerate() {
        let px = map.to_picture(flat.on_table(Point::new(x as f64 + 0.5, 0.5)));
        let inside = px.x > 1.0 && px.y > 1.0 && px.x < 1599.0 && px.y < 1199.0;
        let outside = !(px.x > -1.0 && px.y > -1.0 && px.x < 1601.0 && px.y < 1201.0);
        assert!(if inside { *seen } else { !outside || !*seen }, "{x}");
    }
}

#[test]
fn windows_without_sense_give_bounded_flats() {
    let mut dice = Dice::new(23);
    let picture = Shot::new(Camera::plain([400, 300], 60.0))
        .take(&[Laid { no: 1, at: Point::new(-0.5, -0.5), turn_deg: 5.0, side: 1.5 }], &mut dice);
    let map = flatten(&find_cards(&picture), 1.5, [400, 300]).unwrap();
    let window = |a: f64, b: f64| Window { low: Point::new(a, a), high: Point::new(b, b) };
    for (window, per_in) in [
        (window(1.0, 0.0), 60.0),
        (window(f64::NAN, 1.0), 60.0),
        (window(0.0, 1.0), 0.0),
        (window(0.0, 1.0), f64::NAN),
    ] {
        assert_eq!(resample(&picture, &map, window, per_in).picture.rgb.len(), 0);
    }
    let large = resample(&picture, &map, window(-300.0, 300.0), 100.0);
    assert!(large.picture.rgb.len() < 60_100_000 && large.pixels_per_in < 100.0);
    assert!(large.pixels_per_in > 10.0);
}

#[test]
fn a_fine_grating_shrinks_to_its_mean_light() {
    // Lines two pixels wide, shrunk fourfold, are even: half the light, and not half the number.
    let mut dice = Dice::new(24);
    let camera = Camera::plain(SIZE, 62.0);
    let cards = laid();
    let map = flatten(&cards.map(|card| card.seen(&camera, 0.0, &mut dice)), 1.57, SIZE).unwrap();
    let rgb = (0..1600 * 1200).map(|i| if i % 1600 % 4 < 2 { [255; 3] } else { [0; 3] }).collect();
    let picture = vision::Picture { width: 1600, height: 1200, rgb };
    let flat =
        resample(&picture, &map, Window { low: Point::new(-5.0, -5.0), high: Point::new(5.0, 5.0) }, 15.5);
    let half = Srgb { r: 188, g: 188, b: 188 };
    for pixel in &flat.picture.rgb {
        let [r, g, b] = *pixel;
        assert!(difference(Srgb { r, g, b }.to_lab(), half.to_lab()) < 4.0, "{pixel:?}");
    }
}

#[test]
fn cast_and_fall_off_are_taken_out() {
    let mut dice = Dice::new(25);
    let mut shot = Shot::new(camera());
    shot.cast = [0.8, 0.64, 0.42];
    shot.falls = 0.35;
    shot.ground = 0.3;
    let picture = shot.take(&laid(), &mut dice);
    let map = flatten(&find_cards(&picture), 1.57, SIZE).unwrap();
    let light = read_light(&picture, &map).unwrap();
    assert_eq!(light.cards(), 4);
    let mut flat = resample(&picture, &map, map.field(), 20.0);
    let truth = Srgb { r: 149, g: 149, b: 149 }.to_lab();
    let off = |flat: &vision::Flat| {
        let mut all: Vec<f64> = (0..400)
            .filter_map(|k| {
                let px = Point::new((k % 20) as f64 / 20.0, (k / 20) as f64 / 20.0);
                let (w, h) = (flat.picture.width as usize, flat.picture.height as usize);
                let (x, y) = (4 + (px.x * (w - 8) as f64) as usize, 4 + (px.y * (h - 8) as f64) as usize);
                // The mean of a few pixels, or noise is all there is to see.
                let near: Vec<usize> = (0..49).map(|i| (y + i / 7 - 3) * w + x + i % 7 - 3).collect();
                let seen = near.iter().all(|at| flat.seen[*at]);
                let mean = |c: usize| {
                    (near.iter().map(|at| u32::from(flat.picture.rgb[*at][c])).sum::<u32>() / 49) as u8
                };
                // Between the cards, and on none: beyond them the fall-off is carried on by guess.
                let truly =
                    shot.camera.to_table(map.to_picture(flat.on_table(Point::new(x as f64, y as f64))));
                let between = truly.x.abs() < 9.0 && truly.y.abs() < 6.5;
                let free = laid()
                    .iter()
                    .all(|card| card.corners()[0].midpoint(card.corners()[2]).distance(truly) > 2.2);
                (seen && between && free)
                    .then(|| difference(Srgb { r: mean(0), g: mean(1), b: mean(2) }.to_lab(), truth))
            })
            .collect();
        all.sort_by(f64::total_cmp);
        (all[all.len() / 2], all[all.len() * 9 / 10])
    };
    let before = off(&flat);
    light.correct(&mut flat);
    let after = off(&flat);
    println!("before {before:?}, after {after:?}, paper {PAPER}");
    assert!(before.0 > 10.0, "{before:?}");
    assert!(after.0 < 1.2 && after.1 < 2.0, "{after:?}");
}
