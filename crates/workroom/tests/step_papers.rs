//! Step cards, the guide by rounds, the record and the times of steps, on a piece whose numbers are worked out
//! by hand.

mod common;

use common::{enter, join, lay, workroom};
use papers::press::Letters;
use papers::{Fonts, Paper as Size};
use quilt::log::{Along, End, Entry, Keep, Mark, Name, Run, RunKind, Sewing, Step};
use quilt::wish::Wish;
use serde_json::Value;
use std::path::Path;
use std::process::Command;
use workroom::Workroom;
use workroom::papers::{Hand, PaperKind, PapersWish};
use workroom::quilts::{Head, MAIN};

/// Of a cloth of 20 by 10: two squares of 4 sewn together (7 1/2 by 4); on their top a unit of two patches of 4
/// by 2; on their bottom a strip of 8 by 2, trimmed in line; on their left, across both seams, one of 2 by 8.
fn piece(room: &mut Workroom) -> Head {
    let cloth = enter(room, 20.0, 10.0);
    let head = room.new_quilt("low tide", &Wish::default()).unwrap();
    let steps = [
        lay(1, cloth, (0.0, 0.0), (4.0, 4.0)),
        lay(2, cloth, (4.0, 0.0), (4.0, 4.0)),
        join(3, (1, 1), (2, 3), true),
        lay(4, cloth, (8.0, 0.0), (4.0, 2.0)),
        lay(5, cloth, (12.0, 0.0), (4.0, 2.0)),
        join(6, (4, 1), (5, 3), true),
        join(7, (1, 2), (4, 0), true),
        lay(8, cloth, (0.0, 4.0), (8.0, 2.0)),
        join(9, (1, 0), (8, 2), true),
        lay(10, cloth, (16.0, 0.0), (2.0, 8.0)),
        join(11, (1, 3), (10, 1), true),
    ];
    room.append(&head.at(), &steps).unwrap()
}

fn cards(room: &mut Workroom, head: &Head, wish: &PapersWish) -> Vec<Value> {
    let paper = room.paper(head, PaperKind::Steps, wish).unwrap();
    paper.facts["steps"].as_array().unwrap().clone()
}

fn sentences(card: &Value) -> Vec<String> {
    card["do"].as_array().unwrap().iter().map(|said| said.as_str().unwrap().to_owned()).collect()
}

#[test]
fn primitive_steps_are_gathered_into_what_a_maker_does() {
    let (_folder, mut room) = workroom();
    let head = piece(&mut room);
    let cards = cards(&mut room, &head, &PapersWish::default());
    let entries: Vec<String> = cards.iter().map(|card| card["entries"].to_string()).collect();
    assert_eq!(entries, ["[1,2,3]", "[4,5,6,7]", "[8,9]", "[10,11]"]);
    let sizes: Vec<String> =
        cards[1]["cut"].as_array().unwrap().iter().map(|cut| cut["at_least_in"].to_string()).collect();
    assert_eq!(sizes, ["[2.0,4.0]", "[2.0,4.0]"], "along the edge that is sewn first, then square to it");
    let unit = sentences(&cards[1]);
    assert_eq!(unit[0], "Cut patches 4, 5 from scrap (no. 1), at least 2 by 4.");
    assert_eq!(unit[1], "Sew patch 5 to patch 4, along 2; seam 1/4. Press it.");
    let strip = sentences(&cards[2]);
    assert_eq!(
        strip[1],
        "Lay patch 8 right sides together on the red edge, 7 1/2 long, middle on middle. Sew; seam 1/4."
    );
    let last = sentences(&cards[3]);
    let end = [
        "Press the seam towards what you have just sewn on.",
        "Trim what sticks out at its ends in line with the edge beside it.",
    ];
    assert_eq!(last[last.len() - 2..], end);
}

#[test]
fn what_meets_nowhere_is_pressed_together_and_what_crosses_is_not() {
    let (_folder, mut room) = workroom();
    let head = piece(&mut room);
    let cards = cards(&mut room, &head, &PapersWish::default());
    let together: Vec<String> = cards.iter().map(|card| card["before_pressing"].to_string()).collect();
    assert_eq!(together, ["[1,1]", "[2,3]", "[2,3]", "[4,4]"], "top and bottom; the left side crosses both");
    // The unit's own seam is pressed before it is sewn on; the one onto the piece waits.
    let first = sentences(&cards[1]);
    assert_eq!(first.last().unwrap(), "Don\u{2019}t press yet: sew step 3 first.");
    let is_ironed = |said: &&String| said.contains("Press the") || said.contains("rim what");
    assert_eq!(first.iter().filter(is_ironed).count(), 0, "{first:?}");
    let last = sentences(&cards[2]);
    let [press, trim] = &last[last.len() - 2..] else { panic!("{last:?}") };
    assert_eq!(press, "Now press steps 2 and 3, each towards what was sewn on.");
    // The strip of 8 on an edge of 7 1/2; the unit of 7 1/2 is as long as its edge.
    assert_eq!(trim, "Then trim what sticks out at both ends of step 3, in line with the edge beside it.");
    assert_eq!(last.iter().filter(is_ironed).count(), 1, "{last:?}");
}

