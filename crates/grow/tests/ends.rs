//! Whether what growing says of its end is so, measured on the sewn table. No outside source: these
//! are the program's promises.

use grow::{Effort, End, Goal, Grown, Heap, Watch, grow};
use plane::{Line, Point, Turn, Vec2, polygon};
use quilt::cloth::Cloth;
use quilt::eye::Shapes;
use quilt::table::{Table, replay};
use quilt::wish::{Towards, Wish};

const FEW: Effort = Effort { starts: 6, ..Effort::USUAL };

fn heap(cloths: &[Cloth]) -> Heap {
    Heap::new(cloths.iter().map(|c| (c, vec![c.outline.clone()])), &[])
}

fn grown(cloths: &[Cloth], wish: &Wish, goal: Goal, effort: Effort, seed: u64) -> Grown {
    let found = grow(&heap(cloths), wish, goal, effort, seed, None, &mut ());
    found.into_iter().next().expect("something grows")
}

fn table(grown: &Grown) -> Table {
    let (table, halt) = replay(&grown.entries);
    assert!(halt.is_none(), "{:?}", halt.map(|h| (h.mark, h.problem.to_string())));
    table
}

/// The finished outline of what was grown.
fn outline(grown: &Grown, wish: &Wish) -> Vec<Point> {
    let table = table(grown);
    Shapes::of(table.piece().expect("a piece").1, wish.allowance_in, &|_| None).outline
}

fn across(outline: &[Point]) -> f64 {
    2.0 * (polygon::area(outline) / std::f64::consts::PI).sqrt()
}

fn regular(sides: usize, radius: f64, turn_deg: f64) -> Vec<Point> {
    let corner = |i| Turn::from_degrees(360.0 * f64::from(i as u32) / sides as f64 + turn_deg).vec() * radius;
    (0..sides).map(|i| Point::new(corner(i).x, corner(i).y)).collect()
}

/// Whether a shape, so many times its size, lies in an outline somewhere on a grid of a twentieth of
/// an inch: a slow method of its own.
fn can_be_cut(shape: &[Point], times: f64, outline: &[Point]) -> bool {
    let lines: Vec<Line> = polygon::edges(outline).filter_map(|(a, b)| Line::through(a, b)).collect();
    let middle = polygon::centroid(outline).expect("an area").to_vec2();
    let own = polygon::centroid(shape).expect("an area").to_vec2() * times;
    (-60..=60).flat_map(|x| (-60..=60).map(move |y| Vec2::new(f64::from(x) / 20.0, f64::from(y) / 20.0))).any(
        |by| {
            let moved = |p: &Point| Point::ORIGIN + p.to_vec2() * times - own + middle + by;
            shape.iter().all(|p| lines.iter().all(|line| line.inside_by(moved(p)) >= 0.0))
        },
    )
}

#[test]
fn a_wished_triangle_or_square_can_be_cut_from_what_was_grown() {
    let rectangle = |x: f64, y: f64| [(-x, -y), (x, -y), (x, y), (-x, y)].map(|(x, y)| Point::new(x, y));
    for (seed, wished, towards) in [
        (331, regular(3, 12.0, 90.0), None),
        (332, regular(3, 10.0, 75.0), None),
        (333, regular(4, 11.0, 45.0), None),
        (331, rectangle(8.0, 8.0).to_vec(), Some((16.0, 16.0))),
        (332, rectangle(6.0, 9.0).to_vec(), Some((12.0, 18.0))),
    ] {
        let cloths = demo::frozen_heap(seed, 300).cloths();
        let towards = towards.map_or_else(
            || Towards::Polygon(wished.clone()),
            |(width_in, height_in)| Towards::Rectangle { width_in, height_in },
        );
        let wish = Wish { towards, ..Wish::default() };
        let found = grown(&cloths, &wish, Goal::Size, FEW, seed);
        let name = format!("seed {seed}, {} corners, {} wide", wished.len(), across(&wished));
        assert_eq!(found.end, End::Reached, "{name}: {} off", found.size_off);
        let outline = outline(&found, &wish);
        // A sixteenth for the steps of the grid.
        let times = |off: f64| 1.0 + off / across(&wished);
        assert!(can_be_cut(&wished, times(-0.5 - 0.06), &outline), "{name}: {}", found.size_off);
        assert!(can_be_cut(&wished, times(found.size_off - 0.1), &outline), "{name}: {}", found.size_off);
        assert!(!can_be_cut(&wished, times(found.size_off + 0.02), &outline), "{name}: {}", found.size_off);
        let waste = polygon::area(&outline) / polygon::area(&wished) - 1.0;
        assert!((waste - found.waste).abs() < 1e-9 && waste < 0.3, "{name}: {waste} is trued off");
    }
}

