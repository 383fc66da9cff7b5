//! Repeats and scale, from how a print agrees with itself moved.

use super::grid::Grid;
use std::f64::consts::TAU;

/// A square grid of complex numbers whose side is a power of two, real and imaginary parts apart.
#[derive(Clone)]
pub(super) struct Wave {
    size: usize,
    re: Vec<f32>,
    im: Vec<f32>,
}

impl Wave {
    fn new(size: usize) -> Self {
        Self { size, re: vec![0.0; size * size], im: vec![0.0; size * size] }
    }

    /// Numbers (a real and an imaginary part each) laid into the upper left corner of zeros.
    fn of(size: usize, width: usize, values: impl Iterator<Item = [f32; 2]>) -> Self {
        let mut wave = Self::new(size);
        for (i, [re, im]) in values.enumerate() {
            let at = i / width * size + i % width;
            (wave.re[at], wave.im[at]) = (re, im);
        }
        wave
    }

    /// The Fourier transform both ways (Cooley and Tukey 1965, radix two), back again with `back`. It comes
    /// out mirrored about the diagonal, and the way back mirrors it again.
    fn transformed(mut self, back: bool) -> Self {
        let turns = turns(self.size, back);
        self.down(&turns);
        self.mirror();
        self.down(&turns);
        if back {
            let scale = 1.0 / (self.size * self.size) as f32;
            self.re.iter_mut().chain(&mut self.im).for_each(|v| *v *= scale);
        }
        self
    }

    /// Transforms all columns at once, row against row.
    fn down(&mut self, turns: &[[f32; 2]]) {
        let n = self.size;
        let bits = n.trailing_zeros();
        for i in 1..n {
            let j = i.reverse_bits() >> (usize::BITS - bits);
            if i < j {
                for part in [&mut self.re, &mut self.im] {
                    let (low, high) = part.split_at_mut(j * n);
                    low[i * n..(i + 1) * n].swap_with_slice(&mut high[..n]);
                }
            }
        }
        let mut half = 1;
        while half < n {
            let every = n / (2 * half);
            let blocks = self.re.chunks_mut(2 * half * n).zip(self.im.chunks_mut(2 * half * n));
            for (re, im) in blocks {
                let ((low_re, high_re), (low_im, high_im)) =
                    (re.split_at_mut(half * n), im.split_at_mut(half * n));
                let low = low_re.chunks_mut(n).zip(low_im.chunks_mut(n));
                let high = high_re.chunks_mut(n).zip(high_im.chunks_mut(n));
                for ((low, high), turn) in low.zip(high).zip(turns.iter().step_by(every)) {
                    crossed(low, high, *turn);
                }
            }
            half *= 2;
        }
    }

    /// Rows to columns.
    fn mirror(&mut self) {
        let n = self.size;
        for part in [&mut self.re, &mut self.im] {
            for row in 1..n {
                for column in 0..row {
                    part.swap(row * n + column, column * n + row);
                }
            }
        }
    }

    /// The number of the cell that lies opposite.
    fn opposite(&self, i: usize) -> usize {
        let n = self.size;
        (n - i / n) % n * n + (n - i % n) % n
    }

    /// The number of the cell at a shift that may be negative.
    fn cell(&self, dx: i64, dy: i64) -> usize {
        let n = self.size as i64;
        (dy.rem_euclid(n) * n + dx.rem_euclid(n)) as usize
    }
}

/// Two rows, real and imaginary parts each, into their sum and difference, the second one turned before.
fn crossed(
    (low_re, low_im): (&mut [f32], &mut [f32]),
    (high_re, high_im): (&mut [f32], &mut [f32]),
    [c, s]: [f32; 2],
) {
    for ((a, b), (x, y)) in low_re.iter_mut().zip(low_im).zip(high_re.iter_mut().zip(high_im)) {
        let turned = [*x * c - *y * s, *x * s + *y * c];
        (*x, *y) = (*a - turned[0], *b - turned[1]);
        (*a, *b) = (*a + turned[0], *b + turned[1]);
    }
}

/// The turns of a transform of so many numbers, half a circle of them.
fn turns(n: usize, back: bool) -> Vec<[f32; 2]> {
    let angle = if back { TAU } else { -TAU } / n as f64;
    (0..n / 2)
        .map(|k| {
            let (sin, cos) = (angle * k as f64).sin_cos();
            [cos as f32, sin as f32]
        })
        .collect()
}

/// A print as one number a place.
pub(super) struct Signal {
    /// The numbers, 0 outside and in the mean.
    pub(super) values: Vec<f64>,
    /// Their deviation.
    pub(super) deviation: f64,
}

/// The print as one number a place, the mean taken off: how far along the direction in which its
/// colours differ most.
pub(super) fn signal(grid: &Grid) -> Signal {
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
    Signal { values, deviation }
}

/// How a print agrees with itself moved by whole pixels, -1 to 1.
pub(super) struct Agreement {
    /// Sums of products of what comes to lie on each other, and how much of it does.
    sums: Wave,
    /// Sums of the squares of what comes to lie on the print.
    squares: Wave,
    least: f32,
}

