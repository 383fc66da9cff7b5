//! Times the layout of centres for a bed-size top.
//!
//! `cargo run --release -p grow --example centres_bench -- [SEEDS]`
//!
//! Centres of 12 to 20 inches (finished, whole eighths) with weights and prints by chance, in a wish
//! that leaves 12 % for coping (24 % for 6 centres). Prints, for mixed layouts of 6, 20, 25, 30 and 60 centres and
//! for rows of 30: the median and the longest time, how many were laid out, strips a centre, share of
//! neighbours of the same print, balance.

use grow::centres::{Arrangement, Block, CentresChoice, PrintShare, plan};
use std::time::Instant;

fn main() {
    let seeds: u64 = std::env::args().nth(1).and_then(|a| a.parse().ok()).unwrap_or(15);
    for count in [6, 20, 25, 30, 60] {
        report(count, None, seeds);
    }
    report(30, Some((5, 6)), seeds);
}

fn report(count: usize, rows: Option<(usize, usize)>, seeds: u64) {
    let mut times = Vec::new();
    let (mut laid, mut strips, mut prints, mut balance) = (0, 0.0, 0.0, 0.0);
    for seed in 0..seeds {
        let blocks = blocks(count, seed, rows.is_some());
        let area: f64 = blocks.iter().map(Block::area_sq_in).sum();
        // The form of a bed: 9 to 10.
        let filled = if count < 10 { 0.76 } else { 0.88 };
        let width = (area / filled * 0.9).sqrt();
        let mut choice = CentresChoice { seed, ..CentresChoice::new(width, width / 0.9) };
        if let Some((across, down)) = rows {
            choice.arrangement = Arrangement::Rows { across, down };
            (choice.width_in, choice.height_in) = (across as f64 * 16.0, down as f64 * 16.0);
        }
        let at = Instant::now();
        let found = plan(&blocks, &choice, 0.25);
        times.push(1e3 * at.elapsed().as_secs_f64());
        match found {
            Ok(found) => {
                laid += 1;
                strips += found.cost.strips;
                prints += found.cost.prints;
                balance += found.cost.balance;
            }
            Err(problem) => println!("{count} centres, seed {seed}: {problem}"),
        }
    }
    times.sort_by(f64::total_cmp);
    let mean = |sum: f64| sum / f64::from(laid.max(1));
    println!(
        "{count} centres{}: median {:.0} ms, longest {:.0} ms; {laid} of {seeds} laid out; strips a centre {:.2}, same prints {:.3}, off balance {:.3}",
        rows.map_or_else(String::new, |(across, down)| format!(" in rows of {across}, {down} down")),
        times[times.len() / 2],
        times[times.len() - 1],
        mean(strips),
        mean(prints),
        mean(balance)
    );
}

fn blocks(count: usize, seed: u64, near: bool) -> Vec<Block> {
    // Knuth's generator of chances.
    let mut state = seed.wrapping_mul(2) | 1;
    let mut share = || {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    let mut block = |i: usize| {
        let mut size =
            || if near { (30.0 + share()).floor() / 2.0 } else { (96.0 + 64.0 * share()).round() / 8.0 };
        let (width_in, height_in) = (size(), size());
        let prints = vec![PrintShare { print: (6.0 * share()) as u64, share: 0.7 }];
        let weight = 20.0 + 60.0 * share();
        Block { name: format!("centre {}", i + 1), width_in, height_in, weight, prints }
    };
    (0..count).map(&mut block).collect()
}
