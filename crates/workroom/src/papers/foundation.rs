//! Foundation sheets: the centre as numbered sections for sewing onto paper, mirrored, and how they are joined.

use super::pattern::Pattern;
use super::sheets::{self, Printed, on_sheets};
use super::{Paper, PaperKind, PapersWish};
use crate::asks::Asked;
use crate::quilts::Head;
use crate::workroom::Workroom;
use drawing::{Item, Placement, Stroke, TemplateWords, pattern_lines, pattern_words};
use papers::flow::{Block, Column, Fit, Table, faces};
use papers::true_size::Foot;
use plane::Point;
use quilt::foundation::{Joining, Section, Sections, sections};
use quilt::pattern::{Lines, lines_round};
use serde_json::json;
use std::sync::Arc;

pub(super) fn foundation(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let pattern = room.pattern(head, "foundation sheets", wish)?;
    let found = sections(&pattern.pieces);
    let names = names(&found, pattern.templates.len());
    let shapes: Vec<Printed> =
        (0..found.sections.len()).map(|no| printed(&pattern, &found, no, &names)).collect();
    let foot = Foot {
        title: "Foundations".to_owned(),
        notes: vec![
            "Mirrored: cloth goes on the blank side, sew on this one.".to_owned(),
            "Sew dashed lines in order, cut on the solid line.".to_owned(),
        ],
    };
    let draw = |no: usize, lines: &Lines, place| drawn(&pattern, &found.sections[no], &names, lines, place);
    let pages = on_sheets(&shapes, true, wish, &foot, &draw)?;
    let joins: Vec<String> = found.joins.iter().map(|join| told(join, wish)).collect();
    let facts = json!({
        "pieces": pattern.templates.len(),
        "sheets": pages.sheets.len(),
        "one_piece_at_a_time": found.stuck.is_empty(),
        "stuck": found.stuck.iter().map(|no| pattern.templates[*no].number.clone()).collect::<Vec<_>>(),
        "sections": found.sections.iter().enumerate().map(|(no, section)| json!({
            "section": letters(no),
            "pieces": section.pieces().map(|no| pattern.templates[no].number.clone()).collect::<Vec<_>>(),
            "sheets": pages.on[no],
        })).collect::<Vec<_>>(),
        "joins": joins,
        "partial_seams": found.partial_seams(),
    });
    let groups: Vec<Vec<usize>> = found.sections.iter().map(|section| section.pieces().collect()).collect();
    let mut blocks = vec![
        Block::chapter(PaperKind::Foundation.title()),
        Block::Figure {
            drawing: Arc::new(pattern.map("The sections", &names, &groups)),
            alt: "The centre from the right side, with its sections and the order of sewing".to_owned(),
            fit: Fit::Filling { height_in: 5.6 },
            caption: "From the right side; the sheets are mirrored. Heavy lines divide the sections."
                .to_owned(),
        },
        Block::body(splitting(&pattern, &found)),
        Block::List { face: faces::BODY, counted: true, items: HOW_TO.map(str::to_owned).to_vec() },
        Block::section("The sections"),
        Block::Table(table(&pattern, &found, &names, &pages.on)),
    ];
    if !joins.is_empty() {
        blocks.push(Block::section("Joining the sections"));
        blocks.push(Block::List { face: faces::BODY, counted: true, items: joins });
    }
    blocks.extend(pages.sheets.into_iter().map(|sheet| Block::Page(Arc::new(sheet))));
    Ok(Paper { kind: PaperKind::Foundation, blocks, facts })
}

/// How it is done (common practice, no source).
const HOW_TO: [&str; 6] = [
    "Print at 100 % on thin paper and hold a ruler to the squares. Cut the sections out roughly, outside the solid line.",
    "Lay the first cloth right side out on the blank side of the paper, under number 1, reaching past all its lines.",
    "Lay the next cloth on it, right sides together, so that it will cover its place when it is turned over.",
    "Turn the paper up and sew the dashed line between them, a few stitches past both ends, with short stitches.",
    "Fold the paper back, trim the allowance to a quarter of an inch, turn the new cloth over and press it. Then the next \
     number.",
    "Cut along the solid line when a section is done. Leave the paper in until its neighbours are sewn on.",
];

/// Each piece's name: its section's letters and its place in the order.
fn names(found: &Sections, count: usize) -> Vec<String> {
    let mut names = vec![String::new(); count];
    for (no, section) in found.sections.iter().enumerate() {
        for (at, piece) in section.pieces().enumerate() {
            names[piece] = format!("{}{}", letters(no), at + 1);
        }
    }
    names
}

/// A section's name: A to Z, then AA.
fn letters(no: usize) -> String {
    let letter = char::from(b'A' + (no % 26) as u8);
    match (no / 26).checked_sub(1) {
        Some(more) => format!("{}{letter}", letters(more)),
        None => letter.to_string(),
    }
}

