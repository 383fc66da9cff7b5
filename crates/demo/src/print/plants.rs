//! Leaves, reeds, kelp, eelgrass and branching coral.

use super::curve::{leaf, open, polar};
use super::plate::Plate;
use super::scatter::{half_drop, scattered};
use crate::dice::Dice;
use plane::{Point, Vec2};

/// Sprays of leaves growing upwards in half drop, every leaf with its midrib left open.
pub(super) fn sprays(plate: &mut Plate, inks: &[usize], grid: [usize; 2], height_in: f64, dice: &mut Dice) {
    for p in half_drop(plate.size_in, grid[0], grid[1], 0.06, dice) {
        let lean = dice.between(-16.0, 16.0);
        let tip = p + polar(90.0 + lean, height_in * 0.5);
        let base = p - polar(90.0 - lean * 0.6, height_in * 0.5);
        let stem = open(&[base, p + polar(lean, height_in * 0.05), tip], 8);
        let ink = inks[dice.below(inks.len())];
        plate.stroke(ink, &stem, [height_in * 0.03, height_in * 0.018]);
        for (i, pair) in [3_usize, 6, 9, 12].into_iter().enumerate() {
            let size = height_in * (0.36 - 0.05 * i as f64) * dice.between(0.9, 1.1);
            for side in [-1.0, 1.0] {
                let way = 90.0 + lean + side * dice.between(42.0, 56.0);
                veined(plate, ink, stem[pair], way, size, 0.40);
            }
        }
        veined(plate, ink, stem[15], 90.0 + lean * 1.5, height_in * 0.24, 0.42);
    }
}

/// One leaf with the ground showing along its middle.
fn veined(plate: &mut Plate, ink: usize, base: Point, degrees: f64, length: f64, fullness: f64) {
    plate.fill(ink, &leaf(base, degrees, length, length * fullness));
    let rib = [base + polar(degrees, length * 0.16), base + polar(degrees, length * 0.74)];
    plate.stroke(0, &rib, [length * 0.05, length * 0.02]);
}

/// Reeds with seed heads, rooted at several heights; long leaves lean off them.
pub(super) fn reeds(
    plate: &mut Plate,
    stem_ink: usize,
    head_ink: usize,
    grid: [usize; 2],
    height_in: f64,
    dice: &mut Dice,
) {
    for base in half_drop(plate.size_in, grid[0], grid[1], 0.16, dice) {
        let height = height_in * dice.between(0.75, 1.1);
        let sway = dice.between(-0.14, 0.14) * height;
        let top = base + Vec2::new(sway, height);
        let stem = open(&[base, base + Vec2::new(sway * 0.25, height * 0.5), top], 6);
        plate.stroke(stem_ink, &stem, [0.045, 0.022]);
        for side in [-1.0, 1.0] {
            let reach = height * dice.between(0.45, 0.75);
            let bow = side * dice.between(0.10, 0.22) * height;
            let blade = [base, base + Vec2::new(bow * 0.35, reach * 0.6), base + Vec2::new(bow, reach)];
            plate.stroke(stem_ink, &open(&blade, 6), [0.055, 0.006]);
        }
        let way = stem[stem.len() - 1] - stem[stem.len() - 3];
        let length = height * 0.17;
        let head = way * (length / way.length().max(1e-9));
        plate.stroke(head_ink, &[top - head * 0.2, top + head * 0.8], [0.105, 0.085]);
        plate.stroke(stem_ink, &[top + head * 0.9, top + head * 1.35], [0.018, 0.008]);
    }
}

/// Kelp: a swaying rib with blades to both sides in turn.
pub(super) fn kelp(plate: &mut Plate, inks: &[usize], grid: [usize; 2], height_in: f64, dice: &mut Dice) {
    for p in half_drop(plate.size_in, grid[0], grid[1], 0.05, dice) {
        let sway = dice.between(0.06, 0.11) * height_in * if dice.chance(0.5) { 1.0 } else { -1.0 };
        let knots: Vec<Point> = (0..=4)
            .map(|i| {
                let turn = [0.0, 1.0, 0.0, -1.0, 0.0][i];
                p + Vec2::new(turn * sway, height_in * (i as f64 / 4.0 - 0.5))
            })
            .collect();
        let rib = open(&knots, 5);
        let ink = inks[dice.below(inks.len())];
        plate.stroke(ink, &rib, [0.05, 0.02]);
        for (i, w) in rib.windows(2).enumerate().skip(2).step_by(2) {
            let up = (w[1] - w[0]).y.atan2((w[1] - w[0]).x).to_degrees();
            let side = if i % 4 == 2 { 1.0 } else { -1.0 };
            let length =
                height_in * 0.30 * (1.0 - 0.5 * i as f64 / rib.len() as f64) * dice.between(0.85, 1.1);
            plate.fill(ink, &leaf(w[0], up + side * dice.between(30.0, 42.0), length, length * 0.30));
        }
        plate.fill(ink, &leaf(rib[rib.len() - 2], 90.0, height_in * 0.16, height_in * 0.05));
    }
}

/// Loose blades of eelgrass, lying any way, pointed at both ends.
pub(super) fn eelgrass(plate: &mut Plate, inks: &[usize], count: usize, length_in: f64, dice: &mut Dice) {
    for p in scattered(plate.size_in, count, dice) {
        let way = dice.between(0.0, 360.0);
        let bow = dice.between(-0.16, 0.16) * length_in;
        let half = polar(way, length_in * dice.between(0.35, 0.55));
        let side = polar(way + 90.0, bow);
        let middle = p + side;
        let width = length_in * dice.between(0.055, 0.085);
        let ink = inks[dice.below(inks.len())];
        for end in [half, -half] {
            let path = open(&[middle, p + end * 0.55 + side * 0.72, p + end], 6);
            plate.stroke(ink, &path, [width, width * 0.1]);
        }
    }
}

/// Branching coral, growing upwards.
pub(super) fn coral(plate: &mut Plate, inks: &[usize], grid: [usize; 2], height_in: f64, dice: &mut Dice) {
    for p in half_drop(plate.size_in, grid[0], grid[1], 0.06, dice) {
        let root = p - Vec2::new(0.0, height_in * 0.5);
        let ink = inks[dice.below(inks.len())];
        branch(
            plate,
            ink,
            root,
            90.0 + dice.between(-8.0, 8.0),
            height_in * 0.34,
            height_in * 0.075,
            4,
            dice,
        );
    }
}

/// One branch and what grows from its end.
#[expect(clippy::too_many_arguments, reason = "a recursion whose every argument changes")]
fn branch(
    plate: &mut Plate,
    ink: usize,
    from: Point,
    degrees: f64,
    length: f64,
    width: f64,
    more: u32,
    dice: &mut Dice,
) {
    let bend = dice.between(-10.0, 10.0);
    let middle = from + polar(degrees, length * 0.5);
    let end = middle + polar(degrees + bend, length * 0.5);
    plate.stroke(ink, &open(&[from, middle, end], 4), [width, width * 0.8]);
    if more == 0 {
        plate.disc(ink, end, width * 0.62);
        return;
    }
    let spread = dice.between(17.0, 29.0);
    for side in [-1.0, 1.0] {
        let way = degrees + bend + side * spread;
        let share = dice.between(0.66, 0.86);
        branch(plate, ink, end, way, length * share, width * 0.78, more - 1, dice);
    }
}
