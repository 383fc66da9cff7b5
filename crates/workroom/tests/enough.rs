//! Enough? for whole pieces: each stage by itself, supplies, leftovers, and the maker's own habits; and
//! which spool goes with which side.

mod common;

use colour::{Lab, difference};
use common::{join, lay, plain, workroom};
use plane::{Point, Region};
use quilt::cloth::{ClothId, Kind, Look};
use quilt::stage::binding::{BindingChoice, Finish, Supply};
use quilt::stage::enough::{Enough, Goods, Line, Rates, Shop, StageName};
use quilt::stage::figure::{Figure, FigureChoice, FigureSize, Path, Segment, Shape, Thin};
use quilt::stage::layers::Take;
use quilt::stage::quilting::QuiltingChoice;
use quilt::stage::sleeve::SleeveChoice;
use quilt::wish::{Towards, Wish, even_drift};
use tempfile::TempDir;
use workroom::Workroom;
use workroom::asks::{ClothName, EnoughReport, LayersAsk, StageAsk, StageReport, ThreadAsk};
use workroom::intake::{read_supplies, read_words};
use workroom::quilts::MAIN;
use workroom::stash::NewCloth;

const QUILT: &str = "low tide";

/// One patch of 40 by 40, chalk, from the left of a cloth of 60 by 40.
fn piece() -> (TempDir, Workroom, ClothId) {
    let (folder, mut room) = workroom();
    let cloth = common::enter(&mut room, 60.0, 40.0);
    let head = room.new_quilt(QUILT, &Wish::default()).unwrap();
    room.append(&head.at(), &[lay(1, cloth, (0.0, 0.0), (40.0, 40.0))]).unwrap();
    (folder, room, cloth)
}

fn of_kind(name: &str, kind: Kind, size: [f64; 2]) -> NewCloth {
    NewCloth { kind, ..plain(name, Region::rectangle(size[0], size[1])) }
}

fn take(room: &mut Workroom, ask: &StageAsk) -> StageReport {
    let at = room.head(QUILT, MAIN).unwrap().at();
    room.take_stage(&at, ask).unwrap().1
}

fn report(room: &mut Workroom) -> EnoughReport {
    let rates = room.habits().unwrap().rates;
    room.enough(QUILT, MAIN, &Shop::default(), &rates).unwrap()
}

fn lines(found: &Enough, stage: StageName) -> Vec<Line> {
    found.stages.iter().filter(|part| part.stage == stage).flat_map(|part| part.lines.clone()).collect()
}

fn line(found: &Enough, stage: StageName, is: impl Fn(&Goods) -> bool) -> Line {
    let lines = lines(found, stage);
    lines.iter().find(|line| is(&line.goods)).unwrap_or_else(|| panic!("{lines:?}")).clone()
}

fn is_thread(goods: &Goods) -> bool {
    matches!(goods, Goods::Thread { .. })
}

fn bound(choice: BindingChoice) -> StageAsk {
    StageAsk::Binding { from: None, choice }
}

fn supply(room: &mut Workroom, words: &str) -> u32 {
    room.supply(read_supplies(words).unwrap().unwrap()).unwrap()[0]
}

#[test]
fn leftovers_that_reach_are_not_to_buy_and_what_they_are_short_of_is() {
    let (_folder, mut room, _) = piece();
    let supply = Supply::Leftovers { lengths_in: vec![100.0, 90.0], is_bias: false };
    take(&mut room, &bound(BindingChoice { supply, ..BindingChoice::default() }));
    let is_binding = |goods: &Goods| matches!(goods, Goods::Binding { .. });
    let found = report(&mut room).enough;
    let reaches = line(&found, StageName::Binding, is_binding);
    assert!(reaches.short == 0.0 && reaches.has > reaches.needed && reaches.needed > 160.0, "{reaches:?}");
    assert!(!found.buy.iter().any(|buy| is_binding(&buy.goods)));
    // The piece grows, and the leftovers don't.
    let more = room.enter(vec![plain("more", Region::rectangle(50.0, 50.0))]).unwrap()[0].1;
    let head = room.head(QUILT, MAIN).unwrap();
    room.append(&head.at(), &[lay(3, more, (0.0, 0.0), (40.0, 40.0)), join(4, (1, 1), (3, 3), true)])
        .unwrap();
    let found = report(&mut room).enough;
    let short = line(&found, StageName::Binding, is_binding);
    assert!(short.short > 45.0 && (short.needed - short.has - short.short).abs() < 1e-9, "{short:?}");
    assert!(found.buy.iter().any(|buy| is_binding(&buy.goods)));
}

