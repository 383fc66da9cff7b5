//! What the maker asks of a layout of centres; the log stores it.

use super::problem::CentresProblem;
use quilt::cloth::ClothId;
use quilt::length::MOST_IN;
use serde::{Deserialize, Serialize};

/// No coping strip finishes thinner than this, in inches.
pub const LEAST_COPING_IN: f64 = 0.5;

/// A block's place in a layout that the maker gives herself.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Seat {
    /// Which block, from 0, in the order they are given.
    pub block: usize,
    /// Finished left edge in inches, from the layout's left edge.
    pub x_in: f64,
    /// Finished lower edge in inches, from the layout's lower edge.
    pub y_in: f64,
    /// Finished width in inches.
    pub width_in: f64,
    /// Finished height in inches.
    pub height_in: f64,
    /// Whether the block lies a quarter turn counter-clockwise.
    #[serde(default)]
    pub turned: bool,
}

/// How blocks are laid out.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Arrangement {
    /// Blocks of any sizes, in a layout that can be sliced from edge to edge; the program finds it.
    #[default]
    Mixed,
    /// Equal places in rows; blocks smaller than the place are coped up to it. All stay upright.
    Rows {
        /// Blocks in a row.
        across: usize,
        /// How many rows.
        down: usize,
    },
    /// Every block where the maker says.
    Given(Vec<Seat>),
}

/// What the maker asks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CentresChoice {
    /// Wished finished width of the joined top, in inches.
    pub width_in: f64,
    /// Wished finished height of the joined top, in inches.
    pub height_in: f64,
    /// How blocks are laid out.
    #[serde(default)]
    pub arrangement: Arrangement,
    /// By how much the top may miss the wished size without a strip, in inches.
    #[serde(default)]
    pub tolerance_in: f64,
    /// The least finished width of a coping strip, in inches; 1/2 or more.
    #[serde(default = "least_coping_in")]
    pub least_coping_in: f64,
    /// The greatest finished width of a coping strip, in inches; any when not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub most_coping_in: Option<f64>,
    /// The most that coping may take of the top's area, 0 to 1.
    #[serde(default = "most_coping_share")]
    pub most_coping_share: f64,
    /// Whether blocks may be turned by a quarter.
    #[serde(default)]
    pub may_turn: bool,
    /// Whether seams may stop short and be closed later, where a given layout takes that.
    #[serde(default = "yes")]
    pub partial_seams: bool,
    /// Cloths for coping strips, used by turns.
    #[serde(default)]
    pub coping: Vec<ClothId>,
    /// The seed of the search.
    #[serde(default)]
    pub seed: u64,
}

const fn least_coping_in() -> f64 {
    LEAST_COPING_IN
}

const fn most_coping_share() -> f64 {
    0.25
}

const fn yes() -> bool {
    true
}

impl CentresChoice {
    /// A mixed layout of a wished size, everything else as usual.
    #[must_use]
    pub const fn new(width_in: f64, height_in: f64) -> Self {
        Self {
            width_in,
            height_in,
            arrangement: Arrangement::Mixed,
            tolerance_in: 0.0,
            least_coping_in: least_coping_in(),
            most_coping_in: None,
            most_coping_share: most_coping_share(),
            may_turn: false,
            partial_seams: true,
            coping: Vec::new(),
            seed: 0,
        }
    }

    /// Refuses numbers that make no sense.
    pub(super) fn check(&self, allowance_in: f64) -> Result<(), CentresProblem> {
        within("wished width", self.width_in, [1.0, MOST_IN])?;
        within("wished height", self.height_in, [1.0, MOST_IN])?;
        within("tolerance", self.tolerance_in, [0.0, 12.0])?;
        within("least width of a coping strip", self.least_coping_in, [LEAST_COPING_IN, 24.0])?;
        if let Some(most) = self.most_coping_in {
            within("greatest width of a coping strip", most, [self.least_coping_in, MOST_IN])?;
        }
        within("most share of coping", self.most_coping_share, [0.0, 1.0])?;
        within("seam allowance", allowance_in, [0.0, 2.0])
    }
}

/// Whether a number lies within its limits; what isn't a number doesn't.
pub(super) fn within(what: &'static str, value: f64, [least, most]: [f64; 2]) -> Result<(), CentresProblem> {
    if (least..=most).contains(&value) {
        Ok(())
    } else {
        Err(CentresProblem::OutOfRange { what, value, least, most })
    }
}
