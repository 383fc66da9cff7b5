//! The order of cutting: first the long straight cuts that cut no piece and spare what is left, then what they leave.
//!
//! A straight cut ends where what it parts is used up. What is used is squared off the rest first, where it lies at an
//! edge; inside it straight cuts go right through. Where either would run further than [`A_LITTLE_IN`] through cloth
//! that nothing is cut from, pieces are cut along their own edges.

use crate::near::gap;
use plane::{Line, Point, READING, Turn, clip_convex, clip_half_plane, polygon};
use serde::Serialize;

/// A straight cut.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LongCut {
    /// Its ends, in the cloth's coordinates: at an edge, at another cut, or at the corner of what is squared off.
    pub from: Point,
    /// The other end.
    pub to: Point,
}

/// In which order pieces are cut.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Order {
    /// The straight cuts, in their order.
    pub cuts: Vec<LongCut>,
    /// The pieces in the order in which they come free.
    pub pieces: Vec<usize>,
    /// Those that no straight cut parts from their neighbours: they are cut out along their own edges.
    pub round_edges: Vec<usize>,
}

/// How far a straight cut may run through cloth that nothing is cut from, in inches (common practice, no source). What
/// lies further than this from a piece is worth sparing.
pub const A_LITTLE_IN: f64 = 2.0;
/// How far a line may run into a piece and still only touch it, in inches.
const TOUCH_IN: f64 = 2.0 * READING;
/// So many ways to square off are looked at, those that waste least first.
const SQUARES: usize = 4;

/// Finds the order for pieces that lie on one cloth: `outlines` in the cloth's coordinates, `cloth` its outline.
#[must_use]
pub fn order(outlines: &[Vec<Point>], cloth: &[Point]) -> Order {
    let group: Vec<usize> = (0..outlines.len()).collect();
    let mut order = Order::default();
    Lying { outlines, cloth }.part(&group, &polygon::hull(cloth), &mut order);
    order
}

/// Pieces as they lie.
struct Lying<'a> {
    outlines: &'a [Vec<Point>],
    cloth: &'a [Point],
}

/// What is squared off the rest.
struct Squared {
    cuts: Vec<LongCut>,
    inside: Vec<Point>,
}

