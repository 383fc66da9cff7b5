//! The papers of the later stages: what they say is what was chosen, and what isn't there is said to be.

mod common;

use common::{plain, two_squares, workroom};
use papers::Fonts;
use papers::press::Letters;
use plane::Region;
use workroom::Workroom;
use workroom::asks::{AskError, StageAsk};
use workroom::papers::{Content, Paper, PaperKind, PapersWish};
use workroom::quilts::MAIN;

/// Two squares of 4 sewn together, 7 1/2 by 4, and cloth for what follows.
fn bench() -> (tempfile::TempDir, Workroom) {
    let (folder, mut room) = workroom();
    two_squares(&mut room);
    room.enter(vec![plain("navy", Region::rectangle(44.0, 36.0))]).unwrap();
    (folder, room)
}

fn take(room: &mut Workroom, ask: &str) {
    let ask: StageAsk = serde_json::from_str(ask).expect("an ask");
    let at = room.head("low tide", MAIN).unwrap().at();
    room.take_stage(&at, &ask).unwrap();
}

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
        let Content::Blocks(_) = &made.content else { panic!("{}", made.kind) };
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
