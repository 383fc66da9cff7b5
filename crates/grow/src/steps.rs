//! From a trail of moves to primitive steps of the log.

use crate::choose::{self, Pick};
use crate::moves::{Move, Taken, Trail};
use crate::split::Cell;
use plane::Point;
use quilt::log::{Entry, Mark, Name, Press, Run, RunKind, Sewing, Step};

/// Everything on a trail, as entries in order.
pub(crate) fn entries(trail: Option<&Trail>) -> Vec<Entry> {
    let mut taken = Vec::new();
    let mut at = trail;
    while let Some(trail) = at {
        taken.push(&trail.taken);
        at = trail.before.as_deref();
    }
    taken.iter().rev().flat_map(|taken| of(taken)).collect()
}

fn of(taken: &Taken) -> Vec<Entry> {
    match taken {
        Taken::Start { cut, pick } => {
            let run = Some(Run { first: Mark(1), kind: RunKind::Start, ask: None });
            vec![Entry { mark: Mark(1), run, step: lay(cut, pick) }]
        }
        Taken::Add { trim, onto, first, made } => {
            let mut entries = Vec::new();
            if let Some(trim) = trim {
                let mark = Mark(first - 1);
                let run = Some(Run { first: mark, kind: RunKind::Trim, ask: None });
                entries.push(Entry { mark, run, step: trim.step() });
            }
            entries.extend(unit(*onto, *first, made));
            entries
        }
    }
}

fn lay(cut: &[Point], pick: &Pick) -> Step {
    let local = choose::patch_frame(cut).map(|frame| frame.apply_all(cut)).unwrap_or_default();
    Step::Lay { cloth: pick.cloth, at: pick.pose, cut: local }
}

/// Where a cell is cut, in the cloth's coordinates.
pub(crate) fn on_cloth(cell: &Cell, pick: &Pick) -> Vec<Point> {
    let frame = choose::patch_frame(&cell.cut);
    frame.map(|frame| pick.pose.apply_all(&frame.apply_all(&cell.cut))).unwrap_or_default()
}

/// The steps of one unit: its cells are laid and joined, then the unit is sewn on.
pub(crate) fn unit(onto: Name, first: u32, made: &Move) -> Vec<Entry> {
    let cells = &made.unit.cells;
    let shape = &made.unit.shape;
    let run = Some(Run { first: Mark(first), kind: RunKind::Piece, ask: None });
    let mut steps = Vec::with_capacity(2 * cells.len());
    let sew = |onto: Name, with: Name, slide_in: f64| {
        Step::Sew(Sewing::Join {
            onto,
            with,
            slide_in,
            allowance_in: shape.allowance,
            stop: None,
            flush: [true, true],
            press: Press::Over,
        })
    };
    let mut before = Mark(first);
    for (i, (cell, pick)) in cells.iter().zip(&made.picks).enumerate() {
        let mark = Mark(first + steps.len() as u32);
        steps.push(lay(&cell.cut, pick));
        if i > 0 {
            steps.push(sew(Name::new(before, 3), Name::new(mark, 1), 0.0));
        }
        before = mark;
    }
    steps.push(sew(onto, Name::new(Mark(first), 0), slide(made)));
    steps
        .into_iter()
        .enumerate()
        .map(|(i, step)| Entry { mark: Mark(first + i as u32), run: run.clone(), step })
        .collect()
}

/// How far the middle of the unit's seam lies beyond the middle of the side's chord.
fn slide(made: &Move) -> f64 {
    let shape = &made.unit.shape;
    let (Some(first), Some(last)) = (made.unit.cells.first(), made.unit.cells.last()) else { return 0.0 };
    let crossing = |a: Point, b: Point| plane::Line::through(a, b).and_then(|line| line.crossing(shape.seam));
    let own_start = crossing(first.cut[1], first.cut[2]);
    let own_end = crossing(last.cut[3], last.cut[0]);
    let (Some(a), Some(b)) = (own_start, own_end) else { return 0.0 };
    let middle = f64::midpoint(shape.seam.along(a), shape.seam.along(b));
    middle - made.unit.shape.chord_middle
}
