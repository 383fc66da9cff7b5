//! How long the store takes: appending one step, and loading and replaying a long log.
//!
//! `cargo run --release -p workroom --example store_bench`, or without `--release` for the
//! profile that serves running. Prints medians and 95th percentiles in milliseconds.

use colour::Lab;
use plane::{Point, Pose, Region, Turn, Vec2};
use quilt::cloth::{ClothId, Look};
use quilt::log::{Entry, Mark, Name, Press, Sewing, Step};
use quilt::wish::Wish;
use std::time::Instant;
use workroom::quilts::MAIN;
use workroom::stash::NewCloth;
use workroom::{Result, Workroom};

const STEPS: u32 = 2_000;

fn main() -> Result<()> {
    let folder = std::env::temp_dir().join(format!("ragbag-store-bench-{}", std::process::id()));
    let done = run(&folder);
    if let Err(e) = std::fs::remove_dir_all(&folder) {
        eprintln!("{} is left behind: {e}", folder.display());
    }
    done
}

fn run(folder: &std::path::Path) -> Result<()> {
    let mut room = Workroom::create(folder)?;
    let look = Look::plain(Lab { l: 50.0, a: 10.0, b: 10.0 });
    let cloth = room.enter(vec![NewCloth::scrap("bolt", Region::rectangle(900.0, 44.0), look.clone())])?[0].1;
    let mut head = room.new_quilt("bench", &Wish::default())?;
    let mut append = Vec::new();
    for entry in pieces(cloth).take(STEPS as usize) {
        let begun = Instant::now();
        head = room.append(&head.at(), &[entry])?;
        append.push(begun.elapsed().as_secs_f64() * 1e3);
    }
    report("append one step to a log of up to 2,000", &mut append);
    let mut load = Vec::new();
    for _ in 0..15 {
        let begun = Instant::now();
        let mut fresh = Workroom::open(folder)?;
        let table = fresh.table("bench", MAIN)?;
        load.push(begun.elapsed().as_secs_f64() * 1e3);
        assert!(!table.tops().is_empty());
    }
    report("open, load 2,000 steps and replay them", &mut load);
    let mut read = Vec::new();
    for _ in 0..15 {
        let begun = Instant::now();
        let log = room.log("bench", MAIN)?;
        read.push(begun.elapsed().as_secs_f64() * 1e3);
        assert_eq!(log.steps.len(), STEPS as usize);
    }
    report("load 2,000 steps without replaying them", &mut read);
    let scraps = (0..2_000).map(|_| NewCloth::scrap("scrap", Region::rectangle(3.0, 5.0), look.clone()));
    let begun = Instant::now();
    room.enter(scraps.collect())?;
    println!("enter 2,000 scraps at once: {:.1} ms", begun.elapsed().as_secs_f64() * 1e3);
    let begun = Instant::now();
    let mut fresh = Workroom::open(folder)?;
    assert_eq!(fresh.stash()?.present().len(), 2_001);
    println!("open and replay a stash of 2,001: {:.1} ms", begun.elapsed().as_secs_f64() * 1e3);
    Ok(())
}

/// Log-cabin fashion, because it goes on for ever: a patch is laid and sewn round and round.
fn pieces(cloth: ClothId) -> impl Iterator<Item = Entry> {
    let lay = move |mark, width: f64| {
        let cut = [(0.0, 0.0), (width, 0.0), (width, 1.0), (0.0, 1.0)].map(|(x, y)| Point::new(x, y));
        let at = Pose::new(Turn::NONE, Vec2::new(0.0, 0.0));
        Entry { mark: Mark(mark), run: None, step: Step::Lay { cloth, at, cut: cut.to_vec() } }
    };
    let mut sides =
        [Name::new(Mark(1), 0), Name::new(Mark(1), 1), Name::new(Mark(1), 2), Name::new(Mark(1), 3)];
    let mut lengths = [1.0_f64; 4];
    (1..).map(move |mark| {
        if mark == 1 {
            return lay(1, 1.0);
        }
        let side = (mark as usize / 2) % 4;
        if mark % 2 == 0 {
            return lay(mark, lengths[side]);
        }
        let side = ((mark - 1) as usize / 2) % 4;
        let onto = sides[side];
        let sewing = Sewing::Join {
            onto,
            with: Name::new(Mark(mark - 1), 0),
            slide_in: 0.0,
            allowance_in: 0.25,
            stop: None,
            flush: [true; 2],
            press: Press::Over,
        };
        sides[side] = Name::new(Mark(mark - 1), 2);
        // The two sides next to it grow by what shows of the patch.
        lengths[(side + 1) % 4] += 0.5;
        lengths[(side + 3) % 4] += 0.5;
        Entry { mark: Mark(mark), run: None, step: Step::Sew(sewing) }
    })
}

fn report(what: &str, times_ms: &mut [f64]) {
    times_ms.sort_by(f64::total_cmp);
    let at = |share: f64| times_ms[((times_ms.len() - 1) as f64 * share) as usize];
    println!("{what}: median {:.2} ms, 95th percentile {:.2} ms", at(0.5), at(0.95));
}
