//! What is needed against what there is, the shopping list, and what a top uses.

mod common;

use common::{Chance, lay, sew};
use plane::Turn;
use quilt::cloth::ClothId;
use quilt::log::{Along, Keep, Mark, Name, Step};
use quilt::stage::enough::{
    Asked, Enough, EnoughProblem, Goods, Have, Known, Need, Price, Rates, Shop, SoldBy, StageName, Work,
    WorkKind, enough, used_in_top,
};
use quilt::stage::figure::HandWork;
use quilt::stage::habits::Habits;
use quilt::stage::quilting;
use quilt::table::Table;

fn need(stage: StageName, goods: Goods, amount: f64) -> Need {
    Need { stage, goods, amount }
}

fn asked(needs: Vec<Need>) -> Asked {
    Asked { needs, work: Vec::new() }
}

fn muslin() -> Goods {
    Goods::OffBolt { name: "muslin".to_owned(), usable_in: 42.0 }
}

fn binding(strip_in: f64, bias: bool) -> Goods {
    Goods::Binding { name: "navy".to_owned(), strip_in, bias }
}

fn report(needs: Vec<Need>, have: &[Have], shop: &Shop) -> Enough {
    enough(&asked(needs), have, shop, &Rates::default()).unwrap()
}

#[test]
fn what_is_short_is_what_is_needed_less_what_there_is() {
    let needs = vec![
        need(StageName::Backing, muslin(), 188.0),
        need(StageName::Binding, binding(2.25, false), 264.0),
    ];
    let have = [
        Have { goods: muslin(), amount: 20.0 },
        Have { goods: muslin(), amount: 30.0 },
        Have::binding("navy".to_owned(), 2.25, false, 264.0),
    ];
    let found = report(needs, &have, &Shop::default());
    let line = |goods: &Goods| found.lines.iter().find(|line| line.goods == *goods).unwrap();
    assert_eq!((line(&muslin()).has, line(&muslin()).short), (50.0, 138.0));
    assert_eq!(line(&binding(2.25, false)).short, 0.0);
    assert!(!found.is_enough());
    assert_eq!(found.buy.len(), 1);
    assert_eq!(found.buy[0].words, "3 7/8 yd", "138 inches");
}

#[test]
fn a_later_stage_gets_what_an_earlier_one_leaves() {
    let print = Goods::Print(4);
    let needs =
        vec![need(StageName::Figure, print.clone(), 60.0), need(StageName::Centre, print.clone(), 70.0)];
    let found = report(needs, &[Have { goods: print, amount: 100.0 }], &Shop::default());
    let stages: Vec<_> =
        found.stages.iter().map(|stage| (stage.stage, stage.lines[0].has, stage.lines[0].short)).collect();
    assert_eq!(stages, [(StageName::Centre, 100.0, 0.0), (StageName::Figure, 30.0, 30.0)]);
    assert_eq!(found.lines[0].short, 30.0);
    assert!(found.stages[0].is_enough() && !found.stages[1].is_enough());
}

#[test]
fn the_stages_are_short_of_what_the_whole_is_short_of() {
    let mut chance = Chance(5);
    for _ in 0..300 {
        let goods = |pick: usize| match pick {
            0 => muslin(),
            1 => binding(2.5, true),
            no => Goods::Print(no as u64),
        };
        let mut needs = Vec::new();
        let mut have = Vec::new();
        for _ in 0..12 {
            let stage = StageName::ALL[chance.below(11)];
            needs.push(need(stage, goods(chance.below(5)), chance.between(0.0, 50.0)));
            have.push(Have { goods: goods(chance.below(5)), amount: chance.between(0.0, 40.0) });
        }
        let found = report(needs, &have, &Shop::default());
        for line in &found.lines {
            let stages = found.stages.iter().flat_map(|stage| &stage.lines);
            let short: f64 = stages.filter(|part| part.goods == line.goods).map(|part| part.short).sum();
            assert!((short - line.short).abs() < 1e-6, "{line:?} {short}");
            assert_eq!(line.short > 0.0, found.buy.iter().any(|buy| buy.goods == line.goods));
        }
    }
}

