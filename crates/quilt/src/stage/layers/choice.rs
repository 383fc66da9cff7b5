//! What a maker chooses about the layers.

use super::problem::LayersProblem;
use super::squared::Squared;
use crate::cloth::ClothId;
use crate::length::{MeasureProblem, within};
use crate::stage::enough::SoldBy;
use serde::{Deserialize, Serialize};

/// Everything chosen about backing, batting, basting and shrinking.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct LayersChoice {
    /// How it will be quilted.
    pub guiding: Guiding,
    /// The back.
    pub backing: BackingChoice,
    /// The batting.
    pub batting: BattingChoice,
    /// How the layers are held together; pins, or the frame's own clamps, when `None`.
    pub basting: Option<Basting>,
    /// What quilting and washing take.
    pub shrink: super::Shrink,
}

/// How the quilting is guided.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Guiding {
    /// By hand, the piece moving under the needle.
    #[default]
    ByHand,
    /// On a frame, the needle moving over the piece.
    Frame(Frame),
}

/// A frame with rollers.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Frame {
    /// The longest edge that its rollers take; any when `None`.
    pub roller_in: Option<f64>,
    /// How much lies open between the rollers at a time (common practice, no source).
    pub opening_in: f64,
    /// How far apart the clamps at the sides are, at most (common practice, no source).
    pub clamp_spacing_in: f64,
}

impl Default for Frame {
    fn default() -> Self {
        Self { roller_in: None, opening_in: 18.0, clamp_spacing_in: 9.0 }
    }
}

impl Guiding {
    /// The usual overage on each side: 3 by hand (2 to 3, stcroixquilters.com), 4 on a frame
    /// (lupinelongarmquilting.com; sewberrychic.com; quiltingjules.com).
    #[must_use]
    pub const fn usual_overage_in(self) -> f64 {
        match self {
            Self::ByHand => 3.0,
            Self::Frame(_) => 4.0,
        }
    }

    pub(super) const fn frame(self) -> Option<Frame> {
        match self {
            Self::ByHand => None,
            Self::Frame(frame) => Some(frame),
        }
    }

    fn check(self) -> Result<(), MeasureProblem> {
        if let Self::Frame(frame) = self {
            let rollers = frame.roller_in.unwrap_or(100.0);
            within("length of the rollers", rollers, [1.0, 1000.0], "from 1 to 1000 inches")?;
            within("opening of the frame", frame.opening_in, [1.0, 1000.0], "from 1 to 1000 inches")?;
            within("spacing of the clamps", frame.clamp_spacing_in, [1.0, 1000.0], "from 1 to 1000 inches")?;
        }
        Ok(())
    }
}

/// Which way the seams of a back run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SeamRun {
    /// Along the length: strips lie side by side across the width.
    Along,
    /// Across the width: strips lie one above the other.
    Across,
}

/// Cloth that can be bought by the length.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bolt {
    /// What the maker calls it.
    pub name: String,
    /// Its width between the selvages.
    pub usable_in: f64,
    /// Whether its print has a top, along the length of the bolt.
    #[serde(default)]
    pub one_way: bool,
    /// For a yard or a metre, as the shop sells it; in the maker's own money.
    #[serde(default)]
    pub price: Option<f64>,
}

/// The back.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct BackingChoice {
    /// How much more than the piece on each side; the usual for the guiding when `None`.
    pub overage_in: Option<f64>,
    /// How the rectangle lies that a back for a frame, or a pieced one, is squared to.
    pub squared: Squared,
    /// Whether a print with a top must stand upright.
    pub upright: bool,
    /// The cloth to take whole; the one with the least room to spare when `None`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cloth: Option<ClothId>,
    /// Whether a cloth that holds it in one piece is taken before it is pieced.
    pub whole: bool,
    /// Widths that the shop has.
    pub bolts: Vec<Bolt>,
    /// Whether strips may be cut from the stash.
    pub from_stash: bool,
    /// The narrowest strip worth cutting from the stash.
    pub least_strip_in: f64,
    /// Which way the seams run; whichever is better when `None`.
    pub seams: Option<SeamRun>,
    /// Allowance on each side of a seam, pressed open: usually 1/2 (lupinelongarmquilting.com).
    pub seam_in: f64,
    /// How far from the middle seams should be (common practice, no source).
    pub off_centre_in: f64,
    /// Whether more cloth is bought to keep them there.
    pub off_centre_must: bool,
    /// By what step cloth is sold.
    pub sold_by: SoldBy,
}

impl Default for BackingChoice {
    fn default() -> Self {
        Self {
            overage_in: None,
            squared: Squared::Least,
            upright: true,
            cloth: None,
            whole: true,
            bolts: vec![Bolt { name: "backing".to_owned(), usable_in: 42.0, one_way: false, price: None }],
            from_stash: true,
            least_strip_in: 10.0,
            seams: None,
            seam_in: 0.5,
            off_centre_in: 6.0,
            off_centre_must: false,
            sold_by: SoldBy::EighthYard,
        }
    }
}

