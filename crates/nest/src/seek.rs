//! One place for one piece on one part of a cloth: along its sides and against what lies there, in corners, and by
//! chance; the best is moved up as close as it goes.

use crate::ask::Turns;
use crate::chance::Chance;
use crate::shape::{Shape, TOUCH_IN};
use plane::{Point, Turn, Vec2};

/// From which end a part is filled, and from which side.
#[derive(Clone, Debug)]
pub(crate) struct Frame {
    grain: Turn,
    heading: u8,
    is_fixed: bool,
    pub(crate) along: Vec2,
    pub(crate) across: Vec2,
    from: [f64; 2],
    to: [f64; 2],
    /// What an inch from the side counts against one from the end.
    to_side: f64,
    outline: Vec<Point>,
}

impl Frame {
    /// Filled along the longer way of the threads, or as given.
    pub(crate) fn new(outline: &[Point], grain: Turn, is_fixed: bool) -> Self {
        let zero = Vec2::new(0.0, 0.0);
        let (from, to, outline) = ([0.0; 2], [0.0; 2], outline.to_vec());
        let mut frame =
            Self { grain, heading: 0, is_fixed, along: zero, across: zero, from, to, to_side: 0.15, outline };
        frame.turn(0);
        if !is_fixed && frame.long() < frame.wide() {
            frame.turn(1);
        }
        frame
    }

    /// From another end: 0 to 3 by quarters, 4 more from the other side, 8 more into the corner instead of across.
    pub(crate) fn turn(&mut self, heading: u8) {
        let heading = if self.is_fixed { 0 } else { heading % 16 };
        if heading == self.heading && self.along.length() > 0.0 {
            return;
        }
        self.heading = heading;
        let mut along = self.grain;
        for _ in 0..self.heading % 4 {
            along = along.left();
        }
        self.to_side = if self.heading < 8 { 0.15 } else { 1.0 };
        let across = if self.heading % 8 < 4 { along.left() } else { along.left().opposite() };
        (self.along, self.across) = (along.vec(), across.vec());
        for (i, way) in [self.along, self.across].into_iter().enumerate() {
            let reach = self.outline.iter().map(|p| p.to_vec2().dot(way));
            (self.from[i], self.to[i]) =
                reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
        }
    }

    pub(crate) const fn heading(&self) -> u8 {
        self.heading
    }

    /// From its first end to the last, in inches.
    pub(crate) const fn long(&self) -> f64 {
        self.to[0] - self.from[0]
    }

    /// From side to side, in inches.
    pub(crate) const fn wide(&self) -> f64 {
        self.to[1] - self.from[1]
    }

    /// A place by its inches from the first end and side.
    pub(crate) fn at(&self, along_in: f64, across_in: f64) -> Vec2 {
        self.along * (self.from[0] + along_in) + self.across * (self.from[1] + across_in)
    }

    /// How far in a shape at a place reaches.
    pub(crate) fn far(&self, shape: &Shape, turn: Turn, by: Vec2) -> f64 {
        self.reach(shape, turn).1[0] + by.dot(self.along) - self.from[0]
    }

    /// From where to where a shape at a turn reaches along and across, about its middle.
    pub(crate) fn reach(&self, shape: &Shape, turn: Turn) -> ([f64; 2], [f64; 2]) {
        let back = turn.inverse();
        let ways = [self.along, self.across].map(|way| back.apply(way));
        let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
        for corner in &shape.outline {
            for (i, way) in ways.into_iter().enumerate() {
                let at = corner.to_vec2().dot(way);
                low[i] = low[i].min(at);
                high[i] = high[i].max(at);
            }
        }
        (low, high)
    }
}

/// A shape at one turn: how far it reaches along and across, about its middle.
pub(crate) struct Turned {
    pub(crate) corners: Vec<Vec2>,
    pub(crate) low: [f64; 2],
    pub(crate) high: [f64; 2],
}

impl Turned {
    pub(crate) fn new(shape: &Shape, frame: &Frame, turn: Turn) -> Self {
        let (low, high) = frame.reach(shape, turn);
        Self { corners: shape.turned(turn), low, high }
    }
}

/// Where a place is sought.
pub(crate) struct Seek<'a> {
    pub(crate) frame: &'a Frame,
    /// Sides to lie against, the free side on their left.
    pub(crate) sides: &'a [(Point, Point)],
    pub(crate) shape: &'a Shape,
    /// How far in something lies already.
    pub(crate) far: f64,
    pub(crate) samples: u32,
    pub(crate) chance: &'a mut Chance,
}

