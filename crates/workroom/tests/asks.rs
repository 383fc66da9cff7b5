//! Asks from the first patch to unpicking, on a workroom of its own.

use ::grow::{Bend, Effort, Goal};
use plane::Region;
use quilt::Rule;
use quilt::cloth::{ClothId, Look, Runs};
use quilt::log::{Along, Keep, Mark, Name, Press, Step};
use quilt::wish::{MEASURES, Measure, Towards, Wish, set_outline};
use workroom::Workroom;
use workroom::asks::{AskError, DrawAsk, GrowAsk, HandSewn, Instead, SideMeasure};
use workroom::audit::WayUp;
use workroom::stash::{CutAsk, NewCloth};

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
    let wish = Wish { across_in: 9.0, ..Default::default() };
    room.new_quilt("Test", &wish).unwrap();
    Room { room, _folder: folder }
}

fn grown(room: &mut Workroom, pieces: usize) {
    let at = room.head("Test", "main").unwrap().at();
    let ask = GrowAsk { goal: Goal::Pieces(pieces), effort: Effort::QUICK, seed: 3, across_in: None };
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
    assert_eq!(offer.proposal.key, again[1].proposal.key);
    let table = room.table("Test", "main").unwrap();
    assert_eq!(table.patches().len(), before + offer.proposal.patches.len());
    assert!(matches!(room.take(&head.at(), 1, &Bend::default()), Err(AskError::Stale)));
}

#[test]
fn numbers_of_offers_stay_as_they_were_told() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 8);
    let told = room.propose("Test", "main", None, 4, &Bend::default()).unwrap();
    assert!(told.len() > 2);
    room.refuse_offer("Test", "main", 1).unwrap();
    assert_eq!(room.refuse_offer("Test", "main", 2).unwrap(), told[1].proposal.key);
    let at = room.head("Test", "main").unwrap().at();
    let (head, taken) = room.take(&at, 3, &Bend::default()).unwrap();
    assert_eq!(taken.proposal.key, told[2].proposal.key);
    // They were told of the piece as it was before.
    assert!(matches!(room.refuse_offer("Test", "main", 1), Err(AskError::Stale)));
    assert!(matches!(room.take(&head.at(), 1, &Bend::default()), Err(AskError::Stale)));
    // Cloth that has gone in the meantime makes an offer stale, it doesn't shift the numbers.
    let told = room.propose("Test", "main", None, 4, &Bend::default()).unwrap();
    let gone = told[0].proposal.patches[0].cloth;
    room.give_away(gone).unwrap();
    match room.take(&head.at(), 1, &Bend::default()) {
        Err(AskError::Stale) => {}
        other => panic!("{other:?}"),
    }
}

#[test]
fn marks_are_told_from_the_edges_that_a_cloth_has_now() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 8);
    let told = room.propose("Test", "main", None, 6, &Bend::default()).unwrap();
    let patch = told.iter().flat_map(|offer| offer.proposal.patches.iter()).next().unwrap();
    // An inch goes all along the lower edge of every cloth: no mark is told from that edge any more.
    let cloths: Vec<(ClothId, Region)> =
        room.stash().unwrap().present().iter().map(|(_, cloth)| (cloth.id, cloth.outline.clone())).collect();
    for (cloth, outline) in cloths {
        let (low, high) = plane::polygon::bounds(&outline.outer).unwrap();
        let piece = [(low.x, low.y), (high.x, low.y), (high.x, low.y + 1.0), (low.x, low.y + 1.0)];
        let piece = piece.map(|(x, y)| plane::Point::new(x, y)).to_vec();
        room.cut(&CutAsk { cloth, piece, keep: false, anyway: false }).unwrap();
    }
    assert!(room.stash().unwrap().get(patch.cloth).is_some());
    let told = room.propose("Test", "main", None, 6, &Bend::default()).unwrap();
    assert!(!told.is_empty());
    for offer in &told {
        for (patch, plan) in offer.patches.iter().zip(&offer.proposal.patches) {
            let stash = room.stash().unwrap();
            let now = stash.by_number(patch.no.unwrap()).unwrap().now.as_ref().unwrap();
            assert_eq!(patch.cut, quilt::marks::ruler(&plan.on_cloth, &now.outline).words);
            assert_ne!(now.outline, stash.get(plan.cloth).unwrap().came.outline);
        }
    }
}

