//! Which shapes touch along a seam, and how long.
//!
//! Two shapes touch where both have an edge on the same seam's line, one on each side of it, and the
//! edges overlap. Edges are cut to what shows when the free edges have been sewn. Inches.

use super::shapes::Touch;
use crate::log::{Bound, Name};
use crate::table::{Face, Top};
use plane::{Line, Point, READING};
use std::collections::BTreeMap;

/// An edge of a shape on a seam's line.
struct Edge {
    shape: usize,
    inside: bool,
    from: f64,
    to: f64,
}

/// All pairs of shapes that touch for longer than 1/1024 inch, by index.
pub(super) fn touches(top: &Top, allowance_in: f64, index: &BTreeMap<Name, usize>) -> Vec<Touch> {
    let mut by_seam: BTreeMap<Bound, Vec<Edge>> = BTreeMap::new();
    for (name, &shape) in index {
        let Some(face) = top.faces().get(name) else { continue };
        for (bound, edge) in seam_edges(top, face, allowance_in, shape) {
            by_seam.entry(bound).or_default().push(edge);
        }
    }
    let mut pairs: BTreeMap<(usize, usize), (f64, f64, Point, Point)> = BTreeMap::new();
    for (bound, edges) in by_seam {
        if let Some(line) = top.line(bound) {
            along_seam(line, edges, &mut pairs);
        }
    }
    pairs
        .into_iter()
        .map(|((one, other), (length_in, _, from, to))| Touch { one, other, length_in, from, to })
        .collect()
}

/// The edges of a face that lie on seams, cut to what will show.
fn seam_edges(top: &Top, face: &Face, allowance_in: f64, shape: usize) -> Vec<(Bound, Edge)> {
    let points = top.face_points(face);
    let around = face.around();
    let n = around.len();
    if points.len() != n {
        return Vec::new();
    }
    let free: Vec<Line> = around
        .iter()
        .filter(|bound| matches!(bound, Bound::Raw(_)))
        .filter_map(|bound| top.line(*bound).map(|line| line.inward(allowance_in)))
        .collect();
    let middle = points.iter().fold(Point::ORIGIN, |sum, p| sum + p.to_vec2() * (1.0 / n as f64));
    (0..n)
        .filter_map(|i| {
            let bound = around[i];
            let line = matches!(bound, Bound::Seam(_)).then(|| top.line(bound)).flatten()?;
            let (p, q) = cut_segment(points[i], points[(i + 1) % n], &free)?;
            let (s, t) = (line.along(p), line.along(q));
            let edge = Edge { shape, inside: line.inside_by(middle) > 0.0, from: s.min(t), to: s.max(t) };
            Some((bound, edge))
        })
        .collect()
}

/// The part of a segment inside all the lines.
fn cut_segment(p: Point, q: Point, lines: &[Line]) -> Option<(Point, Point)> {
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for line in lines {
        let (a, b) = (line.inside_by(p), line.inside_by(q));
        if a < 0.0 && b < 0.0 {
            return None;
        } else if a < 0.0 {
            from = from.max(a / (a - b));
        } else if b < 0.0 {
            to = to.min(a / (a - b));
        }
    }
    (from < to).then(|| (p.lerp(q, from), p.lerp(q, to)))
}

/// Sweeps along one seam and notes every overlap of an edge inside with one outside. The place kept
/// for a pair is its longest part.
fn along_seam(line: Line, edges: Vec<Edge>, pairs: &mut BTreeMap<(usize, usize), (f64, f64, Point, Point)>) {
    let (mut inside, mut outside): (Vec<Edge>, Vec<Edge>) = edges.into_iter().partition(|edge| edge.inside);
    let by_start = |a: &Edge, b: &Edge| a.from.total_cmp(&b.from).then(a.shape.cmp(&b.shape));
    inside.sort_by(by_start);
    outside.sort_by(by_start);
    let mut first = 0;
    for edge in &inside {
        while outside.get(first).is_some_and(|other| other.to <= edge.from) {
            first += 1;
        }
        for other in outside[first..].iter().take_while(|other| other.from < edge.to) {
            let (from, to) = (edge.from.max(other.from), edge.to.min(other.to));
            let length = to - from;
            if length <= READING || edge.shape == other.shape {
                continue;
            }
            let key = (edge.shape.min(other.shape), edge.shape.max(other.shape));
            let (a, b) = (line.point_at(from), line.point_at(to));
            let pair = pairs.entry(key).or_insert((0.0, 0.0, a, b));
            pair.0 += length;
            if length > pair.1 {
                (pair.1, pair.2, pair.3) = (length, a, b);
            }
        }
    }
}
