//! The back of the layers: a whole cloth as it lies, or the strips of a pieced one with their seams.
//!
//! Everything is still seen through the front, so a back's cloth lies mirrored; the drawing of the
//! back is turned over as a whole.

use crate::ink::CALICO;
use crate::looks::Looks;
use crate::made::{made, plain};
use crate::shows::{Seen, shows};
use crate::stages::{Backed, Made};
use crate::{Item, Placement, Shape, Stroke, Tag};
use plane::{Point, Pose, Region, Turn, polygon};
use quilt::stage::layers::{BackStrip, Backing, Holds, PiecedBack, SeamRun, Source, Take};

/// What shows of the back within `outline`.
pub(crate) fn backing(looks: &Looks<'_>, backed: &Backed<'_>, outline: &[Point], flat: bool) -> Item {
    let plan = backed.plan;
    let clip = Region { outer: outline.to_vec(), holes: Vec::new() };
    let items = match plan.take {
        Take::Whole(cloth) => {
            let holds = plan.whole.holds.iter().find(|holds| holds.cloth == cloth);
            let lies = holds.and_then(|holds| lies_whole(plan, holds));
            let seen = Seen { wrong_side: false, flat: flat || lies.is_none() };
            shows(looks, cloth, lies.unwrap_or(Placement::STAY), &clip, seen)
        }
        Take::Pieced => plan.pieced.first().map(|back| strips(looks, backed, back, flat)).unwrap_or_default(),
    };
    Item::new(Shape::Group { clip: Some(clip), items }).tagged(Tag::class("backing"))
}

/// From the cloth to the piece. What is cut is the needed outline, mirrored, and moved onto the
/// cloth; so its longest edge says where it lies.
fn lies_whole(plan: &Backing, holds: &Holds) -> Option<Placement> {
    let behind: Vec<Point> = plan.needed.iter().rev().map(|p| Placement::TURN_OVER.apply(*p)).collect();
    if behind.len() != holds.cut.len() {
        return None;
    }
    let pairs = polygon::edges(&behind).zip(polygon::edges(&holds.cut));
    let longest = pairs.max_by(|(a, _), (b, _)| a.0.distance(a.1).total_cmp(&b.0.distance(b.1)))?;
    let ((from, to), (cloth_from, cloth_to)) = longest;
    let turn = Turn::towards(to - from)?.then(Turn::towards(cloth_to - cloth_from)?.inverse());
    Some(Placement::moved(Pose::carrying(turn, cloth_from, from)).then(Placement::TURN_OVER))
}

fn strips(looks: &Looks<'_>, backed: &Backed<'_>, back: &PiecedBack, flat: bool) -> Vec<Item> {
    let rectangle = &backed.plan.rectangle;
    let end = match back.seams {
        SeamRun::Along => rectangle.width_in,
        SeamRun::Across => rectangle.length_in,
    };
    let mut items = Vec::new();
    let mut from = 0.0;
    let ends = back.joins.iter().map(|join| join.at_in).chain([end]);
    for (strip, to) in back.strips.iter().zip(ends) {
        let corners = match back.seams {
            SeamRun::Along => {
                [(from, 0.0), (to, 0.0), (to, rectangle.length_in), (from, rectangle.length_in)]
            }
            SeamRun::Across => [(0.0, from), (rectangle.width_in, from), (rectangle.width_in, to), (0.0, to)],
        };
        let outline = corners.map(|(across, up)| rectangle.point(across, up)).to_vec();
        let shown = strip_shows(looks, backed, strip, outline, flat);
        items.push(Item::group("back-strip", shown));
        from = to;
    }
    let seams = back.joins.iter().map(|join| Item::line(vec![join.from, join.to], Stroke::Leader));
    items.push(Item::group("back-seams", seams.collect()));
    items
}

fn strip_shows(
    looks: &Looks<'_>,
    backed: &Backed<'_>,
    strip: &BackStrip,
    outline: Vec<Point>,
    flat: bool,
) -> Vec<Item> {
    match &strip.from {
        Source::Bolt(bolt) => vec![plain(outline, backed.bolts.get(*bolt).copied().unwrap_or(CALICO))],
        Source::Package(_) => vec![plain(outline, CALICO)],
        Source::Cloth { cloth, lies, .. } => {
            let placed = lies_strip(lies, &outline, backed.plan.rectangle.across);
            made(
                looks,
                Made::Of(*cloth),
                placed.unwrap_or(Placement::STAY),
                outline,
                flat || placed.is_none(),
            )
        }
    }
}

/// From the cloth to the piece: the middle of the strip onto the middle of where it shows.
fn lies_strip(lies: &[Point], outline: &[Point], across: Turn) -> Option<Placement> {
    let [from, to, ..] = lies else { return None };
    let turn = Turn::towards(*to - *from)?.inverse();
    let level = Placement::moved(Pose::carrying(turn, polygon::centroid(lies)?, Point::ORIGIN));
    let there = polygon::centroid(outline)?.to_vec2();
    Some(level.then(Placement::TURN_OVER).then(Placement::moved(Pose::new(across, there))))
}
