//! Cells that are cloth: what the ground can't reach.

use super::coarse::Coarse;
use super::ground::{Ground, distance};
use crate::Flat;
use crate::share::{LIGHT, in_rows, neighbours, parts};
use colour::Oklab;

/// A yes or no for every cell.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Mask {
    pub(super) width: usize,
    pub(super) height: usize,
    pub(super) cells: Vec<bool>,
}

impl Mask {
    pub(super) fn new(width: usize, height: usize) -> Self {
        Self { width, height, cells: vec![false; width * height] }
    }

    /// A cell; outside nothing is set.
    pub(super) fn at(&self, column: i64, row: i64) -> bool {
        (0..self.width as i64).contains(&column)
            && (0..self.height as i64).contains(&row)
            && self.cells[row as usize * self.width + column as usize]
    }

    /// Takes a layer off, or with `wanted` puts one on; by four neighbours and by eight in turn, so that it
    /// stays round. Outside the picture everything counts as its edge does.
    fn layered(&self, wanted: bool, layers: usize) -> Self {
        let mut mask = self.clone();
        let width = self.width;
        if width == 0 {
            return mask;
        }
        // What each cell of a row meets in another row, itself or with its neighbours on both sides.
        let meet = |out: &mut [bool], row: &[bool], sides: bool| {
            for (cell, other) in out.iter_mut().zip(row) {
                *cell |= *other == wanted;
            }
            if sides {
                for (cell, other) in out[1..].iter_mut().zip(row) {
                    *cell |= *other == wanted;
                }
                for (cell, other) in out.iter_mut().zip(&row[1..]) {
                    *cell |= *other == wanted;
                }
            }
        };
        for layer in 0..layers {
            let before = mask.clone();
            let row = |row: usize| &before.cells[row * width..(row + 1) * width];
            let mut met = vec![false; width];
            for (r, cells) in mask.cells.chunks_mut(width).enumerate() {
                met.fill(false);
                meet(&mut met, row(r), true);
                meet(&mut met, row(r.saturating_sub(1)), layer % 2 == 1);
                meet(&mut met, row((r + 1).min(self.height - 1)), layer % 2 == 1);
                for (cell, met) in cells.iter_mut().zip(&met) {
                    *cell = *met == wanted;
                }
            }
        }
        mask
    }

    /// With so many more cells all round.
    pub(super) fn grown(&self, layers: usize) -> Self {
        self.layered(true, layers)
    }

    /// Without what is narrower than about twice so many cells.
    pub(super) fn opened(&self, layers: usize) -> Self {
        self.layered(false, layers).layered(true, layers)
    }

    /// With gaps filled that are narrower than about twice so many cells.
    pub(super) fn closed(&self, layers: usize) -> Self {
        self.layered(true, layers).layered(false, layers)
    }

    /// Its connected parts (by four neighbours), each as the list of its cells, in the order of
    /// their first cells.
    pub(super) fn parts(&self) -> Vec<Vec<usize>> {
        parts(&self.cells, self.width)
    }

    /// How many cells are set.
    pub(super) fn count(&self) -> usize {
        self.cells.iter().filter(|cell| **cell).count()
    }

    /// With everything set that can't be reached from the edge of the picture.
    pub(super) fn without_holes(&self) -> Self {
        let not = Self { cells: self.cells.iter().map(|cell| !cell).collect(), ..*self };
        let mut mask = self.clone();
        for part in not.parts() {
            let at_edge = part.iter().any(|&i| {
                let (column, row) = (i % self.width, i / self.width);
                column == 0 || row == 0 || column + 1 == self.width || row + 1 == self.height
            });
            if !at_edge {
                part.into_iter().for_each(|i| mask.cells[i] = true);
            }
        }
        mask
    }

    /// The mask of some cells alone.
    pub(super) fn of(&self, part: &[usize]) -> Self {
        let mut mask = Self::new(self.width, self.height);
        for &i in part {
            mask.cells[i] = true;
        }
        mask
    }
}

/// How near a colour must be to the fit to count as ground by itself.
fn alike(ground: &Ground) -> f64 {
    let [along, across] = ground.scatter;
    (3.5 * along.hypot(across)).clamp(0.018, 0.035)
}

