//! Back, batting and how they are held together: layouts with panels and seams, pins or rows, loading.

use super::pad::{LENGTH_PT, NUMBER_PT, Pad};
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{Asked, StageReport, capital};
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{MADDER, Stroke};
use papers::flow::{Block, Column, Format, Table, faces};
use plane::Point;
use quilt::stage::layers::{
    BackStrip, Backing, Batting, BattingWay, Bought, Join, LayersPlan, PiecedBack, Rectangle, SeamRun,
    Source, Take, With,
};
use serde_json::json;

/// What is said where needle and pins are in hand (common practice, no source).
const CARE: &str =
    "Count pins in and count them out again. Lay the back wrong side up, flat and not stretched.";

pub(super) fn layers(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let taken = room.taken(head)?;
    let (_, plan) = taken.layers()?;
    let raw = taken.raw()?;
    let told = StageReport::Layers(plan.clone()).told(wish.unit());
    let mut blocks = vec![
        Block::chapter(PaperKind::Layers.title()),
        Block::body(&told.sentence),
        Block::Beside(vec![
            (0.5, vec![Block::section("The back"), back(&plan.backing, &raw, wish)]),
            (0.5, vec![Block::section("The batting"), batting(&plan.batting, &raw, wish)]),
        ]),
    ];
    if let (Take::Pieced, Some(pieced)) = (plan.backing.take, plan.backing.pieced.first()) {
        blocks.push(panels("Panel", &pieced.strips, &pieced.bought, wish));
        blocks.extend(bought(pieced, wish));
    }
    if let Some(BattingWay::ButtedPieces(butted) | BattingWay::ButtedPackages(butted)) = plan.batting.way() {
        blocks.push(panels("Batting", &butted.strips, &[], wish));
    }
    if let Some(how) = butted_how(&plan.batting) {
        blocks.push(Block::body(how));
    }
    blocks.push(Block::section("Holding them together"));
    let items = plan.basting.steps(wish.unit());
    let steps = Block::List { face: faces::BODY, counted: true, items };
    let mut beside = vec![steps, Block::Heading { level: 3, words: "Sizes".to_owned() }, sizes(&plan, wish)];
    match holding(&plan, &raw, wish) {
        Some(held) => blocks.push(Block::Beside(vec![(0.44, vec![held]), (0.56, beside)])),
        None => blocks.append(&mut beside),
    }
    let cautions: Vec<String> =
        std::iter::once(CARE.to_owned()).chain(told.cautions.iter().cloned()).collect();
    blocks.push(Block::Caution(cautions));
    let facts = json!({ "says": told.sentence, "steps": told.list, "cautions": told.cautions, "plan": plan });
    Ok(Paper { kind: PaperKind::Layers, blocks, facts })
}

fn back(plan: &Backing, raw: &[Point], wish: &PapersWish) -> Block {
    match (plan.take, plan.pieced.first()) {
        (Take::Pieced, Some(pieced)) => {
            layout(&plan.rectangle, pieced.seams, &pieced.joins, raw, wish, "the back in panels")
        }
        (Take::Whole(cloth), _) => {
            let name =
                plan.whole.holds.iter().find(|holds| holds.cloth == cloth).map(|holds| holds.name.clone());
            let words = name.unwrap_or_else(|| "one cloth".to_owned());
            one(&plan.needed, &words, raw, wish, "the back in one piece")
        }
        (Take::Pieced, None) => one(&plan.needed, "no cloth yet", raw, wish, "the back that is needed"),
    }
}

fn batting(plan: &Batting, raw: &[Point], wish: &PapersWish) -> Block {
    match plan.way() {
        Some(BattingWay::ButtedPieces(butted) | BattingWay::ButtedPackages(butted)) => {
            layout(&plan.rectangle, butted.joins_run, &butted.joins, raw, wish, "the batting, butted")
        }
        Some(BattingWay::Piece(holds)) => {
            one(&plan.needed, &holds.name, raw, wish, "the batting in one piece")
        }
        Some(BattingWay::Package(_)) => {
            one(&plan.needed, "one package of batting", raw, wish, "the batting from a package")
        }
        None => one(&plan.needed, "no batting yet", raw, wish, "the batting that is needed"),
    }
}

