//! "Sewn up to here": cloth is cut, offcuts come back, and the steps are facts.

use super::shelf::on_path;
use super::{At, Bench, Head, PathStep, known_head, path, sewn_count};
use crate::deed::{Cut, Deed};
use crate::error::{Result, WorkroomError};
use crate::stash::{By, Fact, offcut_cloth};
use crate::store::quilts::QuiltKey;
use crate::store::{entries, heads};
use crate::workroom::Workroom;
use plane::{Region, polygon};
use quilt::cloth::ClothId;
use quilt::log::{Mark, Step, StepId};

/// What sewing did to the stash.
#[derive(Clone, Debug, PartialEq)]
pub struct SewnReport {
    /// The head as it is now.
    pub head: Head,
    /// How many patches were cut.
    pub cut: usize,
    /// The offcuts that came back as cloth.
    pub came: Vec<ClothId>,
    /// What was cut off or left and is too small to keep, in square inches.
    pub waste_in2: f64,
    /// What was cut though the stash had no such cloth, in square inches.
    pub beyond_in2: f64,
}

impl Workroom {
    /// Says that a head is sewn up to and including a step. With `anyway`, cloth that the stash
    /// doesn't have is taken as cut all the same: the maker knows what she did.
    ///
    /// # Errors
    /// A step that isn't on the path or is sewn already; other steps sewn on another head; a
    /// patch that its cloth has no room for, unless `anyway`.
    pub fn sew(&mut self, at: &At, upto: StepId, anyway: bool) -> Result<SewnReport> {
        self.deed("sewn", |deed| {
            let (key, head) = known_head(deed.c, at)?;
            let path = path(deed.c, head.tip)?;
            let (from, to) = (sewn_count(&path, head.sewn), on_path(&path, upto)?);
            let new = path.get(from..to).filter(|new| !new.is_empty()).ok_or_else(|| {
                let mark = path.get(to.saturating_sub(1)).map_or(Mark(0), |step| step.entry.mark);
                WorkroomError::SewnAlready(mark)
            })?;
            one_path(deed, key, &head.name, upto)?;
            let mut report = SewnReport {
                head: Head::of(&at.quilt, head.clone()),
                cut: 0,
                came: Vec::new(),
                waste_in2: 0.0,
                beyond_in2: 0.0,
            };
            let mut bench = Bench::replay(path.get(..from).unwrap_or_default())?;
            for step in new {
                sew_step(deed, key, &mut bench, step, anyway, &mut report)?;
            }
            let head = deed.put_head(key, Some(&head), &head.name, head.tip, Some(upto))?;
            report.head = Head::of(&at.quilt, head);
            Ok(report)
        })
    }
}

/// What is sewn on all heads of a quilt lies on one path.
fn one_path(deed: &Deed<'_>, key: QuiltKey, own: &str, upto: StepId) -> Result<()> {
    for head in heads::all(deed.c, key)? {
        let along = entries::is_before(deed.c, head.sewn, Some(upto))?
            || entries::is_before(deed.c, Some(upto), head.sewn)?;
        if head.name != own && !along {
            return Err(WorkroomError::SewnElsewhere { other: head.name });
        }
    }
    Ok(())
}

/// One step becomes a fact, unless another head of the quilt has made it one.
fn sew_step(
    deed: &mut Deed<'_>,
    key: QuiltKey,
    bench: &mut Bench,
    step: &PathStep,
    anyway: bool,
    report: &mut SewnReport,
) -> Result<()> {
    let before = bench.table.offcuts().len();
    bench.apply(&step.entry)?;
    if already_sewn(deed, key, step.id)? {
        return Ok(());
    }
    let by = by(key, step);
    if let Step::Lay { cloth, at, cut } = &step.entry.step {
        let piece = at.apply_all(cut);
        let cut = deed.cut(&Cut { cloth: *cloth, piece: &piece, by: by.clone(), keep: false, anyway })?;
        report.cut += 1;
        report.waste_in2 += cut.waste_in2;
        report.beyond_in2 += cut.beyond_in2;
    }
    let Bench { table, .. } = bench;
    for offcut in table.offcuts().iter().skip(before) {
        let known = |id| deed.stash.get(id).map(|item| &item.came);
        let mut waste_in2: f64 = offcut.parts.iter().map(|part| polygon::area(&part.piece)).sum();
        let kept: Vec<_> =
            offcut_cloth(offcut, table, known, deed.usable).into_iter().filter(|o| o.usable).collect();
        for mut came in kept {
            waste_in2 -= came.cloth.outline.area();
            came.cloth.id = deed.new_id();
            report.came.push(came.cloth.id);
            deed.fact(&Fact::Offcut { by: by.clone(), came: Some(came.cloth), waste_in2: 0.0 })?;
        }
        let waste_in2 = waste_in2.max(0.0);
        if waste_in2 > plane::READING {
            deed.fact(&Fact::Offcut { by: by.clone(), came: None, waste_in2 })?;
            report.waste_in2 += waste_in2;
        }
    }
    Ok(())
}

/// Whether some head of the quilt is sewn up to this step or further.
fn already_sewn(deed: &Deed<'_>, key: QuiltKey, step: StepId) -> Result<bool> {
    for head in heads::all(deed.c, key)? {
        if head.sewn.is_some() && entries::is_before(deed.c, Some(step), head.sewn)? {
            return Ok(true);
        }
    }
    Ok(false)
}

pub(super) fn by(quilt: QuiltKey, step: &PathStep) -> By {
    By::Step { quilt, step: step.id.to_string(), mark: step.entry.mark.0 }
}

/// What is still there of a patch that was cut: what was taken less what trims took off since.
pub(super) fn rest_of_patch(bench: &Bench, step: &PathStep, taken: &[Region]) -> Vec<Region> {
    let Some(patch) = bench.table.patches().get(&step.entry.mark) else { return taken.to_vec() };
    let trimmed: Vec<Region> = bench
        .table
        .offcuts()
        .iter()
        .flat_map(|offcut| &offcut.parts)
        .filter(|part| part.patch == step.entry.mark)
        .map(|part| Region { outer: patch.at.apply_all(&part.piece), holes: Vec::new() })
        .collect();
    taken.iter().flat_map(|region| plane::difference(region, &trimmed)).collect()
}