// T1 castillejacotton.blogspot.com 2013/06; T4's size by the same rule. T16, a shop page: bias.
#[test]
fn binding_is_bought_as_whole_strips() {
    let shop = Shop { usable_in: 40.0, ..Shop::default() };
    let buys = |length: f64, strip_in: f64, bias: bool| {
        report(vec![need(StageName::Binding, binding(strip_in, bias), length)], &[], &shop).buy[0].quantity
    };
    // 220 / 38 takes 6 strips of 2: 12 inches.
    assert_eq!(buys(220.0, 2.0, false), 0.375);
    // 184 / 37 1/2 takes 5 strips of 2 1/2: 12 1/2 inches, 3/8 yard.
    assert_eq!(buys(184.0, 2.5, false), 0.375);
    // A square of 26 gives 7 strips of 35.4: 247.5.
    assert_eq!(buys(244.0, 2.5, true), 0.75);
    // 400 of 2 1/4: the root of the area says 30, which gives 369; it takes a square of 32 (geometry).
    assert_eq!(buys(400.0, 2.25, true), 1.0);
    // A square can't be larger than the bolt is wide: 1,500 of 2 1/2 take three, none over 40.
    let yards = buys(1500.0, 2.5, true);
    assert!((2.75..=3.375).contains(&yards), "{yards}");
}

// Geometry: what is bought gives the length that is short, and less than an eighth more square would do.
#[test]
fn a_square_that_is_bought_gives_the_bias_that_is_short() {
    let shop = Shop { usable_in: 40.0, ..Shop::default() };
    for length in (50..600).step_by(10).map(f64::from) {
        let need = need(StageName::Binding, binding(2.25, true), length);
        let side = report(vec![need], &[], &shop).buy[0].quantity * 36.0;
        let got = quilt::sums::bias_from_square(side.min(40.0), 2.25, 0.25).unwrap();
        assert!(got.length_in >= length, "{length}: {side} gives {}", got.length_in);
    }
}

