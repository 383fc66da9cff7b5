//! The heap: entering, listing, cutting, fitting, strip sets.

use super::args::{Arguments, Spots, Strips, TurnArg, Way};
use super::exit::Refusal;
use super::out::Out;
use super::read::{bench, cloth, corners, length, number, own_seam, room, room_or_new, turning};
use plane::{Fit, Point, Region, polygon};
use quilt::cloth::ClothId;
use quilt::length::{fraction, many};
use quilt::supply::{Supply, SupplyKind};
use serde_json::{Value, json};
use std::path::Path;
use workroom::asks::Fitting;
use workroom::intake;
use workroom::stash::{Across, CutAsk, NewCloth};
use workroom::{Workroom, WorkroomError};

/// Most bytes of a file that is read in.
const MOST_BYTES: u64 = 16 << 20;

pub(super) fn add(arguments: &Arguments, way: &Way, spots: &Spots, out: &Out) -> Result<(), Refusal> {
    if let Way::Words { words } = way
        && let Some(supplies) = intake::read_supplies(words).map_err(|problem| unread(&problem))?
    {
        return supply(arguments, supplies, out);
    }
    let read = match way {
        Way::Words { words } => intake::read_scraps(words),
        Way::Rectangle { name, width, height } => {
            intake::read_rectangle(name, width, height).map(|one| vec![one])
        }
        Way::Polygon { name, corners } => intake::read_polygon(name, corners).map(|one| vec![one]),
        Way::Svg { file } => intake::read_svg(&bytes(file)?),
        Way::List { file } => intake::read_list(&bytes(file)?),
        Way::Weight { name, grams, grams_per_m2 } => {
            intake::from_weight(name, grams_of(grams)?, number(*grams_per_m2, "weight of the cloth")?)
                .map(|one| vec![one])
        }
    };
    let mut cloths = read.map_err(|problem| unread(&problem))?;
    mark(&mut cloths, spots)?;
    let mut room = room_or_new(arguments)?;
    let entered = room.enter(cloths)?;
    let stash = room.stash()?;
    let (mut words, mut values) = (String::new(), Vec::new());
    for (no, id) in entered {
        if let Some(now) = stash.get(id).and_then(|item| item.now.as_ref()) {
            words += &format!("No. {no}: {}\n", told(now));
            values.push(value(no, now));
        }
    }
    words += &doubts(way);
    out.say(&words, &json!({ "entered": values }));
    Ok(())
}

fn unread(problem: &intake::IntakeProblem) -> Refusal {
    let hint = problem.hint().unwrap_or_default();
    Refusal::bad(problem.to_string(), &hint)
}

/// Enters what isn't cloth.
fn supply(arguments: &Arguments, supplies: Vec<intake::NewSupply>, out: &Out) -> Result<(), Refusal> {
    let mut room = room_or_new(arguments)?;
    let entered = room.supply(supplies)?;
    let stash = room.stash()?;
    let known = entered.into_iter().filter_map(|no| Some((no, stash.supply(no)?)));
    let (words, values): (Vec<String>, Vec<Value>) =
        known.map(|(no, supply)| (format!("No. {no}: {}", supply.words()), supply_value(no, supply))).unzip();
    out.say(&words.join("\n"), &json!({ "entered": [], "supplies": values }));
    Ok(())
}

fn supply_value(no: u32, supply: &Supply) -> Value {
    let mut value = json!({ "no": no, "id": supply.id.to_string(), "name": supply.name });
    match &supply.what {
        SupplyKind::Thread { lab, weight, left_yd } => {
            value["colour"] = json!(lab.to_srgb().to_string());
            value["weight"] = json!(weight);
            value["left_yd"] = json!(left_yd);
        }
        SupplyKind::Counted { count } => {
            value["count"] = json!(count);
        }
    }
    value
}

/// What was taken for granted.
fn doubts(way: &Way) -> String {
    let named = match way {
        Way::Words { words } => words,
        Way::Rectangle { name, .. } | Way::Polygon { name, .. } | Way::Weight { name, .. } => name,
        Way::Svg { .. } | Way::List { .. } => return String::new(),
    };
    let mut doubts = String::new();
    if let Way::Words { words } = way {
        let is_batting = ["batting", "wadding"].iter().any(|batting| words.to_lowercase().contains(batting));
        if let Some(wide) = intake::width_taken(words) {
            let what = if is_batting { "Batting off the roll" } else { "Cloth off the bolt" };
            doubts += &format!("{what} is taken for {wide} inches wide where no width is said.\n");
        }
        if is_batting {
            return doubts;
        }
    }
    if colour::read_words(named).is_none() {
        doubts += &format!(
            "There is no colour word in it: it is taken for calico. Known are {}.\n",
            colour::all_words()
        );
    }
    if let Way::Weight { .. } = way {
        doubts += "It is taken for one whole piece, and growing cuts from it as from yardage. If it is a bag of bits, enter the bits and give this away.\n";
    }
    doubts
}

