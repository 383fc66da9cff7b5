//! Strips laid in the cloth that is named for a binding: in what of it is free and sound, one beside the
//! other, along the grain, across it, or at 45 degrees to it.
//!
//! A strip counts with square ends, where the cloth holds its whole width. Of the ways to lay them the one
//! is kept that reaches with the fewest strips, and where none reaches, the one that gives most. A yes is
//! a real layout; another way of cutting, with shifted rows, might give a little more.

use super::leftover::{is_bias, leftover, leftover_of};
use super::{BindingChoice, BindingProblem, Finish, FinishPlan, MOST_USABLE_IN, Supply, plan};
use crate::cloth::{Cloth, Kind};
use crate::stage::cutting::{Lie, place_all, usable};
use crate::stage::layout;
use crate::sums;
use plane::{Point, Pose, Region, Turn, Vec2};

/// The shortest strip that is worth a join, in inches (common practice, no source).
pub const LEAST_STRIP_IN: f64 = 6.0;

/// Strips as they lie in a cloth, the longest first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LaidStrips {
    /// How long each is.
    pub lengths_in: Vec<f64>,
    /// Its corners on the cloth.
    pub corners: Vec<[Point; 4]>,
    /// Which way they lie, in words.
    pub along: &'static str,
}

/// How strips may lie on a cloth: turned against its lengthwise threads, in words.
const STRAIGHT: [(f64, &str); 2] = [(0.0, "along the grain"), (90.0, "across the grain")];
const BIAS: [(f64, &str); 2] = [(45.0, "at 45 degrees to the grain"), (-45.0, "at 45 degrees to the grain")];

/// The strips of a width that lie in a cloth and give `needed_in` joined, or as much as there is.
#[must_use]
pub fn strips_in(cloth: &Cloth, width_in: f64, is_bias: bool, loss_in: f64, needed_in: f64) -> LaidStrips {
    let free = usable(cloth);
    let ways = if is_bias { BIAS } else { STRAIGHT };
    let laid = ways.iter().flat_map(|(degrees, along)| {
        let turn = cloth.grain.then(Turn::from_degrees(*degrees));
        layouts(&free, turn, width_in, LEAST_STRIP_IN.max(loss_in + 1.0))
            .into_iter()
            .map(|laid| LaidStrips { along, ..laid })
    });
    let rank = |laid: &LaidStrips| {
        let reached =
            (1..=laid.lengths_in.len()).find(|&n| gives(&laid.lengths_in[..n], loss_in) >= needed_in - 1e-9);
        (reached.unwrap_or(usize::MAX), -gives(&laid.lengths_in, loss_in))
    };
    let best = laid.min_by(|a, b| {
        let (a, b) = (rank(a), rank(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
    });
    best.unwrap_or(LaidStrips { along: ways[0].1, ..LaidStrips::default() })
}

fn gives(lengths_in: &[f64], loss_in: f64) -> f64 {
    leftover(lengths_in, loss_in, 0.0, 0.0).has_in
}

/// Every way of laying rows of strips that run in a direction.
fn layouts(free: &[Region], along: Turn, width_in: f64, least_in: f64) -> Vec<LaidStrips> {
    let level = Pose { turn: along.inverse(), by: Vec2::default() };
    let turned: Vec<Region> = free.iter().map(|region| region.moved(level)).collect();
    let back = level.inverse();
    let laid = layout::ways(&turned, width_in).into_iter().map(|shelves| {
        let mut strips: Vec<(f64, [Point; 4])> = shelves
            .iter()
            .filter(|shelf| shelf.span[1] - shelf.span[0] >= least_in)
            .map(|shelf| {
                let ([from, to], low, high) = (shelf.span, shelf.low, shelf.low + width_in);
                let corners = [(from, low), (to, low), (to, high), (from, high)];
                (to - from, corners.map(|(x, y)| back.apply(Point::new(x, y))))
            })
            .collect();
        strips.sort_by(|a, b| b.0.total_cmp(&a.0));
        let (lengths_in, corners) = strips.into_iter().unzip();
        LaidStrips { lengths_in, corners, along: "" }
    });
    laid.collect()
}

impl BindingChoice {
    /// The choice with its strips laid in a cloth, whose outline is what of it is free. A leftover of
    /// binding is taken as it is; several are named one after the other.
    ///
    /// # Errors
    /// A choice or an outline that makes no sense, a cloth that doesn't hold the strips with what is
    /// missing, a leftover that is too narrow or too short.
    pub fn laid_in(
        &self,
        outline: &[Point],
        allowance_in: f64,
        cloths: &[Cloth],
    ) -> Result<Self, BindingProblem> {
        let Some(first) = cloths.first() else { return Ok(self.clone()) };
        if cloths.iter().any(|cloth| cloth.kind == Kind::Binding) {
            return self.of_leftovers(cloths);
        }
        let is_bias = self.supply.is_bias();
        let supply = match &self.supply {
            Supply::Leftovers { .. } => return Ok(self.clone()),
            Supply::Laid { .. } if is_bias => Supply::BiasStrips,
            Supply::Laid { .. } => Supply::Straight,
            other => other.clone(),
        };
        let plan = plan(&Self { supply, ..self.clone() }, outline, allowance_in)?;
        let (width_in, loss_in, needed_in) = match &plan {
            FinishPlan::Bound(plan) => (
                self.strip_width_in,
                self.join.loss_in(self.strip_width_in, allowance_in),
                plan.length_needed_in,
            ),
            FinishPlan::Faced(plan) => {
                let needed = plan.strips.iter().map(|strip| strip.cut_length_in).sum();
                (self.facing_width_in, 2.0 * allowance_in, needed)
            }
        };
        if self.supply == Supply::BiasSquare && self.finish == Finish::Bound {
            let side_in = sums::square_for_bias(needed_in, width_in, allowance_in)?;
            let square = Region::rectangle(side_in, side_in).outer;
            let lie = Lie { base: first.grain, half_turns: true };
            return match place_all(&[square], &[lie], first)[..] {
                [Some(_)] => Ok(self.clone()),
                _ => Err(BindingProblem::NoSquare { name: first.name.clone(), side_in }),
            };
        }
        let laid = strips_in(first, width_in, is_bias, loss_in, needed_in);
        let has_in = gives(&laid.lengths_in, loss_in);
        if has_in < needed_in - 1e-9 {
            return Err(BindingProblem::ClothShort {
                name: first.name.clone(),
                strips: laid.lengths_in.len(),
                strip_width_in: width_in,
                along: laid.along,
                has_in,
                needed_in,
                short_in: needed_in - has_in,
            });
        }
        let usable_in = laid.lengths_in.first().map_or(self.usable_in, |longest| longest.min(MOST_USABLE_IN));
        let supply = Supply::Laid { lengths_in: laid.lengths_in, is_bias };
        Ok(Self { supply, usable_in, ..self.clone() })
    }

    fn of_leftovers(&self, cloths: &[Cloth]) -> Result<Self, BindingProblem> {
        let width_in = if self.finish == Finish::Bound { self.strip_width_in } else { self.facing_width_in };
        let lengths_in = cloths.iter().map(|cloth| leftover_of(cloth, width_in));
        let mut lengths_in = lengths_in.collect::<Result<Vec<f64>, _>>()?;
        lengths_in.sort_by(|a, b| b.total_cmp(a));
        let is_bias = cloths.iter().all(is_bias);
        Ok(Self { supply: Supply::Leftovers { lengths_in, is_bias }, ..self.clone() })
    }
}
