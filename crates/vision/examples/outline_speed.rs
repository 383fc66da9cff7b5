//! Measures how long finding and looking at twelve scraps takes on a 12-megapixel table:
//! `cargo run --release -p vision --example outline_speed`.

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
    let mut count = 0;
    for _ in 0..5 {
        let start = Instant::now();
        let found = find_cloths(&flat, &[]);
        best[0] = best[0].min(start.elapsed().as_secs_f64() * 1e3);
        let start = Instant::now();
        let outlines: Vec<&Region> = found.iter().map(|one| &one.outline).collect();
        std::hint::black_box(looks(&flat, &outlines));
        best[1] = best[1].min(start.elapsed().as_secs_f64() * 1e3);
        count = found.len();
    }
    println!("{count} cloths on 12 megapixels: found in {:.0} ms, looked at in {:.0} ms", best[0], best[1]);
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
