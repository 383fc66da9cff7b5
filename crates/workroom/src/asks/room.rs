//! Where a cloth has room for a shape: clear of its flaws and of what the plan claims, the print lying
//! as it must, roughly cut where there is cloth for that.

use super::error::{AskError, Asked};
use super::heap::Claimed;
use crate::WorkroomError;
use crate::quilts::At;
use crate::stash::{Item, StripAsk};
use crate::workroom::Workroom;
use plane::{Fit, FitAsk, Point, Pose, Region, Turn, Turning};
use quilt::cloth::{Cloth, ClothId};
use quilt::length::fraction;
use quilt::log::{Mark, Step};
use quilt::marks::{Ruler, ruler};

/// A shape that is to be cut by hand.
#[derive(Clone, Copy, Debug)]
pub(super) struct Shape<'a> {
    /// What is cut, in its own coordinates.
    pub(super) cut: &'a [Point],
    /// How it will be turned when it lies on the piece.
    pub(super) lies: Turn,
    /// The step of a patch that it takes the place of.
    pub(super) instead_of: Option<Mark>,
}

/// How a shape is to fit a cloth.
#[derive(Clone, Copy, Debug)]
pub struct Fitting<'a> {
    /// The shape's corners, in inches; its y points up on the wall.
    pub piece: &'a [Point],
    /// How it may be turned; as the print demands when `None`.
    pub turning: Option<Turning>,
    /// Extra cloth wanted all round, in inches.
    pub rough_in: f64,
}

impl Workroom {
    /// Where a shape fits a cloth as it is now, whatever plans claim of it, and how to cut it with
    /// marks and a ruler.
    ///
    /// # Errors
    /// No such cloth, or nothing of it is left.
    pub fn fit(&mut self, cloth: ClothId, ask: &Fitting<'_>) -> Asked<(Fit, Option<Ruler>)> {
        let item = self.stash()?.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
        let now = item.now.as_ref().ok_or(WorkroomError::NothingLeft { no: item.no })?;
        let (turning, base) = match ask.turning {
            Some(turning) => (turning, Turn::NONE),
            None => now.look.runs.turning(Turn::QUARTER),
        };
        let margin = vec![ask.rough_in; ask.piece.len()];
        let free = Claimed::nothing().free(item);
        let fit =
            place(&free, &FitAsk { piece: ask.piece, cloth: &now.outline, turning, base, margin: &margin });
        Ok((fit, fit.pose().map(|pose| ruler(&pose.apply_all(ask.piece), &now.outline))))
    }

    /// Cuts strips where their cloths have room and sews them side by side, in order: for each its
    /// cloth and its cut width. Each seam eats `seam_in` of each side.
    ///
    /// # Errors
    /// A cloth without room for its strip; strips that can't be sewn.
    pub fn sew_strips(&mut self, strips: &[(ClothId, f64)], length_in: f64, seam_in: f64) -> Asked<ClothId> {
        let stash = self.stash()?;
        let mut taken = Claimed::nothing();
        let mut asks = Vec::with_capacity(strips.len());
        for &(cloth, width_in) in strips {
            let item = stash.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
            let strip = Region::rectangle(length_in, width_in).outer;
            let free = taken.free(item);
            let ask = FitAsk {
                piece: &strip,
                cloth: &item.came.outline,
                turning: Turning::Any,
                base: Turn::NONE,
                margin: &[],
            };
            let at = place(&free, &ask).pose().ok_or_else(|| no_room(item.no, &item.came, &strip))?;
            taken.add(item.root, Region { outer: at.apply_all(&strip), holes: Vec::new() });
            asks.push(StripAsk { cloth, width_in, at });
        }
        Ok(self.sew_strip_set(&asks, length_in, seam_in)?)
    }

    /// Where a shape can be cut from a cloth for a head: `None` when there is no room.
    pub(super) fn place_for(&mut self, at: &At, cloth: ClothId, shape: &Shape<'_>) -> Asked<Option<Pose>> {
        let wish = self.wish(&at.quilt)?;
        let log = self.log(&at.quilt, &at.head)?;
        let stash = self.stash()?;
        let item = stash.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
        let free = Claimed::by(&log, shape.instead_of, stash).free(item);
        let up = Turn::QUARTER.then(shape.lies.inverse());
        let (turning, base) =
            if wish.upright { item.came.look.runs.turning(up) } else { (Turning::Any, Turn::NONE) };
        // The first side is the one that is sewn.
        let mut margin = vec![wish.rough_in; shape.cut.len()];
        margin.iter_mut().take(1).for_each(|seam| *seam = 0.0);
        let ask = FitAsk { piece: shape.cut, cloth: &item.came.outline, turning, base, margin: &margin };
        let rough = place(&free, &ask).pose();
        Ok(rough.or_else(|| place(&free, &FitAsk { margin: &[], ..ask }).pose()))
    }