#[test]
fn sewn_unpicked_and_sewn_with_something_else() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 6);
    let head = room.head("Test", "main").unwrap();
    let log = room.log("Test", "main").unwrap();
    let area = |room: &mut Workroom| {
        room.stash().unwrap().present().iter().map(|(_, cloth)| cloth.outline.area()).sum::<f64>()
    };
    let before = area(&mut room);
    let report = room.sew(&head.at(), log.steps[0].id, false).unwrap();
    assert_eq!(report.cut, 1);
    let cut = laid(&mut room)[0].1.area();
    assert!(
        (before - area(&mut room) - cut - report.waste_in2).abs() < 1e-6,
        "the patch and the waste are gone"
    );
    let cloth = room.stash().unwrap().present()[7].1.id;
    let at = room.head("Test", "main").unwrap().at();
    let amended = room
        .instead(&at, Instead { patch: None, cloth, wide_in: None, deep_in: None, anyway: false })
        .unwrap();
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
    let needed = remedies.iter().find(|remedy| remedy.contains("another scrap"));
    assert!(needed.is_some(), "{remedies:?}");
    let long = NewCloth::scrap(
        "long",
        Region::rectangle(30.0, 4.0),
        Look::plain(colour::read_words("sand").unwrap()),
    );
    sewn.cloth = room.enter(vec![long]).unwrap()[0].1;
    sewn.size_in[0] = side.length_in() + 1.5;
    let before = table.patches().len();
    room.sew_by_hand(&at, &sewn, false).unwrap();
    assert_eq!(room.table("Test", "main").unwrap().patches().len(), before + 1);
}

/// What is laid on the piece, step by step: the cloth and the shape cut from it, in its coordinates.
fn laid(room: &mut Workroom) -> Vec<(ClothId, Region)> {
    let log = room.log("Test", "main").unwrap();
    let shape = |step: &Step| match step {
        Step::Lay { cloth, at, cut } => {
            Some((*cloth, Region { outer: at.apply_all(cut), holes: Vec::new() }))
        }
        _ => None,
    };
    log.steps.iter().filter_map(|step| shape(&step.entry.step)).collect()
}

/// A square of four inches to begin with, and a piece to sew on: its cloth, side and size.
fn begun(room: &mut Workroom, first: ClothId) {
    let at = room.head("Test", "main").unwrap().at();
    room.lay(&at, first, &Region::rectangle(4.0, 4.0).outer).unwrap();
}

fn by_hand(cloth: ClothId, no: u16, size_in: [f64; 2]) -> HandSewn {
    let onto = Name::new(Mark(1), no);
    HandSewn { onto, cloth, size_in, slide_in: 0.0, flush: [true, true], press: Press::Over, stop: None }
}

#[test]
fn two_pieces_by_hand_are_never_cut_from_the_same_spot() {
    let Room { mut room, _folder } = room();
    let plain = |width, height| {
        NewCloth::scrap(
            "plain",
            Region::rectangle(width, height),
            Look::plain(colour::read_words("red").unwrap()),
        )
    };
    let ids: Vec<ClothId> =
        room.enter(vec![plain(5.0, 5.0), plain(6.0, 5.0)]).unwrap().into_iter().map(|(_, id)| id).collect();
    begun(&mut room, ids[0]);
    for no in [1, 3] {
        let at = room.head("Test", "main").unwrap().at();
        room.sew_by_hand(&at, &by_hand(ids[1], no, [5.0, 2.0]), false).unwrap();
    }
    let laid = laid(&mut room);
    assert_eq!((laid[1].0, laid[2].0), (ids[1], ids[1]));
    let shared: f64 = plane::intersection(&laid[1].1, &laid[2].1).iter().map(Region::area).sum();
    assert!(shared < 1e-6, "{shared} square inches are promised twice");
    // Six by five has no room for a third.
    let at = room.head("Test", "main").unwrap().at();
    let third = by_hand(ids[1], 2, [5.0, 2.0]);
    assert!(matches!(room.sew_by_hand(&at, &third, false), Err(AskError::CantBe { .. })));
}

