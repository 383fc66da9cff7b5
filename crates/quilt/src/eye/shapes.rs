//! What the eye looks at: the finished shapes of a piece with their colours, the seams between them,
//! and which shapes touch.
//!
//! Finished means: the face less the allowance along each edge that is still free. Inches, counter-
//! clockwise. All fields are open, so that a search or a test can make up a
//! piece without a log.

use super::touch::touches;
use crate::cloth::ClothId;
use crate::log::{Bound, Mark, Name};
use crate::table::Top;
use colour::Lab;
use plane::{Point, polygon};

/// Colour, print and cloth of a patch, as they show.
pub type Shown = (Lab, Option<u64>, ClothId);

/// One finished shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// The step that laid its patch.
    pub patch: Mark,
    /// Its finished outline.
    pub points: Vec<Point>,
    /// Mean colour of the part of the print that shows.
    pub lab: Lab,
    /// Which print, when it is known.
    pub print: Option<u64>,
    /// Which cloth.
    pub cloth: ClothId,
}

impl Shape {
    /// Whether the same print shows on both.
    #[must_use]
    pub fn same_print(&self, other: &Self) -> bool {
        self.cloth == other.cloth || (self.print.is_some() && self.print == other.print)
    }
}

/// One seam as it shows.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamLine {
    /// Where it starts.
    pub a: Point,
    /// Where it ends.
    pub b: Point,
    /// Its place in the order of sewing.
    pub order: u32,
    /// The patch or unit it added.
    pub added: Mark,
    /// The order of the later seam that covered its start and its end, where one did.
    pub covered: [Option<u32>; 2],
}

/// Two shapes with a seam between them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Touch {
    /// Index of one shape, the lower.
    pub one: usize,
    /// Index of the other.
    pub other: usize,
    /// How long they touch, in finished inches.
    pub length_in: f64,
    /// Where the touching part starts and ends.
    pub from: Point,
    /// Its end.
    pub to: Point,
}

/// A piece as the eye sees it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shapes {
    /// The finished outline.
    pub outline: Vec<Point>,
    /// Seam allowance in inches.
    pub allowance_in: f64,
    /// The finished shapes.
    pub shapes: Vec<Shape>,
    /// The seams that show.
    pub seams: Vec<SeamLine>,
    /// Which shapes touch, and how long.
    pub touches: Vec<Touch>,
    /// Index of the first patch.
    pub first: usize,
}

impl Shapes {
    /// The shapes of a top. `look` tells what shows of a patch; a patch it doesn't know counts as
    /// middle grey, of a cloth of its own.
    #[must_use]
    pub fn of(top: &Top, allowance_in: f64, look: &dyn Fn(Mark) -> Option<Shown>) -> Self {
        let mut shapes = Vec::new();
        let mut index = std::collections::BTreeMap::new();
        for (&name, face) in top.faces() {
            let points = top.finished_points(face, allowance_in);
            if points.len() < 3 || polygon::area(&points) <= 1e-9 {
                continue;
            }
            let unknown = (Lab::new(50.0, 0.0, 0.0), None, ClothId(u64::MAX - u64::from(face.patch.0)));
            let (lab, print, cloth) = look(face.patch).unwrap_or(unknown);
            index.insert(name, shapes.len());
            shapes.push(Shape { patch: face.patch, points, lab, print, cloth });
        }
        let first = (0..shapes.len()).min_by_key(|&i| shapes[i].patch).unwrap_or(0);
        let seams = top.seams().keys().filter_map(|&name| seam_line(top, name)).collect();
        let touches = touches(top, allowance_in, &index);
        let outline = top.finished_sides(top.outline(), allowance_in).iter().map(|side| side.from).collect();
        Self { outline, allowance_in, shapes, seams, touches, first }
    }
}

fn seam_line(top: &Top, name: Name) -> Option<SeamLine> {
    let seam = top.seams().get(&name)?;
    let (a, b) = top.seam_points(name)?;
    let covered = seam.ends().map(|end| match end {
        Bound::Seam(later) => top.seams().get(&later).map(|l| l.order).filter(|order| *order > seam.order),
        Bound::Raw(_) => None,
    });
    Some(SeamLine { a, b, order: seam.order, added: seam.added, covered })
}
