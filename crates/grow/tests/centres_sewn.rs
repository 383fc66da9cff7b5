//! Plans sewn on a real table: grown centres, squared, laid out, joined by the steps, and measured.

mod grids;

use grow::centres::{
    Arrangement, Block, CentresChoice, CentresProblem, CentresSteps, PrintShare, Rect, Seat, Sewn,
    can_be_sliced, plan, steps,
};
use grow::{Effort, Goal, Heap, grow};
use plane::{Point, Pose, Turn, polygon};
use quilt::cloth::ClothId;
use quilt::log::{Along, Keep, Mark, Step};
use quilt::table::{Table, Top};
use quilt::wish::Wish;

const SEAM_IN: f64 = 0.25;

/// A table on which steps get their numbers one after the other.
struct Bench {
    table: Table,
    next: u32,
}

impl Bench {
    fn apply(&mut self, step: &Step) -> Mark {
        let mark = Mark(self.next);
        self.table.apply(mark, step).unwrap_or_else(|problem| panic!("step {mark}: {problem}"));
        self.next += 1;
        mark
    }

    fn join(&mut self, joined: &CentresSteps) {
        joined.steps.iter().for_each(|step| {
            self.apply(step);
        });
    }

    /// A centre grown from scraps, as a top of its own; returns the step that began it.
    fn grow(&mut self, heap: &Heap, seed: u64) -> Mark {
        let grown = grow(heap, &Wish::default(), Goal::Pieces(18), Effort::QUICK, seed, None, &mut ());
        let entries = &grown.first().expect("a centre").entries;
        let by = self.next - 1;
        for entry in entries {
            self.next = entry.mark.0 + by;
            self.apply(&entry.step.renamed(&|mark| Mark(mark.0 + by)));
        }
        Mark(entries[0].mark.0 + by)
    }

    /// Squares a top to a rectangle about its middle, lying turned by `turn` on the table.
    fn square(&mut self, top: Mark, [w, h]: [f64; 2], turn: Turn) {
        let points = self.table.top(top).expect("a top").outline_points();
        let middle = polygon::centroid(&points).expect("a middle");
        for (k, half) in [h, w, h, w].into_iter().enumerate() {
            let along = (0..k).fold(turn, |turn, _| turn.left());
            let line = plane::Line::from_point(middle - along.left().vec() * (half / 2.0), along);
            let sides = self.table.top(top).expect("a top").sides();
            // The cut begins where the line leaves the piece's outline to its inside.
            let crosses =
                |s: &&quilt::table::Side| line.inside_by(s.from) >= 0.0 && line.inside_by(s.to) < 0.0;
            let side = sides.iter().find(crosses).expect("the cut meets the piece");
            let (a, b) = (line.inside_by(side.from), line.inside_by(side.to));
            let at_in = side.length_in() * a / (a - b);
            let own = Turn::towards(side.to - side.from).expect("a side");
            let along =
                Along::From { side: side.name().expect("raw"), at_in, turn: own.inverse().then(along) };
            self.apply(&Step::Cut { top, along, keep: Keep::Left });
        }
    }
}

fn heap() -> Heap {
    let cloths = demo::frozen_heap(5, 160).cloths();
    Heap::new(cloths.iter().map(|c| (c, vec![c.outline.clone()])), &[])
}

/// The faces tile the outline, which is a rectangle of this size.
fn check(top: &Top, raw: [f64; 2]) {
    let outline = top.outline_points();
    let faces: Vec<Vec<Point>> = top.faces().values().map(|face| top.face_points(face)).collect();
    let shown: f64 = faces.iter().map(|face| polygon::area(face)).sum();
    assert!((shown - polygon::area(&outline)).abs() < 1e-6, "{shown} {}", polygon::area(&outline));
    assert!(faces.iter().all(|face| polygon::area(face) > 0.0));
    assert_eq!(top.sides().len(), 4, "{:?}", top.sides());
    let mut lengths: Vec<f64> = top.sides().iter().map(quilt::table::Side::length_in).collect();
    lengths.sort_by(f64::total_cmp);
    let mut wanted = [raw[0], raw[0], raw[1], raw[1]];
    wanted.sort_by(f64::total_cmp);
    for (is, want) in lengths.iter().zip(wanted) {
        assert!((is - want).abs() < 1e-6, "{lengths:?} instead of {wanted:?}");
    }
}

