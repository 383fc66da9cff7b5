//! What a maker says of the quilting.

use super::{KeepOut, QuiltingProblem};
use crate::length::within;
use colour::Lab;
use plane::fill::{
    CorneredSpiral, Corners, Crossed, Echoes, Fill, FillProblem, Ground, Lines, RoundSpiral, Sewing, Spacing,
    UnbrokenSpiral, Waves, Wobble, cornered_spiral, crossed, echoes, lines, round_spiral, unbroken_spiral,
    waves,
};
use plane::{Point, Region};
use serde::{Deserialize, Serialize};

/// Kinds of designs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DesignKind {
    /// A round spiral from a middle; past the nearest side it falls into arcs.
    RoundSpiral,
    /// A spiral of 3 to 12 straight sides.
    CorneredSpiral,
    /// One stroke that begins as a circle and ends as the outline.
    #[default]
    UnbrokenSpiral,
    /// Straight lines.
    Lines,
    /// Two sets of straight lines.
    Crossed,
    /// Rows that repeat a shape outward, or the outline inward.
    Echoes,
    /// Waves side by side.
    Waves,
}

impl DesignKind {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::RoundSpiral,
        Self::CorneredSpiral,
        Self::UnbrokenSpiral,
        Self::Lines,
        Self::Crossed,
        Self::Echoes,
        Self::Waves,
    ];

    /// What it is called.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::RoundSpiral => "round spiral",
            Self::CorneredSpiral => "spiral with corners",
            Self::UnbrokenSpiral => "unbroken spiral",
            Self::Lines => "straight lines",
            Self::Crossed => "crossed lines",
            Self::Echoes => "echoes",
            Self::Waves => "waves",
        }
    }
}

/// The machine, and how far it reaches.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Machine {
    /// On a table, the piece guided by hand; the room beside the needle doesn't matter.
    #[default]
    Hand,
    /// On a table, with so much room between needle and arm, in inches: the rest of the piece is
    /// rolled up in it.
    Arm {
        /// Room beside the needle.
        room_in: f64,
    },
    /// On a frame, with so much reach between the rollers, in inches.
    Frame {
        /// Reach in one setting of the rollers.
        reach_in: f64,
        /// Whether the piece's width lies along the rollers; as the layers are loaded when not said,
        /// and that is along them where nothing is said there either.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        width_along_rollers: Option<bool>,
    },
}

/// The colour of a thread, by name.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ThreadColour {
    /// What the spool is called.
    pub name: String,
    /// Its colour.
    pub lab: Lab,
}

/// Quilting as a maker chooses it. Inches and degrees counter-clockwise from the right; what isn't
/// said is left to the design.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct QuiltingChoice {
    /// Which design.
    pub design: DesignKind,
    /// How far apart rows are wished.
    pub spacing_in: f64,
    /// Never closer; three quarters of the spacing when not said, 1/2 for an unbroken spiral.
    pub least_in: Option<f64>,
    /// Never further apart; a quarter more than the spacing when not said, twice as much for an
    /// unbroken spiral.
    pub most_in: Option<f64>,
    /// The middle of a spiral; the outline's own when not said.
    pub centre: Option<Point>,
    /// Radius of a spiral's first turn (1/2: no tighter by hand, common practice, no source).
    pub first_radius_in: f64,
    /// Corners of a cornered spiral.
    pub sides: usize,
    /// Where a spiral or an echo begins.
    pub start_deg: Option<f64>,
    /// Whether it goes round clockwise.
    pub clockwise: bool,
    /// Direction of lines.
    pub angle_deg: f64,
    /// Direction of the second set of crossed lines.
    pub crossing_deg: f64,
    /// Order and direction of lines.
    pub sewing: Sewing,
    /// Swing of waves to either side.
    pub wave_height_in: f64,
    /// Waves from crest to crest.
    pub wave_length_in: f64,
    /// The shape that echoes repeat; the outline when none.
    pub echo_of: Option<Region>,
    /// How many echoes at most.
    pub echo_rows: Option<usize>,
    /// A hand's wobble to either side; 0 for none.
    pub wobble_in: f64,
    /// Which hand.
    pub seed: u64,
    /// How far inside the raw edge all lines stay.
    pub inside_in: f64,
    /// Shapes that are not quilted over. A figure that is sewn on before needn't be among them.
    pub keep_out: Vec<KeepOut>,
    /// The machine.
    pub machine: Machine,
    /// The widest gap that the batting allows. Packages print 1 1/2 to 10; a quilt in use wants
    /// about 3 (generations-quilt-patterns.com).
    pub most_gap_in: f64,
    /// The thread on top, and below when `below` isn't said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thread: Option<ThreadColour>,
    /// The thread below.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub below: Option<ThreadColour>,
}

