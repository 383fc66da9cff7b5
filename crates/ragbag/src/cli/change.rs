//! The heap: what is known of a cloth, which print it is of, what leaves, which leftovers stay.

use super::args::{Arguments, ChangeArgs, YesNo};
use super::exit::Refusal;
use super::out::Out;
use super::read::{cloth, corners, length, number, room};
use super::stash::{flaws, holes, told, value};
use plane::{Region, Turn};
use quilt::cloth::{Look, Runs};
use quilt::length::fraction;
use serde_json::{Value, json};
use workroom::stash::Changes;
use workroom::{Workroom, WorkroomError};

pub(super) fn change(arguments: &Arguments, asked: &ChangeArgs, out: &Out) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let id = cloth(&mut room, asked.cloth)?;
    let item = room.stash()?.get(id).ok_or(WorkroomError::NoSuchCloth(id))?;
    let mut facts = item.came.facts.clone();
    let yes = |told: Option<YesNo>| told.map(|told| told == YesNo::Yes);
    if let Some(fibre) = &asked.fibre {
        facts.fibre.clone_from(fibre);
    }
    facts.washed = yes(asked.washed).or(facts.washed);
    facts.bleeds = yes(asked.bleeds).or(facts.bleeds);
    let flaws = flaws(&asked.flaw)?;
    let outline = outline(&item.came.outline, asked)?;
    let up = asked.up.map(|deg| number(deg, "the way up")).transpose()?;
    let look = up.map(|deg| Look { runs: Runs::OneWay(Turn::from_degrees(deg)), ..item.came.look.clone() });
    let changes = Changes {
        look,
        name: asked.name.clone(),
        place: asked.place.clone(),
        outline,
        about: yes(asked.about),
        flaws: (asked.sound || !flaws.is_empty()).then_some(flaws),
        facts: (facts != item.came.facts).then_some(facts),
        ..Changes::default()
    };
    room.change_cloth(id, changes)?;
    shown(&mut room, asked.cloth, out)
}

/// The outline as it is told: its edge, its holes, or both; what isn't told of stays.
fn outline(known: &Region, asked: &ChangeArgs) -> Result<Option<Region>, Refusal> {
    let edge = asked.outline.as_deref().map(|text| corners(text, "outline")).transpose()?;
    let told = (asked.no_hole || !asked.hole.is_empty()).then(|| holes(&asked.hole)).transpose()?;
    Ok((edge.is_some() || told.is_some()).then(|| Region {
        outer: edge.unwrap_or_else(|| known.outer.clone()),
        holes: told.unwrap_or_else(|| known.holes.clone()),
    }))
}

/// Says how a cloth is now.
fn shown(room: &mut Workroom, no: u32, out: &Out) -> Result<(), Refusal> {
    let item = room.stash()?.by_number(no).ok_or(WorkroomError::NoSuchNumber(no))?;
    let cloth = item.now.as_ref().unwrap_or(&item.came);
    out.say(&format!("No. {no}: {}", told(cloth)), &json!({ "cloths": [value(no, cloth)] }));
    Ok(())
}

pub(super) fn same_print(arguments: &Arguments, numbers: &[u32], out: &Out) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let ids = numbers.iter().map(|no| cloth(&mut room, *no)).collect::<Result<Vec<_>, _>>()?;
    room.same_print(&ids)?;
    let stash = room.stash()?;
    let items = ids.iter().filter_map(|id| stash.get(*id));
    let values: Vec<Value> =
        items.map(|item| value(item.no, item.now.as_ref().unwrap_or(&item.came))).collect();
    out.say(&format!("{} cloths are of one print.", values.len()), &json!({ "cloths": values }));
    Ok(())
}

pub(super) fn give_away(arguments: &Arguments, no: u32, out: &Out) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let supply = room.stash()?.supply(no).map(|supply| supply.id);
    let id = supply.map_or_else(|| cloth(&mut room, no), Ok)?;
    room.give_away(id)?;
    out.say(&format!("No. {no} is out of the heap."), &json!({ "gone": no }));
    Ok(())
}

pub(super) fn leftovers(
    arguments: &Arguments,
    width: Option<&str>,
    area: Option<f64>,
    out: &Out,
) -> Result<(), Refusal> {
    let mut room = room(arguments)?;
    let before = room.usable()?;
    let mut usable = before;
    if let Some(width) = width {
        usable.least_width_in = length(width, "width")?;
    }
    if let Some(area) = area {
        usable.least_area_in2 = number(area, "area")?;
    }
    if usable != before {
        room.set_usable(usable)?;
    }
    let words = format!(
        "Leftovers stay from {} wide and {} square inches on.",
        fraction(usable.least_width_in, 16),
        usable.least_area_in2
    );
    out.say(
        &words,
        &json!({ "least_width_in": usable.least_width_in, "least_area_in2": usable.least_area_in2 }),
    );
    Ok(())
}
