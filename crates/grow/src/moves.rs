//! Taking a move: the centre after it, and the trail that leads there.

use crate::centre::{Along, Centre, Placed, Side};
use crate::choose::{self, Pick};
use crate::look;
use crate::shape::Flank;
use crate::split::Unit;
use crate::steps;
use crate::target::Target;
use crate::trim::Trim;
use plane::Line;
use quilt::log::{Mark, Name};
use quilt::wish::Wish;
use std::sync::Arc;

/// A unit with its cloths: what could be done next.
#[derive(Clone, Debug)]
pub(crate) struct Move {
    /// A trim that goes before, with the centre after it.
    pub(crate) trim: Option<(Trim, Box<Centre>)>,
    pub(crate) unit: Unit,
    pub(crate) picks: Vec<Pick>,
    /// Shape + look + fit.
    pub(crate) cost: f64,
    /// How alike its own scraps are, before weighting.
    pub(crate) beside: f64,
    /// What it is worth that asked-for cloth is used.
    pub(crate) asked: f64,
}

/// A move taken, with the names it gave, and what was done before it.
#[derive(Debug)]
pub(crate) struct Trail {
    pub(crate) taken: Taken,
    pub(crate) before: Option<Arc<Trail>>,
}

/// What was done.
#[derive(Clone, Debug)]
pub(crate) enum Taken {
    /// The first patch.
    Start { cut: Vec<plane::Point>, pick: Pick },
    /// A unit sewn onto the side of this name; its first step has this mark.
    Add { trim: Option<Trim>, onto: Name, first: u32, made: Box<Move> },
}

/// A centre and how it came about.
#[derive(Clone, Debug)]
pub(crate) struct State {
    pub(crate) centre: Centre,
    pub(crate) trail: Option<Arc<Trail>>,
}

/// Steps that a unit of so many cells takes: each is laid, and sewn to the one before or the centre.
pub(crate) const fn steps_of(cells: usize) -> u32 {
    2 * cells as u32
}

/// The state after a move.
pub(crate) fn take(
    state: &State,
    target: &Target,
    wish: &Wish,
    made: &Move,
    sparks_turn_deg: f64,
) -> Option<State> {
    let mut made = made.clone();
    let mut trimmed = None;
    let mut centre = made.trim.take().map_or_else(
        || state.centre.clone(),
        |(trim, after)| {
            trimmed = Some(trim);
            *after
        },
    );
    for (cell, pick) in made.unit.cells.iter().zip(&mut made.picks) {
        let index = choose::settle(&centre, wish, cell, pick)?;
        centre.heap.cut(pick.group, index, &steps::on_cloth(cell, pick));
    }
    let first = centre.next_mark;
    let onto = centre.sides[made.unit.shape.side].name;
    let placed_from = centre.placed.len();
    for (cell, pick) in made.unit.cells.iter().zip(&made.picks) {
        place(&mut centre, target, cell, pick, sparks_turn_deg);
    }
    seams(&mut centre, &made.unit);
    outline(&mut centre, &made.unit, first, placed_from)?;
    centre.next_mark = first + steps_of(made.unit.cells.len());
    centre.cost += made.cost * made.unit.cells.len() as f64;
    let before = state.trail.clone();
    let taken = Taken::Add { trim: trimmed, onto, first, made: Box::new(made) };
    Some(State { centre, trail: Some(Arc::new(Trail { taken, before })) })
}

fn place(centre: &mut Centre, target: &Target, cell: &crate::split::Cell, pick: &Pick, sparks_turn_deg: f64) {
    let group = &centre.heap.groups()[pick.group];
    let placed = Placed {
        shape: cell.finished.into(),
        centroid: cell.centroid,
        area: cell.area,
        share: target.share(cell.centroid - centre.middle),
        group: pick.group,
        print: group.print,
        lab: group.lab,
        quick: group.quick,
    };
    if let Some(i) = look::spark_at(
        target,
        cell.centroid - centre.middle,
        cell.area.sqrt() * look::SPARK_REACH,
        sparks_turn_deg,
    ) {
        centre.sparks |= 1 << i;
    }
    centre.count(&placed);
    centre.cut_area += cell.cut_area;
    centre.placed.push(placed);
}

