//! Measures how long prints, heaps and pictures take:
//! `cargo run -p demo --example draw_speed`.

use demo::{frozen_heap, low_tide, pictures, prints};
use std::error::Error;
use std::time::Instant;

fn main() -> Result<(), Box<dyn Error>> {
    let start = Instant::now();
    let looks: f64 = prints(0).iter().map(|print| print.look().busy).sum();
    println!(
        "looks of all prints for the first time: {:.0?} (mean busy {:.2})",
        start.elapsed(),
        looks / 32.0
    );
    for scraps in [60, 1000, 4000] {
        let start = Instant::now();
        let heap = frozen_heap(1, scraps);
        println!("a frozen heap of {scraps}: {:.1?}, {:.0} square inches", start.elapsed(), heap.area());
    }
    for print in prints(0) {
        let start = Instant::now();
        let pixels = print.draw(60.0).pixels.len();
        println!("{}: {pixels} pixels in {:.0?}", print.name, start.elapsed());
    }
    let start = Instant::now();
    let bytes: usize = pictures(&low_tide())?.iter().map(|drawn| drawn.png.len()).sum();
    println!("all pictures of Low Tide: {:.1?}, {:.1} MB", start.elapsed(), bytes as f64 / 1e6);
    Ok(())
}