/// A place where nothing is in the way: as near the first end as found, then as near the side.
pub(crate) fn seek(
    seek: &mut Seek<'_>,
    turns: &Turns,
    free: &mut dyn FnMut(Turn, Vec2) -> bool,
) -> Option<(Turn, Vec2)> {
    let Seek { frame, shape, .. } = *seek;
    let known: Vec<(Turn, Turned)> = match turns {
        Turns::Only(only) => only.iter().map(|&turn| (turn, Turned::new(shape, frame, turn))).collect(),
        Turns::Any => Vec::new(),
    };
    let mut best: Option<(Turn, Vec2, f64)> = None;
    for _ in 0..seek.samples {
        let made;
        let (turn, turned, by) = if known.is_empty() {
            if matches!(turns, Turns::Only(_)) {
                return None;
            }
            let (turn, by) = seek.any_way();
            made = Turned::new(shape, frame, turn);
            let by = by.unwrap_or_else(|| seek.by_chance(&made));
            (turn, &made, by)
        } else {
            let (turn, turned) = &known[seek.chance.below(known.len())];
            (*turn, turned, seek.against(turned))
        };
        let score = seek.score(turned, by);
        if best.is_some_and(|(_, _, least)| score >= least - TOUCH_IN) || !free(turn, by) {
            continue;
        }
        let by = closer(frame, shape, turn, by, &mut |by| free(turn, by));
        best = Some((turn, by, seek.score(turned, by)));
    }
    best.map(|(turn, by, _)| (turn, by))
}

impl Seek<'_> {
    /// How far in, and how much further than anything before; then how far from the side.
    fn score(&self, turned: &Turned, by: Vec2) -> f64 {
        let far = turned.high[0] + by.dot(self.frame.along) - self.frame.from[0];
        let side = turned.high[1] + by.dot(self.frame.across) - self.frame.from[1];
        far + self.frame.to_side * side + (far - self.far).max(0.0)
    }

    /// A corner of the sides.
    fn corner(&mut self) -> Vec2 {
        let side = self.chance.below(self.sides.len());
        self.sides[side].0.to_vec2()
    }

    /// A place at a given turn: corner in corner, level with two corners, or anywhere.
    fn against(&mut self, turned: &Turned) -> Vec2 {
        let way = self.chance.share();
        if way < 0.4 {
            let own = turned.corners[self.chance.below(turned.corners.len())];
            return self.corner() - own;
        }
        if way < 0.8 {
            let (one, other) = (self.corner(), self.corner());
            let mut level = |corner: Vec2, way: Vec2, i: usize| {
                let own = if self.chance.share() < 0.75 { turned.low[i] } else { turned.high[i] };
                way * (corner.dot(way) - own)
            };
            return level(one, self.frame.along, 0) + level(other, self.frame.across, 1);
        }
        self.by_chance(turned)
    }

    fn by_chance(&mut self, turned: &Turned) -> Vec2 {
        let frame = self.frame;
        let mut between = |i: usize| {
            let room = frame.to[i] - frame.from[i] - (turned.high[i] - turned.low[i]);
            room * self.chance.share() - turned.low[i]
        };
        let (along_in, across_in) = (between(0), between(1));
        frame.at(along_in, across_in)
    }

    /// Any turn: a side of the shape along a side, from its beginning, to its end, or between; or by chance.
    fn any_way(&mut self) -> (Turn, Option<Vec2>) {
        let (from, to) = self.sides[self.chance.below(self.sides.len())];
        let (own, direction) = self.shape.sides[self.chance.below(self.shape.sides.len())];
        let (Some(side), true) = (Turn::towards(to - from), self.chance.share() < 0.8) else {
            return (Turn::from_degrees(360.0 * self.chance.share()), None);
        };
        let turn = direction.inverse().then(side);
        let outline = &self.shape.outline;
        let [start, end] = [own, (own + 1) % outline.len()].map(|i| turn.apply(outline[i].to_vec2()));
        let way = self.chance.share();
        let by = if way < 0.4 {
            from.to_vec2() - start
        } else if way < 0.8 {
            to.to_vec2() - end
        } else {
            from.lerp(to, self.chance.share()).to_vec2() - start
        };
        (turn, Some(by))
    }
}

/// Moved towards the first end and the side as far as it goes, over what is in the way too.
pub(crate) fn closer(
    frame: &Frame,
    shape: &Shape,
    turn: Turn,
    mut by: Vec2,
    free: &mut dyn FnMut(Vec2) -> bool,
) -> Vec2 {
    let low = Turned::new(shape, frame, turn).low;
    for _ in 0..3 {
        let before = by;
        for (i, way) in [frame.along, frame.across].into_iter().enumerate() {
            let mut step = low[i] + by.dot(way) - frame.from[i];
            while step > TOUCH_IN / 2.0 {
                let there = by - way * step;
                if free(there) {
                    by = there;
                } else {
                    step /= 2.0;
                }
            }
        }
        if (by - before).length() < TOUCH_IN {
            break;
        }
    }
    by
}