fn butted_how(plan: &Batting) -> Option<&'static str> {
    match plan.way()? {
        BattingWay::ButtedPieces(butted) | BattingWay::ButtedPackages(butted) => Some(butted.how),
        BattingWay::Piece(_) | BattingWay::Package(_) => None,
    }
}

/// Room for a layout on the page.
fn room_in(wish: &PapersWish) -> [f64; 2] {
    [0.5 * Format::new(wish.paper, "").width_in() - 0.7, 0.2 * wish.paper.size_in()[1]]
}

/// A layer in one piece: what is cut, and the piece on it.
fn one(needed: &[Point], words: &str, raw: &[Point], wish: &PapersWish, title: &str) -> Block {
    let mut pad = Pad::over(needed, room_in(wish));
    pad.area(needed.to_vec(), drawing::CALICO, 1.0);
    pad.closed(needed.to_vec(), Stroke::CutLine);
    pad.seam(raw, true);
    let (low, high) = plane::polygon::bounds(needed).unwrap_or_default();
    pad.bold(low.midpoint(high), NUMBER_PT, words);
    // A rectangle is measured along its own sides, however it lies.
    let corners = match needed {
        [a, b, c, _] => [*a, *b, *c],
        _ => [low, Point::new(high.x, low.y), high],
    };
    measured(&mut pad, corners, wish);
    pad.block(
        format!("{}, seen from the front", capital(title)),
        format!("{}. Dashed: the raw edge of the piece, seen from the front.", capital(title)),
    )
}

/// Width below and height on the right.
fn measured(pad: &mut Pad, [a, b, c]: [Point; 3], wish: &PapersWish) {
    for (from, to) in [(a, b), (b, c)] {
        let off = (to - from).left() * (pad.paper(-0.09) / from.distance(to).max(1e-9));
        pad.line(vec![from + off, to + off], Stroke::Leader);
    }
    pad.along(a, b, -0.22, LENGTH_PT, wish.length(a.distance(b), 8));
    pad.along(b, c, -0.22, LENGTH_PT, wish.length(b.distance(c), 8));
}

/// Panels side by side with their seams, and the piece on them.
fn layout(
    rectangle: &Rectangle,
    run: SeamRun,
    joins: &[Join],
    raw: &[Point],
    wish: &PapersWish,
    title: &str,
) -> Block {
    let corners = rectangle.corners();
    let mut pad = Pad::over(&corners, room_in(wish));
    pad.area(corners.clone(), drawing::CALICO, 1.0);
    pad.closed(corners.clone(), Stroke::CutLine);
    pad.seam(raw, true);
    let end = match run {
        SeamRun::Along => rectangle.width_in,
        SeamRun::Across => rectangle.length_in,
    };
    let mut from = 0.0;
    let ends = joins.iter().map(|join| join.at_in).chain([end]);
    for (i, to) in ends.enumerate() {
        let middle = f64::midpoint(from, to);
        let at = match run {
            SeamRun::Along => rectangle.point(middle, rectangle.length_in / 2.0),
            SeamRun::Across => rectangle.point(rectangle.width_in / 2.0, middle),
        };
        pad.bold(at, NUMBER_PT, (i + 1).to_string());
        from = to;
    }
    for join in joins {
        pad.line(vec![join.from, join.to], Stroke::Mark);
    }
    if let [a, b, c, _] = corners.as_slice() {
        measured(&mut pad, [*a, *b, *c], wish);
    }
    pad.block(
        format!("{}, seen from the front", capital(title)),
        format!(
            "{}. Red: where panels join. Dashed: the raw edge of the piece. Seen from the front.",
            capital(title)
        ),
    )
}