#[test]
fn a_print_with_a_top_is_sewn_on_upright_by_hand() {
    let Room { mut room, _folder } = room();
    // The print's top points along the cloth's x, so an upright piece lies on its side there.
    let mut look = Look::plain(colour::read_words("green").unwrap());
    look.runs = Runs::OneWay(plane::Turn::NONE);
    let herons = NewCloth::scrap("herons", Region::rectangle(12.0, 12.0), look);
    let first = room.stash().unwrap().present()[4].1.id;
    let cloth = room.enter(vec![herons]).unwrap()[0].1;
    begun(&mut room, first);
    for no in 0..4 {
        let at = room.head("Test", "main").unwrap().at();
        room.sew_by_hand(&at, &by_hand(cloth, no, [5.0, 2.0]), true).unwrap();
        room.unpick_run(&room.head("Test", "main").unwrap().at()).unwrap();
        room.resew(&room.head("Test", "main").unwrap().at()).unwrap();
        let log = room.log("Test", "main").unwrap();
        let found = workroom::audit::audit(
            &log.entries(),
            0,
            room.stash().unwrap(),
            WayUp { one_way_deg: 1.0, both_ways_deg: 90.0 },
        );
        assert!(found.iter().all(|problem| problem.rule != Rule::WrongWayUp), "{no}: {found:?}");
        room.unpick_run(&room.head("Test", "main").unwrap().at()).unwrap();
    }
}

