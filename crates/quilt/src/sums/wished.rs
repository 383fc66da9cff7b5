//! How much cloth a wish takes before there is anything to count: from its outline, the wished sizes of the
//! pieces, and the colours on their way outward.
//!
//! Within a share `r` of the way to the rim lies `r^2` of the area of any outline, so a thin ring is `2 r dr` of
//! it. A piece there is reckoned as a square `e = 0.93 s` wide, `s` its wished width, and is cut `e + 2 a`: cut for
//! finished is `((e + 2 a) / e)^2`. (Geometry; 0.93^2 = 0.86 is the share of its square that a grown piece covers,
//! as growing counts on.)

use crate::length::MeasureProblem;
use crate::wish::{Towards, Wish};
use colour::Lab;
use plane::{Point, polygon};
use serde::Serialize;

/// Share of the square of its wished width that a piece covers.
const COVERS: f64 = 0.86;
/// So much more is bought than is cut: for trimming, and for what lies between pieces (common practice, no
/// source: a quarter more).
pub const WASTE: f64 = 1.25;
/// Into so many rings the way outward is cut.
const RINGS: u32 = 256;

/// Cloth of one colour.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WishedColour {
    /// The colour; `None` where no drift is wished.
    pub lab: Option<Lab>,
    /// Square inches as cut.
    pub cut_in2: f64,
}

/// What a wish takes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Wished {
    /// Finished width and height, in inches.
    pub size_in: [f64; 2],
    /// Length round its raw edge, in inches.
    pub round_in: f64,
    /// How many pieces, about.
    pub pieces: u32,
    /// Length of the seams between them, in inches, about.
    pub seams_in: f64,
    /// Colours of the drift from the centre outward.
    pub colours: Vec<WishedColour>,
    /// What may leave the drift, in square inches as cut.
    pub sparks_in2: f64,
}

/// What a wish takes.
///
/// # Errors
/// An outline without area, or sizes that make no sense.
pub fn wished(wish: &Wish) -> Result<Wished, MeasureProblem> {
    let outline = outline(wish);
    let (low, high) = polygon::bounds(&outline).unwrap_or_default();
    let area = super::some("size", polygon::area(&outline).abs().sqrt())?.powi(2);
    let allowance_in = super::seam(wish.allowance_in)?;
    let [inner, outer] = wish.piece_in;
    let (inner, outer) =
        (super::some("piece at the centre", inner)?, super::some("piece at the rim", outer)?);
    let stops: Vec<f64> = wish.drift.iter().map(|stop| stop.at).collect();
    let mut cut_in2 = vec![0.0; stops.len().max(1)];
    let (mut pieces, mut seams_in) = (0.0, 0.0);
    for ring in 0..RINGS {
        let share = (f64::from(ring) + 0.5) / f64::from(RINGS);
        let ring_in2 = 2.0 * share / f64::from(RINGS) * area;
        let edge = COVERS.sqrt() * inner * (outer / inner).powf(share);
        let count = ring_in2 / (edge * edge);
        pieces += count;
        // Each of a square's four edges is shared by two pieces.
        seams_in += 2.0 * edge * count;
        let cut = count * (edge + 2.0 * allowance_in).powi(2);
        for (at, part) in parts(&stops, share) {
            if let Some(sum) = cut_in2.get_mut(at) {
                *sum += part * cut;
            }
        }
    }
    let sides = polygon::edges(&outline).count();
    let raw = plane::grow_sides(&outline, &vec![allowance_in; sides]);
    let sparks = wish.sparks.clamp(0.0, 1.0);
    let sparks_in2 = sparks * cut_in2.iter().sum::<f64>();
    let colours = cut_in2.iter().enumerate().map(|(i, cut)| WishedColour {
        lab: wish.drift.get(i).map(|stop| stop.lab),
        cut_in2: (1.0 - sparks) * cut,
    });
    Ok(Wished {
        size_in: [high.x - low.x, high.y - low.y],
        round_in: polygon::edges(&raw).map(|(a, b)| a.distance(b)).sum(),
        pieces: pieces.round() as u32,
        seams_in,
        colours: colours.collect(),
        sparks_in2,
    })
}

