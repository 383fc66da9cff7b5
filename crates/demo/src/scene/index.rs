//! Which things may lie at a place: a grid of cells, each with the things whose bounds touch it.

use super::scenery::Thing;
use plane::Point;

/// The grid.
#[derive(Clone, Debug, Default)]
pub(super) struct Index {
    low: Point,
    columns: usize,
    rows: usize,
    cells: Vec<Vec<u16>>,
}

/// Cells an inch.
const CELLS_PER_IN: f64 = 4.0;

impl Index {
    pub(super) fn new(things: &[Thing]) -> Self {
        let bounds: Vec<(Point, Point)> = things.iter().map(Thing::bounds).collect();
        let low = bounds.iter().fold(Point::new(f64::INFINITY, f64::INFINITY), |low, (p, _)| {
            Point::new(low.x.min(p.x), low.y.min(p.y))
        });
        let high = bounds.iter().fold(low, |high, (_, p)| Point::new(high.x.max(p.x), high.y.max(p.y)));
        if things.is_empty() {
            return Self::default();
        }
        let count = |length: f64| (length * CELLS_PER_IN) as usize + 1;
        let (columns, rows) = (count(high.x - low.x), count(high.y - low.y));
        let mut index = Self { low, columns, rows, cells: vec![Vec::new(); columns * rows] };
        for (no, (from, to)) in (0_u16..).zip(bounds) {
            let (Some((left, bottom)), Some((right, top))) = (index.cell(from), index.cell(to)) else {
                continue;
            };
            for row in bottom..=top {
                for column in left..=right {
                    index.cells[row * columns + column].push(no);
                }
            }
        }
        index
    }

    /// The things that may lie here, in their order.
    pub(super) fn at(&self, p: Point) -> &[u16] {
        self.cell(p).map_or(&[], |(column, row)| &self.cells[row * self.columns + column])
    }

    fn cell(&self, p: Point) -> Option<(usize, usize)> {
        let off = (p - self.low) * CELLS_PER_IN;
        let inside = off.x >= 0.0 && off.y >= 0.0 && off.x < self.columns as f64 && off.y < self.rows as f64;
        inside.then_some((off.x as usize, off.y as usize))
    }
}
