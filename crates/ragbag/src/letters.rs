//! The types that come with the program.

use papers::press::{Book, Letters, bind};
use papers::{CardCells, Fonts, Paper, PaperProblem};
use std::path::Path;
use std::sync::LazyLock;

/// Best first. None of them when the program was built without the page.
static TYPES: &[&[u8]] = include!(concat!(env!("OUT_DIR"), "/types.rs"));

/// Where machines keep theirs.
const FOLDERS: [&str; 3] = ["/usr/share/fonts", "/Library/Fonts", "C:\\Windows\\Fonts"];

/// The program's own types, or else the machine's; none at all where it has none. They are read once.
pub(crate) fn fonts() -> Fonts {
    static READ: LazyLock<Fonts> = LazyLock::new(found);
    READ.clone()
}

fn found() -> Fonts {
    if TYPES.is_empty() {
        let found = FOLDERS.iter().find_map(|folder| Fonts::in_folder(Path::new(folder)).ok());
        return found.unwrap_or_else(Fonts::none);
    }
    Fonts::from_bytes(TYPES.iter().map(|file| file.to_vec()))
}

/// Measuring cards as PDF.
pub(crate) fn cards(patterns: &[CardCells], side_in: f64, paper: Paper) -> Result<Vec<u8>, PaperProblem> {
    let letters = Letters::new(&fonts());
    let sheets = papers::cards(patterns, side_in, paper, &letters)?;
    bind(&Book { title: "Measuring cards".to_owned(), sheets, ..Book::default() }, &letters, &|_| None)
}
