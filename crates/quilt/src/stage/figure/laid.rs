//! The drawing at its size and place: every shape a region in inches, its curves flattened.

use super::choice::within;
use super::drawn::MOST_POINTS;
use super::{FigureChoice, FigureProblem, FigureSize, MOST_FIGURE_IN, Path, Shape};
use crate::cloth::ClothId;
use plane::{Point, Region, Turn, polygon};

/// Chord error of flattened curves, in inches, at the size they are sewn.
pub const CHORD_ERROR_IN: f64 = 1.0 / 256.0;

/// A shape where it is to lie.
#[derive(Clone, Debug)]
pub(super) struct LaidShape {
    pub(super) id: String,
    pub(super) cloth: Option<ClothId>,
    /// The drawn line: what shows when it is sewn.
    pub(super) drawn: Region,
}

/// A figure where it is to lie.
#[derive(Clone, Debug)]
pub(super) struct Laid {
    pub(super) shapes: Vec<LaidShape>,
    /// Inches that one unit of the drawing has become.
    pub(super) scale: f64,
    /// Width and height before the turn.
    pub(super) size_in: [f64; 2],
}

/// Lays the figure: scaled, mirrored if asked for, turned about the middle, moved to its place.
pub(super) fn lay(choice: &FigureChoice) -> Result<Laid, FigureProblem> {
    check_coordinates(choice)?;
    let (lo, hi) = bounds(choice)?;
    let (width, height) = (hi.x - lo.x, hi.y - lo.y);
    let scale = scale_of(choice, width, height)?;
    let middle = lo.midpoint(hi);
    let turn = Turn::from_degrees(choice.turn_deg);
    let facing = if choice.mirror { -scale } else { scale };
    let motion = |p: Point| {
        let from = p - middle;
        choice.at + turn.apply(plane::Vec2::new(from.x * facing, from.y * scale))
    };
    let shapes: Vec<LaidShape> =
        choice.figure.shapes.iter().map(|shape| laid(shape, motion)).collect::<Result<_, _>>()?;
    let found =
        shapes.iter().map(|s| s.drawn.outer.len() + s.drawn.holes.iter().map(Vec::len).sum::<usize>());
    let found = found.sum();
    if found > MOST_POINTS {
        return Err(FigureProblem::TooManyPoints { found, most: MOST_POINTS });
    }
    Ok(Laid { shapes, scale, size_in: [width * scale, height * scale] })
}

fn check_coordinates(choice: &FigureChoice) -> Result<(), FigureProblem> {
    let wanted = "a number between -1,000,000,000 and 1,000,000,000";
    let paths = choice.figure.shapes.iter().flat_map(|shape| &shape.paths);
    for p in paths.flat_map(Path::points) {
        within("coordinate", p.x, -1e9, 1e9, wanted)?;
        within("coordinate", p.y, -1e9, 1e9, wanted)?;
    }
    Ok(())
}

/// Bounds of the drawn lines themselves, not of their control points.
fn bounds(choice: &FigureChoice) -> Result<(Point, Point), FigureProblem> {
    let paths = choice.figure.shapes.iter().flat_map(|shape| &shape.paths);
    let points: Vec<Point> = paths.flat_map(Path::extremes).collect();
    let (lo, hi) = polygon::bounds(&points).ok_or(FigureProblem::Nothing)?;
    if hi.x - lo.x <= 0.0 || hi.y - lo.y <= 0.0 {
        let what = if hi.x - lo.x <= 0.0 { "width as drawn" } else { "height as drawn" };
        return Err(FigureProblem::Number { what, value: 0.0, wanted: "more than 0" });
    }
    Ok((lo, hi))
}

fn scale_of(choice: &FigureChoice, width: f64, height: f64) -> Result<f64, FigureProblem> {
    let wanted = "from 1/4 to 200";
    let scale = match choice.size {
        FigureSize::WidthIn(inches) => {
            within("width in inches", inches, 0.25, MOST_FIGURE_IN, wanted)?;
            inches / width
        }
        FigureSize::HeightIn(inches) => {
            within("height in inches", inches, 0.25, MOST_FIGURE_IN, wanted)?;
            inches / height
        }
        FigureSize::AsDrawn => choice.figure.unit_in.ok_or(FigureProblem::NoTrueSize)?,
    };
    // The other side of a figure that is much longer than wide.
    let longest = width.max(height) * scale;
    within("longer side in inches", longest, 0.25, MOST_FIGURE_IN, wanted)?;
    Ok(scale)
}

fn laid(shape: &Shape, motion: impl Fn(Point) -> Point) -> Result<LaidShape, FigureProblem> {
    let mut rings = shape.paths.iter().map(|path| path.flattened(&motion, CHORD_ERROR_IN));
    let outer = rings.next().unwrap_or_default();
    let holes: Vec<Vec<Point>> = rings.collect();
    let found = outer.len() + holes.iter().map(Vec::len).sum::<usize>();
    if found > MOST_POINTS / 4 {
        return Err(FigureProblem::TooManyPoints { found, most: MOST_POINTS / 4 });
    }
    let drawn = Region::try_new(outer, holes)
        .map_err(|problem| FigureProblem::Shape { id: shape.id.clone(), problem })?;
    Ok(LaidShape { id: shape.id.clone(), cloth: shape.cloth, drawn })
}
