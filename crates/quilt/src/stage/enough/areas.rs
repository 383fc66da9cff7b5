//! How much of each print a top uses: cut, trimmed off, and finished.

use super::Goods;
use super::need::{Asked, StageName};
use super::problem::EnoughProblem;
use super::work::WorkKind;
use crate::cloth::ClothId;
use crate::log::Mark;
use crate::stage::thread::Pieced;
use crate::table::Table;
use plane::polygon;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// How much of one print a top uses.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Used {
    /// Which print or cloth.
    pub goods: Goods,
    /// Patches of it that show.
    pub patches: u32,
    /// What is cut for them, in square inches.
    pub cut_in2: f64,
    /// Patches of it that are still to be cut.
    pub to_cut: u32,
    /// What is still to be cut for those, in square inches.
    pub to_cut_in2: f64,
    /// What of that was trimmed off again.
    pub trimmed_in2: f64,
    /// What shows when every free edge has been sewn.
    pub finished_in2: f64,
}

/// What is still to be cut and sewn of a stage.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ToSew {
    /// Which stage.
    pub stage: StageName,
    /// Patches to cut.
    pub patches: u32,
    /// Cloth to cut for them, in square inches as cut.
    pub cloth: Vec<(Goods, f64)>,
    /// Seams to sew: how many, and how long together.
    pub seams: Pieced,
}

/// What a top uses and how much there is to sew on it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct UsedInTop {
    /// Each print, in the order of its number; cloths without a number last.
    pub prints: Vec<Used>,
    /// Length of its seams, in inches.
    pub seams_in: f64,
    /// Length of those that are still to be sewn.
    pub to_sew_in: f64,
    /// What is still to be cut and sewn, stage by stage, in their order.
    pub to_sew: Vec<ToSew>,
}

impl UsedInTop {
    /// Patches in all.
    #[must_use]
    pub fn patches(&self) -> u32 {
        self.prints.iter().map(|used| used.patches).sum()
    }

    /// What the stages that sew this top still ask for: cloth as cut, cutting and sewing. What has been
    /// cut has left the stash.
    #[must_use]
    pub fn asks(&self) -> Asked {
        let mut asked = Asked::default();
        for part in &self.to_sew {
            for (goods, area_in2) in &part.cloth {
                asked.need(part.stage, goods.clone(), *area_in2);
            }
            asked.work(part.stage, WorkKind::Cut, f64::from(part.patches));
            asked.work(part.stage, WorkKind::Seam, part.seams.length_in);
        }
        asked
    }
}

/// What is known of the cloths and steps of a table from outside it.
#[derive(Clone, Copy)]
pub struct Known<'a> {
    /// The number of a cloth's print.
    pub print_of: &'a dyn Fn(ClothId) -> Option<u64>,
    /// Whether a step has been done in cloth: its patch cut, its seam sewn.
    pub is_done: &'a dyn Fn(Mark) -> bool,
    /// To which stage a step belongs.
    pub stage_of: &'a dyn Fn(Mark) -> StageName,
}

/// Counts what a top uses. A patch sliced apart counts as one, and counts whole in each top that shows
/// a part of it.
///
/// # Errors
/// No such top on the table.
pub fn used_in_top(
    table: &Table,
    top: Mark,
    allowance_in: f64,
    known: &Known<'_>,
) -> Result<UsedInTop, EnoughProblem> {
    let top = table.top(top).ok_or(EnoughProblem::NoTop)?;
    let goods = |cloth: ClothId| Goods::of_cloth(cloth, (known.print_of)(cloth));
    let mut prints = BTreeMap::new();
    let mut shown = BTreeSet::new();
    let mut stages = Stages::new();
    for face in top.faces().values() {
        let Some(patch) = table.patches().get(&face.patch) else { continue };
        let used = of_print(&mut prints, goods(patch.cloth));
        used.finished_in2 += polygon::area(&top.finished_points(face, allowance_in)).max(0.0);
        if shown.insert(face.patch) {
            let area = polygon::area(&patch.cut).abs();
            let to_cut = !(known.is_done)(face.patch);
            used.patches += 1;
            used.cut_in2 += area;
            used.to_cut += u32::from(to_cut);
            used.to_cut_in2 += if to_cut { area } else { 0.0 };
            if to_cut {
                let stage = stages.entry((known.stage_of)(face.patch)).or_default();
                stage.patches += 1;
                let goods = goods(patch.cloth);
                stage.cloth.entry(goods.key()).or_insert((goods, 0.0)).1 += area;
            }
        }
    }
    for part in table.offcuts().iter().flat_map(|offcut| &offcut.parts) {
        if let Some(patch) = table.patches().get(&part.patch).filter(|_| shown.contains(&part.patch)) {
            of_print(&mut prints, goods(patch.cloth)).trimmed_in2 += polygon::area(&part.piece).abs();
        }
    }
    let seams = top.seams();
    for (name, seam) in seams.iter().filter(|(name, _)| !(known.is_done)(name.by)) {
        let pieced = &mut stages.entry((known.stage_of)(name.by)).or_default().seams;
        pieced.seams += 1;
        pieced.length_in += seam.sewn_in;
    }
    let to_sew = stages.into_iter().map(|(stage, part)| ToSew {
        stage,
        patches: part.patches,
        cloth: part.cloth.into_values().collect(),
        seams: part.seams,
    });
    let to_sew: Vec<ToSew> = to_sew.collect();
    Ok(UsedInTop {
        prints: prints.into_values().collect(),
        seams_in: seams.values().map(|seam| seam.sewn_in).sum(),
        to_sew_in: to_sew.iter().map(|part| part.seams.length_in).sum(),
        to_sew,
    })
}

/// What is found for one stage.
#[derive(Default)]
struct Part {
    patches: u32,
    cloth: BTreeMap<super::goods::Key, (Goods, f64)>,
    seams: Pieced,
}

type Stages = BTreeMap<StageName, Part>;

type Prints = BTreeMap<super::goods::Key, Used>;

fn of_print(prints: &mut Prints, goods: Goods) -> &mut Used {
    prints.entry(goods.key()).or_insert_with(|| Used {
        goods,
        patches: 0,
        cut_in2: 0.0,
        to_cut: 0,
        to_cut_in2: 0.0,
        trimmed_in2: 0.0,
        finished_in2: 0.0,
    })
}
