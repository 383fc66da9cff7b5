//! A part of the table, drawn from the picture in true size.
//!
//! Between pixels light is mixed, not screen numbers. Where several of the picture's pixels go into one
//! of the flat, that many are averaged, so that fine stripes don't turn into coarse ones.

use crate::light::Curve;
use crate::{Flat, Flattening, Picture, Window};
use plane::{Point, Vec2};
use std::thread;

/// Most pixels a [`Flat`] gets; a finer one is drawn coarser. It takes four bytes a pixel.
pub const LARGEST_FLAT: f64 = 60_000_000.0;

/// Pixels between places where the map is worked out; between them it is drawn straight.
const MESH: usize = 8;
/// Most samples averaged along each direction.
const MOST_SAMPLES: f64 = 6.0;

/// The table within a window, at so many pixels an inch. A window without an area gives a flat without
/// pixels; a window that would take more than [`LARGEST_FLAT`] is drawn at fewer pixels an inch.
#[must_use]
pub fn resample(picture: &Picture, flattening: &Flattening, window: Window, pixels_per_in: f64) -> Flat {
    let (across, up) = (window.high.x - window.low.x, window.high.y - window.low.y);
    let area = across * up;
    let sound =
        area.is_finite() && across > 0.0 && up > 0.0 && pixels_per_in.is_finite() && pixels_per_in > 0.0;
    let per_in = if sound { pixels_per_in.min((LARGEST_FLAT / area).sqrt()) } else { 1.0 };
    let count = |length: f64| {
        if sound { (length * per_in - 1e-6).ceil().clamp(1.0, LARGEST_FLAT) as usize } else { 0 }
    };
    let (width, height) = (count(across), count(up));
    let top_left = if sound { Point::new(window.low.x, window.high.y) } else { Point::ORIGIN };
    let mut flat = Flat {
        picture: Picture { width: width as u32, height: height as u32, rgb: vec![[0; 3]; width * height] },
        pixels_per_in: per_in,
        top_left,
        seen: vec![false; width * height],
    };
    if width * height == 0 {
        return flat;
    }
    let place =
        |x: f64, y: f64| flattening.to_picture(Point::new(top_left.x + x / per_in, top_left.y - y / per_in));
    // Bands of whole meshes, as many as there are hands.
    let hands = thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let band = height.div_ceil(hands).next_multiple_of(MESH);
    thread::scope(|scope| {
        let pixels = flat.picture.rgb.chunks_mut(band * width);
        for (number, (rgb, seen)) in pixels.zip(flat.seen.chunks_mut(band * width)).enumerate() {
            let place = &place;
            scope.spawn(move || {
                let curve = Curve::new();
                let rows = rgb.len() / width;
                let line = |y: usize| -> Vec<Point> {
                    let y = (number * band + y) as f64;
                    (0..=width.div_ceil(MESH)).map(|x| place((x * MESH) as f64, y)).collect()
                };
                let mut upper = line(0);
                for y in (0..rows).step_by(MESH) {
                    let lower = line(y + MESH);
                    for x in (0..width).step_by(MESH) {
                        let mesh = x / MESH;
                        let patch = Patch::new([upper[mesh], upper[mesh + 1], lower[mesh], lower[mesh + 1]]);
                        for j in 0..MESH.min(rows - y) {
                            for i in 0..MESH.min(width - x) {
                                let at = (y + j) * width + x + i;
                                if let Some(colour) = patch.colour(picture, curve, i, j) {
                                    (rgb[at], seen[at]) = (colour, true);
                                }
                            }
                        }
                    }
                    upper = lower;
                }
            });
        }
    });
    flat
}

/// The map over one mesh: its corners in the picture, and how many samples a pixel takes.
struct Patch {
    corners: [Point; 4],
    samples: usize,
}

impl Patch {
    fn new(corners: [Point; 4]) -> Self {
        let m = MESH as f64;
        let steps = [
            corners[1] - corners[0],
            corners[2] - corners[0],
            corners[3] - corners[1],
            corners[3] - corners[2],
        ];
        let longest = steps.iter().map(|v| v.length() / m).fold(0.0, f64::max);
        Self { corners, samples: (longest - 0.5).ceil().clamp(1.0, MOST_SAMPLES) as usize }
    }

    fn at(&self, u: f64, v: f64) -> Point {
        let [a, b, c, d] = self.corners;
        a.lerp(b, u).lerp(c.lerp(d, u), v)
    }

    fn colour(&self, picture: &Picture, curve: Curve, i: usize, j: usize) -> Option<[u8; 3]> {
        let n = self.samples;
        let mut sum = [0.0_f32; 3];
        for k in 0..n * n {
            let part = |k: usize| (k as f64 + 0.5) / n as f64;
            let p = self.at((i as f64 + part(k % n)) / MESH as f64, (j as f64 + part(k / n)) / MESH as f64);
            let light = between(picture, curve, p)?;
            for (sum, light) in sum.iter_mut().zip(light) {
                *sum += light;
            }
        }
        Some(sum.map(|sum| curve.encoded(sum / (n * n) as f32)))
    }
}

/// Light between the four nearest pixels; None outside the picture.
fn between(picture: &Picture, curve: Curve, p: Point) -> Option<[f32; 3]> {
    let (w, h) = (picture.width as usize, picture.height as usize);
    if !(p.x >= 0.0 && p.y >= 0.0 && p.x <= w as f64 && p.y <= h as f64) {
        return None;
    }
    let v = Vec2::new((p.x - 0.5).clamp(0.0, w as f64 - 1.0), (p.y - 0.5).clamp(0.0, h as f64 - 1.0));
    let (x, y) = ((v.x as usize).min(w.saturating_sub(2)), (v.y as usize).min(h.saturating_sub(2)));
    let (s, t) = ((v.x - x as f64) as f32, (v.y - y as f64) as f32);
    let (right, down) = (usize::from(w > 1), if h > 1 { w } else { 0 });
    let at = y * w + x;
    let (a, b) = (picture.rgb.get(at)?, picture.rgb.get(at + right)?);
    let (c, d) = (picture.rgb.get(at + down)?, picture.rgb.get(at + down + right)?);
    Some([0, 1, 2].map(|i| {
        let [a, b, c, d] = [a, b, c, d].map(|pixel| curve.light_of(pixel[i]));
        let (upper, lower) = (a + (b - a) * s, c + (d - c) * s);
        upper + (lower - upper) * t
    }))
}
