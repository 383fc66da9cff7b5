//! What is sewn, unpicked, sewn again and amended: no cloth comes twice and none is lost.

mod common;

use common::{area_there, enter, join, lay, two_squares, workroom, workroom_called};
use plane::Turn;
use quilt::cloth::ClothId;
use quilt::log::{Along, Entry, Keep, Mark, Name, Step, StepId};
use quilt::wish::Wish;
use workroom::asks::Instead;
use workroom::audit::{WayUp, audit};
use workroom::quilts::{Amend, Head, MAIN};
use workroom::{Workroom, WorkroomError};

const CLOSE: f64 = 1e-6;
/// What the usual trim takes off two squares of 4 sewn together: 2 1/4 of their length of 7 1/2.
const OFF_IN2: f64 = 2.25 * 7.5;

fn assert_there(room: &mut Workroom, wanted: f64) {
    let found = area_there(room);
    assert!((found - wanted).abs() < CLOSE, "{found} is there, not {wanted}");
}

/// A trim that takes off all that lies within `deep_in` of the far long side.
fn trim(mark: u32, deep_in: f64) -> Entry {
    let along = Along::From { side: Name::new(Mark(1), 3), at_in: deep_in, turn: Turn::QUARTER };
    Entry { mark: Mark(mark), run: None, step: Step::Cut { top: Mark(1), along, keep: Keep::Right } }
}

/// [`two_squares`], trimmed and all of it sewn.
fn trimmed(room: &mut Workroom) -> (Head, Vec<StepId>) {
    let (_, head, mut ids) = two_squares(room);
    let head = room.append(&head.at(), &[trim(4, 2.25)]).unwrap();
    ids.extend(head.tip);
    let head = room.sew(&head.at(), head.tip.unwrap(), false).unwrap().head;
    assert_there(room, 28.0 + OFF_IN2);
    (head, ids)
}

/// A row of six squares of 3, all of one cloth of 18 by 3: patches 1, 2, 4, 6, 8 and 10.
fn row(room: &mut Workroom) -> (Head, Vec<StepId>) {
    let cloth = enter(room, 18.0, 3.0);
    let head = room.new_quilt("row", &Wish::default()).unwrap();
    let mut steps = vec![lay(1, cloth, (0.0, 0.0), (3.0, 3.0))];
    for i in 1..6 {
        let (patch, before) = (2 * i, if i == 1 { 1 } else { 2 * i - 2 });
        steps.push(lay(patch, cloth, (3.0 * f64::from(i), 0.0), (3.0, 3.0)));
        steps.push(join(patch + 1, (before, 1), (patch, 3), true));
    }
    let head = room.append(&head.at(), &steps).unwrap();
    let ids = room.log("row", MAIN).unwrap().steps.iter().map(|step| step.id).collect();
    (head, ids)
}

fn amend(room: &mut Workroom, head: &Head, mark: u32, step: Step) -> workroom::quilts::Amended {
    room.amend(&head.at(), &Amend { mark: Mark(mark), step, anyway: false }).unwrap()
}

#[test]
fn a_trim_that_is_unpicked_and_sewn_again_brings_its_offcut_once() {
    let (_folder, mut room) = workroom();
    let (head, ids) = trimmed(&mut room);
    let unpicked = room.unpick(&head.at(), Some(ids[2])).unwrap();
    assert!(unpicked.came.is_empty());
    let head = room.resew(&unpicked.head.at()).unwrap();
    let sewn = room.sew(&head.at(), ids[3], false).unwrap();
    assert!(sewn.came.is_empty());
    assert_there(&mut room, 28.0 + OFF_IN2);
    room.unpick(&sewn.head.at(), None).unwrap();
    assert_there(&mut room, 60.0);
}

#[test]
fn patches_come_back_without_what_a_trim_took_off_though_the_trim_was_unpicked_before() {
    let (_folder, mut room) = workroom();
    let (head, ids) = trimmed(&mut room);
    let head = room.unpick(&head.at(), Some(ids[2])).unwrap().head;
    assert_eq!(room.unpick(&head.at(), None).unwrap().came.len(), 2);
    assert_there(&mut room, 60.0);
}