/// Where the lines of a mat run, and what of the table shows between them and a cloth: cells that look like
/// the ground in the picture with its lines, and narrow strips in the lines' colour. The lines' colour is
/// what is there in the one picture and gone in the other; nothing when next to none is. Also gives how the
/// lines' colour differs from the ground, in square roots of light.
pub(super) fn lines(
    with: &Coarse,
    without: &Coarse,
    ground: &Ground,
    bare: &Mask,
    flat: &Flat,
) -> (Mask, Option<[f32; 3]>) {
    let (width, alike) = (with.width, alike(ground));
    let mut mask = Mask::new(with.width, with.height);
    let mut apart: Vec<(f64, [f64; 3])> = Vec::new();
    for (i, cell) in mask.cells.iter_mut().enumerate() {
        let place = [(i % width) as f64 + 0.5, (i / width) as f64 + 0.5];
        let off = ground.off(place, with.lab[i]).distance();
        *cell = with.seen[i] && off < alike;
        let calm = bare.cells[i] && distance(with.lab[i], without.lab[i]) > 1.5 * alike as f32;
        if calm && off > 1.5 * alike {
            let here = ground.at(place);
            apart.push((off, std::array::from_fn(|c| f64::from(with.lab[i][c]) - here[c])));
        }
    }
    let many = bare.cells.iter().filter(|cell| **cell).count() / 100;
    if apart.len() <= many {
        return (Mask::new(with.width, with.height), None);
    }
    // The strongest tenth hold the lines' own colour, the others a mixture with the ground.
    apart.sort_by(|a, b| b.0.total_cmp(&a.0));
    let strong = &apart[..apart.len() / 10 + 1];
    let ink: [f64; 3] =
        std::array::from_fn(|c| strong.iter().map(|(_, off)| off[c]).sum::<f64>() / strong.len() as f64);
    let square = ink.iter().map(|v| v * v).sum::<f64>().max(1e-9);
    let mut coloured = Mask::new(with.width, with.height);
    for (i, cell) in coloured.cells.iter_mut().enumerate() {
        let here = ground.at([(i % width) as f64 + 0.5, (i / width) as f64 + 0.5]);
        let off: [f64; 3] = std::array::from_fn(|c| f64::from(with.lab[i][c]) - here[c]);
        let share = off.iter().zip(ink).map(|(a, b)| a * b).sum::<f64>() / square;
        let aside = off.iter().zip(ink).map(|(a, b)| (a - share * b).powi(2)).sum::<f64>().sqrt();
        *cell = with.seen[i]
            && !mask.cells[i]
            && (0.0..1.3).contains(&share)
            && aside < alike + 0.15 * share * square.sqrt();
    }
    let wide = coloured.opened(2);
    // What is wide in the lines' colour is cloth, or table whose lines are finer than cells.
    if wide.count() * 200 > wide.cells.len() {
        let open = open_table(flat, with, ground, bare);
        for (i, cell) in mask.cells.iter_mut().enumerate() {
            *cell |= coloured.cells[i] && open.cells[i];
        }
    }
    let mut left = Mask::new(with.width, with.height);
    for (i, cell) in left.cells.iter_mut().enumerate() {
        let narrow = coloured.cells[i] && !wide.cells[i];
        *cell = with.seen[i] && !mask.cells[i] && !bare.cells[i] && !narrow;
    }
    // What lies amid the rest is a part of a print.
    let amid = left.closed(5);
    for (i, cell) in mask.cells.iter_mut().enumerate() {
        *cell |= coloured.cells[i] && !wide.cells[i] && !amid.cells[i];
    }
    let middle = ground.at([0.5 * width as f64, 0.5 * with.height as f64]);
    let line = root_of_light(std::array::from_fn(|c| middle[c] + ink[c]));
    let bare = root_of_light(middle);
    (mask, Some(std::array::from_fn(|c| line[c] - bare[c])))
}

