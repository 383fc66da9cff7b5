//! Trueing up the centre: the cuts that make it a polygon of a wished number of sides, what each
//! costs, and what it thins.
//!
//! An outline where a trim is due, or with a seam left open, is refused: what is left is convex.
//! Only cutting is possible, so the polygon lies inside the outline. Starting from polygons about the
//! centre with different turns, and from the outline with its smallest corners cut off, each side is
//! moved and turned by shrinking steps as long as the area kept grows; the best of all starts is
//! taken. A side that lies on the outline's own needs no cut.

use super::error::{AskError, Asked};
use super::look::{Due, due};
use super::story::told;
use crate::quilts::{At, Head};
use crate::workroom::Workroom;
use plane::{DECISION, Line, Point, Turn, clip_half_plane, polygon};
use quilt::log::{Along, Entry, Keep, Mark, Run, RunKind, Step};
use quilt::table::{Table, Top};
use quilt::wish::{Limits, Wish};
use quilt::{Place, Problem, Rule};
use std::collections::BTreeMap;

/// One cut of a trueing up.
#[derive(Clone, Debug, PartialEq)]
pub struct TrueUpCut {
    /// The step.
    pub step: Step,
    /// The same in words: from mark to mark.
    pub words: String,
    /// Square inches that it cuts off.
    pub off_in2: f64,
    /// Patches that finish thinner than the wish allows afterwards, and how wide, in inches.
    pub thins: Vec<(Mark, f64)>,
}

/// A plan for trueing up.
#[derive(Clone, Debug, PartialEq)]
pub struct TrueUp {
    /// The cuts in order.
    pub cuts: Vec<TrueUpCut>,
    /// The raw polygon that remains.
    pub outline: Vec<Point>,
    /// Share of the piece that is cut off.
    pub off_share: f64,
}

impl Workroom {
    /// The cuts that true the piece up to `sides` sides (3 to 8), keeping as much as can be.
    ///
    /// # Errors
    /// Nothing on the table; a number of sides that isn't 3 to 8, or that doesn't come out when most
    /// is kept; an outline where a trim is due, or a seam that was left open.
    pub fn plan_true_up(&mut self, quilt: &str, head: &str, sides: usize) -> Asked<TrueUp> {
        if !(3..=8).contains(&sides) {
            return Err(AskError::Nonsense {
                what: format!("a centre can be trued up to 3 to 8 sides, not {sides}"),
                hint: "Five to seven make a polygon worth bordering.".to_owned(),
            });
        }
        let wish = self.wish(quilt)?;
        let table = self.table(quilt, head)?;
        let first = self.next_mark(quilt, head)?;
        let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        if let Some(due) = due(top).into_iter().next() {
            return Err(first_do(&due, top, wish.allowance_in));
        }
        let outline = top.outline_points();
        if outline.len() < sides {
            return Err(other_count(outline.len(), sides));
        }
        let lines = best_lines(&outline, sides);
        // What a cut would hardly take off is left, unless that leaves a side too many.
        let rough = plan(&table, mark, top, &lines, first, CRUMB_IN2, &wish)?;
        let plan = if rough.outline.len() == sides {
            rough
        } else {
            plan(&table, mark, top, &lines, first, DECISION, &wish)?
        };
        if plan.outline.len() == sides {
            return Ok(plan);
        }
        Err(other_count(plan.outline.len(), sides))
    }

    /// Trues the piece up: the planned cuts are appended as one run.
    ///
    /// # Errors
    /// As [`Workroom::plan_true_up`].
    pub fn true_up(&mut self, at: &At, sides: usize) -> Asked<(Head, TrueUp)> {
        let plan = self.plan_true_up(&at.quilt, &at.head, sides)?;
        let first = self.next_mark(&at.quilt, &at.head)?;
        let run = Some(Run { first, kind: RunKind::TrueUp, ask: Some(format!("{{\"sides\":{sides}}}")) });
        let entries = (first.0..)
            .zip(&plan.cuts)
            .map(|(mark, cut)| Entry { mark: Mark(mark), run: run.clone(), step: cut.step.clone() })
            .collect::<Vec<_>>();
        Ok((self.check_and_append(at, &entries, true)?, plan))
    }
}

/// What a cut must take off to be worth making, in square inches.
const CRUMB_IN2: f64 = 0.05;

