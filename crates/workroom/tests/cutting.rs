//! What is still to be cut, laid on the cloths of the heap, and what is bought: worked cases.

mod common;

use common::{enter, lay, plain, two_squares, workroom};
use plane::{Point, Pose, Region, intersection, polygon};
use quilt::cloth::Kind;
use quilt::length::LengthUnit;
use quilt::log::{Entry, Mark, Step};
use quilt::wish::Wish;
use workroom::Workroom;
use workroom::asks::AskError;
use workroom::cutting::{CutPiece, CuttingPlan, CuttingWish};
use workroom::making::read_plan;
use workroom::quilts::MAIN;
use workroom::stash::{NewCloth, StripAsk};

fn cutting(room: &mut Workroom, wish: &CuttingWish) -> CuttingPlan {
    let plan = room.cutting("low tide", MAIN, wish, &mut |_| true).unwrap();
    for cloth in &plan.cloths {
        let now = room.stash().unwrap().get(cloth.cloth).unwrap().now.clone().unwrap();
        sound(&cloth.pieces, &now.outline);
    }
    plan
}

/// No piece reaches over the edge or into another.
fn sound(pieces: &[CutPiece], cloth: &Region) {
    let region = |piece: &CutPiece| Region { outer: piece.outline.clone(), holes: Vec::new() };
    let area = |parts: Vec<Region>| parts.iter().map(Region::area).sum::<f64>();
    for (i, piece) in pieces.iter().enumerate() {
        let inside = area(intersection(&region(piece), cloth));
        assert!((inside - polygon::area(&piece.outline)).abs() < 0.02, "{} lies on its cloth", piece.name);
        for other in &pieces[..i] {
            assert!(
                area(intersection(&region(piece), &region(other))) < 0.02,
                "{} and {}",
                piece.name,
                other.name
            );
        }
    }
}

fn finish(room: &mut Workroom, stages: &str) {
    let plan = read_plan(stages).unwrap();
    let at = room.head("low tide", MAIN).unwrap().at();
    room.finish(&at, None, &plan, &|_| Err("it is not there".to_owned())).unwrap();
}

#[test]
fn planned_patches_keep_their_place_and_straight_cuts_part_them() {
    let (_folder, mut room) = workroom();
    let (cloth, ..) = two_squares(&mut room);
    let plan = cutting(&mut room, &CuttingWish::default());
    let [cut] = &plan.cloths[..] else { panic!("one cloth: {plan:?}") };
    assert_eq!((cut.cloth, cut.pieces.len(), cut.used_in2), (cloth, 2, 32.0));
    assert!(cut.pieces.iter().all(|piece| piece.was_laid && !piece.by_its_edges));
    let numbers: Vec<usize> = cut.pieces.iter().map(|piece| piece.no).collect();
    assert_eq!(numbers, [1, 2]);
    // The corner of 8 by 4 is squared off, then parted at 4 inches; an L is left, 2 wide.
    let mut long: Vec<[f64; 2]> =
        cut.long_cuts.iter().map(|[a, b]| [(b.x - a.x).abs(), (b.y - a.y).abs()]).collect();
    assert_eq!(cut.long_cuts.last().map(|[from, to]| (from.x, to.x)), Some((4.0, 4.0)));
    long.sort_by(|a, b| b[0].total_cmp(&a[0]));
    assert_eq!(long, [[8.0, 0.0], [0.0, 4.0], [0.0, 4.0]]);
    let [[along, across]] = cut.left_in[..] else { panic!("one part: {:?}", cut.left_in) };
    assert!((along - 2.0).abs() < 0.01 && (across - 10.0).abs() < 0.01, "2 along the threads, 10 across");
    assert_eq!((plan.to_buy, plan.no_place), (Vec::new(), Vec::new()));
    assert!(room.cutting("low tide", MAIN, &CuttingWish::default(), &mut |_| false).is_ok());
}

