//! The light on the table, by the white of the cards.
//!
//! Paper is the one thing whose colour is known. Its light at each card tells the cast of the lamps and
//! how they fall off across the table; dividing by it gives the colours that cloth would have beside
//! white paper by daylight. Shadows between the cards can't be known from them.

mod curve;

use crate::flatten::homography::eliminate;
use crate::share::in_rows;
use crate::{Card, Flat, Flattening, Picture};
pub(crate) use curve::{Curve, light_of};
use plane::Point;

/// Light that white office paper throws back, 0 to 1: L* 95 (common practice, no source).
pub const PAPER: f64 = 0.88;

/// Lamps seldom fall off more than this over the cards' own spread: the logarithm's likely slope per
/// inch, so that two near cards don't make a storm of a whisper.
const SLOPE_SD: f64 = 0.04;
/// The same for the curving, per square inch: cards at the rim alone say nothing of the middle.
const CURVE_SD: f64 = 0.000_3;
/// Scatter of paper's light, of 1: shadows of fingers, glare, ink that shines through.
const PAPER_SD: f64 = 0.02;

/// Terms of the fall-off: even, right, up, and away from the middle.
const TERMS: usize = 4;

/// The light of white paper over the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Light {
    /// The middle of the cards, in inches.
    middle: Point,
    /// Logarithm of paper's light for red, green and blue: even, per inch right, per inch up, per
    /// square inch away from the middle.
    terms: [[f64; TERMS]; 3],
    /// How many cards it was read from.
    cards: usize,
    /// Share of the cards' white that was at the camera's limit.
    burnt: f64,
}

fn basis(middle: Point, at: Point) -> [f64; TERMS] {
    let v = at - middle;
    [1.0, v.x, v.y, v.dot(v)]
}

/// White paper beside one side of a card: where on the table, its light, and the share of its
/// pixels at the camera's limit.
struct Margin {
    at: Point,
    light: [f64; 3],
    burnt: [f64; 3],
}

/// The white margin of a card along each of its four sides.
fn margins(picture: &Picture, map: &Flattening, card: &Card) -> Vec<Margin> {
    let corners = card.corners.map(|px| map.to_table(px));
    let middle = corners[0].midpoint(corners[2]);
    let mut found = Vec::new();
    for side in 0..4 {
        let (a, b) = (corners[side], corners[(side + 1) % 4]);
        let mut pixels: Vec<[u8; 3]> = (0..24)
            .filter_map(|i| {
                // Half a cell outside the black square: the margin's middle.
                let on_edge = a.lerp(b, (f64::from(i) + 0.5) / 24.0);
                let px = map.to_picture(middle + (on_edge - middle) * 1.125);
                (px.is_finite() && px.x >= 0.0 && px.y >= 0.0).then(|| picture.at(px.x as i64, px.y as i64))
            })
            .collect();
        if pixels.len() < 12 {
            continue;
        }
        // The middle half: a thread or a corner of cloth over the margin doesn't count.
        pixels.sort_by_key(|p| p.iter().map(|c| u32::from(*c)).sum::<u32>());
        let half = &pixels[pixels.len() / 4..pixels.len() - pixels.len() / 4];
        let mean = |i: usize| half.iter().map(|p| f64::from(light_of(p[i]))).sum::<f64>() / half.len() as f64;
        let share = |i: usize| half.iter().filter(|p| p[i] >= 254).count() as f64 / half.len() as f64;
        let burnt = [share(0), share(1), share(2)];
        found.push(Margin { at: a.midpoint(b), light: [mean(0), mean(1), mean(2)], burnt });
    }
    found
}

