//! Rings and borders: the strips in the order they are sewn, where each lies, how it is cut, and the mitres.

use super::pad::{LENGTH_PT, NUMBER_PT, Pad};
use super::{Paper, PaperKind, PapersWish, mitre};
use crate::asks::{AskError, Asked, StageReport};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::Stroke;
use papers::flow::{Block, Column, Table, faces};
use plane::{Point, Vec2, polygon};
use quilt::stage::Strip;
use quilt::stage::border::Mitre;
use serde_json::json;

/// What is said where blade and iron are in hand (common practice, no source).
const CARE: [&str; 2] = [
    "Rotary blade: measure each strip at the piece before you cut; cut away from yourself and close the blade.",
    "Pin the middle and the ends first; take every pin out before the needle comes to it.",
];

pub(super) fn ring_border(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let rounds = room.rounds(head)?;
    if rounds.is_empty() {
        return Err(AskError::CantBe {
            what: "no ring and no border has been sewn or planned yet".to_owned(),
            hint: "Plan one by a plan file: ragbag finish my-plan.toml; docs/PLAN.md tells what it can say."
                .to_owned(),
        });
    }
    let mut blocks = vec![Block::chapter(PaperKind::RingBorder.title())];
    let mut facts = Vec::new();
    for round in &rounds {
        let (strips, mitres): (&[Strip], &[Mitre]) = match &round.report {
            StageReport::Ring(plan) => (&plan.strips, &[]),
            StageReport::Border(plan) => (&plan.strips, &plan.mitres),
            _ => continue,
        };
        let told = round.report.told(wish.unit());
        blocks.push(Block::section(round.report.name()));
        blocks.push(Block::body(&told.sentence));
        blocks.push(Block::Beside(vec![
            (0.47, vec![lying(&round.before, strips, wish)]),
            (0.53, table(strips, wish)),
        ]));
        blocks.extend(cut_shapes(strips, wish));
        if let StageReport::Border(plan) = &round.report
            && !mitres.is_empty()
        {
            blocks.push(Block::section("Mitred corners"));
            blocks.extend(mitre::corners(mitres, &plan.sewn_in, plan.allowance_in, wish));
        }
        blocks.extend(more(&round.report, &told.list));
        facts.push(json!({ "stage": round.report.name(), "says": told.sentence, "strips": strips, "mitres": mitres }));
    }
    blocks.push(Block::Caution(CARE.map(str::to_owned).to_vec()));
    let facts = json!({ "rounds": facts });
    Ok(Paper { kind: PaperKind::RingBorder, blocks, facts })
}

/// What the table doesn't say: how a ring's stripes come out, and where a border's strips are joined.
fn more(report: &StageReport, list: &[String]) -> Option<Block> {
    let of_ring = matches!(report, StageReport::Ring(_));
    let items: Vec<Vec<Block>> = list
        .iter()
        .filter(|line| of_ring || line.contains("joined"))
        .map(|line| vec![Block::set(faces::CAUTION, line)])
        .collect();
    (!items.is_empty()).then_some(Block::Columns { count: 2, items })
}

/// Room for the strips round the piece, in inches.
const ROUND_IN: [f64; 2] = [2.35, 3.1];
/// A strip is cut square within so many degrees.
const SQUARE_DEG: f64 = 0.5;

/// The strips round the piece: numbers are the order of sewing.
fn lying(before: &[Point], strips: &[Strip], wish: &PapersWish) -> Block {
    let placed: Vec<Vec<Point>> = strips.iter().map(|strip| strip.lies.apply_all(&strip.cut)).collect();
    let all: Vec<Point> = placed.iter().flatten().chain(before).copied().collect();
    let mut pad = Pad::over(&all, ROUND_IN);
    // What is sewn later lies over what was sewn before.
    for strip in &placed {
        pad.area(strip.clone(), drawing::CALICO, 1.0);
        pad.closed(strip.clone(), Stroke::CutLine);
    }
    pad.seam(before, true);
    let middle = polygon::centroid(before).unwrap_or_default();
    pad.words(middle, LENGTH_PT, "the piece");
    for ((i, strip), lies) in strips.iter().enumerate().zip(&placed) {
        let at = polygon::centroid(lies).unwrap_or_default();
        pad.bold(at, NUMBER_PT, (i + 1).to_string());
        if let [_, _, c, d] = lies.as_slice() {
            let words = wish.up(strip.cut_bar_in, 8);
            pad.beside(c.midpoint(*d), c.midpoint(*d) - middle, LENGTH_PT, words);
        }
    }
    pad.block(
        "Strips round the piece, numbered in the order of sewing",
        "Numbers: the order of sewing. Dashed: the raw edge.",
    )
}

fn is_square(strip: &Strip) -> bool {
    [strip.start_deg, strip.end_deg].iter().all(|angle| (angle - 90.0).abs() < SQUARE_DEG)
}