/// Which stops a place on the way has the colours of, with their parts.
fn parts(stops: &[f64], share: f64) -> Vec<(usize, f64)> {
    let Some(after) = stops.iter().position(|stop| *stop >= share) else {
        return vec![(stops.len().saturating_sub(1), 1.0)];
    };
    let Some(before) = after.checked_sub(1) else { return vec![(0, 1.0)] };
    let (from, to) = (stops[before], stops[after]);
    let part = if to > from { (share - from) / (to - from) } else { 1.0 };
    vec![(before, 1.0 - part), (after, part)]
}

/// The wished outline, finished; a heptagon where no outline is in mind.
fn outline(wish: &Wish) -> Vec<Point> {
    match &wish.towards {
        Towards::Polygon(points) => points.clone(),
        Towards::Rectangle { width_in, height_in } => plane::Region::rectangle(*width_in, *height_in).outer,
        Towards::Round { sides } => regular(u32::from(*sides).max(3), wish.across_in),
        Towards::Free => regular(7, wish.across_in),
    }
}

/// A regular polygon with the area of a circle so wide.
fn regular(sides: u32, across_in: f64) -> Vec<Point> {
    let step = std::f64::consts::TAU / f64::from(sides);
    let area = std::f64::consts::PI * across_in * across_in / 4.0;
    let radius = (2.0 * area / (f64::from(sides) * step.sin())).sqrt();
    (0..sides)
        .map(|i| {
            let (sin, cos) = (f64::from(i) * step).sin_cos();
            Point::new(radius * cos, radius * sin)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wish::even_drift;

    fn square(size_in: f64, piece_in: f64) -> Wish {
        let towards = Towards::Rectangle { width_in: size_in, height_in: size_in };
        let edge = piece_in / COVERS.sqrt();
        Wish { towards, piece_in: [edge, edge], sparks: 0.0, ..Wish::default() }
    }

    // Printed sums of squares: a 2 1/2 inch square finishes at 2; 100 of them cover 20 by 20 (worked on paper).
    #[test]
    fn a_square_of_equal_squares_is_that_of_the_paper() {
        let found = wished(&square(20.0, 2.0)).expect("a wish");
        assert_eq!(found.pieces, 100);
        assert!((found.colours[0].cut_in2 - 625.0).abs() < 0.01, "{found:?}");
        assert!((found.round_in - 82.0).abs() < 1e-9 && (found.seams_in - 400.0).abs() < 0.01);
        assert_eq!(found.sparks_in2, 0.0);
    }

    // Of a disc whose colour goes evenly from the middle to the rim a third has the first (the volume of a cone
    // over its cylinder).
    #[test]
    fn two_colours_share_the_cloth_as_a_cone_and_its_cylinder() {
        let white = Lab::new(100.0, 0.0, 0.0);
        let wish = Wish { drift: even_drift(&[white, Lab::new(0.0, 0.0, 0.0)]), ..square(20.0, 2.0) };
        let found = wished(&wish).expect("a wish");
        let all: f64 = found.colours.iter().map(|colour| colour.cut_in2).sum();
        assert!((found.colours[0].cut_in2 / all - 1.0 / 3.0).abs() < 1e-4, "{found:?}");
        let sparks = wished(&Wish { sparks: 0.1, ..wish }).expect("a wish");
        assert!((sparks.sparks_in2 - 0.1 * all).abs() < 1e-6);
    }

    #[test]
    fn what_makes_no_sense_is_refused() {
        assert!(wished(&Wish { across_in: 0.0, ..Wish::default() }).is_err());
        assert!(wished(&Wish { piece_in: [f64::NAN, 1.0], ..Wish::default() }).is_err());
    }
}
