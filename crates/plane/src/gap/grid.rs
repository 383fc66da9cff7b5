//! Pieces of line sorted into square cells, so that what lies near a place is found at once.

use crate::Point;

/// A straight piece of line from one place to another.
pub(crate) type Segment = (Point, Point);

/// At most so many cells; more would cost memory and gain nothing.
const MOST_CELLS: f64 = 4e6;

/// Segments by cell. A segment is listed in each cell that it touches.
pub(crate) struct Grid {
    pub(crate) low: Point,
    pub(crate) cell: f64,
    pub(crate) columns: usize,
    pub(crate) rows: usize,
    starts: Vec<u32>,
    items: Vec<u32>,
}

impl Grid {
    /// Sorts `segments` into cells of about `cell` inches over the box from `low` to `high`.
    pub(crate) fn new(segments: &[Segment], low: Point, high: Point, cell: f64) -> Self {
        let (width, height) = ((high.x - low.x).max(1e-6), (high.y - low.y).max(1e-6));
        let cell = cell.max((width * height / MOST_CELLS).sqrt()).max(width.max(height) / 60_000.0);
        let (columns, rows) = ((width / cell) as usize + 1, (height / cell) as usize + 1);
        let mut grid =
            Self { low, cell, columns, rows, starts: vec![0; columns * rows + 1], items: Vec::new() };
        let mut starts = vec![0_u32; columns * rows + 1];
        for &segment in segments {
            grid.each_cell(segment, |cell| starts[cell + 1] += 1);
        }
        for i in 1..starts.len() {
            starts[i] += starts[i - 1];
        }
        let mut items = vec![0_u32; starts[starts.len() - 1] as usize];
        let mut next = starts.clone();
        for (i, &segment) in segments.iter().enumerate() {
            grid.each_cell(segment, |cell| {
                items[next[cell] as usize] = i as u32;
                next[cell] += 1;
            });
        }
        grid.starts = starts;
        grid.items = items;
        grid
    }

    /// The segments that touch a cell.
    pub(crate) fn in_cell(&self, column: usize, row: usize) -> &[u32] {
        let cell = row * self.columns + column;
        &self.items[self.starts[cell] as usize..self.starts[cell + 1] as usize]
    }

    /// The column in which `x` lies, held within the grid.
    pub(crate) fn column(&self, x: f64) -> usize {
        (((x - self.low.x) / self.cell).max(0.0) as usize).min(self.columns - 1)
    }

    /// The row in which `y` lies, held within the grid.
    pub(crate) fn row(&self, y: f64) -> usize {
        (((y - self.low.y) / self.cell).max(0.0) as usize).min(self.rows - 1)
    }

    /// The middle of a cell.
    pub(crate) fn middle(&self, column: usize, row: usize) -> Point {
        let at = |i: usize| (i as f64 + 0.5) * self.cell;
        Point::new(self.low.x + at(column), self.low.y + at(row))
    }

    /// Calls `each` for every cell that the segment touches, and perhaps a neighbour within 1e-9.
    fn each_cell(&self, (a, b): Segment, mut each: impl FnMut(usize)) {
        const SLACK: f64 = 1e-9;
        let (a, b) = if a.y <= b.y { (a, b) } else { (b, a) };
        let (first, last) = (self.row(a.y - SLACK), self.row(b.y + SLACK));
        let rise = b.y - a.y;
        for row in first..=last {
            let (from, to) = if first == last {
                (a.x, b.x)
            } else {
                let bottom = self.low.y + row as f64 * self.cell;
                let at = |y: f64| a.x + (b.x - a.x) * ((y - a.y) / rise).clamp(0.0, 1.0);
                (at(bottom - SLACK), at(bottom + self.cell + SLACK))
            };
            let (from, to) = (self.column(from.min(to) - SLACK), self.column(from.max(to) + SLACK));
            for column in from..=to {
                each(row * self.columns + column);
            }
        }
    }

    /// Calls `each` with the segments of the cells around `p`, ring after ring, until the next
    /// ring is further away than `each` last answered. A segment may come more than once.
    pub(crate) fn outward(&self, p: Point, mut reach: f64, mut each: impl FnMut(u32) -> f64) {
        let (column, row) = (self.column(p.x) as isize, self.row(p.y) as isize);
        let inside =
            (p.x - self.low.x - column as f64 * self.cell).min(p.y - self.low.y - row as f64 * self.cell);
        let far = (column + 1) as f64 * self.cell - (p.x - self.low.x);
        let up = (row + 1) as f64 * self.cell - (p.y - self.low.y);
        let margin = inside.min(far).min(up);
        let most = (self.columns.max(self.rows)) as isize;
        for ring in 0..=most {
            if ring > 0 && (ring - 1) as f64 * self.cell + margin > reach {
                return;
            }
            let (left, right) = (column - ring, column + ring);
            let (low, high) = (row - ring, row + ring);
            for r in low.max(0)..=high.min(self.rows as isize - 1) {
                let step = if r == low || r == high || ring == 0 { 1 } else { right - left };
                let mut c = left;
                while c <= right {
                    if c >= 0 && c < self.columns as isize {
                        for &item in self.in_cell(c as usize, r as usize) {
                            reach = each(item);
                        }
                    }
                    c += step.max(1);
                }
            }
        }
    }

    /// Distance from `p` to the nearest segment, or `reach` inches if none is nearer.
    pub(crate) fn nearest(&self, segments: &[Segment], p: Point, reach: f64) -> f64 {
        let mut best = reach * reach;
        self.outward(p, reach, |item| {
            let squared = squared_distance(segments[item as usize], p);
            if squared < best {
                best = squared;
            }
            best.sqrt()
        });
        best.sqrt()
    }
}

/// The point of a segment nearest to `p`, as a share of the way along it.
pub(crate) fn foot((a, b): Segment, p: Point) -> f64 {
    let along = b - a;
    let length = along.dot(along);
    if length > 0.0 { ((p - a).dot(along) / length).clamp(0.0, 1.0) } else { 0.0 }
}

/// Squared distance from `p` to a segment.
pub(crate) fn squared_distance(segment: Segment, p: Point) -> f64 {
    let off = p - segment.0.lerp(segment.1, foot(segment, p));
    off.dot(off)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_segment_is_found_as_by_looking_at_all() {
        let mut state = 7_u64;
        let mut share = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 40) as f64 / (1_u64 << 24) as f64
        };
        let mut place = |reach: f64| Point::new(reach * share(), reach * share());
        let segments: Vec<Segment> = (0..300).map(|_| (place(10.0), place(10.0))).collect();
        let grid = Grid::new(&segments, Point::ORIGIN, Point::new(10.0, 10.0), 0.3);
        for _ in 0..2000 {
            let p = place(10.0);
            let slow = segments.iter().map(|&s| squared_distance(s, p)).fold(f64::INFINITY, f64::min).sqrt();
            let found = grid.nearest(&segments, p, 100.0);
            assert!((found - slow).abs() < 1e-12, "{found} {slow}");
        }
    }
}
