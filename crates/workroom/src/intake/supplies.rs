//! Supplies in words: "200 pins", "a spool of grey thread, 500 yards", "two cans of basting spray".

use super::IntakeProblem;
use super::words::{counted, has_size, spoken};
use quilt::supply::{SupplyKind, USUAL_WEIGHT};

/// Most that words can name at once.
const MOST: usize = 100_000;

/// Most spools that words can name at once.
const MOST_SPOOLS: usize = 100;

/// Yards in a metre (international yard, exactly).
const YD_PER_M: f64 = 1.0 / 0.9144;

/// A supply on its way in.
#[derive(Clone, Debug, PartialEq)]
pub struct NewSupply {
    /// What it is called.
    pub name: String,
    /// What it is, and how much.
    pub what: SupplyKind,
}

/// Reads supplies from words; `None` when the words are about cloth. Pins are safety pins where
/// nothing else is said.
///
/// # Errors
/// Thread without a colour or a length; no count that makes sense.
pub fn read_supplies(text: &str) -> Result<Option<Vec<NewSupply>>, IntakeProblem> {
    if has_size(text) {
        return Ok(None);
    }
    let lower = text.to_lowercase();
    let mut words: Vec<&str> = lower
        .split(|c: char| c.is_whitespace() || c == ';')
        .map(|word| word.trim_matches([',', '.']))
        .filter(|word| !word.is_empty())
        .collect();
    let says = |words: &[&str], some: &[&str]| words.iter().any(|word| some.contains(word));
    if says(&words, &["spool", "spools", "cone", "cones", "reel", "reels", "thread"]) {
        let (count, rest) = counted(&lower);
        if count > MOST_SPOOLS {
            let what = "the number of spools";
            return Err(IntakeProblem::TooMuch { what, found: count, most: MOST_SPOOLS });
        }
        if count == 0 {
            return Err(IntakeProblem::NoCount { text: text.to_owned() });
        }
        return Ok(Some(vec![thread(text, rest)?; count]));
    }
    let at = words.iter().position(|word| count_of(word).is_some());
    let count = at.and_then(|at| count_of(words.remove(at))).unwrap_or(1);
    words.retain(|word| !matches!(*word, "a" | "an" | "of" | "box"));
    let plain = words.iter().all(|word| matches!(*word, "pin" | "pins" | "safety" | "curved" | "basting"));
    // A pin stripe and a spray of roses are cloth.
    let name = if says(&words, &["pins"]) || words.last() == Some(&"pin") {
        if plain { "safety pins".to_owned() } else { words.join(" ") }
    } else if words == ["spray"] || (says(&words, &["spray"]) && says(&words, &["can", "cans", "basting"])) {
        "cans of basting spray".to_owned()
    } else {
        return Ok(None);
    };
    match count {
        0 => Err(IntakeProblem::NoCount { text: text.to_owned() }),
        1..=MOST => Ok(Some(vec![NewSupply { name, what: SupplyKind::Counted { count: count as f64 } }])),
        _ => Err(IntakeProblem::TooMuch { what: "the number of things", found: count, most: MOST }),
    }
}

/// A count in figures or letters: `1,000`, `two`.
fn count_of(word: &str) -> Option<usize> {
    spoken(word).or_else(|| word.replace(',', "").parse().ok())
}

/// One spool: its colour, its length, perhaps its weight.
fn thread(text: &str, rest: &str) -> Result<NewSupply, IntakeProblem> {
    let wrong = |why: &'static str| IntakeProblem::Thread { text: text.to_owned(), why };
    let words: Vec<String> = rest
        .split(|c: char| c.is_whitespace() || c == ';')
        .flat_map(|word| parted(word.trim_end_matches([',', '.'])))
        .filter(|word| !word.is_empty())
        .collect();
    let (mut left_yd, mut weight, mut name) = (None, None, Vec::new());
    let mut at = 0;
    while let Some(word) = words.get(at) {
        let next = words.get(at + 1).map_or("", String::as_str);
        match (word.replace(',', "").parse::<f64>(), next) {
            (Ok(number), "yards" | "yard" | "yds" | "yd" | "y") => left_yd = Some(number),
            (Ok(number), "metres" | "metre" | "meters" | "meter" | "m") => left_yd = Some(number * YD_PER_M),
            (Ok(number), "weight" | "wt") => weight = Some(number.to_string()),
            _ => {
                if !NAMELESS.contains(&word.as_str()) {
                    name.push(word.clone());
                }
                at += 1;
                continue;
            }
        }
        at += 2;
    }
    let left_yd = left_yd.ok_or_else(|| wrong("it doesn't say how much is on it"))?;
    if !(left_yd > 0.0 && left_yd <= 100_000.0) {
        return Err(wrong("its length must be more than nothing and at most 100,000 yards"));
    }
    let name = name.join(" ");
    let lab = colour::read_words(&name).ok_or_else(|| wrong("it has no colour word that is known here"))?;
    let weight = weight.unwrap_or_else(|| USUAL_WEIGHT.to_owned());
    Ok(NewSupply { name, what: SupplyKind::Thread { lab, weight, left_yd } })
}

/// Words that are no part of a thread's name.
const NAMELESS: [&str; 13] =
    ["a", "an", "one", "of", "with", "thread", "spool", "spools", "cone", "cones", "reel", "reels", "left"];

/// `500yd` as two words.
fn parted(word: &str) -> Vec<String> {
    let digits = word.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ',')).unwrap_or(word.len());
    let (number, unit) = word.split_at(digits);
    if number.is_empty() || unit.is_empty() {
        vec![word.to_owned()]
    } else {
        vec![number.to_owned(), unit.to_owned()]
    }
}