#[test]
fn strips_laid_in_a_cloth_that_no_longer_reach_are_no_leftovers() {
    let (_folder, mut room, _) = piece();
    room.enter(vec![plain("navy", Region::rectangle(45.0, 10.0))]).unwrap();
    let from = Some(ClothName::Name("navy".to_owned()));
    take(&mut room, &StageAsk::Binding { from, choice: BindingChoice::default() });
    let is_binding = |goods: &Goods| matches!(goods, Goods::Binding { .. });
    assert!(!lines(&report(&mut room).enough, StageName::Binding).iter().any(|line| is_binding(&line.goods)));
    let more = room.enter(vec![plain("more", Region::rectangle(50.0, 50.0))]).unwrap()[0].1;
    let head = room.head(QUILT, MAIN).unwrap();
    room.append(&head.at(), &[lay(3, more, (0.0, 0.0), (40.0, 40.0)), join(4, (1, 1), (3, 3), true)])
        .unwrap();
    let short = line(&report(&mut room).enough, StageName::Binding, is_binding);
    assert!(short.short > 45.0, "{short:?}");
    assert_eq!(short.goods.to_string(), "binding of the strips laid in its cloth, cut 2 1/4");
}

#[test]
fn a_facing_takes_its_own_cloth_and_thread() {
    let (_folder, mut room, cloth) = piece();
    let choice = BindingChoice { finish: Finish::Faced, ..BindingChoice::default() };
    take(&mut room, &bound(choice.clone()));
    let found = report(&mut room);
    let strips = line(&found.enough, StageName::Binding, |goods| matches!(goods, Goods::Binding { .. }));
    assert!((strips.needed - 160.0).abs() < 1e-9, "four sides of 40: {strips:?}");
    assert!(line(&found.enough, StageName::Binding, is_thread).needed > 320.0);
    take(&mut room, &StageAsk::Binding { from: Some(ClothName::No(1)), choice });
    let found = report(&mut room).enough;
    let print = room.stash().unwrap().get(cloth).unwrap().came.print.unwrap();
    let cut = line(&found, StageName::Binding, |goods| *goods == Goods::Print(print));
    assert!((cut.needed - 160.0 * 3.0).abs() < 1e-9 && (cut.has - 800.0).abs() < 1e-6, "{cut:?}");
}

#[test]
fn a_sleeve_takes_cloth_a_rod_a_label_and_thread_of_its_own() {
    let (_folder, mut room, _) = piece();
    let StageReport::Sleeve(plan) = take(&mut room, &StageAsk::Sleeve(SleeveChoice::default())) else {
        panic!()
    };
    let found = report(&mut room).enough;
    let purpose = |wanted: &'static str| move |goods: &Goods| matches!(goods, Goods::AnyCloth { purpose } if purpose == wanted);
    let long: f64 = plan.parts.iter().map(|part| part.cut_length_in).sum();
    let sleeve = line(&found, StageName::Sleeve, purpose("the sleeve"));
    assert!((sleeve.needed - long * plan.cut_width_in).abs() < 1e-9);
    assert!((line(&found, StageName::Sleeve, purpose("the label")).needed - 4.5 * 3.5).abs() < 1e-9);
    assert_eq!(line(&found, StageName::Sleeve, |goods| matches!(goods, Goods::Rod { .. })).needed, 1.0);
    assert!(line(&found, StageName::Sleeve, is_thread).needed > 4.0 * long);
}

