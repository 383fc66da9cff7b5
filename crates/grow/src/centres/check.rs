//! What is refused before a layout is looked for, and after.

use super::block::Block;
use super::choice::{CentresChoice, within};
use super::coping::fills;
use super::cost::Goal;
use super::plan::MOST_BLOCKS;
use super::problem::CentresProblem;

pub(super) fn check_blocks(blocks: &[Block]) -> Result<(), CentresProblem> {
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

pub(super) fn check_count(have: usize, across: usize, down: usize) -> Result<(), CentresProblem> {
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
pub(super) fn check_coping(blocks: &[Block], choice: &CentresChoice) -> Result<(), CentresProblem> {
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

pub(super) fn check_size(goal: Goal, size: [f64; 2]) -> Result<(), CentresProblem> {
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
