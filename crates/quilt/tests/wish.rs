//! A wish that makes no sense is refused, with what is wrong and what it may be.

use plane::{Point, Region};
use quilt::cloth::ClothId;
use quilt::wish::{DriftStop, Limits, Motif, Towards, Wish};

fn stop(at: f64) -> DriftStop {
    DriftStop { at, lab: colour::read_words("rust").unwrap() }
}

#[test]
fn what_makes_no_sense_is_refused_with_where_it_is_and_a_hint() {
    let usual = Wish::default();
    usual.check().unwrap();
    let bow = [(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)].map(|(x, y)| Point::new(x, y)).to_vec();
    let part = Region { outer: bow, holes: Vec::new() };
    let sharp = |sharp_deg| Limits { sharp_deg, ..Limits::default() };
    for (wish, told) in [
        (Wish { across_in: 0.0, ..usual.clone() }, "Finished width across: 0 inches"),
        (Wish { across_in: 5000.0, ..usual.clone() }, "between 2 inches and 240 inches"),
        (Wish { piece_in: [0.0, 0.0], ..usual.clone() }, "at the centre"),
        (Wish { piece_in: [1.5, 1e-7], ..usual.clone() }, "at the rim"),
        (Wish { piece_in: [f64::NAN, 2.0], ..usual.clone() }, "at the centre"),
        (Wish { piece_in: [0.2, 2.0], ..usual.clone() }, "between 1/4 inches"),
        (Wish { contrast: [60.0, 8.0], ..usual.clone() }, "60, is more than the most, 8"),
        (Wish { limits: sharp(400.0), ..usual.clone() }, "400°"),
        (Wish { towards: Towards::Round { sides: 9 }, ..usual.clone() }, "5 to 8 sides, not 9"),
        (Wish { drift: vec![stop(0.0)], ..usual.clone() }, "goes nowhere"),
        (Wish { drift: vec![stop(0.7), stop(0.2)], ..usual.clone() }, "in order"),
        (Wish { drift: vec![stop(0.0), stop(f64::NAN)], ..usual.clone() }, "in order"),
        (Wish { motif: Some(Motif { cloth: ClothId(1), part }), ..usual.clone() }, "the part of the motif"),
    ] {
        let problem = wish.check().unwrap_err();
        assert!(problem.to_string().contains(told), "{problem} does not tell of {told}");
        assert!(problem.hint().is_some_and(|hint| !hint.is_empty()));
    }
}