impl Agreement {
    pub(super) fn of(grid: &Grid, print: &Signal) -> Self {
        // Shifts go to half the longer side, so that half as much again keeps what wraps round apart.
        let longer = grid.width.max(grid.height());
        let size = (longer + longer / 2 + 2).next_power_of_two();
        // Deviations, so that both parts of a wave are of about one size.
        let value = |i: usize| (print.values[i] / print.deviation) as f32;
        let on = |i: usize| f32::from(u8::from(grid.on[i]));
        let places = 0..grid.on.len();
        let both = Wave::of(size, grid.width, places.clone().map(|i| [value(i), on(i)])).transformed(false);
        let square = Wave::of(size, grid.width, places.map(|i| [value(i).powi(2), 0.0])).transformed(false);
        let (mut sums, mut squares) = (Wave::new(size), Wave::new(size));
        for i in 0..size * size {
            let j = both.opposite(i);
            // The waves of two real grids out of the one that had both.
            let [re, im, other_re, other_im] = [both.re[i], both.im[i], both.re[j], both.im[j]];
            let [print_re, print_im] = [0.5 * (re + other_re), 0.5 * (im - other_im)];
            let [on_re, on_im] = [0.5 * (im + other_im), 0.5 * (other_re - re)];
            sums.re[i] = print_re * print_re + print_im * print_im;
            sums.im[i] = on_re * on_re + on_im * on_im;
            squares.re[i] = square.re[i] * on_re + square.im[i] * on_im;
            squares.im[i] = square.im[i] * on_re - square.re[i] * on_im;
        }
        let least = 0.2 * grid.inside().count() as f32;
        Self { sums: sums.transformed(true), squares: squares.transformed(true), least }
    }

    /// At a shift; `None` where less than a fifth overlaps.
    pub(super) fn at(&self, dx: i64, dy: i64) -> Option<f64> {
        let (there, back) = (self.sums.cell(dx, dy), self.sums.cell(-dx, -dy));
        let both = (self.squares.re[there] * self.squares.re[back]).max(0.0).sqrt();
        let enough = self.sums.im[there] > self.least && both > 1e-3 * self.least;
        enough.then(|| f64::from(self.sums.re[there] / both).clamp(-1.0, 1.0))
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
pub(super) fn scale(grid: &Grid, print: &Signal) -> Scale {
    if print.deviation < SOLID || grid.inside().count() < 64 {
        return Scale { repeat_in: None, half_in: 0.0 };
    }
    let agreement = Agreement::of(grid, print);
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
        let values: Vec<[f32; 2]> = (0..48).map(|i| [(i * 37 % 11) as f32, (i * 5 % 7) as f32]).collect();
        let wave = Wave::of(8, 6, values.iter().copied());
        let there = wave.clone().transformed(false);
        assert!((there.re[0] - values.iter().map(|v| v[0]).sum::<f32>()).abs() < 1e-4);
        // A single wave along the columns alone: its place is mirrored.
        let one = |i: usize| [(TAU * (i / 8) as f64 / 8.0).cos() as f32, 0.0];
        let single = Wave::of(8, 8, (0..64).map(one)).transformed(false);
        assert!((single.re[1] - 32.0).abs() < 1e-4 && single.re[8].abs() < 1e-4);
        let again = there.transformed(true);
        for i in 0..64 {
            assert!((again.re[i] - wave.re[i]).abs() < 1e-5 && (again.im[i] - wave.im[i]).abs() < 1e-5);
        }
    }

    #[test]
    fn agreement_is_that_of_the_sums_written_out() {
        let (width, height) = (9, 7);
        let on: Vec<bool> = (0..width * height).map(|i| i % 5 != 3).collect();
        let grid = Grid { width, per_in: 10.0, rgb: vec![], lab: vec![], smooth: vec![], on };
        let value = |i: usize| if grid.on[i] { (i * 29 % 13) as f64 - 6.0 } else { 0.0 };
        let values: Vec<f64> = (0..width * height).map(value).collect();
        let agreement = Agreement::of(&grid, &Signal { values: values.clone(), deviation: 3.7 });
        for (dx, dy) in [(0_i64, 0_i64), (1, 0), (-2, 1), (3, 2), (0, 3)] {
            let [mut sum, mut here, mut there] = [0.0; 3];
            for i in 0..width * height {
                let (x, y) = ((i % width) as i64 + dx, (i / width) as i64 + dy);
                if (0..width as i64).contains(&x) && (0..height as i64).contains(&y) {
                    let j = y as usize * width + x as usize;
                    if grid.on[i] && grid.on[j] {
                        sum += values[i] * values[j];
                        here += values[i].powi(2);
                        there += values[j].powi(2);
                    }
                }
            }
            let told = agreement.at(dx, dy).unwrap();
            assert!((told - sum / f64::sqrt(here * there)).abs() < 1e-4, "{dx} {dy}: {told}");
        }
    }
}