#[test]
fn strips_of_one_cloth_are_cut_side_by_side_clear_of_flaws() {
    let Room { mut room, _folder } = room();
    let mut spoilt = NewCloth::scrap(
        "spoilt",
        Region::rectangle(12.0, 9.0),
        Look::plain(colour::read_words("navy").unwrap()),
    );
    let stain = [(5.0, 4.0), (7.0, 4.0), (7.0, 5.0), (5.0, 5.0)].map(|(x, y)| plane::Point::new(x, y));
    spoilt.flaws = vec![Region { outer: stain.to_vec(), holes: Vec::new() }];
    let ids = room.enter(vec![spoilt]).unwrap();
    let cloth = ids[0].1;
    let set = room.sew_strips(&[(cloth, 1.5), (cloth, 1.5), (cloth, 1.5)], 12.0, 0.25).unwrap();
    let set = room.stash().unwrap().get(set).unwrap().came.clone();
    assert!((set.outline.area() - 12.0 * 3.5).abs() < 1e-9, "three 1 1/2 strips measure 3 1/2");
    let stained = room
        .stash()
        .unwrap()
        .family(cloth)
        .iter()
        .map(|cloth| cloth.flaws.iter().map(Region::area).sum::<f64>())
        .sum::<f64>();
    assert!((stained - 2.0).abs() < 1e-6, "the stain is still in the heap: {stained}");
    let error = room.sew_strips(&[(cloth, 1.5); 4], 12.0, 0.25).unwrap_err();
    assert!(matches!(error, AskError::CantBe { .. }), "{error}");
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
    assert_eq!(plan.outline.len(), 5);
    let (head, plan) = room.true_up(&report.head.at(), 5).unwrap();
    let top = room.table("Test", "main").unwrap();
    assert_eq!(top.piece().unwrap().1.sides().len(), 5);
    assert!(
        (plane::polygon::area(&plan.outline)
            - plane::polygon::area(&top.piece().unwrap().1.outline_points()))
        .abs()
            < 1e-9
    );
    assert!(room.plan_true_up("Test", "main", 9).is_err());
    let eye = room.eye("Test", head.tip.unwrap()).unwrap();
    assert_eq!(eye.check.rows.len(), 15);
    assert_eq!(eye.due, [], "a polygon has nothing due");
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
fn trueing_up_tells_what_it_can_not_do() {
    let Room { mut room, _folder } = room();
    let corner = |i: i32| {
        let angle = f64::from(i) * std::f64::consts::PI / 3.0;
        plane::Point::new(6.0 + 3.0 * angle.cos(), 6.0 + 3.0 * angle.sin())
    };
    let hexagon: Vec<plane::Point> = (0..6).map(corner).collect();
    let plain = |size| {
        NewCloth::scrap(
            "plain",
            Region::rectangle(size, size),
            Look::plain(colour::read_words("red").unwrap()),
        )
    };
    let ids = room.enter(vec![plain(12.0), plain(12.0)]).unwrap();
    let at = room.head("Test", "main").unwrap().at();
    room.lay(&at, ids[0].1, &hexagon).unwrap();
    assert_eq!(room.plan_true_up("Test", "main", 6).unwrap().cuts, [], "it is one already");
    assert_eq!(room.plan_true_up("Test", "main", 4).unwrap().outline.len(), 4);
    let error = room.plan_true_up("Test", "main", 8).unwrap_err();
    assert!(matches!(error, AskError::CantBe { .. }), "{error}");
    assert!(error.to_string().contains("6 sides, not 8"), "{error}");
    // A piece that sticks out beyond its neighbours is to be trimmed first.
    let at = room.head("Test", "main").unwrap().at();
    let sticks_out = HandSewn { flush: [false, false], ..by_hand(ids[1].1, 0, [6.0, 2.0]) };
    room.sew_by_hand(&at, &sticks_out, false).unwrap();
    let error = room.plan_true_up("Test", "main", 6).unwrap_err();
    assert!(
        matches!(&error, AskError::Refused { problem, remedies } if problem.rule == Rule::InwardCorner && !remedies.is_empty()),
        "{error}"
    );
}

#[test]
fn what_ifs_start_from_the_same_step_and_differ() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 5);
    let at = room.head("Test", "main").unwrap().at();
    let ask = GrowAsk { goal: Goal::Pieces(9), effort: Effort::QUICK, seed: 1, across_in: None };
    let found = room.what_ifs(&at, 3, &ask, &mut ()).unwrap();
    assert_eq!(found.len(), 3);
    assert_ne!(found[0].head.tip, found[1].head.tip);
    let start = room.log("Test", "main").unwrap().steps.len();
    for one in &found {
        let log = room.log("Test", &one.head.name).unwrap();
        assert_eq!(log.steps[..start], room.log("Test", "main").unwrap().steps[..]);
    }
    let names: Vec<&str> = found.iter().map(|one| one.head.name.as_str()).collect();
    assert_eq!(names, ["what-if-1", "what-if-2", "what-if-3"]);
    let error = room.what_ifs(&at, 13, &ask, &mut ()).unwrap_err();
    assert!(matches!(error, AskError::Nonsense { .. }), "{error}");
    // One gesture is one deed.
    assert_eq!(room.undo().unwrap(), "what-ifs");
    assert_eq!(room.quilts().unwrap()[0].heads.len(), 1);
}

/// Lets so many pieces be placed, and then stops.
struct Stop(usize);

impl ::grow::Watch for Stop {
    fn placed(&mut self, _: usize, _: usize) -> bool {
        self.0 = self.0.saturating_sub(1);
        self.0 > 0
    }
}

#[test]
fn what_ifs_that_are_stopped_begin_no_more_heads() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 5);
    let at = room.head("Test", "main").unwrap().at();
    let ask = GrowAsk { goal: Goal::Pieces(9), effort: Effort::QUICK, seed: 1, across_in: None };
    let mut placed = 0;
    struct Count<'a>(&'a mut usize);
    impl ::grow::Watch for Count<'_> {
        fn placed(&mut self, _: usize, _: usize) -> bool {
            *self.0 += 1;
            true
        }
    }
    room.what_ifs(&at, 1, &ask, &mut Count(&mut placed)).unwrap();
    room.undo().unwrap();
    // Stopped a little into the second: the first is whole, and there is no third.
    let found = room.what_ifs(&at, 3, &ask, &mut Stop(placed + 2)).unwrap();
    assert!((1..=2).contains(&found.len()), "{}", found.len());
    assert_eq!(room.quilts().unwrap()[0].heads.len(), 1 + found.len());
    assert_eq!(room.log("Test", "main").unwrap().head.at(), at);
}

