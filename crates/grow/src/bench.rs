//! From what lies on the table to a centre that can be grown on.

use crate::centre::{Along, Centre, Chain, Placed, Side};
use crate::heap::Heap;
use crate::look;
use crate::target::Target;
use plane::{Line, Point, Vec2, polygon};
use quilt::log::{Bound, End, Mark};
use quilt::table::{Table, Top};
use quilt::wish::Wish;
use quilt::{Place, Problem, Rule};

/// A top on the table, and the next free step number.
#[derive(Clone, Copy, Debug)]
pub struct Bench<'a> {
    /// What lies on the table.
    pub table: &'a Table,
    /// The top to grow on: the step that began it.
    pub top: Mark,
    /// The number that the next step will have.
    pub next_mark: Mark,
}

/// The centre on a bench.
///
/// # Errors
/// No such top; or a corner that turns inward, with the side that a trim is due at.
pub(crate) fn centre(
    bench: &Bench,
    heap: &Heap,
    target: &Target,
    wish: &Wish,
    sparks_turn_deg: f64,
) -> Result<Centre, Problem> {
    let top = bench.table.top(bench.top).ok_or(Problem::at(Rule::NoSuchTop, Place::Step(bench.top)))?;
    check_convex(top)?;
    let s = wish.allowance_in;
    let nonsense = Problem::at(Rule::Nonsense, Place::Top(bench.top));
    let placed = placed(bench, top, heap, s);
    let middle = placed.first().map(|(_, p)| p.centroid).ok_or(nonsense)?;
    let mut centre = Centre {
        top: bench.top,
        sides: sides(top, &placed, s),
        middle,
        placed: Chain::default(),
        heap: heap.clone(),
        next_mark: bench.next_mark.0,
        last: None,
        area: 0.0,
        weight: 0.0,
        moment: Vec2::default(),
        cut_area: bench.table.patches().values().map(|p| polygon::area(&p.cut)).sum(),
        trimmed_area: 0.0,
        directions: [0.0; 12],
        sparks: 0,
        cost: 0.0,
    };
    for (_, mut patch) in placed {
        patch.share = target.share(patch.centroid - middle);
        let size = patch.area.sqrt() * look::SPARK_REACH;
        if let Some(i) = look::spark_at(target, patch.centroid - middle, size, sparks_turn_deg) {
            centre.sparks |= 1 << i;
        }
        centre.count(&patch);
        centre.placed.push(patch);
    }
    for &name in top.seams().keys() {
        if let Some((a, b)) = top.seam_points(name) {
            centre.count_seam(a, b);
        }
    }
    centre.last = sewn_last(top, &centre.sides);
    Ok(centre)
}

/// The outer edge of what was sewn on last: of the free sides along its patches the one that faces
/// most nearly away from its seam. Its flanks may be sides of their own, and a trim may have given
/// the edge another name.
fn sewn_last(top: &Top, sides: &[Side]) -> Option<usize> {
    let (&name, seam) = top.seams().iter().max_by_key(|(_, seam)| seam.order)?;
    let outward = -top.line(Bound::Seam(name))?.normal.vec();
    let unit = top.faces().values().filter(|face| (seam.added..=name.by).contains(&face.patch));
    let free: Vec<Bound> = unit.flat_map(quilt::table::Face::around).copied().collect();
    let away = |i: usize| -(sides[i].line.normal.vec().dot(outward));
    let along = (0..sides.len()).filter(|&i| free.contains(&Bound::Raw(sides[i].name)));
    along.max_by(|&i, &j| away(i).total_cmp(&away(j)))
}

fn check_convex(top: &Top) -> Result<(), Problem> {
    let sides = top.sides();
    let n = sides.len();
    for (i, side) in sides.iter().enumerate() {
        let next = &sides[(i + 1) % n];
        let turn = (side.to - side.from).cross(next.to - next.from);
        let (here, there) = (side.bound, next.bound);
        if turn <= 0.0 || matches!(here, Bound::Seam(_)) || matches!(there, Bound::Seam(_)) {
            let place = match (here, there) {
                (Bound::Raw(name), _) => Place::Side(name, Some(End::End)),
                (Bound::Seam(_), Bound::Raw(name)) => Place::Side(name, Some(End::Start)),
                (Bound::Seam(name), Bound::Seam(_)) => Place::Seam(name),
            };
            return Err(Problem::at(Rule::InwardCorner, place));
        }
    }
    Ok(())
}

