//! Steps for what is already sewn: a patch told by where its seam and its outer edge lie.

use crate::cloth::ClothId;
use crate::log::{Bound, Mark, Name, Press, Sewing, Step};
use crate::table::Top;
use plane::{Line, Point, Pose, polygon};

/// How much wider than what shows a patch is taken to have been cut, at each end, in inches: what lies
/// beyond is trimmed in line with the neighbours.
const SPARE_IN: f64 = 0.125;

/// A patch that lies on one side of a top, as it was seen there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SewnOn {
    /// The side that it was sewn to.
    pub onto: Name,
    /// Its outer raw edge in the top's inches, the piece on the left.
    pub outer: Line,
    /// Seam allowance, in inches.
    pub allowance_in: f64,
}

/// What was cut for such a patch, about.
#[derive(Clone, Debug, PartialEq)]
pub struct SeenCut {
    /// Its corners: the first side is sewn, the third is the outer edge.
    pub cut: Vec<Point>,
    /// From its own inches to where it lies on the top.
    pub lies: Pose,
    /// How far the middle of its first side lies beyond the middle of the side it was sewn to, in inches.
    pub slide_in: f64,
}

impl SewnOn {
    /// What was cut, about. `None` when there is no such side, when the outer edge doesn't lie outside of
    /// its seam all along, or when the neighbouring sides meet before it.
    #[must_use]
    pub fn cut(&self, top: &Top) -> Option<SeenCut> {
        let raw = top.line(Bound::Raw(self.onto))?;
        let sides = top.sides();
        let (at, count) = (sides.iter().position(|side| side.name() == Some(self.onto))?, sides.len());
        let flank = |at: usize| Some(top.line(sides[at % count].bound)?.inward(-SPARE_IN));
        let (before, after) = (flank(at + count - 1)?, flank(at + 1)?);
        // Seen from the patch: its raw edge lies two allowances inside the side's, and it is on the
        // other side of it.
        let own = raw.inward(2.0 * self.allowance_in).reversed();
        let there = [
            own.crossing(after)?,
            own.crossing(before)?,
            before.crossing(self.outer)?,
            self.outer.crossing(after)?,
        ];
        let deep = there[2..].iter().all(|p| own.inside_by(*p) > 2.0 * self.allowance_in);
        let middle = raw.along(there[0].midpoint(there[1]));
        let slide_in = middle - raw.along(sides[at].from.midpoint(sides[at].to));
        let lies = Pose::carrying(own.direction(), Point::ORIGIN, there[0]);
        let cut = lies.inverse().apply_all(&there);
        (deep && polygon::is_convex(&cut, 1e-9)).then_some(SeenCut { cut, lies, slide_in })
    }

    /// The steps: it is laid as `mark`, cut from a cloth as `at` says, and sewn as the next.
    #[must_use]
    pub fn steps(&self, mark: Mark, cloth: ClothId, at: Pose, seen: SeenCut) -> [Step; 2] {
        let join = Sewing::Join {
            onto: self.onto,
            with: Name::new(mark, 0),
            slide_in: seen.slide_in,
            allowance_in: self.allowance_in,
            stop: None,
            flush: [true, true],
            press: Press::Over,
        };
        [Step::Lay { cloth, at, cut: seen.cut }, Step::Sew(join)]
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::Table;

    #[test]
    fn a_patch_seen_by_its_edge_is_sewn_where_it_was_seen() {
        let square = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)].map(|(x, y)| Point::new(x, y));
        let mut table = Table::new();
        let first = Step::Lay { cloth: ClothId(1), at: Pose::STAY, cut: square.to_vec() };
        table.apply(Mark(1), &first).unwrap();
        let top = table.piece().unwrap().1;
        // Below the first side, sloping.
        let outer = Line::through(Point::new(0.0, -1.5), Point::new(4.0, -2.0)).unwrap();
        let onto = top.sides()[0].name().unwrap();
        let seen = SewnOn { onto, outer, allowance_in: 0.25 };
        let cut = seen.cut(top).unwrap();
        for (no, step) in (2..).zip(seen.steps(Mark(2), ClothId(2), Pose::STAY, cut)) {
            table.apply(Mark(no), &step).unwrap();
        }
        let corners = table.piece().unwrap().1.outline_points();
        for wanted in [(0.0, -1.5), (4.0, -2.0), (4.0, 4.0), (0.0, 4.0)] {
            let wanted = Point::new(wanted.0, wanted.1);
            assert!(corners.iter().any(|p| p.distance(wanted) < 1e-6), "{wanted:?} in {corners:?}");
        }
        // What is trimmed off at its ends is next to nothing.
        let trimmed: f64 =
            table.offcuts().iter().flat_map(|off| &off.parts).map(|part| polygon::area(&part.piece)).sum();
        assert!(trimmed < 1.0, "{trimmed}");
        let inside = Line::through(Point::new(0.0, 0.3), Point::new(4.0, 0.3)).unwrap();
        let top = table.top(Mark(1)).unwrap();
        assert_eq!(SewnOn { outer: inside, ..seen }.cut(top), None, "the side is no longer there");
    }
}
