//! A camera over a table, for tests: a pinhole with a lens that bends by a polynomial (another family
//! than the solver's), seeded dice, and a plain renderer of cards.
#![allow(dead_code, unreachable_pub, reason = "each test uses a part")]

use plane::{Point, Vec2};
use vision::{Card, Picture, cards};

/// Seeded dice: the same on every machine.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        let mut dice = Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1);
        for _ in 0..8 {
            dice.share();
        }
        dice
    }

    pub fn share(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.share()
    }

    /// About normal: four even ones added.
    pub fn normal(&mut self) -> f64 {
        ((0..4).map(|_| self.share()).sum::<f64>() - 2.0) * 3.0_f64.sqrt()
    }
}

/// A camera that looks at the table's origin.
#[derive(Clone, Copy, Debug)]
pub struct Camera {
    pub size_px: [u32; 2],
    /// Focal length by half the diagonal.
    pub focal: f64,
    pub tilt_deg: f64,
    /// Towards where it is tilted.
    pub towards_deg: f64,
    pub roll_deg: f64,
    /// Pixels an inch at the origin, in the direction that isn't shortened.
    pub per_in: f64,
    /// The lens's polynomial: `bent = straight (1 + k1 r² + k2 r⁴)`, r in half diagonals.
    pub k1: f64,
    pub k2: f64,
}

impl Camera {
    pub fn plain(size_px: [u32; 2], per_in: f64) -> Self {
        Self { size_px, focal: 1.4, tilt_deg: 0.0, towards_deg: 0.0, roll_deg: 0.0, per_in, k1: 0.0, k2: 0.0 }
    }

    fn half(&self) -> f64 {
        f64::from(self.size_px[0]).hypot(f64::from(self.size_px[1])) / 2.0
    }

    /// From the table to the straight picture in half diagonals, y up: rows of a matrix.
    fn rows(&self) -> [[f64; 3]; 3] {
        let (a, t) = (self.towards_deg.to_radians(), self.tilt_deg.to_radians());
        let r = self.roll_deg.to_radians();
        let distance = self.focal * self.half() / self.per_in;
        // Turn so that it tilts about x, tilt, turn back and roll.
        let first = [[a.cos(), a.sin()], [-a.sin(), a.cos()]];
        let second = [[(r - a).cos(), (r - a).sin()], [-(r - a).sin(), (r - a).cos()]];
        let tilted = |row: [f64; 2]| {
            [
                row[0] * first[0][0] + row[1] * t.cos() * first[1][0],
                row[0] * first[0][1] + row[1] * t.cos() * first[1][1],
            ]
        };
        let (x, y) = (tilted(second[0]), tilted(second[1]));
        let (f, d) = (self.focal, t.sin());
        [[f * x[0], f * x[1], 0.0], [f * y[0], f * y[1], 0.0], [first[1][0] * d, first[1][1] * d, distance]]
    }

    pub fn to_picture(self, inch: Point) -> Point {
        let m = self.rows();
        let v = [0, 1, 2].map(|i: usize| m[i][0] * inch.x + m[i][1] * inch.y + m[i][2]);
        let (x, y) = (v[0] / v[2], v[1] / v[2]);
        let r2 = x * x + y * y;
        let bend = 1.0 + self.k1 * r2 + self.k2 * r2 * r2;
        let half = self.half();
        Point::new(
            f64::from(self.size_px[0]) / 2.0 + x * bend * half,
            f64::from(self.size_px[1]) / 2.0 - y * bend * half,
        )
    }

    /// The way back, by rounds of nearing.
    pub fn to_table(self, px: Point) -> Point {
        let half = self.half();
        let bent = Vec2::new(
            (px.x - f64::from(self.size_px[0]) / 2.0) / half,
            (f64::from(self.size_px[1]) / 2.0 - px.y) / half,
        );
        let mut v = bent;
        for _ in 0..if self.k1 == 0.0 && self.k2 == 0.0 { 0 } else { 12 } {
            let r2 = v.dot(v);
            v = bent * (1.0 / (1.0 + self.k1 * r2 + self.k2 * r2 * r2));
        }
        let m = self.rows();
        // (m0 - x m2) p = 0 and (m1 - y m2) p = 0
        let a = [0, 1, 2].map(|j| m[0][j] - v.x * m[2][j]);
        let b = [0, 1, 2].map(|j| m[1][j] - v.y * m[2][j]);
        let det = a[0] * b[1] - a[1] * b[0];
        Point::new((a[1] * b[2] - a[2] * b[1]) / det, (a[2] * b[0] - a[0] * b[2]) / det)
    }
}

