//! Cards in rendered pictures whose corners are known: found, read and measured to a small part of a
//! pixel, and nothing else taken for one.

mod common;

use common::{Camera, Dice, Laid, Shot};
use plane::{Point, Vec2};
use vision::{Card, Picture, find_cards};

const SIZE: [u32; 2] = [1600, 1200];

/// Cards in a ring around the origin, none on another.
fn ring(dice: &mut Dice, count: u16, reach: f64, side: f64) -> Vec<Laid> {
    (0..count)
        .map(|no| {
            let a = (f64::from(no) + dice.between(-0.1, 0.1)) * std::f64::consts::TAU / f64::from(count);
            let at = Point::new(reach * a.cos() * 1.25, reach * a.sin() * 0.9);
            let turn_deg = dice.between(0.0, 360.0);
            let half = Vec2::new((turn_deg + 45.0).to_radians().cos(), (turn_deg + 45.0).to_radians().sin());
            Laid { no: 2 + no, at: at - half * (side * 0.5_f64.sqrt()), turn_deg, side }
        })
        .collect()
}

/// What was found of what lay there: per corner the error, outwards from the card's middle positive,
/// and its length.
fn compare(laid: &[Laid], camera: &Camera, found: &[Card]) -> (usize, Vec<(f64, f64)>) {
    let mut errors = Vec::new();
    let mut hits = 0;
    for card in laid {
        let truth = card.corners().map(|p| camera.to_picture(p));
        let Some(seen) = found.iter().find(|f| f.no == card.no) else { continue };
        hits += 1;
        let middle = truth[0].midpoint(truth[2]);
        for (seen, truth) in seen.corners.iter().zip(truth) {
            let out = (truth - middle) * (1.0 / truth.distance(middle));
            errors.push(((*seen - truth).dot(out), seen.distance(truth)));
        }
    }
    (hits, errors)
}

/// Bias outwards, root of the mean square, and the most.
fn summed(errors: &[(f64, f64)]) -> (f64, f64, f64) {
    let n = errors.len().max(1) as f64;
    let bias = errors.iter().map(|e| e.0).sum::<f64>() / n;
    let rms = (errors.iter().map(|e| e.1 * e.1).sum::<f64>() / n).sqrt();
    (bias, rms, errors.iter().map(|e| e.1).fold(0.0, f64::max))
}

fn pictures(
    shots: usize,
    seed: u64,
    tilt: f64,
    change: impl Fn(&mut Shot, &mut Dice),
) -> (usize, usize, Vec<(f64, f64)>) {
    let mut dice = Dice::new(seed);
    let (mut hits, mut all, mut errors) = (0, 0, Vec::new());
    for _ in 0..shots {
        let camera = Camera {
            tilt_deg: dice.between(0.0, tilt),
            towards_deg: dice.between(0.0, 360.0),
            roll_deg: dice.between(0.0, 360.0),
            ..Camera::plain(SIZE, 62.0)
        };
        let mut shot = Shot::new(camera);
        change(&mut shot, &mut dice);
        let laid = ring(&mut dice, 5, 6.0, 1.57);
        let found = find_cards(&shot.take(&laid, &mut dice));
        assert!(found.iter().all(|f| laid.iter().any(|card| card.no == f.no)), "a card that isn't there");
        let (n, mut own) = compare(&laid, &shot.camera, &found);
        hits += n;
        all += laid.len();
        errors.append(&mut own);
    }
    (hits, all, errors)
}

#[test]
fn ordinary_pictures() {
    for blur in [0.4, 0.8, 1.5] {
        let (hits, all, errors) = pictures(6, 11, 35.0, |shot, dice| {
            shot.blur_px = blur;
            shot.camera.k1 = dice.between(-0.03, 0.03);
        });
        let (bias, rms, most) = summed(&errors);
        println!("blur {blur}: {hits} of {all}, bias {bias:.3}, rms {rms:.3}, most {most:.3} px");
        assert_eq!(hits, all, "blur {blur}");
        assert!(bias.abs() < 0.08 && rms < 0.15 && most < 0.6, "blur {blur}: {bias} {rms} {most}");
    }
}

#[test]
fn steep_dim_noisy_pictures() {
    let (hits, all, errors) = pictures(8, 12, 55.0, |shot, dice| {
        shot.blur_px = dice.between(0.5, 2.0);
        shot.noise = 6.0;
        shot.falls = dice.between(-0.7, 0.7);
        shot.cast = [0.4, 0.3, 0.2];
        shot.ground = dice.between(0.02, 0.8);
    });
    let (bias, rms, most) = summed(&errors);
    println!("{hits} of {all}, bias {bias:.3}, rms {rms:.3}, most {most:.3} px");
    assert!(hits * 20 >= all * 19, "{hits} of {all}");
    assert!(bias.abs() < 0.15 && rms < 0.4, "{bias} {rms} {most}");
}

/// Bias and rms with a change to the picture.
fn measured(name: &str, seed: u64, change: impl Fn(&mut Shot, &mut Dice)) -> (f64, f64) {
    let (hits, all, errors) = pictures(4, seed, 30.0, change);
    let (bias, rms, most) = summed(&errors);
    println!("{name}: {hits} of {all}, bias {bias:.3}, rms {rms:.3}, most {most:.3} px");
    assert_eq!(hits, all, "{name}");
    (bias, rms)
}

