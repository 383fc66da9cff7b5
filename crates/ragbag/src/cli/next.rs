//! The next piece and growing.

use super::args::{Arguments, BendArgs, EffortArg, GrowArgs};
use super::exit::Refusal;
use super::out::Out;
use super::read::{at, bench, cloth, length, name, number};
use grow::{Bend, Effort, End, Goal, Watch};
use serde_json::{Value, json};
use std::io::{IsTerminal, Write};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use workroom::Workroom;
use workroom::asks::{GrowAsk, GrowReport, Offer};
use workroom::quilts::Head;

pub(super) fn next(
    arguments: &Arguments,
    side: Option<&str>,
    count: usize,
    out: &Out,
) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let side = side.map(name).transpose()?;
    let offers = room.propose(&head.quilt, &head.name, side, count.clamp(1, 20), &Bend::default())?;
    if offers.is_empty() {
        return Err(Refusal::refused("nothing in the heap fits there", "Try another side, or add cloth."));
    }
    let words: Vec<String> = offers.iter().map(told).collect();
    let values: Vec<Value> = offers.iter().map(value).collect();
    out.say(&words.join("\n"), &json!({ "proposals": values }));
    Ok(())
}

fn told(offer: &Offer) -> String {
    let mut words = format!(
        "{}. on side {}, score {:.2} (less is better)\n",
        offer.no, offer.proposal.side, offer.proposal.score
    );
    for patch in &offer.patches {
        let no = patch.no.map_or_else(String::new, |no| format!("No. {no}, "));
        words += &format!("   {no}{}: {}\n", patch.name, patch.size);
        for line in &patch.cut {
            words += &format!("     {line}\n");
        }
    }
    words += &format!("   {}\n", offer.lay);
    let mut terms: Vec<_> =
        offer.proposal.terms.iter().filter(|term| (term.value * term.weight).abs() > 0.02).collect();
    terms.sort_by(|a, b| (b.value * b.weight).total_cmp(&(a.value * a.weight)));
    let told: Vec<String> =
        terms.iter().map(|term| format!("{} {:.2}", term.words, term.value * term.weight)).collect();
    words + &format!("   {}\n", told.join("; "))
}

fn value(offer: &Offer) -> Value {
    let patches: Vec<Value> = offer
        .patches
        .iter()
        .zip(&offer.proposal.patches)
        .map(|(patch, plan)| {
            json!({
                "no": patch.no, "cloth": patch.cloth.to_string(), "name": patch.name, "cuts": patch.cut,
                "size_finished": patch.size, "cut_on_cloth": points(&plan.on_cloth), "lies_raw": points(&plan.lies),
                "finished": points(&plan.finished), "finished_area_in2": plan.finished_area_in2,
            })
        })
        .collect();
    let terms: Vec<Value> = offer
        .proposal
        .terms
        .iter()
        .map(|term| json!({ "name": term.name, "words": term.words, "value": term.value, "weight": term.weight }))
        .collect();
    json!({
        "no": offer.no, "key": offer.proposal.key, "side": offer.proposal.side.to_string(), "score": offer.proposal.score,
        "depth_finished_in": offer.proposal.depth_in, "trim_first_in2": offer.proposal.trim,
        "trim_first_words": offer.trim,
        "lay_words": offer.lay, "patches": patches, "terms": terms,
    })
}

fn points(points: &[plane::Point]) -> Vec<[f64; 2]> {
    points.iter().map(|p| [p.x, p.y]).collect()
}

pub(super) fn take(arguments: &Arguments, no: usize, asked: &BendArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let bend = Bend {
        cloth: asked.cloth.map(|no| cloth(&mut room, no)).transpose()?,
        depth_in: asked.depth.as_deref().map(|depth| length(depth, "depth")).transpose()?,
        tilt_deg: asked.tilt.map(|tilt| number(tilt, "tilt")).transpose()?,
        pieces: asked.pieces,
    };
    let (head, offer) = room.take(&at(&head), no, &bend)?;
    let words = format!("Taken, as chalk:\n{}", told(&offer));
    out.say(&words, &json!({ "taken": value(&offer), "tip": tip(&head) }));
    Ok(())
}

