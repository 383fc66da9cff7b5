//! Asks from the first patch to unpicking, on a workroom of its own.

use ::grow::{Bend, Effort, Goal};
use plane::Region;
use quilt::cloth::Look;
use quilt::log::{Along, Keep, Name, Press};
use workroom::Workroom;
use workroom::asks::{AskError, DrawAsk, Due, GrowAsk, HandSewn, Instead, SideMeasure};
use workroom::stash::NewCloth;

struct Room {
    room: Workroom,
    _folder: tempfile::TempDir,
}

/// A workroom with forty scraps of eight colours and a quilt.
fn room() -> Room {
    let folder = tempfile::tempdir().unwrap();
    let mut room = Workroom::create(&folder.path().join("w")).unwrap();
    let colours = ["red", "rust", "coral", "sand", "grey", "slate", "green", "navy"];
    let cloths = (0..40)
        .map(|i| {
            let word = colours[i % 8];
            let lab = colour::read_words(word).unwrap();
            let size = (4.0 + (i % 5) as f64, 5.0 + (i % 7) as f64);
            NewCloth::scrap(&format!("{word} {i}"), Region::rectangle(size.0, size.1), Look::plain(lab))
        })
        .collect();
    room.enter(cloths).unwrap();
    let wish = quilt::wish::Wish { across_in: 9.0, ..Default::default() };
    room.new_quilt("Test", &wish).unwrap();
    Room { room, _folder: folder }
}

fn grown(room: &mut Workroom, pieces: usize) {
    let at = room.head("Test", "main").unwrap().at();
    let ask = GrowAsk { goal: Goal::Pieces(pieces), effort: Effort::QUICK, seed: 3 };
    let report = room.grow(&at, &ask, &mut ()).unwrap();
    assert_eq!(report.pieces, pieces, "{}", report.words);
}

#[test]
fn an_offer_taken_is_appended_and_one_refused_is_not_offered_again() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 8);
    let offers = room.propose("Test", "main", None, 4, &Bend::default()).unwrap();
    assert!(offers.len() > 1);
    assert!(offers.iter().all(|offer| !offer.patches[0].name.is_empty() && offer.lay.contains("1/2")));
    let key = room.refuse_offer("Test", "main", 1).unwrap();
    assert_eq!(key, offers[0].proposal.key);
    let again = room.propose("Test", "main", None, 4, &Bend::default()).unwrap();
    assert!(again.iter().all(|offer| offer.proposal.key != key));
    let before = room.table("Test", "main").unwrap().patches().len();
    let at = room.head("Test", "main").unwrap().at();
    let (head, offer) = room.take(&at, 2, &Bend::default()).unwrap();
    let table = room.table("Test", "main").unwrap();
    assert_eq!(table.patches().len(), before + offer.proposal.patches.len());
    assert!(matches!(room.take(&head.at(), 1, &Bend::default()), Err(AskError::Stale)));
}

#[test]
fn sewn_unpicked_and_sewn_with_something_else() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 6);
    let head = room.head("Test", "main").unwrap();
    let log = room.log("Test", "main").unwrap();
    let before = room.stash().unwrap().present().len();
    let report = room.sew(&head.at(), log.steps[0].id, false).unwrap();
    assert_eq!(report.cut, 1);
    assert!(room.stash().unwrap().present().len() >= before);
    let cloth = room.stash().unwrap().present()[7].1.id;
    let at = room.head("Test", "main").unwrap().at();
    let amended = room.instead(&at, Instead { patch: None, cloth, size_in: None }).unwrap();
    let table = room.table("Test", "main").unwrap();
    assert!(table.patches().values().any(|patch| patch.cloth == cloth));
    let unpicked = room.unpick(&amended.head.at(), None).unwrap();
    assert_eq!(unpicked.head.tip, None);
}

#[test]
fn a_piece_that_does_not_cover_is_refused_with_remedies() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 6);
    let table = room.table("Test", "main").unwrap();
    let side = table.piece().unwrap().1.sides()[0];
    let cloth = room.stash().unwrap().present()[9].1.id;
    let at = room.head("Test", "main").unwrap().at();
    let mut sewn = HandSewn {
        onto: side.name().unwrap(),
        cloth,
        size_in: [side.length_in() - 1.0, 2.0],
        slide_in: 0.0,
        flush: [true, true],
        press: Press::Over,
        stop: None,
    };
    let error = room.sew_by_hand(&at, &sewn, false).unwrap_err();
    let AskError::Refused { remedies, .. } = &error else { panic!("{error}") };
    assert!(remedies.len() >= 3, "{remedies:?}");
    sewn.size_in[0] = side.length_in() + 1.5;
    if sewn.size_in[0] < 8.0 {
        room.sew_by_hand(&at, &sewn, true).unwrap();
    }
}

#[test]
fn measures_trueing_up_slicing_and_drawing() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 14);
    let table = room.table("Test", "main").unwrap();
    let side = table.piece().unwrap().1.sides()[1];
    let (name, length_in) = (side.name().unwrap(), side.length_in() - 0.1875);
    let at = room.head("Test", "main").unwrap().at();
    let report = room.measure(&at, &[SideMeasure { side: name, length_in }]).unwrap();
    let (_, was, now) = report.sides.iter().find(|(side, ..)| *side == name).copied().unwrap();
    assert!((was - now - 0.1875).abs() < 1e-6, "{was} {now}");
    let plan = room.plan_true_up("Test", "main", 5).unwrap();
    assert!(plan.off_share < 0.35 && !plan.cuts.is_empty(), "{plan:?}");
    let (head, plan) = room.true_up(&report.head.at(), 5).unwrap();
    let top = room.table("Test", "main").unwrap();
    assert!(top.piece().unwrap().1.sides().len() <= 8);
    assert!(
        (plane::polygon::area(&plan.outline)
            - plane::polygon::area(&top.piece().unwrap().1.outline_points()))
        .abs()
            < 1e-9
    );
    assert!(room.plan_true_up("Test", "main", 9).is_err());
    let eye = room.eye("Test", head.tip.unwrap()).unwrap();
    assert_eq!(eye.check.rows.len(), 15);
    assert!(!eye.due.contains(&Due::Trim(Name::new(quilt::log::Mark(1), 0))));
    let side = top.piece().unwrap().1.sides()[0];
    let along = Along::From {
        side: side.name().unwrap(),
        at_in: side.length_in() / 2.0,
        turn: plane::Turn::from_degrees(90.0),
    };
    let sliced = room.trim(&head.at(), along, Keep::Both).unwrap();
    assert_eq!(room.table("Test", "main").unwrap().tops().len(), 2);
    let svg = room.draw(sliced.tip.unwrap(), None, DrawAsk { labels: true, ..DrawAsk::default() }).unwrap();
    assert!(svg.to_svg(&drawing::svg::SvgOptions::default()).contains("<svg"));
}

#[test]
fn what_ifs_start_from_the_same_step_and_differ() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 5);
    let at = room.head("Test", "main").unwrap().at();
    let ask = GrowAsk { goal: Goal::Pieces(9), effort: Effort::QUICK, seed: 1 };
    let found = room.what_ifs(&at, 3, &ask, &mut ()).unwrap();
    assert_eq!(found.len(), 3);
    assert_ne!(found[0].head.tip, found[1].head.tip);
    let start = room.log("Test", "main").unwrap().steps.len();
    for one in &found {
        let log = room.log("Test", &one.head.name).unwrap();
        assert_eq!(log.steps[..start], room.log("Test", "main").unwrap().steps[..]);
    }
}
