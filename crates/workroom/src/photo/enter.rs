//! What the maker keeps of a photograph becomes cloth.

use super::read::REACH_IN;
use super::{PhotoProblem, PhotoRead, looks};
use crate::asks::{AskError, Asked};
use crate::error::WorkroomError;
use crate::intake::IntakeProblem;
use crate::stash::{Changes, NewCloth};
use crate::workroom::Workroom;
use plane::{Point, Pose, Region, RegionProblem, Turn, polygon};
use quilt::cloth::{ClothId, Picture};
use std::collections::BTreeSet;

/// A cloth of a photograph that is to be entered.
#[derive(Clone, Debug, PartialEq)]
pub struct Kept {
    /// Which of those found, from 0.
    pub which: usize,
    /// What it is called.
    pub name: String,
    /// Its outline on the table, in inches, where the maker corrected it.
    pub outline: Option<Region>,
    /// Of which print it is.
    pub print: PrintOf,
}

/// Of which print a found cloth is. Only the maker says so.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum PrintOf {
    /// A print of its own.
    #[default]
    Own,
    /// A print of the heap, by its number.
    Heap(u64),
    /// That of another cloth of the same picture, from 0, which must be kept too.
    Found(usize),
}

impl Workroom {
    /// Enters what is kept of a photograph, all of it or none, in one deed, and returns numbers and
    /// names in order. Each cloth lies at its own origin, as it lay in the picture; its picture goes
    /// with it.
    ///
    /// # Errors
    /// A cloth that wasn't found or is named twice; an outline that isn't sound; a print that isn't
    /// there; cloths that were entered from the same picture since it was read; trouble with the store.
    pub fn enter_photo(&mut self, read: &PhotoRead, kept: &[Kept]) -> Asked<Vec<(u32, ClothId)>> {
        self.check_kept(read, kept)?;
        if self.entered_from(&read.measured.hash)? != read.entered_before {
            return Err(PhotoProblem::EnteredMeanwhile { name: read.measured.name.clone() }.into());
        }
        self.as_one("photograph", true, |room| {
            let mut cloths = Vec::with_capacity(kept.len());
            for one in kept {
                cloths.push(room.new_from_photo(read, one)?);
            }
            for (cloth, one) in cloths.iter_mut().zip(kept) {
                match print_of(kept, one) {
                    Ok(print) => cloth.print = Some(print),
                    Err(first) => cloth.print_name = Some(format!("cloth {first} of the picture")),
                }
            }
            let entered = room.enter(cloths)?;
            room.remember_entered(&read.measured.hash, entered.iter().map(|(_, id)| *id))?;
            Ok(entered)
        })
    }

    /// Whether all that is kept makes sense, before anything is written.
    fn check_kept(&mut self, read: &PhotoRead, kept: &[Kept]) -> Asked<()> {
        let name = || read.measured.name.clone();
        let prints: BTreeSet<u64> = self.stash()?.items().filter_map(|item| item.came.print).collect();
        let mut seen = BTreeSet::new();
        for one in kept {
            read.cloth(one.which)?;
            let no = one.which.saturating_add(1);
            if !seen.insert(one.which) {
                return Err(PhotoProblem::KeptTwice { name: name(), no }.into());
            }
            if let Some(outline) = &one.outline {
                Region::try_new(outline.outer.clone(), outline.holes.clone())
                    .map_err(|why| read.wrong_outline(one.which, why))?;
            }
            let there = match one.print {
                PrintOf::Own => true,
                PrintOf::Heap(print) => prints.contains(&print),
                PrintOf::Found(which) => kept.iter().any(|other| other.which == which),
            };
            if !there {
                return Err(PhotoProblem::NoSuchPrint { name: name(), no }.into());
            }
        }
        Ok(())
    }

    fn new_from_photo(&mut self, read: &PhotoRead, kept: &Kept) -> Asked<NewCloth> {
        let found = read.cloth(kept.which)?;
        let outline = kept.outline.as_ref().unwrap_or(&found.outline);
        let look = match &kept.outline {
            Some(outline) => looks::as_cloth(&read.measured.source.look(outline)),
            None => found.look.clone(),
        };
        let clipped = read.clipped(kept.which, Some(outline))?;
        let hash = self.keep_picture(&clipped.png, "png")?;
        let (low, _) = polygon::bounds(&outline.outer).unwrap_or_default();
        let to_own = Pose::carrying(Turn::NONE, low, Point::ORIGIN);
        let mut cloth = NewCloth::scrap(kept.name.trim(), outline.moved(to_own), look);
        // More of it is there than was seen.
        cloth.about = found.cut_off;
        cloth.picture = Some(Picture {
            hash,
            format: "png".to_owned(),
            pixels_per_in: clipped.pixels_per_in,
            top_left: to_own.apply(clipped.top_left),
            size_px: clipped.size_px,
        });
        Ok(cloth)
    }

