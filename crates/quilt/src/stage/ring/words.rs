//! A ring in sentences.

use super::{RingPlan, RingSide};
use crate::length::{LengthUnit, many};

impl RingPlan {
    /// How many slices, how much of the set, and how each side comes out, in the order they are sewn.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        let (whole, unpicked) = (self.slices_whole, self.slices_unpicked);
        let used = |inches: f64| {
            let left = self.set_in - inches;
            let rest = if left < -plane::READING {
                format!("{} short", unit.up(-left, 16))
            } else {
                format!("{} left", unit.length(left.max(0.0), 16))
            };
            format!("{} of the set, {rest}", unit.up(inches, 16))
        };
        let mut words = format!(
            "Ring: {} cut {} wide take {}; unpicked {} take {}. It shows {}.",
            many(whole, "slice", "slices"),
            unit.length(self.slice_in, 8),
            used(self.set_used_whole_in),
            many(unpicked, "slice", "slices"),
            used(self.set_used_unpicked_in),
            unit.length(self.shows_in, 8)
        );
        if self.is_bias {
            words += &format!(
                " Both long edges are bias; slices are joined {} off, so that they cross at the seam.",
                unit.length(self.offset_in, 16)
            );
        }
        let in_order =
            self.strips.iter().filter_map(|strip| self.sides.iter().find(|s| s.side == strip.side));
        in_order.for_each(|side| words += &format!("\n{}", side.sentence(unit)));
        words
    }
}

impl RingSide {
    /// How a side is made to come out.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        let trimmed = if self.trimmed_in < plane::READING {
            "nothing is trimmed".to_owned()
        } else {
            format!("{} is trimmed off each end", unit.length(self.trimmed_in, 8))
        };
        let pattern = match (self.goes_on, self.meets_itself) {
            (true, _) => "the pattern goes on round its end",
            (false, true) => "the pattern breaks at its end, where one cloth meets itself",
            (false, false) => "the pattern breaks at its end",
        };
        let corner = match self.runs_over {
            Some(side) if side == self.side => "it runs over the corner there".to_owned(),
            Some(side) => format!("side {} runs over the corner there", side + 1),
            None => "the corner is mitred".to_owned(),
        };
        let runs = many(self.runs.len(), "run", "runs");
        format!("Side {}: {runs} of stripes, {trimmed}; {pattern}; {corner}.", self.side + 1)
    }
}
