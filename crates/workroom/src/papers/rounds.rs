//! The guide by rounds: what followers with other cloth need to know of each.

use super::round::{Piece, Round};
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked};
use crate::quilts::Head;
use crate::workroom::Workroom;
use colour::{Lab, Srgb, difference, nearest_word};
use drawing::{Drawing, FrontOptions, Item, Paint, Stroke, front};
use papers::flow::{Block, Column, Fit, Table as Rows};
use papers::press::Face as Letters;
use quilt::length::many;
use quilt::log::{Entry, Mark};
use serde_json::json;
use std::sync::Arc;

/// Steps of colour, as the eye tells them apart: less than the first is none, from the second on it is plain
/// (from memory: CIEDE2000, where 1 is just seen side by side).
const STEP: [f64; 2] = [4.0, 12.0];

pub(super) fn rounds(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let entries: Vec<Entry> = room.path(tip)?.into_iter().map(|step| step.entry).collect();
    let table = room.table_at(tip)?;
    let cloths = room.every_cloth()?;
    let allowance_in = room.wish(&head.quilt)?.allowance_in;
    let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
    let piece = Piece { table: &table, top, cloths: &cloths, entries: &entries, allowance_in, wish };
    let all = piece.rounds();
    if all.len() < 2 {
        return Err(AskError::CantBe {
            what: "there is only one patch yet, and no round about it".to_owned(),
            hint: "Sew on some pieces first.".to_owned(),
        });
    }
    let whole_in2: f64 = all.iter().map(|round| round.area_in2).sum();
    let mut rows = Vec::new();
    let mut blocks = Vec::new();
    let mut before: Option<Lab> = None;
    for round in &all {
        let colour = colours(before, round.mean);
        rows.push(vec![
            name(round.no),
            round.patches.len().to_string(),
            piece.range(round.depth_in),
            piece.range(round.length_in),
            colour.clone(),
            format!("{:.0} %", 100.0 * round.area_in2 / whole_in2.max(1e-9)),
        ]);
        let mut items = vec![
            format!(
                "{}, {} deep and {} long, finished.",
                many(round.patches.len(), "patch", "patches"),
                piece.range(round.depth_in),
                piece.range(round.length_in)
            ),
            format!("Colour: {colour}."),
        ];
        items.extend(round.look_out.iter().cloned());
        let drawing = piece.picture(mark, round)?;
        let figure = Block::Figure {
            alt: format!("{} of the piece, the rest paled", name(round.no)),
            drawing: Arc::new(drawing),
            fit: Fit::Filling { height_in: 2.1 },
            caption: String::new(),
        };
        let words = vec![
            Block::Heading { level: 2, words: name(round.no) },
            Block::List { face: Letters::plain(12.0), counted: false, items },
        ];
        blocks.push(Block::Together(vec![Block::Beside(vec![(2.0, vec![figure]), (3.0, words)])]));
        before = round.mean.or(before);
    }
    let columns = vec![
        Column::words("", 2.2),
        Column::words("Patches", 1.1),
        Column::words("Depth", 2.4),
        Column::words("Length", 2.4),
        Column::words("Colour", 3.2),
        Column::numbers("Area", 1.0),
    ];
    let facts = json!({ "rounds": all.iter().map(|round| json!({
        "round": round.no,
        "patches": round.patches.iter().map(|mark| mark.0).collect::<Vec<_>>(),
        "depth_in": round.depth_in,
        "length_in": round.length_in,
        "area_in2": round.area_in2,
        "colour": round.mean.map(nearest_word),
        "look_out": round.look_out,
    })).collect::<Vec<_>>() });
    let how = "For whoever follows with cloth of their own: keep the numbers roughly, not the shapes. A round is all \
               patches that lie equally many seams from the first one. Depth is a patch's narrowest width, length its \
               greatest, corner to corner; both finished, as they show when all is sewn. Cut twice the seam more.";
    let mut said = vec![
        Block::chapter(PaperKind::Rounds.title()),
        Block::body(how),
        Block::Table(Rows { columns, rows }),
    ];
    said.extend(blocks);
    Ok(Paper { kind: PaperKind::Rounds, blocks: said, facts })
}

fn name(no: usize) -> String {
    if no == 0 { "The first patch".to_owned() } else { format!("Round {no}") }
}

/// The colour of a round, and how far it steps from the one before.
fn colours(before: Option<Lab>, mean: Option<Lab>) -> String {
    let Some(mean) = mean else { return "not known".to_owned() };
    let word = nearest_word(mean);
    let Some(before) = before else { return format!("about {word}") };
    let step = difference(before, mean);
    let lighter = if mean.l > before.l + 2.0 {
        ", lighter"
    } else if mean.l < before.l - 2.0 {
        ", darker"
    } else {
        ""
    };
    if step < STEP[0] {
        format!("about {word}, as before")
    } else if step < STEP[1] {
        format!("about {word}{lighter}, a small step on")
    } else {
        format!("about {word}{lighter}, a plain step on")
    }
}

impl Piece<'_> {
    /// The piece with all but the round paled.
    fn picture(&self, mark: Mark, round: &Round) -> Asked<Drawing> {
        let mut drawing = front(self.table, mark, self.cloths, &FrontOptions::default())?;
        drawing.weight *= 1.4;
        for (name, face) in self.top.faces() {
            let corners = self.top.face_points(face);
            drawing.items.push(if round.faces.contains(name) {
                Item::closed(corners, Stroke::Outline)
            } else {
                Item::fill(corners, Paint::Colour(Srgb::new(255, 255, 255), 0.72))
            });
        }
        Ok(drawing)
    }
}
