//! What next piece and growing promise, held against the table and its own audit, which share
//! nothing with the search. No outside source: these are the program's own promises.

use grow::{Bench, Bend, Effort, End, Goal, Grown, Heap, Proposal, Watch, grow, next_piece, reference};
use plane::Point;
use quilt::cloth::{Cloth, ClothId, Runs};
use quilt::log::{Bound, Entry, Mark, Name, Sewing, Step};
use quilt::table::{Table, replay};
use quilt::wish::{Limits, Towards, Weights, Wish};

const SEED: u64 = 301;

fn cloths() -> Vec<Cloth> {
    demo::frozen_heap(SEED, 160).cloths()
}

fn heap(cloths: &[Cloth], use_up: &[ClothId]) -> Heap {
    Heap::new(cloths.iter().map(|c| (c, vec![c.outline.clone()])), use_up)
}

fn grown(cloths: &[Cloth], wish: &Wish, goal: Goal, effort: Effort) -> Grown {
    let found = grow(&heap(cloths, &wish.use_up), wish, goal, effort, SEED, None, &mut ());
    found.into_iter().next().expect("something grows from 160 scraps")
}

fn table(entries: &[Entry]) -> Table {
    let (table, halt) = replay(entries);
    assert!(halt.is_none(), "{:?}", halt.map(|h| (h.mark, h.problem.to_string())));
    table
}

fn next_mark(entries: &[Entry]) -> Mark {
    Mark(entries.iter().map(|e| e.mark.0).max().unwrap_or(0) + 1)
}

fn raw_sides(table: &Table) -> Vec<Name> {
    let (_, top) = table.piece().expect("a piece");
    let name = |bound| match bound {
        Bound::Raw(name) => Some(name),
        Bound::Seam(_) => None,
    };
    top.sides().iter().filter_map(|side| name(side.bound)).collect()
}

/// Proposals for the sides most due of a centre of 15 pieces, with its entries.
fn proposed(cloths: &[Cloth], wish: &Wish, bend: &Bend, refused: &[String]) -> (Vec<Entry>, Vec<Proposal>) {
    let entries = grown(cloths, &Wish::default(), Goal::Pieces(15), Effort::QUICK).entries;
    let table = table(&entries);
    let (top, _) = table.piece().expect("a piece");
    let bench = Bench { table: &table, top, next_mark: next_mark(&entries) };
    let found = next_piece(&bench, &heap(cloths, &wish.use_up), wish, None, 6, SEED, bend, refused);
    (entries, found.expect("a convex centre"))
}

/// Twice the area by the shoelace rule: positive when the corners run counter-clockwise.
fn turning(points: &[Point]) -> f64 {
    let next = points.iter().cycle().skip(1);
    points.iter().zip(next).map(|(a, b)| a.x * b.y - b.x * a.y).sum()
}

fn sound(entries: &[Entry], cloths: &[Cloth], wish: &Wish) {
    let table = table(entries);
    let (_, top) = table.piece().expect("a piece");
    let problems = quilt::limits::audit(top, wish.allowance_in, &wish.limits);
    assert!(problems.is_empty(), "{problems:?}");
    for (mark, patch) in table.patches() {
        let cloth = cloths.iter().find(|c| c.id == patch.cloth).expect("a known cloth");
        assert!(plane::lies_within(&patch.cut, &cloth.outline, patch.at), "patch {mark} is off its cloth");
        // A pose turns and slides; what runs counter-clockwise on the table does so on the cloth.
        assert!(turning(&patch.at.apply_all(&patch.cut)) > 0.0, "patch {mark} is mirrored");
    }
}

#[test]
fn every_proposal_can_be_sewn_and_keeps_all_limits() {
    let (cloths, wish) = (cloths(), Wish::default());
    let (entries, found) = proposed(&cloths, &wish, &Bend::default(), &[]);
    assert!(!found.is_empty());
    for proposal in found {
        sound(&[entries.clone(), proposal.entries].concat(), &cloths, &wish);
    }
}

