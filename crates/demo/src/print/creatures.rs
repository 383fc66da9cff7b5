//! Cockles, starfish, wading birds and herring: drawn by us from a few smooth outlines.

use super::curve::{Stamp, closed, open, polar};
use super::plate::Plate;
use super::scatter::{half_drop, scattered};
use crate::dice::Dice;
use plane::Point;

/// Cockle shells standing on their hinge, with ribs left open.
pub(super) fn cockles(
    plate: &mut Plate,
    inks: &[usize],
    rib: usize,
    grid: [usize; 2],
    size_in: f64,
    dice: &mut Dice,
) {
    for p in half_drop(plate.size_in, grid[0], grid[1], 0.05, dice) {
        let stamp = Stamp { turn_deg: dice.between(-14.0, 14.0), ..Stamp::upright(p, size_in) };
        let ink = inks[dice.below(inks.len())];
        let rim = |degrees: f64| {
            let scallop = ((degrees - 90.0) * 8.5).to_radians().cos().abs();
            let squeeze = 1.0 - ((degrees - 90.0) / 66.0).powi(4) * 0.3;
            0.93 * squeeze * (0.94 + 0.06 * scallop)
        };
        let mut outline = vec![stamp.point(-0.13, -0.45), stamp.point(0.13, -0.45), stamp.point(0.16, -0.36)];
        for i in 0..=44 {
            let degrees = 25.0 + 130.0 * f64::from(i) / 44.0;
            let v = polar(degrees, rim(degrees));
            outline.push(stamp.point(v.x, v.y - 0.40));
        }
        outline.push(stamp.point(-0.16, -0.36));
        plate.fill(ink, &outline);
        for i in -3..=3 {
            let degrees = 90.0 + 18.5 * f64::from(i);
            let ray = [0.16, 0.86].map(|share| polar(degrees, rim(degrees) * share));
            let path = ray.map(|v| stamp.point(v.x, v.y - 0.40));
            plate.stroke(rib, &path, [size_in * 0.012, size_in * 0.034]);
        }
        let band: Vec<Point> = (0..=12)
            .map(|i| {
                let degrees = 38.0 + 104.0 * f64::from(i) / 12.0;
                let v = polar(degrees, rim(degrees) * 0.62);
                stamp.point(v.x, v.y - 0.40)
            })
            .collect();
        plate.stroke(rib, &band, [size_in * 0.022, size_in * 0.022]);
    }
}

/// Five-armed starfish lying any way, with a row of dots up each arm.
pub(super) fn starfish(
    plate: &mut Plate,
    inks: &[usize],
    spot: usize,
    count: usize,
    size_in: f64,
    dice: &mut Dice,
) {
    for p in scattered(plate.size_in, count, dice) {
        let turn = dice.between(0.0, 72.0);
        let size = size_in * dice.between(0.75, 1.1);
        let bends: Vec<f64> = (0..5).map(|_| dice.between(-7.0, 7.0)).collect();
        let mut corners = Vec::new();
        for (arm, bend) in bends.iter().enumerate() {
            let way = turn + 72.0 * arm as f64;
            let places = [(-36.0, 0.19), (-12.0, 0.30), (bend - 5.0, 0.50), (bend + 5.0, 0.50), (12.0, 0.30)];
            corners.extend(places.map(|(off, reach)| p + polar(way + off, size * reach)));
        }
        plate.fill(inks[dice.below(inks.len())], &closed(&corners, 4));
        plate.disc(spot, p, size * 0.035);
        for (arm, bend) in bends.iter().enumerate() {
            for (k, reach) in [0.11, 0.20, 0.29, 0.37].into_iter().enumerate() {
                let way = turn + 72.0 * arm as f64 + bend * reach * 2.0;
                plate.disc(spot, p + polar(way, size * reach), size * (0.028 - 0.004 * k as f64));
            }
        }
    }
}

