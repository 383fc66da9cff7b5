//! The finish of the edge: a binding as a band with mitred corners, on both sides; a facing on the
//! back alone.
//!
//! A strip's print runs along it, turned by half a right angle when it is cut on the bias; which part
//! of the cloth comes where is not known before it is cut, so each side shows the middle of it.

use crate::looks::Looks;
use crate::made::{inset, made};
use crate::quilted::Side;
use crate::stages::{Edged, Made};
use crate::{Item, Placement, Stroke, Tag};
use plane::{Point, Pose, Turn, polygon};
use quilt::stage::binding::{BindingPlan, FinishPlan, Spot, SupplyCloth, Way};
use quilt::sums::Join;

/// The outline of the piece when its edge is finished; `None` for one with too few corners.
pub(crate) fn outline(plan: &FinishPlan) -> Option<Vec<Point>> {
    let outline = match plan {
        FinishPlan::Bound(plan) => plan.corners.iter().map(|corner| corner.at).collect(),
        FinishPlan::Faced(plan) => plan.finished_outline.clone(),
    };
    (outline.len() > 2).then_some(outline)
}

/// The band that is seen from one side.
pub(crate) fn edge(looks: &Looks<'_>, edged: &Edged<'_>, side: Side, flat: bool) -> Option<Item> {
    let outer = outline(edged.plan)?;
    match edged.plan {
        FinishPlan::Bound(plan) => {
            let deep_in = match side {
                Side::Front => plan.width.front_finished_in,
                Side::Back => plan.width.back_finished_in,
            };
            let band = Band { inner: inset(&outer, deep_in), outer, bias: is_bias(plan) };
            let mut items = band.strips(looks, edged.made, flat);
            items.extend(band.folds(|corner| plan.corners[corner].way != Way::Curve));
            items.extend(joins(plan, edged.join, side, &band.outer));
            items.push(Item::closed(band.inner, Stroke::Leader));
            Some(Item::group("binding", items))
        }
        FinishPlan::Faced(plan) => (side == Side::Back).then(|| {
            let band = Band { inner: inset(&outer, plan.depth_finished_in), outer, bias: false };
            let mut items = band.strips(looks, edged.made, flat);
            items.extend(band.folds(|_| true));
            items.push(Item::closed(band.inner, Stroke::Leader));
            Item::group("facing", items)
        }),
    }
}

const fn is_bias(plan: &BindingPlan) -> bool {
    matches!(plan.cloth, SupplyCloth::BiasLengths { .. } | SupplyCloth::Square { .. })
}

/// A band inside an outline.
struct Band {
    outer: Vec<Point>,
    inner: Vec<Point>,
    bias: bool,
}

impl Band {
    /// One strip a side, from mitre to mitre.
    fn strips(&self, looks: &Looks<'_>, of: Made, flat: bool) -> Vec<Item> {
        let n = self.outer.len();
        let strip = |i: usize| {
            let next = (i + 1) % n;
            let corners = [self.outer[i], self.outer[next], self.inner[next], self.inner[i]];
            let shown = along(looks, of, corners, self.bias).into_iter();
            let items = shown.flat_map(|(lies, outline)| made(looks, of, lies, outline, flat));
            Item::group("strip", items.collect()).tagged(Tag::class("strip").with("side", i + 1))
        };
        (0..n).map(strip).collect()
    }

    /// The mitres.
    fn folds(&self, is_fold: impl Fn(usize) -> bool) -> Vec<Item> {
        let ends = self.outer.iter().zip(&self.inner).enumerate();
        let folds = ends.filter(|(corner, _)| is_fold(*corner));
        folds.map(|(_, (a, b))| Item::line(vec![*a, *b], Stroke::Leader)).collect()
    }
}

/// A side in lengths no longer than its cloth, each with how the cloth lies there.
fn along(looks: &Looks<'_>, of: Made, corners: [Point; 4], bias: bool) -> Vec<(Placement, Vec<Point>)> {
    let whole = (Placement::STAY, corners.to_vec());
    let Made::Of(cloth) = of else { return vec![whole] };
    let [a, b, far, near] = corners;
    let found = looks.cloth(cloth).map(|cloth| (&cloth.outline.outer, cloth.grain));
    let Some((turn, (outline, grain))) = Turn::towards(b - a).zip(found) else { return vec![whole] };
    let (lo, hi) = polygon::bounds(outline).unwrap_or_default();
    let middle = lo.midpoint(hi);
    let long = 0.9 * (hi.x - lo.x).max(hi.y - lo.y);
    let parts = (a.distance(b) / long.max(1.0)).ceil().clamp(1.0, 200.0) as u32;
    let eighth = if bias { Turn::from_degrees(45.0) } else { Turn::NONE };
    // Strips are cut across the cloth.
    let turn = grain.left().inverse().then(eighth).then(turn);
    let at = |k: u32, from: Point, to: Point| from.lerp(to, f64::from(k) / f64::from(parts));
    (0..parts)
        .map(|k| {
            let outline = vec![at(k, a, b), at(k + 1, a, b), at(k + 1, near, far), at(k, near, far)];
            let there = polygon::centroid(&outline).unwrap_or(a);
            (Placement::moved(Pose::carrying(turn, middle, there)), outline)
        })
        .collect()
}

/// Where strips join and where the ring is closed.
fn joins(plan: &BindingPlan, join: Join, side: Side, outer: &[Point]) -> Vec<Item> {
    let width = [plan.width.front_finished_in, plan.width.back_finished_in];
    let line = |spot: &Spot| {
        let (from, to) = polygon::edges(outer).nth(spot.side.checked_sub(1)?)?;
        let along = Turn::towards(to - from)?;
        Some(Item::line(across(spot.at, along, join, side, width).to_vec(), Stroke::CutLine))
    };
    let joins = plan.joins.iter().filter_map(|join| line(&join.spot));
    let mut items: Vec<Item> = joins.map(|item| item.tagged(Tag::class("join"))).collect();
    let closing = plan.closing.as_ref().and_then(|closing| line(&closing.middle));
    items.extend(closing.map(|item| item.tagged(Tag::class("closing"))));
    items
}

/// A join across the band at a place on the edge. A diagonal one leans on over the fold: it goes on
/// along the edge as it goes on across the strip, from the front to the back.
fn across(at: Point, along: Turn, join: Join, side: Side, [front, back]: [f64; 2]) -> [Point; 2] {
    let place = |on: f64, inward: f64| at + along.vec() * on + along.left().vec() * inward;
    let lean = match join {
        Join::Straight => 0.0,
        Join::Diagonal => 1.0,
    };
    match side {
        Side::Front => [place(-lean * front, front), place(0.0, 0.0)],
        Side::Back => [place(0.0, 0.0), place(lean * back, back)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::Vec2;

    #[test]
    fn a_diagonal_join_runs_on_over_the_fold() {
        let at = Point::new(3.0, 0.0);
        let on = |side| across(at, Turn::NONE, Join::Diagonal, side, [0.25, 0.375]);
        let (front, back) = (on(Side::Front), on(Side::Back));
        assert_eq!(front[1], back[0]);
        assert_eq!(front[0], Point::new(2.75, 0.25));
        assert_eq!(back[1], Point::new(3.375, 0.375));
        let straight = across(at, Turn::NONE, Join::Straight, Side::Back, [0.25, 0.375]);
        assert_eq!(straight[1] - straight[0], Vec2::new(0.0, 0.375));
    }
}
