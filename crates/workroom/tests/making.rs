//! A whole quilt by a plan, all of it or nothing; several centres grown, squared and joined.

mod common;

use common::{enter, join, lay, plain, workroom};
use grow::centres::CentresChoice;
use plane::Region;
use quilt::Rule;
use quilt::cloth::{ClothId, Kind};
use quilt::log::Step;
use quilt::wish::Wish;
use workroom::Workroom;
use workroom::asks::{AskError, JoinAsk, StageReport};
use workroom::audit::{WayUp, audit};
use workroom::making::{PlanFile, read_plan};
use workroom::quilts::{Head, MAIN};
use workroom::stash::NewCloth;

fn none(_: &str) -> Result<Vec<u8>, String> {
    Err("it is not there".to_owned())
}

fn plan(text: &str) -> PlanFile {
    read_plan(text).unwrap()
}

/// A length of cloth by name.
fn enter_length(room: &mut Workroom, name: &str, width_in: f64, height_in: f64) -> ClothId {
    let cloth = NewCloth { kind: Kind::Length, ..plain(name, Region::rectangle(width_in, height_in)) };
    room.enter(vec![cloth]).unwrap()[0].1
}

/// Everything that a plan could change, and what undo would take back.
fn seen(room: &mut Workroom) -> (Vec<workroom::quilts::QuiltInfo>, Option<String>, usize) {
    let cloths = room.stash().unwrap().items().count();
    (room.quilts().unwrap(), room.last_deed().unwrap(), cloths)
}

/// Two bars of 8 by 4 from a cloth of their own, sewn to a square of 7.5 by 8 raw.
fn square(room: &mut Workroom, name: &str) -> Head {
    let cloth = enter(room, 10.0, 10.0);
    let head = room.new_quilt(name, &Wish::default()).unwrap();
    let steps = [
        lay(1, cloth, (0.0, 0.0), (8.0, 4.0)),
        lay(2, cloth, (0.0, 5.0), (8.0, 4.0)),
        join(3, (1, 2), (2, 0), true),
    ];
    room.append(&head.at(), &steps).unwrap()
}

const BORDER: &str = "[[stage]]\nborder = { cloth = \"ripple\", sewn_in = 2.5 }\n";
const BINDING: &str = "[[stage]]\nbinding = { strip_width_in = 2.25, thickness_in = 0.0625 }\n";

#[test]
fn a_plan_is_taken_whole_and_undone_whole() {
    let (_folder, mut room) = workroom();
    enter_length(&mut room, "ripple", 40.0, 40.0);
    let head = square(&mut room, "Ebb");
    let before = seen(&mut room);
    let good = plan(&format!("{BORDER}{BINDING}"));
    let looked = room.look_at_finishing(&head.at(), &good, &none).unwrap();
    assert!(matches!(looked.stages[..], [StageReport::Border(_), StageReport::Binding(_)]));
    assert_eq!(seen(&mut room), before, "looking changes nothing");
    let made = room.finish(&head.at(), Some("bound"), &good, &none).unwrap();
    assert_eq!(made.stages, looked.stages, "what was looked at is what comes");
    assert_eq!(room.head("Ebb", MAIN).unwrap().tip, head.tip);
    assert_ne!(made.head.tip, head.tip);
    assert_eq!(room.undo().unwrap(), "finish");
    assert_eq!(seen(&mut room), before, "one undo takes all stages back, and the head with them");
}

#[test]
fn a_stage_that_is_refused_leaves_nothing_of_the_plan() {
    let (_folder, mut room) = workroom();
    enter_length(&mut room, "ripple", 40.0, 40.0);
    let head = square(&mut room, "Ebb");
    let before = seen(&mut room);
    let table = room.table("Ebb", MAIN).unwrap();
    let too_wide = "[[stage]]\nborder = { cloth = \"ripple\", sewn_in = 30 }\n";
    let unknown = "[[stage]]\nborder = { cloth = \"no such\", sewn_in = 2 }\n";
    for (second, said) in [(too_wide, "stage 2 of the plan, border: On side 1"), (unknown, "no cloth called")]
    {
        let bad = plan(&format!("{BORDER}{second}"));
        for beside in [None, Some("bound")] {
            let refused = room.finish(&head.at(), beside, &bad, &none).unwrap_err();
            assert!(matches!(refused, AskError::Stage { no: 2, name: "border", .. }), "{refused:?}");
            assert!(refused.to_string().contains(said), "{refused}");
            assert_eq!(seen(&mut room), before);
        }
        assert!(room.look_at_finishing(&head.at(), &bad, &none).is_err());
    }
    // An error of another kind has its number too.
    let figure = plan(&format!("{BORDER}[[stage]]\nfigure = {{ svg = \"gone.svg\" }}\n"));
    let refused = room.finish(&head.at(), None, &figure, &none).unwrap_err().to_string();
    assert!(refused.starts_with("stage 2 of the plan, figure: "), "{refused}");
    assert_eq!(room.table("Ebb", MAIN).unwrap().piece().map(|(mark, _)| mark), table.piece().map(|(m, _)| m));
    // What comes afterwards is as if nothing had been.
    assert!(room.finish(&head.at(), None, &plan(BORDER), &none).is_ok());
}

