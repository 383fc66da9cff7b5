//! One card as plain values: patches to cut, what to do in which order, what to press.

use super::act::{Act, Called, Ironed, Slide};
use super::goes::{Go, across};
use super::scraps::{CutOut, Scraps};
use crate::asks::{Asked, marks, told};
use crate::papers::{Hand, PapersWish};
use plane::{Point, polygon};
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Bound, End, Entry, Keep, Mark, Name, RunKind, Sewing, Step};
use quilt::marks::{MarkOn, RulerLine, letter};
use quilt::table::{Table, Top};
use std::collections::{BTreeMap, BTreeSet};

/// A slide less than this is none, in inches.
const SLIDE_IN: f64 = 1.0 / 16.0;

/// One card. Of lists that go by patch, each has one place for each of `cuts`.
#[derive(Debug, Default)]
pub(super) struct Card {
    /// Its number, from 1.
    pub(super) no: usize,
    /// The steps of the log that it tells.
    pub(super) entries: Vec<Mark>,
    /// What is cut for it.
    pub(super) cuts: Vec<CutOut>,
    /// How large each of these is at least, in inches: along its edge to sew, and square to it.
    pub(super) sizes_in: Vec<[f64; 2]>,
    /// How the ruler lies for each, line by line: `1: from A 2 1/4 to D 1 3/8`.
    pub(super) rulers: Vec<Vec<String>>,
    /// What to do once all is cut, one after the other.
    pub(super) acts: Vec<Act>,
    /// What is sewn on, where it is more than a patch that is cut: a unit of this card, or a part from before.
    pub(super) part: Option<Lying>,
    /// The table on which the top lies, where it is begun on this card itself.
    pub(super) begun: Option<Table>,
    /// The top that it is done on.
    pub(super) top: Option<Mark>,
    /// The edges of it that are sewn.
    pub(super) edges: Vec<Name>,
    /// The end of an edge that the words speak of.
    pub(super) dot: Option<Point>,
    /// Cuts across it.
    pub(super) trims: Vec<[Point; 2]>,
    /// What it is sliced into, besides what keeps its name.
    pub(super) apart: Option<Mark>,
    /// What of a seam is still to be closed.
    pub(super) open: Option<[Point; 2]>,
    /// The seams onto the top, to press.
    pub(super) seams: Vec<Mark>,
    /// Whether the strip that is sewn on is said to be cut longer than its edge.
    is_longer: bool,
    /// The stage that it belongs to, where it isn't the centre.
    pub(super) stage: Option<&'static str>,
    /// Of which cards, from and to, the seams can be sewn before the iron is switched on.
    pub(super) together: Option<[usize; 2]>,
    /// What is pressed and trimmed after all of these are sewn: on the last of several, and in their order.
    pub(super) ironed: Vec<Ironed>,
}

/// A top as it lies on a table, with the edge by which it is sewn on.
#[derive(Debug)]
pub(super) struct Lying {
    pub(super) table: Table,
    pub(super) top: Mark,
    pub(super) edge: Name,
    /// Whether it is made of what the card cuts; otherwise it lies there from before.
    pub(super) is_unit: bool,
}

/// What is known while cards are told.
#[derive(Debug)]
pub(super) struct Telling<'a> {
    pub(super) entries: &'a [Entry],
    pub(super) cloths: &'a BTreeMap<ClothId, Cloth>,
    pub(super) wish: &'a PapersWish,
    pub(super) scraps: Scraps<'a>,
}

impl Card {
    /// The step after which the iron comes, where that is a later one.
    pub(super) fn pressed_later(&self) -> Option<usize> {
        self.together.map(|[_, last]| last).filter(|last| self.no < *last)
    }

    /// The patches along which cuts across the piece are measured.
    pub(super) fn measured_along(&self) -> Vec<Mark> {
        let mut all: Vec<Mark> = self
            .acts
            .iter()
            .filter_map(|act| match act {
                Act::Trim { marks, .. } => marks.as_ref(),
                _ => None,
            })
            .flatten()
            .filter_map(|(_, patch)| *patch)
            .collect();
        all.sort_unstable();
        all.dedup();
        all
    }

    /// What its own seam has of the iron.
    pub(super) fn own_ironed(&self) -> Option<Ironed> {
        let way = self.acts.iter().rev().find_map(|act| match act {
            Act::Pressed(way) => Some(*way),
            _ => None,
        })?;
        let both_ends = self.acts.iter().find_map(|act| match act {
            Act::TrimEnds { both } => Some(*both),
            _ => None,
        });
        Some(Ironed { no: self.no, way, both_ends })
    }
}