pub(super) fn refuse(arguments: &Arguments, no: usize, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let key = room.refuse_offer(&head.quilt, &head.name, no)?;
    out.say("Refused; it is not proposed again.", &json!({ "refused": key }));
    Ok(())
}

pub(super) fn forget_refusals(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let forgotten = room.refusals(&head.quilt)?.len();
    room.forget_refusals(&head.quilt)?;
    out.say(&format!("{forgotten} refusals are forgotten."), &json!({ "forgotten": forgotten }));
    Ok(())
}

fn tip(head: &Head) -> Option<String> {
    head.tip.map(|tip| tip.to_string())
}

/// Progress on stderr; Ctrl-C stops with what is there.
struct Progress {
    stop: Arc<AtomicBool>,
    bar: bool,
}

impl Progress {
    fn new() -> Self {
        let stop = Arc::new(AtomicBool::new(false));
        let heard = Arc::clone(&stop);
        // Without a handler Ctrl-C ends the program, and nothing was changed: that will do too.
        let _ = ctrlc::set_handler(move || heard.store(true, Ordering::SeqCst));
        Self { stop, bar: std::io::stderr().is_terminal() }
    }
}

impl Watch for Progress {
    fn placed(&mut self, pieces: usize, about: usize) -> bool {
        if self.bar {
            let width = 32;
            let full = (pieces * width / about.max(1)).min(width);
            let bar =
                format!("\r{}{} {pieces} of about {about} ", "#".repeat(full), ".".repeat(width - full));
            let _ = std::io::stderr().write_all(bar.as_bytes());
        }
        !self.stop.load(Ordering::SeqCst)
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.bar {
            let _ = writeln!(std::io::stderr());
        }
    }
}

fn ask(room: &mut Workroom, head: &Head, asked: &GrowArgs) -> Result<GrowAsk, Refusal> {
    let across_in = asked.to.as_deref().map(|to| length(to, "to")).transpose()?;
    let there = room.table(&head.quilt, &head.name)?.piece().map_or(0, |(_, top)| top.faces().len());
    let goal = match (asked.more, asked.pieces, asked.drift_end) {
        (Some(more), ..) => Goal::Pieces(there + more.min(5000)),
        (None, _, true) => Goal::DriftEnd,
        (None, Some(pieces), false) => Goal::SizeWith(pieces.clamp(1, 5000)),
        (None, None, false) => Goal::Size,
    };
    let effort = match asked.effort {
        EffortArg::Quick => Effort::QUICK,
        EffortArg::Usual => Effort::USUAL,
        EffortArg::Thorough => Effort::THOROUGH,
    };
    Ok(GrowAsk { goal, effort, seed: asked.seed, across_in })
}

pub(super) fn grow(arguments: &Arguments, asked: &GrowArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let ask = ask(&mut room, &head, asked)?;
    let report = room.grow(&at(&head), &ask, &mut Progress::new())?;
    out.say(&report.words, &grown(&report));
    Ok(())
}

fn grown(report: &GrowReport) -> Value {
    let end = match report.end {
        End::Reached => "reached",
        End::Near => "near",
        End::ClothRanOut { .. } => "cloth_ran_out",
        End::NoShape => "no_shape",
        End::Stopped => "stopped",
        End::NothingToStart => "nothing_to_start",
    };
    json!({
        "head": report.head.name, "tip": tip(&report.head), "pieces": report.pieces, "steps": report.steps,
        "end": end, "words": report.words, "cost": report.cost,
    })
}

pub(super) fn what_ifs(
    arguments: &Arguments,
    count: usize,
    asked: &GrowArgs,
    out: &Out,
) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let ask = ask(&mut room, &head, asked)?;
    let found = room.what_ifs(&at(&head), count, &ask, &mut Progress::new())?;
    let words: Vec<String> = found
        .iter()
        .map(|what_if| {
            format!(
                "{}: {} Eye check cost {:.2}.",
                what_if.head.name, what_if.report.words, what_if.report.cost
            )
        })
        .collect();
    let values: Vec<Value> = found.iter().map(|what_if| grown(&what_if.report)).collect();
    out.say(&words.join("\n"), &json!({ "what_ifs": values }));
    Ok(())
}
