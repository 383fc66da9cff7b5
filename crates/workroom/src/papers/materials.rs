//! Materials: all that the piece takes from the first cut to the last stitch, for whoever makes it again.

use super::shopping::TOOLS;
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{Asked, ClothKey, GoodsNames, capital, cloth_key};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{ClothOptions, Drawing, cloth_drawing};
use papers::flow::{Block, Column, Fit, Table, faces};
use papers::press::Inking;
use plane::largest::largest_at;
use plane::{Point, Region, Turn, Vec2, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::length::{many, whole_up};
use quilt::stage::binding::FinishPlan;
use quilt::stage::enough::{Goods, Line, StageName, StageReport, Unit, Used};
use serde_json::json;
use std::collections::BTreeMap;
use std::sync::Arc;

/// How large a swatch of cloth is at most, in inches of the cloth, and how high on paper.
const SWATCH_IN: [f64; 2] = [3.2, 2.0];
const SWATCH_HIGH_IN: f64 = 0.5;

pub(super) fn materials(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let rates = room.habits()?.rates;
    let takes = room.takes(&head.quilt, &head.name, &room.shop()?, &rates)?;
    let names = GoodsNames::of(room.stash()?).told_in(wish.unit());
    let cloths = room.every_cloth()?;
    let list = if takes.wished.is_some() { BTreeMap::new() } else { cut_list(room, head, wish)? };
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
            "{} from {}, the lightest first: {} as cut. Each patch stands with its number and the least that is \
             cut for it, along its edge to sew and square to that. Other cloth does as well: keep the number of pieces and the steps from light to dark.",
            many(pieces as usize, "piece", "pieces"),
            many(prints.len(), "print", "prints"),
            area(cut_in2, wish),
        )),
        Block::Columns {
            count: 3,
            items: prints
                .iter()
                .map(|(used, cloth)| entry(used, *cloth, &list, &cloths, &names, wish))
                .collect(),
        },
    ];
    if takes.wished.is_some() {
        blocks.push(Block::body(takes.verdict()));
    } else {
        blocks.extend(front);
    }
    let sizes = cut_as(room, head, wish);
    let rows: Vec<Vec<String>> =
        takes.enough.stages.iter().flat_map(|stage| later(stage, &names, &sizes, wish)).collect();
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

/// The patches of each print with the least that is cut for them; equal ones together: `22, 25: 2 by 1 1/2`.
fn cut_list(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<BTreeMap<ClothKey, Vec<String>>> {
    let sizes = super::steps::cut_sizes(room, head, wish)?;
    let table = room.table(&head.quilt, &head.name)?;
    let stash = room.stash()?;
    let mut found: BTreeMap<ClothKey, Vec<(String, Vec<String>)>> = BTreeMap::new();
    for (mark, size) in sizes {
        let Some(patch) = table.patches().get(&mark) else { continue };
        let print = stash.get(patch.cloth).and_then(|item| item.came.print);
        let Some(key) = cloth_key(&Goods::of_cloth(patch.cloth, print)) else { continue };
        let size = size.map(|inches| wish.up(inches, 8)).join(" by ");
        let of_key = found.entry(key).or_default();
        match of_key.iter_mut().find(|(known, _)| *known == size) {
            Some((_, patches)) => patches.push(mark.to_string()),
            None => of_key.push((size, vec![mark.to_string()])),
        }
    }
    let told = |cuts: Vec<(String, Vec<String>)>| {
        cuts.into_iter().map(|(size, patches)| format!("{}: {size}", patches.join(", "))).collect()
    };
    Ok(found.into_iter().map(|(key, cuts)| (key, told(cuts))).collect())
}

/// A swatch and what is cut of it.
fn entry(
    used: &Used,
    cloth: Option<&Cloth>,
    list: &BTreeMap<ClothKey, Vec<String>>,
    cloths: &BTreeMap<ClothId, Cloth>,
    names: &GoodsNames,
    wish: &PapersWish,
) -> Vec<Block> {
    let name = cloth.map_or_else(|| names.named(&used.goods), |cloth| cloth.name.clone());
    let mut said =
        format!("{}, {}.", many(used.patches as usize, "piece", "pieces"), wish.unit().area_up(used.cut_in2));
    if let Some(cuts) = cloth_key(&used.goods).and_then(|key| list.get(&key)) {
        said += &format!(" {}", cuts.join("; "));
    }
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

/// How large the cloth of back, batting and binding is cut, where that is chosen: an area alone would mislead.
fn cut_as(room: &mut Workroom, head: &Head, wish: &PapersWish) -> BTreeMap<StageName, String> {
    let mut sizes = BTreeMap::new();
    let Ok(taken) = room.taken(head) else { return sizes };
    let unit = if wish.centimetres { "" } else { " inches" };
    if let Ok((_, plan)) = taken.layers() {
        for (stage, needed) in
            [(StageName::Backing, &plan.backing.needed), (StageName::Batting, &plan.batting.needed)]
        {
            let (low, high) = polygon::bounds(needed).unwrap_or_default();
            let [wide, long] = [high.x - low.x, high.y - low.y].map(|inches| wish.up(inches, 8));
            sizes.insert(stage, format!("{wide} by {long}{unit}"));
        }
    }
    if let Ok((_, FinishPlan::Bound(plan))) = taken.binding() {
        let strips = many(plan.strips_cut_in.len(), "strip", "strips");
        let wide = wish.length(plan.strip_width_cut_in, 16);
        let long = wish.up(plan.strips_cut_in.iter().sum(), 8);
        sizes.insert(StageName::Binding, format!("{strips} {wide} wide, {long} long together"));
    }
    sizes
}

/// What a stage after the top takes.
fn later<'a>(
    stage: &'a StageReport,
    names: &'a GoodsNames,
    sizes: &'a BTreeMap<StageName, String>,
    wish: &'a PapersWish,
) -> impl Iterator<Item = Vec<String>> + 'a {
    let top =
        matches!(stage.stage, StageName::Centre | StageName::Ring | StageName::Border | StageName::SquareUp);
    let cloth = |line: &Line| matches!(line.goods, Goods::Print(_) | Goods::Cloth(_));
    stage.lines.iter().filter(move |line| !(top && cloth(line))).map(move |line| {
        let what = names.named(&line.goods);
        let what = what.strip_prefix("the print of ").map_or(what.clone(), ToOwned::to_owned);
        let size = sizes.get(&stage.stage).filter(|_| line.unit == Unit::SquareInches);
        let how_much = size.cloned().unwrap_or_else(|| amount(line, wish));
        vec![capital(&stage.stage.to_string()), what, how_much]
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
