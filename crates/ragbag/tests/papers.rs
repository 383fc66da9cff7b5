//! Papers as a maker prints them: files that well-kept readers take without a word, and what is said to bad input.
//!
//! qpdf checks the files, poppler reads them; `cargo xtask test` installs both.

mod common;

use common::Room;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What another program says of a file; it must not complain.
fn told(program: &str, args: &[&str]) -> String {
    let ran = Command::new(program).args(args).output();
    let ran = ran.unwrap_or_else(|e| panic!("{program}: {e}; `cargo xtask test` installs it"));
    let said = format!("{}{}", String::from_utf8_lossy(&ran.stdout), String::from_utf8_lossy(&ran.stderr));
    assert!(ran.status.success(), "{program} {args:?}: {said}");
    said
}

/// Holds a PDF to the format's rules: qpdf reads every object and every stream, and poppler every page.
fn sound(file: &str) {
    // qpdf ends with 0 only where there is neither an error nor a warning.
    let said = told("qpdf", &["--check", file]);
    assert!(!said.contains("WARNING") && !said.contains("ERROR"), "{file}: {said}");
    assert!(said.contains("No syntax or stream encoding errors found"), "{file}: {said}");
    // Every type is embedded, and its letters can be found as text.
    let fonts = told("pdffonts", &[file]);
    for font in fonts.lines().skip(2) {
        let words: Vec<&str> = font.split_whitespace().collect();
        assert_eq!(words[words.len() - 5..words.len() - 2], ["yes", "yes", "yes"], "{file}: {font}");
    }
    // poppler itself complains about what nothing is wrong with: `/Suspects false` is what ISO 32000-1, table 321,
    // asks for, and poppler 22.12 takes no other word than true.
    let seen = Command::new("pdftotext").args([file, "-"]).output().unwrap();
    assert!(
        seen.status.success() && seen.stderr.is_empty(),
        "{file}: {}",
        String::from_utf8_lossy(&seen.stderr)
    );
}

/// Words of a file that reach over an edge of their page.
fn cut_off(file: &str) -> Vec<String> {
    let mut page = [0.0, 0.0];
    let mut found = Vec::new();
    for line in told("pdftotext", &["-bbox", file, "-"]).lines() {
        let number = |name: &str| -> f64 {
            line.split_once(&format!("{name}=\"")).unwrap().1.split('"').next().unwrap().parse().unwrap()
        };
        if line.trim_start().starts_with("<page ") {
            page = [number("width"), number("height")];
        } else if line.trim_start().starts_with("<word ") {
            let over = number("xMax") > page[0] + 0.5 || number("xMin") < -0.5;
            if over || number("yMax") > page[1] + 0.5 || number("yMin") < -0.5 {
                found.push(line.trim().to_owned());
            }
        }
    }
    found
}

fn pdfs(folder: &str) -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    all.sort();
    all.retain(|file| file.extension().is_some_and(|ending| ending == "pdf"));
    all
}

/// No file of a folder is one that was left half-written.
fn nothing_half_written(folder: &Path) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        assert!(path.extension().is_none_or(|ending| ending != "part"), "{}", path.display());
    }
}

impl Room {
    /// Runs what must be refused, with nothing left behind; returns what it says.
    fn refused(&self, args: &[&str], status: i32) -> String {
        let said = self.refusal(args, status);
        nothing_half_written(self.0.path());
        said
    }

    /// Two patches sewn together, of cloths with these names.
    fn with_two(quilt: &str, names: [&str; 2]) -> Self {
        let room = Self::new();
        for name in names {
            room.json(&["add", "rectangle", name, "8", "8"]);
        }
        room.json(&["quilt", quilt]);
        room.json(&["start", "1", "--piece", "0,0 4,0 4,4 0,4"]);
        room.json(&["wish", "--across", "9"]);
        room.json(&["grow", "--more", "1"]);
        room
    }
}