#[test]
fn layers_are_bought_where_the_heap_has_none_and_pins_are_counted() {
    let (_folder, mut room, _) = piece();
    take(&mut room, &StageAsk::Layers(LayersAsk::default()));
    let found = report(&mut room);
    let back = line(&found.enough, StageName::Backing, |goods| matches!(goods, Goods::OffBolt { .. }));
    assert!(back.short == back.needed && back.needed >= 2.0 * 46.0, "two strips of 46: {back:?}");
    assert!(line(&found.enough, StageName::Backing, is_thread).needed > 46.0, "its seam is sewn");
    let package =
        line(&found.enough, StageName::Batting, |goods| matches!(goods, Goods::BattingPackage { .. }));
    assert_eq!(package.goods, Goods::BattingPackage { name: "throw".to_owned() });
    let is_pins = |goods: &Goods| *goods == Goods::Counted { name: "safety pins".to_owned() };
    let pins = line(&found.enough, StageName::Basting, is_pins);
    assert_eq!((pins.has, pins.short), (0.0, pins.needed));
    supply(&mut room, "100 pins");
    supply(&mut room, "500 safety pins");
    let pins = line(&report(&mut room).enough, StageName::Basting, is_pins);
    assert_eq!((pins.has, pins.short), (600.0, 0.0));
    // Batting and a back of the heap come first, the back by its name or number.
    let entered = room
        .enter(vec![
            of_kind("muslin", Kind::Length, [50.0, 50.0]),
            of_kind("muslin", Kind::Length, [60.0, 60.0]),
            read_words("2 yards of cotton batting").unwrap(),
        ])
        .unwrap();
    let asks = |cloth: &str| {
        let text = format!("{{\"layers\":{{\"backing\":{{\"cloth\":{cloth},\"overage_in\":3.0}}}}}}");
        serde_json::from_str::<StageAsk>(&text).unwrap()
    };
    for (cloth, wanted) in [
        (entered[0].0.to_string(), entered[0].1),
        ("\"Muslin\"".to_owned(), entered[1].1),
        (format!("\"{}\"", entered[0].1), entered[0].1),
    ] {
        let StageReport::Layers(plan) = take(&mut room, &asks(&cloth)) else { panic!() };
        assert_eq!(plan.backing.take, Take::Whole(wanted), "{cloth}");
    }
    let found = report(&mut room).enough;
    let batting = room.stash().unwrap().get(entered[2].1).unwrap().came.print.unwrap();
    assert_eq!(lines(&found, StageName::Batting)[0].goods, Goods::Print(batting));
    let at = room.head(QUILT, MAIN).unwrap().at();
    let refused = room.take_stage(&at, &asks("\"velvet\"")).unwrap_err();
    assert!(refused.to_string().contains("`velvet`"), "{refused}");
}

#[test]
fn a_name_finds_the_cloth_with_most_that_is_free() {
    let (_folder, mut room, _) = piece();
    // The larger cloth is claimed by chalk but for a strip.
    let ids: Vec<ClothId> = room
        .enter(vec![
            plain("ripple", Region::rectangle(50.0, 40.0)),
            plain("ripple", Region::rectangle(30.0, 30.0)),
            plain("spent", Region::rectangle(40.0, 40.0)),
        ])
        .unwrap()
        .into_iter()
        .map(|(_, id)| id)
        .collect();
    let name = |name: &str| ClothName::Name(name.to_owned());
    assert_eq!(room.cloth_named(QUILT, MAIN, &name("ripple")).unwrap(), ids[0]);
    let head = room.head(QUILT, MAIN).unwrap();
    let steps = [
        lay(2, ids[0], (0.0, 0.0), (40.0, 40.0)),
        join(3, (1, 1), (2, 3), true),
        lay(4, ids[2], (0.0, 0.0), (40.0, 40.0)),
        join(5, (2, 1), (4, 3), true),
    ];
    room.append(&head.at(), &steps).unwrap();
    assert_eq!(room.cloth_named(QUILT, MAIN, &name("ripple")).unwrap(), ids[1]);
    assert!(room.cloth_named(QUILT, MAIN, &name("spent")).is_err());
}

