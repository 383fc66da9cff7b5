//! Measures how long the exact and the quick difference take, and how far apart they are:
//! `cargo run --release -p colour --example difference_speed`.

use colour::{Lab, Quick, Srgb, difference};
use std::hint::black_box;
use std::time::Instant;

const COUNT: usize = 4096;
const ROUNDS: usize = 1000;

fn main() {
    let colours: Vec<Lab> =
        (0..COUNT as u32).map(|i| Srgb::from_number(i.wrapping_mul(2_654_435_761) >> 8).to_lab()).collect();
    let quick: Vec<Quick> = colours.iter().map(|&lab| Quick::new(lab)).collect();
    let pairs: Vec<(usize, usize)> = (0..COUNT).map(|i| (i, (i * 37 + 11) % COUNT)).collect();
    time("difference", || pairs.iter().map(|&(i, j)| difference(colours[i], colours[j])).sum());
    time("Quick::new", || colours.iter().map(|&c| Quick::new(c).square(quick[0])).sum());
    time("Quick::difference", || pairs.iter().map(|&(i, j)| quick[i].difference(quick[j])).sum());
    compare(&colours, &quick);
}

/// Prints the fastest of many rounds: what else the machine does only ever slows one down.
fn time(what: &str, mut round: impl FnMut() -> f64) {
    let mut fastest = f64::INFINITY;
    for _ in 0..ROUNDS {
        let start = Instant::now();
        black_box(round());
        fastest = fastest.min(start.elapsed().as_nanos() as f64 / COUNT as f64);
    }
    println!("{what}: {fastest:.1} ns");
}

/// Quick over exact for all pairs up to 30 apart: its middle and its tenths.
fn compare(colours: &[Lab], quick: &[Quick]) {
    for (least, most) in [(0.0, 10.0), (10.0, 20.0), (20.0, 30.0), (30.0, 60.0)] {
        let mut ratios = Vec::new();
        for i in 0..COUNT {
            for j in 0..i {
                let exact = difference(colours[i], colours[j]);
                if exact > least && exact <= most {
                    ratios.push(quick[i].difference(quick[j]) / exact);
                }
            }
        }
        ratios.sort_by(f64::total_cmp);
        let at = |share: f64| ratios[((ratios.len() - 1) as f64 * share) as usize];
        println!(
            "{least:2} to {most}: quick / exact {:.2} ({:.2} to {:.2} in eight of ten)",
            at(0.5),
            at(0.1),
            at(0.9)
        );
    }
}
