//! Files that a maker asks for: whole or not at all.

use super::exit::Refusal;
use std::path::Path;
use workroom::file_trouble;

/// What is said of a place that can't be written to.
pub(super) fn unwritable(file: &Path, why: &std::io::Error) -> Refusal {
    Refusal::bad(
        format!("{} can't be written: {}", file.display(), file_trouble(why)),
        "Name another place; nothing was written there.",
    )
}

/// Writes a file whole or not at all: beside it first, under a name of its own, then in its place.
pub(super) fn whole(file: &Path, bytes: &[u8]) -> Result<(), Refusal> {
    let name = file.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let beside = file.with_file_name(format!(".{name}.{}.part", std::process::id()));
    let done = std::fs::write(&beside, bytes).and_then(|()| std::fs::rename(&beside, file));
    done.map_err(|why| {
        let _ = std::fs::remove_file(&beside);
        unwritable(file, &why)
    })
}
