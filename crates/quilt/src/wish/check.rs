//! The check that every way of making or changing a wish goes through, and what it says.

use super::measure::ACROSS;
use super::{MEASURES, Towards, Wish};
use crate::length::fraction;
use plane::{Point, Region, RegionProblem, polygon};
use thiserror::Error;

/// What of a wish makes no sense: where, what it is, and what it may be.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{what}")]
pub struct WishProblem {
    what: String,
    hint: String,
}

impl WishProblem {
    pub(super) fn new(what: String, hint: &str) -> Self {
        Self { what, hint: hint.to_owned() }
    }

    /// What to do about it, in a sentence.
    #[must_use]
    pub fn hint(&self) -> Option<String> {
        Some(self.hint.clone())
    }
}

impl Wish {
    /// Checks all of it, but for what only the stash knows.
    ///
    /// # Errors
    /// A number outside its limits; an outline that can't be grown to; wishes that contradict each
    /// other.
    pub fn check(&self) -> Result<(), WishProblem> {
        check_outline(&self.towards)?;
        for measure in &MEASURES {
            measure.check(measure.of(self))?;
        }
        let wrong = |what: String, hint: &str| Err(WishProblem::new(what, hint));
        let [least, most] = self.contrast;
        if least > most {
            let what = format!("the least contrast, {least}, is more than the most, {most}");
            return wrong(what, "Exchange them.");
        }
        if let [only] = self.drift[..] {
            let what = format!("a drift of one colour ({}) goes nowhere", only.lab.to_srgb());
            return wrong(what, "Name at least two, from the centre outward, or none.");
        }
        let on_the_way = self.drift.iter().all(|stop| (0.0..=1.0).contains(&stop.at));
        if !on_the_way || !self.drift.is_sorted_by(|a, b| a.at <= b.at) {
            let what = "the colours of the drift don't lie in order between the centre, 0, and the rim, 1"
                .to_owned();
            return wrong(what, "Name them from the centre outward.");
        }
        if let Some(problem) = self.motif.iter().find_map(|motif| sound(&motif.part).err()) {
            return wrong(format!("the part of the motif: {problem}"), "Name its corners again.");
        }
        if let Some(cloth) = self.spare.iter().find(|cloth| self.use_up.contains(cloth)) {
            return wrong(format!("cloth {cloth} is to be spared and used up"), "Choose one of the two.");
        }
        Ok(())
    }
}

fn sound(region: &Region) -> Result<Region, RegionProblem> {
    Region::try_new(region.outer.clone(), region.holes.clone())
}

/// Puts an outline into a wish. What a rectangle or a polygon comes to across is that of the circle
/// of the same area.
///
/// # Errors
/// Sides of a round outline outside 5 to 8; a rectangle too small or too large; a polygon that isn't
/// convex or doesn't lie about the origin.
pub fn set_outline(wish: &mut Wish, towards: Towards) -> Result<(), WishProblem> {
    check_outline(&towards)?;
    let area = match &towards {
        Towards::Rectangle { width_in, height_in } => Some(width_in * height_in),
        Towards::Polygon(points) => Some(polygon::area(points)),
        Towards::Round { .. } | Towards::Free => None,
    };
    if let Some(area) = area {
        wish.across_in = 2.0 * (area / std::f64::consts::PI).sqrt();
    }
    wish.towards = towards;
    Ok(())
}

fn check_outline(towards: &Towards) -> Result<(), WishProblem> {
    let wrong = |what: String, hint: &str| Err(WishProblem::new(what, hint));
    match towards {
        Towards::Round { sides } if !(5..=8).contains(sides) => {
            wrong(format!("a round outline has 5 to 8 sides, not {sides}"), "Choose one of those.")
        }
        Towards::Rectangle { width_in, height_in } => {
            match [width_in, height_in].into_iter().find(|size| !(ACROSS[0]..=ACROSS[1]).contains(*size)) {
                Some(size) => {
                    let [least, most] = ACROSS;
                    let what = format!("a rectangle's side can't be {} finished", fraction(*size, 16));
                    wrong(what, &format!("Choose between {least} and {most} inches."))
                }
                None => Ok(()),
            }
        }
        Towards::Polygon(points)
            if !polygon::is_convex(points, 1e-9) || !polygon::contains(points, Point::ORIGIN) =>
        {
            wrong(
                "the wished polygon must be convex and lie about 0,0".to_owned(),
                "Move or turn its corners.",
            )
        }
        _ => Ok(()),
    }
}
