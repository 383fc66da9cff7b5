//! A small composer of tables seen from straight above: scraps of the demo's prints on mats, with
//! shadows, uneven light, blur and noise, and the truth about them. Nothing of `vision` is used.

#![allow(dead_code, unreachable_pub, reason = "each test takes what it needs")]

use colour::{Linear, Srgb};
use demo::{Print, Raster, prints};
use plane::{Point, Pose, Region, Turn, Vec2, polygon};
use std::sync::LazyLock;
use vision::{Flat, Picture};

/// Random numbers from a seed: a linear congruence whose upper bits are used.
pub struct Dice(pub u64);

impl Dice {
    pub fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let bits = self.0 ^ (self.0 >> 33);
        (bits.wrapping_mul(0xff51_afd7_ed55_8ccd) >> 11) as f64 / (1_u64 << 53) as f64
    }
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.share()
    }
    pub fn below(&mut self, count: usize) -> usize {
        (self.share() * count as f64) as usize % count
    }
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.share()).sum::<f64>() - 6.0
    }
}

/// A print painted once, its pixels as light.
pub struct Painted {
    pub print: Print,
    raster: Raster,
    light: Vec<[f32; 3]>,
}

pub static PAINTED: LazyLock<Vec<Painted>> = LazyLock::new(|| {
    prints(0)
        .into_iter()
        .map(|print| {
            let raster = print.draw(96.0);
            let light = raster.pixels.iter().map(|&[r, g, b, _]| light_of(Srgb::new(r, g, b))).collect();
            Painted { print, raster, light }
        })
        .collect()
});

pub fn light_of(ink: Srgb) -> [f32; 3] {
    let Linear { r, g, b } = ink.to_linear();
    [r as f32, g as f32, b as f32]
}

impl Painted {
    /// The light at a place of the print.
    fn at(&self, p: Point) -> [f32; 3] {
        let [wide, high] = self.print.repeat_in();
        let (w, h) = (self.raster.width as i64, self.raster.height as i64);
        let (x, y) = (p.x / wide * w as f64 - 0.5, -p.y / high * h as f64 - 0.5);
        let (x0, y0) = (x.floor(), y.floor());
        let (fx, fy) = ((x - x0) as f32, (y - y0) as f32);
        let mut sum = [0.0; 3];
        for (i, j, weight) in [
            (0, 0, (1.0 - fx) * (1.0 - fy)),
            (1, 0, fx * (1.0 - fy)),
            (0, 1, (1.0 - fx) * fy),
            (1, 1, fx * fy),
        ] {
            let at = ((y0 as i64 + j).rem_euclid(h) * w + (x0 as i64 + i).rem_euclid(w)) as usize;
            for (total, value) in sum.iter_mut().zip(self.light[at]) {
                *total += value * weight;
            }
        }
        sum
    }
}

/// A scrap on the table.
#[derive(Clone)]
pub struct Laid {
    /// Where it lies, in inches on the table.
    pub outline: Region,
    /// Which print.
    pub print: usize,
    /// From the table to the print.
    pub pose: Pose,
    /// How many times the print is enlarged.
    pub scale: f64,
    /// Ravelled threads: two ends each.
    pub threads: Vec<[Point; 2]>,
}

/// Lines of a mat: every so many inches, their width, their colour.
pub type Lines = (f64, f64, u32);

/// A table to be painted.
#[derive(Clone)]
pub struct Table {
    pub size_in: [f64; 2],
    pub per_in: f64,
    pub mat: u32,
    /// Lines on it.
    pub grid: Option<Lines>,
    pub scraps: Vec<Laid>,
    /// White squares of paper with a black pattern: lower left corner of the pattern and its side.
    pub cards: Vec<(Point, f64)>,
    /// How much weaker the light is in the far corner.
    pub fall_off: f64,
    /// How dark the scraps' shadows are, how far they fall and how soft they are, in inches.
    pub shadow: (f64, f64, f64),
    /// Deviation of the blur, in pixels.
    pub blur_px: f64,
    /// Deviation of the noise, in numbers of a channel.
    pub noise: f64,
}

/// Cells a pixel, each way, that are painted before the blur.
const FINER: usize = 2;

