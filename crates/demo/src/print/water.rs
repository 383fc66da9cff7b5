//! Ripples, foam, bubbles, blotches and plain washes.

use super::plate::Plate;
use super::scatter::scattered;
use crate::dice::Dice;
use crate::noise::Noise;
use plane::{Point, Vec2};

/// Ripple marks as the tide leaves them: a heavy line, thick and thin, and above it thinner and
/// thinner echoes that break off, so that the print has a top. `bands` is how many fit the repeat.
pub(super) fn ripples(plate: &mut Plate, crest: usize, echo: usize, bands: usize, seed: u64) {
    let size = plate.size_in;
    let pitch = size[1] / bands as f64;
    let relief = |k, bump| Noise::stretched(seed ^ k, size, bump, 2);
    let (bend, sway) = (relief(1, [1.5, 2.0]), relief(2, [0.5, 1.0]));
    let edge = plate.cell_in() / pitch;
    let height = |p: Point| p.y / pitch + 0.62 * bend.at(p.x, p.y) + 0.20 * sway.at(p.x, p.y);
    // Where each line runs in its band, how thick it is, how much that varies.
    let lines = [
        (0.10, 0.21, 0.34, crest),
        (0.42, 0.105, 0.24, echo),
        (0.64, 0.060, 0.20, crest),
        (0.82, 0.015, 0.20, echo),
    ];
    for (k, (at, thick, varies, ink)) in lines.into_iter().enumerate() {
        let swell = relief(11 + k as u64, [0.9, 0.45]);
        plate.wash(ink, |p| {
            let t = height(p) - at;
            // The lower edge is smooth and the upper one swells.
            let off = t - t.round();
            let top = thick + varies * swell.at(p.x, p.y);
            let distance = (off - top).max(-off - top * 0.25);
            if top > 0.0 { (0.5 - distance / edge).clamp(0.0, 1.0) } else { 0.0 }
        });
    }
}

/// Rows of overlapping round waves, each with rings: they open upwards.
pub(super) fn foam(
    plate: &mut Plate,
    rings: &[(f64, f64, usize)],
    columns: usize,
    rows: usize,
    dice: &mut Dice,
) {
    let size = plate.size_in;
    let (pitch, step) = (size[0] / columns as f64, size[1] / rows as f64);
    let radius = pitch / 2.0 * 1.08;
    let shake: Vec<f64> = (0..columns * rows).map(|_| dice.between(-0.05, 0.05)).collect();
    // The wave in front at a place: the lowest whose disc reaches it.
    let front = |p: Point| {
        let first = ((p.y - radius) / step).floor() as i64;
        (first..first + rows as i64 * 2).find_map(|row| {
            let drop = if row.rem_euclid(2) == 1 { 0.5 } else { 0.0 };
            let column = (p.x / pitch - drop).round();
            let place =
                column.rem_euclid(columns as f64) as usize + row.rem_euclid(rows as i64) as usize * columns;
            let shake = shake.get(place).copied().unwrap_or(0.0);
            let centre =
                Point::new((column + drop) * pitch, row as f64 * step) + Vec2::new(0.0, shake * step);
            let distance = p.distance(centre) / radius;
            (distance <= 1.0).then_some(distance)
        })
    };
    let edge = plate.cell_in() / radius;
    for &(at, width, ink) in rings {
        plate.wash(ink, |p| {
            let distance = front(p).unwrap_or(1.0);
            (0.5 - ((distance - at).abs() - width / 2.0) / edge).clamp(0.0, 1.0)
        });
    }
}

/// Rings of many sizes, some with a gleam.
pub(super) fn bubbles(plate: &mut Plate, inks: [usize; 2], count: usize, largest_in: f64, dice: &mut Dice) {
    let places = scattered(plate.size_in, count, dice);
    for (i, p) in places.into_iter().enumerate() {
        let share = 1.0 - 0.75 * (i as f64 / count as f64).sqrt();
        let radius = largest_in * share * dice.between(0.8, 1.05);
        let width = (0.022 + 0.05 * radius) * dice.between(0.8, 1.15);
        let reach = Vec2::new(radius + width, radius + width);
        let squash = dice.between(0.94, 1.06);
        let ink = inks[usize::from(dice.chance(0.3))];
        plate.paint(ink, (p - reach, p + reach), |q| {
            let off = q - p;
            (Vec2::new(off.x * squash, off.y / squash).length() - radius).abs() - width / 2.0
        });
        if radius > largest_in * 0.4 {
            let gleam = super::curve::round(p, 40, |_| radius * 0.62);
            let from = dice.below(3) + 3;
            plate.stroke(ink, &gleam[from..from + 7], [width * 0.9, width * 0.4]);
        }
    }
}

/// Pools of dye that ran into each other, with a darker rim where one dried.
pub(super) fn blotches(plate: &mut Plate, layers: &[(usize, f64, f64)], rim: usize, bump_in: f64, seed: u64) {
    let size = plate.size_in;
    let drift = [1, 2].map(|k| Noise::new(seed ^ (k * 97), size, bump_in * 1.2, 2));
    for (k, &(ink, level, amount)) in layers.iter().enumerate() {
        let pools = Noise::new(seed ^ (k as u64 * 31 + 5), size, bump_in, 4);
        let height = |p: Point| {
            let by = drift.each_ref().map(|noise| noise.at(p.x, p.y) * bump_in * 0.5);
            pools.at(p.x + by[0], p.y + by[1]) - level
        };
        plate.wash(ink, |p| amount * (height(p) * 9.0 + 0.5).clamp(0.0, 1.0));
        plate.wash(rim, |p| {
            let off = (height(p) - 0.035) / 0.035;
            0.5 * amount * (1.0 - off * off).max(0.0)
        });
    }
}

/// A cloth that is nearly plain: soft clouds of one ink and threads of another.
pub(super) fn cloudy(plate: &mut Plate, cloud: usize, thread: usize, strength: f64, seed: u64) {
    let size = plate.size_in;
    let clouds = Noise::new(seed, size, 0.8, 4);
    plate.wash(cloud, |p| ((clouds.at(p.x, p.y) + 0.35) * strength).clamp(0.0, 1.0));
    let slub = |k, bump| Noise::stretched(seed ^ k, size, bump, 2);
    let (up, along) = (slub(3, [0.035, 1.4]), slub(4, [1.4, 0.035]));
    plate.wash(thread, |p| {
        let lines = up.at(p.x, p.y).max(0.0) + along.at(p.x, p.y).max(0.0);
        (lines * strength).clamp(0.0, 0.6)
    });
}