#[test]
fn every_paper_of_the_demo_and_its_booklet_are_sound() {
    let room = Room::new();
    room.json(&["demo"]);
    let out = room.path("papers");
    let head = ["--head", "finished"];
    for paper in [&["--paper", "a4"][..], &["--paper", "letter", "--ink-saving", "--anyway", "--cm"]] {
        let told = room.json(&[&head[..], &["papers", "--out", &out], paper].concat());
        let made = told["papers"].as_array().unwrap();
        assert!(made.len() >= 14, "{}", told["left_out"]);
        if paper.contains(&"--anyway") {
            assert_eq!((told["left_out"].as_array().unwrap().len(), pdfs(&out).len()), (0, made.len()));
            made.iter().for_each(facts_are_told);
        }
        for file in pdfs(&out) {
            sound(&file.to_string_lossy());
            // What is larger than a page goes on on the next, its words too.
            let in_tiles = ["templates", "foundation", "figure", "quilting"];
            if !in_tiles.iter().any(|name| file.file_stem().is_some_and(|stem| stem == *name)) {
                assert_eq!(cut_off(&file.to_string_lossy()), [""; 0], "{}", file.display());
            }
        }
    }
    let booklet = room.path("booklet.pdf");
    let told = room.json(&[&head[..], &["booklet", "--out", &booklet]].concat());
    assert!(told["pages"].as_u64().unwrap() > 20, "{}", told["left_out"]);
    sound(&booklet);
    assert_eq!(cut_off(&booklet), [""; 0]);
    nothing_half_written(room.0.path());
    // A picture that was cut short and one that is gone: told, and everything is printed all the same.
    let mut pictures = std::fs::read_dir(Path::new(&room.path("room")).join("pictures")).unwrap();
    for (i, picture) in pictures.by_ref().map(|entry| entry.unwrap().path()).enumerate() {
        if i % 2 == 0 {
            std::fs::remove_file(picture).unwrap();
        } else {
            let bytes = std::fs::read(&picture).unwrap();
            std::fs::write(&picture, &bytes[..bytes.len() / 2]).unwrap();
        }
    }
    let ran = room.run(&[&head[..], &["booklet", "--out", &booklet]].concat());
    let said = String::from_utf8_lossy(&ran.stderr);
    assert!(
        ran.status.success() && said.contains("missing or damaged") && !said.contains("panicked"),
        "{said}"
    );
    sound(&booklet);
}

/// All names that stand in a value, at any depth.
fn names(value: &serde_json::Value, found: &mut Vec<String>) {
    match value {
        serde_json::Value::Object(fields) => {
            for (name, inner) in fields {
                found.push(name.clone());
                names(inner, found);
            }
        }
        serde_json::Value::Array(all) => all.iter().for_each(|inner| names(inner, found)),
        _ => {}
    }
}

/// Every fact of a paper is told in docs/JSON.md, and what is told there is among its facts.
fn facts_are_told(paper: &serde_json::Value) {
    let told = include_str!("../../../docs/JSON.md");
    let name = paper["paper"].as_str().unwrap();
    let begins = format!("| facts of `{name}` | ");
    let row = told
        .lines()
        .find_map(|line| line.strip_prefix(&begins))
        .unwrap_or_else(|| panic!("no row of {name}"));
    let words: Vec<&str> = row.split('`').skip(1).step_by(2).collect();
    let facts = paper["facts"].as_object().unwrap();
    for fact in facts.keys() {
        assert!(words.contains(&fact.as_str()), "{name}: {fact} isn't told");
    }
    let mut all = vec!["cutting".to_owned(), "enough".to_owned()];
    names(&paper["facts"], &mut all);
    // Of a border that isn't mitred there are no mitres to look into.
    let absent = if name == "ring-border" { &["corner_deg"][..] } else { &[] };
    for word in words.iter().filter(|word| !absent.contains(word)) {
        assert!(all.iter().any(|known| known == word), "{name}: {word} is told and isn't there");
    }
}

