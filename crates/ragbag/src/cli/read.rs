//! Reading what was typed: lengths, corners, names, the workroom, the quilt.

use super::args::{Arguments, PressArg, TurnArg};
use super::exit::Refusal;
use plane::{Point, Turning};
use quilt::cloth::ClothId;
use quilt::length::Length;
use quilt::log::{Name, Press};
use std::path::PathBuf;
use workroom::intake::{self, IntakeProblem};
use workroom::quilts::{At, Head};
use workroom::{Workroom, WorkroomError};

/// The setting that remembers the quilt used last.
const LAST_QUILT: &str = "last quilt";

/// The folder of the workroom: as said, or the maker's own.
pub(super) fn folder(arguments: &Arguments) -> PathBuf {
    arguments.workroom.clone().unwrap_or_else(|| {
        let home = std::env::var_os("HOME").map_or_else(|| PathBuf::from("."), PathBuf::from);
        std::env::var_os("XDG_DATA_HOME")
            .map_or_else(|| home.join(".local/share"), PathBuf::from)
            .join("ragbag")
    })
}

/// The folder of the demo: as said, or one of its own beside the maker's.
pub(super) fn demo_folder(arguments: &Arguments) -> PathBuf {
    arguments.workroom.clone().unwrap_or_else(|| folder(arguments).with_file_name("ragbag-demo"))
}

/// The workroom, which must be there: a slip of the pen in its name makes none.
pub(super) fn room(arguments: &Arguments) -> Result<Workroom, Refusal> {
    Workroom::open(&folder(arguments)).map_err(|error| match error {
        WorkroomError::NoWorkroom { .. } => Refusal {
            hint: Some(
                "Check the folder's name; `ragbag add` and `ragbag quilt` make a new workroom.".to_owned(),
            ),
            ..Refusal::from(error)
        },
        error => Refusal::from(error),
    })
}

/// The workroom, made when there is none.
pub(super) fn room_or_new(arguments: &Arguments) -> Result<Workroom, Refusal> {
    Ok(Workroom::open_or_create(&folder(arguments))?)
}

/// The quilt that is meant: as said, the one used last, or the only one.
fn quilt(arguments: &Arguments, room: &Workroom) -> Result<Option<String>, Refusal> {
    let quilts = room.quilts()?;
    let last: Option<String> = room.setting(LAST_QUILT)?;
    let known = |name: &String| quilts.iter().any(|quilt| quilt.name == *name);
    let only = || if let [only] = &quilts[..] { Some(only.name.clone()) } else { None };
    Ok(arguments.quilt.clone().or_else(|| last.filter(known)).or_else(only))
}

/// What a seam takes of each side: as wished for the quilt that is meant, else the usual.
pub(super) fn own_seam(arguments: &Arguments, room: &Workroom) -> Result<f64, Refusal> {
    let wish = quilt(arguments, room)?.map(|name| room.wish(&name)).transpose()?;
    Ok(wish.unwrap_or_default().allowance_in)
}

/// The workroom and the head that is meant.
pub(super) fn bench(arguments: &Arguments) -> Result<(Workroom, Head), Refusal> {
    let mut room = room(arguments)?;
    let Some(name) = quilt(arguments, &room)? else {
        return Err(if room.quilts()?.is_empty() {
            Refusal::bad("there is no quilt in this workroom yet", "Begin one: ragbag quilt \"NAME\"")
        } else {
            Refusal::bad("there are several quilts", "Say which: --quilt NAME")
        });
    };
    let head = room.head(&name, &arguments.head)?;
    use_quilt(&mut room, &name)?;
    Ok((room, head))
}

/// As [`bench`], with the quilt named behind the command, if it is.
pub(super) fn bench_of(arguments: &Arguments, named: Option<&str>) -> Result<(Workroom, Head), Refusal> {
    let Some(name) = named else { return bench(arguments) };
    let mut room = room(arguments)?;
    let head = room.head(name, &arguments.head)?;
    use_quilt(&mut room, name)?;
    Ok((room, head))
}

/// Remembers the quilt used last.
pub(super) fn use_quilt(room: &mut Workroom, name: &str) -> Result<(), Refusal> {
    if room.setting::<String>(LAST_QUILT)?.as_deref() != Some(name) {
        room.set(LAST_QUILT, &name)?;
    }
    Ok(())
}

/// What a writer names.
pub(super) fn at(head: &Head) -> At {
    head.at()
}

/// The cloth of a number.
pub(super) fn cloth(room: &mut Workroom, no: u32) -> Result<ClothId, Refusal> {
    let found = room.stash()?.by_number(no).map(|item| item.came.id);
    Ok(found.ok_or(WorkroomError::NoSuchNumber(no))?)
}

/// Cloths by their numbers, with commas.
pub(super) fn cloths(room: &mut Workroom, text: &str) -> Result<Vec<ClothId>, Refusal> {
    let numbers = text.split(',').map(str::trim).filter(|number| !number.is_empty() && *number != "none");
    numbers
        .map(|number| {
            let no = number.trim_start_matches('#').parse();
            let no = no.map_err(|_| {
                Refusal::bad(format!("`{number}` is not a cloth's number"), "The heap lists them.")
            })?;
            cloth(room, no)
        })
        .collect()
}

/// A length in any form.
pub(super) fn length(text: &str, what: &str) -> Result<f64, Refusal> {
    let read = text.trim().parse::<Length>();
    read.map(Length::inches).map_err(|why| Refusal::bad(format!("{what}: {why}"), ""))
}

/// A length that may be negative.
pub(super) fn signed(text: &str, what: &str) -> Result<f64, Refusal> {
    let read = Length::parse_signed(text.trim());
    read.map(Length::inches).map_err(|why| Refusal::bad(format!("{what}: {why}"), ""))
}

/// Two lengths with a separator.
pub(super) fn pair(text: &str, separator: char, what: &str) -> Result<[f64; 2], Refusal> {
    let (a, b) = text.split_once(separator).ok_or_else(|| {
        Refusal::bad(
            format!("{what}: `{text}` is not two lengths"),
            &format!("Write it as 3{separator}2-1/2."),
        )
    })?;
    Ok([length(a, what)?, length(b, what)?])
}

/// A number that is one.
pub(super) fn number(value: f64, what: &str) -> Result<f64, Refusal> {
    if value.is_finite() { Ok(value) } else { Err(Refusal::bad(format!("{what} must be a number"), "")) }
}

/// An outline from its corners: sound, counter-clockwise.
pub(super) fn corners(text: &str, what: &str) -> Result<Vec<Point>, Refusal> {
    intake::read_corners(text).map_err(|problem| {
        let hint = problem.hint().unwrap_or_default();
        let why = match problem {
            IntakeProblem::Outline { problem, .. } => problem.to_string(),
            other => other.to_string(),
        };
        Refusal::bad(format!("{what}: {why}"), &hint)
    })
}

/// A side's or seam's name.
pub(super) fn name(text: &str) -> Result<Name, Refusal> {
    text.parse().map_err(|why: String| Refusal::bad(why, "Sides are named on the drawing: ragbag sides"))
}

pub(super) const fn press(press: PressArg) -> Press {
    match press {
        PressArg::Over => Press::Over,
        PressArg::Back => Press::Back,
        PressArg::Open => Press::Open,
    }
}

pub(super) const fn turning(turn: TurnArg) -> Turning {
    match turn {
        TurnArg::Any => Turning::Any,
        TurnArg::Half => Turning::HalfTurns,
        TurnArg::None => Turning::None,
    }
}