/// Where the table shows between its lines, however fine they are: cells with at least half as many pixels
/// of the ground's colour around them, in full light or in a soft shadow, as bare table has. Cells hold lines
/// and ground mixed, so this looks at the pixels, at two in a cell each way.
fn open_table(flat: &Flat, coarse: &Coarse, ground: &Ground, bare: &Mask) -> Mask {
    let (width, cell) = (coarse.width, coarse.cell);
    let across = flat.picture.width as usize;
    let step = cell.div_ceil(2);
    let root: [f32; 256] = std::array::from_fn(|value| LIGHT[value].sqrt());
    let mut shares = vec![0.0_f32; coarse.lab.len()];
    in_rows(&mut shares, width, |row, line| {
        for (column, out) in line.iter_mut().enumerate() {
            let here = root_of_light(ground.at([column as f64 + 0.5, row as f64 + 0.5]));
            let square = here.iter().map(|v| v * v).sum::<f32>().max(1e-9);
            let (mut alike, mut count) = (0, 0);
            for y in (row * cell..(row + 1) * cell).step_by(step) {
                for x in (column * cell..(column + 1) * cell).step_by(step) {
                    let pixel = flat.picture.rgb.get(y * across + x).copied().unwrap_or_default();
                    let colour = pixel.map(|value| root[usize::from(value)]);
                    let lit = colour.iter().zip(here).map(|(a, b)| a * b).sum::<f32>() / square;
                    let lit = lit.clamp(IN_SHADOW, 1.03);
                    let off = colour.iter().zip(here).map(|(a, b)| (a - lit * b).powi(2)).sum::<f32>();
                    count += 1;
                    alike += i32::from(off < AS_GROUND * AS_GROUND);
                }
            }
            *out = alike as f32 / count as f32;
        }
    });
    let on_bare: Vec<f32> =
        shares.iter().zip(&bare.cells).filter(|(_, bare)| **bare).map(|(v, _)| *v).collect();
    let usual = on_bare.iter().sum::<f32>() / on_bare.len().max(1) as f32;
    let mut mask = Mask::new(width, coarse.height);
    in_rows(&mut mask.cells, width, |row, line| {
        let rows = row.saturating_sub(2)..(row + 3).min(coarse.height);
        for (column, cell) in line.iter_mut().enumerate() {
            let columns = column.saturating_sub(2)..(column + 3).min(width);
            let (mut sum, mut count) = (0.0, 0_usize);
            for r in rows.clone() {
                let around = &shares[r * width + columns.start..r * width + columns.end];
                sum += around.iter().sum::<f32>();
                count += around.len();
            }
            *cell = coarse.seen[row * width + column] && sum > 0.5 * usual * count as f32;
        }
    });
    mask
}

/// How near a pixel must be to the ground, as a difference of square roots of light.
const AS_GROUND: f32 = 0.05;
/// Square root of the light that a soft shadow leaves.
const IN_SHADOW: f32 = 0.88;

/// Square roots of the light of a colour in OKLab.
fn root_of_light([l, a, b]: [f64; 3]) -> [f32; 3] {
    let light = Oklab { l, a, b }.to_linear();
    [light.r, light.g, light.b].map(|v| v.max(0.0).sqrt() as f32)
}

/// Cells that are the bare table: those that look like it, and what can be reached from them
/// without a sharp step through what a shadow on it would look like.
pub(super) fn bare(coarse: &Coarse, ground: &Ground) -> Mask {
    let (width, height) = (coarse.width, coarse.height);
    let [along, across] = ground.scatter;
    let alike = alike(ground);
    let hue = (4.0 * across).clamp(0.012, 0.03);
    let mut mask = Mask::new(width, height);
    let mut in_shadow = vec![false; width * height];
    // So exactly the ground's hue, and so little darker, that it may be the sharp edge of a shadow.
    let mut only_darker = vec![false; width * height];
    for (i, shadowed) in in_shadow.iter_mut().enumerate() {
        let place = [(i % width) as f64 + 0.5, (i / width) as f64 + 0.5];
        let off = ground.off(place, coarse.lab[i]);
        let light = ground.at(place)[0].max(0.05);
        mask.cells[i] = coarse.seen[i] && off.distance() < alike;
        *shadowed = coarse.seen[i]
            && off.across < hue + 0.08 * off.along.abs()
            && (-0.45 * light..0.2 * light).contains(&off.along);
        only_darker[i] = off.across < (0.5 * hue).min(0.008) && (-0.22 * light..0.0).contains(&off.along);
    }
    let step = (3.0 * along as f32).clamp(0.012, 0.02);
    let mut front: Vec<usize> = (0..mask.cells.len()).filter(|&i| mask.cells[i]).collect();
    while let Some(i) = front.pop() {
        let (column, row) = (i % width, i / width);
        for j in neighbours(i, width, height) {
            let step = if only_darker[j] { 2.2 * step } else { step };
            if mask.cells[j] || !in_shadow[j] || distance(coarse.lab[i], coarse.lab[j]) > step {
                continue;
            }
            // One cell further on as well, so that a blurred edge doesn't pass in two halves.
            let (c, r) = (2 * (j % width) as i64 - column as i64, 2 * (j / width) as i64 - row as i64);
            let beyond = (0..width as i64).contains(&c) && (0..height as i64).contains(&r);
            let steep = beyond && {
                let k = r as usize * width + c as usize;
                distance(coarse.lab[i], coarse.lab[k]) > 1.6 * step
            };
            if !steep {
                mask.cells[j] = true;
                front.push(j);
            }
        }
    }
    mask
}
