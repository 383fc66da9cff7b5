//! Sewing by hand, saying what was sewn, and taking it back.

use super::args::{Arguments, CutArgs, PressArg, SewArgs, StageArg};
use super::exit::Refusal;
use super::out::Out;
use super::read::{at, bench, cloth, corners, length, name, number, pair, press, signed};
use plane::Turn;
use quilt::length::{fraction, many};
use quilt::log::{Along, End, Keep, Mark, Stage, StepId};
use serde_json::{Value, json};
use workroom::asks::{HandSewn, Instead, SideMeasure, TrueUp};
use workroom::quilts::{Head, Log};

fn done(words: &str, head: &Head, out: &Out) {
    out.say(
        words,
        &json!({ "head": head.name, "tip": head.tip.map(|tip| tip.to_string()), "version": head.version }),
    );
}

pub(super) fn start(arguments: &Arguments, no: u32, piece: &str, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let (id, piece) = (cloth(&mut room, no)?, corners(piece, "piece")?);
    let head = room.lay(&at(&head), id, &piece)?;
    done("Laid, as chalk.", &head, out);
    Ok(())
}

pub(super) fn sew(arguments: &Arguments, asked: &SewArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let flush = if asked.untrimmed { [false, false] } else { [true, true] };
    let stop =
        asked.stop.as_deref().map(|open| length(open, "stop")).transpose()?.map(|open| (End::End, open));
    let sewn = HandSewn {
        onto: name(&asked.onto)?,
        cloth: cloth(&mut room, asked.cloth)?,
        size_in: pair(&asked.size, 'x', "size")?,
        slide_in: signed(&asked.slide, "slide")?,
        flush: if stop.is_some() { [flush[0], false] } else { flush },
        press: press(asked.press),
        stop,
    };
    let head = room.sew_by_hand(&at(&head), &sewn, asked.anyway)?;
    done("Sewn on, as chalk.", &head, out);
    Ok(())
}

pub(super) fn join(
    arguments: &Arguments,
    with: &str,
    onto: &str,
    slide: &str,
    how: PressArg,
    out: &Out,
) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let head = room.join_tops(&at(&head), name(onto)?, name(with)?, signed(slide, "slide")?, press(how))?;
    done("Joined, as chalk.", &head, out);
    Ok(())
}

pub(super) fn close(arguments: &Arguments, seam: &str, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let head = room.close(&at(&head), name(seam)?)?;
    done("Closed, as chalk.", &head, out);
    Ok(())
}

/// The step of a number on a path.
fn step(log: &Log, mark: u32) -> Result<StepId, Refusal> {
    let found = log.steps.iter().find(|step| step.entry.mark.0 == mark);
    found
        .map(|step| step.id)
        .ok_or_else(|| Refusal::bad(format!("there is no step {mark} here"), "ragbag log lists them."))
}

pub(super) fn sewn(arguments: &Arguments, upto: Option<u32>, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let log = room.log(&head.quilt, &head.name)?;
    let upto = match upto {
        Some(mark) => step(&log, mark)?,
        None => {
            log.steps
                .last()
                .ok_or_else(|| {
                    Refusal::refused(
                        "nothing is planned",
                        "Take a proposal, or grow some: ragbag next, ragbag grow",
                    )
                })?
                .id
        }
    };
    let report = room.sew(&at(&head), upto, true)?;
    let (cut, came) = (many(report.cut, "patch", "patches"), many(report.came.len(), "offcut", "offcuts"));
    let mut words = format!("Sewn: {cut} cut; {came} came back.");
    if report.beyond_in2 > 0.01 {
        words += &format!(" {:.1} square inches were cut that the heap did not have.", report.beyond_in2);
    }
    let came: Vec<String> = report.came.iter().map(ToString::to_string).collect();
    out.say(
        &words,
        &json!({
            "cut": report.cut, "came": came, "waste_in2": report.waste_in2, "beyond_in2": report.beyond_in2,
            "sewn": report.head.sewn.map(|id| id.to_string()),
        }),
    );
    Ok(())
}

pub(super) fn instead(
    arguments: &Arguments,
    no: u32,
    size: Option<&str>,
    patch: Option<u32>,
    anyway: bool,
    out: &Out,
) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let size = size.map(|size| pair(size, 'x', "size")).transpose()?;
    let (wide_in, deep_in) = (size.map(|size| size[0]), size.map(|size| size[1]));
    let cloth = cloth(&mut room, no)?;
    let instead = Instead { patch: patch.map(Mark), cloth, wide_in, deep_in, anyway };
    let amended = room.instead(&at(&head), instead)?;
    let stopped = amended
        .stopped
        .as_ref()
        .map(|(mark, problem)| json!({ "mark": mark.0, "message": problem.to_string() }));
    let came: Vec<String> = amended.came.iter().map(ToString::to_string).collect();
    out.say(
        &amended.words(),
        &json!({
            "held": amended.held, "before": amended.before, "stopped": stopped,
            "to_plan_again": amended.chalk.len(), "came": came,
        }),
    );
    Ok(())
}

fn along(cut: &CutArgs) -> Result<Along, Refusal> {
    let side = name(&cut.side)?;
    match &cut.at {
        None => Ok(Along::Side(side)),
        Some(at) => {
            let turn = Turn::from_degrees(number(cut.turn, "turn")?);
            Ok(Along::From { side, at_in: signed(at, "at")?, turn })
        }
    }
}

pub(super) fn trim(arguments: &Arguments, cut: &CutArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let head = room.trim(&at(&head), along(cut)?, Keep::Left)?;
    done("Trimmed, as chalk.", &head, out);
    Ok(())
}