/// A heap of our own prints, and one cloth to cope with.
fn basket(room: &mut Workroom, scraps: usize) {
    let cloth = |(scrap, no): (demo::Scrap, usize)| NewCloth {
        print_name: Some(format!("print {}", scrap.print)),
        ..NewCloth::scrap(&format!("scrap {no}"), scrap.cloth.outline, scrap.cloth.look)
    };
    let heap = demo::frozen_heap(5, scraps);
    room.enter(heap.scraps.into_iter().zip(1..).map(cloth).collect()).unwrap();
    enter_length(room, "mist", 30.0, 30.0);
}

const GROWN: &str = "quilt = \"Neap\"\n[grow]\nseed = 3\nquick = true\n\
    [centres]\nsize_in = [17, 9]\nshapes_in = [[8, 7], [7, 8]]\ncoping = [\"mist\"]\nmost_coping_share = 0.4\n";

#[test]
fn centres_are_grown_squared_and_joined_and_no_cloth_is_cut_twice() {
    let (_folder, mut room) = workroom();
    basket(&mut room, 200);
    let before = seen(&mut room);
    let looked = room.look_at_making(&plan(GROWN), &none, &mut ()).unwrap();
    assert_eq!(seen(&mut room), before, "looking changes nothing");
    let made = room.make(&plan(GROWN), &none, &mut ()).unwrap();
    assert_eq!(made.centres, looked.centres);
    let report = made.centres.unwrap();
    assert_eq!((report.blocks.len(), report.squared.len()), (2, 2));
    for (block, [width, height]) in report.blocks.iter().zip([[8.0, 7.0], [7.0, 8.0]]) {
        let mut is = [block.width_in, block.height_in];
        let mut wished = [width, height];
        is.sort_by(f64::total_cmp);
        wished.sort_by(f64::total_cmp);
        assert!(is.iter().zip(wished).all(|(is, wished)| (is - wished).abs() < 1.0 / 16.0), "{is:?}");
    }
    assert_eq!(report.order.len(), report.plan.seams.len());
    assert!(!report.plan.strips.is_empty() && report.partial.is_empty());
    assert!(report.weights.least <= report.weights.mean && report.weights.mean <= report.weights.most);
    let table = room.table("Neap", MAIN).unwrap();
    assert_eq!(table.tops().len(), 1);
    let mut lengths: Vec<f64> =
        table.piece().unwrap().1.sides().iter().map(quilt::table::Side::length_in).collect();
    lengths.sort_by(f64::total_cmp);
    for (is, wished) in lengths.iter().zip([9.5, 9.5, 17.5, 17.5]) {
        assert!((is - wished).abs() < 1.0 / 16.0, "{lengths:?}");
    }
    assert_eq!(lengths.len(), 4);
    // The joined top stands as planned: its sides level and upright, the wished width across.
    let corners = table.piece().unwrap().1.outline_points();
    for (a, b) in plane::polygon::edges(&corners) {
        assert!((b.x - a.x).abs().min((b.y - a.y).abs()) < 1e-6, "{corners:?}");
    }
    let (low, high) = plane::polygon::bounds(&corners).unwrap();
    assert!((high.x - low.x - 17.5).abs() < 1.0 / 16.0 && (high.y - low.y - 9.5).abs() < 1.0 / 16.0);
    let log = room.log("Neap", MAIN).unwrap();
    let problems = audit(&log.entries(), log.sewn, room.stash().unwrap(), WayUp::default());
    let cloth = problems.iter().filter(|problem| problem.rule != Rule::WrongWayUp);
    assert_eq!(cloth.count(), 0, "{problems:?}");
    // The length for coping is cut for nothing else.
    let mist = room.stash().unwrap().items().find(|item| item.came.name == "mist").unwrap().came.id;
    let from_mist =
        log.steps.iter().filter(|step| matches!(step.entry.step, Step::Lay { cloth, .. } if cloth == mist));
    assert_eq!(from_mist.count(), report.plan.strips.len());
    assert_eq!(room.undo().unwrap(), "make");
    assert_eq!(seen(&mut room), before);
}

#[test]
fn centres_that_cannot_be_joined_are_refused_before_anything_grows() {
    let (_folder, mut room) = workroom();
    basket(&mut room, 60);
    let before = seen(&mut room);
    for (from, to, said) in [
        ("size_in = [17, 9]", "size_in = [9, 9]", "too"),
        ("seed = 3", "seed = 3\nacross_in = 12", "says across_in, and its [centres] how large"),
        ("seed = 3", "seed = 3\npieces = 12", "says pieces, and its [centres] how large"),
        ("seed = 3", "seed = 3\ntrue_up_sides = 6", "says true_up_sides, and its [centres] how large"),
        ("size_in = [17, 9]", "size_in = [60, 60]", "Coping would take"),
        ("coping = [\"mist\"]", "coping = []", "no cloth"),
        ("coping = [\"mist\"]", "coping = [\"no such\"]", "no cloth called `no such`"),
        ("coping = [\"mist\"]", "coping = [\"mist\"]\nmost_coping_in = 0.5", "is the most that is wished"),
        ("shapes_in = [[8, 7], [7, 8]]", "shapes_in = []", "how large the centres are"),
        ("shapes_in", "count = 61\nshapes_in", "61 centres can't be joined"),
        (
            "shapes_in",
            "rows = [2, 1]\nplaces = [{ x_in = 0, y_in = 0, width_in = 8, height_in = 8 }]\nshapes_in",
            "both rows and places",
        ),
    ] {
        let refused = room.make(&plan(&GROWN.replace(from, to)), &none, &mut ()).unwrap_err().to_string();
        assert!(refused.contains(said), "{refused}");
        assert_eq!(seen(&mut room), before, "{said}");
    }
}

