//! How much of each print a top uses: cut, trimmed off, and finished.

use super::Goods;
use super::need::{Asked, StageName};
use super::problem::EnoughProblem;
use super::work::WorkKind;
use crate::cloth::ClothId;
use crate::log::Mark;
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

/// What a top uses and how much there is to sew on it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct UsedInTop {
    /// Each print, in the order of its number; cloths without a number last.
    pub prints: Vec<Used>,
    /// Length of its seams, in inches.
    pub seams_in: f64,
    /// Length of those that are still to be sewn.
    pub to_sew_in: f64,
}

impl UsedInTop {
    /// Patches in all.
    #[must_use]
    pub fn patches(&self) -> u32 {
        self.prints.iter().map(|used| used.patches).sum()
    }

    /// What a stage still asks for that is to sew this top: cloth as cut, cutting and sewing. What has
    /// been cut has left the stash.
    #[must_use]
    pub fn asks(&self, stage: StageName) -> Asked {
        let mut asked = Asked::default();
        for used in &self.prints {
            asked.need(stage, used.goods.clone(), used.to_cut_in2);
        }
        let to_cut: u32 = self.prints.iter().map(|used| used.to_cut).sum();
        asked.work(stage, WorkKind::Cut, f64::from(to_cut));
        asked.work(stage, WorkKind::Seam, self.to_sew_in);
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
        }
    }
    for part in table.offcuts().iter().flat_map(|offcut| &offcut.parts) {
        if let Some(patch) = table.patches().get(&part.patch).filter(|_| shown.contains(&part.patch)) {
            of_print(&mut prints, goods(patch.cloth)).trimmed_in2 += polygon::area(&part.piece).abs();
        }
    }
    let seams = top.seams();
    let to_sew = seams.iter().filter(|(name, _)| !(known.is_done)(name.by)).map(|(_, seam)| seam.sewn_in);
    Ok(UsedInTop {
        prints: prints.into_values().collect(),
        seams_in: seams.values().map(|seam| seam.sewn_in).sum(),
        to_sew_in: to_sew.sum(),
    })
}

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