#[test]
fn the_ruler_begins_where_the_hand_begins() {
    let (_folder, mut room) = workroom();
    let head = piece(&mut room);
    // Patch 1 lies in the corner of the cloth: one line up at 4 along the lower edge (16 along the upper one,
    // which runs back), one across at 4 up the right edge (6 down the left one).
    let lines = |room: &mut Workroom, hand| {
        let all = cards(room, &head, &PapersWish { hand, ..PapersWish::default() });
        all[0]["cut"][0]["ruler"].to_string()
    };
    assert_eq!(lines(&mut room, Hand::Right), r#"["1: from A 4 to C 16","2: from B 4 to D 6"]"#);
    assert_eq!(lines(&mut room, Hand::Left), r#"["1: from C 16 to A 4","2: from D 6 to B 4"]"#);
    let by_template = PapersWish { by_template: true, centimetres: true, ..PapersWish::default() };
    let card = &cards(&mut room, &head, &by_template)[2];
    let said = sentences(card);
    assert!(said[0].contains("by template") && !said[0].contains("at least"), "{said:?}");
    assert!(said[1].contains("19.1 cm long"), "7 1/2 inches: {said:?}");
}

#[test]
fn rounds_are_counted_in_seams_from_the_first_patch() {
    let (_folder, mut room) = workroom();
    let head = piece(&mut room);
    let paper = room.paper(&head, PaperKind::Rounds, &PapersWish::default()).unwrap();
    let rounds = paper.facts["rounds"].as_array().unwrap();
    let patches: Vec<String> = rounds.iter().map(|round| round["patches"].to_string()).collect();
    assert_eq!(patches, ["[1]", "[2,4,8,10]", "[5]"]);
    // Patch 1 shows 3 1/2 by 3 1/2: a seam on each of its sides.
    let depth = rounds[0]["depth_in"][0].as_f64().unwrap();
    assert!((depth - 3.5).abs() < 1e-9, "{depth}");
}

#[test]
fn steps_have_the_time_at_which_they_were_sewn_until_that_is_taken_back() {
    let (_folder, mut room) = workroom();
    let head = piece(&mut room);
    let third = room.log("low tide", MAIN).unwrap().steps[2].id;
    let head = room.sew(&head.at(), third, false).unwrap().head;
    let sewn = |room: &Workroom| -> Vec<bool> {
        let log = room.log("low tide", MAIN).unwrap();
        room.times(&log).unwrap().iter().map(|times| times.sewn.is_some()).collect()
    };
    assert_eq!(sewn(&room).iter().filter(|sewn| **sewn).count(), 3);
    let list = room.steps_with_times(&head, &PapersWish::default()).unwrap();
    let line =
        |no: usize| list.lines().find(|line| line.contains(&format!("Step {no}:"))).unwrap().to_owned();
    assert!(line(1).contains("  0:00:00  ") && line(1).as_bytes()[2] == b':', "{list}");
    assert!(line(2).starts_with("not sewn"), "{list}");
    assert!(list.lines().any(|line| line.len() == 10 && line.split('-').count() == 3), "a day: {list}");
    room.undo().unwrap();
    assert!(sewn(&room).iter().all(|sewn| !sewn));
}

#[test]
fn papers_of_steps_say_on_paper_what_they_say() {
    let (_folder, mut room) = workroom();
    let head = piece(&mut room);
    let letters = Letters::new(&types());
    let large = [
        "Patch 10",
        "at least 8 by 2",
        "red edge, 7 1/2 long",
        "Now press steps 2 and 3, each towards what was sewn on.",
        "1: from A 4 to C 16",
    ];
    // Two patches of the unit are equal and from one cloth: one picture, said once.
    let small = [
        "Patch 10",
        "8: scrap (1) at least 8 by 2",
        "4, 5: scrap (1) each at least 2 by 4",
        "Sew 5 to 4 along 2. Press.",
        "Sew the unit to the red edge, 7 1/2.",
        "Don\u{2019}t press yet: sew step 3 first.",
        "Now press steps 2 and 3: 2 over; 3 over, trim ends.",
    ];
    for (small_cards, expect) in [(false, &large[..]), (true, &small[..])] {
        let wish = PapersWish { small_cards, ..PapersWish::default() };
        let text = text_of(&printed(&mut room, &head, PaperKind::Steps, &wish, &letters));
        for words in expect {
            assert!(text.contains(words), "{words}: {text}");
        }
    }
    let record = room.paper(&head, PaperKind::Record, &PapersWish::default()).unwrap();
    let text = text_of(&room.print(&head, &record, &PapersWish::default(), &letters).unwrap().pdf);
    assert!(text.contains("0 of 11 steps are sewn") && text.contains("First plan"), "{text}");
}

#[test]
fn a_large_card_is_one_page_on_every_paper() {
    let (_folder, mut room) = workroom();
    let head = piece(&mut room);
    let letters = Letters::new(&types());
    for paper in [Size::A4, Size::Letter] {
        for centimetres in [false, true] {
            let wish = PapersWish { paper, centimetres, ..PapersWish::default() };
            let pdf = printed(&mut room, &head, PaperKind::Steps, &wish, &letters);
            // How to read them, and the four cards.
            assert_eq!(pages_of(&pdf), 5, "{paper:?} {centimetres}");
        }
    }
    let small = PapersWish { small_cards: true, ..PapersWish::default() };
    assert!(pages_of(&printed(&mut room, &head, PaperKind::Steps, &small, &letters)) <= 2);
}

#[test]
fn nothing_is_told_in_inches_to_those_who_measure_in_centimetres() {
    let (_folder, mut room) = workroom();
    let head = piece(&mut room);
    let letters = Letters::new(&types());
    for kind in [PaperKind::Steps, PaperKind::Rounds, PaperKind::Record, PaperKind::Overview] {
        for small_cards in [false, true] {
            let wish = PapersWish { small_cards, centimetres: true, ..PapersWish::default() };
            let text = text_of(&printed(&mut room, &head, kind, &wish, &letters));
            let of_inch = ["inch", "yard", "/2", "/4", "/8", "\u{bd}", "\u{bc}", "\u{be}"];
            let found = of_inch.iter().find(|words| text.contains(**words));
            assert!(found.is_none(), "{kind} says {found:?}: {text}");
            assert!(text.contains("cm") || text.contains("centimetres"), "{kind}: {text}");
        }
    }
}

/// A square of 8 with a strip of 8 by 2 on each side of it, sewn on by one border, in turn.
fn bordered(room: &mut Workroom) -> Head {
    let cloth = enter(room, 40.0, 20.0);
    let head = room.new_quilt("edged", &Wish::default()).unwrap();
    let mut steps = vec![
        lay(1, cloth, (0.0, 0.0), (8.0, 8.0)),
        lay(2, cloth, (8.0, 0.0), (8.0, 4.0)),
        join(3, (1, 2), (2, 0), true),
    ];
    for (i, side) in [(0, (1, 0)), (1, (1, 1)), (2, (2, 2)), (3, (1, 3))] {
        let mark = 4 + 2 * i;
        let mut strip = [
            lay(mark, cloth, (0.0, 8.0 + 2.0 * f64::from(i)), (16.0, 2.0)),
            join(mark + 1, side, (mark, 2), true),
        ];
        for entry in &mut strip {
            entry.run = Some(Run { first: Mark(4), kind: RunKind::Border, ask: None });
        }
        steps.extend(strip);
    }
    room.append(&head.at(), &steps).unwrap()
}

#[test]
fn strips_that_are_sewn_on_alike_are_one_card_with_a_table() {
    let (_folder, mut room) = workroom();
    let head = bordered(&mut room);
    let letters = Letters::new(&types());
    // Each is a card for whoever reads no page.
    assert_eq!(cards(&mut room, &head, &PapersWish::default()).len(), 5);
    for small_cards in [false, true] {
        let wish = PapersWish { small_cards, ..PapersWish::default() };
        let text = text_of(&printed(&mut room, &head, PaperKind::Steps, &wish, &letters));
        assert!(text.contains("Steps 2 to 5: border, patches 4, 6, 8, 10"), "{text}");
        assert_eq!(text.matches("Lay it right sides together on its edge").count(), 1, "{text}");
        // The piece is 8 by 11 1/2; a strip sewn on at an end adds 2 less a seam of 1/4 on both sides of it.
        for row in ["2 4 16 by 2 8", "3 6 16 by 2 13", "4 8 16 by 2 9 1/2", "5 10 16 by 2 14 1/2"] {
            assert!(text.contains(row), "{row}: {text}");
        }
    }
}

#[test]
fn a_seam_that_stops_short_and_its_end_are_told_and_what_is_closed_has_a_name() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 20.0, 20.0);
    let head = room.new_quilt("wheel", &Wish::default()).unwrap();
    let mut first = join(3, (1, 0), (2, 2), false);
    if let Step::Sew(Sewing::Join { stop, slide_in, .. }) = &mut first.step {
        (*stop, *slide_in) = (Some((End::End, 2.0)), 1.0);
    }
    let steps = [
        lay(1, cloth, (0.0, 0.0), (4.0, 4.0)),
        lay(2, cloth, (0.0, 4.0), (6.0, 2.0)),
        first,
        Entry { mark: Mark(4), run: None, step: Step::Sew(Sewing::Close { seam: Name::new(Mark(3), 0) }) },
    ];
    let head = room.append(&head.at(), &steps).unwrap();
    let cards = cards(&mut room, &head, &PapersWish::default());
    let said = sentences(&cards[0]).join(" ");
    assert!(
        said.contains("slide it 1 towards the red dot") && said.contains("Stop 2 before the red dot"),
        "{said}"
    );
    assert_eq!(cards[1]["title"], "Close the open seam");
}