#[test]
fn grown_centres_are_squared_laid_out_and_joined_into_one_top() {
    let heap = heap();
    let mut bench = Bench { table: Table::new(), next: 1 };
    let sizes = [[4.0, 3.5], [3.5, 3.5], [3.25, 4.0], [3.75, 3.75], [3.25, 3.75]];
    let tops: Vec<Mark> = (0..5)
        .map(|i| {
            let top = bench.grow(&heap, 41 + i as u64);
            // However it lies on the table.
            bench.square(top, sizes[i], Turn::from_degrees(17.0 * i as f64 - 30.0));
            top
        })
        .collect();
    let blocks: Vec<Block> = tops
        .iter()
        .enumerate()
        .map(|(i, &top)| {
            Block::of_top(&bench.table, top, &format!("centre {}", i + 1), &heap, SEAM_IN).expect("squared")
        })
        .collect();
    for (block, [w, h]) in blocks.iter().zip(sizes) {
        assert!((block.width_in - w + 0.5).abs() < 1e-9 && (block.height_in - h + 0.5).abs() < 1e-9);
        assert!(block.weight > 0.0 && block.weight < 100.0);
        let shares: f64 = block.prints.iter().map(|p: &PrintShare| p.share).sum();
        assert!(shares > 0.0 && shares < 1.0 + 1e-9, "{shares}");
    }
    for may_turn in [false, true] {
        let choice = CentresChoice {
            coping: vec![ClothId(900), ClothId(901)],
            most_coping_share: 0.5,
            may_turn,
            ..CentresChoice::new(8.5, 9.5)
        };
        let plan = plan(&blocks, &choice, SEAM_IN).expect("a plan");
        assert!(!plan.strips.is_empty());
        let first = Mark(bench.next);
        let placed = Pose { turn: Turn::QUARTER, by: plane::Vec2::new(3.0, 4.0) };
        let mut asked = 0;
        let joined = steps(&plan, &blocks, &bench.table, &tops, first, |strip| {
            asked += 1;
            (asked > 1).then_some((strip.cloth?, placed))
        })
        .expect("steps");
        assert_eq!(joined.to_place.len(), 1, "the first strip is left to be placed");
        // The last step levels the top.
        assert_eq!(joined.steps.len(), plan.strips.len() + plan.seams.len() + 1);
        let mut sewn = Bench { table: bench.table.clone(), next: bench.next };
        sewn.join(&joined);
        assert_eq!(sewn.table.tops().len(), 1);
        let top = sewn.table.top(joined.top).expect("the joined top");
        check(top, [plan.raw_width_in, plan.raw_height_in]);
        assert!((plan.raw_width_in - 9.0).abs() < 1e-9 && (plan.raw_height_in - 10.0).abs() < 1e-9);
        let told = plan.story(&blocks);
        assert_eq!(told.len(), plan.seams.len());
        assert!(told.iter().all(|sentence| sentence.ends_with("inches.")), "{told:?}");
        // What is sewn on is a block, a strip, or what an earlier seam made, by its number.
        assert!(told.iter().all(|sentence| !sentence.contains(" + ")), "{told:?}");
        // Every seam is as long as it was said to be.
        let seams: f64 = top.seams().values().filter(|s| s.order > 0).map(|s| s.sewn_in).sum();
        let before: f64 =
            bench.table.tops().values().flat_map(|t| t.seams().values()).map(|s| s.sewn_in).sum();
        let said: f64 = plan.seams.iter().map(|s| s.length_in + 2.0 * SEAM_IN).sum();
        assert!((seams - before - said).abs() < 1e-6, "{seams} {before} {said}");
    }
}

fn lay(bench: &mut Bench, w: f64, h: f64) -> Mark {
    let cut = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)].map(|(x, y)| Point::new(x, y)).to_vec();
    bench.apply(&Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut })
}

fn plain(i: usize, w: f64, h: f64) -> Block {
    Block { name: format!("block {}", i + 1), width_in: w, height_in: h, weight: 40.0, prints: Vec::new() }
}

