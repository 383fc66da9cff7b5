//! What the bare table looks like at each place: a smooth fit that cloth can't pull along.
//!
//! In OKLab a light that is k times weaker draws every colour straight towards black, by the cube
//! root of k. So what differs from the ground falls in two: along the line to black, which light
//! and shadow explain, and across it, which they don't.

use super::coarse::Coarse;

/// The ground: a quadratic in both directions for each channel.
#[derive(Clone, Debug)]
pub(super) struct Ground {
    terms: [[f64; 3]; TERMS],
    size: [f64; 2],
    /// Scatter of the ground about the fit, along the line to black and across it.
    pub(super) scatter: [f64; 2],
}

/// Difference of a colour from the ground.
#[derive(Clone, Copy, Debug)]
pub(super) struct Off {
    /// Along the line from black through the ground's colour; negative is darker.
    pub(super) along: f64,
    /// Across it, 0 or more.
    pub(super) across: f64,
}

impl Off {
    /// Straight distance.
    pub(super) fn distance(self) -> f64 {
        (self.along * self.along + self.across * self.across).sqrt()
    }
}

const TERMS: usize = 6;

impl Ground {
    /// Fits the ground of a picture; `barred` cells (paper of the cards) are left out, `likely`
    /// ones (round the cards) count more, as do those at the edge of what was seen. `None` when
    /// next to nothing was seen.
    pub(super) fn fit(coarse: &Coarse, barred: &[bool], likely: &[bool]) -> Option<Self> {
        let samples = samples(coarse, barred, likely);
        if samples.len() < 50 {
            return None;
        }
        let mut best: Option<(f64, Self)> = None;
        for start in starts(&samples) {
            let Some(ground) = Self::about(coarse, &samples, start) else { continue };
            let score = samples
                .iter()
                .filter(|s| ground.off(s.at, s.lab).distance() < 0.035)
                .map(|s| s.weight)
                .sum::<f64>();
            if best.as_ref().is_none_or(|(most, _)| score > *most) {
                best = Some((score, ground));
            }
        }
        best.map(|(_, ground)| ground)
    }

    /// The fit that grows from one colour: what lies near is fitted, then what lies near the fit.
    fn about(coarse: &Coarse, samples: &[Sample], start: [f64; 3]) -> Option<Self> {
        let size = [coarse.width as f64, coarse.height as f64];
        let mut ground = Self { terms: [[0.0; 3]; TERMS], size, scatter: [0.01; 2] };
        ground.terms[0] = start;
        for reach in [0.10, 0.08, 0.06, 0.05, 0.04, 0.035] {
            let near: Vec<&Sample> =
                samples.iter().filter(|s| ground.off(s.at, s.lab).distance() < reach).collect();
            ground.terms = solve(&near, size)?;
        }
        let mut offs: [Vec<f64>; 2] = [Vec::new(), Vec::new()];
        for sample in samples {
            let off = ground.off(sample.at, sample.lab);
            if off.distance() < 0.04 {
                offs[0].push(off.along.abs());
                offs[1].push(off.across);
            }
        }
        ground.scatter = offs.map(|mut list| {
            list.sort_by(f64::total_cmp);
            1.48 * list.get(list.len() / 2).copied().unwrap_or(0.0)
        });
        Some(ground)
    }

    /// Its colour at a place in cells.
    pub(super) fn at(&self, place: [f64; 2]) -> [f64; 3] {
        let basis = basis(place, self.size);
        std::array::from_fn(|c| basis.iter().zip(&self.terms).map(|(b, term)| b * term[c]).sum())
    }

    /// How a colour at a place differs from it.
    pub(super) fn off(&self, place: [f64; 2], lab: [f32; 3]) -> Off {
        let here = self.at(place);
        let length = here.iter().map(|v| v * v).sum::<f64>().sqrt().max(1e-6);
        let apart: [f64; 3] = std::array::from_fn(|c| f64::from(lab[c]) - here[c]);
        let along = apart.iter().zip(here).map(|(d, h)| d * h).sum::<f64>() / length;
        let square = apart.iter().map(|d| d * d).sum::<f64>();
        Off { along, across: (square - along * along).max(0.0).sqrt() }
    }
}

/// A cell that may be ground.
#[derive(Clone, Copy)]
struct Sample {
    at: [f64; 2],
    lab: [f32; 3],
    weight: f64,
}

