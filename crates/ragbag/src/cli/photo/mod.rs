//! Measuring cards, scraps from photographs, and the piece measured anew and caught up with from one.

mod batch;
mod catch_up;
mod eye;
mod files;
mod outline;
mod tell;

pub(super) use batch::photo;
pub(super) use catch_up::catch_up;
pub(super) use eye::eye;
pub(super) use outline::outline;

use super::args::{Arguments, CardsArgs, RemeasureArgs};
use super::exit::Refusal;
use super::out::Out;
use super::read::{length, number, room, room_or_new, use_quilt};
use plane::Turn;
use quilt::length::fraction;
use serde_json::json;
use workroom::photo::{PRINTED_SIDE_IN, PhotoAsk, check_side};

/// Writes the measuring cards.
pub(super) fn cards(arguments: &CardsArgs, out: &Out) -> Result<(), Refusal> {
    let side_in = length(&arguments.side, "the side of a card")?;
    let file = &arguments.to;
    if !file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("pdf")) {
        let why = format!("{} is no .pdf", file.display());
        return Err(Refusal::bad(why, "Give the file this ending: cards are written as PDF."));
    }
    let patterns = workroom::photo::card_patterns();
    let bytes = crate::letters::cards(&patterns, side_in, arguments.paper)
        .map_err(|why| Refusal::bad(why.to_string(), ""))?;
    super::files::whole(file, &bytes)?;
    let mut words =
        format!("{}: print it at 100 %, check the ruler line, and cut the cards out.", file.display());
    if (side_in - PRINTED_SIDE_IN).abs() > 1e-9 {
        words += &format!(
            "\nTell their side once: ragbag scrap card-side {}",
            fraction(side_in, 64).replace(' ', "-")
        );
    }
    out.say(&words, &json!({ "file": file.display().to_string(), "side_in": side_in }));
    Ok(())
}

/// Shows or keeps the side of a card.
pub(super) fn card_side(arguments: &Arguments, side: Option<&str>, out: &Out) -> Result<(), Refusal> {
    let side_in = match side {
        None => room(arguments)?.card_side()?,
        Some(text) => {
            let side_in = length(text, "the side of a card")?;
            check_side(side_in)?;
            room_or_new(arguments)?.set_card_side(side_in)?;
            side_in
        }
    };
    let words =
        format!("The side of a card's black square: {} ({side_in:.3} inches).", fraction(side_in, 64));
    out.say(&words, &json!({ "card_side_in": side_in }));
    Ok(())
}

/// Puts the outline that a photograph shows in the place of the planned one.
pub(super) fn remeasure(arguments: &Arguments, asked: &RemeasureArgs, out: &Out) -> Result<(), Refusal> {
    let near = Turn::from_degrees(number(asked.turned, "the turn")?);
    let ask = PhotoAsk { side_in: side(asked.side.as_deref())?, pixels_per_in: None };
    let (name, bytes) = files::read(&asked.photo)?;
    let mut room = room(arguments)?;
    let head = room.head(&asked.piece, &arguments.head)?;
    use_quilt(&mut room, &asked.piece)?;
    let (now, seen) = if asked.look {
        let seen = room.look_at_photo(&head.quilt, &head.name, (&name, &bytes), &ask, near)?;
        (head, seen)
    } else {
        room.remeasure_photo(&head.at(), (&name, &bytes), &ask, near)?
    };
    let (words, mut value) = tell::remeasured(&seen, asked.look);
    value["quilt"] = json!(now.quilt);
    value["head"] = json!(now.name);
    value["changed"] = json!(!asked.look);
    out.say(&words, &value);
    Ok(())
}

/// The side of a card that is said for these pictures.
fn side(said: Option<&str>) -> Result<Option<f64>, Refusal> {
    said.map(|text| length(text, "the side of a card")).transpose()
}
