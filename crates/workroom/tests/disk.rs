//! A disk that is really full, and a file that may not grow: what was acknowledged stays, what fails
//! is said, and when there is room again work goes on. The writer is this test's own process,
//! started again on a small disk in memory, or under a limit on the size of files.
#![cfg(unix)]

mod common;

use common::{note, plain};
use plane::Region;
use quilt::wish::Wish;
use std::fmt::Write as _;
use std::path::Path;
use std::process::{Command, Output};
use workroom::quilts::MAIN;
use workroom::{Workroom, WorkroomError};

/// Tells the started process what to do, and where.
const ROLE: &str = "RAGBAG_TEST_ROLE";
const FOLDER: &str = "RAGBAG_TEST_FOLDER";

/// What the writer and the reader have to say, a line each.
const ACK: &str = "ack: ";
const REFUSED: &str = "refused: ";
const FOUND: &str = "found: ";

/// Does its part if it was started for one.
fn play_a_part() -> bool {
    let (Ok(role), Ok(folder)) = (std::env::var(ROLE), std::env::var(FOLDER)) else { return false };
    let folder = Path::new(&folder);
    match role.as_str() {
        "write" => write_until_refused(folder),
        "look" => match Workroom::open(folder) {
            Ok(mut room) => tell_what_is_there(&mut room),
            Err(error) => say_refused("opening", &error),
        },
        _ => {
            let mut room = Workroom::open(folder).unwrap();
            tell_what_is_there(&mut room);
            room.enter(vec![plain("after", Region::rectangle(3.0, 5.0))]).unwrap();
            let head = room.head("kept", MAIN).unwrap();
            let mark = room.next_mark("kept", MAIN).unwrap();
            room.append(&head.at(), &[note(mark.0, "after")]).unwrap();
        }
    }
    true
}

fn say_refused(what: &str, error: &WorkroomError) {
    println!("{REFUSED}{what}: {error} {}", error.hint().unwrap_or_default());
}

fn write_until_refused(folder: &Path) {
    let mut room = Workroom::open(folder).unwrap();
    let mut head = room.head("kept", MAIN).unwrap();
    let words = "long words ".repeat(40);
    for i in 1..=100_000 {
        match room.append(&head.at(), &[note(i, &words)]) {
            Ok(moved) => head = moved,
            Err(error) => {
                say_refused("a step", &error);
                break;
            }
        }
        println!("{ACK}step {}", head.tip.unwrap());
        match room.enter(vec![plain("scrap", Region::rectangle(3.0, 5.0))]) {
            Ok(entered) => println!("{ACK}scrap {}", entered[0].0),
            Err(error) => {
                say_refused("a scrap", &error);
                break;
            }
        }
    }
    // The same program goes on reading, and is refused again without harm.
    tell_what_is_there(&mut room);
    let mut picture = b"\x89PNG\r\n\x1a\n".to_vec();
    picture.resize(900_000, 7);
    if let Err(error) = room.keep_picture(&picture, "png") {
        say_refused("a picture", &error);
    }
    for file in std::fs::read_dir(folder.join("pictures")).unwrap() {
        println!("left behind {}", file.unwrap().path().display());
    }
}

fn tell_what_is_there(room: &mut Workroom) {
    let mut found = String::new();
    for step in room.log("kept", MAIN).unwrap().steps {
        let _ = writeln!(found, "{FOUND}step {}", step.id);
    }
    for (no, _) in room.stash().unwrap().present() {
        let _ = writeln!(found, "{FOUND}scrap {no}");
    }
    print!("{found}");
}

/// A workroom with an empty quilt.
fn begun(folder: &Path) {
    let mut room = Workroom::create(folder).unwrap();
    room.new_quilt("kept", &Wish::default()).unwrap();
}

/// Runs a script of the shell in which `part ROLE` starts this test anew in that role.
fn run(shell: &[&str], test: &str, script: &str, folder: &Path) -> Output {
    let part = format!("part() {{ {ROLE}=$1 \"$TEST\" {test} --exact --nocapture; }}\n");
    Command::new(shell[0])
        .args(&shell[1..])
        .arg(part + script)
        .env("TEST", std::env::current_exe().unwrap())
        .env(FOLDER, folder)
        .output()
        .unwrap()
}

fn said<'a>(output: &'a str, what: &str) -> Vec<&'a str> {
    // The test harness may have begun the line.
    output.lines().filter_map(|line| line.split_once(what).map(|(_, rest)| rest)).collect()
}

fn lost<'a>(output: &'a str, then: &str) -> Vec<&'a str> {
    let found = said(then, FOUND);
    said(output, ACK).into_iter().filter(|ack| !found.contains(ack)).collect()
}

