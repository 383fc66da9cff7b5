//! What the maker wishes: kept with the quilt, read by the search, never by the replay.

mod check;
mod measure;

pub use check::{WishProblem, set_outline};
pub use measure::{MEASURES, Measure, Unit};

use crate::cloth::ClothId;
use colour::Lab;
use plane::{Point, Region};
use serde::{Deserialize, Serialize};

/// The outline to grow towards.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Towards {
    /// Round, with so many sides (5 to 8).
    Round {
        /// How many sides.
        sides: u8,
    },
    /// A convex polygon, finished, centred on the origin.
    Polygon(Vec<Point>),
    /// A rectangle of this finished size.
    Rectangle {
        /// Finished width in inches.
        width_in: f64,
        /// Finished height in inches.
        height_in: f64,
    },
    /// No outline in mind.
    Free,
}

/// The sense in which pieces are added round the centre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Spiral {
    /// No order.
    None,
    /// Each piece clockwise of the one before, seen from the front.
    Clockwise,
    /// Each piece anticlockwise of the one before.
    Anticlockwise,
}

/// A colour on the way from the centre outward.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct DriftStop {
    /// Share of the way from the centre (0) to the rim (1).
    pub at: f64,
    /// The colour there.
    pub lab: Lab,
}

/// A part of a cloth to be shown whole.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Motif {
    /// On which cloth.
    pub cloth: ClothId,
    /// The part to show, in the cloth's coordinates.
    pub part: Region,
}

/// What must hold for every patch and corner.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Limits {
    /// Least width of a finished shape, in inches.
    pub thin_in: f64,
    /// Least corner of a finished shape, in degrees.
    pub sharp_deg: f64,
    /// Layers at which a point is named.
    pub thick_layers: u32,
    /// Layers at which a step is refused.
    pub most_layers: u32,
}

impl Default for Limits {
    fn default() -> Self {
        Self { thin_in: 0.5, sharp_deg: 20.0, thick_layers: 7, most_layers: 9 }
    }
}

/// How much each term of the score counts; 1 is the usual weight, 0 leaves it out.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Weights {
    /// Roundness, or nearness to the wished outline.
    pub round: f64,
    /// Chunky wedges rather than bars.
    pub chunky: f64,
    /// Size growing in step with the distance from the centre.
    pub step: f64,
    /// Visual weight balanced about the centre.
    pub balance: f64,
    /// Colours on their way outward.
    pub drift: f64,
    /// Edges that read.
    pub contrast: f64,
    /// Prints that rest before they come again.
    pub rest: f64,
    /// Little trimmed off.
    pub thrift: f64,
    /// What is left of the cloth stays useful.
    pub leftover: f64,
}

impl Default for Weights {
    fn default() -> Self {
        Self {
            round: 1.0,
            chunky: 1.0,
            step: 1.0,
            balance: 1.0,
            drift: 1.0,
            contrast: 1.0,
            rest: 1.0,
            thrift: 1.0,
            leftover: 1.0,
        }
    }
}

/// What the maker wishes of a centre.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Wish {
    /// The outline to grow towards.
    pub towards: Towards,
    /// Finished width across, for a round or free outline: the diameter of the circle of the same
    /// area, in inches.
    pub across_in: f64,
    /// What each seam takes from each of its two sides, in inches: a quarter, or the maker's own
    /// seam, calibrated once. Every cut, seam line and finished size is planned with it.
    pub allowance_in: f64,
    /// The sense of growing.
    pub spiral: Spiral,
    /// Colours from the centre outward, by distance; empty when there is no drift.
    pub drift: Vec<DriftStop>,
    /// Share of patches that may leave the drift as sparks, 0 to 1.
    pub sparks: f64,
    /// Least and most colour difference (CIEDE2000) wished between neighbours.
    pub contrast: [f64; 2],
    /// Distance within which a print should not come again, in inches.
    pub rest_in: f64,
    /// Wished finished width of a piece at the centre and at the rim, in inches.
    pub piece_in: [f64; 2],
    /// Cloths not to be used.
    pub spare: Vec<ClothId>,
    /// Cloths to be used where they can be.
    pub use_up: Vec<ClothId>,
    /// Extra cloth wanted round the free sides of a patch before it is cut, in inches: scraps are
    /// cut roughly and trimmed after they are sewn.
    pub rough_in: f64,
    /// Whether prints with a top must stand upright on the wall.
    pub upright: bool,
    /// A part of a print to show whole, if any.
    pub motif: Option<Motif>,
    /// What must hold everywhere.
    pub limits: Limits,
    /// What counts how much.
    pub weights: Weights,
}

