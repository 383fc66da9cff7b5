//! The program itself: built in the one profile that serves running and testing.

use crate::place;
use crate::tools::{Outcome, cargo, done};
use std::path::PathBuf;

/// Builds the program, with the page inside it, and says where it is.
pub(crate) fn build() -> Outcome<PathBuf> {
    crate::page::build()?;
    done(&mut cargo(&["build", "--quiet", "--package", "ragbag"]))?;
    Ok(place::target().join("debug").join(format!("ragbag{}", std::env::consts::EXE_SUFFIX)))
}
