//! Basting in sentences (common practice, no source).

use super::{BastingPlan, Loading, With};
use crate::length::LengthUnit;

impl BastingPlan {
    /// What to do, in order.
    #[must_use]
    pub fn steps(&self, unit: LengthUnit) -> Vec<String> {
        let apart = format!("{}{}", unit.length(self.spacing_in, 8), unit.name_after(self.spacing_in));
        match &self.with {
            With::Pins(places) => vec![
                "Tape the back down, its wrong side up, smooth but not stretched; lay the batting on it, then \
                 the top."
                    .to_owned(),
                format!(
                    "Set {} safety pins {apart} apart, from the centre out, none within {} of the raw edge.",
                    places.len(),
                    unit.length(self.edge_in, 8)
                ),
            ],
            With::Spray { .. } => vec![
                "Spray one face of the batting, half of it at a time, and smooth the back onto it from the \
                 centre out."
                    .to_owned(),
                "Turn it over and do the same with the top.".to_owned(),
            ],
            With::Thread { rows, .. } => vec![
                format!("Baste {} rows {apart} apart, both ways, from the centre out.", rows.len()),
                "Begin each in the middle and sew to one end, then from the middle to the other.".to_owned(),
            ],
            With::Frame(loading) => on_frame(loading, unit),
        }
    }

    /// What to look out for.
    #[must_use]
    pub fn cautions(&self) -> Vec<String> {
        let said: &[&str] = match &self.with {
            With::Pins(places) => {
                let count = places.len();
                return vec![
                    format!("Count the pins in: {count}. Count them out again: none may be left in."),
                    "Take each pin out before it comes under the foot.".to_owned(),
                ];
            }
            With::Spray { .. } => {
                &["Spray out of doors or by an open window, away from flames and from food."]
            }
            With::Thread { .. } => {
                &["Don't quilt along a basting row: its thread is hard to draw out afterwards."]
            }
            With::Frame(_) => &[
                "No pins: the layers are held by the rollers and the clamps.",
                "Keep the clamps clear of the foot, and hair and sleeves clear of the rollers.",
            ],
        };
        said.iter().map(|words| (*words).to_owned()).collect()
    }
}

fn on_frame(loading: &Loading, unit: LengthUnit) -> Vec<String> {
    let edge = if loading.width_along_rollers { "width" } else { "length" };
    let along_in = loading.along_rollers_in;
    let along = format!("{}{}", unit.up(along_in, 8), unit.name_after(along_in));
    let seam = match loading.seams {
        0 => "",
        1 => ", its seam level with them",
        _ => ", its seams level with them",
    };
    vec![
        format!("Fix the back to the rollers by its {edge}, {along}{seam}, square and evenly taut."),
        "Float the batting and the top on it, and baste along the first edge.".to_owned(),
        format!(
            "Clamp the back at both sides, {} clamps a side, firm but not stretched; move on {}.",
            loading.clamps_a_side,
            crate::length::many(loading.advances as usize, "time", "times")
        ),
    ]
}
