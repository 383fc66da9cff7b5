//! A cutting plan as lines for machines that cut: what is cut, where it will be sewn, and marks.

use super::{CutPiece, CuttingPlan};
use crate::WorkroomError;
use crate::asks::error::Asked;
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::dxf::{DxfLayer, DxfStroke};
use plane::{Point, Region, Vec2, polygon};
use quilt::pattern::templates;
use std::collections::BTreeMap;

/// Between cloths, in inches.
const BETWEEN_IN: f64 = 1.0;
/// Rows of cloths are no wider than this where a cloth isn't so by itself, in inches.
const ROW_IN: f64 = 60.0;

impl Workroom {
    /// The lines of a cutting plan in true size, seen from the right side: each cloth's edge and straight cuts as
    /// marks, its pieces as cuts, and the seams of patches that keep their planned place. Cloths lie in rows, in
    /// the order of the plan, lengths to buy last.
    ///
    /// # Errors
    /// A cloth that is no longer there; nothing on the table.
    pub fn cutting_strokes(&mut self, head: &Head, plan: &CuttingPlan) -> Asked<Vec<DxfStroke>> {
        let seams = self.seams_on_cloth(head)?;
        let mut rows = Rows::default();
        for cut in &plan.cloths {
            let item = self.stash()?.get(cut.cloth).ok_or(WorkroomError::NoSuchCloth(cut.cloth))?;
            let shown = item.now.as_ref().unwrap_or(&item.came);
            let rings = std::iter::once(&shown.outline.outer).chain(&shown.outline.holes);
            let mut strokes: Vec<DxfStroke> =
                rings.map(|ring| stroke(DxfLayer::Marks, ring.clone(), true)).collect();
            strokes.extend(lines(&cut.pieces, &cut.long_cuts, &seams));
            rows.add(strokes);
        }
        for buy in &plan.to_buy {
            let edge = Region::rectangle(buy.buy_in, buy.usable_in).outer;
            let mut strokes = vec![stroke(DxfLayer::Marks, edge, true)];
            strokes.extend(lines(&buy.pieces, &buy.long_cuts, &BTreeMap::new()));
            rows.add(strokes);
        }
        Ok(rows.strokes)
    }

    /// Of each planned patch the line where it is sewn, in its cloth's coordinates. A patch that was sliced has one
    /// for each of its parts.
    fn seams_on_cloth(&mut self, head: &Head) -> Asked<BTreeMap<u32, Vec<Vec<Point>>>> {
        let table = self.table(&head.quilt, &head.name)?;
        let allowance_in = self.wish(&head.quilt)?.allowance_in;
        let mut seams: BTreeMap<u32, Vec<Vec<Point>>> = BTreeMap::new();
        for top in table.tops().values() {
            for template in templates(&table, top, allowance_in).0 {
                let on_cloth = template.lies.inverse().apply_all(&template.lines.seam);
                seams.entry(template.patch.0).or_default().push(on_cloth);
            }
        }
        Ok(seams)
    }
}

fn stroke(layer: DxfLayer, points: Vec<Point>, closed: bool) -> DxfStroke {
    DxfStroke { layer, points, closed }
}

/// The lines of the pieces of one cloth.
fn lines(
    pieces: &[CutPiece],
    long_cuts: &[[Point; 2]],
    seams: &BTreeMap<u32, Vec<Vec<Point>>>,
) -> Vec<DxfStroke> {
    let mut strokes: Vec<DxfStroke> =
        long_cuts.iter().map(|cut| stroke(DxfLayer::Marks, cut.to_vec(), false)).collect();
    for piece in pieces {
        strokes.push(stroke(DxfLayer::Cut, piece.outline.clone(), true));
        let planned = piece.mark.filter(|_| piece.was_laid).and_then(|mark| seams.get(&mark.0));
        let planned = planned.into_iter().flatten();
        strokes.extend(planned.map(|seam| stroke(DxfLayer::Seam, seam.clone(), true)));
    }
    strokes
}

/// Cloths in rows, the first row highest.
#[derive(Default)]
struct Rows {
    strokes: Vec<DxfStroke>,
    left_in: f64,
    top_in: f64,
    high_in: f64,
}

impl Rows {
    fn add(&mut self, strokes: Vec<DxfStroke>) {
        let all: Vec<Point> = strokes.iter().flat_map(|stroke| stroke.points.clone()).collect();
        let Some((low, high)) = polygon::bounds(&all) else { return };
        let (wide, tall) = (high.x - low.x, high.y - low.y);
        if self.left_in > 0.0 && self.left_in + wide > ROW_IN {
            self.top_in -= self.high_in + BETWEEN_IN;
            (self.left_in, self.high_in) = (0.0, 0.0);
        }
        let by = Vec2::new(self.left_in - low.x, self.top_in - high.y);
        self.strokes.extend(strokes.into_iter().map(|stroke| DxfStroke {
            points: stroke.points.into_iter().map(|point| point + by).collect(),
            ..stroke
        }));
        self.left_in += wide + BETWEEN_IN;
        self.high_in = self.high_in.max(tall);
    }
}