/// A card on the table: its number, lower left corner, turn in degrees and side in inches.
#[derive(Clone, Copy, Debug)]
pub struct Laid {
    pub no: u16,
    pub at: Point,
    pub turn_deg: f64,
    pub side: f64,
}

impl Laid {
    pub fn corners(&self) -> [Point; 4] {
        let t = self.turn_deg.to_radians();
        let along = Vec2::new(t.cos(), t.sin()) * self.side;
        let up = along.left();
        [self.at, self.at + along, self.at + along + up, self.at + up]
    }

    /// As a perfect detector would see it, with its corners off by `sd` pixels.
    pub fn seen(&self, camera: &Camera, sd: f64, dice: &mut Dice) -> Card {
        let off = |p: Point, dice: &mut Dice| p + Vec2::new(dice.normal(), dice.normal()) * sd;
        let corners = self.corners().map(|p| off(camera.to_picture(p), dice));
        Card {
            no: self.no,
            corners,
            blur_px: 0.8,
            rough_px: 0.1,
            swollen_px: 0.0,
            white: 0.8,
            black: 0.03,
            wrong_cells: 0,
        }
    }

    /// Light of the card at a place on the table: paper, ink, or nothing beyond its margin.
    fn light(&self, inch: Point, margin_cells: f64) -> Option<f64> {
        let t = self.turn_deg.to_radians();
        let along = Vec2::new(t.cos(), t.sin());
        let v = inch - self.at;
        let (x, y) = (v.dot(along) * 8.0 / self.side, 8.0 - v.dot(along.left()) * 8.0 / self.side);
        if !(-margin_cells..8.0 + margin_cells).contains(&x)
            || !(-margin_cells..8.0 + margin_cells).contains(&y)
        {
            return None;
        }
        let inside = (0.0..8.0).contains(&x) && (0.0..8.0).contains(&y);
        let black = inside && cards::pattern(self.no).unwrap()[y as usize][x as usize];
        Some(if black { 0.04 } else { 0.88 })
    }
}

/// What a plain picture of cards on a table is made with.
#[derive(Clone, Copy, Debug)]
pub struct Shot {
    pub camera: Camera,
    /// Light of the table.
    pub ground: f64,
    /// Standard deviation of the blur, in pixels; in light, as a lens blurs.
    pub blur_px: f64,
    /// Standard deviation of the noise, of 255.
    pub noise: f64,
    /// White balance, and the light's fall-off to the right by so much a half diagonal.
    pub cast: [f64; 3],
    pub falls: f64,
    /// Whether the blur mixes screen numbers instead of light.
    pub blurs_numbers: bool,
    /// Smear in one direction, in pixels: the camera moved.
    pub smear_px: (f64, f64),
    /// A lamp's reflection: its middle and spread in pixels, and its light.
    pub glare: Option<(Point, f64, f64)>,
}

impl Shot {
    pub fn new(camera: Camera) -> Self {
        Self {
            camera,
            ground: 0.25,
            blur_px: 0.8,
            noise: 2.0,
            cast: [1.0; 3],
            falls: 0.0,
            blurs_numbers: false,
            smear_px: (0.0, 0.0),
            glare: None,
        }
    }