/// So many pieces are named; more are counted.
const MOST_NAMED: usize = 60;

/// Pieces in words: all their numbers, or the first of them and how many more.
fn named(numbers: &[&str]) -> String {
    match numbers.split_at_checked(MOST_NAMED) {
        Some((first, more)) if !more.is_empty() => format!("{} and {} more", first.join(", "), more.len()),
        _ => numbers.join(", "),
    }
}

fn splitting(pattern: &Pattern, found: &Sections) -> String {
    if found.stuck.is_empty() {
        return "All of it can be sewn one piece at a time, on one foundation.".to_owned();
    }
    let stuck: Vec<&str> = found.stuck.iter().map(|no| pattern.templates[*no].number.as_str()).collect();
    let full = if found.in_full_seams() {
        "They are joined by straight seams.".to_owned()
    } else {
        let open = found.partial_seams();
        let many = if open == 1 { "One seam is".to_owned() } else { format!("{open} seams are") };
        format!("{many} sewn in part first and closed later, since none runs through.")
    };
    format!(
        "It can't all be sewn one piece at a time: among pieces {} none can be the last, sewn on by one straight \
         seam. So it is split into {} sections. {full}",
        named(&stuck),
        found.sections.len()
    )
}

fn table(pattern: &Pattern, found: &Sections, names: &[String], on: &[Vec<usize>]) -> Table {
    let cell = |section: &Section| {
        let one = |no: usize| {
            let template = &pattern.templates[no];
            format!("{} {} (piece {})", names[no], pattern.cloth(template.cloth), template.number)
        };
        section.pieces().map(one).collect::<Vec<_>>().join(", ")
    };
    let columns =
        vec![Column::words("Section", 1.0), Column::words("In this order", 6.0), Column::words("Sheet", 1.0)];
    let rows = found.sections.iter().enumerate();
    let rows = rows.map(|(no, section)| vec![letters(no), cell(section), sheets::told(&on[no])]).collect();
    Table { columns, rows }
}

fn group(sections: &[usize]) -> String {
    let names: Vec<String> = sections.iter().map(|no| letters(*no)).collect();
    match &names[..] {
        [first, _, _, _, ..] => format!("all that is joined to {first}"),
        few => few.join("+"),
    }
}

fn told(join: &Joining, wish: &PapersWish) -> String {
    let unit = if wish.centimetres { "" } else { " inches" };
    let long = |inches: f64| format!("{}{unit}", wish.length(inches, 8));
    match join {
        Joining::Sew { groups: [a, b], seam, open: None } => {
            format!("Sew {} to {}: one seam of {}.", group(b), group(a), long(seam.length_in()))
        }
        Joining::Sew { groups: [a, b], seam, open: Some(open) } => format!(
            "Sew {} to {} in part: {} of the seam, and leave the last {} open towards the pieces that come there.",
            group(b),
            group(a),
            long(seam.length_in()),
            long(open.length_in())
        ),
        Joining::Close { seam } => {
            format!("Now close the open end of that seam: {}.", long(seam.length_in()))
        }
        Joining::SetIn { groups: [a, b], seams } => format!(
            "Set {} into {}: its edge has corners, so sew {} seams one after the other, each from corner to corner, and \
             turn the cloth at each corner.",
            group(a),
            group(b),
            seams.len()
        ),
    }
}

/// A section to be printed.
fn printed(pattern: &Pattern, found: &Sections, no: usize, names: &[String]) -> Printed {
    let members: Vec<usize> = found.sections[no].pieces().collect();
    let lines = lines_round(&members, &pattern.templates, &pattern.pieces, names, pattern.allowance_in);
    Printed { name: format!("section {}", letters(no)), lines }
}

/// A section as it lies on paper: mirrored.
fn drawn(
    pattern: &Pattern,
    section: &Section,
    names: &[String],
    lines: &Lines,
    place: Placement,
) -> Vec<Item> {
    let mut items = pattern_lines(lines);
    for sewn in &section.order {
        if let Some(seam) = sewn.seam {
            items.push(Item::line(place.apply_all(&[seam.from, seam.to]), Stroke::SeamLine));
        }
    }
    for piece in section.pieces() {
        let template = &pattern.templates[piece];
        let inside = plane_over(place, &template.lines.seam);
        let words = TemplateWords {
            number: names[piece].clone(),
            under: pattern.cloth(template.cloth).to_owned(),
            grain: None,
            top: None,
        };
        items.extend(pattern_words(&inside, &words));
    }
    items
}

/// An outline mirrored and turned back counter-clockwise.
fn plane_over(place: Placement, points: &[Point]) -> Vec<Point> {
    let mut all = place.apply_all(points);
    all.reverse();
    all
}