/// Quiet cells, about twenty thousand.
fn samples(coarse: &Coarse, barred: &[bool], likely: &[bool]) -> Vec<Sample> {
    let (width, height) = (coarse.width, coarse.height);
    let step = ((width * height) as f64 / 2e4).sqrt().ceil().max(1.0) as usize;
    let rim = (coarse.per_in * 0.5) as usize;
    let mut list = Vec::new();
    for row in (1..height.saturating_sub(1)).step_by(step) {
        for column in (1..width.saturating_sub(1)).step_by(step) {
            let i = row * width + column;
            let around = [i - 1, i + 1, i - width, i + width];
            if !coarse.seen[i] || barred[i] {
                continue;
            }
            let lab = coarse.lab[i];
            let rough = around.iter().map(|&j| distance(lab, coarse.lab[j])).fold(0.0, f32::max);
            let far = |column: i64, row: i64| {
                let inside = (0..width as i64).contains(&column) && (0..height as i64).contains(&row);
                !inside || !coarse.seen[row as usize * width + column as usize]
            };
            let (c, r, k) = (column as i64, row as i64, rim as i64);
            let at_rim = far(c - k, r) || far(c + k, r) || far(c, r - k) || far(c, r + k);
            let weight = if likely[i] { 8.0 } else { 1.0 } + if at_rim { 3.0 } else { 0.0 };
            let weight = if rough > 0.03 { 0.3 } else { 1.0 } * weight;
            list.push(Sample { at: [column as f64 + 0.5, row as f64 + 0.5], lab, weight });
        }
    }
    list
}

/// Straight distance of two colours.
pub(super) fn distance(one: [f32; 3], other: [f32; 3]) -> f32 {
    one.iter().zip(other).map(|(a, b)| (a - b) * (a - b)).sum::<f32>().sqrt()
}

/// The colours that most of the samples have: the fullest bins, no two neighbours.
fn starts(samples: &[Sample]) -> Vec<[f64; 3]> {
    const BIN: f32 = 0.04;
    let mut bins: std::collections::BTreeMap<[i16; 3], f64> = std::collections::BTreeMap::new();
    for sample in samples {
        *bins.entry(sample.lab.map(|v| (v / BIN).floor() as i16)).or_default() += sample.weight;
    }
    let mut bins: Vec<([i16; 3], f64)> = bins.into_iter().collect();
    bins.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let mut chosen: Vec<[i16; 3]> = Vec::new();
    for (bin, _) in bins {
        if chosen.len() == 6 {
            break;
        }
        if chosen.iter().all(|other| (0..3).any(|c| (other[c] - bin[c]).abs() > 1)) {
            chosen.push(bin);
        }
    }
    chosen.into_iter().map(|bin| bin.map(|v| (f64::from(v) + 0.5) * f64::from(BIN))).collect()
}

fn basis([x, y]: [f64; 2], size: [f64; 2]) -> [f64; TERMS] {
    let (x, y) = (2.0 * x / size[0] - 1.0, 2.0 * y / size[1] - 1.0);
    [1.0, x, y, x * x, x * y, y * y]
}

/// Least squares by elimination; held a little towards flat, so that few samples can't bend it.
fn solve(samples: &[&Sample], size: [f64; 2]) -> Option<[[f64; 3]; TERMS]> {
    let mut rows = [[0.0; TERMS + 3]; TERMS];
    let mut total = 0.0;
    for sample in samples {
        let basis = basis(sample.at, size);
        total += sample.weight;
        for (row, one) in rows.iter_mut().zip(basis) {
            for (cell, other) in row.iter_mut().zip(basis) {
                *cell += sample.weight * one * other;
            }
            for (cell, value) in row[TERMS..].iter_mut().zip(sample.lab) {
                *cell += sample.weight * one * f64::from(value);
            }
        }
    }
    if total == 0.0 {
        return None;
    }
    for (i, row) in rows.iter_mut().enumerate().skip(1) {
        row[i] += total * 2e-3;
    }
    for i in 0..TERMS {
        let pivot = rows[i];
        if pivot[i].abs() < 1e-12 {
            return None;
        }
        for (j, row) in rows.iter_mut().enumerate() {
            if j != i {
                let factor = row[i] / pivot[i];
                for (cell, value) in row.iter_mut().zip(pivot).skip(i) {
                    *cell -= factor * value;
                }
            }
        }
    }
    Some(std::array::from_fn(|i| std::array::from_fn(|c| rows[i][TERMS + c] / rows[i][i])))
}
