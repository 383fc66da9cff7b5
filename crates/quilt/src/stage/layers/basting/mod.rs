//! Holding the layers together: pins, spray, thread, or a frame.

mod frame;
mod pins;
mod rows;
mod words;

pub use frame::Loading;
pub use rows::Row;

use super::backing::Backing;
use super::choice::{Basting, Guiding, LayersChoice, Spray};
use super::problem::LayersProblem;
use super::squared::checked;
use crate::length::within;
use plane::{Point, Region, largest_disc, polygon};
use serde::Serialize;

/// Distances from the edge and spacings are found to this, in inches.
const CLOSE_IN: f64 = 1.0 / 64.0;

/// How the layers are held together.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BastingPlan {
    /// What holds them.
    pub with: With,
    /// How far apart pins or rows are, in inches; 0 without either.
    pub spacing_in: f64,
    /// How far from the raw edge they stay, in inches; 0 without either.
    pub edge_in: f64,
}

/// What holds the layers together.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum With {
    /// Pins, where the piece lies seen from the front, from the centre out.
    Pins(Vec<Point>),
    /// Spray on so many square inches: the batting's two faces.
    Spray {
        /// The area.
        area_in2: f64,
        /// Cans, where what a can covers is known.
        cans: Option<u32>,
    },
    /// Rows of thread both ways, from the centre out.
    Thread {
        /// The rows.
        rows: Vec<Row>,
        /// How long they are together.
        rows_in: f64,
        /// Thread for them.
        thread_in: f64,
    },
    /// A frame.
    Frame(Loading),
}

/// Plans the basting of a piece over its back.
///
/// # Errors
/// A number or an outline that is none; a piece too narrow for basting so far from its edge; pins and
/// the like on a frame, or clamps without one.
pub fn basting(
    choice: &LayersChoice,
    outline: &[Point],
    back: &Backing,
) -> Result<BastingPlan, LayersProblem> {
    choice.check()?;
    let outline = checked(outline)?;
    match (choice.guiding, choice.basting) {
        (Guiding::Frame(frame), None | Some(Basting::Frame)) => frame::frame(&frame, back),
        (Guiding::Frame(_), Some(with)) => Err(LayersProblem::BastedOnFrame { with: word(with) }),
        (Guiding::ByHand, None) => pins::pins(&super::Pins::default(), &outline),
        (Guiding::ByHand, Some(Basting::Pins(pins))) => pins::pins(&pins, &outline),
        (Guiding::ByHand, Some(Basting::Spray(spray))) => self::spray(spray, &outline),
        (Guiding::ByHand, Some(Basting::Thread(thread))) => rows::rows(&thread, &outline),
        (Guiding::ByHand, Some(Basting::Frame)) => Err(LayersProblem::NoFrame),
    }
}

const fn word(basting: Basting) -> &'static str {
    match basting {
        Basting::Pins(_) => "pins",
        Basting::Spray(_) => "spray",
        Basting::Thread(_) => "thread",
        Basting::Frame => "clamps",
    }
}

fn spray(spray: Spray, outline: &[Point]) -> Result<BastingPlan, LayersProblem> {
    let must = "from 1 to 1,000,000 square inches";
    within("area that a can covers", spray.can_covers_in2.unwrap_or(1.0), [1.0, 1e6], must)?;
    let area_in2 = 2.0 * polygon::area(outline);
    let cans = spray.can_covers_in2.map(|covers| (area_in2 / covers - 1e-9).ceil().max(1.0) as u32);
    Ok(BastingPlan { with: With::Spray { area_in2, cans }, spacing_in: 0.0, edge_in: 0.0 })
}

/// Everything at least so far inside the outline.
///
/// # Errors
/// A piece that is nowhere so far from its edge.
fn inside(outline: &[Point], edge_in: f64) -> Result<Vec<Region>, LayersProblem> {
    let piece = Region { outer: outline.to_vec(), holes: Vec::new() };
    let inside = plane::offset(&piece, -edge_in, plane::MITRE_LIMIT);
    if inside.is_empty() {
        let most_in = largest_disc(&piece, CLOSE_IN).map_or(0.0, |disc| disc.radius);
        return Err(LayersProblem::NoRoomToBaste { edge_in, most_in });
    }
    Ok(inside)
}

/// The spacing and the distance from the edge, checked.
fn spaced(spacing_in: f64, edge_in: f64) -> Result<(), LayersProblem> {
    within("spacing of the basting", spacing_in, [0.5, 100.0], "from 1/2 to 100 inches")?;
    within("distance of the basting from the edge", edge_in, [0.0, 24.0], "from 0 to 24 inches")?;
    Ok(())
}

/// Where basting begins: the centre of area, or a point inside where that isn't one.
fn centre(outline: &[Point]) -> Point {
    let region = Region { outer: outline.to_vec(), holes: Vec::new() };
    let middle = polygon::centroid(outline).filter(|p| region.contains(*p));
    middle.or_else(|| largest_disc(&region, CLOSE_IN).map(|disc| disc.centre)).unwrap_or_default()
}
