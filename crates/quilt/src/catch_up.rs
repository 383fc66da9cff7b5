//! Steps for what is already sewn: a patch told by where its seam and its outer edge lie.

use crate::cloth::ClothId;
use crate::log::{Bound, Mark, Name, Press, Sewing, Step};
use crate::table::Top;
use plane::{Line, Point, Pose, polygon};

/// How much longer than its side a patch is taken to have been cut, at each end, in inches: what lies
/// beyond is trimmed in line with the neighbours.
const SPARE_IN: f64 = 1.5;

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

impl SewnOn {
    /// What was cut, about: its first side is sewn, its third is the outer edge. `None` when there is no
    /// such side, or the outer edge doesn't lie outside of its seam all along.
    #[must_use]
    pub fn cut(&self, top: &Top) -> Option<Vec<Point>> {
        let raw = top.line(Bound::Raw(self.onto))?;
        let side = top.sides().into_iter().find(|side| side.name() == Some(self.onto))?;
        // Seen from the patch: its raw edge lies two allowances inside the side's, and it is on the
        // other side of it.
        let own = raw.inward(2.0 * self.allowance_in).reversed();
        let middle = own.along(side.from.midpoint(side.to));
        let half = side.length_in() / 2.0 + SPARE_IN;
        let outer = self.outer.reversed();
        let depth = |along: f64| {
            let across = Line::from_point(own.point_at(along), own.normal);
            Some(own.inside_by(across.crossing(outer)?))
        };
        let (start, end) = (depth(middle - half)?, depth(middle + half)?);
        let cut = [(0.0, 0.0), (2.0 * half, 0.0), (2.0 * half, end), (0.0, start)];
        let cut: Vec<Point> = cut.iter().map(|(x, y)| Point::new(*x, *y)).collect();
        let seam = 2.0 * self.allowance_in;
        (start > seam && end > seam && polygon::is_convex(&cut, 1e-9)).then_some(cut)
    }

    /// The steps: it is laid as `mark` and sewn as the next.
    #[must_use]
    pub fn steps(&self, mark: Mark, cloth: ClothId, at: Pose, cut: Vec<Point>) -> [Step; 2] {
        let join = Sewing::Join {
            onto: self.onto,
            with: Name::new(mark, 0),
            slide_in: 0.0,
            allowance_in: self.allowance_in,
            stop: None,
            flush: [true, true],
            press: Press::Over,
        };
        [Step::Lay { cloth, at, cut }, Step::Sew(join)]
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
        let inside = Line::through(Point::new(0.0, 0.3), Point::new(4.0, 0.3)).unwrap();
        let top = table.top(Mark(1)).unwrap();
        assert_eq!(SewnOn { outer: inside, ..seen }.cut(top), None, "the side is no longer there");
    }
}
