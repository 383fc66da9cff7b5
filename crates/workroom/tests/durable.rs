//! What was acknowledged is on the disk, and what can't be done is said and changes nothing.

mod common;

use common::{enter, lay, note, plain, workroom};
use plane::Region;
use quilt::wish::Wish;
use std::io::{BufRead, BufReader, Write};
use std::process::{Command, Stdio};
use workroom::quilts::MAIN;
use workroom::{DATABASE, Workroom, WorkroomError};

/// Tells the test's own process, started a second time, that it is to write.
const WRITER: &str = "RAGBAG_TEST_WRITER";

/// Appends a note and enters a scrap, again and again, telling of each what was acknowledged.
fn write_for_ever(folder: &str) -> ! {
    let mut room = Workroom::open(folder.as_ref()).unwrap();
    let mut head = room.head("kept", MAIN).unwrap();
    for i in 1.. {
        head = room.append(&head.at(), &[note(i, "sewn")]).unwrap();
        let (no, _) = room.enter(vec![plain("scrap", Region::rectangle(3.0, 5.0))]).unwrap()[0];
        println!("ack {i} {} {no}", head.tip.unwrap());
        std::io::stdout().flush().unwrap();
    }
    unreachable!("it is killed before it runs out of numbers")
}

#[test]
fn what_was_acknowledged_survives_a_kill() {
    if let Ok(folder) = std::env::var(WRITER) {
        write_for_ever(&folder);
    }
    for kill_after in [3_u32, 17, 40] {
        let (folder, mut room) = workroom();
        room.new_quilt("kept", &Wish::default()).unwrap();
        drop(room);
        let path = folder.path().join("room");
        let mut writer = Command::new(std::env::current_exe().unwrap())
            .args(["what_was_acknowledged_survives_a_kill", "--exact", "--nocapture"])
            .env(WRITER, &path)
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(writer.stdout.take().unwrap()).lines().map_while(Result::ok);
        let acks: Vec<String> = lines
            .by_ref()
            .filter_map(|line| line.split_once("ack ").map(|(_, ack)| ack.to_owned()))
            .take(kill_after as usize)
            .collect();
        writer.kill().unwrap();
        writer.wait().unwrap();
        // What it still said before it died counts too.
        let acks: Vec<String> = acks
            .into_iter()
            .chain(lines.filter_map(|l| l.split_once("ack ").map(|a| a.1.to_owned())))
            .collect();
        assert!(acks.len() >= kill_after as usize);

        let mut room = Workroom::open(&path).unwrap();
        let log = room.log("kept", MAIN).unwrap();
        let stash = room.stash().unwrap();
        for ack in &acks {
            let parts: Vec<&str> = ack.split(' ').collect();
            let [i, tip, no] = parts[..] else { panic!("{ack}") };
            let at: usize = i.parse().unwrap();
            assert_eq!(log.steps[at - 1].id.to_string(), tip, "step {i} is missing");
            assert!(stash.by_number(no.parse().unwrap()).is_some(), "scrap {no} is missing");
        }
        // At most one more deed of each kind was under way.
        assert!(log.steps.len() <= acks.len() + 1, "{} {}", log.steps.len(), acks.len());
    }
}

#[test]
fn a_workroom_of_a_newer_version_is_refused_and_left_as_it_was() {
    let (folder, mut room) = workroom();
    enter(&mut room, 3.0, 5.0);
    drop(room);
    let path = folder.path().join("room");
    let file = path.join(DATABASE);
    let raw = rusqlite::Connection::open(&file).unwrap();
    raw.execute("UPDATE meta SET version = 99", []).unwrap();
    raw.close().unwrap();
    let before = std::fs::read(&file).unwrap();
    let error = Workroom::open(&path).unwrap_err();
    assert!(matches!(error, WorkroomError::NewerVersion { found: 99, .. }), "{error}");
    assert!(error.to_string().contains("version 99") && error.hint().unwrap().contains("newer"));
    assert!(Workroom::open_or_create(&path).is_err());
    assert_eq!(std::fs::read(&file).unwrap(), before);
}

