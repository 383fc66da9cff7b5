//! Instances of our own: plans from demo heaps, and eighty pieces into six rough scraps.

use crate::exact::inner_fit;
use nest::{Answer, Ask, Cloth, Effort, Piece, Price, Room, Source, Turns, faults, first_fit, nest};
use plane::{Point, Region, Turn, polygon};
use std::time::Instant;

/// A stream of chances of the bench's own.
struct Dice(u64);

impl Dice {
    fn between(&mut self, low: f64, high: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        low + (high - low) * ((self.0 >> 33) as f64 / (1_u64 << 31) as f64)
    }

    /// Corners round a middle, none too near another.
    fn rough(&mut self, corners: usize, reach: [f64; 2]) -> Vec<Point> {
        let step = 360.0 / corners as f64;
        let corner = |i: usize| {
            let turn = Turn::from_degrees(step * (i as f64 + self.between(-0.3, 0.3)));
            Point::ORIGIN + turn.vec() * self.between(reach[0], reach[1])
        };
        (0..corners).map(corner).collect()
    }

    /// A patch: rectangle, triangle or wedge.
    fn patch(&mut self) -> Vec<Point> {
        let (long, wide) = (self.between(2.0, 6.5), self.between(1.5, 3.2));
        let corners = match self.between(0.0, 3.0) as u8 {
            0 => return Region::rectangle(long, wide).outer,
            1 => vec![(0.0, 0.0), (long, 0.0), (self.between(0.0, long), wide + 1.0)],
            _ => vec![
                (0.0, 0.0),
                (long, self.between(-0.5, 0.5)),
                (long - self.between(0.0, 0.8), wide),
                (self.between(0.0, 0.8), wide),
            ],
        };
        corners.into_iter().map(|(x, y)| Point::new(x, y)).collect()
    }
}

fn area(ask: &Ask, answer: &Answer) -> f64 {
    let whole = |&cloth: &usize| ask.cloths[cloth].parts.iter().map(Region::area).sum::<f64>();
    answer.opened().iter().map(whole).sum()
}

/// Twenty plans: 36 patches of three colours from 60 scraps of a demo heap; each colour may come from the scraps
/// of a third of the prints, rectangles by the grain, the others as they like.
pub(crate) fn stash(seed: u64) {
    let (mut ratios, mut seconds) = (Vec::new(), 0.0);
    for plan in 0..20 {
        let ask = stash_plan(seed + plan);
        let begun = Instant::now();
        let ours = nest(&ask, &mut |_| true).unwrap_or_default();
        seconds += begun.elapsed().as_secs_f64();
        let first = first_fit(&ask).unwrap_or_default();
        // The peer may choose: the heap as it lies, or the smallest scraps first.
        let sorted = smallest_first(&ask);
        let small = first_fit(&sorted).unwrap_or_default();
        let peers = [(first.placed.len(), area(&ask, &first)), (small.placed.len(), area(&sorted, &small))];
        let peer =
            peers.into_iter().min_by(|a, b| b.0.cmp(&a.0).then(a.1.total_cmp(&b.1))).unwrap_or_default();
        let own = (ours.placed.len(), area(&ask, &ours));
        let sound = if faults(&ask, &ours).is_empty() { "" } else { ", FAULTS" };
        println!(
            "plan {plan}: {} of {} placed on {:.0} in2; first fit {} on {:.0} (heap's order: {} on {:.0}){sound}",
            own.0,
            ask.pieces.len(),
            own.1,
            peer.0,
            peer.1,
            peers[0].0,
            peers[0].1
        );
        ratios.push((own.1 / peer.1, own.1 / peers[0].1, own.0 >= peer.0));
    }
    let mean = |of: fn(&(f64, f64, bool)) -> f64| ratios.iter().map(of).sum::<f64>() / 20.0;
    println!(
        "cloth opened: {:.1} % less than the better first fit, {:.1} % less than by the heap's order, in the mean; as many \
         placed or more in {} of 20; {:.1} s a plan",
        100.0 * (1.0 - mean(|r| r.0)),
        100.0 * (1.0 - mean(|r| r.1)),
        ratios.iter().filter(|r| r.2).count(),
        seconds / 20.0
    );
}

