//! A border in sentences.

use super::{BorderPlan, CutStrip, Order, Strip};
use crate::length::{fraction, many, round_up};

impl BorderPlan {
    /// In which order, how long and at which angles each strip is cut, where it is joined, and whether the
    /// cloth allows it.
    #[must_use]
    pub fn sentence(&self) -> String {
        let order = match self.order {
            Order::ApartFirst => "sides that are no neighbours first, then those between",
            Order::InTurn => "each side in turn",
            Order::InTurnPartial => "each side in turn, the first seam in part and closed at the end",
            Order::Mitred => "mitred",
        };
        let widths = format!(
            "Sewn {} wide from the seam, trimmed to {}, it shows {} when bound.",
            sizes(&self.sewn_in),
            sizes(&self.trimmed_in),
            sizes(&self.bound_in)
        );
        let strips = self.strip_sentences().join("\n");
        let longest = fraction(round_up(self.cut_longest_in, 8), 8);
        format!("Border: {order}. {widths} {} The longest strip is cut {longest}.\n{strips}", self.cloth())
    }

    /// Each strip in the order of cutting and sewing.
    #[must_use]
    pub fn strip_sentences(&self) -> Vec<String> {
        self.strips.iter().map(|strip| self.strip(strip)).collect()
    }

    fn strip(&self, strip: &Strip) -> String {
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
            fraction(round_up(strip.cut_bar_in, 8), 8),
            fraction(strip.cut_wide_in, 8),
            cut.map_or_else(String::new, joins)
        )
    }

    fn cloth(&self) -> String {
        match &self.cutting {
            None => format!("{:.0} square inches of cloth, joins not counted.", self.cut_sq_in),
            Some(cutting) if cutting.fits => format!(
                "{:.0} of the cloth's {:.0} square inches, {}.",
                cutting.cut_sq_in,
                cutting.cloth_sq_in,
                many(cutting.joins, "join", "joins")
            ),
            Some(cutting) => format!(
                "The cloth has no room for all strips: {} short along them.",
                fraction(round_up(cutting.missing_in, 16), 16)
            ),
        }
    }
}

fn joins(cut: &CutStrip) -> String {
    if cut.joins_at_in.is_empty() {
        return String::new();
    }
    let at: Vec<String> = cut.joins_at_in.iter().map(|at| fraction(*at, 8)).collect();
    format!(", joined at {}", at.join(" and "))
}

fn sizes(widths_in: &[f64]) -> String {
    let same = widths_in.windows(2).all(|pair| (pair[0] - pair[1]).abs() < plane::READING);
    let shown = if same { &widths_in[..widths_in.len().min(1)] } else { widths_in };
    shown.iter().map(|width| fraction(*width, 8)).collect::<Vec<_>>().join(", ")
}