    /// The picture: light sampled three by three a pixel, blurred, noised.
    pub fn take(&self, laid: &[Laid], dice: &mut Dice) -> Picture {
        let [width, height] = self.camera.size_px;
        let (w, h) = (width as usize, height as usize);
        let mut light = vec![self.ground as f32; w * h];
        for card in laid {
            let reach = card.side * 0.25;
            let c = card.corners().map(|p| self.camera.to_picture(p));
            let margin = reach * self.camera.per_in * 2.0;
            let low = |of: fn(&Point) -> f64| c.iter().map(of).fold(f64::MAX, f64::min) - margin;
            let high = |of: fn(&Point) -> f64| c.iter().map(of).fold(f64::MIN, f64::max) + margin;
            let (x0, x1) = (low(|p| p.x).max(0.0) as usize, (high(|p| p.x).max(0.0) as usize).min(w));
            let (y0, y1) = (low(|p| p.y).max(0.0) as usize, (high(|p| p.y).max(0.0) as usize).min(h));
            for y in y0..y1 {
                for x in x0..x1 {
                    let mut sum = 0.0;
                    for k in 0..9 {
                        let px = Point::new(
                            x as f64 + (f64::from(k % 3) + 0.5) / 3.0,
                            y as f64 + (f64::from(k / 3) + 0.5) / 3.0,
                        );
                        let own = card.light(self.camera.to_table(px), 1.5);
                        sum += own.unwrap_or(f64::from(light[y * w + x]));
                    }
                    light[y * w + x] = (sum / 9.0) as f32;
                }
            }
        }
        if self.blurs_numbers {
            light.iter_mut().for_each(|l| *l = encode(f64::from(*l)) as f32);
        }
        light = smeared(&blurred(&light, w, h, self.blur_px), w, h, self.smear_px);
        if self.blurs_numbers {
            light.iter_mut().for_each(|l| *l = decode(f64::from(*l)) as f32);
        }
        let half = self.camera.half();
        let table: Vec<f32> =
            (0..1 << 16).map(|i| (encode(f64::from(i) / 65_535.0) * 255.0) as f32).collect();
        let noise: Vec<f32> = (0..1 << 16).map(|_| (self.noise * dice.normal()) as f32).collect();
        let mut at = 0_usize;
        let rgb = (0..w * h).map(|i| {
            let p = Point::new((i % w) as f64, (i / w) as f64);
            let fall =
                if self.falls == 0.0 { 1.0 } else { (-self.falls * (p.x - w as f64 / 2.0) / half).exp() };
            let glare = self.glare.map_or(0.0, |(middle, spread, strength)| {
                strength * (-(p - middle).dot(p - middle) / (2.0 * spread * spread)).exp()
            });
            self.cast.map(|cast| {
                // A walk through the noise that doesn't come back to where it was in step with a row.
                at = (at * 5 + 12_345) % noise.len();
                let number =
                    table[((f64::from(light[i]) * cast * fall + glare).clamp(0.0, 1.0) * 65_535.0) as usize];
                (number + noise[at]).round().clamp(0.0, 255.0) as u8
            })
        });
        Picture { width, height, rgb: rgb.collect() }
    }
}

fn encode(light: f64) -> f64 {
    let light = light.clamp(0.0, 1.0);
    if light <= 0.003_130_8 { 12.92 * light } else { 1.055 * light.powf(1.0 / 2.4) - 0.055 }
}

fn decode(number: f64) -> f64 {
    if number <= 0.040_45 { number / 12.92 } else { ((number + 0.055) / 1.055).powf(2.4) }
}

/// The mean over a short way, to the nearest pixels.
fn smeared(light: &[f32], w: usize, h: usize, way: (f64, f64)) -> Vec<f32> {
    let steps = (way.0.hypot(way.1) * 2.0).ceil() as i64;
    if steps == 0 {
        return light.to_vec();
    }
    let mut to = vec![0.0_f32; w * h];
    for k in 0..=steps {
        let share = k as f64 / steps as f64 - 0.5;
        let (dx, dy) = ((way.0 * share).round() as i64, (way.1 * share).round() as i64);
        for (i, to) in to.iter_mut().enumerate() {
            let at = i as i64 + dx + dy * w as i64;
            *to += light[at.clamp(0, (w * h) as i64 - 1) as usize] / (steps + 1) as f32;
        }
    }
    to
}

fn blurred(light: &[f32], w: usize, h: usize, sd: f64) -> Vec<f32> {
    if sd <= 0.0 {
        return light.to_vec();
    }
    let reach = (3.0 * sd).ceil() as i64;
    let mut weights: Vec<f32> =
        (-reach..=reach).map(|k| (-(k * k) as f64 / (2.0 * sd * sd)).exp() as f32).collect();
    let sum: f32 = weights.iter().sum();
    weights.iter_mut().for_each(|weight| *weight /= sum);
    // Adds shifted rows or columns, which runs in step over the whole picture.
    let pass = |from: &[f32], stride: usize| -> Vec<f32> {
        let mut to = vec![0.0_f32; w * h];
        for (k, weight) in weights.iter().enumerate() {
            let by = (k as i64 - reach) * stride as i64;
            for (i, to) in to.iter_mut().enumerate() {
                *to += weight * from[(i as i64 + by).clamp(0, (w * h) as i64 - 1) as usize];
            }
        }
        to
    };
    pass(&pass(light, 1), w)
}