/// Every proposal for every side of pieces of several ages: none may break a limit that the piece
/// kept before. Seven layers instead of nine are refused, so that there is much to refuse.
#[test]
fn no_proposal_for_any_side_breaks_a_limit() {
    let most_layers = 7;
    let wish = Wish { limits: Limits { most_layers, ..Limits::default() }, ..Wish::default() };
    let mut tried = 0;
    for (seed, pieces) in [(321, 8), (322, 20), (323, 32), (324, 20)] {
        let cloths = demo::frozen_heap(seed, 160).cloths();
        let heap = heap(&cloths, &[]);
        let found = grow(&heap, &wish, Goal::Pieces(pieces), Effort::QUICK, seed, None, &mut ());
        let entries = found.into_iter().next().expect("something grows").entries;
        let before = table(&entries);
        let (top, piece) = before.piece().expect("a piece");
        let known = quilt::limits::audit(piece, wish.allowance_in, &wish.limits);
        let bench = Bench { table: &before, top, next_mark: next_mark(&entries) };
        for side in raw_sides(&before) {
            let found = next_piece(&bench, &heap, &wish, Some(side), 8, SEED, &Bend::default(), &[]);
            for proposal in found.expect("a known side") {
                let after = table(&[entries.clone(), proposal.entries].concat());
                let (_, piece) = after.piece().expect("a piece");
                let problems = quilt::limits::audit(piece, wish.allowance_in, &wish.limits);
                let new: Vec<_> = problems.iter().filter(|problem| !known.contains(problem)).collect();
                assert!(new.is_empty(), "seed {seed}, side {side}: {new:?}");
                tried += 1;
            }
        }
    }
    assert!(tried > 100, "only {tried} proposals");
}

#[test]
fn terms_add_up_to_the_score() {
    let (_, found) = proposed(&cloths(), &Wish::default(), &Bend::default(), &[]);
    for proposal in found {
        let sum: f64 = proposal.terms.iter().map(|term| term.value * term.weight).sum();
        assert!((sum - proposal.score).abs() < 1e-9, "{sum} is not {}", proposal.score);
    }
}

#[test]
fn the_first_proposal_is_within_five_percent_of_the_whole_grid() {
    let (cloths, wish) = (cloths(), Wish::default());
    let entries = grown(&cloths, &wish, Goal::Pieces(15), Effort::QUICK).entries;
    let table = table(&entries);
    let (top, _) = table.piece().expect("a piece");
    let bench = Bench { table: &table, top, next_mark: next_mark(&entries) };
    let heap = heap(&cloths, &[]);
    let mut compared = 0;
    for side in raw_sides(&table) {
        let found = next_piece(&bench, &heap, &wish, Some(side), 1, SEED, &Bend::default(), &[]);
        let found = found.expect("a known side").first().map(|p| p.score);
        let best = reference::best_score(&bench, &heap, &wish, side, SEED).expect("a known side");
        assert_eq!(found.is_some(), best.is_some(), "side {side}: {found:?} and {best:?}");
        if let (Some(found), Some(best)) = (found, best) {
            assert!(found - best <= 0.05 * best.abs(), "side {side}: {found} against {best}");
            compared += 1;
        }
    }
    assert!(compared > 0);
}

#[test]
fn refused_keys_do_not_come_again() {
    let cloths = cloths();
    let (_, first) = proposed(&cloths, &Wish::default(), &Bend::default(), &[]);
    let refused: Vec<String> = first.iter().take(2).map(|p| p.key.clone()).collect();
    let (_, second) = proposed(&cloths, &Wish::default(), &Bend::default(), &refused);
    assert!(!second.is_empty() && second.iter().all(|p| !refused.contains(&p.key)));
}

/// When everything is refused on the sides most due, further sides are asked, until nothing is left.
#[test]
fn where_nothing_goes_onto_the_sides_most_due_further_ones_are_asked() {
    let (cloths, wish) = (cloths(), Wish::default());
    let entries = grown(&cloths, &wish, Goal::Pieces(15), Effort::QUICK).entries;
    let table = table(&entries);
    let (top, _) = table.piece().expect("a piece");
    let bench = Bench { table: &table, top, next_mark: next_mark(&entries) };
    // Few cloths and one piece a time, so that a side is soon through.
    let heap = heap(&cloths[..8], &[]);
    let bend = Bend { pieces: Some(1), depth_in: Some(1.5), ..Bend::default() };
    let (mut refused, mut asked): (Vec<String>, Vec<Name>) = (Vec::new(), Vec::new());
    for _ in 0..40 {
        let found =
            next_piece(&bench, &heap, &wish, None, 24, SEED, &bend, &refused).expect("a convex centre");
        if found.is_empty() {
            break;
        }
        for proposal in found {
            refused.push(proposal.key);
            if !asked.contains(&proposal.asked) {
                asked.push(proposal.asked);
            }
        }
    }
    assert!(asked.len() > 3, "only {asked:?} of {:?}", raw_sides(&table));
}