#[test]
fn names_in_any_script_and_of_any_length_are_shown_or_seen_to_be_shortened() {
    let long = "tide ".repeat(100);
    let one_word = "w".repeat(500);
    let names = ["גאות ושפל", "مد وجزر", "🧵🪡 退潮", "a\u{200d}b\u{202e}c", long.trim(), &one_word];
    for pair in names.chunks(2) {
        // A quilt's own name has 100 letters at most, a title 120, words 400: more is refused, not cut.
        let quilt: String = pair[0].chars().take(100).collect();
        let room = Room::with_two(quilt.trim(), [pair[0], pair[1]]);
        let (booklet, out) = (room.path("b.pdf"), room.path("papers"));
        let [title, maker] = [1, 0].map(|of| pair[of].chars().take(120).collect::<String>());
        let words: String = pair[1].chars().take(400).collect();
        let words = ["--title", &title, "--maker", &maker, "--words", &words];
        room.json(&[&["booklet", "--anyway", "--out", &booklet][..], &words].concat());
        room.json(&["papers", "--anyway", "--by-template", "--out", &out]);
        for file in pdfs(&out).iter().map(|file| file.to_string_lossy().into_owned()).chain([booklet.clone()])
        {
            sound(&file);
            assert_eq!(cut_off(&file), [""; 0], "{file}");
        }
        let text = told("pdftotext", &[&booklet, "-"]);
        for name in pair.iter().filter(|name| name.chars().count() < 20) {
            let mut words = name.split_whitespace();
            // What runs from the right may be told either way round; what no type has is a box, and a mark that is
            // never seen is left out.
            let shown = words
                .any(|word| text.contains(word) || text.contains(&word.chars().rev().collect::<String>()));
            let stands_for = if name.starts_with('a') { "abc" } else { "\u{fffd}" };
            let strange = !name.chars().all(|c| c.is_alphabetic() || c == ' ');
            assert!(shown || strange && text.contains(stands_for), "{name}: {text}");
        }
        if pair[0].len() > 400 {
            let said = room.refused(&["booklet", "--title", pair[0], "--out", &booklet], 2);
            assert!(said.contains("499 letters") && said.contains("120"), "{said}");
            assert!(text.contains('…'), "what is too long for the foot of a page is seen to be");
        }
    }
}

#[test]
fn words_with_line_breaks_and_control_letters_keep_their_page() {
    let room = Room::with_two("Tide", ["rust\u{7}", "sand"]);
    let booklet = room.path("b.pdf");
    let lines = "\u{1b}\n".repeat(50) + "Tide";
    let under = format!("steps={}", "a\n".repeat(900));
    for size in ["a4", "5-1/2x8"] {
        let own =
            ["--title", &lines, "--maker", &lines, "--words", &lines, "--under", &under, "--paper", size];
        room.json(&[&["booklet", "--out", &booklet][..], &own].concat());
        sound(&booklet);
        assert_eq!(cut_off(&booklet), [""; 0], "{size}");
        assert!(told("pdftotext", &[&booklet, "-"]).contains('…'), "{size}");
    }
}

#[test]
fn paper_without_room_is_refused_in_clear_words() {
    let room = Room::with_two("Tide", ["rust", "sand"]);
    let out = room.path("b.pdf");
    for size in ["3x4", "5x8in", "201x300"] {
        let said = room.refused(&["booklet", "--paper", size, "--out", &out], 2);
        assert!(said.contains("can't be printed on") && said.contains("5 1/2 by 8 inches"), "{said}");
    }
    let said = room.refused(&["papers", "--paper", "folio", "--out", &room.path("p")], 2);
    assert!(said.contains("`folio` is no paper") && said.contains("legal"), "{said}");
    assert!(!Path::new(&out).exists() && !Path::new(&room.path("p")).exists());
    // The least that is taken, and a roll, are printed with nothing cut off.
    for size in ["5-1/2x8", "24x96", "11x8.5"] {
        room.json(&["booklet", "--anyway", "--paper", size, "--out", &out]);
        sound(&out);
        assert_eq!(cut_off(&out), [""; 0], "{size}");
    }
    let page = told("pdfinfo", &[&out]);
    assert!(page.contains("792 x 612 pts"), "{page}");
}

