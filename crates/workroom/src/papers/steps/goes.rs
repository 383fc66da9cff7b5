//! Primitive steps as what a maker does at one go: cut what a piece or a unit takes, sew it together, and sew it
//! on.
//!
//! Steps are gathered by the top that they build. A go ends with the seam onto a top that has been shown
//! already; what is built beside it and stays small is part of that go. Trims wait for the seam that they make
//! ready, unless another gesture of the maker's follows or there are several.

use quilt::log::{Along, Entry, Keep, Mark, Name, RunKind, Sewing, Step};
use quilt::table::Table;
use std::collections::{BTreeMap, BTreeSet};

/// A unit of so many patches is sewn on as one; more is a centre of its own.
const UNIT_MOST: usize = 6;
/// So many trims on end are a go of their own.
const TRIMS_ON_END: usize = 3;

/// What is done at one go: places in the log, in their order.
pub(super) type Go = Vec<usize>;

/// The goes of a log, in the order of work. Decisions and notes are in none.
pub(super) fn goes(entries: &[Entry]) -> Vec<Go> {
    let mut gathering = Gathering { roots: roots(entries), entries, ..Gathering::default() };
    let mut table = Table::new();
    for (at, entry) in entries.iter().enumerate() {
        gathering.take(at, entry, &table);
        if table.apply_entry(entry).is_err() {
            break;
        }
    }
    // What waits on a top that has been shown is the last go; a lone first patch is one too.
    let waiting = std::mem::take(&mut gathering.waiting);
    for (top, steps) in waiting {
        if !steps.is_empty() && (gathering.shown.contains(&top) || gathering.done.is_empty()) {
            gathering.done.push(steps);
        }
    }
    gathering.done
}

/// The tops that grow patch by patch: centres. Strips of rings and borders never are.
fn roots(entries: &[Entry]) -> BTreeSet<Mark> {
    let mut table = Table::new();
    let mut roots = BTreeSet::new();
    for entry in entries {
        if let Step::Sew(Sewing::Join { with, .. }) = &entry.step
            && !is_strips(entry)
            && let Some(top) = table.top_with_side(*with)
            && table.top(top).is_some_and(|found| found.faces().len() > UNIT_MOST)
        {
            roots.insert(top);
        }
        if table.apply_entry(entry).is_err() {
            break;
        }
    }
    roots.extend(table.tops().iter().filter(|(_, top)| top.faces().len() > 1).map(|(mark, _)| *mark));
    roots
}

fn is_strips(entry: &Entry) -> bool {
    let kind = entry.run.as_ref().map(|run| run.kind);
    matches!(
        kind,
        Some(RunKind::Ring | RunKind::Border | RunKind::SquareUp | RunKind::StripSet | RunKind::PutIn)
    )
}

#[derive(Default)]
struct Gathering<'a> {
    entries: &'a [Entry],
    roots: BTreeSet<Mark>,
    /// Tops that some go has ended with.
    shown: BTreeSet<Mark>,
    /// What was done on each top since.
    waiting: BTreeMap<Mark, Go>,
    done: Vec<Go>,
}

