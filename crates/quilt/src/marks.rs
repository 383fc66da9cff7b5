//! A cut told as marks and a ruler, never in degrees.
//!
//! The edges of a cloth are lettered A, B, C… counter-clockwise from the corner lowest on the
//! left, as on its drawing. A line of the ruler is told by where it leaves the cloth: on one edge and
//! on another, each so far from the corner where the edge before it ends, to the nearest 1/8 inch
//! (common practice, no source). Edges of the cut that lie on the cloth's own edge need no ruler.
//! Lines are numbered in the order of the piece's sides, in the words as on the drawing.

use crate::length::fraction;
use plane::{Point, Region, polygon};
use serde::Serialize;

/// A place on the edge of a cloth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MarkOn {
    /// Which edge, from 0.
    pub edge: usize,
    /// How far from the edge's start, in inches.
    pub at_in: f64,
}

/// One line of the ruler.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RulerLine {
    /// Its number in the words, from 1.
    pub no: usize,
    /// Where it comes onto the cloth.
    pub from: MarkOn,
    /// Where it leaves.
    pub to: MarkOn,
    /// How long the cut along it is, in inches.
    pub cut_in: f64,
    /// Where the cut begins and ends, on the cloth.
    pub on: [Point; 2],
}

/// How to cut a piece.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Ruler {
    /// Lines of the ruler, in the order of the piece's sides.
    pub lines: Vec<RulerLine>,
    /// The same in words.
    pub words: Vec<String>,
}

/// Distance within which a cut lies on the cloth's own edge, in inches.
const ON_EDGE_IN: f64 = 1.0 / 64.0;

/// The letter of an edge.
#[must_use]
pub fn letter(edge: usize) -> String {
    let letter = char::from(b'A' + (edge % 26) as u8);
    if edge < 26 { letter.to_string() } else { format!("{letter}{}", edge / 26) }
}

/// The outline's corners from the one lowest on the left, counter-clockwise: edge `i` runs from
/// corner `i` to the next.
#[must_use]
pub fn lettered(outline: &Region) -> Vec<Point> {
    let mut corners = outline.outer.clone();
    let key = |p: &Point| p.x + p.y;
    let first = (0..corners.len()).min_by(|&a, &b| key(&corners[a]).total_cmp(&key(&corners[b])));
    corners.rotate_left(first.unwrap_or(0));
    corners
}

/// Several rulers for one cloth as one: numbered through.
#[must_use]
pub fn numbered_through(cuts: &[Vec<Point>], outline: &Region) -> Ruler {
    let corners = lettered(outline);
    cuts.iter().fold(Ruler::default(), |mut all, cut| {
        all.add(cut, &corners);
        all
    })
}

/// Marks and a ruler for cutting `cut` out of a cloth; both in the cloth's coordinates.
#[must_use]
pub fn ruler(cut: &[Point], outline: &Region) -> Ruler {
    numbered_through(std::slice::from_ref(&cut.to_vec()), outline)
}

impl Ruler {
    /// Adds the lines for one more piece.
    fn add(&mut self, cut: &[Point], corners: &[Point]) {
        for (side, (a, b)) in polygon::edges(cut).enumerate() {
            let length = a.distance(b);
            if length <= 0.0 || lies_on_edge(a, b, corners) {
                continue;
            }
            let no = self.words.len() + 1;
            match line(no, a, b, corners) {
                Some(line) => {
                    self.words.push(words(&line, corners.len()));
                    self.lines.push(line);
                }
                None => self.words.push(format!(
                    "Line {no}: side {} of the piece, {} long, lies beyond the cloth; mark it from the sides beside it.",
                    side + 1,
                    fraction(length, 8)
                )),
            }
        }
    }
}

/// The ruler's line through two points; `None` where it doesn't meet the cloth's edges on both ways.
fn line(no: usize, a: Point, b: Point, corners: &[Point]) -> Option<RulerLine> {
    let along = b - a;
    let length = along.length();
    // Where the line, drawn on both ways, meets the cloth's edges.
    let mut meets: Vec<(f64, MarkOn)> = polygon::edges(corners)
        .enumerate()
        .filter_map(|(edge, (p, q))| {
            let side = q - p;
            let cross = along.cross(side);
            if cross.abs() < 1e-9 * length * side.length() {
                return None;
            }
            let t = (p - a).cross(side) / cross;
            let u = (p - a).cross(along) / cross;
            let at_in = u * side.length();
            (-1e-9..=1.0 + 1e-9).contains(&u).then_some((t, MarkOn { edge, at_in }))
        })
        .collect();
    meets.sort_by(|x, y| x.0.total_cmp(&y.0));
    let slack = ON_EDGE_IN / length;
    let from = meets.iter().rev().find(|(t, _)| *t <= slack)?.1;
    let to = meets.iter().find(|(t, _)| *t >= 1.0 - slack)?.1;
    Some(RulerLine { no, from, to, cut_in: length, on: [a, b] })
}

