//! Hanging in sentences.

use super::SleevePlan;
use crate::length::{fraction, many, round_up};

/// More than this above a sleeve may flop forward (common practice, no source).
const FLOPS_ABOVE_IN: f64 = 2.0;

impl SleevePlan {
    /// What to do, in words.
    #[must_use]
    pub fn sentence(&self) -> String {
        if !self.has_sleeve {
            return self.by_tabs();
        }
        let lengths: Vec<String> =
            self.parts.iter().map(|part| fraction(round_up(part.cut_length_in, 8), 8)).collect();
        let above = if self.above_in > FLOPS_ABOVE_IN {
            " What stands above it may flop: stiffen it, or hang the piece by tabs."
        } else {
            ""
        };
        format!(
            "Sleeve: cut {} wide and {} long; its top lies {} below the highest point.{above}{}",
            fraction(self.cut_width_in, 8),
            lengths.join(" and "),
            fraction(self.above_in, 8),
            self.rod(&format!(", up to {} thick", fraction(down(self.rod_most_in), 8)))
        )
    }

    fn by_tabs(&self) -> String {
        let lengths: Vec<String> =
            self.tabs.iter().map(|tab| fraction(round_up(tab.cut_length_in, 8), 8)).collect();
        format!(
            "Above its centre of weight the piece has no level place for a sleeve {} deep: hang it by {} on the upper edge, cut {} wide and {} long from left to right.{}",
            fraction(self.flat_in, 8),
            many(self.tabs.len(), "tab", "tabs"),
            fraction(self.tab_cut_width_in, 8),
            lengths.join(", "),
            self.rod("")
        )
    }

    fn rod(&self, thick: &str) -> String {
        let label = if self.label.is_some() { "" } else { " The label has no room." };
        format!(" Rod: {} long{thick}.{label}", fraction(self.rod_length_in, 8))
    }
}

/// To an eighth, and never more than goes in.
fn down(inches: f64) -> f64 {
    (inches * 8.0 + 1e-9).floor() / 8.0
}