#[test]
fn a_workroom_of_version_1_opens_with_all_that_is_in_it() {
    let (folder, mut room) = workroom();
    let cloth = enter(&mut room, 3.0, 5.0);
    let head = room.new_quilt("kept", &Wish::default()).unwrap();
    room.append(&head.at(), &[lay(1, cloth, (0.0, 0.0), (3.0, 5.0))]).unwrap();
    let (quilts, id) = (room.quilts().unwrap(), room.id());
    drop(room);
    let path = folder.path().join("room");
    // Version 2 differs by facts that version 1 can't read, version 3 by when deeds were done.
    let raw = rusqlite::Connection::open(path.join(DATABASE)).unwrap();
    raw.execute("ALTER TABLE deeds DROP COLUMN at", []).unwrap();
    raw.execute("UPDATE meta SET version = 1", []).unwrap();
    raw.close().unwrap();
    let mut room = Workroom::open(&path).unwrap();
    assert_eq!((room.quilts().unwrap(), room.id()), (quilts, id));
    assert!(room.stash().unwrap().get(cloth).is_some_and(|item| item.now.is_some()));
    assert_eq!(room.undo().unwrap(), "append");
    let supplies = workroom::intake::read_supplies("200 pins").unwrap().unwrap();
    room.supply(supplies).unwrap();
    drop(room);
    let raw = rusqlite::Connection::open(path.join(DATABASE)).unwrap();
    let version: i64 = raw.query_row("SELECT version FROM meta", [], |row| row.get(0)).unwrap();
    assert_eq!(version, 3, "a program of version 1 must not read it any more");
    raw.close().unwrap();
    assert_eq!(Workroom::open(&path).unwrap().stash().unwrap().supplies().len(), 1);
}

#[test]
fn what_is_no_workroom_is_refused() {
    let folder = tempfile::TempDir::new().unwrap();
    assert!(matches!(Workroom::open(folder.path()), Err(WorkroomError::NoWorkroom { .. })));
    std::fs::write(folder.path().join(DATABASE), "these are no pages of a database at all, only words")
        .unwrap();
    assert!(matches!(Workroom::open(folder.path()), Err(WorkroomError::Damaged { .. })));
    let raw = tempfile::TempDir::new().unwrap();
    let other = rusqlite::Connection::open(raw.path().join(DATABASE)).unwrap();
    other.execute_batch("CREATE TABLE birds (name TEXT)").unwrap();
    other.close().unwrap();
    assert!(matches!(Workroom::open(raw.path()), Err(WorkroomError::Damaged { .. })));
    assert!(matches!(Workroom::create(raw.path()), Err(WorkroomError::Damaged { .. })));
}

#[test]
fn a_creation_that_was_killed_before_it_was_done_is_done_again() {
    let folder = tempfile::TempDir::new().unwrap();
    std::fs::write(folder.path().join(DATABASE), "").unwrap();
    let mut room = Workroom::open_or_create(folder.path()).unwrap();
    enter(&mut room, 3.0, 5.0);
    assert!(matches!(Workroom::create(folder.path()), Err(WorkroomError::AlreadyThere { .. })));
}

#[test]
fn a_folder_that_cant_be_written_is_named() {
    // A file in the place of the folder: refused by every system, also for an administrator.
    let folder = tempfile::TempDir::new().unwrap();
    let file = folder.path().join("file");
    std::fs::write(&file, "words").unwrap();
    let error = Workroom::create(&file.join("room")).unwrap_err();
    assert!(error.to_string().contains("file"), "{error}");
}

