//! From the centre to the last stitch: the stages of a plan file, a whole quilt from one, and enough?

use super::args::Arguments;
use super::exit::Refusal;
use super::out::Out;
use super::read::{bench, room, room_or_new, use_quilt};
use quilt::cloth::ClothId;
use quilt::length::{fraction, round_up};
use quilt::stage::binding::{Corner, FinishPlan};
use quilt::stage::enough::{Goods, Line, Rates, Shop};
use quilt::stage::layers::{LayersPlan, Take};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::io::Read;
use std::path::{Component, Path};
use workroom::asks::{CentresReport, StageReport};
use workroom::making::{Made, PlanFile, read_plan};
use workroom::{Workroom, file_trouble};

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
    let rates = Rates { per_hour, ..Rates::default() };
    let report = room.enough(&head.quilt, &head.name, &Shop::default(), &rates)?;
    let found = &report.enough;
    let names = Names::of(&mut room)?;
    let mut words = String::new();
    for stage in &found.stages {
        let verdict = if stage.is_enough() { "enough" } else { "not enough" };
        words += &format!("{}: {verdict}, about {:.1} hours\n", stage.stage, stage.hours);
        for line in stage.lines.iter().filter(|line| line.short > 0.0) {
            words += &format!("    {}\n", short(line, &names));
        }
    }
    words += if found.is_enough() { "There is enough of everything.\n" } else { "To buy:\n" };
    for buy in &found.buy {
        let (goods, at_least) = (names.of_goods(&buy.goods), if buy.at_least { " at least" } else { "" });
        words += &format!("    {goods}: {}{at_least}\n", buy.words);
    }
    words += &format!("About {:.1} hours in all.", found.hours);
    if let Some(cost) = found.work_cost {
        words += &format!(" At your rate {cost:.0}.");
    }
    out.say(&words, &serde_json::to_value(&report).unwrap_or(Value::Null));
    Ok(())
}

fn short(line: &Line, names: &Names) -> String {
    let goods = names.of_goods(&line.goods);
    format!(
        "{goods}: {:.0} needed, {:.0} there, short of {:.0} {}",
        line.needed, line.has, line.short, line.unit
    )
}

/// What the maker calls the cloths that a report knows by number.
struct Names {
    prints: BTreeMap<u64, String>,
    cloths: BTreeMap<ClothId, String>,
}

impl Names {
    fn of(room: &mut Workroom) -> Result<Self, Refusal> {
        let (mut prints, mut cloths) = (BTreeMap::new(), BTreeMap::new());
        for item in room.stash().map_err(Refusal::from)?.items() {
            let name = &item.came.name;
            if let Some(print) = item.came.print {
                prints.entry(print).or_insert_with(|| format!("the print of {name}"));
            }
            cloths.insert(item.came.id, name.clone());
        }
        Ok(Self { prints, cloths })
    }

