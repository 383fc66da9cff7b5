//! Heads, logs, sewing, unpicking, amending and undo, over heads and ledger at once.

mod common;

use common::{area_there, enter, join, lay, note, two_squares, workroom};
use plane::{Pose, Region, Turn, Vec2};
use quilt::cloth::ClothId;
use quilt::log::{Along, Entry, Keep, Mark, Name, Step, StepId};
use quilt::wish::Wish;
use workroom::quilts::{Amend, Head, MAIN};
use workroom::{Workroom, WorkroomError};

#[test]
fn a_log_comes_back_as_it_was_written() {
    let (folder, mut room) = workroom();
    let (_, head, ids) = two_squares(&mut room);
    let table = room.table("low tide", MAIN).unwrap();
    assert_eq!(head.tip, ids.last().copied());
    drop(room);
    let mut room = Workroom::open(&folder.path().join("room")).unwrap();
    assert_eq!(room.table("low tide", MAIN).unwrap(), table);
    assert_eq!(table.piece().unwrap().1.size_in(), (7.5, 4.0));
    assert_eq!(room.path_bytes(ids[2]).unwrap().len(), 3);
    assert_eq!(room.next_mark("low tide", MAIN).unwrap(), Mark(4));
}

#[test]
fn a_step_that_cant_be_sewn_is_refused_and_nothing_of_its_batch_stays() {
    let (_folder, mut room) = workroom();
    let (cloth, head, _) = two_squares(&mut room);
    let batch = [lay(4, cloth, (0.0, 4.0), (2.0, 2.0)), join(5, (1, 0), (4, 2), false)];
    let error = room.append(&head.at(), &batch).unwrap_err();
    assert!(matches!(error, WorkroomError::Refused { mark: Mark(5), .. }), "{error}");
    assert_eq!(room.head("low tide", MAIN).unwrap(), head);
    let again = room.append(&head.at(), &[note(3, "a mark used twice")]).unwrap_err();
    assert!(matches!(again, WorkroomError::Refused { mark: Mark(3), .. }), "{again}");
}

#[test]
fn sewing_cuts_cloth_and_undo_makes_it_whole() {
    let (_folder, mut room) = workroom();
    let (cloth, head, ids) = two_squares(&mut room);
    assert_eq!(area_there(&mut room), 60.0, "chalk cuts nothing");
    let report = room.sew(&head.at(), ids[1], false).unwrap();
    assert_eq!((report.cut, report.came.len()), (2, 0));
    // What is left of 10 by 6 without 8 by 4 is one L of 28, and the cloth keeps its name.
    let now = room.stash().unwrap().get(cloth).unwrap().now.clone().unwrap();
    assert!((now.outline.area() - 28.0).abs() < 1e-6);
    assert_eq!(report.head.sewn, Some(ids[1]));
    let report = room.sew(&report.head.at(), ids[2], false).unwrap();
    assert_eq!((report.cut, report.head.sewn), (0, Some(ids[2])));
    let error = room.sew(&report.head.at(), ids[2], false).unwrap_err();
    assert!(matches!(error, WorkroomError::SewnAlready(Mark(3))), "{error}");
    assert_eq!((room.undo().unwrap(), room.undo().unwrap()), ("sewn".to_owned(), "sewn".to_owned()));
    assert_eq!(room.head("low tide", MAIN).unwrap().sewn, None);
    assert_eq!(area_there(&mut room), 60.0);
    assert_eq!(room.stash().unwrap().get(cloth).unwrap().no, 1);
}

/// After the first cut 4 by 1 1/8 is left: too narrow to keep, but the next step is cut from it.
#[test]
fn patches_are_cut_one_after_the_other_from_what_would_be_waste_between() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 4.0, 2.25);
    let head = room.new_quilt("bars", &Wish::default()).unwrap();
    let steps = [lay(1, cloth, (0.0, 0.0), (4.0, 1.125)), lay(2, cloth, (0.0, 1.125), (4.0, 1.125))];
    let head = room.append(&head.at(), &steps).unwrap();
    let first = room.log("bars", MAIN).unwrap().steps[0].id;
    let head = room.sew(&head.at(), first, false).unwrap().head;
    let report = room.sew(&head.at(), head.tip.unwrap(), false).unwrap();
    assert_eq!((report.cut, report.waste_in2, area_there(&mut room)), (1, 0.0, 0.0));
}

