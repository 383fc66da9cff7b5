//! Materials: all that the piece takes from the first cut to the last stitch, for whoever makes it again.

use super::shopping::TOOLS;
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{Asked, GoodsNames, capital};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{ClothOptions, Drawing, cloth_drawing};
use papers::flow::{Block, Column, Fit, Table, faces};
use papers::press::Inking;
use plane::largest::largest_at;
use plane::{Point, Region, Turn, Vec2, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::length::{many, whole_up};
use quilt::stage::enough::{Goods, Line, Shop, StageName, StageReport, Unit, Used};
use serde_json::json;
use std::collections::BTreeMap;
use std::sync::Arc;

/// How large a swatch of cloth is at most, in inches of the cloth, and how high on paper.
const SWATCH_IN: [f64; 2] = [3.2, 2.0];
const SWATCH_HIGH_IN: f64 = 0.5;

pub(super) fn materials(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let rates = room.habits()?.rates;
    let takes = room.takes(&head.quilt, &head.name, &Shop::default(), &rates)?;
    let names = GoodsNames::of(room.stash()?).told_in(wish.unit());
    let cloths = room.every_cloth()?;
    let mut prints: Vec<(&Used, Option<&Cloth>)> =
        takes.used.prints.iter().map(|used| (used, shown(&used.goods, &cloths))).collect();
    let lightness = |cloth: Option<&Cloth>| cloth.map_or(0.0, |cloth| cloth.look.mean().l);
    prints.sort_by(|a, b| lightness(b.1).total_cmp(&lightness(a.1)));
    let pieces: u32 = prints.iter().map(|(used, _)| used.patches).sum();
    let cut_in2: f64 = prints.iter().map(|(used, _)| used.cut_in2).sum();
    let mut blocks = vec![Block::chapter(PaperKind::Materials.title())];
    let front = [
        Block::section("Cloth for the front"),
        Block::body(format!(
            "{} from {}, the lightest first: {} as cut. Beside each stands how large a square of it would be \
             cut up. Other cloth does as well: keep the number of pieces and the steps from light to dark.",
            many(pieces as usize, "piece", "pieces"),
            many(prints.len(), "print", "prints"),
            area(cut_in2, wish),
        )),
        Block::Columns {
            count: 3,
            items: prints.iter().map(|(used, cloth)| entry(used, *cloth, &cloths, &names, wish)).collect(),
        },
    ];
    if takes.wished.is_some() {
        blocks.push(Block::body(takes.verdict()));
    } else {
        blocks.extend(front);
    }
    let rows: Vec<Vec<String>> =
        takes.enough.stages.iter().flat_map(|stage| later(stage, &names, wish)).collect();
    if !rows.is_empty() {
        blocks.push(Block::section(if takes.wished.is_some() { "Cloth and the rest" } else { "Besides" }));
        let columns =
            vec![Column::words("For", 1.4), Column::words("What", 3.6), Column::words("How much", 2.4)];
        blocks.push(Block::Table(Table { columns, rows: rows.clone() }));
    }
    blocks.push(Block::section("To have at hand"));
    blocks.push(Block::list(TOOLS.iter().map(|tool| (*tool).to_owned())));
    if !takes.undecided.is_empty() && takes.wished.is_none() {
        blocks
            .push(Block::body(format!("Not decided yet, and not counted: {}.", takes.undecided.join(", "))));
    }
    blocks
        .push(Block::body(format!("All of it is about {:.0} hours of work.", whole_up(takes.enough.hours))));
    let facts = json!({
        "pieces": pieces, "cut_in2": cut_in2, "prints": takes.used.prints, "besides": rows,
        "undecided": takes.undecided, "hours": takes.enough.hours,
    });
    Ok(Paper { kind: PaperKind::Materials, blocks, facts })
}

/// A cloth that shows what goods look like: of a print the one that has most to show.
fn shown<'a>(goods: &Goods, cloths: &'a BTreeMap<ClothId, Cloth>) -> Option<&'a Cloth> {
    match goods {
        Goods::Print(print) => {
            let of_print = cloths.values().filter(|cloth| cloth.print == Some(*print));
            of_print.max_by(|a, b| {
                (a.picture.is_some().cmp(&b.picture.is_some()))
                    .then(polygon::area(&a.outline.outer).total_cmp(&polygon::area(&b.outline.outer)))
            })
        }
        Goods::Cloth(id) => cloths.get(id),
        _ => None,
    }
}

