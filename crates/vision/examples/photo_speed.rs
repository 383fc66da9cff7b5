//! The whole way of a photograph with twelve scraps, 12 megapixels: decode, cards, flattening, the table in
//! true size, light, outlines, looks; times of each, and the most memory that the whole takes.
//!
//! Run with `cargo run --release -p vision --example photo_speed`. The picture is rendered by one process and
//! measured by another, so that the renderer's memory isn't counted. Memory is told where the system lists
//! it under `/proc`.

use demo::scene::{Recipe, TUNING_SEEDS, scene};
use plane::{Point, Region};
use std::path::Path;
use std::process::Command;
use std::time::Instant;

/// Pixels an inch of the flattened table, at most.
const PIXELS_PER_IN: f64 = 100.0;
const ROUNDS: usize = 5;
const STAGES: [&str; 7] = ["decode", "cards", "flatten", "true size", "light", "outlines", "looks"];

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.as_slice() {
        [side, path] => measure(side.parse().expect("a side in inches"), Path::new(path)),
        _ => render(),
    }
}

/// Renders the picture and hands it to a process of its own.
fn render() {
    let recipe = Recipe {
        sizes_px: &[[4032, 3024]],
        scraps: [12, 12],
        across_in: [31.0, 32.0],
        cut_off: 0.0,
        ..Recipe::NORMAL
    };
    let rendered = TUNING_SEEDS
        .map(|seed| scene(&recipe, seed, &vision::cards::pattern))
        .find(|scene| scene.truth.cloths.len() == 12)
        .expect("some table has room for twelve");
    let path = std::env::temp_dir().join(format!("ragbag-photo-speed-{}.jpg", std::process::id()));
    std::fs::write(&path, rendered.to_jpeg().expect("a JPEG can be written")).expect("it can be written");
    let own = std::env::current_exe().expect("this program has a path");
    let side = rendered.truth.card_side_in.to_string();
    drop(rendered);
    let done = Command::new(own).arg(side).arg(&path).status();
    std::fs::remove_file(&path).expect("the picture can be removed");
    assert!(done.expect("it runs").success(), "measuring failed");
}

/// Measures the picture several times.
fn measure(side_in: f64, path: &Path) {
    let bytes = std::fs::read(path).expect("the picture can be read");
    let mut rounds: Vec<[f64; 7]> = Vec::new();
    for round in 0..ROUNDS {
        let (times, found) = once(&bytes, side_in);
        if round == 0 {
            let most = most_memory_mib().map_or("unknown".to_owned(), |mib| format!("{mib:.0} MiB"));
            println!("{found} cloths found; most memory of one picture: {most}");
        }
        rounds.push(times);
    }
    println!("| milliseconds | least | median | most |\n|---|---|---|---|");
    for (k, name) in STAGES.iter().enumerate() {
        row(name, rounds.iter().map(|times| times[k]).collect());
    }
    row("the whole way", rounds.iter().map(|times| times.iter().sum()).collect());
}

fn row(name: &str, mut all: Vec<f64>) {
    all.sort_by(f64::total_cmp);
    println!("| {name} | {:.0} | {:.0} | {:.0} |", all[0], all[all.len() / 2], all[all.len() - 1]);
}

/// Milliseconds of each stage, and how many cloths were found.
fn once(bytes: &[u8], side_in: f64) -> ([f64; 7], usize) {
    let mut times = [0.0; 7];
    let mut clock = Instant::now();
    let mut lap = |stage: usize| {
        times[stage] = clock.elapsed().as_secs_f64() * 1e3;
        clock = Instant::now();
    };
    let picture = vision::decode(bytes).expect("it is a picture");
    lap(0);
    let cards = vision::find_cards(&picture);
    lap(1);
    let map = vision::flatten(&cards, side_in, [picture.width, picture.height]).expect("it is flat");
    lap(2);
    let middle = Point::new(f64::from(picture.width) / 2.0, f64::from(picture.height) / 2.0);
    let per_in = map.pixels_per_in(middle).min(PIXELS_PER_IN);
    let mut flat = vision::resample(&picture, &map, map.field(), per_in);
    lap(3);
    if let Some(light) = vision::read_light(&picture, &map) {
        light.correct(&mut flat);
    }
    lap(4);
    let corners = |card: &vision::Card| card.corners.map(|px| map.to_table(px)).to_vec();
    let found = vision::find_cloths(&flat, &cards.iter().map(corners).collect::<Vec<_>>());
    lap(5);
    let outlines: Vec<&Region> = found.iter().map(|one| &one.outline).collect();
    std::hint::black_box(vision::looks(&flat, &outlines));
    lap(6);
    (times, found.len())
}

/// The most memory this process has held, in mebibytes.
fn most_memory_mib() -> Option<f64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    let kib: f64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kib / 1024.0)
}