    fn of_goods(&self, goods: &Goods) -> String {
        let known = match goods {
            Goods::Print(print) => self.prints.get(print),
            Goods::Cloth(cloth) => self.cloths.get(cloth),
            _ => None,
        };
        known.cloned().unwrap_or_else(|| goods.to_string())
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
    words.extend(made.stages.iter().map(told));
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

/// A stage in a few sentences; everything else is in the JSON.
fn told(report: &StageReport) -> String {
    match report {
        StageReport::Ring(plan) => format!(
            "Ring: {}, cut {} ({} when unpicked); {} of the set's length is used up (cut), {} when unpicked. Shows {} (finished).",
            counted(plan.slices_whole, "slice"),
            fraction(plan.slice_in, 8),
            plan.slices_unpicked,
            fraction(plan.set_used_whole_in, 8),
            fraction(plan.set_used_unpicked_in, 8),
            fraction(plan.shows_in, 8)
        ),
        StageReport::Border(plan) => {
            let strips: Vec<String> = plan
                .strips
                .iter()
                .map(|strip| {
                    let long = fraction(round_up(strip.cut_bar_in, 8), 8);
                    let wide = fraction(strip.cut_wide_in, 8);
                    format!("side {}: {long} by {wide}", strip.side + 1)
                })
                .collect();
            let joins = plan.cutting.as_ref().map_or(0, |cutting| cutting.joins);
            format!(
                "Border, cut and sewn in this order (cut length by cut width): {}. {}, {:.0} square inches of cloth.",
                strips.join("; "),
                counted(joins, "join"),
                plan.cut_sq_in
            )
        }
        StageReport::SquareUp(plan) => {
            let agree = |all: bool| if all { "agree" } else { "differ" };
            let trueness = if plan.trueness.diagonals_in.is_empty() {
                String::new()
            } else {
                let (diagonals, sides) = (plan.trueness.diagonals_agree, plan.trueness.sides_agree);
                format!(" Diagonals {}, opposite sides {}.", agree(diagonals), agree(sides))
            };
            format!(
                "Squaring up: {} {:.1} % off; {} thinner than {}.{trueness} Close the cutter's guard after every cut, and cut away from yourself.",
                if plan.cuts == 1 { "1 cut takes".to_owned() } else { format!("{} cuts take", plan.cuts) },
                plan.lost_percent,
                if plan.thin.len() == 1 {
                    "1 patch gets".to_owned()
                } else {
                    format!("{} patches get", plan.thin.len())
                },
                if plan.thin.len() == 1 { "it may" } else { "they may" },
            )
        }
        StageReport::Layers(plan) => layers(plan),
        StageReport::Quilting(plan) => {
            let mut words = format!(
                "Quilting: {:.0} inches of line, {:.0} stitches, {}; thread {:.0} yards above and {:.0} below, {}; about {:.0} minutes.",
                plan.length_in,
                plan.stitches,
                counted(plan.starts, "start"),
                plan.needle_in / 36.0,
                plan.bobbin_in / 36.0,
                counted(plan.bobbins, "bobbin"),
                plan.minutes
            );
            if let Some(gap) = plan.widest_gap {
                words += &format!(" Widest gap {}.", fraction(gap.inches, 16));
            }
            plan.cautions.iter().for_each(|caution| words += &format!(" {caution}"));
            words
        }
        StageReport::Binding(FinishPlan::Bound(plan)) => {
            let corners: Vec<String> = plan.corners.iter().map(Corner::sentence).collect();
            format!(
                "Binding: {} needed, {} at least.\n{}",
                fraction(round_up(plan.length_needed_in, 8), 8),
                counted(plan.strips_least, "strip"),
                corners.join("\n")
            )
        }
        StageReport::Binding(FinishPlan::Faced(plan)) => format!(
            "Facing: {}, cut {} wide, {:.0} square inches.",
            counted(plan.strips.len(), "strip"),
            fraction(plan.cut_width_in, 8),
            plan.area_cut_in2
        ),
        StageReport::Sleeve(plan) => plan.sentence(),
        StageReport::Figure(plan) => {
            let mut words = format!(
                "Figure: {} by {} (finished), {} and {}; about {:.0} minutes by hand.",
                fraction(plan.width_in, 8),
                fraction(plan.height_in, 8),
                if plan.patches.len() == 1 {
                    "1 patch".to_owned()
                } else {
                    format!("{} patches", plan.patches.len())
                },
                counted(plan.lines.len(), "stitched line"),
                plan.hand.minutes
            );
            plan.findings.iter().for_each(|finding| words += &format!("\n{finding}"));
            words
        }
    }
}

fn layers(plan: &LayersPlan) -> String {
    let back = match (plan.backing.take, plan.backing.pieced.first()) {
        (Take::Pieced, Some(pieced)) => format!("pieced: {}", pieced.cutting.join(" ")),
        (Take::Pieced, None) => "none".to_owned(),
        (Take::Whole(cloth), _) => {
            let holds = plan.backing.whole.holds.iter().find(|holds| holds.cloth == cloth);
            holds.map_or_else(|| "whole".to_owned(), |holds| format!("whole, from {}", holds.name))
        }
    };
    let [wide, high] = plan.sizes.washed_in;
    format!(
        "Layers: back {back}. After washing {} by {}.\n{}\n{}",
        fraction(wide, 8),
        fraction(high, 8),
        plan.basting.steps.join(" "),
        plan.basting.cautions.join(" ")
    )
}

fn counted(count: impl TryInto<u64>, what: &str) -> String {
    let count = count.try_into().unwrap_or_default();
    if count == 1 { format!("1 {what}") } else { format!("{count} {what}s") }
}
