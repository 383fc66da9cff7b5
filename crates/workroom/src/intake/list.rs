//! A list of scraps as CSV: the first line names the columns, each further line is one scrap (or
//! several of one size, with `count`). It is read whole or not at all.

use super::{IntakeProblem, look_of, read_size, says_about, short_name};
use crate::stash::NewCloth;
use plane::{Region, Turn};
use quilt::cloth::Kind;
use quilt::length::Angle;

/// The columns: those that must be there, and those that may.
pub const COLUMNS: [(&str, bool, &str); 13] = [
    ("name", true, "what you call it"),
    ("width", true, "across the threads, a length of any form"),
    ("height", true, "along the threads"),
    ("kind", false, "scrap, length, strip set, binding, backing or batting"),
    ("colour", false, "in words, like dusty green; the name is read when it is left out"),
    ("print", false, "scraps with the same word here are of one print"),
    ("count", false, "how many of that size"),
    ("grain", false, "degrees of the lengthwise threads, anticlockwise from across; 90 when left out"),
    ("place", false, "where it is kept"),
    ("fibre", false, "cotton, linen and so on"),
    ("about", false, "yes when the size is only about right"),
    ("washed", false, "yes or no"),
    ("bleeds", false, "yes or no"),
];

/// Most bytes of a list.
const MOST_BYTES: usize = 4 << 20;
/// Most scraps of a list.
const MOST_SCRAPS: usize = 10_000;

/// Reads a list of scraps.
///
/// # Errors
/// The first thing that is wrong, with its line and column.
pub fn read_list(bytes: &[u8]) -> Result<Vec<NewCloth>, IntakeProblem> {
    if bytes.len() > MOST_BYTES {
        let what = "the size of the list in bytes";
        return Err(IntakeProblem::TooMuch { what, found: bytes.len(), most: MOST_BYTES });
    }
    let text = std::str::from_utf8(bytes).map_err(|e| IntakeProblem::NotText { at: e.valid_up_to() })?;
    let text = text.trim_start_matches('\u{feff}');
    let mut reader =
        csv::ReaderBuilder::new().flexible(true).trim(csv::Trim::All).from_reader(text.as_bytes());
    let header = reader.headers().map_err(|e| unreadable(&e))?.clone();
    let columns = read_header(&header)?;
    let mut scraps = Vec::new();
    for record in reader.records() {
        let record = record.map_err(|e| unreadable(&e))?;
        let line = record.position().map_or(0, csv::Position::line);
        let row = Row { columns: &columns, record: &record, line };
        if record.len() != columns.len() {
            let why = format!("it has {} columns; the first line has {}", record.len(), columns.len());
            return Err(row.wrong("all", why));
        }
        let (scrap, count) = row.read()?;
        if scraps.len() + count > MOST_SCRAPS {
            let found = scraps.len() + count;
            return Err(IntakeProblem::TooMuch { what: "the number of scraps", found, most: MOST_SCRAPS });
        }
        scraps.extend(std::iter::repeat_n(scrap, count));
    }
    if scraps.is_empty() { Err(IntakeProblem::Nothing) } else { Ok(scraps) }
}

fn unreadable(error: &csv::Error) -> IntakeProblem {
    let line = error.position().map_or(1, csv::Position::line);
    IntakeProblem::Line { line, column: "all".to_owned(), why: error.to_string() }
}

/// The columns by name, in order.
fn read_header(header: &csv::StringRecord) -> Result<Vec<&'static str>, IntakeProblem> {
    let mut columns = Vec::new();
    for (i, found) in header.iter().enumerate() {
        let lower = found.to_lowercase();
        let spelled = if lower == "color" { "colour" } else { lower.as_str() };
        let wrong = |why| IntakeProblem::Columns { column: i + 1, why };
        let (known, ..) = COLUMNS
            .iter()
            .find(|(known, ..)| *known == spelled)
            .ok_or_else(|| wrong(format!("`{found}` is not a column that is known")))?;
        if columns.contains(known) {
            return Err(wrong(format!("`{found}` is there twice")));
        }
        columns.push(known);
    }
    match COLUMNS.iter().find(|(name, must, _)| *must && !columns.contains(name)) {
        Some((name, ..)) => {
            let why = format!("there is no column `{name}`");
            Err(IntakeProblem::Columns { column: columns.len() + 1, why })
        }
        None => Ok(columns),
    }
}

