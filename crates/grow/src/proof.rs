//! A proposal is tried on a copy of the table before it is shown: sewn by the table's own rules, and
//! held against the limits by the code that audits finished pieces, which shares nothing with the
//! search.

use crate::bench::Bench;
use crate::finish::{laid_out, press_open};
use crate::heap::Heap;
use plane::Vec2;
use quilt::cloth::Runs;
use quilt::limits;
use quilt::log::Entry;
use quilt::table::Table;
use quilt::wish::Wish;
use quilt::{Place, Problem};

/// What the top breaks already: nobody can be asked to mend that with the next piece.
pub(crate) struct Proof<'a> {
    bench: &'a Bench<'a>,
    wish: &'a Wish,
    before: Vec<Problem>,
}

/// Two thick places nearer together than this are one, in inches.
const ONE_PLACE_IN: f64 = 0.5;

/// How far a print with a top may lean from upright: cosine of its angle to the wall's up.
const UPRIGHT: f64 = 1.0 - 1e-9;

impl<'a> Proof<'a> {
    pub(crate) fn new(bench: &'a Bench<'a>, wish: &'a Wish) -> Self {
        Self { bench, wish, before: broken(bench.table, bench, wish) }
    }

    /// Whether the entries can be sewn and break no limit that wasn't broken before. Where too many
    /// layers would meet, seams are pressed open first, as growing does.
    pub(crate) fn holds(&self, entries: &mut [Entry], heap: &Heap) -> bool {
        let (mut table, mut sound) = laid_out(entries, Some(self.bench));
        if sound && press_open(entries, &table, self.wish) {
            (table, sound) = laid_out(entries, Some(self.bench));
        }
        sound
            && broken(&table, self.bench, self.wish).iter().all(|problem| self.was_there(problem))
            && (!self.wish.upright || entries.iter().all(|entry| upright(&table, entry, heap)))
    }

    fn was_there(&self, problem: &Problem) -> bool {
        let same = |other: &Problem| {
            other.rule == problem.rule
                && match (other.place, problem.place) {
                    (Place::At(a), Place::At(b)) => {
                        a.distance(b) < ONE_PLACE_IN && problem.measured_in <= other.measured_in
                    }
                    (a, b) => a == b && problem.measured_in >= other.measured_in - plane::READING,
                }
        };
        self.before.iter().any(same)
    }
}

fn broken(table: &Table, bench: &Bench, wish: &Wish) -> Vec<Problem> {
    let top = table.top(bench.top);
    top.map_or_else(Vec::new, |top| limits::audit(top, wish.allowance_in, &wish.limits))
}

/// Whether the patch that an entry lays, if it does, stands with its print's top up on the wall.
fn upright(table: &Table, entry: &Entry, heap: &Heap) -> bool {
    let Some(patch) = table.patches().get(&entry.mark) else { return true };
    let Some(Runs::OneWay(top)) = heap.runs_of(patch.cloth) else { return true };
    let mut faces = table.tops().values().flat_map(|top| top.faces().values());
    faces.find(|face| face.patch == entry.mark).is_none_or(|face| {
        let up = face.pose.turn.apply(patch.at.turn.inverse().apply(Vec2::new(top.cos, top.sin)));
        up.y >= UPRIGHT
    })
}
