//! What was sewn since the last step, from one photograph of the piece.

use super::looks;
use super::read::PhotoRead;
use crate::asks::{AskError, Asked, CaughtUp, CutFrom};
use crate::quilts::{At, Head};
use crate::stash::NewCloth;
use crate::workroom::Workroom;
use plane::{Line, Point, Pose, Region, Turn, polygon};
use quilt::cloth::{ClothId, Picture};

/// What a patch that was seen is of, as the maker says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MadeOf {
    /// A cloth of the heap.
    Cloth(ClothId),
    /// What can't be told: it stays one measured region with its picture, which becomes a cloth of its own.
    AsFound,
}

impl Workroom {
    /// Reads from a photograph of the piece (`which` of what was found in it, from 0, as found or as put
    /// right) which patches were sewn on since the last step. Nothing is changed.
    ///
    /// # Errors
    /// A piece that wasn't found, or runs out of the picture; nothing on the table; an outline to which no
    /// patches lead from the piece as it is known.
    pub fn look_to_catch_up(
        &mut self,
        quilt: &str,
        head: &str,
        (read, which): (&PhotoRead, usize),
        outline: Option<&Region>,
    ) -> Asked<CaughtUp> {
        let found = read.cloth(which)?;
        if found.cut_off && outline.is_none() {
            return Err(super::PhotoProblem::PieceCutOff { name: read.measured.name.clone() }.into());
        }
        let outline = outline.unwrap_or(&found.outline);
        let flat = read.measured.source.around(outline);
        self.read_what_was_sewn(quilt, head, &flat, &outline.outer)
    }

    /// Takes in what a photograph tells of what was sewn, each patch of what it is said to be (in order),
    /// as sewn, and measures the outline: all of it or nothing, in one deed. Tells what came of the
    /// measuring, a sentence each.
    ///
    /// # Errors
    /// Another number of cloths than of patches; a cloth that isn't there; a patch that can't be sewn
    /// so; another head of the quilt that is sewn otherwise; a head that moved.
    pub fn catch_up(
        &mut self,
        at: &At,
        read: &PhotoRead,
        seen: &CaughtUp,
        made_of: &[MadeOf],
    ) -> Asked<(Head, Vec<String>)> {
        let piece = Region { outer: seen.raw().to_vec(), holes: Vec::new() };
        let clipped = read.measured.source.clipped(&piece, None)?;
        self.as_one("caught up", true, |room| {
            let mut cut_from = Vec::with_capacity(made_of.len());
            for (i, of) in made_of.iter().enumerate() {
                cut_from.push(match (of, seen.patches.get(i)) {
                    (MadeOf::AsFound, Some(patch)) => {
                        let to_table = patch.lies().then(seen.pose.inverse());
                        let shows = Region { outer: patch.on_table.clone(), holes: Vec::new() };
                        let cut = to_table.apply_all(patch.cut());
                        let name = format!("as found in {}, patch {}", read.measured.name, i + 1);
                        let (cloth, to_own) = room.enter_as_found(read, &name, &cut, &shows)?;
                        CutFrom { cloth, at: Some(to_table.then(to_own)) }
                    }
                    (MadeOf::Cloth(cloth), _) => CutFrom { cloth: *cloth, at: None },
                    // One more than patches: refused below by the count.
                    (MadeOf::AsFound, None) => CutFrom { cloth: ClothId(0), at: None },
                });
            }
            room.catch_up_with(at, seen, &cut_from, &clipped)
        })
    }

