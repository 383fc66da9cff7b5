//! Times the next piece for one edge and holds it against the walk of the whole grid.
//!
//! `cargo run --release -p grow --example next_bench -- [STATES]`
//!
//! States come from heaps of 2,000 scraps with seeds from 201 on, none of them used in tuning, grown
//! to 5 to 60 pieces; the edge is drawn at random. Prints the median, 95th percentile and cold time
//! of the search, the reference's time, the ratio, and how near the search's score comes to the
//! reference's. Cold: the first call after 64 MB of other memory has been walked through.

use colour::Lab;
use grow::{Bench, Bend, Effort, Goal, Heap, grow, next_piece, reference};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Mark, Name};
use quilt::table::{Table, replay};
use quilt::wish::{Wish, even_drift};
use std::collections::BTreeMap;
use std::time::Instant;

const SCRAPS: usize = 2000;
const FIRST_SEED: u64 = 201;

fn main() {
    let states: u64 = std::env::args().nth(1).and_then(|a| a.parse().ok()).unwrap_or(100);
    let found: Vec<Row> = (FIRST_SEED..).filter_map(row).take(states as usize).collect();
    let times = |part: fn(&Row) -> f64| {
        let mut all: Vec<f64> = found.iter().map(part).collect();
        all.sort_by(f64::total_cmp);
        all
    };
    let at = |all: &[f64], share: f64| all[((all.len() - 1) as f64 * share).round() as usize];
    let (warm, cold, reference) = (times(|r| r.warm), times(|r| r.cold), times(|r| r.reference));
    let within = |share: f64| found.iter().filter(|r| r.off() <= share).count();
    println!(
        "next piece: median {:.1} ms, 95th percentile {:.1} ms, cold {:.1} ms in the median and {:.1} ms at most",
        at(&warm, 0.5),
        at(&warm, 0.95),
        at(&cold, 0.5),
        at(&cold, 1.0)
    );
    println!(
        "reference: median {:.0} ms, ratio of sums {:.1}",
        at(&reference, 0.5),
        reference.iter().sum::<f64>() / warm.iter().sum::<f64>()
    );
    println!(
        "score within 1 % of the reference's in {} of {}, within 5 % in {}; worst {:.2} %",
        within(0.01),
        found.len(),
        within(0.05),
        100.0 * found.iter().map(Row::off).fold(f64::NEG_INFINITY, f64::max)
    );
}

struct Row {
    warm: f64,
    cold: f64,
    reference: f64,
    score: f64,
    best: f64,
}

impl Row {
    /// By how much the search's score is worse, as a share of the reference's.
    fn off(&self) -> f64 {
        (self.score - self.best) / self.best.abs().max(1e-9)
    }
}

/// One state; `None` when the edge drawn has no next piece, or growing ends too soon.
fn row(seed: u64) -> Option<Row> {
    let cloths = demo::frozen_heap(seed, SCRAPS).cloths();
    let wish = wish(&cloths);
    let whole = Heap::new(cloths.iter().map(|c| (c, vec![c.outline.clone()])), &[]);
    // Drawn from the seed by Knuth's multiplier.
    let drawn = seed.wrapping_mul(6_364_136_223_846_793_005) >> 33;
    let pieces = 5 + (drawn % 56) as usize;
    let grown = grow(&whole, &wish, Goal::Pieces(pieces), Effort::QUICK, seed, None, &mut ());
    let entries = &grown.first()?.entries;
    let (table, halt) = replay(entries);
    if let Some(halt) = halt {
        println!("HALT at {}: {}", halt.mark, halt.problem);
        return None;
    }
    let (top, piece) = table.piece()?;
    let sides: Vec<Name> = piece.sides().iter().filter_map(|side| raw(side.bound)).collect();
    let side = sides[(drawn / 56) as usize % sides.len()];
    let next_mark = Mark(entries.iter().map(|e| e.mark.0).max()? + 1);
    let bench = Bench { table: &table, top, next_mark };
    let heap = left(&cloths, &table);
    let ask = || next_piece(&bench, &heap, &wish, Some(side), 5, seed, &Bend::default(), &[]).ok();
    walk_memory();
    let (_, cold) = timed(ask);
    let (proposals, warm) = timed(ask);
    let (best, reference) = timed(|| reference::best_score(&bench, &heap, &wish, side, seed).ok().flatten());
    let first = proposals?.into_iter().next();
    if first.is_none() && best.is_none() {
        println!("{seed} {pieces:>3} pieces  no next piece on that edge, says the reference too");
        return None;
    }
    // A piece that only the reference finds is a miss; one that only the search finds lies beyond
    // the wished size, where the reference doesn't look.
    let (score, best) = match (first, best) {
        (Some(first), Some(best)) => (first.score, best),
        (None, Some(best)) => (f64::INFINITY, best),
        (first, None) => {
            println!("{seed}: search {:?}, reference none", first.map(|f| f.score));
            return None;
        }
    };
    let row = Row { warm, cold, reference, score, best };
    println!(
        "{seed} {pieces:>3} pieces  {warm:>7.1} ms  cold {cold:>7.1} ms  reference {reference:>8.0} ms  score {:.4} best {:.4}  off {:.2} %",
        row.score,
        row.best,
        100.0 * row.off()
    );
    Some(row)
}

fn raw(bound: quilt::log::Bound) -> Option<Name> {
    match bound {
        quilt::log::Bound::Raw(name) => Some(name),
        quilt::log::Bound::Seam(_) => None,
    }
}

/// What is left of the cloths.
fn left(cloths: &[Cloth], table: &Table) -> Heap {
    let mut cut: BTreeMap<ClothId, Vec<_>> = BTreeMap::new();
    for patch in table.patches().values() {
        cut.entry(patch.cloth).or_default().push(patch.at.apply_all(&patch.cut));
    }
    let rests = cloths.iter().map(|cloth| {
        let mut parts = vec![cloth.outline.clone()];
        for piece in cut.get(&cloth.id).into_iter().flatten() {
            parts = parts.iter().flat_map(|part| plane::remainder(part, piece)).collect();
        }
        (cloth, parts)
    });
    Heap::new(rests, &[])
}

fn walk_memory() {
    let other = vec![1_u8; 64 << 20];
    std::hint::black_box(other.iter().step_by(64).map(|b| u64::from(*b)).sum::<u64>());
}

fn timed<T>(work: impl FnOnce() -> T) -> (T, f64) {
    let at = Instant::now();
    let made = work();
    (made, 1e3 * at.elapsed().as_secs_f64())
}

/// Colours from the heap's own prints, hot to cool, as in `quality`.
fn wish(cloths: &[Cloth]) -> Wish {
    let mut prints: BTreeMap<u64, Lab> = BTreeMap::new();
    for cloth in cloths {
        prints.insert(cloth.print.unwrap_or(cloth.id.0), cloth.look.mean());
    }
    let mut labs: Vec<Lab> = prints.into_values().collect();
    labs.sort_by(|a, b| (b.a + b.b).total_cmp(&(a.a + a.b)));
    let mean =
        |chunk: &[Lab], part: fn(&Lab) -> f64| chunk.iter().map(part).sum::<f64>() / chunk.len() as f64;
    let fifths: Vec<Lab> = labs
        .chunks((labs.len() / 5).max(1))
        .take(5)
        .map(|chunk| Lab { l: mean(chunk, |c| c.l), a: mean(chunk, |c| c.a), b: mean(chunk, |c| c.b) })
        .collect();
    Wish { drift: even_drift(&fifths), ..Wish::default() }
}