impl Gathering<'_> {
    fn take(&mut self, at: usize, entry: &Entry, table: &Table) {
        match &entry.step {
            Step::Lay { .. } => {
                self.waiting.entry(entry.mark).or_default().push(at);
            }
            Step::Sew(Sewing::Join { onto, with, .. }) => {
                let tops = [onto, with].map(|side| table.top_with_side(*side));
                let [Some(onto), Some(with)] = tops else { return };
                self.sewn(at, onto, &[with]);
            }
            Step::Sew(Sewing::Frame { strips, .. }) => {
                let Some(onto) = strips.first().and_then(|strip| table.top_with_side(strip.onto)) else {
                    return;
                };
                let with: Vec<Mark> =
                    strips.iter().filter_map(|strip| table.top_with_side(strip.with)).collect();
                self.shown.insert(onto);
                self.sewn(at, onto, &with);
            }
            Step::Sew(Sewing::Close { seam }) => {
                let top = table.tops().iter().find(|(_, top)| top.seams().contains_key(seam));
                if let Some((top, _)) = top {
                    self.sewn(at, *top, &[]);
                }
            }
            Step::Cut { top, keep: Keep::Both, .. } => {
                self.wait(*top, at);
                if self.shown.contains(top) {
                    self.shown.insert(entry.mark);
                    self.flush(*top);
                }
            }
            Step::Cut { top, .. }
            | Step::Measure { top, .. }
            | Step::Turn { top, .. }
            | Step::Aside { top } => {
                self.wait(*top, at);
                if matches!(entry.step, Step::Aside { .. }) {
                    self.flush(*top);
                }
            }
            Step::Choose(_) | Step::Note(_) => {}
        }
    }

    /// A seam onto a top: it ends a go if the top has been shown, or grows.
    fn sewn(&mut self, at: usize, onto: Mark, with: &[Mark]) {
        let shows = |top: &Mark| self.shown.contains(top) || self.roots.contains(top);
        let ends = shows(&onto) || with.iter().any(shows);
        if ends && self.trims_stand_alone(onto, at) {
            self.flush(onto);
        }
        // What is done on a part that has been shown is told on that part, before it is sewn on.
        for top in with {
            if self.shown.contains(top) {
                self.flush(*top);
            }
        }
        let mut steps = self.waiting.remove(&onto).unwrap_or_default();
        steps.extend(with.iter().flat_map(|top| self.waiting.remove(top).unwrap_or_default()));
        steps.sort_unstable();
        steps.push(at);
        if ends {
            self.shown.insert(onto);
            self.done.push(steps);
        } else {
            self.waiting.insert(onto, steps);
        }
    }

    /// Whether what waits on a top is better told by itself than before this seam.
    fn trims_stand_alone(&self, top: Mark, at: usize) -> bool {
        let Some(steps) = self.waiting.get(&top).filter(|_| self.shown.contains(&top)) else { return false };
        let run = |i: usize| self.entries.get(i).and_then(|entry| entry.run.as_ref()).map(|run| run.first);
        !steps.is_empty() && (steps.len() >= TRIMS_ON_END || steps.iter().any(|i| run(*i) != run(at)))
    }

    fn wait(&mut self, top: Mark, at: usize) {
        if self.trims_stand_alone(top, at)
            && self.waiting.get(&top).is_some_and(|steps| steps.len() < TRIMS_ON_END)
        {
            self.flush(top);
        }
        self.waiting.entry(top).or_default().push(at);
    }

    fn flush(&mut self, top: Mark) {
        if let Some(steps) = self.waiting.remove(&top).filter(|steps| !steps.is_empty()) {
            self.done.push(steps);
        }
    }
}

/// The line of a cut across a top, from where it comes onto it to where it leaves.
pub(super) fn across(table: &Table, top: Mark, along: Along) -> Option<[plane::Point; 2]> {
    let top = table.top(top)?;
    let line = |side: Name| top.line(quilt::log::Bound::Raw(side));
    let line = match along {
        Along::Side(side) => line(side)?,
        Along::From { side, at_in, turn } => {
            let start = top.sides().into_iter().find(|other| other.name() == Some(side))?.from;
            let own = line(side)?;
            plane::Line::from_point(start + own.unit() * at_in, own.direction().then(turn))
        }
    };
    let mut met: Vec<f64> = Vec::new();
    for side in top.sides() {
        let (from, to) = (line.inside_by(side.from), line.inside_by(side.to));
        if (from > 0.0) != (to > 0.0) {
            met.push(line.along(side.from.lerp(side.to, from / (from - to))));
        } else if from.abs() < plane::READING && to.abs() < plane::READING {
            met.extend([line.along(side.from), line.along(side.to)]);
        }
    }
    let (low, high) = met.iter().fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(*at), high.max(*at)));
    (high - low > plane::READING).then(|| [line.point_at(low), line.point_at(high)])
}