    /// Looks at the piece anew as one patch with its picture, as it lies in a photograph and turned by
    /// `near`, in the place of all that was on the table: as sewn, in one deed. An empty table is no
    /// hindrance: so a piece begins that was never planned.
    ///
    /// # Errors
    /// A piece that wasn't found, or runs out of the picture; an outline that can't be laid; another head
    /// of the quilt that is sewn otherwise; a head that moved.
    pub fn take_as_found(
        &mut self,
        at: &At,
        (read, which): (&PhotoRead, usize),
        outline: Option<&Region>,
        near: Turn,
    ) -> Asked<Head> {
        let found = read.cloth(which)?;
        let name = read.measured.name.clone();
        if found.cut_off && outline.is_none() {
            return Err(super::PhotoProblem::PieceCutOff { name }.into());
        }
        let outline = outline.unwrap_or(&found.outline);
        let raw = with_true_corners(&outline.outer);
        let Some(middle) = polygon::centroid(&raw) else {
            return Err(AskError::CantBe {
                what: format!("{name}: the piece has no outline that could be laid"),
                hint: "Put its corners right, or take the picture again.".to_owned(),
            });
        };
        let table = self.table(&at.quilt, &at.head)?;
        let known = table.piece().and_then(|(_, top)| polygon::centroid(&top.outline_points()));
        let to_plan = Pose::carrying(near, middle, known.unwrap_or_default());
        self.as_one("piece as found", true, |room| {
            let shows = Region { outer: raw.clone(), holes: Vec::new() };
            let named = format!("the piece as found in {name}");
            let (cloth, to_own) = room.enter_as_found(read, &named, &raw, &shows)?;
            room.lay_anew(at, cloth, to_plan.apply_all(&raw), to_plan.inverse().then(to_own))
        })
    }

    /// A region of the table becomes a cloth with its picture: what was cut for it, and what shows.
    /// With the motion from the table to the cloth's own inches.
    fn enter_as_found(
        &mut self,
        read: &PhotoRead,
        name: &str,
        cut: &[Point],
        shows: &Region,
    ) -> Asked<(ClothId, Pose)> {
        let source = &read.measured.source;
        let clipped = source.clipped(shows, None)?;
        let hash = self.keep_picture(&clipped.png, "png")?;
        let (low, _) = polygon::bounds(cut).unwrap_or_default();
        let to_own = Pose::carrying(Turn::NONE, low, Point::ORIGIN);
        let outline = Region { outer: to_own.apply_all(cut), holes: Vec::new() };
        let mut cloth = NewCloth::scrap(name, outline, looks::as_cloth(&source.look(shows)));
        cloth.about = true;
        cloth.picture = Some(Picture {
            hash,
            format: "png".to_owned(),
            pixels_per_in: clipped.pixels_per_in,
            top_left: to_own.apply(clipped.top_left),
            size_px: clipped.size_px,
        });
        let entered = self.enter(vec![cloth])?;
        let id = entered.first().map(|(_, id)| *id).ok_or(AskError::NothingOnTable)?;
        Ok((id, to_own))
    }
}

/// Corners that bend less than this are none, in sines: about 1.7 degrees.
const STRAIGHT: f64 = 0.03;
/// A side shorter than this is a thread or a chip, in inches.
const CRUMB_IN: f64 = 0.06;

/// A found outline without corners that hardly bend and sides that are hardly there.
fn with_true_corners(ring: &[Point]) -> Vec<Point> {
    let mut ring = ring.to_vec();
    loop {
        let count = ring.len();
        let at = |i: usize| ring[i % count];
        let idle = |i: &usize| {
            let (before, here, after) = (at(i + count - 1), at(*i), at(i + 1));
            let bend = match (Line::through(before, here), Line::through(here, after)) {
                (Some(one), Some(other)) => one.turn_sine(other).abs(),
                _ => 0.0,
            };
            bend < STRAIGHT || here.distance(after) < CRUMB_IN
        };
        match (0..count).find(idle) {
            Some(i) if count > 3 => drop(ring.remove(i)),
            _ => return ring,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_that_hardly_bend_are_left_out() {
        let ring = [(0.0, 0.0), (5.0, 0.02), (10.0, 0.0), (10.0, 8.0), (9.98, 8.03), (0.0, 8.0)];
        let ring = with_true_corners(&ring.map(|(x, y)| Point::new(x, y)));
        assert_eq!(ring.len(), 4, "{ring:?}");
        assert!((polygon::area(&ring) - 80.0).abs() < 0.5);
    }
}
