//! Writes rendered photographs, to be looked at.
//!
//! `cargo run -p demo --example photograph -- FOLDER [normal|hard|small|piece|patch|grown] [FIRST] [LAST]`
//!
//! A piece is taken after twelve patches and again after seventeen. A patch is a single one of
//! 6 by 4 1/4 inches, in a small picture; grown it is one of 6 by 4 1/2 inches with two more sewn on.
//! Seeds are those for tuning: 1 to 999.

use demo::scene::{Recipe, Scene, piece_scene, scene};
use demo::{Heap, sewn};
use plane::{Pose, Region, Turn, Vec2};
use quilt::log::{Mark, Name, Press, Sewing, Step};
use quilt::table::Table;
use std::error::Error;
use std::path::Path;
use std::time::Instant;
use vision::cards::pattern;

fn main() -> Result<(), Box<dyn Error>> {
    let mut args = std::env::args().skip(1);
    let folder = args.next().ok_or("say into which folder")?;
    let kind = args.next().unwrap_or_else(|| "normal".to_owned());
    let recipe = match kind.as_str() {
        "hard" => Recipe::HARD,
        "small" | "patch" | "grown" => Recipe::SMALL,
        _ => Recipe::NORMAL,
    };
    let first = args.next().and_then(|word| word.parse().ok()).unwrap_or(1);
    let last = args.next().and_then(|word| word.parse().ok()).unwrap_or(first);
    std::fs::create_dir_all(&folder)?;
    let say = |name: String, scene: &Scene, at: Instant| -> Result<(), Box<dyn Error>> {
        let path = Path::new(&folder).join(name);
        let Scene { truth, .. } = scene;
        std::fs::write(&path, scene.to_jpeg()?)?;
        println!(
            "{}: {} cloths, {} cards, tilt {:.0}°, blur {:.1}, {:.1} s",
            path.display(),
            truth.cloths.len(),
            truth.cards.len(),
            truth.shot.stand.tilt_deg,
            truth.shot.blurred_px(),
            at.elapsed().as_secs_f64()
        );
        Ok(())
    };
    for seed in first..=last {
        let at = Instant::now();
        if kind == "patch" {
            let (table, heap) = patch(seed)?;
            if let Some(scene) = piece_scene(&recipe, seed, &pattern, &table, &heap) {
                say(format!("patch-{seed}.jpg"), &scene, at)?;
            }
            continue;
        }
        if kind == "grown" {
            let (table, heap) = grown(seed)?;
            if let Some(scene) = piece_scene(&recipe, seed, &pattern, &table, &heap) {
                say(format!("grown-{seed}.jpg"), &scene, at)?;
            }
            continue;
        }
        if kind != "piece" {
            say(format!("{kind}-{seed}.jpg"), &scene(&recipe, seed, &pattern), at)?;
            continue;
        }
        let sewn = sewn(seed, 17, 24);
        for (name, patches) in [("before", 12), ("after", 17)] {
            let table = sewn.table(patches);
            if let Some(scene) = piece_scene(&recipe, seed + patches as u64, &pattern, &table, &sewn.heap) {
                say(format!("piece-{seed}-{name}.jpg"), &scene, at)?;
            }
        }
    }
    Ok(())
}

/// One patch, and the heap that it is cut from.
fn patch(seed: u64) -> Result<(Table, Heap), Box<dyn Error>> {
    let heap = demo::heap(seed, 1, 1);
    let cloth = heap.scraps.first().ok_or("the heap is empty")?.cloth.id;
    let cut = Region::rectangle(6.0, 4.25).outer;
    let mut table = Table::new();
    table.apply(Mark(1), &Step::Lay { cloth, at: Pose::STAY, cut })?;
    Ok((table, heap))
}

/// A patch of 6 by 4 1/2 inches, one more on its long side, one more on a short side of both.
fn grown(seed: u64) -> Result<(Table, Heap), Box<dyn Error>> {
    let heap = sewn(seed, 1, 3).heap;
    let cloth = |i: usize| heap.scraps.get(i).map(|scrap| scrap.cloth.id).ok_or("too few cloths");
    let lay = |i: usize, size: [f64; 2]| -> Result<Step, Box<dyn Error>> {
        let cut = Region::rectangle(size[0], size[1]).outer;
        Ok(Step::Lay { cloth: cloth(i)?, at: Pose::new(Turn::NONE, Vec2::new(1.0, 1.0)), cut })
    };
    let sew = |onto: Name, mark: u32| {
        Step::Sew(Sewing::Join {
            onto,
            with: Name::new(Mark(mark), 0),
            slide_in: 0.0,
            allowance_in: 0.25,
            stop: None,
            flush: [true, true],
            press: Press::Over,
        })
    };
    let mut table = Table::new();
    table.apply(Mark(1), &lay(0, [6.0, 4.5])?)?;
    table.apply(Mark(2), &lay(1, [6.5, 2.5])?)?;
    table.apply(Mark(3), &sew(Name::new(Mark(1), 2), 2))?;
    table.apply(Mark(4), &lay(2, [7.5, 2.25])?)?;
    table.apply(Mark(5), &sew(Name::new(Mark(1), 1), 4))?;
    Ok((table, heap))
}
