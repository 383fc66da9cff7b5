//! Everything that is said about joining centres: where each lies, coping, and the order of seams.

use super::block::Block;
use super::choice::{Arrangement, CentresChoice, Seat, within};
use super::coping::{common_of, fills};
use super::cost::{CentresCost, Goal, Judge};
use super::layout::{CentreSeam, Layout, Part, Rect, Sewn, Unit, What};
use super::problem::CentresProblem;
use super::tree::{Measured, Sizes, Tree};
use super::{exact, given, search};
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

/// Plans how blocks are joined into a larger top.
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
            let found = search::improve(&judge, start, search::Changes::Places, &mut chance);
            laid(&judge, found, Found::BySearch)?
        }
        Arrangement::Mixed => {
            check_coping(blocks, choice)?;
            let (tree, how) = mixed(&judge, choice);
            laid(&judge, tree, how)?
        }
    };
    Ok(told(layout, cost, found, choice, allowance_in))
}

fn mixed(judge: &Judge, choice: &CentresChoice) -> ((Tree, CentresCost), Found) {
    let mut chance = Chance::new(choice.seed);
    let is_small = judge.sizes.blocks.len() <= exact::EXACT_BLOCKS[usize::from(choice.may_turn)];
    let tree = if is_small { exact::best(&judge.sizes, judge.goal, choice.may_turn) } else { None };
    let (tree, how) = match tree {
        Some(tree) => (tree, Found::Exactly),
        None => (search::many(judge, choice.may_turn, &mut chance).0, Found::BySearch),
    };
    (search::improve(judge, tree, search::Changes::Seats, &mut chance), how)
}

fn check_blocks(blocks: &[Block]) -> Result<(), CentresProblem> {
    if blocks.is_empty() || blocks.len() > MOST_BLOCKS {
        return Err(CentresProblem::HowMany { count: blocks.len(), most: MOST_BLOCKS });
    }
    for block in blocks {
        within("finished width of a block", block.width_in, [0.25, quilt::length::MOST_IN])?;
        within("finished height of a block", block.height_in, [0.25, quilt::length::MOST_IN])?;
        within("visual weight of a block", block.weight, [0.0, 100.0])?;
        for print in &block.prints {
            within("share of a print", print.share, [0.0, 1.0 + 1e-9])?;
        }
    }
    Ok(())
}

fn check_count(have: usize, across: usize, down: usize) -> Result<(), CentresProblem> {
    within("number of blocks in a row", across as f64, [1.0, MOST_BLOCKS as f64])?;
    within("number of rows", down as f64, [1.0, MOST_BLOCKS as f64])?;
    let seats = across * down;
    if have < seats {
        Err(CentresProblem::BlocksMissing { across, down, have, missing: seats - have })
    } else if have > seats {
        Err(CentresProblem::BlocksOver { across, down, have, over: have - seats })
    } else {
        Ok(())
    }
}

