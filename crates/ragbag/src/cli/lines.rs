//! Quilting to be looked at and followed: designs side by side, and the lines on file and on paper.

use super::args::{Arguments, DesignsArgs, LinesArgs};
use super::exit::Refusal;
use super::files::whole;
use super::look::{Kind, written};
use super::out::Out;
use super::read::{bench, length};
use crate::letters::fonts;
use drawing::lines_drawing;
use drawing::svg::SvgOptions;
use papers::dxf::{DxfLayer, DxfStroke, dxf};
use papers::press::Letters;
use plane::{Point, Region};
use quilt::length::{LengthUnit, fraction, many};
use quilt::stage::quilting::{DesignKind, QuiltingChoice};
use serde_json::{Value, json};
use std::path::Path;
use workroom::Workroom;
use workroom::asks::{DesignCompared, DrawAsk, QuiltingLines};
use workroom::papers::{PaperKind, PapersWish};
use workroom::quilts::Head;

/// Writes the lines of quilting: SVG and DXF in true size, one line a stroke; PDF as a paper guide.
pub(super) fn lines(arguments: &Arguments, asked: &LinesArgs, out: &Out) -> Result<(), Refusal> {
    let Some(kind) = ending(&asked.to) else {
        let why = format!("{} is neither a .svg nor a .dxf nor a .pdf", asked.to.display());
        return Err(Refusal::bad(why, "Give the file one of these endings: it tells what is written."));
    };
    let (mut room, head) = bench(arguments)?;
    let lines = room.quilting_lines(&head.quilt, &head.name)?;
    let bytes = match kind {
        "svg" => as_svg(&head.quilt, &lines),
        "dxf" => as_dxf(&lines, asked)?,
        _ => as_guide(&mut room, &head, asked)?,
    };
    whole(&asked.to, &bytes)?;
    let strokes = if kind == "pdf" { &lines.sewn } else { &lines.laid };
    let count = strokes.starts();
    let words = format!("{}: {}\n", asked.to.display(), strokes_in_words(count))
        + &lines.notes(LengthUnit::Inches).join("\n");
    let (low, high) = plane::polygon::bounds(&lines.outline).unwrap_or_default();
    out.say(
        &words,
        &json!({
            "file": asked.to.display().to_string(), "strokes": count, "length_in": strokes.length(),
            "width_in": high.x - low.x, "height_in": high.y - low.y, "notes": lines.notes(LengthUnit::Inches),
        }),
    );
    Ok(())
}

fn strokes_in_words(count: usize) -> String {
    if count == 1 { "one stroke.".to_owned() } else { format!("{count} strokes.") }
}

fn ending(file: &Path) -> Option<&'static str> {
    let ending = file.extension()?;
    ["svg", "dxf", "pdf"].into_iter().find(|known| ending.eq_ignore_ascii_case(known))
}

fn as_svg(quilt: &str, lines: &QuiltingLines) -> Vec<u8> {
    let title = format!("{quilt}: lines of quilting in true size");
    let drawing = lines_drawing(&title, &lines.outline, &lines.free, &lines.laid);
    drawing.to_svg(&SvgOptions::default()).into_bytes()
}

fn as_dxf(lines: &QuiltingLines, asked: &LinesArgs) -> Result<Vec<u8>, Refusal> {
    let ring =
        |points: &Vec<Point>| DxfStroke { layer: DxfLayer::Marks, points: points.clone(), closed: true };
    let rings =
        |region: &Region| std::iter::once(&region.outer).chain(&region.holes).map(ring).collect::<Vec<_>>();
    let mut strokes = vec![ring(&lines.outline)];
    strokes.extend(lines.free.iter().flat_map(rings));
    strokes.extend(lines.laid.strokes.iter().map(|stroke| DxfStroke {
        layer: DxfLayer::Quilting,
        points: stroke.points.clone(),
        closed: stroke.closed,
    }));
    dxf(&strokes, asked.unit.into()).map_err(|why| Refusal::refused(why.to_string(), ""))
}

