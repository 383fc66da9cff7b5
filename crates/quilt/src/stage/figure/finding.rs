//! What won't turn under as drawn: which rule, where, by how much, and what would help.

use crate::length::LengthUnit;
use plane::Point;
use serde::Serialize;
use std::fmt;

/// Which rule a part of a figure breaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FigureRule {
    /// A tip so sharp that the allowance shows beside it; measured and limit are degrees.
    SharpTip,
    /// A neck narrower than two least turn-unders.
    ThinNeck,
    /// An end that stays narrower than that for longer than a tip of the least angle would.
    NarrowEnd,
    /// A shape in which the cloth turned under from both sides would meet everywhere: its widest
    /// place against two turn-unders.
    TooSmall,
    /// A hole with no room for the allowance around it.
    HoleTooSmall,
}

/// One place of a figure that won't turn under as drawn.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// Which shape.
    pub shape: String,
    /// Which rule.
    pub rule: FigureRule,
    /// Where on the piece.
    pub at: Point,
    /// What was found, finished: inches, or degrees for a sharp tip.
    pub measured: f64,
    /// What it should at least be, in the same unit.
    pub limit: f64,
    /// How far from its point the allowance shows beside a tip, or how long an end is narrow.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub for_in: Option<f64>,
    /// How many times larger the figure would have to be; none where no size helps.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub works_at_scale: Option<f64>,
    /// A narrower turn-under that would do, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub works_with_turn_under_in: Option<f64>,
    /// Whether it has become a line, by rule or at the maker's word.
    pub became_line: bool,
}

impl fmt::Display for Finding {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.sentence(LengthUnit::Inches))
    }
}

impl Finding {
    /// What was found, where, and what mends it.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        let (shape, at) = (&self.shape, self.at);
        let place = match unit {
            LengthUnit::Inches => format!("at {:.2}, {:.2}", at.x, at.y),
            LengthUnit::Centimetres => format!("at {}, {}", unit.length(at.x, 16), unit.length(at.y, 16)),
        };
        // Down to the mark below, so that what is too narrow never reads as wide enough.
        let bare = |inches: f64| unit.down(inches, 32);
        let named = |inches: f64| match unit {
            LengthUnit::Inches => format!("{} inches", bare(inches)),
            LengthUnit::Centimetres => bare(inches),
        };
        let (found, limit) = (self.measured, self.limit);
        let long = named(self.for_in.unwrap_or(0.0));
        let what = match self.rule {
            FigureRule::SharpTip => format!(
                "The tip of {shape} {place} has {:.0} degrees, and the least is {limit:.0}: the allowance would show beside it for about {long}.",
                found.floor()
            ),
            FigureRule::ThinNeck => format!(
                "The neck of {shape} {place} is {} wide, and the least is {}.",
                named(found),
                bare(limit)
            ),
            FigureRule::NarrowEnd => format!(
                "The end of {shape} {place} is about {} wide for {long}, and the least is {}.",
                named(found),
                bare(limit)
            ),
            FigureRule::TooSmall => format!(
                "{shape} {place} is {} at its widest, and turning under from both sides takes {}.",
                named(found),
                bare(limit)
            ),
            FigureRule::HoleTooSmall => format!(
                "The hole of {shape} {place} is {} at its widest, and turning under all round takes {}.",
                named(found),
                bare(limit)
            ),
        };
        what + &self.remedies(unit)
    }

    fn remedies(&self, unit: LengthUnit) -> String {
        let line = if self.became_line { " It becomes a line." } else { "" };
        let mut ways = Vec::new();
        if let Some(scale) = self.works_at_scale {
            ways.push(format!("enlarge the figure to {:.0} percent", (scale * 100.0).ceil()));
        }
        if let Some(inches) = self.works_with_turn_under_in {
            ways.push(format!("turn under {}", unit.length(inches, 32)));
        }
        match self.rule {
            FigureRule::SharpTip => ways.push("blunt the tip, or make it a line".to_owned()),
            _ if !self.became_line && self.rule != FigureRule::HoleTooSmall => {
                ways.push("make it a line".to_owned());
            }
            _ => {}
        }
        if ways.is_empty() { line.to_owned() } else { format!("{line} To mend it, {}.", ways.join(", or ")) }
    }
}

/// The widest turn-under, in thirty-seconds, that has room in a shape so wide; none below the least
/// nor as wide as the one asked for.
pub(super) fn narrower_turn_under(width_in: f64, asked_in: f64) -> Option<f64> {
    let most = (width_in / 2.0 * 32.0 + 1e-9).floor() / 32.0;
    (most >= super::TURN_UNDER_IN[0] && most < asked_in).then_some(most)
}

/// How many times larger, rounded up to the percent.
pub(super) fn larger(limit: f64, found: f64) -> Option<f64> {
    (found > 0.0).then(|| (limit / found * 100.0 - 1e-9).ceil() / 100.0)
}
