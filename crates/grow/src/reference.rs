//! The whole declared grid of next pieces for one side, walked with no shortcut of the search.
//!
//! A yardstick for tests and benches: every depth, tilt and flank, every number, lean and slide of
//! joins, every trim that may go before, every print in every cell and every scrap of it, with the
//! score that the search uses. No unit is passed over. Within one unit, cloths that can't beat the
//! best filling of that unit are, where a sum of things that are never negative proves it, so the
//! filling is exact. Slow; nothing else calls it.

use crate::bench::Bench;
use crate::centre::Centre;
use crate::choose::{self, Choosing};
use crate::growing::{Grid, Growing};
use crate::heap::Heap;
use crate::look;
use crate::next;
use crate::split::{Cell, MOST_CELLS, Unit};
use crate::weights;
use plane::{Fit, FitPiece, Pose};
use quilt::log::Name;
use quilt::wish::Wish;
use quilt::{Place, Problem, Rule};

/// Steps of search that one fit may take here; the search itself gives up much sooner.
const FIT_BUDGET: u32 = 20_000;

const WHOLE: Grid = Grid { shapes: usize::MAX, splits: usize::MAX, cloths: usize::MAX, finer: false };

/// The least score that any piece of the declared grid has on a side, if there is one; the grid is
/// the finer one where the usual one holds nothing.
///
/// # Errors
/// No such top or side; or an outline with a corner that turns inward.
pub fn best_score(
    bench: &Bench,
    heap: &Heap,
    wish: &Wish,
    side: Name,
    seed: u64,
) -> Result<Option<f64>, Problem> {
    let (growing, centre) = next::setting(bench, heap, wish, seed)?;
    let at = centre.sides.iter().position(|other| other.name == side);
    let at = at.ok_or(Problem::at(Rule::NoSuchSide, Place::Side(side, None)))?;
    let usual = walk(&growing, &centre, at, WHOLE, growing.wants_sides(&centre));
    Ok(usual.or_else(|| walk(&growing, &centre, at, Grid { finer: true, ..WHOLE }, true)))
}

fn walk(growing: &Growing, centre: &Centre, side: usize, grid: Grid, trims: bool) -> Option<f64> {
    let mut best = f64::INFINITY;
    best_on(growing, centre, &growing.units(centre, side, grid), 0.0, &mut best);
    if trims {
        for (trim, after, made) in growing.trims(centre, side) {
            let units = growing.units(&after, made, Grid { finer: false, ..grid });
            best_on(growing, &after, &units, growing.thrift(&trim), &mut best);
        }
    }
    best.is_finite().then_some(best)
}

fn best_on(growing: &Growing, centre: &Centre, units: &[Unit], extra: f64, best: &mut f64) {
    let choosing = growing.choosing(centre, usize::MAX);
    for unit in units.iter().filter(|unit| unit.cells.len() <= MOST_CELLS) {
        if let Some(mut filling) = Filling::new(&choosing, unit) {
            let mut own = f64::INFINITY;
            filling.fill(&mut Vec::new(), unit.cost + extra, &mut own);
            *best = best.min(own);
        }
    }
}

/// A cell with all prints that may lie in it, and what has been found out about room for each.
struct Slot<'a> {
    cell: &'a Cell,
    share: f64,
    frame: Pose,
    piece: FitPiece,
    /// Group and cost of its look, best first.
    groups: Vec<(usize, f64)>,
    /// For each of them, once asked: the area of the smallest scrap with room, if there is one.
    areas: Vec<Option<Option<f64>>>,
}

struct Filling<'a> {
    choosing: &'a Choosing<'a>,
    unit: &'a Unit,
    slots: Vec<Slot<'a>>,
    /// What the looks from each slot on cost at least.
    ahead: Vec<f64>,
}

impl<'a> Filling<'a> {
    fn new(choosing: &'a Choosing<'a>, unit: &'a Unit) -> Option<Self> {
        let total: f64 = unit.cells.iter().map(|cell| cell.area).sum();
        let mut slots = Vec::with_capacity(unit.cells.len());
        for cell in &unit.cells {
            let (frame, piece) = choose::piece(choosing.wish, cell)?;
            let ranked = choose::ranked(choosing, unit, cell);
            let groups: Vec<(usize, f64)> = ranked.iter().map(|(group, _, cost)| (*group, *cost)).collect();
            let areas = vec![None; groups.len()];
            slots.push(Slot { cell, share: cell.area / total, frame, piece, groups, areas });
        }
        let mut ahead = vec![0.0; slots.len() + 1];
        for i in (0..slots.len()).rev() {
            ahead[i] = ahead[i + 1] + slots[i].groups.first()?.1 * slots[i].share;
        }
        Some(Self { choosing, unit, slots, ahead })
    }

    /// Fills the cells after those in `taken` in every way that may beat the best.
    fn fill(&mut self, taken: &mut Vec<usize>, cost: f64, best: &mut f64) {
        let at = taken.len();
        if at == self.slots.len() {
            *best = best.min(cost);
            return;
        }
        for i in 0..self.slots[at].groups.len() {
            let (group, look) = self.slots[at].groups[i];
            let (share, ahead) = (self.slots[at].share, self.ahead[at + 1]);
            if cost + look * share + ahead >= *best {
                return;
            }
            let bars = |(cell, other): (usize, &usize)| {
                *other == group && !choose::may_come_again(self.choosing.wish, self.unit, cell, at)
            };
            if taken.iter().enumerate().any(bars) {
                continue;
            }
            let beside = taken.last().map_or(0.0, |last| self.beside(*last, group));
            if cost + (look + beside) * share + ahead >= *best {
                continue;
            }
            let Some(area) = self.area(at, i) else { continue };
            let left = 1.0 - self.slots[at].cell.cut_area / area;
            let own = look + beside + weights::LEFTOVER * self.choosing.wish.weights.leftover * left;
            if cost + own * share + ahead < *best {
                taken.push(group);
                self.fill(taken, cost + own * share, best);
                taken.pop();
            }
        }
    }

    fn beside(&self, a: usize, b: usize) -> f64 {
        let groups = self.choosing.centre.heap.groups();
        let difference = groups[b].quick.difference(groups[a].quick);
        let wish = self.choosing.wish;
        weights::BESIDE * wish.weights.contrast * look::contrast(wish, difference)
    }

    /// Area of the smallest of all scraps of a group that has room for a cell.
    fn area(&mut self, at: usize, i: usize) -> Option<f64> {
        let (choosing, slot) = (self.choosing, &mut self.slots[at]);
        if let Some(known) = slot.areas[i] {
            return known;
        }
        let heap = &choosing.centre.heap;
        let group = slot.groups[i].0;
        let found = heap
            .rests(group)
            .iter()
            .filter(|rest| rest.area() >= slot.cell.cut_area && !choosing.wish.spare.contains(&rest.cloth))
            .find(|rest| {
                let (turning, base) = choose::turning(rest.runs, slot.frame, choosing.wish);
                matches!(plane::try_fit(&slot.piece, &rest.room, turning, base, FIT_BUDGET), Fit::Yes(_))
            })
            .map(crate::heap::Rest::area);
        slot.areas[i] = Some(found);
        found
    }
}