fn other_count(come_out: usize, wished: usize) -> AskError {
    AskError::CantBe {
        what: format!("trued up with most of it kept, the piece has {come_out} sides, not {wished}"),
        hint: format!("Ask for {come_out}."),
    }
}

/// What has to be done before a piece is trued up.
fn first_do(due: &Due, top: &Top, allowance_in: f64) -> AskError {
    match due {
        Due::Trim(side) => {
            let problem = Problem::at(Rule::InwardCorner, Place::Side(*side, None));
            AskError::refused(problem, Some(top), allowance_in)
        }
        Due::Close(seam) => AskError::CantBe {
            what: format!("seam {seam} is still open"),
            hint: "Close it, then true up.".to_owned(),
        },
    }
}

/// Half-planes as turn (in degrees) and distance from the middle.
type Sides = Vec<(f64, f64)>;

fn line(middle: Point, (deg, distance): (f64, f64)) -> Line {
    let inward = Turn::from_degrees(deg + 180.0);
    Line { normal: inward, at: inward.vec().dot(middle.to_vec2()) - distance }
}

fn polygon_of(middle: Point, sides: &Sides) -> Vec<Point> {
    let mut order: Vec<(f64, f64)> = sides.clone();
    order.sort_by(|a, b| a.0.total_cmp(&b.0));
    let lines: Vec<Line> = order.iter().map(|side| line(middle, *side)).collect();
    let far = 1e4;
    let square = [(-far, -far), (far, -far), (far, far), (-far, far)].map(|(x, y)| Point::new(x, y));
    lines.iter().fold(square.to_vec(), |kept, line| clip_half_plane(&kept, *line, DECISION))
}

/// Area of the polygon, less a heavy price for how far its corners stick out of the outline.
fn worth(bounds: &[Line], middle: Point, sides: &Sides) -> f64 {
    let kept = polygon_of(middle, sides);
    let out = |p: &Point| bounds.iter().map(|line| -line.inside_by(*p)).fold(0.0, f64::max);
    polygon::area(&kept) - 100.0 * kept.iter().map(out).sum::<f64>()
}

/// The outline with one corner after another cut off, the smallest first, until so many are left.
fn corners_off(outline: &[Point], count: usize, middle: Point) -> Sides {
    let mut kept = outline.to_vec();
    while kept.len() > count {
        let n = kept.len();
        let off = |i: usize| (kept[(i + 1) % n] - kept[i]).cross(kept[(i + n - 1) % n] - kept[i]);
        let least = (0..n).min_by(|&i, &j| off(i).total_cmp(&off(j)));
        kept.remove(least.unwrap_or(0));
    }
    let lines = polygon::edges(&kept).filter_map(|(a, b)| Line::through(a, b));
    lines.map(|line| (line.normal.opposite().to_degrees(), line.inside_by(middle))).collect()
}

/// The best polygon of so many sides found inside a convex outline, as its lines.
fn best_lines(outline: &[Point], count: usize) -> Vec<Line> {
    let middle = polygon::centroid(outline).unwrap_or_default();
    let bounds: Vec<Line> = polygon::edges(outline).filter_map(|(a, b)| Line::through(a, b)).collect();
    let least = bounds.iter().map(|line| line.inside_by(middle)).fold(f64::INFINITY, f64::min);
    let step = 360.0 / count as f64;
    // Regular polygons inside the largest circle about the middle.
    let apothem = least * (step / 2.0).to_radians().cos();
    let regular = |start: i32| {
        let turn = step * f64::from(start) / 12.0;
        (0..count).map(|i| (turn + step * i as f64, apothem)).collect::<Sides>()
    };
    let mut best: (f64, Sides) = (f64::NEG_INFINITY, Vec::new());
    for mut sides in (0..12).map(regular).chain([corners_off(outline, count, middle)]) {
        let mut value = worth(&bounds, middle, &sides);
        let mut reach = [12.0, least * 0.25];
        while reach[1] > 1e-4 {
            let mut better = false;
            for i in 0..sides.len() {
                for (by_deg, by_in) in
                    [(0.0, 1.0), (0.0, -1.0), (1.0, 0.0), (-1.0, 0.0), (1.0, 1.0), (-1.0, 1.0)]
                {
                    let mut tried = sides.clone();
                    tried[i].0 += by_deg * reach[0];
                    tried[i].1 += by_in * reach[1];
                    let new = worth(&bounds, middle, &tried);
                    if new > value + 1e-9 {
                        (sides, value, better) = (tried, new, true);
                    }
                }
            }
            if !better {
                reach = reach.map(|r| r / 2.0);
            }
        }
        if value > best.0 {
            best = (value, sides);
        }
    }
    best.1.iter().map(|side| line(middle, *side)).collect()
}

