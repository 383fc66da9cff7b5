//! The program as a maker runs it: from scraps to a drawing, and what it says to bad input.

use std::path::Path;
use std::process::{Command, Output};

struct Room(tempfile::TempDir);

impl Room {
    fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    fn path(&self, name: &str) -> String {
        self.0.path().join(name).to_string_lossy().into_owned()
    }

    fn run(&self, args: &[&str]) -> Output {
        let room = self.path("room");
        Command::new(env!("CARGO_BIN_EXE_ragbag")).arg("--workroom").arg(room).args(args).output().unwrap()
    }

    fn json(&self, args: &[&str]) -> serde_json::Value {
        let mut all = vec!["--json"];
        all.extend(args);
        let out = self.run(&all);
        assert!(out.status.success(), "{args:?}: {}", String::from_utf8_lossy(&out.stderr));
        serde_json::from_slice(&out.stdout).unwrap()
    }

    /// Runs what must be refused; returns what it says.
    fn refused(&self, args: &[&str], status: i32) -> String {
        let out = self.run(args);
        let said = String::from_utf8_lossy(&out.stderr).into_owned();
        assert_eq!(out.status.code(), Some(status), "{args:?}: {said}");
        assert!(!said.contains("panicked"), "{said}");
        assert!(said.starts_with("ragbag: ") || said.starts_with("error: "), "{said}");
        said
    }

    /// Thirty scraps and a quilt.
    fn with_scraps() -> Self {
        let room = Self::new();
        let colours = ["rust", "coral", "sand", "grey", "slate", "green"];
        let mut list = "name,width,height\n".to_owned();
        for i in 0..30 {
            list += &format!("{} {i},{},{}\n", colours[i % 6], 4 + i % 4, 5 + i % 6);
        }
        std::fs::write(room.path("scraps.csv"), list).unwrap();
        room.json(&["add", "list", &room.path("scraps.csv")]);
        room.json(&["quilt", "Tide"]);
        room.json(&["wish", "--across", "9", "--drift", "rust, sand, slate, green"]);
        room
    }
}

fn help(words: &[&str]) -> String {
    let out = Command::new(env!("CARGO_BIN_EXE_ragbag")).args(words).arg("--help").output().unwrap();
    assert!(out.status.success(), "{words:?}");
    String::from_utf8_lossy(&out.stdout).into_owned()
}

/// The commands that a help page lists.
fn listed(page: &str) -> Vec<String> {
    let after = page.split("Commands:").nth(1).unwrap_or_default();
    let lines = after.lines().skip(1).take_while(|line| !line.trim().is_empty());
    let names = lines.filter(|line| line.starts_with("  ") && !line.starts_with("   "));
    names
        .filter_map(|line| line.split_whitespace().next())
        .filter(|name| *name != "help")
        .map(str::to_owned)
        .collect()
}

#[test]
fn every_command_has_an_example_in_its_help() {
    let top = listed(&help(&[]));
    assert!(top.len() > 30, "{top:?}");
    for command in &top {
        let page = help(&[command]);
        assert!(page.contains("Example: ragbag"), "{command}");
        if page.contains("Commands:") {
            for below in listed(&page) {
                assert!(help(&[command, &below]).contains("Example: ragbag"), "{command} {below}");
            }
        }
    }
}

#[test]
fn sums_print_what_they_promise() {
    let room = Room::new();
    let fit = |side: &str, height: &str, half: &str| {
        let piece = format!("0,0 {side},0 {half},{height}");
        room.json(&["sums", "fit", "--piece", &piece, "--cloth", "0,0 1,0 1,1 0,1", "--turn", "any"])
    };
    let fits = fit("1.03", "0.892", "0.515");
    assert_eq!(fits["fits"], true);
    assert!(fits["pose"]["turn_deg"].is_number());
    let too_large = fit("1.036", "0.8972", "0.518");
    assert_eq!((&too_large["fits"], too_large["pose"].is_null()), (&serde_json::json!(false), true));
    let cover = room.json(&["sums", "cover", "--edge", "5.375", "--corners", "128,135", "--seam", "0.25"]);
    assert!((cover["need_in"].as_f64().unwrap() - 5.820).abs() < 1e-3);
    assert!(!Path::new(&room.path("room")).exists(), "sums make no workroom");
}

