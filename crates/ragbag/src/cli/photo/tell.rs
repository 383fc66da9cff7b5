//! What was seen in photographs, in words and as values.

use super::{Out, Refusal};
use plane::polygon;
use quilt::length::{fraction, many};
use serde_json::{Value, json};
use workroom::Workroom;
use workroom::photo::{PhotoCloth, PhotoRead, PhotoRemeasured, Reading};

/// How far a picture has come, as talk.
pub(super) fn progress(reading: Reading) {
    Out::talk(&format!("  {}…", reading.words()));
}

/// What was found in a picture and, where it was entered, under which numbers.
pub(super) fn read_words(read: &PhotoRead, entered: &[u32], look: bool) -> String {
    let found = many(read.cloths.len(), "scrap", "scraps");
    let done = if look { "found; nothing was changed" } else { "found" };
    let mut words = format!("{}: {found} {done}.\n", read.measured.name);
    for line in read.measured.words() {
        words += &format!("    {line}\n");
    }
    for (which, cloth) in read.cloths.iter().enumerate() {
        let no = entered.get(which).map_or_else(|| format!("{}.", which + 1), |no| format!("No. {no}:"));
        words += &format!("  {no} {}\n", cloth_words(cloth));
        for doubt in &cloth.doubts {
            words += &format!("      {doubt}\n");
        }
        if let Some(like) = cloth.candidates.first() {
            words += &format!("      It looks like No. {} ({})", like.no, like.name);
            words += &entered.get(which).map_or_else(
                || ".\n".to_owned(),
                |no| format!("; if it is the same print: ragbag same-print {} {no}\n", like.no),
            );
        }
    }
    words
}

fn cloth_words(cloth: &PhotoCloth) -> String {
    let (low, high) = polygon::bounds(&cloth.outline.outer).unwrap_or_default();
    let holes = match cloth.outline.holes.len() {
        0 => String::new(),
        count => format!(", {}", many(count, "hole", "holes")),
    };
    format!(
        "{}; {}; {}; {} by {}, {:.1} square inches, {} corners{holes}",
        cloth.colour,
        cloth.print_words(),
        cloth.runs_words(),
        fraction(high.x - low.x, 16),
        fraction(high.y - low.y, 16),
        cloth.outline.area(),
        cloth.outline.outer.len(),
    )
}

/// That the same picture was there before.
pub(super) fn known_words(read: &PhotoRead, twice: Option<&str>, skipped: bool, look: bool) -> String {
    let numbers: Vec<String> = read.entered_before.iter().map(|no| format!("No. {no}")).collect();
    let before = match twice {
        Some(name) => format!("  It is the same picture as {name}, byte for byte."),
        None => format!("  This very picture was entered before, as {}.", numbers.join(", ")),
    };
    let done = match (look, skipped) {
        (true, _) => "",
        (false, true) => " It was not entered again; --again does so all the same.",
        (false, false) => " It was entered again.",
    };
    format!("{before}{done}\n")
}

/// A picture and its scraps as a value.
pub(super) fn read_value(room: &mut Workroom, read: &PhotoRead, entered: &[u32]) -> Result<Value, Refusal> {
    let mut value = serde_json::to_value(read).unwrap_or_default();
    for (which, cloth) in value["cloths"].as_array_mut().into_iter().flatten().enumerate() {
        cloth["area_in2"] = json!(read.cloths[which].outline.area());
    }
    let stash = room.stash()?;
    let cloths = entered.iter().filter_map(|no| Some((*no, stash.by_number(*no)?.now.as_ref()?)));
    value["entered"] = cloths.map(|(no, cloth)| super::super::stash::value(no, cloth)).collect();
    Ok(value)
}

/// The piece against its plan.
pub(super) fn remeasured(seen: &PhotoRemeasured, look: bool) -> (String, Value) {
    let laid = &seen.remeasured.laid;
    let mut words = format!("{}: the piece was found.\n", seen.measured.name);
    for line in seen.measured.words().iter().chain(&seen.doubts) {
        words += &format!("    {line}\n");
    }
    words += &format!(
        "It lies {:.1}/64 inch from the plan (root of the mean square), turned by {:.1} degrees.\n",
        64.0 * laid.off_in,
        laid.pose.turn.to_degrees()
    );
    if let Some(rival) = laid.rival_deg {
        words += &format!(
            "Turned {rival:.0} degrees further it would lie nearly as well: if it does, say so with --turned {:.0}.\n",
            laid.pose.turn.to_degrees() + rival
        );
    }
    if seen.remeasured.differences.is_empty() {
        words += "Every side and corner came out as planned, within 1/32.\n";
    }
    for difference in &seen.remeasured.differences {
        words += &format!("  {difference}\n");
    }
    if seen.remeasured.square_words.is_empty() {
        words += "Sides and diagonals that were planned alike agree, and no edge bows: it lies square and flat, as far as its outline tells.\n";
    }
    for word in &seen.remeasured.square_words {
        words += &format!("  {word}\n");
    }
    words += if look {
        "Nothing was changed."
    } else {
        "What was seen is now the outline. The picture is kept: ragbag draw front --photo"
    };
    (words, serde_json::to_value(seen).unwrap_or_default())
}
