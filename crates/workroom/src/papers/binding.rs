//! Binding or facing: where it begins and ends, its strips and joins, and each corner's fold at its own angle.

use super::pad::{LENGTH_PT, NUMBER_PT, Pad, sides};
use super::{Paper, PaperKind, PapersWish, corners, ends};
use crate::asks::{Asked, StageReport};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{MADDER, Stroke};
use papers::flow::{Block, Column, Table, faces};
use plane::{Point, Vec2};
use quilt::stage::binding::{BindingChoice, BindingPlan, Corner, FacingPlan, FinishPlan, Way};
use serde_json::json;

/// What is said where needle, iron and pins are in hand (common practice, no source).
const CARE: [&str; 2] = [
    "Machine: sew slowly over the folds; take pins or clips away before the needle comes to them.",
    "Iron: strips on the bias stretch; press them, never pull. Keep fingers away from steam.",
];

pub(super) fn binding(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let taken = room.taken(head)?;
    let (choice, plan) = taken.binding()?;
    let raw = taken.raw()?;
    let told = StageReport::Binding(plan.clone()).told(wish.unit());
    let title = StageReport::Binding(plan.clone()).name();
    let mut blocks = vec![Block::chapter(title), Block::body(&told.sentence)];
    match &plan {
        FinishPlan::Bound(plan) => bound(plan, choice, &raw, wish, &mut blocks),
        FinishPlan::Faced(plan) => faced(plan, &raw, wish, &mut blocks),
    }
    blocks.push(Block::Caution(CARE.map(str::to_owned).to_vec()));
    let facts = json!({ "says": told.sentence, "list": told.list, "plan": plan });
    Ok(Paper { kind: PaperKind::Binding, blocks, facts })
}

fn bound(
    plan: &BindingPlan,
    choice: &BindingChoice,
    raw: &[Point],
    wish: &PapersWish,
    blocks: &mut Vec<Block>,
) {
    let mut table = vec![Block::Heading { level: 3, words: "Strips".to_owned() }, strips(plan, wish)];
    table.push(Block::Heading { level: 3, words: "Joining them".to_owned() });
    table.push(ends::join(choice, wish));
    blocks.push(Block::Beside(vec![(0.5, vec![round(plan, raw)]), (0.5, table)]));
    blocks.push(Block::section("Begin and end"));
    let mut begin = vec![format!(
        "Fold the joined strip in half along its length, right side out: it is then {} wide. Lay its raw edges on the raw edge of the front.",
        wish.length(choice.strip_width_in / 2.0, 16)
    )];
    begin.push(format!("Sew {} from the raw edge.", wish.length(choice.seam_in, 16)));
    if let Some(closing) = plan.closing {
        begin.push(format!(
            "Begin on side {} at the arrow, {} from its start, and leave a tail. Stop {} before the beginning.",
            closing.from.side,
            wish.length(closing.from.along_in, 8),
            wish.length(closing.gap_in, 8)
        ));
        begin.push(format!(
            "Cut the ends to overlap {}; join them as below and sew the rest.",
            wish.length(closing.overlap_in, 16)
        ));
    } else {
        begin.push("The sides are bound apart at the sharp tips: there is no closing join.".to_owned());
    }
    begin.push(format!(
        "Turn it to the back, where {} of it lie, and stitch it down over the seam line.",
        wish.length(plan.width.back_finished_in, 16)
    ));
    blocks.push(Block::List { face: faces::BODY, counted: true, items: begin });
    if let Some(closing) = plan.closing {
        blocks.push(ends::closing(&closing, choice, wish));
    }
    if !plan.joins.is_empty() {
        blocks.push(Block::body(joins(plan, wish)));
    }
    let told: Vec<&Corner> = plan.corners.iter().filter(|corner| corner.way != Way::Curve).collect();
    if !told.is_empty() {
        blocks.push(Block::section("The corners"));
        blocks.extend(corners::corners(&told, choice, wish));
    }
}

/// So many joins are named in the drawing.
const MOST_NAMED: usize = 4;

/// Equal ones told once: `42, 2 of 12`.
fn counted(all: impl Iterator<Item = String>) -> Vec<String> {
    let mut kinds: Vec<(String, usize)> = Vec::new();
    for one in all {
        match kinds.iter_mut().find(|(kind, _)| *kind == one) {
            Some((_, count)) => *count += 1,
            None => kinds.push((one, 1)),
        }
    }
    let words = |(kind, count): (String, usize)| if count == 1 { kind } else { format!("{count} of {kind}") };
    kinds.into_iter().map(words).collect()
}

/// Where the joins fall, side by side.
fn joins(plan: &BindingPlan, wish: &PapersWish) -> String {
    let mut sides: Vec<(usize, Vec<String>)> = Vec::new();
    for join in &plan.joins {
        let at = wish.length(join.spot.along_in, 8);
        match sides.iter_mut().find(|(side, _)| *side == join.spot.side) {
            Some((_, places)) => places.push(at),
            None => sides.push((join.spot.side, vec![at])),
        }
    }
    let told = sides.iter().map(|(side, at)| format!("side {side} at {}", at.join(", ")));
    let near = match plan.joins.iter().filter(|join| !join.is_clear).count() {
        0 => String::new(),
        1 => " One lies nearer to a corner than wished.".to_owned(),
        count => format!(" {count} lie nearer to a corner than wished."),
    };
    format!("Joins, from the start of each side: {}.{near}", told.collect::<Vec<_>>().join("; "))
}