#[test]
fn a_place_that_can_not_be_written_is_told_and_left_as_it_was() {
    let room = Room::with_two("Tide", ["rust", "sand"]);
    let file = room.path("a-file");
    std::fs::write(&file, "mine").unwrap();
    let below = |name: &str| format!("{file}/{name}");
    let absent = |name: &str| room.path(&format!("nowhere/{name}"));
    room.refused(&["papers", "--out", &file], 2);
    for at in [&below, &absent as &dyn Fn(&str) -> String] {
        room.refused(&["booklet", "--out", &at("b.pdf")], 2);
        room.refused(&["templates", "--to", &at("t.dxf")], 2);
        room.refused(&["templates", "--to", &at("t.svg")], 2);
        room.refused(&["cutting", "--to", &at("c.pdf")], 2);
        room.refused(&["lines", "--to", &at("l.pdf")], 1);
    }
    // A folder where a file should be.
    std::fs::create_dir(room.path("b.pdf")).unwrap();
    room.refused(&["booklet", "--out", &room.path("b.pdf")], 2);
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "mine");
    assert!(!Path::new(&room.path("nowhere")).exists());
    assert!(Path::new(&room.path("b.pdf")).is_dir());
}

#[test]
fn a_quilt_without_cloth_and_a_quilt_without_a_piece_say_so() {
    let room = Room::new();
    room.json(&["quilt", "Tide"]);
    for args in [
        &["booklet", "--out", &room.path("b.pdf")][..],
        &["papers", "--only", "templates,foundation,steps", "--out", &room.path("p")],
        &["templates", "--to", &room.path("t.dxf")],
        &["cutting", "--to", &room.path("c.pdf")],
    ] {
        let said = room.refused(args, 1);
        assert!(said.contains("nothing"), "{args:?}: {said}");
    }
    for name in ["b.pdf", "t.dxf", "c.pdf"] {
        assert!(!Path::new(&room.path(name)).exists(), "{name}");
    }
}

#[test]
fn a_pile_of_pages_is_refused_before_anything_is_written() {
    let room = Room::new();
    room.json(&["add", "rectangle", "wide rust", "150", "150"]);
    room.json(&["quilt", "Huge"]);
    room.json(&["start", "1", "--piece", "0,0 140,0 140,140 0,140"]);
    for kind in ["templates", "foundation"] {
        let said = room.refused(&["papers", "--only", kind, "--anyway", "--out", &room.path("p")], 1);
        assert!(said.contains("pages; the most is 100"), "{said}");
    }
    assert!(!Path::new(&room.path("p")).exists());
    // Among other papers it is left out, with the reason.
    let told = room.json(&["papers", "--only", "templates,cautions", "--anyway", "--out", &room.path("p")]);
    assert_eq!(told["left_out"][0]["paper"], "templates");
    assert_eq!(pdfs(&room.path("p")).len(), 1);
    // A machine has no pages.
    assert_eq!(room.json(&["templates", "--to", &room.path("t.dxf")])["templates"], 1);
}

/// A line that began with `7/8` or `cm` would tear a length: whatever the words before it, none does.
#[test]
fn no_line_break_tears_a_length() {
    let room = Room::new();
    room.json(&["add", "rectangle", "rust", "9", "9"]);
    room.json(&["quilt", "Tide"]);
    room.json(&["start", "1", "--piece", "0,0 4,0 4,4 0,4"]);
    let words: String = (1..120).map(|i| format!("{}{i} 7/8 {i}.5 cm ", "x".repeat(i % 7))).collect();
    let words: String = words.chars().take(1900).collect();
    room.json(&["wording", "--under", &format!("cautions={words}")]);
    room.json(&["papers", "--only", "cautions", "--out", &room.path("p")]);
    let out = Command::new("pdftotext").args([&room.path("p/cautions.pdf"), "-"]).output().unwrap();
    let text = String::from_utf8_lossy(&out.stdout).into_owned();
    assert!(text.contains("7/8") && text.contains("cm"), "{text}");
    let torn: Vec<&str> =
        text.lines().filter(|line| line.starts_with("7/8") || line.starts_with("cm")).collect();
    assert!(torn.is_empty(), "{torn:?}");
}
