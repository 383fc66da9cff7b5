//! `cargo xtask refs`: runs the scripts of `xtask/refs`, each of which writes a table of reference
//! values, found by another library, into a crate's `tests/data`. Tests read the tables; nobody
//! needs Python to run them.

use crate::place;
use crate::tools::{Outcome, command, done, is_there};
use std::fs;
use std::path::{Path, PathBuf};

/// Runs all scripts, or the one named so.
pub(crate) fn refs(only: Option<&str>) -> Outcome<()> {
    let folder = place::root().join("xtask/refs");
    let mut scripts: Vec<PathBuf> = fs::read_dir(&folder)?
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ending| ending == "py"))
        .filter(|path| only.is_none_or(|name| path.file_stem().is_some_and(|stem| stem == name)))
        .collect();
    scripts.sort();
    if scripts.is_empty() {
        let named = only.map_or_else(String::new, |name| format!(" named {name}"));
        return Err(format!("there is no script{named} in xtask/refs").into());
    }
    let python = python(&folder)?;
    for script in scripts {
        done(&mut command(&python, &[&script.to_string_lossy()]))?;
    }
    Ok(())
}

/// A Python of its own under `target`, with the packages the scripts want.
fn python(folder: &Path) -> Outcome<String> {
    if !is_there("python3") {
        return Err("`python3` is missing: install Python 3 with its venv module".into());
    }
    let home = place::memory().join("python");
    let python = home.join("bin/python").to_string_lossy().into_owned();
    if !is_there(&python) {
        done(&mut command("python3", &["-m", "venv", &home.to_string_lossy()]))?;
    }
    let wanted = folder.join("requirements.txt");
    let list = wanted.to_string_lossy();
    let packages = if wanted.is_file() { vec!["-r", &list] } else { vec!["shapely", "numpy"] };
    let mut args = vec!["-m", "pip", "install", "--quiet"];
    args.extend(packages);
    done(&mut command(&python, &args))?;
    Ok(python)
}
