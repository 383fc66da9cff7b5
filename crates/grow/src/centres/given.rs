//! A layout that the maker gives: whether it can be sewn by full straight seams, and in which order.
//!
//! A layout can be sliced when some line from edge to edge cuts no rectangle, and both parts can be
//! sliced. What is left where no line does is sewn with partial seams, each named and counted.

use super::layout::{CentreSeam, Rect, Runs, Sewn};
use super::partial;
use super::problem::CentresProblem;
use plane::READING;
use serde::Serialize;

/// How a layout can be sewn.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// Whether it can be sliced from edge to edge: full straight seams only.
    pub sliceable: bool,
    /// Whether it can be sewn in rows, or in columns, from edge to edge.
    pub in_rows: bool,
    /// Whether it can be sewn one piece at a time, each onto all that was sewn before.
    pub one_at_a_time: bool,
    /// How many seams must stop short and be closed later.
    pub partial_seams: usize,
    /// The seams in order; units are places of the layout, from 0.
    pub seams: Vec<CentreSeam>,
}

/// Judges a layout.
///
/// # Errors
/// Places that overlap or leave a gap, with the place; a layout too tangled to look through.
pub fn judge(rects: &[Rect]) -> Result<Judged, CentresProblem> {
    check_tiling(rects)?;
    let all: Vec<usize> = (0..rects.len()).collect();
    let mut seams = Vec::new();
    order(rects, &all, &mut seams)?;
    let short = |seam: &&CentreSeam| matches!(seam.sewn, Sewn::StopsShort { .. });
    let partial_seams = seams.iter().filter(short).count();
    Ok(Judged {
        sliceable: is_sliceable(rects, &all),
        in_rows: in_bands(rects, &all, Runs::Level) || in_bands(rects, &all, Runs::Upright),
        one_at_a_time: one_at_a_time(rects, all),
        partial_seams,
        seams,
    })
}

/// Whether rectangles that tile a rectangle can be sliced apart from edge to edge.
#[must_use]
pub fn can_be_sliced(rects: &[Rect]) -> bool {
    is_sliceable(rects, &(0..rects.len()).collect::<Vec<_>>())
}

/// Whether rectangles that tile a rectangle can be sewn one at a time. A piece that spans a whole side
/// can always come last: taking it off leaves no other piece further from spanning one.
#[must_use]
pub fn can_be_sewn_one_at_a_time(rects: &[Rect]) -> bool {
    one_at_a_time(rects, (0..rects.len()).collect())
}

fn is_sliceable(rects: &[Rect], set: &[usize]) -> bool {
    set.len() < 2
        || full_cut(rects, set)
            .is_some_and(|(_, _, [low, high])| is_sliceable(rects, &low) && is_sliceable(rects, &high))
}

fn one_at_a_time(rects: &[Rect], mut set: Vec<usize>) -> bool {
    while set.len() > 1 {
        let around = Rect::around(set.iter().map(|&i| rects[i]));
        let spans = |rect: &Rect, way: usize| {
            let (own, whole) = (rect.span(way), around.span(way));
            (own[0] - whole[0]).abs() <= READING && (own[1] - whole[1]).abs() <= READING
        };
        let last = |&i: &usize| {
            (0..2).any(|way| {
                let (own, whole) = (rects[i].span(way), around.span(way));
                let at_edge = (own[0] - whole[0]).abs() <= READING || (own[1] - whole[1]).abs() <= READING;
                spans(&rects[i], 1 - way) && at_edge
            })
        };
        let Some(at) = set.iter().position(last) else { return false };
        set.remove(at);
    }
    true
}

/// Whether all fall into bands from edge to edge, cut across one by one.
fn in_bands(rects: &[Rect], set: &[usize], runs: Runs) -> bool {
    let way = runs.across();
    let Some(from) = set.iter().map(|&i| rects[i].span(way)[0]).min_by(f64::total_cmp) else { return true };
    let (band, rest): (Vec<usize>, Vec<usize>) =
        set.iter().partition(|&&i| (rects[i].span(way)[0] - from).abs() <= READING);
    let to = rects[band[0]].span(way)[1];
    let even = band.iter().all(|&i| (rects[i].span(way)[1] - to).abs() <= READING);
    even && rest.iter().all(|&i| rects[i].span(way)[0] >= to - READING) && in_bands(rects, &rest, runs)
}

