//! Sewing by hand: a first patch, a piece sewn on, a trim, a slice, something else than was planned.

use super::error::{AskError, Asked};
use super::room::Shape;
use crate::quilts::{Amend, Amended, At, Head};
use crate::workroom::Workroom;
use plane::{Point, Pose, Turn, Vec2};
use quilt::Rule;
use quilt::cloth::ClothId;
use quilt::limits;
use quilt::log::{Along, Bound, Entry, Keep, Mark, Name, Press, Run, RunKind, Sewing, Stage, Step};
use quilt::table::Table;
use quilt::wish::Limits;

/// A piece sewn by hand, as the maker tells it.
#[derive(Clone, Debug, PartialEq)]
pub struct HandSewn {
    /// The side it is sewn onto.
    pub onto: Name,
    /// The cloth.
    pub cloth: ClothId,
    /// Cut width along the seam, and cut depth, in inches.
    pub size_in: [f64; 2],
    /// How far its middle lies beyond the middle of the side, in inches.
    pub slide_in: f64,
    /// Whether its ends are trimmed in line with the neighbours.
    pub flush: [bool; 2],
    /// Which way it is pressed.
    pub press: Press,
    /// Where the sewing stops short.
    pub stop: Option<(quilt::log::End, f64)>,
}

/// What was sewn instead of what was planned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instead {
    /// Which patch: the step that lays it; the first that is only planned when `None`.
    pub patch: Option<Mark>,
    /// The cloth used.
    pub cloth: ClothId,
    /// About how wide it was cut along the seam, in inches; as planned when `None`.
    pub wide_in: Option<f64>,
    /// About how deep it was cut, in inches; as planned when `None`.
    pub deep_in: Option<f64>,
    /// Whether it is noted even where the heap has no room for it.
    pub anyway: bool,
}

/// Least and most cut width or depth that can be meant, in inches.
const SMALLEST_IN: f64 = 0.25;
const LARGEST_IN: f64 = 240.0;

impl Workroom {
    /// Lays a first patch, or any patch beside what is there.
    ///
    /// # Errors
    /// A cloth that isn't there; a shape that makes no sense or for which it has no room.
    pub fn lay(&mut self, at: &At, cloth: ClothId, cut: &[Point]) -> Asked<Head> {
        let mark = self.next_mark(&at.quilt, &at.head)?;
        let pose = self.room_for(at, cloth, &Shape { cut, lies: Turn::NONE, instead_of: None })?;
        let step = Step::Lay { cloth, at: pose, cut: cut.to_vec() };
        self.check_and_append(at, &[entry(mark, mark, RunKind::Start, step)], false)
    }

    /// Sews a straight piece onto a side.
    ///
    /// # Errors
    /// A piece that doesn't cover, with remedies; cloth without room.
    pub fn sew_by_hand(&mut self, at: &At, sewn: &HandSewn, anyway: bool) -> Asked<Head> {
        let allowance_in = self.wish(&at.quilt)?.allowance_in;
        let first = self.next_mark(&at.quilt, &at.head)?;
        let cut = plane::Region::rectangle(sewn.size_in[0], sewn.size_in[1]).outer;
        let lies = turn_onto(&self.table(&at.quilt, &at.head)?, sewn.onto);
        let pose = self.room_for(at, sewn.cloth, &Shape { cut: &cut, lies, instead_of: None })?;
        let lay = Step::Lay { cloth: sewn.cloth, at: pose, cut };
        let join = Step::Sew(Sewing::Join {
            onto: sewn.onto,
            with: Name::new(first, 0),
            slide_in: sewn.slide_in,
            allowance_in,
            stop: sewn.stop,
            flush: sewn.flush,
            press: sewn.press,
        });
        let second = Mark(first.0 + 1);
        let steps =
            vec![entry(first, first, RunKind::Piece, lay), entry(second, first, RunKind::Piece, join)];
        self.check_and_append(at, &steps, anyway)
    }

    /// Sews two tops together along a side each.
    ///
    /// # Errors
    /// A side that isn't there; one that doesn't cover.
    pub fn join_tops(&mut self, at: &At, onto: Name, with: Name, slide_in: f64, press: Press) -> Asked<Head> {
        let allowance_in = self.wish(&at.quilt)?.allowance_in;
        let (stop, flush) = (None, [true, true]);
        let join = Sewing::Join { onto, with, slide_in, allowance_in, stop, flush, press };
        self.one_step(at, RunKind::Piece, Step::Sew(join))
    }

    /// Trims the piece along a line from a side.
    ///
    /// # Errors
    /// A cut that misses, or leaves more than two parts.
    pub fn trim(&mut self, at: &At, along: Along, keep: Keep) -> Asked<Head> {
        let table = self.table(&at.quilt, &at.head)?;
        let side = match along {
            Along::Side(side) | Along::From { side, .. } => side,
        };
        let top = table.top_with_side(side).or(table.piece().map(|(top, _)| top));
        let top = top.ok_or(AskError::NothingOnTable)?;
        let kind = if keep == Keep::Both { RunKind::PutIn } else { RunKind::Trim };
        self.one_step(at, kind, Step::Cut { top, along, keep })
    }