pub(super) fn slice(arguments: &Arguments, cut: &CutArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let head = room.trim(&at(&head), along(cut)?, Keep::Both)?;
    done("Sliced apart, as chalk.", &head, out);
    Ok(())
}

pub(super) fn put_in(
    arguments: &Arguments,
    cut: &CutArgs,
    no: u32,
    width: &str,
    out: &Out,
) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let id = cloth(&mut room, no)?;
    let head = room.put_in(&at(&head), along(cut)?, id, length(width, "width")?)?;
    done("Sliced apart and a strip put in, as chalk.", &head, out);
    Ok(())
}

pub(super) fn unpick(arguments: &Arguments, keep: Option<u32>, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let report = match keep {
        None => room.unpick_run(&at(&head))?,
        Some(0) => room.unpick(&at(&head), None)?,
        Some(mark) => {
            let log = room.log(&head.quilt, &head.name)?;
            room.unpick(&at(&head), Some(step(&log, mark)?))?
        }
    };
    let words = report.words();
    let came: Vec<String> = report.came.iter().map(ToString::to_string).collect();
    out.say(&words, &json!({ "tip": report.head.tip.map(|tip| tip.to_string()), "came": came }));
    Ok(())
}

pub(super) fn resew(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let head = room.resew(&at(&head))?;
    done("Planned again as it was, as chalk; `ragbag sewn` says that it is sewn.", &head, out);
    Ok(())
}

pub(super) fn undo(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let mut room = super::read::room(arguments)?;
    let deed = room.undo()?;
    out.say(&format!("Undone: {}.", told(&deed)), &json!({ "undone": deed }));
    Ok(())
}

/// What a deed is called by makers.
fn told(deed: &str) -> &str {
    match deed {
        "append" => "what was planned last (a piece, a trim, a note, or what was grown)",
        "amend" => "what was used instead",
        "what-ifs" => "the what-ifs that were grown last",
        "resew" => "planning again what was unpicked",
        "enter" => "the scraps that were entered last",
        "sewn" => "what was said to be sewn",
        "cut" => "the cut",
        "import" => "the quilt that was taken in",
        other => other,
    }
}

pub(super) fn measure(arguments: &Arguments, sides: &[String], out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let read = |text: &String| -> Result<SideMeasure, Refusal> {
        let wrong =
            || Refusal::bad(format!("`{text}` is not a side and a length"), "Write it as 12c=5-3/16.");
        let (side, long) = text.split_once('=').ok_or_else(wrong)?;
        Ok(SideMeasure { side: name(side)?, length_in: length(long, "raw length")? })
    };
    let measures = sides.iter().map(read).collect::<Result<Vec<_>, _>>()?;
    let report = room.measure(&at(&head), &measures)?;
    let changed = report.sides.iter().filter(|(_, was, now)| (was - now).abs() > 1.0 / 128.0);
    let words: Vec<String> = changed
        .map(|(side, was, now)| {
            let by = fraction((was - now).abs(), 16);
            let how = if now < was { "shorter" } else { "longer" };
            format!("Side {side} is {by} {how}: {} raw.", fraction(*now, 16))
        })
        .collect();
    let others = words.len() > measures.len();
    let why = "Corners keep their angles, so a side can't change alone: the sides beside it move in or out, as little as may be, and that changes theirs. Measure more sides at once to hold them.";
    let words: Vec<String> = words.into_iter().chain(others.then(|| why.to_owned())).collect();
    let values: Vec<Value> = report
        .sides
        .iter()
        .map(|(side, was, now)| json!({ "side": side.to_string(), "planned_raw_in": was, "raw_in": now }))
        .collect();
    out.say(&words.join("\n"), &json!({ "sides": values }));
    Ok(())
}

pub(super) fn true_up(
    arguments: &Arguments,
    sides: usize,
    only_plan: bool,
    out: &Out,
) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let plan: TrueUp = if only_plan {
        room.plan_true_up(&head.quilt, &head.name, sides)?
    } else {
        room.true_up(&at(&head), sides)?.1
    };
    let (cuts, take) =
        (many(plan.cuts.len(), "cut", "cuts"), if plan.cuts.len() == 1 { "takes" } else { "take" });
    let mut words = format!("{cuts} {take} {:.1} % off.\n", 100.0 * plan.off_share);
    let mut values = Vec::new();
    for (i, cut) in plan.cuts.iter().enumerate() {
        let told = &cut.words;
        words += &format!("{}. {told} Costs {:.1} square inches.", i + 1, cut.off_in2);
        for (patch, width) in &cut.thins {
            words += &format!(" Patch {patch} would finish {} wide.", fraction(*width, 16));
        }
        words.push('\n');
        let thins: Vec<Value> = cut
            .thins
            .iter()
            .map(|(patch, width)| json!({ "patch": patch.0, "finished_width_in": width }))
            .collect();
        values.push(json!({ "off_in2": cut.off_in2, "thins": thins, "words": told }));
    }
    let outline: Vec<[f64; 2]> = plan.outline.iter().map(|p| [p.x, p.y]).collect();
    out.say(&words, &json!({ "cuts": values, "off_share": plan.off_share, "outline_raw": outline }));
    Ok(())
}

pub(super) fn note(arguments: &Arguments, words: &str, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let head = room.note(&at(&head), words)?;
    done("Noted.", &head, out);
    Ok(())
}

pub(super) fn choose(arguments: &Arguments, stage: StageArg, words: &str, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let words = words.to_owned();
    let stage = match stage {
        StageArg::Layers => Stage::Layers(words),
        StageArg::Quilting => Stage::Quilting(words),
        StageArg::Binding => Stage::Binding(words),
        StageArg::Figure => Stage::Figure(words),
    };
    let head = room.choose(&at(&head), stage)?;
    done("Decided, as chalk.", &head, out);
    Ok(())
}
