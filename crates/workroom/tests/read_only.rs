//! A workroom in a folder that may be read but not written: what is refused is told, and every file
//! stays as it was. An administrator may write everywhere, so the test's own process is started
//! again as the user `nobody` where it runs as one.
#![cfg(unix)]

mod common;

use common::{note, plain};
use plane::Region;
use quilt::wish::Wish;
use std::collections::BTreeMap;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::Command;
use workroom::quilts::MAIN;
use workroom::{Workroom, WorkroomError};

/// Tells the started process which folder to try.
const FOLDER: &str = "RAGBAG_TEST_READ_ONLY";

/// What it says, a line each.
const REFUSED: &str = "refused: ";
const DONE: &str = "done: ";

fn say<T>(what: &str, tried: Result<T, WorkroomError>) -> Option<T> {
    match tried {
        Ok(value) => {
            println!("{DONE}{what}");
            Some(value)
        }
        Err(error) => {
            let kind = matches!(error, WorkroomError::ReadOnly { .. });
            println!("{REFUSED}{what}: {kind} {error} | {}", error.hint().unwrap_or_default());
            None
        }
    }
}

/// What a maker without the right to write may try.
fn try_everything(folder: &Path) {
    say("create", Workroom::create(&folder.join("another")));
    say("open or create", Workroom::open_or_create(&folder.join("another")));
    if let Some(mut room) = say("open", Workroom::open(&folder.join("room"))) {
        say("stash", room.stash().map(|stash| stash.present().len()));
        say("scrap", room.enter(vec![plain("scrap", Region::rectangle(3.0, 5.0))]));
        let head = room.head("kept", MAIN).unwrap();
        say("step", room.append(&head.at(), &[note(9, "words")]));
        say("picture", room.keep_picture(b"\x89PNG\r\n\x1a\nnot much of a picture", "png"));
    }
}

/// All files below a folder with their bytes.
fn files(folder: &Path) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut found = BTreeMap::new();
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path));
        } else {
            found.insert(path.clone(), std::fs::read(&path).unwrap());
        }
    }
    found
}

fn allow(path: &Path, folders: u32, plain_files: u32) {
    if path.is_dir() {
        std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o755)).unwrap();
        for file in std::fs::read_dir(path).unwrap() {
            allow(&file.unwrap().path(), folders, plain_files);
        }
    }
    let mode = if path.is_dir() { folders } else { plain_files };
    std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
}

/// Whether this process may write where nobody is allowed to.
fn is_administrator(folder: &Path) -> bool {
    let closed = folder.join("closed");
    std::fs::create_dir(&closed).unwrap();
    allow(&closed, 0o555, 0o444);
    std::fs::write(closed.join("words"), "words").is_ok()
}

#[test]
fn a_folder_that_may_only_be_read_is_told_and_left_as_it_was() {
    if let Some(folder) = std::env::var_os(FOLDER) {
        try_everything(Path::new(&folder));
        return;
    }
    let outer = tempfile::TempDir::new().unwrap();
    let folder = outer.path().join("shelf");
    let mut room = Workroom::create(&folder.join("room")).unwrap();
    let head = room.new_quilt("kept", &Wish::default()).unwrap();
    room.append(&head.at(), &[note(1, "sewn")]).unwrap();
    room.enter(vec![plain("scrap", Region::rectangle(3.0, 5.0))]).unwrap();
    drop(room);
    // The started program must be where anybody can start it.
    let program = outer.path().join("test");
    std::fs::copy(std::env::current_exe().unwrap(), &program).unwrap();
    let as_nobody = is_administrator(outer.path());
    allow(outer.path(), 0o755, 0o755);
    allow(&folder, 0o555, 0o444);
    let before = files(&folder);
    let mut command = if as_nobody {
        let mut command = Command::new("setpriv");
        command.args(["--reuid=65534", "--regid=65534", "--clear-groups"]).arg(&program);
        command
    } else {
        Command::new(&program)
    };
    let args = ["a_folder_that_may_only_be_read_is_told_and_left_as_it_was", "--exact", "--nocapture"];
    let out = command.args(args).env(FOLDER, &folder).output();
    allow(&folder, 0o755, 0o644);
    let out = match out {
        Ok(out) if as_nobody && String::from_utf8_lossy(&out.stderr).contains("setpriv:") => {
            println!("skipped: {}", String::from_utf8_lossy(&out.stderr));
            return;
        }
        Err(error) if as_nobody => {
            println!("skipped: this runs as an administrator, and there is no setpriv ({error})");
            return;
        }
        out => out.unwrap(),
    };
    let text = String::from_utf8_lossy(&out.stdout);
    assert!(out.status.success(), "{text}{}", String::from_utf8_lossy(&out.stderr));
    let refused: Vec<&str> = text.lines().filter_map(|line| line.split_once(REFUSED).map(|l| l.1)).collect();
    assert_eq!(refused.len(), 3, "{text}");
    for line in refused {
        assert!(line.contains("true the workroom can't be written: "), "{line}");
        assert!(line.ends_with("Give yourself the right to write there, or name another folder."), "{line}");
    }
    assert!(!text.contains(DONE), "nothing could be done: {text}");
    assert_eq!(files(&folder), before, "nothing may change: {text}");
}
