//! Where motifs go on a repeat: in half-drop rows as printed cloth has them, or scattered.

use crate::dice::Dice;
use plane::Point;

/// Columns and rows in a half drop: every second column is set down by half a row. `columns` must
/// be even for the repeat to close. Each place is shaken by up to `shake` of its cell.
pub(crate) fn half_drop(
    size_in: [f64; 2],
    columns: usize,
    rows: usize,
    shake: f64,
    dice: &mut Dice,
) -> Vec<Point> {
    let cell = [size_in[0] / columns as f64, size_in[1] / rows as f64];
    let mut places = Vec::with_capacity(columns * rows);
    for column in 0..columns {
        for row in 0..rows {
            let mut jitter = |k: usize| dice.between(-shake, shake) * cell[k];
            let drop = if column % 2 == 1 { 0.5 } else { 0.0 };
            let x = (column as f64 + 0.5) * cell[0] + jitter(0);
            let y = (row as f64 + 0.25 + drop) * cell[1] + jitter(1);
            places.push(Point::new(x, y));
        }
    }
    places
}

/// So many places, each as far from the ones before as the best of some tries: even, yet in no
/// order. Distances go round the edges of the repeat.
pub(crate) fn scattered(size_in: [f64; 2], count: usize, dice: &mut Dice) -> Vec<Point> {
    let mut places: Vec<Point> = Vec::with_capacity(count);
    for _ in 0..count {
        let mut best = (Point::ORIGIN, -1.0);
        for _ in 0..TRIES {
            let p = Point::new(dice.share() * size_in[0], dice.share() * size_in[1]);
            let room = places.iter().map(|&q| apart(size_in, p, q)).fold(f64::INFINITY, f64::min);
            if room > best.1 {
                best = (p, room);
            }
        }
        places.push(best.0);
    }
    places
}

/// Distance on the repeat, the short way round.
fn apart(size_in: [f64; 2], p: Point, q: Point) -> f64 {
    let wrap = |d: f64, length: f64| (d.abs() % length).min(length - d.abs() % length);
    let (dx, dy) = (wrap(p.x - q.x, size_in[0]), wrap(p.y - q.y, size_in[1]));
    (dx * dx + dy * dy).sqrt()
}

/// Tries for each scattered place.
const TRIES: usize = 24;
