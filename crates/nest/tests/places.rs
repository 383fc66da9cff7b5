//! Pieces into holed outlines: worked cases, and against a search of every place on a grid.

use nest::{
    Answer, Ask, Cloth, Effort, NestProblem, Piece, Price, Room, Source, Turns, faults, first_fit, nest,
};
use plane::{Point, Region, Turn, difference, polygon};

fn rectangle(wide: f64, high: f64) -> Vec<Point> {
    Region::rectangle(wide, high).outer
}

fn cloth(name: &str, part: Region, cost: f64) -> Cloth {
    let (name, parts, price) = (name.to_owned(), vec![part], Price::Whole(cost));
    Cloth { name, parts, spots: Vec::new(), grain: Turn::NONE, price }
}

fn piece(name: &str, outline: Vec<Point>, cloths: usize, turns: &Turns) -> Piece {
    let from = (0..cloths).map(|cloth| Source { cloth, turns: turns.clone(), dislike: 0.0 }).collect();
    Piece { name: name.to_owned(), outline, from, tolerates: 0 }
}

fn found(ask: &Ask) -> Answer {
    let answer = nest(ask, &mut |_| true).unwrap();
    assert_eq!(faults(ask, &answer), [], "an answer is sound");
    answer
}

fn quick(rounds: u32) -> Effort {
    Effort { rounds, ..Effort::default() }
}

#[test]
fn four_squares_fill_a_square_to_the_edge() {
    let turns = Turns::just(Turn::NONE);
    let pieces = (0..4).map(|i| piece(&i.to_string(), rectangle(2.0, 2.0), 1, &turns)).collect();
    let cloths = vec![cloth("square", Region::rectangle(4.0, 4.0), 16.0)];
    let answer = found(&Ask { pieces, cloths, room: Room::default(), effort: quick(50) });
    assert_eq!((answer.placed.len(), answer.left_over.len(), answer.cost), (4, 0, 16.0));
}

#[test]
fn a_blade_takes_its_room() {
    let turns = Turns::just(Turn::NONE);
    let two = |between_in, edge_in| {
        let pieces = (0..2).map(|i| piece(&i.to_string(), rectangle(2.0, 2.0), 1, &turns)).collect();
        let cloths = vec![cloth("strip", Region::rectangle(4.25, 2.25), 1.0)];
        found(&Ask { pieces, cloths, room: Room { between_in, edge_in }, effort: quick(50) })
    };
    let close = two(0.25, 0.0);
    assert_eq!(close.placed.len(), 2);
    let middle = |i: usize| close.placed[i].at.apply(Point::new(1.0, 1.0));
    assert!((middle(0).distance(middle(1)) - 2.25).abs() < 0.002, "a quarter of an inch lies between");
    assert_eq!(two(0.27, 0.0).placed.len(), 1, "a wider blade has no room for both");
    assert_eq!(two(0.0, 0.125).placed.len(), 2);
    assert_eq!(two(0.0, 0.13).placed.len(), 0, "nor has a wider edge for any");
}

#[test]
fn holes_and_flaws_stay_free() {
    // A frame one inch wide: four strips round the hole, nothing in it.
    let hole = vec![Point::new(1.0, 1.0), Point::new(5.0, 1.0), Point::new(5.0, 5.0), Point::new(1.0, 5.0)];
    let frame = Region::try_new(rectangle(6.0, 6.0), vec![hole]).unwrap();
    let turns = Turns::quarters(Turn::NONE);
    let pieces: Vec<Piece> = (0..5).map(|i| piece(&i.to_string(), rectangle(5.0, 1.0), 1, &turns)).collect();
    let answer = found(&Ask {
        pieces,
        cloths: vec![cloth("frame", frame, 1.0)],
        room: Room::default(),
        effort: quick(300),
    });
    assert_eq!((answer.placed.len(), answer.left_over.len()), (4, 1));
    assert_eq!(answer.left_over[0].too_large, None, "alone it has room");
}

