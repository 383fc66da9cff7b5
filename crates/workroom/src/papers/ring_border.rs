//! Rings and borders: the strips in the order they are sewn, where each lies, how it is cut, and the mitres.

use super::pad::{LENGTH_PT, NUMBER_PT, Pad};
use super::{Content, Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked, StageReport};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::Stroke;
use papers::flow::{Block, Column, Table, faces};
use plane::{Point, Vec2, polygon};
use quilt::length::round_up;
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
        let told = round.report.told();
        blocks.push(Block::section(round.report.name()));
        blocks.push(Block::body(&told.sentence));
        blocks.push(lying(&round.before, strips, wish));
        blocks.push(Block::section(format!("{}: how the strips are cut", round.report.name())));
        blocks.push(table(strips, wish));
        blocks.push(cut_shapes(strips, wish));
        if !mitres.is_empty() {
            blocks.push(Block::section("Mitred corners"));
            blocks.push(mitred(mitres, wish));
        }
        blocks.extend(more(&round.report, &told.list));
        facts.push(json!({ "stage": round.report.name(), "says": told.sentence, "strips": strips, "mitres": mitres }));
    }
    blocks.push(Block::Caution(CARE.map(str::to_owned).to_vec()));
    let facts = json!({ "rounds": facts });
    Ok(Paper { kind: PaperKind::RingBorder, content: Content::Blocks(blocks), facts })
}

/// What the table doesn't say: how a ring's stripes come out, and where a border's strips are joined.
fn more(report: &StageReport, list: &[String]) -> Option<Block> {
    let of_ring = matches!(report, StageReport::Ring(_));
    let items: Vec<String> = list.iter().filter(|line| of_ring || line.contains("joined")).cloned().collect();
    (!items.is_empty()).then_some(Block::List { face: faces::BODY, counted: of_ring, items })
}

/// The strips round the piece: numbers are the order of sewing.
fn lying(before: &[Point], strips: &[Strip], wish: &PapersWish) -> Block {
    let placed: Vec<Vec<Point>> = strips.iter().map(|strip| strip.lies.apply_all(&strip.cut)).collect();
    let all: Vec<Point> = placed.iter().flatten().chain(before).copied().collect();
    let mut pad = Pad::over(&all, [wish.paper.size_in()[0] - 2.6, 4.5]);
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
            let words = wish.length(round_up(strip.cut_bar_in, 8), 8);
            pad.beside(c.midpoint(*d), c.midpoint(*d) - middle, LENGTH_PT, words);
        }
    }
    pad.block(
        "Strips round the piece, numbered in the order of sewing",
        "Numbers: the order of sewing. Lengths: how long each strip is cut. Dashed: the raw edge that it is sewn to.",
    )
}

fn table(strips: &[Strip], wish: &PapersWish) -> Block {
    let columns = vec![
        Column::numbers("Order", 0.8),
        Column::numbers("Side", 0.8),
        Column::numbers("Cut long", 1.4),
        Column::numbers("Cut wide", 1.4),
        Column::numbers("Seam", 1.4),
        Column::words("", 0.3),
        Column::words("Its ends, in degrees", 2.2),
    ];
    let row = |(i, strip): (usize, &Strip)| {
        let square = [strip.start_deg, strip.end_deg].iter().all(|angle| (angle - 90.0).abs() < 0.5);
        let ends = if square {
            "square".to_owned()
        } else {
            format!("{:.0} and {:.0}", strip.start_deg, strip.end_deg)
        };
        vec![
            (i + 1).to_string(),
            (strip.side + 1).to_string(),
            wish.length(round_up(strip.cut_bar_in, 8), 8),
            wish.length(strip.cut_wide_in, 8),
            wish.length(strip.seam_in, 8),
            String::new(),
            ends,
        ]
    };
    Block::Table(Table { columns, rows: strips.iter().enumerate().map(row).collect() })
}

/// Each strip by itself, the sewn edge below.
fn cut_shapes(strips: &[Strip], wish: &PapersWish) -> Block {
    let longest = strips.iter().map(|strip| strip.cut_bar_in).fold(1.0, f64::max);
    let room = wish.paper.size_in()[0] - 3.2;
    let mut pad = Pad::at_scale((room / longest).min(1.0));
    let mut top = 0.0;
    for (i, strip) in strips.iter().enumerate() {
        let Some(turn) = plane::Turn::towards(strip.cut[0] - strip.cut[1]) else { continue };
        let flat: Vec<Point> =
            strip.cut.iter().map(|p| Point::ORIGIN + turn.inverse().apply(*p - strip.cut[1])).collect();
        // Its sewn edge runs level; the rest of it may lie above or below.
        let (low, high) = polygon::bounds(&flat).unwrap_or_default();
        let by = Vec2::new(-low.x, top - high.y);
        let lies: Vec<Point> = flat.iter().map(|p| *p + by).collect();
        pad.area(lies.clone(), drawing::CALICO, 1.0);
        pad.closed(lies.clone(), Stroke::CutLine);
        let height = high.y - low.y;
        let middle = Point::new((high.x - low.x) / 2.0, top - height / 2.0);
        let words = format!(
            "{} by {}",
            wish.length(round_up(strip.cut_bar_in, 8), 8),
            wish.length(strip.cut_wide_in, 8)
        );
        pad.words(middle, LENGTH_PT, words);
        pad.bold(Point::new(-pad.paper(0.25), top - height / 2.0), NUMBER_PT, (i + 1).to_string());
        if let [a, b, c, d] = lies.as_slice() {
            for (corner, angle, side) in [(c, strip.start_deg, *b), (d, strip.end_deg, *a)] {
                if (angle - 90.0).abs() >= 0.5 {
                    let inwards = if side.x > middle.x { -0.35 } else { 0.35 };
                    let at = Point::new(corner.x + pad.paper(inwards), corner.y.midpoint(side.y));
                    pad.words(at, 10.0, format!("{angle:.0}°"));
                }
            }
        }
        top -= height.max(pad.paper(0.22)) + pad.paper(0.12);
    }
    pad.block("Each strip as it is cut", "Ends are cut at the angles that are written at them, else square.")
}

fn mitred(mitres: &[Mitre], wish: &PapersWish) -> Block {
    let columns = vec![
        Column::numbers("Corner", 1.0),
        Column::numbers("Its angle", 1.2),
        Column::numbers("Strip before leans", 1.8),
        Column::numbers("Strip after leans", 1.8),
        Column::numbers("Seam to the raw edge", 2.0),
    ];
    let degrees = |angle: f64| format!("{angle:.1}°");
    let row = |mitre: &Mitre| {
        vec![
            (mitre.corner + 1).to_string(),
            degrees(mitre.corner_deg),
            degrees(mitre.before_off_square_deg),
            degrees(mitre.own_off_square_deg),
            wish.length(mitre.seam_in, 16),
        ]
    };
    Block::Table(Table { columns, rows: mitres.iter().map(row).collect() })
}