/// A cut from edge to edge, with what lies on either side. The last level one comes first, so that
/// rows are joined from below.
type FullCut = (Runs, f64, [Vec<usize>; 2]);

fn full_cut(rects: &[Rect], set: &[usize]) -> Option<FullCut> {
    [Runs::Level, Runs::Upright].into_iter().find_map(|runs| {
        let way = runs.across();
        let mut ends: Vec<f64> = set.iter().map(|&i| rects[i].span(way)[1]).collect();
        ends.sort_by(|a, b| b.total_cmp(a));
        ends.into_iter().find_map(|at| {
            let (low, high): (Vec<usize>, Vec<usize>) =
                set.iter().partition(|&&i| rects[i].span(way)[1] <= at + READING);
            let clean = high.iter().all(|&i| rects[i].span(way)[0] >= at - READING);
            (clean && !high.is_empty()).then_some((runs, at, [low, high]))
        })
    })
}

/// The seams in order, units first.
pub(super) fn order(
    rects: &[Rect],
    set: &[usize],
    seams: &mut Vec<CentreSeam>,
) -> Result<(), CentresProblem> {
    if set.len() < 2 {
        return Ok(());
    }
    let Some((runs, at, [low, high])) = full_cut(rects, set) else {
        let found = partial::seams(rects, set, seams.len())?;
        seams.extend(found);
        return Ok(());
    };
    order(rects, &low, seams)?;
    order(rects, &high, seams)?;
    let [from, to] = Rect::around(set.iter().map(|&i| rects[i])).span(1 - runs.across());
    seams.push(CentreSeam {
        first: low,
        second: high,
        runs,
        at_in: at,
        from_in: from,
        to_in: to,
        length_in: to - from,
        sewn: Sewn::Whole,
    });
    Ok(())
}

/// Refuses places that overlap, or that leave part of the rectangle around them empty.
fn check_tiling(rects: &[Rect]) -> Result<(), CentresProblem> {
    let least = READING * READING;
    for (i, a) in rects.iter().enumerate() {
        let sound = [a.x_in, a.y_in, a.width_in, a.height_in].iter().all(|value| value.is_finite());
        for value in [a.width_in, a.height_in] {
            let value = if sound { value } else { f64::NAN };
            super::choice::within("size of a place", value, [2.0 * READING, quilt::length::MOST_IN])?;
        }
        for (j, b) in rects[..i].iter().enumerate() {
            let shared = |way: usize| a.span(way)[1].min(b.span(way)[1]) - a.span(way)[0].max(b.span(way)[0]);
            let (x, y) = (shared(0), shared(1));
            if x > READING && y > READING && x * y > least {
                let area_sq_in = x * y;
                return Err(CentresProblem::PlacesOverlap { first: j + 1, second: i + 1, area_sq_in });
            }
        }
    }
    let around = Rect::around(rects.iter().copied());
    let area_sq_in = around.area_sq_in() - rects.iter().map(Rect::area_sq_in).sum::<f64>();
    if area_sq_in > READING * (around.width_in + around.height_in) {
        let [x_in, y_in] = first_gap(rects, around);
        return Err(CentresProblem::PlacesGap { area_sq_in, x_in, y_in });
    }
    Ok(())
}

/// The lowest, then leftmost, crossing of edges with nothing right above it.
fn first_gap(rects: &[Rect], around: Rect) -> [f64; 2] {
    let edges = |way: usize| {
        let mut edges: Vec<f64> = rects.iter().flat_map(|rect| rect.span(way)).collect();
        edges.push(around.span(way)[0]);
        edges.sort_by(f64::total_cmp);
        edges
    };
    let covered = |x: f64, y: f64| {
        let inside = |rect: &Rect, way: usize, at: f64| rect.span(way)[0] < at && at < rect.span(way)[1];
        rects.iter().any(|rect| inside(rect, 0, x) && inside(rect, 1, y))
    };
    let xs = edges(0);
    for y in edges(1) {
        for &x in &xs {
            let within = x < around.span(0)[1] - 3.0 * READING && y < around.span(1)[1] - 3.0 * READING;
            if within && !covered(x + 1.5 * READING, y + 1.5 * READING) {
                return [x, y];
            }
        }
    }
    [around.x_in, around.y_in]
}
