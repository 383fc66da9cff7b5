//! One gesture, one deed, one transaction over heads and ledger; and what takes it back.

use crate::error::{Result, WorkroomError};
use crate::stash::{By, CutReport, Fact, Stash, Usable, portion, take};
use crate::store::deeds::{Change, HeadState};
use crate::store::heads::{self, HeadRow};
use crate::store::quilts::QuiltKey;
use crate::store::{WorkroomId, facts};
use plane::{Point, Region, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::StepId;
use rusqlite::Connection;
use sha2::{Digest, Sha256};

/// A deed while it is being done: everything it changes goes through here.
pub(crate) struct Deed<'a> {
    pub(crate) c: &'a Connection,
    pub(crate) stash: &'a mut Stash,
    pub(crate) usable: Usable,
    id: WorkroomId,
    promised: usize,
    changes: Vec<Change>,
}

impl<'a> Deed<'a> {
    pub(crate) fn begin(
        c: &'a Connection,
        stash: &'a mut Stash,
        usable: Usable,
        id: WorkroomId,
    ) -> Result<Self> {
        catch_up(c, stash)?;
        Ok(Self { c, stash, usable, id, promised: 0, changes: Vec::new() })
    }

    /// What takes the deed back. A deed that changed nothing leaves no trace.
    pub(crate) fn into_changes(self) -> Vec<Change> {
        self.changes
    }

    pub(crate) fn changed(&mut self, change: Change) {
        self.changes.push(change);
    }

    /// A name for a cloth that is about to come: derived from the workroom's own name and the
    /// cloth's place in the ledger.
    pub(crate) fn new_id(&mut self) -> ClothId {
        loop {
            let place = (self.stash.given() + self.promised) as u64;
            self.promised += 1;
            let hash = Sha256::new().chain_update(self.id.0).chain_update(place.to_be_bytes()).finalize();
            let mut first = [0; 8];
            first.iter_mut().zip(hash.iter()).for_each(|(to, from)| *to = *from);
            let id = ClothId(u64::from_be_bytes(first));
            if id.0 != 0 && !self.stash.knows(id) {
                return id;
            }
        }
    }

    /// Adds a fact to the ledger.
    pub(crate) fn fact(&mut self, fact: &Fact) -> Result<u64> {
        let seq = self.unrecorded_fact(fact)?;
        self.changes.push(Change::Fact { seq });
        Ok(seq)
    }

    /// Adds a fact that undoing this deed leaves alone.
    pub(crate) fn unrecorded_fact(&mut self, fact: &Fact) -> Result<u64> {
        let seq = facts::insert(self.c, fact)?;
        if !self.stash.add(seq, fact) {
            *self.stash = Stash::replay(&facts::after(self.c, 0)?);
        }
        self.promised = 0;
        Ok(seq)
    }

    /// Takes earlier facts back.
    pub(crate) fn void(&mut self, seqs: &[u64]) -> Result<()> {
        for seq in seqs {
            let seq = facts::insert(self.c, &Fact::Void(*seq))?;
            self.changes.push(Change::Fact { seq });
        }
        if !seqs.is_empty() {
            *self.stash = Stash::replay(&facts::after(self.c, 0)?);
        }
        Ok(())
    }

    /// Writes a head, one change on from where it was.
    pub(crate) fn put_head(
        &mut self,
        quilt: QuiltKey,
        before: Option<&HeadRow>,
        name: &str,
        tip: Option<StepId>,
        sewn: Option<StepId>,
    ) -> Result<HeadRow> {
        let version = before.map_or(0, |head| head.version) + 1;
        let after = HeadRow { name: name.to_owned(), tip, sewn, version };
        heads::put(self.c, quilt, &after)?;
        self.changes.push(Change::Head {
            quilt,
            name: name.to_owned(),
            before: before.map(HeadState::of),
            after: Some(HeadState::of(&after)),
        });
        Ok(after)
    }