/// A weight: grams, or ounces. 1 oz is 28.349523125 g (international avoirdupois, exactly).
fn grams_of(text: &str) -> Result<f64, Refusal> {
    let lower = text.trim().to_lowercase();
    let (value, grams) = match lower.strip_suffix("oz") {
        Some(value) => (value, 28.349_523_125),
        None => (lower.strip_suffix('g').unwrap_or(&lower), 1.0),
    };
    let value = value.trim().replacen(',', ".", 1).parse::<f64>();
    let wrong =
        || Refusal::bad(format!("`{text}` is not a weight"), "Write grams or ounces, as in 120 or 4oz.");
    number(value.map_err(|_| wrong())? * grams, "grams")
}

/// Flaws and holes of the one scrap that is entered.
fn mark(cloths: &mut [NewCloth], spots: &Spots) -> Result<(), Refusal> {
    if spots.flaw.is_empty() && spots.hole.is_empty() {
        return Ok(());
    }
    let [one] = cloths else {
        let why = format!("{} scraps are entered; flaws and holes belong to one", cloths.len());
        return Err(Refusal::bad(
            why,
            "Enter them first, then tell of each: ragbag change NUMBER --flaw CORNERS",
        ));
    };
    one.flaws.extend(flaws(&spots.flaw)?);
    one.outline.holes.extend(holes(&spots.hole)?);
    Ok(())
}

/// Stains and thin places from their corners.
pub(super) fn flaws(texts: &[String]) -> Result<Vec<Region>, Refusal> {
    texts.iter().map(|text| Ok(Region { outer: corners(text, "flaw")?, holes: Vec::new() })).collect()
}

/// Holes from their corners.
pub(super) fn holes(texts: &[String]) -> Result<Vec<Vec<Point>>, Refusal> {
    texts.iter().map(|text| corners(text, "hole")).collect()
}

fn bytes(file: &Path) -> Result<Vec<u8>, Refusal> {
    let trouble = |why: std::io::Error| {
        Refusal::bad(
            format!("{}: {}", file.display(), workroom::file_trouble(&why)),
            "Check the name of the file.",
        )
    };
    let size = std::fs::metadata(file).map_err(trouble)?.len();
    if size > MOST_BYTES {
        let why = format!("{} has {size} bytes; at most {MOST_BYTES} are read", file.display());
        return Err(Refusal::bad(why, "Split it into smaller files."));
    }
    std::fs::read(file).map_err(trouble)
}

pub(super) fn told(cloth: &quilt::cloth::Cloth) -> String {
    let (low, high) = polygon::bounds(&cloth.outline.outer).unwrap_or_default();
    let about = if cloth.about { "about " } else { "" };
    let place = if cloth.place.is_empty() { String::new() } else { format!(", in {}", cloth.place) };
    let size = format!("{} by {}", fraction(high.x - low.x, 8), fraction(high.y - low.y, 8));
    let (area, box_) = (cloth.outline.area(), (high.x - low.x) * (high.y - low.y));
    let mut more = String::new();
    if area < 0.98 * box_ {
        more += &format!(", {area:.0} square inches of it");
    }
    let count = |n: usize, what: &str| {
        if n == 0 { String::new() } else { format!(", {}", many(n, what, &format!("{what}s"))) }
    };
    more += &count(cloth.outline.holes.len(), "hole");
    more += &count(cloth.flaws.len(), "flaw");
    format!("{}, {about}{size}{more}{place}", cloth.name)
}

pub(super) fn value(no: u32, cloth: &quilt::cloth::Cloth) -> Value {
    let (low, high) = polygon::bounds(&cloth.outline.outer).unwrap_or_default();
    json!({
        "no": no,
        "id": cloth.id.to_string(),
        "name": cloth.name,
        "kind": cloth.kind,
        "about": cloth.about,
        "place": cloth.place,
        "fibre": cloth.facts.fibre,
        "washed": cloth.facts.washed,
        "bleeds": cloth.facts.bleeds,
        "flaws": cloth.flaws.len(),
        "holes": cloth.outline.holes.len(),
        "width_in": high.x - low.x,
        "height_in": high.y - low.y,
        "area_in2": cloth.outline.area(),
        "colour": cloth.look.mean().to_srgb().to_string(),
        "print": cloth.print.map(|print| format!("{print:x}")),
        "parent": cloth.parent.map(|parent| parent.to_string()),
    })
}