#[test]
fn a_print_with_a_top_is_not_turned() {
    let long = |turns: &Turns| {
        let pieces = vec![piece("long", rectangle(5.0, 1.0), 1, turns)];
        found(&Ask {
            pieces,
            cloths: vec![cloth("tall", Region::rectangle(2.0, 6.0), 1.0)],
            room: Room::default(),
            effort: quick(5),
        })
    };
    let upright = long(&Turns::just(Turn::NONE));
    let (_, short) = upright.left_over[0].too_large.unwrap();
    assert!((short - 3.0).abs() < 0.1, "3 inches too long for a cloth 2 wide, found {short}");
    assert_eq!(long(&Turns::quarters(Turn::NONE)).placed.len(), 1);
    assert_eq!(long(&Turns::Any).placed.len(), 1);
}

#[test]
fn a_piece_lies_askew_where_it_must() {
    // A square of 3 in the square that stands round it at 45 degrees, with 1/50 inch to spare.
    let half = 3.0 / 2.0_f64.sqrt() + 0.02;
    let diamond = [(half, 0.0), (0.0, half), (-half, 0.0), (0.0, -half)].map(|(x, y)| Point::new(x, y));
    let diamond = Region::try_new(diamond.to_vec(), Vec::new()).unwrap();
    let ask = |turns: Turns| Ask {
        pieces: vec![piece("square", rectangle(3.0, 3.0), 1, &turns)],
        cloths: vec![cloth("diamond", diamond.clone(), 1.0)],
        room: Room::default(),
        effort: quick(5),
    };
    assert_eq!(found(&ask(Turns::Any)).placed.len(), 1);
    assert_eq!(found(&ask(Turns::quarters(Turn::NONE))).placed.len(), 0);
}

#[test]
fn the_cheaper_cloth_is_opened() {
    let turns = Turns::half(Turn::NONE);
    let pieces = (0..3).map(|i| piece(&i.to_string(), rectangle(2.0, 3.0), 3, &turns)).collect();
    let cloths = vec![
        cloth("virgin", Region::rectangle(20.0, 20.0), 400.0),
        cloth("offcut", Region::rectangle(4.0, 3.0), 3.0),
        cloth("offcut too", Region::rectangle(2.5, 3.5), 3.0),
    ];
    let answer = found(&Ask { pieces, cloths, room: Room::default(), effort: quick(60) });
    assert_eq!((answer.opened(), answer.cost), (vec![1, 2], 6.0));
}

#[test]
fn what_is_liked_goes_before_what_is_only_there() {
    let turns = Turns::half(Turn::NONE);
    let mut one = piece("red", rectangle(2.0, 2.0), 2, &turns);
    one.from[0].dislike = 5.0;
    let cloths =
        vec![cloth("blue", Region::rectangle(3.0, 3.0), 9.0), cloth("red", Region::rectangle(3.0, 3.0), 9.0)];
    let answer = found(&Ask { pieces: vec![one], cloths, room: Room::default(), effort: quick(10) });
    assert_eq!(answer.opened(), [1]);
}

#[test]
fn off_a_bolt_the_least_length_is_cut() {
    // 40 inches wide: two of 20 side by side, twice: 14 inches along.
    let turns = Turns::just(Turn::NONE);
    let pieces = (0..4).map(|i| piece(&i.to_string(), rectangle(7.0, 20.0), 1, &turns)).collect();
    let bolt = Cloth { price: Price::ByLength(1.0), ..cloth("bolt", Region::rectangle(200.0, 40.0), 1.0) };
    let answer = found(&Ask { pieces, cloths: vec![bolt], room: Room::default(), effort: quick(100) });
    assert!((answer.cost - 14.0).abs() < 0.01, "{}", answer.cost);
}

#[test]
fn the_same_question_has_the_same_answer() {
    let turns = Turns::Any;
    let triangle = vec![Point::new(0.0, 0.0), Point::new(3.0, 0.0), Point::new(0.5, 2.0)];
    let pieces = (0..7).map(|i| piece(&i.to_string(), triangle.clone(), 2, &turns)).collect();
    let cloths =
        vec![cloth("a", Region::rectangle(5.0, 4.0), 20.0), cloth("b", Region::rectangle(6.0, 4.0), 24.0)];
    let ask = Ask { pieces, cloths, room: Room::default(), effort: quick(40) };
    assert_eq!(found(&ask), found(&ask));
    let other = Ask { effort: Effort { seed: 2, ..ask.effort }, ..ask.clone() };
    assert!(found(&other).placed != found(&ask).placed, "another seed tries other places");
}

