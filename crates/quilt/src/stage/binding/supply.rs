//! Where the strip comes from: straight strips across the cloth, bias strips, one bias strip from a
//! square, or leftovers.

use super::{BindingChoice, BindingProblem, Leftover, leftover};
use crate::length::within;
use crate::sums;
use plane::{Point, polygon};
use serde::{Deserialize, Serialize};
use std::f64::consts::SQRT_2;

/// Cloth is bought by the eighth of a yard.
const EIGHTH_YARD_IN: f64 = 4.5;
/// Bias is cut from so many lengths of cloth at most.
const MOST_CUTS: u32 = 12;

/// Where the strip comes from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Supply {
    /// Strips across the cloth, on the straight grain.
    Straight,
    /// Strips cut one by one at 45 degrees.
    BiasStrips,
    /// One strip without end, from a square.
    BiasSquare,
    /// Leftovers of binding.
    Leftovers {
        /// Their lengths.
        lengths_in: Vec<f64>,
        /// Whether they were cut on the bias.
        is_bias: bool,
    },
    /// Strips as they lie in the cloth that is named.
    Laid {
        /// Their lengths.
        lengths_in: Vec<f64>,
        /// Whether they lie on the bias.
        is_bias: bool,
    },
}

impl Supply {
    pub(super) const fn is_bias(&self) -> bool {
        match self {
            Self::Straight => false,
            Self::BiasStrips | Self::BiasSquare => true,
            Self::Leftovers { is_bias, .. } | Self::Laid { is_bias, .. } => *is_bias,
        }
    }
}

/// The cloth that the strips are cut from.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SupplyCloth {
    /// A length across the whole width.
    Length {
        /// How long it is cut, along the selvage.
        length_cut_in: f64,
        /// What to buy, to the eighth of a yard.
        yards: f64,
    },
    /// Lengths for bias strips: so many of them, each so long.
    BiasLengths {
        /// How many.
        cuts: u32,
        /// How long each is cut, along the selvage.
        length_cut_in: f64,
        /// What to buy, to the eighth of a yard.
        yards: f64,
    },
    /// A square.
    Square {
        /// Its side.
        side_cut_in: f64,
        /// What the rule by area would say; it is too small.
        by_area_in: f64,
    },
    /// Leftovers.
    Leftovers(Leftover),
    /// Strips laid in the cloth that is named.
    Laid {
        /// How many lie in it.
        strips: usize,
        /// What they would give, all joined.
        has_in: f64,
    },
}

/// Strips at hand, in the order of use.
pub(super) struct Stock {
    pub(super) lengths_in: Vec<f64>,
    pub(super) join_loss_in: f64,
    /// The fewest that reach, wherever the joins fall.
    pub(super) least: usize,
    cloth: SupplyCloth,
}

impl Stock {
    /// The cloth, once it is known how many strips are used.
    pub(super) fn cloth(&self, choice: &BindingChoice, used: usize) -> Result<SupplyCloth, BindingProblem> {
        if choice.supply != Supply::Straight {
            return Ok(self.cloth);
        }
        let length_cut_in = used as f64 * choice.strip_width_in;
        Ok(SupplyCloth::Length { length_cut_in, yards: sums::yards_to_buy(length_cut_in)? })
    }
}

/// What there is to cut from for a strip `needed_in` long.
pub(super) fn stock(choice: &BindingChoice, needed_in: f64, seam_in: f64) -> Result<Stock, BindingProblem> {
    let width = choice.strip_width_in;
    let loss = choice.join.loss_in(width, seam_in);
    match &choice.supply {
        Supply::Straight => straight(choice.usable_in, needed_in, loss),
        Supply::BiasStrips => bias_strips(choice, needed_in, 2.0 * SQRT_2 * seam_in),
        Supply::BiasSquare => {
            let too_much = |_| BindingProblem::TooMuchBias { needed_in };
            let side_cut_in = sums::square_for_bias(needed_in, width, seam_in).map_err(too_much)?;
            let bias = sums::bias_from_square(side_cut_in, width, seam_in)?;
            let by_area_in = sums::square_by_area(needed_in, width)?;
            Ok(Stock {
                lengths_in: vec![bias.length_in],
                join_loss_in: loss,
                least: 1,
                cloth: SupplyCloth::Square { side_cut_in, by_area_in },
            })
        }
        Supply::Leftovers { lengths_in, .. } => {
            let reach = at_hand(choice, lengths_in, needed_in, loss)?;
            Ok(Stock {
                least: fewest(lengths_in, loss, needed_in),
                lengths_in: lengths_in.clone(),
                join_loss_in: loss,
                cloth: SupplyCloth::Leftovers(reach),
            })
        }
        Supply::Laid { lengths_in, .. } => {
            let reach = at_hand(choice, lengths_in, needed_in, loss)?;
            Ok(Stock {
                least: fewest(lengths_in, loss, needed_in),
                lengths_in: lengths_in.clone(),
                join_loss_in: loss,
                cloth: SupplyCloth::Laid { strips: lengths_in.len(), has_in: reach.has_in },
            })
        }
    }
}

