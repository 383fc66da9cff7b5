//! The back: what is needed, which cloths hold it whole, and which is taken.

use super::choice::LayersChoice;
use super::pieced::{PiecedBack, Piecing};
use super::problem::LayersProblem;
use super::squared::{Rectangle, checked};
use super::whole::{Needed, Seen, Whole, whole};
use crate::cloth::ClothId;
use crate::stage::on_hand::OnHand;
use plane::{Point, grow_outline, polygon};
use serde::Serialize;

/// Everything about the back.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Backing {
    /// How much more than the piece on each side.
    pub overage_in: f64,
    /// What must be held, cut, seen from the front: the outline and the overage, its corners drawn out
    /// to points; on a frame the rectangle.
    pub needed: Vec<Point>,
    /// The squared rectangle around the piece with the overage, cut.
    pub rectangle: Rectangle,
    /// The cloths of the stash that hold it in one piece.
    pub whole: Whole,
    /// The ways to piece it, the best dozen, the best first: one for each set of sources and way of the
    /// seams.
    pub pieced: Vec<PiecedBack>,
    /// Which is taken.
    pub take: Take,
}

/// Which back is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Take {
    /// This cloth, whole.
    Whole(ClothId),
    /// The first pieced one.
    Pieced,
}

/// Plans the back.
///
/// # Errors
/// An outline or a number that is none; a chosen cloth that doesn't hold it; nothing that holds it and
/// no way to piece it.
pub fn backing(
    choice: &LayersChoice,
    outline: &[Point],
    cloths: &[OnHand],
) -> Result<Backing, LayersProblem> {
    choice.check()?;
    let outline = checked(outline)?;
    let overage_in = choice.backing_overage_in();
    let rectangle = Rectangle::around(&outline, choice.backing.squared)?.grown(overage_in);
    let needed = match choice.guiding.frame() {
        Some(_) => rectangle.corners(),
        None => grow_outline(&outline, overage_in),
    };
    let upright = choice.backing.upright;
    let chosen = choice.backing.cloth;
    let ask = Needed { shape: &needed, axis: rectangle.across, seen: Seen::Behind, upright, chosen };
    let whole = whole(&ask, cloths.iter().filter(|cloth| cloth.is_back_cloth()));
    let pieced = Piecing { choice, rectangle: &rectangle, cloths }.ways();
    let take = match (choice.backing.cloth, whole.holds.first(), &pieced) {
        (Some(cloth), ..) if whole.holds.iter().any(|holds| holds.cloth == cloth) => Take::Whole(cloth),
        (Some(cloth), ..) if whole.undecided.contains(&cloth) => {
            return Err(LayersProblem::Undecided { cloth, name: name_of(cloth, cloths) });
        }
        (Some(cloth), ..) => return Err(no_room((cloth, name_of(cloth, cloths)), &needed, &whole)),
        (None, Some(holds), _) if choice.backing.whole => Take::Whole(holds.cloth),
        (None, _, Ok(_)) => Take::Pieced,
        (None, _, Err(problem)) => return Err(problem.clone()),
    };
    Ok(Backing { overage_in, needed, rectangle, whole, pieced: pieced.unwrap_or_default(), take })
}

/// What a cloth is called; its number for ever where it isn't at hand.
fn name_of(cloth: ClothId, cloths: &[OnHand]) -> String {
    let named = cloths.iter().find(|other| other.cloth == cloth);
    named.map_or_else(|| cloth.to_string(), |cloth| cloth.name.clone())
}

fn no_room((cloth, name): (ClothId, String), needed: &[Point], whole: &Whole) -> LayersProblem {
    let (low, high) = polygon::bounds(needed).unwrap_or_default();
    LayersProblem::HasNoRoom {
        cloth,
        name,
        what: "the back",
        width_in: high.x - low.x,
        length_in: high.y - low.y,
        others: whole.holds.iter().map(|holds| holds.name.clone()).collect(),
    }
}

impl Backing {
    /// The seams of the back that is taken; none when it is whole.
    #[must_use]
    pub fn seams(&self) -> Option<&PiecedBack> {
        match self.take {
            Take::Whole(_) => None,
            Take::Pieced => self.pieced.first(),
        }
    }
}
