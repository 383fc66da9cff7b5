//! The program as a maker runs it: from scraps to a drawing, and what it says to bad input.

mod common;

use common::Room;
use quilt::cloth::{Look, Picture};
use std::path::Path;
use std::process::Command;
use workroom::Workroom;
use workroom::stash::NewCloth;

impl Room {
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
    let told = |i: usize| offers["proposals"][i]["patches"][0]["no"].clone();
    assert_eq!(offers["proposals"].as_array().unwrap().len(), 3);
    let refused = room.json(&["refuse", "1"])["refused"].clone();
    let again = room.json(&["next", "--count", "3"]);
    assert!(again["proposals"].as_array().unwrap().iter().all(|one| one["key"] != refused));
    assert_eq!(room.json(&["forget-refusals"])["forgotten"], 1);
    room.json(&["next", "--count", "3"]);
    room.json(&["refuse", "1"]);
    let taken = room.json(&["take", "2"]);
    assert_eq!(taken["taken"]["patches"][0]["no"], told(1), "numbers stay as they were told");
    let steps = |room: &Room| room.json(&["log"])["entries"].as_array().unwrap().len();
    let before = steps(&room);
    let sewn = room.json(&["sewn", "1"]);
    assert_eq!(sewn["cut"], 1);
    assert!(room.json(&["log"])["entries"][0]["sewn"].as_bool().unwrap());
    let instead = room.json(&["instead", "3"]);
    assert!(instead["held"].is_number());
    let eye = room.json(&["eye"]);
    assert_eq!(eye["rows"].as_array().unwrap().len(), 15);
    let sides = room.json(&["sides"]);
    assert!(sides["sides"].as_array().unwrap().len() > 3);
    assert_eq!(room.json(&["audit"])["elsewhere"], serde_json::json!([]));
    let front = room.path("front.svg");
    room.json(&["draw", "front", "--labels", "--measures", "--to", &front]);
    assert!(std::fs::read_to_string(front).unwrap().contains("<svg"));
    room.json(&["draw", "back", "--flat", "--to", &room.path("back.png")]);
    room.json(&["export", &room.path("tide.zip")]);
    let other = Room::new();
    let came = other.json(&["import", &room.path("tide.zip")]);
    assert_eq!(came["quilt"], "Tide");
    // When a step was planned and sewn is of the room in which it was.
    let untimed = |room: &Room| {
        let mut log = room.json(&["log"]);
        for entry in log["entries"].as_array_mut().unwrap() {
            let entry = entry.as_object_mut().unwrap();
            assert!(entry.remove("planned_at").is_some() && entry.remove("sewn_at").is_some());
        }
        log["entries"].clone()
    };
    assert_eq!(untimed(&other), untimed(&room));
    let heads = |room: &Room| room.json(&["quilts"])["quilts"][0]["heads"].as_array().unwrap().len();
    let few = heads(&room);
    room.json(&["what-ifs", "2", "--more", "2", "--effort", "quick"]);
    assert_eq!(heads(&room), few + 2);
    room.json(&["drop", "what-if-2"]);
    assert_eq!(heads(&room), few + 1);
    let whole = steps(&room);
    room.json(&["unpick"]);
    assert!(steps(&room) < whole && steps(&room) < before);
    room.json(&["resew"]);
    assert_eq!(steps(&room), whole);
    room.json(&["undo"]);
    assert!(steps(&room) < whole);
}

/// Two red squares of six inches, a blue length and a quilt with one red square on its table.
fn with_a_square() -> Room {
    let room = Room::new();
    room.json(&["add", "rectangle", "red", "6", "6"]);
    room.json(&["add", "rectangle", "blue", "12", "9"]);
    room.json(&["quilt", "Tide"]);
    room.json(&["start", "1", "--piece", "0,0; 4,0; 4,4; 0,4"]);
    room
}