#[test]
fn a_deeper_trim_after_unpicking_takes_off_only_what_is_still_on() {
    let (_folder, mut room) = workroom();
    let (head, ids) = trimmed(&mut room);
    let head = room.unpick(&head.at(), Some(ids[2])).unwrap().head;
    let head = room.append(&head.at(), &[trim(4, 2.5)]).unwrap();
    let sewn = room.sew(&head.at(), head.tip.unwrap(), false).unwrap();
    let strip = 0.25 * 7.5;
    assert!(sewn.came.is_empty() && (sewn.waste_in2 - strip).abs() < CLOSE, "{}", sewn.waste_in2);
    room.unpick(&sewn.head.at(), None).unwrap();
    assert_there(&mut room, 60.0 - strip);
}

#[test]
fn what_another_head_has_sewn_further_comes_apart_too() {
    let (_folder, mut room) = workroom();
    let (head, ids) = row(&mut room);
    let other = room.what_if(&head.at(), Some(ids[10]), "other").unwrap();
    let main = room.sew(&head.at(), ids[4], false).unwrap().head;
    room.sew(&other.at(), ids[10], false).unwrap();
    assert_there(&mut room, 0.0);
    let unpicked = room.unpick(&main.at(), Some(ids[0])).unwrap();
    assert_eq!(unpicked.came.len(), 5);
    assert_there(&mut room, 45.0);
    assert_eq!(room.head("row", "other").unwrap().sewn, Some(ids[0]));
    let main = room.resew(&unpicked.head.at()).unwrap();
    assert_eq!(room.sew(&main.at(), ids[10], false).unwrap().cut, 5);
    assert_there(&mut room, 0.0);
}

#[test]
fn amending_takes_apart_what_another_head_has_sewn_beyond() {
    let (_folder, mut room) = workroom();
    let (head, ids) = row(&mut room);
    let other = room.what_if(&head.at(), Some(ids[10]), "other").unwrap();
    let main = room.sew(&head.at(), ids[4], false).unwrap().head;
    room.sew(&other.at(), ids[10], false).unwrap();
    let used = enter(&mut room, 6.0, 6.0);
    let amended = amend(&mut room, &main, 2, lay(2, used, (0.0, 0.0), (3.0, 3.0)).step);
    assert_eq!((amended.held, amended.came.len()), (9, 3));
    // Sewn are the first and the third square of the old cloth, and one of the other.
    assert_there(&mut room, 54.0 + 36.0 - 27.0);
    assert_eq!(room.log("row", MAIN).unwrap().sewn, 5);
}

#[test]
fn an_amended_patch_takes_its_part_of_the_offcut_along() {
    let (_folder, mut room) = workroom();
    let (head, _) = trimmed(&mut room);
    let pieced = |room: &mut Workroom| -> Vec<(u32, Vec<ClothId>)> {
        let there = room.stash().unwrap().present();
        let pieced = there.iter().filter(|(_, cloth)| !cloth.parts.is_empty());
        pieced.map(|(no, cloth)| (*no, cloth.parts.iter().map(|part| part.cloth).collect())).collect()
    };
    let before = pieced(&mut room);
    let used = enter(&mut room, 6.0, 6.0);
    amend(&mut room, &head, 2, lay(2, used, (0.0, 0.0), (4.0, 4.0)).step);
    assert_there(&mut room, 60.0 + 36.0 - 32.0 + OFF_IN2);
    // It is the same offcut, by its number, and one of its parts is of the other cloth.
    let after = pieced(&mut room);
    assert_eq!((after.len(), after[0].0), (1, before[0].0));
    assert!(after[0].1.contains(&used));
    // What was not cut after all is whole again: one cloth of 60 less the first square.
    let whole = room.stash().unwrap().by_number(1).unwrap().now.clone().unwrap();
    assert!((whole.outline.area() - 44.0).abs() < CLOSE);
    room.undo().unwrap();
    assert_there(&mut room, 28.0 + OFF_IN2 + 36.0);
    assert_eq!(pieced(&mut room), before);
}

#[test]
fn an_amended_trim_brings_what_it_really_took_off() {
    let (_folder, mut room) = workroom();
    let (head, _) = trimmed(&mut room);
    let amended = amend(&mut room, &head, 4, trim(4, 2.0).step);
    assert_there(&mut room, 28.0 + 2.0 * 7.5);
    room.unpick(&amended.head.at(), None).unwrap();
    assert_there(&mut room, 60.0);
}

