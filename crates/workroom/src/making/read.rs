//! Reading a plan file: TOML, checked key by key.

use super::file::{PlanFile, PlanStage};
use super::words::plainly;
use crate::asks::StageAsk;
use quilt::length::{Length, MeasureProblem};
use serde::de::DeserializeOwned;
use thiserror::Error;
use toml::{Table, Value};

/// What is wrong with a plan file.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum PlanProblem {
    /// A line that isn't written as such a file is.
    #[error("line {line} of the plan can't be read: `{text}`. {why}")]
    Unreadable {
        /// Which line, from 1.
        line: usize,
        /// What stands there.
        text: String,
        /// What would do.
        why: &'static str,
    },
    /// A section that says something that makes no sense.
    #[error("the plan's {section}: {why}")]
    Section {
        /// Which section.
        section: String,
        /// What is wrong.
        why: String,
    },
    /// A stage with no name or more than one.
    #[error("stage {no} of the plan names {names}: each [[stage]] has exactly one of {KINDS}")]
    OneEach {
        /// Which, from 1.
        no: usize,
        /// What it names.
        names: String,
    },
    /// A stage that says something that makes no sense.
    #[error("stage {no} of the plan, {name}: {why}")]
    Stage {
        /// Which, from 1.
        no: usize,
        /// Its name.
        name: String,
        /// What is wrong.
        why: String,
    },
    /// A length in words that can't be read.
    #[error("{place}, {key}: {why}")]
    Length {
        /// Which section, or which stage.
        place: String,
        /// The key.
        key: String,
        /// What is wrong with it.
        why: String,
    },
    /// A word that no stage of this name knows.
    #[error("stage {no} of the plan, {name}, doesn't know `{key}`: check how it is spelled")]
    Unknown {
        /// Which, from 1.
        no: usize,
        /// Its name.
        name: String,
        /// The key, with the keys and places that it lies in.
        key: String,
    },
}

/// The stages that there are.
const KINDS: &str = "ring, border, square_up, layers, figure, quilting, binding, sleeve";

/// How a line of such a file is written.
const WRITE: &str =
    "Write a name, = and a value: words in quotes, numbers bare, lists in [ ], tables in { }.";

/// Reads a plan file.
///
/// # Errors
/// What is wrong with it, and where.
pub fn read_plan(text: &str) -> Result<PlanFile, PlanProblem> {
    let file: Table = toml::from_str(text).map_err(|why| unreadable(text, &why))?;
    let mut plan = PlanFile::default();
    for (key, mut value) in file {
        check_finite(&key, &value)?;
        lengths(&key, &mut value)?;
        match key.as_str() {
            "quilt" => plan.quilt = Some(section(&key, value)?),
            "grow" => plan.grow = Some(section("[grow]", value)?),
            "centres" => plan.centres = Some(section("[centres]", value)?),
            "stage" => {
                let Value::Array(stages) = value else { return Err(not_stages()) };
                let stages = stages.into_iter().enumerate().map(|(i, one)| match one {
                    Value::Table(table) => stage(i + 1, &table),
                    _ => Err(not_stages()),
                });
                plan.stages = stages.collect::<Result<_, _>>()?;
            }
            _ => {
                let why = "it is not known; known are quilt, [grow], [centres] and [[stage]]".to_owned();
                return Err(PlanProblem::Section { section: format!("`{key}`"), why });
            }
        }
    }
    Ok(plan)
}

fn not_stages() -> PlanProblem {
    PlanProblem::Section { section: "stages".to_owned(), why: "each begins with [[stage]]".to_owned() }
}

