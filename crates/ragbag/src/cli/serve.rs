//! The page, and the demo behind it.

use super::args::Arguments;
use super::exit::{Exit, Refusal};
use super::out::Out;
use super::read::{folder, room, use_quilt};
use crate::server::{self, Shared};
use serde_json::json;

pub(super) fn openapi() -> Result<(), Refusal> {
    let text = server::description().map_err(|why| Refusal::bad(why.to_string(), ""))?;
    println!("{text}");
    Ok(())
}

pub(super) fn demo(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    crate::demo::make(&mut room, &Out::talk)?;
    use_quilt(&mut room, crate::demo::QUILT)?;
    let words = format!("{} lies ready in {}.", crate::demo::QUILT, folder(arguments).display());
    out.say(
        &words,
        &json!({ "quilt": crate::demo::QUILT, "workroom": folder(arguments).display().to_string() }),
    );
    Ok(())
}

pub(super) fn serve(arguments: &Arguments, port: u16, with_demo: bool, _out: &Out) -> Result<(), Refusal> {
    let mut writing = room(arguments)?;
    if with_demo {
        crate::demo::make(&mut writing, &Out::talk)?;
    }
    let reading = room(arguments)?;
    server::serve(Shared::new(writing, reading), port).map_err(|why| Refusal {
        exit: Exit::Workroom,
        message: format!("port {port} can't be had: {why}"),
        hint: Some("Choose another: --port 0 takes any free one.".to_owned()),
    })
}
