//! A binding or a facing in sentences.

use super::{BindingPlan, Closing, Corner, FacingPlan, FinishPlan, JoinAt, SupplyCloth};
use crate::length::{fraction, many, round_up, yards as yards_in_words};

impl FinishPlan {
    /// What to cut, how to sew it on, and how each corner is turned.
    #[must_use]
    pub fn sentence(&self) -> String {
        match self {
            Self::Bound(plan) => plan.sentence(),
            Self::Faced(plan) => plan.sentence(),
        }
    }
}

impl BindingPlan {
    fn sentence(&self) -> String {
        let cut = self.strips_cut_in.len();
        let mut lines = vec![format!(
            "Binding: {} needed. {} {} wide{}; joined they give {}.{}",
            up(self.length_needed_in),
            many(cut, "strip", "strips"),
            fraction(self.strip_width_cut_in, 16),
            self.from(),
            fraction(self.length_got_in, 8),
            self.rule()
        )];
        lines.push(format!(
            "Sewn on with {}, it shows {} on the front and {} on the back.",
            fraction(self.width.front_finished_in, 16),
            fraction(self.width.front_finished_in, 16),
            fraction(self.width.back_finished_in, 16)
        ));
        lines.push(self.closing.map_or_else(
            || "Its sides are bound apart at the sharp tips: no closing join.".to_owned(),
            |closing| closing.sentence(),
        ));
        if self.handling_short_in > 0.0 {
            lines.push(format!("For handling, {} more would be good.", up(self.handling_short_in)));
        }
        lines.extend(self.joins.iter().map(JoinAt::sentence));
        lines.extend(self.corners.iter().filter(|corner| corner.is_told()).map(Corner::sentence));
        lines.join("\n")
    }

    fn from(&self) -> String {
        match self.cloth {
            SupplyCloth::Length { length_cut_in, yards } => {
                format!(", a length of {} ({} to buy)", up(length_cut_in), yards_in_words(yards))
            }
            SupplyCloth::BiasLengths { cuts, length_cut_in, yards } => {
                let cuts = many(cuts as usize, "length", "lengths");
                format!(
                    " on the bias, from {cuts} of {} ({} to buy)",
                    up(length_cut_in),
                    yards_in_words(yards)
                )
            }
            SupplyCloth::Square { side_cut_in, by_area_in } => {
                let short = if by_area_in < side_cut_in {
                    format!("; the rule by area says {}, which is short", up(by_area_in))
                } else {
                    String::new()
                };
                format!(" of bias in one piece, from a square of {}{short}", up(side_cut_in))
            }
            SupplyCloth::Leftovers(reach) => {
                format!(" from leftovers, {} more than needed", fraction(reach.over_in.max(0.0), 8))
            }
            SupplyCloth::Laid { strips, .. } => format!(" of the {strips} that lie in the cloth"),
        }
    }

    /// The trade's rule, where it falls short.
    fn rule(&self) -> String {
        match self.strips_by_rule.filter(|rule| *rule < self.strips_least) {
            Some(rule) => {
                let strips = many(rule, "strip", "strips");
                format!(
                    " The rule of the way round and 10 says {strips}: it leaves the joins out, and is short."
                )
            }
            None => String::new(),
        }
    }
}

impl Closing {
    fn sentence(&self) -> String {
        let short = if self.is_short { ", less than wished, since no side is longer" } else { "" };
        format!(
            "Begin on side {} at {} from its start and stop {} before that{short}; cut the ends to overlap {}.",
            self.from.side,
            fraction(self.from.along_in, 8),
            fraction(self.gap_in, 8),
            fraction(self.overlap_in, 16)
        )
    }
}

impl FacingPlan {
    fn sentence(&self) -> String {
        let strips = self.strips.iter().map(|strip| {
            let joined =
                if strip.lengths > 1 { format!(", joined from {}", strip.lengths) } else { String::new() };
            format!("side {}: {}{joined}", strip.side, up(strip.cut_length_in))
        });
        format!(
            "Facing: strips {} wide, {:.0} square inches; {} deep on the back. {}.",
            fraction(self.cut_width_in, 8),
            self.area_cut_in2,
            fraction(self.depth_finished_in, 8),
            strips.collect::<Vec<_>>().join("; ")
        )
    }
}

/// Never shorter than it must be cut.
fn up(inches: f64) -> String {
    fraction(round_up(inches, 8), 8)
}