/// Refused again and again, a side goes on offering fillings that weren't refused, and more than one
/// filling of the same shape among them.
#[test]
fn refusing_does_not_dry_a_side_up() {
    let (cloths, wish) = (cloths(), Wish::default());
    let entries = grown(&cloths, &wish, Goal::Pieces(15), Effort::QUICK).entries;
    let table = table(&entries);
    let (top, _) = table.piece().expect("a piece");
    let bench = Bench { table: &table, top, next_mark: next_mark(&entries) };
    let heap = heap(&cloths, &[]);
    let mut refused: Vec<String> = Vec::new();
    for round in 0..12 {
        let found = next_piece(&bench, &heap, &wish, None, 6, SEED, &Bend::default(), &refused);
        let found = found.expect("a convex centre");
        assert_eq!(found.len(), 6, "after {round} rounds of refusing");
        refused.extend(found.into_iter().map(|proposal| proposal.key));
    }
    let distinct: std::collections::BTreeSet<&String> = refused.iter().collect();
    assert_eq!(distinct.len(), refused.len(), "something came again");
}

/// With few scraps every filling there is comes once, then nothing.
#[test]
fn refusing_everything_ends_with_nothing() {
    let few: Vec<Cloth> = cloths().into_iter().take(30).collect();
    let wish = Wish::default();
    let entries = grown(&few, &wish, Goal::Pieces(5), Effort::QUICK).entries;
    let table = table(&entries);
    let (top, _) = table.piece().expect("a piece");
    let bench = Bench { table: &table, top, next_mark: next_mark(&entries) };
    let side = raw_sides(&table)[0];
    let bend = Bend { pieces: Some(1), ..Bend::default() };
    let mut refused: Vec<String> = Vec::new();
    for _ in 0..60 {
        let found = next_piece(&bench, &heap(&few, &[]), &wish, Some(side), 4, SEED, &bend, &refused);
        let found = found.expect("a known side");
        if found.is_empty() {
            assert!(refused.len() > 3, "only {refused:?} were offered");
            return;
        }
        refused.extend(found.into_iter().map(|proposal| proposal.key));
    }
    panic!("{} proposals of one piece from 30 scraps", refused.len());
}

/// The side named is the one that the last step sews onto, and it is there when the trim is made.
#[test]
fn a_proposal_names_the_side_that_it_is_sewn_onto() {
    let weights = Weights { thrift: 0.0, ..Weights::default() };
    let (cloths, wish) =
        (cloths(), Wish { weights, towards: Towards::Round { sides: 8 }, ..Wish::default() });
    let (mut trimmed, mut plain) = (0, 0);
    for (pieces, towards) in
        [(5, 3), (6, 4), (10, 4), (15, 4)].map(|(p, s)| (p, Towards::Polygon(regular(s, 8.0))))
    {
        let entries =
            grown(&cloths, &Wish { towards, ..wish.clone() }, Goal::Pieces(pieces), Effort::QUICK).entries;
        let table = table(&entries);
        let (top, _) = table.piece().expect("a piece");
        let bench = Bench { table: &table, top, next_mark: next_mark(&entries) };
        let sides = raw_sides(&table);
        for &side in &sides {
            let found =
                next_piece(&bench, &heap(&cloths, &[]), &wish, Some(side), 20, SEED, &Bend::default(), &[]);
            for proposal in found.expect("a known side") {
                let Some(Step::Sew(Sewing::Join { onto, .. })) = proposal.entries.last().map(|e| &e.step)
                else {
                    panic!("the last step of {} sews nothing on", proposal.key)
                };
                assert_eq!((proposal.side, proposal.asked), (*onto, side));
                if let Some(from) = proposal.trimmed {
                    let mut after = table.clone();
                    after.apply_entry(&proposal.entries[0]).expect("the trim");
                    assert!(!sides.contains(&proposal.side) && raw_sides(&after).contains(&proposal.side));
                    assert!(sides.contains(&from) && proposal.trim.is_some());
                    trimmed += 1;
                } else {
                    assert_eq!(proposal.side, side);
                    plain += 1;
                }
            }
        }
    }
    assert!(trimmed > 0 && plain > 0, "{trimmed} with a trim, {plain} without");
}

#[test]
fn a_bend_is_obeyed() {
    let (cloths, wish) = (cloths(), Wish::default());
    let (_, found) = proposed(&cloths, &wish, &Bend { pieces: Some(2), ..Bend::default() }, &[]);
    assert!(!found.is_empty() && found.iter().all(|p| p.patches.len() == 2));
    let (_, found) = proposed(&cloths, &wish, &Bend { depth_in: Some(1.75), ..Bend::default() }, &[]);
    assert!(!found.is_empty() && found.iter().all(|p| (p.depth_in - 1.75).abs() < 1e-9));
    let big = cloths.iter().max_by(|a, b| a.outline.area().total_cmp(&b.outline.area()));
    let asked = big.expect("a cloth").id;
    let (_, found) = proposed(&cloths, &wish, &Bend { cloth: Some(asked), ..Bend::default() }, &[]);
    assert!(found.iter().all(|p| p.patches.iter().any(|patch| patch.cloth == asked)));
}

