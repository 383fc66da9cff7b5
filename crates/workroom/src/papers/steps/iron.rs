//! The iron in words, and what is trimmed after it. Where several steps are pressed together nothing is said of it
//! before the last of them.

use super::act::{Act, Ironed};
use super::card::Card;
use quilt::log::Press;

/// Whether something is left to the card after which several are pressed.
pub(super) fn is_told_together(card: &Card, act: &Act) -> bool {
    let is_several = card.together.is_some_and(|[first, last]| first < last);
    is_several && matches!(act, Act::Pressed(_) | Act::TrimEnds { .. })
}

/// On a card that isn't the last of those pressed together.
pub(super) fn not_yet(card: &Card) -> String {
    format!("Don\u{2019}t press yet: sew step {} first.", card.no + 1)
}

/// On the last of several, in whole sentences.
pub(super) fn pressed_together(card: &Card) -> Vec<String> {
    let all = card.ironed.as_slice();
    let Some(first) = all.first() else { return Vec::new() };
    let mut said = vec![if all.iter().all(|one| one.way == first.way) {
        format!("Now press {}, each {}.", span(all), way(first.way))
    } else {
        let each: Vec<String> = all.iter().map(|one| format!("step {} {}", one.no, way(one.way))).collect();
        format!("Now press {}.", each.join(", "))
    }];
    let trimmed: Vec<Ironed> = all.iter().copied().filter(|one| one.both_ends.is_some()).collect();
    let in_line = "in line with the edge beside it";
    if let Some(first) = trimmed.first() {
        let alike = trimmed.iter().all(|one| one.both_ends == first.both_ends);
        said.push(if alike && trimmed.len() == all.len() {
            format!("Then trim what sticks out {} of each, {in_line}.", ends(first.both_ends))
        } else {
            let each: Vec<String> =
                trimmed.iter().map(|one| format!("{} of step {}", ends(one.both_ends), one.no)).collect();
            format!("Then trim what sticks out {}, {in_line}.", each.join(", "))
        });
    }
    said
}

/// The same in short.
pub(super) fn pressed_together_briefly(card: &Card) -> Option<String> {
    let all = card.ironed.as_slice();
    let first = all.first()?;
    let alike = |one: &Ironed| one.way == first.way && one.both_ends == first.both_ends;
    Some(if all.iter().all(alike) {
        format!("Now press {} {}{}.", span(all), way_briefly(first.way), ends_briefly(first.both_ends))
    } else {
        let each: Vec<String> = all
            .iter()
            .map(|one| format!("{} {}{}", one.no, way_briefly(one.way), ends_briefly(one.both_ends)))
            .collect();
        format!("Now press {}: {}.", span(all), each.join("; "))
    })
}

const fn way(way: Press) -> &'static str {
    match way {
        Press::Over => "towards what was sewn on",
        Press::Back => "away from what was sewn on",
        Press::Open => "open",
    }
}

pub(super) const fn way_briefly(way: Press) -> &'static str {
    match way {
        Press::Over => "over",
        Press::Back => "back, towards the piece",
        Press::Open => "open",
    }
}

const fn ends(both: Option<bool>) -> &'static str {
    if matches!(both, Some(true)) { "at both ends" } else { "at one end" }
}

pub(super) const fn ends_briefly(both: Option<bool>) -> &'static str {
    match both {
        Some(true) => ", trim ends",
        Some(false) => ", trim one end",
        None => "",
    }
}

/// `steps 3 and 4`, `steps 3 to 5`.
fn span(all: &[Ironed]) -> String {
    match all {
        [] => String::new(),
        [one] => format!("step {}", one.no),
        [first, last] => format!("steps {} and {}", first.no, last.no),
        [first, .., last] => format!("steps {} to {}", first.no, last.no),
    }
}
