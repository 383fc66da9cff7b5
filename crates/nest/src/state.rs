//! What lies where while it is sought: parts of cloths with their collisions, and pieces with their places.

use crate::ask::{Ask, Cloth, Price, Room, Source};
use crate::chance::{Chance, mixed};
use crate::engine::{Collisions, Met};
use crate::overlap::Edge;
use crate::plain;
use crate::problem::{NestProblem, check};
use crate::seek::{Frame, Seek, seek};
use crate::shape::Shape;
use jagua_rs::geometry::primitives::SPolygon;
use plane::{MITRE_LIMIT, Point, Region, Turn, Vec2, offset};
use std::cell::OnceCell;
use std::collections::HashSet;

/// One part of a cloth.
#[derive(Clone, Debug)]
pub(crate) struct Ground {
    pub(crate) cloth: usize,
    pub(crate) part: usize,
    /// What may be covered, with the room to its edge taken off.
    pub(crate) region: Region,
    pub(crate) frame: Frame,
    pub(crate) collisions: Collisions,
    pub(crate) on: Vec<usize>,
    /// Distances to its edge, once they are asked for.
    pub(crate) edge: OnceCell<Edge>,
    /// How far in things may reach while a length is made shorter.
    pub(crate) limit: Option<f64>,
    pub(crate) area: f64,
    pub(crate) filled: f64,
    /// Tells its contents apart from all that it had before.
    contents: u64,
}

impl Ground {
    /// Its own edges, the inside on their left.
    pub(crate) fn edges(&self) -> Vec<(Point, Point)> {
        let rings = std::iter::once(&self.region.outer).chain(&self.region.holes);
        rings.flat_map(|ring| plane::polygon::edges(ring)).collect()
    }
}

/// Where a piece lies: its middle at `by`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct At {
    pub(crate) ground: usize,
    pub(crate) turn: Turn,
    pub(crate) by: Vec2,
}

/// What lay where, and from which ends parts were filled.
#[derive(Clone, Debug, Default)]
pub(crate) struct Remembered {
    pub(crate) at: Vec<Option<At>>,
    headings: Vec<u8>,
}

/// Pieces, cloths, and what lies where.
pub(crate) struct State<'a> {
    pub(crate) ask: &'a Ask,
    pub(crate) shapes: Vec<Shape>,
    /// Which shape each piece has.
    pub(crate) shape_of: Vec<usize>,
    /// Pieces of one kind have the same outline and the same cloths.
    pub(crate) kind_of: Vec<usize>,
    pub(crate) rooms: Vec<SPolygon>,
    pub(crate) met: Met,
    pub(crate) grounds: Vec<Ground>,
    pub(crate) grounds_of: Vec<Vec<usize>>,
    pub(crate) at: Vec<Option<At>>,
    /// Pieces that came with a place: they never end without.
    pub(crate) must: Vec<bool>,
    pub(crate) missed: HashSet<(usize, usize, u64)>,
    pub(crate) chance: Chance,
    /// What all cloths cost together, and 1.
    pub(crate) all_cost: f64,
    /// Area of all pieces, in square inches.
    pub(crate) area: f64,
}

