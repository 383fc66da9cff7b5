//! What was seen becomes steps that are sewn.

use super::{CaughtUp, PatchSeen};
use crate::asks::error::{AskError, Asked};
use crate::asks::hand::{entry, turn_onto};
use crate::asks::room::Shape;
use crate::photo::Clipped;
use crate::quilts::{At, Head};
use crate::workroom::Workroom;
use plane::{Point, Pose};
use quilt::catch_up::SewnOn;
use quilt::cloth::ClothId;
use quilt::log::{Mark, Name, RunKind, Step};

/// Which side of a patch as it is cut lies outside.
pub(super) const OUTER: u16 = 2;

/// What a patch was cut from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct CutFrom {
    /// The cloth.
    pub(crate) cloth: ClothId,
    /// From the patch's inches to the cloth's where that is known: else where there is room.
    pub(crate) at: Option<Pose>,
}

impl Workroom {
    /// Takes in what was seen, each patch of its cloth (one for each, in order), and measures the
    /// outline, with its picture: all of it or nothing, as sewn. Where the heap has no room for a patch it is laid all the
    /// same, since it is sewn already. Tells what came of the measuring, a sentence each.
    ///
    /// # Errors
    /// Another number of cloths than of patches; a cloth that isn't there; a patch that can't be sewn
    /// so; another head of the quilt that is sewn otherwise; a head that moved.
    pub(crate) fn catch_up_with(
        &mut self,
        at: &At,
        seen: &CaughtUp,
        cut_from: &[CutFrom],
        clipped: &Clipped,
    ) -> Asked<(Head, Vec<String>)> {
        if cut_from.len() != seen.patches.len() {
            return Err(AskError::Nonsense {
                what: format!(
                    "{} patches were seen and {} cloths are named",
                    seen.patches.len(),
                    cut_from.len()
                ),
                hint: "Name one cloth for each patch, in their order.".to_owned(),
            });
        }
        self.as_one("caught up", true, |room| {
            let mut sewn: Vec<Mark> = Vec::new();
            let mut here = at.clone();
            for (patch, from) in seen.patches.iter().zip(cut_from) {
                let after = |no: usize| sewn.get(no).map(|mark| Name::new(*mark, OUTER));
                let onto = patch.onto.or_else(|| after(patch.onto_seen?)).ok_or(AskError::Stale)?;
                let (mark, now) = room.sew_seen(&here, patch, onto, *from)?;
                sewn.push(mark);
                here = now.at();
            }
            let (now, told) = match room.remeasure_shown(&here, &seen.raw, seen.pose.turn, clipped) {
                Ok((now, report)) => (now, report.differences),
                Err(why @ (AskError::Refused { .. } | AskError::CantBe { .. })) => {
                    let told = format!("The outline stays as these patches make it: {why}.");
                    (room.head(&at.quilt, &at.head)?, vec![told])
                }
                Err(other) => return Err(other),
            };
            Ok((room.all_sewn(now)?, told))
        })
    }

    /// Looks at the piece anew as one patch of a cloth, in the place of all that was on the table: as
    /// sewn. `cut` lies in the plan's inches; `cloth_at` leads from there to the cloth's.
    ///
    /// # Errors
    /// An outline that can't be laid; another head of the quilt that is sewn otherwise; a head that moved.
    pub(crate) fn lay_anew(
        &mut self,
        at: &At,
        cloth: ClothId,
        cut: Vec<Point>,
        cloth_at: Pose,
    ) -> Asked<Head> {
        let first = self.next_mark(&at.quilt, &at.head)?;
        let table = self.table(&at.quilt, &at.head)?;
        let mut steps: Vec<Step> = table.tops().keys().map(|top| Step::Aside { top: *top }).collect();
        steps.push(Step::Lay { cloth, at: cloth_at, cut });
        let entries: Vec<_> = (first.0..)
            .zip(steps)
            .map(|(mark, step)| entry(Mark(mark), first, RunKind::Start, step))
            .collect();
        let head = self.check_and_append(at, &entries, true)?;
        self.all_sewn(head)
    }

    /// Says of all that is on a head that it is sewn.
    fn all_sewn(&mut self, head: Head) -> Asked<Head> {
        match head.tip {
            Some(tip) if head.sewn != head.tip => Ok(self.sew(&head.at(), tip, true)?.head),
            _ => Ok(head),
        }
    }

    fn sew_seen(&mut self, at: &At, patch: &PatchSeen, onto: Name, from: CutFrom) -> Asked<(Mark, Head)> {
        let allowance_in = self.wish(&at.quilt)?.allowance_in;
        let first = self.next_mark(&at.quilt, &at.head)?;
        let table = self.table(&at.quilt, &at.head)?;
        let shape = Shape { cut: patch.cut(), lies: turn_onto(&table, onto), instead_of: None };
        let pose = match (from.at, self.place_for(at, from.cloth, &shape)?) {
            (Some(pose), _) | (None, Some(pose)) => pose,
            (None, None) => self.place_used(at, from.cloth, &shape, true)?,
        };
        let sewn_on = SewnOn { onto, outer: patch.outer, allowance_in };
        let steps = sewn_on.steps(first, from.cloth, pose, patch.cut.clone());
        let entries: Vec<_> = (first.0..)
            .zip(steps)
            .map(|(mark, step)| entry(Mark(mark), first, RunKind::Piece, step))
            .collect();
        Ok((first, self.check_and_append(at, &entries, true)?))
    }
}
