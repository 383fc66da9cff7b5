//! What one card says, as plain values: patches to cut, what to do in which order, what to press.

use super::goes::{Go, across};
use super::scraps::{CutOut, Scraps};
use crate::asks::{Asked, marks, told};
use crate::papers::{Hand, PapersWish};
use plane::Point;
use quilt::cloth::{Cloth, ClothId};
use quilt::log::{Along, Bound, End, Entry, Keep, Mark, Name, Press, RunKind, Sewing, Step};
use quilt::marks::{MarkOn, RulerLine, letter};
use quilt::table::{Table, Top};
use std::collections::{BTreeMap, BTreeSet};

/// A slide less than this is none, in inches.
const SLIDE_IN: f64 = 1.0 / 16.0;

/// One card.
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
    /// What to do, one after the other.
    pub(super) doing: Vec<String>,
    /// A unit that is sewn together before it is sewn on: the table with it, and its top.
    pub(super) unit: Option<(Table, Mark)>,
    /// How it is sewn together, seam by seam.
    joins: Vec<String>,
    /// The top that it is done on.
    pub(super) top: Option<Mark>,
    /// The edges of it that are sewn.
    pub(super) edges: Vec<Name>,
    /// The end of an edge that the words speak of.
    pub(super) dot: Option<Point>,
    /// Cuts across it.
    pub(super) trims: Vec<[Point; 2]>,
    /// The seams onto the top, to press.
    pub(super) seams: Vec<Mark>,
    /// The stage that it belongs to, where it isn't the centre.
    pub(super) stage: Option<&'static str>,
    /// Of which cards, from and to, the seams can be sewn before the iron is switched on.
    pub(super) together: Option<[usize; 2]>,
}

