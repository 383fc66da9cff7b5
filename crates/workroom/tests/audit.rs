//! Does the cloth that a plan counts on exist?

mod common;

use common::{enter, join, lay, note, plain, rectangle, workroom};
use plane::{Pose, Region, Turn, Vec2};
use quilt::cloth::{ClothId, Runs};
use quilt::log::{Entry, Mark, Step};
use quilt::table::replay;
use quilt::wish::Wish;
use quilt::{Place, Rule};
use workroom::Workroom;
use workroom::audit::{WayUp, audit, claims, promised_elsewhere};
use workroom::stash::CutAsk;

fn rules(room: &mut Workroom, log: &[Entry], sewn: usize) -> Vec<(Rule, Place)> {
    let problems = audit(log, sewn, room.stash().unwrap(), WayUp::default());
    problems.into_iter().map(|problem| (problem.rule, problem.place)).collect()
}

#[test]
fn each_thing_that_can_be_wrong_is_reported_with_its_patch_and_number() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 10.0, 6.0);
    let log = [
        lay(1, cloth, (0.0, 0.0), (4.0, 4.0)),
        lay(2, cloth, (8.0, 0.0), (4.0, 4.0)),
        lay(3, cloth, (3.0, 0.0), (4.0, 4.0)),
        lay(4, ClothId(9), (0.0, 0.0), (1.0, 1.0)),
        note(5, "chalk"),
    ];
    let problems = audit(&log, 0, room.stash().unwrap(), WayUp::default());
    let found: Vec<_> = problems.iter().map(|p| (p.rule, p.place)).collect();
    let patch = |mark| Place::Patch(Mark(mark));
    assert_eq!(
        found,
        [(Rule::NoRoom, patch(2)), (Rule::PromisedTwice, patch(3)), (Rule::UnknownCloth, patch(4))]
    );
    assert!((problems[0].measured_in - 2.0).abs() < 1e-9, "it sticks out by 2");
    assert!((problems[1].measured_in - 4.0).abs() < 1e-9, "1 by 4 is promised twice");
    // What is sewn counts on nothing any more.
    assert!(rules(&mut room, &log, 4).is_empty());
    assert_eq!(claims(&log, 2).values().map(Vec::len).sum::<usize>(), 2);
}

#[test]
fn cloth_that_was_cut_for_something_else_is_reported_and_replay_is_untouched() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 10.0, 6.0);
    let log = [lay(1, cloth, (0.0, 0.0), (4.0, 4.0)), lay(2, cloth, (5.0, 1.0), (4.0, 4.0))];
    let before = replay(&log).0;
    assert!(rules(&mut room, &log, 0).is_empty());
    let piece = rectangle(3.0, 0.0, 2.0, 6.0);
    room.cut(&CutAsk { cloth, piece, keep: false, anyway: false }).unwrap();
    let problems = audit(&log, 0, room.stash().unwrap(), WayUp::default());
    assert_eq!(problems.len(), 1, "the second patch lies on a rest: {problems:?}");
    assert_eq!((problems[0].rule, problems[0].place), (Rule::AlreadyCut, Place::Patch(Mark(1))));
    assert!((problems[0].measured_in - 4.0).abs() < 1e-6);
    assert_eq!(replay(&log).0, before);
}

