//! Amending: an earlier step was other than the log says. The later ones are done again under
//! their own names; the first that no longer holds stops it. Nothing is dropped.

use super::sewn::{by, enter_offcuts};
use super::unpick::{check_not_joined, give_back, take_apart};
use super::{At, Bench, Head, PathStep, known_head, path, retract_sewn, sewn_count, step_before};
use crate::deed::{Cut, Deed};
use crate::error::{Result, WorkroomError};
use crate::stash::Brought;
use crate::store::entries;
use crate::store::heads::{self, HeadRow};
use crate::store::quilts::QuiltKey;
use crate::workroom::Workroom;
use quilt::Problem;
use quilt::cloth::ClothId;
use quilt::length::many;
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

impl Amended {
    /// What it came to, as the maker is told.
    #[must_use]
    pub fn words(&self) -> String {
        let steps = |n: usize| many(n, "step", "steps");
        let Some((mark, problem)) = &self.stopped else {
            return match self.held {
                0 => "Noted.".to_owned(),
                1 => "Noted; the later step holds.".to_owned(),
                held => format!("Noted; all {held} later steps hold."),
            };
        };
        let held = match self.held {
            0 => "Noted.".to_owned(),
            1 => "Noted; the next step holds.".to_owned(),
            held => format!("Noted; the next {held} steps hold."),
        };
        format!(
            "{held} Step {mark} can't be sewn as planned: {problem} From there on {} must be planned again; the log as it was is kept as `{}`.",
            steps(self.chalk.len()),
            self.before
        )
    }
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
                check_not_joined(deed, key)?;
                let held = sewn.min(index + again.steps.len());
                came = take_apart(deed, key, held)?;
                let (past, old) = path.get(..held).unwrap_or_default().split_at(index);
                let new = again.steps.get(..old.len()).unwrap_or_default();
                put_stash_right(deed, key, past, old, new, amend.anyway)?;
                retract_sewn(deed, key, &head.name, fork)?;
                now_sewn = new.last().map(|step| step.id);
            }
            let tip = again.steps.last().map(|step| step.id);
            let head = deed.put_head(key, Some(&head), &head.name, tip, now_sewn)?;
            let chalk = path.iter().skip(index + again.steps.len()).map(|step| step.entry.clone()).collect();
            Ok(Amended {
                head: Head::of(&at.quilt, head),
                held: again.steps.len() - 1,
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
    steps: Vec<PathStep>,
    stopped: Option<(Mark, Problem)>,
}

fn do_again(deed: &Deed<'_>, path: &[PathStep], index: usize, amend: &Amend) -> Result<Again> {
    let mut bench = Bench::replay(path.get(..index).unwrap_or_default())?;
    let old = path.get(index).ok_or(WorkroomError::NoSuchMark(amend.mark))?;
    let entry = Entry { step: amend.step.clone(), ..old.entry.clone() };
    bench.apply(&entry)?;
    let mut again = Again { steps: Vec::new(), stopped: None };
    again.add(deed, step_before(path, index), entry.to_bytes(), entry)?;
    for step in path.iter().skip(index + 1) {
        match bench.apply(&step.entry) {
            Ok(()) => {
                let before = again.steps.last().map(|step| step.id);
                again.add(deed, before, step.bytes.clone(), step.entry.clone())?;
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

impl Again {
    fn add(&mut self, deed: &Deed<'_>, parent: Option<StepId>, bytes: Vec<u8>, entry: Entry) -> Result<()> {
        let id = entries::insert(deed.c, parent, &bytes)?;
        self.steps.push(PathStep { id, entry, bytes });
        Ok(())
    }
}

/// Keeps the path as it was under a head of its own.
fn keep_before(deed: &mut Deed<'_>, key: QuiltKey, head: &HeadRow, sewn: Option<StepId>) -> Result<String> {
    let mut no = 1_u32;
    loop {
        let name = format!("{}-as-it-was-{no}", head.name);
        if heads::find(deed.c, key, &name)?.is_none() {
            deed.put_head(key, None, &name, head.tip, sewn)?;
            return Ok(name);
        }
        no += 1;
    }
}

/// The cloth that was not cut after all is whole again, and the one that was is cut; what the
/// trims took off is what they take off now. `old` and `new` are the same sewn steps after `past`,
/// the amended one first.
fn put_stash_right(
    deed: &mut Deed<'_>,
    key: QuiltKey,
    past: &[PathStep],
    old: &[PathStep],
    new: &[PathStep],
    anyway: bool,
) -> Result<()> {
    let names = take_offcuts_back(deed, key, old)?;
    let Some(amended) = old.first() else { return Ok(()) };
    if let Some(cut) = deed.stash.cut_for(key, amended.entry.mark.0).cloned() {
        let untouched = |id: &ClothId| deed.stash.untouched_since(cut.seq, *id);
        if cut.trimmed.is_empty() && untouched(&cut.from) && cut.born.iter().all(untouched) {
            deed.void(&[cut.seq])?;
        } else {
            give_back(deed, key, amended)?;
        }
    }
    let mut bench = Bench::replay(past)?;
    for (i, (step, names)) in new.iter().zip(names).enumerate() {
        let offcuts = bench.apply_for_offcuts(&step.entry)?;
        if let (0, Step::Lay { cloth, at, cut }) = (i, &step.entry.step) {
            let piece = at.apply_all(cut);
            deed.cut(&Cut {
                cloth: *cloth,
                piece: &piece,
                by: by(key, step),
                keep: false,
                anyway,
                next: &[],
            })?;
        }
        enter_offcuts(deed, key, &bench.table, &offcuts, step, names)?;
    }
    Ok(())
}

/// Takes back the offcuts of sewn steps, but for those that something has happened to since, and
/// returns the names they had, step by step.
fn take_offcuts_back(deed: &mut Deed<'_>, key: QuiltKey, steps: &[PathStep]) -> Result<Vec<Vec<ClothId>>> {
    let (mut void, mut names) = (Vec::new(), Vec::new());
    for step in steps {
        let facts = deed.stash.offcuts_of(key, step.id);
        let untouched =
            |(seq, came): &Brought| came.is_none_or(|cloth| deed.stash.untouched_since(*seq, cloth));
        let facts = if facts.iter().all(untouched) { facts } else { &[] };
        void.extend(facts.iter().map(|(seq, _)| *seq));
        names.push(facts.iter().filter_map(|(_, came)| *came).collect());
    }
    deed.void(&void)?;
    Ok(names)
}