/// The outline with its corners, the beginning, the end and the joins.
fn round(plan: &BindingPlan, raw: &[Point]) -> Block {
    let mut pad = Pad::over(raw, [2.7, 2.9]);
    pad.closed(raw.to_vec(), Stroke::CutLine);
    pad.closed(plan.shows_outline.clone(), Stroke::Leader);
    let middle = plane::polygon::centroid(raw).unwrap_or_default();
    for corner in plan.corners.iter().filter(|corner| corner.way != Way::Curve) {
        let out = corner.at - middle;
        pad.dot(corner.at, 0.05, MADDER);
        pad.beside(corner.at, out, NUMBER_PT, corner.corner.to_string());
    }
    // The names of sides stand inside, near their middles.
    for (i, (at, out)) in sides(raw).into_iter().enumerate().filter(|_| raw.len() <= 16) {
        let long = out.length();
        if long * pad.scale() > 0.6 {
            let inside = at - out * (pad.paper(0.28) / long);
            pad.words(inside, LENGTH_PT, format!("side {}", i + 1));
        }
    }
    for join in &plan.joins {
        pad.dot(join.spot.at, 0.04, drawing::INK);
        if plan.joins.len() <= MOST_NAMED {
            pad.beside(join.spot.at, join.spot.at - middle, LENGTH_PT, "join");
        }
    }
    if let Some(closing) = plan.closing {
        let way = closing.from.at - closing.to.at;
        let unit = if way.length() > 0.0 { way * (1.0 / way.length()) } else { Vec2::new(1.0, 0.0) };
        let inside = unit.left() * pad.paper(0.12);
        pad.arrow(closing.from.at + inside, closing.from.at + inside + unit * pad.paper(0.5));
        pad.beside(closing.from.at, unit.left() * -1.0, LENGTH_PT, "begin");
        pad.beside(closing.to.at, unit.left() * -1.0, LENGTH_PT, "end");
        pad.line(vec![closing.to.at, closing.from.at], Stroke::Mark);
    }
    pad.block(
        "The way round the edge, seen from the front",
        "Numbers: corners. Black dots: joins. Red line: left open for the closing join. Sew with the arrow.",
    )
}

/// How long the strips are once they are joined: each join takes what the closing one overlaps.
fn joined_in(plan: &BindingPlan) -> f64 {
    let loss_in = plan.closing.map_or(0.0, |closing| closing.overlap_in);
    let joins = plan.strips_cut_in.len().saturating_sub(1) as f64;
    (plan.strips_cut_in.iter().sum::<f64>() - joins * loss_in).max(plan.length_needed_in)
}

fn strips(plan: &BindingPlan, wish: &PapersWish) -> Block {
    let columns = vec![Column::words("", 1.6), Column::numbers("", 1.4)];
    let lengths = counted(plan.strips_cut_in.iter().map(|long| wish.up(*long, 8)));
    let row = |what: &str, how: String| vec![what.to_owned(), how];
    let mut rows = vec![
        row("Strips to cut", plan.strips_cut_in.len().to_string()),
        row("Each so wide", wish.length(plan.strip_width_cut_in, 16)),
        row("So long", lengths.join(", ")),
        row("Joined they give", wish.length(joined_in(plan), 8)),
        row("Needed all round", wish.up(plan.length_needed_in, 8)),
        row("It shows on the front", wish.length(plan.width.front_finished_in, 16)),
    ];
    if plan.handling_short_in > 0.0 {
        rows.push(row("Good to have more", wish.up(plan.handling_short_in, 8)));
    }
    Block::Table(Table { columns, rows })
}

fn faced(plan: &FacingPlan, raw: &[Point], wish: &PapersWish, blocks: &mut Vec<Block>) {
    let mut pad = Pad::over(raw, [wish.paper.size_in()[0] - 2.4, 3.6]);
    pad.closed(raw.to_vec(), Stroke::CutLine);
    pad.seam(&plan.finished_outline, true);
    for (i, (at, out)) in sides(raw).into_iter().enumerate() {
        pad.beside(at, out, LENGTH_PT, format!("side {}", i + 1));
    }
    blocks.push(pad.block(
        "The edge to be faced, seen from the front",
        "Dashed: the finished edge, along which the facing is sewn and turned.",
    ));
    let columns = vec![
        Column::numbers("Side", 0.8),
        Column::numbers("Cut long", 1.4),
        Column::numbers("Cut wide", 1.4),
        Column::numbers("Joined from", 1.4),
    ];
    let rows = plan
        .strips
        .iter()
        .map(|strip| {
            vec![
                strip.side.to_string(),
                wish.up(strip.cut_length_in, 8),
                wish.length(plan.cut_width_in, 8),
                strip.lengths.to_string(),
            ]
        })
        .collect();
    blocks.push(Block::Table(Table { columns, rows }));
    let steps = [
        "Turn one long edge of each strip under and press it.".to_owned(),
        "Sew the strips right sides together on the front, raw edges together, along the dashed line."
            .to_owned(),
        "Trim outside corners, clip inside corners almost to the seam, and turn the facing to the back."
            .to_owned(),
        format!(
            "Roll the seam a hair to the back, press, and stitch the facing down; it lies {} deep.",
            wish.length(plan.depth_finished_in, 8)
        ),
    ];
    blocks.push(Block::List { face: faces::BODY, counted: true, items: steps.to_vec() });
}