/// Counts the new seams' directions and what is trimmed off the flanks.
fn seams(centre: &mut Centre, unit: &Unit) {
    let shape = &unit.shape;
    let [start, end] = shape.flank_lines;
    if let (Some(a), Some(b)) = (start.crossing(shape.seam), end.crossing(shape.seam)) {
        centre.count_seam(a, b);
    }
    for join in &unit.joins {
        if let (Some(a), Some(b)) = (join.crossing(shape.seam), join.crossing(shape.outer)) {
            centre.count_seam(a, b);
        }
    }
    let depth = shape.depth + 2.0 * shape.allowance;
    centre.trimmed_area += 2.0 * crate::shape::OVERHANG_IN * depth;
}

/// The outline after a unit is sewn on.
fn outline(centre: &mut Centre, unit: &Unit, first: u32, placed_from: usize) -> Option<()> {
    let shape = &unit.shape;
    let (side, n) = (shape.side, centre.sides.len());
    let s = shape.allowance;
    let last = first + steps_of(unit.cells.len()) - 2;
    let last_lay = if unit.cells.len() == 1 { first } else { last - 1 };
    let count = unit.cells.len();
    let new_side = |name: Name, line: Line, along: Vec<Along>| Side { name, line, along };
    // Along the outer edge lie the cells, from the side's start to its end.
    let rail = shape.outer.inward(s);
    let cuts: Vec<f64> =
        unit.joins.iter().filter_map(|join| join.crossing(rail)).map(|p| rail.along(p)).collect();
    let far = |at: Option<&f64>, or: f64| at.copied().unwrap_or(or);
    let along = (0..count)
        .map(|i| Along {
            from: if i == 0 { f64::NEG_INFINITY } else { far(cuts.get(i - 1), f64::NEG_INFINITY) },
            to: far(cuts.get(i), f64::INFINITY),
            placed: placed_from + i,
        })
        .collect();
    let outer = new_side(Name::new(Mark(first), 2), shape.outer, along);
    let whole = |placed| vec![Along { from: f64::NEG_INFINITY, to: f64::INFINITY, placed }];
    let mut before = centre.sides[(side + n - 1) % n].clone();
    let mut after = centre.sides[(side + 1) % n].clone();
    let mut made = Vec::with_capacity(3);
    match shape.flanks[0] {
        Flank::Flush => extend(&mut before, shape.seam, s, placed_from, true)?,
        Flank::Lean(_) => {
            made.push(new_side(Name::new(Mark(first), 1), shape.flank_lines[0], whole(placed_from)));
        }
    }
    made.push(outer);
    match shape.flanks[1] {
        Flank::Flush => extend(&mut after, shape.seam, s, placed_from + count - 1, false)?,
        Flank::Lean(_) => {
            let name = Name::new(Mark(last_lay), 3);
            made.push(new_side(name, shape.flank_lines[1], whole(placed_from + count - 1)));
        }
    }
    let (before_at, after_at) = ((side + n - 1) % n, (side + 1) % n);
    centre.sides[before_at] = before;
    centre.sides[after_at] = after;
    let outer_at = side + usize::from(matches!(shape.flanks[0], Flank::Lean(_)));
    centre.sides.splice(side..=side, made);
    centre.last = Some(outer_at);
    Some(())
}

/// A neighbouring side goes on along the new piece: at its end, or at its start.
fn extend(side: &mut Side, seam: Line, allowance: f64, placed: usize, at_end: bool) -> Option<()> {
    let rail = side.line.inward(allowance);
    let at = rail.along(rail.crossing(seam)?);
    if at_end {
        if let Some(along) = side.along.last_mut() {
            along.to = at;
        }
        side.along.push(Along { from: at, to: f64::INFINITY, placed });
    } else {
        if let Some(along) = side.along.first_mut() {
            along.from = at;
        }
        side.along.insert(0, Along { from: f64::NEG_INFINITY, to: at, placed });
    }
    Some(())
}
