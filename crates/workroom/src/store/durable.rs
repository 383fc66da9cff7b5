//! Files that are wholly there or not at all: written beside their place, synced, renamed, and
//! the folder synced.

use crate::error::{Result, WorkroomError};
use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};

/// The ending of a file that is still being written.
const PARTIAL: &str = "partial";

/// Writes `bytes` to `path` so that after a crash the file is whole or as it was before.
pub(crate) fn write(path: &Path, bytes: &[u8]) -> Result<()> {
    let mut partial = PathBuf::from(path);
    partial.as_mut_os_string().push(format!(".{}.{PARTIAL}", std::process::id()));
    let trouble = |e| WorkroomError::file(path, e);
    let written = File::create(&partial).and_then(|mut file| {
        file.write_all(bytes)?;
        file.sync_all()
    });
    if let Err(e) = written.and_then(|()| fs::rename(&partial, path)) {
        // What is left behind is swept at the next opening; there is nothing more to say of it.
        let _ = fs::remove_file(&partial);
        return Err(trouble(e));
    }
    path.parent().map_or(Ok(()), sync_folder)
}

/// Makes renames in a folder durable.
pub(crate) fn sync_folder(folder: &Path) -> Result<()> {
    // Only some systems can open a folder to sync it.
    #[cfg(unix)]
    {
        let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
        File::open(folder).and_then(|f| f.sync_all()).map_err(|e| WorkroomError::file(folder, e))?;
    }
    Ok(())
}

/// Removes what a killed program left half written. Only called while no other program writes.
pub(crate) fn sweep(folder: &Path) -> Result<()> {
    let trouble = |e| WorkroomError::file(folder, e);
    for file in fs::read_dir(folder).map_err(trouble)? {
        let path = file.map_err(trouble)?.path();
        if path.extension().is_some_and(|e| e == PARTIAL) {
            fs::remove_file(&path).map_err(|e| WorkroomError::file(&path, e))?;
        }
    }
    Ok(())
}
