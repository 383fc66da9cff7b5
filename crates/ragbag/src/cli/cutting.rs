//! The cutting plan, told and on file.

use super::args::{Arguments, CuttingArgs};
use super::exit::Refusal;
use super::files::whole;
use super::look::tell_lost;
use super::look::{Kind, written};
use super::out::Out;
use super::read::{bench_of, length};
use super::templates::lines_writer;
use crate::letters::fonts;
use drawing::{Drawing, side_by_side};
use nest::Effort;
use papers::press::Letters;
use quilt::length::many;
use serde_json::json;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use workroom::Workroom;
use workroom::asks::AskError;
use workroom::cutting::{CuttingPlan, CuttingWish};
use workroom::papers::PapersWish;
use workroom::quilts::Head;

/// Pixels an inch of a PNG.
const PIXELS: f64 = 30.0;
/// The longest that may be asked to seek: a day.
const LONGEST_S: f64 = 86_400.0;

/// What the file's ending says.
enum Written {
    Pdf,
    Picture(Kind),
}

/// Lays all that is still to be cut.
pub(super) fn cutting(arguments: &Arguments, asked: &CuttingArgs, out: &Out) -> Result<(), Refusal> {
    let kind = asked.to.as_deref().map(written_as).transpose()?;
    let write = asked.lines.as_deref().map(lines_writer).transpose()?;
    let wish = wish(asked)?;
    let (mut room, head) = bench_of(arguments, asked.what.as_deref())?;
    let plan = room.cutting(&head.quilt, &head.name, &wish, &mut telling(asked.seconds)).map_err(refusal)?;
    let how = asked.how.wish();
    if let (Some(file), Some(kind)) = (&asked.to, kind) {
        match kind {
            Written::Pdf => pdf(&mut room, &head, &plan, &how, file)?,
            Written::Picture(kind) => {
                let drawing = pictures(&mut room, &head, &plan, &how)?;
                whole(file, &written(&room, &drawing, kind, PIXELS)?)?;
            }
        }
    }
    if let (Some(file), Some(write)) = (&asked.lines, write) {
        let strokes = room.cutting_strokes(&head, &plan)?;
        let bytes =
            write(&strokes, asked.unit.into()).map_err(|why| Refusal::refused(why.to_string(), ""))?;
        whole(file, &bytes)?;
    }
    let name = |file: &Option<PathBuf>| file.as_ref().map(|file| file.display().to_string());
    let (file, lines) = (name(&asked.to), name(&asked.lines));
    let mut words = in_words(&plan, &how);
    words.extend(file.iter().chain(&lines).map(|file| format!("{file} is written.")));
    out.say(&words.join("\n"), &json!({ "cutting": plan, "file": file, "lines": lines }));
    Ok(())
}

/// What stands against a plan; where nothing is on the table, how a wish is shopped for is said too.
fn refusal(error: AskError) -> Refusal {
    if matches!(error, AskError::NothingOnTable) {
        let hint = format!(
            "{} What to buy for a wish is told by `ragbag enough`, and on paper by `ragbag papers --only shopping`.",
            error.hint().unwrap_or_default()
        );
        return Refusal::refused(error.to_string(), &hint);
    }
    error.into()
}

fn written_as(file: &Path) -> Result<Written, Refusal> {
    if file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("pdf")) {
        return Ok(Written::Pdf);
    }
    Kind::of(file).map(Written::Picture).map_err(|_| {
        let why = format!("{} is neither a .pdf nor a .svg nor a .png", file.display());
        Refusal::bad(why, "Give the file one of these endings: it tells what is written.")
    })
}

fn wish(asked: &CuttingArgs) -> Result<CuttingWish, Refusal> {
    if let Some(seconds) = asked.seconds
        && !(0.0..=LONGEST_S).contains(&seconds)
    {
        let why = format!("{seconds} seconds is no time to seek");
        return Err(Refusal::bad(why, "Name one from 0 to 86400, as in --seconds 5."));
    }
    Ok(CuttingWish {
        anew: asked.anew,
        buy_all: asked.buy_all,
        between_in: length(&asked.kerf, "the room for the blade")?,
        edge_in: length(&asked.edge, "the room to the edges")?,
        bolt_in: asked.bolt.as_deref().map(|text| length(text, "the width of the bolt")).transpose()?,
        effort: Effort { rounds: asked.rounds, seed: asked.seed, ..Effort::default() },
    })
}

/// Says now and then how far it is, and stops when the time is up; each part has its own time.
fn telling(seconds: Option<f64>) -> impl FnMut(u32) -> bool {
    let (mut begun, mut told) = (Instant::now(), Instant::now());
    move |round| {
        if round == 0 {
            begun = Instant::now();
        }
        if told.elapsed() > Duration::from_secs(2) {
            told = Instant::now();
            Out::talk(&format!("{} of seeking.", many(round as usize, "round", "rounds")));
        }
        seconds.is_none_or(|most| begun.elapsed().as_secs_f64() < most)
    }
}

fn pdf(
    room: &mut Workroom,
    head: &Head,
    plan: &CuttingPlan,
    how: &PapersWish,
    file: &Path,
) -> Result<(), Refusal> {
    let paper = room.cutting_paper(plan, how)?;
    let printed = room.print(head, &paper, how, &Letters::new(&fonts()))?;
    tell_lost(&printed.lost);
    whole(file, &printed.pdf)
}

/// All cloths side by side.
fn pictures(
    room: &mut Workroom,
    head: &Head,
    plan: &CuttingPlan,
    how: &PapersWish,
) -> Result<Drawing, Refusal> {
    let flat = how.inking == papers::press::Inking::Saving;
    let mut drawn: Vec<(Vec<String>, Drawing)> = Vec::new();
    for cloth in &plan.cloths {
        let words =
            vec![format!("No. {}, {}", cloth.no, cloth.name), many(cloth.pieces.len(), "piece", "pieces")];
        drawn.push((words, room.draw_cutting(cloth, flat, None)?));
    }
    for buy in &plan.to_buy {
        let words = vec![format!("To buy: {}", buy.name), many(buy.pieces.len(), "piece", "pieces")];
        drawn.push((words, buy.drawing(None)));
    }
    let title = format!("{}: what is cut from which cloth", head.quilt);
    Ok(side_by_side(&title, drawn.iter().map(|(words, drawing)| (words.clone(), drawing)).collect()))
}

fn in_words(plan: &CuttingPlan, how: &PapersWish) -> Vec<String> {
    let length = |inches: f64| how.length(inches, 8);
    let up = |inches: f64| how.up(inches, 8);
    let mut words = vec![plan.summary(how.unit())];
    for cloth in &plan.cloths {
        let names: Vec<&str> = cloth.pieces.iter().map(|piece| piece.name.as_str()).collect();
        words.push(format!(
            "No. {}, {}: {}. {}",
            cloth.no,
            cloth.name,
            names.join(", "),
            cloth.words(&|inches| how.unit().down(inches, 8))
        ));
    }
    for buy in &plan.to_buy {
        words.push(format!("{}: {}", buy.name, buy.words(how.unit())));
    }
    words.extend(plan.to_sew.iter().map(|set| set.words(&length)));
    words.extend(plan.joined.iter().map(|strip| strip.words(&up)));
    words.extend(plan.no_place.iter().map(|piece| format!("No place for {}: {}", piece.name, piece.why)));
    words.extend(plan.too_near_words(&length));
    words.extend(plan.elsewhere_words());
    words
}
