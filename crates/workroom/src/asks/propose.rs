//! The next piece: offers, taking one, refusing one.

use super::error::{AskError, Asked};
use super::story::told;
use crate::quilts::{At, Head};
use crate::stash::Stash;
use crate::workroom::Workroom;
use ::grow::{Bench, Bend, Proposal, ProposedPatch, next_piece};
use plane::Region;
use quilt::cloth::ClothId;
use quilt::length::fraction;
use quilt::log::{Name, Step};
use quilt::marks::ruler;
use quilt::table::Table;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// One patch of an offer, in the maker's words.
#[derive(Clone, Debug)]
pub struct OfferPatch {
    /// The number in the stash of the cloth, or of what is left of it.
    pub no: Option<u32>,
    /// The cloth.
    pub cloth: ClothId,
    /// What the maker calls it.
    pub name: String,
    /// How to cut it: marks and a ruler.
    pub cut: Vec<String>,
    /// Its finished size in words.
    pub size: String,
}

/// One proposal, numbered.
#[derive(Clone, Debug)]
pub struct Offer {
    /// Its number, from 1.
    pub no: usize,
    /// The proposal.
    pub proposal: Proposal,
    /// The trim that comes first, if one does: its marks.
    pub trim: Option<String>,
    /// Its patches.
    pub patches: Vec<OfferPatch>,
    /// What to trim first, if anything, and where to lay it to look.
    pub lay: String,
}

/// What was asked last, so that "take 2" means the same next time.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
struct Last {
    tip: Option<String>,
    side: Option<Name>,
    count: usize,
    cloth: Option<ClothId>,
    depth_in: Option<f64>,
    tilt_deg: Option<f64>,
    pieces: Option<usize>,
    /// What had been refused by then.
    refused: Vec<String>,
    /// The keys of what was offered, in order.
    offered: Vec<String>,
}

impl Last {
    const fn bend(&self) -> Bend {
        Bend { cloth: self.cloth, depth_in: self.depth_in, tilt_deg: self.tilt_deg, pieces: self.pieces }
    }
}

/// Seed of the search for the next piece: the same for ever, so that the same ask is answered the
/// same way.
const SEED: u64 = 1;

impl Workroom {
    /// Ranked offers for a side, or for the sides most due.
    ///
    /// # Errors
    /// Nothing on the table; no such side; a corner where a trim is due first.
    pub fn propose(
        &mut self,
        quilt: &str,
        head: &str,
        side: Option<Name>,
        count: usize,
        bend: &Bend,
    ) -> Asked<Vec<Offer>> {
        let tip = self.head(quilt, head)?.tip.map(|tip| tip.to_string());
        let Bend { cloth, depth_in, tilt_deg, pieces } = *bend;
        let (refused, offered) = (self.refusals(quilt)?, Vec::new());
        let mut last = Last { tip, side, count, cloth, depth_in, tilt_deg, pieces, refused, offered };
        let offers = self.offers(quilt, head, &last)?;
        last.offered = offers.iter().map(|offer| offer.proposal.key.clone()).collect();
        self.set(&setting(quilt, head), &last)?;
        Ok(offers)
    }

    fn offers(&mut self, quilt: &str, head: &str, last: &Last) -> Asked<Vec<Offer>> {
        let wish = self.wish(quilt)?;
        let (heap, _) = self.heap_for(quilt, head)?;
        let table = self.table(quilt, head)?;
        let next_mark = self.next_mark(quilt, head)?;
        let (top, piece) = table.piece().ok_or(AskError::NothingOnTable)?;
        let bench = Bench { table: &table, top, next_mark };
        let found =
            next_piece(&bench, &heap, &wish, last.side, last.count, SEED, &last.bend(), &last.refused)
                .map_err(|problem| AskError::refused(problem, Some(piece), wish.allowance_in))?;
        let stash = self.stash()?;
        let offer = |(i, proposal)| offer(i + 1, proposal, stash, &table, wish.allowance_in);
        Ok(found.into_iter().enumerate().map(offer).collect())
    }

    /// What was asked last, if it was asked at the step that the head is at, and the key of the offer
    /// that had this number then. The numbers stay as they were told, whatever was refused since.
    fn offered(&mut self, quilt: &str, head: &str, no: usize) -> Asked<(Last, String)> {
        let last: Last = self.setting(&setting(quilt, head))?.ok_or(AskError::Stale)?;
        if last.tip != self.head(quilt, head)?.tip.map(|tip| tip.to_string()) {
            return Err(AskError::Stale);
        }
        let key = no.checked_sub(1).and_then(|i| last.offered.get(i)).cloned();
        let key = key.ok_or(AskError::NoSuchOffer { no, have: last.offered.len() })?;
        Ok((last, key))
    }

