//! Layouts that can't be sliced from edge to edge: which seams stop short, and the order.
//!
//! Inside such a layout every line between places is a segment whose ends meet other segments. What
//! ends on a segment must be sewn before it, since the later seam crosses that end. Where the segments
//! wait for each other in a ring, as the four of a pinwheel do, one of them is sewn in two parts: from
//! one end until short of where another segment ends on it, and the open part after that. Every ring
//! must be broken; the least number of segments that does it is found by trying 1, 2, 3… Where four
//! corners meet, either line may go through: both are tried.

use super::layout::{CentreSeam, Rect, Runs, Sewn};
use super::problem::CentresProblem;
use plane::READING;

/// The most partial seams looked for.
const MOST_PARTIAL: usize = 6;

/// The most tries before a layout counts as too tangled.
const MOST_TRIES: usize = 50_000;

/// The most places where four corners meet that are tried both ways.
const MOST_CROSSES: usize = 8;

/// How far a seam stops short of what will end on it, at most: 2 inches (common practice, no
/// source).
const STOP_SHORT_IN: f64 = 2.0;

/// A line between places, as long as it goes.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Segment {
    runs: Runs,
    at: f64,
    ends: [f64; 2],
}

/// The part of a segment that stays open: from a place where another segment ends to one end.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Open {
    far: bool,
    from: f64,
}

impl Open {
    fn holds(self, at: f64) -> bool {
        if self.far { at >= self.from - READING } else { at <= self.from + READING }
    }
}

/// One segment ending on another.
#[derive(Clone, Copy, Debug)]
struct Tee {
    stem: usize,
    /// Which end of the stem.
    far_end: bool,
    bar: usize,
    /// Where on the bar.
    at: f64,
}

/// The seams of a layout in which no line goes from edge to edge, in order; `before` seams come
/// first in the whole list.
pub(super) fn seams(rects: &[Rect], set: &[usize], before: usize) -> Result<Vec<CentreSeam>, CentresProblem> {
    let whole = lines(rects, set);
    let crosses = crosses(&whole);
    let ways = 1_usize << crosses.len().min(MOST_CROSSES);
    let knots: Vec<Knot> = (0..ways).map(|mask| Knot::new(broken(&whole, &crosses, mask))).collect();
    let mut tries = MOST_TRIES;
    for most in 1..=MOST_PARTIAL {
        for knot in &knots {
            let mut open = vec![None; knot.segments.len()];
            if knot.untie(&mut open, most, &mut tries)
                && let Some(found) = knot.in_order(&open, rects, set, before)
            {
                return Ok(found);
            }
        }
    }
    Err(CentresProblem::TooTangled { most: MOST_PARTIAL })
}

/// All lines between places, each as long as it goes on.
fn lines(rects: &[Rect], set: &[usize]) -> Vec<Segment> {
    let around = Rect::around(set.iter().map(|&i| rects[i]));
    let mut lines: Vec<Segment> = Vec::new();
    for runs in [Runs::Level, Runs::Upright] {
        let way = runs.across();
        let mut edges: Vec<(f64, [f64; 2])> =
            set.iter().map(|&i| (rects[i].span(way)[1], rects[i].span(1 - way))).collect();
        edges.retain(|edge| edge.0 < around.span(way)[1] - READING);
        edges.sort_by(|a, b| {
            let near = (a.0 - b.0).abs() <= READING;
            let by_line = if near { std::cmp::Ordering::Equal } else { a.0.total_cmp(&b.0) };
            by_line.then(a.1[0].total_cmp(&b.1[0]))
        });
        for (at, [from, to]) in edges {
            match lines.last_mut() {
                Some(last)
                    if last.runs == runs
                        && (last.at - at).abs() <= READING
                        && from <= last.ends[1] + READING =>
                {
                    last.ends[1] = last.ends[1].max(to);
                }
                _ => lines.push(Segment { runs, at, ends: [from, to] }),
            }
        }
    }
    lines
}

fn goes_through(segment: &Segment, at: f64) -> bool {
    segment.ends[0] + READING < at && at < segment.ends[1] - READING
}

/// Pairs of a level and an upright line that cross where four corners meet.
fn crosses(lines: &[Segment]) -> Vec<[usize; 2]> {
    let mut found = Vec::new();
    for (i, level) in lines.iter().enumerate().filter(|(_, line)| line.runs == Runs::Level) {
        for (j, upright) in lines.iter().enumerate().filter(|(_, line)| line.runs == Runs::Upright) {
            if goes_through(level, upright.at) && goes_through(upright, level.at) {
                found.push([i, j]);
            }
        }
    }
    found
}