    /// Slices the piece apart along a line and sews a strip between the parts.
    ///
    /// # Errors
    /// A cut that misses; cloth without room for the strip.
    pub fn put_in(&mut self, at: &At, along: Along, cloth: ClothId, width_in: f64) -> Asked<Head> {
        let allowance_in = self.wish(&at.quilt)?.allowance_in;
        let first = self.next_mark(&at.quilt, &at.head)?;
        let mut table = self.table(&at.quilt, &at.head)?;
        let (Along::Side(side) | Along::From { side, .. }) = along;
        let top = table.top_with_side(side).ok_or(AskError::NothingOnTable)?;
        let slice = Step::Cut { top, along, keep: Keep::Both };
        table.apply(first, &slice).map_err(|p| AskError::refused(p, table.top(top), allowance_in))?;
        let found = table
            .top(top)
            .and_then(|top| top.sides().into_iter().find(|side| side.name() == Some(Name::new(first, 0))));
        let side_in = found.map_or(0.0, |side| side.length_in());
        let lies = turn_onto(&table, Name::new(first, 0));
        let mark = |i: u32| Mark(first.0 + i);
        let join = |onto, with| {
            let (slide_in, stop, flush, press) = (0.0, None, [true, true], Press::Over);
            Step::Sew(Sewing::Join { onto, with, slide_in, allowance_in, stop, flush, press })
        };
        let onto = join(Name::new(first, 0), Name::new(mark(1), 0));
        let (outer, other) = (Name::new(mark(1), 2), Name::new(first, 1));
        let strip = |long_in: f64| plane::Region::rectangle(long_in, width_in).outer;
        let wrong_with = |long_in: f64, closing: &Step| {
            let mut table = table.clone();
            let lay = Step::Lay { cloth, at: Pose::STAY, cut: strip(long_in) };
            (1..).zip([&lay, &onto, closing]).find_map(|(i, step)| table.apply(mark(i), step).err())
        };
        // Where the piece gets wider past the cut, the strip is longer than the other part there: then
        // it is sewn onto that, and not that onto it.
        let closings = [join(outer, other), join(other, outer)];
        let tried = closings.map(|closing| {
            let long_in = long_enough(side_in + 4.0 * allowance_in, |long_in| wrong_with(long_in, &closing));
            (wrong_with(long_in, &closing).is_some(), long_in, closing)
        });
        let [first_way, second_way] = tried;
        let (_, long_in, closing) = if first_way.0 && !second_way.0 { second_way } else { first_way };
        let cut = strip(long_in);
        let pose = self.room_for(at, cloth, &Shape { cut: &cut, lies, instead_of: None })?;
        let steps = [slice, Step::Lay { cloth, at: pose, cut }, onto, closing];
        let entries =
            (0..).zip(steps).map(|(i, step)| entry(mark(i), first, RunKind::PutIn, step)).collect::<Vec<_>>();
        self.check_and_append(at, &entries, false)
    }

    /// Closes a seam that was left open.
    ///
    /// # Errors
    /// No such open seam.
    pub fn close(&mut self, at: &At, seam: Name) -> Asked<Head> {
        self.one_step(at, RunKind::Piece, Step::Sew(Sewing::Close { seam }))
    }

    /// Writes a note, or decides on a later stage.
    ///
    /// # Errors
    /// A head that moved.
    pub fn note(&mut self, at: &At, words: &str) -> Asked<Head> {
        self.one_step(at, RunKind::Piece, Step::Note(words.to_owned()))
    }

    /// Decides on a later stage.
    ///
    /// # Errors
    /// A head that moved.
    pub fn choose(&mut self, at: &At, stage: Stage) -> Asked<Head> {
        self.one_step(at, RunKind::Piece, Step::Choose(stage))
    }

    /// "I used something else": the patch was cut from another cloth, about so large. The later
    /// steps are done again on what is there.
    ///
    /// # Errors
    /// No such patch; a cloth that has no room for it, unless `anyway`; a shape with which the step
    /// can't be sewn.
    pub fn instead(&mut self, at: &At, instead: Instead) -> Asked<Amended> {
        let log = self.log(&at.quilt, &at.head)?;
        let is_lay = |entry: &Entry| matches!(entry.step, Step::Lay { .. });
        let wanted = |entry: &Entry| instead.patch.is_none_or(|mark| entry.mark == mark);
        let planned = log.steps.iter().enumerate().find(|(i, step)| {
            is_lay(&step.entry) && wanted(&step.entry) && (instead.patch.is_some() || *i >= log.sewn)
        });
        let step = planned.map(|(_, step)| &step.entry).ok_or_else(|| AskError::Nonsense {
            what: "there is no such patch on the path".to_owned(),
            hint: "Name the step that lays it; the log lists them.".to_owned(),
        })?;
        let Step::Lay { cut, .. } = &step.step else { return Err(AskError::NothingOnTable) };
        let cut = fitted(cut, [instead.wide_in, instead.deep_in])?;
        let mark = step.mark;
        let table = self.table(&at.quilt, &at.head)?;
        let mut faces = table.tops().values().flat_map(|top| top.faces().values());
        let lies = faces.find(|face| face.patch == mark).map_or(Turn::NONE, |face| face.pose.turn);
        let shape = Shape { cut: &cut, lies, instead_of: Some(mark) };
        let pose = match self.place_for(at, instead.cloth, &shape)? {
            Some(pose) => pose,
            None => self.place_used(at, instead.cloth, &shape, instead.anyway)?,
        };
        let step = Step::Lay { cloth: instead.cloth, at: pose, cut };
        Ok(self.amend(at, &Amend { mark, step, anyway: true })?)
    }

