//! What is left of an outline when its sides move in: the finished shape.
//!
//! Side by side, so that inward corners keep what lies beside them. Each side is a line that moves
//! to a parallel one and ends where it meets its neighbours. A side that is used up on the way
//! goes, the one used up first first, and its neighbours meet instead. Outlines run
//! counter-clockwise, in inches. Nothing is left of an outline narrower than its allowances; a
//! neck that narrow is not parted.

use super::{Face, Side, Top};
use crate::log::Bound;
use plane::{DECISION, Line, Point};

/// A side: its name, the line it lies on, and the parallel one it moves to.
type Moving = (Bound, Line, Line);

impl Top {
    /// The finished shape of a face: what will still show when every free edge has been sewn,
    /// `allowance_in` inside it. Empty when nothing will.
    #[must_use]
    pub fn finished_points(&self, face: &Face, allowance_in: f64) -> Vec<Point> {
        self.finished_sides(face.around(), allowance_in).iter().map(|side| side.from).collect()
    }

    /// What is left of a closed run of this top's lines when its free edges have moved in by
    /// `allowance_in`. A side that is swallowed has no run any more.
    #[must_use]
    pub fn finished_sides(&self, around: &[Bound], allowance_in: f64) -> Vec<Side> {
        let moving = |bound: Bound| {
            let line = self.line(bound)?;
            let moves = matches!(bound, Bound::Raw(_));
            Some((bound, line, if moves { line.inward(allowance_in) } else { line }))
        };
        finished(self.runs(around).into_iter().filter_map(|run| moving(run.bound)).collect())
    }
}

/// The sides that are left, with their ends; empty when nothing is. Of a seam's line either side
/// may be the inside.
fn finished(mut sides: Vec<Moving>) -> Vec<Side> {
    let walked = ends(&sides, |side| side.1).unwrap_or_default();
    for (side, [from, to]) in sides.iter_mut().zip(walked) {
        if side.1.along(to) < side.1.along(from) {
            (side.1, side.2) = (side.1.reversed(), side.2.reversed());
        }
    }
    while sides.len() > 2 {
        let Some((raw, moved)) = ends(&sides, |side| side.1).zip(ends(&sides, |side| side.2)) else { break };
        let run = |line: Line, [from, to]: [Point; 2]| line.along(to) - line.along(from);
        let used_up =
            sides.iter().zip(raw.iter().zip(&moved)).enumerate().filter_map(|(i, (side, (raw, moved)))| {
                let (before, after) = (run(side.1, *raw), run(side.2, *moved));
                // The share of the way after which nothing is left of it.
                (after <= DECISION).then(|| (before / (before - after), i))
            });
        match used_up.min_by(|a, b| a.0.total_cmp(&b.0)) {
            Some((_, i)) => drop(sides.remove(i)),
            None => {
                let left = sides.iter().zip(moved);
                return left.map(|(side, [from, to])| Side { bound: side.0, from, to }).collect();
            }
        }
    }
    Vec::new()
}

/// Where each side starts and ends; `None` when two neighbours are parallel. At a corner the lower
/// name goes first, so that two shapes that share it get the same bits.
fn ends(sides: &[Moving], line: impl Fn(&Moving) -> Line) -> Option<Vec<[Point; 2]>> {
    let after = sides.iter().cycle().skip(1);
    let ends = sides.iter().zip(after).map(|(a, b)| {
        let (first, second) = if a.0 <= b.0 { (a, b) } else { (b, a) };
        line(first).crossing(line(second))
    });
    let ends: Vec<Point> = ends.collect::<Option<_>>()?;
    let starts = ends.last().into_iter().chain(&ends);
    Some(starts.zip(&ends).map(|(from, to)| [*from, *to]).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::log::{Mark, Name};
    use plane::{Region, clip_half_plane, polygon};

    /// Numbers from 0 to 1, the same ones every time.
    fn shares() -> impl Iterator<Item = f64> {
        let mut state = 1_u64;
        std::iter::repeat_with(move || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 11) as f64 / (1_u64 << 53) as f64
        })
    }

    /// The oracle: a convex shape is what all of its moved half-planes leave of it.
    #[test]
    fn of_a_convex_outline_its_half_planes_leave_the_same() {
        let mut shares = shares();
        let mut share = || shares.next().unwrap_or_default();
        let (mut swallowed, mut nothing) = (0, 0);
        for _ in 0..2_000 {
            let points: Vec<Point> = (0..12).map(|_| Point::new(share() * 3.0, share() * 2.0)).collect();
            let outline = polygon::hull(&points);
            let sides: Vec<Moving> = polygon::edges(&outline)
                .zip(0..)
                .map(|((a, b), no)| {
                    let bound = Bound::Raw(Name::new(Mark(1), no));
                    let line = Line::through(a, b).unwrap();
                    // Some sides stay and are walked against their line, as seams are.
                    if share() < 0.2 {
                        (bound, line.reversed(), line.reversed())
                    } else {
                        (bound, line, line.inward(share()))
                    }
                })
                .collect();
            let moved = sides.iter().filter(|side| side.1 != side.2);
            let clipped = moved.fold(outline, |points, side| clip_half_plane(&points, side.2, DECISION));
            let left: Vec<Point> = finished(sides.clone()).iter().map(|side| side.from).collect();
            assert!((polygon::area(&clipped) - polygon::area(&left)).abs() < 1e-6, "{clipped:?} {left:?}");
            nothing += i32::from(left.is_empty());
            swallowed += i32::from(!left.is_empty() && left.len() < sides.len());
        }
        assert!(swallowed > 200 && nothing > 50, "{swallowed} {nothing}");
    }

    /// An L with arms an inch wide, each side free: both arms stay, half an inch wide. Half-planes
    /// would leave the elbow alone.
    #[test]
    fn an_inward_corner_keeps_what_lies_beside_it() {
        let ell = [(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (1.0, 1.0), (1.0, 3.0), (0.0, 3.0)];
        let cut = ell.map(|(x, y)| Point::new(x, y));
        let top = Top::from_patch(Mark(1), &cut).unwrap();
        let left = top.finished_points(&top.faces()[&Name::new(Mark(1), 0)], 0.25);
        let wanted = [(0.25, 0.25), (3.75, 0.25), (3.75, 0.75), (0.75, 0.75), (0.75, 2.75), (0.25, 2.75)];
        assert!((polygon::area(&left) - (3.5 * 0.5 + 0.5 * 2.0)).abs() < 1e-12, "{left:?}");
        assert_eq!(left.len(), 6);
        assert!(wanted.iter().all(|&(x, y)| left.iter().any(|p| p.distance(Point::new(x, y)) < 1e-12)));
    }

    #[test]
    fn nothing_is_left_of_what_the_allowances_use_up() {
        let top = Top::from_patch(Mark(1), &Region::rectangle(4.0, 0.4).outer).unwrap();
        assert_eq!(top.finished_points(&top.faces()[&Name::new(Mark(1), 0)], 0.25), []);
    }
}