impl<'a> State<'a> {
    pub(crate) fn new(ask: &'a Ask) -> Result<Self, NestProblem> {
        check(ask)?;
        let (mut shapes, mut shape_of, mut kind_of) = (Vec::new(), Vec::new(), Vec::new());
        for (i, piece) in ask.pieces.iter().enumerate() {
            let alike = ask.pieces[..i].iter().position(|other| alike_to(other, piece));
            shape_of.push(match alike {
                Some(alike) => shape_of[alike],
                None => {
                    shapes.push(Shape::new(
                        &piece.name,
                        &piece.outline,
                        piece.tolerates,
                        ask.room.between_in,
                    )?);
                    shapes.len() - 1
                }
            });
            let same = |other: &crate::Piece| alike_to(other, piece) && other.from == piece.from;
            kind_of.push(ask.pieces[..i].iter().position(same).unwrap_or(i));
        }
        let (mut grounds, mut grounds_of) = (Vec::new(), vec![Vec::new(); ask.cloths.len()]);
        for (cloth, one) in ask.cloths.iter().enumerate() {
            let spots = spots(one, ask.room);
            for (part, region) in one.parts.iter().enumerate() {
                // Half the room between pieces is in each piece already.
                let inward = ask.room.between_in / 2.0 - ask.room.edge_in;
                let usable =
                    if inward == 0.0 { vec![region.clone()] } else { offset(region, inward, MITRE_LIMIT) };
                for region in usable.into_iter().filter(|region| region.area() > plane::READING) {
                    let too_fine = || NestProblem::TooFine { name: one.name.clone() };
                    let area = region.area();
                    let region = plain::smaller(&region);
                    let collisions = Collisions::new(&region, &spots).ok_or_else(too_fine)?;
                    let by_length = matches!(one.price, Price::ByLength(_));
                    let along = if by_length { Turn::NONE } else { one.grain };
                    let frame = Frame::new(&region.outer, along, by_length);
                    grounds_of[cloth].push(grounds.len());
                    grounds.push(Ground {
                        cloth,
                        part,
                        region,
                        frame,
                        collisions,
                        on: Vec::new(),
                        edge: OnceCell::new(),
                        limit: None,
                        area,
                        filled: 0.0,
                        contents: 0,
                    });
                }
            }
        }
        let costs = ask.cloths.iter().zip(&grounds_of).map(|(cloth, own)| match cloth.price {
            Price::Whole(cost) => cost,
            Price::ByLength(cost) => cost * own.iter().map(|&g| grounds[g].frame.long()).fold(0.0, f64::max),
        });
        let rooms = shapes.iter().map(|shape| shape.engine.clone()).collect();
        let area = shape_of.iter().map(|&s| shapes[s].area).sum();
        let all_cost = costs.sum::<f64>() + 1.0;
        Ok(Self {
            ask,
            rooms,
            met: Met::new(),
            shape_of,
            kind_of,
            grounds_of,
            area,
            all_cost,
            at: vec![None; ask.pieces.len()],
            must: vec![false; ask.pieces.len()],
            missed: HashSet::new(),
            chance: Chance::new(ask.effort.seed),
            shapes,
            grounds,
        })
    }

    pub(crate) fn shape(&self, piece: usize) -> &Shape {
        &self.shapes[self.shape_of[piece]]
    }

    pub(crate) fn is_opened(&self, cloth: usize) -> bool {
        self.grounds_of[cloth].iter().any(|&ground| !self.grounds[ground].on.is_empty())
    }

    pub(crate) fn put(&mut self, piece: usize, at: At) {
        let shape = &self.shapes[self.shape_of[piece]];
        let ground = &mut self.grounds[at.ground];
        ground.collisions.put(piece, shape, at.turn, at.by);
        ground.on.push(piece);
        ground.filled += shape.area;
        ground.contents ^= stamp(self.kind_of[piece], at);
        self.at[piece] = Some(at);
    }

    pub(crate) fn take(&mut self, piece: usize) {
        let Some(at) = self.at[piece].take() else { return };
        let ground = &mut self.grounds[at.ground];
        ground.collisions.take(piece);
        ground.on.retain(|&other| other != piece);
        ground.filled -= self.shapes[self.shape_of[piece]].area;
        ground.contents ^= stamp(self.kind_of[piece], at);
    }

    /// What lies where, to come back to.
    pub(crate) fn remember(&self) -> Remembered {
        let headings = self.grounds.iter().map(|ground| ground.frame.heading()).collect();
        Remembered { at: self.at.clone(), headings }
    }

    /// Brings everything to where it lay.
    pub(crate) fn restore(&mut self, to: &Remembered) {
        let moved: Vec<usize> = (0..to.at.len()).filter(|&piece| self.at[piece] != to.at[piece]).collect();
        for &piece in &moved {
            self.take(piece);
        }
        for piece in moved {
            if let Some(at) = to.at[piece] {
                self.put(piece, at);
            }
        }
        for (ground, heading) in self.grounds.iter_mut().zip(&to.headings) {
            ground.frame.turn(*heading);
        }
    }

    /// Takes everything out.
    pub(crate) fn clear(&mut self) {
        for piece in 0..self.at.len() {
            self.take(piece);
        }
    }