/// The width once where all are cut equally wide, and each strip's lengths and ends.
fn table(strips: &[Strip], wish: &PapersWish) -> Vec<Block> {
    let wide = strips.first().map_or(0.0, |strip| strip.cut_wide_in);
    let equal = strips.iter().all(|strip| (strip.cut_wide_in - wide).abs() < plane::READING);
    let mut columns = vec![
        Column::numbers("No.", 0.7),
        Column::numbers("Side", 0.8),
        Column::numbers("Cut long", 1.5),
        Column::numbers("Seam", 1.4),
        Column::numbers("Its ends", 1.8),
    ];
    if !equal {
        columns.insert(3, Column::numbers("Cut wide", 1.5));
    }
    let row = |(i, strip): (usize, &Strip)| {
        let ends = if is_square(strip) {
            "square".to_owned()
        } else {
            format!("{:.0}°, {:.0}°", strip.start_deg, strip.end_deg)
        };
        let mut row = vec![
            (i + 1).to_string(),
            (strip.side + 1).to_string(),
            wish.up(strip.cut_bar_in, 8),
            wish.length(strip.seam_in, 8),
            ends,
        ];
        if !equal {
            row.insert(3, wish.length(strip.cut_wide_in, 8));
        }
        row
    };
    let rows = strips.iter().enumerate().map(row).collect();
    let mut blocks = vec![Block::Table(Table { columns, rows })];
    if equal {
        let inches = wish.unit().name_after(wide);
        blocks
            .push(Block::set(faces::CAUTION, format!("All are cut {}{inches} wide.", wish.length(wide, 8))));
    }
    blocks
}

/// Room for a strip by itself, in inches.
const STRIP_ROOM_IN: f64 = 1.85;
/// Room that the numbers in it take beside each other, in inches.
const NUMBERS_IN: f64 = 1.5;

/// Each strip by itself with the angles of its ends, the sewn edge below, in two columns; nothing where all are
/// square.
fn cut_shapes(strips: &[Strip], wish: &PapersWish) -> Option<Block> {
    if strips.iter().all(is_square) {
        return None;
    }
    let longest = strips.iter().map(|strip| strip.cut_bar_in).fold(1.0, f64::max);
    let scale = (STRIP_ROOM_IN / longest).min(1.0);
    let items =
        strips.iter().enumerate().filter_map(|(i, strip)| Some(vec![cut_shape(i + 1, strip, scale, wish)?]));
    let columns = Block::Columns { count: 3, items: items.collect() };
    let words = "How each is cut: the edge that is sewn on lies below; lengths stand above. Ends are cut at the angles written in them, else square.";
    Some(Block::Together(vec![Block::set(faces::CAUTION, words), Block::Room(0.06), columns]))
}

fn cut_shape(no: usize, strip: &Strip, scale: f64, wish: &PapersWish) -> Option<Block> {
    let mut pad = Pad::at_scale(scale);
    let turn = plane::Turn::towards(strip.cut[0] - strip.cut[1])?;
    let flat: Vec<Point> =
        strip.cut.iter().map(|p| Point::ORIGIN + turn.inverse().apply(*p - strip.cut[1])).collect();
    let (low, high) = polygon::bounds(&flat)?;
    let lies: Vec<Point> = flat.iter().map(|p| *p + Vec2::new(-low.x, -low.y)).collect();
    let (wide, height) = (high.x - low.x, high.y - low.y);
    pad.area(lies.clone(), drawing::CALICO, 1.0);
    pad.closed(lies.clone(), Stroke::CutLine);
    let middle = Point::new(wide / 2.0, height / 2.0);
    let sewn = lies.first().zip(lies.get(1)).map_or(0.0, |(a, b)| a.distance(*b));
    let inner = lies.get(2).zip(lies.get(3)).map_or(0.0, |(a, b)| a.distance(*b));
    if is_square(strip) || sewn.min(inner) * scale > NUMBERS_IN {
        pad.words(middle, LENGTH_PT, wish.up(strip.cut_bar_in, 8));
    }
    pad.bold(Point::new(-pad.paper(0.2), height / 2.0), NUMBER_PT, no.to_string());
    if let [a, b, c, d] = lies.as_slice() {
        for (corner, angle, side) in [(c, strip.start_deg, *b), (d, strip.end_deg, *a)] {
            if (angle - 90.0).abs() >= SQUARE_DEG {
                let inner = if side.x > middle.x { corner.x.min(side.x) } else { corner.x.max(side.x) };
                let inwards = if side.x > middle.x { -0.2 } else { 0.2 };
                pad.words(Point::new(inner + pad.paper(inwards), height / 2.0), 10.0, format!("{angle:.0}°"));
            }
        }
    }
    Some(pad.block(format!("Strip {no} as it is cut"), ""))
}