#[test]
fn a_border_is_counted_under_its_own_stage() {
    let (_folder, mut room, _) = piece();
    let tide = room.enter(vec![of_kind("tide", Kind::Length, [42.0, 60.0])]).unwrap()[0].1;
    let ask: StageAsk = serde_json::from_str("{\"border\":{\"cloth\":\"tide\",\"sewn_in\":[2.5]}}").unwrap();
    take(&mut room, &ask);
    let found = report(&mut room);
    let print = room.stash().unwrap().get(tide).unwrap().came.print.unwrap();
    let strips = line(&found.enough, StageName::Border, |goods| *goods == Goods::Print(print));
    assert!(strips.needed > 4.0 * 40.0 * 2.5, "{strips:?}");
    assert!(line(&found.enough, StageName::Border, is_thread).needed > 2.0 * 160.0);
    assert!(lines(&found.enough, StageName::Centre).iter().all(|line| line.goods != Goods::Print(print)));
    assert!(found.enough.stages.iter().any(|stage| stage.stage == StageName::Border && stage.hours > 0.1));
}

#[test]
fn the_makers_habits_are_those_of_a_stage_and_of_the_whole() {
    let (_folder, mut room, _) = piece();
    let set = |name: &str, value| (name.to_owned(), Some(value));
    room.set_habits(&[set("minutes_per_quilted_in", 0.5), set("bobbin_yd", 30.0), set("per_hour", 20.0)])
        .unwrap();
    assert!(room.set_habits(&[set("minutes_per_prayer", 1.0)]).unwrap_err().to_string().contains("prayer"));
    assert!(room.set_habits(&[set("bobbin_yd", -1.0)]).is_err());
    let choice = QuiltingChoice { spacing_in: 1.0, ..QuiltingChoice::default() };
    let StageReport::Quilting(plan) =
        take(&mut room, &StageAsk::Quilting { thread: None, below: None, choice })
    else {
        panic!()
    };
    assert!(plan.minutes > plan.length_in * 0.5 && !plan.changes.is_empty());
    let found = report(&mut room).enough;
    let hours = found.stages.iter().find(|stage| stage.stage == StageName::Quilting).unwrap().hours;
    assert!((hours * 60.0 - plan.minutes).abs() < 1e-6, "{hours} {}", plan.minutes);
    assert_eq!(found.work_cost, Some(20.0 * found.hours));
    let thread = line(&found, StageName::Quilting, is_thread).needed;
    assert!((thread - plan.needle_in - plan.bobbin_in).abs() < 1e-6);
    room.set_habits(&[("bobbin_yd".to_owned(), None)]).unwrap();
    assert_eq!(room.habits().unwrap().thread.bobbin_yd, 60.0);
    assert_ne!(room.habits().unwrap().rates, Rates::default());
}

#[test]
fn any_cloth_is_what_nothing_else_takes() {
    // 60 by 40, of which the piece takes 40 by 40: 800 are free.
    let (_folder, mut room, _) = piece();
    take(&mut room, &StageAsk::Sleeve(SleeveChoice::default()));
    let any = |found: &Enough| -> Vec<Line> {
        let lines = lines(found, StageName::Sleeve);
        lines.into_iter().filter(|line| matches!(line.goods, Goods::AnyCloth { .. })).collect()
    };
    let found = any(&report(&mut room).enough);
    assert_eq!(found.len(), 2, "{found:?}");
    assert!(found.iter().all(|line| line.short == 0.0 && line.needed > 15.0), "{found:?}");
    // A facing of 480 is cut from the same cloth: 320 are left.
    let choice = BindingChoice { finish: Finish::Faced, ..BindingChoice::default() };
    take(&mut room, &StageAsk::Binding { from: Some(ClothName::No(1)), choice });
    let found = any(&report(&mut room).enough);
    let needed: f64 = found.iter().map(|line| line.needed).sum();
    let (has, short): (f64, f64) =
        found.iter().fold((0.0, 0.0), |(h, s), line| (h + line.has, s + line.short));
    assert!(needed > 330.0 && (has - 320.0).abs() < 1e-6, "{found:?}");
    assert!((needed - has - short).abs() < 1e-6, "{found:?}");
    // Batting serves for no sleeve, and a scrap does.
    room.enter(vec![of_kind("warm", Kind::Batting, [60.0, 60.0])]).unwrap();
    assert!(any(&report(&mut room).enough).iter().any(|line| line.short > 0.0));
    room.enter(vec![plain("more", Region::rectangle(30.0, 30.0))]).unwrap();
    assert!(any(&report(&mut room).enough).iter().all(|line| line.short == 0.0));
}