#[test]
fn what_is_sliced_apart_and_sewn_on_again_is_called_a_part() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 20.0, 20.0);
    let head = room.new_quilt("slice", &Wish::default()).unwrap();
    let along = Along::From { side: Name::new(Mark(1), 1), at_in: 3.0, turn: plane::Turn::QUARTER };
    let steps = [
        lay(1, cloth, (0.0, 0.0), (6.0, 4.0)),
        lay(2, cloth, (6.0, 0.0), (6.0, 2.0)),
        join(3, (1, 0), (2, 2), true),
        Entry { mark: Mark(4), run: None, step: Step::Cut { top: Mark(1), along, keep: Keep::Both } },
        lay(5, cloth, (0.0, 4.0), (7.0, 1.5)),
        join(6, (4, 0), (5, 2), true),
        join(7, (5, 0), (4, 1), true),
    ];
    let head = room.append(&head.at(), &steps).unwrap();
    let cards = cards(&mut room, &head, &PapersWish::default());
    assert_eq!(cards[1]["title"], "Slice apart");
    let said = sentences(&cards[1]).join(" ");
    // The side is 5 1/2 high, most of it patch 1.
    let line = "from 3 along the edge of patch 1 to 2 1/2 along the edge of patch 1";
    assert!(said.contains(&format!("Slice it apart along the black line: {line}")), "{said}");
    let last = sentences(cards.last().unwrap()).join(" ");
    assert!(last.contains("Lay the part with patch"), "{last}");
}

