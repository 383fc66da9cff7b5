//! Which ways up a print may be used.
//!
//! Gradients are taken as complex numbers and summed block by block as harmonics: sums that turn `order`
//! times while the print turns once. The second tells stripes (J. Bigün and G. H. Granlund 1987), the
//! fourth checks. The first and the third change their sign when the print lies upside down, so that what
//! is tossed averages out and what has a top adds up; how they scatter from block to block says how far to
//! trust a sum. A print with a top is about the same to its left and right: the axis is the line about
//! which all harmonics are likeliest mirrored.

use super::Runs;
use super::grid::Grid;
use super::spectrum::Signal;

/// What is known about the direction of a print.
#[derive(Clone, Copy, Debug)]
pub(super) struct Signs {
    /// How much the gradients keep to one line, 0 to 1.
    pub(super) coherence: f64,
    /// The same in its scatter from block to block: about 1 by chance.
    sure: f64,
    /// How much they keep to two lines at right angles, 0 to 1.
    crossed: f64,
    /// Across the one line, in degrees.
    across_deg: f64,
    /// How much it differs from itself upside down, each sum's share of its contrast times how surely;
    /// the second of all sums.
    odd: f64,
    /// The line about which left and right are likeliest the same, in degrees.
    axis_deg: f64,
}

/// Which ways up the print may be used, by its signs; a solid has none.
pub(super) fn runs(signs: Option<Signs>) -> Runs {
    let Some(signs) = signs else { return Runs::AnyWay };
    let along = Runs::BothWays { deg: (signs.across_deg + 90.0).rem_euclid(180.0) };
    if signs.coherence > STRIPED {
        return along;
    }
    if signs.crossed > CHECKED && signs.coherence < EVEN {
        return Runs::AnyWay;
    }
    let leans = signs.coherence > LEANS || (signs.coherence > LEANS_SURELY && signs.sure > SURELY);
    if signs.odd > if leans { TOP_OF_LEANING } else { TOP } {
        return Runs::OneWay { deg: signs.axis_deg.rem_euclid(180.0) };
    }
    if leans { along } else { Runs::AnyWay }
}

/// Coherence of stripes; of ripples it is about 0.9.
pub(super) const STRIPED: f64 = 0.95;
/// Gradients that keep to two lines at right angles so much are a check's.
const CHECKED: f64 = 0.6;
/// Coherence below which neither line prevails.
const EVEN: f64 = 0.2;
/// Coherence of strokes that lean one way.
pub(super) const LEANS: f64 = 0.5;
/// The same where it is as sure as this (a net).
const LEANS_SURELY: f64 = 0.15;
const SURELY: f64 = 6.0;
/// What is odd about a print with a top, and about one with a top that also leans.
const TOP: f64 = 0.5;
const TOP_OF_LEANING: f64 = 1.0;
/// Side of the blocks, in inches.
const BLOCK_IN: f64 = 0.8;
/// Deviations of the blurs, in inches; the first is about the grid's own.
const SCALES_IN: [f64; 4] = [0.0, 0.05, 0.105, 0.212];
/// Fine contrast or bend, and the gradient it weighs: scale, whether the bend, scale of the gradient.
const WEIGHED: [(usize, bool, usize); 5] =
    [(0, false, 2), (0, true, 2), (1, true, 2), (0, true, 0), (1, false, 2)];
/// A sum counts as at most so sure.
const SUREST: f64 = 8.0;

/// A sum over the print that turns `order` times as often as it.
struct Harmonic {
    order: i32,
    mean: [f64; 2],
    /// Deviation of the mean in each direction, by the scatter of the blocks.
    scatter: f64,
    /// Its length over that of a print that pulls all one way.
    share: f64,
}

impl Harmonic {
    fn length(&self) -> f64 {
        self.mean[0].hypot(self.mean[1])
    }

    fn sure(&self) -> f64 {
        self.length() / self.scatter
    }