/// The finished patches, oldest first, each with the raw sides it lies along.
fn placed(bench: &Bench, top: &Top, heap: &Heap, allowance: f64) -> Vec<(Vec<Bound>, Placed)> {
    let mut faces: Vec<_> = top.faces().values().collect();
    faces.sort_by_key(|face| face.patch);
    faces
        .into_iter()
        .filter_map(|face| {
            let shape = top.finished_points(face, allowance);
            let cloth = bench.table.patches().get(&face.patch)?.cloth;
            let known = heap.look_of(cloth);
            let raw = face.around().iter().filter(|b| matches!(b, Bound::Raw(_))).copied().collect();
            let placed = Placed {
                centroid: polygon::centroid(&shape)?,
                area: polygon::area(&shape),
                share: 0.0,
                shape: shape.into(),
                group: known.group,
                print: known.print,
                lab: known.lab,
                quick: known.quick,
            };
            Some((raw, placed))
        })
        .collect()
}

fn sides(top: &Top, placed: &[(Vec<Bound>, Placed)], allowance: f64) -> Vec<Side> {
    top.sides()
        .iter()
        .filter_map(|side| {
            let line = top.line(side.bound)?;
            let rail = line.inward(allowance);
            let mut along: Vec<Along> = placed
                .iter()
                .enumerate()
                .filter(|(_, (raw, _))| raw.contains(&side.bound))
                .filter_map(|(i, (_, patch))| on_rail(&patch.shape, rail, i))
                .collect();
            along.sort_by(|a, b| a.from.total_cmp(&b.from));
            if let Some(first) = along.first_mut() {
                first.from = f64::NEG_INFINITY;
            }
            if let Some(last) = along.last_mut() {
                last.to = f64::INFINITY;
            }
            Some(Side { name: side.name()?, line, along })
        })
        .collect()
}

/// Where a finished shape lies along the line that its free side will be sewn on.
fn on_rail(shape: &[Point], rail: Line, placed: usize) -> Option<Along> {
    let on: Vec<f64> =
        shape.iter().filter(|&&p| rail.inside_by(p).abs() < 1e-6).map(|&p| rail.along(p)).collect();
    let from = on.iter().copied().fold(f64::INFINITY, f64::min);
    let to = on.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    (to > from).then_some(Along { from, to, placed })
}

/// Sides of a top that don't touch one another, the longest first: all of them can be sewn before
/// the next pressing.
#[must_use]
pub fn sewable_together(top: &Top) -> Vec<quilt::log::Name> {
    let sides = top.sides();
    let n = sides.len();
    let mut order: Vec<usize> = (0..n).filter(|&i| sides[i].name().is_some()).collect();
    order.sort_by(|&a, &b| sides[b].length_in().total_cmp(&sides[a].length_in()).then(a.cmp(&b)));
    let mut taken: Vec<usize> = Vec::new();
    for i in order {
        let touches = taken.iter().any(|&j| (i + 1) % n == j || (j + 1) % n == i || i == j);
        if !touches {
            taken.push(i);
        }
    }
    taken.sort_unstable();
    taken.into_iter().filter_map(|i| sides[i].name()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chance::Chance;
    use crate::growing::Growing;
    use crate::search::{Effort, Goal};
    use crate::shape::Flank;
    use crate::{moves, start, steps};
    use quilt::table::replay;

    /// Growing that goes on from the table goes on from the same side as growing that never stopped.
    #[test]
    fn the_side_sewn_last_is_found_again_on_the_table() {
        let (mut leaning, mut compared) = (0, 0);
        for seed in 341..347 {
            let cloths = demo::frozen_heap(seed, 160).cloths();
            let heap = Heap::new(cloths.iter().map(|c| (c, vec![c.outline.clone()])), &[]);
            let wish = Wish::default();
            let target = Target::new(&wish, Goal::Size, 0.0);
            let growing = Growing::new(&wish, &heap, target.clone(), Effort::QUICK);
            let mut chance = Chance::new(seed);
            let mut state = start::start(&heap, &target, &wish, &mut chance).expect("a first patch");
            for _ in 0..20 {
                let found = growing.moves(&state, Goal::Size);
                let Some(made) = found.first() else { break };
                leaning += usize::from(matches!(made.unit.shape.flanks[0], Flank::Lean(_)));
                state = moves::take(&state, &target, &wish, made, 0.0).expect("room");
                let (table, halt) = replay(&steps::entries(state.trail.as_deref()));
                assert!(halt.is_none());
                let bench = Bench { table: &table, top: Mark(1), next_mark: Mark(state.centre.next_mark) };
                let again = centre(&bench, &state.centre.heap, &target, &wish, 0.0).expect("a convex top");
                let name = |centre: &Centre| centre.last.map(|last| centre.sides[last].name);
                assert_eq!(name(&again), name(&state.centre), "seed {seed}");
                compared += 1;
            }
        }
        assert!(leaning > 3 && compared > 60, "{leaning} of {compared} with a leaning flank at their start");
    }
}