pub(super) fn list(arguments: &Arguments, search: Option<&str>, out: &Out) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let search = search.unwrap_or_default().to_lowercase();
    let planned = match bench(arguments) {
        Ok((mut room, head)) => room.claimed_areas(&head.quilt, &head.name)?,
        Err(_) => std::collections::BTreeMap::new(),
    };
    let (mut words, mut values) = (String::new(), Vec::new());
    for (no, cloth) in room.stash()?.present() {
        let known =
            cloth.name.to_lowercase().contains(&search) || cloth.place.to_lowercase().contains(&search);
        if known {
            let share = planned.get(&cloth.id).copied().unwrap_or(0.0) / cloth.outline.area().max(1e-9);
            let share = if share > 0.005 {
                format!(", {:.0} % planned", 100.0 * share.min(1.0))
            } else {
                String::new()
            };
            words += &format!("{no:>4}  {}{share}\n", told(cloth));
            values.push(value(no, cloth));
        }
    }
    let mut supplies = Vec::new();
    for (no, supply) in room.stash()?.supplies() {
        if supply.words().to_lowercase().contains(&search) {
            words += &format!("{no:>4}  {}\n", supply.words());
            supplies.push(supply_value(no, supply));
        }
    }
    if values.is_empty() && supplies.is_empty() {
        words = "There is nothing like that in the heap.".to_owned();
    }
    out.say(&words, &json!({ "cloths": values, "supplies": supplies }));
    Ok(())
}

pub(super) fn cut(
    arguments: &Arguments,
    no: u32,
    piece: &str,
    [keep, anyway]: [bool; 2],
    out: &Out,
) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let (cloth, piece) = (cloth(&mut room, no)?, corners(piece, "piece")?);
    let report = room.cut(&CutAsk { cloth, piece, keep, anyway })?;
    let number = |room: &mut Workroom, id| -> Result<Option<u32>, WorkroomError> {
        Ok(room.stash()?.get(id).map(|item| item.no))
    };
    let kept = report.kept.map(|id| number(&mut room, id)).transpose()?.flatten();
    let mut rest = Vec::new();
    for id in report.rest {
        rest.extend(number(&mut room, id)?);
    }
    let left: Vec<String> = rest.iter().map(|no| format!("No. {no}")).collect();
    let left = if left.is_empty() { "nothing usable".to_owned() } else { left.join(", ") };
    let words = format!("Cut. Left: {left}; waste: {:.2} square inches.", report.waste_in2);
    out.say(&words, &json!({ "kept": kept, "rest": rest, "waste_in2": report.waste_in2, "beyond_in2": report.beyond_in2 }));
    Ok(())
}

pub(super) fn fit(
    arguments: &Arguments,
    no: u32,
    piece: &str,
    turn: Option<TurnArg>,
    rough: &str,
    out: &Out,
) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let (id, piece) = (cloth(&mut room, no)?, corners(piece, "piece")?);
    let ask = Fitting { piece: &piece, turning: turn.map(turning), rough_in: length(rough, "rough")? };
    let (fit, ruler) = room.fit(id, &ask)?;
    let words = ruler.as_ref().map_or_else(
        || super::sums::undecided_or(fit, format!("It does not fit No. {no}.")),
        |ruler| format!("It fits No. {no}.\n{}", ruler.words.join("\n")),
    );
    let pose =
        fit.pose().map(|pose| json!({ "turn_deg": pose.turn.to_degrees(), "x": pose.by.x, "y": pose.by.y }));
    out.say(
        &words,
        &json!({ "fits": pose.is_some(), "decided": fit != Fit::Unknown, "pose": pose, "ruler": ruler }),
    );
    Ok(())
}

pub(super) fn strips(arguments: &Arguments, what: &Strips, out: &Out) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let ids = match what {
        Strips::Sew { strips, length: long } => {
            let long = length(long, "length")?;
            let strips = strips.iter().map(|text| strip(&mut room, text)).collect::<Result<Vec<_>, _>>()?;
            let seam_in = own_seam(arguments, &room)?;
            vec![room.sew_strips(&strips, long, seam_in)?]
        }
        Strips::Slice { set, width, lean, count } => {
            let set = cloth(&mut room, *set)?;
            let width_in = length(width, "width")?;
            let across = Across { width_in, lean_deg: number(*lean, "lean")?, from_in: 0.0, count: *count };
            room.slice(set, &across)?
        }
        Strips::Unpick { cloth: no } => {
            let cloth = cloth(&mut room, *no)?;
            let seam_in = own_seam(arguments, &room)?;
            room.unpick_cloth(cloth, seam_in)?
        }
    };
    let stash = room.stash()?;
    let found: Vec<(u32, &quilt::cloth::Cloth)> = ids
        .iter()
        .filter_map(|id| stash.get(*id))
        .map(|item| (item.no, item.now.as_ref().unwrap_or(&item.came)))
        .collect();
    let words: Vec<String> = found.iter().map(|(no, cloth)| format!("No. {no}: {}", told(cloth))).collect();
    let values: Vec<Value> = found.iter().map(|(no, cloth)| value(*no, cloth)).collect();
    out.say(&words.join("\n"), &json!({ "cloths": values }));
    Ok(())
}

/// A strip: its cloth and its cut width.
fn strip(room: &mut Workroom, text: &str) -> Result<(ClothId, f64), Refusal> {
    let wrong = || Refusal::bad(format!("`{text}` is not a cloth and a width"), "Write it as 3:1-1/2.");
    let (no, width) = text.split_once(':').ok_or_else(wrong)?;
    let id = cloth(room, no.trim().parse().map_err(|_| wrong())?)?;
    Ok((id, length(width, "width of a strip")?))
}