impl Default for QuiltingChoice {
    fn default() -> Self {
        Self {
            design: DesignKind::default(),
            spacing_in: 0.5,
            least_in: None,
            most_in: None,
            centre: None,
            first_radius_in: 0.5,
            sides: 4,
            start_deg: None,
            clockwise: false,
            angle_deg: 0.0,
            crossing_deg: 90.0,
            sewing: Sewing::ThereAndBack,
            wave_height_in: 0.5,
            wave_length_in: 4.0,
            echo_of: None,
            echo_rows: None,
            wobble_in: 0.0,
            seed: 0,
            inside_in: 0.0,
            keep_out: Vec::new(),
            machine: Machine::Hand,
            most_gap_in: 3.0,
            thread: None,
            below: None,
        }
    }
}

impl QuiltingChoice {
    /// Whether its own numbers make sense; those of the lines are checked where they are laid.
    pub(super) fn check(&self) -> Result<(), QuiltingProblem> {
        within("distance from the edge", self.inside_in, [0.0, 100.0], "from 0 to 100 inches")?;
        within("widest gap", self.most_gap_in, [0.25, 100.0], "from 1/4 to 100 inches")?;
        match self.machine {
            Machine::Hand => {}
            Machine::Arm { room_in } => {
                within("room beside the needle", room_in, [2.0, 60.0], "from 2 to 60 inches")?;
            }
            Machine::Frame { reach_in, .. } => {
                within("reach between the rollers", reach_in, [2.0, 60.0], "from 2 to 60 inches")?;
            }
        }
        Ok(())
    }

    /// The spacing with its bounds.
    #[must_use]
    pub fn spacing(&self) -> Spacing {
        let usual = match self.design {
            DesignKind::UnbrokenSpiral => [0.5, 2.0],
            _ => [0.75, 1.25],
        };
        Spacing {
            wish_in: self.spacing_in,
            least_in: self.least_in.unwrap_or(usual[0] * self.spacing_in),
            most_in: self.most_in.unwrap_or(usual[1] * self.spacing_in),
        }
    }

    fn wobble(&self) -> Option<Wobble> {
        let wave_in = (4.0 * self.spacing_in).clamp(1.0, 8.0);
        (self.wobble_in != 0.0).then_some(Wobble { amplitude_in: self.wobble_in, wave_in, seed: self.seed })
    }

    fn lines(&self, angle_deg: f64) -> Lines {
        Lines {
            angle_deg,
            spacing: self.spacing(),
            through: self.centre,
            sewing: self.sewing,
            wobble: self.wobble(),
        }
    }

    /// Lays the design's lines.
    pub(super) fn lay(&self, ground: &Ground, centre: Point) -> Result<Fill, FillProblem> {
        let (spacing, wobble, clockwise) = (self.spacing(), self.wobble(), self.clockwise);
        let least_radius_in = self.first_radius_in;
        let start_deg = self.start_deg.unwrap_or(0.0);
        match self.design {
            DesignKind::RoundSpiral => {
                let spiral = RoundSpiral { centre, spacing, least_radius_in, start_deg, clockwise, wobble };
                round_spiral(ground, &spiral)
            }
            DesignKind::CorneredSpiral => {
                let sides = self.sides;
                let spiral =
                    CorneredSpiral { centre, sides, spacing, least_radius_in, start_deg, clockwise, wobble };
                cornered_spiral(ground, &spiral)
            }
            DesignKind::UnbrokenSpiral => {
                let start_deg = self.start_deg;
                let spiral =
                    UnbrokenSpiral { centre, spacing, least_radius_in, start_deg, clockwise, wobble };
                unbroken_spiral(ground, &spiral).map(|unbroken| unbroken.fill)
            }
            DesignKind::Lines => lines(ground, &self.lines(self.angle_deg)),
            DesignKind::Crossed => {
                let (first, second) = (self.lines(self.angle_deg), self.lines(self.crossing_deg));
                crossed(ground, &Crossed { first, second })
            }
            DesignKind::Echoes => {
                let (of, rows) = (self.echo_of.clone(), self.echo_rows);
                let corners = Corners::default();
                let first_in = None;
                echoes(ground, &Echoes { of, spacing, first_in, rows, corners, start_deg, clockwise, wobble })
            }
            DesignKind::Waves => {
                let (height_in, length_in) = (self.wave_height_in, self.wave_length_in);
                waves(ground, &Waves { lines: self.lines(self.angle_deg), height_in, length_in })
            }
        }
    }
}
