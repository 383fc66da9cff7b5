//! From the centre to the last stitch: the stages of a plan file, a whole quilt from one, and enough?

use super::args::Arguments;
use super::exit::Refusal;
use super::out::Out;
use super::read::{bench, room, room_or_new, use_quilt};
use quilt::length::whole_up;
use quilt::stage::enough::Rates;
use serde_json::{Value, json};
use std::io::Read;
use std::path::{Component, Path};
use workroom::asks::{CentresReport, GoodsNames, StageReport};
use workroom::file_trouble;
use workroom::making::{Made, PlanFile, read_plan};

/// The largest drawing of a figure that is read, in bytes.
const MOST_FIGURE_BYTES: u64 = 50_000_000;

/// What a plan calls the heron that comes with the program.
const HERON: &str = "heron";

/// Takes the stages of a plan on the quilt that is there; with a name on a head of its own.
pub(super) fn finish(
    arguments: &Arguments,
    file: &Path,
    look: bool,
    as_what_if: Option<&str>,
    out: &Out,
) -> Result<(), Refusal> {
    let plan = plan(file)?;
    if plan.stages.is_empty() {
        return Err(Refusal::bad("the plan has no stage", "docs/PLAN.md tells what a plan can say."));
    }
    let (mut room, head) = bench(arguments)?;
    let read = |name: &str| beside(file, name);
    let made = if look {
        room.look_at_finishing(&head.at(), &plan, &read)?
    } else {
        room.finish(&head.at(), as_what_if, &plan, &read)?
    };
    tell(&made, look, out);
    Ok(())
}

/// Makes a new quilt by a plan, from the heap to its last stage.
pub(super) fn make(arguments: &Arguments, file: &Path, look: bool, out: &Out) -> Result<(), Refusal> {
    let mut plan = plan(file)?;
    plan.quilt = arguments.quilt.clone().or(plan.quilt);
    let mut room = if look { room(arguments)? } else { room_or_new(arguments)? };
    let read = |name: &str| beside(file, name);
    let made =
        if look { room.look_at_making(&plan, &read, &mut ())? } else { room.make(&plan, &read, &mut ())? };
    if !look {
        use_quilt(&mut room, &made.head.quilt)?;
    }
    tell(&made, look, out);
    Ok(())
}

/// Holds everything that is chosen against the heap.
pub(super) fn enough(arguments: &Arguments, per_hour: Option<f64>, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let own = room.habits()?.rates;
    let rates = Rates { per_hour: per_hour.or(own.per_hour), ..own };
    let shop = room.shop()?;
    let report = room.enough(&head.quilt, &head.name, &shop, &rates)?;
    let found = &report.enough;
    let names = GoodsNames::of(room.stash()?);
    let mut words = String::new();
    for stage in &found.stages {
        let verdict = if stage.is_enough() { "enough" } else { "not enough" };
        words += &format!("{}: {verdict}{}\n", stage.stage, about_hours(", about", stage.hours));
        if let Some(thread) = report.thread.iter().find(|thread| thread.stage == stage.stage) {
            let [above, below] =
                [thread.plan.needle_in, thread.plan.bobbin_in].map(|long| whole_up(long / 36.0));
            words += &format!("    thread: {above:.0} yards above or by hand, {below:.0} below\n");
        }
        for line in stage.lines.iter().filter(|line| line.short > 0.0) {
            words += &format!("    {}\n", names.short(line));
        }
    }
    words += &format!("{}\n", report.verdict());
    if !found.buy.is_empty() {
        words += "To buy:\n";
    }
    for buy in &found.buy {
        let (goods, at_least) = (names.named(&buy.goods), if buy.at_least { " at least" } else { "" });
        words += &format!("    {goods}: {}{at_least}\n", buy.words);
    }
    if found.hours >= 0.05 {
        words += &format!("{} in all.", about_hours("About", found.hours));
    }
    if let Some(cost) = found.work_cost {
        words += &format!(" At your rate {cost:.0}.");
    }
    out.say(&words, &serde_json::to_value(&report).unwrap_or(Value::Null));
    Ok(())
}

/// Hours with what stands before them; nothing where they are none to speak of.
fn about_hours(about: &str, hours: f64) -> String {
    match format!("{hours:.1}").as_str() {
        "0.0" | "-0.0" => String::new(),
        "1.0" => format!("{about} 1 hour"),
        told => format!("{about} {told} hours"),
    }
}

/// What the plans that come with the program are called.
pub(super) const SPRING_TIDE: &str = "spring-tide";
const LOW_TIDE: &str = "low-tide";

fn plan(file: &Path) -> Result<PlanFile, Refusal> {
    let own = match file.to_str() {
        Some(LOW_TIDE) => Some(::demo::LOW_TIDE_PLAN),
        Some(SPRING_TIDE) => Some(::demo::SPRING_TIDE_PLAN),
        _ => None,
    };
    let text =
        own.map_or_else(|| std::fs::read_to_string(file), |own| Ok(own.to_owned())).map_err(|why| {
            Refusal::bad(
                format!("the plan {} can't be read: {}", file.display(), file_trouble(&why)),
                "Name a plan file: docs/PLAN.md tells what it can say.",
            )
        })?;
    read_plan(&text).map_err(|why| Refusal::bad(why.to_string(), "docs/PLAN.md tells what a plan can say."))
}

/// The heron that comes with the program, or a file in the folder of the plan.
fn beside(plan: &Path, name: &str) -> Result<Vec<u8>, String> {
    if name == HERON {
        return Ok(::demo::HERON.as_bytes().to_vec());
    }
    let inside = Path::new(name).components().all(|part| matches!(part, Component::Normal(_)));
    if !inside {
        return Err("it must lie in the plan's folder".to_owned());
    }
    let path = plan.parent().unwrap_or(Path::new(".")).join(name);
    let told = |why: std::io::Error| file_trouble(&why);
    if !std::fs::metadata(&path).map_err(told)?.is_file() {
        return Err("it is no file".to_owned());
    }
    let mut bytes = Vec::new();
    std::fs::File::open(&path)
        .map_err(told)?
        .take(MOST_FIGURE_BYTES + 1)
        .read_to_end(&mut bytes)
        .map_err(told)?;
    if bytes.len() as u64 > MOST_FIGURE_BYTES {
        return Err(format!("it is larger than {} megabytes", MOST_FIGURE_BYTES / 1_000_000));
    }
    Ok(bytes)
}

fn tell(made: &Made, look: bool, out: &Out) {
    let grown = made.grown.as_ref().map(|grown| grown.words.clone());
    let mut words: Vec<String> = grown.clone().into_iter().collect();
    words.extend(made.centres.iter().flat_map(CentresReport::words));
    words.extend(made.stages.iter().map(StageReport::words));
    if look {
        words.push("Nothing was changed.".to_owned());
    }
    let stages: Vec<Value> = made.stages.iter().map(value).collect();
    let centres = made.centres.as_ref().and_then(|centres| serde_json::to_value(centres).ok());
    let (quilt, head) = (&made.head.quilt, &made.head.name);
    out.say(
        &words.join("\n"),
        &json!({
            "quilt": quilt,
            "head": head,
            "changed": !look,
            "grown": grown,
            "centres": centres,
            "stages": stages,
        }),
    );
}

fn value(report: &StageReport) -> Value {
    serde_json::to_value(report).unwrap_or(Value::Null)
}
