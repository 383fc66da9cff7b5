//! Papers on file.

use super::args::{Arguments, BookletArgs, PapersArgs, WordingArgs};
use super::exit::Refusal;
use super::files::{unwritable, whole};
use super::look::tell_lost;
use super::out::Out;
use super::read::bench_of;
use crate::letters::fonts;
use papers::press::Letters;
use quilt::length::many;
use serde_json::{Value, json};
use workroom::papers::{LeftOut, PaperKind, PapersWish};

/// Writes each paper as a file of its own.
pub(super) fn papers(arguments: &Arguments, asked: &PapersArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench_of(arguments, asked.what.as_deref())?;
    let wish = PapersWish { words: room.own_words(&head.quilt)?, ..asked.how.wish() };
    let kinds = if asked.only.is_empty() { PaperKind::ALL.to_vec() } else { asked.only.clone() };
    let letters = Letters::new(&fonts());
    let gathered = room.papers(&head, &kinds, &wish, &mut telling(kinds.len()));
    if gathered.made.is_empty() {
        return Err(nothing(gathered.left_out));
    }
    // All are made before the first is written.
    let (mut words, mut values, mut files) = (Vec::new(), Vec::new(), Vec::new());
    for paper in gathered.made {
        let file = asked.out.join(format!("{}.pdf", paper.kind.name()));
        let printed = room.print(&head, &paper, &wish, &letters)?;
        tell_lost(&printed.lost);
        let pages = many(printed.pages, "page", "pages");
        words.push(format!("{}: {pages}, {}.", file.display(), paper.kind.about()));
        values.push(json!({
            "paper": paper.kind.name(), "file": file.display().to_string(), "pages": printed.pages, "facts": paper.facts,
        }));
        files.push((file, printed.pdf));
        if paper.kind == PaperKind::Record {
            let list = asked.out.join("steps.txt");
            words.push(format!("{}: the steps with their times, for a film.", list.display()));
            files.push((list, room.steps_with_times(&head, &wish)?.into_bytes()));
        }
    }
    std::fs::create_dir_all(&asked.out).map_err(|why| unwritable(&asked.out, &why))?;
    files.iter().try_for_each(|(file, bytes)| whole(file, bytes))?;
    let left = left_out(&mut words, gathered.left_out);
    out.say(&words.join("\n"), &json!({ "papers": values, "left_out": left }));
    Ok(())
}

/// Writes all papers as one pattern.
pub(super) fn booklet(arguments: &Arguments, asked: &BookletArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench_of(arguments, asked.what.as_deref())?;
    let words = asked.own.over(room.own_words(&head.quilt)?)?;
    let wish = PapersWish { words, ..asked.how.wish() }.for_booklet();
    let mut kinds = if asked.only.is_empty() { PaperKind::in_booklet() } else { asked.only.clone() };
    kinds.sort();
    kinds.dedup();
    let letters = Letters::new(&fonts());
    let gathered = room.papers(&head, &kinds, &wish, &mut telling(kinds.len()));
    if gathered.made.is_empty() {
        return Err(nothing(gathered.left_out));
    }
    let printed = room.booklet(&head, &gathered.made, &wish, &letters)?;
    tell_lost(&printed.lost);
    whole(&asked.out, &printed.pdf)?;
    let mut words = vec![format!("{}: {} pages.", asked.out.display(), printed.pages)];
    let facts: Vec<Value> = gathered
        .made
        .iter()
        .map(|paper| json!({ "paper": paper.kind.name(), "facts": paper.facts }))
        .collect();
    let left = left_out(&mut words, gathered.left_out);
    let file = asked.out.display().to_string();
    let value = json!({ "file": file, "pages": printed.pages, "papers": facts, "left_out": left });
    out.say(&words.join("\n"), &value);
    Ok(())
}

/// Keeps the maker's own words, or shows them when nothing is said.
pub(super) fn wording(arguments: &Arguments, asked: &WordingArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench_of(arguments, asked.what.as_deref())?;
    let mut own = room.own_words(&head.quilt)?;
    if !asked.own.is_empty() {
        own = asked.own.over(own)?;
        room.set_own_words(&head.quilt, &own)?;
    }
    let or =
        |words: &str, else_said: &str| if words.is_empty() { else_said.to_owned() } else { words.to_owned() };
    let mut lines = vec![
        format!("Title: {}", or(&own.title, &head.quilt)),
        format!("Maker: {}", or(&own.maker, "nobody named")),
        format!("On the cover: {}", or(&own.cover, "nothing")),
    ];
    lines.extend(
        own.papers
            .iter()
            .filter(|(_, words)| !words.is_empty())
            .map(|(name, words)| format!("Under {name}: {words}")),
    );
    out.say(&lines.join("\n"), &json!(own));
    Ok(())
}

/// Says on stderr which paper is being made.
fn telling(count: usize) -> impl FnMut(usize, PaperKind) -> bool {
    move |done, kind| {
        Out::talk(&format!("{} of {count}: {}", done + 1, kind.name()));
        true
    }
}

/// Where no paper could be made, the reason of the first is the answer.
fn nothing(left_out: Vec<LeftOut>) -> Refusal {
    let first = left_out.into_iter().next();
    first.map_or_else(
        || Refusal::bad("no paper was asked for", "Name some with --only."),
        |one| one.why.into(),
    )
}

/// Tells what was left out, and why.
fn left_out(words: &mut Vec<String>, left_out: Vec<LeftOut>) -> Vec<Value> {
    let mut left = Vec::new();
    for LeftOut { kind, why } in left_out {
        let refusal = Refusal::from(why);
        words.push(format!("Left out: {} ({}).", kind.name(), refusal.message));
        left.push(json!({ "paper": kind.name(), "why": refusal.message, "hint": refusal.hint }));
    }
    left
}
