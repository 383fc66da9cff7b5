//! Drawings for a page: what is drawn lies in inches of the piece, and letters, marks and pens are as large
//! on the paper as they are said to be.

use colour::Srgb;
use drawing::{Anchor, Drawing, INK, Item, MADDER, Paint, Stroke, TextItem};
use papers::flow::{Block, Fit};
use plane::{Point, Region, Turn, Vec2, polygon};
use std::sync::Arc;

/// Words that are looked for.
pub(super) const NUMBER_PT: f64 = 13.0;
/// Lengths at edges.
pub(super) const LENGTH_PT: f64 = 10.5;
/// Between an edge and what is written at it, on the paper.
const OFF_IN: f64 = 0.1;
/// How heavy pens are on the paper.
const WEIGHT: f64 = 0.6;

/// A drawing being made.
pub(super) struct Pad {
    scale: f64,
    items: Vec<Item>,
}

impl Pad {
    /// For what takes these points, in a room on the paper; never above true size.
    pub(super) fn over(points: &[Point], room_in: [f64; 2]) -> Self {
        let (low, high) = polygon::bounds(points).unwrap_or_default();
        let fits = |long: f64, room: f64| if long > 1e-6 { room / long } else { f64::INFINITY };
        let scale = fits(high.x - low.x, room_in[0]).min(fits(high.y - low.y, room_in[1])).min(1.0);
        Self::at_scale(scale)
    }

    /// At so many inches on the paper for an inch of what is drawn.
    pub(super) const fn at_scale(scale: f64) -> Self {
        Self { scale, items: Vec::new() }
    }

    /// How many inches on the paper an inch of what is drawn is.
    pub(super) const fn scale(&self) -> f64 {
        self.scale
    }

    /// So much on the paper, in inches of what is drawn.
    pub(super) fn paper(&self, inches: f64) -> f64 {
        inches / self.scale
    }

    pub(super) fn area(&mut self, points: Vec<Point>, colour: Srgb, opacity: f64) {
        self.items.push(Item::fill(points, Paint::Colour(colour, opacity)));
    }

    pub(super) fn line(&mut self, points: Vec<Point>, stroke: Stroke) {
        self.items.push(Item::line(points, stroke));
    }

    pub(super) fn closed(&mut self, points: Vec<Point>, stroke: Stroke) {
        self.items.push(Item::closed(points, stroke));
    }

    /// A line to sew: dashes of ink, that show on paper of any colour.
    pub(super) fn seam(&mut self, points: &[Point], closed: bool) {
        let (dash, gap) = (self.paper(0.07), self.paper(0.05));
        let ring: Vec<Point> =
            points.iter().copied().chain(points.first().copied().filter(|_| closed)).collect();
        for dashed in dashes(&ring, dash, gap) {
            self.items.push(Item::line(dashed, Stroke::CutLine));
        }
    }

    /// The rings of a region.
    pub(super) fn region(&mut self, region: &Region, stroke: Stroke) {
        for ring in std::iter::once(&region.outer).chain(&region.holes) {
            self.closed(ring.clone(), stroke);
        }
    }

    pub(super) fn dot(&mut self, at: Point, radius_in: f64, colour: Srgb) {
        let radius = self.paper(radius_in);
        let corner = |i: u32| {
            let (sin, cos) = (f64::from(i) * std::f64::consts::TAU / 16.0).sin_cos();
            at + Vec2::new(cos, sin) * radius
        };
        let ring: Vec<Point> = (0..16).map(corner).collect();
        self.area(ring.clone(), colour, 1.0);
        // Where ink is saved areas are pale; lines aren't.
        self.closed(ring, if colour == MADDER { Stroke::Mark } else { Stroke::Outline });
    }

    /// A line with a head at its end.
    pub(super) fn arrow(&mut self, from: Point, to: Point) {
        let long = from.distance(to);
        if long <= 0.0 {
            return;
        }
        let unit = (to - from) * (1.0 / long);
        let head = self.paper(0.12).min(long);
        let wing = |side: f64| to - unit * head + unit.left() * (side * 0.38 * head);
        self.line(vec![from, to - unit * (0.5 * head)], Stroke::CutLine);
        let ring = vec![to, wing(1.0), wing(-1.0)];
        self.area(ring.clone(), MADDER, 1.0);
        self.closed(ring, Stroke::Mark);
    }

    /// Words with their middle at a place.
    pub(super) fn words(&mut self, at: Point, size_pt: f64, words: impl Into<String>) {
        self.said(at, size_pt, Anchor::Middle, false, words.into());
    }