/// Small wading birds, walking either way.
pub(super) fn waders(
    plate: &mut Plate,
    body: usize,
    wing: usize,
    leg: usize,
    grid: [usize; 2],
    size_in: f64,
    dice: &mut Dice,
) {
    for (i, p) in half_drop(plate.size_in, grid[0], grid[1], 0.10, dice).into_iter().enumerate() {
        let stamp = Stamp {
            faces_left: i % 3 == 1,
            turn_deg: dice.between(-5.0, 5.0),
            ..Stamp::upright(p, size_in * dice.between(0.9, 1.08))
        };
        let scale = stamp.scale;
        let step = dice.between(0.02, 0.12);
        let legs = [
            [(0.02, 0.04), (0.05 + step * 0.4, -0.14), (0.01 + step, -0.33), (0.09 + step, -0.35)],
            [(-0.05, 0.05), (-0.06 - step * 0.6, -0.14), (-0.10 - step, -0.32), (-0.02 - step, -0.34)],
        ];
        for path in legs {
            plate.stroke(leg, &stamp.points(&path), [scale * 0.026, scale * 0.018]);
        }
        let probing = dice.chance(0.35);
        let beak = if probing {
            [(0.33, 0.36), (0.45, 0.27), (0.54, 0.12)]
        } else {
            [(0.33, 0.40), (0.48, 0.38), (0.62, 0.32)]
        };
        plate.stroke(leg, &open(&stamp.points(&beak), 5), [scale * 0.040, scale * 0.012]);
        let shape = [
            (0.20, 0.475),
            (0.30, 0.475),
            (0.355, 0.40),
            (0.31, 0.32),
            (0.27, 0.22),
            (0.20, 0.09),
            (0.03, 0.0),
            (-0.20, 0.05),
            (-0.36, 0.13),
            (-0.52, 0.21),
            (-0.30, 0.245),
            (-0.12, 0.30),
            (0.04, 0.325),
            (0.14, 0.37),
        ];
        plate.fill(body, &closed(&stamp.points(&shape), 4));
        let folded = [(0.13, 0.24), (0.02, 0.29), (-0.16, 0.26), (-0.47, 0.20), (-0.20, 0.125), (0.04, 0.12)];
        plate.fill(wing, &closed(&stamp.points(&folded), 4));
        plate.disc(0, stamp.point(0.275, 0.41), scale * 0.018);
    }
}

/// Herring in half drop, all swimming the same way.
pub(super) fn herring(
    plate: &mut Plate,
    body: usize,
    back: usize,
    grid: [usize; 2],
    length_in: f64,
    dice: &mut Dice,
) {
    for p in half_drop(plate.size_in, grid[0], grid[1], 0.06, dice) {
        let stamp = Stamp { turn_deg: 90.0 + dice.between(-9.0, 9.0), ..Stamp::upright(p, length_in) };
        let shape = [
            (0.50, 0.0),
            (0.36, 0.095),
            (0.10, 0.135),
            (-0.18, 0.085),
            (-0.34, 0.03),
            (-0.50, 0.13),
            (-0.45, 0.0),
            (-0.50, -0.13),
            (-0.34, -0.03),
            (-0.18, -0.075),
            (0.10, -0.115),
            (0.36, -0.085),
        ];
        plate.fill(body, &closed(&stamp.points(&shape), 4));
        let upper = [
            (0.43, 0.045),
            (0.30, 0.10),
            (0.08, 0.128),
            (-0.18, 0.08),
            (-0.33, 0.02),
            (-0.10, 0.035),
            (0.14, 0.045),
            (0.32, 0.03),
        ];
        plate.fill(back, &closed(&stamp.points(&upper), 4));
        plate.disc(0, stamp.point(0.395, 0.012), length_in * 0.021);
        let gill = open(&stamp.points(&[(0.30, 0.085), (0.265, 0.0), (0.295, -0.085)]), 4);
        plate.stroke(0, &gill, [length_in * 0.016, length_in * 0.016]);
        for k in 0..3 {
            let x = 0.14 - 0.11 * f64::from(k);
            plate.stroke(
                back,
                &stamp.points(&[(x + 0.04, -0.035), (x - 0.03, -0.035)]),
                [length_in * 0.016, length_in * 0.008],
            );
        }
    }
}

/// Little sails on the skyline, each a hull and two triangles.
pub(super) fn sails(
    plate: &mut Plate,
    hull: usize,
    sail: usize,
    grid: [usize; 2],
    size_in: f64,
    dice: &mut Dice,
) {
    for (i, p) in half_drop(plate.size_in, grid[0], grid[1], 0.08, dice).into_iter().enumerate() {
        let stamp =
            Stamp { faces_left: i % 2 == 1, turn_deg: dice.between(-4.0, 4.0), ..Stamp::upright(p, size_in) };
        plate.fill(
            hull,
            &closed(
                &stamp.points(&[
                    (-0.34, -0.26),
                    (0.0, -0.25),
                    (0.36, -0.24),
                    (0.22, -0.39),
                    (-0.04, -0.42),
                    (-0.25, -0.38),
                ]),
                3,
            ),
        );
        plate.fill(sail, &stamp.points(&[(-0.03, -0.17), (-0.01, 0.46), (0.34, -0.16)]));
        plate.fill(sail, &stamp.points(&[(-0.08, -0.17), (-0.07, 0.30), (-0.30, -0.18)]));
        for (k, reach) in [(0, 0.40), (1, 0.26)] {
            let y = -0.50 - 0.09 * f64::from(k);
            let wave = [(-reach, y), (-reach * 0.5, y + 0.03), (0.0, y), (reach * 0.5, y + 0.03), (reach, y)];
            plate.stroke(hull, &open(&stamp.points(&wave), 5), [size_in * 0.028, size_in * 0.014]);
        }
    }
}
