//! The stripes of a set, and how slices of it make up a side.
//!
//! A slice runs across the set. Joined end to end with the allowance s, a slice adds the height of
//! the set less 2s, divided by the cosine of its lean; so does a run of stripes of an unpicked slice,
//! which has its allowances back: whatever the runs, the raw length is `(Σ shows + 2s) / cos lean`,
//! where a stripe shows its width between two seams.

use super::super::bands::spans;
use super::super::cutting::usable;
use super::super::strips::exceeds;
use super::{RingChoice, RingProblem};
use crate::cloth::{Cloth, ClothId, Kind};
use plane::{READING, polygon};
use serde::Serialize;

/// One stripe of a set.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stripe {
    /// Its cloth.
    pub cloth: ClothId,
    /// How wide it shows between two seams, square to it, in inches.
    pub shows_in: f64,
}

/// A run of stripes that hang together: a whole slice, or a part of an unpicked one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Run {
    /// Which slice of the set, from 0.
    pub slice: usize,
    /// Its first stripe, from 0.
    pub from: usize,
    /// Its last stripe.
    pub to: usize,
}

/// A strip set that can be sliced.
#[derive(Clone, Debug)]
pub(super) struct Set {
    pub(super) stripes: Vec<Stripe>,
    /// Seam lines across the set, in its coordinates: stripe `i` shows from `seams[i]` to the next.
    pub(super) seams: Vec<f64>,
    /// The longest stretch along the stripes over which the set has its whole height, without flaws.
    pub(super) span: [f64; 2],
    pub(super) allowance_in: f64,
    /// Tangent and cosine of the lean.
    pub(super) lean: f64,
    pub(super) cosine: f64,
    pub(super) slice_in: f64,
}

impl Set {
    pub(super) fn of(set: &Cloth, choice: &RingChoice, allowance_in: f64) -> Result<Self, RingProblem> {
        if set.kind != Kind::StripSet || set.parts.len() < 2 {
            return Err(RingProblem::NoSet { name: set.name.clone(), parts: set.parts.len() });
        }
        if !(choice.lean_deg.is_finite() && choice.lean_deg.abs() <= 60.0) {
            return Err(RingProblem::Lean(choice.lean_deg));
        }
        if !exceeds(choice.slice_in, 2.0 * allowance_in) {
            return Err(RingProblem::Narrow { slice_in: choice.slice_in, least_in: 2.0 * allowance_in });
        }
        let mut parts: Vec<_> = set
            .parts
            .iter()
            .filter_map(|part| polygon::bounds(&part.shows).map(|(lo, hi)| (lo.y, hi.y, part.cloth)))
            .collect();
        parts.sort_by(|a, b| a.0.total_cmp(&b.0));
        let (bottom, top) = (parts[0].0, parts[parts.len() - 1].1);
        let mut seams: Vec<f64> = parts.iter().map(|part| part.0).collect();
        seams[0] = bottom + allowance_in;
        seams.push(top - allowance_in);
        let stripes: Vec<Stripe> = parts
            .iter()
            .zip(seams.windows(2))
            .map(|(part, edge)| Stripe { cloth: part.2, shows_in: edge[1] - edge[0] })
            .collect();
        if let Some(i) = stripes.iter().position(|stripe| stripe.shows_in <= READING) {
            return Err(RingProblem::StripeLost { stripe: i + 1, allowance_in });
        }
        let whole = usable(set);
        let free = whole.iter().flat_map(|region| spans(region, bottom, top - bottom));
        let widest = free.max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])));
        let lean = choice.lean_deg.to_radians().tan();
        let cosine = choice.lean_deg.to_radians().cos();
        let span = widest.unwrap_or([0.0, 0.0]);
        Ok(Self { stripes, seams, span, allowance_in, lean, cosine, slice_in: choice.slice_in })
    }

    /// Raw height of the set in inches.
    pub(super) fn height_in(&self) -> f64 {
        self.shows_in() + 2.0 * self.allowance_in
    }

    fn shows_in(&self) -> f64 {
        self.stripes.iter().map(|stripe| stripe.shows_in).sum()
    }

    /// How long a set the slices take, in inches.
    pub(super) fn used_in(&self, slices: usize) -> f64 {
        if slices == 0 {
            return 0.0;
        }
        slices as f64 * self.slice_in / self.cosine + self.height_in() * self.lean.abs()
    }

    /// Where slice `k` begins along the stripes, on the seam line's zero of the set's coordinates.
    pub(super) fn slice_from(&self, k: usize) -> f64 {
        let bottom = self.seams[0] - self.allowance_in;
        let top = bottom + self.height_in();
        let lowest = (bottom * self.lean).min(top * self.lean);
        self.span[0] - lowest + k as f64 * self.slice_in / self.cosine
    }

    /// What runs show joined end to end, along the strip.
    pub(super) fn run_shows_in(&self, run: Run) -> f64 {
        self.stripes[run.from..=run.to].iter().map(|stripe| stripe.shows_in).sum::<f64>() / self.cosine
    }

    /// Raw length of runs joined end to end, along the strip.
    pub(super) fn joined_in(&self, runs: &[Run]) -> f64 {
        runs.iter().map(|run| self.run_shows_in(*run)).sum::<f64>() + 2.0 * self.allowance_in / self.cosine
    }

    /// Runs that make up raw lengths one after the other, each beginning with a slice of its own.
    pub(super) fn in_slices(&self, needs: &[f64]) -> Vec<Vec<Run>> {
        let last = self.stripes.len() - 1;
        let mut slice = 0;
        let side = |need: &f64| {
            let net = need - 2.0 * self.allowance_in / self.cosine;
            let count = (net * self.cosine / self.shows_in() - 1e-9).ceil().max(1.0) as usize;
            let runs = (slice..slice + count).map(|slice| Run { slice, from: 0, to: last }).collect();
            slice += count;
            runs
        };
        needs.iter().map(side).collect()
    }

    /// Runs that make up raw lengths one after the other, each going on with the stripe after the
    /// last: slices are unpicked where a side ends.
    pub(super) fn in_stripes(&self, needs: &[f64]) -> Vec<Vec<Run>> {
        let count = self.stripes.len();
        let mut next = 0;
        let side = |need: &f64| {
            let mut short = need - 2.0 * self.allowance_in / self.cosine;
            let mut runs: Vec<Run> = Vec::new();
            while runs.is_empty() || short > 1e-9 {
                let (slice, stripe) = (next / count, next % count);
                match runs.last_mut().filter(|run| run.slice == slice) {
                    Some(run) => run.to = stripe,
                    None => runs.push(Run { slice, from: stripe, to: stripe }),
                }
                short -= self.stripes[stripe].shows_in / self.cosine;
                next += 1;
            }
            runs
        };
        needs.iter().map(side).collect()
    }
}

/// How many slices runs take.
pub(super) fn slices(sides: &[Vec<Run>]) -> usize {
    sides.iter().flatten().map(|run| run.slice + 1).max().unwrap_or(0)
}