    /// How unlikely it is mirrored about a line: the square of what is lopsided, in its scatter.
    fn lopsided(&self, deg: f64) -> f64 {
        let (sin, cos) = (f64::from(self.order) * deg.to_radians()).sin_cos();
        ((self.mean[1] * cos - self.mean[0] * sin) / self.scatter).powi(2)
    }
}

/// Gradient (y up) and bend of the print at one scale.
struct Slopes {
    gradient: Vec<[f64; 2]>,
    bend: Vec<f64>,
}

/// The signs of a print; `None` for a solid, and for a cloth too small to have four blocks.
pub(super) fn signs(grid: &Grid, print: &Signal) -> Option<Signs> {
    if print.deviation < 0.5 {
        return None;
    }
    let blocks = Blocks::of(grid)?;
    let slopes = SCALES_IN.map(|inch| slopes(&blurred(&print.values, grid, inch * grid.per_in), grid.width));
    let sum = |order: i32, scale: usize| {
        blocks.harmonic(order, |i| {
            let [x, y] = slopes[scale].gradient[i];
            let length = (x * x + y * y).sqrt().max(1e-12);
            let turned = power([x / length, y / length], order);
            (turned.map(|v| v * length * length), length * length)
        })
    };
    let mut even: Vec<Harmonic> = Vec::new();
    let mut odd: Vec<Harmonic> = Vec::new();
    for scale in 0..SCALES_IN.len() {
        even.extend([sum(2, scale), sum(4, scale)]);
        odd.push(sum(3, scale));
    }
    for (fine, bend, wide) in WEIGHED {
        odd.push(blocks.harmonic(1, |i| {
            let [fx, fy] = slopes[fine].gradient[i];
            let weight = if bend { slopes[fine].bend[i].powi(2) } else { fx * fx + fy * fy };
            let [x, y] = slopes[wide].gradient[i];
            ([weight * x, weight * y], weight * (x * x + y * y).sqrt())
        }));
    }
    let mut odds: Vec<f64> = odd.iter().map(|sum| sum.sure().min(SUREST) * sum.share).collect();
    odds.sort_by(|a, b| b.total_cmp(a));
    let cost = |deg: f64| {
        let of = |list: &[Harmonic]| -> f64 {
            // The five first ones measure much the same.
            let weight = |sum: &Harmonic| if sum.order == 1 { 0.2 } else { 1.0 };
            list.iter().map(|sum| sum.lopsided(deg).min(40.0) * weight(sum)).sum()
        };
        of(&even) + of(&odd)
    };
    let axis = (0..360).map(|k| f64::from(k) / 2.0).min_by(|a, b| cost(*a).total_cmp(&cost(*b)));
    let (second, fourth) = (&even[0], &even[1]);
    Some(Signs {
        coherence: second.share,
        sure: second.sure(),
        crossed: fourth.share,
        across_deg: 0.5 * second.mean[1].atan2(second.mean[0]).to_degrees(),
        odd: odds.get(1).copied().unwrap_or(0.0),
        axis_deg: axis.unwrap_or(0.0),
    })
}

/// A complex number multiplied by itself.
fn power(z: [f64; 2], times: i32) -> [f64; 2] {
    (1..times).fold(z, |p, _| [p[0] * z[0] - p[1] * z[1], p[0] * z[1] + p[1] * z[0]])
}

/// The places that count, well inside, by blocks that are full enough.
struct Blocks {
    places: Vec<Vec<usize>>,
}

impl Blocks {
    fn of(grid: &Grid) -> Option<Self> {
        let (width, height) = (grid.width, grid.height());
        let side = (BLOCK_IN * grid.per_in).max(6.0) as usize;
        let columns = width.div_ceil(side);
        let mut places = vec![Vec::new(); columns * height.div_ceil(side)];
        for i in grid.inside() {
            let (column, row) = (i % width, i / width);
            if column < 2 || row < 2 || column + 2 >= width || row + 2 >= height {
                continue;
            }
            let cross = [i - 2, i + 2, i - 2 * width, i + 2 * width];
            if cross.iter().all(|&j| grid.on[j]) {
                places[row / side * columns + column / side].push(i);
            }
        }
        places.retain(|block| block.len() * 20 > 7 * side * side);
        (places.len() >= 4).then_some(Self { places })
    }

