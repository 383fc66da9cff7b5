//! Everything that is said about joining centres: where each lies, coping, and the order of seams.

use super::block::Block;
use super::check::{check_blocks, check_coping, check_count, check_size};
use super::choice::{Arrangement, CentresChoice};
use super::coping::{common_of, fills};
use super::cost::{CentresCost, Goal, Judge};
use super::layout::{CentreSeam, Layout, Part, Sewn, What};
use super::problem::CentresProblem;
use super::seated::seated;
use super::tree::{Measured, Sizes, Tree};
use super::{exact, search};
use crate::chance::Chance;
use plane::Point;
use quilt::cloth::ClothId;
use serde::Serialize;

/// The most blocks that are laid out at once.
pub const MOST_BLOCKS: usize = 60;

/// A strip that brings something too small up to size.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CopingStrip {
    /// Its place among the parts.
    pub part: usize,
    /// Width that shows between its seams, in inches.
    pub finished_wide_in: f64,
    /// Length that shows.
    pub finished_long_in: f64,
    /// Width to cut, seam allowances included.
    pub cut_wide_in: f64,
    /// Length to cut.
    pub cut_long_in: f64,
    /// Whether it stands upright: its width lies along x.
    pub upright: bool,
    /// The cloth chosen for it, if any was.
    pub cloth: Option<ClothId>,
}

impl CopingStrip {
    /// The corners to cut, as it lies in the layout: y is up the wall.
    #[must_use]
    pub fn cut_corners(&self) -> Vec<Point> {
        let (wide, long) = (self.cut_wide_in, self.cut_long_in);
        let (x, y) = if self.upright { (wide, long) } else { (long, wide) };
        [(0.0, 0.0), (x, 0.0), (x, y), (0.0, y)].map(|(x, y)| Point::new(x, y)).to_vec()
    }
}

/// How a layout was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Found {
    /// All layouts that can be sliced were compared: none has fewer strips for the coping outside.
    Exactly,
    /// By a search from a seed: a better one may exist.
    BySearch,
    /// The maker gave it.
    Given,
}

/// Everything about joining centres.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CentresPlan {
    /// Finished width of the joined top, in inches.
    pub finished_width_in: f64,
    /// Finished height.
    pub finished_height_in: f64,
    /// Raw width of the joined top: finished and two seam allowances.
    pub raw_width_in: f64,
    /// Raw height.
    pub raw_height_in: f64,
    /// Seam allowance in inches.
    pub allowance_in: f64,
    /// Blocks and strips in their places, finished.
    pub parts: Vec<Part>,
    /// The coping strips.
    pub strips: Vec<CopingStrip>,
    /// The seams in the order of sewing.
    pub seams: Vec<CentreSeam>,
    /// Finished length of all seams, in inches.
    pub seams_in: f64,
    /// How many seams stop short and are closed later.
    pub partial_seams: usize,
    /// Share of the finished area that is coping.
    pub coping_share: f64,
    /// Area of cloth to cut for coping, in square inches.
    pub coping_cut_sq_in: f64,
    /// What it costs, term by term.
    pub cost: CentresCost,
    /// All terms together: smaller is better.
    pub cost_total: f64,
    /// How it was found.
    pub found: Found,
}

/// How many seeds are tried for a mixed layout that comes out too large, or with a strip too wide.
const TRIES: u64 = 4;

/// Plans how blocks are joined into a larger top. A mixed layout that doesn't come out is looked for again
/// from the next seeds.
///
/// # Errors
/// Numbers that make no sense, blocks missing or left over, a size that can't be reached, strips
/// that would be too thin, places that don't fit; each with what to do.
pub fn plan(
    blocks: &[Block],
    choice: &CentresChoice,
    allowance_in: f64,
) -> Result<CentresPlan, CentresProblem> {
    choice.check(allowance_in)?;
    check_blocks(blocks)?;
    let mut seed = choice.seed;
    loop {
        let tried = planned(blocks, &CentresChoice { seed, ..choice.clone() }, allowance_in);
        let is_luck =
            matches!(tried, Err(CentresProblem::TooLarge { .. } | CentresProblem::CopingTooWide { .. }));
        let tries = seed.wrapping_sub(choice.seed) + 1;
        if !(is_luck && choice.arrangement == Arrangement::Mixed && tries < TRIES) {
            return tried;
        }
        seed = seed.wrapping_add(1);
    }
}

/// A layout from one seed.
fn planned(
    blocks: &[Block],
    choice: &CentresChoice,
    allowance_in: f64,
) -> Result<CentresPlan, CentresProblem> {
    let goal = Goal {
        size: [choice.width_in, choice.height_in],
        tolerance: choice.tolerance_in,
        least: choice.least_coping_in,
    };
    let sizes = Sizes {
        blocks: blocks.iter().map(|block| [block.width_in, block.height_in]).collect(),
        place: None,
        least: choice.least_coping_in,
    };
    let mut judge = Judge::new(blocks, sizes, goal);
    let (layout, cost, found) = match &choice.arrangement {
        Arrangement::Given(seats) => seated(blocks, seats, &judge)?,
        Arrangement::Rows { across, down } => {
            check_count(blocks.len(), *across, *down)?;
            check_coping(blocks, choice)?;
            judge.sizes.place = Some(place(&judge, *across, *down));
            let order: Vec<usize> = (0..blocks.len()).collect();
            let mut chance = Chance::new(choice.seed);
            let start = Tree::rows(&order, *across);
            let found = search::seat(&judge, start, search::Changes::Places, &mut chance);
            laid(&judge, found, Found::BySearch)?
        }
        Arrangement::Mixed => {
            check_coping(blocks, choice)?;
            let (tree, how) = mixed(&judge, choice);
            laid(&judge, tree, how)?
        }
    };
    let plan = told(layout, cost, found, choice, allowance_in);
    check_strips(&plan, blocks, choice)?;
    Ok(plan)
}

