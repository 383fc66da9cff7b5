//! Measures how long finding and looking at twelve scraps takes on a 12-megapixel table:
//! `cargo run -p vision --example outline_speed`.

use colour::Srgb;
use plane::{Point, Region, Vec2};
use std::time::Instant;
use vision::{Flat, Picture, find_cloths, looks};

const WIDTH: usize = 4000;
const HEIGHT: usize = 3000;
const PER_IN: f64 = 100.0;

fn main() {
    let flat = table();
    let mut best = [f64::INFINITY; 2];
    let mut work = [0.0; 2];
    let mut found = Vec::new();
    for _ in 0..ROUNDS {
        let (start, before) = (Instant::now(), processor_ms());
        found = find_cloths(&flat, &[]);
        best[0] = best[0].min(start.elapsed().as_secs_f64() * 1e3);
        let (start, between) = (Instant::now(), processor_ms());
        let outlines: Vec<&Region> = found.iter().map(|one| &one.outline).collect();
        std::hint::black_box(looks(&flat, &outlines));
        best[1] = best[1].min(start.elapsed().as_secs_f64() * 1e3);
        work[0] += between - before;
        work[1] += processor_ms() - between;
    }
    println!("{} cloths on 12 megapixels, best of {ROUNDS} rounds:", found.len());
    for (what, (best, work)) in ["found", "looked at"].iter().zip(best.iter().zip(work)) {
        println!("{what} in {best:.0} ms; {:.0} ms of processor time in the mean", work / f64::from(ROUNDS));
    }
}

const ROUNDS: u32 = 10;

/// Processor time of all threads so far, in ticks of 10 ms, where Linux tells; else 0.
fn processor_ms() -> f64 {
    let stat = std::fs::read_to_string("/proc/self/stat").unwrap_or_default();
    let after_name = stat.rsplit(')').next().unwrap_or_default();
    let ticks = after_name.split_whitespace().skip(11).take(2).filter_map(|v| v.parse::<f64>().ok());
    10.0 * ticks.sum::<f64>()
}

/// Twelve turned squares of a dotted print on a gridded mat, with grain.
fn table() -> Flat {
    let mut rgb = Vec::with_capacity(WIDTH * HEIGHT);
    for i in 0..WIDTH * HEIGHT {
        let p = Point::new((i % WIDTH) as f64 / PER_IN, (i / WIDTH) as f64 / PER_IN);
        let middle = Point::new((p.x / 10.0).floor() * 10.0 + 5.0, (p.y / 10.0).floor() * 10.0 + 5.0);
        let off = p - middle;
        let turned = Vec2::new(0.9 * off.x + 0.436 * off.y, 0.9 * off.y - 0.436 * off.x);
        let number = if turned.x.abs().max(turned.y.abs()) < 3.3 {
            let dot = Vec2::new((turned.x * 2.0).fract().abs() - 0.5, (turned.y * 2.0).fract().abs() - 0.5);
            if dot.length() < 0.25 { 0xf7_e3cd } else { 0xe0_7f65 }
        } else if p.x.fract().min(p.y.fract()) < 0.03 {
            0xb8_c8b4
        } else {
            0x2f_6b55
        };
        let Srgb { r, g, b } = Srgb::from_number(number);
        let grain = (i as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15) >> 62;
        rgb.push([r, g, b].map(|v| v.saturating_sub(grain as u8)));
    }
    Flat {
        picture: Picture { width: WIDTH as u32, height: HEIGHT as u32, rgb },
        pixels_per_in: PER_IN,
        top_left: Point::new(0.0, 30.0),
        seen: vec![true; WIDTH * HEIGHT],
    }
}
