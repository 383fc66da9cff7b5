//! What can be done with the stash: enter, change, cut, sew strips, slice, unpick, give away.

use super::{Across, By, Changes, Fact, NewCloth, Strip, slices, strip_set, stripes};
use crate::deed::{Cut, Deed};
use crate::error::{Result, WorkroomError};
use crate::intake::{IntakeProblem, NewSupply};
use crate::workroom::Workroom;
use plane::{Point, Pose, Region};
use quilt::cloth::{Cloth, ClothId};
use quilt::supply::Supply;
use std::collections::BTreeMap;

/// A shape to be cut out of a cloth by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct CutAsk {
    /// Out of which cloth, or what is left of it.
    pub cloth: ClothId,
    /// The shape, a simple polygon in the cloth's coordinates.
    pub piece: Vec<Point>,
    /// Whether the piece stays in the stash as a cloth of its own.
    pub keep: bool,
    /// Whether it is recorded even where the ledger has no such cloth.
    pub anyway: bool,
}

/// What came of a cut.
#[derive(Clone, Debug, PartialEq)]
pub struct CutReport {
    /// The cloth it came out of: the one asked for, or what is left of it elsewhere.
    pub from: ClothId,
    /// The piece, where it stays in the stash.
    pub kept: Option<ClothId>,
    /// What is left, the largest first.
    pub rest: Vec<ClothId>,
    /// What is left but too small, in square inches.
    pub waste_in2: f64,
    /// What the ledger had no cloth for, in square inches.
    pub beyond_in2: f64,
}

/// A strip for a strip set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StripAsk {
    /// The cloth it is cut from.
    pub cloth: ClothId,
    /// Its cut width in inches.
    pub width_in: f64,
    /// From the strip's coordinates, a rectangle at the origin with its length along x, to the
    /// cloth's.
    pub at: Pose,
}

impl Workroom {
    /// Enters cloths, all of them or none, and returns their numbers and names, in order. Cloths
    /// with the same words for their print are of one print.
    ///
    /// # Errors
    /// An outline that isn't sound; trouble with the store.
    pub fn enter(&mut self, cloths: Vec<NewCloth>) -> Result<Vec<(u32, ClothId)>> {
        self.deed("enter", |deed| {
            let mut prints: BTreeMap<String, u64> = BTreeMap::new();
            let mut entered = Vec::with_capacity(cloths.len());
            for (i, mut new) in cloths.into_iter().enumerate() {
                check_outlines(&mut new, i + 1)?;
                let id = deed.new_id();
                let print = match &new.print_name {
                    Some(name) => *prints.entry(name.trim().to_lowercase()).or_insert(id.0),
                    None => id.0,
                };
                deed.fact(&Fact::Came { cloth: new.named(id, print), left: super::Left::Whole })?;
                entered.push((deed.stash.get(id).map_or(0, |item| item.no), id));
            }
            Ok(entered)
        })
    }

    /// Enters what isn't cloth, in one deed. Gives the number of each.
    ///
    /// # Errors
    /// Trouble with the store.
    pub fn supply(&mut self, supplies: Vec<NewSupply>) -> Result<Vec<u32>> {
        self.deed("enter", |deed| {
            let mut entered = Vec::with_capacity(supplies.len());
            for new in supplies {
                let id = deed.new_id();
                deed.fact(&Fact::Supplied { supply: Supply { id, name: new.name, what: new.what } })?;
                entered.extend(
                    deed.stash.supplies().iter().find(|(_, known)| known.id == id).map(|(no, _)| *no),
                );
            }
            Ok(entered)
        })
    }

    /// Changes what is known of a cloth.
    ///
    /// # Errors
    /// No such cloth; an outline or a flaw that isn't sound.
    pub fn change_cloth(&mut self, cloth: ClothId, mut changes: Changes) -> Result<()> {
        for region in changes.outline.iter_mut().chain(changes.flaws.iter_mut().flatten()) {
            *region = sound(region).map_err(|problem| IntakeProblem::Outline { scrap: 1, problem })?;
        }
        self.deed("change cloth", |deed| {
            let item = deed.stash.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
            let outline = changes.outline.as_ref().unwrap_or(&item.came.outline);
            flaws_on(changes.flaws.as_deref().unwrap_or_default(), outline)?;
            deed.fact(&Fact::Changed { cloth, changes: Box::new(changes) })?;
            Ok(())
        })
    }

    /// Makes cloths know each other as scraps of one print: that of the first.
    ///
    /// # Errors
    /// No such cloth.
    pub fn same_print(&mut self, cloths: &[ClothId]) -> Result<()> {
        self.deed("same print", |deed| {
            let Some(first) = cloths.first() else { return Ok(()) };
            let item = deed.stash.get(*first).ok_or(WorkroomError::NoSuchCloth(*first))?;
            let print = Some(item.came.print.unwrap_or(first.0));
            for &cloth in cloths {
                deed.stash.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
                let changes = Box::new(Changes { print, ..Changes::default() });
                deed.fact(&Fact::Changed { cloth, changes })?;
            }
            Ok(())
        })
    }

    /// Takes a cloth out of the stash: given away, lost, thrown out.
    ///
    /// # Errors
    /// No such cloth is there.
    pub fn give_away(&mut self, cloth: ClothId) -> Result<()> {
        self.deed("give away", |deed| {
            if !deed.stash.supplies().iter().any(|(_, supply)| supply.id == cloth) {
                here(deed, cloth)?;
            }
            deed.fact(&Fact::Gone { cloth })?;
            Ok(())
        })
    }

