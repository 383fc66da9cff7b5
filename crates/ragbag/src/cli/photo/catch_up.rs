//! What was sewn since the last step, read from one photograph and taken in.

use super::super::args::{Arguments, CatchUpArgs};
use super::super::exit::Refusal;
use super::super::out::Out;
use super::super::read::{cloth, number, room, use_quilt};
use super::{files, side, tell};
use plane::Turn;
use quilt::length::many;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use workroom::Workroom;
use workroom::asks::{CaughtUp, PatchSeen};
use workroom::photo::{MadeOf, PhotoAsk, PhotoRead};
use workroom::quilts::Head;

/// Tells what is new on the piece, and takes it in unless it is only looked at.
pub(crate) fn catch_up(arguments: &Arguments, asked: &CatchUpArgs, out: &Out) -> Result<(), Refusal> {
    let near = Turn::from_degrees(number(asked.turned, "the turn")?);
    let ask = PhotoAsk { side_in: side(asked.side.as_deref())?, pixels_per_in: None };
    let mut room = room(arguments)?;
    let head = room.head(&asked.piece, &arguments.head)?;
    use_quilt(&mut room, &asked.piece)?;
    // What is mistyped is told before the picture is read.
    let said = said(&mut room, asked)?;
    let (name, bytes) = files::read(&asked.photo)?;
    let read = room.read_piece_watched(&name, &bytes, &ask, &tell::progress)?;
    let mut words = format!("{name}: the piece was found.\n");
    let doubts = read.cloths.iter().flat_map(|found| &found.doubts).cloned();
    for line in read.measured.words().into_iter().chain(doubts) {
        words += &format!("    {line}\n");
    }
    let (now, mut value) = if asked.in_one {
        in_one(&mut room, &head, &read, near, asked.look, &mut words)?
    } else {
        patches(&mut room, &head, &read, (&said, asked.look), &mut words)?
    };
    words += if asked.look {
        "Nothing was changed."
    } else {
        "The next piece starts from here; `undo` takes it back."
    };
    value["quilt"] = json!(now.quilt);
    value["head"] = json!(now.name);
    value["tip"] = json!(now.tip.map(|tip| tip.to_string()));
    value["changed"] = json!(!asked.look && now.tip != head.tip);
    out.say(&words, &value);
    Ok(())
}

/// The piece as one patch, as it was found.
fn in_one(
    room: &mut Workroom,
    head: &Head,
    read: &PhotoRead,
    near: Turn,
    look: bool,
    words: &mut String,
) -> Result<(Head, Value), Refusal> {
    let outline = read.cloths.first().map(|found| &found.outline);
    let area_in2 = outline.map_or(0.0, plane::Region::area);
    *words += &format!("It has {area_in2:.1} square inches, raw.\n");
    let value = json!({ "outline": outline, "area_in2": area_in2 });
    if look {
        return Ok((head.clone(), value));
    }
    let now = room.take_as_found(&head.at(), (read, 0), None, near)?;
    *words += "It lies on the table as one patch now, with its picture, sewn.\n";
    Ok((now, value))
}

/// The piece patch by patch.
fn patches(
    room: &mut Workroom,
    head: &Head,
    read: &PhotoRead,
    (said, look): (&BTreeMap<usize, MadeOf>, bool),
    words: &mut String,
) -> Result<(Head, Value), Refusal> {
    let seen = room.look_to_catch_up(&head.quilt, &head.name, (read, 0), None)?;
    let made_of = made_of(&seen, said)?;
    *words += &match seen.patches.len() {
        0 if look => "No patch is new; the outline would be measured.\n".to_owned(),
        0 => "No patch is new; the outline is measured.\n".to_owned(),
        count => format!("{} new:\n", many(count, "patch is", "patches are")),
    };
    for line in seen.told() {
        *words += &format!("  {line}\n");
    }
    let mut value = serde_json::to_value(&seen).unwrap_or_default();
    for (patch, of) in value["patches"].as_array_mut().into_iter().flatten().zip(&made_of) {
        patch["made_of"] = match of {
            MadeOf::Cloth(cloth) => json!(cloth.to_string()),
            MadeOf::AsFound => Value::Null,
        };
    }
    let (now, differences) = if look {
        (head.clone(), seen.differences.clone())
    } else {
        room.catch_up(&head.at(), read, &seen, &made_of)?
    };
    for difference in &differences {
        *words += &format!("  {difference}\n");
    }
    if !look && !made_of.is_empty() {
        *words += &taken(room, &made_of)?;
    }
    Ok((now, value))
}

/// What is said of patches, by their numbers from 1.
fn said(room: &mut Workroom, asked: &CatchUpArgs) -> Result<BTreeMap<usize, MadeOf>, Refusal> {
    let mut all = Vec::new();
    for text in &asked.cloths {
        let wrong = || {
            let why = format!("`{text}` doesn't say which patch is of which cloth");
            Refusal::bad(why, "Write 2=14: patch 2 is of No. 14.")
        };
        let (patch, no) = text.split_once('=').ok_or_else(wrong)?;
        let number = |part: &str| part.trim().trim_start_matches('#').parse::<u32>().map_err(|_| wrong());
        all.push((number(patch)? as usize, MadeOf::Cloth(cloth(room, number(no)?)?)));
    }
    all.extend(asked.as_found.iter().map(|no| (*no, MadeOf::AsFound)));
    let mut said = BTreeMap::new();
    for (no, of) in all {
        if said.insert(no, of).is_some() {
            return Err(Refusal::bad(format!("patch {no} is told twice"), "Say once what it is of."));
        }
    }
    Ok(said)
}

/// Of what each patch is: as said, else as it most likely is, else as it was found.
fn made_of(seen: &CaughtUp, said: &BTreeMap<usize, MadeOf>) -> Result<Vec<MadeOf>, Refusal> {
    let count = seen.patches.len();
    if let Some(no) = said.keys().find(|no| !(1..=count).contains(*no)) {
        let why = format!("there is no patch {no} that is new; {count} were found");
        return Err(Refusal::bad(why, "Look first: ragbag catch-up QUILT PICTURE --look numbers them."));
    }
    let likely = |(no, patch): (usize, &PatchSeen)| {
        let likest = || patch.likest().map_or(MadeOf::AsFound, |guess| MadeOf::Cloth(guess.cloth));
        said.get(&no).copied().unwrap_or_else(likest)
    };
    Ok((1..).zip(&seen.patches).map(likely).collect())
}

/// That the patches are in, and of what.
fn taken(room: &mut Workroom, made_of: &[MadeOf]) -> Result<String, Refusal> {
    let stash = room.stash()?;
    let name = |of: &MadeOf| match of {
        MadeOf::Cloth(cloth) => stash.get(*cloth).map_or_else(String::new, |item| format!("No. {}", item.no)),
        MadeOf::AsFound => "as found".to_owned(),
    };
    let names: Vec<String> = made_of.iter().map(name).collect();
    Ok(format!("Taken in as sewn: {}.\n", names.join(", ")))
}