impl Table {
    /// Paints the table; the same seed gives the same noise.
    pub fn paint(&self, seed: u64) -> Flat {
        let per_in = self.per_in * FINER as f64;
        let width = (self.size_in[0] * self.per_in) as usize;
        let height = (self.size_in[1] * self.per_in) as usize;
        let (fine_w, fine_h) = (width * FINER, height * FINER);
        let place = |i: usize| {
            let (x, y) = ((i % fine_w) as f64 + 0.5, (i / fine_w) as f64 + 0.5);
            Point::new(x / per_in, self.size_in[1] - y / per_in)
        };
        let mut light: Vec<[f32; 3]> = (0..fine_w * fine_h).map(|i| self.mat_at(place(i))).collect();
        let on = self.covered(fine_w, fine_h, per_in);
        self.darken(&mut light, &on, fine_w, per_in);
        for (i, here) in on.iter().enumerate() {
            if let Some(scrap) = here {
                let scrap = &self.scraps[*scrap];
                let p = scrap.pose.apply(place(i));
                light[i] = PAINTED[scrap.print].at(Point::new(p.x / scrap.scale, p.y / scrap.scale));
            }
        }
        for (i, light) in light.iter_mut().enumerate() {
            let p = place(i);
            let far = (p.x / self.size_in[0] - 0.3).powi(2) + (p.y / self.size_in[1] - 0.7).powi(2);
            let share = 1.0 - self.fall_off * far;
            *light = light.map(|v| v * share as f32);
        }
        let blurred = blur(&light, fine_w, self.blur_px.max(0.3) * FINER as f64);
        let mut dice = Dice(seed);
        let mut rgb = Vec::with_capacity(width * height);
        for row in 0..height {
            for column in 0..width {
                let mut sum = [0.0_f32; 3];
                for k in 0..FINER * FINER {
                    let i = (row * FINER + k / FINER) * fine_w + column * FINER + k % FINER;
                    for (total, value) in sum.iter_mut().zip(blurred[i]) {
                        *total += value / (FINER * FINER) as f32;
                    }
                }
                let Srgb { r, g, b } =
                    Linear::new(f64::from(sum[0]), f64::from(sum[1]), f64::from(sum[2])).to_srgb();
                rgb.push([r, g, b].map(|v| {
                    (f64::from(v) + if self.noise > 0.0 { dice.normal() * self.noise } else { 0.0 })
                        .round()
                        .clamp(0.0, 255.0) as u8
                }));
            }
        }
        Flat {
            picture: Picture { width: width as u32, height: height as u32, rgb },
            pixels_per_in: self.per_in,
            top_left: Point::new(0.0, self.size_in[1]),
            seen: vec![true; width * height],
        }
    }

    /// The corners of the cards' patterns.
    pub fn card_corners(&self) -> Vec<Vec<Point>> {
        self.cards.iter().map(|&(p, side)| square(p, side)).collect()
    }

    fn mat_at(&self, p: Point) -> [f32; 3] {
        for &(corner, side) in &self.cards {
            let (x, y) = ((p.x - corner.x) / side, (p.y - corner.y) / side);
            if (-0.2..1.2).contains(&x) && (-0.2..1.2).contains(&y) {
                let (i, j) = ((x * 8.0).floor() as i64, (y * 8.0).floor() as i64);
                let inside = (0..8).contains(&i) && (0..8).contains(&j);
                let border = i == 0 || j == 0 || i == 7 || j == 7;
                let black = inside && (border || (i * 5 + j * 3) % 4 < 2);
                return light_of(Srgb::from_number(if black { 0x20_2020 } else { 0xf4_f4f2 }));
            }
        }
        if let Some((step, wide, ink)) = self.grid {
            let near = |v: f64| (v.rem_euclid(step)).min(step - v.rem_euclid(step)) < wide / 2.0;
            if near(p.x) || near(p.y) {
                return light_of(Srgb::from_number(ink));
            }
        }
        light_of(Srgb::from_number(self.mat))
    }

