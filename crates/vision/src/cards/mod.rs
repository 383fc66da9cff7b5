//! Measuring cards in a picture: their pattern, and finding them.
//!
//! Dark patches with four straight sides are looked for in a small copy of the picture; each is read
//! against the codes ([`pattern`]) and only what reads as a card is measured, in the full picture, to a
//! small part of a pixel. A card of which a corner is hidden is measured by the edges that show; one that
//! reads but can't be measured is named ([`Sighting`]). One that is hidden more, or cut off by the
//! picture's rim, is not found. Patterned cloth is told from cards by the code.

mod dark;
mod edges;
mod family;
mod grey;
mod ink;
mod quad;
mod read;

use crate::Picture;
use dark::Dark;
pub use family::{CELLS, COUNT, pattern};
use grey::Grey;
use plane::Point;
use std::cmp::Reverse;

/// A measuring card, as it lies in a picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Card {
    /// Its number, from 0; [`COUNT`] and above don't occur. A number may occur more than once.
    pub no: u16,
    /// Corners of its black square in pixels, from the lower left of its pattern anticlockwise as
    /// one looks at the paper.
    pub corners: [Point; 4],
    /// Blur across its edges: standard deviation in pixels.
    pub blur_px: f64,
    /// How far single readings along its edges lie off them: standard deviation in pixels.
    pub rough_px: f64,
    /// By how much its black looks wider than it is, on each side, in pixels; already taken out of
    /// the corners. Negative where much light has eaten into it.
    pub swollen_px: f64,
    /// Light of its white margin, 0 to 1 of what the camera can take.
    pub white: f64,
    /// Light of its black border.
    pub black: f64,
    /// How many of its cells read wrong and were put right by the code.
    pub wrong_cells: u32,
}

impl Card {
    /// The middle of its square, in pixels.
    #[must_use]
    pub fn middle(&self) -> Point {
        let [a, b, c, d] = self.corners;
        quad::crossing(a, c, b, d).unwrap_or_else(|| a.midpoint(c))
    }

    /// Mean length of its sides, in pixels.
    #[must_use]
    pub fn side_px(&self) -> f64 {
        (0..4).map(|i| self.corners[i].distance(self.corners[(i + 1) % 4])).sum::<f64>() / 4.0
    }
}

/// A card that reads as one but can't be measured: too much of an edge is hidden or blurred, or a lamp's
/// reflection lies over it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sighting {
    /// Its number.
    pub no: u16,
    /// About its middle, in pixels.
    pub at_px: Point,
}

/// What was seen of the cards in a picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Seen {
    /// Those that were measured, by number.
    pub cards: Vec<Card>,
    /// Those that read as cards but can't be measured, by number.
    pub unmeasured: Vec<Sighting>,
}

/// Pixels of the copy that is searched, at most.
const SEARCHED: usize = 3_300_000;
/// Shortest outline worth a look, in steps.
const SHORTEST: usize = 44;

/// All measuring cards in a picture, by number.
#[must_use]
pub fn find_cards(picture: &Picture) -> Vec<Card> {
    see_cards(picture).cards
}

/// All measuring cards in a picture, and those that can be told to lie there but not be measured.
#[must_use]
pub fn see_cards(picture: &Picture) -> Seen {
    let full = Grey::of(picture);
    let mut smaller: Vec<Grey> = Vec::new();
    while smaller.last().unwrap_or(&full).values.len() > SEARCHED {
        let half = smaller.last().unwrap_or(&full).halved();
        smaller.push(half);
    }
    // Small cards may only show in a larger copy.
    loop {
        let scale = 1_u32 << smaller.len();
        let seen = search(&full, smaller.last().unwrap_or(&full), f64::from(scale));
        if !seen.cards.is_empty() || smaller.pop().is_none() {
            return seen;
        }
    }
}

fn search(full: &Grey, copy: &Grey, scale: f64) -> Seen {
    let mut cards: Vec<(Card, Option<f64>)> = Vec::new();
    let mut unmeasured: Vec<Sighting> = Vec::new();
    Dark::of(copy).outlines(SHORTEST, |path| {
        for quad in quad::around(path) {
            match card(full, &quad.scaled(scale), scale) {
                Ok(card) => return cards.push(card),
                Err(sighting) => unmeasured.extend(sighting),
            }
        }
    });
    let (cards, unlike) = ink::put_right(alone(cards));
    let apart = |a: Point, b: Point, side: f64| a.distance(b) > 0.5 * side;
    unmeasured.retain(|seen| cards.iter().all(|card| apart(seen.at_px, card.middle(), card.side_px())));
    unmeasured.extend(unlike);
    unmeasured.sort_by_key(|seen| seen.no);
    unmeasured.dedup_by_key(|seen| seen.no);
    Seen { cards, unmeasured }
}

/// The card within four coarse corners, and by how many pixels its black looks too wide, which has
/// still to be taken out. Else what can be told of a card there.
fn card(full: &Grey, quad: &quad::Quad, doubt: f64) -> Result<(Card, Option<f64>), Option<Sighting>> {
    let (corners, shows) = (quad.corners, quad.shows.as_deref());
    let coarse = read::read(full, corners, shows);
    // A small card may read only once its edges are known.
    let small = || shows.is_none() && corners[0].distance(corners[2]) < 60.0 * doubt;
    if coarse.is_none() && !small() {
        return Err(None);
    }
    let middle = corners[0].midpoint(corners[2]);
    let sighting = coarse.map(|coarse| Sighting { no: coarse.no, at_px: middle });
    let refined = edges::refine(full, corners, doubt, shows).ok_or(sighting)?;
    let reading = read::read(full, refined.corners, shows).ok_or(sighting)?;
    let swollen = ink::swollen(full, &reading, refined.blur_px);
    let card = Card {
        no: reading.no,
        corners: reading.corners,
        swollen_px: 0.0,
        blur_px: refined.far_blur_px,
        rough_px: refined.rough_px,
        white: refined.white,
        black: refined.black,
        wrong_cells: reading.wrong,
    };
    Ok((card, swollen))
}

/// Of cards found twice the one that read better.
fn alone(mut cards: Vec<(Card, Option<f64>)>) -> Vec<(Card, Option<f64>)> {
    cards.sort_by_key(|(card, _)| (card.wrong_cells, Reverse(card.side_px() as u64)));
    let mut kept: Vec<(Card, Option<f64>)> = Vec::new();
    for card in cards {
        let apart = |(other, _): &(Card, Option<f64>)| {
            other.middle().distance(card.0.middle()) > 0.5 * other.side_px()
        };
        if kept.iter().all(apart) {
            kept.push(card);
        }
    }
    kept.sort_by(|(a, _), (b, _)| a.no.cmp(&b.no).then(a.corners[0].y.total_cmp(&b.corners[0].y)));
    kept
}
