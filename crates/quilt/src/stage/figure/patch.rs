//! One sewn layer of a figure: what shows, what is cut, where it is clipped, how it is traced.

use super::clips::{Clips, clips_of};
use super::cut::cut_line;
use super::laid::LaidShape;
use super::seen::Above;
use super::{FigureChoice, Traced};
use crate::cloth::ClothId;
use plane::{Point, Region, polygon};
use serde::Serialize;

/// A layer of the figure that is cut from cloth and turned under.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct FigurePatch {
    /// The shape's name.
    pub shape: String,
    /// The cloth it is to be cut from, where that is settled.
    pub cloth: Option<ClothId>,
    /// The drawn line on the piece: the finished edge.
    pub finished: Region,
    /// The cut line on the piece, a turn-under outside it.
    pub cut: Region,
    /// Area of cloth inside the cut line.
    pub cut_area_sq_in: f64,
    /// Finished edge that lies free and is turned under and sewn.
    pub turned_in: f64,
    /// Finished edge under higher layers, which is left flat.
    pub flat_in: f64,
    /// Where the allowance is clipped.
    pub clips: Vec<Clips>,
    /// How it is traced.
    pub tracing: Tracing,
}

/// Lines to trace onto cloth, with their lower left corner at the origin. It may be mirrored, as a
/// tracing on the wrong side is; a patch never is.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Tracing {
    /// On which side of the cloth.
    pub side: Traced,
    /// Whether the lines are mirrored against the figure: on the wrong side they are.
    pub mirrored: bool,
    /// The drawn line.
    pub drawn: Region,
    /// The cut line.
    pub cut: Region,
}

impl FigurePatch {
    pub(super) fn new(shape: &LaidShape, sewn: Region, choice: &FigureChoice, above: &Above<'_>) -> Self {
        let cut = cut_line(&sewn, choice.turn_under_in);
        let rings = std::iter::once(&sewn.outer).chain(&sewn.holes);
        let (mut whole, mut turned_in) = (0.0, 0.0);
        for (a, b) in rings.flat_map(|ring| polygon::edges(ring)) {
            whole += a.distance(b);
            turned_in += above.free_parts(a, b).iter().map(|(a, b)| a.distance(*b)).sum::<f64>();
        }
        Self {
            shape: shape.id.clone(),
            cloth: shape.cloth,
            cut_area_sq_in: cut.area(),
            turned_in,
            flat_in: whole - turned_in,
            clips: clips_of(&sewn, choice.turn_under_in, choice.clips, above),
            tracing: Tracing::new(&sewn, &cut, choice.traced),
            finished: sewn,
            cut,
        }
    }

    /// How many clips there are in all.
    #[must_use]
    pub fn clip_count(&self) -> usize {
        self.clips.iter().map(|clips| clips.clips.len()).sum()
    }
}

impl Tracing {
    fn new(drawn: &Region, cut: &Region, side: Traced) -> Self {
        let (lo, hi) = polygon::bounds(&cut.outer).unwrap_or_default();
        let mirrored = side == Traced::WrongSide;
        let place = |p: &Point| {
            let x = if mirrored { hi.x - p.x } else { p.x - lo.x };
            Point::new(x, p.y - lo.y)
        };
        let ring = |points: &Vec<Point>| {
            let mut points: Vec<Point> = points.iter().map(place).collect();
            if mirrored {
                points.reverse();
            }
            points
        };
        let region =
            |of: &Region| Region { outer: ring(&of.outer), holes: of.holes.iter().map(ring).collect() };
        Self { side, mirrored, drawn: region(drawn), cut: region(cut) }
    }
}
