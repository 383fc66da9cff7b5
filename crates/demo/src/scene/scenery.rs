//! What lies on the table, and the light that any place of it sends back.

use super::card::Card;
use super::index::Index;
use super::mat::Mat;
use super::relief::Relief;
use super::texture::{Light, Texture};
use plane::{Point, Pose, Region, Vec2, polygon};
use std::sync::Arc;

/// Something that lies on the table; later ones lie on top.
#[derive(Clone, Debug)]
pub(super) enum Thing {
    /// A cloth, right side up.
    Cloth {
        /// Its outline on the table.
        outline: Region,
        /// Its print.
        texture: Arc<Texture>,
        /// From the table to the print.
        to_print: Pose,
    },
    /// A thread that has come loose.
    Thread {
        /// Its course on the table.
        course: Vec<Point>,
        /// Half its thickness, in inches.
        half_in: f64,
        /// Its light.
        light: Light,
    },
    /// A seam: what lies below it is darker in the ditch and lighter on the ridge at its left.
    Seam([Point; 2]),
    /// A measuring card.
    Card(Box<Card>),
}

/// Half the width in which a seam shows, in inches, and how dark its ditch is.
const SEAM_REACH_IN: f64 = 0.25;
const DITCH_IN: f64 = 0.014;
const DITCH_DARK: f64 = 0.45;
const RIDGE_LIGHT: f64 = 0.05;

impl Thing {
    /// Lower left and upper right of where it can be seen.
    pub(super) fn bounds(&self) -> (Point, Point) {
        let (points, reach) = match self {
            Self::Cloth { outline, .. } => (outline.outer.clone(), 0.0),
            Self::Thread { course, half_in, .. } => (course.clone(), *half_in),
            Self::Seam(ends) => (ends.to_vec(), SEAM_REACH_IN),
            Self::Card(card) => (card.paper_outline().outer, 0.0),
        };
        let (low, high) = polygon::bounds(&points).unwrap_or_default();
        let reach = Vec2::new(reach, reach);
        (low - reach, high + reach)
    }

    /// Lines across which its light jumps.
    pub(super) fn edges(&self) -> Vec<[Point; 2]> {
        let ring = |points: &[Point]| polygon::edges(points).map(|(a, b)| [a, b]).collect::<Vec<_>>();
        match self {
            Self::Cloth { outline, .. } => {
                outline.holes.iter().chain([&outline.outer]).flat_map(|points| ring(points)).collect()
            }
            Self::Thread { course, .. } => course.windows(2).map(|w| [w[0], w[1]]).collect(),
            Self::Seam(ends) => vec![*ends],
            Self::Card(card) => {
                let mut edges = card.edges();
                edges.extend(ring(&card.paper_outline().outer));
                edges
            }
        }
    }

    /// Whether it keeps light from what lies below.
    pub(super) fn covers(&self, p: Point) -> bool {
        match self {
            Self::Cloth { outline, .. } => outline.contains(p),
            Self::Thread { course, half_in, .. } => {
                course.windows(2).any(|w| from_line([w[0], w[1]], p).0 < *half_in)
            }
            Self::Seam(_) => false,
            Self::Card(card) => card.covers(p),
        }
    }
}

/// The table with everything on it.
#[derive(Clone, Debug)]
pub(super) struct Scenery {
    mat: Mat,
    things: Vec<Thing>,
    index: Index,
    relief: Relief,
}

impl Scenery {
    /// Lays things on a mat; the relief holds what their thickness does to the light.
    pub(super) fn new(mat: Mat, things: Vec<Thing>, relief: Relief) -> Self {
        let index = Index::new(&things);
        Self { mat, things, index, relief }
    }

    /// Everything on the mat.
    pub(super) fn things(&self) -> &[Thing] {
        &self.things
    }

