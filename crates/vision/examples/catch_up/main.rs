//! How well what was sewn to a piece is read from one photograph of it: rendered pieces with a known
//! truth, each known as it was five patches before.
//!
//! `cargo run --release -p vision --example catch_up -- [COUNT] [tuning] [each] [from N]`

mod judge;

use demo::scene::{REPORT_SEEDS, TUNING_SEEDS};
use judge::{Judged, judge};

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let says = |word: &str| words.iter().any(|one| one == word);
    let count = words.iter().find_map(|word| word.parse().ok()).unwrap_or(100);
    let skip = words
        .iter()
        .position(|word| word == "from")
        .and_then(|i| words.get(i + 1)?.parse().ok())
        .unwrap_or(0);
    let seeds = if says("tuning") { TUNING_SEEDS } else { REPORT_SEEDS };
    let mut all = Vec::new();
    for seed in seeds.skip(skip).take(count) {
        let judged = judge(seed);
        if says("each") {
            println!("{seed}: {judged:?}");
        }
        all.push(judged);
    }
    report(&all);
}

fn report(all: &[Judged]) {
    let pieces = all.iter().filter(|one| one.skipped.is_none()).count();
    let sum = |of: fn(&Judged) -> usize| all.iter().map(of).sum::<usize>();
    println!("{pieces} pieces");
    println!(
        "outline within 1/16 inch: {}",
        sum(|one| usize::from(one.outline_off_in.is_some_and(|off| off < 0.0625)))
    );
    println!("laid where it lies: {}", sum(|one| usize::from(one.laid)));
    println!(
        "new patches: {} there, {} found, {} that are none",
        sum(|one| one.there),
        sum(|one| one.found),
        sum(|one| one.false_ones)
    );
    println!("cloth: first {}, among three {} of those found", sum(|one| one.first), sum(|one| one.three));
    println!(
        "given the patch: first {}, among three {} of {}",
        sum(|one| one.known[0]),
        sum(|one| one.known[1]),
        sum(|one| one.there)
    );
}
