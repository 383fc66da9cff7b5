//! Looking: the eye check, sides, the audit, drawings.

use super::args::{Arguments, DrawArgs, DrawWhat};
use super::exit::Refusal;
use super::out::Out;
use super::read::{bench, cloth};
use drawing::svg::{Pictures, SvgOptions};
use drawing::{ClothOptions, Drawing};
use papers::{Fonts, paint};
use quilt::cloth::Picture;
use quilt::eye::Grade;
use quilt::length::fraction;
use quilt::log::StepId;
use serde_json::{Value, json};
use std::path::Path;
use workroom::Workroom;
use workroom::asks::{DrawAsk, Due};
use workroom::audit::{WayUp, audit as held_against};
use workroom::quilts::Head;

fn tip(head: &Head) -> Result<StepId, Refusal> {
    head.tip
        .ok_or_else(|| Refusal::refused("there is nothing on the table yet", "Grow a centre: ragbag grow"))
}

pub(super) fn eye(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let report = room.eye(&head.quilt, tip(&head)?)?;
    let mut words = String::new();
    for row in &report.check.rows {
        words += &format!("{:>5}  {}: {}\n", grade(row.grade), row.quality.label(), row.words);
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
            "{} layers at {:.2}, {:.2}: press one seam open there.\n",
            thick.layers, thick.at.x, thick.at.y
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
    let rows: Vec<Value> = report
        .check
        .rows
        .iter()
        .map(|row| {
            let values: Vec<Value> = row.values.iter().map(|v| json!({ "name": v.name, "value": v.value, "cost": v.cost })).collect();
            json!({ "quality": row.quality.label(), "grade": grade(row.grade), "words": row.words, "values": values, "marks": row.marks })
        })
        .collect();
    let due: Vec<String> = report.due.iter().map(|due| format!("{due:?}")).collect();
    let problems: Vec<String> = report.problems.iter().map(ToString::to_string).collect();
    out.say(&words, &json!({
        "rows": rows, "good": report.check.good, "gates_passed": report.check.gates_passed, "total_cost": report.cost,
        "across_finished_in": report.across_in, "rounds_cut_in": report.rounds, "thick": report.thick,
        "bias_share": report.bias.risky_share, "lost_share": report.lost.as_ref().map(quilt::eye::Lost::share),
        "problems": problems, "due": due,
    }));
    Ok(())
}

const fn grade(grade: Grade) -> &'static str {
    match grade {
        Grade::Good => "good",
        Grade::Fair => "fair",
        Grade::Poor => "poor",
        Grade::NotWished => "-",
        Grade::TooSoon => "soon",
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
    out.say(&words, &json!({ "sides": values }));
    Ok(())
}

pub(super) fn audit(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let log = room.log(&head.quilt, &head.name)?;
    let found = held_against(&log.entries(), log.sewn, room.stash()?, WayUp::default());
    let told: Vec<String> = found.iter().map(ToString::to_string).collect();
    let words = if told.is_empty() {
        "All cloth that the plan counts on is there.".to_owned()
    } else {
        told.join("\n")
    };
    out.say(&words, &json!({ "problems": found.iter().zip(&told).map(|(problem, told)| json!({ "rule": problem.rule, "message": told })).collect::<Vec<_>>() }));
    Ok(())
}

pub(super) fn draw(arguments: &Arguments, asked: &DrawArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let drawing = match asked.what {
        DrawWhat::Cloth => {
            let no = asked.cloth.ok_or_else(|| Refusal::bad("say which cloth", "ragbag draw cloth 12"))?;
            let id = cloth(&mut room, no)?;
            room.draw_cloth(id, &ClothOptions::default())?
        }
        what => {
            let sewn = room.sewn_marks(head.sewn)?;
            let back = matches!(what, DrawWhat::Back);
            let ask = DrawAsk { back, labels: asked.labels, measures: asked.measures, flat: asked.flat };
            room.draw(tip(&head)?, Some(&sewn), ask)?
        }
    };
    let is_png = asked
        .to
        .as_deref()
        .and_then(Path::extension)
        .is_some_and(|ending| ending.eq_ignore_ascii_case("png"));
    let bytes = if is_png { png(&room, &drawing, asked.pixels)? } else { svg(&room, &drawing).into_bytes() };
    match &asked.to {
        None => out.say(&String::from_utf8_lossy(&bytes), &json!({ "svg": String::from_utf8_lossy(&bytes) })),
        Some(file) => {
            std::fs::write(file, &bytes).map_err(|why| {
                Refusal::bad(format!("{} can't be written: {why}", file.display()), "Name another file.")
            })?;
            let size = [drawing.width_in(), drawing.height_in()];
            let words =
                format!("{}: {} by {} inches.", file.display(), fraction(size[0], 8), fraction(size[1], 8));
            out.say(
                &words,
                &json!({ "file": file.display().to_string(), "width_in": size[0], "height_in": size[1] }),
            );
        }
    }
    Ok(())
}

/// The drawing with its pictures inside, so that the file can travel.
fn svg(room: &Workroom, drawing: &Drawing) -> String {
    let find = |picture: &Picture| room.picture(&picture.hash).ok().flatten().map(|(bytes, _)| bytes);
    drawing.to_svg(&SvgOptions { pictures: Pictures::Inside(&find), id_prefix: "" })
}

fn png(room: &Workroom, drawing: &Drawing, pixels_per_in: f64) -> Result<Vec<u8>, Refusal> {
    let find = |picture: &Picture| room.picture(&picture.hash).ok().flatten().map(|(bytes, _)| bytes);
    let fonts = ["/usr/share/fonts", "/Library/Fonts"]
        .iter()
        .find_map(|folder| Fonts::in_folder(Path::new(folder)).ok());
    let fonts = fonts.unwrap_or_else(Fonts::none);
    paint(drawing, pixels_per_in, &fonts, &find)
        .map_err(|why| Refusal::bad(why.to_string(), "Ask for fewer pixels an inch."))
}
