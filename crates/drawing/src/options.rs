//! What a drawing of a piece shows.

use crate::{Placement, fraction};
use plane::Point;
use quilt::cloth::Picture;
use quilt::length::LengthUnit;
use quilt::log::{Mark, Name};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// What the hand is on: drawn in madder red.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Accent {
    /// A free side.
    Side(Name),
    /// A patch.
    Patch(Mark),
    /// A seam.
    Seam(Name),
}

/// A photograph of the piece, shown in the place of the cloth of the patches that are on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Photographed {
    /// The picture, flattened and in true size.
    pub picture: Arc<Picture>,
    /// For each patch that it shows, from the picture's inches to the patch's own coordinates.
    pub lies: BTreeMap<Mark, Placement>,
}

/// What a drawing of a piece shows, front or back.
#[derive(Clone, Debug, PartialEq)]
pub struct FrontOptions {
    /// Names of patches and sides.
    pub labels: bool,
    /// Lengths of the sides and of the whole, each with the word for which size it is.
    pub measures: bool,
    /// The steps that are sewn; all others are drawn as chalk. `None`: everything is sewn.
    pub sewn: Option<BTreeSet<Mark>>,
    /// Mean colours instead of pictures.
    pub flat: bool,
    /// A photograph of the piece instead of the cloth of the patches on it; on the front only.
    pub photographed: Option<Photographed>,
    /// What will show when every free edge has been sewn, instead of the raw shape.
    pub finished: bool,
    /// Trims that are due, from point to point on the piece.
    pub trims: Vec<[Point; 2]>,
    /// Patches to point out.
    pub highlights: Vec<Mark>,
    /// What the hand is on.
    pub accent: Option<Accent>,
    /// Calico under the drawing.
    pub ground: bool,
    /// Seam allowance in inches, for the finished shape.
    pub allowance_in: f64,
    /// Lengths are given to the nearest 1 over this of an inch.
    pub denominator: u32,
    /// In which unit lengths are told.
    pub unit: LengthUnit,
}

impl Default for FrontOptions {
    fn default() -> Self {
        Self {
            labels: false,
            measures: false,
            sewn: None,
            flat: false,
            photographed: None,
            finished: false,
            trims: Vec::new(),
            highlights: Vec::new(),
            accent: None,
            ground: false,
            allowance_in: 0.25,
            denominator: 8,
            unit: LengthUnit::Inches,
        }
    }
}

impl FrontOptions {
    /// A length given in inches, as it stands on the drawing.
    pub(crate) fn length(&self, inches: f64) -> String {
        match self.unit {
            LengthUnit::Inches => fraction(inches, self.denominator),
            LengthUnit::Centimetres => self.unit.length(inches, self.denominator),
        }
    }

    /// Whether the step is sewn, not only planned.
    #[must_use]
    pub fn is_sewn(&self, step: Mark) -> bool {
        self.sewn.as_ref().is_none_or(|sewn| sewn.contains(&step))
    }
}
