//! A cloth, or a length of a bolt, with its pieces marked and numbered in the order of cutting.

use super::{CutCloth, CutPiece, ToBuy};
use crate::WorkroomError;
use crate::asks::error::Asked;
use crate::workroom::Workroom;
use colour::Lab;
use drawing::{ClothOptions, Drawing, PlannedCut};
use plane::{Point, Region, Turn, polygon};
use quilt::cloth::{Cloth, ClothId, Facts, Kind, Look};
use quilt::length::many;
use std::collections::BTreeMap;

impl Workroom {
    /// How wide and high the cloth of a cutting plan lies, in inches.
    ///
    /// # Errors
    /// A cloth that is no longer there.
    pub fn cutting_size(&mut self, cut: &CutCloth) -> Asked<[f64; 2]> {
        let item = self.stash()?.get(cut.cloth).ok_or(WorkroomError::NoSuchCloth(cut.cloth))?;
        let shown = item.now.as_ref().unwrap_or(&item.came);
        let (low, high) = polygon::bounds(&shown.outline.outer).unwrap_or_default();
        Ok([high.x - low.x, high.y - low.y])
    }

    /// A cloth of a cutting plan; for paper at so many inches for one of the cloth, where that is known.
    ///
    /// # Errors
    /// A cloth that is no longer there.
    pub fn draw_cutting(&mut self, cut: &CutCloth, flat: bool, scale: Option<f64>) -> Asked<Drawing> {
        let cloths = self.every_cloth()?;
        let item = self.stash()?.get(cut.cloth).ok_or(WorkroomError::NoSuchCloth(cut.cloth))?;
        let shown = item.now.as_ref().unwrap_or(&item.came);
        let what = ClothOptions { flat, scale, ..options(&cut.pieces, &cut.long_cuts) };
        let mut drawing = drawing::cloth_drawing(shown, &cloths, &what);
        drawing.title =
            format!("No. {}, {}: {}", cut.no, cut.name, many(cut.pieces.len(), "piece", "pieces"));
        Ok(drawing)
    }
}

/// What is used of a length off the bolt, and a little more.
pub(super) fn of_bolt(buy: &ToBuy, scale: Option<f64>) -> Drawing {
    let [[left, right], [low, high]] = buy.shown_in();
    let corners = [(left, low), (right, low), (right, high), (left, high)];
    let outer = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    let cloth = Cloth {
        id: ClothId(0),
        name: buy.name.clone(),
        kind: Kind::Length,
        outline: Region { outer, holes: Vec::new() },
        flaws: Vec::new(),
        about: false,
        look: Look::plain(Lab { l: 96.0, a: 0.0, b: 2.0 }),
        grain: Turn::NONE,
        print: None,
        place: String::new(),
        facts: Facts::default(),
        picture: None,
        parts: Vec::new(),
        parent: None,
    };
    let what = ClothOptions { flat: true, scale, ..options(&buy.pieces, &buy.long_cuts) };
    drawing::cloth_drawing(&cloth, &BTreeMap::new(), &what)
}

fn options(pieces: &[CutPiece], long_cuts: &[[Point; 2]]) -> ClothOptions {
    let cuts = pieces.iter().map(|piece| PlannedCut {
        outline: piece.outline.clone(),
        label: piece.no.to_string(),
        cut: true,
    });
    ClothOptions {
        numbers: true,
        cuts: cuts.collect(),
        long_cuts: long_cuts.to_vec(),
        ..ClothOptions::default()
    }
}
