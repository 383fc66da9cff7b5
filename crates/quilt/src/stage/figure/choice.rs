//! What the maker settles about a figure; this is what the log keeps.

use super::{Figure, FigureProblem};
use plane::Point;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Turn-under, least and most, in inches (common practice, no source; 3/16 to 1/4 in the pages named
/// in the checks).
pub const TURN_UNDER_IN: [f64; 2] = [1.0 / 8.0, 1.0 / 4.0];

/// The largest figure that is believed, in inches.
pub const MOST_FIGURE_IN: f64 = 200.0;

/// A figure and everything that is asked of it. Lengths are finished unless they say otherwise.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct FigureChoice {
    /// The drawing.
    pub figure: Figure,
    /// How large.
    pub size: FigureSize,
    /// Whether it is drawn facing the other way. The drawing is mirrored, never the cloth.
    #[serde(default)]
    pub mirror: bool,
    /// Turned so far counter-clockwise about its middle.
    #[serde(default)]
    pub turn_deg: f64,
    /// Where the middle of its bounding box, before it is turned, comes to lie on the piece.
    pub at: Point,
    /// Cloth turned under, outside the drawn line.
    #[serde(default = "usual_turn_under")]
    pub turn_under_in: f64,
    /// On which side of the cloth the lines are traced.
    #[serde(default)]
    pub traced: Traced,
    /// Clear distance from the inner edge of the binding.
    #[serde(default = "usual_clear")]
    pub clear_in: f64,
    /// Width of the binding where it shows on the front.
    #[serde(default = "usual_binding")]
    pub binding_in: f64,
    /// Whether it is sewn on before the quilting, which then keeps out of it.
    #[serde(default)]
    pub order: FigureOrder,
    /// Further distance that the quilting keeps from it, when it is sewn on before.
    #[serde(default)]
    pub quilting_clear_in: f64,
    /// What is done with shapes that are too small to turn under.
    #[serde(default)]
    pub thin: Thin,
    /// What is done with the shape of this name, too small or not: the maker's word.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub answers: BTreeMap<String, Thin>,
    /// How clips are set.
    #[serde(default)]
    pub clips: ClipRule,
    /// Width of one row of a stitched line; wider lines get rows side by side (1/16: common practice,
    /// no source).
    #[serde(default = "usual_row")]
    pub row_in: f64,
}

const fn usual_row() -> f64 {
    1.0 / 16.0
}

const fn usual_turn_under() -> f64 {
    3.0 / 16.0
}

const fn usual_clear() -> f64 {
    0.5
}

const fn usual_binding() -> f64 {
    0.25
}

/// How large a figure is to be, before it is turned.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FigureSize {
    /// So wide.
    WidthIn(f64),
    /// So high.
    HeightIn(f64),
    /// As large as the drawing says.
    AsDrawn,
}

/// On which side of the cloth the drawn line is traced.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Traced {
    /// On the right side, as the figure looks.
    #[default]
    RightSide,
    /// On the wrong side: the tracing is mirrored, the figure isn't.
    WrongSide,
}

/// When the figure is sewn on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FigureOrder {
    /// On the bare top; the quilting keeps out of it.
    BeforeQuilting,
    /// On the quilted piece.
    #[default]
    AfterQuilting,
}

/// What becomes of a shape that is too narrow to be turned under.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Thin {
    /// A line of stitches along its middle.
    #[default]
    Stitched,
    /// A stem of bias cloth along its middle, so wide when finished.
    BiasStem {
        /// Finished width.
        finished_in: f64,
    },
    /// Its narrow ends become lines of stitches, and the rest is sewn.
    EndsStitched,
    /// It is sewn as it is drawn, at the maker's own risk.
    AsDrawn,
}

/// Where the allowance is clipped. Both numbers are common practice, no source; that only inside
/// curves and inside points are clipped is agreed by the pages named in the checks.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct ClipRule {
    /// Distance between clips along an inside curve.
    pub spacing_in: f64,
    /// Inside curves of a larger radius are turned without clips.
    pub most_radius_in: f64,
}

impl Default for ClipRule {
    fn default() -> Self {
        Self { spacing_in: 0.25, most_radius_in: 2.0 }
    }
}

impl FigureChoice {
    /// A choice with everything as usual.
    #[must_use]
    pub fn usual(figure: Figure, size: FigureSize, at: Point) -> Self {
        Self {
            figure,
            size,
            mirror: false,
            turn_deg: 0.0,
            at,
            turn_under_in: usual_turn_under(),
            traced: Traced::default(),
            clear_in: usual_clear(),
            binding_in: usual_binding(),
            order: FigureOrder::default(),
            quilting_clear_in: 0.0,
            thin: Thin::default(),
            answers: BTreeMap::new(),
            clips: ClipRule::default(),
            row_in: usual_row(),
        }
    }

    /// Whether every number makes sense and every answer names a shape.
    pub(super) fn check(&self) -> Result<(), FigureProblem> {
        let shapes = &self.figure.shapes;
        if shapes.is_empty() {
            return Err(FigureProblem::Nothing);
        }
        for (i, shape) in shapes.iter().enumerate() {
            if shapes.iter().take(i).any(|other| other.id == shape.id) {
                return Err(FigureProblem::SameName { id: shape.id.clone() });
            }
        }
        if let Some(id) = self.answers.keys().find(|id| shapes.iter().all(|shape| shape.id != **id)) {
            let has: Vec<&str> = shapes.iter().map(|shape| shape.id.as_str()).collect();
            return Err(FigureProblem::NoSuchShape { id: id.clone(), has: has.join(", ") });
        }
        self.check_numbers()
    }

    fn check_numbers(&self) -> Result<(), FigureProblem> {
        let [least, most] = TURN_UNDER_IN;
        within("turn-under in inches", self.turn_under_in, least, most, "from 1/8 to 1/4")?;
        within("turn in degrees", self.turn_deg, -360.0, 360.0, "from -360 to 360")?;
        let far = "within 10,000 inches of the origin";
        within("place across", self.at.x, -1e4, 1e4, far)?;
        within("place up", self.at.y, -1e4, 1e4, far)?;
        within("clear distance in inches", self.clear_in, 0.0, 100.0, "from 0 to 100")?;
        within("binding in inches", self.binding_in, 0.0, 2.0, "from 0 to 2")?;
        within("distance from the quilting in inches", self.quilting_clear_in, 0.0, 10.0, "from 0 to 10")?;
        within("clip spacing in inches", self.clips.spacing_in, 1.0 / 16.0, 2.0, "from 1/16 to 2")?;
        let radius = self.clips.most_radius_in;
        within("largest clipped radius in inches", radius, 0.0, 100.0, "from 0 to 100")?;
        for thin in self.answers.values().chain([&self.thin]) {
            if let Thin::BiasStem { finished_in } = *thin {
                within("width of a bias stem in inches", finished_in, 1.0 / 8.0, 1.0, "from 1/8 to 1")?;
            }
        }
        within("width of a stitched row in inches", self.row_in, 1.0 / 64.0, 1.0, "from 1/64 to 1")
    }
}

pub(super) fn within(
    what: &'static str,
    value: f64,
    least: f64,
    most: f64,
    wanted: &'static str,
) -> Result<(), FigureProblem> {
    if (least..=most).contains(&value) { Ok(()) } else { Err(FigureProblem::Number { what, value, wanted }) }
}
