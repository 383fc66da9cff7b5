//! Unpicking: the head goes back to an earlier step. What was only chalk just isn't there any
//! more; what was sewn comes apart, and its patches come back as cloth.

use super::sewn::by;
use super::shelf::on_path;
use super::{At, Head, PathStep, known_head, path, retract_sewn, sewn_count, sewn_path, step_before};
use crate::deed::Deed;
use crate::error::{Result, WorkroomError};
use crate::stash::{Fact, portion};
use crate::store::deeds::{self, Change, HeadState};
use crate::store::quilts::{self, QuiltKey};
use crate::workroom::Workroom;
use plane::Region;
use quilt::cloth::ClothId;
use quilt::length::many;
use quilt::log::{Step, StepId};

/// What the deed is called, by which resewing finds it.
const UNPICK: &str = "unpick";

/// What unpicking did.
#[derive(Clone, Debug, PartialEq)]
pub struct UnpickReport {
    /// The head as it is now.
    pub head: Head,
    /// The cloths that came back.
    pub came: Vec<ClothId>,
    /// How many of the patches are too small to stay in the heap, whole or in part.
    pub too_small: usize,
}

impl UnpickReport {
    /// What came back and what didn't, as the maker is told.
    #[must_use]
    pub fn words(&self) -> String {
        let came = many(self.came.len(), "cloth", "cloths");
        let small = match self.too_small {
            0 => String::new(),
            1 => " 1 patch is too small to stay in the heap, as leftovers are reckoned here.".to_owned(),
            n => format!(" {n} patches are too small to stay in the heap, as leftovers are reckoned here."),
        };
        format!("Unpicked; {came} came back to the heap.{small}")
    }
}

impl Workroom {
    /// Goes back to an earlier step of the path; `None` is the empty table. Whatever was sewn
    /// beyond it comes apart on every head of the quilt.
    ///
    /// # Errors
    /// A step that isn't on the path; a head that has moved in the meantime.
    pub fn unpick(&mut self, at: &At, to: Option<StepId>) -> Result<UnpickReport> {
        self.deed(UNPICK, |deed| {
            let (key, head) = known_head(deed.c, at)?;
            let path = path(deed.c, head.tip)?;
            let count = match to {
                Some(step) => on_path(&path, step)?,
                None => 0,
            };
            let sewn = sewn_count(&path, head.sewn);
            let now_sewn = step_before(&path, sewn.min(count));
            let (mut came, mut too_small) = (Vec::new(), 0);
            if count < sewn {
                check_not_joined(deed, key)?;
                let patches = sewn_path(deed.c, key)?;
                let laid = patches.iter().skip(count).filter(|s| matches!(s.entry.step, Step::Lay { .. }));
                let laid = laid.count();
                came = take_apart(deed, key, count)?;
                too_small = laid.saturating_sub(came.len());
                retract_sewn(deed, key, &head.name, to)?;
            }
            let head = deed.put_head(key, Some(&head), &head.name, to, now_sewn)?;
            Ok(UnpickReport { head: Head::of(&at.quilt, head), came, too_small })
        })
    }

    /// Goes forward again to where the head was before it was last unpicked to this step. What
    /// was sewn there is chalk now: its cloth has come apart.
    ///
    /// # Errors
    /// Nothing was unpicked to this step.
    pub fn resew(&mut self, at: &At) -> Result<Head> {
        self.deed("resew", |deed| {
            let (key, head) = known_head(deed.c, at)?;
            let now = HeadState::of(&head).tip;
            let found = deeds::called(deed.c, UNPICK)?.into_iter().find_map(|row| {
                row.changes.into_iter().find_map(|change| match change {
                    Change::Head { quilt, name, before: Some(before), after: Some(after) }
                        if quilt == key && name == head.name && after.tip == now && before.tip != now =>
                    {
                        Some(before)
                    }
                    _ => None,
                })
            });
            let (tip, _) = found.ok_or(WorkroomError::NothingToResew)?.steps()?;
            let head = deed.put_head(key, Some(&head), &head.name, tip, head.sewn)?;
            Ok(Head::of(&at.quilt, head))
        })
    }
}

/// Refuses to take apart what is sewn in another quilt.
pub(super) fn check_not_joined(deed: &Deed<'_>, key: QuiltKey) -> Result<()> {
    let Some(into) = deed.stash.joined_into(key) else { return Ok(()) };
    let all = quilts::all(deed.c)?;
    let name = all.into_iter().find(|(other, _)| *other == into).map(|(_, name)| name);
    Err(WorkroomError::JoinedInto(name.unwrap_or_else(|| "a quilt that is gone".to_owned())))
}

/// Gives back the patches of all that is sewn beyond the first `count` steps, on whatever head.
pub(super) fn take_apart(deed: &mut Deed<'_>, key: QuiltKey, count: usize) -> Result<Vec<ClothId>> {
    let mut came = Vec::new();
    for step in sewn_path(deed.c, key)?.iter().skip(count) {
        came.extend(give_back(deed, key, step)?);
    }
    Ok(came)
}

/// Gives back one patch: what was laid, less what trims took off since.
pub(super) fn give_back(deed: &mut Deed<'_>, key: QuiltKey, step: &PathStep) -> Result<Vec<ClothId>> {
    let Step::Lay { at, cut: laid, .. } = &step.entry.step else { return Ok(Vec::new()) };
    let Some(cut) = deed.stash.cut_for(key, step.entry.mark.0).cloned() else { return Ok(Vec::new()) };
    let whole = deed.stash.get(cut.from).map(|item| item.came.clone());
    let whole = whole.ok_or(WorkroomError::NoSuchCloth(cut.from))?;
    let laid = Region { outer: at.apply_all(laid), holes: Vec::new() };
    let rest = plane::difference(&laid, &cut.trimmed).into_iter();
    let kept: Vec<Region> = rest.filter(|region| deed.usable.keeps(region)).collect();
    let came: Vec<_> = kept.into_iter().map(|region| portion(&whole, region, deed.new_id())).collect();
    let ids = came.iter().map(|cloth| cloth.id).collect();
    deed.fact(&Fact::Unpicked { by: by(key, step), gone: Vec::new(), came })?;
    Ok(ids)
}