fn asked(names: &[&str], choice: CentresChoice) -> JoinAsk {
    let centres = names.iter().map(|name| ((*name).to_owned(), MAIN.to_owned())).collect();
    JoinAsk { centres, square_in: Vec::new(), choice }
}

#[test]
fn quilts_that_are_there_are_joined_what_is_sewn_as_sewn() {
    let (_folder, mut room) = workroom();
    let heads = ["Ebb", "Flow"].map(|name| square(&mut room, name));
    let sewn = room.log("Flow", MAIN).unwrap().steps[1].id;
    room.sew(&heads[1].at(), sewn, false).unwrap();
    let before = seen(&mut room);
    let ask = asked(&["Ebb", "Flow"], CentresChoice::new(16.0, 7.0));
    let looked = room.look_at_joining(&ask).unwrap_err().to_string();
    // Two of 7 1/2 finished make 15, and no cloth was named for the inch that is missing.
    assert!(looked.contains("choose a cloth for coping"), "{looked}");
    let ask = asked(&["Ebb", "Flow"], CentresChoice::new(15.0, 7.0));
    let looked = room.look_at_joining(&ask).unwrap();
    assert_eq!(seen(&mut room), before, "looking changes nothing");
    let (head, report) = room.join_centres("Neap", &ask).unwrap();
    assert_eq!(report, looked);
    let log = room.log("Neap", MAIN).unwrap();
    assert_eq!((log.sewn, head.sewn.is_some()), (2, true));
    assert_eq!(room.table("Neap", MAIN).unwrap().tops().len(), 1);
    let after: Vec<_> = room.quilts().unwrap().into_iter().filter(|quilt| quilt.name != "Neap").collect();
    assert_eq!(after, before.0, "the quilts that they came from stay as they are");
    assert!(
        report.words().iter().any(|line| line.contains("Sew the left edge of Flow to the right edge of Ebb")
            || line.contains("Sew the left edge of Ebb to the right edge of Flow")),
        "{:?}",
        report.words()
    );
    let again = room.join_centres("Neap", &ask).unwrap_err().to_string();
    assert!(again.contains("a quilt called `Neap` already"), "{again}");
    // What is sewn of the one is sewn in the other now: it comes apart there, and once.
    let there = common::area_there(&mut room);
    let flow = room.head("Flow", MAIN).unwrap();
    let refused = room.unpick(&flow.at(), None).unwrap_err().to_string();
    assert!(refused.contains("joined into `Neap`"), "{refused}");
    let twice = room.join_centres("Spring", &ask).unwrap_err().to_string();
    assert!(twice.contains("joined into `Neap`"), "{twice}");
    room.unpick(&head.at(), None).unwrap();
    assert!((common::area_there(&mut room) - there - 64.0).abs() < 1e-6, "two patches of 8 by 4 came back");
    room.undo().unwrap();
    room.undo().unwrap();
    assert_eq!(room.quilts().unwrap(), before.0);
    // With the joining undone it comes apart where it was sewn.
    let flow = room.head("Flow", MAIN).unwrap();
    assert_eq!(room.unpick(&flow.at(), None).unwrap().came.len(), 2);
    assert!((common::area_there(&mut room) - there - 64.0).abs() < 1e-6);
}

#[test]
fn centres_on_the_same_cloth_are_not_joined() {
    let (_folder, mut room) = workroom();
    let head = square(&mut room, "Ebb");
    room.what_if(&head.at(), head.tip, "twin").unwrap();
    let choice = CentresChoice::new(15.0, 7.0);
    let centres = [MAIN, "twin"].map(|head| ("Ebb".to_owned(), head.to_owned())).to_vec();
    let twin = JoinAsk { centres, square_in: Vec::new(), choice: choice.clone() };
    let refused = room.look_at_joining(&twin).unwrap_err();
    let helps = refused.hint().unwrap_or_default();
    assert!(helps.contains("grow the second as a new quilt after that"), "{helps}");
    let refused = refused.to_string();
    assert!(refused.contains("`Ebb` and `Ebb, twin` count on the same cloth"), "{refused}");
    let none = room.look_at_joining(&asked(&["Ebb", "Ebb tide"], choice)).unwrap_err().to_string();
    assert!(none.contains("no quilt called `Ebb tide`"), "{none}");
}
