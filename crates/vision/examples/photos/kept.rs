//! Figures of scenes that were judged before, so that a run that was stopped goes on where it was.
//!
//! They are lines of JSON in a folder beside the program, one file for each kind of run. The first line names
//! the program by a hash of its bytes: figures of another one are not gone on with.

use crate::judge::Judged;
use std::fs::{self, File, OpenOptions};
use std::hash::{DefaultHasher, Hasher};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// The file of a kind of run.
pub(crate) struct Kept {
    path: PathBuf,
    to: File,
    judged: Vec<Judged>,
}

impl Kept {
    /// Opens the file of a kind of run and reads what is in it, if it is this program's.
    pub(crate) fn open(kind: &str) -> io::Result<Self> {
        let own = std::env::current_exe()?;
        let folder = own.ancestors().nth(2).unwrap_or(Path::new(".")).join("photos");
        fs::create_dir_all(&folder)?;
        let path = folder.join(format!("{kind}.jsonl"));
        let mut hasher = DefaultHasher::new();
        hasher.write(&fs::read(&own)?);
        let mark = format!("program {:016x}", hasher.finish());
        let mut before = fs::read_to_string(&path).unwrap_or_default();
        if before.lines().next() != Some(mark.as_str()) {
            before = mark;
        }
        // A last line that was cut off must not be glued to the next.
        if !before.ends_with('\n') {
            before.push('\n');
            fs::write(&path, &before)?;
        }
        let judged = before.lines().filter_map(|line| serde_json::from_str(line).ok()).collect();
        Ok(Self { to: OpenOptions::new().append(true).open(&path)?, path, judged })
    }

    /// Where it lies, and how many scenes are in it.
    pub(crate) fn words(&self) -> String {
        format!("figures of {} scenes are kept in {}", self.judged.len(), self.path.display())
    }

    /// What was judged of a scene before.
    pub(crate) fn take(&mut self, seed: u64) -> Option<Judged> {
        let at = self.judged.iter().position(|judged| judged.seed == seed)?;
        Some(self.judged.swap_remove(at))
    }

    /// Keeps what was judged of a scene.
    pub(crate) fn keep(&mut self, judged: &Judged) -> io::Result<()> {
        let mut line = serde_json::to_string(judged)?;
        line.push('\n');
        self.to.write_all(line.as_bytes())
    }
}
