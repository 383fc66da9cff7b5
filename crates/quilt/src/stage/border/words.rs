//! A border in sentences.

use super::{BorderPlan, CutStrip, Order, Strip};
use crate::length::{LengthUnit, many};

impl BorderPlan {
    /// In which order, how long and at which angles each strip is cut, where it is joined, and whether the
    /// cloth allows it.
    #[must_use]
    pub fn sentence(&self, unit: LengthUnit) -> String {
        let order = match self.order {
            Order::ApartFirst => "sides that are no neighbours first, then those between",
            Order::InTurn => "each side in turn",
            Order::InTurnPartial => "each side in turn, the first seam in part and closed at the end",
            Order::Mitred => "mitred",
        };
        let widths = format!(
            "Sewn {} wide from the seam, trimmed to {}, it shows {} when bound.",
            sizes(&self.sewn_in, unit),
            sizes(&self.trimmed_in, unit),
            sizes(&self.bound_in, unit)
        );
        let strips = self.strip_sentences(unit).join("\n");
        let longest = unit.up(self.cut_longest_in, 8);
        format!(
            "Border: {order}. {widths} {} The longest strip is cut {longest}.\n{strips}",
            self.cloth(unit)
        )
    }

    /// Each strip in the order of cutting and sewing.
    #[must_use]
    pub fn strip_sentences(&self, unit: LengthUnit) -> Vec<String> {
        self.strips.iter().map(|strip| self.strip(strip, unit)).collect()
    }

    fn strip(&self, strip: &Strip, unit: LengthUnit) -> String {
        let cut = self.cutting.iter().flat_map(|cutting| &cutting.strips).find(|cut| cut.side == strip.side);
        let lean = |degrees: f64| (degrees - 90.0).abs() > 0.5;
        let ends = if lean(strip.start_deg) || lean(strip.end_deg) {
            format!(", its ends at {:.0} and {:.0} degrees", strip.start_deg, strip.end_deg)
        } else {
            String::new()
        };
        format!(
            "Side {}: cut {} by {}{ends}{}.",
            strip.side + 1,
            unit.up(strip.cut_bar_in, 8),
            unit.length(strip.cut_wide_in, 8),
            cut.map_or_else(String::new, |cut| joins(cut, unit))
        )
    }

    fn cloth(&self, unit: LengthUnit) -> String {
        match &self.cutting {
            None => format!("{} of cloth, joins not counted.", unit.area(self.cut_sq_in)),
            Some(cutting) if cutting.fits => format!(
                "{} of the cloth's {}, {}.",
                unit.area(cutting.cut_sq_in),
                unit.area(cutting.cloth_sq_in),
                many(cutting.joins, "join", "joins")
            ),
            Some(cutting) => format!(
                "The cloth has no room for all strips: {} short along them.",
                unit.up(cutting.missing_in, 16)
            ),
        }
    }
}

fn joins(cut: &CutStrip, unit: LengthUnit) -> String {
    if cut.joins_at_in.is_empty() {
        return String::new();
    }
    let at: Vec<String> = cut.joins_at_in.iter().map(|at| unit.length(*at, 8)).collect();
    format!(", joined at {}", at.join(" and "))
}

fn sizes(widths_in: &[f64], unit: LengthUnit) -> String {
    let same = widths_in.windows(2).all(|pair| (pair[0] - pair[1]).abs() < plane::READING);
    let shown = if same { &widths_in[..widths_in.len().min(1)] } else { widths_in };
    shown.iter().map(|width| unit.length(*width, 8)).collect::<Vec<_>>().join(", ")
}