#[test]
fn an_offcut_that_something_has_happened_to_stays_as_it_is_when_its_patch_is_amended() {
    let (_folder, mut room) = workroom();
    let (head, _) = trimmed(&mut room);
    let offcut = room.stash().unwrap().present().iter().find(|(_, c)| !c.parts.is_empty()).unwrap().1.id;
    room.give_away(offcut).unwrap();
    let used = enter(&mut room, 6.0, 6.0);
    amend(&mut room, &head, 2, lay(2, used, (0.0, 0.0), (4.0, 4.0)).step);
    // In the piece is what the trim left of both squares; the rest is there or given away.
    assert_there(&mut room, 96.0 - (32.0 - OFF_IN2) - OFF_IN2);
}

#[test]
fn a_patch_that_was_larger_than_its_cloth_comes_back_as_it_was_laid() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 5.0, 5.0);
    let head = room.new_quilt("small", &Wish::default()).unwrap();
    // One sticks out by 1 in; the other lies where the stash has nothing at all.
    let steps = [lay(1, cloth, (2.0, 0.0), (4.0, 4.0)), lay(2, cloth, (20.0, 0.0), (3.0, 3.0))];
    let head = room.append(&head.at(), &steps).unwrap();
    let head = room.sew(&head.at(), head.tip.unwrap(), true).unwrap().head;
    assert_there(&mut room, 13.0);
    assert_eq!(room.unpick(&head.at(), None).unwrap().came.len(), 2);
    assert_there(&mut room, 13.0 + 16.0 + 9.0);
}

#[test]
fn what_came_sewn_with_a_quilt_comes_back_when_it_is_unpicked() {
    let (_folder, mut from) = workroom();
    let (_, ids) = trimmed(&mut from);
    let bytes = from.export("low tide").unwrap();
    let (_other, mut to) = workroom_called(8);
    to.import(&bytes, None).unwrap();
    // The pieced offcut stays with its maker; the rest of the cloth came along.
    assert_there(&mut to, 28.0);
    let head = to.head("low tide", MAIN).unwrap();
    let head = to.unpick(&head.at(), Some(ids[2])).unwrap().head;
    assert_eq!(to.unpick(&head.at(), None).unwrap().came.len(), 2);
    assert_there(&mut to, 60.0 - OFF_IN2);
    for _ in 0..3 {
        to.undo().unwrap();
    }
    assert_there(&mut to, 0.0);
    // Where the cloth is known already the ledger knows best: nothing comes that was not cut here.
    let (_third, mut known) = workroom_called(9);
    known.import(&bytes, None).unwrap();
    let again = known.import(&bytes, Some("again")).unwrap();
    assert!(known.unpick(&again.heads[0].at(), None).unwrap().came.is_empty());
    assert_there(&mut known, 28.0);
}

/// A cloth is known from another quilt, but these patches of it never were in this heap: they came
/// with their own quilt, and once.
#[test]
fn what_came_sewn_of_a_known_cloth_comes_back_unless_the_ledger_has_it_already() {
    let (_folder, mut from) = workroom();
    let cloth = enter(&mut from, 10.0, 6.0);
    let mut bundles = Vec::new();
    for (name, x) in [("one", 0.0), ("two", 4.0)] {
        let head = from.new_quilt(name, &Wish::default()).unwrap();
        let head = from.append(&head.at(), &[lay(1, cloth, (x, 0.0), (4.0, 4.0))]).unwrap();
        from.sew(&head.at(), head.tip.unwrap(), false).unwrap();
    }
    for name in ["one", "two"] {
        bundles.push(from.export(name).unwrap());
    }
    let (_other, mut to) = workroom_called(8);
    let one = to.import(&bundles[0], None).unwrap();
    let two = to.import(&bundles[1], None).unwrap();
    let again = to.import(&bundles[1], Some("two again")).unwrap();
    assert_there(&mut to, 28.0);
    assert!(to.unpick(&again.heads[0].at(), None).unwrap().came.is_empty());
    assert_eq!(to.unpick(&two.heads[0].at(), None).unwrap().came.len(), 1);
    assert_there(&mut to, 44.0);
    assert_eq!(to.unpick(&one.heads[0].at(), None).unwrap().came.len(), 1);
    assert_there(&mut to, 60.0);
    // Where the maker took it back herself, nothing comes twice.
    let (kept, again) = (from.head("one", MAIN).unwrap(), from.import(&bundles[0], Some("again")).unwrap());
    assert!(from.unpick(&again.heads[0].at(), None).unwrap().came.is_empty());
    assert_eq!(from.unpick(&kept.at(), None).unwrap().came.len(), 1);
    assert_there(&mut from, 44.0);
}

