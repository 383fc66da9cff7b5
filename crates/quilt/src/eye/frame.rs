//! What several rows need: the centre and size of the piece, and the measures of each shape.

use super::row::EyeMark;
use super::shapes::Shapes;
use crate::wish::Wish;
use plane::{Point, polygon};

/// How many rings the piece is looked at in, from the centre to the outermost centroid.
pub(super) const RINGS: usize = 4;

/// The measures of one shape.
pub(super) struct Measures {
    pub(super) area: f64,
    pub(super) centroid: Point,
    /// Distance of the centroid from the centre, over R.
    pub(super) r: f64,
    /// Least width over diameter.
    pub(super) stoutness: f64,
}

/// A piece with its measures.
pub(super) struct Frame<'a> {
    pub(super) piece: &'a Shapes,
    pub(super) wish: &'a Wish,
    pub(super) centre: Point,
    /// R, the radius of the circle of the same area.
    pub(super) radius: f64,
    pub(super) measures: Vec<Measures>,
    /// Area of all shapes.
    pub(super) area: f64,
    farthest: f64,
}

impl<'a> Frame<'a> {
    /// `None` for a piece without area or shapes.
    pub(super) fn of(piece: &'a Shapes, wish: &'a Wish) -> Option<Self> {
        let centre = polygon::centroid(&piece.outline)?;
        let radius = (polygon::area(&piece.outline).abs() / std::f64::consts::PI).sqrt();
        let measures: Vec<Measures> =
            piece.shapes.iter().map(|shape| measure(&shape.points, centre, radius)).collect::<Option<_>>()?;
        let area: f64 = measures.iter().map(|m| m.area).sum();
        let farthest = measures.iter().map(|m| m.r).fold(0.0, f64::max);
        let sound = radius > 1e-6 && area > 1e-9 && area.is_finite() && !measures.is_empty();
        sound.then_some(Self { piece, wish, centre, radius, measures, area, farthest })
    }

    pub(super) fn count(&self) -> f64 {
        self.measures.len() as f64
    }

    /// The ring of a shape, of [`RINGS`] of equal width.
    pub(super) fn ring(&self, shape: usize) -> usize {
        let share = self.measures[shape].r / self.farthest.max(1e-9);
        ((share * RINGS as f64) as usize).min(RINGS - 1)
    }

    /// Marks of the shapes for which `wanted` holds.
    pub(super) fn outlines(&self, wanted: impl Fn(usize) -> bool) -> Vec<EyeMark> {
        let shapes = self.piece.shapes.iter().enumerate().filter(|(i, _)| wanted(*i));
        shapes.map(|(_, shape)| EyeMark::Polygon(shape.points.clone())).collect()
    }
}

fn measure(points: &[Point], centre: Point, radius: f64) -> Option<Measures> {
    let centroid = polygon::centroid(points)?;
    let across = polygon::diameter(points);
    Some(Measures {
        area: polygon::area(points).abs(),
        centroid,
        r: centroid.distance(centre) / radius.max(1e-12),
        stoutness: polygon::least_width(points) / across.max(1e-12),
    })
}
