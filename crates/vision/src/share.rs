//! Work shared between the cores, neighbours in a grid, and quick colours for many pixels.

use colour::Srgb;
use std::sync::LazyLock;
use std::thread;

/// Fills the rows of a grid, several at a time; `fill` gets the number of a row and the row.
pub(crate) fn in_rows<T: Send>(grid: &mut [T], width: usize, fill: impl Fn(usize, &mut [T]) + Sync) {
    if width == 0 || grid.is_empty() {
        return;
    }
    let rows = grid.len() / width;
    let workers = thread::available_parallelism().map_or(1, usize::from).min(rows.max(1));
    let each = rows.div_ceil(workers);
    thread::scope(|scope| {
        for (part, lines) in grid.chunks_mut(each * width).enumerate() {
            let fill = &fill;
            scope.spawn(move || {
                for (row, line) in lines.chunks_mut(width).enumerate() {
                    fill(part * each + row, line);
                }
            });
        }
    });
}

/// The answers for all entries of a list, in their order, worked out several at a time.
pub(crate) fn for_all<T: Sync, R: Send>(list: &[T], work: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let mut answers: Vec<Option<R>> = list.iter().map(|_| None).collect();
    in_rows(&mut answers, 1, |i, out| out[0] = list.get(i).map(&work));
    answers.into_iter().flatten().collect()
}

/// The four neighbours of a cell that there are.
pub(crate) fn neighbours(i: usize, width: usize, height: usize) -> impl Iterator<Item = usize> {
    let (column, row) = (i % width, i / width);
    [
        (column > 0).then(|| i - 1),
        (column + 1 < width).then_some(i + 1),
        (row > 0).then(|| i - width),
        (row + 1 < height).then_some(i + width),
    ]
    .into_iter()
    .flatten()
}

/// The connected parts of what is set (by four neighbours), each as the list of its cells, in the order
/// of their first cells.
pub(crate) fn parts(cells: &[bool], width: usize) -> Vec<Vec<usize>> {
    let mut left = cells.to_vec();
    let mut parts = Vec::new();
    for first in 0..left.len() {
        if !left[first] {
            continue;
        }
        left[first] = false;
        let mut part = vec![first];
        let mut next = 0;
        while let Some(&i) = part.get(next) {
            next += 1;
            for j in neighbours(i, width, left.len() / width) {
                if left[j] {
                    left[j] = false;
                    part.push(j);
                }
            }
        }
        parts.push(part);
    }
    parts
}

/// Light for each number of a channel, 0 to 1.
pub(crate) static LIGHT: LazyLock<[f32; 256]> =
    LazyLock::new(|| std::array::from_fn(|i| Srgb::new(i as u8, 0, 0).to_linear().r as f32));

/// Light as a colour in OKLab; the matrices are those of `colour::Oklab`, in single precision.
pub(crate) fn oklab([r, g, b]: [f32; 3]) -> [f32; 3] {
    let l = (0.412_221_46 * r + 0.536_332_55 * g + 0.051_445_995 * b).cbrt();
    let m = (0.211_903_5 * r + 0.680_699_5 * g + 0.107_396_96 * b).cbrt();
    let s = (0.088_302_46 * r + 0.281_718_85 * g + 0.629_978_7 * b).cbrt();
    [
        0.210_454_26 * l + 0.793_617_8 * m - 0.004_072_047 * s,
        1.977_998_5 * l - 2.428_592_2 * m + 0.450_593_7 * s,
        0.025_904_037 * l + 0.782_771_77 * m - 0.808_675_77 * s,
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quick_colour_is_the_colour() {
        for number in (0..0xff_ffff_u32).step_by(54_321) {
            let ink = Srgb::from_number(number);
            let exact = ink.to_oklab();
            let quick = oklab([ink.r, ink.g, ink.b].map(|value| LIGHT[usize::from(value)]));
            for (one, other) in quick.iter().zip([exact.l, exact.a, exact.b]) {
                assert!((f64::from(*one) - other).abs() < 1e-5, "{ink}");
            }
        }
    }

    #[test]
    fn every_row_is_filled_once() {
        let mut grid = vec![0; 7 * 13];
        in_rows(&mut grid, 7, |row, line| line.iter_mut().for_each(|cell| *cell += row + 1));
        assert!(grid.iter().enumerate().all(|(i, &cell)| cell == i / 7 + 1));
        assert_eq!(for_all(&[1, 2, 3, 4, 5], |n| n * n), [1, 4, 9, 16, 25]);
    }
}
