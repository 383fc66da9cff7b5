//! The orders of a border side by side: what each takes, and whether the cloth allows it.

use super::{BorderChoice, BorderPlan, plan};
use crate::cloth::Cloth;
use crate::stage::piece::Piece;
use crate::stage::strip_problem::StripProblem;
use crate::stage::strips::Order;
use serde::Serialize;

/// One strip of a border, in the order of sewing.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct StripRow {
    /// Which side it is for, from 0.
    pub side: usize,
    /// Length in inches of the bar that it is cut from.
    pub cut_bar_in: f64,
    /// Cut width in inches.
    pub cut_wide_in: f64,
}

/// What one order comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OrderRow {
    /// Which order.
    pub order: Order,
    /// The strips in the order of sewing; none where it can't be sewn.
    pub strips: Vec<StripRow>,
    /// Length of all strips along their seam lines, in inches: that of the first three orders is the same.
    pub seam_total_in: f64,
    /// Area of all cut shapes in square inches; joins included where a cloth was named.
    pub cut_sq_in: f64,
    /// Mitres to sew.
    pub mitres: usize,
    /// Seams that are sewn in part and closed at the end.
    pub partial_seams: usize,
    /// Joins within strips; `None` without a cloth.
    pub joins: Option<usize>,
    /// Whether the cloth has room for every strip; `None` without a cloth.
    pub fits: Option<bool>,
    /// What is missing over all strips, in inches along them; 0 where it fits.
    pub short_in: f64,
    /// Why it can't be sewn so, if it can't.
    pub refused: Option<String>,
}

/// The plan in every order, to be compared; with a cloth, each says whether the cloth allows it.
#[must_use]
pub fn every_order(
    piece: &Piece,
    choice: &BorderChoice,
    cloth: Option<&Cloth>,
    allowance_in: f64,
) -> Vec<(Order, Result<BorderPlan, StripProblem>)> {
    let with = |order| plan(piece, &BorderChoice { order, ..choice.clone() }, cloth, allowance_in);
    Order::ALL.into_iter().map(|order| (order, with(order))).collect()
}

/// Every order in a row of a table.
#[must_use]
pub fn compare(
    piece: &Piece,
    choice: &BorderChoice,
    cloth: Option<&Cloth>,
    allowance_in: f64,
) -> Vec<OrderRow> {
    let plans = every_order(piece, choice, cloth, allowance_in);
    plans.into_iter().map(|(order, plan)| OrderRow::of(order, plan)).collect()
}

impl OrderRow {
    fn of(order: Order, plan: Result<BorderPlan, StripProblem>) -> Self {
        match plan {
            Ok(plan) => Self::planned(&plan),
            Err(problem) => Self {
                order,
                strips: Vec::new(),
                seam_total_in: 0.0,
                cut_sq_in: 0.0,
                mitres: 0,
                partial_seams: 0,
                joins: None,
                fits: None,
                short_in: 0.0,
                refused: Some(problem.to_string()),
            },
        }
    }

    fn planned(plan: &BorderPlan) -> Self {
        let row = |strip: &super::Strip| StripRow {
            side: strip.side,
            cut_bar_in: strip.cut_bar_in,
            cut_wide_in: strip.cut_wide_in,
        };
        let cutting = plan.cutting.as_ref();
        Self {
            order: plan.order,
            strips: plan.strips.iter().map(row).collect(),
            seam_total_in: plan.seam_total_in,
            cut_sq_in: cutting
                .filter(|cutting| cutting.fits)
                .map_or(plan.cut_sq_in, |cutting| cutting.cut_sq_in),
            mitres: plan.mitres.len(),
            partial_seams: plan.strips.iter().filter(|strip| strip.open_in.is_some()).count(),
            joins: cutting.map(|cutting| cutting.joins),
            fits: cutting.map(|cutting| cutting.fits),
            short_in: cutting.map_or(0.0, |cutting| cutting.missing_in),
            refused: None,
        }
    }
}