#[test]
fn each_stage_asks_for_its_own_patches_and_seams() {
    let square = |side: f64| lay(&[(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]);
    let table = table(&[
        square(3.5),
        square(3.5),
        sew(Name::new(Mark(1), 1), Name::new(Mark(2), 3), [true, true]),
        lay(&[(0.0, 0.0), (6.5, 0.0), (6.5, 2.5), (0.0, 2.5)]),
        sew(Name::new(Mark(1), 2), Name::new(Mark(4), 0), [true, true]),
    ]);
    let border = |mark: Mark| if mark >= Mark(4) { StageName::Border } else { StageName::Centre };
    let (mark, _) = table.piece().unwrap();
    let used = used_in_top(&table, mark, 0.25, &Known { stage_of: &border, ..UNKNOWN }).unwrap();
    let parts: Vec<_> = used.to_sew.iter().map(|part| (part.stage, part.patches, part.seams.seams)).collect();
    assert_eq!(parts, [(StageName::Centre, 2, 1), (StageName::Border, 1, 1)]);
    assert_eq!(used.to_sew_in, used.to_sew.iter().map(|part| part.seams.length_in).sum::<f64>());
    let found = enough(&used.asks(), &[], &Shop::default(), &Rates::default()).unwrap();
    let needed: Vec<_> = found.stages.iter().map(|stage| (stage.stage, stage.lines[0].needed)).collect();
    assert_eq!(needed, [(StageName::Centre, 24.5), (StageName::Border, 16.25)]);
}

#[test]
fn a_stages_own_minutes_are_the_hours_of_the_report() {
    let mut habits = Habits::default();
    habits.rates.minutes_per_quilted_in = 0.125;
    habits.rates.minutes_per_bobbin = 7.0;
    habits.thread.bobbin_yd = 20.0;
    let outline = plane::Region::rectangle(20.0, 20.0).outer;
    let choice = quilting::QuiltingChoice { spacing_in: 0.5, ..quilting::QuiltingChoice::default() };
    let done = quilting::plan(&choice, &outline, &quilting::Beside::default(), &habits).unwrap();
    let work = quilting::work(&done.fill, done.plan.changes.len()).to_vec();
    let found = enough(&Asked { work, needs: vec![] }, &[], &Shop::default(), &habits.rates).unwrap();
    assert!((found.hours * 60.0 - done.plan.minutes).abs() < 1e-9);
    let by_hand = done.plan.length_in * 0.125 + 0.5 + 7.0 * done.plan.changes.len() as f64;
    assert!((done.plan.minutes - by_hand).abs() < 1e-9 && !done.plan.changes.is_empty());
    let hand = HandWork::of(30.0, 12.0, &habits).unwrap();
    let figure = Asked { work: hand.work().to_vec(), needs: vec![] };
    let hours = enough(&figure, &[], &Shop::default(), &habits.rates).unwrap().hours;
    assert!((hours * 60.0 - hand.minutes).abs() < 1e-9);
    // And its thread is that of the plan for all thread.
    let work = quilt::stage::thread::Work { applique_in: 30.0, stitched_rows_in: 12.0, ..Default::default() };
    let plan = quilt::stage::thread::plan(&habits.thread, &work).unwrap();
    assert_eq!(plan.jobs.iter().map(|job| job.needle_in).sum::<f64>(), hand.thread_in);
}

// A choice kept by a log of an earlier version, with rates of its own.
#[test]
fn rates_in_an_old_choice_are_passed_over() {
    let kept = r#"{"spacing_in":0.75,"pace":{"inches_a_minute":40.0}}"#;
    let choice: quilting::QuiltingChoice = serde_json::from_str(kept).unwrap();
    assert_eq!(choice.spacing_in, 0.75);
}

#[test]
fn everything_is_bought_in_the_shops_units() {
    let thread = Goods::Thread { colour: "grey".to_owned(), weight: "50 wt".to_owned() };
    let pins = Goods::Counted { name: "safety pins".to_owned() };
    let batting = Goods::BattingPackage { name: "twin".to_owned() };
    let prices = vec![
        Price { goods: thread.clone(), each: 4.0 },
        Price { goods: pins.clone(), each: 0.1 },
        Price { goods: batting.clone(), each: 20.0 },
        Price { goods: muslin(), each: 8.0 },
    ];
    let shop = Shop { cloth_by: SoldBy::TenCm, prices, ..Shop::default() };
    let needs = vec![
        need(StageName::Quilting, thread, 426.7 * 36.0),
        need(StageName::Basting, pins, 214.0),
        need(StageName::Batting, batting, 1.0),
        need(StageName::Backing, muslin(), 188.0),
    ];
    let found = report(needs.clone(), &[], &shop);
    let words: Vec<&str> = found.buy.iter().map(|buy| buy.words.as_str()).collect();
    // T55: 426.7 yards are 390 metres.
    assert_eq!(words, ["4.8 m", "2 spools", "1 piece", "214 pieces"]);
    assert!((found.buy_cost.unwrap() - (4.8 * 8.0 + 8.0 + 20.0 + 21.4)).abs() < 1e-9);
    let unpriced = Shop { prices: Vec::new(), ..shop };
    assert_eq!(report(needs, &[], &unpriced).buy_cost, None);
    // Cloth that is short by area is at least so much.
    let scraps = report(vec![need(StageName::Centre, Goods::Print(1), 400.0)], &[], &Shop::default());
    assert_eq!((scraps.buy[0].words.as_str(), scraps.buy[0].at_least), ("3/8 yd", true));
}

#[test]
fn hours_and_cost_follow_the_makers_own_rates() {
    let work = |stage, kind, amount| Work { stage, kind, amount };
    let asked = Asked {
        needs: Vec::new(),
        work: vec![
            work(StageName::Centre, WorkKind::Cut, 60.0),
            work(StageName::Centre, WorkKind::Seam, 600.0),
            work(StageName::Quilting, WorkKind::Quilt, 3000.0),
        ],
    };
    let rates = Rates {
        minutes_per_piece: 1.0,
        minutes_per_seam_in: 0.1,
        minutes_per_quilted_in: 0.02,
        per_hour: Some(15.0),
        ..Rates::default()
    };
    let found = enough(&asked, &[], &Shop::default(), &rates).unwrap();
    assert_eq!(found.stages.iter().map(|stage| stage.hours).collect::<Vec<_>>(), [2.0, 1.0]);
    assert_eq!((found.hours, found.work_cost, found.buy_cost), (3.0, Some(45.0), Some(0.0)));
    assert!(found.is_enough());
    let untold = Rates { per_hour: None, ..rates };
    assert_eq!(enough(&asked, &[], &Shop::default(), &untold).unwrap().work_cost, None);
}

#[test]
fn amounts_that_are_none_are_refused_with_their_stage() {
    let rates = Rates::default();
    for bad in [-1.0, f64::NAN, f64::INFINITY] {
        let needs = asked(vec![need(StageName::Backing, muslin(), bad)]);
        let refused = enough(&needs, &[], &Shop::default(), &rates).unwrap_err();
        assert!(refused.to_string().contains("backing asks for"), "{refused}");
        let have = [Have { goods: muslin(), amount: bad }];
        let refused = enough(&asked(vec![]), &have, &Shop::default(), &rates).unwrap_err();
        assert!(matches!(refused, EnoughProblem::Had { .. }));
        let work = Asked {
            work: vec![Work { stage: StageName::Ring, kind: WorkKind::Cut, amount: bad }],
            ..asked(vec![])
        };
        assert!(matches!(enough(&work, &[], &Shop::default(), &rates), Err(EnoughProblem::Work { .. })));
        let slow = Rates { minutes_per_pin: bad, ..Rates::default() };
        assert!(enough(&asked(vec![]), &[], &Shop::default(), &slow).is_err());
        let shop = Shop { usable_in: bad, ..Shop::default() };
        assert!(enough(&asked(vec![]), &[], &shop, &rates).is_err());
    }
}

/// Prints without a number, nothing done.
const UNKNOWN: Known<'_> =
    Known { print_of: &|_| None, is_done: &|_| false, stage_of: &|_| StageName::Centre };

fn table(steps: &[Step]) -> Table {
    let mut table = Table::new();
    for (i, step) in steps.iter().enumerate() {
        table.apply(Mark(i as u32 + 1), step).expect("a step that can be sewn");
    }
    table
}

#[test]
fn a_top_says_how_much_of_each_print_it_uses() {
    let square = |side: f64| lay(&[(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)]);
    let of = |step: Step, cloth: u64| match step {
        Step::Lay { at, cut, .. } => Step::Lay { cloth: ClothId(cloth), at, cut },
        other => other,
    };
    // Two 3 1/2 squares side by side and a bar that is trimmed on both sides, of three cloths, two of one print.
    let table = table(&[
        of(square(3.5), 1),
        of(square(3.5), 2),
        sew(Name::new(Mark(1), 1), Name::new(Mark(2), 3), [true, true]),
        of(lay(&[(0.0, 0.0), (8.0, 0.0), (8.0, 2.5), (0.0, 2.5)]), 3),
        sew(Name::new(Mark(1), 2), Name::new(Mark(4), 0), [true, true]),
    ]);
    let print_of = |cloth: ClothId| (cloth.0 < 3).then_some(7);
    let (mark, top) = table.piece().unwrap();
    let known = Known { print_of: &print_of, is_done: &|_| false, stage_of: &|_| StageName::Centre };
    let used = used_in_top(&table, mark, 0.25, &known).unwrap();
    let [print, cloth] = &used.prints[..] else { panic!("{used:?}") };
    assert_eq!((print.goods.clone(), print.patches), (Goods::Print(7), 2));
    assert_eq!((cloth.goods.clone(), cloth.patches), (Goods::Cloth(ClothId(3)), 1));
    assert!((print.cut_in2 - 24.5).abs() < 1e-9 && (print.finished_in2 - 18.0).abs() < 1e-9, "{print:?}");
    assert!((cloth.cut_in2 - 20.0).abs() < 1e-9 && (cloth.finished_in2 - 12.0).abs() < 1e-9, "{cloth:?}");
    assert!((cloth.trimmed_in2 - 1.5 * 2.5).abs() < 1e-9, "{cloth:?}");
    assert_eq!(used.patches() as usize, top.faces().len());
    assert!((used.seams_in - (3.5 + 6.5)).abs() < 1.6, "{}", used.seams_in);
    assert_eq!(used_in_top(&table, Mark(99), 0.25, &known), Err(EnoughProblem::NoTop));
    let asks = used.asks();
    assert_eq!((asks.needs.len(), asks.work.len()), (2, 2));
    // When the two squares have been cut and sewn, only the bar is asked for.
    let sewn =
        Known { print_of: &print_of, is_done: &|mark| mark <= Mark(3), stage_of: &|_| StageName::Centre };
    let rest = used_in_top(&table, mark, 0.25, &sewn).unwrap();
    assert_eq!((rest.prints[0].to_cut, rest.prints[0].cut_in2), (0, print.cut_in2));
    assert!((used.seams_in - rest.to_sew_in - 3.5).abs() < 1e-9, "{rest:?}");
    let asks = rest.asks();
    assert_eq!(asks.needs, [need(StageName::Centre, Goods::Cloth(ClothId(3)), 20.0)]);
}

#[test]
fn a_patch_sliced_apart_counts_once() {
    let square = lay(&[(0.0, 0.0), (6.0, 0.0), (6.0, 6.0), (0.0, 6.0)]);
    let along = Along::From { side: Name::new(Mark(1), 0), at_in: 3.0, turn: Turn::QUARTER };
    let cut = Step::Cut { top: Mark(1), along, keep: Keep::Both };
    let mut table = table(&[square, cut]);
    let halves: Vec<Mark> = table.tops().keys().copied().collect();
    assert_eq!(halves.len(), 2);
    for half in &halves {
        let used = used_in_top(&table, *half, 0.25, &UNKNOWN).unwrap();
        assert_eq!((used.prints[0].patches, used.prints[0].cut_in2), (1, 36.0));
        assert!((used.prints[0].finished_in2 - 2.5 * 5.5).abs() < 1e-9);
    }
    // Sewn together again along the cut, it is one patch with two faces.
    let new_side = |mark: &Mark| {
        let sides = table.top(*mark).unwrap().sides();
        let long = |side: &&quilt::table::Side| side.length_in() > 5.9;
        let names = sides.iter().filter(long).filter_map(quilt::table::Side::name);
        names.into_iter().find(|name| name.by == Mark(2)).unwrap()
    };
    let step = sew(new_side(&halves[0]), new_side(&halves[1]), [true, true]);
    table.apply(Mark(3), &step).unwrap();
    let (mark, top) = table.piece().unwrap();
    assert_eq!(top.faces().len(), 2);
    let used = used_in_top(&table, mark, 0.25, &UNKNOWN).unwrap();
    assert_eq!((used.prints[0].patches, used.prints[0].cut_in2), (1, 36.0));
    assert!(
        (used.prints[0].finished_in2 - 2.0 * 2.5 * 5.5).abs() < 1e-9 && (used.seams_in - 6.0).abs() < 1e-9
    );
}