#[test]
fn a_full_disk_loses_nothing_that_was_acknowledged() {
    if play_a_part() {
        return;
    }
    let disk = tempfile::TempDir::new().unwrap();
    let own = ["unshare", "--mount", "sh", "-ec"];
    let can = Command::new(own[0])
        .args(&own[1..])
        .arg("mount -t tmpfs -o size=900k ragbag \"$DISK\"")
        .env("DISK", disk.path())
        .output();
    if !can.as_ref().is_ok_and(|out| out.status.success()) {
        println!("skipped: no small disk can be mounted here ({can:?})");
        return;
    }
    let begin = tempfile::TempDir::new().unwrap();
    begun(&begin.path().join("room"));
    let script = format!(
        "mount -t tmpfs -o size=900k ragbag '{disk}'\n\
         cp -r '{begin}/room' '{disk}/room'\n\
         head -c 200000 /dev/zero > '{disk}/ballast'\n\
         part write; echo =====; part look; echo =====; rm '{disk}/ballast'; part go_on; echo =====; part look",
        disk = disk.path().display(),
        begin = begin.path().display(),
    );
    let test = "a_full_disk_loses_nothing_that_was_acknowledged";
    let out = run(&own, test, &script, &disk.path().join("room"));
    let text = String::from_utf8_lossy(&out.stdout);
    let errors = String::from_utf8_lossy(&out.stderr);
    assert!(out.status.success(), "{text}{errors}");
    let [wrote, full, freed, after] = text.split("=====").collect::<Vec<_>>()[..] else { panic!("{text}") };
    assert!(said(wrote, ACK).len() > 20, "{wrote}");
    let refused = said(wrote, REFUSED);
    assert_eq!(refused.len(), 2, "{refused:?}");
    for line in &refused {
        assert!(line.contains("the disk is full: nothing was changed Make room on the disk"), "{line}");
    }
    assert_eq!(said(wrote, "left behind ").len(), 0, "{wrote}");
    let empty: Vec<&str> = Vec::new();
    assert_eq!(lost(wrote, wrote), empty, "lost to the program that wrote it");
    assert_eq!(lost(wrote, freed), empty, "lost when there is room again");
    assert_eq!(said(after, FOUND).len(), said(freed, FOUND).len() + 2, "work goes on");
    // Another program on the full disk reads all, or says that it is full.
    let looked = said(full, REFUSED);
    assert!(
        lost(wrote, full).is_empty() || looked.iter().any(|line| line.contains("the disk is full")),
        "{full}"
    );
}

#[test]
fn a_file_that_may_not_grow_loses_nothing_that_was_acknowledged() {
    if play_a_part() {
        return;
    }
    let folder = tempfile::TempDir::new().unwrap();
    let room = folder.path().join("room");
    begun(&room);
    // In blocks of 512 bytes by POSIX, of 1024 in some shells. Too long a file is refused, where
    // the signal for it is ignored.
    let script = "trap '' XFSZ; ulimit -f 700; part write";
    let test = "a_file_that_may_not_grow_loses_nothing_that_was_acknowledged";
    let out = run(&["sh", "-c"], test, script, &room);
    let text = String::from_utf8_lossy(&out.stdout);
    assert!(out.status.success(), "{text}{}", String::from_utf8_lossy(&out.stderr));
    assert!(said(&text, ACK).len() > 20, "{text}");
    let refused = said(&text, REFUSED);
    assert_eq!(refused.len(), 2, "{refused:?}");
    assert!(
        refused[0].contains("disk I/O error") && refused[0].contains("nothing was changed"),
        "{refused:?}"
    );
    assert!(refused[1].contains("file too large") && refused[1].contains("limit"), "{refused:?}");
    let empty: Vec<&str> = Vec::new();
    assert_eq!(lost(&text, &text), empty);
    let mut opened = Workroom::open(&room).unwrap();
    let steps: Vec<String> =
        opened.log("kept", MAIN).unwrap().steps.iter().map(|s| s.id.to_string()).collect();
    let scraps = opened.stash().unwrap().present().len();
    let acknowledged = said(&text, ACK);
    let of = |kind: &str| acknowledged.iter().filter_map(|a| a.strip_prefix(kind)).collect::<Vec<_>>();
    assert!(of("step ").iter().all(|id| steps.contains(&(*id).to_owned())));
    assert_eq!(of("scrap ").len(), scraps);
    opened.enter(vec![plain("after", Region::rectangle(3.0, 5.0))]).unwrap();
}