/// What is known while cards are told.
#[derive(Debug)]
pub(super) struct Telling<'a> {
    pub(super) entries: &'a [Entry],
    pub(super) cloths: &'a BTreeMap<ClothId, Cloth>,
    pub(super) wish: &'a PapersWish,
    pub(super) scraps: Scraps<'a>,
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
                self.sewn(entry.mark, sewing, table.offcuts().len() > offcuts, &mut card);
            }
            card.entries.push(entry.mark);
        }
        // Patches that are sewn to each other and to nothing yet: the first of a piece.
        if !card.joins.is_empty() {
            self.unit(allowance(&steps), &mut card);
        }
        self.cutting(&mut card);
        Ok(card)
    }

    fn step(&mut self, entry: &Entry, bases: &BTreeMap<Mark, usize>, table: &Table, card: &mut Card) {
        match &entry.step {
            Step::Lay { cloth, at, cut } => {
                let patch = quilt::table::Patch { cloth: *cloth, at: *at, cut: cut.clone() };
                let found = self.scraps.cut(entry.mark, &patch);
                card.sizes_in.push(found.at_least_in(cut, bases.get(&entry.mark).copied()));
                card.rulers.push(self.ruler(&found));
                card.cuts.push(found);
            }
            Step::Sew(sewing) => self.sew(sewing, table, card),
            Step::Cut { top, along, keep } => {
                card.top = Some(*top);
                let line = across(table, *top, *along);
                card.trims.extend(line);
                card.doing.push(self.cut(table.top(*top), *along, *keep));
            }
            Step::Turn { top, .. } | Step::Measure { top, .. } | Step::Aside { top } => {
                card.top.get_or_insert(*top);
                card.doing.push(told(&entry.step, self.cloths, table));
            }
            Step::Choose(_) | Step::Note(_) => {}
        }
    }

    /// What is said of a seam before it is sewn: where it lies.
    fn sew(&self, sewing: &Sewing, table: &Table, card: &mut Card) {
        let length = |inches: f64| self.wish.length(inches, 8);
        match sewing {
            Sewing::Join { onto, with, slide_in, allowance_in, stop, .. } => {
                let Some(onto_top) = table.top_with_side(*onto) else { return };
                let fresh = |top: Mark| card.cuts.iter().any(|cut| cut.patch == top);
                let (what, lies) = (called(table, *with), table.top(onto_top));
                let side =
                    lies.and_then(|top| top.sides().into_iter().find(|side| side.name() == Some(*onto)));
                let long = side.map_or(0.0, |side| side.length_in());
                if fresh(onto_top) {
                    card.joins.push(format!("{what} to {}, along {}", called(table, *onto), length(long)));
                    return;
                }
                let with_top = table.top_with_side(*with);
                if let Some(unit) = with_top.filter(|top| fresh(*top) && !card.joins.is_empty()) {
                    card.unit = Some((table.clone(), unit));
                    self.unit(*allowance_in, card);
                }
                // Only the edges of one top can be marked on its picture.
                if card.top.is_some_and(|top| top != onto_top) {
                    card.edges.clear();
                }
                card.top = Some(onto_top);
                card.edges.push(*onto);
                let by = (slide_in.abs() > SLIDE_IN)
                    .then(|| format!("; then slide it {} towards the red dot", length(slide_in.abs())));
                let far = if *slide_in > 0.0 { End::End } else { End::Start };
                let dotted = stop.map(|(end, _)| end).or(by.is_some().then_some(far));
                card.dot =
                    side.zip(dotted).map(|(side, end)| if end == End::End { side.to } else { side.from });
                let by = match by {
                    // One dot can't stand at both ends.
                    Some(_) if dotted != Some(far) => {
                        format!("; then slide it {} away from the red dot", length(slide_in.abs()))
                    }
                    by => by.unwrap_or_default(),
                };
                let stop = stop.map_or_else(String::new, |(_, open)| {
                    format!(
                        " Stop {} before the red dot: that bit stays open for a later step.",
                        length(open)
                    )
                });
                card.doing.push(format!(
                    "Lay {what} right sides together on the red edge, {} long, middle on middle{by}. Sew; seam {}.{stop}",
                    length(long),
                    length(*allowance_in)
                ));
            }
            Sewing::Close { seam } => {
                card.top = table
                    .tops()
                    .iter()
                    .find(|(_, top)| top.seams().contains_key(seam))
                    .map(|(mark, _)| *mark);
                card.doing.push("Sew the bit of the seam that was left open, up to its end.".to_owned());
            }
            Sewing::Frame { strips, allowance_in, .. } => {
                card.top = strips.first().and_then(|strip| table.top_with_side(strip.onto));
                card.edges.extend(strips.iter().map(|strip| strip.onto));
                card.doing.push(format!(
                    "Sew the {} strips on, each to its red edge, stopping {} from both raw edges at each corner; \
                     then sew the mitres from there out.",
                    strips.len(),
                    length(*allowance_in)
                ));
            }
        }
    }

    /// The seams of a unit in one sentence.
    fn unit(&self, allowance_in: f64, card: &mut Card) {
        let seam = self.wish.length(allowance_in, 8);
        let joins = std::mem::take(&mut card.joins);
        let told = match joins.as_slice() {
            [one] => format!("Sew {one}; seam {seam}. Press it."),
            several => format!(
                "Sew them together, each seam {seam}, pressed before the next: {}.",
                several.join("; ")
            ),
        };
        card.doing.push(told);
    }

    /// What is said of a seam after it is sewn: the iron, and what sticks out.
    fn sewn(&self, mark: Mark, sewing: &Sewing, sticks_out: bool, card: &mut Card) {
        if !card.joins.is_empty() {
            return;
        }
        let (press, flush) = match sewing {
            Sewing::Join { press, flush, .. } => (*press, *flush),
            Sewing::Frame { press, .. } => (*press, [false; 2]),
            Sewing::Close { .. } => return,
        };
        let way = match press {
            Press::Over => "Press the seam towards what you have just sewn on.",
            Press::Back => "Press the seam away from what you have just sewn on.",
            Press::Open => "Press the seam open.",
        };
        card.doing.push(way.to_owned());
        if sticks_out {
            let ends = if flush == [true; 2] { "at its ends" } else { "at its end" };
            card.doing.push(format!("Trim what sticks out {ends} in line with the edge beside it."));
        }
        card.seams.push(mark);
    }

    /// A cut across the top: where the ruler lies.
    fn cut(&self, top: Option<&Top>, along: Along, keep: Keep) -> String {
        let verb = if keep == Keep::Both { "Slice it apart" } else { "Trim" };
        let place = top.and_then(|top| Some((top, marks(top, along)?)));
        let Some((top, [from, to])) = place else {
            return format!("{verb} along the black line, in line with the edge that it runs on from.");
        };
        let mark = |(side, at_in): (Name, f64)| {
            let of = patch_of(top, side).map_or_else(String::new, |patch| format!(" of patch {patch}"));
            format!("{} along the edge{of}", self.wish.length(at_in, 8))
        };
        format!("{verb} along the black line: from {} to {}.", mark(from), mark(to))
    }

    /// Puts first what is cut: equal patches of one cloth in one sentence.
    fn cutting(&self, card: &mut Card) {
        let mut told: Vec<(String, Vec<String>)> = Vec::new();
        for (cut, size) in card.cuts.iter().zip(&card.sizes_in) {
            let no = cut.no.map_or_else(String::new, |no| format!(" (no. {no})"));
            let from = format!("{}{no}", cut.name);
            let how = if self.wish.by_template {
                format!("from {from}, by template, the printed side of template and cloth up")
            } else {
                let [along, square] = size.map(|inches| self.wish.length(inches, 8));
                format!("from {from}, at least {along} by {square}")
            };
            match told.iter_mut().find(|(known, _)| *known == how) {
                Some((_, patches)) => patches.push(cut.patch.to_string()),
                None => told.push((how, vec![cut.patch.to_string()])),
            }
        }
        let first = told.into_iter().map(|(how, patches)| match patches.as_slice() {
            [one] => format!("Cut patch {one} {how}."),
            several => format!("Cut patches {} {how}.", several.join(", ")),
        });
        card.doing = first.chain(std::mem::take(&mut card.doing)).collect();
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

/// What a top is called: its patch, or its patches.
fn called(table: &Table, side: Name) -> String {
    let top = table.top_with_side(side).and_then(|top| table.top(top));
    let patches: BTreeSet<Mark> =
        top.map(|top| top.faces().values().map(|face| face.patch).collect()).unwrap_or_default();
    let mut names = patches.iter().map(Mark::to_string);
    match patches.len() {
        0 => "it".to_owned(),
        1 => format!("patch {}", names.next().unwrap_or_default()),
        2..=6 => format!("the unit of patches {}", names.collect::<Vec<_>>().join(", ")),
        more => format!(
            "the part with {more} patches, {} to {}",
            names.next().unwrap_or_default(),
            names.next_back().unwrap_or_default()
        ),
    }
}

fn patch_of(top: &Top, side: Name) -> Option<Mark> {
    let bound = Bound::Raw(side);
    top.faces().values().find(|face| face.around().contains(&bound)).map(|face| face.patch)
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

fn allowance(steps: &[Entry]) -> f64 {
    let of = |entry: &Entry| match &entry.step {
        Step::Sew(Sewing::Join { allowance_in, .. }) => Some(*allowance_in),
        _ => None,
    };
    steps.iter().find_map(of).unwrap_or(0.25)
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
