//! Catching up: what was sewn since the last step, read from one picture of the piece, proposed as
//! steps that the maker confirms or corrects.
//!
//! It reads patches that each cover one whole side and are trimmed in line with the neighbours. Where
//! no such patches lead back to the piece as it is known, nothing is proposed.

use super::error::{AskError, Asked};
use super::hand::{entry, turn_onto};
use super::room::Shape;
use crate::quilts::{At, Head};
use crate::stash::Item;
use crate::workroom::Workroom;
use plane::{Line, Point, Region, polygon};
use quilt::catch_up::SewnOn;
use quilt::cloth::ClothId;
use quilt::log::{Bound, Mark, Name, RunKind};
use quilt::table::Top;
use serde::Serialize;
use vision::seams::{Grown, Known, grown};
use vision::{Flat, Look};

/// A patch that was seen on the piece and is in no step yet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PatchSeen {
    /// The side that it was sewn to; where that is a side of an earlier patch seen here, none.
    pub onto: Option<Name>,
    /// The earlier patch seen here whose outer side it was sewn to, counted from 0.
    pub onto_seen: Option<usize>,
    /// What shows of it, in the inches of the plan.
    pub outline: Vec<Point>,
    /// The cloths it may be of, likest first; at most three.
    pub guesses: Vec<Guess>,
    /// How dark the ditch of its seam is, as a logarithm of light: under 0.05 is faint.
    pub ditch: f64,
    #[serde(skip)]
    outer: Line,
}

/// A cloth that a patch may be of.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Guess {
    /// Which.
    pub cloth: ClothId,
    /// Its number in the heap.
    pub no: u32,
    /// Its name.
    pub name: String,
    /// How like it is, 0 to 1: for ranking.
    pub like: f64,
}

/// What a picture tells of what was sewn.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CaughtUp {
    /// The patches, in an order in which they can have been sewn.
    pub patches: Vec<PatchSeen>,
    /// How far the corners of the known piece lie from where they should, root of the mean square, in inches.
    pub off_in: f64,
}

impl CaughtUp {
    /// A sentence for each patch.
    #[must_use]
    pub fn told(&self) -> Vec<String> {
        let told = |(i, patch): (usize, &PatchSeen)| {
            let side = match (patch.onto, patch.onto_seen) {
                (Some(name), _) => format!("side {name}"),
                (None, Some(no)) => format!("patch {}", no + 1),
                (None, None) => "a side that has no name".to_owned(),
            };
            let or = |guess: &Guess| format!("{} ({})", guess.no, guess.name);
            let mut guesses = patch.guesses.iter().map(or);
            let first = guesses.next().unwrap_or_else(|| "no cloth of the heap".to_owned());
            let others: Vec<String> = guesses.collect();
            let others =
                if others.is_empty() { String::new() } else { format!(", or else {}", others.join(" or ")) };
            let faint = if patch.ditch < FAINT { " Its seam is faint: look twice." } else { "" };
            format!("Patch {}, on {side}: cloth {first}{others}.{faint}", i + 1)
        };
        self.patches.iter().enumerate().map(told).collect()
    }
}

/// A ditch fainter than this is told as such.
const FAINT: f64 = 0.05;
/// How many cloths are offered for a patch.
const GUESSES: usize = 3;
/// What is left out along a patch's edges when its look is taken, in inches.
const EDGE_IN: f64 = 0.05;

impl Workroom {
    /// Reads from a flattened picture of the piece, and its raw outline there (in inches,
    /// counter-clockwise), which patches were sewn on since the last step. Nothing is changed.
    ///
    /// # Errors
    /// Nothing on the table; an outline to which no patches lead from the piece as it is known.
    pub fn look_to_catch_up(
        &mut self,
        quilt: &str,
        head: &str,
        flat: &Flat,
        outline: &[Point],
    ) -> Asked<CaughtUp> {
        let table = self.table(quilt, head)?;
        let allowance_in = self.wish(quilt)?.allowance_in;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let stash = self.stash()?;
        let colours = top.faces().values().filter_map(|face| {
            let patch = table.patches().get(&face.patch)?;
            let look = &stash.get(patch.cloth)?.came.look;
            Some((polygon::centroid(&top.face_points(face))?, look.mean()))
        });
        let known = Known { outline: top.outline_points(), colours: colours.collect() };
        let seen = grown(flat, outline, &known, allowance_in).ok_or_else(|| AskError::CantBe {
            what: "no patches sewn to whole sides lead from the piece as it is known to the outline in the picture".to_owned(),
            hint: "Sew what is missing by hand, or take the picture again with the whole piece flat and its seams in slanting light.".to_owned(),
        })?;
        let items: Vec<&Item> = stash.items().filter(|item| item.now.is_some()).collect();
        Ok(CaughtUp { patches: patches(top, flat, &seen, &items), off_in: seen.off_in })
    }

