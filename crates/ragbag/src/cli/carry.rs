//! Carrying quilts from one workroom to another.

use super::args::Arguments;
use super::exit::Refusal;
use super::out::Out;
use super::read::{bench, room_or_new, use_quilt};
use quilt::length::many;
use serde_json::json;
use std::path::Path;

pub(super) fn export(arguments: &Arguments, file: &Path, over: bool, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    if file.exists() && !over {
        let why = format!("{} is there already", file.display());
        return Err(Refusal::bad(why, "Name another file, or write over it with --over."));
    }
    room.export_to(&head.quilt, file)?;
    let words = format!("{} is written to {}.", head.quilt, file.display());
    out.say(&words, &json!({ "quilt": head.quilt, "file": file.display().to_string() }));
    Ok(())
}

pub(super) fn import(
    arguments: &Arguments,
    file: &Path,
    name: Option<&str>,
    out: &Out,
) -> Result<(), Refusal> {
    let mut room = room_or_new(arguments)?;
    let report = room.import_from(file, name)?;
    use_quilt(&mut room, &report.quilt)?;
    let words = format!(
        "{}: {}; {} and {} came with it.",
        report.quilt,
        many(report.steps, "step", "steps"),
        many(report.cloths, "cloth", "cloths"),
        many(report.pictures, "picture", "pictures")
    );
    out.say(&words, &json!({
        "quilt": report.quilt, "steps": report.steps, "cloths": report.cloths, "pictures": report.pictures,
        "heads": report.heads.iter().map(|head| head.name.clone()).collect::<Vec<_>>(),
    }));
    Ok(())
}
