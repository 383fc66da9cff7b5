//! The state of the search: a convex centre as its free sides, with what lies along them.
//!
//! Only the rim is kept in full. What has been sewn in keeps its finished shape for good, so the
//! inside is remembered as sums and as a list that states share.

use crate::heap::Heap;
use colour::{Lab, Quick};
use plane::{Line, Point, Vec2};
use quilt::log::{Mark, Name};
use std::sync::Arc;

/// A placed patch: its finished shape and its look.
#[derive(Clone, Debug)]
pub(crate) struct Placed {
    /// Finished shape, in the coordinates of the centre.
    pub(crate) shape: Arc<[Point]>,
    pub(crate) centroid: Point,
    pub(crate) area: f64,
    /// Share of the way outward at which its centroid lies.
    pub(crate) share: f64,
    pub(crate) group: usize,
    pub(crate) print: Option<u64>,
    pub(crate) lab: Lab,
    pub(crate) quick: Quick,
}

/// A stretch of a side along which one patch lies, measured along the side's line where its seam
/// will run.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Along {
    pub(crate) from: f64,
    pub(crate) to: f64,
    /// Index of the patch.
    pub(crate) placed: usize,
}

/// A free side of the centre.
#[derive(Clone, Debug)]
pub(crate) struct Side {
    pub(crate) name: Name,
    /// Raw line, inside towards the centre.
    pub(crate) line: Line,
    pub(crate) along: Vec<Along>,
}

/// A centre while it grows.
#[derive(Clone, Debug)]
pub(crate) struct Centre {
    /// The step that began the top.
    pub(crate) top: Mark,
    pub(crate) sides: Vec<Side>,
    /// Centre of the first patch.
    pub(crate) middle: Point,
    pub(crate) placed: Chain,
    pub(crate) heap: Heap,
    /// The next free step number.
    pub(crate) next_mark: u32,
    /// Position of the side sewn last, if any.
    pub(crate) last: Option<usize>,
    /// Sum of the patches' areas, and of weight (area × darkness) × place relative to the middle.
    pub(crate) area: f64,
    pub(crate) weight: f64,
    pub(crate) moment: Vec2,
    /// Area of all that was cut, for thrift.
    pub(crate) cut_area: f64,
    pub(crate) trimmed_area: f64,
    /// Length of seams in each of 12 directions.
    pub(crate) directions: [f64; 12],
    /// Sparks used so far.
    pub(crate) sparks: u32,
    /// Sum of the scores of the moves taken.
    pub(crate) cost: f64,
}

impl Centre {
    /// The raw corners, corner `i` at the start of side `i`.
    pub(crate) fn corners(&self) -> Vec<Point> {
        let n = self.sides.len();
        (0..n).filter_map(|i| self.sides[(i + n - 1) % n].line.crossing(self.sides[i].line)).collect()
    }

    /// The index of the side after `i`.
    pub(crate) fn after(&self, i: usize) -> usize {
        (i + 1) % self.sides.len()
    }

    /// The index of the side before `i`.
    pub(crate) fn before(&self, i: usize) -> usize {
        (i + self.sides.len() - 1) % self.sides.len()
    }

    /// Counts a seam's length under its direction.
    pub(crate) fn count_seam(&mut self, a: Point, b: Point) {
        self.directions[direction_bin(b - a)] += a.distance(b);
    }

    /// A trimmed patch takes its new shape, in the sums as well.
    pub(crate) fn recount(&mut self, i: usize, shape: Vec<Point>, area: f64, centroid: Point) {
        let old = self.placed.get(i).clone();
        let dark = 100.0 - old.lab.l;
        self.area += area - old.area;
        self.weight += (area - old.area) * dark;
        self.moment += (centroid - self.middle) * (area * dark);
        self.moment = self.moment - (old.centroid - self.middle) * (old.area * dark);
        self.placed.set(i, Placed { shape: shape.into(), area, centroid, ..old });
    }

    /// Counts a new patch in the sums.
    pub(crate) fn count(&mut self, placed: &Placed) {
        self.area += placed.area;
        let weight = placed.area * (100.0 - placed.lab.l);
        self.weight += weight;
        self.moment += (placed.centroid - self.middle) * weight;
    }
}

/// Which of 12 directions, of 15 degrees each, a line runs in.
pub(crate) fn direction_bin(v: Vec2) -> usize {
    let angle = v.y.atan2(v.x).rem_euclid(std::f64::consts::PI);
    ((angle / std::f64::consts::PI * 12.0) as usize).min(11)
}

/// A list that grows at its end and shares what it has with its copies.
#[derive(Clone, Debug, Default)]
pub(crate) struct Chain {
    /// Full blocks, shared, then the open one.
    blocks: Vec<Arc<Vec<Placed>>>,
    length: usize,
}

const BLOCK: usize = 32;

impl Chain {
    pub(crate) fn len(&self) -> usize {
        self.length
    }

    pub(crate) fn push(&mut self, placed: Placed) {
        if self.length.is_multiple_of(BLOCK) {
            self.blocks.push(Arc::new(Vec::with_capacity(BLOCK)));
        }
        if let Some(block) = self.blocks.last_mut() {
            Arc::make_mut(block).push(placed);
        }
        self.length += 1;
    }

    pub(crate) fn get(&self, i: usize) -> &Placed {
        &self.blocks[i / BLOCK][i % BLOCK]
    }

    pub(crate) fn set(&mut self, i: usize, placed: Placed) {
        Arc::make_mut(&mut self.blocks[i / BLOCK])[i % BLOCK] = placed;
    }
}