    /// The light that a place of the table sends back.
    pub(super) fn at(&self, p: Point) -> Light {
        let mut dim = 1.0;
        for &no in self.index.at(p).iter().rev() {
            match &self.things[usize::from(no)] {
                Thing::Cloth { outline, texture, to_print } if outline.contains(p) => {
                    return scaled(texture.at(to_print.apply(p)), dim * self.relief.wave(p));
                }
                Thing::Thread { light, .. } if self.things[usize::from(no)].covers(p) => {
                    return scaled(*light, dim);
                }
                Thing::Seam(ends) => dim *= seam_light(*ends, p),
                Thing::Card(card) if card.covers(p) => {
                    return scaled(card.at(card.pose.inverse().apply(p)), dim);
                }
                _ => {}
            }
        }
        scaled(self.mat.at(p), dim * self.relief.shade(p))
    }
}

/// What a small part of the table shows, where no edge runs through it.
enum Face<'a> {
    Cloth(&'a Texture, Pose),
    Card(&'a Card, Pose),
    Mat,
    /// Threads or seams may show beside it.
    Several,
}

impl Scenery {
    /// What covers a place.
    fn face(&self, p: Point) -> Face<'_> {
        let here = self.index.at(p).iter().rev().map(|&no| &self.things[usize::from(no)]);
        if here.clone().any(|thing| matches!(thing, Thing::Thread { .. } | Thing::Seam(_))) {
            return Face::Several;
        }
        for thing in here {
            match thing {
                Thing::Cloth { outline, texture, to_print } if outline.contains(p) => {
                    return Face::Cloth(texture, *to_print);
                }
                Thing::Card(card) if card.covers(p) => return Face::Card(card, card.pose.inverse()),
                _ => {}
            }
        }
        Face::Mat
    }

    /// The mean light of places close around `middle` with no edge between them, of which what covers
    /// them and how the light falls are asked once.
    pub(super) fn mean_of_one<P>(&self, middle: Point, places: P) -> Light
    where
        P: ExactSizeIterator<Item = Point> + Clone,
    {
        match self.face(middle) {
            Face::Cloth(texture, to_print) => {
                let mean = mean(places.map(|p| texture.at(to_print.apply(p))));
                scaled(mean, self.relief.wave(middle))
            }
            Face::Card(card, to_card) => mean(places.map(|p| card.at(to_card.apply(p)))),
            Face::Mat => match self.mat.even_at(middle, places.clone()) {
                Some(light) => scaled(light, self.relief.shade(middle)),
                None => mean(places.map(|p| self.at(p))),
            },
            Face::Several => mean(places.map(|p| self.at(p))),
        }
    }
}

/// The mean of some light.
pub(super) fn mean(lights: impl ExactSizeIterator<Item = Light>) -> Light {
    let many = lights.len() as f32;
    let add = |sum: Light, light: Light| [sum[0] + light[0], sum[1] + light[1], sum[2] + light[2]];
    lights.fold([0.0; 3], add).map(|sum| sum / many)
}

fn scaled(light: Light, by: f64) -> Light {
    light.map(|part| part * by as f32)
}

/// How much of the light comes back beside a seam.
fn seam_light(ends: [Point; 2], p: Point) -> f64 {
    let (distance, left) = from_line(ends, p);
    if distance > SEAM_REACH_IN {
        return 1.0;
    }
    let ditch = 1.0 - DITCH_DARK * (-(distance / DITCH_IN).powi(2)).exp();
    let fade = 1.0 - distance / SEAM_REACH_IN;
    ditch * (1.0 + if left { RIDGE_LIGHT } else { -RIDGE_LIGHT } * fade)
}

/// How far a place lies from a line between two points, and whether it lies at its left.
fn from_line([a, b]: [Point; 2], p: Point) -> (f64, bool) {
    let along = b - a;
    let square = along.dot(along);
    let t = if square > 0.0 { (along.dot(p - a) / square).clamp(0.0, 1.0) } else { 0.0 };
    (p.distance(a.lerp(b, t)), along.cross(p - a) > 0.0)
}
