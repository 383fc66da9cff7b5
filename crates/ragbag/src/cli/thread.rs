//! The maker's own habits and shop, and which of her spools to take.

use super::args::{Arguments, SoldByArg};
use super::exit::Refusal;
use super::out::Out;
use super::read::{bench, length, number, room_or_new};
use quilt::length::fraction;
use quilt::stage::enough::SoldBy;
use quilt::stage::thread::Spool;
use serde_json::Value;
use workroom::asks::{SpoolFound, SpoolsFor, numbers_of_habits};

/// So many spools are told for each side.
const TOLD: usize = 3;

/// Lists the habits, or sets some.
pub(super) fn habits(arguments: &Arguments, changes: &[String], out: &Out) -> Result<(), Refusal> {
    let mut room = room_or_new(arguments)?;
    let habits = if changes.is_empty() {
        room.habits()?
    } else {
        let changes = changes.iter().map(|text| change(text)).collect::<Result<Vec<_>, _>>()?;
        room.set_habits(&changes)?
    };
    let numbers = numbers_of_habits(&habits);
    let words: Vec<String> = numbers
        .iter()
        .map(
            |(name, value)| {
                if value.is_null() { format!("{name} not set") } else { format!("{name} {value}") }
            },
        )
        .collect();
    out.say(&words.join("\n"), &Value::Object(numbers));
    Ok(())
}

fn change(text: &str) -> Result<(String, Option<f64>), Refusal> {
    let wrong = || Refusal::bad(format!("`{text}` is not a habit and a number"), "Write it as bobbin_yd=80.");
    let (name, value) = text.split_once('=').ok_or_else(wrong)?;
    let (name, value) = (name.trim().to_owned(), value.trim());
    if value.is_empty() {
        return Ok((name, None));
    }
    let number = value.replacen(',', ".", 1).parse::<f64>().ok().filter(|number| number.is_finite());
    Ok((name, Some(number.ok_or_else(wrong)?)))
}

/// Shows how the shop sells, or sets it.
pub(super) fn shop(
    arguments: &Arguments,
    cloth_by: Option<SoldByArg>,
    usable: Option<&str>,
    spool_m: Option<f64>,
    out: &Out,
) -> Result<(), Refusal> {
    let mut room = room_or_new(arguments)?;
    let before = room.shop()?;
    let mut shop = before.clone();
    if let Some(steps) = cloth_by {
        shop.cloth_by = match steps {
            SoldByArg::EighthYard => SoldBy::EighthYard,
            SoldByArg::QuarterYard => SoldBy::QuarterYard,
            SoldByArg::TenCm => SoldBy::TenCm,
        };
    }
    if let Some(usable) = usable {
        shop.usable_in = length(usable, "usable width")?;
    }
    if let Some(metres) = spool_m {
        shop.spool_m = number(metres, "metres on a spool")?;
    }
    if shop != before {
        room.set_shop(&shop)?;
    }
    let words = format!(
        "Cloth is sold in steps of {}, {} wide between the selvages; a spool holds {:.0} metres.",
        shop.cloth_by.words(shop.cloth_by.step_in()),
        fraction(shop.usable_in, 8),
        shop.spool_m
    );
    out.say(&words, &serde_json::to_value(&shop).unwrap_or(Value::Null));
    Ok(())
}

/// Ranks spools for the front and the back.
pub(super) fn threads(arguments: &Arguments, list: &[String], out: &Out) -> Result<(), Refusal> {
    let (mut room, head) = bench(arguments)?;
    let spool = |name: &String| {
        let hint = format!("Known are {}.", colour::all_words());
        let lab = colour::read_words(name)
            .ok_or_else(|| Refusal::bad(format!("`{name}` is no colour that is known here"), &hint))?;
        Ok(Spool { name: name.clone(), lab, left_yd: None })
    };
    let list = list.iter().map(spool).collect::<Result<Vec<_>, Refusal>>()?;
    let report = room.threads(&head.quilt, &head.name, &list)?;
    let mut words = side("front", &report.front);
    words += &report.back.as_ref().map_or_else(
        || "Back: its cloth isn't settled, or isn't in the heap.".to_owned(),
        |back| side("back", back),
    );
    out.say(words.trim_end(), &serde_json::to_value(&report).unwrap_or(Value::Null));
    Ok(())
}

fn side(name: &str, found: &SpoolsFor) -> String {
    let few = |spools: &[SpoolFound], how: &dyn Fn(&SpoolFound) -> f64| {
        let each = spools.iter().take(TOLD).map(|found| format!("{} ({:.0})", found.spool.name, how(found)));
        each.collect::<Vec<_>>().join(", ")
    };
    let nearest = few(&found.nearest, &|found| found.difference);
    let contrasting = few(&found.contrasting, &|found| found.nearest_shade);
    format!(
        "For the {name}, nearest: {nearest}. Standing out most: {contrasting}. In brackets the difference: under 5 is hard to see.\n"
    )
}