#[test]
fn strips_of_one_cloth_are_sewn_with_her_own_seam() {
    let room = with_a_square();
    room.json(&["wish", "--own-seam", "3, 1 1/2, 3 7/16"]);
    let set = room.json(&["strips", "sew", "2:1.5", "2:1.5", "2:1.5", "--length", "12"]);
    let set = &set["cloths"][0];
    assert!((set["height_in"].as_f64().unwrap() - 3.4375).abs() < 1e-9, "{set}");
    let came = room.json(&["strips", "unpick", &set["no"].to_string()]);
    assert_eq!(came["cloths"].as_array().unwrap().len(), 3);
    assert!((came["cloths"][1]["height_in"].as_f64().unwrap() - 1.5).abs() < 1e-9, "{came}");
    room.refused(&["strips", "sew", "2:7", "2:7", "--length", "12"], 1);
    room.refused(&["strips", "unpick", "1"], 1);
}

#[test]
fn a_cut_is_told_by_both_its_marks() {
    let room = with_a_square();
    room.json(&["trim", "1a", "--at", "1"]);
    let log = room.json(&["log"]);
    let told = log["entries"][1]["sentence"].as_str().unwrap();
    assert!(told.starts_with("Trim from 1 along side 1a to 3 along side 1c, raw"), "{told}");
    let plan = room.json(&["true-up", "3", "--plan"]);
    let told = plan["cuts"][0]["words"].as_str().unwrap();
    assert_eq!(told.matches("along side").count(), 2, "{told}");
    let words = String::from_utf8(room.run(&["true-up", "3", "--plan"]).stdout).unwrap();
    assert!(!words.contains("guard"), "{words}");
    room.refused(&["true-up", "8"], 1);
}

#[test]
fn what_is_due_is_told_in_named_words() {
    let room = with_a_square();
    room.json(&["sew", "2", "--onto", "1a", "--size", "6x2", "--untrimmed"]);
    let due = room.json(&["eye"])["due"].clone();
    let due = due.as_array().unwrap();
    assert!(!due.is_empty());
    for one in due {
        assert_eq!(one["what"], "trim");
        assert!(one["side"].as_str().unwrap().ends_with(char::is_alphabetic), "{one}");
    }
}

#[test]
fn flaws_and_holes_are_told_with_the_scrap_and_its_outline_is_put_right() {
    let room = Room::new();
    let entered =
        room.json(&["add", "rectangle", "rust", "6", "4", "--flaw", "1,1 2,1 2,2", "--hole", "4,1 5,1 5,2"]);
    let cloth = &entered["entered"][0];
    assert_eq!((&cloth["flaws"], &cloth["holes"], &cloth["area_in2"]), (&1.into(), &1.into(), &23.5.into()));
    // Neither the stain nor the hole is cloth: what covers one of them does not fit.
    let fits = |piece: &str| room.json(&["fit", "1", "--piece", piece, "--turn", "none"])["fits"] == true;
    assert!(fits("0,0 2,0 2,3-7/8 0,3-7/8") && !fits("0,0 3,0 3,3 0,3"));
    let better = room.json(&["change", "1", "--outline", "0,0 7,0 7,4 0,4"]);
    assert_eq!(
        (&better["cloths"][0]["width_in"], &better["cloths"][0]["area_in2"]),
        (&7.0.into(), &27.5.into())
    );
    assert_eq!(room.json(&["change", "1", "--no-hole"])["cloths"][0]["area_in2"], 28.0);
    assert_eq!(room.json(&["change", "1", "--hole", "1,3 2,3 2,3.5 1,3.5"])["cloths"][0]["area_in2"], 27.5);
    let outside = room.refused(&["change", "1", "--hole", "8,8 9,8 9,9"], 2);
    assert!(outside.contains("hole"), "{outside}");
    std::fs::write(room.path("two.csv"), "name,width,height\nsand,3,4\ngrey,3,4\n").unwrap();
    let two = room.refused(&["add", "list", &room.path("two.csv"), "--flaw", "1,1 2,1 2,2"], 2);
    assert!(two.contains("2 scraps") && two.contains("ragbag change"), "{two}");
    assert_eq!(room.json(&["heap"])["cloths"].as_array().unwrap().len(), 1);
}

