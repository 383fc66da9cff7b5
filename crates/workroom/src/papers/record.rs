//! What became of a piece: dates from the log, pictures, what it used, hours, and how to wash it.

use super::{Content, Paper, PaperKind, PapersWish};
use crate::asks::{AskError, Asked, DrawAsk, EnoughReport, GoodsNames};
use crate::quilts::{Head, Log, Moment, StepTimes};
use crate::workroom::Workroom;
use papers::flow::{Block, Column, Table};
use quilt::cloth::{Cloth, ClothId};
use quilt::length::{many, whole_up};
use quilt::log::{RunKind, Step};
use quilt::stage::enough::{Shop, Unit};
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
    let takes = room.takes(&head.quilt, &head.name, &Shop::default(), &rates);
    let names = GoodsNames::of(room.stash()?);
    let taken = taken(takes, &names);
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
    Ok(Paper { kind: PaperKind::Record, content: Content::Blocks(blocks), facts })
}

/// What it used, in rows; or why that can't be told.
#[derive(Default)]
struct Taken {
    used: Vec<[String; 4]>,
    besides: Vec<[String; 2]>,
    thread: Vec<[String; 2]>,
    hours: f64,
    by_stage: Vec<[String; 2]>,
    untold: Option<String>,
}

fn taken(takes: Asked<EnoughReport>, names: &GoodsNames) -> Taken {
    match takes {
        Ok(takes) => Taken {
            used: used(&takes, names),
            besides: others(&takes, names),
            thread: thread(&takes),
            hours: takes.enough.hours,
            by_stage: hours(&takes),
            untold: None,
        },
        Err(why) => Taken { untold: Some(why.to_string()), ..Taken::default() },
    }
}

impl Taken {
    fn blocks(&self) -> Vec<Block> {
        if let Some(why) = &self.untold {
            return vec![Block::section("What it used"), Block::body(format!("That can't be told: {why}."))];
        }
        let columns = vec![
            Column::words("Cloth", 4.0),
            Column::numbers("Patches", 1.2),
            Column::numbers("Cut, square inches", 1.8),
            Column::numbers("Shows, square inches", 1.8),
        ];
        let rows = self.used.iter().map(|row| row.to_vec()).collect();
        let mut blocks = vec![Block::section("What it used"), Block::Table(Table { columns, rows })];
        if !self.besides.is_empty() {
            blocks.push(pairs(["Besides", "How much"], &self.besides));
        }
        if !self.thread.is_empty() {
            blocks.push(pairs(["Thread for", "Yards, above and below"], &self.thread));
        }
        blocks.push(Block::section("Hours"));
        let hours = whole_up(self.hours);
        blocks.push(Block::body(format!(
            "About {hours:.0} hours by your habits, from the first cut to the last stitch."
        )));
        blocks.push(pairs(["Stage", "Hours"], &self.by_stage));
        blocks
    }
}

