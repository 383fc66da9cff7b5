//! The log told in sentences.

use plane::{DECISION, Line, Point};
use quilt::cloth::{Cloth, ClothId};
use quilt::length::{LengthUnit, fraction};
use quilt::log::{Along, Bound, Entry, Keep, Name, Press, Sewing, Stage, Step};
use quilt::table::{Side, Table, Top};
use std::collections::BTreeMap;

/// Every step of a log as a sentence. Cuts are told with the marks they had on the piece.
#[must_use]
pub fn story<'a>(
    entries: impl IntoIterator<Item = &'a Entry>,
    cloths: &BTreeMap<ClothId, Cloth>,
) -> Vec<String> {
    let mut table = Table::new();
    entries
        .into_iter()
        .map(|entry| {
            let told = told(&entry.step, cloths, &table);
            // What can't be carried out is told all the same, by what is there.
            let _ = table.apply_entry(entry);
            told
        })
        .collect()
}

/// One step as a sentence, on the table as it is before.
pub(crate) fn told(step: &Step, cloths: &BTreeMap<ClothId, Cloth>, before: &Table) -> String {
    match step {
        Step::Cut { top, along, keep } => {
            let marks = before.top(*top).and_then(|top| marks(top, *along));
            marks.map_or_else(|| sentence(step, cloths), |marks| cut(marks, *keep))
        }
        _ => sentence(step, cloths),
    }
}

/// One step as a sentence, by what it says itself.
fn sentence(step: &Step, cloths: &BTreeMap<ClothId, Cloth>) -> String {
    match step {
        Step::Lay { cloth, cut, .. } => {
            let name = cloths.get(cloth).map_or("an unknown cloth", |cloth| cloth.name.as_str());
            let (low, high) = plane::polygon::bounds(cut).unwrap_or_default();
            format!("Cut {name}, {} by {}.", fraction(high.x - low.x, 8), fraction(high.y - low.y, 8))
        }
        Step::Sew(Sewing::Join { onto, with, stop, press, .. }) => {
            let stop = stop.map_or_else(String::new, |(_, open)| {
                format!(", leaving the last {} open", fraction(open, 8))
            });
            let press = match press {
                Press::Over => "press over",
                Press::Back => "press back",
                Press::Open => "press open",
            };
            format!("Sew side {with} onto side {onto}{stop}; {press}.")
        }
        Step::Sew(Sewing::Close { seam }) => format!("Close the rest of seam {seam}."),
        Step::Sew(Sewing::Frame { strips, allowance_in, .. }) => format!(
            "Sew the {} strips on, stopping {} from both raw edges at each corner; then sew the mitres.",
            strips.len(),
            fraction(*allowance_in, 8)
        ),
        Step::Cut { along: Along::Side(side), .. } => format!("Trim in line with side {side}."),
        Step::Cut { along: Along::From { side, at_in, .. }, keep, .. } => {
            let what = if *keep == Keep::Both { "Slice apart" } else { "Trim" };
            format!("{what} from {} along side {side}, raw.", fraction(*at_in, 8))
        }
        Step::Measure { sides, shown, .. } => {
            let names: Vec<String> = sides.iter().map(|side| side.side.to_string()).collect();
            let how = if shown.is_some() { "Measure from a photograph" } else { "Measure" };
            format!("{how}; so the edge lies anew at {}.", names.join(", "))
        }
        Step::Choose(stage) => {
            let (what, words) = match stage {
                Stage::Planned(chosen) => return super::chosen::decided(chosen, cloths, LengthUnit::Inches),
                Stage::Layers(words) => ("the layers", words),
                Stage::Quilting(words) => ("the quilting", words),
                Stage::Binding(words) => ("the binding", words),
                Stage::Figure(words) => ("a figure", words),
            };
            format!("Decide on {what}: {words}")
        }
        Step::Note(words) => words.clone(),
        Step::Turn { by, .. } => {
            let degrees = by.to_degrees();
            let way = if degrees < 0.0 { "to the right" } else { "to the left" };
            format!("Turn the piece {:.0} degrees {way}, so that it stands upright.", degrees.abs())
        }
        Step::Aside { .. } => "Look at the piece anew, as one patch.".to_owned(),
    }
}

/// A mark on the outline: so many inches along a side, raw.
pub(crate) type OnSide = (Name, f64);

fn cut([from, to]: [OnSide; 2], keep: Keep) -> String {
    let mark = |(side, at_in): OnSide| format!("{} along side {side}", fraction(at_in, 8));
    let ruler = format!("{} to {}, raw", mark(from), mark(to));
    match keep {
        Keep::Both => format!("Slice apart from {ruler}."),
        Keep::Left => format!("Trim from {ruler}; what lies left on the way stays."),
        Keep::Right => format!("Trim from {ruler}; what lies right on the way stays."),
    }
}

/// The two marks of a cut that starts from a mark: where its line comes onto the piece and where it
/// leaves. `None` for a cut along a side, which needs none, and for one that misses.
pub(crate) fn marks(top: &Top, along: Along) -> Option<[OnSide; 2]> {
    let Along::From { side, at_in, turn } = along else { return None };
    let sides = top.sides();
    let start = sides.iter().find(|other| other.name() == Some(side))?;
    let own = top.line(Bound::Raw(side))?;
    let line = Line::from_point(start.from + own.unit() * at_in, own.direction().then(turn));
    let mut found: Vec<(f64, OnSide)> = sides.iter().filter_map(|side| crossed(side, line)).collect();
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (first, last) = (found.first()?, found.last()?);
    (last.0 - first.0 > DECISION).then_some([first.1, last.1])
}

/// Where a line crosses a side: how far along the line, and the mark on the side.
fn crossed(side: &Side, line: Line) -> Option<(f64, OnSide)> {
    let (from, to) = (line.inside_by(side.from), line.inside_by(side.to));
    if from.max(to) < -DECISION || from.min(to) > DECISION || (from - to).abs() < DECISION {
        return None;
    }
    let share = (from / (from - to)).clamp(0.0, 1.0);
    let point: Point = side.from + (side.to - side.from) * share;
    Some((line.along(point), (side.name()?, share * side.length_in())))
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::{Pose, Region, Turn};
    use quilt::log::Mark;

    /// A square of four inches, cut from 1 along its lower side straight up: the line leaves 3 along
    /// the upper side, which runs the other way.
    #[test]
    fn a_cut_is_told_by_both_its_marks() {
        let lay = Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut: Region::rectangle(4.0, 4.0).outer };
        let along = Along::From { side: Name::new(Mark(1), 0), at_in: 1.0, turn: Turn::QUARTER };
        let trim = Step::Cut { top: Mark(1), along, keep: Keep::Left };
        let slice = Step::Cut {
            top: Mark(1),
            along: Along::From { side: Name::new(Mark(1), 0), at_in: 0.5, turn: Turn::QUARTER },
            keep: Keep::Both,
        };
        let log =
            [(1, lay), (2, trim), (3, slice)].map(|(mark, step)| Entry { mark: Mark(mark), run: None, step });
        let told = story(&log, &BTreeMap::new());
        assert_eq!(
            told[1],
            "Trim from 1 along side 1a to 3 along side 1c, raw; what lies left on the way stays."
        );
        assert_eq!(told[2], "Slice apart from 1/2 along side 1a to 1/2 along side 1c, raw.");
    }
}
