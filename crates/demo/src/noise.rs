//! Soft random relief that repeats with the print: for wobbling edges, uneven ink and blotches.
//!
//! Gradients of random direction on a grid that closes on itself, blended by a smooth curve;
//! octaves halve the grid and the height. Values lie about -0.7 to 0.7, mean 0.

use crate::dice::mix;

/// A relief over one repeat.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Noise {
    seed: u64,
    size_in: [f64; 2],
    cells: [u32; 2],
    octaves: u32,
}

impl Noise {
    /// A relief whose coarsest bumps are about `bump_in` wide, on a repeat of `size_in`.
    pub(crate) fn new(seed: u64, size_in: [f64; 2], bump_in: f64, octaves: u32) -> Self {
        Self::stretched(seed, size_in, [bump_in, bump_in], octaves)
    }

    /// A relief whose bumps are wider one way than the other.
    pub(crate) fn stretched(seed: u64, size_in: [f64; 2], bump_in: [f64; 2], octaves: u32) -> Self {
        let cells = [0, 1].map(|k| (size_in[k] / bump_in[k]).round().max(1.0) as u32);
        Self { seed, size_in, cells, octaves }
    }

    /// Height at a place, which may lie in any repeat.
    pub(crate) fn at(&self, x: f64, y: f64) -> f64 {
        let (u, v) = (x / self.size_in[0], y / self.size_in[1]);
        let (mut sum, mut height, mut cells) = (0.0, 1.0, self.cells);
        for octave in 0..self.octaves {
            let [columns, rows] = cells.map(f64::from);
            sum += height * bumps(mix(self.seed ^ u64::from(octave)), cells, u * columns, v * rows);
            height *= 0.5;
            cells = cells.map(|count| count * 2);
        }
        sum
    }
}

/// One octave, in grid units.
fn bumps(seed: u64, cells: [u32; 2], x: f64, y: f64) -> f64 {
    let (column, row) = (x.floor(), y.floor());
    let (dx, dy) = (x - column, y - row);
    let corner = |i: f64, j: f64| {
        let wrap = |at: f64, count: u32| at.rem_euclid(f64::from(count)) as u64;
        let key = wrap(column + i, cells[0]) << 32 | wrap(row + j, cells[1]);
        let [gx, gy] = GRADIENTS[(mix(seed ^ mix(key)) >> 60) as usize % GRADIENTS.len()];
        gx * (dx - i) + gy * (dy - j)
    };
    let smooth = |t: f64| t * t * t * (t * (t * 6.0 - 15.0) + 10.0);
    let (sx, sy) = (smooth(dx), smooth(dy));
    let lower = corner(0.0, 0.0) * (1.0 - sx) + corner(1.0, 0.0) * sx;
    let upper = corner(0.0, 1.0) * (1.0 - sx) + corner(1.0, 1.0) * sx;
    lower * (1.0 - sy) + upper * sy
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
    fn a_relief_closes_on_itself_and_stays_in_bounds() {
        let noise = Noise::new(9, [3.0, 2.5], 0.4, 3);
        for i in 0..500 {
            let (x, y) = (f64::from(i) * 0.137, f64::from(i) * 0.071);
            let height = noise.at(x, y);
            assert!(height.abs() < 1.3);
            assert!((height - noise.at(x + 3.0, y - 2.5)).abs() < 1e-9);
        }
    }
}
