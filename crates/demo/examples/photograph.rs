//! Writes rendered photographs, to be looked at.
//!
//! `cargo run -p demo --example photograph -- FOLDER [normal|hard] [FIRST] [LAST]`
//!
//! Seeds are those for tuning: 1 to 999.

use demo::scene::{Recipe, scene};
use std::error::Error;
use std::path::Path;
use std::time::Instant;

fn main() -> Result<(), Box<dyn Error>> {
    let mut args = std::env::args().skip(1);
    let folder = args.next().ok_or("say into which folder")?;
    let recipe = match args.next().as_deref() {
        Some("hard") => Recipe::HARD,
        _ => Recipe::NORMAL,
    };
    let first = args.next().and_then(|word| word.parse().ok()).unwrap_or(1);
    let last = args.next().and_then(|word| word.parse().ok()).unwrap_or(first);
    std::fs::create_dir_all(&folder)?;
    for seed in first..=last {
        let at = Instant::now();
        let scene = scene(&recipe, seed, &chequered);
        let jpeg = scene.to_jpeg()?;
        let path = Path::new(&folder).join(format!("{}-{seed}.jpg", recipe.name));
        println!(
            "{}: {} cloths, {} cards, tilt {:.0}°, blur {:.1}, {:.1} s",
            path.display(),
            scene.truth.cloths.len(),
            scene.truth.cards.len(),
            scene.truth.shot.stand.tilt_deg,
            scene.truth.shot.blurred_px(),
            at.elapsed().as_secs_f64()
        );
        std::fs::write(path, jpeg)?;
    }
    Ok(())
}

/// Stands in for the cards: a black border and bits of the number's own mixing.
fn chequered(no: u16) -> Option<[[bool; 8]; 8]> {
    let mut bits = (u64::from(no) + 1).wrapping_mul(0x9e37_79b9_7f4a_7c15);
    let mut pattern = [[true; 8]; 8];
    for row in &mut pattern[1..7] {
        for module in &mut row[1..7] {
            bits ^= bits << 13;
            bits ^= bits >> 7;
            bits ^= bits << 17;
            *module = bits & 1 == 1;
        }
    }
    Some(pattern)
}
