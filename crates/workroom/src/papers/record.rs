//! What became of a piece: dates from the log, pictures, what it used, hours, and how to wash it.

use super::taken::{Taken, pairs};
use super::washing::washing;
use super::{Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked, DrawAsk, GoodsNames};
use crate::quilts::{Head, Log, Moment, StepTimes};
use crate::workroom::Workroom;
use papers::flow::Block;
use quilt::cloth::{Cloth, ClothId};
use quilt::length::many;
use quilt::log::{RunKind, Step};
use quilt::stage::habits::Habits;
use serde_json::json;
use std::collections::BTreeMap;

pub(super) fn record(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Asked<Paper> {
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let log = room.log(&head.quilt, &head.name)?;
    let times = room.times(&log)?;
    let dates = dates(&log, &times);
    let sewn = room.sewn_marks(head.sewn)?;
    let front = room.draw(tip, Some(&sewn), DrawAsk::default())?;
    let back = room.draw(tip, Some(&sewn), DrawAsk { back: true, ..DrawAsk::default() })?;
    let Habits { rates, .. } = room.habits()?;
    // A stage that its cloth or outline no longer allows is no reason to tell nothing.
    let takes = room.takes(&head.quilt, &head.name, &room.shop()?, &rates);
    let names = GoodsNames::of(room.stash()?).told_in(wish.unit());
    let taken = Taken::of(takes, &names, wish.unit());
    let washing = washing(&cloths(room, head)?);
    let state = if log.sewn == log.steps.len() {
        "All of it is sewn.".to_owned()
    } else {
        format!("{} of {} are sewn; the rest is planned.", log.sewn, many(log.steps.len(), "step", "steps"))
    };
    let facts = json!({
        "dates": dates.iter().map(|[what, when]| json!({ "what": what, "when": when })).collect::<Vec<_>>(),
        "sewn": log.sewn, "steps": log.steps.len(),
        "used": taken.used, "besides": taken.besides, "thread": taken.thread, "hours": taken.hours,
        "untold": taken.untold, "washing": washing,
    });
    let mut blocks = vec![
        Block::chapter(PaperKind::Record.title()),
        Block::set(papers::flow::faces::SUBTITLE, wish.title_of(&head.quilt)),
    ];
    if !wish.words.maker.is_empty() {
        blocks.push(Block::body(format!("Made by {}.", wish.words.maker)));
    }
    blocks.push(Block::Beside(vec![
        (1.0, vec![Block::figure(front, 4.2, "Front")]),
        (1.0, vec![Block::figure(back, 4.2, "Back")]),
    ]));
    blocks.push(Block::body(state));
    blocks.push(Block::section("When"));
    if dates.is_empty() {
        blocks.push(Block::body(
            "No times are known of this piece: it was carried in from another workroom, or worked on before times were kept.",
        ));
    } else {
        blocks.push(pairs(["What", "When"], &dates));
    }
    blocks.extend(taken.blocks());
    blocks.push(Block::section("How to wash it"));
    blocks.push(Block::list(washing));
    Ok(Paper { kind: PaperKind::Record, blocks, facts })
}

/// When what began and ended, by day.
fn dates(log: &Log, times: &[StepTimes]) -> Vec<[String; 2]> {
    let mut found = Vec::new();
    let mut tell = |what: &str, moment: Option<&Moment>| {
        found.extend(moment.map(|moment| [what.to_owned(), to_the_minute(moment)]));
    };
    let earliest =
        |moments: &mut dyn Iterator<Item = &Moment>| moments.min_by_key(|moment| moment.seconds).cloned();
    tell("First plan", earliest(&mut times.iter().filter_map(|step| step.planned.as_ref())).as_ref());
    tell("First sewn", earliest(&mut times.iter().filter_map(|step| step.sewn.as_ref())).as_ref());
    tell("Last sewn", times.iter().filter_map(|step| step.sewn.as_ref()).max_by_key(|moment| moment.seconds));
    for (kind, what) in
        [(RunKind::Ring, "Ring"), (RunKind::Border, "Border"), (RunKind::SquareUp, "Squared up")]
    {
        let of = log
            .steps
            .iter()
            .zip(times)
            .filter(|(step, _)| step.entry.run.as_ref().is_some_and(|run| run.kind == kind));
        tell(what, of.filter_map(|(_, times)| times.sewn.as_ref()).max_by_key(|moment| moment.seconds));
    }
    let mut days: BTreeMap<&str, usize> = BTreeMap::new();
    for moment in times.iter().filter_map(|step| step.sewn.as_ref()) {
        *days.entry(moment.day()).or_default() += 1;
    }
    found.extend(
        days.into_iter().map(|(day, steps)| [day.to_owned(), many(steps, "step sewn", "steps sewn")]),
    );
    found
}

fn to_the_minute(moment: &Moment) -> String {
    moment.local.rsplit_once(':').map_or_else(|| moment.local.clone(), |(minute, _)| minute.to_owned())
}

/// The cloths of the patches of a head, each once.
fn cloths(room: &mut Workroom, head: &Head) -> Asked<Vec<Cloth>> {
    let tip = head.tip.ok_or(AskError::NothingOnTable)?;
    let mut all = room.every_cloth()?;
    let steps = room.path(tip)?;
    let laid = steps.iter().filter_map(|step| match &step.entry.step {
        Step::Lay { cloth, .. } => Some(*cloth),
        _ => None,
    });
    // Of a strip set count the cloths that it is pieced from.
    let (mut found, mut open): (Vec<Cloth>, Vec<ClothId>) = (Vec::new(), laid.collect());
    while let Some(id) = open.pop() {
        let Some(cloth) = all.remove(&id) else { continue };
        if cloth.parts.is_empty() {
            found.push(cloth);
        } else {
            open.extend(cloth.parts.iter().map(|part| part.cloth));
        }
    }
    Ok(found)
}