/// The lines, at each crossing one of the two broken: the upright one, or the level one where the
/// mask says so.
fn broken(lines: &[Segment], crosses: &[[usize; 2]], mask: usize) -> Vec<Segment> {
    let mut segments = Vec::new();
    for (i, line) in lines.iter().enumerate() {
        let mut breaks: Vec<f64> = Vec::new();
        for (k, [level, upright]) in crosses.iter().enumerate() {
            let breaks_level = k < MOST_CROSSES && mask >> k & 1 == 1;
            if breaks_level && i == *level {
                breaks.push(lines[*upright].at);
            } else if !breaks_level && i == *upright {
                breaks.push(lines[*level].at);
            }
        }
        breaks.sort_by(f64::total_cmp);
        let mut from = line.ends[0];
        for to in breaks.into_iter().chain([line.ends[1]]) {
            segments.push(Segment { ends: [from, to], ..*line });
            from = to;
        }
    }
    segments
}

/// Segments and where they end on each other. Of each segment there are two deeds: number `2 i` sews
/// it, or what of it is not left open; number `2 i + 1` closes the rest.
struct Knot {
    segments: Vec<Segment>,
    tees: Vec<Tee>,
}

impl Knot {
    fn new(segments: Vec<Segment>) -> Self {
        let mut tees = Vec::new();
        for (stem, own) in segments.iter().enumerate() {
            for far_end in [false, true] {
                let end = own.ends[usize::from(far_end)];
                let meets = |bar: &Segment| {
                    bar.runs != own.runs && (bar.at - end).abs() <= READING && goes_through(bar, own.at)
                };
                if let Some(bar) = segments.iter().position(meets) {
                    tees.push(Tee { stem, far_end, bar, at: own.at });
                }
            }
        }
        Self { segments, tees }
    }

    /// Which deed must come before which, and the tee that says so.
    fn waits(&self, open: &[Option<Open>]) -> Vec<(usize, usize, Option<Tee>)> {
        let mut waits = Vec::new();
        for &tee in &self.tees {
            let stem_open = open[tee.stem].is_some_and(|o| o.far == tee.far_end);
            let stem = 2 * tee.stem + usize::from(stem_open);
            let in_open = open[tee.bar].is_some_and(|o| o.holds(tee.at));
            waits.push((stem, 2 * tee.bar + usize::from(in_open), Some(tee)));
        }
        for (i, _) in open.iter().enumerate().filter(|(_, open)| open.is_some()) {
            waits.push((2 * i, 2 * i + 1, None));
        }
        waits
    }

    /// Opens segments until no ring is left, at most `most` more of them.
    fn untie(&self, open: &mut Vec<Option<Open>>, most: usize, tries: &mut usize) -> bool {
        let Some(ring) = ring(&self.waits(open), 2 * self.segments.len()) else { return true };
        if *tries == 0 {
            return false;
        }
        *tries -= 1;
        for tee in ring {
            for far in [true, false] {
                let before = open[tee.bar];
                let from = match before {
                    Some(o) if o.far != far || o.holds(tee.at) => continue,
                    Some(_) | None => tee.at,
                };
                let left = if before.is_none() { most.checked_sub(1) } else { Some(most) };
                let Some(left) = left else { continue };
                open[tee.bar] = Some(Open { far, from });
                if self.untie(open, left, tries) {
                    return true;
                }
                open[tee.bar] = before;
            }
        }
        false
    }

    /// Where the sewing of an open segment stops: short of the first that ends on its open part, but
    /// beyond what ends on the part that is sewn.
    fn stops_at(&self, i: usize, open: Open) -> f64 {
        let start = self.segments[i].ends[usize::from(!open.far)];
        let sewn = self.tees.iter().filter(|tee| tee.bar == i && !open.holds(tee.at)).map(|tee| tee.at);
        let distance = |at: f64| (open.from - at).abs();
        let last = sewn.chain([start]).map(distance).fold(f64::INFINITY, f64::min);
        let short = STOP_SHORT_IN.min(last / 2.0);
        if open.far { open.from - short } else { open.from + short }
    }

