//! The quilting guide: the lines over the outline, what is told of them, and true-size tiles when wished.

use super::{Paper, PaperKind, PapersWish};
use crate::asks::Asked;
use crate::quilts::Head;
use crate::workroom::Workroom;
use papers::flow::{Block, Column, Table};
use papers::{Guide, guide};
use plane::{Point, Region};
use quilt::stage::quilting::Pass;
use serde_json::json;

pub(super) fn quilting(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let lines = room.quilting_lines(&head.quilt, &head.name)?;
    let rings =
        |region: &Region| std::iter::once(&region.outer).chain(&region.holes).cloned().collect::<Vec<_>>();
    let free: Vec<Vec<Point>> = lines.free.iter().flat_map(rings).collect();
    let changes: Vec<Point> = lines.plan.changes.iter().map(|change| change.at).collect();
    let mut notes = lines.notes(wish.unit());
    // What can hurt stands apart, as on every paper.
    let care = notes.pop();
    let told = Guide {
        title: wish.title_of(&head.quilt),
        outline: &lines.outline,
        free: &free,
        lines: &lines.sewn,
        changes: &changes,
        notes: &notes,
    };
    let mut blocks = vec![Block::chapter(PaperKind::Quilting.title())];
    let mut set = guide(&told, wish.paper, wish.anyway)?;
    let tiles = set.iter().position(|block| matches!(block, Block::Page(_))).unwrap_or(set.len());
    let pages = set.split_off(tiles);
    blocks.extend(set);
    if !lines.plan.passes.is_empty() {
        blocks.push(Block::section("Band by band"));
        blocks.push(passes(&lines.plan.passes, wish));
    }
    if pages.is_empty() {
        blocks.push(Block::body(
            "To trace the lines, print them in true size: over several sheets they are printed only where true-size \
             sheets are asked for, however many.",
        ));
    }
    blocks.extend(care.clone().map(|care| Block::Caution(vec![care])));
    blocks.extend(pages);
    let facts = json!({ "notes": notes, "caution": care, "plan": lines.plan });
    Ok(Paper { kind: PaperKind::Quilting, blocks, facts })
}

fn passes(passes: &[Pass], wish: &PapersWish) -> Block {
    let columns = vec![
        Column::numbers("Band", 0.8),
        Column::numbers("Deep", 1.2),
        Column::numbers("Line in all", 1.6),
        Column::numbers("Starts", 1.0),
        Column::numbers("Joined to the band before", 2.4),
    ];
    let row = |pass: &Pass| {
        vec![
            pass.no.to_string(),
            wish.length(pass.to_in - pass.from_in, 8),
            wish.unit().run(pass.length_in),
            pass.pieces.to_string(),
            pass.joins.to_string(),
        ]
    };
    Block::Table(Table { columns, rows: passes.iter().map(row).collect() })
}
