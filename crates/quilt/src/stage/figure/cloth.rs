//! How layers are cut from their cloths, all at once in what is free there. A cut line of many corners is
//! taken up to 1/32 larger, which is less than scissors need.
//!
//! The largest layer is laid first, each so that what remains is of most use. Where one finds no room
//! left, it is laid before all others and the rest anew: a few orders are tried, not all of them.

use super::FigurePatch;
use super::simple::coarse;
use crate::cloth::ClothId;
use crate::stage::on_hand::OnHand;
use plane::{
    BUDGET, Fit, FitCloth, FitPiece, Point, Pose, Region, Turn, Turning, best_of, difference, polygon,
    try_fit,
};
use serde::Serialize;
use std::collections::BTreeMap;

/// So many orders are tried on one cloth.
const ORDERS: usize = 4;

/// Whether the cut line has room on the cloth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CutFrom {
    /// It has: from the piece's coordinates to the cloth's.
    Fits(Pose),
    /// It hasn't, beside the others; at so many times its size it would have, where any does down to a
    /// tenth.
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

/// How all layers can be cut. A print with a top stands upright on the wall.
pub(super) fn cut_from(patches: &[FigurePatch], cloths: &[OnHand]) -> Vec<CutFrom> {
    let mut found: Vec<CutFrom> = vec![CutFrom::NotNamed; patches.len()];
    let mut by_cloth: BTreeMap<ClothId, Vec<Layer>> = BTreeMap::new();
    for (no, patch) in patches.iter().enumerate() {
        let Some(cloth) = patch.cloth else { continue };
        by_cloth.entry(cloth).or_default().push(Layer { no, outline: coarse(&patch.cut.outer) });
    }
    for (id, mut layers) in by_cloth {
        let Some(cloth) = cloths.iter().find(|cloth| cloth.cloth == id) else {
            layers.iter().for_each(|layer| found[layer.no] = CutFrom::NotThere);
            continue;
        };
        let size = |layer: &Layer| polygon::area(&layer.outline).abs();
        layers.sort_by(|a, b| size(b).total_cmp(&size(a)));
        for (no, cut) in together(layers, cloth) {
            found[no] = cut;
        }
    }
    found
}

/// A layer to be cut: which, and its cut line on the piece.
struct Layer {
    no: usize,
    outline: Vec<Point>,
}

/// All layers of one cloth, in the order that leaves fewest without room.
fn together(mut layers: Vec<Layer>, cloth: &OnHand) -> Vec<(usize, CutFrom)> {
    let mut best: Vec<(usize, CutFrom)> = Vec::new();
    let fits =
        |cuts: &[(usize, CutFrom)]| cuts.iter().filter(|(_, cut)| matches!(cut, CutFrom::Fits(_))).count();
    for _ in 0..ORDERS {
        let cuts = one_by_one(&layers, cloth);
        let without = cuts.iter().position(|(_, cut)| !matches!(cut, CutFrom::Fits(_)));
        if best.is_empty() || fits(&cuts) > fits(&best) {
            best = cuts;
        }
        match without {
            Some(place) if place > 0 => layers[..=place].rotate_right(1),
            _ => break,
        }
    }
    best
}

/// The layers in their order, each in what those before it have left.
fn one_by_one(layers: &[Layer], cloth: &OnHand) -> Vec<(usize, CutFrom)> {
    let (turning, base) = cloth.runs.turning(Turn::QUARTER);
    let mut free = cloth.free.clone();
    layers
        .iter()
        .map(|layer| {
            let cut = in_what_is_free(&layer.outline, &free, turning, base);
            if let CutFrom::Fits(pose) = cut {
                let taken = [Region { outer: pose.apply_all(&layer.outline), holes: Vec::new() }];
                free = free.iter().flat_map(|part| difference(part, &taken)).collect();
            }
            (layer.no, cut)
        })
        .collect()
}

fn in_what_is_free(outline: &[Point], free: &[Region], turning: Turning, base: Turn) -> CutFrom {
    let parts: Vec<FitCloth> = free.iter().filter_map(FitCloth::new).collect();
    if let Some(piece) = FitPiece::new(outline, &[]) {
        if let Some(pose) = parts.iter().find_map(|part| best_of(&piece, part, turning, base)) {
            return CutFrom::Fits(pose);
        }
        let is_unknown = |part: &FitCloth| try_fit(&piece, part, turning, base, BUDGET) == Fit::Unknown;
        if parts.iter().any(is_unknown) {
            return CutFrom::Unknown;
        }
    }
    let fits = |outline: &[Point]| parts.iter().any(|part| has_room(outline, part, turning, base));
    CutFrom::TooLarge { fits_at_scale: largest(outline, fits) }
}

fn has_room(outline: &[Point], cloth: &FitCloth, turning: Turning, base: Turn) -> bool {
    let fit = FitPiece::new(outline, &[]).map(|piece| try_fit(&piece, cloth, turning, base, BUDGET));
    matches!(fit, Some(Fit::Yes(_)))
}

/// The largest scale in sixty-fourths, from a tenth up, by halving. The allowance is scaled along.
fn largest(outline: &[Point], has_room: impl Fn(&[Point]) -> bool) -> Option<f64> {
    let fits = |scale: f64| {
        let smaller: Vec<Point> = outline.iter().map(|p| Point::new(p.x * scale, p.y * scale)).collect();
        has_room(&smaller)
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
