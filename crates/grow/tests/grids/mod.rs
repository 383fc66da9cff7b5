//! Grids cut up into rectangles.

use grow::centres::Rect;

/// All ways to fill a grid with rectangles, one after the other.
pub(crate) fn for_each_dissection(rows: usize, columns: usize, tell: &mut impl FnMut(&[Rect])) {
    fill([rows, columns], &mut vec![0_u8; rows * columns], &mut Vec::new(), tell);
}

fn fill([rows, columns]: [usize; 2], full: &mut [u8], rects: &mut Vec<Rect>, tell: &mut impl FnMut(&[Rect])) {
    let Some(first) = full.iter().position(|&cell| cell == 0) else { return tell(rects) };
    let (row, column) = (first / columns, first % columns);
    for height in 1..=rows - row {
        for width in 1..=columns - column {
            let cells =
                || (row..row + height).flat_map(|r| (column..column + width).map(move |c| r * columns + c));
            if cells().any(|cell| full[cell] > 0) {
                break;
            }
            cells().for_each(|cell| full[cell] = 1);
            rects.push(Rect::new(column as f64, row as f64, width as f64, height as f64));
            fill([rows, columns], full, rects, tell);
            rects.pop();
            cells().for_each(|cell| full[cell] = 0);
        }
    }
}
