//! Templates for machines that cut.

use super::args::{Arguments, TemplatesArgs};
use super::exit::Refusal;
use super::files::whole;
use super::out::Out;
use super::read::{bench_of, length};
use papers::dxf::{DxfLayer, DxfStroke, DxfUnit, dxf};
use papers::{PaperProblem, svg_layers};
use serde_json::json;
use std::path::Path;
use workroom::papers::PapersWish;

/// Lines as the bytes of a file.
type Writer = fn(&[DxfStroke], DxfUnit) -> Result<Vec<u8>, PaperProblem>;

/// How lines are written into a file, by its ending.
pub(super) fn lines_writer(file: &Path) -> Result<Writer, Refusal> {
    let ending = file.extension().and_then(|ending| ending.to_str()).map(str::to_ascii_lowercase);
    match ending.as_deref() {
        Some("svg") => Ok(|strokes, unit| svg_layers(strokes, unit).map(String::into_bytes)),
        Some("dxf") => Ok(dxf),
        _ => {
            let why = format!("{} is neither a .svg nor a .dxf", file.display());
            Err(Refusal::bad(why, "Give the file one of these endings: it tells what is written."))
        }
    }
}

/// Writes the templates' lines, each on the layer of its kind.
pub(super) fn templates(arguments: &Arguments, asked: &TemplatesArgs, out: &Out) -> Result<(), Refusal> {
    let write = lines_writer(&asked.to)?;
    let width_in = length(&asked.width, "the width")?;
    let (mut room, head) = bench_of(arguments, asked.what.as_deref())?;
    let wish = PapersWish { mirrored: asked.mirrored, anyway: asked.anyway, ..PapersWish::default() };
    let strokes = room.template_strokes(&head, width_in, &wish)?;
    let bytes = write(&strokes, asked.unit.into()).map_err(|why| Refusal::refused(why.to_string(), ""))?;
    whole(&asked.to, &bytes)?;
    let count = |layer| strokes.iter().filter(|stroke| stroke.layer == layer).count();
    let pieces = count(DxfLayer::Cut);
    let words = format!(
        "{}: {pieces} templates; cut lines, seam lines and marks on layers of their own.",
        asked.to.display()
    );
    out.say(
        &words,
        &json!({
            "file": asked.to.display().to_string(), "templates": pieces, "seams": count(DxfLayer::Seam),
            "marks": count(DxfLayer::Marks),
        }),
    );
    Ok(())
}