/// Reads the light from the cards that a picture was flattened by; None where no margin shows.
#[must_use]
pub fn read_light(picture: &Picture, flattening: &Flattening) -> Option<Light> {
    let cards = flattening.used();
    let samples: Vec<Margin> = cards.iter().flat_map(|card| margins(picture, flattening, card)).collect();
    let shown = |s: &&Margin| s.light.iter().all(|l| *l > 1e-4);
    let lit: Vec<&Margin> = samples.iter().filter(shown).collect();
    if lit.is_empty() {
        return None;
    }
    let n = lit.len() as f64;
    let middle = lit.iter().fold(Point::ORIGIN, |sum, s| sum + s.at.to_vec2() * (1.0 / n));
    let mut terms = [[0.0; TERMS]; 3];
    for (channel, terms) in terms.iter_mut().enumerate() {
        // Where the camera was full there may have been any amount of light.
        let sound = |s: &&&Margin| s.burnt[channel] < 0.5;
        let any = lit.iter().any(|s| sound(&s));
        let heeded = lit.iter().filter(|s| !any || sound(s));
        let lights: Vec<_> = heeded.map(|s| (basis(middle, s.at), s.light[channel].ln())).collect();
        *terms = fit(&lights)?;
    }
    let burnt = samples.iter().map(|s| s.burnt.iter().copied().fold(0.0, f64::max)).sum::<f64>()
        / samples.len() as f64;
    Some(Light { middle, terms, cards: cards.len(), burnt })
}

/// Least squares, in a few rounds: margins in a shadow, or under something, are heeded ever less.
fn fit(lights: &[([f64; TERMS], f64)]) -> Option<[f64; TERMS]> {
    let mut terms = [0.0; TERMS];
    for round in 0..5 {
        let mut rows = vec![vec![0.0; TERMS + 1]; TERMS];
        for (basis, value) in lights {
            let off = value - dot(&terms, basis);
            let heed = if round == 0 { 1.0 } else { 1.0 / (1.0 + (off / (3.0 * PAPER_SD)).powi(2)) };
            for (row, a) in rows.iter_mut().zip(basis) {
                for (cell, b) in row.iter_mut().zip(basis.iter().chain([value])) {
                    *cell += heed * a * b / (PAPER_SD * PAPER_SD);
                }
            }
        }
        rows[1][1] += 1.0 / (SLOPE_SD * SLOPE_SD);
        rows[2][2] += 1.0 / (SLOPE_SD * SLOPE_SD);
        rows[3][3] += 1.0 / (CURVE_SD * CURVE_SD);
        terms = eliminate(rows)?.try_into().ok()?;
    }
    Some(terms)
}

fn dot(a: &[f64; TERMS], b: &[f64; TERMS]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

impl Light {
    /// Light of white paper at a place on the table, red, green and blue, 1 where the camera is full.
    #[must_use]
    pub fn paper_at(&self, inch: Point) -> [f64; 3] {
        let b = basis(self.middle, inch);
        self.terms.map(|terms| dot(&terms, &b).exp())
    }

    /// From how many cards it was read. From one or two the fall-off is a guess.
    #[must_use]
    pub fn cards(&self) -> usize {
        self.cards
    }

    /// The share of the cards' white, 0 to 1, that was too bright for the camera. Much of it, and colours
    /// come out darker than they are.
    #[must_use]
    pub fn burnt(&self) -> f64 {
        self.burnt
    }

    /// Gives the flat the colours it would have under even daylight.
    pub fn correct(&self, flat: &mut Flat) {
        let width = flat.picture.width as usize;
        if width == 0 {
            return;
        }
        const STEP: usize = 16;
        let curve = Curve::new();
        let per_in = flat.pixels_per_in;
        let top_left = flat.top_left;
        let gain = |x: usize, y: usize| {
            let inch = Point::new(top_left.x + x as f64 / per_in, top_left.y - y as f64 / per_in);
            // Far from all cards the fall-off is not followed into nonsense.
            self.paper_at(inch).map(|light| (PAPER / light.max(1e-3)).clamp(0.05, 40.0) as f32)
        };
        in_rows(&mut flat.picture.rgb, width, |y, row| {
            let mut to = gain(0, y);
            for (part, pixels) in row.chunks_mut(STEP).enumerate() {
                let from = to;
                to = gain((part + 1) * STEP, y);
                for (i, pixel) in pixels.iter_mut().enumerate() {
                    let share = i as f32 / STEP as f32;
                    for (channel, value) in pixel.iter_mut().enumerate() {
                        let gain = from[channel] + (to[channel] - from[channel]) * share;
                        *value = curve.encoded(curve.light_of(*value) * gain);
                    }
                }
            }
        });
    }
}