#[test]
fn what_is_not_decided_is_named() {
    let (_folder, mut room, _) = piece();
    supply(&mut room, "a spool of grey thread, 5000 yards");
    let found = report(&mut room);
    assert_eq!(found.undecided, ["layers", "quilting", "binding"]);
    assert!(found.verdict().ends_with("Not decided yet, and not counted: layers, quilting, binding."));
    assert!(found.verdict().starts_with("There is enough of everything that is decided."), "{found:?}");
    take(&mut room, &bound(BindingChoice::default()));
    let found = report(&mut room);
    assert_eq!(found.undecided, ["layers", "quilting"]);
    assert!(found.verdict().starts_with("There isn't enough yet."), "{}", found.verdict());
}

#[test]
fn needs_are_told_rounded_up() {
    let (_folder, mut room, _) = piece();
    let names = workroom::asks::GoodsNames::of(room.stash().unwrap());
    let goods = Goods::Thread { colour: "any".to_owned(), weight: "50".to_owned() };
    let line = Line { unit: goods.unit(), goods, needed: 63.08, has: 10.9, short: 52.18 };
    // In yards: a need is rounded up, and what is there down.
    let told = names.short(&line);
    assert!(told.ends_with("2 yards needed, less than 1 there: 2 short"), "{told}");
}

#[test]
fn batting_is_no_cloth() {
    let (_folder, mut room, _) = piece();
    room.enter(vec![of_kind("warm", Kind::Batting, [90.0, 90.0])]).unwrap();
    let at = room.head(QUILT, MAIN).unwrap().at();
    for ask in [
        "{\"border\":{\"cloth\":\"warm\",\"sewn_in\":[2.5]}}",
        "{\"binding\":{\"from\":\"warm\"}}",
        "{\"ring\":{\"cloth\":2,\"slice_in\":2.5}}",
        "{\"square_up\":{\"cloth\":\"warm\",\"goal\":{\"largest\":{\"kind\":\"rectangle\"}}}}",
        "{\"layers\":{\"backing\":{\"cloth\":\"warm\"}}}",
    ] {
        let refused = room.take_stage(&at, &serde_json::from_str(ask).unwrap()).unwrap_err().to_string();
        assert!(refused.contains("No. 2 (warm) is batting, and cloth is wanted there"), "{ask}: {refused}");
    }
    // A cloth of the same name is what is meant.
    let cloth = room.enter(vec![plain("warm", Region::rectangle(9.0, 9.0))]).unwrap()[0].1;
    assert_eq!(room.cloth_named(QUILT, MAIN, &ClothName::Name("warm".to_owned())).unwrap(), cloth);
}

#[test]
fn a_cloth_too_small_for_the_back_is_called_by_its_name() {
    let (_folder, mut room, _) = piece();
    room.enter(vec![
        plain("red stripe", Region::rectangle(20.0, 20.0)),
        of_kind("wide", Kind::Backing, [70.0, 70.0]),
    ])
    .unwrap();
    let ask = "{\"layers\":{\"backing\":{\"cloth\":\"red stripe\",\"whole\":true}}}";
    let at = room.head(QUILT, MAIN).unwrap().at();
    let refused = room.take_stage(&at, &serde_json::from_str(ask).unwrap()).unwrap_err().to_string();
    assert!(refused.contains("`red stripe` has no room for the back"), "{refused}");
    assert!(refused.contains("Take `wide`, or piece it."), "{refused}");
}