fn unreadable(text: &str, why: &toml::de::Error) -> PlanProblem {
    let at = why.span().map_or(0, |span| span.start).min(text.len());
    let before = text.get(..at).unwrap_or_default();
    // An end of the line belongs to it.
    let line = before.matches('\n').count();
    let shown = text.lines().nth(line).or_else(|| text.lines().last()).unwrap_or_default();
    let is_twice = why.message().contains("duplicate");
    PlanProblem::Unreadable {
        line: (line + 1).min(text.lines().count().max(1)),
        text: shown.trim().chars().take(80).collect(),
        why: if is_twice { "It is said twice: leave one of them out." } else { WRITE },
    }
}

/// Numbers that are none.
fn check_finite(place: &str, value: &Value) -> Result<(), PlanProblem> {
    match value {
        Value::Float(number) if !number.is_finite() => Err(PlanProblem::Section {
            section: place.to_owned(),
            why: format!("{number} is no number to sew by"),
        }),
        Value::Array(list) => list.iter().try_for_each(|inner| check_finite(place, inner)),
        Value::Table(table) => {
            table.iter().try_for_each(|(key, inner)| check_finite(&format!("{place}.{key}"), inner))
        }
        _ => Ok(()),
    }
}

/// Lengths in words become inches, wherever a key says that it is one.
fn lengths(place: &str, value: &mut Value) -> Result<(), PlanProblem> {
    let wrong = |place: String, (key, why): (String, String)| PlanProblem::Length { place, key, why };
    match value {
        Value::Array(stages) if place == "stage" => stages.iter_mut().enumerate().try_for_each(|(i, one)| {
            let name = one.as_table().and_then(|table| table.keys().next()).cloned().unwrap_or_default();
            read_lengths(one).map_err(|why| wrong(format!("stage {} of the plan, {name}", i + 1), why))
        }),
        _ => read_lengths(value).map_err(|why| wrong(format!("the plan's [{place}]"), why)),
    }
}

/// The key that is wrong, and why.
type WrongKey = (String, String);

fn read_lengths(value: &mut Value) -> Result<(), WrongKey> {
    match value {
        Value::Array(items) => items.iter_mut().try_for_each(read_lengths),
        Value::Table(table) => table.iter_mut().try_for_each(|(key, value)| {
            if key.ends_with("_in") {
                to_inches(value).map_err(|why| (key.to_owned(), why.to_string()))
            } else {
                read_lengths(value)
            }
        }),
        _ => Ok(()),
    }
}

fn to_inches(value: &mut Value) -> Result<(), MeasureProblem> {
    match value {
        Value::String(text) => {
            *value = Value::Float(Length::parse_signed(text.trim())?.inches());
            Ok(())
        }
        Value::Array(items) => items.iter_mut().try_for_each(to_inches),
        _ => Ok(()),
    }
}

fn section<T: DeserializeOwned>(name: &str, value: Value) -> Result<T, PlanProblem> {
    let wrong = |why: String| PlanProblem::Section { section: name.to_owned(), why };
    let place = if let Value::Table(table) = &value { culprit(table, wrong_with::<T>) } else { None };
    value.try_into().map_err(|why: toml::de::Error| wrong(placed(place, why.message())))
}

/// What is wrong, with the key that it is wrong at, if it doesn't say that itself.
fn placed(key: Option<String>, why: &str) -> String {
    let told = plainly(why);
    match key {
        Some(key) if !told.contains(&format!("`{key}`")) && !told.ends_with("is missing") => {
            format!("{key}: {told}")
        }
        _ => told,
    }
}

/// What is wrong with a table, in the library's words.
fn wrong_with<T: DeserializeOwned>(table: &Table) -> Option<String> {
    let read: Result<T, toml::de::Error> = Value::Table(table.clone()).try_into();
    read.err().map(|why| why.message().to_owned())
}

