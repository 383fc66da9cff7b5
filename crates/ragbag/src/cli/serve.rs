//! The page, and the demo behind it.

use super::args::Arguments;
use super::exit::{Exit, Refusal};
use super::out::Out;
use super::read::{demo_folder, folder, use_quilt};
use crate::server::{self, Shared};
use serde_json::json;
use workroom::Workroom;

pub(super) fn openapi(out: &Out) -> Result<(), Refusal> {
    let text = server::description().map_err(|why| Refusal::bad(why.to_string(), ""))?;
    let value = serde_json::from_str(&text).map_err(|why| Refusal::bad(why.to_string(), ""))?;
    out.say(&text, &value);
    Ok(())
}

pub(super) fn demo(arguments: &Arguments, bed_size: bool, out: &Out) -> Result<(), Refusal> {
    let folder = demo_folder(arguments);
    let mut room = Workroom::open_or_create(&folder)?;
    if bed_size {
        crate::demo::bed_size_heap(&mut room, &Out::talk)?;
        let place = folder.display().to_string();
        let scraps = room.stash()?.present().len();
        let words = format!(
            "{scraps} cloths lie ready. To make the quilt: ragbag --workroom {place} make {}",
            super::finish::SPRING_TIDE
        );
        out.say(&words, &json!({ "plan": super::finish::SPRING_TIDE, "cloths": scraps, "workroom": place }));
        return Ok(());
    }
    crate::demo::make(&mut room, &Out::talk)?;
    use_quilt(&mut room, crate::demo::QUILT)?;
    let place = folder.display().to_string();
    let words = format!(
        "{} lies ready. To work in it: ragbag --workroom {place} …, or --workroom {place} serve for its page.",
        crate::demo::QUILT
    );
    out.say(&words, &json!({ "quilt": crate::demo::QUILT, "workroom": place }));
    Ok(())
}

pub(super) fn serve(arguments: &Arguments, port: u16, with_demo: bool, out: &Out) -> Result<(), Refusal> {
    let folder = if with_demo { demo_folder(arguments) } else { folder(arguments) };
    let mut writing = Workroom::open_or_create(&folder)?;
    if with_demo {
        crate::demo::make(&mut writing, &Out::talk)?;
    }
    let reading = Workroom::open_or_create(&folder)?;
    let ready = |address| {
        let address = format!("http://{address}");
        Out::talk(&format!("The workroom is {}.", folder.display()));
        out.say(&format!("listening on {address}"), &json!({ "address": address }));
    };
    server::serve(Shared::new(writing, reading), port, ready).map_err(|why| Refusal {
        exit: Exit::Workroom,
        message: format!("port {port} can't be had: {}", workroom::file_trouble(&why)),
        hint: Some("Choose another: --port 0 takes any free one.".to_owned()),
    })
}
