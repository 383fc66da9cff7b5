//! Scraps from many photographs: each on its own, so that a bad one keeps nothing from the others.

use super::super::args::{Arguments, PhotoArgs};
use super::super::exit::{Exit, Refusal};
use super::super::out::Out;
use super::super::read::{room, room_or_new};
use super::{files, side, tell};
use quilt::length::many;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::Path;
use workroom::Workroom;
use workroom::photo::{Kept, PhotoAsk, PhotoRead, PrintOf};

/// Enters the scraps of pictures, or tells what is found in them.
pub(crate) fn photo(arguments: &Arguments, asked: &PhotoArgs, out: &Out) -> Result<(), Refusal> {
    let ask = PhotoAsk { side_in: side(asked.side.as_deref())?, pixels_per_in: asked.pixels };
    let pictures = files::all(&asked.pictures)?;
    let mut room = if asked.look { room(arguments)? } else { room_or_new(arguments)? };
    let mut run = Run { asked, ask, seen: BTreeMap::new() };
    let (mut words, mut values) = (Vec::new(), Vec::new());
    let mut failed: Vec<Refusal> = Vec::new();
    for (i, file) in pictures.iter().enumerate() {
        if pictures.len() > 1 {
            Out::talk(&format!("{} of {}: {}", i + 1, pictures.len(), file.display()));
        }
        match run.one(&mut room, file) {
            Ok((told, value)) => {
                words.push(told);
                values.push(value);
            }
            // When the workroom itself is in trouble the next pictures are too.
            Err(refusal) if refusal.exit == Exit::Workroom => return Err(refusal),
            Err(refusal) if pictures.len() == 1 => return Err(refusal),
            Err(refusal) => {
                let hint = refusal.hint.as_ref().map_or_else(String::new, |hint| format!("\n    {hint}"));
                words.push(format!("{}: nothing was entered. {}{hint}", file.display(), refusal.message));
                values.push(json!({
                    "file": file.display().to_string(),
                    "error": { "message": refusal.message, "hint": refusal.hint },
                }));
                failed.push(refusal);
            }
        }
    }
    if failed.len() == pictures.len() {
        for line in &words {
            Out::talk(line);
        }
        let why = format!("none of {} could be used", many(pictures.len(), "picture", "pictures"));
        let exit = failed.first().map_or(Exit::BadInput, |refusal| refusal.exit);
        return Err(Refusal { exit, ..Refusal::bad(why, "Each picture says above what is wrong with it.") });
    }
    if !failed.is_empty() {
        words.push(format!(
            "{} of {} could not be used; the others were.",
            failed.len(),
            many(pictures.len(), "picture", "pictures")
        ));
    }
    out.say(
        &words.join("\n"),
        &json!({ "changed": !asked.look, "failed": failed.len(), "pictures": values }),
    );
    Ok(())
}

/// What is asked of all pictures, and which were seen so far, by their bytes.
struct Run<'a> {
    asked: &'a PhotoArgs,
    ask: PhotoAsk,
    seen: BTreeMap<String, String>,
}

impl Run<'_> {
    /// One picture: what was found and entered, in words and as a value.
    fn one(&mut self, room: &mut Workroom, file: &Path) -> Result<(String, Value), Refusal> {
        let (name, bytes) = files::read(file)?;
        let read = room.read_photo_watched(&name, &bytes, &self.ask, &tell::progress)?;
        let twice = self.seen.insert(read.measured.hash.clone(), name);
        let known = !read.entered_before.is_empty() || twice.is_some();
        let skipped = known && !self.asked.again;
        let entered = if self.asked.look || skipped { Vec::new() } else { self.enter(room, &read)? };
        let mut words = tell::read_words(&read, &entered, self.asked.look);
        if known {
            words += &tell::known_words(&read, twice.as_deref(), skipped, self.asked.look);
        }
        let mut value = tell::read_value(room, &read, &entered)?;
        value["file"] = json!(file.display().to_string());
        value["skipped"] = json!(skipped);
        Ok((words, value))
    }

    fn enter(&self, room: &mut Workroom, read: &PhotoRead) -> Result<Vec<u32>, Refusal> {
        let kept: Vec<Kept> = (0..read.cloths.len())
            .map(|which| Kept { which, name: self.name(read, which), outline: None, print: PrintOf::Own })
            .collect();
        Ok(room.enter_photo(read, &kept)?.into_iter().map(|(no, _)| no).collect())
    }

    /// A scrap's name: as said, or its colour and the picture.
    fn name(&self, read: &PhotoRead, which: usize) -> String {
        let picture = Path::new(&read.measured.name).file_stem().unwrap_or_default().to_string_lossy();
        match &self.asked.called {
            Some(name) => format!("{name} {}", which + 1),
            None => format!("{}, {picture} {}", read.cloths[which].colour, which + 1),
        }
    }
}