    /// Which scrap lies on top at each cell.
    fn covered(&self, width: usize, height: usize, per_in: f64) -> Vec<Option<usize>> {
        let mut on = vec![None; width * height];
        for (which, scrap) in self.scraps.iter().enumerate() {
            let (low, high) = polygon::bounds(&scrap.outline.outer).unwrap();
            let reach = 0.5;
            let column = |x: f64| (x * per_in).clamp(0.0, width as f64) as usize;
            let row = |y: f64| ((self.size_in[1] - y) * per_in).clamp(0.0, height as f64) as usize;
            for r in row(high.y + reach)..row(low.y - reach) {
                for c in column(low.x - reach)..column(high.x + reach) {
                    let p =
                        Point::new((c as f64 + 0.5) / per_in, self.size_in[1] - (r as f64 + 0.5) / per_in);
                    let thread = |[a, b]: &[Point; 2]| {
                        let t = ((p - *a).dot(*b - *a) / (*b - *a).dot(*b - *a)).clamp(0.0, 1.0);
                        p.distance(a.lerp(*b, t)) < 0.012
                    };
                    if scrap.outline.contains(p) || scrap.threads.iter().any(thread) {
                        on[r * width + c] = Some(which);
                    }
                }
            }
        }
        on
    }

    /// Soft shadows down to the right of the scraps.
    fn darken(&self, light: &mut [[f32; 3]], on: &[Option<usize>], width: usize, per_in: f64) {
        let (dark, far, soft) = self.shadow;
        if dark == 0.0 {
            return;
        }
        // Softness needs no fine cells: one in eight each way, blended between their middles.
        const COARSER: usize = 8;
        let height = on.len() / width;
        let (wide, high) = (width.div_ceil(COARSER), height.div_ceil(COARSER));
        let off = (far * per_in) as usize;
        let cast: Vec<[f32; 3]> = (0..wide * high)
            .map(|i| {
                let (c, r) = (i % wide * COARSER + COARSER / 2, i / wide * COARSER + COARSER / 2);
                let at = |c: usize, r: usize| on.get(r * width + c).is_some_and(Option::is_some);
                [if c >= off && r >= off && at(c - off, r - off) { 1.0 } else { 0.0 }, 0.0, 0.0]
            })
            .collect();
        let cast = blur(&cast, wide, (soft * per_in / COARSER as f64).max(0.5));
        for (i, light) in light.iter_mut().enumerate() {
            let at = |v: usize, most: usize| {
                let v = ((v as f32 + 0.5) / COARSER as f32 - 0.5).clamp(0.0, most as f32 - 1.0);
                (v as usize, (v as usize + 1).min(most - 1), v.fract())
            };
            let ((c, c1, x), (r, r1, y)) = (at(i % width, wide), at(i / width, high));
            let row = |r: usize| cast[r * wide + c][0] * (1.0 - x) + cast[r * wide + c1][0] * x;
            let share = row(r) * (1.0 - y) + row(r1) * y;
            *light = light.map(|v| v * (1.0 - dark as f32 * share));
        }
    }
}