    /// The same, bold.
    pub(super) fn bold(&mut self, at: Point, size_pt: f64, words: impl Into<String>) {
        self.said(at, size_pt, Anchor::Middle, true, words.into());
    }

    /// Words that begin at a place.
    pub(super) fn words_from(&mut self, at: Point, size_pt: f64, words: impl Into<String>) {
        self.said(at, size_pt, Anchor::Start, false, words.into());
    }

    /// Words beside a place, on the side that `out` points to.
    pub(super) fn beside(&mut self, at: Point, out: Vec2, size_pt: f64, words: impl Into<String>) {
        let long = out.length();
        let out = if long > 0.0 { out * (1.0 / long) } else { Vec2::new(0.0, 1.0) };
        let anchor = if out.x > 0.4 {
            Anchor::Start
        } else if out.x < -0.4 {
            Anchor::End
        } else {
            Anchor::Middle
        };
        let off = self.paper(OFF_IN + 0.5 * size_pt / 72.0 * out.y.abs());
        self.said(at + out * off, size_pt, anchor, false, words.into());
    }

    /// Words along an edge, turned so that they are read from below.
    pub(super) fn along(
        &mut self,
        from: Point,
        to: Point,
        off_in: f64,
        size_pt: f64,
        words: impl Into<String>,
    ) {
        let Some(turn) = Turn::towards(to - from) else { return };
        let at = from.midpoint(to) + turn.left().vec() * self.paper(off_in);
        let turn = if turn.vec().x < -1e-9 { turn.opposite() } else { turn };
        let size_in = self.paper(size_pt / 72.0);
        self.items.push(Item::text(TextItem { turn, rim: true, ..TextItem::level(at, size_in, words) }));
    }

    fn said(&mut self, at: Point, size_pt: f64, anchor: Anchor, bold: bool, words: String) {
        let size_in = self.paper(size_pt / 72.0);
        let text = TextItem { anchor, bold, rim: true, colour: INK, ..TextItem::level(at, size_in, words) };
        self.items.push(Item::text(text));
    }

    /// The drawing as a block.
    pub(super) fn block(self, title: impl Into<String>, caption: impl Into<String>) -> Block {
        let scale = self.scale;
        let drawing = Drawing::around(title, self.items, WEIGHT / scale, 0.06 / scale);
        Block::Figure {
            alt: drawing.title.clone(),
            drawing: Arc::new(drawing),
            fit: Fit::Scale(scale),
            caption: caption.into(),
        }
    }

    /// The drawing in true size, as large as it is.
    pub(super) fn drawing(self, title: impl Into<String>) -> Drawing {
        Drawing::around(title, self.items, WEIGHT / self.scale, 0.05 / self.scale)
    }
}

/// A line as dashes.
fn dashes(points: &[Point], dash: f64, gap: f64) -> Vec<Vec<Point>> {
    let mut out: Vec<Vec<Point>> = Vec::new();
    let (mut left, mut drawn) = (dash, true);
    for pair in points.windows(2) {
        let &[from, to] = pair else { continue };
        let long = from.distance(to);
        let mut at = 0.0;
        if drawn {
            out.push(vec![from]);
        }
        while long - at > left {
            at += left;
            let here = from.lerp(to, at / long);
            if drawn {
                if let Some(last) = out.last_mut() {
                    last.push(here);
                }
            } else {
                out.push(vec![here]);
            }
            drawn = !drawn;
            left = if drawn { dash } else { gap };
        }
        left -= long - at;
        if drawn && let Some(last) = out.last_mut() {
            last.push(to);
        }
    }
    out.retain(|points| points.len() > 1);
    out
}

/// The middles of the sides of an outline, each with the direction away from the piece.
pub(super) fn sides(outline: &[Point]) -> Vec<(Point, Vec2)> {
    polygon::edges(outline).map(|(a, b)| (a.midpoint(b), (b - a).left() * -1.0)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dashes_are_as_long_as_they_are_said_to_be_round_a_corner_too() {
        let corner = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0)].map(|(x, y)| Point::new(x, y));
        let drawn = dashes(&corner, 0.3, 0.2);
        let long: f64 = drawn.iter().flat_map(|d| d.windows(2)).map(|p| p[0].distance(p[1])).sum();
        assert!((long - 4.0 * 0.3).abs() < 1e-9, "{drawn:?}");
    }

    #[test]
    fn nothing_is_drawn_above_true_size() {
        let points = [Point::ORIGIN, Point::new(2.0, 1.0)];
        assert_eq!(Pad::over(&points, [7.0, 7.0]).scale(), 1.0);
        assert_eq!(Pad::over(&points, [1.0, 7.0]).scale(), 0.5);
    }
}
