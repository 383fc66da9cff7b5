//! Times growing, and fits how its cost grows with the heap and with the number of pieces.
//!
//! `cargo run --release -p grow --example grow_bench -- [thorough]`
//!
//! 300 pieces from 1,000 scraps at the usual setting, and with `thorough` at the thorough one with
//! its gain in the eye check's cost; then one lane of the usual beam over 250 to 4,000 scraps at
//! 100 pieces, and over 100 to 2,000 pieces from 4,000 scraps, with the exponents of the least
//! squares line through the logarithms. The wished width grows with the square root of the pieces,
//! so that they keep their natural size.

use colour::Lab;
use grow::{Effort, Goal, Grown, Heap, grow};
use quilt::cloth::Cloth;
use quilt::wish::{Wish, even_drift};
use std::collections::BTreeMap;
use std::time::Instant;

/// Width at which the usual sizes of pieces come to about 60.
const ACROSS_IN: f64 = 20.0;
const SEED: u64 = 201;
const ONE_LANE: Effort = Effort { starts: 1, ..Effort::USUAL };

fn main() {
    let thorough = std::env::args().nth(1).is_some_and(|a| a == "thorough");
    let (seconds, usual) = timed(1000, 300, Effort::USUAL, true);
    report("usual", 1000, seconds, usual.as_ref());
    if thorough {
        let (seconds, best) = timed(1000, 300, Effort::THOROUGH, true);
        report("thorough", 1000, seconds, best.as_ref());
        if let (Some(usual), Some(best)) = (usual, best) {
            println!("gain in cost {:.3}", usual.cost - best.cost);
        }
    }
    let by_scraps = [250, 500, 1000, 2000, 4000].map(|scraps| (scraps, series(scraps, 100)));
    println!("exponent over scraps {:.2}", exponent(&by_scraps));
    let by_pieces = [100, 250, 500, 1000, 2000].map(|pieces| (pieces, series(4000, pieces)));
    println!("exponent over pieces {:.2}", exponent(&by_pieces));
}

fn series(scraps: usize, pieces: usize) -> f64 {
    let (seconds, grown) = timed(scraps, pieces, ONE_LANE, false);
    report("one lane", scraps, seconds, grown.as_ref());
    seconds
}

fn report(name: &str, scraps: usize, seconds: f64, grown: Option<&Grown>) {
    if let Some(grown) = grown {
        println!(
            "{name}: {scraps} scraps, {} pieces in {seconds:.2} s, cost {:.2}, {} good, {:?}",
            grown.pieces, grown.cost, grown.good, grown.end
        );
    }
}

/// Seconds of growing, and the best of what was grown.
fn timed(scraps: usize, pieces: usize, effort: Effort, sized: bool) -> (f64, Option<Grown>) {
    let cloths = demo::frozen_heap(SEED, scraps).cloths();
    let heap = Heap::new(cloths.iter().map(|c| (c, vec![c.outline.clone()])), &[]);
    let wish = wish(&cloths, pieces);
    let goal = if sized { Goal::SizeWith(pieces) } else { Goal::Pieces(pieces) };
    let at = Instant::now();
    let grown = grow(&heap, &wish, goal, effort, SEED, None, &mut ());
    (at.elapsed().as_secs_f64(), grown.into_iter().next())
}

/// Slope of the least squares line through the logarithms.
fn exponent(series: &[(usize, f64)]) -> f64 {
    let logs: Vec<(f64, f64)> = series.iter().map(|(n, t)| ((*n as f64).ln(), t.ln())).collect();
    let n = logs.len() as f64;
    let (x, y) = logs.iter().fold((0.0, 0.0), |(x, y), l| (x + l.0 / n, y + l.1 / n));
    let over: f64 = logs.iter().map(|l| (l.0 - x) * (l.1 - y)).sum();
    over / logs.iter().map(|l| (l.0 - x).powi(2)).sum::<f64>()
}

/// Colours from the heap's own prints, hot to cool, as in `quality`; the width goes with the pieces.
fn wish(cloths: &[Cloth], pieces: usize) -> Wish {
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
    let across_in = ACROSS_IN * (pieces as f64 / 60.0).sqrt();
    Wish { drift: even_drift(&fifths), across_in, ..Wish::default() }
}
