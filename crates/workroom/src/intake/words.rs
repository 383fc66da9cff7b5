//! A scrap in ten seconds: "red stripe, about 3 by 5".

use super::{IntakeProblem, described, read_size, says_about, short_name};
use crate::stash::NewCloth;
use plane::Region;
use quilt::cloth::Kind;
use quilt::length::Length;
use quilt::stage::layers::usual_packages;

/// Most characters that are read.
const MOST: usize = 1_000;

/// Reads a scrap from words: colours, the kind of print, and a size as `3 by 5`, `3 x 5`, or
/// `4 square`, each a length of any form. Batting may come by its length off the roll or by its
/// package's name, cloth by yards or metres off the bolt. A unit after the second length holds for both. With
/// "about", "roughly" or "~" the size is marked as about right.
///
/// # Errors
/// Words without a size, or with one that makes no sense.
pub fn read_words(text: &str) -> Result<NewCloth, IntakeProblem> {
    let found = text.chars().count();
    if found > MOST {
        return Err(IntakeProblem::TooMuch { what: "the number of letters", found, most: MOST });
    }
    // A quarter of a yard of 44 inches, cut in two across: 18 by 22 (common practice, no source).
    let plain = text.replace('×', " x ").replace("fat quarters", "fat quarter");
    let plain = plain.replace("fat quarter", "fat-quarter 18 by 22");
    let shape = |word: &str| SHAPES.contains(&word.to_lowercase().as_str());
    if let Some(word) = plain.split(|c: char| !c.is_alphabetic()).find(|word| shape(word)) {
        return Err(IntakeProblem::NotARectangle { word: word.to_owned() });
    }
    let size = find_size(&plain).or_else(|| off_the_roll(&plain)).or_else(|| package(&plain));
    let size = size.ok_or_else(|| IntakeProblem::NoSize { text: text.to_owned() })?;
    if size.more {
        let size = format!("{} by {}", size.width, size.height);
        return Err(IntakeProblem::ThirdSize { size, text: text.to_owned() });
    }
    let width_in = read_size(&size.width, "the width")?;
    let height_in = read_size(&size.height, "the height")?;
    let mut cloth = described(&size.rest, Region::rectangle(width_in, height_in));
    cloth.name = short_name(&without_about(&size.rest), "scrap");
    cloth.about = says_about(text) || size.about;
    if is_batting(&size.rest) {
        cloth.kind = Kind::Batting;
        let lower = size.rest.to_lowercase();
        let fibre =
            FIBRES.iter().find(|fibre| lower.split(|c: char| !c.is_alphabetic()).any(|w| w == **fibre));
        cloth.facts.fibre = fibre.map_or_else(String::new, |fibre| (*fibre).to_owned());
    }
    Ok(cloth)
}

/// Whether words have a size of two lengths.
pub(super) fn has_size(text: &str) -> bool {
    find_size(text).is_some()
}

/// Width of batting off the roll, where only a length is said: 90 inches (from memory; it comes wider too).
const BATTING_WIDE_IN: u32 = 90;

/// Width of cloth off the bolt that can be used, where only a length is said: 42 inches, of 42 to 44
/// (stcroixquilters.com: 40 to 42).
const CLOTH_WIDE_IN: u32 = 42;

/// In what cloth is sold off the bolt. Other lengths alone may be a side of a scrap.
const OFF_THE_BOLT: [&str; 8] = ["yard", "yards", "yd", "yds", "metre", "metres", "meter", "meters"];

/// The width in inches that is taken where words give only a length off the roll or the bolt.
#[must_use]
pub fn width_taken(text: &str) -> Option<u32> {
    let (_, rest) = counted(text);
    let is_said = find_size(rest).is_some() || rest.contains("fat quarter");
    let wide = if is_batting(rest) { BATTING_WIDE_IN } else { CLOTH_WIDE_IN };
    (!is_said).then(|| off_the_roll(rest)).flatten().map(|_| wide)
}

/// What batting is made of.
const FIBRES: [&str; 6] = ["cotton", "wool", "polyester", "bamboo", "silk", "linen"];

fn is_batting(text: &str) -> bool {
    text.split(|c: char| !c.is_alphabetic())
        .any(|word| ["batting", "wadding"].iter().any(|batting| word.eq_ignore_ascii_case(batting)))
}

fn words_of(text: &str) -> Vec<&str> {
    text.split([' ', '\t', '\n', ',', ';']).filter(|word| !word.is_empty()).collect()
}

