//! Looking: the eye check, sides, the audit, drawings.

use super::args::{Arguments, DrawArgs, DrawWhat};
use super::exit::Refusal;
use super::files::whole;
use super::out::Out;
use super::read::{bench, cloth, room};
use drawing::Drawing;
use drawing::svg::{Pictures, SvgOptions};
use papers::{Fonts, paint};
use quilt::cloth::Picture;
use quilt::eye::Row;
use quilt::length::fraction;
use quilt::log::StepId;
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::path::Path;
use workroom::asks::{DrawAsk, Due};
use workroom::audit::{WayUp, audit as held_against};
use workroom::quilts::Head;
use workroom::{PictureFinder, Workroom};

fn tip(head: &Head) -> Result<StepId, Refusal> {
    head.tip
        .ok_or_else(|| Refusal::refused("there is nothing on the table yet", "Grow a centre: ragbag grow"))
}

pub(super) fn eye(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let report = room.eye(&head.quilt, tip(&head)?)?;
    let mut words = String::new();
    for row in &report.check.rows {
        words += &row_words(row);
    }
    words += &format!("{} across, finished. ", fraction(report.across_in, 8));
    if !report.rounds.is_empty() {
        let rounds: Vec<String> = report.rounds.iter().map(|depth| fraction(*depth, 8)).collect();
        words += &format!("Rounds to go: {} (cut depths). ", rounds.join(", then "));
    }
    if let Some(lost) = &report.lost {
        words += &format!("{:.0} % of what is cut does not show. ", 100.0 * lost.share());
    }
    words += &format!("{:.0} % of the outer edge is near the bias.\n", 100.0 * report.bias.risky_share);
    for thick in &report.thick {
        words += &format!(
            "{} layers where {} meet: press one of them open there.\n",
            thick.layers,
            seams(&thick.seams)
        );
    }
    for problem in &report.problems {
        words += &format!("{problem}\n");
    }
    for due in &report.due {
        words += &match due {
            Due::Trim(side) => format!("A trim is due along side {side}.\n"),
            Due::Close(seam) => format!("Seam {seam} is still open.\n"),
        };
    }
    let rows: Vec<Value> = report.check.rows.iter().map(row_value).collect();
    let due = report.due.iter().map(|due| match due {
        Due::Trim(side) => json!({ "what": "trim", "side": side.to_string() }),
        Due::Close(seam) => json!({ "what": "close", "seam": seam.to_string() }),
    });
    let due: Vec<Value> = due.collect();
    let problems: Vec<String> = report.problems.iter().map(ToString::to_string).collect();
    out.say(&words, &json!({
        "rows": rows, "good": report.check.good, "gates_passed": report.check.gates_passed, "total_cost": report.cost,
        "across_finished_in": report.across_in, "rounds_cut_in": report.rounds, "thick": report.thick,
        "bias_share": report.bias.risky_share, "lost_share": report.lost.as_ref().map(quilt::eye::Lost::share),
        "problems": problems, "due": due,
    }));
    Ok(())
}

/// A row as it is printed.
pub(super) fn row_words(row: &Row) -> String {
    format!("{:>5}  {}: {}\n", row.grade.word(), row.quality.label(), row.words)
}

/// A row as a value.
pub(super) fn row_value(row: &Row) -> Value {
    let values: Vec<Value> =
        row.values.iter().map(|v| json!({ "name": v.name, "value": v.value, "cost": v.cost })).collect();
    json!({ "quality": row.quality.label(), "grade": row.grade.word(), "words": row.words, "values": values, "marks": row.marks })
}

/// The names of seams, as said in a sentence.
fn seams(names: &[quilt::log::Name]) -> String {
    let names: Vec<String> = names.iter().map(ToString::to_string).collect();
    match &names[..] {
        [] => "the allowances".to_owned(),
        [one] => format!("seam {one} and an edge"),
        [first @ .., last] => format!("seams {} and {last}", first.join(", ")),
    }
}

