//! The plan file: TOML, checked key by key.

use crate::asks::{ClothName, StageAsk};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use thiserror::Error;

/// What is wrong with a plan file.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PlanProblem {
    /// It can't be read at all, with the line.
    #[error("the plan can't be read: {0}")]
    Unreadable(String),
    /// A stage with no name or more than one.
    #[error("stage {no} of the plan names {names}: each [[stage]] has exactly one of {KINDS}")]
    OneEach {
        /// Which, from 1.
        no: usize,
        /// What it names.
        names: String,
    },
    /// A stage that says something that makes no sense.
    #[error("stage {no} of the plan, {name}: {why}")]
    Stage {
        /// Which, from 1.
        no: usize,
        /// Its name.
        name: String,
        /// What is wrong.
        why: String,
    },
    /// A word that no stage of this name knows.
    #[error("stage {no} of the plan, {name}, doesn't know `{key}`: check how it is spelled")]
    Unknown {
        /// Which, from 1.
        no: usize,
        /// Its name.
        name: String,
        /// The key.
        key: String,
    },
}

/// The stages that there are.
const KINDS: &str = "ring, border, square_up, layers, figure, quilting, binding, sleeve";

/// How a centre is grown.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct GrowPlanned {
    /// The same seed grows the same.
    pub seed: u64,
    /// Finished width across, in inches.
    pub across_in: Option<f64>,
    /// Sides of a round outline, 5 to 8.
    pub sides: Option<u8>,
    /// Finished width and height of a rectangle instead.
    pub rectangle_in: Option<[f64; 2]>,
    /// So many pieces instead of a size.
    pub pieces: Option<usize>,
    /// Colours from the centre outward, in words.
    pub drift: Vec<String>,
    /// Look harder, and longer.
    pub thorough: bool,
    /// True the centre up to so many sides afterwards.
    pub true_up_sides: Option<usize>,
}

/// A figure as a plan names it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct FigurePlanned {
    /// Its drawing, from the folder of the plan.
    pub svg: String,
    /// The cloth of each shape, by the shape's name.
    pub cloths: BTreeMap<String, ClothName>,
    /// The cloth of the others.
    pub cloth: Option<ClothName>,
    /// Finished width.
    pub width_in: Option<f64>,
    /// Finished height.
    pub height_in: Option<f64>,
    /// Where its middle lies from the middle of the piece: right and up.
    pub from_middle_in: [f64; 2],
    /// Whether it faces the other way.
    pub mirror: bool,
    /// Turned so far counter-clockwise.
    pub turn_deg: f64,
    /// Cloth turned under, 1/8 to 1/4.
    pub turn_under_in: Option<f64>,
    /// Clear distance from the binding.
    pub clear_in: Option<f64>,
    /// Traced on the wrong side of the cloth.
    pub wrong_side: bool,
    /// Sewn on before the quilting, which then goes round it.
    pub before_quilting: bool,
}

/// One stage of a plan.
#[derive(Clone, Debug, PartialEq)]
pub enum PlanStage {
    /// Any but a figure.
    Ask(Box<StageAsk>),
    /// A figure, its drawing not read yet.
    Figure(Box<FigurePlanned>),
}

impl PlanStage {
    /// What it is called in a plan.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self {
            Self::Figure(_) => "figure",
            Self::Ask(ask) => match **ask {
                StageAsk::Ring { .. } => "ring",
                StageAsk::Border { .. } => "border",
                StageAsk::SquareUp { .. } => "square_up",
                StageAsk::Layers(_) => "layers",
                StageAsk::Quilting { .. } => "quilting",
                StageAsk::Binding { .. } => "binding",
                StageAsk::Sleeve(_) => "sleeve",
                StageAsk::Figure(_) => "figure",
            },
        }
    }
}

/// A whole plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PlanFile {
    /// The quilt's name.
    pub quilt: Option<String>,
    /// How its centre is grown.
    pub grow: Option<GrowPlanned>,
    /// What comes after, in order.
    pub stages: Vec<PlanStage>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    quilt: Option<String>,
    grow: Option<GrowPlanned>,
    #[serde(default)]
    stage: Vec<toml::Table>,
}