    /// Takes an offer: its steps are appended as chalk. A bend that asks for anything changes the
    /// offer first: its side stays, and the best that obeys the bend is taken.
    ///
    /// # Errors
    /// No offers at this step, or none of this number; one that the heap no longer allows; a head
    /// that moved in the meantime.
    pub fn take(&mut self, at: &At, no: usize, bend: &Bend) -> Asked<(Head, Offer)> {
        let (last, key) = self.offered(&at.quilt, &at.head, no)?;
        let offers = self.offers(&at.quilt, &at.head, &last)?;
        let mut offer = offers.into_iter().find(|offer| offer.proposal.key == key).ok_or(AskError::Stale)?;
        if *bend != Bend::default() {
            let Bend { cloth, depth_in, tilt_deg, pieces } = *bend;
            let bent = Last {
                side: Some(offer.proposal.asked),
                count: 1,
                cloth,
                depth_in,
                tilt_deg,
                pieces,
                ..last
            };
            let found = self.offers(&at.quilt, &at.head, &bent)?.into_iter().next();
            offer = found.ok_or_else(|| AskError::CantBe {
                what: format!("nothing on side {} can be bent to that", offer.proposal.asked),
                hint: "Try another depth, another cloth, or fewer pieces.".to_owned(),
            })?;
        }
        let head = self.append(at, &offer.proposal.entries)?;
        Ok((head, offer))
    }

    /// Refuses an offer: it isn't proposed again for this quilt.
    ///
    /// # Errors
    /// No offers at this step, or none of this number.
    pub fn refuse_offer(&mut self, quilt: &str, head: &str, no: usize) -> Asked<String> {
        let (_, key) = self.offered(quilt, head, no)?;
        self.refuse(quilt, &key)?;
        Ok(key)
    }
}

fn setting(quilt: &str, head: &str) -> String {
    format!("offers/{quilt}/{head}")
}

fn offer(no: usize, proposal: Proposal, stash: &Stash, table: &Table, allowance_in: f64) -> Offer {
    let trim = proposal.entries.iter().find(|entry| matches!(entry.step, Step::Cut { .. }));
    let trim = trim.map(|entry| told(&entry.step, &BTreeMap::new(), table));
    let patches = proposal.patches.iter().map(|patch| offer_patch(patch, stash)).collect();
    let first = trim.as_ref().zip(proposal.trim).map_or_else(String::new, |(trim, off_in2)| {
        format!("First: {trim} That takes {off_in2:.1} square inches off and makes side {}. ", proposal.side)
    });
    let lay = format!(
        "{first}Lay it right side up on side {}, its edge {} over the edge of the piece, to look; then flip it about the seam line.",
        proposal.side,
        fraction(2.0 * allowance_in, 8)
    );
    Offer { no, proposal, trim, patches, lay }
}

/// A patch is told on the cloth as it lies in the heap now: what is left of it, or what was given
/// back, under its own number.
fn offer_patch(patch: &ProposedPatch, stash: &Stash) -> OfferPatch {
    let shape = Region { outer: patch.on_cloth.clone(), holes: Vec::new() };
    let held = stash.holder(patch.cloth, &shape);
    let least = plane::polygon::least_width(&patch.finished);
    let longest = plane::polygon::diameter(&patch.finished);
    OfferPatch {
        no: stash.get(held.map_or(patch.cloth, |cloth| cloth.id)).map(|item| item.no),
        cloth: patch.cloth,
        name: held.map_or_else(|| patch.cloth.to_string(), |cloth| cloth.name.clone()),
        cut: held.map(|cloth| ruler(&patch.on_cloth, &cloth.outline).words).unwrap_or_default(),
        size: format!("{} wide and {} long, finished", fraction(least, 8), fraction(longest, 8)),
    }
}

/// The patches of an offer as a drawing lays them: each with its pose on the cloth and on the
/// piece.
pub(super) fn laid(offer: &Proposal, table: &Table) -> drawing::Proposal {
    let mut after = table.clone();
    let applied = offer.entries.iter().all(|entry| after.apply_entry(entry).is_ok());
    let mut patches = Vec::new();
    for patch in &offer.patches {
        let face =
            after.tops().values().flat_map(|top| top.faces().values()).find(|face| face.patch == patch.mark);
        let laid = offer.entries.iter().find(|entry| entry.mark == patch.mark).map(|entry| &entry.step);
        if let (true, Some(face), Some(Step::Lay { cloth, at, cut })) = (applied, face, laid) {
            patches.push(drawing::ProposedPatch {
                cloth: *cloth,
                at: *at,
                outline: cut.clone(),
                pose: face.pose,
            });
        }
    }
    drawing::Proposal { patches, ..drawing::Proposal::default() }
}