/// Both pinwheels, with a bar too short in one of them and all bars of one shape lying on the table
/// as they were squared: some are turned.
#[test]
fn a_pinwheel_is_joined_with_one_seam_that_stops_short_and_is_closed() {
    let wheel = [[0, 0, 2, 1], [0, 1, 1, 2], [1, 1, 1, 1], [1, 2, 2, 1], [2, 0, 1, 2]];
    let other = [[0, 0, 1, 2], [0, 2, 2, 1], [1, 0, 2, 1], [1, 1, 1, 1], [2, 1, 1, 2]];
    for (shorter, places) in [(0.0, wheel), (0.0, other), (1.0, wheel), (1.0, other)] {
        let mut bench = Bench { table: Table::new(), next: 1 };
        let seats: Vec<Seat> = (0..5)
            .map(|block| {
                let [row, column, height, width] = places[block].map(|cells| 6.0 * f64::from(cells));
                Seat {
                    block,
                    x_in: column,
                    y_in: row,
                    width_in: width,
                    height_in: height,
                    turned: height > width,
                }
            })
            .collect();
        let blocks: Vec<Block> = seats
            .iter()
            .map(|seat| {
                let long = seat.width_in.max(seat.height_in) - if seat.block == 1 { shorter } else { 0.0 };
                plain(seat.block, long, seat.width_in.min(seat.height_in))
            })
            .collect();
        let tops: Vec<Mark> =
            blocks.iter().map(|b| lay(&mut bench, b.width_in + 0.5, b.height_in + 0.5)).collect();
        let choice = CentresChoice {
            arrangement: Arrangement::Given(seats),
            coping: vec![ClothId(9)],
            ..CentresChoice::new(20.0, 18.0)
        };
        let plan = plan(&blocks, &choice, SEAM_IN).expect("a plan");
        assert_eq!((plan.partial_seams, plan.cost.partial_seams), (1, 1.0));
        let short = plan.seams.iter().position(|seam| matches!(seam.sewn, Sewn::StopsShort { .. }));
        let told = plan.story(&blocks);
        assert!(told[short.expect("a seam that stops short")].contains("closed later"), "{told:?}");
        let joined = steps(&plan, &blocks, &bench.table, &tops, Mark(bench.next), |_| None).expect("steps");
        bench.join(&joined);
        let top = bench.table.top(joined.top).expect("one top");
        assert_eq!(bench.table.tops().len(), 1);
        assert!(top.seams().values().all(|seam| seam.open.is_none()));
        check(top, [20.5, 18.5]);
    }
}

/// A pinwheel whose middle is a pinwheel: two seams stop short, the inner one is closed first.
#[test]
fn a_pinwheel_inside_a_pinwheel_takes_two_partial_seams() {
    let places = [
        [0, 0, 4, 1],
        [0, 1, 1, 4],
        [1, 4, 4, 1],
        [4, 0, 1, 4],
        [1, 1, 2, 1],
        [1, 2, 1, 2],
        [2, 2, 1, 1],
        [2, 3, 2, 1],
        [3, 1, 1, 2],
    ];
    let mut bench = Bench { table: Table::new(), next: 1 };
    let seats: Vec<Seat> = (0..9)
        .map(|block| {
            let [y_in, x_in, height_in, width_in] = places[block].map(|cells| 4.0 * f64::from(cells));
            Seat { block, x_in, y_in, width_in, height_in, turned: false }
        })
        .collect();
    let blocks: Vec<Block> = seats.iter().map(|s| plain(s.block, s.width_in, s.height_in)).collect();
    let tops: Vec<Mark> =
        blocks.iter().map(|b| lay(&mut bench, b.width_in + 0.5, b.height_in + 0.5)).collect();
    let choice = CentresChoice { arrangement: Arrangement::Given(seats), ..CentresChoice::new(20.0, 20.0) };
    let plan = plan(&blocks, &choice, SEAM_IN).expect("a plan");
    assert_eq!((plan.partial_seams, plan.seams.len()), (2, 10));
    let joined = steps(&plan, &blocks, &bench.table, &tops, Mark(bench.next), |_| None).expect("steps");
    bench.join(&joined);
    check(bench.table.top(joined.top).expect("one top"), [20.5, 20.5]);
}