#[test]
fn what_ifs_dont_see_each_other_and_other_quilts_do_softly() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 10.0, 6.0);
    let main = room.new_quilt("first", &Wish::default()).unwrap();
    let what_if = room.what_if(&main.at(), None, "other").unwrap();
    let step = lay(1, cloth, (0.0, 0.0), (4.0, 4.0));
    room.append(&main.at(), std::slice::from_ref(&step)).unwrap();
    room.append(&what_if.at(), &[lay(1, cloth, (1.0, 1.0), (4.0, 4.0))]).unwrap();
    let second = room.new_quilt("second", &Wish::default()).unwrap();
    room.append(&second.at(), &[lay(1, cloth, (2.0, 2.0), (4.0, 4.0))]).unwrap();
    let logs: Vec<_> = [("first", "main"), ("first", "other"), ("second", "main")]
        .map(|(quilt, head)| room.log(quilt, head).unwrap())
        .into();
    for log in &logs {
        assert!(rules(&mut room, &log.entries(), log.sewn).is_empty());
    }
    let own = claims(&logs[0].entries(), logs[0].sewn);
    let other = claims(&logs[2].entries(), logs[2].sewn);
    let soft = promised_elsewhere(&own, &other, room.stash().unwrap());
    assert_eq!((soft.len(), soft[0].rule), (1, Rule::PromisedTwice));
    assert!((soft[0].measured_in - 4.0).abs() < 1e-9);
    // The first cut wins: then the other quilt has it as a fact.
    let head = room.head("second", "main").unwrap();
    room.sew(&head.at(), head.tip.unwrap(), false).unwrap();
    assert_eq!(rules(&mut room, &[step], 0), [(Rule::AlreadyCut, Place::Patch(Mark(1)))]);
}

#[test]
fn a_flaw_is_no_room() {
    let (_folder, mut room) = workroom();
    let mut scrap = plain("stained", Region::rectangle(8.0, 4.0));
    scrap.flaws = vec![Region::rectangle(2.0, 2.0)];
    let cloth = room.enter(vec![scrap]).unwrap()[0].1;
    let on_it = [lay(1, cloth, (0.0, 0.0), (4.0, 4.0))];
    assert_eq!(rules(&mut room, &on_it, 0), [(Rule::NoRoom, Place::Patch(Mark(1)))]);
    let beside_it = [lay(1, cloth, (2.0, 0.0), (4.0, 4.0))];
    assert!(rules(&mut room, &beside_it, 0).is_empty());
}

#[test]
fn a_print_upside_down_is_reported_where_it_has_a_top() {
    let (_folder, mut room) = workroom();
    let mut one_way = plain("ripple", Region::rectangle(8.0, 8.0));
    one_way.look.runs = Runs::OneWay(Turn::QUARTER);
    let mut both = plain("stripe", Region::rectangle(8.0, 8.0));
    both.look.runs = Runs::BothWays(Turn::QUARTER);
    let ids = room.enter(vec![one_way, both]).unwrap();
    let turned = |cloth, turn, by| {
        let cut = rectangle(0.0, 0.0, 3.0, 3.0);
        let step = Step::Lay { cloth, at: Pose::new(turn, by), cut };
        [Entry { mark: Mark(1), run: None, step }]
    };
    let upright = turned(ids[0].1, Turn::NONE, Vec2::new(0.0, 0.0));
    assert!(rules(&mut room, &upright, 0).is_empty());
    let over = turned(ids[0].1, Turn::HALF, Vec2::new(4.0, 4.0));
    let problems = audit(&over, 0, room.stash().unwrap(), WayUp::default());
    assert_eq!(problems[0].rule, Rule::WrongWayUp);
    assert!((problems[0].measured_in - 180.0).abs() < 1e-9);
    let over = turned(ids[1].1, Turn::HALF, Vec2::new(4.0, 4.0));
    let strict = WayUp { both_ways_deg: 10.0, ..WayUp::default() };
    assert!(audit(&over, 0, room.stash().unwrap(), strict).is_empty(), "upside down looks the same");
    let aslant = turned(ids[1].1, Turn::from_degrees(30.0), Vec2::new(4.0, 0.0));
    let problems = audit(&aslant, 0, room.stash().unwrap(), strict);
    assert!((problems[0].measured_in - 30.0).abs() < 1e-9);
    // Sewn on, a patch turns with its pose: the second lies upside down because its bottom is
    // sewn to the top's top... and so is reported.
    let steps = [
        lay(1, ids[0].1, (0.0, 0.0), (3.0, 3.0)),
        lay(2, ids[0].1, (4.0, 4.0), (3.0, 3.0)),
        join(3, (1, 2), (2, 2), true),
    ];
    assert_eq!(rules(&mut room, &steps, 0), [(Rule::WrongWayUp, Place::Patch(Mark(2)))]);
}
