//! A squaring up in sentences.

use super::{Shape, SquareUpPlan};
use crate::length::{LengthUnit, many};
use crate::log::Mark;

/// So many patches are named one by one.
const MOST_NAMED: usize = 8;

/// What is said wherever something is cut off by blade.
pub const CUTTER: &str = "Close the cutter's guard after every cut, and cut away from yourself.";

impl SquareUpPlan {
    /// What is cut, what comes out, what it costs, and whether it is true.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        let cuts = match (self.shape, self.cuts) {
            (Shape::Circle { .. }, 1) => "one round cut takes".to_owned(),
            (_, 1) => "1 cut takes".to_owned(),
            (_, n) => format!("{n} cuts take"),
        };
        let mut words =
            format!("Squaring up: {cuts} {:.1} % off. It is {}", self.lost_percent, self.size(unit));
        if self.turned_deg != 0.0 {
            words += &format!(", turned {:.0} degrees so that it stands upright", self.turned_deg.abs());
        }
        words += ".";
        if self.leans_deg != 0.0 {
            words += &format!(" It leans: to hang it upright, up_deg = {:.2}.", self.leans_deg);
        }
        words += &self.patches(unit);
        words + &self.true_or_not() + " " + CUTTER
    }

    fn size(&self, unit: LengthUnit) -> String {
        match self.shape {
            Shape::Rectangle { width_in, height_in } => {
                format!("{} by {} (raw)", unit.length(width_in, 16), unit.length(height_in, 16))
            }
            Shape::Circle { diameter_in } => format!("{} across (raw)", unit.length(diameter_in, 16)),
            Shape::Polygon { sides } => format!("a shape of {sides} sides"),
        }
    }

    fn patches(&self, unit: LengthUnit) -> String {
        let thin: Vec<Mark> = self.thin.iter().map(|thin| thin.patch).collect();
        let mut words = String::new();
        if !thin.is_empty() {
            let less = unit.length(self.thin_in, 8);
            words += &format!(" Thinner than {less} finished: {}.", named(&thin));
        }
        if !self.gone.is_empty() {
            words += &format!(" Cut away wholly: {}.", named(&self.gone));
        }
        words
    }

    fn true_or_not(&self) -> String {
        let agree = |all: bool| if all { "agree" } else { "differ" };
        match (self.trueness.diagonals_agree, self.trueness.sides_agree) {
            (Some(diagonals), Some(sides)) => {
                format!(" Diagonals {}, opposite sides {}.", agree(diagonals), agree(sides))
            }
            _ => String::new(),
        }
    }
}

fn named(patches: &[Mark]) -> String {
    let names: Vec<String> = patches.iter().take(MOST_NAMED).map(Mark::to_string).collect();
    let more = match patches.len().saturating_sub(MOST_NAMED) {
        0 => String::new(),
        n => format!(" and {n} more"),
    };
    format!("{} ({}){more}", many(patches.len(), "patch", "patches"), names.join(", "))
}