#[test]
fn laid_anew_patches_lie_on_any_cloth_of_their_print() {
    let (_folder, mut room) = workroom();
    let (cloth, ..) = two_squares(&mut room);
    let other = enter(&mut room, 4.0, 8.0);
    let anew = CuttingWish { anew: true, ..CuttingWish::default() };
    let plan = cutting(&mut room, &anew);
    assert_eq!(plan.cloths.iter().map(|cut| cut.cloth).collect::<Vec<_>>(), [cloth]);
    room.same_print(&[cloth, other]).unwrap();
    let plan = cutting(&mut room, &anew);
    assert_eq!(
        plan.cloths.iter().map(|cut| cut.cloth).collect::<Vec<_>>(),
        [other],
        "they fill the smaller one"
    );
    let log = room.log("low tide", MAIN).unwrap();
    assert_eq!(log.steps.len(), 3, "a cutting plan changes no log");
}

#[test]
fn laid_anew_no_patch_loses_the_place_that_it_had() {
    let (_folder, mut room) = workroom();
    // Five wedges that fill a cloth to its edges, head to foot: found by no chance, but planned so.
    let cloth = enter(&mut room, 7.0, 6.0);
    let head = room.new_quilt("low tide", &Wish::default()).unwrap();
    let shapes = [
        [(0.0, 0.0), (2.0, 0.0), (0.8, 6.0), (0.0, 6.0)],
        [(2.0, 0.0), (2.4, 0.0), (3.1, 6.0), (0.8, 6.0)],
        [(2.4, 0.0), (4.4, 0.0), (3.9, 6.0), (3.1, 6.0)],
        [(4.4, 0.0), (5.0, 0.0), (6.3, 6.0), (3.9, 6.0)],
        [(5.0, 0.0), (7.0, 0.0), (7.0, 6.0), (6.3, 6.0)],
    ];
    let laid = shapes.iter().zip(1..).map(|(shape, mark)| Entry {
        mark: Mark(mark),
        run: None,
        step: Step::Lay { cloth, at: Pose::STAY, cut: shape.map(|(x, y)| Point::new(x, y)).to_vec() },
    });
    room.append(&head.at(), &laid.collect::<Vec<_>>()).unwrap();
    for rounds in [0, 40] {
        let effort = nest::Effort { rounds, ..nest::Effort::default() };
        let plan = cutting(&mut room, &CuttingWish { anew: true, effort, ..CuttingWish::default() });
        assert_eq!((plan.placed(), plan.no_place.len()), (5, 0), "after {rounds} rounds");
    }
}

#[test]
fn bias_strips_too_long_for_the_bolt_are_joined_of_bits() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 40.0, 40.0);
    let head = room.new_quilt("low tide", &Wish::default()).unwrap();
    room.append(&head.at(), &[lay(1, cloth, (0.0, 0.0), (30.0, 30.0))]).unwrap();
    let plan = "[[stage]]\nbinding = { strip_width_in = 2.25, thickness_in = 0.0625, supply = { laid = { lengths_in = [30.0, 30.0, 30.0, 30.0, 30.0], is_bias = true } } }\n";
    finish(&mut room, plan);
    let narrow = CuttingWish { bolt_in: Some(20.0), ..CuttingWish::default() };
    let plan = cutting(&mut room, &narrow);
    let [buy] = &plan.to_buy[..] else { panic!("one length: {plan:?}") };
    sound(&buy.pieces, &Region::rectangle(buy.buy_in, 20.0));
    assert!(!plan.joined.is_empty(), "{plan:?}");
    for strip in &plan.joined {
        // At 45 degrees a strip l long and w wide is (l + w) / sqrt 2 high.
        assert!((strip.bit_in + 2.25) / 2.0_f64.sqrt() <= 20.0 + 1e-6, "{strip:?}");
        assert!((strip.loss_in - 2.25).abs() < 1e-9, "a diagonal join takes the width of the strip");
    }
    assert!(
        plan.summary(LengthUnit::Inches).contains("joined of bits"),
        "{}",
        plan.summary(LengthUnit::Inches)
    );
}

