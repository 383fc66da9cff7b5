//! Quilts, wishes, logs.

use super::args::{Arguments, SpiralArg, WishArgs};
use super::exit::Refusal;
use super::out::Out;
use super::read::{bench, cloths, corners, length, number, pair, room, room_or_new, use_quilt};
use colour::{Lab, Srgb};
use plane::Region;
use quilt::length::fraction;
use quilt::own_seam::OwnSeam;
use quilt::wish::{MEASURES, Motif, Spiral, Towards, Unit, Weights, Wish, even_drift, set_outline};
use serde_json::json;
use workroom::Workroom;
use workroom::asks::story;
use workroom::quilts::Moment;

pub(super) fn new(arguments: &Arguments, name: &str, out: &Out) -> Result<(), Refusal> {
    let mut room = room_or_new(arguments)?;
    let head = room.new_quilt(name, &Wish::default())?;
    use_quilt(&mut room, name)?;
    out.say(&format!("{name} is begun: an empty table."), &json!({ "quilt": head.quilt, "head": head.name }));
    Ok(())
}

pub(super) fn list(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let room = room(arguments)?;
    let (mut words, mut values) = (String::new(), Vec::new());
    for quilt in room.quilts()? {
        words += &format!("{}\n", quilt.name);
        let mut heads = Vec::new();
        for head in quilt.heads {
            let log = room.log(&quilt.name, &head.name)?;
            let steps = log.steps.len();
            words += &format!("  {}: {steps} steps, {} sewn\n", head.name, log.sewn);
            let tip = head.tip.map(|tip| tip.to_string());
            heads.push(json!({ "name": head.name, "tip": tip, "steps": steps, "sewn": log.sewn, "version": head.version }));
        }
        values.push(json!({ "name": quilt.name, "heads": heads }));
    }
    if values.is_empty() {
        words = "There is no quilt yet.".to_owned();
    }
    out.say(&words, &json!({ "quilts": values }));
    Ok(())
}

pub(super) fn rename(arguments: &Arguments, name: &str, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    room.rename_quilt(&head.quilt, name)?;
    use_quilt(&mut room, name)?;
    out.say(&format!("{} is called {name} now.", head.quilt), &json!({ "quilt": name }));
    Ok(())
}

pub(super) fn drop(arguments: &Arguments, what_if: &str, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let head = room.head(&head.quilt, what_if)?;
    room.drop_what_if(&head.at())?;
    out.say(
        &format!("{what_if} is gone; undo brings it back."),
        &json!({ "quilt": head.quilt, "dropped": what_if }),
    );
    Ok(())
}

pub(super) fn log(arguments: &Arguments, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let known = room.every_cloth()?;
    let log = room.log(&head.quilt, &head.name)?;
    let (mut words, mut values) = (String::new(), Vec::new());
    let story = story(log.steps.iter().map(|step| &step.entry), &known);
    let times = room.times(&log)?;
    for (i, ((step, told), times)) in log.steps.iter().zip(story).zip(times).enumerate() {
        let state = if i < log.sewn { "sewn " } else { "chalk" };
        words += &format!("{:>4}  {state}  {told}\n", step.entry.mark.0);
        let at = |moment: Option<Moment>| moment.map(|moment| moment.local);
        values.push(json!({
            "mark": step.entry.mark.0, "step": step.id.to_string(), "sewn": i < log.sewn, "sentence": told,
            "planned_at": at(times.planned), "sewn_at": at(times.sewn),
        }));
    }
    if values.is_empty() {
        words = "Nothing has been done yet.".to_owned();
    }
    out.say(&words, &json!({ "quilt": head.quilt, "head": head.name, "entries": values }));
    Ok(())
}

pub(super) fn wish(arguments: &Arguments, asked: &WishArgs, out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let before = room.wish(&head.quilt)?;
    let mut wish = before.clone();
    outline(&mut wish, asked)?;
    colours(&mut room, &mut wish, asked)?;
    sizes(&mut wish, asked)?;
    choices(&mut room, &mut wish, asked)?;
    if wish != before {
        room.change_wish(&head.quilt, &wish)?;
    }
    let value = serde_json::to_value(&wish).map_err(|why| Refusal::bad(why.to_string(), ""))?;
    let words = wish_told(&mut room, &wish)?;
    out.say(&words, &value);
    Ok(())
}

