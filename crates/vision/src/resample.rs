//! A part of the table, drawn from the picture in true size.
//!
//! Between pixels light is mixed, not screen numbers. Where several of the picture's pixels go into one
//! of the flat, that many are averaged, so that fine stripes don't turn into coarse ones.

use crate::light::Curve;
use crate::{Flat, Flattening, Picture, Window};
use plane::Point;
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
                        let across = MESH.min(width - x);
                        for j in 0..MESH.min(rows - y) {
                            let at = (y + j) * width + x;
                            patch.row(
                                picture,
                                curve,
                                j,
                                &mut rgb[at..at + across],
                                &mut seen[at..at + across],
                            );
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

    /// Draws one row of the mesh, as far as the picture goes.
    fn row(&self, picture: &Picture, curve: Curve, j: usize, rgb: &mut [[u8; 3]], seen: &mut [bool]) {
        let n = self.samples;
        let mut sums = [[0.0_f32; 3]; MESH];
        let mut inside = [true; MESH];
        for k in 0..n {
            let v = (j as f64 + (k as f64 + 0.5) / n as f64) / MESH as f64;
            let [a, b, c, d] = self.corners;
            let (from, to) = (a.lerp(c, v), b.lerp(d, v));
            let step = (to - from) * (1.0 / (MESH * n) as f64);
            let mut place = from + step * 0.5;
            for (sum, inside) in sums.iter_mut().zip(&mut inside).take(rgb.len()) {
                for _ in 0..n {
                    *inside &= between(picture, curve, place, sum);
                    place = place + step;
                }
            }
        }
        let share = 1.0 / (n * n) as f32;
        for (i, (pixel, seen)) in rgb.iter_mut().zip(seen).enumerate() {
            if inside[i] {
                *pixel = sums[i].map(|sum| curve.encoded(sum * share));
                *seen = true;
            }
        }
    }
}

/// Adds the light between the four nearest pixels; false outside the picture.
#[inline]
fn between(picture: &Picture, curve: Curve, p: Point, sum: &mut [f32; 3]) -> bool {
    let (w, h) = (picture.width as usize, picture.height as usize);
    if !(p.x >= 0.0 && p.y >= 0.0 && p.x <= w as f64 && p.y <= h as f64) {
        return false;
    }
    let (across, below) = ((p.x - 0.5).clamp(0.0, w as f64 - 1.0), (p.y - 0.5).clamp(0.0, h as f64 - 1.0));
    let (x, y) = ((across as usize).min(w.saturating_sub(2)), (below as usize).min(h.saturating_sub(2)));
    let (s, t) = ((across - x as f64) as f32, (below - y as f64) as f32);
    let (right, down) = (usize::from(w > 1), if h > 1 { w } else { 0 });
    let (upper, lower) = (y * w + x, y * w + x + down);
    let pixels = (
        picture.rgb.get(upper),
        picture.rgb.get(upper + right),
        picture.rgb.get(lower),
        picture.rgb.get(lower + right),
    );
    let (Some(a), Some(b), Some(c), Some(d)) = pixels else { return false };
    for (channel, sum) in sum.iter_mut().enumerate() {
        let (a, b) = (curve.light_of(a[channel]), curve.light_of(b[channel]));
        let (c, d) = (curve.light_of(c[channel]), curve.light_of(d[channel]));
        let (upper, lower) = (a + (b - a) * s, c + (d - c) * s);
        *sum += upper + (lower - upper) * t;
    }
    true
}