#[test]
fn an_empty_table_has_no_cards_and_one_patch_no_rounds() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 20.0, 10.0);
    let head = room.new_quilt("bare", &Wish::default()).unwrap();
    for kind in [PaperKind::Steps, PaperKind::Rounds, PaperKind::Record] {
        let why = room.paper(&head, kind, &PapersWish::default()).unwrap_err();
        assert_eq!(why.to_string(), "there is nothing on the table yet", "{kind}");
    }
    let head = room.append(&head.at(), &[lay(1, cloth, (0.0, 0.0), (4.0, 4.0))]).unwrap();
    let why = room.paper(&head, PaperKind::Rounds, &PapersWish::default()).unwrap_err();
    assert!(why.to_string().contains("only one patch") && why.hint().is_some(), "{why}");
    assert_eq!(cards(&mut room, &head, &PapersWish::default()).len(), 1);
}

fn printed(
    room: &mut Workroom,
    head: &Head,
    kind: PaperKind,
    wish: &PapersWish,
    letters: &Letters,
) -> Vec<u8> {
    let paper = room.paper(head, kind, wish).unwrap();
    room.print(head, &paper, wish, letters).unwrap().pdf
}

/// How many pages a PDF has, as poppler's pdfinfo counts them.
fn pages_of(pdf: &[u8]) -> usize {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("paper.pdf");
    std::fs::write(&file, pdf).unwrap();
    let told = Command::new("pdfinfo").arg(&file).output().expect("pdfinfo");
    let told = String::from_utf8_lossy(&told.stdout).into_owned();
    let line = told.lines().find_map(|line| line.strip_prefix("Pages:"));
    line.unwrap().trim().parse().unwrap()
}

fn types() -> Fonts {
    let packages = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../web/node_modules/@expo-google-fonts");
    let files = [
        "atkinson-hyperlegible/400Regular/AtkinsonHyperlegible_400Regular.ttf",
        "atkinson-hyperlegible/700Bold/AtkinsonHyperlegible_700Bold.ttf",
    ];
    Fonts::from_bytes(files.map(|name| std::fs::read(packages.join(name)).expect("run `npm ci` in web")))
}

/// The words of a PDF as poppler's pdftotext reads them, lines and gaps as single spaces.
fn text_of(pdf: &[u8]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("paper.pdf");
    std::fs::write(&file, pdf).unwrap();
    let told = Command::new("pdftotext").arg(&file).arg("-").output().expect("pdftotext");
    assert!(told.status.success() && told.stderr.is_empty(), "{}", String::from_utf8_lossy(&told.stderr));
    String::from_utf8_lossy(&told.stdout).split_whitespace().collect::<Vec<_>>().join(" ")
}