    /// Plans what was seen, each patch of its cloth (one for each, in order), as chalk: all of it or
    /// nothing. Where the heap has no room for a patch it is laid all the same, since it is sewn already.
    ///
    /// # Errors
    /// Another number of cloths than of patches; a cloth that isn't there; a patch that can't be sewn
    /// so; a head that moved.
    pub fn catch_up(&mut self, at: &At, seen: &CaughtUp, cloths: &[ClothId]) -> Asked<Head> {
        if seen.patches.is_empty() || cloths.len() != seen.patches.len() {
            return Err(AskError::Nonsense {
                what: format!(
                    "{} patches were seen and {} cloths are named",
                    seen.patches.len(),
                    cloths.len()
                ),
                hint: "Name one cloth for each patch, in their order.".to_owned(),
            });
        }
        self.as_one("caught up", true, |room| {
            let mut sewn: Vec<Mark> = Vec::new();
            let mut here = at.clone();
            let mut head = None;
            for (patch, cloth) in seen.patches.iter().zip(cloths) {
                let after = |no: usize| sewn.get(no).map(|mark| Name::new(*mark, OUTER));
                let onto = patch.onto.or_else(|| after(patch.onto_seen?)).ok_or(AskError::Stale)?;
                let (mark, now) = room.sew_seen(&here, patch, onto, *cloth)?;
                sewn.push(mark);
                here = now.at();
                head = Some(now);
            }
            head.ok_or(AskError::NothingOnTable)
        })
    }

    fn sew_seen(&mut self, at: &At, patch: &PatchSeen, onto: Name, cloth: ClothId) -> Asked<(Mark, Head)> {
        let allowance_in = self.wish(&at.quilt)?.allowance_in;
        let first = self.next_mark(&at.quilt, &at.head)?;
        let table = self.table(&at.quilt, &at.head)?;
        let (_, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let sewn_on = SewnOn { onto, outer: patch.outer, allowance_in };
        let cut = sewn_on.cut(top).ok_or_else(|| AskError::CantBe {
            what: format!("the patch seen on side {onto} has no depth outside of its seam"),
            hint: "Sew it by hand.".to_owned(),
        })?;
        let shape = Shape { cut: &cut, lies: turn_onto(&table, onto), instead_of: None };
        let pose = match self.place_for(at, cloth, &shape)? {
            Some(pose) => pose,
            None => self.place_used(at, cloth, &shape, true)?,
        };
        let steps = sewn_on.steps(first, cloth, pose, cut.clone());
        let entries: Vec<_> = (first.0..)
            .zip(steps)
            .map(|(mark, step)| entry(Mark(mark), first, RunKind::Piece, step))
            .collect();
        Ok((first, self.check_and_append(at, &entries, true)?))
    }
}

/// Which side of a patch as it is cut lies outside.
const OUTER: u16 = 2;

/// What was seen, in the plan's place and words.
fn patches(top: &Top, flat: &Flat, seen: &Grown, items: &[&Item]) -> Vec<PatchSeen> {
    let to_plan = seen.pose.inverse();
    let mut onto: Vec<(Option<Name>, Option<usize>)> = top
        .outline()
        .iter()
        .map(|bound| match bound {
            Bound::Raw(name) => (Some(*name), None),
            Bound::Seam(_) => (None, None),
        })
        .collect();
    let mut patches = Vec::new();
    for (i, patch) in seen.patches.iter().enumerate() {
        let later = &seen.patches[i + 1..];
        let shows = later.iter().fold(patch.outline.clone(), |ring, later| {
            plane::clip_half_plane(&ring, later.seam, plane::DECISION)
        });
        let (name, earlier) = onto.get(patch.side).copied().unwrap_or_default();
        patches.push(PatchSeen {
            onto: name,
            onto_seen: earlier,
            outline: to_plan.apply_all(&shows),
            guesses: guesses(&vision::look(flat, &without_edges(&shows)), items),
            ditch: patch.ditch,
            outer: patch.outer.moved(to_plan),
        });
        if let Some(side) = onto.get_mut(patch.side) {
            *side = (None, Some(i));
        }
    }
    patches
}

/// What lies well inside: edges show seams and threads.
fn without_edges(ring: &[Point]) -> Region {
    let lines = polygon::edges(ring).filter_map(|(a, b)| Line::through(a, b));
    let inside =
        |ring: Vec<Point>, line: Line| plane::clip_half_plane(&ring, line.inward(EDGE_IN), plane::DECISION);
    Region { outer: lines.fold(ring.to_vec(), inside), holes: Vec::new() }
}

/// The cloths whose looks are likest.
fn guesses(seen: &Look, items: &[&Item]) -> Vec<Guess> {
    let seen = Look { runs: vision::Runs::AnyWay, ..seen.clone() };
    let guess = |item: &&Item| {
        let look = &item.came.look;
        let shade = |shade: &quilt::cloth::Shade| vision::Shade { lab: shade.lab, share: shade.share };
        // What the heap doesn't keep, or may have been told otherwise, speaks for no cloth.
        let kept = Look {
            shades: look.shades.iter().map(shade).collect(),
            lightness: look.mean().l,
            busy: look.busy,
            repeat_in: look.repeat_in,
            ..seen.clone()
        };
        Guess {
            cloth: item.came.id,
            no: item.no,
            name: item.came.name.clone(),
            like: vision::same_print(&seen, &kept),
        }
    };
    let mut guesses: Vec<Guess> = items.iter().map(guess).collect();
    guesses.sort_by(|a, b| b.like.total_cmp(&a.like).then(a.no.cmp(&b.no)));
    guesses.truncate(GUESSES);
    guesses
}
