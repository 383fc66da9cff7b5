//! A binding or a facing in sentences.

use super::{BindingPlan, Closing, FacingPlan, FinishPlan, SupplyCloth};
use crate::length::{LengthUnit, MM_PER_IN, many, yards as yards_in_words};

impl FinishPlan {
    /// What to cut, how to sew it on, and how each corner is turned.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        match self {
            Self::Bound(plan) => plan.sentence(unit),
            Self::Faced(plan) => plan.sentence(unit),
        }
    }
}

impl BindingPlan {
    fn sentence(&self, unit: LengthUnit) -> String {
        let cut = self.strips_cut_in.len();
        let mut lines = vec![format!(
            "Binding: {} needed. {} {} wide{}; joined they give {}.{}",
            unit.up(self.length_needed_in, 8),
            many(cut, "strip", "strips"),
            unit.length(self.strip_width_cut_in, 16),
            self.from(unit),
            unit.length(self.length_got_in, 8),
            self.rule(unit)
        )];
        lines.push(format!(
            "Sewn on with {}, it shows {} on the front and {} on the back.",
            unit.length(self.width.front_finished_in, 16),
            unit.length(self.width.front_finished_in, 16),
            unit.length(self.width.back_finished_in, 16)
        ));
        lines.push(self.closing.map_or_else(
            || "Its sides are bound apart at the sharp tips: no closing join.".to_owned(),
            |closing| closing.sentence(unit),
        ));
        if self.handling_short_in > 0.0 {
            lines.push(format!("For handling, {} more would be good.", unit.up(self.handling_short_in, 8)));
        }
        lines.extend(self.joins.iter().map(|join| join.sentence(unit)));
        let told = self.corners.iter().filter(|corner| corner.is_told());
        lines.extend(told.map(|corner| corner.sentence(unit)));
        lines.join("\n")
    }

    fn from(&self, unit: LengthUnit) -> String {
        match self.cloth {
            SupplyCloth::Length { length_cut_in, yards } => {
                format!(
                    ", a length of {} ({} to buy)",
                    unit.up(length_cut_in, 8),
                    bought(length_cut_in, yards, unit)
                )
            }
            SupplyCloth::BiasLengths { cuts, length_cut_in, yards } => {
                let all_in = f64::from(cuts) * length_cut_in;
                let cuts = many(cuts as usize, "length", "lengths");
                format!(
                    " on the bias, from {cuts} of {} ({} to buy)",
                    unit.up(length_cut_in, 8),
                    bought(all_in, yards, unit)
                )
            }
            SupplyCloth::Square { side_cut_in, by_area_in } => {
                let short = if by_area_in < side_cut_in {
                    format!("; the rule by area says {}, which is short", unit.up(by_area_in, 8))
                } else {
                    String::new()
                };
                format!(" of bias in one piece, from a square of {}{short}", unit.up(side_cut_in, 8))
            }
            SupplyCloth::Leftovers(reach) => {
                format!(" from leftovers, {} more than needed", unit.length(reach.over_in.max(0.0), 8))
            }
            SupplyCloth::Laid { strips, .. } => format!(" of the {strips} that lie in the cloth"),
        }
    }

    /// The trade's rule, where it falls short.
    fn rule(&self, unit: LengthUnit) -> String {
        match self.strips_by_rule.filter(|rule| *rule < self.strips_least) {
            Some(rule) => {
                let strips = many(rule, "strip", "strips");
                format!(
                    " The rule of the way round and {} says {strips}: it leaves the joins out, and is short.",
                    unit.length(10.0, 8)
                )
            }
            None => String::new(),
        }
    }
}

impl Closing {
    fn sentence(&self, unit: LengthUnit) -> String {
        let short = if self.is_short { ", less than wished, since no side is longer" } else { "" };
        format!(
            "Begin on side {} at {} from its start and stop {} before that{short}; cut the ends to overlap {}.",
            self.from.side,
            unit.length(self.from.along_in, 8),
            unit.length(self.gap_in, 8),
            unit.length(self.overlap_in, 16)
        )
    }
}

impl FacingPlan {
    fn sentence(&self, unit: LengthUnit) -> String {
        let strips = self.strips.iter().map(|strip| {
            let joined =
                if strip.lengths > 1 { format!(", joined from {}", strip.lengths) } else { String::new() };
            format!("side {}: {}{joined}", strip.side, unit.up(strip.cut_length_in, 8))
        });
        format!(
            "Facing: strips {} wide, {}; {} deep on the back. {}.",
            unit.length(self.cut_width_in, 8),
            unit.area(self.area_cut_in2),
            unit.length(self.depth_finished_in, 8),
            strips.collect::<Vec<_>>().join("; ")
        )
    }
}

/// A length off the bolt as a shop cuts it: by the eighth of a yard, or by ten centimetres.
fn bought(length_in: f64, yards: f64, unit: LengthUnit) -> String {
    match unit {
        LengthUnit::Inches => yards_in_words(yards),
        LengthUnit::Centimetres => {
            unit.up((length_in * MM_PER_IN / 100.0 - 1e-9).ceil() * 100.0 / MM_PER_IN, 8)
        }
    }
}
