//! How well photographs are read: rendered scenes with a known truth, from seeds that nothing was
//! tuned on.
//!
//! `cargo run --release -p vision --example photos -- [COUNT] [normal|hard] [piece] [lengths] [tuning] [each]`
//!
//! Each scene goes through JPEG, decoding, cards, flattening, light, outlines and looks, and what
//! comes out is held against what was rendered (`demo::scene` says how scenes are distributed). With
//! `piece`, half-made pieces are photographed instead of scraps, and only their outline is judged.
//! Nothing is timed against a limit; the times are those of the machine it runs on.

mod curve;
mod judge;
mod looks;
mod matching;
mod rigid;
mod words;

use demo::scene::{REPORT_SEEDS, Recipe, Scene, TUNING_SEEDS, cards_scene, piece_scene, scene};
use judge::{Judged, judge};
use vision::cards::pattern;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let count = words.iter().find_map(|word| word.parse().ok()).unwrap_or(200);
    let says = |word: &str| words.iter().any(|one| one == word);
    let recipe = if says("hard") { Recipe::HARD } else { Recipe::NORMAL };
    let seeds = if says("tuning") { TUNING_SEEDS } else { REPORT_SEEDS };
    let piece = says("piece");
    println!(
        "{count} {} scenes of {}, seeds from {}",
        recipe.name,
        if piece { "pieces" } else { "scraps" },
        seeds.start
    );
    let mut all: Vec<Judged> = Vec::new();
    for seed in seeds.take(count) {
        let rendered = if piece {
            half_made(&recipe, seed)
        } else if says("lengths") {
            Some(cards_scene(&recipe, seed, &pattern))
        } else {
            Some(scene(&recipe, seed, &pattern))
        };
        let Some(rendered) = rendered else {
            println!("{seed}: no piece could be sewn or seen whole");
            continue;
        };
        let judged = judge(seed, &rendered, says("lengths"));
        if says("each") {
            println!("{}", words::line(&judged));
        }
        all.push(judged);
    }
    words::report(&all);
    if says("each") {
        words::wrong(&all);
    }
}

/// A piece of 8 to 19 patches.
fn half_made(recipe: &Recipe, seed: u64) -> Option<Scene> {
    let sewn = demo::sewn(seed, 8 + (seed % 12) as usize, 24);
    piece_scene(recipe, seed, &pattern, &sewn.table(sewn.patches()), &sewn.heap)
}