#[test]
fn straight_bands_are_cut_first() {
    let turns = Turns::quarters(Turn::NONE);
    let sizes = [(6.0, 2.0), (4.0, 2.0), (5.0, 1.0), (5.0, 1.0), (3.0, 3.0), (3.0, 3.0), (4.0, 3.0)];
    let pieces: Vec<Piece> = sizes
        .iter()
        .enumerate()
        .map(|(i, &(w, h))| piece(&i.to_string(), rectangle(w, h), 1, &turns))
        .collect();
    let cloths = vec![cloth("cloth", Region::rectangle(10.0, 12.0), 1.0)];
    let answer = found(&Ask { pieces: pieces.clone(), cloths, room: Room::default(), effort: quick(200) });
    assert_eq!(answer.left_over, []);
    let outlines: Vec<Vec<Point>> =
        answer.placed.iter().map(|placed| placed.at.apply_all(&pieces[placed.piece].outline)).collect();
    let order = nest::order(&outlines, &rectangle(10.0, 12.0));
    assert_eq!(order.round_edges, Vec::<usize>::new(), "straight cuts part them all");
    assert!(order.cuts.len() >= 6 && order.pieces.len() == 7, "{order:?}");
    assert!(order.cuts[0].from.distance(order.cuts[0].to) >= 10.0 - 1e-9, "the first goes right through");
}

fn at(x: f64, y: f64, w: f64, h: f64) -> Vec<Point> {
    vec![Point::new(x, y), Point::new(x + w, y), Point::new(x + w, y + h), Point::new(x, y + h)]
}

/// Each cut as lengths along x and y.
fn spans(order: &nest::Order) -> Vec<[f64; 2]> {
    order.cuts.iter().map(|cut| [(cut.to.x - cut.from.x).abs(), (cut.to.y - cut.from.y).abs()]).collect()
}

#[test]
fn what_is_used_is_squared_off_and_cut_inside_of_that() {
    // Four squares of 4 in a row in the corner of a large cloth: 16 along, 4 up, then 4 up between them.
    let row: Vec<Vec<Point>> = (0..4).map(|i| at(4.0 * f64::from(i), 0.0, 4.0, 4.0)).collect();
    let order = nest::order(&row, &rectangle(60.0, 40.0));
    let mut cut = spans(&order);
    cut.sort_by(|a, b| b[0].total_cmp(&a[0]));
    assert_eq!(cut, [[16.0, 0.0], [0.0, 4.0], [0.0, 4.0], [0.0, 4.0], [0.0, 4.0]]);
    assert_eq!(order.round_edges, Vec::<usize>::new());
    let first: f64 = order.cuts[..2].iter().map(|cut| cut.from.distance(cut.to)).sum();
    assert!((first - 20.0).abs() < 1e-9, "the corner first");
}

#[test]
fn straight_cuts_spare_cloth_that_nothing_is_cut_from() {
    // In opposite corners, in the middle, and one far from the others.
    let apart = [at(0.0, 0.0, 4.0, 4.0), at(56.0, 36.0, 4.0, 4.0)];
    let middle = [at(20.0, 20.0, 4.0, 4.0), at(24.0, 20.0, 4.0, 4.0)];
    for pieces in [&apart, &middle] {
        let order = nest::order(pieces, &rectangle(60.0, 40.0));
        assert_eq!((order.cuts.len(), order.round_edges.len(), order.pieces.len()), (0, 2, 2), "{order:?}");
    }
    let far = [at(0.0, 0.0, 4.0, 4.0), at(4.0, 0.0, 4.0, 4.0), at(50.0, 30.0, 4.0, 4.0)];
    let order = nest::order(&far, &rectangle(60.0, 40.0));
    assert_eq!((order.cuts.len(), order.round_edges.clone()), (3, vec![2]), "{order:?}");
    // An inch beside a row is nothing worth sparing: the cuts go on to the edge.
    let row = [at(0.0, 0.0, 4.0, 4.0), at(4.0, 0.0, 4.0, 4.0)];
    assert_eq!(spans(&nest::order(&row, &rectangle(9.0, 5.0))), [[0.0, 5.0]]);
}

