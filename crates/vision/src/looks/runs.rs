//! Which ways up a print may be used.
//!
//! Three questions are put to the gradients of the print. Do they keep to one line (the structure tensor's
//! coherence, as in J. Bigün and G. H. Granlund 1987)? Does the print agree with itself moved one way
//! farther than moved across it? And does it look the same upside down: sums that change their sign when
//! the print is turned by half a turn, taken block by block, so that what is tossed averages out and what
//! has a top adds up.

use super::Runs;
use super::grid::Grid;
use super::spectrum::signal;

/// What is known about the direction of a print.
#[derive(Clone, Copy, Debug)]
struct Signs {
    /// How much the gradients keep to one line, 0 to 1.
    coherence: f64,
    /// How much they keep to two lines at right angles, 0 to 1.
    crossed: f64,
    /// Across that line, in degrees.
    across_deg: f64,
    /// How surely it differs from itself upside down: about 1 by chance.
    top: f64,
    /// By how much, as a share of all contrast.
    odd: f64,
    /// Where the top may be, in degrees.
    top_deg: f64,
}

/// Which ways up the print may be used. Which end of a print with a top is up can't be seen from
/// contrasts alone; the maker may have to turn it round.
pub(super) fn runs(grid: &Grid, busy: f64) -> Runs {
    let Some(signs) = signs(grid) else { return Runs::AnyWay };
    if busy < super::SOLID {
        return Runs::AnyWay;
    }
    if signs.coherence > STRIPED {
        return Runs::BothWays { deg: (signs.across_deg + 90.0).rem_euclid(180.0) };
    }
    if signs.crossed > CHECKED && signs.coherence < EVEN {
        return Runs::AnyWay;
    }
    if signs.top > HAS_TOP && signs.odd > ODD_ENOUGH {
        return Runs::OneWay { deg: signs.top_deg.rem_euclid(360.0) };
    }
    if signs.coherence > LEANS {
        return Runs::BothWays { deg: (signs.across_deg + 90.0).rem_euclid(180.0) };
    }
    Runs::AnyWay
}

/// Gradients that keep to two lines at right angles so much are a check's.
const CHECKED: f64 = 0.75;
/// Coherence below which neither line prevails.
const EVEN: f64 = 0.2;
/// Coherence of stripes; of ripples it is about 0.9.
const STRIPED: f64 = 0.95;
/// Least of what is odd, in its scatter and as a share, for a print with a top.
const HAS_TOP: f64 = 3.0;
const ODD_ENOUGH: f64 = 0.125;
/// Coherence of strokes that lean one way.
const LEANS: f64 = 0.5;
/// Side of the blocks, in inches.
const BLOCK_IN: f64 = 1.0;
/// Odd sums that are looked at: two vectors and a third harmonic, at two scales.
const ODD: usize = 12;

