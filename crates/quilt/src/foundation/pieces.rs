//! Pieces and where they meet.

use super::Stretch;
use plane::{Line, Point, READING, polygon};

/// Pieces that lie side by side, and the straight lines along which they meet.
#[derive(Clone, Debug, Default)]
pub struct Pieces {
    pub(super) count: usize,
    pub(super) lines: Vec<Line>,
    pub(super) contacts: Vec<Contact>,
    /// The contacts of each piece.
    pub(super) of: Vec<Vec<usize>>,
}

/// Two pieces that share a part of a line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Contact {
    pub(super) line: usize,
    /// The piece on the left of the line's direction, and the one on its right.
    pub(super) sides: [usize; 2],
    /// Where along the line, in inches.
    pub(super) from: f64,
    pub(super) to: f64,
}

impl Contact {
    /// The piece that `piece` meets here.
    pub(super) const fn other(&self, piece: usize) -> usize {
        if self.sides[0] == piece { self.sides[1] } else { self.sides[0] }
    }
}

/// Pieces that share less than this meet at a point only, in inches.
const SHORTEST_IN: f64 = 1.0 / 64.0;
/// Parts of a seam nearer to each other than this are one, in inches.
pub(super) const GAP_IN: f64 = 1.0 / 32.0;

/// A side of a piece: the piece, its line with the piece on the left, and where it runs.
struct Edge {
    piece: usize,
    line: Line,
    from: f64,
    to: f64,
    low: Point,
    high: Point,
}

impl Pieces {
    /// Finds where outlines meet. Lines that lie within 1/1024 inch of each other are one.
    #[must_use]
    pub fn new(outlines: &[Vec<Point>]) -> Self {
        let edges: Vec<Edge> = outlines.iter().enumerate().flat_map(|(i, points)| edges(i, points)).collect();
        let mut found =
            Self { count: outlines.len(), of: vec![Vec::new(); outlines.len()], ..Self::default() };
        for (i, edge) in edges.iter().enumerate() {
            for other in edges.iter().skip(i + 1) {
                if let Some((from, to)) = meet(edge, other) {
                    found.add(edge, other.piece, from, to);
                }
            }
        }
        found
    }

    /// How many there are.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.count
    }

    /// Where a piece meets others: the other's number and the way that they share.
    pub fn around(&self, piece: usize) -> impl Iterator<Item = (usize, Stretch)> + '_ {
        let of = self.of.get(piece).map(Vec::as_slice).unwrap_or_default();
        of.iter().map(move |&no| {
            let contact = &self.contacts[no];
            (contact.other(piece), self.stretch(contact.line, contact.from, contact.to))
        })
    }

    pub(super) fn stretch(&self, line: usize, from: f64, to: f64) -> Stretch {
        let line = self.lines[line];
        Stretch { from: line.point_at(from), to: line.point_at(to) }
    }

    fn add(&mut self, edge: &Edge, other: usize, from: f64, to: f64) {
        let ends = [edge.line.point_at(from), edge.line.point_at(to)];
        let same = |line: &Line| {
            line.turn_sine(edge.line).abs() < 0.01
                && ends.iter().all(|p| line.inside_by(*p).abs() <= 2.0 * READING)
        };
        let line = self.lines.iter().position(same).unwrap_or_else(|| {
            self.lines.push(edge.line);
            self.lines.len() - 1
        });
        let kept = self.lines[line];
        let along = ends.map(|p| kept.along(p));
        let forward = kept.turn_cosine(edge.line) > 0.0;
        let sides = if forward { [edge.piece, other] } else { [other, edge.piece] };
        let [from, to] = if forward { along } else { [along[1], along[0]] };
        let no = self.contacts.len();
        self.contacts.push(Contact { line, sides, from, to });
        self.of[edge.piece].push(no);
        self.of[other].push(no);
    }
}

fn edges(piece: usize, points: &[Point]) -> Vec<Edge> {
    polygon::edges(points)
        .filter_map(|(a, b)| {
            let line = Line::through(a, b)?;
            let (low, high) = polygon::bounds(&[a, b])?;
            Some(Edge { piece, line, from: line.along(a), to: line.along(b), low, high })
        })
        .collect()
}

/// What two edges share, along the first.
fn meet(edge: &Edge, other: &Edge) -> Option<(f64, f64)> {
    let apart = edge.low.x > other.high.x + READING
        || other.low.x > edge.high.x + READING
        || edge.low.y > other.high.y + READING
        || other.low.y > edge.high.y + READING;
    if apart || edge.piece == other.piece || edge.line.turn_cosine(other.line) > -0.999 {
        return None;
    }
    let ends = [other.line.point_at(other.from), other.line.point_at(other.to)];
    if ends.iter().any(|p| edge.line.inside_by(*p).abs() > READING) {
        return None;
    }
    // The other piece's edge runs the other way.
    let from = edge.from.max(edge.line.along(ends[1]));
    let to = edge.to.min(edge.line.along(ends[0]));
    (to - from > SHORTEST_IN).then_some((from, to))
}
