//! The thread card: how much for which stage, from which spools, and how many bobbins to wind.

use super::pad::Pad;
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{Asked, SpoolFound, StageThread, capital};
use crate::quilts::Head;
use crate::workroom::Workroom;
use colour::{Lab, nearest_word};
use drawing::Stroke;
use papers::flow::{Block, Column, Table, faces};
use papers::press::Inking;
use plane::Region;
use quilt::length::many;
use quilt::stage::enough::StageName;
use serde_json::json;

/// Inches in a yard.
const YARD_IN: f64 = 36.0;
/// Inches in a metre.
const METRE_IN: f64 = 1000.0 / quilt::length::MM_PER_IN;
/// So many spools of each list are shown.
const MOST_SPOOLS: usize = 4;

pub(super) fn thread(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let report = room.enough(&head.quilt, &head.name, &room.shop()?, &room.habits()?.rates)?;
    let chosen = room.quilting_chosen(&head.quilt, &head.name)?;
    let mut blocks = vec![Block::chapter(PaperKind::Thread.title())];
    if report.thread.is_empty() {
        blocks.push(Block::body("Nothing is left to sew: no thread is needed."));
    } else {
        blocks.push(Block::body("Ends, tails and waste are counted. Wind the bobbins before you begin."));
        blocks.push(lengths(&report.thread, wish));
    }
    let above = chosen.as_ref().and_then(|choice| choice.thread.clone());
    let below = chosen.as_ref().and_then(|choice| choice.below.clone()).or_else(|| above.clone());
    if let Some(thread) = &above {
        blocks.push(Block::section("Chosen for the quilting"));
        blocks.push(swatch(thread.lab, format!("Above: {}", thread.name), 6.0, wish));
    }
    if let Some(thread) = &below {
        blocks.push(swatch(thread.lab, format!("Below: {}", thread.name), 6.0, wish));
    }
    // Without a spool in the heap there is nothing to compare.
    let spools = room.threads(&head.quilt, &head.name, &[]).ok();
    if let Some(spools) = &spools {
        let sides = [("the front", Some(&spools.front)), ("the back", spools.back.as_ref())];
        for (name, found) in sides.into_iter().filter_map(|(name, found)| Some((name, found?))) {
            blocks.push(Block::section(format!("Your spools against {name}")));
            blocks.push(Block::Beside(vec![
                (0.5, listed("Hardly to be seen", &found.nearest, wish)),
                (0.5, listed("To stand out", &found.contrasting, wish)),
            ]));
        }
    }
    let facts = json!({ "stages": report.thread, "above": above, "below": below, "spools": spools });
    Ok(Paper { kind: PaperKind::Thread, blocks, facts })
}

fn lengths(stages: &[StageThread], wish: &PapersWish) -> Block {
    let unit = capital(wish.unit().thread_name());
    let columns = vec![
        Column::words("For", 2.4),
        Column::numbers(format!("{unit} above"), 1.4),
        Column::numbers(format!("{unit} below"), 1.4),
        Column::numbers(format!("{unit} in all"), 1.4),
        Column::numbers("Bobbins", 1.0),
    ];
    // The sums are those of the rows as they are printed.
    let whole = |inches: f64| wish.unit().of_thread(inches);
    let row = |name: &str, above: f64, below: f64, bobbins: u32| {
        let [above_words, below_words, all] = [above, below, above + below].map(|long| format!("{long:.0}"));
        vec![name.to_owned(), above_words, below_words, all, bobbins.to_string()]
    };
    let mut rows: Vec<Vec<String>> = stages
        .iter()
        .map(|stage| {
            let [above, below] = [stage.plan.needle_in, stage.plan.bobbin_in].map(whole);
            row(stage_words(stage.stage), above, below, stage.plan.bobbins)
        })
        .collect();
    let sum = |of: fn(&StageThread) -> f64| stages.iter().map(|stage| whole(of(stage))).sum::<f64>();
    let bobbins = stages.iter().map(|stage| stage.plan.bobbins).sum();
    rows.push(row("In all", sum(|s| s.plan.needle_in), sum(|s| s.plan.bobbin_in), bobbins));
    Block::Table(Table { columns, rows })
}

const fn stage_words(stage: StageName) -> &'static str {
    match stage {
        StageName::Centre => "Sewing the centre",
        StageName::Ring => "The ring",
        StageName::Border => "The border",
        StageName::SquareUp => "Squaring up",
        StageName::Backing => "The back",
        StageName::Batting => "The batting",
        StageName::Basting => "Basting",
        StageName::Quilting => "Quilting",
        StageName::Binding => "Binding",
        StageName::Sleeve => "Sleeve and label",
        StageName::Figure => "The figure",
    }
}

/// A patch of colour beside words; where ink is saved it is a tint, and a word for the colour stands by it.
fn swatch(colour: Lab, mut words: String, share: f64, wish: &PapersWish) -> Block {
    let word = nearest_word(colour);
    if wish.inking == Inking::Saving && !words.contains(word) {
        words += &format!(" (about {word})");
    }
    let mut pad = Pad::at_scale(1.0);
    let corners = Region::rectangle(0.5, 0.18).outer;
    pad.area(corners.clone(), colour.to_srgb(), 1.0);
    pad.closed(corners, Stroke::CutLine);
    Block::Beside(vec![
        (0.8, vec![pad.block(format!("Thread, {word}"), "")]),
        (share, vec![Block::body(words)]),
    ])
}

fn listed(title: &str, found: &[SpoolFound], wish: &PapersWish) -> Vec<Block> {
    let mut blocks = vec![Block::set(faces::SMALL_BOLD, title)];
    blocks.extend(found.iter().take(MOST_SPOOLS).map(|found| {
        let left = found.spool.left_yd.map_or_else(String::new, |left| {
            let left_in = left.max(0.0) * YARD_IN;
            let (whole, one, more) = if wish.centimetres {
                (left_in / METRE_IN, "metre", "metres")
            } else {
                (left.max(0.0), "yard", "yards")
            };
            format!(", {} left", many(whole.floor() as usize, one, more))
        });
        let words = format!("{}{left}", found.spool.name);
        swatch(found.spool.lab, words, 2.4, wish)
    }));
    blocks
}
