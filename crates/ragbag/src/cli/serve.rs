//! The page, and the demo behind it.

use super::args::Arguments;
use super::exit::{Exit, Refusal};
use super::out::Out;
use super::read::{folder, room_or_new, use_quilt};
use crate::server::{self, Shared};
use serde_json::json;

pub(super) fn openapi(out: &Out) -> Result<(), Refusal> {
    let text = server::description().map_err(|why| Refusal::bad(why.to_string(), ""))?;
    let value = serde_json::from_str(&text).map_err(|why| Refusal::bad(why.to_string(), ""))?;
    out.say(&text, &value);
    Ok(())
}

pub(super) fn demo(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let mut room = room_or_new(arguments)?;
    crate::demo::make(&mut room, &Out::talk)?;
    use_quilt(&mut room, crate::demo::QUILT)?;
    let words = format!("{} lies ready in {}.", crate::demo::QUILT, folder(arguments).display());
    out.say(
        &words,
        &json!({ "quilt": crate::demo::QUILT, "workroom": folder(arguments).display().to_string() }),
    );
    Ok(())
}

pub(super) fn serve(arguments: &Arguments, port: u16, with_demo: bool, out: &Out) -> Result<(), Refusal> {
    let mut writing = room_or_new(arguments)?;
    if with_demo {
        crate::demo::make(&mut writing, &Out::talk)?;
    }
    let reading = room_or_new(arguments)?;
    let ready = |address| {
        let address = format!("http://{address}");
        out.say(&format!("listening on {address}"), &json!({ "address": address }));
    };
    server::serve(Shared::new(writing, reading), port, ready).map_err(|why| Refusal {
        exit: Exit::Workroom,
        message: format!("port {port} can't be had: {why}"),
        hint: Some("Choose another: --port 0 takes any free one.".to_owned()),
    })
}
