//! How exactly cards are found in 12-megapixel pictures: plain ones, bent by the lens, smeared by a moving
//! camera, with glare; bias and scatter of the corners apart.
//!
//! Run with `cargo run -p vision --example cards_accuracy`. With a folder as argument the pictures are written
//! there as well, with the corners that are true in `truth.csv` and those found in `ours.csv`; then
//! `cargo xtask refs markers` holds other detectors against the same files.

#[path = "../tests/common/mod.rs"]
mod common;

use common::{Camera, Dice, Laid, Shot};
use image::codecs::jpeg::JpegEncoder;
use plane::Point;
use std::fmt::Write as _;
use std::fs;
use std::path::PathBuf;
use std::time::Instant;
use vision::{decode, find_cards};

const SIZE: [u32; 2] = [4000, 3000];
const SIDE: f64 = 1.57;
const KINDS: [&str; 4] = ["plain", "bent", "smeared", "glare"];

/// A picture of a kind, and the cards that lie there.
fn scene(kind: &str, seed: u64) -> (Shot, Vec<Laid>) {
    let mut dice = Dice::new(seed);
    let mut shot = Shot::new(Camera {
        tilt_deg: dice.between(0.0, 45.0),
        towards_deg: dice.between(0.0, 360.0),
        roll_deg: dice.between(0.0, 360.0),
        ..Camera::plain(SIZE, dice.between(60.0, 110.0))
    });
    shot.blur_px = dice.between(0.5, 1.5);
    shot.noise = dice.between(1.0, 4.0);
    shot.ground = dice.between(0.05, 0.7);
    match kind {
        "bent" => shot.camera.k1 = dice.between(-0.08, 0.08),
        "smeared" => {
            let a = dice.between(0.0, 6.3);
            shot.smear_px = (6.0 * a.cos(), 6.0 * a.sin());
        }
        _ => {}
    }
    let mut laid = Vec::new();
    for no in 0..4_u16 {
        let (right, down) = (no % 2 == 1, no / 2 == 1);
        let share = |dice: &mut Dice, far: bool| {
            if far { dice.between(0.65, 0.85) } else { dice.between(0.15, 0.35) }
        };
        let px = Point::new(4000.0 * share(&mut dice, right), 3000.0 * share(&mut dice, down));
        laid.push(Laid { no, at: shot.camera.to_table(px), turn_deg: dice.between(0.0, 360.0), side: SIDE });
        if kind == "glare" && no == 1 {
            shot.glare = Some((px, dice.between(30.0, 200.0), dice.between(0.3, 1.2)));
        }
    }
    (shot, laid)
}

fn main() {
    let folder = std::env::args().nth(1).map(PathBuf::from);
    if let Some(folder) = &folder {
        fs::create_dir_all(folder).expect("the folder can be made");
    }
    let (mut truth, mut ours) = (String::new(), String::new());
    for (k, kind) in KINDS.iter().enumerate() {
        let (mut outs, mut offs, mut found, mut all, mut times) = (Vec::new(), Vec::new(), 0, 0, Vec::new());
        for i in 0..6 {
            let (shot, laid) = scene(kind, 1000 + 100 * k as u64 + i);
            let picture = shot.take(&laid, &mut Dice::new(5000 + i));
            let mut bytes = Vec::new();
            let raw: Vec<u8> = picture.rgb.iter().flatten().copied().collect();
            JpegEncoder::new_with_quality(&mut bytes, 90)
                .encode(&raw, picture.width, picture.height, image::ExtendedColorType::Rgb8)
                .expect("a JPEG can be written");
            let picture = decode(&bytes).expect("a JPEG can be read");
            let start = Instant::now();
            let cards = find_cards(&picture);
            times.push(start.elapsed().as_secs_f64() * 1e3);
            let name = format!("{kind}-{i}");
            for card in &laid {
                all += 1;
                let true_corners = card.corners().map(|p| shot.camera.to_picture(p));
                row(&mut truth, &name, card.no, &true_corners);
                let Some(seen) = cards.iter().find(|seen| seen.no == card.no) else { continue };
                row(&mut ours, &name, card.no, &seen.corners);
                found += 1;
                let middle = true_corners[0].midpoint(true_corners[2]);
                for (seen, corner) in seen.corners.iter().zip(true_corners) {
                    outs.push((*seen - corner).dot((corner - middle) * (1.0 / corner.distance(middle))));
                    offs.push(seen.distance(corner));
                }
            }
            if let Some(folder) = &folder {
                fs::write(folder.join(format!("{name}.jpg")), &bytes).expect("the picture can be written");
            }
        }
        let n = offs.len() as f64;
        let bias = outs.iter().sum::<f64>() / n;
        let rms = (offs.iter().map(|d| d * d).sum::<f64>() / n).sqrt();
        let most = offs.iter().copied().fold(0.0, f64::max);
        times.sort_by(f64::total_cmp);
        println!(
            "{kind:<8} found {found:>2} of {all}  outwards {bias:>6.3}  rms {rms:.3}  most {most:.3} px  median {:.0} ms",
            times[times.len() / 2]
        );
    }
    if let Some(folder) = folder {
        fs::write(folder.join("truth.csv"), truth).expect("the truth can be written");
        fs::write(folder.join("ours.csv"), ours).expect("the corners can be written");
    }
}

/// One line: picture, number, eight coordinates in pixels.
fn row(to: &mut String, name: &str, no: u16, corners: &[Point; 4]) {
    let _ = write!(to, "{name},{no}");
    for p in corners {
        let _ = write!(to, ",{:.4},{:.4}", p.x, p.y);
    }
    to.push('\n');
}
