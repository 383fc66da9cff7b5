//! From a state of the search to what the maker gets: entries, and the eye check's cost of what
//! they replay to.

use crate::bench::Bench;
use crate::moves::State;
use crate::search::{End, Goal, Grown, Unmet};
use crate::size;
use crate::steps;
use crate::target::Target;
use plane::Region;
use quilt::eye::{Shapes, eye_check, total_cost};
use quilt::layers::thickest;
use quilt::limits;
use quilt::log::{Entry, Press, Sewing, Step};
use quilt::table::{Face, Table, Top};
use quilt::wish::{Motif, Wish};

/// What each broken limit adds to the cost: more than all qualities together.
pub(crate) const BROKEN: f64 = 100.0;

/// How often thick places are looked for again after seams were pressed open.
const ROUNDS: usize = 4;

/// What lies on the table after the entries, and whether all of them held.
pub(crate) fn laid_out(entries: &[Entry], from: Option<&Bench>) -> (Table, bool) {
    let mut table = from.map_or_else(Table::new, |bench| bench.table.clone());
    let sound = entries.iter().all(|entry| table.apply_entry(entry).is_ok());
    (table, sound)
}

/// Where too many layers would meet, the newest seam that isn't open yet is pressed open: what is
/// done at the table. Whether there was anything to do.
pub(crate) fn press_open(entries: &mut [Entry], table: &Table, wish: &Wish) -> bool {
    let mut opened = false;
    for top in table.tops().values() {
        for thick in thickest(top, wish.limits.most_layers) {
            for name in thick.seams.iter().rev() {
                let sewn = entries.iter_mut().find(|entry| entry.mark == name.by);
                if let Some(Entry { step: Step::Sew(Sewing::Join { press, .. }), .. }) = sewn
                    && *press != Press::Open
                {
                    *press = Press::Open;
                    opened = true;
                    break;
                }
            }
        }
    }
    opened
}

/// What of the wish isn't on the table.
fn unmet(wish: &Wish, table: &Table, top: Option<&Top>) -> Vec<Unmet> {
    let missing = |motif: &&Motif| !top.is_some_and(|top| shows(motif, table, top, wish.allowance_in));
    wish.motif.iter().filter(missing).map(|motif| Unmet::Motif(motif.cloth)).collect()
}

/// Square inches of a motif that may be hidden, for rounding.
const HIDDEN_IN2: f64 = 1e-6;

/// Whether finished shapes show a motif whole.
fn shows(motif: &Motif, table: &Table, top: &Top, allowance_in: f64) -> bool {
    let on_cloth = |face: &Face| {
        let patch = table.patches().get(&face.patch).filter(|patch| patch.cloth == motif.cloth)?;
        let pose = face.pose.inverse().then(patch.at);
        let outer = pose.apply_all(&top.finished_points(face, allowance_in));
        (outer.len() > 2).then(|| Region { outer, holes: Vec::new() })
    };
    let shown: Vec<Region> = top.faces().values().filter_map(on_cloth).collect();
    plane::difference(&motif.part, &shown).iter().map(Region::area).sum::<f64>() < HIDDEN_IN2
}

/// What a state amounts to. The cost is that of the table its entries replay to, by the code that
/// checks finished pieces, not by the search's own estimate.
pub(crate) fn grown(
    state: &State,
    end: &End,
    goal: Goal,
    wish: &Wish,
    target: &Target,
    from: Option<&Bench>,
) -> Grown {
    let mut entries = steps::entries(state.trail.as_deref());
    let (mut table, mut sound) = laid_out(&entries, from);
    for _ in 0..ROUNDS {
        if !press_open(&mut entries, &table, wish) {
            break;
        }
        (table, sound) = laid_out(&entries, from);
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
    let broken = top.map_or(0, |top| limits::audit(top, wish.allowance_in, &wish.limits).len());
    let pieces = state.centre.placed.len();
    let short = if let Goal::Pieces(asked) = goal { asked.saturating_sub(pieces) } else { 0 };
    let size_off = match (goal, &shapes) {
        (Goal::Pieces(_), _) | (_, None) => 0.0,
        (_, Some(shapes)) => size::off(&shapes.outline, target),
    };
    let unmet = unmet(wish, &table, top);
    let waste = match &shapes {
        Some(shapes) if !matches!(goal, Goal::Pieces(_)) => size::waste(&shapes.outline, target),
        _ => 0.0,
    };
    let missed = short > 0 || size_off.abs() > size::REACHED_IN;
    let end = if *end == End::Reached && missed { End::Near } else { end.clone() };
    let check = shapes.filter(|_| sound).map(|shapes| eye_check(&shapes, wish));
    let cost = check.as_ref().map_or(f64::INFINITY, total_cost) + BROKEN * broken as f64;
    let good = check.map_or(0, |check| check.good);
    Grown {
        entries,
        pieces,
        end,
        score: state.centre.cost / pieces as f64,
        cost,
        good,
        size_off,
        short,
        waste,
        unmet,
    }
}
