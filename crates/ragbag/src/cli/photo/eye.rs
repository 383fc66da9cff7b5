//! The eye check from a photograph alone.

use super::super::args::{Arguments, EyeArgs};
use super::super::exit::Refusal;
use super::super::look::{row_value, row_words};
use super::super::out::Out;
use super::super::read::{length, room_or_new};
use super::{files, side};
use quilt::length::fraction;
use serde_json::{Value, json};
use std::path::Path;
use workroom::photo::{NOT_TOLD, PhotoAsk};

/// Tells what the eye sees in a picture of a piece. Nothing is changed.
pub(crate) fn eye(arguments: &Arguments, picture: &Path, asked: &EyeArgs, out: &Out) -> Result<(), Refusal> {
    let ask = PhotoAsk { side_in: side(asked.side.as_deref())?, pixels_per_in: None };
    let (name, bytes) = files::read(picture)?;
    let mut room = room_or_new(arguments)?;
    let quilt = arguments.quilt.as_deref();
    let edge_in = match &asked.edge {
        Some(text) => length(text, "what the next seam takes")?,
        None => room.wish_or_usual(quilt)?.allowance_in,
    };
    let (read, seen) = room.look_by_eye((&name, &bytes), &ask, quilt, edge_in)?;
    let mut words = format!("{name}: the piece was found.\n");
    for line in read.measured.words().iter().chain(read.cloths.iter().flat_map(|cloth| &cloth.doubts)) {
        words += &format!("    {line}\n");
    }
    for row in &seen.eye.rows {
        words += &row_words(row);
    }
    words += &format!("{} across, finished. {NOT_TOLD}", fraction(seen.across_in, 8));
    let rings: Vec<Value> = seen
        .eye
        .rings
        .iter()
        .map(|ring| json!({ "hex": ring.lab.to_srgb().to_string(), "word": colour::nearest_word(ring.lab), "step": ring.step }))
        .collect();
    let mut value = serde_json::to_value(&read.measured).unwrap_or_default();
    value["outline"] = json!(read.cloths.first().map(|cloth| &cloth.outline));
    value["doubts"] = json!(read.cloths.first().map(|cloth| &cloth.doubts));
    value["edge_in"] = json!(edge_in);
    value["finished"] = json!(seen.finished);
    value["across_finished_in"] = json!(seen.across_in);
    value["rows"] = seen.eye.rows.iter().map(row_value).collect();
    value["rings"] = json!(rings);
    value["lighter_outward"] = json!(seen.eye.lighter_outward);
    out.say(&words, &value);
    Ok(())
}
