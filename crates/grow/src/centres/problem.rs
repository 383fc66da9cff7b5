//! Why centres can't be joined as asked, with the numbers, and what to do instead.

use quilt::Problem;
use quilt::length::{fraction, round_up};
use quilt::log::Mark;
use serde::Serialize;

/// Why not.
#[derive(Clone, Debug, PartialEq, Serialize, thiserror::Error)]
#[serde(rename_all = "snake_case", tag = "rule")]
pub enum CentresProblem {
    /// A number that makes no sense.
    #[error("The {what} is {value}: it must be from {least} to {most}. Check it and its unit.")]
    OutOfRange {
        /// Which number.
        what: &'static str,
        /// What it is.
        value: f64,
        /// The least it may be.
        least: f64,
        /// The most.
        most: f64,
    },
    /// No blocks, or more than are laid out at once.
    #[error("There are {count} blocks: from 1 to {most} can be laid out at once. {}", if *count == 0 { "Square up a centre first." } else { "Join some of them first, and lay out what comes of it." })]
    HowMany {
        /// How many there are.
        count: usize,
        /// The most there may be.
        most: usize,
    },
    /// Fewer blocks than places in the rows.
    #[error("{across} across and {down} down take {} blocks, and there are {have}: make {missing} more, or ask for fewer rows.", across * down)]
    BlocksMissing {
        /// Blocks in a row.
        across: usize,
        /// How many rows.
        down: usize,
        /// How many blocks there are.
        have: usize,
        /// How many are missing.
        missing: usize,
    },
    /// More blocks than places in the rows.
    #[error("{across} across and {down} down take {} blocks, and there are {have}: leave out {over}, or ask for more rows.", across * down)]
    BlocksOver {
        /// Blocks in a row.
        across: usize,
        /// How many rows.
        down: usize,
        /// How many blocks there are.
        have: usize,
        /// How many have no place.
        over: usize,
    },
    /// The blocks cover too little of the wished size: too much of it would be coping.
    #[error("Coping would take {:.0} % of the top, more than {:.0} %: about {blocks} more blocks of the usual size would fill it, or wish for {} by {} inches (finished).", 100.0 * share, 100.0 * most, fraction(fitting_in[0], 8), fraction(fitting_in[1], 8))]
    TooLittle {
        /// Share of the top that would be coping.
        share: f64,
        /// The most it may be.
        most: f64,
        /// How many more blocks of the mean size bring it below that.
        blocks: usize,
        /// A finished size of the wished form that the blocks fill.
        fitting_in: [f64; 2],
    },
    /// The blocks take more room than is wished for, in any layout that was found.
    #[error("The blocks don't fit into the wished size: the nearest layout is {} inches too wide and {} too high (finished). Wish for {} by {}, leave a block out, or trim the blocks.", up(over_in[0]), up(over_in[1]), up(needs_in[0]), up(needs_in[1]))]
    TooLarge {
        /// By how much the nearest layout is too wide and too high, in inches; 0 or less where it
        /// isn't.
        over_in: [f64; 2],
        /// The finished size that would take it.
        needs_in: [f64; 2],
    },
    /// What is left over is too thin for a coping strip.
    #[error("At {place} {} inch is left over, and a coping strip finishes at {} or more: trim {} off there, or wish for {} more or {} less.", fraction(*left_in, 32), fraction(*least_in, 8), fraction(least_in - left_in, 32), fraction(least_in - left_in, 32), fraction(*left_in, 32))]
    CopingTooThin {
        /// Where: a block's name, or an edge of the top.
        place: String,
        /// What is left over, finished.
        left_in: f64,
        /// The least finished width of a strip.
        least_in: f64,
    },
    /// A block is larger than the place it is given.
    #[error("{name} is {} inches wider and {} higher than its place (finished): give it more, trim it, or put another block there.", up(over_in[0]), up(over_in[1]))]
    LargerThanItsPlace {
        /// The block.
        name: String,
        /// By how much it is wider and higher, in inches; 0 or less where it isn't.
        over_in: [f64; 2],
    },
    /// Places of a given layout overlap.
    #[error("Places {first} and {second} overlap by {area_sq_in:.2} square inches: move one of them.")]
    PlacesOverlap {
        /// One place, from 1.
        first: usize,
        /// The other, from 1.
        second: usize,
        /// By how much.
        area_sq_in: f64,
    },
    /// Places of a given layout leave a gap.
    #[error(
        "The places leave {area_sq_in:.2} square inches empty, near {x_in:.2} across and {y_in:.2} up: make a place larger, or add one."
    )]
    PlacesGap {
        /// How much is empty.
        area_sq_in: f64,
        /// Where the first gap begins, from the left.
        x_in: f64,
        /// Where it begins, from below.
        y_in: f64,
    },
    /// A given layout doesn't name each block once.
    #[error("{}", if *times == 0 { format!("Block {block} has no place: give it one, or leave it out.") } else { format!("Block {block} has {times} places, and there are {have} blocks: give each block one.") })]
    PlacedOften {
        /// Which block, from 1.
        block: usize,
        /// How many places name it.
        times: usize,
        /// How many blocks there are.
        have: usize,
    },
    /// A given layout of another size than wished.
    #[error("The places make {} by {} inches (finished), and {} by {} is wished: change the one or the other.", fraction(is_in[0], 16), fraction(is_in[1], 16), fraction(wished_in[0], 16), fraction(wished_in[1], 16))]
    OtherSize {
        /// What the places make.
        is_in: [f64; 2],
        /// What is wished.
        wished_in: [f64; 2],
    },
    /// A layout that needs more partial seams than are looked for.
    #[error(
        "That layout takes more than {most} partial seams: lay it out so that more of it can be sliced from edge to edge."
    )]
    TooTangled {
        /// How many were looked for.
        most: usize,
    },
    /// A layout with partial seams where none are wished.
    #[error("That layout takes {count} partial seam{}, and none are wished: {first} Lay it out so that it can be sliced from edge to edge, or allow them.", if *count == 1 { "" } else { "s" })]
    PartialSeams {
        /// How many.
        count: usize,
        /// The first of them, as a sentence.
        first: String,
    },
    /// A coping strip wider than wished.
    #[error("Coping strip {strip} would finish {} wide, and {} is the most that is wished: make blocks larger or more of them, or the top smaller.", fraction(*wide_in, 16), fraction(*most_in, 16))]
    CopingTooWide {
        /// Which strip, from 1.
        strip: usize,
        /// Its finished width.
        wide_in: f64,
        /// The most.
        most_in: f64,
    },
    /// No such top on the table.
    #[error("There is no piece begun by step {top} on the table: name one that is there.")]
    NoSuchTop {
        /// The step.
        top: Mark,
    },
    /// A top that isn't a rectangle.
    #[error("{}", if *sides == 4 { format!("The piece begun by step {top} is {} inch out of square at a corner: square it up first.", fraction(*out_in, 32)) } else { format!("The piece begun by step {top} has {sides} sides: square it up to a rectangle first.") })]
    NotSquared {
        /// The step that began it.
        top: Mark,
        /// How many sides it has.
        sides: usize,
        /// How far a corner is out of square over its shorter side, in inches.
        out_in: f64,
    },
    /// A top of another size than its block in the plan.
    #[error("{name} measures {} by {} inches on the table (raw), and the plan counts on {} by {}: plan again.", fraction(is_in[0], 32), fraction(is_in[1], 32), fraction(planned_in[0], 32), fraction(planned_in[1], 32))]
    OffPlan {
        /// The block.
        name: String,
        /// Its raw size.
        is_in: [f64; 2],
        /// The raw size in the plan.
        planned_in: [f64; 2],
    },
    /// A strip without a cloth.
    #[error("Coping strip {strip} has no cloth: choose a cloth for coping that holds {} by {} inches (cut).", fraction(cut_in[0], 8), fraction(cut_in[1], 8))]
    NoCloth {
        /// Which strip, from 1.
        strip: usize,
        /// Its cut size.
        cut_in: [f64; 2],
    },
    /// Fewer or more tops named than there are blocks.
    #[error(
        "The plan joins {need} blocks, and {have} tops are named: name one for each block, in their order."
    )]
    OtherCount {
        /// How many tops are named.
        have: usize,
        /// How many blocks the plan has.
        need: usize,
    },
    /// A strip that the table refuses.
    #[error("Coping strip {strip} can't be laid: {problem}")]
    StripRefused {
        /// Which strip, from 1.
        strip: usize,
        /// Why.
        problem: Problem,
    },
    /// The steps of a layout with partial seams don't lead to the planned rectangle on the table.
    #[error("With its {partial} partial seam{} this layout doesn't come out as planned on the table ({sides} sides instead of 4): lay it out so that it can be sliced from edge to edge.", if *partial == 1 { "" } else { "s" })]
    ComesOutOtherwise {
        /// How many partial seams it has.
        partial: usize,
        /// How many sides the joined top would have.
        sides: usize,
    },
    /// A seam of the plan that the table refuses.
    #[error("Seam {seam} of the plan can't be sewn: {problem}")]
    Refused {
        /// Which seam, from 1.
        seam: usize,
        /// Why.
        problem: Problem,
    },
}

/// What must be there at least, on a ruler with sixteenths.
fn up(inches: f64) -> String {
    fraction(round_up(inches.max(0.0), 16), 16)
}