fn as_guide(room: &mut Workroom, head: &Head, asked: &LinesArgs) -> Result<Vec<u8>, Refusal> {
    let wish = PapersWish { paper: asked.paper, anyway: asked.true_size, ..PapersWish::default() };
    let paper = room.paper(head, PaperKind::Quilting, &wish)?;
    Ok(room.print(head, &paper, &wish, &Letters::new(&fonts()))?.pdf)
}

/// Tells what several designs come to on the piece, and draws them side by side.
pub(super) fn designs(arguments: &Arguments, asked: &DesignsArgs, out: &Out) -> Result<(), Refusal> {
    let kind = asked.to.as_deref().map(Kind::of).transpose()?;
    let (mut room, head) = bench(arguments)?;
    let spacing_in = asked.spacing.as_deref().map(|text| length(text, "the spacing")).transpose()?;
    let chosen = room.quilting_chosen(&head.quilt, &head.name)?.unwrap_or_default();
    let kinds: Vec<DesignKind> = if asked.designs.is_empty() {
        DesignKind::ALL.to_vec()
    } else {
        asked.designs.iter().map(|design| (*design).into()).collect()
    };
    let choices: Vec<QuiltingChoice> =
        kinds.into_iter().map(|design| varied(&chosen, design, spacing_in)).collect();
    let ask = DrawAsk { back: asked.back, flat: asked.flat, ..DrawAsk::default() };
    let compared = room.compare_quilting(&head.quilt, &head.name, &choices, ask)?;
    let mut words: Vec<String> = compared.designs.iter().map(in_words).collect();
    if let (Some(file), Some(kind)) = (&asked.to, kind) {
        whole(file, &written(&room, &compared.side_by_side, kind, asked.pixels)?)?;
        words.push(format!("{}: side by side.", file.display()));
    }
    let values: Vec<Value> = compared.designs.iter().map(in_values).collect();
    let file = asked.to.as_ref().map(|file| file.display().to_string());
    out.say(&words.join("\n"), &json!({ "designs": values, "file": file }));
    Ok(())
}

/// What was chosen, in another design. Bounds belong to a design and its spacing.
fn varied(chosen: &QuiltingChoice, design: DesignKind, spacing_in: Option<f64>) -> QuiltingChoice {
    if design == chosen.design && spacing_in.is_none() {
        return chosen.clone();
    }
    let spacing_in = spacing_in.unwrap_or(chosen.spacing_in);
    QuiltingChoice { design, spacing_in, least_in: None, most_in: None, ..chosen.clone() }
}

fn in_words(design: &DesignCompared) -> String {
    let mut words =
        format!("{}, rows {} apart", design.choice.design.words(), fraction(design.choice.spacing_in, 16));
    match &design.plan {
        Err(problem) => words += &format!(": can't be laid. {problem}"),
        Ok(plan) => {
            let rest = design.caption().into_iter().skip(1).collect::<Vec<_>>().join(", ");
            words += &format!(": {rest}, {}", many(plan.bobbins as usize, "bobbin", "bobbins"));
            for caution in &plan.cautions {
                words += &format!("\n    {caution}");
            }
        }
    }
    words
}

fn in_values(design: &DesignCompared) -> Value {
    let cautions = |plan: &quilt::stage::quilting::QuiltingPlan| {
        plan.cautions.iter().map(ToString::to_string).collect::<Vec<_>>()
    };
    let (design_kind, spacing) = (design.choice.design, design.choice.spacing_in);
    match &design.plan {
        Err(problem) => json!({ "design": design_kind, "spacing_in": spacing, "problem": problem }),
        Ok(plan) => json!({
            "design": design_kind, "spacing_in": spacing, "length_in": plan.length_in, "starts": plan.starts,
            "minutes": plan.minutes, "bobbins": plan.bobbins, "needle_in": plan.needle_in,
            "bobbin_in": plan.bobbin_in, "widest_gap_in": plan.widest_gap.map(|gap| gap.inches),
            "cautions": cautions(plan),
        }),
    }
}