struct Row<'a> {
    columns: &'a [&'static str],
    record: &'a csv::StringRecord,
    line: u64,
}

impl Row<'_> {
    fn get(&self, column: &str) -> &str {
        let at = self.columns.iter().position(|c| *c == column);
        at.and_then(|i| self.record.get(i)).unwrap_or("")
    }

    fn wrong(&self, column: &str, why: String) -> IntakeProblem {
        IntakeProblem::Line { line: self.line, column: column.to_owned(), why }
    }

    fn read(&self) -> Result<(NewCloth, usize), IntakeProblem> {
        let size = |column: &'static str| {
            read_size(self.get(column), column).map_err(|e| self.wrong(column, e.to_string()))
        };
        let outline = Region::rectangle(size("width")?, size("height")?);
        let name = self.get("name");
        let colour = self.get("colour");
        let words = format!("{colour} {name}");
        let mut look = look_of(&words);
        if !colour.is_empty() {
            if colour::read_words(colour).is_none() {
                return Err(self.wrong(
                    "colour",
                    format!(
                        "`{colour}` has no colour word in it that is known. Known are {}",
                        colour::all_words()
                    ),
                ));
            }
            look.shades = look_of(colour).shades;
        }
        let mut cloth = NewCloth::scrap(&short_name(name, "scrap"), outline, look);
        cloth.kind = self.kind()?;
        let count = self.count()?;
        cloth.print_name = match self.get("print") {
            // Several of one size in one row are of one print, whatever it is called.
            "" => (count > 1).then(|| format!("row {}", self.line)),
            print => Some(format!("print {print}")),
        };
        self.get("place").clone_into(&mut cloth.place);
        self.get("fibre").clone_into(&mut cloth.facts.fibre);
        cloth.about = self.yes("about")?.unwrap_or_else(|| says_about(name));
        (cloth.facts.washed, cloth.facts.bleeds) = (self.yes("washed")?, self.yes("bleeds")?);
        cloth.grain = self.grain()?;
        Ok((cloth, count))
    }

    fn kind(&self) -> Result<Kind, IntakeProblem> {
        match self.get("kind").to_lowercase().as_str() {
            "" | "scrap" => Ok(Kind::Scrap),
            "length" => Ok(Kind::Length),
            "strip set" => Ok(Kind::StripSet),
            "binding" => Ok(Kind::Binding),
            "backing" => Ok(Kind::Backing),
            "batting" => Ok(Kind::Batting),
            other => Err(self.wrong("kind", format!("`{other}` is not a kind of cloth; it is scrap, length, strip set, binding, backing or batting"))),
        }
    }

    /// Yes or no; `None` when nothing is said.
    fn yes(&self, column: &str) -> Result<Option<bool>, IntakeProblem> {
        match self.get(column).to_lowercase().as_str() {
            "" => Ok(None),
            "yes" | "y" | "true" | "1" | "about" => Ok(Some(true)),
            "no" | "n" | "false" | "0" => Ok(Some(false)),
            other => Err(self.wrong(column, format!("`{other}` is neither yes nor no"))),
        }
    }

    fn grain(&self) -> Result<Turn, IntakeProblem> {
        match self.get("grain") {
            "" => Ok(Turn::QUARTER),
            text => text.parse::<Angle>().map(Angle::turn).map_err(|e| self.wrong("grain", e.to_string())),
        }
    }

    fn count(&self) -> Result<usize, IntakeProblem> {
        match self.get("count") {
            "" => Ok(1),
            text => match text.parse() {
                Ok(count @ 1..=1_000) => Ok(count),
                _ => Err(self.wrong("count", format!("`{text}` is not a whole number from 1 to 1,000"))),
            },
        }
    }
}