#[test]
fn a_figure_without_room_is_told_where_it_could_lie() {
    let (_folder, mut room, cloth) = piece();
    let at = |x: f64, y: f64| Point::new(x, y);
    let square = Path {
        start: at(0.0, 0.0),
        segments: [at(6.0, 0.0), at(6.0, 6.0), at(0.0, 6.0)].map(Segment::Line).to_vec(),
    };
    let shape = Shape { id: "stone".to_owned(), cloth: Some(cloth), paths: vec![square] };
    let figure = Figure { name: "stone".to_owned(), shapes: vec![shape], unit_in: Some(1.0) };
    for (size, said) in [
        (FigureSize::AsDrawn, "The nearest place for its middle is "),
        (FigureSize::WidthIn(60.0), "It has no place at this size: "),
    ] {
        let ask = StageAsk::Figure(FigureChoice::usual(figure.clone(), size, at(1.0, 20.0)));
        let look = room.look_at_stage(QUILT, MAIN, &ask).unwrap();
        let told = look.report.told(quilt::length::LengthUnit::Inches);
        assert!(told.cautions.iter().any(|caution| caution.contains(said)), "{told:?}");
        let head = room.head(QUILT, MAIN).unwrap().at();
        let refused = room.take_stage(&head, &ask).unwrap_err();
        assert!(matches!(refused, workroom::asks::AskError::CantBe { hint, .. } if hint.starts_with(said)));
    }
}

#[test]
fn bias_stems_need_cloth() {
    let (_folder, mut room, cloth) = piece();
    let at = |x: f64, y: f64| Point::new(x, y);
    let reed = Path {
        start: at(0.0, 0.0),
        segments: [at(0.1, 0.0), at(0.1, 8.0), at(0.0, 8.0)].map(Segment::Line).to_vec(),
    };
    let shape = Shape { id: "reed".to_owned(), cloth: Some(cloth), paths: vec![reed] };
    let figure = Figure { name: "reed".to_owned(), shapes: vec![shape], unit_in: Some(1.0) };
    let mut choice = FigureChoice::usual(figure, FigureSize::AsDrawn, at(20.0, 20.0));
    choice.thin = Thin::BiasStem { finished_in: 0.25 };
    take(&mut room, &StageAsk::Figure(choice));
    let found = report(&mut room).enough;
    let print = room.stash().unwrap().get(cloth).unwrap().came.print.unwrap();
    let stem = line(&found, StageName::Figure, |goods| *goods == Goods::Print(print));
    // 1/4 and a least turn-under on both sides, about 8 long with a turn-under at both ends.
    assert!((0.5 * 7.5..0.5 * 9.0).contains(&stem.needed), "{stem:?}");
    assert!(line(&found, StageName::Figure, is_thread).needed > 16.0);
}

#[test]
fn spools_are_chosen_for_front_and_back_by_their_difference() {
    let (_folder, mut room, _) = piece();
    let quilting = |thread: &str, below: Option<&str>| StageAsk::Quilting {
        thread: Some(ThreadAsk::Word(thread.to_owned())),
        below: below.map(|word| ThreadAsk::Word(word.to_owned())),
        choice: QuiltingChoice { spacing_in: 2.0, ..QuiltingChoice::default() },
    };
    let at = room.head(QUILT, MAIN).unwrap().at();
    let none = room.take_stage(&at, &quilting("nearest", None)).unwrap_err();
    assert!(none.to_string().contains("no spool"), "{none}");
    for words in [
        "a spool of rust thread, 500 yards",
        "a spool of black thread, 500 m",
        "a spool of white thread, 40 wt, 1200yd",
    ] {
        supply(&mut room, words);
    }
    let at = room.head(QUILT, MAIN).unwrap().at();
    let unsettled = room.take_stage(&at, &quilting("nearest", Some("contrasting"))).unwrap_err();
    assert!(unsettled.to_string().contains("thread below"), "{unsettled}");
    let back = NewCloth {
        look: Look::plain(Lab::new(96.0, 0.0, 2.0)),
        ..of_kind("calico", Kind::Backing, [60.0, 60.0])
    };
    room.enter(vec![back]).unwrap();
    take(&mut room, &StageAsk::Layers(LayersAsk::default()));
    let found = room.threads(QUILT, MAIN, &[]).unwrap();
    // A slow second method: the difference to the one colour of the front, spool by spool.
    let front = Lab { l: 50.0, a: 40.0, b: 20.0 };
    let mut spools = room.spools().unwrap();
    spools.sort_by(|a, b| difference(a.lab, front).total_cmp(&difference(b.lab, front)));
    let names: Vec<&str> = found.front.nearest.iter().map(|found| found.spool.name.as_str()).collect();
    assert_eq!(names, spools.iter().map(|spool| spool.name.as_str()).collect::<Vec<_>>());
    assert_eq!(names[0], "rust");
    let back = found.back.unwrap();
    assert_eq!(
        (back.nearest[0].spool.name.as_str(), back.contrasting[0].spool.name.as_str()),
        ("white", "black")
    );
    take(&mut room, &quilting("nearest", Some("nearest")));
    let text = "{\"quilting\":{\"spacing_in\":1,\"thread\":\"nearest\",\"below\":\"sand\"}}";
    assert!(matches!(serde_json::from_str(text).unwrap(), StageAsk::Quilting { thread: Some(_), .. }));
    let found = report(&mut room).enough;
    let thread =
        |name: &str, weight: &str| Goods::Thread { colour: name.to_owned(), weight: weight.to_owned() };
    let above = line(&found, StageName::Quilting, |goods| *goods == thread("rust", "50"));
    assert_eq!((above.has, above.short), (500.0 * 36.0, 0.0));
    let below = line(&found, StageName::Quilting, |goods| *goods == thread("white", "40"));
    assert_eq!(below.has, 1200.0 * 36.0);
    // A list instead of the heap's own.
    let list = [quilt::stage::thread::Spool {
        name: "teal".to_owned(),
        lab: Lab::new(50.0, -20.0, -10.0),
        left_yd: None,
    }];
    assert_eq!(room.threads(QUILT, MAIN, &list).unwrap().front.nearest[0].spool.name, "teal");
}

