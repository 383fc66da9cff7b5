//! From a state of the search to what the maker gets: entries, and the eye check's cost of what
//! they replay to.

use crate::bench::Bench;
use crate::moves::State;
use crate::search::{End, Grown};
use crate::steps;
use quilt::eye::{Shapes, eye_check, total_cost};
use quilt::table::Table;
use quilt::wish::Wish;

/// What a state amounts to. The cost is that of the table its entries replay to, by the code that
/// checks finished pieces, not by the search's own estimate.
pub(crate) fn grown(state: &State, end: &End, wish: &Wish, from: Option<&Bench>) -> Grown {
    let entries = steps::entries(state.trail.as_deref());
    let mut table = from.map_or_else(Table::new, |bench| bench.table.clone());
    let mut sound = true;
    for entry in &entries {
        sound &= table.apply_entry(entry).is_ok();
    }
    let heap = &state.centre.heap;
    let top = from.map_or_else(|| table.piece().map(|(_, top)| top), |bench| table.top(bench.top));
    let shapes = top.map(|top| {
        Shapes::of(top, wish.allowance_in, &|mark| {
            let cloth = table.patches().get(&mark)?.cloth;
            let known = heap.look_of(cloth);
            Some((known.lab, known.print, cloth))
        })
    });
    let cost = shapes.filter(|_| sound).map_or(f64::INFINITY, |shapes| total_cost(&eye_check(&shapes, wish)));
    let pieces = state.centre.placed.len();
    Grown { entries, pieces, end: end.clone(), score: state.centre.cost / pieces as f64, cost }
}
