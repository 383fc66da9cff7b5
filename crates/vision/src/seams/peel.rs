//! Taking patches off again until the known outline is left.

use super::ditch::{Ditch, Ditches};
use super::{Grown, NewPatch, fit};
use plane::{Line, Point, polygon};

/// Most that corners of what is left lie off the known ones, root of the mean square, in inches.
const MOST_OFF_IN: f64 = 0.12;
/// Area that may lack or be too much before an outline isn't tried, as a share.
const AREA_OFF: f64 = 0.03;
/// Most patches that are taken off.
const MOST_PATCHES: usize = 16;
/// Most states that are looked at.
const MOST_STATES: usize = 150;
/// Seams farther apart than this are two, in inches.
const APART_IN: f64 = 0.2;
/// Two lines are one when they lie nearer than this at the side's ends, in inches.
const ONE_IN: f64 = 0.05;

/// A state of the search: the lines of the outline, and what has been taken off, last sewn first.
struct State {
    ring: Vec<Line>,
    off: Vec<NewPatch>,
}

/// Every way found, with how well its seams show.
pub(super) fn ways(
    ditches: &Ditches,
    ring: Vec<Line>,
    known: &[Point],
    allowance_in: f64,
) -> Vec<(f64, Grown)> {
    let wanted = polygon::area(known);
    let mut found = Vec::new();
    let mut seen: Vec<(Vec<Line>, f64)> = Vec::new();
    let mut states = 0;
    let mut looked: Vec<([Line; 5], Vec<Ditch>)> = Vec::new();
    let mut open = vec![State { ring, off: Vec::new() }];
    while let Some(state) = open.pop() {
        // The same outline may be come to in a better way.
        let shows = shows(&state.off);
        match seen.iter_mut().find(|(ring, _)| alike(ring, &state.ring)) {
            Some((_, best)) if *best >= shows => continue,
            Some((_, best)) => *best = shows,
            None => seen.push((state.ring.clone(), shows)),
        }
        let corners = corners(&state.ring);
        let area = corners.as_deref().map_or(0.0, polygon::area);
        let Some(corners) = corners.filter(|_| area > (1.0 - AREA_OFF) * wanted) else { continue };
        if area < (1.0 + AREA_OFF) * wanted {
            found.extend(matches(&corners, known, &state.off));
        }
        states += 1;
        if state.off.len() >= MOST_PATCHES || states >= MOST_STATES {
            continue;
        }
        let mut next: Vec<(f64, State)> = Vec::new();
        for side in 0..state.ring.len() {
            let around = around(&state.ring, side);
            let ditches = match looked.iter().find(|(other, _)| alike(other, &around)) {
                Some((_, ditches)) => ditches.clone(),
                None => {
                    let ditches = ditches.inside(&state.ring, side);
                    looked.push((around, ditches.clone()));
                    ditches
                }
            };
            for ditch in &ditches {
                if let Some(peeled) = without(&state, side, *ditch, allowance_in) {
                    next.push((promise(&peeled, &ditches), peeled));
                }
            }
        }
        // The most promising is looked at first: it comes last on the stack.
        next.sort_by(|a, b| a.0.total_cmp(&b.0));
        open.extend(next.into_iter().map(|(_, state)| state));
    }
    found
}

/// How well the seams of what was taken off show.
fn shows(off: &[NewPatch]) -> f64 {
    off.iter().map(|patch| patch.shows).sum()
}

/// How promising it is to go on without the patch taken off last. One whose seam lies farther in than
/// another that shows comes last: it leads to the same outline and takes two patches for one.
fn promise(state: &State, inside: &[Ditch]) -> f64 {
    let Some(patch) = state.off.last() else { return 0.0 };
    let middle = patch.outline[2].midpoint(patch.outline[3]);
    let skipped = |other: &&Ditch| other.shows > 0.0 && other.line.inside_by(middle) > APART_IN;
    patch.shows - if inside.iter().any(|other| skipped(&other)) { 1.0 } else { 0.0 }
}

/// A side and its two neighbours each way: all that decides which seams are found inside it.
fn around(ring: &[Line], side: usize) -> [Line; 5] {
    let n = ring.len();
    [3, 4, 5, 6, 7].map(|k| ring[(side + 5 * n - 5 + k) % n])
}

fn alike(one: &[Line], other: &[Line]) -> bool {
    let near = |a: &Line, b: &Line| (a.at - b.at).abs() < ONE_IN && a.turn_sine(*b).abs() < 0.01;
    one.len() == other.len() && one.iter().zip(other).all(|(a, b)| near(a, b) && a.turn_cosine(*b) > 0.0)
}

/// The corner at the start of each side.
fn corners(ring: &[Line]) -> Option<Vec<Point>> {
    let n = ring.len();
    (0..n).map(|i| ring[(i + n - 1) % n].crossing(ring[i])).collect()
}

/// A state without the patch outside a seam.
fn without(state: &State, side: usize, ditch: Ditch, allowance_in: f64) -> Option<State> {
    let n = state.ring.len();
    let (before, after) = (state.ring[(side + n - 1) % n], state.ring[(side + 1) % n]);
    let outer = state.ring[side];
    let outline = vec![
        before.crossing(outer)?,
        outer.crossing(after)?,
        after.crossing(ditch.line)?,
        ditch.line.crossing(before)?,
    ];
    if polygon::area(&outline) <= 0.0 {
        return None;
    }
    let mut ring = state.ring.clone();
    ring[side] = ditch.line.inward(-allowance_in);
    let mut off = state.off.clone();
    off.push(NewPatch { side, seam: ditch.line, outer, outline, ditch: ditch.depth, shows: ditch.shows });
    Some(State { ring, off })
}

/// Each turn by which what is left has the known corners.
fn matches(corners: &[Point], known: &[Point], off: &[NewPatch]) -> Vec<(f64, Grown)> {
    let n = known.len();
    if corners.len() != n {
        return Vec::new();
    }
    let score = shows(off);
    (0..n)
        .filter_map(|shift| {
            // Known corner k is corner k + shift here.
            let here: Vec<Point> = (0..n).map(|k| corners[(k + shift) % n]).collect();
            let (pose, off_in) = fit::laid(known, &here).filter(|(_, off_in)| *off_in < MOST_OFF_IN)?;
            let renamed = |patch: &NewPatch| NewPatch { side: (patch.side + n - shift) % n, ..patch.clone() };
            let patches = off.iter().rev().map(renamed).collect();
            Some((score, Grown { pose, patches, unknown: Vec::new(), off_in, colours_off: 0.0 }))
        })
        .collect()
}