#[test]
fn everything_can_be_undone_to_the_beginning() {
    let (_folder, mut room) = workroom();
    let (_, head, ids) = two_squares(&mut room);
    let sewn = room.sew(&head.at(), ids[2], false).unwrap().head;
    room.unpick(&sewn.at(), Some(ids[0])).unwrap();
    room.set_wish("low tide", &Wish { across_in: 30.0, ..Wish::default() }).unwrap();
    room.rename_quilt("low tide", "high tide").unwrap();
    let deeds: Vec<String> = std::iter::from_fn(|| room.undo().ok()).collect();
    assert_eq!(deeds, ["rename quilt", "wish", "unpick", "sewn", "append", "new quilt", "enter"]);
    assert!(room.quilts().unwrap().is_empty());
    assert!(room.stash().unwrap().present().is_empty());
    assert!(matches!(room.undo(), Err(WorkroomError::NothingToUndo)));
    // A number once given is never given again.
    let cloth = enter(&mut room, 2.0, 2.0);
    assert!(room.stash().unwrap().get(cloth).unwrap().no > 1);
}

#[test]
fn a_patch_that_its_cloth_has_no_room_for_is_not_sewn_unless_she_says_so() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 5.0, 5.0);
    let head = room.new_quilt("small", &Wish::default()).unwrap();
    let head = room.append(&head.at(), &[lay(1, cloth, (2.0, 0.0), (4.0, 4.0))]).unwrap();
    let error = room.sew(&head.at(), head.tip.unwrap(), false).unwrap_err();
    let WorkroomError::NotThere { no, area_in2, by_in } = error else { panic!("{error}") };
    assert_eq!(no, 1);
    assert!((area_in2 - 4.0).abs() < 1e-6 && (by_in - 1.0).abs() < 1e-6);
    assert_eq!(area_there(&mut room), 25.0);
    let report = room.sew(&head.at(), head.tip.unwrap(), true).unwrap();
    assert!((report.beyond_in2 - 4.0).abs() < 1e-6);
    assert!((area_there(&mut room) - (25.0 - 12.0)).abs() < 1e-6);
    let unknown = ClothId(42);
    let head = room.append(&report.head.at(), &[lay(2, unknown, (0.0, 0.0), (1.0, 1.0))]).unwrap();
    let error = room.sew(&head.at(), head.tip.unwrap(), true).unwrap_err();
    assert!(matches!(error, WorkroomError::NoSuchCloth(id) if id == unknown), "{error}");
}

#[test]
fn unpicking_what_is_sewn_gives_the_patch_back_and_it_can_be_sewn_again() {
    let (_folder, mut room) = workroom();
    let (cloth, head, ids) = two_squares(&mut room);
    let sewn = room.sew(&head.at(), ids[2], false).unwrap().head;
    let report = room.unpick(&sewn.at(), Some(ids[0])).unwrap();
    assert_eq!((report.head.tip, report.head.sewn), (Some(ids[0]), Some(ids[0])));
    assert_eq!(report.came.len(), 1);
    let back = room.stash().unwrap().get(report.came[0]).unwrap().clone();
    assert!((back.came.outline.area() - 16.0).abs() < 1e-6);
    assert_eq!((back.came.parent, back.root), (Some(cloth), cloth));
    assert_eq!(room.stash().unwrap().lineage(report.came[0]), [cloth]);
    // Sewing the same patch again cuts it from what came back.
    let head = room.resew(&report.head.at()).unwrap();
    assert_eq!((head.tip, head.sewn), (Some(ids[2]), Some(ids[0])));
    let report = room.sew(&head.at(), ids[2], false).unwrap();
    assert_eq!(report.cut, 1);
    assert!((area_there(&mut room) - 28.0).abs() < 1e-6);
    assert!(room.stash().unwrap().get(back.came.id).unwrap().now.is_none());
    assert!(matches!(room.resew(&report.head.at()), Err(WorkroomError::NothingToResew)));
}

