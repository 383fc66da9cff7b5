//! The cutting plan as a maker asks for it: facts, files, and what it says where nothing can be cut.

mod common;

use common::Room;
use serde_json::Value;
use std::path::Path;
use std::process::Command;

/// A red square of 6 and a blue length of 20 by 16; one square of 4 planned on the red one, a sleeve and a binding to cut
/// from the blue one.
fn to_cut() -> Room {
    let room = Room::new();
    room.json(&["add", "rectangle", "red", "6", "6"]);
    room.json(&["add", "rectangle", "blue", "20", "16"]);
    room.json(&["quilt", "Tide"]);
    room.json(&["start", "1", "--piece", "0,0; 4,0; 4,4; 0,4"]);
    room.finish("[[stage]]\nsleeve = { }\n");
    room
}

impl Room {
    fn finish(&self, stages: &str) {
        let plan = self.path("plan.toml");
        std::fs::write(&plan, stages).unwrap();
        self.json(&["finish", &plan]);
    }
}

fn pieces(plan: &Value) -> Vec<(String, u64)> {
    let mut all = Vec::new();
    for cloth in plan["cutting"]["cloths"].as_array().unwrap() {
        for piece in cloth["pieces"].as_array().unwrap() {
            all.push((piece["name"].as_str().unwrap().to_owned(), cloth["no"].as_u64().unwrap()));
        }
    }
    all
}

#[test]
fn the_facts_say_which_piece_comes_from_which_cloth() {
    let room = to_cut();
    let plan = room.json(&["cutting"]);
    assert!(pieces(&plan).contains(&("sleeve".to_owned(), 2)), "{plan}");
    assert_eq!(plan["cutting"]["no_place"].as_array().unwrap().len(), 0, "{plan}");
    let again = room.json(&["cutting"]);
    assert_eq!(plan, again, "the same question, the same plan");
    let bought = room.json(&["cutting", "--buy-all", "--bolt", "20"]);
    assert_eq!(bought["cutting"]["cloths"].as_array().unwrap().len(), 0);
    let length = &bought["cutting"]["to_buy"][0];
    assert_eq!(length["usable_in"], 20.0);
    assert!(length["buy_in"].as_f64().unwrap() >= length["length_in"].as_f64().unwrap() - 1e-9);
}

#[test]
fn the_pdf_has_the_words_and_the_svg_is_well_formed() {
    let room = to_cut();
    let to = |name: &str| room.path(name);
    room.json(&["cutting", "--to", &to("cut.pdf")]);
    let told = Command::new("pdftotext").args([&to("cut.pdf"), "-"]).output();
    let told = told.expect("pdftotext is there: `cargo xtask test` installs poppler-utils").stdout;
    let text = String::from_utf8_lossy(&told).split_whitespace().collect::<Vec<_>>().join(" ");
    for words in ["No. 2, blue", "sleeve", "in the order of their numbers"] {
        assert!(text.contains(words), "{words}: {text}");
    }
    room.json(&["cutting", "--to", &to("cut.svg")]);
    let svg = std::fs::read_to_string(to("cut.svg")).unwrap();
    // Every element that is opened is closed, the innermost first.
    let mut open: Vec<&str> = Vec::new();
    for tag in svg.split('<').skip(1) {
        let (tag, _) = tag.split_once('>').expect("every tag ends");
        let name = tag.split([' ', '\n', '/']).find(|name| !name.is_empty()).unwrap_or_default();
        match (tag.starts_with('/'), tag.ends_with('/'), tag.starts_with(['?', '!'])) {
            (true, ..) => assert_eq!(open.pop(), Some(name)),
            (false, false, false) => open.push(name),
            _ => {}
        }
    }
    assert!(open.is_empty() && svg.contains("No. 2, blue"), "{open:?}");
}

#[test]
fn a_strip_longer_than_its_cloth_is_joined_and_that_is_said() {
    let room = Room::new();
    room.json(&["add", "rectangle", "red", "14", "14"]);
    room.json(&["quilt", "Tide"]);
    room.json(&["start", "1", "--piece", "0,0; 12,0; 12,12; 0,12"]);
    // On the bias a bolt of 18 gives at most 18 times the root of 2, less the width: 23 1/5.
    room.finish(
        "[[stage]]\nbinding = { strip_width_in = 2.25, thickness_in = 0.0625, supply = { laid = { lengths_in = [30.0, 30.0, \
         30.0], is_bias = true } } }\n",
    );
    let plan = room.json(&["cutting", "--bolt", "18"]);
    let (plan, bought) = (&plan["cutting"], &plan["cutting"]["to_buy"][0]);
    assert_eq!(plan["no_place"].as_array().unwrap().len(), 0, "{plan}");
    let joined = plan["joined"].as_array().unwrap();
    assert!(!joined.is_empty(), "{plan}");
    for strip in joined {
        assert_eq!((&strip["join"], &strip["loss_in"]), (&Value::from("diagonal"), &Value::from(2.25)));
        assert!(strip["bit_in"].as_f64().unwrap() <= 18.0 * 2.0_f64.sqrt() - 2.25 + 1e-6);
        let bit = format!("{}, bit ", strip["name"].as_str().unwrap());
        let pieces = bought["pieces"].as_array().unwrap().iter();
        let bits = pieces.filter(|piece| piece["name"].as_str().unwrap().starts_with(&bit)).count();
        assert_eq!(bits as u64, strip["bits"].as_u64().unwrap(), "{plan}");
    }
    let said = String::from_utf8_lossy(&room.run(&["cutting", "--bolt", "18"]).stdout).into_owned();
    assert!(said.contains("joined on the diagonal; each join takes 2 1/4"), "{said}");
}

