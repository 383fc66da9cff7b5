//! Measuring side by side, by numbers: the lengths of some raw sides replace what was planned.
//!
//! Lengths alone don't fix a polygon. Of all shifts of the sides, each parallel to itself, that
//! give the measured lengths, the smallest is taken (least squares, minimal norm): with the turns
//! kept, a side's length is a linear function of its own shift and its neighbours'.

use super::error::{AskError, Asked};
use crate::quilts::{At, Head};
use crate::workroom::Workroom;
use plane::Line;
use quilt::log::{Entry, Measured, Name, Step};
use quilt::table::Top;

/// One measured side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SideMeasure {
    /// Which side.
    pub side: Name,
    /// Its raw length, in inches.
    pub length_in: f64,
}

/// What measuring changed.
#[derive(Clone, Debug)]
pub struct MeasureReport {
    /// The head as it is now.
    pub head: Head,
    /// For each side of the outline: its name, planned and new raw length, in inches.
    pub sides: Vec<(Name, f64, f64)>,
}

/// Most of a side's shift that is taken for a measure and not for a slip, in inches.
const MOST_SHIFT_IN: f64 = 2.0;

impl Workroom {
    /// Puts measured lengths in the place of planned ones.
    ///
    /// # Errors
    /// No such side; lengths that no small change of the sides gives; a patch turned over.
    pub fn measure(&mut self, at: &At, sides: &[SideMeasure]) -> Asked<MeasureReport> {
        let table = self.table(&at.quilt, &at.head)?;
        let (mark, top) = table.piece().ok_or(AskError::NothingOnTable)?;
        let lines = fitted(top, sides)?;
        let planned: Vec<(Name, f64)> =
            top.sides().iter().filter_map(|side| Some((side.name()?, side.length_in()))).collect();
        let measured = lines.into_iter().map(|(side, line)| Measured { side, line }).collect();
        let step = self.next_mark(&at.quilt, &at.head)?;
        let entry =
            Entry { mark: step, run: None, step: Step::Measure { top: mark, sides: measured, shown: None } };
        let head = self.check_and_append(at, &[entry], true)?;
        let after = self.table(&at.quilt, &at.head)?;
        let new = after.piece().map(|(_, top)| top.sides()).unwrap_or_default();
        let sides = planned
            .into_iter()
            .filter_map(|(name, was)| {
                let side = new.iter().find(|side| side.name() == Some(name))?;
                Some((name, was, side.length_in()))
            })
            .collect();
        Ok(MeasureReport { head, sides })
    }
}

/// The sides' lines, shifted so that the measured ones have their lengths.
fn fitted(top: &Top, measures: &[SideMeasure]) -> Asked<Vec<(Name, Line)>> {
    let sides = top.sides();
    let n = sides.len();
    let lines: Vec<Line> = sides.iter().filter_map(|side| top.line(side.bound)).collect();
    if lines.len() != n || n < 3 {
        return Err(AskError::NothingOnTable);
    }
    let mut rows = Vec::with_capacity(measures.len());
    let mut wanted = Vec::with_capacity(measures.len());
    for measure in measures {
        let i = sides.iter().position(|side| side.name() == Some(measure.side)).ok_or_else(|| {
            nonsense(
                format!("there is no side {} on the outline", measure.side),
                "The drawing names the sides that are there.",
            )
        })?;
        rows.push(length_row(&lines, i));
        wanted.push(measure.length_in - sides[i].length_in());
    }
    let shifts = least_norm(&rows, &wanted).ok_or_else(|| {
        nonsense(
            "these lengths contradict each other".to_owned(),
            "Measure the sides again, or fewer of them.",
        )
    })?;
    if let Some(i) = shifts.iter().position(|shift| shift.abs() > MOST_SHIFT_IN) {
        let name = sides[i].name().map_or_else(String::new, |name| name.to_string());
        return Err(nonsense(
            format!(
                "by these lengths side {name} would lie {:.2} inches from where it was planned",
                shifts[i].abs()
            ),
            "Check the numbers; if it is so, trim or sew first what changed.",
        ));
    }
    Ok(sides
        .iter()
        .zip(&lines)
        .zip(&shifts)
        .filter_map(|((side, line), shift)| Some((side.name()?, line.inward(*shift))))
        .collect())
}

