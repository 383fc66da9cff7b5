//! How well photographs are read: rendered scenes with a known truth, from seeds that nothing was
//! tuned on.
//!
//! `cargo run --release -p vision --example photos -- [COUNT] [normal|hard] [tuning]`
//!
//! Each scene goes through JPEG, decoding, cards, flattening, light, outlines and looks, and what
//! comes out is held against what was rendered (`demo::scene` says how scenes are distributed).
//! Nothing is timed against a limit; the times are those of the machine it runs on.

mod curve;
mod judge;
mod matching;
mod rigid;
mod words;

use demo::scene::{REPORT_SEEDS, Recipe, TUNING_SEEDS, scene};
use judge::{Judged, judge};

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let count = words.iter().find_map(|word| word.parse().ok()).unwrap_or(200);
    let says = |word: &str| words.iter().any(|one| one == word);
    let recipe = if says("hard") { Recipe::HARD } else { Recipe::NORMAL };
    let seeds = if says("tuning") { TUNING_SEEDS } else { REPORT_SEEDS };
    println!("{count} {} scenes, seeds from {}", recipe.name, seeds.start);
    let mut all: Vec<Judged> = Vec::new();
    for seed in seeds.take(count) {
        let judged = judge(seed, &scene(&recipe, seed, &vision::cards::pattern));
        if says("each") {
            println!("{}", words::line(&judged));
        }
        all.push(judged);
    }
    words::report(&all);
}