/// A swatch and what is cut of it.
fn entry(
    used: &Used,
    cloth: Option<&Cloth>,
    cloths: &BTreeMap<ClothId, Cloth>,
    names: &GoodsNames,
    wish: &PapersWish,
) -> Vec<Block> {
    let name = cloth.map_or_else(|| names.named(&used.goods), |cloth| cloth.name.clone());
    let square = wish.length(used.cut_in2.max(0.0).sqrt(), 2);
    let said = format!("{}: a square of {square}", many(used.patches as usize, "piece", "pieces"));
    let words = vec![Block::set(faces::SMALL_BOLD, name), Block::set(faces::SMALL, said)];
    let Some(cloth) = cloth else { return words };
    let fit = Fit::Filling { height_in: SWATCH_HIGH_IN };
    let drawing = Arc::new(swatch(cloth, cloths, wish.inking == Inking::Saving));
    let figure = Block::Figure { drawing, alt: String::new(), fit, caption: String::new() };
    vec![Block::Beside(vec![(1.0, vec![figure]), (1.5, words)])]
}

/// A rectangle of the cloth where it has room for one, else the cloth as it is.
fn swatch(cloth: &Cloth, cloths: &BTreeMap<ClothId, Cloth>, flat: bool) -> Drawing {
    let [wide, high] = SWATCH_IN;
    let window = largest_at(&cloth.outline, &Region::rectangle(wide, high).outer, Turn::from_degrees(0.0))
        .and_then(|found| {
            let middle = polygon::centroid(&found.corners)?;
            let scale = found.scale.min(1.0) / 2.0;
            let corner = |(x, y): (f64, f64)| middle + Vec2::new(x * wide * scale, y * high * scale);
            Some([(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(corner).to_vec())
        });
    let outer: Vec<Point> = window.unwrap_or_else(|| cloth.outline.outer.clone());
    let shown = Cloth { outline: Region { outer, holes: Vec::new() }, flaws: Vec::new(), ..cloth.clone() };
    cloth_drawing(&shown, cloths, &ClothOptions { flat, grain: false, ..ClothOptions::default() })
}

/// What a stage after the top takes.
fn later<'a>(
    stage: &'a StageReport,
    names: &'a GoodsNames,
    wish: &'a PapersWish,
) -> impl Iterator<Item = Vec<String>> + 'a {
    let top =
        matches!(stage.stage, StageName::Centre | StageName::Ring | StageName::Border | StageName::SquareUp);
    let cloth = |line: &Line| matches!(line.goods, Goods::Print(_) | Goods::Cloth(_));
    stage.lines.iter().filter(move |line| !(top && cloth(line))).map(move |line| {
        let what = names.named(&line.goods);
        let what = what.strip_prefix("the print of ").map_or(what.clone(), ToOwned::to_owned);
        vec![capital(&stage.stage.to_string()), what, amount(line, wish)]
    })
}

fn amount(line: &Line, wish: &PapersWish) -> String {
    let unit = wish.unit();
    match (&line.goods, line.unit) {
        (Goods::Thread { .. }, Unit::Inches) => unit.thread(line.needed),
        (_, Unit::Inches) => format!("{} long", unit.up(line.needed, 4)),
        (_, Unit::SquareInches) => area(line.needed, wish),
        (_, Unit::Pieces) => many(whole_up(line.needed) as usize, "piece", "pieces"),
    }
}

/// An area in the maker's unit, and the side of a square as large.
fn area(in2: f64, wish: &PapersWish) -> String {
    let square = wish.length(in2.max(0.0).sqrt(), 2);
    format!("{} (a square of {square})", wish.unit().area_up(in2))
}
