//! Times the layers and "enough?" for a bed-size piece: strips round a square, a stash of scraps,
//! lengths and batting.
//!
//! Run with `cargo run --release -p quilt --example enough_speed -- 2000`.

#[path = "strips/mod.rs"]
mod strips;

use plane::{Point, Region, Turn, polygon};
use quilt::cloth::{ClothId, Kind, Runs};
use quilt::log::Mark;
use quilt::stage::enough::{Goods, Have, Known, Rates, Shop, StageName, enough, used_in_top};
use quilt::stage::layers::{Frame, Guiding, LayersChoice, plan};
use quilt::stage::on_hand::OnHand;
use quilt::table::Table;
use std::time::Instant;

/// Prints among which the patches are spread.
const PRINTS: u64 = 150;

fn main() {
    let patches = std::env::args().nth(1).and_then(|n| n.parse().ok()).unwrap_or(2000);
    let table = strips::strips(patches);
    let Some((mark, top)) = table.piece() else { return };
    let outline = bed_size(&top.outline_points());
    let stash = stash(2500);
    println!(
        "{} patches, {} cloths, outline {:.0} square inches",
        top.faces().len(),
        stash.len(),
        polygon::area(&outline)
    );
    for (name, guiding) in [("by hand", Guiding::ByHand), ("on a frame", Guiding::Frame(Frame::default()))] {
        let choice = LayersChoice { guiding, ..LayersChoice::default() };
        timed(&format!("layers, {name}"), || {
            plan(&choice, &outline, &stash).map_or(0, |plan| plan.backing.pieced.len())
        });
    }
    timed("what the top uses", || used(&table, mark));
    timed("enough?, all of it", || all(&table, mark, &outline, &stash));
}

const KNOWN: Known<'_> = Known { print_of: &print_of, is_done: &|_| false, stage_of: &|_| StageName::Centre };

fn used(table: &Table, top: Mark) -> usize {
    used_in_top(table, top, 0.25, &KNOWN).map_or(0, |used| used.prints.len())
}

/// Layers, areas and the report, as one asks for it after a change of the wish.
fn all(table: &Table, top: Mark, outline: &[Point], stash: &[OnHand]) -> usize {
    let choice = LayersChoice::default();
    let Ok(layers) = plan(&choice, outline, stash) else { return 0 };
    let Ok(used) = used_in_top(table, top, 0.25, &KNOWN) else { return 0 };
    let mut asked = used.asks();
    asked.add(layers.asks(&choice, stash));
    let thread = Goods::Thread { colour: "grey".to_owned(), weight: "50".to_owned() };
    asked.need(StageName::Quilting, thread, 150_000.0);
    let have: Vec<Have> = stash.iter().filter_map(Have::cloth).collect();
    enough(&asked, &have, &Shop::default(), &Rates::default()).map_or(0, |found| found.lines.len())
}

fn print_of(cloth: ClothId) -> Option<u64> {
    Some(cloth.0 % PRINTS)
}

/// The outline, about 100 inches across.
fn bed_size(outline: &[Point]) -> Vec<Point> {
    let scale = 100.0 / polygon::area(outline).sqrt();
    outline.iter().map(|p| Point::new(p.x * scale, p.y * scale)).collect()
}

/// Scraps, some lengths, some batting; sizes spread by the golden ratio.
fn stash(cloths: u64) -> Vec<OnHand> {
    let share = |no: u64, step: f64| (no as f64 * step).fract();
    (1..=cloths)
        .map(|no| {
            let (kind, width, length) = match no % 50 {
                0 => (Kind::Batting, 40.0 + 50.0 * share(no, 0.618), 60.0 + 50.0 * share(no, 0.414)),
                1 | 2 => (Kind::Length, 42.0, 36.0 + 110.0 * share(no, 0.618)),
                _ => (Kind::Scrap, 3.0 + 9.0 * share(no, 0.618), 3.0 + 12.0 * share(no, 0.414)),
            };
            OnHand {
                cloth: ClothId(no),
                name: format!("No. {no}"),
                kind,
                print: print_of(ClothId(no)),
                free: vec![Region::rectangle(width, length)],
                runs: Runs::AnyWay,
                grain: Turn::QUARTER,
            }
        })
        .collect()
}

fn timed(what: &str, work: impl Fn() -> usize) {
    let mut times: Vec<f64> = (0..7)
        .map(|_| {
            let start = Instant::now();
            std::hint::black_box(work());
            start.elapsed().as_secs_f64() * 1000.0
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{what}: {:.1} ms", times[times.len() / 2]);
}
