//! The flattened picture at a twentieth of an inch: enough to tell cloth from ground.

use crate::Flat;
use crate::share::{LIGHT, in_rows, oklab};

/// The picture in cells of about a twentieth of an inch.
#[derive(Clone, Debug)]
pub(super) struct Coarse {
    /// Cells across.
    pub(super) width: usize,
    /// Cells down.
    pub(super) height: usize,
    /// Pixels of the picture along the side of a cell.
    pub(super) cell: usize,
    /// Cells an inch.
    pub(super) per_in: f64,
    /// Mean colour of each cell, in OKLab.
    pub(super) lab: Vec<[f32; 3]>,
    /// Which cells the camera saw, at least half of them.
    pub(super) seen: Vec<bool>,
}

/// Cells an inch that are aimed at.
const WANTED_PER_IN: f64 = 20.0;

impl Coarse {
    /// Gathers the pixels of a picture; what doesn't fill a cell at the right and lower edge is
    /// left out.
    pub(super) fn of(flat: &Flat) -> Self {
        let cell = (flat.pixels_per_in / WANTED_PER_IN).round().max(1.0) as usize;
        let (across, down) = (flat.picture.width as usize, flat.picture.height as usize);
        let (width, height) = (across / cell, down / cell);
        let mut cells = vec![([0.0; 3], false); width * height];
        in_rows(&mut cells, width, |row, line| {
            for (column, out) in line.iter_mut().enumerate() {
                *out = mean(flat, column * cell, row * cell, cell);
            }
        });
        let (lab, seen) = cells.into_iter().unzip();
        Self { width, height, cell, per_in: flat.pixels_per_in / cell as f64, lab, seen }
    }

    /// The same without lines and specks up to a tenth of an inch: the middle of five along each
    /// row, then along each column.
    pub(super) fn without_lines(&self) -> Self {
        let mut along = self.lab.clone();
        let (width, height) = (self.width, self.height);
        in_rows(&mut along, width, |row, line| {
            let from = &self.lab[row * width..(row + 1) * width];
            for (column, out) in line.iter_mut().enumerate() {
                *out = middle_of_five(|k| from[near(column, k, width)]);
            }
        });
        let mut lab = along.clone();
        in_rows(&mut lab, width, |row, line| {
            for (column, out) in line.iter_mut().enumerate() {
                *out = middle_of_five(|k| along[near(row, k, height) * width + column]);
            }
        });
        Self { lab, seen: self.seen.clone(), ..*self }
    }
}

/// The place `k - 2` further on, held inside.
fn near(at: usize, k: usize, count: usize) -> usize {
    (at + k).saturating_sub(2).min(count - 1)
}

/// The middle of five, each channel by itself.
fn middle_of_five(at: impl Fn(usize) -> [f32; 3]) -> [f32; 3] {
    let five = [at(0), at(1), at(2), at(3), at(4)];
    std::array::from_fn(|channel| {
        let [a, b, c, d, e] = five.map(|colour| colour[channel]);
        // The two pairs' larger lows and smaller highs with the fifth: the middle of three.
        let (low, high) = (a.min(b).max(c.min(d)), a.max(b).min(c.max(d)));
        low.min(high).max(e.min(low.max(high)))
    })
}

/// Mean colour of one cell and whether at least half of it was seen.
fn mean(flat: &Flat, left: usize, top: usize, cell: usize) -> ([f32; 3], bool) {
    let width = flat.picture.width as usize;
    let (mut sum, mut count) = ([0.0_f32; 3], 0_usize);
    for row in top..top + cell {
        let from = row * width + left;
        let (Some(pixels), Some(seen)) =
            (flat.picture.rgb.get(from..from + cell), flat.seen.get(from..from + cell))
        else {
            continue;
        };
        for (pixel, _) in pixels.iter().zip(seen).filter(|(_, seen)| **seen) {
            for (total, value) in sum.iter_mut().zip(pixel) {
                *total += LIGHT[usize::from(*value)];
            }
            count += 1;
        }
    }
    let mean = sum.map(|total| total / count.max(1) as f32);
    (oklab(mean), count * 2 >= cell * cell)
}