#[test]
fn a_trims_offcut_comes_back_with_its_seams_and_is_gone_from_the_patch() {
    let (_folder, mut room) = workroom();
    let (cloth, head, _) = two_squares(&mut room);
    // Across both patches, parallel to the long side, 1.75 above it: what lies right of the cut,
    // below it, is taken off.
    let side = Name::new(Mark(1), 3);
    let along = Along::From { side, at_in: 2.25, turn: Turn::QUARTER };
    let cut = Entry { mark: Mark(4), run: None, step: Step::Cut { top: Mark(1), along, keep: Keep::Right } };
    let head = room.append(&head.at(), &[cut]).unwrap();
    let table = room.table("low tide", MAIN).unwrap();
    let cut_off = 30.0 - table.piece().unwrap().1.size_in().0 * table.piece().unwrap().1.size_in().1;
    let report = room.sew(&head.at(), head.tip.unwrap(), false).unwrap();
    assert_eq!(report.came.len(), 1);
    let offcut = room.stash().unwrap().get(report.came[0]).unwrap().came.clone();
    assert_eq!(offcut.parts.len(), 2);
    assert!(offcut.parts.iter().all(|part| part.cloth == cloth));
    assert!((offcut.outline.area() - cut_off).abs() < 1e-6, "{cut_off}");
    // Where each part was on its cloth: mapped back it lies in the patch that was cut.
    for part in &offcut.parts {
        let on_cloth = part.pose.inverse().apply_all(&part.shows);
        let whole = Region::rectangle(8.0, 4.0);
        assert!(on_cloth.iter().all(|&p| plane::depth_inside(&whole, p) > -1e-9));
    }
    // Unpicked, the patches come back without what was trimmed off.
    let before = area_there(&mut room);
    let report = room.unpick(&report.head.at(), None).unwrap();
    assert_eq!(report.came.len(), 2);
    let came: f64 =
        report.came.iter().map(|id| room.stash().unwrap().get(*id).unwrap().came.outline.area()).sum();
    assert!((came - (32.0 - cut_off)).abs() < 1e-6);
    assert!((area_there(&mut room) - before - came).abs() < 1e-9);
}

#[test]
fn what_is_sewn_lies_on_one_path() {
    let (_folder, mut room) = workroom();
    let (cloth, main, ids) = two_squares(&mut room);
    let other = room.what_if(&main.at(), Some(ids[0]), "longer").unwrap();
    let other = room.append(&other.at(), &[lay(2, cloth, (4.0, 0.0), (3.0, 4.0))]).unwrap();
    let main = room.sew(&main.at(), ids[1], false).unwrap().head;
    let error = room.sew(&other.at(), other.tip.unwrap(), false).unwrap_err();
    assert!(matches!(error, WorkroomError::SewnElsewhere { .. }), "{error}");
    // The shared first step is sewn already, whichever head says so: nothing is cut twice.
    let other = room.sew(&other.at(), ids[0], false).unwrap();
    assert_eq!(other.cut, 0);
    // Unpicking it on one head unpicks it on all.
    room.unpick(&other.head.at(), None).unwrap();
    assert_eq!(room.head("low tide", MAIN).unwrap().sewn, None);
    assert!(room.head("low tide", MAIN).unwrap().version > main.version);
    assert!(matches!(room.what_if(&main.at(), None, "longer"), Err(WorkroomError::HeadMoved { .. })));
}

