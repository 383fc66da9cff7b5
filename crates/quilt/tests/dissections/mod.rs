//! Dissections of a grid into rectangles, for the tests that count them.

/// Row, column, height and width, in cells.
pub(crate) type Tile = [usize; 4];

/// All ways to fill a grid with rectangles.
pub(crate) fn dissections(rows: usize, columns: usize) -> Vec<Vec<Tile>> {
    let mut found = Vec::new();
    fill(rows, columns, &mut vec![false; rows * columns], &mut Vec::new(), &mut found);
    found
}

fn fill(rows: usize, columns: usize, full: &mut [bool], tiles: &mut Vec<Tile>, found: &mut Vec<Vec<Tile>>) {
    let Some(first) = full.iter().position(|cell| !cell) else {
        found.push(tiles.clone());
        return;
    };
    let (row, column) = (first / columns, first % columns);
    for height in 1..=rows - row {
        for width in 1..=columns - column {
            let cells: Vec<usize> = (row..row + height)
                .flat_map(|r| (column..column + width).map(move |c| r * columns + c))
                .collect();
            if cells.iter().all(|&cell| !full[cell]) {
                cells.iter().for_each(|&cell| full[cell] = true);
                tiles.push([row, column, height, width]);
                fill(rows, columns, full, tiles, found);
                tiles.pop();
                cells.iter().for_each(|&cell| full[cell] = false);
            }
        }
    }
}
