//! The bounding boxes of a top's faces, side by side and in the order of their names: each cut asks
//! all of them, and most lie out of its reach.

use crate::log::Name;
use plane::{Line, Point, READING};

#[derive(Clone, Copy, Debug, PartialEq)]
struct Boxed {
    name: Name,
    lo: Point,
    hi: Point,
}

/// One box a face.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Boxes(Vec<Boxed>);

impl Boxes {
    /// Puts the box of a face in, in the place of the one it had.
    pub(super) fn put(&mut self, name: Name, (lo, hi): (Point, Point)) {
        let boxed = Boxed { name, lo, hi };
        match self.0.binary_search_by_key(&name, |boxed| boxed.name) {
            Ok(at) => self.0[at] = boxed,
            Err(at) => self.0.insert(at, boxed),
        }
    }

    /// Takes the box of a face out.
    pub(super) fn remove(&mut self, name: Name) {
        self.0.retain(|boxed| boxed.name != name);
    }

    /// Takes in the boxes of faces of other names.
    pub(super) fn extend(&mut self, other: Self) {
        other.0.into_iter().for_each(|boxed| self.put(boxed.name, (boxed.lo, boxed.hi)));
    }

    /// The faces whose boxes reach outside `line`, or to it within 1/1024.
    pub(super) fn reaching(&self, line: Line) -> Vec<Name> {
        let outside = |boxed: &&Boxed| {
            let x = if line.normal.cos > 0.0 { boxed.lo.x } else { boxed.hi.x };
            let y = if line.normal.sin > 0.0 { boxed.lo.y } else { boxed.hi.y };
            line.inside_by(Point::new(x, y)) < READING
        };
        self.0.iter().filter(outside).map(|boxed| boxed.name).collect()
    }
}
