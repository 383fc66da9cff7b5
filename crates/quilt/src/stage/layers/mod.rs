//! Backing, batting, basting, and what quilting and washing take.
//!
//! [`plan`] makes all of it from a [`LayersChoice`], the raw outline of the top and the cloths of the
//! stash; [`backing()`], [`batting()`] and [`basting()`] make one layer's. Outlines and places are seen from
//! the front. Sizes of layers are as cut, sizes of the piece raw.

mod backing;
mod basting;
mod batting;
mod choice;
mod layout;
mod needs;
mod packages;
mod pieced;
mod problem;
mod shrink;
mod squared;
mod stash_strips;
mod strip;
mod whole;

pub use backing::{Backing, Take, backing};
pub use basting::{BastingPlan, Loading, Row, With, basting};
pub use batting::{Batting, BattingWay, Butted, WayKind, batting};
pub use choice::{
    BackingChoice, Basting, BattingChoice, Bolt, Frame, Guiding, LayersChoice, Pins, SeamRun, Spray,
    ThreadRows,
};
pub use packages::{Package, usual_packages};
pub use pieced::{Bought, PiecedBack};
pub use problem::LayersProblem;
pub use shrink::{Shrink, Sizes};
pub use squared::{Rectangle, Squared};
pub use strip::{BackStrip, Join, Source};
pub use whole::{Holds, Whole};

use super::on_hand::OnHand;
use plane::Point;
use serde::Serialize;

/// Everything about the layers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LayersPlan {
    /// The back.
    pub backing: Backing,
    /// The batting.
    pub batting: Batting,
    /// How they are held together.
    pub basting: BastingPlan,
    /// The piece before and after quilting and washing.
    pub sizes: Sizes,
}

/// Plans the layers of a top with this raw outline, counter-clockwise, from the front.
///
/// # Errors
/// An outline or a number that is none, and what it must be; a layer that can't be had, with what is
/// missing and what to do.
pub fn plan(
    choice: &LayersChoice,
    outline: &[Point],
    cloths: &[OnHand],
) -> Result<LayersPlan, LayersProblem> {
    let backing = backing(choice, outline, cloths)?;
    let batting = batting(choice, outline, &backing, cloths)?;
    let basting = basting(choice, outline, &backing)?;
    let around = Rectangle::around(outline, choice.backing.squared)?;
    let sizes = choice.shrink.sizes(outline, [around.width_in, around.length_in]);
    Ok(LayersPlan { backing, batting, basting, sizes })
}
