//! What is printed, as another program sees it: poppler's pdftoppm, which `cargo xtask test` installs.

#![allow(dead_code, reason = "each test file uses its own part of it")]

use std::process::Command;
use std::sync::atomic::{AtomicU32, Ordering};

/// Pixels an inch of what is looked at.
pub(crate) const DPI: f64 = 600.0;

/// Folders already used, so that pages looked at at once don't meet.
static FOLDERS: AtomicU32 = AtomicU32::new(0);

/// Grey pixels of a page, as pdftoppm draws it.
pub(crate) struct Seen {
    pub(crate) wide: usize,
    pub(crate) grey: Vec<u8>,
}

impl Seen {
    pub(crate) fn page(file: &[u8], page: u32) -> Self {
        let no = FOLDERS.fetch_add(1, Ordering::Relaxed);
        let folder = std::env::temp_dir().join(format!("ragbag-seen-{}-{no}", std::process::id()));
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(folder.join("guide.pdf"), file).unwrap();
        let only = page.to_string();
        let args = ["-gray", "-singlefile", "-r", "600", "-f", &only, "-l", &only, "guide.pdf", "page"];
        let ran = Command::new("pdftoppm").args(args).current_dir(&folder).status();
        let ran = ran.expect("pdftoppm is there: `cargo xtask test` installs poppler-utils");
        assert!(ran.success());
        let file = std::fs::read(folder.join("page.pgm")).unwrap();
        std::fs::remove_dir_all(&folder).unwrap();
        let mut head = file.splitn(4, u8::is_ascii_whitespace);
        assert_eq!(head.next(), Some(&b"P5"[..]));
        let number = |text: Option<&[u8]>| std::str::from_utf8(text.unwrap()).unwrap().parse().unwrap();
        let (wide, high): (usize, usize) = (number(head.next()), number(head.next()));
        let grey = file[file.len() - wide * high..].to_vec();
        Self { wide, grey }
    }

    /// The middles of the dark runs of a row, in inches from the left.
    pub(crate) fn dark_in_row(&self, row: usize) -> Vec<f64> {
        runs(self.grey[row * self.wide..(row + 1) * self.wide].iter().copied())
    }

    /// The same of a column, from the top.
    pub(crate) fn dark_in_column(&self, column: usize) -> Vec<f64> {
        runs(self.grey.chunks(self.wide).map(|row| row[column]))
    }
}

fn runs(pixels: impl Iterator<Item = u8>) -> Vec<f64> {
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (i, _) in pixels.enumerate().filter(|(_, grey)| *grey < 128) {
        match found.last_mut().filter(|(_, last)| *last + 1 == i) {
            Some(run) => run.1 = i,
            None => found.push((i, i)),
        }
    }
    found.into_iter().map(|(from, to)| (from + to + 1) as f64 / 2.0 / DPI).collect()
}
