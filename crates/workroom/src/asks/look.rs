//! The eye check and what else there is to see at a head or a step.

use super::error::{AskError, Asked};
use crate::workroom::Workroom;
use plane::Point;
use quilt::Problem;
use quilt::cloth::{Cloth, ClothId};
use quilt::eye::{Bias, EyeCheck, Lost, Shapes, bias_on_outer_edges, eye_check, lost_in_seams, total_cost};
use quilt::layers::{ThickPoint, thickest};
use quilt::limits;
use quilt::log::{Bound, Mark, Name, StepId};
use quilt::sums::rounds_to_go;
use quilt::table::{Table, Top, replay};
use quilt::wish::Wish;
use std::collections::BTreeMap;

/// Something that is due before or after the next seam.
#[derive(Clone, Debug, PartialEq)]
pub enum Due {
    /// A trim along a side: something sticks out beyond it.
    Trim(Name),
    /// A seam that was left open.
    Close(Name),
}

/// What an eye check tells.
#[derive(Clone, Debug)]
pub struct EyeReport {
    /// Its rows.
    pub check: EyeCheck,
    /// Total cost; 0 would be perfect.
    pub cost: f64,
    /// Points with many layers.
    pub thick: Vec<ThickPoint>,
    /// Bias on outer edges.
    pub bias: Bias,
    /// What is lost in seams and trims.
    pub lost: Option<Lost>,
    /// Limits that are broken.
    pub problems: Vec<Problem>,
    /// Finished width across, as the circle of the same area, in inches.
    pub across_in: f64,
    /// Cut depths of the rounds still to go to the wished size, in inches.
    pub rounds: Vec<f64>,
    /// What is due.
    pub due: Vec<Due>,
}

impl Workroom {
    /// The table at a step.
    ///
    /// # Errors
    /// No such step; a log that can't be replayed that far.
    pub fn table_at(&self, tip: StepId) -> Asked<Table> {
        let entries: Vec<_> = self.path(tip)?.into_iter().map(|step| step.entry).collect();
        let (table, halt) = replay(&entries);
        match halt {
            Some(halt) => Err(AskError::refused(halt.problem, None, 0.25)),
            None => Ok(table),
        }
    }

    /// The eye check of the piece at a step, by a quilt's wish.
    ///
    /// # Errors
    /// No such step or quilt; nothing on the table.
    pub fn eye(&mut self, quilt: &str, tip: StepId) -> Asked<EyeReport> {
        let wish = self.wish(quilt)?;
        let cloths = self.every_cloth()?;
        let table = self.table_at(tip)?;
        let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        Ok(report(&table, mark, top, &cloths, &wish))
    }
}

fn report(table: &Table, mark: Mark, top: &Top, cloths: &BTreeMap<ClothId, Cloth>, wish: &Wish) -> EyeReport {
    let cloth_of = |patch: Mark| table.patches().get(&patch).and_then(|patch| cloths.get(&patch.cloth));
    let shapes = Shapes::of(top, wish.allowance_in, &|patch| {
        cloth_of(patch).map(|cloth| (cloth.look.mean(), cloth.print, cloth.id))
    });
    let check = eye_check(&shapes, wish);
    let grain = |patch: Mark| {
        let at = table.patches().get(&patch)?.at;
        // The grain of the cloth, as it lies in the patch.
        Some(cloth_of(patch)?.grain.then(at.turn.inverse()))
    };
    let across_in = 2.0 * (plane::polygon::area(&shapes.outline) / std::f64::consts::PI).sqrt();
    let s = wish.allowance_in;
    // Pieces of the outer half of the wished sizes, cut: two allowances more than finished.
    let depths = [wish.piece_in[1] * 0.4 + 2.0 * s, wish.piece_in[1] + 2.0 * s];
    let raw_across_in = across_in + 2.0 * s;
    let rounds =
        rounds_to_go(raw_across_in, wish.across_in, depths, s).map(|r| r.cut_depths_in).unwrap_or_default();
    EyeReport {
        cost: total_cost(&check),
        check,
        thick: thickest(top, wish.limits.thick_layers),
        bias: bias_on_outer_edges(top, &grain),
        lost: lost_in_seams(table, mark, wish.allowance_in),
        problems: limits::audit(top, wish.allowance_in, &wish.limits),
        across_in,
        rounds,
        due: due(top),
    }
}

/// Trims that are due and seams left open. A trim is due on a side beyond whose line the piece
/// sticks out: the walk round the outline turns right there.
pub(super) fn due(top: &Top) -> Vec<Due> {
    let sides = top.sides();
    let n = sides.len();
    let mut found = Vec::new();
    for (name, seam) in top.seams() {
        if seam.open.is_some() {
            found.push(Due::Close(*name));
        }
    }
    for (i, side) in sides.iter().enumerate() {
        let Bound::Raw(name) = side.bound else { continue };
        let (before, after) = (&sides[(i + n - 1) % n], &sides[(i + 1) % n]);
        let turn = |a: (Point, Point), b: (Point, Point)| (a.1 - a.0).cross(b.1 - b.0);
        let own = (side.from, side.to);
        if turn((before.from, before.to), own) < 0.0 || turn(own, (after.from, after.to)) < 0.0 {
            found.push(Due::Trim(name));
        }
    }
    found
}
