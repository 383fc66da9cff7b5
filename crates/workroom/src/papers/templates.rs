//! Templates in true size: each piece with its seam line, cut line, arrows and notches.

use super::pattern::Pattern;
use super::sheets::{Printed, on_sheets, told};
use super::{Paper, PaperKind, PapersWish};
use crate::asks::Asked;
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{Placement, TemplateWords, pattern_lines, pattern_words};
use papers::flow::{Block, Column, Fit, Table, faces};
use papers::true_size::Foot;
use plane::polygon;
use quilt::cloth::Runs;
use quilt::pattern::{Lines, Template};
use serde_json::json;
use std::sync::Arc;

pub(super) fn templates(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let pattern = room.pattern(head, "templates", wish)?;
    let printed =
        |template: &Template| Printed { name: template.number.clone(), lines: template.lines.clone() };
    let shapes: Vec<Printed> = pattern.templates.iter().map(printed).collect();
    let side = if wish.mirrored {
        "Mirrored: lay it on the wrong side of the cloth."
    } else {
        "This side up, on the right side of the cloth."
    };
    let foot = Foot {
        title: "Templates".to_owned(),
        notes: vec!["Cut on the solid line, sew on the dashed one.".to_owned(), side.to_owned()],
    };
    let draw = |no: usize, lines: &Lines, place: Placement| {
        let mut items = pattern_lines(lines);
        items.extend(pattern_words(&lines.seam, &words(&pattern, &pattern.templates[no], place)));
        items
    };
    let pages = on_sheets(&shapes, wish.mirrored, wish, &foot, &draw)?;
    let rows: Vec<Vec<String>> = pattern
        .templates
        .iter()
        .zip(&pages.on)
        .map(|(template, on)| {
            vec![template.number.clone(), pattern.cloth(template.cloth).to_owned(), told(on)]
        })
        .collect();
    let facts = json!({
        "pieces": pattern.templates.len(),
        "sheets": pages.sheets.len(),
        "mirrored": wish.mirrored,
        "templates": pattern.templates.iter().zip(&pages.on).map(|(template, on)| json!({
            "number": template.number,
            "cloth": pattern.cloth(template.cloth),
            "sheets": on,
            "cut_in2": polygon::area(&template.lines.cut),
        })).collect::<Vec<_>>(),
    });
    let numbers: Vec<String> = pattern.templates.iter().map(|template| template.number.clone()).collect();
    let columns = vec![Column::words("Piece", 1.0), Column::words("Cloth", 4.0), Column::words("Sheet", 2.0)];
    let mut blocks = vec![
        Block::chapter(PaperKind::Templates.title()),
        Block::Figure {
            drawing: Arc::new(pattern.map("The pieces", &numbers, &[])),
            alt: "The centre from the right side, each piece with its number".to_owned(),
            fit: Fit::Filling { height_in: 5.6 },
            caption: "From the right side. Each template has the number of its piece.".to_owned(),
        },
        Block::List { face: faces::BODY, counted: true, items: how_to(wish) },
        Block::section("Where each template lies"),
        Block::Table(Table { columns, rows }),
    ];
    blocks.extend(pages.sheets.into_iter().map(|sheet| Block::Page(Arc::new(sheet))));
    Ok(Paper { kind: PaperKind::Templates, blocks, facts })
}

fn how_to(wish: &PapersWish) -> Vec<String> {
    let side = if wish.mirrored {
        "The sheets are mirrored: lay each template on the wrong side of the cloth."
    } else {
        "Lay each template on the right side of the cloth, its number up."
    };
    [
        "Print at 100 %, without fitting to the page, and hold a ruler to the squares: the small one is 1 inch, the \
         large one 5 cm.",
        side,
        "The thin arrow with two heads lies along the grain. A red arrow marked \"up\" points up the print.",
        "Cut along the solid line, sew along the dashed one. A side without a notch is the edge of the whole piece.",
        "Clip the long notches a little: each meets the notch of the piece whose number stands beside it. A short \
         thin mark shows where two neighbours meet.",
    ]
    .map(str::to_owned)
    .to_vec()
}

/// What is said of a template that came to lie so.
pub(super) fn words(pattern: &Pattern, template: &Template, place: Placement) -> TemplateWords {
    let cloth = pattern.cloths.get(&template.cloth);
    let way = |turn: plane::Turn| place.turned(turn.then(template.lies.turn));
    let top = cloth.and_then(|cloth| match cloth.look.runs {
        Runs::OneWay(top) => Some(way(top)),
        Runs::AnyWay | Runs::BothWays(_) => None,
    });
    TemplateWords {
        number: template.number.clone(),
        under: pattern.cloth(template.cloth).to_owned(),
        grain: cloth.map(|cloth| way(cloth.grain)),
        top,
    }
}
