//! Stripes, checks, plaids, nets and hatching.

use super::plate::Plate;
use super::scatter::half_drop;
use crate::dice::Dice;
use plane::{Point, Vec2};

/// One stripe: where it begins across the repeat, how wide it is, its ink, how dense it lies.
pub(super) type Band = (f64, f64, usize, f64);

/// Stripes up the cloth, with slightly soft hand-printed edges.
pub(super) fn stripes(plate: &mut Plate, bands: &[Band]) {
    for &(start, width, ink, amount) in bands {
        across(plate, ink, start, width, amount, |p| p.x);
    }
}

/// Bands both ways; where two cross, both inks lie.
pub(super) fn plaid(plate: &mut Plate, up: &[Band], along: &[Band]) {
    for &(start, width, ink, amount) in up {
        across(plate, ink, start, width, amount, |p| p.x);
    }
    for &(start, width, ink, amount) in along {
        across(plate, ink, start, width, amount, |p| p.y);
    }
}

/// One band across a coordinate that runs round the repeat.
fn across(plate: &mut Plate, ink: usize, start: f64, width: f64, amount: f64, at: fn(Point) -> f64) {
    let length = at(Point::new(plate.size_in[0], plate.size_in[1]));
    let cell = plate.cell_in();
    let middle = start + width / 2.0;
    plate.wash(ink, |p| {
        let off = (at(p) - middle).rem_euclid(length);
        let distance = off.min(length - off) - width / 2.0;
        amount * (0.5 - distance / cell).clamp(0.0, 1.0)
    });
}

/// A hanging net: knots in half drop, threads that sag a little between them.
pub(super) fn net(
    plate: &mut Plate,
    ink: usize,
    columns: usize,
    rows: usize,
    thread_in: f64,
    dice: &mut Dice,
) {
    let cell = [plate.size_in[0] / columns as f64, plate.size_in[1] / rows as f64];
    let knots = half_drop(plate.size_in, columns, rows, 0.05, dice);
    let knot = |column: usize, row: i64| {
        let wrapped = row.rem_euclid(rows as i64);
        let p = knots[column % columns * rows + wrapped as usize];
        let round = if column >= columns { plate.size_in[0] } else { 0.0 };
        p + Vec2::new(round, (row - wrapped) as f64 * cell[1])
    };
    let mut threads = Vec::new();
    for column in 0..columns {
        for row in 0..rows as i64 {
            let from = knot(column, row);
            let up = if column % 2 == 0 { row } else { row + 1 };
            for to in [knot(column + 1, up), knot(column + 1, up - 1)] {
                let sag = from.midpoint(to) - Vec2::new(0.0, cell[1] * dice.between(0.02, 0.09));
                threads.push(super::curve::open(&[from, sag, to], 4));
            }
        }
    }
    for thread in threads {
        let width = thread_in * dice.between(0.8, 1.2);
        plate.stroke(ink, &thread, [width, width]);
    }
    for p in knots {
        plate.disc(ink, p, thread_in * dice.between(1.2, 1.6));
    }
}

/// Short strokes in half drop, all leaning about the same way.
pub(super) fn drizzle(
    plate: &mut Plate,
    inks: &[usize],
    grid: [usize; 2],
    (length, width): (f64, f64),
    lean_deg: f64,
    dice: &mut Dice,
) {
    for p in half_drop(plate.size_in, grid[0], grid[1], 0.18, dice) {
        let way = super::curve::polar(lean_deg + dice.between(-5.0, 5.0), length * dice.between(0.35, 0.6));
        let ink = inks[dice.below(inks.len())];
        plate.stroke(ink, &[p - way, p + way], [width * dice.between(0.7, 1.0), width * 0.45]);
    }
}
