//! Faces against a second kernel: what the table keeps as named lines must be what the booleans of
//! polygons make of the same patches, cuts and seams. The table never calls those booleans.
//! No outside source: the booleans are themselves held against another library in `plane`.

mod common;

use common::Hand;
use plane::{Line, Point, Pose, Region, Turn, difference, intersection, polygon, union};
use quilt::log::{Along, Bound, Entry, Keep, Mark, Sewing, Step};
use quilt::table::{Table, Top};
use std::collections::{BTreeMap, BTreeSet};

/// Square inches that two ways of cutting the same shape may differ by.
const SAME_IN2: f64 = 1e-7;

fn sewn_at_random(seed: u64, steps: usize) -> Hand {
    let mut hand = Hand::new(seed);
    for i in 0..steps {
        match i {
            _ if i % 70 == 69 => hand.slice_and_rejoin(),
            _ if i % 40 == 39 => {
                let (top, by) = (hand.table.piece().expect("a piece").0, Turn::from_degrees(37.0));
                hand.try_step(Step::Turn { top, by }).is_ok()
            }
            _ if i % 5 == 2 => hand.trim(),
            _ => hand.add_piece(),
        };
    }
    hand
}

fn region(outer: Vec<Point>) -> Region {
    Region { outer, holes: Vec::new() }
}

fn area(regions: &[Region]) -> f64 {
    regions.iter().map(Region::area).sum()
}

fn faces(top: &Top) -> Vec<Region> {
    top.faces().values().map(|face| region(top.face_points(face))).collect()
}

/// Area of what only one of both covers.
fn apart(one: &[Region], other: &[Region]) -> f64 {
    let less =
        |from: &[Region], taken: &[Region]| from.iter().map(|r| area(&difference(r, taken))).sum::<f64>();
    less(one, other) + less(other, one)
}

#[test]
fn faces_make_up_the_outline_and_do_not_overlap() {
    for seed in 60..64 {
        let hand = sewn_at_random(seed, 300);
        for (mark, top) in hand.table.tops() {
            let faces = faces(top);
            let whole = union(&faces);
            assert_eq!(whole.len(), 1, "seed {seed}, top {mark}: the faces fall apart");
            assert!(whole[0].holes.is_empty(), "seed {seed}, top {mark}: {:?}", whole[0].holes);
            let off = apart(&whole, &[region(top.outline_points())]);
            assert!(off < SAME_IN2, "seed {seed}, top {mark}: {off} square inches beside the outline");
            for (i, one) in faces.iter().enumerate() {
                for (j, other) in faces.iter().enumerate().skip(i + 1) {
                    let shared = area(&intersection(one, other));
                    assert!(shared < SAME_IN2, "seed {seed}, faces {i} and {j}: {shared}");
                }
            }
        }
        assert!(hand.top().faces().len() > 50, "seed {seed}: {} faces", hand.top().faces().len());
    }
}

/// A half-plane as far as any piece here reaches: what lies outside a line.
fn outside(line: Line) -> Region {
    let far = line.inward(-400.0);
    region(vec![line.point_at(400.0), line.point_at(-400.0), far.point_at(-400.0), far.point_at(400.0)])
}

/// What the booleans leave of every patch, top by top.
#[derive(Default)]
struct Shadow {
    tops: BTreeMap<Mark, Vec<(Mark, Region)>>,
    /// Patches that were eased to cover: cloth gives there, so their shape is not what was cut.
    eased: BTreeSet<Mark>,
}

fn cut_off(parts: &[(Mark, Region)], gone: &Region) -> Vec<(Mark, Region)> {
    let left = |(mark, part): &(Mark, Region)| {
        difference(part, std::slice::from_ref(gone)).into_iter().map(|r| (*mark, r)).collect::<Vec<_>>()
    };
    parts.iter().flat_map(left).collect()
}

impl Shadow {
    /// Follows one step, from the table before and after it.
    fn follow(&mut self, before: &Table, after: &Table, entry: &Entry) {
        match &entry.step {
            Step::Lay { cut, .. } => {
                self.tops.insert(entry.mark, vec![(entry.mark, region(cut.clone()))]);
            }
            Step::Cut { top, along, keep } => {
                let line = line_of(&before.tops()[top], *along);
                let parts = self.tops.remove(top).expect("a top");
                let (left, right) =
                    (cut_off(&parts, &outside(line)), cut_off(&parts, &outside(line.reversed())));
                match keep {
                    Keep::Left => self.tops.insert(*top, left),
                    Keep::Right => self.tops.insert(*top, right),
                    Keep::Both => {
                        self.tops.insert(entry.mark, right);
                        self.tops.insert(*top, left)
                    }
                };
            }
            Step::Sew(join) => self.sew(before, after, entry.mark, join),
            Step::Turn { top, by } => {
                let turned = Pose { turn: *by, by: plane::Vec2::default() };
                for (_, part) in self.tops.get_mut(top).expect("a top") {
                    *part = part.moved(turned);
                }
            }
            Step::Aside { top } => drop(self.tops.remove(top)),
            Step::Measure { .. } | Step::Choose(_) | Step::Note(_) => {}
        }
    }

