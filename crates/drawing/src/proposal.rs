//! What could come next: the piece as it is, and the proposed patches laid on it to look.
//!
//! A scrap laid right side up to look at it overlaps the piece by twice the allowance: its own
//! allowance beyond the seam line, and the piece's under it. Then it flips about the seam line.

use crate::front::{front_items, page};
use crate::looks::Looks;
use crate::scene::Scene;
use crate::shows::{Seen, shows};
use crate::{Drawing, DrawingProblem, FrontOptions, Item, Placement, Shape, Stroke, Tag};
use plane::{Point, Pose, Region};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::Mark;
use quilt::table::Table;
use std::collections::BTreeMap;

/// One patch of a proposal.
#[derive(Clone, Debug, PartialEq)]
pub struct ProposedPatch {
    /// The cloth it would be cut from.
    pub cloth: ClothId,
    /// From the patch's coordinates to the cloth's.
    pub at: Pose,
    /// What would be cut, in the patch's coordinates; or, of a unit, what would show of it.
    pub outline: Vec<Point>,
    /// Where it would lie once it is sewn and pressed, from the patch to the piece.
    pub pose: Pose,
}

/// A proposed piece or unit.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Proposal {
    /// Its patches, in the order they are laid.
    pub patches: Vec<ProposedPatch>,
    /// Seam lines that would be sewn: the unit's own, and the one to the piece.
    pub seams: Vec<[Point; 2]>,
    /// Trims that would be made first, on the piece.
    pub trims: Vec<[Point; 2]>,
}

/// The front of the top begun by step `top` with a proposal laid on it: its cloth, a madder edge,
/// and chalk where it would be sewn.
///
/// # Errors
/// When there is no such top on the table.
pub fn proposal_drawing(
    table: &Table,
    top: Mark,
    cloths: &BTreeMap<ClothId, Cloth>,
    what: &FrontOptions,
    proposal: &Proposal,
) -> Result<Drawing, DrawingProblem> {
    let looks = Looks::of(cloths);
    let scene = Scene::of(table, top, &looks, what)?;
    let mut items = front_items(&scene);
    // Words stay on top of what is laid.
    let words = items.pop_if(|item| item.tag.class == "words");
    items.push(laid(proposal, &looks, what.flat));
    items.extend(words);
    Ok(page(&scene, format!("A proposal for the piece begun by step {top}"), items))
}

fn laid(proposal: &Proposal, looks: &Looks<'_>, flat: bool) -> Item {
    let seen = Seen { wrong_side: false, flat };
    let mut items = Vec::new();
    let mut edges = Vec::new();
    for patch in &proposal.patches {
        let outer = patch.pose.apply_all(&patch.outline);
        edges.push(Item::closed(outer.clone(), Stroke::Mark));
        let region = Region { outer, holes: Vec::new() };
        let lies = Placement::moved(patch.at.inverse().then(patch.pose));
        let cloth = shows(looks, patch.cloth, lies, &region, seen);
        let tag = Tag::class("proposed").with("cloth", patch.cloth);
        items.push(Item::new(Shape::Group { clip: None, items: cloth }).tagged(tag));
    }
    items.extend(edges);
    let line = |stroke: Stroke| move |ends: &[Point; 2]| Item::line(ends.to_vec(), stroke);
    items.extend(proposal.seams.iter().map(line(Stroke::Chalk)));
    items.extend(proposal.trims.iter().map(line(Stroke::CutLine)));
    Item::group("proposal", items)
}
