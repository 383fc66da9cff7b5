//! How well photographs are read: rendered scenes with a known truth, from seeds that nothing was
//! tuned on.
//!
//! `cargo run --release -p vision --example photos -- [COUNT] [normal|hard] [piece] [lengths] [tuning] [each]`
//!
//! Each scene goes through JPEG, decoding, cards, flattening, light, outlines and looks, and what
//! comes out is held against what was rendered (`demo::scene` says how scenes are distributed). With
//! `piece`, half-made pieces are photographed instead of scraps, and only their outline is judged.
//! Nothing is timed against a limit; the times are those of the machine it runs on.
//!
//! The figures of each scene are kept (`kept`): a run that was stopped goes on when it is started again. A
//! program that was built from other source starts anew.

mod curve;
mod judge;
mod kept;
mod looks;
mod matching;
mod rigid;
mod words;

use demo::scene::{REPORT_SEEDS, Recipe, Scene, TUNING_SEEDS, cards_scene, piece_scene, scene};
use judge::{Judged, judge};
use kept::Kept;
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
    let things = match (piece, says("lengths")) {
        (true, _) => "piece",
        (_, true) => "lengths",
        _ => "scraps",
    };
    let whose = if says("tuning") { "tuning" } else { "report" };
    let kind = format!("{}-{things}-{whose}", recipe.name);
    let mut kept = Kept::open(&kind).expect("figures can be kept beside the program");
    println!("{}", kept.words());
    let mut all: Vec<Judged> = Vec::new();
    for seed in seeds.take(count) {
        if let Some(judged) = kept.take(seed) {
            all.push(judged);
            continue;
        }
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
        kept.keep(&judged).expect("figures can be kept beside the program");
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