#[test]
fn what_can_not_be_laid_or_written_is_told_and_leaves_no_half_file() {
    let room = to_cut();
    let said = room.refusal(&["cutting", "--to", &room.path("no such folder/cut.pdf")], 2);
    assert!(said.contains("can't be written"), "{said}");
    assert!(!Path::new(&room.path("no such folder")).exists());
    let said = room.refusal(&["cutting", "--to", &room.path("cut.txt")], 2);
    assert!(said.contains("neither a .pdf nor a .svg nor a .png"), "{said}");
    assert!(!Path::new(&room.path("cut.txt")).exists());
    // A folder is in the way of the file.
    std::fs::create_dir(room.path("cut.pdf")).unwrap();
    room.refusal(&["cutting", "--to", &room.path("cut.pdf")], 2);
    let beside = std::fs::read_dir(room.0.path()).unwrap().map(|entry| entry.unwrap().file_name());
    let mut beside: Vec<String> = beside.map(|name| name.to_string_lossy().into_owned()).collect();
    beside.sort();
    assert_eq!(beside, ["cut.pdf", "plan.toml", "room"], "nothing half written lies about");
    room.refusal(&["cutting", "--kerf", "wide"], 2);
    room.refusal(&["cutting", "--seconds", "-1"], 2);
    room.refusal(&["cutting", "Ebb"], 2);
}

#[test]
fn a_quilt_without_cloth_has_nothing_to_cut() {
    let room = Room::new();
    room.json(&["quilt", "Tide"]);
    let said = room.refusal(&["cutting", "--to", &room.path("cut.pdf")], 1);
    assert!(said.starts_with("ragbag: "), "{said}");
    assert!(said.contains("ragbag enough") && said.contains("ragbag papers --only shopping"), "{said}");
    assert!(!Path::new(&room.path("cut.pdf")).exists());
}

/// Width and height of each path of a layer of an SVG of lines, in its units.
fn sizes(svg: &str, layer: &str) -> Vec<[f64; 2]> {
    let group = svg.split("<g ").find(|group| group.starts_with(&format!("id=\"{layer}\""))).unwrap_or("");
    let size = |d: &str| {
        let numbers: Vec<f64> =
            d.trim_end_matches('Z').split(['M', 'L', ' ']).filter_map(|number| number.parse().ok()).collect();
        let over = |at: usize| {
            let all = numbers.iter().skip(at).step_by(2);
            let (low, high) =
                all.fold((f64::MAX, f64::MIN), |(low, high), &number| (low.min(number), high.max(number)));
            high - low
        };
        [over(0), over(1)]
    };
    group.split(" d=\"").skip(1).filter_map(|rest| Some(size(rest.split('"').next()?))).collect()
}

/// A square cut 4 by 4 is sewn 3 1/2 by 3 1/2; in millimetres 101.6 and 88.9 (25.4 to the inch).
#[test]
fn lines_for_machines_are_true_in_inches_and_millimetres() {
    let room = to_cut();
    let (svg, dxf) = (room.path("lines.svg"), room.path("lines.dxf"));
    let told = room.json(&["cutting", "--lines", &svg]);
    assert_eq!(told["lines"].as_str(), Some(svg.as_str()));
    let inches = std::fs::read_to_string(&svg).unwrap();
    let near = |found: &[[f64; 2]], wished: f64| {
        found.iter().any(|size| size.iter().all(|long| (long - wished).abs() < 1e-6))
    };
    assert!(near(&sizes(&inches, "cut"), 4.0) && near(&sizes(&inches, "seam"), 3.5), "{inches}");
    assert_eq!(sizes(&inches, "seam").len(), 1, "a sleeve has no seam line of its own");
    assert!(near(&sizes(&inches, "marks"), 6.0), "the edge of the cloth");
    room.json(&["cutting", "--lines", &svg, "--unit", "mm"]);
    let metric = std::fs::read_to_string(&svg).unwrap();
    assert!(near(&sizes(&metric, "cut"), 101.6) && near(&sizes(&metric, "seam"), 88.9), "{metric}");
    room.json(&["cutting", "--lines", &dxf]);
    let drawn = std::fs::read_to_string(&dxf).unwrap();
    assert!(drawn.contains("LWPOLYLINE") && drawn.trim_end().ends_with("EOF"));
    room.refusal(&["cutting", "--lines", &room.path("lines.png")], 2);
    assert!(!Path::new(&room.path("lines.png")).exists());
}
