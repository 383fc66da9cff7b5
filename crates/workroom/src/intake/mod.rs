//! The ways into the stash: what the maker types or hands over becomes [`NewCloth`].
//!
//! Everything here is pure: text and bytes in, cloths or a problem out. A list of scraps is read
//! whole or not at all. Lengths may be written in any form that [`quilt::length`] reads.

mod figure;
mod list;
mod outline;
mod print_words;
mod problem;
mod supplies;
mod svg;
mod svg_path;
mod svg_shapes;
mod svg_size;
mod weight;
mod words;

pub use figure::read_figure;
pub use list::{COLUMNS, read_list};
pub(crate) use outline::MOST_CORNERS;
pub use outline::{read_corners, read_polygon, read_rectangle};
pub use problem::IntakeProblem;
pub use supplies::{NewSupply, read_supplies};
pub use svg::read_svg;
pub use weight::{GRAMS_PER_M2, from_weight};
pub use words::{read_scraps, read_words, width_taken};

use crate::stash::NewCloth;
use colour::Lab;
use quilt::cloth::{Look, Runs, Shade};
use quilt::length::Length;

/// The longest side of a cloth that is believed, in inches: a bolt of some 25 metres.
pub const MOST_IN: f64 = 1_000.0;

/// The shortest side of a cloth that is believed, in inches: the least that a ruler shows.
const LEAST_IN: f64 = 1.0 / 16.0;

/// A length, not nothing and not absurd; `what` and `at` say which for the message.
fn read_size(text: &str, what: &'static str) -> Result<f64, IntakeProblem> {
    let wrong = |why: String| IntakeProblem::Length { what, text: text.trim().to_owned(), why };
    // How to write it is the hint's to say.
    let unread = |why: String| wrong(why.split(". Write it").next().unwrap_or_default().to_owned());
    let inches = text.parse::<Length>().map_err(|e| unread(e.to_string()))?.inches();
    check_size(inches).map_err(wrong)?;
    Ok(inches)
}

fn check_size(inches: f64) -> Result<(), String> {
    if inches < plane::READING {
        Err("that is nothing: write more than 0".to_owned())
    } else if inches < LEAST_IN {
        Err("that is too narrow to be told on a ruler: write at least 1/16".to_owned())
    } else if inches > MOST_IN {
        Err(format!("that is more than {MOST_IN} inches: is the unit right?"))
    } else {
        Ok(())
    }
}

/// The look of a cloth described in words: its colours in the order of speech, and what kind of
/// print it is. A cloth without a colour word is calico.
#[must_use]
pub fn look_of(text: &str) -> Look {
    let mut labs: Vec<Lab> = Vec::new();
    for phrase in text.split([',', ';', '/', '+', '&']).flat_map(|part| part.split(" and ")) {
        if let Some(lab) = colour::read_words(phrase)
            && !labs.contains(&lab)
        {
            labs.push(lab);
        }
    }
    if labs.is_empty() {
        labs.extend(colour::read_words("calico"));
    }
    let print = print_words::find(text);
    let share = 1.0 / labs.len().max(1) as f64;
    Look {
        shades: labs.into_iter().map(|lab| Shade { lab, share }).collect(),
        busy: print.map_or(0.0, |print| print.busy),
        runs: print.map_or(Runs::AnyWay, |print| print.runs),
        repeat_in: None,
    }
}

/// Whether words say that a size is only about right.
fn says_about(text: &str) -> bool {
    text.contains('~')
        || text.split(|c: char| !c.is_alphabetic()).any(|word| {
            ["about", "roughly", "around", "nearly", "circa", "ca"]
                .iter()
                .any(|w| word.eq_ignore_ascii_case(w))
        })
}

/// A name short enough for a label.
fn short_name(text: &str, otherwise: &str) -> String {
    let name: String = text.split_whitespace().collect::<Vec<_>>().join(" ").chars().take(60).collect();
    let name = name.trim_matches(|c: char| c == ',' || c.is_whitespace()).to_owned();
    if name.is_empty() { otherwise.to_owned() } else { name }
}

/// A scrap with its outline and words for its look.
fn described(words: &str, outline: plane::Region) -> NewCloth {
    let mut cloth = NewCloth::scrap(&short_name(words, "scrap"), outline, look_of(words));
    cloth.about = says_about(words);
    cloth
}