pub fn square(p: Point, side: f64) -> Vec<Point> {
    [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(|(x, y)| p + Vec2::new(x, y)).to_vec()
}

/// A Gaussian blur, along rows and then along columns.
fn blur(from: &[[f32; 3]], width: usize, deviation: f64) -> Vec<[f32; 3]> {
    let reach = (3.0 * deviation).ceil() as i64;
    let kernel: Vec<f32> =
        (-reach..=reach).map(|k| (-0.5 * (k as f64 / deviation).powi(2)).exp() as f32).collect();
    let sum: f32 = kernel.iter().sum();
    let kernel: Vec<f32> = kernel.iter().map(|v| v / sum).collect();
    let height = from.len() / width;
    let mut along = vec![[0.0_f32; 3]; from.len()];
    for row in 0..height {
        for column in 0..width {
            let out = &mut along[row * width + column];
            for (k, weight) in (-reach..).zip(&kernel) {
                let c = (column as i64 + k).clamp(0, width as i64 - 1) as usize;
                for (total, value) in out.iter_mut().zip(from[row * width + c]) {
                    *total += weight * value;
                }
            }
        }
    }
    let mut all = vec![[0.0_f32; 3]; from.len()];
    for row in 0..height {
        for (k, weight) in (-reach..).zip(&kernel) {
            let r = (row as i64 + k).clamp(0, height as i64 - 1) as usize;
            for column in 0..width {
                for (total, value) in all[row * width + column].iter_mut().zip(along[r * width + column]) {
                    *total += weight * value;
                }
            }
        }
    }
    all
}

/// An outline about so long round the origin: a quadrilateral, strip, triangle or pentagon, one in
/// eight with a bite, one in fifteen with a hole.
pub fn outline(dice: &mut Dice, long: f64) -> Region {
    loop {
        let mut wobble = |by: f64| dice.between(-by, by) * long;
        let mut ring = match (wobble(0.5) / long + 0.5) * 4.0 {
            v if v < 1.6 => {
                let high = 0.7 + wobble(0.25) / long;
                vec![
                    (0.0, 0.0),
                    (1.0, wobble(0.1) / long),
                    (1.0 + wobble(0.15) / long, high),
                    (wobble(0.15) / long, high),
                ]
            }
            v if v < 2.3 => {
                let high = 0.28 + wobble(0.08) / long;
                vec![
                    (0.0, 0.0),
                    (1.0, 0.0),
                    (1.0 + wobble(0.1) / long, high),
                    (wobble(0.1) / long, high * 0.9),
                ]
            }
            v if v < 3.1 => vec![(0.0, 0.0), (1.0, wobble(0.1) / long), (0.5 + wobble(0.45) / long, 0.75)],
            _ => vec![(0.0, 0.1), (0.6, -0.1), (1.0, 0.3 + wobble(0.1) / long), (0.6, 0.8), (0.1, 0.7)],
        };
        if dice.share() < 0.125 {
            let (a, b) = (ring[1], ring[2]);
            let at = |t: f64, deep: f64| (a.0 + (b.0 - a.0) * t - deep, a.1 + (b.1 - a.1) * t);
            ring.splice(2..2, [at(0.3, 0.0), at(0.35, 0.2), at(0.7, 0.22), at(0.75, 0.0)]);
        }
        let outer: Vec<Point> =
            ring.into_iter().map(|(x, y)| Point::new((x - 0.5) * long, (y - 0.35) * long)).collect();
        let hole = dice.share() < 1.0 / 15.0;
        let holes = if hole { vec![square(Point::new(-0.25, -0.2), 0.5)] } else { vec![] };
        if let Ok(region) = Region::try_new(outer, holes)
            && polygon::least_width(&region.outer) > 0.8
            && region.area() > 1.0
        {
            return region;
        }
    }
}

/// Where a scrap lies: turned and moved; its print turned with it and moved at random.
pub fn laid(dice: &mut Dice, region: &Region, print: usize, middle: Point) -> Laid {
    let turn = Turn::from_degrees(dice.between(0.0, 360.0));
    let ring: Vec<Point> = region.outer.clone();
    let pose = Pose { turn, by: middle - Point::ORIGIN };
    let outline = region.moved(pose);
    let mut threads = Vec::new();
    if dice.share() < 0.4 {
        for _ in 0..4 {
            let i = dice.below(ring.len());
            let (a, b) = (ring[i], ring[(i + 1) % ring.len()]);
            let from = a.lerp(b, dice.between(0.2, 0.8));
            let to = from + Vec2::new(dice.between(-0.3, 0.3), dice.between(-0.3, 0.3));
            threads.push([pose.apply(from), pose.apply(to)]);
        }
    }
    let back = Pose {
        turn: Turn::from_degrees(dice.between(0.0, 360.0)),
        by: Vec2::new(dice.between(0.0, 9.0), dice.between(0.0, 9.0)),
    };
    Laid { outline, print, pose: back, scale: 1.0, threads }
}

/// A mat: name, colour, lines.
type Mat = (&'static str, u32, Option<Lines>);

/// Mats to be found on.
pub const MATS: [Mat; 8] = [
    ("white", 0xee_eeec, None),
    ("grey", 0x9c_9c9a, None),
    ("dark", 0x26_2628, None),
    ("oak", 0xb0_8d5f, None),
    ("green with grid", 0x2f_6b55, Some((1.0, 0.03, 0xb8_c8b4))),
    ("grey with grid", 0x6e_7276, Some((0.5, 0.02, 0xd8_d8d0))),
    ("light with grid", 0xd8_dcd6, Some((1.0, 0.03, 0x50_6070))),
    ("violet with grid", 0x5a_4a7c, Some((1.0, 0.025, 0xe0_d8e8))),
];