#[test]
fn reached_means_within_half_an_inch() {
    let cloths = demo::frozen_heap(334, 300).cloths();
    let (mut reached, mut near) = (0, 0);
    for sides in 5..=8 {
        for across_in in [5.0, 8.0, 14.0, 20.0] {
            let wish = Wish { towards: Towards::Round { sides }, across_in, ..Wish::default() };
            let found = grown(&cloths, &wish, Goal::Size, Effort::QUICK, 334);
            let off = across(&outline(&found, &wish)) - across_in;
            assert!((found.size_off - off).abs() < 1e-9, "{sides} sides: {off}, not {}", found.size_off);
            match found.end {
                End::Reached => assert!(off.abs() <= 0.5, "{sides} sides, {across_in}: {off} off"),
                End::Near => assert!(off.abs() > 0.5, "{sides} sides, {across_in}: {off} off"),
                _ => {}
            }
            reached += usize::from(found.end == End::Reached);
            near += usize::from(found.end == End::Near);
        }
    }
    assert!(reached > 0 && near > 0, "{reached} reached, {near} near");
}

#[test]
fn so_many_pieces_are_so_many_patches() {
    for (seed, scraps, counts) in [(1, 160, 1..=9), (302, 160, 1..=9), (203, 2000, 249..=250)] {
        let cloths = demo::frozen_heap(seed, scraps).cloths();
        for count in counts {
            let across_in = 20.0 * (count as f64 / 60.0).sqrt().max(1.0);
            let wish = Wish { across_in, ..Wish::default() };
            let found =
                grown(&cloths, &wish, Goal::Pieces(count), Effort { starts: 1, ..Effort::USUAL }, seed);
            let table = table(&found);
            let patches = table.piece().expect("a piece").1.faces().len();
            assert_eq!((found.pieces, patches, found.short), (count, count, 0), "seed {seed}");
            assert_eq!(found.end, End::Reached, "seed {seed}, {count} pieces");
        }
    }
}

/// Told to stop, it says how far it still is from the wished size.
#[test]
fn the_distance_from_the_wished_size_is_true_however_it_ends() {
    struct Until(usize);
    impl Watch for Until {
        fn placed(&mut self, pieces: usize, _: usize) -> bool {
            pieces < self.0
        }
    }
    let (cloths, wish) = (demo::frozen_heap(334, 160).cloths(), Wish::default());
    let found = grow(&heap(&cloths), &wish, Goal::Size, Effort::QUICK, 334, None, &mut Until(12));
    assert_eq!(found[0].end, End::Stopped);
    let off = across(&outline(&found[0], &wish)) - wish.across_in;
    assert!((found[0].size_off - off).abs() < 1e-9 && off < -5.0, "{off}, not {}", found[0].size_off);
}

/// Large pieces grown without a stop: none of the runs, whether given first or not, is left without a
/// shape that goes on.
#[test]
fn large_pieces_grow_to_their_end() {
    for seed in [212, 213] {
        let cloths = demo::frozen_heap(seed, 1500).cloths();
        let wish = Wish { across_in: 44.7, ..Wish::default() };
        let one = Effort { starts: 1, ..Effort::USUAL };
        let found = grow(&heap(&cloths), &wish, Goal::Size, one, seed, None, &mut ());
        for grown in &found {
            let name = format!("seed {seed}: {} pieces, {} off", grown.pieces, grown.size_off);
            assert!(matches!(grown.end, End::Reached | End::Near), "{name}, {:?}", grown.end);
        }
        assert_eq!(found[0].end, End::Reached, "seed {seed}");
    }
}

/// However many pieces are asked for on the way to a size, the end is that of the size.
#[test]
fn a_size_with_so_many_pieces_ends_as_a_size_does() {
    for seed in [335, 336, 337] {
        let cloths = demo::frozen_heap(seed, 300).cloths();
        for pieces in [10, 20, 35, 60, 100, 150] {
            let wish = Wish::default();
            let found = grown(&cloths, &wish, Goal::SizeWith(pieces), Effort::QUICK, seed);
            let name = format!("seed {seed}, {pieces} pieces: {:?}, {} off", found.end, found.size_off);
            assert!(matches!(found.end, End::Reached | End::Near), "{name}");
            assert_eq!(found.end == End::Reached, found.size_off.abs() <= 0.5, "{name}");
        }
    }
}
