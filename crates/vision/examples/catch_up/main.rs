//! How well what was sewn to a piece is read from one photograph of it: rendered pieces with a known
//! truth, each known as it was five patches before.
//!
//! `cargo run --release -p vision --example catch_up -- [COUNT] [tuning] [each] [from N]`
//!
//! A piece takes some seconds. A long run can be made in parts: each piece's line of the output of `each` stands
//! for itself, and `from N` leaves the first N seeds out.

mod judge;

use demo::scene::{REPORT_SEEDS, TUNING_SEEDS};
use judge::{Judged, judge};

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let says = |word: &str| words.iter().any(|one| one == word);
    let from = words.iter().position(|word| word == "from");
    let number = |at: usize| words.get(at).and_then(|word| word.parse::<usize>().ok());
    let skip = from.and_then(|at| number(at + 1)).unwrap_or(0);
    let count = (0..words.len()).filter(|&at| from != at.checked_sub(1)).find_map(number).unwrap_or(100);
    let seeds = if says("tuning") { TUNING_SEEDS } else { REPORT_SEEDS };
    let mut all = Vec::new();
    for seed in seeds.skip(skip).take(count) {
        let judged = judge(seed);
        if says("each") {
            println!("{seed}: {judged:?}");
        }
        all.push(judged);
    }
    report(&all);
}

fn report(all: &[Judged]) {
    let pieces: Vec<&Judged> = all.iter().filter(|one| one.skipped.is_none()).collect();
    println!(
        "| pieces | | outline | laid | patches | found | that are none | first | of three | given: first | of three |"
    );
    println!("|---|---|---|---|---|---|---|---|---|---|---|");
    row("all", &pieces, |_| true);
    row("tilt to 12 degrees", &pieces, |one| one.tilt_deg <= 12.0);
    row("tilt 12 to 24", &pieces, |one| one.tilt_deg > 12.0 && one.tilt_deg <= 24.0);
    row("tilt over 24", &pieces, |one| one.tilt_deg > 24.0);
    row("blur to 0.8 pixels", &pieces, |one| one.blur_px <= 0.8);
    row("blur 0.8 to 1.1", &pieces, |one| one.blur_px > 0.8 && one.blur_px <= 1.1);
    row("blur over 1.1", &pieces, |one| one.blur_px > 1.1);
}

/// One line of the table: outlines within 1/16 inch, known pieces laid where they lie, new patches.
fn row(what: &str, pieces: &[&Judged], of: impl Fn(&Judged) -> bool) {
    let these: Vec<&&Judged> = pieces.iter().filter(|one| of(one)).collect();
    let sum = |of: fn(&Judged) -> usize| these.iter().map(|one| of(one)).sum::<usize>();
    let counts = [
        sum(|one| usize::from(one.outline_off_in.is_some_and(|off| off < 0.0625))),
        sum(|one| usize::from(one.laid)),
        sum(|one| one.there),
        sum(|one| one.found),
        sum(|one| one.false_ones),
        sum(|one| one.first),
        sum(|one| one.three),
        sum(|one| one.known[0]),
        sum(|one| one.known[1]),
    ];
    let told = counts.map(|count| format!(" {count} |")).concat();
    println!("| {what} | {} |{told}", these.len());
}
