//! The figure: where it lies, in which order its layers are sewn, and lines to trace in true size.

use super::pad::{LENGTH_PT, Pad};
use super::{Paper, PaperKind, PapersWish, tracings};
use crate::asks::{Asked, StageReport, capital};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::Stroke;
use papers::PaperProblem;
use papers::flow::{Block, Column, Table, faces};
use papers::press::Sheet;
use plane::{Point, polygon};
use quilt::cloth::ClothId;
use quilt::stage::figure::{FigureChoice, FigureLine, FigureOrder, FigurePlan, LineKind, Traced};
use serde_json::json;
use std::collections::BTreeMap;
use std::sync::Arc;

/// More pages of true size than this are only printed when it is told.
const MOST_SHEETS: usize = 100;

/// What is said where scissors, needle and pins are in hand (common practice, no source).
const CARE: [&str; 2] = [
    "Scissors: clip to the drawn line and never over it; points towards the table, not towards the hand that holds.",
    "Needle: use a thimble, and park the needle in a cushion, never in the arm of the chair.",
];

pub(super) fn figure(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let taken = room.taken(head)?;
    let (choice, plan) = taken.figure()?;
    let raw = taken.raw()?;
    let names: BTreeMap<ClothId, String> =
        room.every_cloth()?.into_iter().map(|(id, cloth)| (id, cloth.name)).collect();
    let told = StageReport::Figure(plan.clone()).told(wish.unit());
    let mut blocks = vec![
        Block::chapter(PaperKind::Figure.title()),
        Block::body(format!("{}: {}", capital(&choice.figure.name), told.sentence)),
        on_the_piece(&plan, &raw, wish),
        Block::section("In this order"),
        Block::List { face: faces::BODY, counted: true, items: steps(choice, wish) },
        Block::section("Layers, lowest first"),
        layers(&plan, &names, wish),
    ];
    if !plan.lines.is_empty() {
        blocks.push(Block::section("Lines of stitches and stems"));
        let told = plan.lines.iter().map(|line| line_words(line, &names, wish));
        let items = told.map(|words| vec![Block::set(faces::CAUTION, words)]).collect();
        blocks.push(Block::Columns { count: 2, items });
    }
    let cautions = CARE.iter().map(|care| (*care).to_owned()).chain(told.cautions.iter().cloned());
    blocks.push(Block::Caution(cautions.collect()));
    match true_size(&plan, choice, wish) {
        Ok(sheets) if sheets.len() > MOST_SHEETS && !wish.anyway => blocks.push(Block::body(format!(
            "In true size it would be {} pages, more than {MOST_SHEETS}: they are left out. Ask for them by --anyway.",
            sheets.len()
        ))),
        Ok(sheets) => {
            blocks.push(Block::body(
                "The next pages are in true size: the figure as it is seen, its mirrored twin for tracing from the wrong side, and each layer by itself. Solid: cut. Dashed: the finished edge. Red: clips.",
            ));
            blocks.extend(sheets.into_iter().map(|sheet| Block::Page(Arc::new(sheet))));
        }
        Err(why) => blocks.push(Block::body(why.to_string())),
    }
    let facts =
        json!({ "says": told.sentence, "findings": told.list, "cautions": told.cautions, "plan": plan });
    Ok(Paper { kind: PaperKind::Figure, blocks, facts })
}

fn true_size(
    plan: &FigurePlan,
    choice: &FigureChoice,
    wish: &PapersWish,
) -> Result<Vec<Sheet>, PaperProblem> {
    let whole = tracings::whole(plan, &choice.figure.name);
    let mut sheets = tracings::sheets(&whole, wish.paper)?;
    sheets.extend(tracings::sheets(&tracings::twin(&whole), wish.paper)?);
    sheets.extend(tracings::layers(plan, &choice.figure.name, wish.paper, wish.mirrored)?);
    Ok(sheets)
}