/// The cuts along these lines that take off at least so much.
fn plan(
    table: &Table,
    mark: Mark,
    top: &Top,
    lines: &[Line],
    first: Mark,
    least_off_in2: f64,
    wish: &Wish,
) -> Asked<TrueUp> {
    let Wish { allowance_in, limits, .. } = wish;
    let whole = polygon::area(&top.outline_points());
    let mut trial = table.clone();
    let mut cuts = Vec::new();
    for line in lines {
        let Some(piece) = trial.top(mark) else { return Err(AskError::NothingOnTable) };
        let outline = piece.outline_points();
        let off_in2 = polygon::area(&clip_half_plane(&outline, line.reversed(), DECISION));
        if off_in2 < least_off_in2 {
            continue;
        }
        let Some(along) = along(piece, *line) else { continue };
        let step = Step::Cut { top: mark, along, keep: Keep::Left };
        let number = Mark(first.0 + u32::try_from(cuts.len()).unwrap_or(0));
        let before = thin(&trial, mark, *allowance_in, limits);
        let words = told(&step, &BTreeMap::new(), &trial);
        trial.apply(number, &step).map_err(|problem| AskError::refused(problem, Some(top), *allowance_in))?;
        let thins = thin(&trial, mark, *allowance_in, limits)
            .into_iter()
            .filter(|(patch, _)| !before.iter().any(|(other, _)| other == patch))
            .collect();
        cuts.push(TrueUpCut { step, words, off_in2, thins });
    }
    let outline = trial.top(mark).map(Top::outline_points).unwrap_or_default();
    let off_share = 1.0 - polygon::area(&outline) / whole.max(1e-9);
    Ok(TrueUp { cuts, outline, off_share })
}

/// A line told from the side that it crosses on its way in.
fn along(top: &Top, line: Line) -> Option<Along> {
    top.sides().into_iter().find_map(|side| {
        let (from, to) = (line.inside_by(side.from), line.inside_by(side.to));
        // Walking round with the inside on the left, the cut starts where the walk leaves what is
        // kept.
        if from < -DECISION || to >= -DECISION {
            return None;
        }
        let own = top.line(side.bound)?;
        let at_in = side.length_in() * from.max(0.0) / (from.max(0.0) - to);
        Some(Along::From {
            side: side.name()?,
            at_in,
            turn: own.direction().inverse().then(line.direction()),
        })
    })
}

fn thin(table: &Table, mark: Mark, allowance_in: f64, limits: &Limits) -> Vec<(Mark, f64)> {
    let Some(top) = table.top(mark) else { return Vec::new() };
    top.faces()
        .values()
        .map(|face| (face.patch, polygon::least_width(&top.finished_points(face, allowance_in))))
        .filter(|(_, width)| *width < limits.thin_in)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_is_kept_whole_by_four_sides() {
        let square = plane::Region::rectangle(8.0, 8.0).outer;
        let middle = polygon::centroid(&square).unwrap();
        let lines = best_lines(&square, 4);
        let kept = lines.iter().fold(square.clone(), |kept, line| clip_half_plane(&kept, *line, DECISION));
        assert!(polygon::area(&kept) > 63.0, "{}", polygon::area(&kept));
        assert!(lines.iter().all(|line| line.inside_by(middle) > 0.0));
    }

    /// The largest triangle in a square has half its area (Klamkin's classical problem; from memory).
    #[test]
    fn the_largest_triangle_in_a_square_is_half_of_it() {
        let square = plane::Region::rectangle(8.0, 8.0).outer;
        let lines = best_lines(&square, 3);
        let kept = lines.iter().fold(square.clone(), |kept, line| clip_half_plane(&kept, *line, DECISION));
        let area = polygon::area(&kept);
        assert!((28.0..=32.001).contains(&area), "{area}");
    }
}
