//! Hanging in sentences.

use super::SleevePlan;
use crate::length::{LengthUnit, many};

/// More than this above a sleeve may flop forward (common practice, no source).
const FLOPS_ABOVE_IN: f64 = 2.0;

impl SleevePlan {
    /// What to do, in words.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        if !self.has_sleeve {
            return self.by_tabs(unit);
        }
        let lengths: Vec<String> = self.parts.iter().map(|part| unit.up(part.cut_length_in, 8)).collect();
        let above = if self.above_in > FLOPS_ABOVE_IN {
            " What stands above it may flop: stiffen it, or hang the piece by tabs."
        } else {
            ""
        };
        format!(
            "Sleeve: cut {} wide and {} long; its top lies {} below the highest point.{above}{}",
            unit.length(self.cut_width_in, 8),
            lengths.join(" and "),
            unit.length(self.above_in, 8),
            self.rod(&format!(", up to {} thick", unit.down(self.rod_most_in, 8)), unit)
        )
    }

    fn by_tabs(&self, unit: LengthUnit) -> String {
        let lengths: Vec<String> = self.tabs.iter().map(|tab| unit.up(tab.cut_length_in, 8)).collect();
        format!(
            "Above its centre of weight the piece has no level place for a sleeve {} deep: hang it by {} on the upper edge, cut {} wide and {} long from left to right.{}",
            unit.length(self.flat_in, 8),
            many(self.tabs.len(), "tab", "tabs"),
            unit.length(self.tab_cut_width_in, 8),
            lengths.join(", "),
            self.rod("", unit)
        )
    }

    fn rod(&self, thick: &str, unit: LengthUnit) -> String {
        let label = if self.label.is_some() { "" } else { " The label has no room." };
        format!(" Rod: {} long{thick}.{label}", unit.length(self.rod_length_in, 8))
    }
}