impl Telling<'_> {
    /// The card of a go, on the table as it is before; the table is brought on.
    pub(super) fn card(&mut self, no: usize, go: &Go, table: &mut Table) -> Asked<Card> {
        let mut card = Card { no, ..Card::default() };
        let steps: Vec<Entry> = go.iter().filter_map(|at| self.entries.get(*at).cloned()).collect();
        let bases = bases(&steps);
        card.stage = steps.iter().find_map(|entry| stage(entry.run.as_ref()?.kind));
        for entry in &steps {
            self.step(entry, &bases, table, &mut card);
            let offcuts = table.offcuts().len();
            table.apply_entry(entry).map_err(|problem| crate::asks::AskError::CantBe {
                what: format!("step {} can't be told: {problem}", entry.mark),
                hint: "Look at it with `ragbag log`, and unpick back to before it.".to_owned(),
            })?;
            if let Step::Sew(sewing) = &entry.step {
                // Of a strip that is cut to a size longer than its edge some sticks out, however it is drawn.
                let is_longer = card.stage.is_some() && card.is_longer && is_flush(sewing);
                sewn(entry.mark, sewing, is_longer || table.offcuts().len() > offcuts, &mut card);
            }
            card.entries.push(entry.mark);
        }
        Ok(card)
    }

    fn step(&mut self, entry: &Entry, bases: &BTreeMap<Mark, usize>, table: &Table, card: &mut Card) {
        match &entry.step {
            Step::Lay { cloth, at, cut } => {
                let patch = quilt::table::Patch { cloth: *cloth, at: *at, cut: cut.clone() };
                let found = self.scraps.cut(entry.mark, &patch, bases.get(&entry.mark).copied());
                card.sizes_in.push(found.at_least_in());
                card.rulers.push(self.ruler(&found));
                card.cuts.push(found);
            }
            Step::Sew(sewing) => self.sew(sewing, table, card),
            Step::Cut { top, along, keep } => {
                card.top = Some(*top);
                card.trims.extend(across(table, *top, *along));
                let marks = table.top(*top).and_then(|top| {
                    marks(top, *along).map(|ends| ends.map(|(side, at_in)| (at_in, along_most(top, side))))
                });
                let apart = *keep == Keep::Both;
                card.apart = apart.then_some(entry.mark);
                card.acts.push(Act::Trim { apart, marks });
            }
            Step::Turn { top, .. } => {
                card.top.get_or_insert(*top);
                card.acts.push(Act::Turned(told(&entry.step, self.cloths, table)));
            }
            Step::Measure { top, sides, .. } => {
                card.top.get_or_insert(*top);
                card.edges.extend(sides.iter().map(|side| side.side));
                card.acts.push(Act::Measured);
            }
            Step::Aside { top } => {
                card.top.get_or_insert(*top);
                card.acts.push(Act::Aside);
            }
            Step::Choose(_) | Step::Note(_) => {}
        }
    }

    /// A seam before it is sewn: where it lies.
    fn sew(&self, sewing: &Sewing, table: &Table, card: &mut Card) {
        match sewing {
            Sewing::Join { onto, with, slide_in, allowance_in, stop, .. } => {
                let Some(onto_top) = table.top_with_side(*onto) else { return };
                let fresh = |top: Mark| card.cuts.iter().any(|cut| cut.patch == top);
                let with_top = table.top_with_side(*with);
                let what = called(table, *with, with_top.is_some_and(fresh));
                let lies = table.top(onto_top);
                let side =
                    lies.and_then(|top| top.sides().into_iter().find(|side| side.name() == Some(*onto)));
                let long_in = side.map_or(0.0, |side| side.length_in());
                let seam_in = *allowance_in;
                // Only a lone strip: how long a unit is said to be cut isn't how long it is.
                let cut_in = if let [size] = card.sizes_in.as_slice() { size[0] } else { 0.0 };
                card.is_longer = cut_in > long_in + SLIDE_IN;
                let slides = slide_in.abs() > SLIDE_IN;
                let begins = fresh(onto_top);
                if begins && stop.is_none() && !slides {
                    let to = called(table, *onto, true);
                    card.acts.push(Act::Join { what, to, along_in: long_in, seam_in });
                    return;
                }
                let joined = card.acts.iter().any(|act| matches!(act, Act::Join { .. }));
                let lying =
                    |top: Mark, is_unit: bool| Lying { table: table.clone(), top, edge: *with, is_unit };
                let part = match with_top {
                    Some(top) if fresh(top) => joined.then(|| lying(top, true)),
                    top => top.map(|top| lying(top, false)),
                };
                card.part = part.or(card.part.take());
                card.begun = begins.then(|| table.clone());
                // Only the edges of one top can be marked on its picture.
                if card.top.is_some_and(|top| top != onto_top) {
                    card.edges.clear();
                    card.trims.clear();
                }
                card.top = Some(onto_top);
                card.edges.push(*onto);
                let far = if *slide_in > 0.0 { End::End } else { End::Start };
                let dotted = stop.map(|(end, _)| end).or(slides.then_some(far));
                card.dot =
                    side.zip(dotted).map(|(side, end)| if end == End::End { side.to } else { side.from });
                // One dot can't stand at both ends.
                let slide = slides.then(|| Slide { by_in: slide_in.abs(), towards: dotted == Some(far) });
                card.acts.push(Act::Onto {
                    what,
                    long_in,
                    seam_in,
                    slide,
                    open_in: stop.map(|(_, open)| open),
                });
            }
            Sewing::Close { seam } => {
                let top = table.tops().iter().find(|(_, top)| top.seams().contains_key(seam));
                card.top = top.map(|(mark, _)| *mark);
                card.open = top.and_then(|(_, top)| open(top, *seam));
                card.acts.push(Act::Close);
            }
            Sewing::Frame { strips, allowance_in, .. } => {
                card.top = strips.first().and_then(|strip| table.top_with_side(strip.onto));
                card.edges.extend(strips.iter().map(|strip| strip.onto));
                card.acts.push(Act::Frame { strips: strips.len(), seam_in: *allowance_in });
            }
        }
    }

    /// The ruler's lines, begun at the end where this hand begins: the ruler lies on the patch, the blade runs
    /// away from the maker, on the side of her hand.
    fn ruler(&self, cut: &CutOut) -> Vec<String> {
        if cut.ruler.words.len() > cut.ruler.lines.len() {
            return Vec::new();
        }
        let mark = |mark: MarkOn| format!("{} {}", letter(mark.edge), self.wish.length(mark.at_in, 8));
        let line = |line: &RulerLine| {
            let (from, to) = match self.wish.hand {
                Hand::Right => (line.from, line.to),
                Hand::Left => (line.to, line.from),
            };
            format!("{}: from {} to {}", line.no, mark(from), mark(to))
        };
        cut.ruler.lines.iter().map(line).collect()
    }
}