#[test]
fn a_pinwheel_has_no_straight_first_cut() {
    let wheel =
        [at(0.0, 0.0, 2.0, 1.0), at(2.0, 0.0, 1.0, 2.0), at(1.0, 2.0, 2.0, 1.0), at(0.0, 1.0, 1.0, 2.0)];
    let order = nest::order(&wheel, &rectangle(3.0, 3.0));
    assert_eq!((order.cuts.len(), order.round_edges.len()), (0, 4));
}

#[test]
fn what_cannot_be_asked_is_told() {
    let one = Ask {
        pieces: vec![piece("1", rectangle(1.0, 1.0), 1, &Turns::Any)],
        cloths: vec![cloth("a", Region::rectangle(2.0, 2.0), 1.0)],
        ..Ask::default()
    };
    let refused = |ask: &Ask| nest(ask, &mut |_| true).unwrap_err();
    assert_eq!(refused(&Ask::default()), NestProblem::NoPieces);
    assert_eq!(refused(&Ask { cloths: Vec::new(), ..one.clone() }), NestProblem::NoCloth);
    let mut elsewhere = one.clone();
    elsewhere.pieces[0].from[0].cloth = 4;
    let words = refused(&elsewhere).to_string();
    assert_eq!(words, "piece 1 is to come from cloth number 5 of 1: name one of those that are there");
    let wide = Ask { room: Room { between_in: 3.0, edge_in: 0.0 }, ..one.clone() };
    assert!(refused(&wide).to_string().starts_with("room of 3 inches is not from 0 to 2"));
    let mut bow = one.clone();
    bow.pieces[0].outline =
        [(0.0, 0.0), (2.0, 2.0), (2.0, 0.0), (0.0, 2.0)].map(|(x, y)| Point::new(x, y)).to_vec();
    assert!(
        refused(&bow).to_string().starts_with("piece 1: sides 1 and 3 of the outline meet near 1.00, 1.00")
    );
    let mut nan = one.clone();
    nan.cloths[0].price = Price::Whole(f64::NAN);
    assert!(matches!(refused(&nan), NestProblem::Cost { .. }));
    assert!(first_fit(&Ask::default()).is_err());
}

#[test]
fn stopping_gives_what_was_found_until_then() {
    let turns = Turns::half(Turn::NONE);
    let pieces = (0..3).map(|i| piece(&i.to_string(), rectangle(2.0, 3.0), 1, &turns)).collect();
    let ask = Ask {
        pieces,
        cloths: vec![cloth("a", Region::rectangle(9.0, 9.0), 1.0)],
        room: Room::default(),
        effort: quick(1000),
    };
    let mut asked = 0;
    let answer = nest(&ask, &mut |round| {
        asked = round;
        round < 3
    })
    .unwrap();
    assert_eq!((answer.placed.len(), asked), (3, 3));
}

/// Rectangles of whole inches on cloths of whole inches, of which some squares are flawed.
struct Grids {
    cells: Vec<Vec<Vec<bool>>>,
    used: Vec<usize>,
    costs: Vec<f64>,
    area: f64,
    best: f64,
}

impl Grids {
    /// What a piece costs that has no place: more than all cloth, a large one a little more.
    fn left_over(&self, area: f64) -> f64 {
        (self.costs.iter().sum::<f64>() + 1.0) * (1.0 + area / self.area)
    }

    /// Every way of laying them at whole inches, upright or turned, and of leaving them out.
    fn every_place(&mut self, sizes: &[(usize, usize)], so_far: f64) {
        let opened = self.costs.iter().zip(&self.used).filter(|(_, used)| **used > 0);
        let cost = so_far + opened.map(|(cost, _)| cost).sum::<f64>();
        if cost >= self.best {
            return;
        }
        let Some(&(wide, high)) = sizes.first() else {
            self.best = cost;
            return;
        };
        for grid in 0..self.cells.len() {
            for (w, h) in if wide == high { vec![(wide, high)] } else { vec![(wide, high), (high, wide)] } {
                for y in 0..(self.cells[grid].len() + 1).saturating_sub(h) {
                    for x in 0..(self.cells[grid][0].len() + 1).saturating_sub(w) {
                        let cells = &mut self.cells[grid];
                        if (y..y + h).any(|y| (x..x + w).any(|x| cells[y][x])) {
                            continue;
                        }
                        (y..y + h).for_each(|y| cells[y][x..x + w].fill(true));
                        self.used[grid] += 1;
                        self.every_place(&sizes[1..], so_far);
                        self.used[grid] -= 1;
                        (y..y + h).for_each(|y| self.cells[grid][y][x..x + w].fill(false));
                    }
                }
            }
        }
        self.every_place(&sizes[1..], so_far + self.left_over((wide * high) as f64));
    }
}