fn pairs([left, right]: [&str; 2], rows: &[[String; 2]]) -> Block {
    let columns = vec![Column::words(left, 3.0), Column::words(right, 4.0)];
    Block::Table(Table { columns, rows: rows.iter().map(|row| row.to_vec()).collect() })
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

/// Each print of the top: its name, patches, what was cut, what shows.
fn used(takes: &EnoughReport, names: &GoodsNames) -> Vec<[String; 4]> {
    let row = |used: &quilt::stage::enough::Used| {
        let areas = [used.cut_in2, used.finished_in2].map(|area| format!("{area:.0}"));
        let [cut, shows] = areas;
        [names.named(&used.goods), used.patches.to_string(), cut, shows]
    };
    let mut prints: Vec<&quilt::stage::enough::Used> = takes.used.prints.iter().collect();
    prints.sort_by(|a, b| b.finished_in2.total_cmp(&a.finished_in2));
    prints.into_iter().map(row).collect()
}

/// What else it takes: all goods but the top's own cloth and thread, which are told by themselves.
fn others(takes: &EnoughReport, names: &GoodsNames) -> Vec<[String; 2]> {
    use quilt::stage::enough::Goods;
    let in_top = |goods: &Goods| takes.used.prints.iter().any(|used| used.goods == *goods);
    let lines = takes.enough.lines.iter();
    let lines = lines.filter(|line| !in_top(&line.goods) && !matches!(line.goods, Goods::Thread { .. }));
    let amount = |line: &quilt::stage::enough::Line| match (line.unit, whole_up(line.needed)) {
        (Unit::Pieces, 1.0) => "1 piece".to_owned(),
        (unit, needed) => format!("{needed:.0} {unit}"),
    };
    lines.map(|line| [names.named(&line.goods), amount(line)]).collect()
}

fn thread(takes: &EnoughReport) -> Vec<[String; 2]> {
    let yards = |inches: f64| whole_up(inches / 36.0);
    let row = |stage: &crate::asks::StageThread| {
        let plan = &stage.plan;
        [stage.stage.to_string(), format!("{:.0} and {:.0}", yards(plan.needle_in), yards(plan.bobbin_in))]
    };
    takes.thread.iter().map(row).collect()
}

fn hours(takes: &EnoughReport) -> Vec<[String; 2]> {
    let stages = takes.enough.stages.iter().filter(|stage| stage.hours >= 0.05);
    stages.map(|stage| [stage.stage.to_string(), format!("{:.1}", stage.hours)]).collect()
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

/// How to wash it, by what is known of its cloths (common practice, no source).
fn washing(cloths: &[Cloth]) -> Vec<String> {
    let named = |which: &dyn Fn(&Cloth) -> bool| -> Vec<&str> {
        let mut names: Vec<&str> =
            cloths.iter().filter(|cloth| which(cloth)).map(|cloth| cloth.name.as_str()).collect();
        names.sort_unstable();
        names.dedup();
        names
    };
    let some = |names: &[&str]| match names {
        few if few.len() <= 4 => few.join(", "),
        [first, second, third, rest @ ..] => format!("{first}, {second}, {third} and {} more", rest.len()),
        _ => String::new(),
    };
    let fibre = |cloth: &Cloth| cloth.facts.fibre.to_lowercase();
    let is_tender =
        |cloth: &Cloth| ["wool", "silk", "rayon", "viscose"].iter().any(|word| fibre(cloth).contains(word));
    let is_plain = |cloth: &Cloth| {
        ["cotton", "linen"].iter().any(|word| fibre(cloth).contains(word)) && !is_tender(cloth)
    };
    let mut said = Vec::new();
    let tender = named(&is_tender);
    let unknown = named(&|cloth| !is_tender(cloth) && !is_plain(cloth));
    said.push(if !tender.is_empty() {
        format!("By hand in cool water with wool soap, no wringing: it has {} in it.", some(&tender))
    } else if unknown.is_empty() {
        "Cotton and linen: a gentle wash at 30 degrees, short spin, no bleach.".to_owned()
    } else {
        format!(
            "A cold, gentle wash or by hand: the fibres of {} aren't known.",
            many(unknown.len(), "cloth", "cloths")
        )
    });
    let bleeds = named(&|cloth| cloth.facts.bleeds == Some(true));
    if !bleeds.is_empty() {
        said.push(format!(
            "By itself, with a cloth that catches dye, and never left lying wet: {} may bleed.",
            some(&bleeds)
        ));
    }
    let doubtful = named(&|cloth| cloth.facts.bleeds.is_none() && cloth.facts.washed != Some(true));
    if bleeds.is_empty() && !doubtful.is_empty() {
        said.push(format!(
            "The first time by itself, with a cloth that catches dye: whether {} bleed isn't known.",
            many(doubtful.len(), "cloth", "cloths")
        ));
    }
    let unwashed = named(&|cloth| cloth.facts.washed == Some(false));
    if !unwashed.is_empty() {
        said.push(format!("It will shrink a little and crinkle: {} went in unwashed.", some(&unwashed)));
    }
    said.push("Dry it flat, away from the sun; a wet quilt that hangs pulls at its seams.".to_owned());
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::{Region, Turn};
    use quilt::cloth::{Facts, Kind, Look};

    fn cloth(name: &str, fibre: &str, washed: Option<bool>, bleeds: Option<bool>) -> Cloth {
        Cloth {
            id: ClothId(1),
            name: name.to_owned(),
            kind: Kind::Scrap,
            outline: Region::rectangle(3.0, 3.0),
            flaws: Vec::new(),
            about: false,
            look: Look::plain(colour::Lab::new(50.0, 0.0, 0.0)),
            grain: Turn::NONE,
            print: None,
            place: String::new(),
            facts: Facts { fibre: fibre.to_owned(), washed, bleeds },
            picture: None,
            parts: Vec::new(),
            parent: None,
        }
    }

    #[test]
    fn washing_goes_by_the_tenderest_cloth_and_names_what_bleeds() {
        let plain = cloth("check", "cotton", Some(true), Some(false));
        assert_eq!(
            washing(std::slice::from_ref(&plain)).len(),
            2,
            "washed before, fast, cotton: nothing to fear"
        );
        let silk = washing(&[plain.clone(), cloth("gown", "silk", Some(false), Some(true))]);
        assert!(
            silk[0].starts_with("By hand") && silk[0].contains("gown") && !silk[0].contains("check"),
            "{silk:?}"
        );
        assert!(silk.iter().any(|said| said.contains("gown may bleed")), "{silk:?}");
        assert!(silk.iter().any(|said| said.contains("shrink") && said.contains("gown")), "{silk:?}");
        let unknown = washing(&[plain, cloth("odd bit", "", None, None)]);
        assert!(unknown[0].contains("fibres of 1 cloth"), "{unknown:?}");
        assert!(unknown[1].contains("1 cloth bleed"), "{unknown:?}");
    }
}