/// Every layout of the grids of nine and twelve that can't be sliced is sewn on the table. Of the grid
/// of sixteen 64 of 2398 are refused, with the reason: the table's trims in line go too far there.
#[test]
fn whatever_cannot_be_sliced_is_sewn_with_its_partial_seams_or_refused() {
    for (rows, columns, wanted) in [(3, 3, [2, 0]), (3, 4, [46, 0]), (4, 4, [2334, 64])] {
        let mut found = [0, 0];
        grids::for_each_dissection(rows, columns, &mut |rects| {
            if can_be_sliced(rects) {
                return;
            }
            let mut bench = Bench { table: Table::new(), next: 1 };
            let cell = 5.0;
            let seat = |(block, rect): (usize, &Rect)| Seat {
                block,
                x_in: cell * rect.x_in,
                y_in: cell * rect.y_in,
                width_in: cell * rect.width_in,
                height_in: cell * rect.height_in,
                turned: false,
            };
            let seats: Vec<Seat> = rects.iter().enumerate().map(seat).collect();
            let blocks: Vec<Block> = seats.iter().map(|s| plain(s.block, s.width_in, s.height_in)).collect();
            let tops: Vec<Mark> =
                blocks.iter().map(|b| lay(&mut bench, b.width_in + 0.5, b.height_in + 0.5)).collect();
            let (w, h) = (cell * columns as f64, cell * rows as f64);
            let choice = CentresChoice { arrangement: Arrangement::Given(seats), ..CentresChoice::new(w, h) };
            let plan = plan(&blocks, &choice, SEAM_IN).expect("a plan");
            let joined = match steps(&plan, &blocks, &bench.table, &tops, Mark(bench.next), |_| None) {
                Ok(joined) => joined,
                Err(CentresProblem::Refused { .. } | CentresProblem::ComesOutOtherwise { .. }) => {
                    found[1] += 1;
                    return;
                }
                Err(problem) => panic!("{rects:?}: {problem}"),
            };
            bench.join(&joined);
            check(bench.table.top(joined.top).expect("one top"), [w + 0.5, h + 0.5]);
            found[0] += 1;
        });
        assert_eq!(found, wanted, "{rows} x {columns}");
    }
}

#[test]
fn thirty_blocks_are_joined_in_rows_and_in_a_mixed_layout() {
    for rows in [true, false] {
        let mut bench = Bench { table: Table::new(), next: 1 };
        let size = |i: usize, k: usize| 15.0 + ((i * 7 + k * 5) % 5) as f64 / 4.0;
        let blocks: Vec<Block> = (0..30).map(|i| plain(i, size(i, 0), size(i, 1))).collect();
        let tops: Vec<Mark> =
            blocks.iter().map(|b| lay(&mut bench, b.width_in + 0.5, b.height_in + 0.5)).collect();
        let arrangement = if rows { Arrangement::Rows { across: 5, down: 6 } } else { Arrangement::Mixed };
        let choice =
            CentresChoice { arrangement, coping: vec![ClothId(9)], ..CentresChoice::new(84.0, 100.0) };
        let plan = plan(&blocks, &choice, SEAM_IN).expect("a plan");
        let joined = steps(&plan, &blocks, &bench.table, &tops, Mark(bench.next), |_| None).expect("steps");
        bench.join(&joined);
        check(bench.table.top(joined.top).expect("one top"), [84.5, 100.5]);
        assert_eq!(bench.table.tops().len(), 1);
    }
}

#[test]
fn tops_that_are_not_as_planned_are_refused() {
    let mut bench = Bench { table: Table::new(), next: 1 };
    let tops = [lay(&mut bench, 6.5, 6.5), lay(&mut bench, 6.5, 6.25)];
    let blocks = [plain(0, 6.0, 6.0), plain(1, 6.0, 6.0)];
    let choice = CentresChoice::new(14.0, 6.0);
    let plan = plan(&blocks, &choice, SEAM_IN).expect("a plan");
    let with = |tops: &[Mark]| steps(&plan, &blocks, &bench.table, tops, Mark(50), |_| None);
    assert!(matches!(with(&tops), Err(CentresProblem::OffPlan { .. })));
    assert!(matches!(with(&[tops[0], Mark(40)]), Err(CentresProblem::NoSuchTop { top: Mark(40) })));
    assert!(matches!(with(&tops[..1]), Err(CentresProblem::OtherCount { have: 1, need: 2 })));
    let mut good = Bench { table: Table::new(), next: 1 };
    let tops = [lay(&mut good, 6.5, 6.5), lay(&mut good, 6.5, 6.5)];
    let refused = steps(&plan, &blocks, &good.table, &tops, Mark(50), |_| None);
    assert!(matches!(refused, Err(CentresProblem::NoCloth { strip: 1, .. })), "{refused:?}");
    let leaning = [(0.0, 0.0), (6.0, 0.0), (6.5, 6.0), (0.0, 6.0)].map(|(x, y)| Point::new(x, y)).to_vec();
    let top = good.apply(&Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut: leaning });
    let refused = Block::of_top(&good.table, top, "leaning", &heap(), SEAM_IN);
    assert!(matches!(refused, Err(CentresProblem::NotSquared { sides: 4, out_in, .. }) if out_in > 0.4));
}