    /// Cuts a shape out of a cloth by hand.
    ///
    /// # Errors
    /// [`WorkroomError::NotThere`] with the numbers missing; a shape that isn't sound.
    pub fn cut(&mut self, ask: &CutAsk) -> Result<CutReport> {
        let shape = Region::try_new(ask.piece.clone(), Vec::new())
            .map_err(|problem| IntakeProblem::Outline { scrap: 1, problem })?;
        self.deed("cut", |deed| {
            deed.cut(&Cut {
                cloth: ask.cloth,
                piece: &shape.outer,
                by: By::Hand,
                keep: ask.keep,
                anyway: ask.anyway,
                next: &[],
            })
        })
    }

    /// Cuts strips and sews them side by side, in order.
    ///
    /// # Errors
    /// A cloth that has no room for its strip; strips that can't be sewn.
    pub fn sew_strip_set(
        &mut self,
        strips: &[StripAsk],
        length_in: f64,
        allowance_in: f64,
    ) -> Result<ClothId> {
        self.deed("strip set", |deed| {
            let mut whole = Vec::with_capacity(strips.len());
            for strip in strips {
                let item = deed.stash.get(strip.cloth).ok_or(WorkroomError::NoSuchCloth(strip.cloth))?;
                whole.push(item.came.clone());
            }
            let sewn: Vec<Strip<'_>> = strips
                .iter()
                .zip(&whole)
                .map(|(strip, cloth)| Strip { cloth, at: strip.at, width_in: strip.width_in })
                .collect();
            let mut set = strip_set(&sewn, length_in, allowance_in).map_err(IntakeProblem::StripSet)?;
            let piece =
                |strip: &StripAsk| strip.at.apply_all(&Region::rectangle(length_in, strip.width_in).outer);
            for (i, strip) in strips.iter().enumerate() {
                let root = deed.stash.root(strip.cloth);
                let later = strips.iter().skip(i + 1).filter(|later| deed.stash.root(later.cloth) == root);
                let (cloth, piece, next) = (strip.cloth, piece(strip), later.map(piece).collect::<Vec<_>>());
                let ask = Cut { cloth, piece: &piece, by: By::Hand, keep: false, anyway: false, next: &next };
                deed.cut(&ask)?;
            }
            set.id = deed.new_id();
            let id = set.id;
            deed.fact(&Fact::StripSet { cloth: set })?;
            Ok(id)
        })
    }

    /// Slices a strip set across; each slice becomes a pieced cloth. What is left of the set
    /// stays if it is still usable.
    ///
    /// # Errors
    /// No such cloth is there; numbers that make no sense.
    pub fn slice(&mut self, set: ClothId, across: &Across) -> Result<Vec<ClothId>> {
        self.deed("slice", |deed| {
            let cloth = here(deed, set)?;
            let mut cut = Vec::new();
            let pieces = slices(&cloth.outline, across)?;
            for (i, piece) in pieces.iter().enumerate() {
                let next = pieces.get(i + 1..).unwrap_or_default();
                let ask = Cut { cloth: set, piece, by: By::Hand, keep: true, anyway: false, next };
                let Some(id) = deed.cut(&ask)?.kept else { continue };
                let changes = Changes { kind: Some(quilt::cloth::Kind::Pieced), ..Changes::default() };
                deed.fact(&Fact::Changed { cloth: id, changes: Box::new(changes) })?;
                cut.push(id);
            }
            Ok(cut)
        })
    }

    /// Unpicks a pieced cloth into the single cloths it was sewn from.
    ///
    /// # Errors
    /// No such cloth is there, or it has no seams.
    pub fn unpick_cloth(&mut self, cloth: ClothId, allowance_in: f64) -> Result<Vec<ClothId>> {
        self.deed("unpick cloth", |deed| {
            let pieced = here(deed, cloth)?;
            if pieced.parts.len() < 2 {
                let no = deed.stash.get(cloth).map_or(0, |item| item.no);
                return Err(WorkroomError::NotPieced(no));
            }
            let mut came = stripes(&pieced, allowance_in, |id| deed.stash.get(id).map(|item| &item.came));
            came.iter_mut().for_each(|stripe| stripe.id = deed.new_id());
            let ids = came.iter().map(|stripe| stripe.id).collect();
            deed.fact(&Fact::Unpicked { by: By::Hand, gone: vec![cloth], came })?;
            Ok(ids)
        })
    }
}

/// The cloth as it is now.
fn here(deed: &Deed<'_>, cloth: ClothId) -> Result<Cloth> {
    let item = deed.stash.get(cloth).ok_or(WorkroomError::NoSuchCloth(cloth))?;
    item.now.clone().ok_or(WorkroomError::NothingLeft { no: item.no })
}

/// Checks outline and flaws and puts their windings right.
fn check_outlines(new: &mut NewCloth, scrap: usize) -> Result<()> {
    let wrong = |problem| IntakeProblem::Outline { scrap, problem };
    new.outline = sound(&new.outline).map_err(wrong)?;
    for flaw in &mut new.flaws {
        *flaw = sound(flaw).map_err(wrong)?;
    }
    flaws_on(&new.flaws, &new.outline)
}

/// Every flaw lies on the cloth, at least in part.
fn flaws_on(flaws: &[Region], outline: &Region) -> Result<()> {
    match flaws.iter().position(|flaw| plane::intersection(flaw, outline).is_empty()) {
        Some(at) => Err(IntakeProblem::FlawOutside { flaw: at + 1 }.into()),
        None => Ok(()),
    }
}

fn sound(region: &Region) -> std::result::Result<Region, plane::RegionProblem> {
    Region::try_new(region.outer.clone(), region.holes.clone())
}