#[test]
fn growing_to_another_width_changes_wish_and_piece_in_one_deed() {
    let Room { mut room, _folder } = room();
    let at = room.head("Test", "main").unwrap().at();
    let ask = GrowAsk { goal: Goal::Pieces(4), effort: Effort::QUICK, seed: 3, across_in: Some(8.0) };
    assert!(room.grow(&at, &GrowAsk { across_in: Some(0.0), ..ask }, &mut ()).is_err());
    assert_eq!(room.wish("Test").unwrap().across_in, 9.0);
    room.grow(&at, &ask, &mut ()).unwrap();
    assert_eq!(room.wish("Test").unwrap().across_in, 8.0);
    room.undo().unwrap();
    assert_eq!(room.wish("Test").unwrap().across_in, 9.0);
    assert!(room.log("Test", "main").unwrap().steps.is_empty());
}

/// Width and height of what is cut for the patch that a step lays.
fn cut_size(room: &mut Workroom, mark: Mark) -> (f64, f64) {
    let log = room.log("Test", "main").unwrap();
    let step = log.steps.iter().find(|step| step.entry.mark == mark).unwrap();
    let Step::Lay { cut, .. } = &step.entry.step else { panic!("step {mark} lays nothing") };
    let (low, high) = plane::polygon::bounds(cut).unwrap();
    (high.x - low.x, high.y - low.y)
}

#[test]
fn what_was_used_instead_may_be_told_by_its_depth_alone() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 4);
    let last = |room: &Workroom| {
        let log = room.log("Test", "main").unwrap();
        log.steps.iter().rev().find(|s| matches!(s.entry.step, Step::Lay { .. })).unwrap().entry.mark
    };
    let mark = last(&room);
    let (wide, deep) = cut_size(&mut room, mark);
    let cloth = room.stash().unwrap().by_number(5).unwrap().came.id;
    let at = room.head("Test", "main").unwrap().at();
    let told = Instead { patch: Some(mark), cloth, wide_in: None, deep_in: Some(deep + 0.5), anyway: false };
    let amended = room.instead(&at, told).unwrap();
    assert_eq!(amended.stopped, None);
    let (now_wide, now_deep) = cut_size(&mut room, mark);
    assert!((now_wide - wide).abs() < 1e-9 && (now_deep - deep - 0.5).abs() < 1e-9);
    for deep_in in [0.0, 0.1, -3.0, f64::NAN, f64::INFINITY, 1e9] {
        let told = Instead { patch: Some(mark), cloth, wide_in: None, deep_in: Some(deep_in), anyway: true };
        let error = room.instead(&amended.head.at(), told).unwrap_err();
        assert!(matches!(error, AskError::Nonsense { .. }), "{deep_in}: {error}");
    }
}

#[test]
fn every_measure_of_a_wish_is_read_back_as_it_was_set_and_kept_within_its_limits() {
    let Room { mut room, _folder } = room();
    for measure in &MEASURES {
        let mut wish = Wish::default();
        let [least, most] = measure.limits;
        let usual = measure.of(&wish);
        assert!((least..=most).contains(&usual), "{}: {usual}", measure.name);
        for value in [least, most] {
            measure.set(&mut wish, &value.to_string()).unwrap();
            assert!((measure.of(&wish) - value).abs() < 1e-9, "{}: {value}", measure.name);
        }
        let before = wish.clone();
        for wrong in [(most + 1.0).to_string(), "-1".to_owned(), "NaN".to_owned(), "much".to_owned()] {
            let error = measure.set(&mut wish, &wrong).unwrap_err();
            assert!(error.to_string().starts_with(measure.label), "{error}");
            assert!(error.hint().is_some());
        }
        assert_eq!(wish, before, "{}: what is refused changes nothing", measure.name);
    }
    let across = Measure::named("across").unwrap();
    let mut wish = room.wish("Test").unwrap();
    across.set(&mut wish, " 20 1/2\" ").unwrap();
    room.change_wish("Test", &wish).unwrap();
    assert_eq!(room.wish("Test").unwrap().across_in, 20.5);
}