#[test]
fn what_ifs_can_be_begun_and_dropped() {
    let (_folder, mut room) = workroom();
    let (_, main, ids) = two_squares(&mut room);
    let what_if = room.what_if(&main.at(), Some(ids[1]), "b").unwrap();
    assert!(matches!(room.what_if(&main.at(), None, "b"), Err(WorkroomError::HeadTaken { .. })));
    assert!(matches!(room.what_if(&main.at(), Some(StepId([0; 32])), "c"), Err(WorkroomError::NotOnPath(_))));
    room.drop_what_if(&what_if.at()).unwrap();
    assert_eq!(room.quilts().unwrap()[0].heads.len(), 1);
    room.undo().unwrap();
    assert_eq!(room.head("low tide", "b").unwrap().tip, Some(ids[1]));
    assert!(room.drop_what_if(&main.at()).is_err());
    for bad in ["", " b", "b\n", &"b".repeat(101)] {
        assert!(
            matches!(room.new_quilt(bad, &Wish::default()), Err(WorkroomError::BadName { .. })),
            "{bad:?}"
        );
    }
    assert!(matches!(room.new_quilt("low tide", &Wish::default()), Err(WorkroomError::QuiltTaken(_))));
}

/// A row of `n` squares of 3, each sewn to the right of the one before.
fn row(room: &mut Workroom, n: u32) -> (ClothId, Head) {
    let cloth = enter(room, 3.0 * f64::from(n), 3.0);
    let head = room.new_quilt("row", &Wish::default()).unwrap();
    let mut steps = vec![lay(1, cloth, (0.0, 0.0), (3.0, 3.0))];
    for i in 1..n {
        let (patch, before) = (2 * i, if i == 1 { 1 } else { 2 * i - 2 });
        steps.push(lay(patch, cloth, (3.0 * f64::from(i), 0.0), (3.0, 3.0)));
        steps.push(join(patch + 1, (before, 1), (patch, 3), true));
    }
    let head = room.append(&head.at(), &steps).unwrap();
    (cloth, head)
}

#[test]
fn amending_an_early_step_keeps_the_later_ones_under_their_names() {
    let (_folder, mut room) = workroom();
    let (cloth, head) = row(&mut room, 20);
    let old = room.log("row", MAIN).unwrap();
    let longer = lay(4, cloth, (6.0, 0.0), (3.25, 3.0)).step;
    let amended = room.amend(&head.at(), &Amend { mark: Mark(4), step: longer, anyway: false }).unwrap();
    assert_eq!((amended.held, amended.stopped), (39 - 4, None));
    assert!(amended.chalk.is_empty());
    let new = room.log("row", MAIN).unwrap();
    let marks = |log: &workroom::quilts::Log| log.steps.iter().map(|s| s.entry.mark).collect::<Vec<_>>();
    assert_eq!(marks(&new), marks(&old));
    let width = room.table("row", MAIN).unwrap().piece().unwrap().1.size_in().0;
    assert!((width - (20.0 * 3.0 - 19.0 * 0.5 + 0.25)).abs() < 1e-9);
    assert_eq!(amended.before, "main-as-it-was-1");
    assert_eq!(room.log("row", &amended.before).unwrap().steps, old.steps);
}

#[test]
fn amending_stops_with_the_reason_and_drops_nothing() {
    let (_folder, mut room) = workroom();
    let (cloth, head) = row(&mut room, 6);
    let old = room.log("row", MAIN).unwrap();
    let shorter = lay(4, cloth, (6.0, 0.0), (3.0, 2.0)).step;
    let amended = room.amend(&head.at(), &Amend { mark: Mark(4), step: shorter, anyway: false }).unwrap();
    let (mark, problem) = amended.stopped.unwrap();
    assert_eq!((mark, problem.rule), (Mark(5), quilt::Rule::Cover));
    assert_eq!(amended.chalk, old.entries()[4..]);
    assert_eq!(room.log("row", MAIN).unwrap().steps.len(), 4);
    assert_eq!(room.log("row", &amended.before).unwrap().steps, old.steps);
    room.undo().unwrap();
    assert_eq!(room.log("row", MAIN).unwrap().steps, old.steps);
    assert!(room.head("row", &amended.before).is_err());
}

