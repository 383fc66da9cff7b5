//! From the centre to the last stitch: the stages of a plan file, a whole quilt from one, and enough?

use super::args::Arguments;
use super::exit::Refusal;
use super::out::Out;
use super::read::{bench, room_or_new, use_quilt};
use quilt::stage::enough::Rates;
use serde_json::{Value, json};
use std::io::Read;
use std::path::{Component, Path};
use workroom::asks::{GoodsNames, StageReport};
use workroom::making::{PlanFile, read_plan};

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
    if look {
        let stage = plan.stages.first().ok_or_else(|| Refusal::bad("the plan has no stage", ""))?;
        let ask = room.ask_of(&head.at(), stage, &read)?;
        let seen = room.look_at_stage(&head.quilt, &head.name, &ask)?;
        let words = format!("{}\nNothing was changed.", seen.report.words());
        out.say(&words, &json!({ "stage": value(&seen.report), "steps": seen.entries.len() }));
        return Ok(());
    }
    let head = match as_what_if {
        Some(name) => room.what_if(&head.at(), head.tip, name)?,
        None => head,
    };
    let made = room.finish(&head.at(), &plan, &read)?;
    tell(&made.stages, None, out);
    Ok(())
}

/// Makes a new quilt by a plan, from the heap to its last stage.
pub(super) fn make(arguments: &Arguments, file: &Path, out: &Out) -> Result<(), Refusal> {
    let mut plan = plan(file)?;
    plan.quilt = arguments.quilt.clone().or(plan.quilt);
    let mut room = room_or_new(arguments)?;
    let made = room.make(&plan, &|name| beside(file, name), &mut ())?;
    use_quilt(&mut room, &made.head.quilt)?;
    tell(&made.stages, made.grown.as_ref().map(|grown| grown.words.as_str()), out);
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
        words += &format!("{}: {verdict}, about {:.1} hours\n", stage.stage, stage.hours);
        if let Some(thread) = report.thread.iter().find(|thread| thread.stage == stage.stage) {
            let (above, below) = (thread.plan.needle_in / 36.0, thread.plan.bobbin_in / 36.0);
            words += &format!("    thread: {above:.0} yards above or by hand, {below:.0} below\n");
        }
        for line in stage.lines.iter().filter(|line| line.short > 0.0) {
            words += &format!("    {}\n", names.short(line));
        }
    }
    words += if found.is_enough() { "There is enough of everything.\n" } else { "To buy:\n" };
    for buy in &found.buy {
        let (goods, at_least) = (names.named(&buy.goods), if buy.at_least { " at least" } else { "" });
        words += &format!("    {goods}: {}{at_least}\n", buy.words);
    }
    words += &format!("About {:.1} hours in all.", found.hours);
    if let Some(cost) = found.work_cost {
        words += &format!(" At your rate {cost:.0}.");
    }
    out.say(&words, &serde_json::to_value(&report).unwrap_or(Value::Null));
    Ok(())
}

fn plan(file: &Path) -> Result<PlanFile, Refusal> {
    let text = std::fs::read_to_string(file).map_err(|why| {
        Refusal::bad(
            format!("the plan {} can't be read: {why}", file.display()),
            "Name a plan file, in TOML.",
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
    let told = |why: std::io::Error| why.to_string();
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
        return Err(format!("it has more than {MOST_FIGURE_BYTES} bytes"));
    }
    Ok(bytes)
}

fn tell(stages: &[StageReport], grown: Option<&str>, out: &Out) {
    let mut words: Vec<String> = grown.map(str::to_owned).into_iter().collect();
    words.extend(stages.iter().map(StageReport::words));
    let values: Vec<Value> = stages.iter().map(value).collect();
    out.say(&words.join("\n"), &json!({ "grown": grown, "stages": values }));
}

fn value(report: &StageReport) -> Value {
    serde_json::to_value(report).unwrap_or(Value::Null)
}