#[test]
fn too_much_light_or_another_curve_does_not_shrink_cards() {
    let (bias, rms) = measured("too much light", 31, |shot, _| shot.cast = [2.2; 3]);
    assert!(bias.abs() < 0.04 && rms < 0.1, "{bias} {rms}");
    let (bias, rms) =
        measured("blur of numbers", 32, |shot, _| (shot.blurs_numbers, shot.blur_px) = (true, 1.2));
    assert!(bias.abs() < 0.04 && rms < 0.1, "{bias} {rms}");
}

#[test]
fn a_moving_camera_smears_evenly() {
    let (bias, rms) = measured("smeared", 33, |shot, dice| {
        let a = dice.between(0.0, 6.0);
        shot.smear_px = (5.0 * a.cos(), 5.0 * a.sin());
    });
    assert!(bias.abs() < 0.06 && rms < 0.4, "{bias} {rms}");
}

/// Lays a rectangle of one colour over a part of the picture.
fn cover(picture: &mut Picture, middle: Point, half: f64, colour: [u8; 3]) {
    for y in (middle.y - half) as usize..(middle.y + half) as usize {
        for x in (middle.x - half) as usize..(middle.x + half) as usize {
            picture.rgb[y * picture.width as usize + x] = colour;
        }
    }
}

#[test]
fn a_covered_corner_hides_a_card_and_a_spot_inside_does_not() {
    let mut dice = Dice::new(13);
    let shot = Shot::new(Camera::plain(SIZE, 62.0));
    let laid = ring(&mut dice, 4, 6.0, 1.57);
    let mut picture = shot.take(&laid, &mut dice);
    let corner = shot.camera.to_picture(laid[0].corners()[1]);
    cover(&mut picture, corner, 30.0, [120, 60, 60]);
    let inside = shot.camera.to_picture(laid[1].corners()[0].midpoint(laid[1].corners()[2]));
    cover(&mut picture, inside, 7.0, [255, 255, 255]);
    let found = find_cards(&picture);
    let numbers: Vec<u16> = found.iter().map(|card| card.no).collect();
    assert_eq!(numbers, [3, 4, 5]);
    let (_, errors) = compare(&laid[1..], &shot.camera, &found);
    let (bias, rms, most) = summed(&errors);
    assert!(rms < 0.2 && most < 0.6, "{bias} {rms} {most}");
}

#[test]
fn nothing_is_taken_for_a_card() {
    let mut dice = Dice::new(14);
    // Chequered cloth, chequered cloth with borders, random squares of random cells, plain noise.
    for kind in 0..4 {
        let (w, h) = (1200_usize, 900_usize);
        let cells: Vec<bool> = (0..200_000).map(|_| dice.share() < 0.5).collect();
        let rgb = (0..w * h)
            .map(|i| {
                let (x, y) = (i % w, i / w);
                let (a, b) = (x / 8, y / 8);
                let dark = match kind {
                    0 => (a / 3 + b / 3) % 2 == 0,
                    1 => {
                        a % 10 < 8
                            && b % 10 < 8
                            && ((a % 10 + b % 10) % 2 == 0 || a % 10 % 7 == 0 || b % 10 % 7 == 0)
                    }
                    2 => {
                        a % 10 < 8 && b % 10 < 8 && (cells[b * 150 + a] || a % 10 % 7 == 0 || b % 10 % 7 == 0)
                    }
                    _ => cells[(x * 7919 + y * 104_729) % cells.len()],
                };
                [if dark { 30 } else { 220 }; 3]
            })
            .collect();
        let picture = Picture { width: w as u32, height: h as u32, rgb };
        assert_eq!(find_cards(&picture), [], "kind {kind}");
    }
}

#[test]
fn pictures_of_nothing_have_no_cards() {
    for (width, height) in [(0, 0), (1, 1), (3, 1), (16, 16), (500, 2)] {
        let picture = Picture { width, height, rgb: vec![[90; 3]; (width * height) as usize] };
        assert_eq!(find_cards(&picture), []);
    }
}

#[test]
fn every_card_reads_as_itself_at_every_quarter() {
    let mut dice = Dice::new(15);
    for no in 0..vision::cards::COUNT {
        for quarter in 0..4 {
            let camera = Camera::plain([180, 180], 80.0);
            let laid =
                Laid { no, at: Point::new(0.0, 0.0), turn_deg: 90.0 * f64::from(quarter) + 3.0, side: 1.1 };
            let away = laid.corners()[2].to_vec2() * 0.5;
            let laid = Laid { at: Point::ORIGIN - away, ..laid };
            let found = find_cards(&Shot::new(camera).take(&[laid], &mut dice));
            assert_eq!(found.len(), 1, "{no} {quarter}");
            assert_eq!(found[0].no, no);
            for (seen, truth) in found[0].corners.iter().zip(laid.corners()) {
                assert!(seen.distance(camera.to_picture(truth)) < 0.5, "{no} {quarter}");
            }
        }
    }
}
