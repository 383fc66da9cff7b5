//! Steps that are alike, told once: the strips of a ring or a border, each sewn on like the one before.
//!
//! What is the same is said in sentences, what differs stands in a table; each strip has the number of its step on
//! the picture, and its scrap a picture of its own.

use super::act::{Act, Slide};
use super::card::Card;
use super::pictures::{Page, figure, rows, scraps};
use super::scrap::Marking;
use super::{Told, draw, large, says, small};
use crate::asks::Asked;
use papers::flow::{Block, Column, Table, faces};
use papers::press::Face;
use plane::Point;
use quilt::log::{Mark, Press};

/// So many steps or more are told as one.
const LEAST: usize = 3;

/// Dots nearer to each other than this are one on the picture, in inches.
const SAME_DOT_IN: f64 = 0.25;

/// What is told as one: a card, or several that are alike.
pub(super) enum Part {
    One(Box<Told>),
    Alike(Vec<Told>),
}

/// Cards in their order, those that are alike gathered.
pub(super) fn parts(cards: Vec<Told>) -> Vec<Part> {
    let mut runs: Vec<Vec<Told>> = Vec::new();
    for told in cards {
        let like =
            runs.last().and_then(|run| run.first()).is_some_and(|(first, _)| are_alike(first, &told.0));
        match runs.last_mut().filter(|_| like) {
            Some(run) => run.push(told),
            None => runs.push(vec![told]),
        }
    }
    let parts = runs.into_iter().flat_map(|run| {
        if run.len() >= LEAST {
            return vec![Part::Alike(run)];
        }
        run.into_iter().map(|told| Part::One(Box::new(told))).collect()
    });
    parts.collect()
}

/// What is the same of all: the cloth, how patches are joined, the seam, the iron, the trim.
#[derive(Debug, PartialEq)]
struct Same {
    stage: &'static str,
    from: String,
    /// Seams within the unit: how long and how deep, in sixty-fourths of an inch; none without a unit.
    joins: Option<[i64; 2]>,
    seam_in: f64,
    press: Press,
    ends: Option<bool>,
}

fn are_alike(one: &Card, other: &Card) -> bool {
    same(one).is_some_and(|one| same(other).is_some_and(|other| one == other))
        && one.top == other.top
        && one.entries.last() < other.entries.first()
}

/// What a card has in common with those like it; `None` for one that stands alone.
fn same(card: &Card) -> Option<Same> {
    let stage = card.stage.filter(|_| card.edges.len() == 1 && card.trims.is_empty())?;
    let from = says::from(card.cuts.first()?);
    if card.cuts.iter().any(|cut| says::from(cut) != from) {
        return None;
    }
    let mut found = Same { stage, from, joins: None, seam_in: 0.0, press: Press::Over, ends: None };
    let mut joined = 0;
    for act in &card.acts {
        match act {
            Act::Join { what, along_in, seam_in, .. } => {
                let lengths = [*along_in, *seam_in].map(|inches| (inches * 64.0).round() as i64);
                joined += 1;
                // Each after the other, in the order of their numbers.
                let next = card.cuts.get(joined).map(|cut| cut.patch);
                if what.patches.first().copied() != next || found.joins.is_some_and(|known| known != lengths)
                {
                    return None;
                }
                found.joins = Some(lengths);
            }
            Act::Onto { seam_in, open_in: None, .. } => found.seam_in = *seam_in,
            Act::Pressed(press) => found.press = *press,
            Act::TrimEnds { both } => found.ends = Some(*both),
            _ => return None,
        }
    }
    (joined + 1 == card.cuts.len() && found.seam_in > 0.0).then_some(found)
}

/// How long the red edge is, and how far the strip is slid along it.
fn onto(card: &Card) -> (f64, Option<Slide>) {
    let found = card.acts.iter().find_map(|act| match act {
        Act::Onto { long_in, slide, .. } => Some((*long_in, *slide)),
        _ => None,
    });
    found.unwrap_or_default()
}

/// The card of several steps.
pub(super) fn card(several: &[Told], page: &Page) -> Asked<Vec<Block>> {
    let (Some((first, _)), Some((last, [_, after]))) = (several.first(), several.last()) else {
        return Ok(Vec::new());
    };
    let is_small = page.wish.small_cards;
    let (face, number, high, wide) =
        if is_small { (small::WORDS, 22.0, 2.0, 4) } else { (large::WORDS, 40.0, 3.0, 3) };
    let number = Block::set(Face { size_pt: number, ..faces::NUMBER }, format!("{}–{}", first.no, last.no));
    let marks: Vec<Mark> =
        several.iter().flat_map(|(card, _)| card.cuts.iter().map(|cut| cut.patch)).collect();
    let slides = several.iter().any(|(card, _)| onto(card).1.is_some());
    let stage = first.stage.unwrap_or_default();
    let words =
        format!("Steps {} to {}: {}, {}", first.no, last.no, stage.to_lowercase(), says::patches(&marks));
    let head = Block::Heading { level: 2, words };
    let head = Block::Beside(vec![(2.0, vec![number]), (6.0, vec![head])]);
    let mut blocks = vec![if is_small { Block::Room(0.2) } else { Block::NewPage }];
    // Equal slices of one cloth are cut side by side: the picture of the first step's is enough.
    let equal = |card: &Card| {
        card.cuts.len() > 1 && card.sizes_in.iter().all(|size| first.sizes_in.first() == Some(size))
    };
    let one = several.iter().all(|(card, _)| equal(card));
    let pictured = if one { several.get(..1).unwrap_or_default() } else { several };
    let room_in = [if is_small { 1.5 } else { 2.1 }, if is_small { 1.2 } else { 1.9 }];
    let marking = if is_small { Marking::Bare } else { Marking::Plain };
    let mut cells = Vec::new();
    for (card, _) in pictured {
        for scrap in scraps(card, page, marking, room_in) {
            let patches: Vec<Mark> =
                scrap.cuts.iter().filter_map(|i| card.cuts.get(*i)).map(|cut| cut.patch).collect();
            let caption = format!("Step {}: {}", card.no, says::patches(&patches));
            cells.push(vec![figure(scrap.drawing, room_in[1], ""), Block::set(Face::bold(11.0), caption)]);
        }
    }
    if let Some(top) = last.top {
        let drawing = draw::top(after, top, page.cloths, &shown(several), [5.0, high])?;
        let piece =
            figure(drawing, high, "The piece when all of them are sewn on; numbers are those of the steps");
        let mut beside = vec![(5.0, vec![piece])];
        if one {
            beside.extend(cells.pop().map(|cell| (2.2, cell)));
        }
        blocks.push(Block::Together(vec![head, Block::Beside(beside)]));
    }
    blocks.push(Block::List { face, counted: true, items: said(first, slides, page) });
    blocks.push(table(several, slides, page));
    blocks.extend(rows(cells, wide));
    Ok(blocks)
}

