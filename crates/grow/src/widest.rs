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
const CLOTHS: usize = 12;

/// A unit is left out when it can't be better by more than this share of the best score.
const SLACK: f64 = 0.004;

/// What a score must be below to be worth looking for.
fn enough(best: f64) -> f64 {
    if best.is_finite() { best - SLACK * best.abs() } else { best }
}

/// A trim, the centre after it, and the index of the side it makes.
type After = (Trim, Centre, usize);

/// A unit of the whole grid, and which of the trims goes before it.
struct Wide {
    unit: Unit,
    trim: Option<usize>,
}

impl Growing<'_> {
    /// The best moves on one side, as `on_side` gives them, and ahead of them the best of the grid;
    /// of the finer grid where the usual one holds none.
    pub(crate) fn best_on_side(&self, centre: &Centre, side: usize) -> Vec<Move> {
        let mut found = self.usual_on_side(centre, side, MOST_CELLS);
        let trims = if self.wants_sides(centre) { self.trims(centre, side) } else { Vec::new() };
        self.widen(centre, side, WHOLE, &trims, &mut found);
        if found.is_empty() {
            found = self.more_on_side(centre, side, MOST_CELLS);
            let finer = Grid { finer: true, ..WHOLE };
            self.widen(centre, side, finer, &self.trims(centre, side), &mut found);
        }
        found.sort_by(|a, b| a.cost.total_cmp(&b.cost));
        found
    }

    /// Adds the moves of a grid that are better than all found, one after the other.
    fn widen(&self, centre: &Centre, side: usize, grid: Grid, trims: &[After], found: &mut Vec<Move>) {
        let mut best = found.iter().map(|made| made.cost).fold(f64::INFINITY, f64::min);
        let before = |wide: &Wide| wide.trim.and_then(|i| trims.get(i));
        let at = |wide: &Wide| before(wide).map_or(centre, |(_, after, _)| after);
        let mut bounded: Vec<(f64, Wide)> = self
            .wide(centre, side, grid, trims, best + self.most_gain())
            .into_iter()
            .filter_map(|wide| {
                let least = choose::least_look(&self.choosing(at(&wide), CLOTHS), &wide.unit)?;
                let bound = wide.unit.cost + least;
                (bound < enough(best)).then_some((bound, wide))
            })
            .collect();
        bounded.sort_by(|a, b| a.0.total_cmp(&b.0));
        for (bound, wide) in bounded {
            if bound >= enough(best) {
                break;
            }
            let trim = before(&wide).map(|(trim, after, _)| (*trim, after.clone()));
            if let Some(made) = self.with_cloth(centre, wide.unit, trim, CLOTHS) {
                best = best.min(made.cost);
                found.push(made);
            }
        }
    }

    /// All units of the grid whose shape and split cost less than `most`.
    fn wide(&self, centre: &Centre, side: usize, grid: Grid, trims: &[After], most: f64) -> Vec<Wide> {
        let mut all: Vec<Wide> = self
            .units_below(centre, side, grid, most)
            .into_iter()
            .map(|unit| Wide { unit, trim: None })
            .collect();
        for (i, (trim, after, made)) in trims.iter().enumerate() {
            for mut unit in self.units_below(after, *made, WHOLE, most - self.thrift(trim)) {
                unit.cost += self.thrift(trim);
                all.push(Wide { unit, trim: Some(i) });
            }
        }
        all.retain(|wide| {
            wide.unit.cost < most
                && wide.unit.cells.len() <= MOST_CELLS
                && self.bend.pieces.is_none_or(|pieces| wide.unit.cells.len() == pieces)
        });
        all
    }

    /// By how much the look of a cloth may lower a score at most.
    fn most_gain(&self) -> f64 {
        choose::most_gain(self.wish, self.bend.cloth.is_some())
    }
}
