//! "Sewn up to here": cloth is cut, offcuts come back, and the steps are facts.

use super::shelf::on_path;
use super::{At, Bench, Head, PathStep, known_head, path, sewn_count, sewn_path};
use crate::audit::{TOUCH_IN2, overlap};
use crate::deed::{Cut, Deed};
use crate::error::{Result, WorkroomError};
use crate::stash::{By, CRUMB_IN2, Fact, Left, Off, hole_free, offcut_cloth, voided};
use crate::store::quilts::QuiltKey;
use crate::store::{entries, facts, heads};
use crate::workroom::Workroom;
use plane::{Point, Region, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Mark, Step, StepId};
use quilt::table::{Offcut, OffcutPart, Table};
use std::collections::{BTreeMap, BTreeSet};

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
            for (i, step) in new.iter().enumerate() {
                let after = path.get(from + i + 1..).unwrap_or_default();
                sew_step(deed, key, &mut bench, (step, after), anyway, &mut report)?;
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

/// One step becomes a fact, unless another head of the quilt has made it one. What the steps after
/// it are to be cut from is kept, however small.
fn sew_step(
    deed: &mut Deed<'_>,
    key: QuiltKey,
    bench: &mut Bench,
    (step, after): (&PathStep, &[PathStep]),
    anyway: bool,
    report: &mut SewnReport,
) -> Result<()> {
    let offcuts = bench.apply_for_offcuts(&step.entry)?;
    if already_sewn(deed, key, step.id)? {
        return Ok(());
    }
    let by = by(key, step);
    if let Step::Lay { cloth, at, cut } = &step.entry.step {
        let piece = at.apply_all(cut);
        let next = laid_of(deed, *cloth, after);
        let by = by.clone();
        let cut = deed.cut(&Cut { cloth: *cloth, piece: &piece, by, keep: false, anyway, next: &next })?;
        report.cut += 1;
        report.waste_in2 += cut.waste_in2;
        report.beyond_in2 += cut.beyond_in2;
    }
    let trimmed = enter_offcuts(deed, key, &bench.table, &offcuts, step, Vec::new())?;
    report.came.extend(trimmed.came);
    report.waste_in2 += trimmed.waste_in2;
    Ok(())
}

/// What steps lay of one cloth and what was cut from it, in its coordinates.
fn laid_of(deed: &Deed<'_>, cloth: ClothId, steps: &[PathStep]) -> Vec<Vec<Point>> {
    let root = deed.stash.root(cloth);
    let laid = steps.iter().filter_map(|step| match &step.entry.step {
        Step::Lay { cloth, at, cut } if deed.stash.root(*cloth) == root => Some(at.apply_all(cut)),
        _ => None,
    });
    laid.collect()
}

/// What trims brought.
#[derive(Default)]
pub(super) struct Trimmed {
    pub(super) came: Vec<ClothId>,
    pub(super) waste_in2: f64,
}

/// What the trims of a step took off comes back, under these names as far as they go.
pub(super) fn enter_offcuts(
    deed: &mut Deed<'_>,
    key: QuiltKey,
    table: &Table,
    offcuts: &[Offcut],
    step: &PathStep,
    names: Vec<ClothId>,
) -> Result<Trimmed> {
    let (by, mut names, mut trimmed) = (by(key, step), names.into_iter(), Trimmed::default());
    for offcut in offcuts {
        let offcut = not_yet_off(deed, key, table, offcut);
        let off = off(table, &offcut);
        let mut waste_in2: f64 = off.iter().map(|off| off.region.area()).sum();
        if waste_in2 <= plane::READING {
            continue;
        }
        let known = |id| deed.stash.get(id).map(|item| &item.came);
        let found = offcut_cloth(&had(deed, key, table, &offcut), table, known, deed.usable);
        let mut kept: Vec<Cloth> = found.into_iter().filter(|o| o.usable).map(|o| o.cloth).collect();
        waste_in2 = (waste_in2 - kept.iter().map(|cloth| cloth.outline.area()).sum::<f64>()).max(0.0);
        trimmed.waste_in2 += waste_in2;
        deed.fact(&Fact::Offcut { by: by.clone(), came: None, waste_in2, off })?;
        for cloth in &mut kept {
            cloth.id = names.next().unwrap_or_else(|| deed.new_id());
            trimmed.came.push(cloth.id);
            let came = Some(cloth.clone());
            deed.fact(&Fact::Offcut { by: by.clone(), came, waste_in2: 0.0, off: Vec::new() })?;
        }
    }
    Ok(trimmed)
}

/// What an offcut takes off each patch, on the patch's cloth.
fn off(table: &Table, offcut: &Offcut) -> Vec<Off> {
    let off = |part: &OffcutPart| {
        let outer = table.patches().get(&part.patch)?.at.apply_all(&part.piece);
        Some(Off { patch: part.patch.0, region: Region { outer, holes: Vec::new() } })
    };
    offcut.parts.iter().filter_map(off).collect()
}

/// An offcut without what had been trimmed off its patches already: a seam that is unpicked and
/// sewn again does not trim the same cloth twice.
fn not_yet_off(deed: &Deed<'_>, key: QuiltKey, table: &Table, offcut: &Offcut) -> Offcut {
    let left = |part: &OffcutPart| -> Vec<OffcutPart> {
        let gone = deed.stash.cut_for(key, part.patch.0).map_or(&[][..], |cut| &cut.trimmed);
        let Some(patch) = table.patches().get(&part.patch).filter(|_| !gone.is_empty()) else {
            return vec![part.clone()];
        };
        let region = Region { outer: patch.at.apply_all(&part.piece), holes: Vec::new() };
        let left = plane::difference(&region, gone).into_iter().flat_map(hole_free);
        let left = left.filter(|piece| polygon::area(piece) > CRUMB_IN2);
        left.map(|piece| OffcutPart { piece: patch.at.inverse().apply_all(&piece), ..part.clone() }).collect()
    };
    Offcut { by: offcut.by, parts: offcut.parts.iter().flat_map(left).collect() }
}

/// An offcut as far as the ledger had cloth for its patches: what was cut beyond that is no cloth
/// that comes back.
fn had(deed: &Deed<'_>, key: QuiltKey, table: &Table, offcut: &Offcut) -> Offcut {
    let had = |part: &OffcutPart| -> Vec<OffcutPart> {
        let only = deed.stash.cut_for(key, part.patch.0).and_then(|cut| cut.only.as_ref());
        let Some((only, patch)) = only.zip(table.patches().get(&part.patch)) else {
            return vec![part.clone()];
        };
        let region = Region { outer: patch.at.apply_all(&part.piece), holes: Vec::new() };
        let had = only.iter().flat_map(|only| plane::intersection(&region, only)).flat_map(hole_free);
        let had = had.filter(|piece| polygon::area(piece) > CRUMB_IN2);
        had.map(|piece| OffcutPart { piece: patch.at.inverse().apply_all(&piece), ..part.clone() }).collect()
    };
    Offcut { by: offcut.by, parts: offcut.parts.iter().flat_map(had).collect() }
}

/// Tells the ledger what came sewn with a quilt, so that unpicking gives it back: the patches of
/// these cloths, which are new here; of cloths that were known, the patches from a part that the
/// ledger tells nothing of; and what was trimmed off them. It goes as far as the steps can be
/// carried out.
pub(crate) fn tell_sewn(deed: &mut Deed<'_>, key: QuiltKey, cloths: &BTreeSet<ClothId>) -> Result<()> {
    let mut bench = Bench::replay(&[])?;
    let told = told_of(deed)?;
    for step in sewn_path(deed.c, key)? {
        let Ok(offcuts) = bench.apply_for_offcuts(&step.entry) else { break };
        let by = by(key, &step);
        if let Step::Lay { cloth, at, cut } = &step.entry.step
            && let Some(item) = deed.stash.get(*cloth)
        {
            let patch = Region { outer: at.apply_all(cut), holes: Vec::new() };
            let told = told.get(&item.root).map_or(&[][..], Vec::as_slice);
            if cloths.contains(cloth) || told.iter().all(|part| overlap(part, &patch) <= TOUCH_IN2) {
                let cut = Fact::Cut {
                    from: *cloth,
                    by: by.clone(),
                    taken: vec![patch],
                    kept: None,
                    remainders: item.now.iter().cloned().collect(),
                    waste: Vec::new(),
                    beyond_in2: 0.0,
                };
                deed.fact(&cut)?;
            }
        }
        let off: Vec<Off> = offcuts.iter().flat_map(|offcut| off(&bench.table, offcut)).collect();
        if !off.is_empty() {
            deed.fact(&Fact::Offcut { by, came: None, waste_in2: 0.0, off })?;
        }
    }
    Ok(())
}

/// The parts of cloth that came here, or were cut here or in a quilt that came, by the eldest cloth
/// in whose coordinates they lie.
fn told_of(deed: &Deed<'_>) -> Result<BTreeMap<ClothId, Vec<Region>>> {
    let facts = facts::after(deed.c, 0)?;
    let void = voided(&facts);
    let mut told: BTreeMap<ClothId, Vec<Region>> = BTreeMap::new();
    for (_, fact) in facts.iter().filter(|(seq, _)| !void.contains(seq)) {
        let parts: Vec<(ClothId, &Region)> = match fact {
            Fact::Came { left: Left::Nothing, .. } => Vec::new(),
            Fact::Came { cloth, left: Left::Part(part) } => vec![(cloth.id, part)],
            Fact::Cut { from, taken, .. } => taken.iter().map(|part| (*from, part)).collect(),
            other => other.cloths().map(|cloth| (cloth.id, &cloth.outline)).collect(),
        };
        for (cloth, part) in parts {
            told.entry(deed.stash.root(cloth)).or_default().push(part.clone());
        }
    }
    Ok(told)
}

/// Whether some head of the quilt is sewn up to this step or further.
pub(super) fn already_sewn(deed: &Deed<'_>, key: QuiltKey, step: StepId) -> Result<bool> {
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