#[test]
fn a_binding_of_no_cloth_is_bought_off_the_bolt() {
    let (_folder, mut room) = workroom();
    two_squares(&mut room);
    finish(&mut room, "[[stage]]\nbinding = { strip_width_in = 2.25, thickness_in = 0.0625 }\n");
    let bolt = CuttingWish { bolt_in: Some(42.0), ..CuttingWish::default() };
    let plan = cutting(&mut room, &bolt);
    let [buy] = &plan.to_buy[..] else { panic!("one length: {plan:?}") };
    assert_eq!(buy.name, "cloth for the binding");
    sound(&buy.pieces, &Region::rectangle(buy.buy_in, buy.usable_in));
    // No two of the strips lie side by side across the bolt, so each takes its width; 4 1/2 inches are an eighth of a yard.
    let area: f64 = buy.pieces.iter().map(|piece| polygon::area(&piece.outline)).sum();
    assert!(
        buy.length_in >= area / 42.0 && buy.length_in <= 2.25 * buy.pieces.len() as f64 + 0.01,
        "{buy:?}"
    );
    assert!(
        (buy.buy_in / 4.5).fract() < 1e-9
            && buy.buy_in >= buy.length_in - 1e-6
            && buy.buy_in < buy.length_in + 4.5
    );
}

#[test]
fn sleeve_and_label_go_into_what_is_free() {
    let (_folder, mut room) = workroom();
    let (patches, ..) = two_squares(&mut room);
    finish(&mut room, "[[stage]]\nsleeve = { }\n");
    // Nothing in the heap is large enough for a sleeve.
    let plan = cutting(&mut room, &CuttingWish::default());
    let why = &plan.no_place.iter().find(|piece| piece.name == "sleeve").unwrap().why;
    assert!(
        why.contains("too large for what is free") && why.contains("nearest comes No. 1 (scrap)"),
        "{why}"
    );
    let length = NewCloth { kind: Kind::Length, ..plain("calico", Region::rectangle(20.0, 20.0)) };
    let calico = room.enter(vec![length]).unwrap()[0].1;
    let plan = cutting(&mut room, &CuttingWish::default());
    assert_eq!(plan.no_place, []);
    let on = |name: &str| {
        plan.cloths.iter().find(|cut| cut.pieces.iter().any(|piece| piece.name == name)).unwrap().cloth
    };
    assert_eq!((on("sleeve"), on("patch 1")), (calico, patches));
}

#[test]
fn without_a_heap_everything_is_bought_by_print() {
    let (_folder, mut room) = workroom();
    two_squares(&mut room);
    let all = CuttingWish { buy_all: true, bolt_in: Some(8.0), ..CuttingWish::default() };
    let plan = cutting(&mut room, &all);
    let [buy] = &plan.to_buy[..] else { panic!("one length: {plan:?}") };
    assert_eq!((buy.name.as_str(), buy.pieces.len()), ("scrap", 2));
    assert!((buy.length_in - 4.0).abs() < 0.01, "two squares of 4 side by side on 8: {}", buy.length_in);
    assert_eq!(buy.buy_in, 4.5, "an eighth of a yard");
    assert_eq!(buy.pieces.iter().filter_map(|piece| piece.mark).collect::<Vec<_>>().len(), 2);
}