    fn sew(&mut self, before: &Table, after: &Table, mark: Mark, join: &Sewing) {
        let Sewing::Join { onto, with, allowance_in, flush, .. } = join else { return };
        let onto_top = before.top_with_side(*onto).expect("the top sewn onto");
        let with_top = before.top_with_side(*with).expect("the top sewn");
        let raw = |top: Mark, side| before.tops()[&top].line(Bound::Raw(side)).expect("a side");
        let seam = raw(onto_top, *onto).inward(*allowance_in);
        let pose = moved_by(&before.tops()[&with_top], &after.tops()[&onto_top]);
        // Right sides together, raw edge on raw edge.
        let own = raw(with_top, *with).inward(*allowance_in).moved(pose).reversed();
        assert!((own.at - seam.at).abs() < 1e-9 && own.turn_cosine(seam) > 1.0 - 1e-12, "step {mark}");
        let ends = after.tops()[&onto_top].seams()[&quilt::log::Name::new(mark, 0)].ends();
        let lines = ends.map(|end| before.tops()[&onto_top].line(end).expect("the seam ends at a line"));
        let mut added: Vec<(Mark, Region)> = self.tops.remove(&with_top).expect("a top");
        for (_, part) in &mut added {
            *part = part.moved(pose);
        }
        if let [(patch, laid)] = &added[..] {
            let reaches = |line: &Line| {
                let end = line.crossing(seam).expect("the seam has ends");
                let sides = polygon::edges(&laid.outer).filter_map(|(a, b)| Line::through(a, b));
                sides.map(|side| side.inside_by(end)).fold(f64::INFINITY, f64::min) > -1e-9
            };
            if !lines.iter().all(reaches) {
                self.eased.insert(*patch);
            }
        }
        added = cut_off(&added, &outside(seam.reversed()));
        for (line, _) in lines.into_iter().zip(flush).filter(|(_, flush)| **flush) {
            added = cut_off(&added, &outside(line));
        }
        let kept = self.tops.get_mut(&onto_top).expect("a top");
        *kept = cut_off(kept, &outside(seam));
        kept.extend(added);
    }
}

/// How a top was moved when it came to another: the motion of any of its faces.
fn moved_by(top: &Top, joined: &Top) -> Pose {
    let both = top.faces().iter().find_map(|(name, face)| Some((face, joined.faces().get(name)?)));
    let (face, moved) = both.expect("a face that still shows");
    face.pose.inverse().then(moved.pose)
}

fn line_of(top: &Top, along: Along) -> Line {
    match along {
        Along::Side(side) => top.line(Bound::Raw(side)).expect("a side"),
        Along::From { side, at_in, turn } => {
            let found = top.sides().into_iter().find(|s| s.name() == Some(side)).expect("a side");
            let along = Turn::towards(found.to - found.from).expect("a length");
            Line::from_point(found.from + along.vec() * at_in, along.then(turn))
        }
    }
}

/// As far as all tops are convex, which lets the shadow cut straight across them.
fn followed(hand: &Hand) -> (Table, Shadow) {
    let convex = |table: &Table| table.tops().values().all(|t| polygon::is_convex(&t.outline_points(), 1e-9));
    let (mut table, mut shadow) = (Table::new(), Shadow::default());
    for entry in &hand.entries {
        let mut after = table.clone();
        after.apply_entry(entry).expect("it was sewn before");
        if !convex(&after) {
            break;
        }
        shadow.follow(&table, &after, entry);
        table = after;
    }
    (table, shadow)
}

#[test]
fn every_face_is_its_patch_less_cuts_and_allowances() {
    let (mut compared, mut eased) = (0, 0);
    for seed in 60..72 {
        let (table, shadow) = followed(&sewn_at_random(seed, 300));
        eased += shadow.eased.len();
        for (mark, top) in table.tops() {
            let of = |patch: Mark| -> Vec<Region> {
                let own = shadow.tops[mark].iter().filter(|(of, _)| *of == patch);
                own.map(|(_, part)| part.clone()).collect()
            };
            let shown = |patch: Mark| -> Vec<Region> {
                let own = top.faces().values().filter(|face| face.patch == patch);
                own.map(|face| region(top.face_points(face))).collect()
            };
            let patches: BTreeSet<Mark> = shadow.tops[mark].iter().map(|part| part.0).collect();
            for &patch in patches.difference(&shadow.eased) {
                let off = apart(&shown(patch), &of(patch));
                assert!(off < SAME_IN2, "seed {seed}, patch {patch}: {off} square inches");
                compared += usize::from(top.faces().len() > 1);
            }
            let unknown = top.faces().values().find(|face| !patches.contains(&face.patch));
            assert_eq!(unknown.map(|face| face.patch), None, "seed {seed}: cut away by the booleans");
        }
    }
    assert!(compared > 300 && eased * 10 < compared, "{compared} compared, {eased} eased");
}
