//! Whether growing and proposing do what the maker's wish says, measured on the sewn table: spiral,
//! motif, outline, cloths to use up, bending. No outside source: these are the program's promises.

#[path = "../../quilt/tests/common/mod.rs"]
mod common;

use common::Hand;
use grow::{Bench, Bend, Effort, End, Goal, Grown, Heap, Proposal, Unmet, grow, next_piece};
use plane::{Point, Region, Turn, polygon};
use quilt::cloth::{Cloth, ClothId, Runs};
use quilt::eye::{Grade, Quality, Shapes, eye_check};
use quilt::log::{Bound, Entry, Mark, Name};
use quilt::table::{Table, Top, replay};
use quilt::wish::{Motif, Spiral, Towards, Wish};

const SEEDS: [u64; 3] = [311, 312, 313];

fn heap(cloths: &[Cloth], use_up: &[ClothId]) -> Heap {
    Heap::new(cloths.iter().map(|c| (c, vec![c.outline.clone()])), use_up)
}

fn grown(cloths: &[Cloth], wish: &Wish, goal: Goal, effort: Effort, seed: u64) -> Grown {
    let found = grow(&heap(cloths, &wish.use_up), wish, goal, effort, seed, None, &mut ());
    found.into_iter().next().expect("something grows")
}

fn table(entries: &[Entry]) -> Table {
    let (table, halt) = replay(entries);
    assert!(halt.is_none(), "{:?}", halt.map(|h| (h.mark, h.problem.to_string())));
    table
}

fn piece(table: &Table) -> &Top {
    table.piece().expect("a piece").1
}

fn turns(top: &Top, spiral: Spiral) -> (Grade, f64) {
    let wish = Wish { spiral, ..Wish::default() };
    let check = eye_check(&Shapes::of(top, wish.allowance_in, &|_| None), &wish);
    let row = check.row(Quality::Turns).expect("the row");
    (row.grade, row.values[0].value)
}

#[test]
fn a_piece_grown_in_a_spiral_turns_and_others_do_not() {
    let few = Effort { starts: 3, ..Effort::USUAL };
    let mut unasked = 0.0;
    for seed in SEEDS {
        let cloths = demo::frozen_heap(seed, 160).cloths();
        for (spiral, against) in
            [(Spiral::Clockwise, Spiral::Anticlockwise), (Spiral::Anticlockwise, Spiral::Clockwise)]
        {
            let wish = Wish { spiral, ..Wish::default() };
            let table = table(&grown(&cloths, &wish, Goal::Pieces(50), few, seed).entries);
            let found = turns(piece(&table), spiral);
            assert_eq!(found.0, Grade::Good, "seed {seed}, {spiral:?}: {found:?}");
            assert_eq!(turns(piece(&table), against).0, Grade::Poor, "seed {seed}, not {spiral:?}");
        }
        let mut hand = Hand::new(seed);
        while hand.top().faces().len() < 30 {
            hand.add_piece();
            hand.trim();
        }
        let free = table(&grown(&cloths, &Wish::default(), Goal::Pieces(50), few, seed).entries);
        for spiral in [Spiral::Clockwise, Spiral::Anticlockwise] {
            let random = turns(hand.top(), spiral);
            assert_ne!(random.0, Grade::Good, "seed {seed}, sewn at random, {spiral:?}: {random:?}");
        }
        unasked += turns(piece(&free), Spiral::Clockwise).1.abs() / SEEDS.len() as f64;
    }
    assert!(unasked < 0.5, "without a wish pieces turn by {unasked} on the average");
}

/// A patch of a print about an inch across, where its cloth has most room.
fn motif(cloth: &Cloth) -> Option<Motif> {
    let disc = plane::largest_disc(&cloth.outline, 0.01)?;
    let corners = [(-0.5, -0.35), (0.5, -0.35), (0.6, 0.3), (-0.4, 0.4)];
    let outer = corners.map(|(x, y)| Point::new(disc.centre.x + x, disc.centre.y + y)).to_vec();
    (disc.radius > 1.8).then(|| Motif { cloth: cloth.id, part: Region { outer, holes: Vec::new() } })
}