impl Default for Wish {
    fn default() -> Self {
        Self {
            towards: Towards::Round { sides: 7 },
            across_in: 20.0,
            allowance_in: 0.25,
            spiral: Spiral::None,
            drift: Vec::new(),
            sparks: 0.06,
            contrast: [8.0, 60.0],
            rest_in: 4.0,
            piece_in: [1.3, 3.7],
            spare: Vec::new(),
            use_up: Vec::new(),
            rough_in: 0.25,
            upright: true,
            motif: None,
            limits: Limits::default(),
            weights: Weights::default(),
        }
    }
}

/// A drift through colours in order, from the centre to the rim, with stops so placed that equal
/// steps outward are equal steps of colour (CIEDE2000 from stop to stop).
#[must_use]
pub fn even_drift(colours: &[Lab]) -> Vec<DriftStop> {
    let steps: Vec<f64> = colours.windows(2).map(|pair| colour::difference(pair[0], pair[1])).collect();
    let whole: f64 = steps.iter().sum();
    let mut way = 0.0;
    colours
        .iter()
        .enumerate()
        .map(|(i, &lab)| {
            if i > 0 {
                way += steps[i - 1];
            }
            let even = i as f64 / (colours.len() - 1).max(1) as f64;
            DriftStop { at: if whole > 0.0 { way / whole } else { even }, lab }
        })
        .collect()
}

impl Wish {
    /// The wished colour at a share of the way outward, between the two stops around it.
    #[must_use]
    pub fn colour_at(&self, share: f64) -> Option<Lab> {
        let after = self.drift.iter().position(|stop| stop.at >= share);
        let (a, b) = match after {
            Some(0) => (self.drift.first()?, self.drift.first()?),
            Some(i) => (&self.drift[i - 1], &self.drift[i]),
            None => (self.drift.last()?, self.drift.last()?),
        };
        let span = b.at - a.at;
        let t = if span > 0.0 { ((share - a.at) / span).clamp(0.0, 1.0) } else { 0.0 };
        let mix = |x: f64, y: f64| x + (y - x) * t;
        Some(Lab { l: mix(a.lab.l, b.lab.l), a: mix(a.lab.a, b.lab.a), b: mix(a.lab.b, b.lab.b) })
    }

    /// Where on the drift a colour lies, see [`place_on_path`].
    #[must_use]
    pub fn place_on_drift(&self, lab: Lab) -> Option<f64> {
        place_on_path(&self.drift, lab)
    }
}

/// Where on a path of colours another lies: the share of the way outward at which the straight line
/// from stop to stop comes nearest to it in CIELAB; `None` for fewer than two stops.
pub(crate) fn place_on_path(stops: &[DriftStop], lab: Lab) -> Option<f64> {
    let away = |a: Lab, b: Lab| [b.l - a.l, b.a - a.a, b.b - a.b];
    let dot = |u: [f64; 3], v: [f64; 3]| u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
    let legs = stops.windows(2).map(|leg| {
        let (along, off) = (away(leg[0].lab, leg[1].lab), away(leg[0].lab, lab));
        let t = (dot(along, off) / dot(along, along).max(1e-12)).clamp(0.0, 1.0);
        let rest = [off[0] - t * along[0], off[1] - t * along[1], off[2] - t * along[2]];
        (dot(rest, rest), leg[0].at + (leg[1].at - leg[0].at) * t)
    });
    legs.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, at)| at)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wish_stored_with_two_seams_is_still_read_and_plans_with_one() {
        let stored = r#"{"across_in": 31.5, "allowance_in": 0.375, "seam_eats_in": 0.265625}"#;
        let wish: Wish = serde_json::from_str(stored).expect("an old wish");
        assert_eq!(wish, Wish { across_in: 31.5, allowance_in: 0.375, ..Wish::default() });
    }
}