    /// Where a shape was cut that other patches had been promised the cloth of, or that came out of the
    /// patch it takes the place of; and, where the maker says so, even where the heap has no room for
    /// it: then over the middle of the cloth.
    ///
    /// # Errors
    /// No room, unless `anyway`.
    pub(super) fn place_used(
        &mut self,
        at: &At,
        cloth: ClothId,
        shape: &Shape<'_>,
        anyway: bool,
    ) -> Asked<Pose> {
        let upright = self.wish(&at.quilt)?.upright;
        let log = self.log(&at.quilt, &at.head)?;
        let stash = self.stash()?;
        let item = stash.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
        let mut free = Claimed::nothing().free(item);
        let before = log.steps.iter().take(log.sewn).find(|step| Some(step.entry.mark) == shape.instead_of);
        if let Some(Step::Lay { cloth, at, cut }) = before.map(|step| &step.entry.step)
            && stash.root(*cloth) == item.root
        {
            free.push(Region { outer: at.apply_all(cut), holes: Vec::new() });
            free = plane::union(&free);
        }
        let up = Turn::QUARTER.then(shape.lies.inverse());
        let (turning, base) =
            if upright { item.came.look.runs.turning(up) } else { (Turning::Any, Turn::NONE) };
        let ask = FitAsk { piece: shape.cut, cloth: &item.came.outline, turning, base, margin: &[] };
        if let Some(pose) = place(&free, &ask).pose() {
            return Ok(pose);
        }
        if !anyway {
            return Err(not_so_much(item, shape.cut));
        }
        let middle = |points: &[Point]| {
            let (low, high) = plane::polygon::bounds(points).unwrap_or_default();
            low.midpoint(high)
        };
        let there = item.now.as_ref().unwrap_or(&item.came);
        let turned = Pose::new(base, plane::Vec2::default()).apply_all(shape.cut);
        Ok(Pose::new(base, middle(&there.outline.outer) - middle(&turned)))
    }

    /// As [`Workroom::place_for`]; that there is no room is an error.
    pub(super) fn room_for(&mut self, at: &At, cloth: ClothId, shape: &Shape<'_>) -> Asked<Pose> {
        if let Some(pose) = self.place_for(at, cloth, shape)? {
            return Ok(pose);
        }
        let item = self.stash()?.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
        Err(no_room(item.no, &item.came, shape.cut))
    }
}

/// Whether one of some parts has room, and where in the first that has.
pub(super) fn place(parts: &[Region], ask: &FitAsk<'_>) -> Fit {
    let mut none = Fit::No;
    for part in parts {
        match plane::best_fit(&FitAsk { cloth: part, ..*ask }) {
            Fit::No => {}
            Fit::Unknown => none = Fit::Unknown,
            found @ Fit::Yes(_) => return found,
        }
    }
    none
}

/// That a cloth can't have given a shape, with what there is of it.
fn not_so_much(item: &Item, cut: &[Point]) -> AskError {
    let size = |points: &[Point]| {
        let (low, high) = plane::polygon::bounds(points).unwrap_or_default();
        format!("{} by {}", fraction(high.x - low.x, 8), fraction(high.y - low.y, 8))
    };
    let there = item.now.as_ref().map_or_else(
        || "nothing is left of it".to_owned(),
        |now| format!("{} is there", size(&now.outline.outer)),
    );
    AskError::CantBe {
        what: format!(
            "No. {} ({}) has no room for a piece {}, cut: {there}",
            item.no,
            item.came.name,
            size(cut)
        ),
        hint:
            "Check the number and the size. If it was cut from that cloth all the same, say so (`--anyway`)."
                .to_owned(),
    }
}

fn no_room(no: u32, cloth: &Cloth, cut: &[Point]) -> AskError {
    let (low, high) = plane::polygon::bounds(cut).unwrap_or_default();
    AskError::CantBe {
        what: format!(
            "No. {no} ({}) has no room left for a piece {} by {}, cut",
            cloth.name,
            fraction(high.x - low.x, 8),
            fraction(high.y - low.y, 8)
        ),
        hint: "Take another cloth, or cut it smaller; what the plan counts on already is not free."
            .to_owned(),
    }
}