#[test]
fn what_is_known_of_a_cloth_can_be_changed() {
    let room = with_a_square();
    let told =
        room.json(&["change", "2", "--name", "navy", "--washed", "yes", "--flaw", "0,0 12,0 12,8 0,8"]);
    assert_eq!(told["cloths"][0]["name"], "navy");
    assert_eq!(told["cloths"][0]["washed"], true);
    assert_eq!(told["cloths"][0]["bleeds"], serde_json::Value::Null);
    let fits = |room: &Room, more: &[&str]| {
        let mut args = vec!["fit", "2", "--piece", "0,0 3,0 3,2 0,2"];
        args.extend(more);
        room.json(&args)["fits"].clone()
    };
    assert_eq!(fits(&room, &[]), false, "an inch is left beside the flaw");
    room.json(&["change", "2", "--sound"]);
    assert_eq!(fits(&room, &[]), true);
    assert_eq!(fits(&room, &["--rough", "3 1/4"]), true);
    assert_eq!(fits(&room, &["--rough", "3 3/4"]), false, "nine inches have no room for 2 and twice 3 3/4");
    room.json(&["same-print", "1", "2"]);
    let heap = room.json(&["heap"]);
    assert_eq!(heap["cloths"][0]["print"], heap["cloths"][1]["print"]);
    room.json(&["give-away", "2"]);
    assert_eq!(room.json(&["heap"])["cloths"].as_array().unwrap().len(), 1);
    let kept = room.json(&["leftovers", "--width", "1/2", "--area", "1"]);
    assert_eq!(kept, serde_json::json!({ "least_width_in": 0.5, "least_area_in2": 1.0 }));
    room.refused(&["leftovers", "--area", "-1"], 2);
    room.json(&["choose", "binding", "2 1/4 wide"]);
    let log = room.json(&["log"]);
    assert_eq!(log["entries"][1]["sentence"], "Decide on the binding: 2 1/4 wide");
    room.json(&["rename", "High Tide"]);
    assert_eq!(room.json(&["log"])["quilt"], "High Tide");
}

#[test]
fn two_quilts_that_count_on_one_cloth_hear_of_each_other() {
    let room = with_a_square();
    room.json(&["quilt", "Ebb"]);
    room.json(&["start", "1", "--piece", "0,0 4,0 4,4 0,4"]);
    let audit = room.json(&["audit"]);
    assert_eq!(audit["problems"], serde_json::json!([]));
    assert_eq!(audit["elsewhere"][0]["quilt"], "Tide");
}

#[test]
fn a_cloth_is_drawn_without_a_quilt_and_a_lost_picture_is_told() {
    let room = Room::new();
    room.json(&["add", "rectangle", "red", "3", "3"]);
    let out = room.run(&["draw", "cloth", "1"]);
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    assert!(String::from_utf8_lossy(&out.stdout).starts_with("<svg"));
    let mut open = Workroom::open(Path::new(&room.path("room"))).unwrap();
    let hash = open.keep_picture(b"\x89PNG\r\n\x1a\nnot much of one", "png").unwrap();
    let file = open.picture_file(&hash).unwrap().unwrap();
    let look = Look::plain(colour::read_words("red").unwrap());
    let (format, top_left, size_px) = ("png".to_owned(), plane::Point::new(0.0, 3.0), [30, 30]);
    let picture = Picture { hash: hash.clone(), format, pixels_per_in: 10.0, top_left, size_px };
    let cloth = NewCloth {
        picture: Some(picture),
        ..NewCloth::scrap("red", plane::Region::rectangle(3.0, 3.0), look)
    };
    open.enter(vec![cloth]).unwrap();
    drop(open);
    let said = |room: &Room| {
        let out = room.run(&["draw", "cloth", "2"]);
        assert!(out.status.success() && out.stdout.starts_with(b"<svg"));
        String::from_utf8_lossy(&out.stderr).into_owned()
    };
    assert_eq!(said(&room), "");
    std::fs::write(&file, "something else").unwrap();
    assert!(said(&room).contains(&hash));
    std::fs::remove_file(&file).unwrap();
    assert!(said(&room).contains(&hash));
}

