//! What a plan file can say.

use crate::asks::{ClothName, StageAsk};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

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
    /// Extra cloth wanted round each patch when it is cut, trimmed later.
    pub rough_in: Option<f64>,
    /// Cloths that no patch is cut from, besides those that the plan's stages name.
    pub spare: Vec<ClothName>,
    /// Look harder, and longer.
    pub thorough: bool,
    /// Take the first that will do.
    pub quick: bool,
    /// True the centre up to so many sides afterwards.
    pub true_up_sides: Option<usize>,
}

impl GrowPlanned {
    /// What it says that makes sense of one centre alone: where several are joined, each has its own size.
    #[must_use]
    pub fn of_one_centre(&self) -> Option<&'static str> {
        let said = [
            ("across_in", self.across_in.is_some()),
            ("rectangle_in", self.rectangle_in.is_some()),
            ("sides", self.sides.is_some()),
            ("pieces", self.pieces.is_some()),
            ("true_up_sides", self.true_up_sides.is_some()),
        ];
        said.into_iter().find_map(|(key, is_said)| is_said.then_some(key))
    }
}

/// Several centres, joined into one top.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CentresPlanned {
    /// Finished width and height of the joined top.
    pub size_in: [f64; 2],
    /// Finished width and height of the centres, by turns.
    #[serde(default)]
    pub shapes_in: Vec<[f64; 2]>,
    /// How many are grown; as many as there are shapes when not said.
    #[serde(default)]
    pub count: Option<usize>,
    /// Quilts that are there, joined instead of growing any: `NAME`, or `NAME:HEAD`.
    #[serde(default)]
    pub of: Vec<String>,
    /// Rows of equal places, across and down, instead of a layout of mixed sizes.
    #[serde(default)]
    pub rows: Option<[usize; 2]>,
    /// Or the place of each, in their order.
    #[serde(default)]
    pub places: Vec<PlacePlanned>,
    /// By how much the top may miss its size without a strip.
    #[serde(default)]
    pub tolerance_in: f64,
    /// The least finished width of a coping strip.
    #[serde(default)]
    pub least_coping_in: Option<f64>,
    /// The greatest.
    #[serde(default)]
    pub most_coping_in: Option<f64>,
    /// The most that coping may take of the top's area, 0 to 1.
    #[serde(default)]
    pub most_coping_share: Option<f64>,
    /// Whether centres may lie a quarter turned.
    #[serde(default)]
    pub may_turn: bool,
    /// Whether seams may stop short and be closed later.
    #[serde(default = "yes")]
    pub partial_seams: bool,
    /// Cloths for coping.
    #[serde(default)]
    pub coping: Vec<ClothName>,
    /// The seed of the layout's search.
    #[serde(default)]
    pub seed: u64,
}

const fn yes() -> bool {
    true
}

/// A centre's place in a layout, finished, from its lower left corner.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlacePlanned {
    /// Its left edge.
    pub x_in: f64,
    /// Its lower edge.
    pub y_in: f64,
    /// Its width.
    pub width_in: f64,
    /// Its height.
    pub height_in: f64,
    /// Whether the centre lies a quarter turn to the left in it.
    #[serde(default)]
    pub turned: bool,
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
    /// The cloths that it names.
    #[must_use]
    pub fn cloths(&self) -> Vec<&ClothName> {
        match self {
            Self::Figure(figure) => figure.cloths.values().chain(&figure.cloth).collect(),
            Self::Ask(ask) => match &**ask {
                StageAsk::Ring { cloth, .. } => vec![cloth],
                StageAsk::Border { cloth, .. } | StageAsk::SquareUp { cloth, .. } => cloth.iter().collect(),
                StageAsk::Binding { from, .. } => from.iter().collect(),
                StageAsk::Layers(ask) => ask.backing.cloth.iter().collect(),
                StageAsk::Quilting { .. } | StageAsk::Sleeve(_) | StageAsk::Figure(_) => Vec::new(),
            },
        }
    }

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
    /// The centres that are joined, where there are several.
    pub centres: Option<CentresPlanned>,
    /// What comes after, in order.
    pub stages: Vec<PlanStage>,
}