/// The part of a motif that no finished shape of its cloth shows, in square inches.
fn hidden(motif: &Motif, table: &Table, allowance_in: f64) -> f64 {
    let top = piece(table);
    let shown: Vec<Region> = top
        .faces()
        .values()
        .filter(|face| table.patches()[&face.patch].cloth == motif.cloth)
        .map(|face| {
            let at = table.patches()[&face.patch].at;
            let outer = face.pose.inverse().then(at).apply_all(&top.finished_points(face, allowance_in));
            Region { outer, holes: Vec::new() }
        })
        .collect();
    plane::difference(&motif.part, &shown).iter().map(Region::area).sum()
}

#[test]
fn a_motif_is_shown_whole() {
    let mut upright = 0;
    for seed in SEEDS {
        let cloths = demo::frozen_heap(seed, 160).cloths();
        let fitting = cloths.iter().filter_map(|cloth| Some((cloth, motif(cloth)?)));
        for (cloth, motif) in fitting.step_by(7).take(5) {
            let wish = Wish { motif: Some(motif.clone()), ..Wish::default() };
            let grown = grown(&cloths, &wish, Goal::Pieces(30), Effort::QUICK, seed);
            let table = table(&grown.entries);
            let off = hidden(&motif, &table, wish.allowance_in);
            assert!(grown.unmet.is_empty(), "seed {seed}, {}: {:?}", cloth.name, grown.unmet);
            assert!(off < 1e-9, "seed {seed}, {}: {off} square inches don't show", cloth.name);
            upright += usize::from(matches!(cloth.look.runs, Runs::OneWay(_)));
        }
    }
    assert!(upright > 0, "no motif on a print with a top was tried");
}

/// A motif that fills its cloth to the edge leaves no room for seams; one that comes when the first
/// patch lies already comes too late. Both are said.
#[test]
fn a_motif_that_cannot_be_shown_is_said() {
    let cloths = demo::frozen_heap(SEEDS[0], 160).cloths();
    let whole = Motif { cloth: cloths[0].id, part: cloths[0].outline.clone() };
    let wish = Wish { motif: Some(whole.clone()), ..Wish::default() };
    let found = grown(&cloths, &wish, Goal::Pieces(12), Effort::QUICK, SEEDS[0]);
    assert!(hidden(&whole, &table(&found.entries), wish.allowance_in) > 0.1);
    assert_eq!(found.unmet, [Unmet::Motif(whole.cloth)]);

    let begun = grown(&cloths, &Wish::default(), Goal::Pieces(6), Effort::QUICK, SEEDS[0]).entries;
    let next_mark = Mark(begun.iter().map(|e| e.mark.0).max().unwrap_or(0) + 1);
    let before = table(&begun);
    let bench = Bench { table: &before, top: before.piece().expect("a piece").0, next_mark };
    let late = cloths.iter().rev().find_map(motif).expect("room for a motif");
    let wish = Wish { motif: Some(late.clone()), ..Wish::default() };
    let heap = heap(&cloths, &[]);
    let found = grow(&heap, &wish, Goal::Pieces(12), Effort::QUICK, SEEDS[0], Some(&bench), &mut ());
    assert_eq!(found[0].unmet, [Unmet::Motif(late.cloth)]);
}

fn regular(sides: usize, radius: f64) -> Vec<Point> {
    let corner = |i| Turn::from_degrees(360.0 * f64::from(i as u32) / sides as f64 + 10.0).vec() * radius;
    (0..sides).map(|i| Point::new(corner(i).x, corner(i).y)).collect()
}

#[test]
fn polygons_of_five_to_eight_sides_reach_their_size() {
    let cloths = demo::frozen_heap(SEEDS[0], 300).cloths();
    for (sides, radius) in [(5, 10.0), (6, 9.0), (8, 9.0)] {
        let wished = regular(sides, radius);
        let wish = Wish { towards: Towards::Polygon(wished.clone()), ..Wish::default() };
        let found = grown(&cloths, &wish, Goal::Size, Effort::USUAL, SEEDS[0]);
        assert_eq!(found.end, End::Reached, "{sides} sides");
        let table = table(&found.entries);
        let outline = Shapes::of(piece(&table), wish.allowance_in, &|_| None).outline;
        let across = |points: &[Point]| 2.0 * (polygon::area(points) / std::f64::consts::PI).sqrt();
        let off = across(&outline) - across(&wished);
        assert!(off.abs() <= 0.5, "{sides} sides: {off} inches off");
    }
}