/// Refuses a wish of which the blocks would cover too little.
fn check_coping(blocks: &[Block], choice: &CentresChoice) -> Result<(), CentresProblem> {
    let area: f64 = blocks.iter().map(Block::area_sq_in).sum();
    let wished = choice.width_in * choice.height_in;
    let share = 1.0 - area / wished;
    let most = choice.most_coping_share;
    let least = (choice.width_in - choice.tolerance_in) * (choice.height_in - choice.tolerance_in);
    if 1.0 - area / least <= most + 1e-9 {
        return Ok(());
    }
    let mean = area / blocks.len() as f64;
    let scale = (area / ((1.0 - most).max(0.01) * wished)).sqrt();
    Err(CentresProblem::TooLittle {
        share,
        most,
        blocks: (((1.0 - most) * wished - area) / mean).ceil().max(1.0) as usize,
        fitting_in: [choice.width_in * scale, choice.height_in * scale],
    })
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

fn check_size(goal: Goal, size: [f64; 2]) -> Result<(), CentresProblem> {
    let left = [0, 1].map(|way| goal.end(size[way], way) - size[way]);
    if left.iter().any(|&left| left < -plane::READING) {
        let needs_in = [0, 1].map(|way| size[way].max(goal.size[way]));
        return Err(CentresProblem::TooLarge { over_in: left.map(|left| -left), needs_in });
    }
    for (way, edge) in ["the right edge of the top", "the upper edge of the top"].into_iter().enumerate() {
        if !fills(size[way], size[way] + left[way], goal.least) {
            let place = edge.to_owned();
            return Err(CentresProblem::CopingTooThin { place, left_in: left[way], least_in: goal.least });
        }
    }
    Ok(())
}

/// A given layout: each block coped up to its place, then the places joined.
fn seated(
    blocks: &[Block],
    seats: &[Seat],
    judge: &Judge,
) -> Result<(Layout, CentresCost, Found), CentresProblem> {
    check_seats(blocks, seats, judge)?;
    let rects: Vec<Rect> =
        seats.iter().map(|seat| Rect::new(seat.x_in, seat.y_in, seat.width_in, seat.height_in)).collect();
    let judged = given::judge(&rects)?;
    let around = Rect::around(rects.iter().copied());
    let size = [around.width_in, around.height_in];
    if check_size(judge.goal, size).is_err_and(|e| matches!(e, CentresProblem::TooLarge { .. })) {
        return Err(CentresProblem::OtherSize { is_in: size, wished_in: judge.goal.size });
    }
    check_size(judge.goal, size)?;
    let mut layout = Layout::default();
    let units: Vec<Unit> = seats
        .iter()
        .map(|seat| {
            let [w, h] = judge.sizes.lying(seat.block, seat.turned);
            let unit = layout.block(seat.block, seat.turned, Rect::new(seat.x_in, seat.y_in, w, h));
            let wide = layout.cope(unit, 0, seat.width_in);
            layout.cope(wide, 1, seat.height_in)
        })
        .collect();
    layout.settle(0);
    let own = layout.seams.len();
    let parts = |places: &[usize]| places.iter().flat_map(|&i| units[i].parts.iter().copied()).collect();
    for seam in judged.seams {
        let sewn = if let Sewn::Closes(i) = seam.sewn { Sewn::Closes(i + own) } else { seam.sewn };
        let (first, second) = (parts(&seam.first), parts(&seam.second));
        layout.seams.push(CentreSeam { first, second, sewn, ..seam });
    }
    let (mut cost, _) = judge.goal.terms(size);
    let whole = Unit { parts: (0..layout.parts.len()).collect(), at: around };
    layout.frame(whole, [judge.goal.end(size[0], 0), judge.goal.end(size[1], 1)], judge.goal.least);
    let corner = |i: usize| seats.iter().find(|seat| seat.block == i).map_or([0.0; 2], |s| [s.x_in, s.y_in]);
    let turned = |i: usize| seats.iter().any(|seat| seat.block == i && seat.turned);
    let corners: Vec<[f64; 2]> = (0..blocks.len()).map(corner).collect();
    let lying: Vec<[f64; 2]> = (0..blocks.len()).map(|i| judge.sizes.lying(i, turned(i))).collect();
    judge.looks(&corners, &lying, &mut cost);
    cost.strips = (layout.parts.len() - blocks.len()) as f64 / blocks.len() as f64;
    cost.partial_seams = judged.partial_seams as f64;
    Ok((layout, cost, Found::Given))
}

fn check_seats(blocks: &[Block], seats: &[Seat], judge: &Judge) -> Result<(), CentresProblem> {
    let have = blocks.len();
    for block in (0..have).chain(seats.iter().map(|seat| seat.block)) {
        let times = seats.iter().filter(|seat| seat.block == block).count();
        if times != 1 || block >= have {
            return Err(CentresProblem::PlacedOften { block: block.saturating_add(1), times, have });
        }
    }
    for seat in seats {
        let name = &blocks[seat.block].name;
        let [w, h] = judge.sizes.lying(seat.block, seat.turned);
        let left = [seat.width_in - w, seat.height_in - h];
        if left.iter().any(|left| *left < -plane::READING) {
            let over_in = left.map(|left| -left);
            return Err(CentresProblem::LargerThanItsPlace { name: name.clone(), over_in });
        }
        let least_in = judge.goal.least;
        if let Some(&left_in) = left.iter().find(|&&left| !fills(0.0, left, least_in)) {
            return Err(CentresProblem::CopingTooThin { place: name.clone(), left_in, least_in });
        }
    }
    Ok(())
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
