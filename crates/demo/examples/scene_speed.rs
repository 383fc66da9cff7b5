//! How long photographs of 8 and 12 megapixels take to render: `cargo run -p demo --example scene_speed -- [COUNT]`.

use demo::scene::{Recipe, TUNING_SEEDS, scene};
use std::time::Instant;

fn main() {
    let count = std::env::args().nth(1).and_then(|word| word.parse().ok()).unwrap_or(4);
    for seed in TUNING_SEEDS.take(count) {
        let start = Instant::now();
        let picture = scene(&Recipe::NORMAL, seed, &vision::cards::pattern).picture;
        let took = start.elapsed().as_secs_f64();
        println!("{seed}: {} by {} pixels in {took:.1} s", picture.width, picture.height);
    }
}
