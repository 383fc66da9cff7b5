//! Pieces that find no place: whether they would by themselves, and by how much they are too large.

use crate::ask::{LeftOver, Piece, Source};
use crate::seek::{Seek, seek};
use crate::shape::Shape;
use crate::state::State;
use plane::Point;

impl<'a> State<'a> {
    /// The pieces without a place. Everything is taken out for it.
    pub(crate) fn left_over(&mut self) -> Vec<LeftOver> {
        let left: Vec<usize> = (0..self.at.len()).filter(|&piece| self.at[piece].is_none()).collect();
        if left.is_empty() {
            return Vec::new();
        }
        self.clear();
        self.missed.clear();
        left.into_iter().map(|piece| LeftOver { piece, too_large: self.too_large(piece) }).collect()
    }

    /// Whether a piece fits none of its cloths even by itself, and by how much not. Nothing lies anywhere.
    fn too_large(&mut self, piece: usize) -> Option<(usize, f64)> {
        if self.fits_alone(piece) {
            return None;
        }
        let sources: &'a [Source] = &self.ask.pieces[piece].from;
        let Piece { outline, tolerates, .. } = &self.ask.pieces[piece];
        let long = plane::polygon::edges(outline).map(|(a, b)| a.distance(b)).fold(0.0, f64::max);
        let (mut low, mut high, mut nearest) = (0.0, 1.0, sources.first().map(|source| source.cloth));
        while (high - low) * long > 1.0 / 16.0 {
            let scale = f64::midpoint(low, high);
            match sources.iter().find(|source| self.fits_at(outline, *tolerates, scale, source)) {
                Some(source) => (low, nearest) = (scale, Some(source.cloth)),
                None => high = scale,
            }
        }
        nearest.map(|cloth| (cloth, (1.0 - low) * long))
    }

    /// Whether a piece fits one of its cloths while nothing lies anywhere.
    pub(crate) fn fits_alone(&mut self, piece: usize) -> bool {
        let sources: &'a [Source] = &self.ask.pieces[piece].from;
        sources.iter().any(|source| {
            let grounds = self.grounds_of[source.cloth].clone();
            grounds.into_iter().any(|ground| self.find(piece, source, ground).is_some())
        })
    }

    fn fits_at(&mut self, outline: &[Point], tolerates: u8, scale: f64, source: &Source) -> bool {
        let smaller: Vec<Point> = outline.iter().map(|p| Point::ORIGIN + p.to_vec2() * scale).collect();
        let Ok(shape) = Shape::new("", &smaller, tolerates, self.ask.room.between_in) else { return false };
        let mut room = shape.engine.clone();
        self.grounds_of[source.cloth].iter().any(|&ground| {
            let there = &self.grounds[ground];
            let sides = there.edges();
            let mut question = Seek {
                frame: &there.frame,
                sides: &sides,
                shape: &shape,
                far: 0.0,
                samples: self.ask.effort.samples,
                chance: &mut self.chance,
            };
            let free = &mut |turn, by| there.collisions.is_free(&shape, &mut room, turn, by);
            seek(&mut question, &source.turns, free).is_some()
        })
    }
}
