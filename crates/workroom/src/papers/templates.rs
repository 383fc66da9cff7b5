//! Templates in true size: each piece with its seam line, cut line, arrows and notches.

use super::pattern::Pattern;
use super::{Paper, PaperKind, PapersWish};
use crate::asks::Asked;
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{Placement, TemplateWords, pattern_lines, pattern_words};
use papers::dxf::{DxfLayer, DxfStroke};
use papers::flow::{Block, Column, Fit, Table, faces};
use papers::true_size::{Foot, TrueSize, in_rows, true_size, turn_for};
use plane::{Point, Pose, Vec2, polygon};
use quilt::cloth::Runs;
use quilt::pattern::{Lines, Template};
use serde_json::json;
use std::sync::Arc;

pub(super) fn templates(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let pattern = room.pattern(head, "templates", wish)?;
    let shapes: Vec<TrueSize> =
        pattern.templates.iter().map(|template| shape(&pattern, template, wish)).collect();
    let side = if wish.mirrored {
        "Mirrored: lay it on the wrong side of the cloth."
    } else {
        "This side up, on the right side of the cloth."
    };
    let foot = Foot {
        title: "Templates".to_owned(),
        notes: vec!["Cut on the solid line, sew on the dashed one.".to_owned(), side.to_owned()],
    };
    let pages = true_size(&shapes, wish.paper, &foot)?;
    let rows: Vec<Vec<String>> = pattern
        .templates
        .iter()
        .zip(&pages.on)
        .map(|(template, on)| {
            vec![template.number.clone(), pattern.cloth(template.cloth).to_owned(), sheets(on)]
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

/// Sheets in words: `3`, or `4 to 7`.
pub(super) fn sheets(on: &[usize]) -> String {
    match on {
        [] => String::new(),
        [one] => one.to_string(),
        [first, .., last] => format!("{first} to {last}"),
    }
}

/// How lines come to lie on paper: mirrored or not, and turned so that they take few pages.
pub(super) fn laid(lines: &Lines, mirrored: bool, wish: &PapersWish) -> (Lines, Placement) {
    let first = if mirrored { Placement::TURN_OVER } else { Placement::STAY };
    let turn = turn_for(&first.apply_all(&lines.cut), wish.paper);
    let place = first.then(Placement::moved(Pose::new(turn, Vec2::default())));
    (lines.placed(mirrored, |p| place.apply(p)), place)
}

fn shape(pattern: &Pattern, template: &Template, wish: &PapersWish) -> TrueSize {
    let (lines, place) = laid(&template.lines, wish.mirrored, wish);
    let cloth = pattern.cloths.get(&template.cloth);
    let way = |turn: plane::Turn| place.turned(turn.then(template.lies.turn));
    let top = cloth.and_then(|cloth| match cloth.look.runs {
        Runs::OneWay(top) => Some(way(top)),
        Runs::AnyWay | Runs::BothWays(_) => None,
    });
    let words = TemplateWords {
        number: template.number.clone(),
        under: pattern.cloth(template.cloth).to_owned(),
        grain: cloth.map(|cloth| way(cloth.grain)),
        top,
    };
    let mut items = pattern_lines(&lines);
    items.extend(pattern_words(&lines.seam, &words));
    TrueSize { name: template.number.clone(), outline: lines.cut, items }
}

/// Templates as strokes for a machine: beside each other in rows no wider than `width_in`, in inches, each piece's
/// cut line, seam line and notches on the layer of its kind.
pub(super) fn strokes(pattern: &Pattern, width_in: f64, wish: &PapersWish) -> Vec<DxfStroke> {
    let placed: Vec<Lines> =
        pattern.templates.iter().map(|template| laid(&template.lines, wish.mirrored, wish).0).collect();
    let bounds: Vec<(Point, Point)> =
        placed.iter().map(|lines| polygon::bounds(&lines.cut).unwrap_or_default()).collect();
    let sizes: Vec<[f64; 2]> = bounds.iter().map(|(low, high)| [high.x - low.x, high.y - low.y]).collect();
    let corners = in_rows(&sizes, width_in);
    let mut strokes = Vec::new();
    for ((lines, (low, _)), corner) in placed.iter().zip(&bounds).zip(corners) {
        let by = corner - *low;
        let moved = lines.placed(false, |p| p + by);
        let mut put = |layer, closed, points| strokes.push(DxfStroke { layer, points, closed });
        put(DxfLayer::Cut, true, moved.cut);
        put(DxfLayer::Seam, true, moved.seam);
        for notch in &moved.notches {
            put(DxfLayer::Marks, false, vec![notch.from, notch.to]);
        }
        for ends in moved.meetings {
            put(DxfLayer::Marks, false, ends.to_vec());
        }
    }
    strokes
}

impl Workroom {
    /// The templates of a head as strokes for a machine, in rows no wider than `width_in` inches.
    ///
    /// # Errors
    /// No such quilt or head; nothing on the table; more than is worth it, without `anyway`.
    pub fn template_strokes(
        &mut self,
        head: &Head,
        width_in: f64,
        wish: &PapersWish,
    ) -> Asked<Vec<DxfStroke>> {
        let pattern = self.pattern(head, "templates", wish)?;
        Ok(strokes(&pattern, width_in, wish))
    }
}
