//! Shapes in true size on few sheets: nested where several lie on one, in parts to be glued where one is too large.

use super::PapersWish;
use crate::asks::Asked;
use drawing::{Item, Placement};
use nest::{Ask, Cloth, Effort, Piece, Price, Room, Source, Turns};
use papers::Paper as PaperSize;
use papers::press::Sheet;
use papers::true_size::{Foot, GAP_IN, TrueSize, in_rows_on_pages, page_room, parts, true_size, turn_for};
use plane::{Point, Pose, Region, Turn, Vec2, polygon};
use quilt::pattern::Lines;

/// Sheets, and where each shape lies.
pub(super) struct Sheets {
    pub(super) sheets: Vec<Sheet>,
    /// For each shape its sheets, from 1: one, or several to be glued.
    pub(super) on: Vec<Vec<usize>>,
}

/// A shape to be printed: what it is called, and its lines.
pub(super) struct Printed {
    pub(super) name: String,
    pub(super) lines: Lines,
}

/// How lines come to lie on paper: mirrored or not, and turned so that they take little room.
pub(super) fn laid(lines: &Lines, mirrored: bool, paper: PaperSize) -> (Lines, Placement) {
    let first = if mirrored { Placement::TURN_OVER } else { Placement::STAY };
    let turn = turn_for(&first.apply_all(&lines.cut), paper);
    let place = first.then(Placement::moved(Pose::new(turn, Vec2::default())));
    (lines.placed(mirrored, |p| place.apply(p)), place)
}

/// Something that lies on a sheet with others: a shape, or a part of one that is drawn already.
struct Lying {
    of: usize,
    outline: Vec<Point>,
    drawn: Option<TrueSize>,
}

/// The shapes on as few sheets as are found; `draw` is given a shape's number, and its lines as they lie with how they
/// came there.
pub(super) fn on_sheets(
    shapes: &[Printed],
    mirrored: bool,
    wish: &PapersWish,
    foot: &Foot,
    draw: &dyn Fn(usize, &Lines, Placement) -> Vec<Item>,
) -> Asked<Sheets> {
    let paper = wish.paper;
    let turned: Vec<(Lines, Placement)> =
        shapes.iter().map(|shape| laid(&shape.lines, mirrored, paper)).collect();
    let outlines: Vec<Vec<Point>> = turned.iter().map(|(lines, _)| lines.cut.clone()).collect();
    let fits: Vec<bool> = in_rows_on_pages(&outlines, paper)?.iter().map(Option::is_some).collect();
    let drawn = |no: usize, pose: Pose| {
        let (lines, place) = &turned[no];
        let moved = Placement::moved(pose);
        let lines = lines.placed(false, |p| moved.apply(p));
        let items = draw(no, &lines, place.then(moved));
        TrueSize { name: shapes[no].name.clone(), outline: lines.cut, items }
    };
    let (mut lying, mut alone) = (Vec::new(), Vec::new());
    for no in 0..shapes.len() {
        if fits[no] {
            lying.push(Lying { of: no, outline: outlines[no].clone(), drawn: None });
            continue;
        }
        for part in parts(&drawn(no, Pose::STAY), paper)? {
            match part.whole_page {
                true => alone.push((no, part.shape)),
                false => {
                    lying.push(Lying {
                        of: no,
                        outline: part.shape.outline.clone(),
                        drawn: Some(part.shape),
                    });
                }
            }
        }
    }
    let places = places(&lying, paper)?;
    let mut on = vec![Vec::new(); shapes.len()];
    let mut laid = Vec::new();
    for (thing, (page, pose)) in lying.into_iter().zip(places) {
        on[thing.of].push(page + 1);
        let shape = match thing.drawn {
            Some(part) => part.shifted(pose.by),
            None => drawn(thing.of, pose),
        };
        laid.push((page, shape));
    }
    let shared = laid.iter().map(|(page, _)| page + 1).max().unwrap_or(0);
    for (i, (of, shape)) in alone.into_iter().enumerate() {
        on[of].push(shared + i + 1);
        laid.push((shared + i, shape));
    }
    for on in &mut on {
        on.sort_unstable();
        on.dedup();
    }
    Ok(Sheets { sheets: true_size(&laid, paper, foot), on })
}