    fn one_step(&mut self, at: &At, kind: RunKind, step: Step) -> Asked<Head> {
        let mark = self.next_mark(&at.quilt, &at.head)?;
        self.check_and_append(at, &[entry(mark, mark, kind, step)], false)
    }

    /// Appends steps after a trial: what the table or a limit refuses is told with remedies.
    pub(super) fn check_and_append(&mut self, at: &At, entries: &[Entry], anyway: bool) -> Asked<Head> {
        let wish = self.wish(&at.quilt)?;
        let mut table = self.table(&at.quilt, &at.head)?;
        let before = broken(&table, wish.allowance_in, &wish.limits);
        for entry in entries {
            if let Err(problem) = table.apply_entry(entry) {
                let place = match problem.place {
                    quilt::Place::Side(side, _) => table.top_with_side(side),
                    _ => None,
                };
                let top = place.and_then(|top| table.top(top)).or(table.piece().map(|(_, top)| top));
                return Err(AskError::refused(problem, top, wish.allowance_in));
            }
        }
        if !anyway {
            let new = broken(&table, wish.allowance_in, &wish.limits);
            if let Some(problem) = new.into_iter().find(|p| p.rule == Rule::TooThick && !before.contains(p)) {
                return Err(AskError::refused(problem, table.piece().map(|(_, top)| top), wish.allowance_in));
            }
        }
        Ok(self.append(at, entries)?)
    }
}

/// A strip's length, let out at both ends as long as a seam line that slants away at its ends asks for
/// more; as it was where that isn't what is wrong.
fn long_enough(least_in: f64, wrong_with: impl Fn(f64) -> Option<quilt::Problem>) -> f64 {
    let mut long_in = least_in;
    for _ in 0..8 {
        match wrong_with(long_in) {
            None => return long_in,
            Some(problem) if problem.rule == Rule::Cover => {
                long_in += 2.0 * problem.measured_in + 1.0 / 16.0;
            }
            Some(problem) if problem.rule == Rule::Slid => {
                long_in += 2.0 * problem.measured_in.abs() + 1.0 / 16.0;
            }
            Some(_) => break,
        }
    }
    long_in
}

/// How a patch is turned whose first side is sewn onto a side.
pub(super) fn turn_onto(table: &Table, onto: Name) -> Turn {
    let top = table.top_with_side(onto).and_then(|mark| table.top(mark));
    let line = top.and_then(|top| top.line(Bound::Raw(onto)));
    line.map_or(Turn::NONE, |line| line.direction().opposite())
}

fn broken(table: &Table, allowance_in: f64, limits: &Limits) -> Vec<quilt::Problem> {
    table.piece().map(|(_, top)| limits::audit(top, allowance_in, limits)).unwrap_or_default()
}

pub(super) fn entry(mark: Mark, first: Mark, kind: RunKind, step: Step) -> Entry {
    Entry { mark, run: Some(Run { first, kind, ask: None }), step }
}

/// A planned shape stretched to about a size: its first side, the one that is sewn, gets the width;
/// square to it, it gets the depth.
fn fitted(cut: &[Point], size_in: [Option<f64>; 2]) -> Asked<Vec<Point>> {
    let mut told = size_in.into_iter().flatten();
    if let Some(size) = told.find(|size| !(SMALLEST_IN..=LARGEST_IN).contains(size)) {
        return Err(AskError::Nonsense {
            what: format!("a patch can't be cut {size} inches wide or deep"),
            hint: format!("Say about how large it was: from {SMALLEST_IN} to {LARGEST_IN} inches."),
        });
    }
    let (Some(&from), Some(&to)) = (cut.first(), cut.get(1)) else { return Ok(cut.to_vec()) };
    let Some(along) = Turn::towards(to - from).filter(|_| size_in != [None, None]) else {
        return Ok(cut.to_vec());
    };
    let own: Vec<Vec2> = cut.iter().map(|p| along.inverse().apply(*p - from)).collect();
    let deep_in = own.iter().map(|v| v.y).fold(0.0, f64::max);
    let scale = |size: Option<f64>, planned: f64| size.map_or(1.0, |size| size / planned.max(1e-6));
    let scale = [scale(size_in[0], from.distance(to)), scale(size_in[1], deep_in)];
    Ok(own.iter().map(|v| from + along.apply(Vec2::new(v.x * scale[0], v.y * scale[1]))).collect())
}
