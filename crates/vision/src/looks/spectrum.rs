//! Repeats and scale, from how a print agrees with itself moved.

use super::grid::Grid;
use std::f64::consts::TAU;

/// A grid of complex numbers whose sides are powers of two.
#[derive(Clone)]
pub(super) struct Wave {
    pub(super) size: usize,
    pub(super) cells: Vec<[f64; 2]>,
}

impl Wave {
    /// Real numbers laid into the upper left corner of zeros.
    pub(super) fn of(size: usize, width: usize, values: impl Iterator<Item = f64>) -> Self {
        let mut cells = vec![[0.0; 2]; size * size];
        for (i, value) in values.enumerate() {
            cells[i / width * size + i % width][0] = value;
        }
        Self { size, cells }
    }

    /// The Fourier transform both ways (Cooley and Tukey 1965, radix two), back again with `back`.
    pub(super) fn transformed(mut self, back: bool) -> Self {
        let n = self.size;
        let turns = turns(n, back);
        for row in self.cells.chunks_mut(n) {
            transform(row, &turns);
        }
        let mut column = vec![[0.0; 2]; n];
        for c in 0..n {
            for (r, cell) in column.iter_mut().enumerate() {
                *cell = self.cells[r * n + c];
            }
            transform(&mut column, &turns);
            for (r, cell) in column.iter().enumerate() {
                self.cells[r * n + c] = *cell;
            }
        }
        if back {
            let scale = 1.0 / (n * n) as f64;
            self.cells.iter_mut().for_each(|cell| *cell = cell.map(|v| v * scale));
        }
        self
    }

    /// Cell by cell the product with the conjugate of another, for correlations.
    pub(super) fn against(&self, other: &Self) -> Self {
        let product = |(a, b): (&[f64; 2], &[f64; 2])| [a[0] * b[0] + a[1] * b[1], a[1] * b[0] - a[0] * b[1]];
        Self { size: self.size, cells: self.cells.iter().zip(&other.cells).map(product).collect() }
    }

    /// The real part at a shift that may be negative.
    pub(super) fn at(&self, dx: i64, dy: i64) -> f64 {
        let n = self.size as i64;
        self.cells[(dy.rem_euclid(n) * n + dx.rem_euclid(n)) as usize][0]
    }
}

/// The turns of a transform of so many numbers, half a circle of them.
fn turns(n: usize, back: bool) -> Vec<[f64; 2]> {
    let angle = if back { TAU } else { -TAU } / n as f64;
    (0..n / 2)
        .map(|k| {
            let (sin, cos) = (angle * k as f64).sin_cos();
            [cos, sin]
        })
        .collect()
}

fn transform(line: &mut [[f64; 2]], turns: &[[f64; 2]]) {
    let n = line.len();
    let bits = n.trailing_zeros();
    for i in 1..n {
        let j = i.reverse_bits() >> (usize::BITS - bits);
        if i < j {
            line.swap(i, j);
        }
    }
    let mut half = 1;
    while half < n {
        let every = n / (2 * half);
        for block in line.chunks_mut(2 * half) {
            let (low, high) = block.split_at_mut(half);
            for ((a, b), [c, s]) in low.iter_mut().zip(high).zip(turns.iter().step_by(every)) {
                let turned = [b[0] * c - b[1] * s, b[0] * s + b[1] * c];
                *b = [a[0] - turned[0], a[1] - turned[1]];
                *a = [a[0] + turned[0], a[1] + turned[1]];
            }
        }
        half *= 2;
    }
}

/// The print as one number a place, the mean taken off: how far along the direction in which its
/// colours differ most; and its deviation.
pub(super) fn signal(grid: &Grid) -> (Vec<f64>, f64) {
    let count = grid.inside().count().max(1) as f64;
    let mean = colour::mean(grid.inside().map(|i| (grid.smooth[i], 1.0))).unwrap_or_default();
    let off = |i: usize| {
        let lab = grid.smooth[i];
        [lab.l - mean.l, lab.a - mean.a, lab.b - mean.b]
    };
    let mut spread = [[0.0; 3]; 3];
    for i in grid.inside() {
        let off = off(i);
        for (row, a) in spread.iter_mut().zip(off) {
            for (cell, b) in row.iter_mut().zip(off) {
                *cell += a * b / count;
            }
        }
    }
    let mut axis = [1.0, 0.1, 0.1];
    for _ in 0..30 {
        let next: [f64; 3] = std::array::from_fn(|r| spread[r].iter().zip(axis).map(|(a, b)| a * b).sum());
        let length = next.iter().map(|v| v * v).sum::<f64>().sqrt();
        if length < 1e-12 {
            break;
        }
        axis = next.map(|v| v / length);
    }
    let values: Vec<f64> = (0..grid.on.len())
        .map(|i| if grid.on[i] { off(i).iter().zip(axis).map(|(a, b)| a * b).sum() } else { 0.0 })
        .collect();
    let deviation = (values.iter().map(|v| v * v).sum::<f64>() / count).sqrt();
    (values, deviation)
}

