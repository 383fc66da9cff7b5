//! From the light behind the lens to a picture: motion, blur, uneven light, glare, noise, eight
//! bits.

use super::render::{Part, in_bands};
use super::shot::Shot;
use super::texture::Light;
use crate::dice::mix;
use colour::Linear;
use vision::Picture;

/// Noise of a sensor that sees nothing, in shares of a white pixel.
const READ_NOISE: f32 = 0.0015;

/// Exposes the part of a scene that was rendered; the rest gets no noise.
pub(super) fn expose(mut light: Vec<Light>, shot: &Shot, drawn: &Part, seed: u64) -> Picture {
    let [width, height] = shot.stand.size_px;
    let columns = width as usize;
    let [x, y] = shot.motion_px;
    let steps = (x.hypot(y) * 2.0).ceil() as i32;
    if steps > 0 {
        light = blended(&light, columns, &smear([x, y], steps));
    }
    let curve = bell(shot.blur_px);
    let reach = (curve.len() / 2) as i32;
    let line = |which: usize| {
        let off = |k: i32| if which == 0 { [k, 0] } else { [0, k] };
        (-reach..=reach).zip(&curve).map(|(k, w)| (off(k), *w)).collect::<Vec<_>>()
    };
    light = blended(&blended(&light, columns, &line(0)), columns, &line(1));
    let bytes = Bytes::new();
    let mut rgb = vec![[0; 3]; light.len()];
    in_bands(&mut rgb, columns * 16, |band, part| {
        for (i, pixel) in part.iter_mut().enumerate() {
            let at = band * columns * 16 + i;
            let place = [(at % columns) as f64 + 0.5, (at / columns) as f64 + 0.5];
            if !drawn.shows(at % columns, at / columns) {
                *pixel = UNDRAWN;
                continue;
            }
            let seen = lit(light[at], place, shot);
            *pixel = [0, 1, 2].map(|k| {
                let value = seen[k];
                let deviation = (value.max(0.0) / shot.quanta as f32 + READ_NOISE * READ_NOISE).sqrt();
                let draw = normal(mix(seed ^ mix((at * 3 + k) as u64)));
                bytes.of(value + deviation * draw)
            });
        }
    });
    Picture { width, height, rgb }
}

/// A pixel of what isn't drawn.
const UNDRAWN: [u8; 3] = [128; 3];

/// A pixel in the light of the room.
fn lit(light: Light, [x, y]: [f64; 2], shot: &Shot) -> Light {
    let [width, height] = shot.stand.size_px.map(f64::from);
    let (across, down) = (x / width * 2.0 - 1.0, y / height * 2.0 - 1.0);
    let corner = (across * across + down * down) / 2.0;
    let [right, low] = shot.slope;
    // Exposed for the brightest place.
    let sloped = (1.0 + right * across + low * down) / (1.0 + right.abs() + low.abs());
    let fall = sloped * (1.0 - shot.vignette * corner);
    let glare = shot.glare.map_or(0.0, |(middle, wide, strong)| {
        let longer = width.max(height);
        let off = [(x - middle[0] * width) / longer, (y - middle[1] * height) / longer];
        strong * (-(off[0] * off[0] + off[1] * off[1]) / (2.0 * wide * wide)).exp()
    });
    [0, 1, 2].map(|k| ((f64::from(light[k]) / PAPER * fall + glare) * shot.white[k]) as f32)
}

/// Light that white paper sends back, as printing standards take it: an L* of 95 (from memory).
pub(super) const PAPER: f64 = 0.876;

/// Weights of the pixels along a motion.
fn smear([x, y]: [f64; 2], steps: i32) -> Vec<([i32; 2], f32)> {
    let mut taps: Vec<([i32; 2], f32)> = Vec::new();
    for step in 0..=steps {
        let t = f64::from(step) / f64::from(steps) - 0.5;
        let ends = if step == 0 || step == steps { 0.5 } else { 1.0 };
        let (column, row) = ((x * t).floor(), (y * t).floor());
        let (right, down) = (x * t - column, y * t - row);
        for (i, j, share) in [
            (0, 0, (1.0 - right) * (1.0 - down)),
            (1, 0, right * (1.0 - down)),
            (0, 1, (1.0 - right) * down),
            (1, 1, right * down),
        ] {
            let (off, share) =
                ([column as i32 + i, row as i32 + j], (share * ends / f64::from(steps)) as f32);
            match taps.iter_mut().find(|tap| tap.0 == off) {
                Some(tap) => tap.1 += share,
                None => taps.push((off, share)),
            }
        }
    }
    taps
}

/// A normal curve cut off at four deviations, its sum 1.
fn bell(deviation: f64) -> Vec<f32> {
    let reach = (deviation * 4.0).ceil() as i32;
    let at = |k: i32| (-0.5 * (f64::from(k) / deviation.max(1e-6)).powi(2)).exp();
    let sum: f64 = (-reach..=reach).map(at).sum();
    (-reach..=reach).map(|k| (at(k) / sum) as f32).collect()
}