fn lies_on_edge(a: Point, b: Point, corners: &[Point]) -> bool {
    polygon::edges(corners).any(|(p, q)| {
        let side = q - p;
        let length = side.length();
        let near = |point: Point| {
            let along = side.dot(point - p) / length;
            (side.cross(point - p) / length).abs() < ON_EDGE_IN
                && along > -ON_EDGE_IN
                && along < length + ON_EDGE_IN
        };
        length > 0.0 && near(a) && near(b)
    })
}

/// The point of a mark; `corners` as [`lettered`] gives them.
#[must_use]
pub fn point_of(mark: MarkOn, corners: &[Point]) -> Option<Point> {
    let (from, to) = (corners.get(mark.edge)?, corners.get((mark.edge + 1) % corners.len())?);
    let length = from.distance(*to);
    (length > 0.0).then(|| from.lerp(*to, mark.at_in / length))
}

fn words(line: &RulerLine, edges: usize) -> String {
    let mark = |mark: MarkOn| {
        let before = letter((mark.edge + edges - 1) % edges.max(1));
        format!(
            "edge {}, {} from the corner where edge {before} ends",
            letter(mark.edge),
            fraction(mark.at_in, 8)
        )
    };
    format!(
        "Line {}: lay the ruler from {}, to {}; cut {}.",
        line.no,
        mark(line.from),
        mark(line.to),
        fraction(line.cut_in, 8)
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(list: &[(f64, f64)]) -> Vec<Point> {
        list.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn a_corner_cut_is_told_by_two_marks() {
        let cloth = Region::rectangle(6.0, 4.0);
        let cut = points(&[(0.0, 0.0), (2.25, 0.0), (0.0, 1.375)]);
        let ruler = ruler(&cut, &cloth);
        assert_eq!(ruler.lines.len(), 1, "the other two sides are the cloth's own edge");
        let line = ruler.lines[0];
        assert_eq!((line.from.edge, line.to.edge), (0, 3));
        assert!((line.from.at_in - 2.25).abs() < 1e-12 && (line.to.at_in - 2.625).abs() < 1e-12);
        let told = "Line 1: lay the ruler from edge A, 2 1/4 from the corner where edge D ends, to edge D, 2 5/8 from the corner where edge C ends; cut";
        assert!(ruler.words[0].starts_with(told), "{}", ruler.words[0]);
        let corners = lettered(&cloth);
        assert_eq!(point_of(line.from, &corners), Some(Point::new(2.25, 0.0)));
        assert_eq!(point_of(line.to, &corners), Some(Point::new(0.0, 1.375)));
    }

    #[test]
    fn a_strip_across_is_told_by_one_line() {
        let cloth = Region::rectangle(6.0, 4.0);
        let ruler = ruler(&points(&[(0.0, 0.0), (6.0, 0.0), (6.0, 1.5), (0.0, 1.5)]), &cloth);
        assert_eq!(ruler.lines.len(), 1);
    }

    #[test]
    fn a_side_that_no_ruler_can_be_laid_to_is_told_too() {
        let cloth = Region::rectangle(6.0, 4.0);
        let ruler = ruler(&points(&[(1.0, 3.0), (3.0, 3.0), (3.0, 5.0), (1.0, 5.0)]), &cloth);
        assert_eq!(ruler.words.len(), 4, "one for each side: {:?}", ruler.words);
        assert!(ruler.words[2].starts_with("Line 3: side 3 of the piece, 2 long, lies beyond the cloth"));
        let told = |line: &RulerLine| ruler.words[line.no - 1].starts_with(&format!("Line {}: lay", line.no));
        assert!(!ruler.lines.is_empty() && ruler.lines.iter().all(told));
    }

    #[test]
    fn edges_are_lettered_from_the_lowest_left_corner() {
        let cloth =
            Region::try_new(points(&[(5.0, 1.0), (4.0, 5.0), (0.0, 4.0), (1.0, 0.0)]), vec![]).unwrap();
        assert_eq!(lettered(&cloth)[0], Point::new(1.0, 0.0));
        assert_eq!((letter(0), letter(27)), ("A".to_owned(), "B1".to_owned()));
    }
}