#[test]
fn supplies_are_read_from_words_numbered_undone_and_carried() {
    for (words, told) in [
        ("200 pins", "200 safety pins"),
        ("a can of basting spray", "1 can of basting spray"),
        ("two cans of spray", "2 cans of basting spray"),
        ("60 flower pins", "60 flower pins"),
        ("1,000 curved safety pins.", "1000 safety pins"),
        ("a box of 200 pins", "200 safety pins"),
        ("spray", "1 can of basting spray"),
        ("a spool of dark grey thread, 500 yards", "dark grey thread, 50 weight, 500 yards"),
        ("a cone of navy, 40 wt, 3,000 m", "navy thread, 40 weight, 3281 yards"),
    ] {
        let (_folder, mut room) = workroom();
        let no = supply(&mut room, words);
        assert_eq!((no, room.stash().unwrap().supply(no).unwrap().words().as_str()), (1, told), "{words}");
    }
    for cloth in [
        "red pin dots, 3 by 5",
        "thread print 4 by 4",
        "rust stripe 2 square",
        "blue pin stripe, about 4",
        "a spray of roses",
    ] {
        assert_eq!(read_supplies(cloth).unwrap(), None, "{cloth}");
    }
    for bad in ["a spool of grey thread", "a spool of thread, 500 yards", "a spool of grey thread, 0 yards"] {
        let problem = read_supplies(bad).unwrap_err();
        assert!(problem.to_string().contains(bad) && problem.hint().is_some(), "{problem}");
    }
    for (bad, told) in [("0 pins", "`0 pins` are none"), ("101 spools of grey thread, 9 yards", "101")] {
        let problem = read_supplies(bad).unwrap_err();
        assert!(problem.to_string().contains(told) && problem.hint().is_some(), "{problem}");
    }
    let (_folder, mut room, _) = piece();
    let no = supply(&mut room, "a spool of rust thread, 500 yards");
    let pins = supply(&mut room, "200 pins");
    let id = room.stash().unwrap().supply(no).unwrap().id;
    assert_eq!((no, pins), (2, 3), "they are numbered with the cloths");
    room.give_away(id).unwrap();
    assert!(room.stash().unwrap().supply(no).is_none());
    room.undo().unwrap();
    assert_eq!(room.stash().unwrap().supply(no).unwrap().id, id);
    // What is chosen travels with the quilt; the rest stays.
    let thread = Some(ThreadAsk::Word("rust".to_owned()));
    let choice = QuiltingChoice { spacing_in: 2.0, ..QuiltingChoice::default() };
    take(&mut room, &StageAsk::Quilting { thread, below: None, choice });
    let backing = room.enter(vec![of_kind("calico", Kind::Backing, [60.0, 60.0])]).unwrap()[0];
    let ask = format!("{{\"layers\":{{\"backing\":{{\"cloth\":{}}}}}}}", backing.0);
    take(&mut room, &serde_json::from_str(&ask).unwrap());
    let bytes = room.export(QUILT).unwrap();
    let (_other, mut other) = common::workroom_called(9);
    other.import(&bytes, None).unwrap();
    // Taken back, it comes again with the next file.
    other.undo().unwrap();
    assert!(other.stash().unwrap().supplies().is_empty());
    other.import(&bytes, None).unwrap();
    let there: Vec<String> = other.stash().unwrap().supplies().iter().map(|(_, s)| s.words()).collect();
    assert_eq!(there, ["rust thread, 50 weight, 500 yards"]);
    assert!(other.stash().unwrap().get(backing.1).is_some(), "the back that was chosen comes too");
    other.import(&bytes, Some("again")).unwrap();
    assert_eq!(other.stash().unwrap().supplies().len(), 1);
    // Given away, it stays away.
    other.give_away(id).unwrap();
    other.import(&bytes, Some("once more")).unwrap();
    assert!(other.stash().unwrap().supplies().is_empty());
}