/// Whether the plan keeps to what is wished of strips and partial seams.
fn check_strips(plan: &CentresPlan, blocks: &[Block], choice: &CentresChoice) -> Result<(), CentresProblem> {
    if let Some(first) = plan.partial_seams_told(blocks).into_iter().next().filter(|_| !choice.partial_seams)
    {
        return Err(CentresProblem::PartialSeams { count: plan.partial_seams, first });
    }
    let Some(most_in) = choice.most_coping_in else { return Ok(()) };
    let wide = |strip: &CopingStrip| strip.finished_wide_in > most_in + plane::READING;
    match plan.strips.iter().position(wide) {
        Some(i) => Err(CentresProblem::CopingTooWide {
            strip: i + 1,
            wide_in: plan.strips[i].finished_wide_in,
            most_in,
        }),
        None => Ok(()),
    }
}

fn mixed(judge: &Judge, choice: &CentresChoice) -> ((Tree, CentresCost), Found) {
    let mut chance = Chance::new(choice.seed);
    let is_small = judge.sizes.blocks.len() <= exact::EXACT_BLOCKS[usize::from(choice.may_turn)];
    let tree = if is_small { exact::best(&judge.sizes, judge.goal, choice.may_turn) } else { None };
    let (tree, how) = match tree {
        Some(tree) => (tree, Found::Exactly),
        None => (search::many(judge, choice.may_turn, &mut chance).0, Found::BySearch),
    };
    (search::seat(judge, tree, search::Changes::Seats, &mut chance), how)
}

/// The size that every place in the rows has: the least to which all blocks can be coped; where that
/// would leave too thin a strip outside, an even share of the wish if blocks can be coped to that.
fn place(judge: &Judge, across: usize, down: usize) -> [f64; 2] {
    [(0, across), (1, down)].map(|(way, count)| {
        let lengths: Vec<f64> = judge.sizes.blocks.iter().map(|size| size[way]).collect();
        let least = judge.sizes.least;
        let common = common_of(&lengths, least);
        let even = judge.goal.size[way] / count as f64;
        let have = common * count as f64;
        let fits = fills(have, judge.goal.end(have, way), least);
        if !fits && lengths.iter().all(|&length| fills(length, even, least)) { even } else { common }
    })
}

/// A tree laid out, or why it doesn't fit.
fn laid(
    judge: &Judge,
    (tree, cost): (Tree, CentresCost),
    found: Found,
) -> Result<(Layout, CentresCost, Found), CentresProblem> {
    let mut measured = Measured::default();
    measured.size_up(&tree, &judge.sizes);
    let size = measured.size;
    check_size(judge.goal, size)?;
    let end = [judge.goal.end(size[0], 0), judge.goal.end(size[1], 1)];
    Ok((Layout::of(&tree, &judge.sizes, end), cost, found))
}

fn told(
    layout: Layout,
    cost: CentresCost,
    found: Found,
    choice: &CentresChoice,
    allowance_in: f64,
) -> CentresPlan {
    let [width, height] = layout.size();
    let count = layout.parts.iter().filter(|part| matches!(part.what, What::Strip(_))).count();
    let strips: Vec<CopingStrip> =
        (0..count).filter_map(|i| coping_strip(&layout, i, choice, allowance_in)).collect();
    let coping: f64 = strips.iter().map(|strip| strip.finished_wide_in * strip.finished_long_in).sum();
    let short = |seam: &&CentreSeam| matches!(seam.sewn, Sewn::StopsShort { .. });
    CentresPlan {
        finished_width_in: width,
        finished_height_in: height,
        raw_width_in: width + 2.0 * allowance_in,
        raw_height_in: height + 2.0 * allowance_in,
        allowance_in,
        seams_in: layout.seams.iter().map(|seam| seam.length_in).sum(),
        partial_seams: layout.seams.iter().filter(short).count(),
        coping_share: coping / (width * height),
        coping_cut_sq_in: strips.iter().map(|strip| strip.cut_wide_in * strip.cut_long_in).sum(),
        cost,
        cost_total: cost.total(),
        found,
        strips,
        parts: layout.parts,
        seams: layout.seams,
    }
}

fn coping_strip(
    layout: &Layout,
    strip: usize,
    choice: &CentresChoice,
    allowance_in: f64,
) -> Option<CopingStrip> {
    let part = layout.parts.iter().position(|part| part.what == What::Strip(strip))?;
    let (at, way) = layout.strip_widths(strip)?;
    let (wide, long) = if way == 0 { (at.width_in, at.height_in) } else { (at.height_in, at.width_in) };
    Some(CopingStrip {
        part,
        finished_wide_in: wide,
        finished_long_in: long,
        cut_wide_in: wide + 2.0 * allowance_in,
        cut_long_in: long + 2.0 * allowance_in,
        upright: way == 0,
        cloth: (!choice.coping.is_empty()).then(|| choice.coping[strip % choice.coping.len()]),
    })
}
