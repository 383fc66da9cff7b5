//! A measuring card as it lies on the table: white paper, the pattern, its number, a ruled line.
//!
//! In the card's own coordinates the pattern's lower left corner is the origin and x runs along
//! its lower side.

use super::texture::Light;
use plane::{Point, Pose, Region};

/// The pattern of a card, rows from the top, black where true, the black border included; none
/// where there is no such card.
pub type CardPattern<'a> = &'a dyn Fn(u16) -> Option<[[bool; MODULES]; MODULES]>;

/// Squares of a pattern, each way.
const MODULES: usize = 8;

/// A card.
#[derive(Clone, Debug)]
pub(super) struct Card {
    pub(super) no: u16,
    pub(super) side_in: f64,
    /// From the card to the table.
    pub(super) pose: Pose,
    pub(super) pattern: [[bool; MODULES]; MODULES],
    pub(super) paper: Light,
    pub(super) ink: Light,
}

/// White round the pattern, over its side.
const MARGIN: f64 = 0.25;
/// White below it for the number and the ruled line, over its side.
const FOOT: f64 = 0.55;
/// Where the number stands and how high it is, over the pattern's side.
const NUMBER: [f64; 3] = [0.0, -0.44, 0.18];
/// Where the ruled line runs and how thick it is, over the pattern's side.
const LINE: [f64; 2] = [-0.17, 0.012];

impl Card {
    /// The pattern's corners on the table, anticlockwise from its lower left.
    pub(super) fn corners(&self) -> [Point; 4] {
        let side = self.side_in;
        [(0.0, 0.0), (side, 0.0), (side, side), (0.0, side)].map(|(x, y)| self.pose.apply(Point::new(x, y)))
    }

    /// The outline of the paper on the table.
    pub(super) fn paper_outline(&self) -> Region {
        paper(self.side_in).moved(self.pose)
    }

    /// Whether the paper covers a place of the table.
    pub(super) fn covers(&self, p: Point) -> bool {
        let own = self.pose.inverse().apply(p);
        let (x, y) = (own.x / self.side_in, own.y / self.side_in);
        (-MARGIN..1.0 + MARGIN).contains(&x) && (-FOOT..1.0 + MARGIN).contains(&y)
    }

    /// Lines on the table along which dark and light meet.
    pub(super) fn edges(&self) -> Vec<[Point; 2]> {
        let side = self.side_in;
        let line =
            |a: [f64; 2], b: [f64; 2]| [a, b].map(|[x, y]| self.pose.apply(Point::new(x * side, y * side)));
        (0..=MODULES)
            .flat_map(|k| {
                let at = k as f64 / MODULES as f64;
                [line([at, 0.0], [at, 1.0]), line([0.0, at], [1.0, at])]
            })
            .collect()
    }

    /// The light of a place on the card, in the card's own coordinates.
    pub(super) fn at(&self, p: Point) -> Light {
        let (x, y) = (p.x / self.side_in, p.y / self.side_in);
        let dark = if (0.0..1.0).contains(&x) && (0.0..1.0).contains(&y) {
            let module = |at: f64| ((at * MODULES as f64) as usize).min(MODULES - 1);
            self.pattern[MODULES - 1 - module(y)][module(x)]
        } else {
            y < 0.0 && (self.ruled(x, y) || self.numbered(x, y))
        };
        if dark { self.ink } else { self.paper }
    }

    /// Whether the ruled line or one of its ticks, a quarter inch apart, is here.
    fn ruled(&self, x: f64, y: f64) -> bool {
        let [at, thick] = LINE;
        let tick = (x * self.side_in * 4.0 + 0.5).rem_euclid(1.0) - 0.5;
        let ticked = (tick / 4.0 / self.side_in).abs() < thick / 2.0 && (0.0..0.06).contains(&(y - at));
        (0.0..=1.0).contains(&x) && ((y - at).abs() < thick / 2.0 || ticked)
    }

    /// Whether a stroke of the number is here.
    fn numbered(&self, x: f64, y: f64) -> bool {
        let [left, low, high] = NUMBER;
        let cell = high / 5.0;
        let (column, row) = ((x - left) / cell, (low + high - y) / cell);
        if column < 0.0 || !(0.0..5.0).contains(&row) {
            return false;
        }
        let (digit, column) = ((column / 4.0) as usize, column.rem_euclid(4.0) as usize);
        let number = self.no.to_string();
        let shape = number.as_bytes().get(digit).and_then(|d| DIGITS.get(usize::from(d - b'0')));
        shape.is_some_and(|rows| column < 3 && rows[row as usize] >> (2 - column) & 1 == 1)
    }
}

/// The outline of a card's paper in its own coordinates.
pub(super) fn paper(side_in: f64) -> Region {
    let (low, high) = (-MARGIN * side_in, (1.0 + MARGIN) * side_in);
    let foot = -FOOT * side_in;
    let outer = [(low, foot), (high, foot), (high, high), (low, high)].map(|(x, y)| Point::new(x, y));
    Region { outer: outer.to_vec(), holes: Vec::new() }
}

/// Ten digits of three by five squares, rows from the top.
const DIGITS: [[u8; 5]; 10] = [
    [7, 5, 5, 5, 7],
    [2, 6, 2, 2, 7],
    [7, 1, 7, 4, 7],
    [7, 1, 3, 1, 7],
    [5, 5, 7, 1, 1],
    [7, 4, 7, 1, 7],
    [7, 4, 7, 5, 7],
    [7, 1, 1, 2, 2],
    [7, 5, 7, 5, 7],
    [7, 5, 7, 1, 7],
];