#[test]
fn batting_is_read_from_words() {
    let size = |words: &str| {
        let cloth = read_words(words).unwrap();
        let (low, high) = plane::polygon::bounds(&cloth.outline.outer).unwrap();
        (cloth.kind, high.x - low.x, high.y - low.y, cloth.about, cloth.facts.fibre)
    };
    assert_eq!(size("1 yard of cotton batting"), (Kind::Batting, 90.0, 36.0, true, "cotton".to_owned()));
    assert_eq!(size("wool batting, 36 by 50"), (Kind::Batting, 36.0, 50.0, false, "wool".to_owned()));
    assert_eq!(size("a queen package of batting"), (Kind::Batting, 90.0, 108.0, false, String::new()));
    assert_eq!(read_words("1 yard of cotton batting").unwrap().name, "cotton batting");
    assert_eq!(size("cotton stripe, 3 by 5").0, Kind::Scrap);
    assert!(read_words("some cotton batting").is_err());
    assert_eq!(size("1 yard of cotton").2, 36.0, "a yard off the bolt");
}

/// Nothing laid, and no heap: a rectangle of 20 by 30 in squares is reckoned from the wish, back and binding as on
/// paper (38 long is one width of 40; 102 round the raw edge and 10 for handling).
#[test]
fn a_wish_without_cloth_says_what_to_buy() {
    let (_folder, mut room) = workroom();
    let towards = Towards::Rectangle { width_in: 20.0, height_in: 30.0 };
    let rust = Lab { l: 50.0, a: 40.0, b: 20.0 };
    let drift = even_drift(&[Lab::new(95.0, 0.0, 0.0), rust]);
    room.new_quilt(QUILT, &Wish { towards, drift, ..Wish::default() }).unwrap();
    let found = report(&mut room);
    assert!(found.wished.is_some() && found.verdict().contains("about 20 by 30"), "{}", found.verdict());
    assert!(found.enough.lines.iter().all(|line| line.short > 0.0) && !found.enough.buy.is_empty());
    let back = line(&found.enough, StageName::Backing, |goods| matches!(goods, Goods::OffBolt { .. }));
    assert!((back.needed - 28.0).abs() < 1e-9 || (back.needed - 38.0).abs() < 1e-9, "{back:?}");
    let binding = line(&found.enough, StageName::Binding, |goods| matches!(goods, Goods::Binding { .. }));
    assert!((binding.needed - 112.0).abs() < 1e-9, "{binding:?}");
    // The heap's red sheet serves the red, and nothing of the white.
    room.enter(vec![plain("sheet", Region::rectangle(60.0, 60.0))]).unwrap();
    let fronts = lines(&report(&mut room).enough, StageName::Centre);
    let short: Vec<bool> = fronts.iter().map(|line| line.short > 0.0).collect();
    assert_eq!(short, [true, false, true], "{fronts:?}");
}