    /// The mean over the blocks of what `at` gives for a place: a vector, and its length if it pulled
    /// all one way.
    fn harmonic(&self, order: i32, at: impl Fn(usize) -> ([f64; 2], f64)) -> Harmonic {
        let means: Vec<[f64; 3]> = self
            .places
            .iter()
            .map(|block| {
                let mut sum = [0.0; 3];
                for &i in block {
                    let ([x, y], whole) = at(i);
                    sum = [sum[0] + x, sum[1] + y, sum[2] + whole];
                }
                sum.map(|v| v / block.len() as f64)
            })
            .collect();
        let n = means.len() as f64;
        let [x, y, whole]: [f64; 3] =
            std::array::from_fn(|k| means.iter().map(|mean| mean[k]).sum::<f64>() / n);
        let square = means.iter().map(|m| (m[0] - x).powi(2) + (m[1] - y).powi(2)).sum::<f64>();
        let scatter = (square / (2.0 * (n - 1.0) * n)).sqrt().max(1e-12);
        Harmonic { order, mean: [x, y], scatter, share: x.hypot(y) / whole.max(1e-12) }
    }
}

fn slopes(values: &[f64], width: usize) -> Slopes {
    let height = values.len() / width.max(1);
    let mut slopes = Slopes { gradient: vec![[0.0; 2]; values.len()], bend: vec![0.0; values.len()] };
    for row in 1..height.saturating_sub(1) {
        for i in row * width + 1..(row + 1) * width - 1 {
            let [left, right, above, below] =
                [values[i - 1], values[i + 1], values[i - width], values[i + width]];
            slopes.gradient[i] = [right - left, above - below];
            slopes.bend[i] = left + right + above + below - 4.0 * values[i];
        }
    }
    slopes
}

/// Blurred by a Gaussian of a deviation in places, what lies outside left out.
fn blurred(values: &[f64], grid: &Grid, deviation: f64) -> Vec<f64> {
    if deviation < 0.3 {
        return values.to_vec();
    }
    let reach = (3.0 * deviation).ceil() as usize;
    let kernel: Vec<f32> =
        (0..=reach).map(|k| (-0.5 * (k as f64 / deviation).powi(2)).exp() as f32).collect();
    let width = grid.width;
    let value = values.iter().zip(&grid.on).map(|(&value, &on)| if on { value as f32 } else { 0.0 });
    let weight = grid.on.iter().map(|&on| f32::from(u8::from(on)));
    let sums = both_ways(&value.collect::<Vec<_>>(), width, &kernel);
    let weights = both_ways(&weight.collect::<Vec<_>>(), width, &kernel);
    let mean = |(sum, weight): (&f32, &f32)| if *weight > 1e-3 { f64::from(sum / weight) } else { 0.0 };
    sums.iter().zip(&weights).map(mean).collect()
}

/// Spread by a kernel (its middle first) along the rows, then along the columns; nothing lies outside.
fn both_ways(values: &[f32], width: usize, kernel: &[f32]) -> Vec<f32> {
    let add = |to: &mut [f32], from: &[f32], weight: f32| {
        for (sum, value) in to.iter_mut().zip(from) {
            *sum += weight * value;
        }
    };
    let mut along = vec![0.0; values.len()];
    for (to, from) in along.chunks_mut(width).zip(values.chunks(width)) {
        add(to, from, kernel[0]);
        for (k, &weight) in kernel.iter().enumerate().take(width).skip(1) {
            add(&mut to[k..], from, weight);
            add(to, &from[k..], weight);
        }
    }
    let mut sums = vec![0.0; values.len()];
    add(&mut sums, &along, kernel[0]);
    for (k, &weight) in kernel.iter().enumerate().take(values.len() / width.max(1)).skip(1) {
        add(&mut sums[k * width..], &along, weight);
        add(&mut sums, &along[k * width..], weight);
    }
    sums
}