fn nonsense(what: String, hint: &str) -> AskError {
    AskError::Nonsense { what, hint: hint.to_owned() }
}

/// How a side's length changes when each line moves inward by an inch. At a corner of exterior
/// angle t, moving the neighbour in by d shortens the side by d / sin t; moving the side itself in
/// shortens it by -d cot t (it gets longer where the corner is obtuse).
fn length_row(lines: &[Line], i: usize) -> Vec<f64> {
    let n = lines.len();
    let mut row = vec![0.0; n];
    let (before, after) = ((i + n - 1) % n, (i + 1) % n);
    for (first, second, neighbour) in [(before, i, before), (i, after, after)] {
        let (sin, cos) = (lines[first].turn_sine(lines[second]), lines[first].turn_cosine(lines[second]));
        if sin.abs() > 1e-9 {
            row[neighbour] -= 1.0 / sin;
            row[i] += cos / sin;
        }
    }
    row
}

/// The smallest `x` with `rows · x = wanted`: `rowsᵀ (rows rowsᵀ)⁻¹ wanted`, by elimination.
fn least_norm(rows: &[Vec<f64>], wanted: &[f64]) -> Option<Vec<f64>> {
    let m = rows.len();
    let n = rows.first()?.len();
    let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(x, y)| x * y).sum::<f64>();
    let mut system: Vec<Vec<f64>> =
        (0..m).map(|i| (0..m).map(|j| dot(&rows[i], &rows[j])).chain([wanted[i]]).collect()).collect();
    for column in 0..m {
        let pivot =
            (column..m).max_by(|&a, &b| system[a][column].abs().total_cmp(&system[b][column].abs()))?;
        if system[pivot][column].abs() < 1e-9 {
            return None;
        }
        system.swap(column, pivot);
        let lead = system[column].clone();
        for (i, row) in system.iter_mut().enumerate() {
            if i != column {
                let factor = row[column] / lead[column];
                row.iter_mut().zip(&lead).for_each(|(x, l)| *x -= factor * l);
            }
        }
    }
    let multipliers: Vec<f64> = (0..m).map(|i| system[i][m] / system[i][i]).collect();
    Some((0..n).map(|j| (0..m).map(|i| rows[i][j] * multipliers[i]).sum()).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use plane::{Point, polygon};

    fn hexagon() -> Vec<Line> {
        let corner = |i: i32| {
            let angle = f64::from(i) * std::f64::consts::PI / 3.0;
            Point::new(5.0 * angle.cos(), 5.0 * angle.sin())
        };
        (0..6).filter_map(|i| Line::through(corner(i), corner(i + 1))).collect()
    }

    fn lengths(lines: &[Line]) -> Vec<f64> {
        let n = lines.len();
        let corners: Vec<Point> = (0..n).filter_map(|i| lines[(i + n - 1) % n].crossing(lines[i])).collect();
        polygon::edges(&corners).map(|(a, b)| a.distance(b)).collect()
    }

    #[test]
    fn the_smallest_shift_gives_the_measured_lengths() {
        let lines = hexagon();
        let rows = vec![length_row(&lines, 0), length_row(&lines, 3)];
        let shifts = least_norm(&rows, &[-0.1875, 0.125]).unwrap();
        let moved: Vec<Line> = lines.iter().zip(&shifts).map(|(line, shift)| line.inward(*shift)).collect();
        let new = lengths(&moved);
        assert!((new[0] - 4.8125).abs() < 1e-9 && (new[3] - 5.125).abs() < 1e-9, "{new:?}");
        assert!(shifts.iter().all(|shift| shift.abs() < 0.2));
    }

    #[test]
    fn lengths_that_contradict_each_other_are_refused() {
        let lines = hexagon();
        let row = length_row(&lines, 0);
        assert_eq!(least_norm(&[row.clone(), row], &[0.1, 0.2]), None);
    }
}