fn panels(what: &str, strips: &[BackStrip], bolts: &[Bought], wish: &PapersWish) -> Block {
    let columns = vec![
        Column::numbers(what, 0.8),
        Column::numbers("Cut wide", 1.4),
        Column::numbers("Cut long", 1.4),
        Column::words("From", 4.0),
    ];
    let row = |(i, strip): (usize, &BackStrip)| {
        let from = match &strip.from {
            Source::Bolt(no) => bolts
                .iter()
                .find(|bought| bought.bolt == *no)
                .map_or_else(|| format!("bolt {}", no + 1), |bought| bought.name.clone()),
            Source::Package(no) => format!("package {}", no + 1),
            Source::Cloth { name, .. } => name.clone(),
        };
        let half = if strip.part { ", a half cut lengthwise" } else { "" };
        vec![
            (i + 1).to_string(),
            wish.length(strip.cut_width_in, 8),
            wish.length(strip.cut_length_in, 8),
            format!("{from}{half}"),
        ]
    };
    Block::Table(Table { columns, rows: strips.iter().enumerate().map(row).collect() })
}

/// What is taken off bolts; the panels themselves stand in the table.
fn bought(pieced: &PiecedBack, wish: &PapersWish) -> Option<Block> {
    let lines = pieced.cutting(wish.unit());
    let count = pieced.bought.len();
    (count > 0).then(|| Block::list(lines.into_iter().take(count)))
}

/// The picture of pins or rows, or how the frame is loaded.
fn holding(plan: &LayersPlan, raw: &[Point], wish: &PapersWish) -> Option<Block> {
    let mut pad = Pad::over(raw, room_in(wish));
    pad.closed(raw.to_vec(), Stroke::Outline);
    match &plan.basting.with {
        With::Pins(pins) => {
            pins.iter().for_each(|pin| pad.dot(*pin, 0.035, MADDER));
            if let Some(first) = pins.first() {
                let at = *first;
                pad.beside(at, plane::Vec2::new(1.0, 0.0), LENGTH_PT, "1");
            }
            Some(pad.block(
                "Where the pins go",
                format!("{} pins, from 1 in the middle outwards. The front is up.", pins.len()),
            ))
        }
        With::Thread { rows, .. } => {
            rows.iter().for_each(|row| pad.seam(&[row.from, row.to], false));
            Some(
                pad.block(
                    "Where the rows of basting run",
                    "Dashed: rows of basting, from the middle outwards.",
                ),
            )
        }
        With::Frame(loading) => Some(Block::body(format!(
            "On the frame {} lies along the rollers and {} is rolled: {} advances, {} clamps a side.",
            wish.length(loading.along_rollers_in, 8),
            wish.length(loading.rolled_in, 8),
            loading.advances,
            loading.clamps_a_side
        ))),
        With::Spray { .. } => None,
    }
}

fn sizes(plan: &LayersPlan, wish: &PapersWish) -> Block {
    let sizes = &plan.sizes;
    let columns = vec![Column::words("", 2.6), Column::words("Width by height", 3.0)];
    let row = |name: &str, size: [f64; 2]| vec![name.to_owned(), wish.size(size, 8)];
    let cut = |name: &str, needed: &[Point]| {
        let (low, high) = plane::polygon::bounds(needed).unwrap_or_default();
        let size = [high.x - low.x, high.y - low.y].map(|inches| wish.up(inches, 8));
        let unit = if wish.centimetres { "" } else { " inches" };
        vec![name.to_owned(), format!("{} by {}{unit}", size[0], size[1])]
    };
    let rows = vec![
        cut("The back, as cut", &plan.backing.needed),
        cut("The batting, as cut", &plan.batting.needed),
        row("The piece, flat", sizes.flat_in),
        row("Quilted", sizes.quilted_in),
        row("Washed", sizes.washed_in),
    ];
    Block::Table(Table { columns, rows })
}