/// Where it lies, with the distances of its middle from the left and the lower end of the piece.
fn on_the_piece(plan: &FigurePlan, raw: &[Point], wish: &PapersWish) -> Block {
    let mut pad = Pad::over(raw, [3.4, 2.6]);
    pad.closed(raw.to_vec(), Stroke::CutLine);
    for patch in &plan.patches {
        pad.area(patch.finished.outer.clone(), drawing::CALICO, 1.0);
        pad.region(&patch.finished, Stroke::CutLine);
    }
    for line in plan.lines.iter().filter(|line| line.points.len() > 1) {
        pad.line(line.points.clone(), Stroke::Mark);
    }
    let lines = plan.lines.iter().flat_map(|line| line.points.iter().copied());
    let all: Vec<Point> =
        plan.patches.iter().flat_map(|patch| patch.finished.outer.iter().copied()).chain(lines).collect();
    let (low, high) = polygon::bounds(raw).unwrap_or_default();
    let mut told = vec!["Its place, seen from the front.".to_owned()];
    if let Some((from, to)) = polygon::bounds(&all) {
        let middle = from.midpoint(to);
        let (left, lower) = (Point::new(low.x, middle.y), Point::new(middle.x, low.y));
        pad.line(vec![left, Point::new(from.x, middle.y)], Stroke::Leader);
        pad.line(vec![lower, Point::new(middle.x, from.y)], Stroke::Leader);
        pad.words(
            left.midpoint(Point::new(from.x, middle.y)) + plane::Vec2::new(0.0, pad.paper(0.11)),
            LENGTH_PT,
            wish.length(from.x - low.x, 8),
        );
        let below = Point::new(middle.x, f64::midpoint(low.y, from.y));
        pad.words_from(
            below + plane::Vec2::new(pad.paper(0.08), 0.0),
            LENGTH_PT,
            wish.length(from.y - low.y, 8),
        );
        told.push(format!(
            "With its lines it is {} wide and {} high.",
            wish.length(to.x - from.x, 8),
            wish.length(to.y - from.y, 8)
        ));
        told.push(format!(
            "It begins {} from the left end of the piece and {} from the lower end. The piece is {} by {}, raw.",
            wish.length(from.x - low.x, 8),
            wish.length(from.y - low.y, 8),
            wish.length(high.x - low.x, 8),
            wish.length(high.y - low.y, 8)
        ));
        told.push("Lay a ruler along both thin lines to find its place.".to_owned());
    }
    let picture = pad.block("The figure on the piece", "");
    Block::Beside(vec![(0.55, vec![picture]), (0.45, told.into_iter().map(Block::body).collect())])
}

/// From tracing to the last stitch (common practice, no source).
fn steps(choice: &FigureChoice, wish: &PapersWish) -> Vec<String> {
    // Sheets that are mirrored once more are traced onto the other side.
    let (side, twin) = if (choice.traced == Traced::WrongSide) == wish.mirrored {
        ("right side", "as they are printed")
    } else {
        ("wrong side", "mirrored, as they are printed here")
    };
    let when = match choice.order {
        FigureOrder::BeforeQuilting => {
            "Sew it to the top before the layers are put together; the quilting goes round it."
        }
        FigureOrder::AfterQuilting => "Sew it on after the quilting, through the top only.",
    };
    vec![
        when.to_owned(),
        format!("Trace each layer onto the {side} of its cloth, {twin}: the dashed line is the finished edge."),
        format!("Cut along the solid line, {} outside it.", wish.length(choice.turn_under_in, 16)),
        "Clip at the red marks almost to the dashed line: inside points and inside curves only.".to_owned(),
        "Turn the edge under to the dashed line and baste or press it. What lies under a higher layer stays flat."
            .to_owned(),
        "Pin and sew layer on layer, the lowest first, with small stitches; take out every pin.".to_owned(),
    ]
}

fn layers(plan: &FigurePlan, names: &BTreeMap<ClothId, String>, wish: &PapersWish) -> Block {
    let columns = vec![
        Column::numbers("No.", 0.6),
        Column::words("Layer", 2.0),
        Column::words("Cloth", 2.6),
        Column::numbers("Cut from at least", 2.0),
        Column::numbers("Edge to turn", 1.4),
        Column::numbers("Clips", 0.8),
    ];
    let row = |(i, patch): (usize, &quilt::stage::figure::FigurePatch)| {
        let cloth = patch.cloth.and_then(|cloth| names.get(&cloth)).cloned();
        let (low, high) = polygon::bounds(&patch.cut.outer).unwrap_or_default();
        vec![
            (i + 1).to_string(),
            patch.shape.clone(),
            cloth.unwrap_or_else(|| "yours to choose".to_owned()),
            wish.size([high.x - low.x, high.y - low.y], 8).replace(" inches", ""),
            wish.length(patch.turned_in, 8),
            patch.clip_count().to_string(),
        ]
    };
    Block::Table(Table { columns, rows: plan.patches.iter().enumerate().map(row).collect() })
}

fn line_words(line: &FigureLine, names: &BTreeMap<ClothId, String>, wish: &PapersWish) -> String {
    let colour = line.cloth.and_then(|cloth| names.get(&cloth));
    let of = colour.map_or_else(String::new, |name| format!(", in the colour of {name}"));
    match line.kind {
        LineKind::Stitched { rows } => format!(
            "{}: {} of back stitch side by side, {} long{of}.",
            line.shape,
            quilt::length::many(rows as usize, "row", "rows"),
            wish.length(line.length_in, 8)
        ),
        LineKind::BiasStem { finished_in, cut_width_in, cut_length_in } => format!(
            "{}: a bias stem, cut {} wide and {} long, {} wide when both edges are turned{of}.",
            line.shape,
            wish.length(cut_width_in, 16),
            wish.length(cut_length_in, 8),
            wish.length(finished_in, 16)
        ),
        LineKind::Knot => format!("{}: a knot of a few stitches in one place{of}.", line.shape),
    }
}