#[test]
fn only_what_writes_makes_a_workroom() {
    let room = Room::new();
    for command in [&["heap"][..], &["log"], &["quilts"], &["wish"], &["undo"], &["draw", "cloth", "1"]] {
        let said = room.refused(command, 3);
        assert!(said.contains("there is no workroom in"), "{said}");
        assert!(!Path::new(&room.path("room")).exists(), "{command:?}");
    }
    room.json(&["quilt", "Tide"]);
    assert_eq!(room.json(&["heap"])["cloths"], serde_json::json!([]));
}

#[test]
fn a_reader_that_has_gone_away_is_no_trouble() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_ragbag"))
        .arg("openapi")
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    drop(child.stdout.take());
    let out = child.wait_with_output().unwrap();
    assert_eq!((out.status.code(), String::from_utf8_lossy(&out.stderr).as_ref()), (Some(0), ""));
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
    room.refused(&["cut", "1", "--piece", "0,0 90,0 90,90"], 1);
    let room_left = room.json(&["cut", "1", "--piece", "3,0 6,0 6,2 3,2", "--anyway"]);
    assert!((room_left["beyond_in2"].as_f64().unwrap() - 4.0).abs() < 1e-6, "{room_left}");
    room.json(&["undo"]);
    room.refused(&["grow", "--to", "5000"], 2);
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
    room.refused(&["take", "1"], 1);
    room.refused(&["undo", "now"], 2);
    room.refused(&["resew"], 1);
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

#[test]
fn what_is_taken_for_granted_or_written_over_is_told() {
    let room = Room::with_scraps();
    let said = |args: &[&str]| String::from_utf8_lossy(&room.run(args).stdout).into_owned();
    assert!(said(&["add", "words", "flurble 3 by 4"]).contains("calico"));
    assert!(said(&["add", "weight", "blue bits", "4oz"]).contains("one whole piece"));
    assert!(said(&["sides"]).contains("Nothing lies on the table"));
    let wish = said(&["wish"]);
    assert!(wish.contains("Drift from the centre outward: about") && !wish.contains('{'), "{wish}");
    room.refused(&["change", "1", "--flaw", "40,40 42,40 42,42"], 2);
    room.refused(&["draw", "cloth", "1", "--to", &room.path("c.pdf")], 2);
    room.refused(&["draw", "front", "1"], 2);
    assert!(!Path::new(&room.path("c.pdf")).exists());
    room.json(&["start", "1", "--piece", "0,0 2,0 2,2 0,2"]);
    let drawn = room.json(&["draw", "cloth", "1", "--labels", "--measures", "--to", &room.path("c.svg")]);
    assert!(drawn["cuts"][0].as_str().unwrap().starts_with("Line 1: lay the ruler from edge "), "{drawn}");
    assert!(said(&["heap"]).lines().next().unwrap().ends_with("% planned"));
    room.json(&["export", &room.path("tide.zip")]);
    assert!(room.refused(&["export", &room.path("tide.zip")], 2).contains("--over"));
    room.json(&["export", "--over", &room.path("tide.zip")]);
    let big = room.refused(&["cut", "2", "--piece", "0,0 40,0 40,3 0,3"], 1);
    assert!(big.contains("cloth 2 has no room"), "{big}");
}

