//! The widest place without a line: the largest disc inside the outline that no line meets.
//!
//! The plane is cut into squares. A square can't hold the centre of a larger disc than its own
//! middle has room, plus its half diagonal; those that might beat the best so far are quartered.
//! What comes back is a disc that is really free, at most the tolerance short of the widest.

use super::grid::{Grid, Segment};
use crate::fill::{Fill, Ground};
use crate::{Disc, Point, polygon};

/// How keep-outs count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum KeepOuts {
    /// Sewn round, and nothing inside them counts: appliqué that is sewn down.
    Closed,
    /// Sewn round, but what lies inside counts.
    SewnRound,
    /// As if they weren't there.
    Ignored,
}

/// The usual tolerance: the diameter is right to 1/16 inch.
pub const WIDEST_TOLERANCE: f64 = 1.0 / 16.0;

/// The widest gap between the lines of a fill, as a disc. Its diameter is at most `tolerance_in`
/// short of the widest; `None` when the ground has no area. Cost: for a bed-size
/// quilt at 1/4 inch about a million squares.
#[must_use]
pub fn widest(ground: &Ground, fill: &Fill, keep_outs: KeepOuts, tolerance_in: f64) -> Option<Disc> {
    let edges = ground.edges(keep_outs != KeepOuts::Ignored);
    let bounds = ground.bounds_with(keep_outs != KeepOuts::Closed);
    let mut segments: Vec<Segment> = fill.strokes.iter().flat_map(|stroke| stroke.segments()).collect();
    let length: f64 = segments.iter().map(|(a, b)| a.distance(*b)).sum();
    let first_bound = segments.len();
    segments.extend(&bounds);
    segments.extend(&edges);
    let corners: Vec<Point> = bounds.iter().map(|side| side.0).collect();
    let (low, high) = polygon::bounds(&corners)?;
    let area = (high.x - low.x) * (high.y - low.y);
    let cell = (area / (length + area.sqrt())).max(tolerance_in / 8.0);
    let search = Search {
        grid: Grid::new(&segments, low, high, cell),
        segments,
        bounds,
        first_bound,
        tolerance: tolerance_in.max(1e-6) / 2.0,
    };
    search.run()
}

struct Search {
    grid: Grid,
    segments: Vec<Segment>,
    bounds: Vec<Segment>,
    first_bound: usize,
    tolerance: f64,
}

/// A square whose middle may be a gap's.
struct Square {
    middle: Point,
    half: f64,
    /// Whether it lies wholly inside, as far as that is known.
    inside: Option<bool>,
    room: f64,
}

impl Search {
    fn run(&self) -> Option<Disc> {
        let half = self.grid.cell / 2.0;
        let mut best = Disc { centre: self.grid.low, radius: 0.0 };
        let mut squares = Vec::with_capacity(self.grid.columns * self.grid.rows);
        for row in 0..self.grid.rows {
            let mut beside = None;
            for column in 0..self.grid.columns {
                let middle = self.grid.middle(column, row);
                let crossed = self.grid.in_cell(column, row).iter().any(|&i| i as usize >= self.first_bound);
                let inside = if crossed { None } else { beside.or_else(|| Some(self.contains(middle))) };
                beside = inside;
                if inside != Some(false) {
                    squares.push(self.measured(middle, half, inside, f64::INFINITY, &mut best));
                }
            }
        }
        squares.sort_by(|a, b| a.room.total_cmp(&b.room));
        while let Some(square) = squares.pop() {
            if square.room + square.half * std::f64::consts::SQRT_2 <= best.radius + self.tolerance {
                continue;
            }
            let half = square.half / 2.0;
            for (dx, dy) in [(-half, -half), (half, -half), (-half, half), (half, half)] {
                let middle = Point::new(square.middle.x + dx, square.middle.y + dy);
                let reach = square.room.abs() + half * std::f64::consts::SQRT_2;
                let quarter = self.measured(middle, half, square.inside, reach, &mut best);
                if quarter.room + half * std::f64::consts::SQRT_2 > best.radius + self.tolerance {
                    squares.push(quarter);
                }
            }
        }
        (best.radius > 0.0).then_some(best)
    }

    /// The room of a square's middle, negative outside: it changes no faster than one moves.
    fn measured(
        &self,
        middle: Point,
        half: f64,
        inside: Option<bool>,
        reach: f64,
        best: &mut Disc,
    ) -> Square {
        let room = self.grid.nearest(&self.segments, middle, reach + 1e-9);
        if !inside.unwrap_or_else(|| self.contains(middle)) {
            return Square { middle, half, inside, room: -room };
        }
        if room > best.radius {
            *best = Disc { centre: middle, radius: room };
        }
        Square { middle, half, inside, room }
    }

    fn contains(&self, p: Point) -> bool {
        self.bounds.iter().fold(false, |inside, (a, b)| {
            let spans = (a.y > p.y) != (b.y > p.y);
            inside ^ (spans && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
        })
    }
}
