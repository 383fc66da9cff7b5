//! Strips side by side, of a back or of batting.

use super::choice::SeamRun;
use super::layout::{self, LayoutAsk, MOST_STRIPS};
use super::problem::LayersProblem;
use super::squared::Rectangle;
use crate::cloth::ClothId;
use plane::Point;
use serde::Serialize;

/// One strip of a layer.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BackStrip {
    /// What it is cut from.
    pub from: Source,
    /// How wide it is cut.
    pub cut_width_in: f64,
    /// How long it is cut.
    pub cut_length_in: f64,
    /// Whether it is one of two parts of a strip cut in two lengthwise.
    pub part: bool,
}

/// What a strip is cut from.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Source {
    /// Off a bolt, by its place in the choice.
    Bolt(usize),
    /// A package of batting, by its place in the choice.
    Package(usize),
    /// A cloth of the stash.
    Cloth {
        /// Which.
        cloth: ClothId,
        /// What its maker calls it.
        name: String,
        /// The strip at its widest, where it lies on the cloth.
        lies: Vec<Point>,
    },
}

/// Where two strips join.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Join {
    /// From the rectangle's left raw edge, or from its lower one.
    pub at_in: f64,
    /// One end, seen from the front, where the piece lies.
    pub from: Point,
    /// The other.
    pub to: Point,
}

/// Why strips don't make a layer.
pub(super) fn too_narrow(layer: &'static str, ask: &LayoutAsk<'_>) -> LayersProblem {
    let (need_in, most) = (ask.need_in, MOST_STRIPS);
    if ask.offers.iter().all(|offer| offer.most == 0) {
        return LayersProblem::NothingToCutFrom { layer };
    }
    let has_in = layout::reach(ask);
    if has_in >= need_in {
        return LayersProblem::CantKeepOff { layer, apart_in: ask.apart_in };
    }
    match layout::least_strips(ask) {
        Some((widest_in, strips)) if strips > most => {
            let takes_in = ((need_in - 2.0 * ask.seam_in) / f64::from(most) + 2.0 * ask.seam_in).ceil();
            LayersProblem::TooNarrow { layer, need_in, widest_in, strips, most, takes_in }
        }
        _ => LayersProblem::NotWideEnough { layer, need_in, has_in },
    }
}

/// A join across a rectangle, where the piece lies.
pub(super) fn join(rectangle: &Rectangle, seams: SeamRun, at_in: f64) -> Join {
    let (from, to) = match seams {
        SeamRun::Along => (rectangle.point(at_in, 0.0), rectangle.point(at_in, rectangle.length_in)),
        SeamRun::Across => (rectangle.point(0.0, at_in), rectangle.point(rectangle.width_in, at_in)),
    };
    Join { at_in, from, to }
}