/// The batting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct BattingChoice {
    /// How much more than the piece on each side; as the back's when `None`.
    pub overage_in: Option<f64>,
    /// Whether batting of the stash may be used.
    pub from_stash: bool,
    /// The narrowest strip worth butting.
    pub least_strip_in: f64,
    /// Sizes that the shop has.
    pub packages: Vec<super::Package>,
    /// How far a butted join must be from a seam of the back that runs beside it (common practice,
    /// no source).
    pub apart_in: f64,
    /// Which way to take, as it stands in the plan; the first when `None`.
    pub way: Option<super::WayKind>,
}

impl Default for BattingChoice {
    fn default() -> Self {
        Self {
            overage_in: None,
            from_stash: true,
            least_strip_in: 10.0,
            packages: super::usual_packages(),
            apart_in: 4.0,
            way: None,
        }
    }
}

/// How the layers are held together.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Basting {
    /// Safety pins.
    Pins(Pins),
    /// Spray.
    Spray(Spray),
    /// Rows of thread, both ways.
    Thread(ThreadRows),
    /// A frame's rollers and clamps.
    Frame,
}

/// Pins: 3 to 4 inches apart, from the centre out (a quilting magazine's basics page, 2020; a
/// university extension leaflet CB111).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Pins {
    /// How far apart.
    pub spacing_in: f64,
    /// How far from the raw edge at least, so that none is in the way of trimming and binding
    /// (common practice, no source).
    pub edge_in: f64,
}

impl Default for Pins {
    fn default() -> Self {
        Self { spacing_in: 3.0, edge_in: 1.0 }
    }
}

/// Spray.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Spray {
    /// What a can covers, in square inches, as its label says.
    pub can_covers_in2: Option<f64>,
}

/// Rows of basting thread.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct ThreadRows {
    /// How far apart: 3 to 4 (as for pins).
    pub spacing_in: f64,
    /// How far from the raw edge at least.
    pub edge_in: f64,
    /// Thread for an inch of row, ends included (common practice, no source).
    pub thread_ratio: f64,
}

impl Default for ThreadRows {
    fn default() -> Self {
        Self { spacing_in: 4.0, edge_in: 0.5, thread_ratio: 1.25 }
    }
}

/// Least and most overage on each side.
const OVERAGE_IN: [f64; 2] = [0.0, 24.0];

impl LayersChoice {
    /// Overage of the back on each side.
    #[must_use]
    pub fn backing_overage_in(&self) -> f64 {
        self.backing.overage_in.unwrap_or_else(|| self.guiding.usual_overage_in())
    }

    /// Overage of the batting on each side.
    #[must_use]
    pub fn batting_overage_in(&self) -> f64 {
        self.batting.overage_in.unwrap_or_else(|| self.backing_overage_in())
    }

    /// # Errors
    /// The first number that makes no sense, and what it must be.
    pub fn check(&self) -> Result<(), LayersProblem> {
        self.guiding.check()?;
        let overage = "from 0 to 24 inches on each side";
        within("overage of the back", self.backing_overage_in(), OVERAGE_IN, overage)?;
        within("overage of the batting", self.batting_overage_in(), OVERAGE_IN, overage)?;
        self.backing.check()?;
        self.batting.check()?;
        self.shrink.check()?;
        Ok(())
    }
}

impl BackingChoice {
    fn check(&self) -> Result<(), LayersProblem> {
        within("seam allowance of the back", self.seam_in, [0.0, 2.0], "from 0 to 2 inches")?;
        within("narrowest strip of the back", self.least_strip_in, [1.0, 500.0], "from 1 to 500 inches")?;
        within(
            "distance of a seam from the middle",
            self.off_centre_in,
            [0.0, 500.0],
            "from 0 to 500 inches",
        )?;
        for (no, bolt) in (1..).zip(&self.bolts) {
            if !(1.0..=500.0).contains(&bolt.usable_in) {
                let (what, name, found) = ("Bolt", bolt.name.clone(), bolt.usable_in);
                return Err(LayersProblem::Width { what, no, name, found });
            }
            within("price of a bolt", bolt.price.unwrap_or(0.0), [0.0, 1e6], "from 0 to 1,000,000")?;
        }
        Ok(())
    }
}

impl BattingChoice {
    fn check(&self) -> Result<(), LayersProblem> {
        within("narrowest strip of batting", self.least_strip_in, [1.0, 500.0], "from 1 to 500 inches")?;
        within("distance of a join from a seam", self.apart_in, [0.0, 500.0], "from 0 to 500 inches")?;
        for (no, package) in (1..).zip(&self.packages) {
            for found in [package.width_in, package.length_in] {
                if !(1.0..=500.0).contains(&found) {
                    let (what, name) = ("Package", package.name.clone());
                    return Err(LayersProblem::Width { what, no, name, found });
                }
            }
        }
        Ok(())
    }
}