#[test]
fn growing_is_the_same_for_the_same_seed() {
    let (cloths, wish) = (cloths(), Wish::default());
    let once = grown(&cloths, &wish, Goal::Pieces(25), Effort { starts: 3, ..Effort::USUAL });
    let again = grown(&cloths, &wish, Goal::Pieces(25), Effort { starts: 3, ..Effort::USUAL });
    assert_eq!(once.entries, again.entries);
}

#[test]
fn growing_stops_with_a_sound_piece_when_told() {
    struct Until(usize);
    impl Watch for Until {
        fn placed(&mut self, pieces: usize, _: usize) -> bool {
            pieces < self.0
        }
    }
    let (cloths, wish) = (cloths(), Wish::default());
    let heap = heap(&cloths, &[]);
    let found = grow(&heap, &wish, Goal::Size, Effort::USUAL, SEED, None, &mut Until(10));
    assert_eq!(found[0].end, End::Stopped);
    assert!((10..25).contains(&found[0].pieces), "{} pieces", found[0].pieces);
    sound(&found[0].entries, &cloths, &wish);
}

#[test]
fn growing_stops_with_a_sound_piece_when_cloth_runs_out_and_says_so() {
    let few: Vec<Cloth> = cloths().into_iter().take(25).collect();
    let wish = Wish { across_in: 40.0, ..Wish::default() };
    let found = grown(&few, &wish, Goal::Size, Effort::QUICK);
    assert!(matches!(found.end, End::ClothRanOut { size_in, .. } if size_in > 1.0), "{:?}", found.end);
    sound(&found.entries, &few, &wish);
}

#[test]
fn one_way_prints_hang_upright() {
    let (cloths, wish) = (cloths(), Wish::default());
    let table = table(&grown(&cloths, &wish, Goal::Pieces(50), Effort::QUICK).entries);
    let (_, top) = table.piece().expect("a piece");
    let mut seen = 0;
    for face in top.faces().values() {
        let patch = &table.patches()[&face.patch];
        let cloth = cloths.iter().find(|c| c.id == patch.cloth).expect("a known cloth");
        if let Runs::OneWay(up) = cloth.look.runs {
            let in_top =
                face.pose.turn.apply(patch.at.turn.inverse().apply(plane::Vec2::new(up.cos, up.sin)));
            assert!((in_top.y - 1.0).abs() < 1e-6, "{in_top:?}");
            seen += 1;
        }
    }
    assert!(seen > 0, "no one-way print was used, so nothing was shown");
}

#[test]
fn spared_cloths_are_never_cut() {
    let cloths = cloths();
    let spare: Vec<ClothId> = cloths.iter().step_by(2).map(|c| c.id).collect();
    let wish = Wish { spare: spare.clone(), ..Wish::default() };
    let found = grown(&cloths, &wish, Goal::Pieces(30), Effort::QUICK);
    for entry in &found.entries {
        if let Step::Lay { cloth, .. } = &entry.step {
            assert!(!spare.contains(cloth), "{cloth} was to be spared");
        }
    }
}

#[test]
fn rectangles_reach_their_size() {
    let cloths = demo::frozen_heap(SEED, 300).cloths();
    let towards = Towards::Rectangle { width_in: 18.0, height_in: 24.0 };
    let wish = Wish { towards, ..Wish::default() };
    let found = grown(&cloths, &wish, Goal::Size, Effort::USUAL);
    assert_eq!(found.end, End::Reached);
    assert!(found.size_off.abs() <= 0.5, "off by {}", found.size_off);
    sound(&found.entries, &cloths, &wish);
}

#[test]
fn more_pieces_are_grown_beyond_the_wished_size() {
    let (cloths, wish) = (cloths(), Wish { across_in: 9.0, ..Wish::default() });
    let small = grown(&cloths, &wish, Goal::Size, Effort::QUICK);
    let more = grown(&cloths, &wish, Goal::Pieces(small.pieces + 12), Effort::QUICK);
    assert_eq!((&more.end, more.pieces), (&End::Reached, small.pieces + 12));
    sound(&more.entries, &cloths, &wish);
}

fn regular(sides: usize, radius: f64) -> Vec<Point> {
    let corner = |i: usize| plane::Turn::from_degrees(360.0 * i as f64 / sides as f64).vec() * radius;
    (0..sides).map(|i| Point::new(corner(i).x, corner(i).y)).collect()
}