/// Batting by its length off the roll, or cloth by yards or metres off the bolt: "2 yards of navy".
fn off_the_roll(text: &str) -> Option<Size> {
    let batting = is_batting(text);
    let words = words_of(text);
    for at in 0..words.len() {
        let (before, after) = (words.get(..at)?, words.get(at..)?);
        let Some((height, after)) = first_length(after) else { continue };
        let unit = height.trim_start_matches(|c: char| !c.is_ascii_alphabetic()).to_lowercase();
        if !batting && !OFF_THE_BOLT.contains(&unit.as_str()) {
            continue;
        }
        let after = after.strip_prefix(&["of"]).unwrap_or(after);
        let wide = if batting { BATTING_WIDE_IN } else { CLOTH_WIDE_IN };
        let (width, rest) = (format!("{wide} in"), join(before, after));
        return Some(Size { width, height, rest, more: false, about: true });
    }
    None
}

/// Batting by its package's name.
fn package(text: &str) -> Option<Size> {
    if !is_batting(text) {
        return None;
    }
    let words = words_of(text);
    let package = usual_packages()
        .into_iter()
        .find(|package| words.iter().any(|w| w.eq_ignore_ascii_case(&package.name)))?;
    let [width, height] = [package.width_in, package.length_in].map(|inches| format!("{inches} in"));
    Some(Size { width, height, rest: words.join(" "), more: false, about: false })
}

/// Most scraps that words can name at once.
const MOST_ALIKE: usize = 100;

/// Counts in words.
const COUNTS: [&str; 12] =
    ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];

/// Reads as many scraps as the words say, alike and of one print: "two navy dots, 4 by 4".
///
/// # Errors
/// As [`read_words`]; more than a hundred.
pub fn read_scraps(text: &str) -> Result<Vec<NewCloth>, IntakeProblem> {
    let (count, rest) = counted(text);
    if count > MOST_ALIKE {
        return Err(IntakeProblem::TooMuch { what: "the number of scraps", found: count, most: MOST_ALIKE });
    }
    if count == 0 {
        return Err(IntakeProblem::NoCount { text: text.to_owned() });
    }
    let mut one = read_words(rest)?;
    if count > 1 {
        one.print_name = Some(one.name.clone());
    }
    Ok(vec![one; count])
}

/// A count in front of a word that is no unit, and what follows it.
pub(super) fn counted(text: &str) -> (usize, &str) {
    let Some((first, rest)) = text.trim().split_once(char::is_whitespace) else { return (1, text) };
    let count = spoken(&first.to_lowercase()).or_else(|| first.parse().ok());
    let next = rest.split_whitespace().next().unwrap_or_default().to_lowercase();
    let is_word =
        next.starts_with(char::is_alphabetic) && !matches!(next.as_str(), "by" | "x" | "square" | "of");
    match count {
        Some(count) if is_word && format!("1 {next}").parse::<Length>().is_err() => (count, rest),
        _ => (1, text),
    }
}

/// A count in letters.
pub(super) fn spoken(word: &str) -> Option<usize> {
    COUNTS.iter().position(|count| *count == word).map(|at| at + 1)
}

/// Shapes that two lengths don't tell.
const SHAPES: [&str; 10] = [
    "triangle",
    "triangles",
    "hexagon",
    "hexagons",
    "octagon",
    "octagons",
    "trapezoid",
    "trapezoids",
    "kite",
    "kites",
];

struct Size {
    width: String,
    height: String,
    /// The words around it.
    rest: String,
    /// Whether one more length follows.
    more: bool,
    /// Whether one of the lengths is only what is usual.
    about: bool,
}

/// The first "by" that has a length on both sides, or a length before "square".
fn find_size(text: &str) -> Option<Size> {
    let words: Vec<&str> = words_of(text).into_iter().flat_map(split_x).collect();
    for (i, word) in words.iter().enumerate() {
        let (before, after) = (words.get(..i)?, words.get(i + 1..)?);
        match word.to_lowercase().as_str() {
            "by" | "x" => {
                let Some((rest, left)) = last_length(before) else { continue };
                let Some((right, more)) = first_length(after) else { continue };
                let width = with_unit_of(&left, &right);
                let third =
                    matches!(more.first(), Some(&("by" | "x" | "X"))) && first_length(&more[1..]).is_some();
                return Some(Size {
                    width,
                    height: right,
                    rest: join(rest, more),
                    more: third,
                    about: false,
                });
            }
            "square" => {
                let Some((rest, side)) = last_length(before) else { continue };
                return Some(Size {
                    width: side.clone(),
                    height: side,
                    rest: join(rest, after),
                    more: false,
                    about: false,
                });
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