    pub(crate) fn is_free(&mut self, piece: usize, at: At) -> bool {
        let shape = self.shape_of[piece];
        let room = &mut self.rooms[shape];
        self.grounds[at.ground].collisions.is_free(&self.shapes[shape], room, at.turn, at.by)
    }

    /// A place for a piece on a part of one of its cloths. What was not found once is not sought again there until
    /// something else lies there.
    pub(crate) fn find(&mut self, piece: usize, source: &Source, ground: usize) -> Option<At> {
        let shape = self.shape_of[piece];
        let there = &self.grounds[ground];
        if there.area - there.filled < self.shapes[shape].area - plane::READING {
            return None;
        }
        let frame = mixed(u64::from(there.frame.heading()) + 1);
        let asked = (self.kind_of[piece], ground, there.contents ^ frame);
        if self.missed.contains(&asked) {
            return None;
        }
        let sides = self.sides(ground);
        let far = self.far(ground);
        let room = &mut self.rooms[shape];
        let collisions = &self.grounds[ground].collisions;
        let shape = &self.shapes[shape];
        let mut question = Seek {
            frame: &self.grounds[ground].frame,
            sides: &sides,
            shape,
            far,
            samples: self.ask.effort.samples,
            chance: &mut self.chance,
        };
        let found =
            seek(&mut question, &source.turns, &mut |turn, by| collisions.is_free(shape, room, turn, by));
        if found.is_none() {
            self.missed.insert(asked);
        }
        found.map(|(turn, by)| At { ground, turn, by })
    }

    /// The sides that something may lie against, the free side on their left.
    fn sides(&self, ground: usize) -> Vec<(Point, Point)> {
        let there = &self.grounds[ground];
        let mut sides = there.edges();
        for &piece in &there.on {
            let placed = self.outline(piece);
            sides.extend(plane::polygon::edges(&placed).map(|(a, b)| (b, a)));
        }
        sides
    }

    /// A placed piece with its room, in its cloth's coordinates.
    fn outline(&self, piece: usize) -> Vec<Point> {
        let Some(at) = self.at[piece] else { return Vec::new() };
        self.shape(piece).turned(at.turn).into_iter().map(|v| Point::ORIGIN + at.by + v).collect()
    }

    /// How far into a part its pieces reach, in inches.
    pub(crate) fn far(&self, ground: usize) -> f64 {
        let there = &self.grounds[ground];
        let reach = |&piece: &usize| {
            self.at[piece].map_or(0.0, |at| there.frame.far(self.shape(piece), at.turn, at.by))
        };
        there.on.iter().map(reach).fold(0.0, f64::max)
    }

    pub(crate) fn source(&self, piece: usize, cloth: usize) -> Option<&'a Source> {
        self.ask.pieces[piece].from.iter().find(|source| source.cloth == cloth)
    }
}

/// Whether two pieces are of one shape and may lie over the same.
fn alike_to(one: &crate::Piece, other: &crate::Piece) -> bool {
    one.outline == other.outline && one.tolerates == other.tolerates
}

/// The spots of a cloth with the room to them, and how bad they are.
fn spots(cloth: &Cloth, room: Room) -> Vec<(Vec<Point>, u8)> {
    let outward = room.edge_in - room.between_in / 2.0;
    let grown = cloth.spots.iter().flat_map(|spot| {
        let whole = Region { outer: spot.outline.clone(), holes: Vec::new() };
        let grown = if outward == 0.0 { vec![whole] } else { offset(&whole, outward, MITRE_LIMIT) };
        grown.into_iter().map(|region| (plain::larger(&region.outer), spot.badness))
    });
    grown.collect()
}

/// A number for one kind of piece at one place.
fn stamp(kind: usize, at: At) -> u64 {
    let numbers =
        [kind as u64, at.turn.cos.to_bits(), at.turn.sin.to_bits(), at.by.x.to_bits(), at.by.y.to_bits()];
    numbers
        .into_iter()
        .fold(0x51_7C_C1_B7, |hash, number| mixed(hash ^ number).wrapping_mul(0x2545_F491_4F6C_DD1D))
}