/// Reads a plan file.
///
/// # Errors
/// What is wrong with it, and where.
pub fn read_plan(text: &str) -> Result<PlanFile, PlanProblem> {
    let raw: Raw = toml::from_str(text).map_err(|e| PlanProblem::Unreadable(e.to_string()))?;
    let stages = raw.stage.into_iter().enumerate().map(|(i, table)| stage(i + 1, table));
    Ok(PlanFile { quilt: raw.quilt, grow: raw.grow, stages: stages.collect::<Result<_, _>>()? })
}

fn stage(no: usize, table: toml::Table) -> Result<PlanStage, PlanProblem> {
    let names: Vec<String> = table.keys().cloned().collect();
    let [name] = &names[..] else {
        let names = if names.is_empty() { "nothing".to_owned() } else { names.join(" and ") };
        return Err(PlanProblem::OneEach { no, names });
    };
    let wrong =
        |why: toml::de::Error| PlanProblem::Stage { no, name: name.clone(), why: why.message().to_owned() };
    if name == "figure" {
        let figure = table.get(name).cloned().unwrap_or_else(|| toml::Value::Table(toml::Table::new()));
        return Ok(PlanStage::Figure(Box::new(figure.try_into().map_err(wrong)?)));
    }
    let ask: StageAsk = toml::Value::Table(table.clone()).try_into().map_err(wrong)?;
    // What was understood, written again, has every key that was given.
    let understood = toml::Value::try_from(&ask).map_err(|e| PlanProblem::Stage {
        no,
        name: name.clone(),
        why: e.to_string(),
    })?;
    match unknown(&toml::Value::Table(table), &understood) {
        Some(key) => {
            let key = key.split_once('.').map_or(key.as_str(), |(_, inner)| inner).to_owned();
            Err(PlanProblem::Unknown { no, name: name.clone(), key })
        }
        None => Ok(PlanStage::Ask(Box::new(ask))),
    }
}

/// The first key given that wasn't understood.
fn unknown(given: &toml::Value, understood: &toml::Value) -> Option<String> {
    let (toml::Value::Table(given), toml::Value::Table(understood)) = (given, understood) else {
        return None;
    };
    given.iter().find_map(|(key, value)| match understood.get(key) {
        None => Some(key.clone()),
        Some(other) => unknown(value, other).map(|inner| format!("{key}.{inner}")),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plan_is_read_in_its_order() {
        let plan = read_plan(
            "quilt = \"Ebb\"\n[grow]\nseed = 3\nacross_in = 12\n\
             [[stage]]\nborder = { cloth = \"ripple\", sewn_in = [2.5], trimmed_in = [2.0], order = \"mitred\" }\n\
             [[stage]]\nfigure = { svg = \"heron.svg\", height_in = 6, cloths = { body = 12 } }\n\
             [[stage]]\nquilting = { design = \"unbroken_spiral\", spacing_in = 0.5 }\n",
        )
        .expect("a plan");
        let names: Vec<&str> = plan.stages.iter().map(PlanStage::name).collect();
        assert_eq!(names, ["border", "figure", "quilting"]);
        assert_eq!(plan.quilt.as_deref(), Some("Ebb"));
    }

    #[test]
    fn what_is_wrong_is_told_with_its_stage_and_key() {
        let refused = |text: &str| read_plan(text).expect_err("refused").to_string();
        let spelled = refused("[[stage]]\nquilting = { spacng_in = 0.5 }\n");
        assert_eq!(
            spelled,
            "stage 1 of the plan, quilting, doesn't know `spacng_in`: check how it is spelled"
        );
        assert!(refused("[[stage]]\nhem = {}\n").contains("hem"));
        assert!(refused("[[stage]]\nring = { cloth = 1 }\n").contains("slice_in"));
        assert!(refused("[[stage]]\n").contains("names nothing"));
        assert!(refused("[grow]\nseeds = 1\n").contains("seeds"));
        assert!(refused("quilt = ").contains("can't be read"));
    }
}
