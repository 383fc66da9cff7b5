//! Soft random relief that repeats with the print: for wobbling edges, uneven ink and blotches.
//!
//! Gradients of random direction on a grid that closes on itself, blended by a smooth curve;
//! octaves halve the grid and the height. Values lie about -0.7 to 0.7, mean 0. The gradients are
//! drawn once, because a relief is asked for at every pixel.

use crate::dice::mix;

/// A relief over one repeat.
#[derive(Clone, Debug)]
pub(crate) struct Noise {
    size_in: [f64; 2],
    octaves: Vec<Octave>,
}

/// One grid of gradients, row by row.
#[derive(Clone, Debug)]
struct Octave {
    columns: usize,
    rows: usize,
    gradients: Vec<[f64; 2]>,
}

impl Noise {
    /// A relief whose coarsest bumps are about `bump_in` wide, on a repeat of `size_in`.
    pub(crate) fn new(seed: u64, size_in: [f64; 2], bump_in: f64, octaves: u32) -> Self {
        Self::stretched(seed, size_in, [bump_in, bump_in], octaves)
    }

    /// A relief whose bumps are wider one way than the other.
    pub(crate) fn stretched(seed: u64, size_in: [f64; 2], bump_in: [f64; 2], octaves: u32) -> Self {
        let count = |k: usize| (size_in[k] / bump_in[k]).round().max(1.0) as usize;
        let (columns, rows) = (count(0), count(1));
        let octaves = (0..octaves)
            .map(|octave| Octave::new(mix(seed ^ u64::from(octave)), columns << octave, rows << octave))
            .collect();
        Self { size_in, octaves }
    }

    /// Height at a place, which may lie in any repeat.
    pub(crate) fn at(&self, x: f64, y: f64) -> f64 {
        let (u, v) = (x / self.size_in[0], y / self.size_in[1]);
        let (u, v) = (u - u.floor(), v - v.floor());
        let (mut sum, mut height) = (0.0, 1.0);
        for octave in &self.octaves {
            sum += height * octave.at(u, v);
            height *= 0.5;
        }
        sum
    }
}

impl Octave {
    fn new(seed: u64, columns: usize, rows: usize) -> Self {
        let gradient = |i: usize| {
            let key = ((i % columns) as u64) << 32 | (i / columns) as u64;
            GRADIENTS[(mix(seed ^ mix(key)) >> 60) as usize % GRADIENTS.len()]
        };
        Self { columns, rows, gradients: (0..columns * rows).map(gradient).collect() }
    }

    /// Height at a place given as its shares of the repeat, 0 up to 1.
    fn at(&self, u: f64, v: f64) -> f64 {
        let (x, y) = (u * self.columns as f64, v * self.rows as f64);
        let (left, low) = ((x as usize).min(self.columns - 1), (y as usize).min(self.rows - 1));
        let (dx, dy) = (x - left as f64, y - low as f64);
        let right = if left + 1 == self.columns { 0 } else { left + 1 };
        let high = if low + 1 == self.rows { 0 } else { low + 1 };
        let corner = |column: usize, row: usize, dx: f64, dy: f64| {
            let [gx, gy] = self.gradients[row * self.columns + column];
            gx * dx + gy * dy
        };
        let smooth = |t: f64| t * t * t * (t * (t * 6.0 - 15.0) + 10.0);
        let (sx, sy) = (smooth(dx), smooth(dy));
        let lower = corner(left, low, dx, dy) * (1.0 - sx) + corner(right, low, dx - 1.0, dy) * sx;
        let upper =
            corner(left, high, dx, dy - 1.0) * (1.0 - sx) + corner(right, high, dx - 1.0, dy - 1.0) * sx;
        lower * (1.0 - sy) + upper * sy
    }
}

/// Eight directions.
const GRADIENTS: [[f64; 2]; 8] = [
    [1.0, 0.0],
    [0.707, 0.707],
    [0.0, 1.0],
    [-0.707, 0.707],
    [-1.0, 0.0],
    [-0.707, -0.707],
    [0.0, -1.0],
    [0.707, -0.707],
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_relief_closes_on_itself_stays_in_bounds_and_does_not_jump() {
        let noise = Noise::new(9, [3.0, 2.5], 0.4, 3);
        for i in 0..500 {
            let (x, y) = (f64::from(i) * 0.137, f64::from(i) * 0.071);
            let height = noise.at(x, y);
            assert!(height.abs() < 1.3);
            assert!((height - noise.at(x + 3.0, y - 2.5)).abs() < 1e-9);
            assert!((height - noise.at(x + 1e-4, y - 1e-4)).abs() < 2e-3);
        }
    }
}
