//! The best piece for one side, out of the whole declared grid.
//!
//! Growing looks at a few shapes and splits, since it sews many pieces. Who asks for the next one
//! wants the best: here the whole grid is gone through, the most promising first, and what a lower
//! bound of its score shows to be no better by more than `SLACK` is left out. The bound is shape and
//! split as they are, and the best look of any cloth in each cell, whether it has room or not.

use crate::centre::Centre;
use crate::choose;
use crate::growing::{Grid, Growing};
use crate::moves::Move;
use crate::split::{MOST_CELLS, Unit};
use crate::trim::Trim;

const WHOLE: Grid = Grid { shapes: usize::MAX, splits: usize::MAX, cloths: CLOTHS, finer: false };

/// Cloths that a cell considers.
const CLOTHS: usize = 8;

/// A unit is left out when it can't be better by more than this share of the best score.
const SLACK: f64 = 0.004;

/// A unit of the whole grid, and which of the trims goes before it.
struct Wide {
    unit: Unit,
    trim: Option<usize>,
}

impl Growing<'_> {
    /// The best moves on one side, as `on_side` gives them, and ahead of them the best of the grid.
    pub(crate) fn best_on_side(&self, centre: &Centre, side: usize) -> Vec<Move> {
        let mut found = self.on_side(centre, side, MOST_CELLS);
        let Some(mut best) = found.iter().map(|made| made.cost).min_by(f64::total_cmp) else {
            return found;
        };
        let trims = if self.wants_sides(centre) { self.trims(centre, side) } else { Vec::new() };
        for wide in self.wide(centre, side, &trims) {
            let trim = wide.trim.and_then(|i| trims.get(i));
            let at = trim.map_or(centre, |(_, after, _)| after);
            let enough = best - SLACK * best.abs();
            if wide.unit.cost >= enough + self.most_gain() {
                break;
            }
            let Some(look) = choose::least_look(&self.choosing(at, CLOTHS), &wide.unit) else { continue };
            if wide.unit.cost + look >= enough {
                continue;
            }
            let before = trim.map(|(trim, after, _)| (*trim, after.clone()));
            if let Some(made) = self.with_cloth(centre, wide.unit, before, CLOTHS) {
                best = best.min(made.cost);
                found.push(made);
            }
        }
        found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        found
    }

    /// All units of the grid, the best first.
    fn wide(&self, centre: &Centre, side: usize, trims: &[(Trim, Centre, usize)]) -> Vec<Wide> {
        let mut all: Vec<Wide> =
            self.units(centre, side, WHOLE).into_iter().map(|unit| Wide { unit, trim: None }).collect();
        for (i, (trim, after, made)) in trims.iter().enumerate() {
            for mut unit in self.units(after, *made, WHOLE) {
                unit.cost += self.thrift(trim);
                all.push(Wide { unit, trim: Some(i) });
            }
        }
        all.retain(|wide| {
            wide.unit.cells.len() <= MOST_CELLS
                && self.bend.pieces.is_none_or(|pieces| wide.unit.cells.len() == pieces)
        });
        all.sort_by(|a, b| a.unit.cost.total_cmp(&b.unit.cost));
        all
    }

    /// By how much the look of a cloth may lower a score at most.
    fn most_gain(&self) -> f64 {
        choose::most_gain(self.wish, self.bend.cloth.is_some())
    }
}