#[test]
fn planned_patches_nearer_than_asked_are_named_and_what_is_sought_keeps_clear_of_them() {
    let (_folder, mut room) = workroom();
    two_squares(&mut room);
    let length = NewCloth { kind: Kind::Length, ..plain("calico", Region::rectangle(20.0, 20.0)) };
    room.enter(vec![length]).unwrap();
    finish(&mut room, "[[stage]]\nsleeve = { }\n");
    assert_eq!(cutting(&mut room, &CuttingWish::default()).too_near, []);
    let wish = CuttingWish { between_in: 0.5, edge_in: 0.25, ..CuttingWish::default() };
    let plan = cutting(&mut room, &wish);
    let near: Vec<(Vec<&str>, f64, f64)> = plan
        .too_near
        .iter()
        .map(|near| (near.names.iter().map(String::as_str).collect(), near.near_in, near.asked_in))
        .collect();
    assert_eq!(
        near,
        [(vec!["patch 1"], 0.0, 0.25), (vec!["patch 1", "patch 2"], 0.0, 0.5), (vec!["patch 2"], 0.0, 0.25)]
    );
    let words = plan.too_near_words(&|inches| quilt::length::fraction(inches, 8));
    assert!(words[0].starts_with("No. 1: between patch 1 and the edge there is nothing; "), "{words:?}");
    let anew = CuttingWish { anew: true, ..wish };
    let plan = cutting(&mut room, &anew);
    assert_eq!((plan.too_near, plan.no_place), (Vec::new(), Vec::new()));
}

#[test]
fn a_patch_planned_on_a_whole_length_is_told_to_fit_an_offcut() {
    let (_folder, mut room) = workroom();
    let length = NewCloth { kind: Kind::Length, ..plain("calico", Region::rectangle(40.0, 40.0)) };
    let calico = room.enter(vec![length]).unwrap()[0].1;
    let offcut = enter(&mut room, 7.0, 5.0);
    let head = room.new_quilt("low tide", &Wish::default()).unwrap();
    let steps = [lay(1, calico, (0.0, 0.0), (4.0, 4.0)), lay(2, calico, (4.0, 0.0), (8.0, 4.0))];
    room.append(&head.at(), &steps).unwrap();
    assert_eq!(cutting(&mut room, &CuttingWish::default()).elsewhere, [], "it is another print");
    room.same_print(&[calico, offcut]).unwrap();
    let plan = cutting(&mut room, &CuttingWish::default());
    let [one] = &plan.elsewhere[..] else { panic!("patch 2 is too long: {:?}", plan.elsewhere) };
    assert_eq!((one.name.as_str(), one.planned_no, one.no), ("patch 1", 1, 2));
    assert_eq!(
        plan.elsewhere_words(),
        [
            "Patch 1 would also lie in No. 2, which is smaller than the whole length that it is planned on; `--anew` weighs \
             that too."
        ]
    );
    let anew = cutting(&mut room, &CuttingWish { anew: true, ..CuttingWish::default() });
    assert_eq!(anew.elsewhere, []);
}

#[test]
fn a_strip_set_is_bought_as_its_strips() {
    let (_folder, mut room) = workroom();
    let cloths: Vec<_> = ["red", "blue"]
        .iter()
        .map(|name| room.enter(vec![plain(name, Region::rectangle(30.0, 10.0))]).unwrap()[0].1)
        .collect();
    let strips: Vec<StripAsk> =
        cloths.iter().map(|&cloth| StripAsk { cloth, width_in: 2.5, at: Pose::STAY }).collect();
    let set = room.sew_strip_set(&strips, 30.0, 0.25).unwrap();
    let head = room.new_quilt("low tide", &Wish::default()).unwrap();
    room.append(&head.at(), &[lay(1, set, (2.0, 0.0), (10.0, 4.5))]).unwrap();
    let all = CuttingWish { buy_all: true, ..CuttingWish::default() };
    let plan = cutting(&mut room, &all);
    let mut bought: Vec<(&str, usize, f64, f64)> = Vec::new();
    for buy in &plan.to_buy {
        let [long, wide] = buy.pieces[0].size_in();
        bought.push((&buy.name, buy.pieces.len(), (long * 1e6).round() / 1e6, (wide * 1e6).round() / 1e6));
    }
    // The patch reaches over 10 inches of the set, and each strip was cut 2 1/2 wide.
    assert_eq!(bought, [("blue", 1, 10.0, 2.5), ("red", 1, 10.0, 2.5)]);
    let [sew] = &plan.to_sew[..] else { panic!("{:?}", plan.to_sew) };
    assert_eq!((sew.strips, sew.pieces.clone()), (2, vec!["patch 1".to_owned()]));
    assert!((sew.size_in[0] - 10.0).abs() < 1e-9 && (sew.size_in[1] - 4.5).abs() < 1e-9, "{sew:?}");
}

