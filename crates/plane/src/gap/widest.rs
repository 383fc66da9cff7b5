//! The widest place without a line: the largest disc inside the outline that no line meets.
//!
//! The plane is cut into squares. A square can't hold the centre of a larger disc than its own
//! middle has room, plus its half diagonal; those that might beat the best so far are quartered.
//! What comes back is a disc that is really free, at most the tolerance short of the widest.

use super::grid::{Grid, Segment, squared_distance};
use crate::fill::{Fill, Ground, Stroke};
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

/// The first squares are so many rows wide.
const CELL_ROWS: f64 = 2.0;

/// The widest gap between the lines of a fill, as a disc. Its diameter is at most `tolerance_in`
/// short of the widest; `None` when the ground has no area. Cost: for a bed-size
/// quilt at 1/4 inch about a million squares.
#[must_use]
pub fn widest(ground: &Ground, fill: &Fill, keep_outs: KeepOuts, tolerance_in: f64) -> Option<Disc> {
    let bounds = ground.edges(keep_outs == KeepOuts::Closed);
    let edges = if keep_outs == KeepOuts::SewnRound { ground.edges(true) } else { Vec::new() };
    widest_within(&bounds, fill, &edges, tolerance_in)
}

/// The widest gap inside `bounds`, the sides of one or more rings, between the lines of a fill and
/// whatever else is `sewn`. The bounds themselves count as sewn. As [`widest`] otherwise.
#[must_use]
pub fn widest_within(bounds: &[Segment], fill: &Fill, sewn: &[Segment], tolerance_in: f64) -> Option<Disc> {
    let mut segments: Vec<Segment> = fill.strokes.iter().flat_map(Stroke::segments).collect();
    let length: f64 = segments.iter().map(|(a, b)| a.distance(*b)).sum();
    segments.extend(sewn);
    let first_bound = segments.len();
    segments.extend(bounds);
    let corners: Vec<Point> = bounds.iter().map(|side| side.0).collect();
    let (low, high) = polygon::bounds(&corners)?;
    let area = (high.x - low.x) * (high.y - low.y);
    let cell = (CELL_ROWS * area / (length + area.sqrt())).max(tolerance_in / 8.0);
    let search = Search {
        grid: Grid::new(&segments, low, high, cell),
        segments,
        bounds: bounds.to_vec(),
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
#[derive(Clone, Copy)]
struct Square {
    middle: Point,
    half: f64,
    /// Whether it lies wholly inside, as far as that is known.
    inside: Option<bool>,
    /// Room of the middle, negative outside: it changes no faster than one moves.
    room: f64,
}

impl Square {
    fn diagonal(&self) -> f64 {
        self.half * std::f64::consts::SQRT_2
    }
}

impl Search {
    fn run(&self) -> Option<Disc> {
        let mut best = Disc { centre: self.grid.low, radius: 0.0 };
        let squares = self.first_squares(&mut best);
        let mut near = Vec::new();
        for square in squares {
            if square.room + square.diagonal() > best.radius + self.tolerance {
                self.gather(&square, &mut near);
                self.split(square, &mut near, 0, &mut best);
            }
        }
        (best.radius > 0.0).then_some(best)
    }

    /// One square for each cell that isn't wholly outside.
    fn first_squares(&self, best: &mut Disc) -> Vec<Square> {
        let half = self.grid.cell / 2.0;
        let mut squares = Vec::with_capacity(self.grid.columns * self.grid.rows);
        for row in 0..self.grid.rows {
            let mut beside = None;
            for column in 0..self.grid.columns {
                let middle = self.grid.middle(column, row);
                let crossed = self.grid.in_cell(column, row).iter().any(|&i| i as usize >= self.first_bound);
                let inside = if crossed { None } else { beside.or_else(|| Some(self.contains(middle))) };
                beside = inside;
                if inside != Some(false) {
                    let distance = self.grid.nearest(&self.segments, middle, f64::INFINITY);
                    squares.push(self.measured(middle, half, inside, distance, best));
                }
            }
        }
        squares
    }

    /// All segments that can be nearest to some place in the square.
    fn gather(&self, square: &Square, near: &mut Vec<(Segment, f64)>) {
        near.clear();
        let reach = square.room.abs() + 2.0 * square.diagonal() + 1e-9;
        self.grid.outward(square.middle, reach, |item| {
            let segment = self.segments[item as usize];
            let squared = squared_distance(segment, square.middle);
            if squared <= reach * reach && !near.iter().any(|(known, _)| *known == segment) {
                near.push((segment, squared));
            }
            reach
        });
    }

    /// Quarters a square as long as it may hold the middle of a wider gap. What may be nearest to
    /// a place in it lies on `near` from `first` on; its quarters' own lists go on top.
    fn split(&self, square: Square, near: &mut Vec<(Segment, f64)>, first: usize, best: &mut Disc) {
        let (half, last) = (square.half / 2.0, near.len());
        for (dx, dy) in [(-half, -half), (half, -half), (-half, half), (half, half)] {
            let middle = Point::new(square.middle.x + dx, square.middle.y + dy);
            let mut least = f64::INFINITY;
            for (segment, squared) in &mut near[first..last] {
                *squared = squared_distance(*segment, middle);
                least = least.min(*squared);
            }
            let quarter = self.measured(middle, half, square.inside, least.sqrt(), best);
            if quarter.room + quarter.diagonal() > best.radius + self.tolerance {
                let reach = least.sqrt() + 2.0 * quarter.diagonal() + 1e-9;
                for i in first..last {
                    if near[i].1 <= reach * reach {
                        near.push(near[i]);
                    }
                }
                self.split(quarter, near, last, best);
                near.truncate(last);
            }
        }
    }

    fn measured(
        &self,
        middle: Point,
        half: f64,
        inside: Option<bool>,
        distance: f64,
        best: &mut Disc,
    ) -> Square {
        if !inside.unwrap_or_else(|| self.contains(middle)) {
            return Square { middle, half, inside, room: -distance };
        }
        if distance > best.radius {
            *best = Disc { centre: middle, radius: distance };
        }
        Square { middle, half, inside, room: distance }
    }

    fn contains(&self, p: Point) -> bool {
        self.bounds.iter().fold(false, |inside, (a, b)| {
            let spans = (a.y > p.y) != (b.y > p.y);
            inside ^ (spans && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
        })
    }
}