    /// Cuts `piece`, in the coordinates of `cloth`, out of whatever of that cloth is there. With
    /// `anyway` it is recorded even where the ledger has no such cloth.
    pub(crate) fn cut(&mut self, ask: &Cut<'_>) -> Result<CutReport> {
        let shape = Region { outer: ask.piece.to_vec(), holes: Vec::new() };
        let item = self.stash.get(ask.cloth).ok_or(WorkroomError::NoSuchCloth(ask.cloth))?;
        let (no, whole) = (item.no, item.came.clone());
        let Some(holder) = self.stash.holder(ask.cloth, &shape).cloned() else {
            let area_in2 = shape.area();
            if !ask.anyway {
                return Err(WorkroomError::NotThere { no, area_in2, by_in: polygon::diameter(ask.piece) });
            }
            return self.cut_unseen(ask, &whole, area_in2);
        };
        let mut cutting = take(&holder.outline, ask.piece, self.usable);
        let (needed, waste): (Vec<Region>, Vec<Region>) =
            cutting.waste.into_iter().partition(|part| ask.next.iter().any(|next| meets(part, next)));
        cutting.waste = waste;
        cutting.rest.extend(needed);
        cutting.rest.sort_by(|a, b| b.area().total_cmp(&a.area()));
        let beyond_in2 = cutting.outside.map_or(0.0, |outside| outside.area_in2);
        if let Some(outside) = cutting.outside
            && !ask.anyway
            && !holder.about
        {
            return Err(WorkroomError::NotThere { no, area_in2: outside.area_in2, by_in: outside.by_in });
        }
        let rest = cutting.rest.iter().enumerate().map(|(i, region)| {
            let id = if i == 0 { holder.id } else { self.new_id() };
            portion(&holder, region.clone(), id)
        });
        let remainders: Vec<Cloth> = rest.collect();
        let kept = match cutting.taken.first() {
            Some(region) if ask.keep => Some(portion(&holder, region.clone(), self.new_id())),
            _ => None,
        };
        let waste_in2 = cutting.waste.iter().map(Region::area).fold(0.0, |sum, area| sum + area);
        let report = CutReport {
            from: holder.id,
            kept: kept.as_ref().map(|cloth| cloth.id),
            rest: remainders.iter().map(|cloth| cloth.id).collect(),
            waste_in2,
            beyond_in2,
        };
        self.fact(&Fact::Cut {
            from: holder.id,
            by: ask.by.clone(),
            taken: cutting.taken,
            kept,
            remainders,
            waste: cutting.waste,
            beyond_in2,
        })?;
        Ok(report)
    }

    /// A cut out of cloth that the ledger doesn't have any more.
    fn cut_unseen(&mut self, ask: &Cut<'_>, whole: &Cloth, beyond_in2: f64) -> Result<CutReport> {
        let shape = Region { outer: ask.piece.to_vec(), holes: Vec::new() };
        let kept = ask.keep.then(|| portion(whole, shape, self.new_id()));
        let report = CutReport {
            from: ask.cloth,
            kept: kept.as_ref().map(|cloth| cloth.id),
            rest: Vec::new(),
            waste_in2: 0.0,
            beyond_in2,
        };
        self.fact(&Fact::Cut {
            from: ask.cloth,
            by: ask.by.clone(),
            taken: Vec::new(),
            kept,
            remainders: Vec::new(),
            waste: Vec::new(),
            beyond_in2,
        })?;
        Ok(report)
    }
}

/// What is to be cut.
pub(crate) struct Cut<'a> {
    /// Out of which cloth, or what is left of it.
    pub(crate) cloth: ClothId,
    /// A simple polygon, counter-clockwise, in its coordinates.
    pub(crate) piece: &'a [Point],
    /// What for.
    pub(crate) by: By,
    /// Whether the piece stays in the stash.
    pub(crate) keep: bool,
    /// Whether it is recorded even where there is no such cloth.
    pub(crate) anyway: bool,
    /// What is to be cut after it, in the same coordinates: rest that they need is no waste,
    /// however small.
    pub(crate) next: &'a [Vec<Point>],
}

/// Whether a shape takes a part of a region: more than reading lengths can leave along an inch.
fn meets(part: &Region, piece: &[Point]) -> bool {
    let shape = Region { outer: piece.to_vec(), holes: Vec::new() };
    plane::intersection(part, &shape).iter().map(Region::area).sum::<f64>() > plane::READING
}

/// Takes in the facts that have come since, from whatever program.
pub(crate) fn catch_up(c: &Connection, stash: &mut Stash) -> Result<()> {
    let new = facts::after(c, stash.upto())?;
    for (seq, fact) in &new {
        if !stash.add(*seq, fact) {
            *stash = Stash::replay(&facts::after(c, 0)?);
            return Ok(());
        }
    }
    Ok(())
}