/// Each step's patches, their number on them, and the seams that have been sewn onto the piece.
fn shown(several: &[Told]) -> draw::Shown {
    let mut shown = draw::Shown::default();
    for (card, [before, _]) in several {
        // The number stands on the patch in the middle of a unit.
        let middle = card.cuts.len() / 2;
        shown.patches.extend(
            card.cuts
                .iter()
                .enumerate()
                .map(|(i, cut)| (cut.patch, if i == middle { card.no.to_string() } else { String::new() })),
        );
        if let Some(dot) = card.dot {
            shown.dots.push(dot);
            let here = |(at, _): &&mut (Point, String)| at.distance(dot) < SAME_DOT_IN;
            match shown.at_dots.iter_mut().find(here) {
                Some((_, steps)) => steps.push_str(&format!(", {}", card.no)),
                None => shown.at_dots.push((dot, card.no.to_string())),
            }
        }
        let top = card.top.and_then(|top| before.top(top));
        let sides = top.map(quilt::table::Top::sides).unwrap_or_default();
        let seam_in = same(card).map_or(0.0, |same| same.seam_in);
        let of = sides.iter().filter(|side| side.name().is_some_and(|name| card.edges.contains(&name)));
        shown.seams.extend(of.map(|side| inside(side.from, side.to, seam_in)));
    }
    shown
}

/// The seam line inside an edge; the piece lies to the left of it.
fn inside(from: Point, to: Point, seam_in: f64) -> [Point; 2] {
    let way = to - from;
    let inward = way.left() * (seam_in / way.length().max(1e-9));
    [from + inward, to + inward]
}

/// What all of them have in common, in sentences.
fn said(first: &Card, slides: bool, page: &Page) -> Vec<String> {
    let length = |inches: f64| page.wish.length(inches, 8);
    let Some(same) = same(first) else { return Vec::new() };
    let mut said = vec![if page.wish.by_template {
        format!("Cut what a step takes by template, from {}: printed side up.", same.from)
    } else {
        format!("Cut what a step takes from {}, at least as large as the table says.", same.from)
    }];
    if let Some([along, seam]) = same.joins {
        let [along, seam] = [along, seam].map(|parts| length(parts as f64 / 64.0));
        said.push(format!(
            "Sew the patches of a step together in the order of their numbers, along {along}; seam {seam}. Press each."
        ));
    }
    said.push(format!(
        "Lay it right sides together on its edge of the piece, middle on middle{}. Sew; seam {}.",
        if slides { ", then slide it off the middle where the table says so" } else { "" },
        length(same.seam_in)
    ));
    said.push(match same.press {
        Press::Over => {
            "Press the seam towards the strip, several steps together where the table says so.".to_owned()
        }
        Press::Back => {
            "Press the seam towards the piece, several steps together where the table says so.".to_owned()
        }
        Press::Open => "Press the seam open, several steps together where the table says so.".to_owned(),
    });
    said.extend(same.ends.map(|_| {
        "Trim what sticks out at its ends in line with the edges beside it, before the next seam crosses it.".to_owned()
    }));
    said
}

/// What differs from step to step.
fn table(several: &[Told], slides: bool, page: &Page) -> Block {
    let length = |inches: f64| page.wish.length(inches, 8);
    let mut columns = vec![
        Column::words("Step", 0.7),
        Column::words("Patches", 1.6),
        Column::words("Cut at least", 2.0),
        Column::words("Red edge", 1.2),
        Column::words("Press", 1.5),
    ];
    columns.extend(slides.then(|| Column::words("Off the middle", 1.6)));
    let row = |card: &Card| {
        let marks: Vec<String> = card.cuts.iter().map(|cut| cut.patch.to_string()).collect();
        let mut sizes: Vec<String> = card
            .sizes_in
            .iter()
            .map(|[along, square]| format!("{} by {}", length(*along), length(*square)))
            .collect();
        sizes.dedup();
        let (long_in, slide) = onto(card);
        let press = match card.together {
            Some([first, last]) if first < last => format!("after step {last}"),
            _ => "at once".to_owned(),
        };
        let by = slide.map(|slide| {
            let way = if slide.towards { "to" } else { "from" };
            format!("{} {way} its dot", length(slide.by_in))
        });
        vec![
            card.no.to_string(),
            marks.join(", "),
            if page.wish.by_template { "by template".to_owned() } else { sizes.join("; ") },
            length(long_in),
            press,
            by.unwrap_or_default(),
        ]
    };
    Block::Table(Table { columns, rows: several.iter().map(|(card, _)| row(card)).collect() })
}
