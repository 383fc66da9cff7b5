//! Writes rendered photographs, to be looked at.
//!
//! `cargo run -p demo --example photograph -- FOLDER [normal|hard|piece] [FIRST] [LAST]`
//!
//! A piece is taken after twelve patches and again after seventeen.
//! Seeds are those for tuning: 1 to 999.

use demo::scene::{Recipe, Scene, piece_scene, scene};
use demo::sewn;
use std::error::Error;
use std::path::Path;
use std::time::Instant;
use vision::cards::pattern;

fn main() -> Result<(), Box<dyn Error>> {
    let mut args = std::env::args().skip(1);
    let folder = args.next().ok_or("say into which folder")?;
    let kind = args.next().unwrap_or_else(|| "normal".to_owned());
    let recipe = if kind == "hard" { Recipe::HARD } else { Recipe::NORMAL };
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