#[test]
fn five_pieces_lie_as_well_as_the_best_of_all_places_on_a_grid() {
    let mut state = 7_u64;
    let mut draw = |most: usize| {
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        1 + (state >> 33) as usize % most
    };
    let turns = Turns::quarters(Turn::NONE);
    for case in 0..12 {
        let sizes: Vec<(usize, usize)> = (0..5).map(|_| (draw(3), draw(3))).collect();
        let cloths: Vec<(usize, usize)> = (0..3).map(|_| (1 + draw(3), 1 + draw(3))).collect();
        let (x, y) = (draw(2) - 1, draw(2) - 1);
        let mut grids = Grids {
            cells: cloths.iter().map(|&(w, h)| vec![vec![false; w]; h]).collect(),
            used: vec![0; 3],
            costs: cloths.iter().map(|&(w, h)| (w * h) as f64).collect(),
            area: sizes.iter().map(|&(w, h)| (w * h) as f64).sum(),
            best: f64::INFINITY,
        };
        grids.cells[0][y][x] = true;
        grids.every_place(&sizes, 0.0);
        let named = sizes.iter().enumerate();
        let pieces = named
            .map(|(i, &(w, h))| piece(&i.to_string(), rectangle(w as f64, h as f64), 3, &turns))
            .collect();
        let made = cloths.iter().enumerate().map(|(i, &(w, h))| {
            let whole = Region::rectangle(w as f64, h as f64);
            let (x, y) = (x as f64, y as f64);
            let corners = rectangle(1.0, 1.0).iter().map(|p| Point::new(p.x + x, p.y + y)).collect();
            let flaw = Region { outer: corners, holes: Vec::new() };
            let parts = if i == 0 { difference(&whole, &[flaw]) } else { vec![whole] };
            Cloth { parts, ..cloth(&i.to_string(), Region::default(), grids.costs[i]) }
        });
        let ask = Ask { pieces, cloths: made.collect(), room: Room::default(), effort: quick(400) };
        let answer = found(&ask);
        let left = answer.left_over.iter().map(|left| polygon::area(&ask.pieces[left.piece].outline));
        let cost = answer.cost + left.map(|area| grids.left_over(area)).sum::<f64>();
        let best = grids.best;
        assert!(
            cost <= best + 1e-9,
            "case {case}: {cost}, the grid's best {best}; {sizes:?} {cloths:?} {x} {y}"
        );
    }
}

#[test]
fn a_fault_is_seen() {
    let turns = Turns::just(Turn::NONE);
    let pieces: Vec<Piece> = (0..2).map(|i| piece(&i.to_string(), rectangle(2.0, 2.0), 1, &turns)).collect();
    let ask = Ask { pieces, cloths: vec![cloth("a", Region::rectangle(4.0, 2.0), 1.0)], ..Ask::default() };
    let sound = found(&Ask { effort: quick(5), ..ask.clone() });
    assert_eq!(sound.placed.len(), 2);
    let mut bad = sound.clone();
    bad.placed[1].at = bad.placed[0].at;
    assert!(
        matches!(faults(&ask, &bad)[..], [nest::Fault::Overlap(0, 1, area)] if (area - 4.0).abs() < 1e-6)
    );
    let mut out = sound.clone();
    out.placed[0].at.by.y += 0.5;
    assert!(matches!(faults(&ask, &out)[..], [nest::Fault::Outside(0, area)] if (area - 1.0).abs() < 1e-2));
    let mut turned = sound;
    turned.placed[0].at.turn = Turn::HALF;
    assert!(faults(&ask, &turned).contains(&nest::Fault::NotAllowed(0)));
}