pub(super) fn sides(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let table = room.table(&head.quilt, &head.name)?;
    let (mut words, mut values) = (String::new(), Vec::new());
    for (mark, top) in table.tops() {
        let together = grow::sewable_together(top);
        words += &format!("Begun by step {mark}:\n");
        for side in top.sides() {
            let Some(name) = side.name() else { continue };
            let now = together.contains(&name);
            let said = if now { ", can be sewn before the next pressing" } else { "" };
            words += &format!("  {name}: {} raw{said}\n", fraction(side.length_in(), 16));
            values.push(json!({ "top": mark.0, "side": name.to_string(), "raw_in": side.length_in(), "before_pressing": now }));
        }
    }
    if values.is_empty() {
        words = "Nothing lies on the table yet: grow a centre, or lay a first patch.".to_owned();
    }
    out.say(&words, &json!({ "sides": values }));
    Ok(())
}

pub(super) fn audit(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let log = room.log(&head.quilt, &head.name)?;
    let found = held_against(&log.entries(), log.sewn, room.stash()?, WayUp::default());
    let elsewhere = room.promised_elsewhere(&head.quilt, &head.name)?;
    let mut told: Vec<String> = found.iter().map(ToString::to_string).collect();
    let problems: Vec<Value> = found
        .iter()
        .zip(&told)
        .map(|(problem, told)| json!({ "rule": problem.rule, "message": told }))
        .collect();
    let soft: Vec<Value> = elsewhere
        .iter()
        .map(|(quilt, problem)| json!({ "quilt": quilt, "message": problem.to_string() }))
        .collect();
    if told.is_empty() {
        told.push("All cloth that the plan counts on is there.".to_owned());
    }
    told.extend(
        elsewhere.iter().map(|(quilt, problem)| {
            format!("{quilt} counts on the same cloth; the first cut wins. {problem}")
        }),
    );
    out.say(&told.join("\n"), &json!({ "problems": problems, "elsewhere": soft }));
    Ok(())
}

/// What a drawing is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// With its pictures inside, so that the file can travel.
    Svg,
    /// Of so many pixels an inch.
    Png,
}

impl Kind {
    /// What a file's ending says; any other is refused.
    pub(super) fn of(file: &Path) -> Result<Self, Refusal> {
        let is = |wanted: &str| file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case(wanted));
        match (is("svg"), is("png")) {
            (true, _) => Ok(Self::Svg),
            (_, true) => Ok(Self::Png),
            _ => {
                let why = format!("{} is neither a .svg nor a .png", file.display());
                Err(Refusal::bad(
                    why,
                    "Give the file one of these endings: it tells which of both is written.",
                ))
            }
        }
    }
}

/// A drawing as the bytes of a file, with the pictures of the workroom.
pub(super) fn written(
    room: &Workroom,
    drawing: &Drawing,
    kind: Kind,
    pixels: f64,
) -> Result<Vec<u8>, Refusal> {
    let finder = PictureFinder::new(room);
    let find = |picture: &Picture| finder.find(picture);
    let bytes = match kind {
        Kind::Png => paint(drawing, pixels, &fonts(), &find)
            .map_err(|why| Refusal::bad(why.to_string(), "Ask for fewer pixels an inch."))?,
        Kind::Svg => {
            drawing.to_svg(&SvgOptions { pictures: Pictures::Inside(&find), id_prefix: "" }).into_bytes()
        }
    };
    tell_lost(&finder.lost());
    Ok(bytes)
}

/// Says which pictures could not be had.
pub(super) fn tell_lost(lost: &BTreeSet<String>) {
    let words = match lost.iter().next() {
        None => return,
        Some(hash) if lost.len() == 1 => {
            format!("The picture {hash} is missing or damaged; what it shows is drawn without it.")
        }
        Some(first) => format!(
            "{} pictures are missing or damaged, {first} the first of them; their cloth is drawn without them.",
            lost.len()
        ),
    };
    Out::talk(&words);
}