#[test]
fn a_wish_that_contradicts_itself_is_refused_and_the_old_one_stays() {
    let Room { mut room, _folder } = room();
    let cloth = room.stash().unwrap().by_number(5).unwrap().came.id;
    let old = room.wish("Test").unwrap();
    let stop = quilt::wish::DriftStop { at: 0.0, lab: colour::read_words("rust").unwrap() };
    let stranger = ClothId(42);
    for wish in [
        Wish { contrast: [60.0, 8.0], ..old.clone() },
        Wish { drift: vec![stop], ..old.clone() },
        Wish { spare: vec![cloth], use_up: vec![cloth], ..old.clone() },
        Wish { spare: vec![stranger], ..old.clone() },
        Wish { across_in: f64::NAN, ..old.clone() },
        Wish { towards: Towards::Round { sides: 4 }, ..old.clone() },
    ] {
        let error = room.change_wish("Test", &wish).unwrap_err();
        assert!(!error.to_string().is_empty() && error.hint().is_some(), "{error}");
        assert_eq!(room.wish("Test").unwrap(), old);
    }
    // A rectangle comes to the circle of the same area across: 2 √(12 · 9 / π).
    let mut wish = old;
    set_outline(&mut wish, Towards::Rectangle { width_in: 12.0, height_in: 9.0 }).unwrap();
    assert!((wish.across_in - 2.0 * (108.0 / std::f64::consts::PI).sqrt()).abs() < 1e-12);
    room.change_wish("Test", &wish).unwrap();
}

/// A workroom with plain rectangles and a quilt called "Test".
fn plain_room(sizes: &[(f64, f64)]) -> (tempfile::TempDir, Workroom, Vec<ClothId>) {
    let folder = tempfile::tempdir().unwrap();
    let mut room = Workroom::create(&folder.path().join("w")).unwrap();
    let lab = colour::read_words("rust").unwrap();
    let cloths =
        sizes.iter().map(|&(w, h)| NewCloth::scrap("rust", Region::rectangle(w, h), Look::plain(lab)));
    let ids = room.enter(cloths.collect()).unwrap().into_iter().map(|(_, id)| id).collect();
    room.new_quilt("Test", &Wish::default()).unwrap();
    (folder, room, ids)
}

fn rectangle(width: f64, height: f64) -> Vec<plane::Point> {
    Region::rectangle(width, height).outer
}

#[test]
fn a_cloth_gives_no_more_than_there_is_and_what_was_cut_beyond_it_never_comes_back() {
    let (_folder, mut room, cloths) = plain_room(&[(5.5, 3.5), (6.0, 6.0)]);
    let at = |room: &Workroom| room.head("Test", "main").unwrap().at();
    room.lay(&at(&room), cloths[1], &rectangle(3.0, 3.0)).unwrap();
    let sewn = HandSewn {
        onto: Name::new(Mark(1), 0),
        cloth: cloths[1],
        size_in: [3.0, 2.0],
        slide_in: 0.0,
        flush: [true, true],
        press: Press::Over,
        stop: None,
    };
    room.sew_by_hand(&at(&room), &sewn, false).unwrap();
    let mut told = Instead {
        patch: Some(Mark(2)),
        cloth: cloths[0],
        wide_in: Some(30.0),
        deep_in: Some(3.0),
        anyway: false,
    };
    let error = room.instead(&at(&room), told).unwrap_err();
    let words = error.to_string();
    assert!(words.contains("30 by 3") && words.contains("5 1/2 by 3 1/2 is there"), "{words}");
    assert!(error.hint().unwrap().contains("--anyway"));
    told.anyway = true;
    let amended = room.instead(&at(&room), told).unwrap();
    assert_eq!((amended.held, amended.words().as_str()), (1, "Noted; the later step holds."));
    let report = room.sew(&amended.head.at(), amended.head.tip.unwrap(), true).unwrap();
    assert!(report.beyond_in2 > 70.0, "{report:?}");
    let left: f64 = room.stash().unwrap().family(cloths[0]).iter().map(|cloth| cloth.outline.area()).sum();
    assert!(left <= 5.5 * 3.5, "{left}");
    for (_, cloth) in room.stash().unwrap().present() {
        assert!(plane::polygon::diameter(&cloth.outline.outer) < 8.5, "{}", cloth.name);
    }
}