fn signs(grid: &Grid) -> Option<Signs> {
    let (values, deviation) = signal(grid);
    if deviation < 0.5 {
        return None;
    }
    let (width, height) = (grid.width, grid.height());
    let block = (BLOCK_IN * grid.per_in).max(8.0) as usize;
    let columns = width.div_ceil(block);
    let mut blocks = vec![([0.0; ODD], [0.0; ODD / 2], 0.0); columns * height.div_ceil(block)];
    let mut tensor = [0.0; 3];
    let mut fourth = [0.0; 3];
    for (scale, reach) in [1_usize, 3].into_iter().enumerate() {
        let calm = blurred(&values, &grid.on, width, reach);
        let step = reach;
        for row in step..height.saturating_sub(step) {
            for column in step..width.saturating_sub(step) {
                let i = row * width + column;
                let cross = [i - step, i + step, i - step * width, i + step * width];
                if !grid.on[i] || cross.iter().any(|&j| !grid.on[j]) {
                    continue;
                }
                let [left, right, above, below] = cross.map(|j| calm[j]);
                let (gx, gy) = (right - left, above - below);
                let bend = left + right + above + below - 4.0 * calm[i];
                let square = gx * gx + gy * gy;
                let size = square.sqrt();
                if scale == 0 {
                    let (even, odd) = (gx * gx - gy * gy, 2.0 * gx * gy);
                    let scaled = square.max(1e-12);
                    fourth[0] += (even * even - odd * odd) / scaled;
                    fourth[1] += 2.0 * even * odd / scaled;
                    fourth[2] += square;
                    tensor = [tensor[0] + gx * gx, tensor[1] + gx * gy, tensor[2] + gy * gy];
                }
                let entry = &mut blocks[row / block * columns + column / block];
                let sums = &mut entry.0[scale * 6..scale * 6 + 6];
                sums[0] += square * gx;
                sums[1] += square * gy;
                sums[2] += bend * bend * gx;
                sums[3] += bend * bend * gy;
                let whole = &mut entry.1[scale * 3..scale * 3 + 3];
                whole[0] += square * size;
                whole[1] += bend * bend * size;
                whole[2] += square;
                if size > 1e-9 {
                    sums[4] += (gx * gx * gx - 3.0 * gx * gy * gy) / size;
                    sums[5] += (3.0 * gx * gx * gy - gy * gy * gy) / size;
                }
                if scale == 0 {
                    entry.2 += 1.0;
                }
            }
        }
    }
    let [xx, xy, yy] = tensor;
    let coherence = (xx - yy).hypot(2.0 * xy) / (xx + yy).max(1e-12);
    let crossed = fourth[0].hypot(fourth[1]) / fourth[2].max(1e-12);
    let across_deg = 0.5 * (2.0 * xy).atan2(xx - yy).to_degrees();
    let (top, odd, top_deg) = top(&blocks, block);
    Some(Signs { coherence, crossed, across_deg, top, odd, top_deg })
}

/// Odd sums of a block, all that they are a share of, and how many places were counted.
type Block = ([f64; ODD], [f64; ODD / 2], f64);

/// How far the odd sums' means are from nothing, in their own scatter and as a share, and their direction.
fn top(blocks: &[Block], block: usize) -> (f64, f64, f64) {
    let full: Vec<&Block> =
        blocks.iter().filter(|(_, _, count)| *count > 0.4 * (block * block) as f64).collect();
    let n = full.len() as f64;
    if full.len() < 4 {
        return (0.0, 0.0, 0.0);
    }
    let mut most = (0.0, 0.0, 0.0);
    for pair in 0..ODD / 2 {
        let mean: [f64; 2] = std::array::from_fn(|k| full.iter().map(|s| s.0[2 * pair + k]).sum::<f64>() / n);
        let whole = full.iter().map(|s| s.1[pair]).sum::<f64>() / n;
        let spread = full
            .iter()
            .map(|s| (s.0[2 * pair] - mean[0]).powi(2) + (s.0[2 * pair + 1] - mean[1]).powi(2))
            .sum::<f64>()
            / (n - 1.0);
        let length = mean[0].hypot(mean[1]);
        let sure = length * length * n / spread.max(1e-12);
        let odd = length / whole.max(1e-12);
        let deg = mean[1].atan2(mean[0]).to_degrees() / if pair % 3 == 2 { 3.0 } else { 1.0 };
        if sure.min(40.0) * odd > most.0 * most.1 {
            most = (sure.min(40.0), odd, deg);
        }
    }
    most
}

/// The mean over a square of places inside.
fn blurred(values: &[f64], on: &[bool], width: usize, reach: usize) -> Vec<f64> {
    let height = values.len() / width.max(1);
    let pass = |from: &[f64], weight: &[f64], step: usize, count: usize, at: &dyn Fn(usize) -> usize| {
        let mut out = (vec![0.0; from.len()], vec![0.0; from.len()]);
        for i in 0..from.len() {
            let place = at(i);
            let (low, high) = (place.min(reach), (count - 1 - place).min(reach));
            for k in 0..=low + high {
                let j = i + k * step - low * step;
                out.0[i] += from[j];
                out.1[i] += weight[j];
            }
        }
        out
    };
    let weight: Vec<f64> = on.iter().map(|&on| f64::from(u8::from(on))).collect();
    let (sum, count) = pass(values, &weight, 1, width, &|i| i % width);
    let (sum, count) = pass(&sum, &count, width, height, &|i| i / width);
    sum.iter().zip(count).map(|(s, c)| if c > 0.0 { s / c } else { 0.0 }).collect()
}
