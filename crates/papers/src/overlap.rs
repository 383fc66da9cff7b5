//! Pages in true size that overlap: how many, what each shows, and what it is called.

use crate::PaperProblem;
use plane::{Point, Vec2};

/// How much of the piece two neighbours both show.
pub(crate) const OVERLAP_IN: f64 = 0.5;

/// Rows and columns of pages with so much room each.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Grid {
    columns: usize,
    rows: usize,
    room_in: [f64; 2],
}

/// What one page shows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Cell {
    /// From the top, and from the left, from 0.
    pub(crate) row: usize,
    pub(crate) column: usize,
    pub(crate) low: Point,
    pub(crate) high: Point,
}

impl Grid {
    /// As few pages as cover a size.
    ///
    /// # Errors
    /// More than `most` of them.
    pub(crate) fn over(size: Vec2, room_in: [f64; 2], most: usize) -> Result<Self, PaperProblem> {
        let count = |length: f64, page: f64| {
            ((length - OVERLAP_IN) / (page - OVERLAP_IN) - 1e-9).ceil().max(1.0) as usize
        };
        let (columns, rows) = (count(size.x, room_in[0]), count(size.y, room_in[1]));
        let tiles = columns.saturating_mul(rows);
        if tiles > most {
            return Err(PaperProblem::TooManyTiles { tiles, most });
        }
        Ok(Self { columns, rows, room_in })
    }

    /// Whether there is one page only.
    pub(crate) const fn is_one(&self) -> bool {
        self.columns * self.rows == 1
    }

    /// Width and height that all pages show together.
    pub(crate) fn size(&self) -> Vec2 {
        let all = |count: usize, page: f64| count as f64 * (page - OVERLAP_IN) + OVERLAP_IN;
        Vec2::new(all(self.columns, self.room_in[0]), all(self.rows, self.room_in[1]))
    }

    /// The pages, row by row, from their top left corner.
    pub(crate) fn cells(self, top_left: Point) -> impl Iterator<Item = Cell> {
        let [wide, tall] = self.room_in;
        let all = (0..self.rows).flat_map(move |row| (0..self.columns).map(move |column| (row, column)));
        all.map(move |(row, column)| {
            let left = top_left.x + column as f64 * (wide - OVERLAP_IN);
            let top = top_left.y - row as f64 * (tall - OVERLAP_IN);
            Cell { row, column, low: Point::new(left, top - tall), high: Point::new(left + wide, top) }
        })
    }
}

impl Cell {
    /// Its row as letters and its column as a number: `B3`.
    pub(crate) fn name(&self) -> String {
        let mut row = self.row;
        let mut letters = String::new();
        loop {
            letters.insert(0, char::from(b'A' + (row % 26) as u8));
            match (row / 26).checked_sub(1) {
                Some(more) => row = more,
                None => break,
            }
        }
        format!("{letters}{}", self.column + 1)
    }

    /// Its corners, counter-clockwise from the lower left.
    pub(crate) fn corners(&self) -> [Point; 4] {
        corners(self.low, self.high)
    }

    /// The middles of what it shares with its neighbours on two sides each, likewise.
    pub(crate) fn inner_corners(&self) -> [Point; 4] {
        let half = Vec2::new(OVERLAP_IN / 2.0, OVERLAP_IN / 2.0);
        corners(self.low + half, self.high - half)
    }
}

fn corners(low: Point, high: Point) -> [Point; 4] {
    [low, Point::new(high.x, low.y), high, Point::new(low.x, high.y)]
}
