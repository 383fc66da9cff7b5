//! The program in a workroom of its own, as a maker runs it.

use serde_json::Value;
use std::process::{Command, Output};
use tempfile::TempDir;

/// A folder with room for a workroom and files beside it.
pub(crate) struct Room(pub(crate) TempDir);

impl Room {
    pub(crate) fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    /// A file of the folder.
    pub(crate) fn path(&self, name: &str) -> String {
        self.0.path().join(name).to_string_lossy().into_owned()
    }

    pub(crate) fn run(&self, args: &[&str]) -> Output {
        let room = self.path("room");
        // A fault of the program itself is kept from makers, never from tests.
        let mut program = Command::new(env!("CARGO_BIN_EXE_ragbag"));
        program.env("RUST_BACKTRACE", "1").arg("--workroom").arg(room).args(args).output().unwrap()
    }

    /// What it says when it refuses, in a maker's words.
    #[allow(dead_code, reason = "not every test file has refusals")]
    pub(crate) fn refusal(&self, args: &[&str], status: i32) -> String {
        let out = self.run(args);
        let said = String::from_utf8_lossy(&out.stderr).into_owned();
        assert_eq!(out.status.code(), Some(status), "{args:?}: {said}");
        assert!(!said.contains("panicked") && !said.contains("os error"), "{said}");
        said
    }

    /// What it answers as JSON; it must not refuse.
    pub(crate) fn json(&self, args: &[&str]) -> Value {
        let mut all = vec!["--json"];
        all.extend(args);
        let out = self.run(&all);
        assert!(out.status.success(), "{args:?}: {}", String::from_utf8_lossy(&out.stderr));
        serde_json::from_slice(&out.stdout).unwrap()
    }
}