/// Square inches laid from cloths of these prints.
fn laid_of(entries: &[Entry], of: &[ClothId]) -> f64 {
    let table = table(entries);
    let patches = table.patches().values().filter(|patch| of.contains(&patch.cloth));
    patches.map(|patch| polygon::area(&patch.cut)).sum()
}

#[test]
fn cloths_to_be_used_up_are_preferred() {
    for seed in SEEDS {
        let cloths = demo::frozen_heap(seed, 160).cloths();
        let print = |cloth: &&Cloth| cloth.print.is_some_and(|print| print % 5 == 0);
        let use_up: Vec<ClothId> = cloths.iter().filter(print).map(|cloth| cloth.id).collect();
        let of = |wish: &Wish| {
            laid_of(&grown(&cloths, wish, Goal::Pieces(40), Effort::QUICK, seed).entries, &use_up)
        };
        let (without, with) = (of(&Wish::default()), of(&Wish { use_up: use_up.clone(), ..Wish::default() }));
        assert!(with > 1.25 * without && with > 10.0, "seed {seed}: {with} of them laid, {without} unasked");
    }
}

/// A centre of 15 pieces, and proposals for a side of it.
fn proposed(cloths: &[Cloth], bend: &Bend, seed: u64) -> (Table, Vec<Proposal>) {
    let wish = Wish::default();
    let entries = grown(cloths, &wish, Goal::Pieces(15), Effort::QUICK, seed).entries;
    let next_mark = Mark(entries.iter().map(|e| e.mark.0).max().unwrap_or(0) + 1);
    let table = table(&entries);
    let (top, _) = table.piece().expect("a piece");
    let bench = Bench { table: &table, top, next_mark };
    let found =
        next_piece(&bench, &heap(cloths, &[]), &wish, None, 6, seed, bend, &[]).expect("a convex centre");
    (table, found)
}

/// How far the outer edge turns from the side it is sewn onto, in degrees counter-clockwise, on the
/// table after the proposal's steps.
fn tilt_of(table: &Table, proposal: &Proposal) -> f64 {
    let mut after = table.clone();
    for entry in &proposal.entries {
        after.apply_entry(entry).expect("a proposal can be sewn");
    }
    let line = |table: &Table, name| piece(table).line(Bound::Raw(name)).expect("a free side");
    let outer = line(&after, Name::new(proposal.patches[0].mark, 2));
    line(table, proposal.side).normal.inverse().then(outer.normal).to_degrees()
}

#[test]
fn a_proposal_bent_by_tilt_has_that_tilt() {
    for seed in SEEDS {
        let cloths = demo::frozen_heap(seed, 160).cloths();
        for tilt in [-7.0, 0.0, 6.5] {
            let (table, found) = proposed(&cloths, &Bend { tilt_deg: Some(tilt), ..Bend::default() }, seed);
            let untrimmed: Vec<_> = found.iter().filter(|p| p.trim.is_none()).collect();
            assert!(!untrimmed.is_empty(), "seed {seed}, tilt {tilt}: nothing is proposed");
            for proposal in untrimmed {
                let is = tilt_of(&table, proposal);
                assert!((is - tilt).abs() < 1e-6, "seed {seed}: {is} degrees, not {tilt}");
            }
        }
    }
}

#[test]
fn a_proposal_bent_by_cloth_has_that_cloth() {
    for seed in SEEDS {
        let cloths = demo::frozen_heap(seed, 160).cloths();
        let (_, free) = proposed(&cloths, &Bend::default(), seed);
        let mut large: Vec<&Cloth> = cloths.iter().collect();
        large.sort_by(|a, b| b.outline.area().total_cmp(&a.outline.area()));
        let usual: Vec<ClothId> = free.iter().flat_map(|p| &p.patches).map(|patch| patch.cloth).collect();
        let mut obeyed = 0;
        for cloth in large.iter().filter(|cloth| !usual.contains(&cloth.id)).take(6) {
            let (_, found) = proposed(&cloths, &Bend { cloth: Some(cloth.id), ..Bend::default() }, seed);
            let has = |p: &Proposal| p.patches.iter().any(|patch| patch.cloth == cloth.id);
            assert!(found.iter().all(has), "seed {seed}, {}", cloth.name);
            obeyed += usize::from(!found.is_empty());
        }
        assert!(obeyed >= 4, "seed {seed}: only {obeyed} of 6 large cloths are proposed when asked for");
    }
}
