//! Times of finding cards in a 12-megapixel picture, of flattening by them, and of drawing the table in
//! true size.
//!
//! Run with `cargo run -p vision --example cards_bench`. With a picture's path as argument, that picture
//! is taken instead.

#[path = "../tests/common/mod.rs"]
mod common;

use common::{Camera, Dice, Laid, Shot};
use plane::Point;
use std::time::Instant;
use vision::{Picture, decode, find_cards, flatten, read_light, resample};

const SIZE: [u32; 2] = [4000, 3000];
const SIDE: f64 = 1.57;

fn timed<T>(name: &str, mut work: impl FnMut() -> T) -> T {
    let mut all = Vec::new();
    let mut last = None;
    for _ in 0..7 {
        let start = Instant::now();
        last = Some(work());
        all.push(start.elapsed().as_secs_f64() * 1e3);
    }
    all.sort_by(f64::total_cmp);
    println!("{name:<32} median {:>7.1}  least {:>7.1}  most {:>7.1} ms", all[3], all[0], all[6]);
    last.expect("it was run")
}

/// Cards on a table with a chequered cloth and noise between them.
fn rendered() -> Picture {
    let mut dice = Dice::new(7);
    let camera =
        Camera { tilt_deg: 20.0, towards_deg: 30.0, roll_deg: 8.0, k1: -0.02, ..Camera::plain(SIZE, 100.0) };
    let at = [(-16.0, 9.0), (14.0, 10.0), (-15.0, -11.0), (15.0, -10.0)];
    let laid: Vec<Laid> = (0..4)
        .map(|i| Laid {
            no: i,
            at: Point::new(at[i as usize].0, at[i as usize].1),
            turn_deg: 40.0 * f64::from(i),
            side: SIDE,
        })
        .collect();
    let mut picture = Shot::new(camera).take(&laid, &mut dice);
    for y in 900..2100_usize {
        for x in 1000..3000_usize {
            let check = (x / 23 + y / 23) % 2 == 0;
            let grain = (dice.share() * 50.0) as u8;
            picture.rgb[y * SIZE[0] as usize + x] =
                if check { [40 + grain; 3] } else { [190, 150 + grain, 160] };
        }
    }
    picture
}

fn main() {
    let picture = match std::env::args().nth(1) {
        None => rendered(),
        Some(path) => {
            let bytes = std::fs::read(&path).expect("the picture can be read");
            timed("decode", || decode(&bytes)).expect("it is a picture")
        }
    };
    println!("{} by {} pixels", picture.width, picture.height);
    let cards = timed("find the cards", || find_cards(&picture));
    println!("{} cards", cards.len());
    let size = [picture.width, picture.height];
    match timed("flatten", || flatten(&cards, SIDE, size)) {
        Err(problem) => println!("{problem}"),
        Ok(map) => {
            timed("read the light", || read_light(&picture, &map));
            let flat =
                timed("the table at 80 pixels an inch", || resample(&picture, &map, map.field(), 80.0));
            println!("{} by {} pixels", flat.picture.width, flat.picture.height);
        }
    }
}
