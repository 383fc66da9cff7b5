//! Binding from what lies in the heap, and hanging by the piece's real weight.

mod common;

use common::{plain, two_squares, workroom};
use plane::Region;
use quilt::cloth::Kind;
use quilt::length::fraction;
use quilt::log::{Stage, Step};
use quilt::stage::Chosen;
use quilt::stage::binding::{BindingChoice, FinishPlan, Supply, SupplyCloth};
use quilt::stage::square_up::{Goal, SquareUpChoice};
use workroom::Workroom;
use workroom::asks::{AskError, ClothName, StageAsk, StageReport};
use workroom::quilts::MAIN;
use workroom::stash::NewCloth;

/// What goes round two squares of 4 sewn together: 7 1/2 by 4.
const ROUND_IN: f64 = 23.0;

fn piece_with(cloths: Vec<NewCloth>) -> (tempfile::TempDir, Workroom) {
    let (folder, mut room) = workroom();
    two_squares(&mut room);
    room.enter(cloths).unwrap();
    (folder, room)
}

fn bound_from(name: &str) -> StageAsk {
    StageAsk::Binding { from: Some(ClothName::Name(name.to_owned())), choice: BindingChoice::default() }
}

fn leftover(long: f64) -> NewCloth {
    NewCloth { kind: Kind::Binding, ..plain("rest of navy", Region::rectangle(long, 2.25)) }
}

/// The binding as the log has it.
fn logged(room: &mut Workroom) -> BindingChoice {
    let log = room.log("low tide", MAIN).unwrap();
    match &log.steps.last().unwrap().entry.step {
        Step::Choose(Stage::Planned(chosen)) => match &**chosen {
            Chosen::Binding(choice) => choice.clone(),
            other => panic!("{other:?}"),
        },
        other => panic!("{other:?}"),
    }
}

fn refused(room: &mut Workroom, ask: &StageAsk) -> String {
    let before = room.head("low tide", MAIN).unwrap();
    let told = match room.take_stage(&before.at(), ask) {
        Err(AskError::CantBe { what, .. }) => what,
        other => panic!("{other:?}"),
    };
    assert_eq!(room.head("low tide", MAIN).unwrap().tip, before.tip, "nothing in the log changes");
    told
}

#[test]
fn binding_is_laid_in_the_cloth_that_it_names() {
    // Strips of 9 from a scrap of 9 by 12: 9 n − (n − 1) 2 1/4 reaches 25 1/4 with four.
    let (_folder, mut room) = piece_with(vec![
        plain("navy", Region::rectangle(9.0, 12.0)),
        plain("slip", Region::rectangle(9.0, 5.0)),
    ]);
    let at = room.head("low tide", MAIN).unwrap().at();
    let (_, report) = room.take_stage(&at, &bound_from("navy")).unwrap();
    let StageReport::Binding(FinishPlan::Bound(plan)) = report else { panic!("{report:?}") };
    assert!((plan.net_length_in - ROUND_IN).abs() < 1e-9);
    assert!(matches!(plan.cloth, SupplyCloth::Laid { .. }), "{:?}", plan.cloth);
    let choice = logged(&mut room);
    let Supply::Laid { lengths_in, is_bias: false } = &choice.supply else { panic!("{choice:?}") };
    assert!(lengths_in.iter().all(|long| [9.0, 12.0].contains(long)) && choice.cloth.is_some());
    // Two strips of 9 give 15 3/4, and 25 1/4 are needed.
    let told = refused(&mut room, &bound_from("slip"));
    assert!(told.contains("holds 2 strips 2 1/4 wide") && told.contains("9 1/2 are missing"), "{told}");
}

#[test]
fn leftovers_of_binding_are_taken_as_they_are() {
    let needed = ROUND_IN + 2.25;
    let (_folder, mut room) = piece_with(vec![leftover(10.0), leftover(needed + 2.25 - 10.0)]);
    let at = room.head("low tide", MAIN).unwrap().at();
    room.take_stage(&at, &bound_from("rest of navy")).unwrap();
    let choice = logged(&mut room);
    assert_eq!(
        choice.supply,
        Supply::Leftovers { lengths_in: vec![needed + 2.25 - 10.0, 10.0], is_bias: false }
    );
    // What there is already isn't to buy.
    let enough = room
        .enough(
            "low tide",
            MAIN,
            &quilt::stage::enough::Shop::default(),
            &quilt::stage::enough::Rates::default(),
        )
        .unwrap();
    let bought: Vec<String> = enough.enough.buy.iter().map(|buy| buy.goods.to_string()).collect();
    assert!(!bought.iter().any(|goods| goods.contains("binding")), "{bought:?}");

    let (_folder, mut room) = piece_with(vec![leftover(needed - 1.0 / 16.0)]);
    let told = refused(&mut room, &bound_from("rest of navy"));
    let (short, has) = (fraction(1.0 / 16.0, 16), fraction(needed - 1.0 / 16.0, 16));
    assert!(told.contains(&format!("{short} short")) && told.contains(&has), "{told}");
}

#[test]
fn a_squared_piece_stands_upright_in_the_log() {
    let (_folder, mut room) = piece_with(Vec::new());
    let at = room.head("low tide", MAIN).unwrap().at();
    let goal = Goal::Rectangle { width_in: 4.0, height_in: 2.0, turn_deg: Some(20.0) };
    let ask = StageAsk::SquareUp { cloth: None, choice: SquareUpChoice::to(goal) };
    room.take_stage(&at, &ask).unwrap();
    let log = room.log("low tide", MAIN).unwrap();
    let story = workroom::asks::story(&log.entries(), &room.every_cloth().unwrap());
    assert_eq!(story.last().unwrap(), "Turn the piece 20 degrees to the right, so that it stands upright.");
    let table = room.table("low tide", MAIN).unwrap();
    let (wide, high) = table.piece().unwrap().1.size_in();
    assert!((wide - 4.0).abs() < 1e-9 && (high - 2.0).abs() < 1e-9, "{wide} by {high}");
}