#[test]
fn lines_of_quilting_are_written_for_machine_and_paper() {
    let room = Room::new();
    room.json(&["add", "rectangle", "rust dot", "14", "12"]);
    room.json(&["quilt", "Tide"]);
    room.json(&["start", "1", "--piece", "0,0 12,0 12,10 0,10"]);
    let to = |name: &str| room.path(name);
    assert!(room.refused(&["lines", "--to", &to("l.svg")], 1).contains("no quilting has been chosen"));
    let plan = "[[stage]]\nquilting = { design = \"lines\", spacing_in = 1.0 }\n";
    std::fs::write(to("plan.toml"), plan).unwrap();
    room.json(&["finish", &to("plan.toml")]);
    assert!(
        room.refused(&["lines", "--to", &to("l.txt")], 2).contains("neither a .svg nor a .dxf nor a .pdf")
    );
    assert!(!Path::new(&to("l.txt")).exists());
    let said = room.json(&["lines", "--to", &to("l.svg")]);
    assert_eq!(said["strokes"], 10);
    assert!((said["length_in"].as_f64().unwrap() - 120.0).abs() < 1e-6);
    room.json(&["lines", "--to", &to("l.dxf"), "--unit", "mm"]);
    // Read by its group codes: each stroke is a polyline of two places, 12 inches in millimetres.
    let dxf = std::fs::read_to_string(to("l.dxf")).unwrap();
    let codes: Vec<(&str, &str)> =
        dxf.lines().collect::<Vec<_>>().chunks(2).map(|pair| (pair[0].trim(), pair[1].trim())).collect();
    let mut lengths = Vec::new();
    for polyline in codes.split(|code| code.0 == "0") {
        if polyline.contains(&("8", "quilting")) && polyline.contains(&("100", "AcDbPolyline")) {
            let of = |axis: &str| -> Vec<f64> {
                let places = polyline.iter().filter(|code| code.0 == axis);
                places.map(|code| code.1.parse().unwrap()).collect()
            };
            let (x, y) = (of("10"), of("20"));
            assert_eq!((x.len(), y.len()), (2, 2));
            lengths.push((x[1] - x[0]).hypot(y[1] - y[0]));
        }
    }
    assert_eq!(lengths.len(), 10);
    assert!(lengths.iter().all(|length| (length - 12.0 * 25.4).abs() < 1e-4), "{lengths:?}");
    room.json(&["lines", "--to", &to("l.pdf"), "--paper", "letter", "--true-size"]);
    let told = Command::new("pdftotext").args([&to("l.pdf"), "-"]).output();
    let told = told.expect("pdftotext is there: `cargo xtask test` installs poppler-utils").stdout;
    let text = String::from_utf8_lossy(&told);
    // The overview and two tiles of 7 1/2 by 10 inches beside each other; each page ends with a form feed.
    assert_eq!(text.matches('\u{c}').count(), 3, "{text}");
    assert!(text.contains("Needles and pins hurt") && text.contains("A2"), "{text}");
    let compared = room.json(&["designs", "waves", "lines", "--spacing", "3/4", "--to", &to("d.svg")]);
    assert_eq!(compared["designs"][0]["design"], "waves");
    assert_eq!(compared["designs"][1]["spacing_in"], 0.75);
    assert!(std::fs::read_to_string(to("d.svg")).unwrap().contains("straight lines"));
    for asked in ["lines", "designs"] {
        let told = room.refused(&[asked, "--to", &to("no such folder/l.svg")], 2);
        assert!(told.contains("can't be written") && !told.contains("os error"), "{told}");
    }
    room.refused(&["designs", "knots"], 2);
    room.refused(&["designs", "--to", &to("d.gif")], 2);
}

#[test]
fn the_demo_has_a_workroom_of_its_own() {
    let home = tempfile::tempdir().unwrap();
    let serve = |args: &[&str]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_ragbag"));
        command.env_remove("RAGBAG_WORKROOM").env("XDG_DATA_HOME", home.path()).args(args).output().unwrap()
    };
    assert!(serve(&["add", "words", "red 3 by 4"]).status.success());
    let made = serve(&["--json", "demo"]);
    let made: serde_json::Value = serde_json::from_slice(&made.stdout).unwrap();
    assert_eq!(made["workroom"], home.path().join("ragbag-demo").to_string_lossy().into_owned());
    let heap: serde_json::Value = serde_json::from_slice(&serve(&["--json", "heap"]).stdout).unwrap();
    assert_eq!(heap["cloths"].as_array().unwrap().len(), 1, "the maker's own heap is her own");
}