/// The key without which a table would be wrong otherwise, or not at all. Of several, which must all be
/// there, it is the one whose value is complained of.
fn culprit(table: &Table, wrong: impl Fn(&Table) -> Option<String>) -> Option<String> {
    let whole = wrong(table)?;
    let matters = |key: &&String| {
        let mut without = table.clone();
        without.remove(*key);
        wrong(&without).is_none_or(|why| why != whole)
    };
    let keys: Vec<&String> = table.keys().filter(matters).collect();
    let is_named = |key: &&&String| {
        let value = table.get(**key).map(ToString::to_string).unwrap_or_default();
        whole.contains(value.trim_matches('"'))
    };
    let found = if let [only] = keys[..] { Some(only) } else { keys.iter().find(is_named).copied() };
    found.cloned()
}

fn stage(no: usize, table: &Table) -> Result<PlanStage, PlanProblem> {
    let names: Vec<String> = table.keys().cloned().collect();
    let [name] = &names[..] else {
        let names = if names.is_empty() { "nothing".to_owned() } else { names.join(" and ") };
        return Err(PlanProblem::OneEach { no, names });
    };
    let wrong = |why: String| PlanProblem::Stage { no, name: name.clone(), why };
    if !KINDS.split(", ").any(|kind| kind == name) {
        return Err(wrong(format!("there is no such stage; there are {KINDS}")));
    }
    let Some(Value::Table(said)) = table.get(name) else {
        return Err(wrong("what it says belongs in a table { … }".to_owned()));
    };
    if name == "figure" {
        let read: Result<_, toml::de::Error> = Value::Table(said.clone()).try_into();
        let place = || culprit(said, wrong_with::<super::file::FigurePlanned>);
        let figure = read.map_err(|why| wrong(placed(place(), why.message())))?;
        return Ok(PlanStage::Figure(Box::new(figure)));
    }
    let said = as_kept(said.clone()).map_err(wrong)?;
    let whole = |said: &Table| Value::Table(Table::from_iter([(name.clone(), Value::Table(said.clone()))]));
    let wrong_with = |said: &Table| {
        let read: Result<StageAsk, toml::de::Error> = whole(said).try_into();
        read.err().map(|why| why.message().to_owned())
    };
    let ask: StageAsk = whole(&said)
        .try_into()
        .map_err(|why: toml::de::Error| wrong(placed(culprit(&said, wrong_with), why.message())))?;
    // What was understood, written again, has every key that was given.
    let understood = Value::try_from(&ask).map_err(|why| wrong(plainly(&why.to_string())))?;
    match unknown(&whole(&said), &understood) {
        Some(key) => {
            let key = key.split_once('.').map_or(key.as_str(), |(_, inner)| inner).to_owned();
            Err(PlanProblem::Unknown { no, name: name.clone(), key })
        }
        None => Ok(PlanStage::Ask(Box::new(ask))),
    }
}

/// What a plan says as the log keeps it: sides from 0 instead of from 1, and one width as a list of one.
fn as_kept(mut said: Table) -> Result<Table, String> {
    if let Some(Value::Integer(side)) = said.get_mut("first_side") {
        if *side < 1 {
            return Err("first_side: sides are counted from 1".to_owned());
        }
        *side -= 1;
    }
    for key in ["sewn_in", "trimmed_in"] {
        if let Some(width) = said.get_mut(key)
            && matches!(width, Value::Float(_) | Value::Integer(_))
        {
            *width = Value::Array(vec![width.clone()]);
        }
    }
    Ok(said)
}

/// The first key given that wasn't understood, with its place in lists from 1.
fn unknown(given: &Value, understood: &Value) -> Option<String> {
    match (given, understood) {
        (Value::Table(given), Value::Table(understood)) => {
            given.iter().find_map(|(key, value)| match understood.get(key) {
                None => Some(key.clone()),
                Some(other) => unknown(value, other).map(|inner| format!("{key}.{inner}")),
            })
        }
        (Value::Array(given), Value::Array(understood)) => {
            given.iter().zip(understood).enumerate().find_map(|(i, (value, other))| {
                unknown(value, other).map(|inner| format!("{}.{inner}", i + 1))
            })
        }
        _ => None,
    }
}