/// Refuses strips at hand that don't reach; what is cut new is as long as it must be.
pub(super) fn check_at_hand(choice: &BindingChoice, needed_in: f64, loss: f64) -> Result<(), BindingProblem> {
    match &choice.supply {
        Supply::Leftovers { lengths_in, .. } | Supply::Laid { lengths_in, .. } => {
            at_hand(choice, lengths_in, needed_in, loss).map(drop)
        }
        _ => Ok(()),
    }
}

/// Whether strips at hand reach.
fn at_hand(
    choice: &BindingChoice,
    lengths_in: &[f64],
    needed_in: f64,
    loss: f64,
) -> Result<Leftover, BindingProblem> {
    for &length in lengths_in {
        let must = "at least an inch longer than its join takes, and at most 10,000 inches";
        within("length of a strip at hand", length, [loss + 1.0, 10_000.0], must)?;
    }
    let reach = leftover(lengths_in, loss, needed_in, choice.handling_in);
    if reach.is_enough {
        return Ok(reach);
    }
    Err(BindingProblem::LeftoverShort { has_in: reach.has_in, needed_in, short_in: -reach.over_in })
}

/// How many strips the trade's rule says.
pub(super) fn by_rule(choice: &BindingChoice, outline: &[Point]) -> Result<Option<usize>, BindingProblem> {
    if choice.supply != Supply::Straight {
        return Ok(None);
    }
    let strips = sums::strips_by_extra(polygon::perimeter(outline), sums::HANDLING_IN, choice.usable_in)?;
    Ok(Some(strips as usize))
}

fn straight(usable_in: f64, needed_in: f64, loss: f64) -> Result<Stock, BindingProblem> {
    let must = "an inch or more; take longer strips or join them straight";
    let reach = within("length that a joined strip gives", usable_in - loss, [1.0, f64::MAX], must)?;
    let least = ((needed_in - loss) / reach - 1e-9).ceil().max(1.0) as usize;
    // Joins that keep clear of corners may take more strips.
    let lengths_in = vec![usable_in; 2 * least + 2];
    let cloth = SupplyCloth::Length { length_cut_in: 0.0, yards: 0.0 };
    Ok(Stock { lengths_in, join_loss_in: loss, least, cloth })
}

/// The least cloth that gives enough bias strips.
fn bias_strips(choice: &BindingChoice, needed_in: f64, loss: f64) -> Result<Stock, BindingProblem> {
    let mut best: Option<(f64, u32, f64, Vec<f64>)> = None;
    let lengths =
        (1..).map(|k| f64::from(k) * EIGHTH_YARD_IN).take_while(|length| *length <= choice.usable_in);
    for length in lengths {
        let strips = sums::bias_strips(choice.usable_in, length, choice.strip_width_in)?;
        for cuts in 1..=MOST_CUTS {
            let mut all: Vec<f64> = strips.repeat(cuts as usize);
            all.sort_by(|a, b| b.total_cmp(a));
            let cloth_in = length * f64::from(cuts);
            let reaches = leftover(&all, loss, needed_in, 0.0).is_enough;
            if reaches && best.as_ref().is_none_or(|(least, ..)| cloth_in < least - 1e-9) {
                best = Some((cloth_in, cuts, length, all));
            }
        }
    }
    let (cloth_in, cuts, length_cut_in, lengths_in) =
        best.ok_or(BindingProblem::TooMuchBias { needed_in })?;
    let yards = sums::yards_to_buy(cloth_in)?;
    let least = fewest(&lengths_in, loss, needed_in);
    let cloth = SupplyCloth::BiasLengths { cuts, length_cut_in, yards };
    Ok(Stock { lengths_in, join_loss_in: loss, least, cloth })
}

/// How many of these strips, taken in order, reach.
fn fewest(lengths_in: &[f64], loss: f64, needed_in: f64) -> usize {
    let reaches = |&n: &usize| leftover(&lengths_in[..n], loss, needed_in, 0.0).is_enough;
    (1..=lengths_in.len()).find(reaches).unwrap_or(lengths_in.len())
}