impl Lying<'_> {
    /// Parts a group by the longest cut that can be, then each half.
    fn part(&self, group: &[usize], region: &[Point], order: &mut Order) {
        match group {
            [] => return,
            [one] => return order.pieces.push(*one),
            _ => {}
        }
        if let Some(Squared { cuts, inside }) = self.squared(group, region) {
            order.cuts.extend(cuts);
            return self.parted(group, &inside, order);
        }
        self.parted(group, region, order);
    }

    /// The same where all that can be is squared off.
    fn parted(&self, group: &[usize], region: &[Point], order: &mut Order) {
        if let Some((line, [from, to])) = self.straight(group, region)
            && let Some([left, right]) = self.halves(group, line)
        {
            order.cuts.push(LongCut { from, to });
            self.part(&left, &clip_half_plane(region, line, 0.0), order);
            return self.part(&right, &clip_half_plane(region, line.reversed(), 0.0), order);
        }
        let clumps = self.clumps(group);
        let is_one = clumps.len() < 2;
        for clump in clumps {
            match self.squared(&clump, region).filter(|_| !is_one) {
                Some(Squared { cuts, inside }) => {
                    order.cuts.extend(cuts);
                    self.parted(&clump, &inside, order);
                }
                None => {
                    order.pieces.extend(&clump);
                    order.round_edges.extend(&clump);
                }
            }
        }
    }

    /// The longest straight cut that parts a group and spares the rest; of equals the one that parts most evenly.
    fn straight(&self, group: &[usize], region: &[Point]) -> Option<(Line, [Point; 2])> {
        let mut best: Option<(f64, Line, [Point; 2])> = None;
        for &piece in group {
            for (a, b) in polygon::edges(&self.outlines[piece]) {
                let Some(line) = Line::through(a, b) else { continue };
                let Some([left, right]) = self.halves(group, line) else { continue };
                let Some(ends) = chord(region, line) else { continue };
                let even = left.len().min(right.len()) as f64 / group.len() as f64;
                let worth = ends[0].distance(ends[1]) + 0.01 * even;
                let is_best = best.as_ref().is_none_or(|(most, ..)| worth > most + 1e-9);
                if is_best && self.spares(group, line, ends) {
                    best = Some((worth, line, ends));
                }
            }
        }
        best.map(|(_, line, ends)| (line, ends))
    }

    /// The pieces on both sides of a line that cuts none and has some on each.
    fn halves(&self, group: &[usize], line: Line) -> Option<[Vec<usize>; 2]> {
        let (mut left, mut right) = (Vec::new(), Vec::new());
        for &piece in group {
            let reach = self.outlines[piece].iter().map(|&p| line.inside_by(p));
            let (low, high) =
                reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), d| (l.min(d), h.max(d)));
            match (low >= -TOUCH_IN, high <= TOUCH_IN) {
                (true, _) => left.push(piece),
                (_, true) => right.push(piece),
                _ => return None,
            }
        }
        (!left.is_empty() && !right.is_empty()).then_some([left, right])
    }

    /// Whether a cut runs only a little through cloth that nothing is cut from on either side.
    fn spares(&self, group: &[usize], line: Line, [from, to]: [Point; 2]) -> bool {
        let mut begin = line.along(from).min(line.along(to));
        let end = line.along(from).max(line.along(to));
        let mut used: Vec<[f64; 2]> = group.iter().filter_map(|&piece| self.beside(piece, line)).collect();
        used.sort_by(|a, b| a[0].total_cmp(&b[0]));
        for [low, high] in used {
            if low > begin && self.bare(line, [begin, low.min(end)]) > A_LITTLE_IN + TOUCH_IN {
                return false;
            }
            begin = begin.max(high);
        }
        begin >= end || self.bare(line, [begin, end]) <= A_LITTLE_IN + TOUCH_IN
    }

    /// From where to where a piece lies along a line, as far as it lies near it.
    fn beside(&self, piece: usize, line: Line) -> Option<[f64; 2]> {
        let near = clip_half_plane(&self.outlines[piece], line.inward(-A_LITTLE_IN), 0.0);
        let near = clip_half_plane(&near, line.inward(A_LITTLE_IN).reversed(), 0.0);
        let along = near.iter().map(|&p| line.along(p));
        let [low, high] = along.fold([f64::INFINITY, f64::NEG_INFINITY], |[l, h], t| [l.min(t), h.max(t)]);
        (low <= high).then_some([low, high])
    }

    /// How much of a stretch of a line lies on the cloth.
    fn bare(&self, line: Line, [begin, end]: [f64; 2]) -> f64 {
        let mut at = vec![begin, end];
        for (a, b) in polygon::edges(self.cloth) {
            let (da, db) = (line.inside_by(a), line.inside_by(b));
            if (da > 0.0) != (db > 0.0) {
                let t = line.along(a.lerp(b, da / (da - db)));
                at.extend((begin < t && t < end).then_some(t));
            }
        }
        at.sort_by(f64::total_cmp);
        let on = |pair: &[f64]| {
            let is_on = polygon::contains(self.cloth, line.point_at(f64::midpoint(pair[0], pair[1])));
            if is_on { pair[1] - pair[0] } else { 0.0 }
        };
        at.windows(2).map(on).sum()
    }

    /// Squares a group off the rest where that lets it be parted by straight cuts.
    fn squared(&self, group: &[usize], region: &[Point]) -> Option<Squared> {
        let edges = group.iter().flat_map(|&piece| polygon::edges(&self.outlines[piece]));
        let mut ways: Vec<Turn> = Vec::new();
        for way in edges.filter_map(|(a, b)| Turn::towards(b - a)) {
            let is_new = |other: &Turn| {
                way.vec().dot(other.vec()).abs().min(way.vec().cross(other.vec()).abs()) > 1e-6
            };
            if ways.iter().all(is_new) {
                ways.push(way);
            }
        }
        let mut squares: Vec<(f64, Squared)> =
            ways.into_iter().filter_map(|way| self.square(group, region, way)).collect();
        squares.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut squares = squares.into_iter().take(SQUARES).map(|(_, square)| square);
        squares.find(|square| self.straight(group, &square.inside).is_some())
    }

    /// A group squared off in one way, with the area that this takes; `None` where there is nothing worth sparing beside
    /// it, where it lies at no edge, or where the cuts would run through the rest or another piece.
    fn square(&self, group: &[usize], region: &[Point], way: Turn) -> Option<(f64, Squared)> {
        let corners = || group.iter().flat_map(|&piece| self.outlines[piece].iter().copied());
        let sides = [way, way.left(), way.opposite(), way.left().opposite()].map(|way| {
            let line = Line::from_point(Point::ORIGIN, way);
            let low = corners().map(|p| line.inside_by(p)).fold(f64::INFINITY, f64::min);
            line.inward(low)
        });
        let spare = |line: &Line| region.iter().map(|&p| -line.inside_by(p)).fold(0.0, f64::max);
        let cut: Vec<Line> = sides.into_iter().filter(|line| spare(line) >= A_LITTLE_IN - TOUCH_IN).collect();
        if cut.is_empty() || cut.len() == sides.len() {
            return None;
        }
        let inside = cut.iter().fold(region.to_vec(), |inside, &line| clip_half_plane(&inside, line, 0.0));
        let others = (0..self.outlines.len()).filter(|piece| !group.contains(piece));
        let shared = |piece: usize| polygon::area(&clip_convex(&self.outlines[piece], &inside, 0.0)).abs();
        if inside.len() < 3 || others.into_iter().any(|piece| shared(piece) > TOUCH_IN) {
            return None;
        }
        let mut cuts = Vec::new();
        for &line in &cut {
            let (from, to) = polygon::edges(&inside)
                .find(|(a, b)| [a, b].iter().all(|&&p| line.inside_by(p).abs() < 1e-9))?;
            if !self.spares(group, line, [from, to]) {
                return None;
            }
            cuts.push(LongCut { from, to });
        }
        Some((polygon::area(&inside).abs(), Squared { cuts, inside }))
    }

    /// A group in parts that lie further from each other than a little.
    fn clumps(&self, group: &[usize]) -> Vec<Vec<usize>> {
        let mut left = group.to_vec();
        let mut clumps = Vec::new();
        while let Some(first) = left.first().copied() {
            let mut clump = vec![first];
            left.remove(0);
            let mut next = 0;
            while let Some(&piece) = clump.get(next) {
                let near = |other: &usize| gap(&self.outlines[piece], &self.outlines[*other]) <= A_LITTLE_IN;
                let (found, rest): (Vec<usize>, Vec<usize>) = left.iter().partition(|&other| near(other));
                clump.extend(found);
                (left, next) = (rest, next + 1);
            }
            clump.sort_unstable();
            clumps.push(clump);
        }
        clumps
    }
}

/// Where a line crosses a convex outline.
fn chord(region: &[Point], line: Line) -> Option<[Point; 2]> {
    let mut crossings: Vec<Point> = Vec::new();
    for (a, b) in polygon::edges(region) {
        let (da, db) = (line.inside_by(a), line.inside_by(b));
        if (da > 0.0) != (db > 0.0) {
            crossings.push(a.lerp(b, da / (da - db)));
        }
    }
    match crossings[..] {
        [from, to] => Some([from, to]),
        _ => None,
    }
}
