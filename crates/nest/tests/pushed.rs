//! Spots, places that are there already, and what only pushing apart finds.

use nest::{
    Answer, Ask, Cloth, Effort, Fault, Piece, Placed, Price, Room, Source, Spot, Turns, faults, first_fit,
    nest, nest_from,
};
use plane::{Point, Pose, Region, Turn, Vec2, polygon};

fn cloth(wide: f64, high: f64) -> Cloth {
    Cloth {
        name: "cloth".to_owned(),
        parts: vec![Region::rectangle(wide, high)],
        spots: Vec::new(),
        grain: Turn::NONE,
        price: Price::Whole(wide * high),
    }
}

fn piece(outline: Vec<Point>, turns: Turns, tolerates: u8) -> Piece {
    let from = vec![Source { cloth: 0, turns, dislike: 0.0 }];
    Piece { name: "piece".to_owned(), outline, from, tolerates }
}

fn ask(pieces: Vec<Piece>, cloth: Cloth, rounds: u32) -> Ask {
    let effort = Effort { rounds, ..Effort::default() };
    Ask { pieces, cloths: vec![cloth], room: Room::default(), effort }
}

fn found(ask: &Ask) -> Answer {
    let answer = nest(ask, &mut |_| true).unwrap();
    assert_eq!(faults(ask, &answer), [], "an answer is sound");
    answer
}

#[test]
fn a_spot_is_only_for_those_that_tolerate_it() {
    let square = || Region::rectangle(2.0, 2.0).outer;
    let faded = Spot { outline: square(), badness: 3 };
    let placed = |tolerates: [u8; 2], badness| {
        let pieces = tolerates.map(|tolerates| piece(square(), Turns::just(Turn::NONE), tolerates)).to_vec();
        let spots = vec![Spot { badness, ..faded.clone() }];
        found(&ask(pieces, Cloth { spots, ..cloth(4.0, 2.0) }, 40)).placed
    };
    assert_eq!(placed([0, 0], 3).len(), 1, "one of them has to lie on it");
    assert_eq!(placed([2, 2], 3).len(), 1);
    assert_eq!(placed([3, 3], 3).len(), 2);
    let both = placed([0, 3], 3);
    assert_eq!(both.len(), 2, "the one that may lies on it");
    assert!(both[0].at.by.x >= 2.0 - 1e-3 && both[1].at.by.x <= 1e-3, "{both:?}");
    assert_eq!(placed([0, 0], 0).len(), 2, "a spot of no badness hinders nobody");
}

#[test]
fn a_piece_on_a_spot_is_a_fault() {
    let spots = vec![Spot { outline: Region::rectangle(1.0, 1.0).outer, badness: 1 }];
    let ask = ask(
        vec![piece(Region::rectangle(2.0, 2.0).outer, Turns::Any, 0)],
        Cloth { spots, ..cloth(4.0, 2.0) },
        0,
    );
    let at = |x: f64| Answer {
        placed: vec![Placed { piece: 0, cloth: 0, part: 0, at: Pose::new(Turn::NONE, Vec2::new(x, 0.0)) }],
        ..Answer::default()
    };
    assert_eq!(faults(&ask, &at(1.0)), []);
    let [Fault::Spoiled(0, area)] = faults(&ask, &at(0.5))[..] else { panic!("half of the spot is covered") };
    assert!((area - 0.5).abs() < 1e-9, "{area}");
}

/// A cloth of 12 by 12 in nine pieces that hardly two sides of are alike, each by so much smaller.
fn dissected(scale: f64) -> Vec<Vec<Point>> {
    let off = |i: usize, j: usize| {
        let inner = |k: usize| if k == 1 || k == 2 { 1.0 } else { 0.0 };
        let (a, b) = ((7 * i + 3 * j) % 5, (3 * i + 4 * j) % 5);
        Vec2::new((a as f64 * 0.5 - 1.0) * inner(i), (b as f64 * 0.5 - 1.0) * inner(j))
    };
    let corner = |i: usize, j: usize| Point::new(4.0 * i as f64, 4.0 * j as f64) + off(i, j);
    let mut pieces = Vec::new();
    for i in 0..3 {
        for j in 0..3 {
            let outline = [corner(i, j), corner(i + 1, j), corner(i + 1, j + 1), corner(i, j + 1)];
            let middle = polygon::centroid(&outline).unwrap();
            pieces.push(outline.map(|p| middle + (p - middle) * scale).to_vec());
        }
    }
    pieces
}

#[test]
fn pushing_places_what_putting_one_after_the_other_leaves_over() {
    let pieces = dissected(0.95).into_iter().map(|outline| piece(outline, Turns::just(Turn::NONE), 0));
    let ask = ask(pieces.collect(), cloth(12.0, 12.0), 600);
    let plain = first_fit(&ask).unwrap();
    assert!(plain.placed.len() < 9, "else this shows nothing: {}", plain.placed.len());
    assert_eq!(found(&ask).placed.len(), 9);
}

#[test]
fn what_has_a_place_keeps_one() {
    let pieces: Vec<Piece> =
        dissected(1.0).into_iter().map(|outline| piece(outline, Turns::just(Turn::NONE), 0)).collect();
    let place = |piece| Placed { piece, cloth: 0, part: 0, at: Pose::STAY };
    let all: Vec<Placed> = (0..9).map(place).collect();
    for rounds in [0, 60] {
        let ask = ask(pieces.clone(), cloth(12.0, 12.0), rounds);
        let answer = nest_from(&ask, &all, &mut |_| true).unwrap();
        assert_eq!((faults(&ask, &answer), answer.placed.len()), (Vec::new(), 9), "after {rounds} rounds");
    }
    // Of places that lie in each other the first is kept, and a larger piece more does not drive it out.
    let small = piece(Region::rectangle(3.0, 3.0).outer, Turns::just(Turn::NONE), 0);
    let large = piece(Region::rectangle(3.5, 3.5).outer, Turns::just(Turn::NONE), 0);
    let ask = ask(vec![small, large], cloth(4.0, 4.0), 40);
    assert_eq!(nest(&ask, &mut |_| true).unwrap().placed[0].piece, 1, "else the larger one is");
    let kept = nest_from(&ask, &[place(0), place(1)], &mut |_| true).unwrap();
    assert_eq!(kept.placed.iter().map(|at| at.piece).collect::<Vec<_>>(), [0]);
}