    /// The seams one after the other; `None` when a side of one isn't a single unit by then.
    fn in_order(
        &self,
        open: &[Option<Open>],
        rects: &[Rect],
        set: &[usize],
        before: usize,
    ) -> Option<Vec<CentreSeam>> {
        let deeds = sorted(&self.waits(open), 2 * self.segments.len())?;
        let mut units: Vec<Vec<usize>> = set.iter().map(|&part| vec![part]).collect();
        let mut seams: Vec<CentreSeam> = Vec::new();
        let mut begun = vec![0; self.segments.len()];
        for deed in deeds {
            let (i, closes) = (deed / 2, deed % 2 == 1);
            let Segment { runs, at, ends } = self.segments[i];
            let stop = open[i].map(|open| (open, self.stops_at(i, open)));
            let [from_in, to_in] = match (stop, closes) {
                (None, true) => continue,
                (None, false) => ends,
                (Some((open, stop)), _) if open.far == closes => [stop, ends[1]],
                (Some((_, stop)), _) => [ends[0], stop],
            };
            let sides = sides(rects, set, runs, at, [from_in, to_in]);
            let sewn = match stop {
                None => Sewn::Whole,
                Some(_) if closes => Sewn::Closes(begun[i]),
                Some((open, stops_at_in)) => Sewn::StopsShort {
                    stops_at_in,
                    open_at_far_end: open.far,
                    open_in: (ends[usize::from(open.far)] - stops_at_in).abs(),
                },
            };
            begun[i] = before + seams.len();
            let [first, second] = if closes { sides } else { join(&mut units, &sides)? };
            let length_in = to_in - from_in;
            seams.push(CentreSeam { first, second, runs, at_in: at, from_in, to_in, length_in, sewn });
        }
        (units.len() == 1).then_some(seams)
    }
}

/// The places on either side of a stretch.
fn sides(rects: &[Rect], set: &[usize], runs: Runs, at: f64, [from, to]: [f64; 2]) -> [Vec<usize>; 2] {
    let way = runs.across();
    let along = |i: usize| {
        let [a, b] = rects[i].span(1 - way);
        b.min(to) - a.max(from) > READING
    };
    [1, 0].map(|edge| {
        set.iter()
            .copied()
            .filter(|&i| along(i) && (rects[i].span(way)[edge] - at).abs() <= READING)
            .collect()
    })
}

/// Makes one unit of the two that lie on either side; gives them as they were.
fn join(units: &mut Vec<Vec<usize>>, sides: &[Vec<usize>; 2]) -> Option<[Vec<usize>; 2]> {
    let unit_of = |side: &[usize]| {
        let part = side.first()?;
        let unit = units.iter().position(|unit| unit.contains(part))?;
        side.iter().all(|part| units[unit].contains(part)).then_some(unit)
    };
    let (a, b) = (unit_of(&sides[0])?, unit_of(&sides[1])?);
    if a == b {
        return None;
    }
    let (first, second) = (units[a].clone(), units[b].clone());
    units[a].extend_from_slice(&second);
    units.remove(b);
    Some([first, second])
}

/// The tees of a ring of deeds that wait for each other, if there is one.
fn ring(waits: &[(usize, usize, Option<Tee>)], deeds: usize) -> Option<Vec<Tee>> {
    let mut left: Vec<&(usize, usize, Option<Tee>)> = waits.iter().collect();
    // What waits for nothing, or what nothing waits for, is in no ring.
    loop {
        let mut ends = vec![[false; 2]; deeds];
        for (before, after, _) in &left {
            ends[*before][0] = true;
            ends[*after][1] = true;
        }
        let count = left.len();
        left.retain(|(before, after, _)| ends[*before][1] && ends[*after][0]);
        if left.len() == count {
            break;
        }
    }
    // From any deed that is left, walking on comes round at last.
    let mut path: Vec<&(usize, usize, Option<Tee>)> = vec![left.first().copied()?];
    loop {
        let at = path.last()?.1;
        if let Some(begin) = path.iter().position(|wait| wait.0 == at) {
            return Some(path[begin..].iter().filter_map(|wait| wait.2).collect());
        }
        path.push(left.iter().find(|wait| wait.0 == at)?);
    }
}

/// The deeds in an order in which none waits for a later one, lowest number first.
fn sorted(waits: &[(usize, usize, Option<Tee>)], deeds: usize) -> Option<Vec<usize>> {
    let mut done = vec![false; deeds];
    let mut order = Vec::with_capacity(deeds);
    while order.len() < deeds {
        let ready = |deed: &usize| {
            !done[*deed] && waits.iter().all(|(before, after, _)| after != deed || done[*before])
        };
        let next = (0..deeds).find(ready)?;
        done[next] = true;
        order.push(next);
    }
    Some(order)
}
