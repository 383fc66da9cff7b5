//! The outline of a cloth that is in the heap, put right by its corners.

use super::super::args::{Arguments, OutlineArgs};
use super::super::exit::Refusal;
use super::super::out::Out;
use super::super::read::{cloth, corners, room, signed};
use super::super::stash::value;
use plane::{Point, polygon};
use quilt::length::fraction;
use serde_json::json;
use workroom::WorkroomError;

/// Puts an outline right, or lists its corners.
pub(crate) fn outline(arguments: &Arguments, asked: &OutlineArgs, out: &Out) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let id = cloth(&mut room, asked.cloth)?;
    match &asked.whole {
        Some(text) => room.set_outline(id, &corners(text, "the outline")?)?,
        None if asked.corner.is_empty() => {}
        None => {
            let points: Vec<Point> = asked.corner.iter().map(|text| place(text)).collect::<Result<_, _>>()?;
            room.correct_outline(id, &points)?;
        }
    }
    let changed = asked.whole.is_some() || !asked.corner.is_empty();
    let item = room.stash()?.get(id).ok_or(WorkroomError::NoSuchCloth(id))?;
    let (low, high) = polygon::bounds(&item.came.outline.outer).unwrap_or_default();
    let mut words = format!(
        "No. {} {}: {} by {}{}.\n",
        item.no,
        item.came.name,
        fraction(high.x - low.x, 16),
        fraction(high.y - low.y, 16),
        if changed { ", its outline put right; `ragbag undo` has it again as it was" } else { "" }
    );
    for (i, corner) in item.came.outline.outer.iter().enumerate() {
        words += &format!("  {:>3}. {:.3},{:.3}\n", i + 1, corner.x, corner.y);
    }
    if item.now.as_ref().is_none_or(|now| now.outline != item.came.outline) {
        words += "Some of it was cut since: this is the whole, as it came; what was cut out stays cut out.\n";
    }
    let mut told = value(item.no, item.now.as_ref().unwrap_or(&item.came));
    told["changed"] = json!(changed);
    told["outline"] = json!(item.came.outline);
    out.say(&words, &told);
    Ok(())
}

/// A place: two lengths with a comma.
fn place(text: &str) -> Result<Point, Refusal> {
    let what = "a corner";
    let (x, y) = text.split_once(',').ok_or_else(|| {
        Refusal::bad(format!("{what}: `{text}` is not two lengths"), "Write it as 4-1/8,3: across, then up.")
    })?;
    Ok(Point::new(signed(x, what)?, signed(y, what)?))
}
