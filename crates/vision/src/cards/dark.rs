//! Which pixels are dark beside their neighbourhood, and the outlines of dark patches.
//!
//! Each tile of pixels is held against the middle between the darkest and the lightest in it and
//! its eight neighbours, so that uneven light doesn't matter. Where little differs nothing is dark.
//! Outlines run along the cracks between pixels, dark to the right; pixels that touch at a corner
//! only are apart, so the squares of a chequered cloth are.

use super::grey::Grey;

const TILE: usize = 4;
/// Least difference between dark and light, of 255.
const CONTRAST: u8 = 20;

const DARK: u8 = 1;
const WALKED: u8 = 2;

/// Dark pixels, with a rim of light ones around.
pub(crate) struct Dark {
    width: usize,
    height: usize,
    cells: Vec<u8>,
}

/// The least and greatest value of each tile, over it and its neighbours.
fn ranges(grey: &Grey) -> (usize, Vec<(u8, u8)>) {
    let (across, down) = (grey.width.div_ceil(TILE), grey.height.div_ceil(TILE));
    let mut own = vec![(255_u8, 0_u8); across * down];
    for (y, row) in grey.values.chunks_exact(grey.width).enumerate() {
        let tiles = &mut own[y / TILE * across..][..across];
        for (tile, values) in tiles.iter_mut().zip(row.chunks(TILE)) {
            let least = values.iter().fold(tile.0, |a, b| a.min(*b));
            let most = values.iter().fold(tile.1, |a, b| a.max(*b));
            *tile = (least, most);
        }
    }
    let join = |a: (u8, u8), b: &(u8, u8)| (a.0.min(b.0), a.1.max(b.1));
    let mut wide = own.clone();
    for y in 0..down {
        for x in 0..across {
            let columns = x.saturating_sub(1)..(x + 2).min(across);
            let rows = y.saturating_sub(1)..(y + 2).min(down);
            wide[y * across + x] = rows
                .flat_map(|row| &own[row * across + columns.start..row * across + columns.end])
                .fold((255, 0), join);
        }
    }
    (across, wide)
}

impl Dark {
    pub(crate) fn of(grey: &Grey) -> Self {
        let (width, height) = (grey.width + 2, grey.height + 2);
        let mut cells = vec![0; width * height];
        if grey.width == 0 || grey.height == 0 {
            return Self { width, height, cells };
        }
        let (across, ranges) = ranges(grey);
        for (y, row) in grey.values.chunks_exact(grey.width).enumerate() {
            let tiles = &ranges[y / TILE * across..][..across];
            let to = &mut cells[(y + 1) * width + 1..][..grey.width];
            for ((values, to), (least, most)) in row.chunks(TILE).zip(to.chunks_mut(TILE)).zip(tiles) {
                if most - least >= CONTRAST {
                    let middle = least + (most - least) / 2;
                    for (cell, value) in to.iter_mut().zip(values) {
                        *cell = u8::from(*value < middle);
                    }
                }
            }
        }
        Self { width, height, cells }
    }

    /// Walks every outer outline once and shows it to `seen`, as the lattice points between pixels
    /// it passes (in pixels of the picture). Outlines shorter than `shortest` steps are left out,
    /// and those that touch the picture's rim.
    pub(crate) fn outlines(&mut self, shortest: usize, mut seen: impl FnMut(&[(i32, i32)])) {
        let mut path = Vec::new();
        for y in 1..self.height - 1 {
            for x in 1..self.width - 1 {
                let at = y * self.width + x;
                if self.cells[at] == DARK && self.cells[at - 1] & DARK == 0 {
                    let outer = self.walk(at, &mut path);
                    let rim = |(x, y): &(i32, i32)| {
                        *x == 0 || *y == 0 || *x == self.width as i32 - 2 || *y == self.height as i32 - 2
                    };
                    if outer && path.len() >= shortest && !path.iter().any(rim) {
                        seen(&path);
                    }
                }
            }
        }
    }

    /// From the west side of a cell upwards and around, dark to the right. Whether the dark patch
    /// lies inside.
    fn walk(&mut self, start: usize, path: &mut Vec<(i32, i32)>) -> bool {
        path.clear();
        let wide = self.width as isize;
        // The corner to the upper left of a cell carries the cell's number.
        let ahead: [isize; 4] = [-wide, 1, wide, -1];
        // Cells to the left and right ahead of a corner, heading north, east, south, west.
        let left: [isize; 4] = [-wide - 1, -wide, 0, -1];
        let right: [isize; 4] = [-wide, 0, -1, -wide - 1];
        let near = |at: usize, by: isize| at.wrapping_add_signed(by);
        let first = near(start, wide);
        let (mut at, mut heading, mut doubled_area) = (first, 0, 0_i64);
        loop {
            if heading == 0 {
                self.cells[near(at, -wide)] |= WALKED;
            }
            at = near(at, ahead[heading]);
            let (x, y) = ((at % self.width) as i32 - 1, (at / self.width) as i32 - 1);
            path.push((x, y));
            doubled_area += match heading {
                0 => -i64::from(x),
                2 => i64::from(x),
                _ => 0,
            };
            if self.cells[near(at, right[heading])] & DARK == 0 {
                heading = (heading + 1) % 4;
            } else if self.cells[near(at, left[heading])] & DARK != 0 {
                heading = (heading + 3) % 4;
            }
            if at == first && heading == 0 {
                return doubled_area > 0;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::Dark;

    fn outlines(rows: &[&str]) -> Vec<usize> {
        let width = rows[0].len() + 2;
        let mut dark = Dark { width, height: rows.len() + 2, cells: vec![0; width * (rows.len() + 2)] };
        for (y, row) in rows.iter().enumerate() {
            for (x, cell) in row.bytes().enumerate() {
                dark.cells[(y + 1) * width + x + 1] = u8::from(cell == b'#');
            }
        }
        let mut lengths = Vec::new();
        dark.outlines(0, |path| lengths.push(path.len()));
        lengths
    }

    #[test]
    fn a_ring_has_one_outer_outline() {
        assert_eq!(outlines(&[".....", ".###.", ".#.#.", ".###.", "....."]), [12]);
    }

    #[test]
    fn squares_that_touch_at_a_corner_are_apart() {
        assert_eq!(outlines(&["......", ".##...", ".##...", "...##.", "...##.", "......"]), [8, 8]);
    }

    #[test]
    fn what_touches_the_rim_is_left_out() {
        assert_eq!(outlines(&["##..", "##..", "...."]), Vec::<usize>::new());
    }
}