/// The weighted sum of moved copies; beyond the edge the last pixel goes on.
fn blended(light: &[Light], columns: usize, taps: &[([i32; 2], f32)]) -> Vec<Light> {
    let rows = (light.len() / columns.max(1)) as i64;
    let mut out = vec![[0.0; 3]; light.len()];
    in_bands(&mut out, columns, |row, line| {
        for &([across, down], weight) in taps {
            let from = (row as i64 + i64::from(down)).clamp(0, rows - 1) as usize * columns;
            let source = &light[from..from + columns];
            let shift = across as isize;
            let start = (-shift).clamp(0, columns as isize) as usize;
            let end = (columns as isize - shift).clamp(start as isize, columns as isize) as usize;
            let inner = &source[(start as isize + shift).max(0) as usize..];
            add(&mut line[start..end], inner, weight);
            for pixel in &mut line[..start] {
                add(std::slice::from_mut(pixel), source, weight);
            }
            for pixel in &mut line[end..] {
                add(std::slice::from_mut(pixel), &source[columns - 1..], weight);
            }
        }
    });
    out
}

fn add(line: &mut [Light], source: &[Light], weight: f32) {
    for (total, part) in line.iter_mut().zip(source) {
        for (sum, value) in total.iter_mut().zip(part) {
            *sum += value * weight;
        }
    }
}

/// A number near normal, mean 0 and deviation 1: the sum of four even ones of 16 bits.
fn normal(bits: u64) -> f32 {
    let sum: u64 = (0..4).map(|k| bits >> (16 * k) & 0xffff).sum();
    (sum as f32 / 65_535.0 - 2.0) * 3.0_f32.sqrt()
}

/// Light to sRGB bytes by a table finer than a byte.
struct Bytes(Vec<u8>);

impl Bytes {
    const STEPS: usize = 8_192;

    fn new() -> Self {
        let step = |i: usize| {
            // Even steps of the square root, so that the dark is as fine as it needs.
            let light = (i as f64 / (Self::STEPS - 1) as f64).powi(2);
            Linear::new(light, light, light).to_srgb().g
        };
        Self((0..Self::STEPS).map(step).collect())
    }

    fn of(&self, light: f32) -> u8 {
        let at = light.clamp(0.0, 1.0).sqrt() * (Self::STEPS - 1) as f32;
        self.0[(at + 0.5) as usize]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spread(taps: &[([i32; 2], f32)], axis: usize) -> (f64, f64, f64) {
        let sum: f64 = taps.iter().map(|t| f64::from(t.1)).sum();
        let mean: f64 = taps.iter().map(|t| f64::from(t.1) * f64::from(t.0[axis])).sum();
        let square: f64 = taps.iter().map(|t| f64::from(t.1) * f64::from(t.0[axis]).powi(2)).sum();
        (sum, mean, square - mean * mean)
    }

    #[test]
    fn motion_moves_nothing_on_the_whole_and_spreads_as_an_even_line_does() {
        let (sum, mean, variance) = spread(&smear([6.0, 0.0], 12), 0);
        assert!((sum - 1.0).abs() < 1e-5 && mean.abs() < 1e-5, "{sum} {mean}");
        // A twelfth of the square of the length; half-pixel steps and blending add a little.
        assert!((variance - 3.0).abs() < 0.3, "{variance}");
    }

    #[test]
    fn blur_has_its_deviation_and_keeps_what_is_even() {
        let curve = bell(1.4);
        let taps: Vec<_> = (-6..=6).zip(&curve).map(|(k, w)| ([k, 0], *w)).collect();
        let (sum, mean, variance) = spread(&taps, 0);
        assert!((sum - 1.0).abs() < 1e-5 && mean.abs() < 1e-5 && (variance.sqrt() - 1.4).abs() < 0.01);
        let even = vec![[0.5, 0.25, 0.125]; 35];
        for (out, wanted) in blended(&even, 7, &taps).iter().flatten().zip(even.iter().flatten()) {
            assert!((out - wanted).abs() < 1e-6);
        }
    }

    #[test]
    fn noise_is_normal_enough_and_bytes_are_those_of_srgb() {
        let draws: Vec<f64> = (0..20_000).map(|i| f64::from(normal(mix(i)))).collect();
        let mean = draws.iter().sum::<f64>() / 20_000.0;
        let square = draws.iter().map(|d| d * d).sum::<f64>() / 20_000.0;
        assert!(mean.abs() < 0.03 && (square - 1.0).abs() < 0.03, "{mean} {square}");
        let bytes = Bytes::new();
        let light = super::super::texture::light_of_bytes();
        for byte in 0..=255_u8 {
            let found = bytes.of(light[usize::from(byte)]);
            assert!(found.abs_diff(byte) <= 1, "{byte} {found}");
        }
    }
}
