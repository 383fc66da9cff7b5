//! The seams as lines: none too long inside, and running every which way.

use super::frame::Frame;
use super::row::{EyeMark, Quality, Row, percent};
use super::scale::Value;
use super::shapes::{SeamLine, Shapes};
use plane::{Line, Point};

/// Seams within this of one line are in line, in inches; gaps up to it don't break a line.
const IN_LINE_IN: f64 = 1.0 / 16.0;

/// Sine of the angle within which seams are in line: 2 degrees.
const IN_LINE_SINE: f64 = 0.034_899_496_702_500_97;

/// How far out a line still counts as inside, over R.
const INSIDE: f64 = 0.75;

/// **No long line inside.** The longest run of seams in line (within 1/16 inch and 2°, without a
/// gap) of which more than half lies nearer the centre than .75 R, over R. Good: at most .8; poor:
/// above 1.3 (common practice, no source).
pub(super) fn no_long_line(frame: &Frame<'_>) -> Row {
    let longest = longest_line(frame.piece, frame.centre, INSIDE * frame.radius);
    let length = longest.map_or(0.0, |(a, b)| a.distance(b)) / frame.radius;
    let values = vec![Value::at_most("longest", length, 0.8, 1.3)];
    let words = format!("The longest straight line inside is {length:.2} of the radius long.");
    Row::new(
        Quality::NoLongLine,
        values,
        words,
        longest.map(|(a, b)| EyeMark::Line(a, b)).into_iter().collect(),
    )
}

/// The longest run of seams in line of which more than half lies within `inside_in` of `centre`.
/// Every seam is taken as the line of a run in its turn, the longest first; of a tie the first.
#[must_use]
pub fn longest_line(piece: &Shapes, centre: Point, inside_in: f64) -> Option<(Point, Point)> {
    let mut seams: Vec<&SeamLine> = piece.seams.iter().collect();
    seams.sort_by(|p, q| q.a.distance(q.b).total_cmp(&p.a.distance(p.b)));
    let mut best: Option<(Point, Point)> = None;
    for seam in &seams {
        let Some(line) = Line::through(seam.a, seam.b) else { continue };
        let (from, to) = run_along(line, seam, &seams);
        let (a, b) = (line.point_at(from), line.point_at(to));
        let longer = best.is_none_or(|(p, q)| a.distance(b) > p.distance(q) + 1e-9);
        if longer && 2.0 * length_inside(a, b, centre, inside_in) > a.distance(b) {
            best = Some((a, b));
        }
    }
    best
}

/// From where to where seams follow each other along a line without a gap, through `seed`.
fn run_along(line: Line, seed: &SeamLine, seams: &[&SeamLine]) -> (f64, f64) {
    let near = |p: Point| line.inside_by(p).abs() <= IN_LINE_IN;
    let direction = line.unit();
    let in_line = |seam: &&&SeamLine| {
        near(seam.a)
            && near(seam.b)
            && direction.cross(seam.b - seam.a).abs() <= IN_LINE_SINE * seam.a.distance(seam.b)
    };
    let mut spans: Vec<(f64, f64)> = seams
        .iter()
        .filter(in_line)
        .map(|seam| (line.along(seam.a), line.along(seam.b)))
        .map(|(s, t)| (s.min(t), s.max(t)))
        .collect();
    spans.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut from, mut to) = (line.along(seed.a), line.along(seed.b));
    let seed_from = from;
    let mut run: Option<(f64, f64)> = None;
    for (s, t) in spans {
        run = match run {
            Some((start, end)) if s <= end + IN_LINE_IN => Some((start, end.max(t))),
            _ => Some((s, t)),
        };
        if let Some((start, end)) = run
            && start <= seed_from
            && end >= seed_from
        {
            (from, to) = (start, end);
        }
    }
    (from, to)
}

/// How much of the way from `a` to `b` lies within `radius` of `centre`.
fn length_inside(a: Point, b: Point, centre: Point, radius: f64) -> f64 {
    let Some(line) = Line::through(a, b) else { return 0.0 };
    let off = line.inside_by(centre);
    let half = (radius * radius - off * off).max(0.0).sqrt();
    let foot = line.along(centre);
    (line.along(b).min(foot + half) - line.along(a).max(foot - half)).max(0.0)
}

/// How many directions are told apart.
const BINS: usize = 12;

/// **Directions mixed.** Entropy of the seams' angles in 12 bins of 15°, weighted by length, over
/// ln 12. Good: at least .90; poor: under .82 (common practice, no source).
pub(super) fn directions_mixed(frame: &Frame<'_>) -> Row {
    let mut bins = [0.0; BINS];
    for seam in &frame.piece.seams {
        bins[bin(seam)] += seam.a.distance(seam.b);
    }
    let total: f64 = bins.iter().sum();
    let shares = bins.iter().map(|length| length / total.max(1e-12)).filter(|share| *share > 0.0);
    let entropy = -shares.map(|share| share * share.ln()).sum::<f64>() / (BINS as f64).ln();
    let values = vec![Value::at_least("mixed", entropy, 0.90, 0.82)];
    let fullest = (0..BINS).max_by(|&i, &j| bins[i].total_cmp(&bins[j]).then(j.cmp(&i))).unwrap_or(0);
    let words = format!(
        "The seams' directions are {} mixed; {} of their length runs the commonest way.",
        percent(entropy),
        percent(bins[fullest] / total.max(1e-12))
    );
    let common = frame.piece.seams.iter().filter(|seam| bin(seam) == fullest);
    let marks = common.map(|seam| EyeMark::Line(seam.a, seam.b)).collect();
    Row::new(Quality::DirectionsMixed, values, words, marks)
}

fn bin(seam: &SeamLine) -> usize {
    let v = seam.b - seam.a;
    // What rounding leaves of a level seam, just above or below, falls into the first bin.
    let degrees = (v.y.atan2(v.x).to_degrees() + 1e-6).rem_euclid(180.0);
    ((degrees * BINS as f64 / 180.0) as usize).min(BINS - 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn level_seams_share_a_bin_whatever_rounding_leaves() {
        let between = |a, b| SeamLine { a, b, order: 1, added: crate::log::Mark(1), covered: [None; 2] };
        let seam = |y: f64| between(Point::ORIGIN, Point::new(3.0, y));
        let back = |y: f64| between(Point::new(3.0, y), Point::ORIGIN);
        for y in [0.0, -0.0, 1e-15, -1e-15, 1e-10, -1e-10] {
            assert_eq!((bin(&seam(y)), bin(&back(y))), (0, 0), "{y}");
        }
        assert_eq!((bin(&seam(-0.1)), bin(&seam(0.1))), (BINS - 1, 0));
    }
}