/// How a print agrees with itself moved by whole pixels, -1 to 1.
pub(super) struct Agreement {
    sums: Wave,
    ones: Wave,
    squares: Wave,
    least: f64,
}

impl Agreement {
    pub(super) fn of(grid: &Grid, values: &[f64]) -> Self {
        // Shifts go to half the longer side, so that half as much again keeps what wraps round apart.
        let longer = grid.width.max(grid.height());
        let size = (longer + longer / 2 + 2).next_power_of_two();
        let spectrum =
            |list: &mut dyn Iterator<Item = f64>| Wave::of(size, grid.width, list).transformed(false);
        let print = spectrum(&mut values.iter().copied());
        let on = spectrum(&mut grid.on.iter().map(|&on| f64::from(u8::from(on))));
        let square = spectrum(&mut values.iter().map(|v| v * v));
        let least = 0.2 * grid.inside().count() as f64;
        Self {
            sums: print.against(&print).transformed(true),
            ones: on.against(&on).transformed(true),
            squares: square.against(&on).transformed(true),
            least,
        }
    }

    /// At a shift; `None` where less than a fifth overlaps.
    pub(super) fn at(&self, dx: i64, dy: i64) -> Option<f64> {
        let ones = self.ones.at(dx, dy);
        let both = (self.squares.at(dx, dy) * self.squares.at(-dx, -dy)).max(0.0).sqrt();
        (ones > self.least && both > 1e-9).then(|| (self.sums.at(dx, dy) / both).clamp(-1.0, 1.0))
    }
}

/// Repeat and scale of a print.
pub(super) struct Scale {
    pub(super) repeat_in: Option<f64>,
    /// The shift at which half of the agreement is lost, in inches; 0 for a solid.
    pub(super) half_in: f64,
}

/// Finds the shortest shift at which the print comes again, and the one at which it has lost half its
/// agreement, averaged over all directions.
pub(super) fn scale(grid: &Grid) -> Scale {
    let (values, deviation) = signal(grid);
    if deviation < SOLID || grid.inside().count() < 64 {
        return Scale { repeat_in: None, half_in: 0.0 };
    }
    let agreement = Agreement::of(grid, &values);
    let most = (grid.width.max(grid.height()) / 2) as i64;
    let ring = |radius: f64| {
        let all: Vec<f64> = (0..48)
            .filter_map(|k| {
                let (sin, cos) = (f64::from(k) * TAU / 96.0).sin_cos();
                agreement.at((radius * cos).round() as i64, (radius * sin).round() as i64)
            })
            .collect();
        (!all.is_empty()).then(|| all.iter().sum::<f64>() / all.len() as f64)
    };
    let mut before = 1.0;
    let mut half = most as f64;
    for radius in 1..=most {
        let Some(here) = ring(radius as f64) else { break };
        if here < 0.5 {
            half = radius as f64 - 1.0 + (before - 0.5) / f64::max(before - here, 1e-9);
            break;
        }
        before = here;
    }
    Scale {
        repeat_in: repeat(&agreement, most, half).map(|px| px / grid.per_in),
        half_in: half / grid.per_in,
    }
}

/// The shortest shift, in pixels, that is a summit of agreement high enough.
fn repeat(agreement: &Agreement, most: i64, half: f64) -> Option<f64> {
    let mut best: Option<f64> = None;
    for dy in 0..=most {
        for dx in -most..=most {
            let length = (dx as f64).hypot(dy as f64);
            if length < 3.0 * half || best.is_some_and(|b| b <= length) {
                continue;
            }
            let Some(here) = agreement.at(dx, dy).filter(|&here| here > COMES_AGAIN) else { continue };
            let summit = (-1..=1)
                .all(|y| (-1..=1).all(|x| agreement.at(dx + x, dy + y).is_none_or(|near| near <= here)));
            if summit {
                best = Some(length);
            }
        }
    }
    best
}

/// Deviation in CIELAB below which a cloth is a solid.
const SOLID: f64 = 1.0;
/// Agreement from which on a print comes again.
const COMES_AGAIN: f64 = 0.6;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wave_transformed_and_back_is_itself() {
        let values: Vec<f64> = (0..64).map(|i| f64::from(i * 37 % 11)).collect();
        let wave = Wave::of(8, 8, values.iter().copied());
        let there = wave.clone().transformed(false);
        assert!((there.cells[0][0] - values.iter().sum::<f64>()).abs() < 1e-9);
        let again = there.transformed(true);
        for (a, b) in again.cells.iter().zip(&wave.cells) {
            assert!((a[0] - b[0]).abs() < 1e-9 && a[1].abs() < 1e-9);
        }
    }
}
