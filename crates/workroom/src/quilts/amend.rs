//! Amending: an earlier step was other than the log says. The later ones are done again under
//! their own names; the first that no longer holds stops it. Nothing is dropped.

use super::sewn::by;
use super::unpick::{give_back, take_apart};
use super::{At, Bench, Head, PathStep, known_head, path, retract_sewn, sewn_count, step_before};
use crate::deed::{Cut, Deed};
use crate::error::{Result, WorkroomError};
use crate::stash::Fact;
use crate::store::entries;
use crate::store::heads::{self, HeadRow};
use crate::store::quilts::QuiltKey;
use crate::workroom::Workroom;
use quilt::Problem;
use quilt::cloth::ClothId;
use quilt::log::{Entry, Mark, Step, StepId};

/// What is amended.
#[derive(Clone, Debug, PartialEq)]
pub struct Amend {
    /// Which step.
    pub mark: Mark,
    /// What it really is.
    pub step: Step,
    /// Whether cloth that the stash doesn't have is taken as cut all the same.
    pub anyway: bool,
}

/// What amending did.
#[derive(Clone, Debug, PartialEq)]
pub struct Amended {
    /// The head as it is now.
    pub head: Head,
    /// How many later steps hold.
    pub held: usize,
    /// The head that keeps the path as it was before.
    pub before: String,
    /// The first later step that no longer holds, and why.
    pub stopped: Option<(Mark, Problem)>,
    /// That step and the ones after it, to be planned again.
    pub chalk: Vec<Entry>,
    /// The patches of those steps that were sewn: cloth again.
    pub came: Vec<ClothId>,
}

impl Workroom {
    /// Puts another step in the place of one on the path, under its mark. If the step is sewn,
    /// so is the new one, and the stash is put right: the cloth that was not cut is whole again,
    /// and the other one is cut. Sewn steps that no longer hold come apart, as if unpicked.
    ///
    /// # Errors
    /// No such step; a new step that can't be carried out; cloth that has no room for it, unless
    /// `anyway`.
    pub fn amend(&mut self, at: &At, amend: &Amend) -> Result<Amended> {
        self.deed("amend", |deed| {
            let (key, head) = known_head(deed.c, at)?;
            let path = path(deed.c, head.tip)?;
            let index = path.iter().position(|step| step.entry.mark == amend.mark);
            let index = index.ok_or(WorkroomError::NoSuchMark(amend.mark))?;
            let again = do_again(deed, &path, index, amend)?;
            let sewn = sewn_count(&path, head.sewn);
            let fork = step_before(&path, index);
            let before = keep_before(deed, key, &head, if sewn > index { fork } else { head.sewn })?;
            let (mut now_sewn, mut came) = (head.sewn, Vec::new());
            if sewn > index {
                came = take_apart(deed, key, &path, index + again.ids.len(), sewn)?;
                put_stash_right(deed, key, &path, index, sewn, &again, amend.anyway)?;
                retract_sewn(deed, key, &head.name, fork)?;
                now_sewn = again.ids.get(sewn.min(again.ids.len() + index) - index - 1).copied();
            }
            let tip = again.ids.last().copied();
            let head = deed.put_head(key, Some(&head), &head.name, tip, now_sewn)?;
            let chalk = path.iter().skip(index + again.ids.len()).map(|step| step.entry.clone()).collect();
            Ok(Amended {
                head: Head::of(&at.quilt, head),
                held: again.ids.len() - 1,
                before,
                stopped: again.stopped,
                chalk,
                came,
            })
        })
    }
}

/// The path from the amended step on, as far as it holds.
struct Again {
    ids: Vec<StepId>,
    stopped: Option<(Mark, Problem)>,
    amended: PathStep,
}

fn do_again(deed: &Deed<'_>, path: &[PathStep], index: usize, amend: &Amend) -> Result<Again> {
    let mut bench = Bench::replay(path.get(..index).unwrap_or_default())?;
    let old = path.get(index).ok_or(WorkroomError::NoSuchMark(amend.mark))?;
    let entry = Entry { step: amend.step.clone(), ..old.entry.clone() };
    bench.apply(&entry)?;
    let bytes = entry.to_bytes();
    let first = entries::insert(deed.c, step_before(path, index), &bytes)?;
    let mut again = Again { ids: vec![first], stopped: None, amended: PathStep { id: first, entry, bytes } };
    let mut tip = first;
    for step in path.iter().skip(index + 1) {
        match bench.apply(&step.entry) {
            Ok(()) => {
                tip = entries::insert(deed.c, Some(tip), &step.bytes)?;
                again.ids.push(tip);
            }
            Err(WorkroomError::Refused { mark, problem }) => {
                again.stopped = Some((mark, problem));
                break;
            }
            Err(other) => return Err(other),
        }
    }
    Ok(again)
}

/// Keeps the path as it was under a head of its own.
fn keep_before(deed: &mut Deed<'_>, key: QuiltKey, head: &HeadRow, sewn: Option<StepId>) -> Result<String> {
    let mut no = 1_u32;
    loop {
        let name = format!("{}~before-amend-{no}", head.name);
        if heads::find(deed.c, key, &name)?.is_none() {
            deed.put_head(key, None, &name, head.tip, sewn)?;
            return Ok(name);
        }
        no += 1;
    }
}

/// The cloth that was not cut after all is whole again, and the one that was is cut.
fn put_stash_right(
    deed: &mut Deed<'_>,
    key: QuiltKey,
    path: &[PathStep],
    index: usize,
    sewn: usize,
    again: &Again,
    anyway: bool,
) -> Result<()> {
    let Some(old) = path.get(index) else { return Ok(()) };
    if let Some(cut) = deed.stash.cut_for(key, old.entry.mark.0).cloned() {
        if deed.stash.is_untouched(&cut) {
            deed.fact(&Fact::Void(cut.seq))?;
        } else {
            let bench = Bench::replay(path.get(..sewn).unwrap_or_default())?;
            give_back(deed, key, &bench, old)?;
        }
    }
    if let Step::Lay { cloth, at, cut } = &again.amended.entry.step {
        let piece = at.apply_all(cut);
        let by = by(key, &again.amended);
        deed.cut(&Cut { cloth: *cloth, piece: &piece, by, keep: false, anyway })?;
    }
    Ok(())
}
