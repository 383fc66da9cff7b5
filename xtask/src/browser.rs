//! The page in a real browser: Debian's Chromium, driven by Playwright. Never a downloaded one.

use crate::page::passed;
use crate::tools::{Outcome, cargo, done, heard, of_page};
use crate::{place, program};
use std::path::PathBuf;

/// Runs the browser tests against the built page and program; returns how many passed.
pub(crate) fn test() -> Outcome<usize> {
    let built = program::build()?;
    let photos = photographs()?;
    let mut playwright = of_page("playwright", &["test"]);
    playwright.env("NO_COLOR", "1").env("RAGBAG", built).env("RAGBAG_PHOTOS", photos);
    if std::env::var_os("CHROMIUM").is_none() {
        playwright.env("CHROMIUM", chromium());
    }
    let said = heard(&mut playwright)?;
    passed(&said, "").ok_or_else(|| "Playwright passed without running a test".into())
}

/// Renders the photographs that the tests give to the page; the folder they lie in.
fn photographs() -> Outcome<PathBuf> {
    let folder = place::memory().join("photographs");
    let into = folder.to_string_lossy();
    for kind in ["small", "patch", "grown"] {
        let example = ["run", "--quiet", "--package", "demo", "--example", "photograph", "--"];
        done(&mut cargo(&[&example[..], &[&into, kind, "3"]].concat()))?;
    }
    Ok(folder)
}

fn chromium() -> String {
    let paths = std::env::var_os("PATH").unwrap_or_default();
    let found = std::env::split_paths(&paths).map(|dir| dir.join("chromium")).find(|path| path.is_file());
    found.map_or_else(|| "/usr/bin/chromium".to_owned(), |path| path.to_string_lossy().into_owned())
}
