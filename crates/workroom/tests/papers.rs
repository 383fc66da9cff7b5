//! The papers of the later stages: what they say is what was chosen, and what isn't there is said to be.

mod common;

use common::{bench, take, workroom};
use papers::Fonts;
use papers::press::Letters;
use workroom::Workroom;
use workroom::asks::AskError;
use workroom::papers::{OwnWords, Paper, PaperKind, PapersWish};
use workroom::quilts::MAIN;

fn paper(room: &mut Workroom, kind: PaperKind) -> Result<Paper, AskError> {
    let head = room.head("low tide", MAIN).unwrap();
    room.paper(&head, kind, &PapersWish::default())
}

#[test]
fn a_paper_that_has_nothing_to_tell_says_what_is_missing() {
    let (_folder, mut room) = bench();
    for (kind, what) in [
        (PaperKind::RingBorder, "no ring and no border"),
        (PaperKind::Layers, "no layers"),
        (PaperKind::Figure, "no figure"),
        (PaperKind::Quilting, "no quilting"),
        (PaperKind::Binding, "no binding"),
        (PaperKind::Sleeve, "no sleeve"),
    ] {
        match paper(&mut room, kind) {
            Err(AskError::CantBe { what: said, hint }) => {
                assert!(said.contains(what) && !hint.is_empty(), "{kind}: {said}");
            }
            other => panic!("{kind}: {other:?}"),
        }
    }
    // What needs no choice is there: thread for what is to be sewn, and what lacks.
    assert!(paper(&mut room, PaperKind::Thread).is_ok() && paper(&mut room, PaperKind::Shopping).is_ok());
}

/// A mitred border of 2 round 7 1/2 by 4: seam lines of 7 and 3 1/2, and at square corners a mitre is as long as
/// the diagonal of a square of 2; checked by hand.
#[test]
fn the_strips_of_a_border_are_those_that_were_planned() {
    let (_folder, mut room) = bench();
    take(&mut room, r#"{ "border": { "cloth": "navy", "sewn_in": [2.0], "order": "mitred" } }"#);
    let told = paper(&mut room, PaperKind::RingBorder).unwrap().facts;
    let round = &told["rounds"][0];
    assert_eq!((round["stage"].as_str(), round["strips"].as_array().unwrap().len()), (Some("Border"), 4));
    let mut seams: Vec<f64> =
        round["strips"].as_array().unwrap().iter().map(|strip| strip["seam_in"].as_f64().unwrap()).collect();
    seams.sort_by(f64::total_cmp);
    for (seam, by_hand) in seams.iter().zip([3.5, 3.5, 7.0, 7.0]) {
        assert!((seam - by_hand).abs() < 1e-9, "{seams:?}");
    }
    for mitre in round["mitres"].as_array().unwrap() {
        assert!((mitre["corner_deg"].as_f64().unwrap() - 90.0).abs() < 1e-9, "{mitre}");
        assert!((mitre["seam_in"].as_f64().unwrap() - 2.0 * f64::sqrt(2.0)).abs() < 1e-9, "{mitre}");
    }
}

#[test]
fn every_stage_that_is_chosen_has_its_paper_and_all_of_them_are_bound() {
    let (_folder, mut room) = bench();
    take(&mut room, r#"{ "layers": { "batting": {} } }"#);
    take(&mut room, r#"{ "quilting": { "design": "lines", "spacing_in": 1.0 } }"#);
    take(&mut room, r#"{ "binding": {} }"#);
    take(&mut room, r#"{ "sleeve": {} }"#);
    let head = room.head("low tide", MAIN).unwrap();
    let wish = PapersWish { anyway: true, ..PapersWish::default() };
    let kinds = [PaperKind::Layers, PaperKind::Quilting, PaperKind::Binding, PaperKind::Sleeve];
    let papers = room.papers(&head, &kinds, &wish, &mut |_, _| true);
    assert!(papers.left_out.is_empty(), "{:?}", papers.left_out);
    let letters = Letters::new(&Fonts::none());
    for made in &papers.made {
        let printed = room.print(&head, made, &wish, &letters).unwrap();
        assert!(printed.pdf.starts_with(b"%PDF") && printed.pages > 0);
        // In true size 7 1/2 by 4 takes two tiles of the quilting, A4: 7.27 of its width can be printed.
        if made.kind == PaperKind::Quilting {
            assert!(printed.pages >= 3, "{} pages", printed.pages);
        }
    }
    // The corners of the raw rectangle are square: the sewing stops a seam before each.
    let binding = &papers.made[2].facts["plan"]["bound"];
    let corners = binding["corners"].as_array().unwrap();
    assert_eq!(corners.len(), 4);
    for corner in corners {
        assert!((corner["inside_deg"].as_f64().unwrap() - 90.0).abs() < 1e-9, "{corner}");
        assert!((corner["stop_in"].as_f64().unwrap() - 0.25).abs() < 1e-9, "{corner}");
    }
    assert!((binding["net_length_in"].as_f64().unwrap() - 23.0).abs() < 1e-9);
}

/// The maker's own words stand where they belong, go with the quilt into another workroom, and are kept whole or
/// not at all.
#[test]
fn own_words_are_kept_with_the_quilt() {
    let (_folder, mut room) = bench();
    let mut own = OwnWords { title: "Ebb".to_owned(), maker: "the circle".to_owned(), ..OwnWords::default() };
    own.papers.insert("cautions".to_owned(), "Mind the cat.".to_owned());
    own.papers.insert("layers".to_owned(), " ".to_owned());
    room.set_own_words("low tide", &own).unwrap();
    room.rename_quilt("low tide", "spring").unwrap();
    let kept = room.own_words("spring").unwrap();
    assert_eq!((kept.title.as_str(), kept.papers.len()), ("Ebb", 1), "what is empty isn't kept");

    let bytes = room.export("spring").unwrap();
    let (_other, mut other) = workroom();
    other.import(&bytes, None).unwrap();
    assert_eq!(other.own_words("spring").unwrap(), kept);

    let long = OwnWords { cover: "so ".repeat(200), ..kept.clone() };
    let refused = room.set_own_words("spring", &long).unwrap_err().to_string();
    assert!(refused.contains("600 letters"), "{refused}");
    let mut unknown = kept.clone();
    unknown.papers.insert("poem".to_owned(), "No".to_owned());
    assert!(room.set_own_words("spring", &unknown).is_err());
    assert_eq!(room.own_words("spring").unwrap(), kept);
    assert!(room.own_words("nobody's").is_err());
}

/// Two squares cut 4 by 4 are 32 square inches, and each stage that was chosen has its lines.
#[test]
fn materials_count_what_the_front_takes_and_what_comes_after() {
    let (_folder, mut room) = bench();
    take(&mut room, r#"{ "layers": { "batting": {} } }"#);
    take(&mut room, r#"{ "binding": {} }"#);
    let facts = paper(&mut room, PaperKind::Materials).unwrap().facts;
    assert_eq!(facts["pieces"].as_u64(), Some(2));
    assert!((facts["cut_in2"].as_f64().unwrap() - 32.0).abs() < 1e-6, "{facts}");
    let stages: Vec<&str> =
        facts["besides"].as_array().unwrap().iter().map(|row| row[0].as_str().unwrap()).collect();
    for stage in ["Backing", "Batting", "Binding"] {
        assert!(stages.contains(&stage), "{stages:?}");
    }
    assert_eq!(facts["undecided"], serde_json::json!(["quilting"]));
}