#[test]
fn two_programs_take_turns_and_the_slower_is_told() {
    let (folder, mut first) = workroom();
    let head = first.new_quilt("shared", &Wish::default()).unwrap();
    let mut second = Workroom::open(&folder.path().join("room")).unwrap();
    let moved = second.append(&head.at(), &[note(1, "second")]).unwrap();
    let error = first.append(&head.at(), &[note(1, "first")]).unwrap_err();
    assert!(matches!(error, WorkroomError::HeadMoved { expected: 1, found: 2, .. }), "{error}");
    assert_eq!(first.head("shared", MAIN).unwrap(), moved);
    first.append(&moved.at(), &[note(2, "first")]).unwrap();
    assert_eq!(second.log("shared", MAIN).unwrap().steps.len(), 2);

    let ids: Vec<_> = (0..6)
        .map(|i| enter(if i % 2 == 0 { &mut first } else { &mut second }, 3.0, 3.0 + f64::from(i)))
        .collect();
    let mut all = ids.clone();
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), 6, "names are never given twice");
    let numbers: Vec<u32> = ids.iter().map(|id| second.stash().unwrap().get(*id).unwrap().no).collect();
    assert_eq!(numbers, [1, 2, 3, 4, 5, 6]);
    assert_eq!(first.stash().unwrap(), second.stash().unwrap());
}

#[test]
fn two_programs_at_once_lose_nothing() {
    let (folder, mut room) = workroom();
    room.new_quilt("shared", &Wish::default()).unwrap();
    let path = folder.path().join("room");
    let writers: Vec<_> = (0..2)
        .map(|_| {
            let path = path.clone();
            std::thread::spawn(move || {
                let mut room = Workroom::open(&path).unwrap();
                for _ in 0..15 {
                    loop {
                        let head = room.head("shared", MAIN).unwrap();
                        let mark = room.log("shared", MAIN).unwrap().steps.len() as u32 + 1;
                        match room.append(&head.at(), &[note(mark, "step")]) {
                            Ok(_) => break,
                            Err(WorkroomError::HeadMoved { .. } | WorkroomError::Refused { .. }) => {}
                            Err(other) => panic!("{other}"),
                        }
                    }
                    enter(&mut room, 2.0, 2.0);
                }
            })
        })
        .collect();
    writers.into_iter().for_each(|writer| writer.join().unwrap());
    assert_eq!(room.log("shared", MAIN).unwrap().steps.len(), 30);
    assert_eq!(room.stash().unwrap().present().len(), 30);
}

#[test]
fn bytes_that_have_changed_in_the_store_are_noticed() {
    let (folder, mut room) = workroom();
    let head = room.new_quilt("kept", &Wish::default()).unwrap();
    room.append(&head.at(), &[note(1, "a"), note(2, "b")]).unwrap();
    drop(room);
    let path = folder.path().join("room");
    let raw = rusqlite::Connection::open(path.join(DATABASE)).unwrap();
    let changed = raw
        .execute("UPDATE entries SET bytes = bytes || CAST(' ' AS BLOB) WHERE parent IS NULL", [])
        .or_else(|_| {
            raw.execute("UPDATE entries SET bytes = CAST(bytes || ' ' AS BLOB) WHERE parent IS NULL", [])
        });
    assert_eq!(changed.unwrap(), 1);
    raw.close().unwrap();
    let room = Workroom::open(&path).unwrap();
    assert!(matches!(room.log("kept", MAIN), Err(WorkroomError::Damaged { .. })));
}

#[test]
fn a_picture_is_kept_once_and_noticed_when_it_changes() {
    let (_folder, mut room) = workroom();
    let bytes = b"\x89PNG\r\n\x1a\nnot much of a picture";
    let hash = room.keep_picture(bytes, "png").unwrap();
    assert_eq!(room.keep_picture(bytes, "png").unwrap(), hash);
    assert_eq!(room.picture(&hash).unwrap(), Some((bytes.to_vec(), "png".to_owned())));
    assert!(room.keep_picture(b"words", "png").is_err());
    assert!(room.keep_picture(bytes, "gif").is_err());
    assert_eq!(room.picture("00").unwrap(), None);
    let file = room.picture_file(&hash).unwrap().unwrap();
    std::fs::write(&file, b"\x89PNG\r\n\x1a\nanother picture").unwrap();
    assert!(matches!(room.picture(&hash), Err(WorkroomError::Damaged { .. })));
    // What a killed program left half written is swept away at the next opening.
    let half = file.with_extension("png.123.partial");
    std::fs::write(&half, "half").unwrap();
    let folder = room.folder().to_owned();
    drop(room);
    Workroom::open(&folder).unwrap();
    assert!(!half.exists());
}