/// Chalk on an offcut that a trim no longer brings, since it was really made nearer the edge.
#[test]
fn chalk_on_an_offcut_that_is_lost_is_reported_with_a_remedy_and_mended_by_it() {
    let (_folder, mut room) = workroom();
    let (head, _) = trimmed(&mut room);
    let offcut = room.stash().unwrap().present().iter().find(|(_, c)| !c.parts.is_empty()).unwrap().1.id;
    let chalk = in_the_middle(&mut room, 5, offcut);
    let head = room.append(&head.at(), &[chalk]).unwrap();
    let report = |room: &mut Workroom| -> Vec<String> {
        let log = room.log("low tide", MAIN).unwrap();
        let found = audit(&log.entries(), log.sewn, room.stash().unwrap(), WayUp::default());
        found.iter().map(ToString::to_string).collect()
    };
    assert!(report(&mut room).is_empty());
    let head = amend(&mut room, &head, 4, trim(4, 0.25).step).head;
    let told = report(&mut room);
    assert!(told.len() == 1 && told[0].contains("patch 5") && told[0].contains("instead"), "{told:?}");
    let error = room.sew(&head.at(), head.tip.unwrap(), false).unwrap_err();
    assert!(error.hint().is_some_and(|hint| hint.contains("instead")), "{error}");
    // Unpicked, it counts on nothing; sewn again, it counts on the same offcut.
    let ids: Vec<StepId> = room.log("low tide", MAIN).unwrap().steps.iter().map(|step| step.id).collect();
    let head = room.unpick(&head.at(), Some(ids[3])).unwrap().head;
    assert!(report(&mut room).is_empty());
    let head = room.resew(&head.at()).unwrap();
    assert_eq!(report(&mut room), told);
    // The remedy: another cloth instead, or the trim taken back.
    let other = enter(&mut room, 6.0, 6.0);
    let instead = Instead { patch: Some(Mark(5)), cloth: other, wide_in: None, deep_in: None, anyway: false };
    room.instead(&head.at(), instead).unwrap();
    assert!(report(&mut room).is_empty());
    let deeds: Vec<String> = (0..5).map(|_| room.undo().unwrap()).collect();
    assert_eq!(deeds, ["amend", "enter", "resew", "unpick", "amend"]);
    assert!(report(&mut room).is_empty());
}

/// A square laid in the middle of a cloth, wherever that lies.
fn in_the_middle(room: &mut Workroom, mark: u32, cloth: ClothId) -> Entry {
    let outline = room.stash().unwrap().get(cloth).unwrap().came.outline.clone();
    let (lo, hi) = plane::polygon::bounds(&outline.outer).unwrap();
    let corner = ((lo.x + hi.x) / 2.0 - 0.75, (lo.y + hi.y) / 2.0 - 0.75);
    lay(mark, cloth, corner, (1.5, 1.5))
}

#[test]
fn the_only_head_that_holds_what_is_sewn_is_not_dropped() {
    let (_folder, mut room) = workroom();
    let (head, ids) = row(&mut room);
    let other = room.what_if(&head.at(), Some(ids[10]), "other").unwrap();
    let other = room.sew(&other.at(), ids[4], false).unwrap().head;
    let error = room.drop_what_if(&other.at()).unwrap_err();
    assert!(matches!(error, WorkroomError::SewnOnlyHere { .. }) && error.hint().is_some(), "{error}");
    let main = room.sew(&head.at(), ids[6], false).unwrap().head;
    room.drop_what_if(&other.at()).unwrap();
    assert_eq!(room.head("row", MAIN).unwrap(), main);
}