/// Whether what is sewn on is trimmed in line at an end.
fn is_flush(sewing: &Sewing) -> bool {
    matches!(sewing, Sewing::Join { flush, .. } if flush.contains(&true))
}

/// A seam after it is sewn: the iron, and what sticks out. Within a unit both are said with its seams.
fn sewn(mark: Mark, sewing: &Sewing, sticks_out: bool, card: &mut Card) {
    let (press, both) = match sewing {
        Sewing::Join { press, flush, .. } => (*press, *flush == [true; 2]),
        Sewing::Frame { press, .. } => (*press, false),
        Sewing::Close { .. } => return,
    };
    if matches!(card.acts.last(), Some(Act::Join { .. })) {
        return;
    }
    card.acts.push(Act::Pressed(press));
    if sticks_out {
        card.acts.push(Act::TrimEnds { both });
    }
    card.seams.push(mark);
}

/// A top by its patches.
fn called(table: &Table, side: Name, is_new: bool) -> Called {
    let top = table.top_with_side(side).and_then(|top| table.top(top));
    let patches: BTreeSet<Mark> =
        top.map(|top| top.faces().values().map(|face| face.patch).collect()).unwrap_or_default();
    Called {
        patches: patches.into_iter().collect(),
        edge_of: top.and_then(|top| patch_of(top, side)),
        is_new,
    }
}

/// What of a seam was left open.
fn open(top: &Top, seam: Name) -> Option<[Point; 2]> {
    let (end, open_in) = top.seams().get(&seam)?.open?;
    let (from, to) = top.seam_points(seam)?;
    let (at, other) = if end == End::End { (to, from) } else { (from, to) };
    Some([at, at.lerp(other, open_in / at.distance(other).max(1e-9))])
}

/// The patch along a side, where it is one.
fn patch_of(top: &Top, side: Name) -> Option<Mark> {
    let bound = Bound::Raw(side);
    let mut touched = top.faces().values().filter(|face| face.around().contains(&bound));
    let first = touched.next()?.patch;
    touched.all(|face| face.patch == first).then_some(first)
}

/// The patch along the most of a side: of others only an end may show there, pressed over and in line.
fn along_most(top: &Top, side: Name) -> Option<Mark> {
    let bound = Bound::Raw(side);
    let line = top.line(bound)?;
    let touched = top.faces().values().filter(|face| face.around().contains(&bound));
    let long = |face: &&quilt::table::Face| {
        let on = |p: &Point| line.inside_by(*p).abs() < plane::READING;
        let corners = top.face_points(face);
        polygon::edges(&corners).filter(|(a, b)| on(a) && on(b)).map(|(a, b)| a.distance(b)).sum::<f64>()
    };
    touched.max_by(|a, b| long(a).total_cmp(&long(b))).map(|face| face.patch)
}

/// Of each patch that is laid, the edge by which it is first sewn.
fn bases(steps: &[Entry]) -> BTreeMap<Mark, usize> {
    let mut bases = BTreeMap::new();
    for entry in steps {
        if let Step::Sew(Sewing::Join { onto, with, .. }) = &entry.step {
            for side in [with, onto] {
                bases.entry(side.by).or_insert(usize::from(side.no));
            }
        }
        if let Step::Sew(Sewing::Frame { strips, .. }) = &entry.step {
            for strip in strips {
                bases.entry(strip.with.by).or_insert(usize::from(strip.with.no));
            }
        }
    }
    bases
}

const fn stage(kind: RunKind) -> Option<&'static str> {
    match kind {
        RunKind::Ring => Some("Ring"),
        RunKind::Border => Some("Border"),
        RunKind::SquareUp => Some("Squaring up"),
        RunKind::TrueUp => Some("Truing up"),
        _ => None,
    }
}
