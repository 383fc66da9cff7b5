//! Times layers, the audit and the eye check on a large piece: strips round a square.
//!
//! Run with `cargo run -p quilt --example eye_speed -- 2000`.

#[path = "strips/mod.rs"]
mod strips;

use quilt::eye::{Shapes, eye_check};
use quilt::wish::Wish;
use std::time::Instant;

fn main() {
    let pieces = std::env::args().nth(1).and_then(|n| n.parse().ok()).unwrap_or(500);
    let table = strips::strips(pieces);
    let Some((_, top)) = table.piece() else { return };
    println!("{} patches, {} seams", top.faces().len(), top.seams().len());
    timed("layers", || quilt::layers::thickest(top, 7).len());
    timed("audit", || quilt::limits::audit(top, 0.25, &Wish::default().limits).len());
    timed("shapes", || Shapes::of(top, 0.25, &|_| None).shapes.len());
    let shapes = Shapes::of(top, 0.25, &|_| None);
    timed("eye check", || eye_check(&shapes, &Wish::default()).good);
}

fn timed(what: &str, work: impl Fn() -> usize) {
    let mut times: Vec<f64> = (0..7)
        .map(|_| {
            let start = Instant::now();
            std::hint::black_box(work());
            start.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{what}: {:.1} ms", times[times.len() / 2]);
}
