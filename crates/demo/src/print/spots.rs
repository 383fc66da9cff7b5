//! Dots and pebbles.

use super::curve::round;
use super::plate::Plate;
use super::scatter::{half_drop, scattered};
use crate::dice::Dice;
use plane::Vec2;

/// Dots in half drop; the second ink, where there is one, sits in each, a little off as printing
/// goes.
pub(super) fn dots(
    plate: &mut Plate,
    outer: usize,
    inner: Option<usize>,
    grid: [usize; 2],
    radius_in: f64,
    dice: &mut Dice,
) {
    let off = Vec2::new(dice.between(-0.1, 0.1), dice.between(-0.1, 0.1)) * radius_in;
    for p in half_drop(plate.size_in, grid[0], grid[1], 0.05, dice) {
        let radius = radius_in * dice.between(0.9, 1.1);
        let lobes = [dice.between(0.0, 360.0), dice.between(0.0, 360.0)];
        let wave = |degrees: f64, turn: f64, count: f64| ((degrees + turn) * count).to_radians().cos();
        let outline =
            round(p, 28, |d| radius * (1.0 + 0.05 * wave(d, lobes[0], 2.0) + 0.03 * wave(d, lobes[1], 3.0)));
        plate.fill(outer, &outline);
        if let Some(inner) = inner {
            plate.disc(inner, p + off, radius * 0.5);
        }
    }
}

/// Rounded pebbles of several sizes and inks, some with a vein.
pub(super) fn pebbles(
    plate: &mut Plate,
    inks: &[usize],
    vein: usize,
    count: usize,
    largest_in: f64,
    dice: &mut Dice,
) {
    let places = scattered(plate.size_in, count, dice);
    for (i, p) in places.into_iter().enumerate() {
        let size = largest_in * (1.0 - 0.7 * (i as f64 / count as f64).sqrt());
        let (turn, flat) = (dice.between(0.0, 180.0), dice.between(0.62, 0.9));
        let lobes = [dice.between(0.0, 360.0), dice.between(0.0, 360.0)];
        let outline = round(p, 30, |d| {
            let a = (d - turn).to_radians();
            let oval = flat / (flat * flat * a.cos().powi(2) + a.sin().powi(2)).sqrt();
            let wave = |k: usize, count: f64| ((d + lobes[k]) * count).to_radians().cos();
            size * oval * (1.0 + 0.05 * wave(0, 3.0) + 0.03 * wave(1, 5.0))
        });
        plate.fill(inks[dice.below(inks.len())], &outline);
        if size > largest_in * 0.45 && dice.chance(0.5) {
            let way = super::curve::polar(turn + dice.between(60.0, 120.0), size * 0.55);
            let side = super::curve::polar(turn, size * dice.between(-0.3, 0.3));
            let path = [p + side - way, p + side * 1.25, p + side + way];
            plate.stroke(vein, &super::curve::open(&path, 5), [size * 0.11, size * 0.05]);
        }
    }
}
