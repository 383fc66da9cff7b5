//! What thickness does to the light: soft shadows beside scraps and cards, and slight waves of the
//! cloth. Both are worked out once on a coarse grid of the table.

use super::index::Index;
use super::scenery::Thing;
use crate::dice::Dice;
use crate::noise::Noise;
use plane::{Point, Vec2};

/// How shadows fall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Falls {
    /// How much of the light is kept away right under an edge, 0 to 1.
    pub(super) dark: f64,
    /// How far shadows fall, in inches.
    pub(super) by: Vec2,
    /// How soft they are: the deviation of their edge, in inches.
    pub(super) soft_in: f64,
    /// How much brighter and darker the waves of the cloth are.
    pub(super) waves: f64,
}

/// The grid.
#[derive(Clone, Debug)]
pub(super) struct Relief {
    low: Point,
    columns: usize,
    rows: usize,
    /// What is left of the light: on the mat, and on cloth.
    cells: Vec<[f32; 2]>,
}

/// Cells an inch.
const CELLS_PER_IN: f64 = 40.0;
/// Room round what lies on the table, in inches.
const ROOM_IN: f64 = 0.75;

impl Relief {
    pub(super) fn new(things: &[Thing], falls: &Falls, dice: &mut Dice) -> Self {
        let bounds = things.iter().map(Thing::bounds);
        let (low, high) = bounds
            .reduce(|(a, b), (c, d)| {
                (Point::new(a.x.min(c.x), a.y.min(c.y)), Point::new(b.x.max(d.x), b.y.max(d.y)))
            })
            .unwrap_or_default();
        let room = Vec2::new(ROOM_IN, ROOM_IN);
        let (low, size) = (low - room, high - low + room * 2.0);
        let count = |length: f64| (length * CELLS_PER_IN) as usize + 2;
        let (columns, rows) = (count(size.x), count(size.y));
        let place =
            |i: usize| low + Vec2::new((i % columns) as f64, (i / columns) as f64) * (1.0 / CELLS_PER_IN);
        let index = Index::new(things);
        let covered = |p: Point| index.at(p).iter().any(|&no| things[usize::from(no)].covers(p));
        let mut shadow: Vec<f32> =
            (0..columns * rows).map(|i| f32::from(u8::from(covered(place(i) - falls.by)))).collect();
        soften(&mut shadow, columns, falls.soft_in * CELLS_PER_IN);
        let waves = Noise::new(dice.bits(), [size.x.max(1.0), size.y.max(1.0)], 2.5, 2);
        let cell = |(i, shadow): (usize, f32)| {
            let p = place(i) - low;
            [1.0 - falls.dark as f32 * shadow, (1.0 + falls.waves * waves.at(p.x, p.y)) as f32]
        };
        let cells = shadow.into_iter().enumerate().map(cell).collect();
        Self { low, columns, rows, cells }
    }

    /// What is left of the light on the mat.
    pub(super) fn shade(&self, p: Point) -> f64 {
        self.at(p, 0)
    }

    /// What is left of the light on cloth.
    pub(super) fn wave(&self, p: Point) -> f64 {
        self.at(p, 1)
    }

    fn at(&self, p: Point, which: usize) -> f64 {
        let off = (p - self.low) * CELLS_PER_IN;
        let last = |count: usize| (count - 1) as f64;
        if off.x < 0.0 || off.y < 0.0 || off.x >= last(self.columns) || off.y >= last(self.rows) {
            return 1.0;
        }
        let (column, row) = (off.x as usize, off.y as usize);
        let (right, up) = ((off.x - column as f64) as f32, (off.y - row as f64) as f32);
        let cell = |i: usize, j: usize| self.cells[(row + j) * self.columns + column + i][which];
        let low = cell(0, 0) + (cell(1, 0) - cell(0, 0)) * right;
        let high = cell(0, 1) + (cell(1, 1) - cell(0, 1)) * right;
        f64::from(low + (high - low) * up)
    }
}

/// Softens a grid both ways by three runs of means, which together are near a normal curve.
fn soften(cells: &mut [f32], columns: usize, deviation: f64) {
    // Three boxes of 2r + 1 cells have the variance r (r + 1).
    let reach = (((1.0 + 4.0 * deviation * deviation).sqrt() - 1.0) / 2.0).round() as usize;
    if reach == 0 || columns == 0 {
        return;
    }
    let rows = cells.len() / columns;
    for _ in 0..3 {
        for row in 0..rows {
            run(cells, row * columns, 1, columns, reach);
        }
        for column in 0..columns {
            run(cells, column, columns, rows, reach);
        }
    }
}

/// Replaces each cell of a line by the mean of those around it; beyond the ends lies nothing.
fn run(cells: &mut [f32], first: usize, step: usize, count: usize, reach: usize) {
    let line: Vec<f32> = (0..count).map(|i| cells[first + i * step]).collect();
    let mut sum: f32 = line.iter().take(reach).sum();
    for i in 0..count {
        sum += line.get(i + reach).copied().unwrap_or(0.0);
        if i > reach {
            sum -= line[i - reach - 1];
        }
        cells[first + i * step] = sum / (2 * reach + 1) as f32;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn softening_keeps_the_sum_and_has_the_wanted_deviation() {
        let mut cells = vec![0.0; 41 * 41];
        cells[20 * 41 + 20] = 1.0;
        // Reach 2 has a variance of 6.
        soften(&mut cells, 41, 6.0_f64.sqrt());
        let sum: f32 = cells.iter().sum();
        let variance: f64 =
            cells.iter().enumerate().map(|(i, c)| f64::from(*c) * ((i % 41) as f64 - 20.0).powi(2)).sum();
        assert!((sum - 1.0).abs() < 1e-4 && (variance - 6.0).abs() < 1e-3, "{sum} {variance}");
    }
}