#[test]
fn a_strip_put_in_is_cut_long_enough_for_slanted_ends() {
    let (_folder, mut room, cloths) = plain_room(&[(20.0, 20.0), (36.5, 36.5)]);
    let corner = |i: u32| {
        let angle = std::f64::consts::TAU * f64::from(i) / 7.0;
        plane::Point::new(6.0 + 6.0 * angle.cos(), 6.0 + 6.0 * angle.sin())
    };
    let seven: Vec<_> = (0..7).map(corner).collect();
    let at = |room: &Workroom| room.head("Test", "main").unwrap().at();
    room.lay(&at(&room), cloths[0], &seven).unwrap();
    for (side, at_in) in [(0, 1.0), (0, 2.5), (2, 3.0), (3, 4.0), (5, 2.0)] {
        for turn in [60.0, 90.0, 120.0] {
            let turn = plane::Turn::from_degrees(turn);
            let along = Along::From { side: Name::new(Mark(1), side), at_in, turn };
            room.put_in(&at(&room), along, cloths[1], 1.5)
                .unwrap_or_else(|why| panic!("side {side} at {at_in}: {why}"));
            room.undo().unwrap();
        }
    }
}

#[test]
fn the_back_shows_every_top_on_the_table_as_the_front_does() {
    let (_folder, mut room, cloths) = plain_room(&[(20.0, 20.0)]);
    let at = |room: &Workroom| room.head("Test", "main").unwrap().at();
    room.lay(&at(&room), cloths[0], &rectangle(6.0, 4.0)).unwrap();
    let head = room.lay(&at(&room), cloths[0], &rectangle(3.0, 3.0)).unwrap();
    let tip = head.tip.unwrap();
    let front = room.draw(tip, None, DrawAsk::default()).unwrap();
    let back = room.draw(tip, None, DrawAsk { back: true, ..DrawAsk::default() }).unwrap();
    assert!((front.width_in() - back.width_in()).abs() < 0.5, "{} {}", front.width_in(), back.width_in());
    let svg = |drawing: &drawing::Drawing| drawing.to_svg(&drawing::svg::SvgOptions::default());
    assert_eq!(svg(&back).matches("data-top").count(), svg(&front).matches("data-top").count());
}

#[test]
fn a_cut_is_drawn_with_the_letters_lengths_and_lines_of_its_words() {
    let Room { mut room, _folder } = room();
    grown(&mut room, 6);
    let offers = room.propose("Test", "main", None, 1, &Bend::default()).unwrap();
    let words = &offers[0].patches[0].cut;
    assert!(words.iter().all(|line| line.starts_with("Line ")), "{words:?}");
    let drawing = room.draw_cut(&offers[0], 0).unwrap().unwrap();
    let svg = drawing.to_svg(&drawing::svg::SvgOptions::default());
    assert_eq!(svg.matches("data-edge").count(), 4, "{svg}");
    assert_eq!(svg.matches("data-line").count(), words.len(), "{svg}");
    assert!(room.draw_cut(&offers[0], 99).unwrap().is_none());
    // The whole plan on one cloth, with a sentence for each line.
    let cloth = laid(&mut room)[0].0;
    let ask = DrawAsk { labels: true, measures: true, ..DrawAsk::default() };
    let (drawing, told) = room.draw_cloth_for(cloth, Some(("Test", "main")), ask).unwrap();
    let svg = drawing.to_svg(&drawing::svg::SvgOptions::default());
    assert!(!told.is_empty() && svg.matches("data-line").count() == told.len(), "{told:?}");
}