/// A wish in words: a line for what is chosen, and one for each number.
fn wish_told(room: &mut Workroom, wish: &Wish) -> Result<String, Refusal> {
    let towards = match &wish.towards {
        Towards::Round { sides } => format!("round, with {sides} sides"),
        Towards::Rectangle { width_in, height_in } => {
            format!("a rectangle, {} by {} finished", fraction(*width_in, 8), fraction(*height_in, 8))
        }
        Towards::Polygon(corners) => format!("a polygon of {} corners", corners.len()),
        Towards::Free => "no outline in mind".to_owned(),
    };
    let spiral = match wish.spiral {
        Spiral::None => "none",
        Spiral::Clockwise => "clockwise",
        Spiral::Anticlockwise => "anticlockwise",
    };
    let drift: Vec<&str> = wish.drift.iter().map(|stop| colour::nearest_word(stop.lab)).collect();
    let drift = if drift.is_empty() { "none".to_owned() } else { format!("about {}", drift.join(", ")) };
    let stash = room.stash()?;
    let numbers = |ids: &[quilt::cloth::ClothId]| {
        let known: Vec<String> =
            ids.iter().filter_map(|id| stash.get(*id)).map(|item| format!("No. {}", item.no)).collect();
        if known.is_empty() { "none".to_owned() } else { known.join(", ") }
    };
    let mut lines = vec![
        format!("Towards: {towards}"),
        format!("Spiral: {spiral}"),
        format!("Drift from the centre outward: {drift}"),
        format!("Spared: {}", numbers(&wish.spare)),
        format!("To use up: {}", numbers(&wish.use_up)),
    ];
    for measure in &MEASURES {
        let value = measure.of(wish);
        let told = match measure.unit {
            Unit::Inches => fraction(value, 16),
            Unit::Percent => format!("{value:.0} %"),
            Unit::Degrees => format!("{value:.0}°"),
            Unit::Difference => format!("{value:.0} steps of colour difference (2 can just be seen)"),
            Unit::Weight => format!("{value} (1 is usual)"),
        };
        lines.push(format!("{}: {told}", measure.label));
    }
    Ok(lines.join("\n"))
}

fn outline(wish: &mut Wish, asked: &WishArgs) -> Result<(), Refusal> {
    if let Some(across) = &asked.across {
        wish.across_in = length(across, "across")?;
    }
    if let Some(sides) = asked.sides {
        set_outline(wish, Towards::Round { sides })?;
    }
    if let Some(rectangle) = &asked.rectangle {
        let [width_in, height_in] = pair(rectangle, 'x', "rectangle")?;
        set_outline(wish, Towards::Rectangle { width_in, height_in })?;
    }
    if let Some(polygon) = &asked.polygon {
        set_outline(wish, Towards::Polygon(corners(polygon, "polygon")?))?;
    }
    if asked.free {
        wish.towards = Towards::Free;
    }
    if let Some(spiral) = asked.spiral {
        wish.spiral = match spiral {
            SpiralArg::None => Spiral::None,
            SpiralArg::Clockwise => Spiral::Clockwise,
            SpiralArg::Anticlockwise => Spiral::Anticlockwise,
        };
    }
    Ok(())
}

fn colours(room: &mut Workroom, wish: &mut Wish, asked: &WishArgs) -> Result<(), Refusal> {
    if let Some(drift) = &asked.drift {
        let labs =
            drift.split(',').map(str::trim).filter(|word| !word.is_empty() && *word != "none").map(colour_of);
        wish.drift = even_drift(&labs.collect::<Result<Vec<Lab>, _>>()?);
    }
    if let Some(drift) = &asked.drift_cloths {
        let ids = cloths(room, drift)?;
        let stash = room.stash()?;
        let labs: Vec<Lab> =
            ids.iter().filter_map(|id| stash.get(*id)).map(|item| item.came.look.mean()).collect();
        wish.drift = even_drift(&labs);
    }
    if let Some(sparks) = asked.sparks {
        wish.sparks = number(sparks, "sparks")?;
    }
    if let Some(contrast) = &asked.contrast {
        let parts: Vec<f64> = contrast.split(',').filter_map(|part| part.trim().parse().ok()).collect();
        let [least, most] = parts[..] else {
            return Err(Refusal::bad(
                format!("contrast: `{contrast}` is not two numbers"),
                "Write it as 8,60.",
            ));
        };
        wish.contrast = [number(least, "contrast")?, number(most, "contrast")?];
    }
    Ok(())
}