#[test]
fn saying_that_something_else_was_used_puts_the_stash_right() {
    let (_folder, mut room) = workroom();
    let (first, head) = row(&mut room, 4);
    let other = enter(&mut room, 6.0, 6.0);
    let log = room.log("row", MAIN).unwrap();
    let head = room.sew(&head.at(), log.steps[2].id, false).unwrap().head;
    let used = lay(2, other, (1.0, 1.0), (3.0, 3.0)).step;
    let amended = room.amend(&head.at(), &Amend { mark: Mark(2), step: used, anyway: false }).unwrap();
    assert_eq!(amended.held, 5);
    let new = room.log("row", MAIN).unwrap();
    assert_eq!((new.sewn, amended.head.sewn), (3, Some(new.steps[2].id)));
    // The second square of the first cloth is whole again; 3 by 3 are gone from the other.
    let stash = room.stash().unwrap();
    let there: f64 = stash.family(first).iter().map(|cloth| cloth.outline.area()).sum();
    assert!((there - 27.0).abs() < 1e-6, "{there}");
    let there: f64 = stash.family(other).iter().map(|cloth| cloth.outline.area()).sum();
    assert!((there - 27.0).abs() < 1e-6, "{there}");
    // The path as it was before is all chalk from there on.
    assert_eq!(room.log("row", &amended.before).unwrap().sewn, 1);
    room.undo().unwrap();
    let stash = room.stash().unwrap();
    let there: f64 = stash.family(first).iter().map(|cloth| cloth.outline.area()).sum();
    assert!((there - 18.0).abs() < 1e-6, "{there}");
}

#[test]
fn a_cut_that_others_rest_on_gives_its_cloth_back_when_it_is_amended() {
    let (_folder, mut room) = workroom();
    let (cloth, head) = row(&mut room, 4);
    let other = enter(&mut room, 6.0, 6.0);
    let head = room.sew(&head.at(), head.tip.unwrap(), false).unwrap().head;
    assert!((area_there(&mut room) - 36.0).abs() < 1e-6);
    let used = lay(1, other, (0.0, 0.0), (3.0, 3.0)).step;
    room.amend(&head.at(), &Amend { mark: Mark(1), step: used, anyway: false }).unwrap();
    let there: f64 = room.stash().unwrap().family(cloth).iter().map(|c| c.outline.area()).sum();
    assert!((there - 9.0).abs() < 1e-6, "{there}");
    assert!((area_there(&mut room) - 36.0).abs() < 1e-6);
}

#[test]
fn sewn_patches_beyond_a_step_that_no_longer_holds_come_back_as_cloth() {
    let (_folder, mut room) = workroom();
    let (first, head) = row(&mut room, 6);
    let other = enter(&mut room, 6.0, 6.0);
    let head = room.sew(&head.at(), head.tip.unwrap(), false).unwrap().head;
    assert!((area_there(&mut room) - 36.0).abs() < 1e-6);
    // The third square was 3 by 2 of another cloth: it doesn't cover, and nothing after it holds.
    let shorter = lay(4, other, (0.0, 0.0), (3.0, 2.0)).step;
    let amended = room.amend(&head.at(), &Amend { mark: Mark(4), step: shorter, anyway: false }).unwrap();
    assert_eq!(amended.stopped.as_ref().map(|(mark, _)| *mark), Some(Mark(5)));
    let log = room.log("row", MAIN).unwrap();
    assert_eq!((log.steps.len(), log.sewn), (4, 4));
    // The first two squares stay cut; the third was never cut of the first cloth, and the last
    // three came apart.
    assert_eq!(amended.came.len(), 3);
    let there = |room: &mut Workroom, cloth| -> f64 {
        room.stash().unwrap().family(cloth).iter().map(|cloth| cloth.outline.area()).sum()
    };
    assert!((there(&mut room, first) - 36.0).abs() < 1e-6);
    assert!((there(&mut room, other) - 30.0).abs() < 1e-6);
    // Planned and sewn again, they are cut again, once.
    let again = lay(4, other, (0.0, 0.0), (3.0, 3.0)).step;
    let head = room.amend(&amended.head.at(), &Amend { mark: Mark(4), step: again, anyway: false }).unwrap();
    let head = room.append(&head.head.at(), &amended.chalk).unwrap();
    room.sew(&head.at(), head.tip.unwrap(), false).unwrap();
    assert!((there(&mut room, first) - 9.0).abs() < 1e-6);
    assert!((there(&mut room, other) - 27.0).abs() < 1e-6);
    for _ in 0..4 {
        room.undo().unwrap();
    }
    assert!((there(&mut room, first) - 0.0).abs() < 1e-6);
    assert!((there(&mut room, other) - 36.0).abs() < 1e-6);
}