#[test]
fn from_scraps_to_a_drawing_and_back() {
    let room = Room::with_scraps();
    let grown = room.json(&["grow", "--more", "8", "--effort", "quick"]);
    assert_eq!(grown["pieces"], 8);
    let offers = room.json(&["next", "--count", "3"]);
    assert!(!offers["proposals"].as_array().unwrap().is_empty());
    room.json(&["refuse", "1"]);
    room.json(&["next"]);
    room.json(&["take", "1"]);
    room.json(&["sewn", "1"]);
    let instead = room.json(&["instead", "3"]);
    assert!(instead["held"].is_number());
    room.json(&["eye"]);
    room.json(&["sides"]);
    room.json(&["audit"]);
    let front = room.path("front.svg");
    room.json(&["draw", "front", "--labels", "--measures", "--to", &front]);
    assert!(std::fs::read_to_string(front).unwrap().contains("<svg"));
    room.json(&["draw", "back", "--flat", "--to", &room.path("back.png")]);
    room.json(&["export", &room.path("tide.zip")]);
    let other = Room::new();
    let came = other.json(&["import", &room.path("tide.zip")]);
    let log = other.json(&["log"]);
    assert_eq!(came["quilt"], "Tide");
    assert_eq!(log["entries"], {
        let own = room.json(&["log"]);
        own["entries"].clone()
    });
    room.json(&["what-ifs", "2", "--more", "2", "--effort", "quick"]);
    room.json(&["unpick"]);
    room.json(&["resew"]);
    room.json(&["undo"]);
}

#[test]
fn scraps_come_in_every_way() {
    let room = Room::new();
    room.json(&["add", "words", "red stripe, about 3 by 5"]);
    room.json(&["add", "rectangle", "rust dot", "4-1/2", "57 mm"]);
    room.json(&["add", "polygon", "slate leaf", "0,0 5,0 4,6 1,5-1/2"]);
    room.json(&["add", "weight", "blue bits", "120"]);
    let svg = "<svg xmlns='http://www.w3.org/2000/svg' width='10cm' height='10cm' viewBox='0 0 100 100'><rect width='80' height='60'/></svg>";
    std::fs::write(room.path("one.svg"), svg).unwrap();
    room.json(&["add", "svg", &room.path("one.svg")]);
    let heap = room.json(&["heap"]);
    assert_eq!(heap["cloths"].as_array().unwrap().len(), 5);
    assert!((heap["cloths"][1]["height_in"].as_f64().unwrap() - 57.0 / 25.4).abs() < 1e-9);
    let fit = room.json(&["fit", "3", "--piece", "0,0 2,0 1,2"]);
    assert_eq!(fit["fits"], true);
    room.json(&["cut", "3", "--piece", "1,1 3,1 3,3 1,3", "--keep"]);
}

#[test]
fn bad_input_is_told_and_nothing_is_lost() {
    let room = Room::with_scraps();
    let before = room.json(&["heap"]);
    room.refused(&["add", "polygon", "bow", "0,0 2,2 2,0 0,2"], 2);
    room.refused(&["add", "polygon", "line", "0,0 1,0 2,0"], 2);
    room.refused(&["add", "rectangle", "x", "2 1/0", "3"], 2);
    room.refused(&["add", "rectangle", "x", "NaN", "3"], 2);
    room.refused(&["add", "weight", "x", "NaN"], 2);
    room.refused(&["cut", "999", "--piece", "0,0 1,0 0,1"], 2);
    room.refused(&["cut", "1", "--piece", "0,0 90,0 90,90"], 2);
    let files = [
        (
            "plain.svg",
            "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 9 9'><rect width='8' height='6'/></svg>",
        ),
        (
            "script.svg",
            "<svg xmlns='http://www.w3.org/2000/svg' width='9cm' height='9cm'><script>x</script></svg>",
        ),
        (
            "bomb.svg",
            "<!DOCTYPE s [<!ENTITY a 'aaaa'><!ENTITY b '&a;&a;'>]><svg xmlns='http://www.w3.org/2000/svg'>&b;</svg>",
        ),
    ];
    for (name, text) in files {
        std::fs::write(room.path(name), text).unwrap();
        room.refused(&["add", "svg", &room.path(name)], 2);
    }
    std::fs::write(room.path("wrong.csv"), "colour,price\nred,3\n").unwrap();
    room.refused(&["add", "list", &room.path("wrong.csv")], 2);
    room.refused(&["add", "list", &room.path("missing.csv")], 2);
    room.refused(&["next"], 1);
    room.refused(&["take", "1"], 2);
    room.refused(&["--quilt", "Nobody", "log"], 2);
    room.refused(&["grow", "--to", "nonsense"], 2);
    room.refused(&["sums", "cover", "--edge", "NaN", "--corners", "120,120"], 2);
    room.refused(&["dance"], 2);
    assert_eq!(room.json(&["heap"]), before);
}

#[test]
fn a_workroom_that_can_not_be_had_is_told() {
    let room = Room::new();
    std::fs::write(room.path("room"), "a file, not a folder").unwrap();
    room.refused(&["heap"], 3);
}
