//! A scrap in ten seconds: "red stripe, about 3 by 5".

use super::{IntakeProblem, described, read_size, says_about, short_name};
use crate::stash::NewCloth;
use plane::Region;
use quilt::length::Length;

/// Most characters that are read.
const MOST: usize = 1_000;

/// Reads a scrap from words: colours, the kind of print, and a size as `3 by 5`, `3 x 5`, or
/// `4 square`, each a length of any form. A unit after the second length holds for both. With
/// "about", "roughly" or "~" the size is marked as about right.
///
/// # Errors
/// Words without a size, or with one that makes no sense.
pub fn read_words(text: &str) -> Result<NewCloth, IntakeProblem> {
    let found = text.chars().count();
    if found > MOST {
        return Err(IntakeProblem::TooMuch { what: "the number of letters", found, most: MOST });
    }
    let plain = text.replace('×', " x ");
    let size = find_size(&plain).ok_or_else(|| IntakeProblem::NoSize { text: text.to_owned() })?;
    let width_in = read_size(&size.width, "the width")?;
    let height_in = read_size(&size.height, "the height")?;
    let mut cloth = described(&size.rest, Region::rectangle(width_in, height_in));
    cloth.name = short_name(&without_about(&size.rest), "scrap");
    cloth.about = says_about(text);
    Ok(cloth)
}

struct Size {
    width: String,
    height: String,
    /// The words around it.
    rest: String,
}

/// The first "by" that has a length on both sides, or a length before "square".
fn find_size(text: &str) -> Option<Size> {
    let words: Vec<&str> = text.split([' ', '\t', '\n', ',', ';']).filter(|w| !w.is_empty()).collect();
    let words: Vec<&str> = words.iter().flat_map(|word| split_x(word)).collect();
    for (i, word) in words.iter().enumerate() {
        let (before, after) = (words.get(..i)?, words.get(i + 1..)?);
        match word.to_lowercase().as_str() {
            "by" | "x" => {
                let Some((rest, left)) = last_length(before) else { continue };
                let Some((right, more)) = first_length(after) else { continue };
                let width = with_unit_of(&left, &right);
                return Some(Size { width, height: right, rest: join(rest, more) });
            }
            "square" => {
                let Some((rest, side)) = last_length(before) else { continue };
                return Some(Size { width: side.clone(), height: side, rest: join(rest, after) });
            }
            _ => {}
        }
    }
    None
}

/// `3x5` as three words.
fn split_x(word: &str) -> Vec<&str> {
    match word.split_once(['x', 'X']) {
        Some((a, b)) if starts_as_number(a) && starts_as_number(b) => vec![a, "x", b],
        _ => vec![word],
    }
}

fn starts_as_number(text: &str) -> bool {
    text.starts_with(|c: char| c.is_numeric() || c == '.')
}

/// The longest run of up to three words at the end that is a length.
fn last_length<'a, 'b>(words: &'a [&'b str]) -> Option<(&'a [&'b str], String)> {
    (1..=3.min(words.len())).rev().find_map(|n| {
        let (rest, length) = words.split_at(words.len() - n);
        read(length).map(|text| (rest, text))
    })
}

/// The longest run of up to three words at the start that is a length.
fn first_length<'a, 'b>(words: &'a [&'b str]) -> Option<(String, &'a [&'b str])> {
    (1..=3.min(words.len())).rev().find_map(|n| {
        let (length, rest) = words.split_at(n);
        read(length).map(|text| (text, rest))
    })
}

fn read(words: &[&str]) -> Option<String> {
    let text = words.join(" ");
    let text = text.trim_start_matches('~').trim_end_matches('.').to_owned();
    // Something like "1/0" is meant as a length: it is told later what is wrong with it.
    let meant = starts_as_number(&text) && words.len() == 1;
    (text.parse::<Length>().is_ok() || (meant && text.contains('/'))).then_some(text)
}

/// `8` beside `10 cm` is 8 cm.
fn with_unit_of(left: &str, right: &str) -> String {
    let unit = right.trim_start_matches(|c: char| !c.is_alphabetic() && c != '"' && c != '″');
    let has_own = left.contains(|c: char| c.is_alphabetic() || c == '"' || c == '″');
    if has_own || unit.is_empty() { left.to_owned() } else { format!("{left} {unit}") }
}

fn join(before: &[&str], after: &[&str]) -> String {
    before.iter().chain(after).copied().collect::<Vec<_>>().join(" ")
}

fn without_about(text: &str) -> String {
    let kept = text.split_whitespace().filter(|word| !says_about(word));
    kept.collect::<Vec<_>>().join(" ")
}
