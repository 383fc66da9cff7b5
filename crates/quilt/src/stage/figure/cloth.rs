//! Whether a layer can be cut from its cloth, and how large it could be. A cut line of many corners is
//! taken up to 1/32 larger, which is less than scissors need.

use super::FigurePatch;
use super::simple::coarse;
use crate::cloth::Cloth;
use plane::{BUDGET, Fit, FitCloth, FitPiece, Point, Pose, Turn, Turning, try_fit};
use serde::Serialize;

/// Whether the cut line has room on the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CutFrom {
    /// It has: from the piece's coordinates to the cloth's.
    Fits(Pose),
    /// It hasn't; at so many times its size it would have, where any does down to a tenth.
    TooLarge {
        /// The scale, at most 1/64 too small.
        fits_at_scale: Option<f64>,
    },
    /// It could not be settled in the steps allowed.
    Unknown,
    /// The cloth is not among those given.
    NotThere,
    /// No cloth has been named.
    NotNamed,
}

/// How the layer can be cut. A print with a top stands upright on the wall.
pub(super) fn cut_from(patch: &FigurePatch, cloths: &[Cloth]) -> CutFrom {
    let Some(id) = patch.cloth else { return CutFrom::NotNamed };
    let Some(cloth) = cloths.iter().find(|cloth| cloth.id == id) else { return CutFrom::NotThere };
    let mut usable = cloth.outline.clone();
    usable.holes.extend(cloth.flaws.iter().map(|flaw| flaw.outer.clone()));
    let (turning, base) = cloth.look.runs.turning(Turn::QUARTER);
    let Some(prepared) = FitCloth::new(&usable) else { return CutFrom::TooLarge { fits_at_scale: None } };
    let fit = |outline: &[Point]| room(outline, &prepared, turning, base);
    let outline = coarse(&patch.cut.outer);
    match fit(&outline) {
        Fit::Yes(pose) => CutFrom::Fits(pose),
        Fit::Unknown => CutFrom::Unknown,
        Fit::No => CutFrom::TooLarge { fits_at_scale: largest(&outline, fit) },
    }
}

fn room(outline: &[Point], cloth: &FitCloth, turning: Turning, base: Turn) -> Fit {
    FitPiece::new(outline, &[]).map_or(Fit::No, |piece| try_fit(&piece, cloth, turning, base, BUDGET))
}

/// The largest scale in sixty-fourths, from a tenth up, by halving. The allowance is scaled along.
fn largest(outline: &[Point], fit: impl Fn(&[Point]) -> Fit) -> Option<f64> {
    let fits = |scale: f64| {
        let smaller: Vec<Point> = outline.iter().map(|p| Point::new(p.x * scale, p.y * scale)).collect();
        matches!(fit(&smaller), Fit::Yes(_))
    };
    let (mut low, mut high) = (0.1, 1.0);
    if !fits(low) {
        return None;
    }
    while high - low > 1.0 / 64.0 {
        let middle = f64::midpoint(low, high);
        if fits(middle) { low = middle } else { high = middle }
    }
    Some(low)
}