#[test]
fn what_is_bought_is_told_in_the_shops_words_and_drawn_as_far_as_it_is_used() {
    let (_folder, mut room) = workroom();
    two_squares(&mut room);
    let all = CuttingWish { buy_all: true, bolt_in: Some(40.0), ..CuttingWish::default() };
    let plan = cutting(&mut room, &all);
    let buy = &plan.to_buy[0];
    let words = buy.bought(LengthUnit::Inches);
    assert!(words.starts_with("Buy 1/8 yd (4 1/2 inches) of cloth 40 inches wide"), "{words}");
    let [along, across] = buy.shown_in();
    assert!(along[1] <= buy.buy_in && across[1] - across[0] <= 12.0 + 0.01, "{along:?} {across:?}");
    for point in buy.pieces.iter().flat_map(|piece| &piece.outline) {
        let is_shown =
            across[0] - 0.001 <= point.y && point.y <= across[1] + 0.001 && point.x <= along[1] + 0.001;
        assert!(is_shown, "{point:?}");
    }
}

#[test]
fn what_cannot_be_planned_is_told() {
    let (_folder, mut room) = workroom();
    let refused = |room: &mut Workroom, wish: &CuttingWish| {
        room.cutting("low tide", MAIN, wish, &mut |_| true).unwrap_err()
    };
    room.new_quilt("low tide", &Wish::default()).unwrap();
    assert!(matches!(refused(&mut room, &CuttingWish::default()), AskError::NothingOnTable));
    let cloth = enter(&mut room, 10.0, 6.0);
    let at = room.head("low tide", MAIN).unwrap().at();
    let head = room.append(&at, &[lay(1, cloth, (0.0, 0.0), (4.0, 4.0))]).unwrap();
    let narrow = CuttingWish { buy_all: true, bolt_in: Some(1.0), ..CuttingWish::default() };
    assert_eq!(refused(&mut room, &narrow).to_string(), "a bolt is no 1 inches wide");
    let wide = CuttingWish { anew: true, between_in: 5.0, ..CuttingWish::default() };
    for wide in
        [wide, CuttingWish { anew: false, ..wide }, CuttingWish { between_in: 0.0, edge_in: -1.0, ..wide }]
    {
        let said = refused(&mut room, &wide).to_string();
        assert!(said.starts_with("room of ") && said.contains(" inches is not from 0 to 2"), "{said}");
    }
    let tip = head.tip.unwrap();
    room.sew(&head.at(), tip, false).unwrap();
    let done = refused(&mut room, &CuttingWish::default());
    assert!(done.to_string().starts_with("nothing is left to cut"), "{done}");
}

/// The back is planned on bolts 42 wide, wider than the shop's 40: it is bought so wide, and the rest of the plan
/// stands.
#[test]
fn a_back_from_a_wider_bolt_leaves_the_plan_whole() {
    let (_folder, mut room) = workroom();
    let cloth = enter(&mut room, 60.0, 60.0);
    let head = room.new_quilt("low tide", &Wish::default()).unwrap();
    room.append(&head.at(), &[lay(1, cloth, (0.0, 0.0), (50.0, 50.0))]).unwrap();
    finish(&mut room, "[[stage]]\nlayers = {}\n");
    let plan = cutting(&mut room, &CuttingWish::default());
    assert_eq!(plan.cloths.len(), 1, "the patch keeps its place: {plan:?}");
    let backs: Vec<&str> =
        plan.to_buy.iter().flat_map(|buy| &buy.pieces).map(|piece| piece.name.as_str()).collect();
    assert!(backs.iter().any(|name| name.starts_with("back")), "{plan:?}");
    for buy in &plan.to_buy {
        sound(&buy.pieces, &Region::rectangle(buy.buy_in, buy.usable_in));
    }
}