fn stash_plan(seed: u64) -> Ask {
    let heap = demo::frozen_heap(seed, 60);
    let mut dice = Dice(68_000 + seed);
    let cloths: Vec<Cloth> = heap
        .scraps
        .iter()
        .map(|scrap| {
            let cloth = &scrap.cloth;
            let parts = plane::difference(&cloth.outline, &cloth.flaws);
            let price = Price::Whole(parts.iter().map(Region::area).sum());
            Cloth { name: cloth.name.clone(), parts, spots: Vec::new(), grain: cloth.grain, price }
        })
        .collect();
    let pieces = (0..36).map(|i| {
        let (colour, outline) = (i % 3, dice.patch());
        let by_grain = outline.len() == 4 && outline[1].y == 0.0;
        let serving = heap.scraps.iter().enumerate().filter(|(_, scrap)| scrap.print % 3 == colour);
        let from = serving.map(|(cloth, scrap)| Source {
            cloth,
            turns: if by_grain { Turns::quarters(scrap.cloth.grain) } else { Turns::Any },
            dislike: 0.0,
        });
        Piece { name: i.to_string(), from: from.collect(), outline, tolerates: 0 }
    });
    let effort = Effort { rounds: 200, samples: 300, seed: 1 };
    Ask { pieces: pieces.collect(), cloths, room: Room::default(), effort }
}

/// The same question with the smallest cloths first.
fn smallest_first(ask: &Ask) -> Ask {
    let whole = |cloth: &Cloth| cloth.parts.iter().map(Region::area).sum::<f64>();
    let mut order: Vec<usize> = (0..ask.cloths.len()).collect();
    order.sort_by(|&a, &b| whole(&ask.cloths[a]).total_cmp(&whole(&ask.cloths[b])));
    let mut sorted = ask.clone();
    sorted.cloths = order.iter().map(|&cloth| ask.cloths[cloth].clone()).collect();
    for source in sorted.pieces.iter_mut().flat_map(|piece| &mut piece.from) {
        source.cloth = order.iter().position(|&cloth| cloth == source.cloth).unwrap_or(0);
    }
    sorted
}

/// Eighty pieces into six rough scraps that can't hold them all: which places more.
pub(crate) fn eighty() {
    let mut dice = Dice(4_080);
    let scraps: Vec<Vec<Point>> = (0..6).map(|i| dice.rough(9 + i, [5.0, 9.5])).collect();
    let turns = Turns::quarters(Turn::NONE);
    let cloths = scraps.iter().enumerate().map(|(i, outline)| Cloth {
        name: i.to_string(),
        parts: vec![Region { outer: outline.clone(), holes: Vec::new() }],
        spots: Vec::new(),
        grain: Turn::NONE,
        price: Price::Whole(polygon::area(outline)),
    });
    let pieces = (0..80).map(|i| {
        let from = (0..6).map(|cloth| Source { cloth, turns: turns.clone(), dislike: 0.0 });
        Piece { name: i.to_string(), outline: dice.patch(), from: from.collect(), tolerates: 0 }
    });
    let ask = Ask {
        pieces: pieces.collect(),
        cloths: cloths.collect(),
        room: Room::default(),
        effort: Effort::default(),
    };
    let all: f64 = ask.pieces.iter().map(|piece| polygon::area(&piece.outline)).sum();
    let room: f64 = ask.cloths.iter().map(|cloth| cloth.parts[0].area()).sum();
    println!("eighty: pieces of {all:.0} in2 into scraps of {room:.0} in2, quarter turns");
    let begun = Instant::now();
    let exact = inner_fit(&ask);
    println!("  exact inner-fit greedy: {} placed, {:.1} s", exact, begun.elapsed().as_secs_f64());
    let begun = Instant::now();
    let first = first_fit(&ask).unwrap_or_default();
    println!("  first fit: {} placed, {:.1} s", first.placed.len(), begun.elapsed().as_secs_f64());
    for rounds in [0, 50, 400] {
        let begun = Instant::now();
        let tried = Ask { effort: Effort { rounds, ..ask.effort }, ..ask.clone() };
        let ours = nest(&tried, &mut |_| true).unwrap_or_default();
        let faults = faults(&tried, &ours).len();
        println!(
            "  ours, {rounds} rounds: {} placed, {faults} faults, {:.1} s",
            ours.placed.len(),
            begun.elapsed().as_secs_f64()
        );
    }
}