pub(super) fn draw(arguments: &Arguments, asked: &DrawArgs, out: &Out) -> Result<(), Refusal> {
    if let (DrawWhat::Front | DrawWhat::Back, Some(no)) = (&asked.what, asked.cloth) {
        let why = format!("a number belongs to a cloth, and {no} was said with the piece");
        return Err(Refusal::bad(why, "Draw the cloth, `ragbag draw cloth 12`, or leave the number out."));
    }
    let kind = asked.to.as_deref().map_or(Ok(Kind::Svg), Kind::of)?;
    let (room, drawing, told) = drawn(arguments, asked)?;
    let bytes = written(&room, &drawing, kind, asked.pixels)?;
    match &asked.to {
        None => out.say(&String::from_utf8_lossy(&bytes), &json!({ "svg": String::from_utf8_lossy(&bytes) })),
        Some(file) => {
            whole(file, &bytes)?;
            let size = [drawing.width_in(), drawing.height_in()];
            let words =
                format!("{}: {} by {} inches.", file.display(), fraction(size[0], 8), fraction(size[1], 8));
            let words = std::iter::once(words).chain(told.iter().cloned()).collect::<Vec<_>>().join("\n");
            out.say(
                &words,
                &json!({ "file": file.display().to_string(), "width_in": size[0], "height_in": size[1], "cuts": told }),
            );
        }
    }
    Ok(())
}

/// What is to be drawn, the workroom with its pictures, and what is planned to be cut, in words.
fn drawn(arguments: &Arguments, asked: &DrawArgs) -> Result<(Workroom, Drawing, Vec<String>), Refusal> {
    let ask = DrawAsk {
        back: false,
        labels: asked.labels,
        measures: asked.measures,
        flat: asked.flat,
        photo: asked.photo,
        ..DrawAsk::default()
    };
    if matches!(asked.what, DrawWhat::Cloth) {
        if asked.photo {
            let hint = "A cloth is drawn with its own picture as it is; leave --photo out.";
            return Err(Refusal::bad("--photo is for the piece", hint));
        }
        let no = asked.cloth.ok_or_else(|| Refusal::bad("say which cloth", "ragbag draw cloth 12"))?;
        let (mut room, head) = match bench(arguments) {
            Ok((room, head)) => (room, Some(head)),
            Err(_) => (room(arguments)?, None),
        };
        let id = cloth(&mut room, no)?;
        let of = head.as_ref().map(|head| (head.quilt.as_str(), head.name.as_str()));
        let (drawing, told) = room.draw_cloth_for(id, of, ask)?;
        return Ok((room, drawing, told));
    }
    let (mut room, head) = bench(arguments)?;
    let sewn = room.sewn_marks(head.sewn)?;
    let back = matches!(asked.what, DrawWhat::Back);
    if asked.photo {
        no_photo(&room, tip(&head)?, back)?;
    }
    let drawing = room.draw(tip(&head)?, Some(&sewn), DrawAsk { back, ..ask })?;
    Ok((room, drawing, Vec::new()))
}

/// Refuses where there is no photograph to draw.
fn no_photo(room: &Workroom, tip: StepId, back: bool) -> Result<(), Refusal> {
    if back {
        let hint = "Draw the front, or leave --photo out.";
        return Err(Refusal::bad("a photograph shows the front, and the back is asked for", hint));
    }
    match room.photographed(tip)? {
        Some(_) => Ok(()),
        None => Err(Refusal::refused(
            "no photograph of this piece is kept",
            "Take one with measuring cards beside it: ragbag remeasure QUILT --photo PICTURE",
        )),
    }
}

/// The types for the words on a PNG; a word where there are none.
fn fonts() -> Fonts {
    let found = crate::letters::fonts();
    if found.is_empty() {
        Out::talk("There are no types on this machine: the picture has no words. An SVG keeps them.");
    }
    found
}