#[test]
fn refused_proposals_and_wishes_are_kept_with_the_quilt() {
    let (_folder, mut room) = workroom();
    two_squares(&mut room);
    room.refuse("low tide", "{\"edge\":\"1a\"}").unwrap();
    assert_eq!(room.refusals("low tide").unwrap(), ["{\"edge\":\"1a\"}"]);
    room.forget_refusals("low tide").unwrap();
    assert!(room.refusals("low tide").unwrap().is_empty());
    let wish = Wish { across_in: 31.0 / 3.0, ..Wish::default() };
    room.set_wish("low tide", &wish).unwrap();
    assert_eq!(room.wish("low tide").unwrap(), wish);
    assert!(matches!(room.wish("none"), Err(WorkroomError::NoSuchQuilt(_))));
}

#[test]
fn a_turned_patch_is_cut_where_its_pose_says() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 8.0, 6.0);
    let head = room.new_quilt("turned", &Wish::default()).unwrap();
    let at = Pose::new(Turn::QUARTER, Vec2::new(6.0, 2.0));
    let cut = common::rectangle(0.0, 0.0, 2.0, 4.0);
    let step = Step::Lay { cloth, at, cut };
    let head = room.append(&head.at(), &[Entry { mark: Mark(1), run: None, step }]).unwrap();
    room.sew(&head.at(), head.tip.unwrap(), false).unwrap();
    // A quarter turn lays 2 by 4 down as 4 by 2, from (2, 2) to (6, 4): a hole in the cloth.
    let now = room.stash().unwrap().get(cloth).unwrap().now.clone().unwrap();
    let (lo, hi) = plane::polygon::bounds(&now.outline.holes[0]).unwrap();
    for (found, wanted) in [(lo.x, 2.0), (lo.y, 2.0), (hi.x, 6.0), (hi.y, 4.0)] {
        assert!((found - wanted).abs() < 1e-6, "{lo:?} {hi:?}");
    }
}

#[test]
fn a_wish_that_makes_no_sense_is_refused_wherever_it_is_made() {
    let (_folder, mut room) = workroom();
    two_squares(&mut room);
    let wish = Wish { piece_in: [0.0, 0.0], ..Wish::default() };
    assert!(matches!(room.new_quilt("other", &wish), Err(WorkroomError::Wish(_))));
    assert!(matches!(room.set_wish("low tide", &wish), Err(WorkroomError::Wish(_))));
    assert_eq!(room.wish("low tide").unwrap(), Wish::default());
}

#[test]
fn every_refusal_says_what_to_do() {
    let (_folder, mut room) = workroom();
    let (cloth, head, _) = two_squares(&mut room);
    let dropped = room.drop_what_if(&head.at()).unwrap_err();
    let resewn = room.resew(&head.at()).unwrap_err();
    let unseamed = room.unpick_cloth(cloth, 0.25).unwrap_err();
    assert_eq!(unseamed.to_string(), "cloth number 1 has no seams that could be unpicked");
    let taken = room.append(&head.at(), &[note(3, "a mark used twice")]).unwrap_err();
    let thin = workroom::stash::Usable { least_width_in: -1.0, least_area_in2: 4.0 };
    let wrong = room.set_usable(thin).unwrap_err();
    while room.undo().is_ok() {}
    let undone = room.undo().unwrap_err();
    let unknown = room.give_away(cloth).unwrap_err();
    for error in [dropped, resewn, unseamed, taken, wrong, undone, unknown] {
        assert!(error.hint().is_some_and(|hint| hint.ends_with('.')), "{error}");
    }
}