fn colour_of(word: &str) -> Result<Lab, Refusal> {
    let hex = word.strip_prefix('#').and_then(|_| word.parse::<Srgb>().ok()).map(Srgb::to_lab);
    hex.or_else(|| colour::read_words(word)).ok_or_else(|| {
        let hint = format!("Use #rrggbb, or a plain word: {}.", colour::all_words());
        Refusal::bad(format!("`{word}` is not a colour known here"), &hint)
    })
}

fn sizes(wish: &mut Wish, asked: &WishArgs) -> Result<(), Refusal> {
    let set = |to: &mut f64, text: &Option<String>, what: &str| -> Result<(), Refusal> {
        if let Some(text) = text {
            *to = length(text, what)?;
        }
        Ok(())
    };
    set(&mut wish.rest_in, &asked.rest, "rest")?;
    set(&mut wish.allowance_in, &asked.seam, "seam")?;
    set(&mut wish.rough_in, &asked.rough, "rough")?;
    set(&mut wish.limits.thin_in, &asked.thin, "thin")?;
    if let Some(sharp) = asked.sharp {
        wish.limits.sharp_deg = number(sharp, "sharp")?;
    }
    if let Some(pieces) = &asked.pieces {
        wish.piece_in = pair(pieces, ',', "pieces")?;
    }
    if let Some(own) = &asked.own_seam {
        let parts: Vec<&str> = own.split(',').map(str::trim).collect();
        let [strips, cut, across] = parts[..] else {
            return Err(Refusal::bad(
                format!("own seam: `{own}` is not three values"),
                "Write it as \"3, 1 1/2, 3 7/16\".",
            ));
        };
        let strips = strips
            .parse()
            .map_err(|_| Refusal::bad(format!("own seam: `{strips}` is not a number of strips"), ""))?;
        let seam = OwnSeam::calibrated(strips, length(cut, "cut width")?, length(across, "width across")?);
        wish.allowance_in = seam.map_err(|why| Refusal::bad(why.to_string(), ""))?.eats_in();
    }
    Ok(())
}

fn choices(room: &mut Workroom, wish: &mut Wish, asked: &WishArgs) -> Result<(), Refusal> {
    if let Some(spare) = &asked.spare {
        wish.spare = cloths(room, spare)?;
    }
    if let Some(use_up) = &asked.use_up {
        wish.use_up = cloths(room, use_up)?;
    }
    if let Some(motif) = &asked.motif {
        let wrong = || {
            Refusal::bad(
                format!("motif: `{motif}` is not a cloth and corners"),
                "Write it as \"12:1,1 3,1 2,3\".",
            )
        };
        let (no, part) = motif.split_once(':').ok_or_else(wrong)?;
        let cloth = *cloths(room, no)?.first().ok_or_else(wrong)?;
        wish.motif =
            Some(Motif { cloth, part: Region { outer: corners(part, "motif")?, holes: Vec::new() } });
    }
    for weight in &asked.weight {
        set_weight(&mut wish.weights, weight)?;
    }
    Ok(())
}

fn set_weight(weights: &mut Weights, text: &str) -> Result<(), Refusal> {
    let wrong = || {
        Refusal::bad(
            format!("weight: `{text}` is not a term and a number"),
            "The terms are round, chunky, step, balance, drift, contrast, rest, thrift, leftover: write round=2.",
        )
    };
    let (term, value) = text.split_once('=').ok_or_else(wrong)?;
    let value: f64 = value.trim().parse().map_err(|_| wrong())?;
    let place = match term.trim() {
        "round" => &mut weights.round,
        "chunky" => &mut weights.chunky,
        "step" => &mut weights.step,
        "balance" => &mut weights.balance,
        "drift" => &mut weights.drift,
        "contrast" => &mut weights.contrast,
        "rest" => &mut weights.rest,
        "thrift" => &mut weights.thrift,
        "leftover" => &mut weights.leftover,
        _ => return Err(wrong()),
    };
    *place = number(value, "weight")?;
    Ok(())
}