    /// The numbers of the cloths that came from a picture and are still known.
    pub(super) fn entered_from(&mut self, hash: &str) -> Asked<Vec<u32>> {
        let ids: Vec<ClothId> = self.setting(&setting(hash))?.unwrap_or_default();
        let stash = self.stash()?;
        Ok(ids.iter().filter_map(|id| stash.get(*id)).map(|item| item.no).collect())
    }

    fn remember_entered(&mut self, hash: &str, entered: impl Iterator<Item = ClothId>) -> Asked<()> {
        let mut ids: Vec<ClothId> = self.setting(&setting(hash))?.unwrap_or_default();
        ids.extend(entered);
        Ok(self.set(&setting(hash), &ids)?)
    }

    /// Puts the outline of a cloth right by points, in the cloth's inches: each takes the place of the
    /// nearest corner within [`REACH_IN`], or becomes a corner of the nearest side. What was cut out of
    /// it since stays cut out. Kept as a fact of the ledger.
    ///
    /// # Errors
    /// No such cloth; points that make no outline.
    pub fn correct_outline(&mut self, cloth: ClothId, points: &[Point]) -> Asked<()> {
        let item = self.stash()?.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
        let outline = vision::corrected(&item.came.outline, points, REACH_IN).map_err(wrong_outline)?;
        Ok(self.change_cloth(cloth, Changes { outline: Some(outline), ..Changes::default() })?)
    }

    /// Puts another outline in the place of that of a cloth, corner by corner, in the cloth's inches; its
    /// holes stay. What was cut out of it since stays cut out. Kept as a fact of the ledger.
    ///
    /// # Errors
    /// No such cloth; corners that make no outline, or that leave a hole outside.
    pub fn set_outline(&mut self, cloth: ClothId, corners: &[Point]) -> Asked<()> {
        let item = self.stash()?.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
        let holes = item.came.outline.holes.clone();
        let outline = Region::try_new(corners.to_vec(), holes).map_err(wrong_outline)?;
        Ok(self.change_cloth(cloth, Changes { outline: Some(outline), ..Changes::default() })?)
    }
}

fn wrong_outline(problem: RegionProblem) -> AskError {
    AskError::Workroom(IntakeProblem::Outline { scrap: 0, problem }.into())
}

/// The setting that tells which cloths came from a picture.
fn setting(hash: &str) -> String {
    format!("photograph {hash}")
}

/// The print of a kept cloth, followed to the last one it is said to be like: a print of the heap, or
/// else the cloth of the picture whose own it is.
fn print_of(kept: &[Kept], one: &Kept) -> Result<u64, usize> {
    let mut at = one;
    let mut passed = BTreeSet::from([one.which]);
    loop {
        match at.print {
            PrintOf::Heap(print) => return Ok(print),
            PrintOf::Own => return Err(at.which),
            PrintOf::Found(which) => match kept.iter().find(|other| other.which == which) {
                Some(next) if passed.insert(which) => at = next,
                // They name each other in a ring.
                _ => return Err(passed.into_iter().next().unwrap_or(one.which)),
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn prints(of: &[PrintOf]) -> Vec<Result<u64, usize>> {
        let one = |(which, print): (usize, &PrintOf)| Kept {
            which,
            name: String::new(),
            outline: None,
            print: *print,
        };
        let kept: Vec<Kept> = of.iter().enumerate().map(one).collect();
        kept.iter().map(|one| print_of(&kept, one)).collect()
    }

    #[test]
    fn a_print_is_followed_through_the_picture() {
        use PrintOf::{Found, Heap, Own};
        assert_eq!(prints(&[Own, Own]), [Err(0), Err(1)]);
        assert_eq!(prints(&[Own, Found(0), Found(1), Own]), [Err(0), Err(0), Err(0), Err(3)]);
        assert_eq!(prints(&[Heap(7), Found(0), Found(1)]), [Ok(7), Ok(7), Ok(7)]);
        assert_eq!(prints(&[Found(1), Found(0)]), [Err(0), Err(0)]);
    }
}