/// Rounds of seeking, fewer where there are more things: a second at most for some hundred.
const ROUNDS: u32 = 6_000;
const MOST_ROUNDS: u32 = 300;

/// On which page each thing lies, and where: nested, or in rows if that takes no more.
fn places(lying: &[Lying], paper: PaperSize) -> Asked<Vec<(usize, Pose)>> {
    let outlines: Vec<Vec<Point>> = lying.iter().map(|thing| thing.outline.clone()).collect();
    let rows: Vec<(usize, Pose)> = in_rows_on_pages(&outlines, paper)?
        .into_iter()
        .map(|place| place.map_or((0, Pose::STAY), |(page, by)| (page, Pose::new(Turn::NONE, by))))
        .collect();
    let pages = rows.iter().map(|(page, _)| page + 1).max().unwrap_or(0);
    let mut best = nested(lying, pages, paper).unwrap_or(rows);
    // The sheet with the first shape comes first.
    let mut order: Vec<usize> = Vec::new();
    for (page, _) in &best {
        if !order.contains(page) {
            order.push(*page);
        }
    }
    for (page, _) in &mut best {
        *page = order.iter().position(|known| known == page).unwrap_or(*page);
    }
    Ok(best)
}

/// Places on fewer pages than `pages`, if such are found.
fn nested(lying: &[Lying], pages: usize, paper: PaperSize) -> Option<Vec<(usize, Pose)>> {
    let room = Region { outer: page_room(paper), holes: Vec::new() };
    let all: f64 = lying.iter().map(|thing| polygon::area(&thing.outline)).sum();
    if pages <= 1 || (all / room.area()).ceil() as usize >= pages {
        return None;
    }
    let piece = |thing: &Lying| {
        let turns = || match thing.drawn {
            Some(_) => Turns::just(Turn::NONE),
            None => Turns::Any,
        };
        let from = (0..pages).map(|cloth| Source { cloth, turns: turns(), dislike: 0.0 });
        Piece {
            name: thing.of.to_string(),
            outline: thing.outline.clone(),
            from: from.collect(),
            tolerates: 0,
        }
    };
    let sheet = |no: usize| Cloth {
        name: format!("sheet {}", no + 1),
        parts: vec![room.clone()],
        spots: Vec::new(),
        grain: Turn::NONE,
        price: Price::Whole(1.0),
    };
    let rounds = (ROUNDS / lying.len().max(1) as u32).clamp(1, MOST_ROUNDS);
    let ask = Ask {
        pieces: lying.iter().map(piece).collect(),
        cloths: (0..pages).map(sheet).collect(),
        room: Room { between_in: GAP_IN, edge_in: 0.0 },
        effort: Effort { rounds, ..Effort::default() },
    };
    let answer = nest::nest(&ask, &mut |_| true).ok()?;
    let found: Vec<(usize, Pose)> = answer.placed.iter().map(|placed| (placed.cloth, placed.at)).collect();
    (answer.left_over.is_empty() && found.len() == lying.len() && answer.opened().len() < pages)
        .then_some(found)
}

/// Sheets in words: `3`, `4 to 7`, or `2, 4 to 6`.
pub(super) fn told(on: &[usize]) -> String {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for &sheet in on {
        match runs.last_mut().filter(|(_, last)| *last + 1 == sheet) {
            Some((_, last)) => *last = sheet,
            None => runs.push((sheet, sheet)),
        }
    }
    let words = runs.iter().map(|(first, last)| match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first} to {last}"),
    });
    words.collect::<Vec<_>>().join(", ")
}
