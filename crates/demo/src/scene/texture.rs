//! Prints as light: one repeat of each in linear light, to be looked up anywhere.

use crate::print::Print;
use colour::Srgb;
use plane::Point;

/// Red, green and blue in linear light, white at 1.
pub(super) type Light = [f32; 3];

/// One repeat of a print.
#[derive(Clone, Debug)]
pub(super) struct Texture {
    repeat_in: [f64; 2],
    columns: usize,
    rows: usize,
    cells: Vec<Light>,
}

/// Cells an inch. A picture at 60 to 150 pixels an inch takes several samples a pixel, so that no
/// smaller copies are needed.
const CELLS_PER_IN: f64 = 96.0;

impl Texture {
    /// Draws a print.
    pub(super) fn of(print: &Print) -> Self {
        let raster = print.draw(CELLS_PER_IN);
        let light = light_of_bytes();
        let cell = |pixel: &[u8; 4]| [0, 1, 2].map(|k| light[usize::from(pixel[k])]);
        Self {
            repeat_in: print.repeat_in(),
            columns: raster.width as usize,
            rows: raster.height as usize,
            cells: raster.pixels.iter().map(cell).collect(),
        }
    }

    /// The light at a place of the print, blended between the four nearest cells.
    pub(super) fn at(&self, p: Point) -> Light {
        let (columns, rows) = (self.columns, self.rows);
        let share = |at: f64, length: f64| {
            let turns = at / length;
            turns - turns.floor()
        };
        let x = share(p.x, self.repeat_in[0]) * columns as f64 + 0.5;
        let y = (1.0 - share(p.y, self.repeat_in[1])) * rows as f64 + 0.5;
        let (across, down) = (x as usize, y as usize);
        let (right, low) = ((x - across as f64) as f32, (y - down as f64) as f32);
        let wrapped = |at: usize, count: usize| if at >= count { at - count } else { at };
        let columns_here = [wrapped(across + columns - 1, columns), wrapped(across, columns)];
        let rows_here = [wrapped(down + rows - 1, rows), wrapped(down, rows)];
        let cell = |i: usize, j: usize| self.cells[rows_here[j] * columns + columns_here[i]];
        let [a, b, c, d] = [cell(0, 0), cell(1, 0), cell(0, 1), cell(1, 1)];
        [0, 1, 2].map(|k| {
            let upper = a[k] + (b[k] - a[k]) * right;
            let lower = c[k] + (d[k] - c[k]) * right;
            upper + (lower - upper) * low
        })
    }
}

/// The linear light of each eight-bit value.
pub(super) fn light_of_bytes() -> Vec<f32> {
    (0..=u8::MAX).map(|byte| Srgb::new(byte, byte, byte).to_linear().g as f32).collect()
}

/// The light a colour sends back.
pub(super) fn light_of(colour: Srgb) -> Light {
    let linear = colour.to_linear();
    [linear.r as f32, linear.g as f32, linear.b as f32]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::print::prints;

    #[test]
    fn a_place_has_the_colour_of_its_cell_and_of_the_next_repeat() {
        let print = &prints(0)[4];
        let texture = Texture::of(print);
        let raster = print.draw(CELLS_PER_IN);
        let light = light_of_bytes();
        let [wide, high] = print.repeat_in();
        for (column, row) in [(0, 0), (17, 200), (raster.width - 1, raster.height - 1)] {
            let across = (f64::from(column) + 0.5) / f64::from(raster.width) * wide;
            let up = high - (f64::from(row) + 0.5) / f64::from(raster.height) * high;
            let pixel = raster.pixels[(row * raster.width + column) as usize];
            for (i, j) in [(0.0, 0.0), (-2.0, 3.0)] {
                let found = texture.at(Point::new(across + i * wide, up + j * high));
                for k in 0..3 {
                    assert!((found[k] - light[usize::from(pixel[k])]).abs() < 1e-4);
                }
            }
        }
    }
}
