//! The items of the display list.
//!
//! Inches, y up. Regions are filled by the even-odd rule, so the winding doesn't matter.

use crate::ink::{INK, Paint};
use crate::words::words_width_in;
use crate::{Placement, Stroke, ThreadItem};
use colour::Srgb;
use plane::{Point, Region, Turn, fill};
use quilt::cloth::Picture;
use std::sync::Arc;

/// What an item is about, for whoever reads or styles the drawing.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Tag {
    /// What sort of thing it is; empty for none.
    pub class: &'static str,
    /// What it stands for, as `data-` attributes: `("patch", "12")`.
    pub data: Vec<(&'static str, String)>,
}

impl Tag {
    /// A tag that says what sort of thing it is.
    #[must_use]
    pub fn class(class: &'static str) -> Self {
        Self { class, ..Self::default() }
    }

    /// The same tag with one more thing it stands for.
    #[must_use]
    pub fn with(mut self, key: &'static str, value: impl std::fmt::Display) -> Self {
        self.data.push((key, value.to_string()));
        self
    }
}

/// One item: a shape and what it is about.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it is about.
    pub tag: Tag,
    /// What is drawn.
    pub shape: Shape,
}

/// What is drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// An area.
    Fill {
        /// Where.
        region: Region,
        /// With what.
        paint: Paint,
    },
    /// A part of a picture.
    Picture(PictureItem),
    /// A line through points.
    Line {
        /// Its points.
        points: Vec<Point>,
        /// Whether it comes back to where it started.
        closed: bool,
        /// What it means.
        stroke: Stroke,
    },
    /// Thread on top of cloth.
    Thread(ThreadItem),
    /// Words.
    Text(TextItem),
    /// Items that belong together.
    Group {
        /// Nothing is drawn outside this, if it is given.
        clip: Option<Region>,
        /// The items, lowest first.
        items: Vec<Item>,
    },
}

/// A part of a picture.
#[derive(Clone, Debug, PartialEq)]
pub struct PictureItem {
    /// Which picture, at which scale, and where on its cloth.
    pub picture: Arc<Picture>,
    /// From the cloth to the drawing.
    pub placement: Placement,
    /// What is seen of it, on the drawing.
    pub clip: Region,
    /// 1 for the right side of the cloth, less for the wrong side.
    pub opacity: f64,
}

/// Which part of the words lies at their place.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Anchor {
    /// Their start.
    Start,
    /// Their middle.
    #[default]
    Middle,
    /// Their end.
    End,
}

/// Words. Their middle height lies at their place.
#[derive(Clone, Debug, PartialEq)]
pub struct TextItem {
    /// Where they are.
    pub at: Point,
    /// The direction they run in.
    pub turn: Turn,
    /// Which part of them lies there.
    pub anchor: Anchor,
    /// Height of the letters' square, in inches.
    pub size_in: f64,
    /// What they say.
    pub words: String,
    /// Their colour.
    pub colour: Srgb,
    /// Whether they are set bold.
    pub bold: bool,
    /// Whether a pale rim keeps them readable on cloth.
    pub rim: bool,
}

impl TextItem {
    /// Level words in ink around a middle.
    #[must_use]
    pub fn level(at: Point, size_in: f64, words: impl Into<String>) -> Self {
        Self {
            at,
            turn: Turn::NONE,
            anchor: Anchor::Middle,
            size_in,
            words: words.into(),
            colour: INK,
            bold: false,
            rim: false,
        }
    }

    /// The corners of about the room they take.
    #[must_use]
    pub fn corners(&self) -> [Point; 4] {
        let width = words_width_in(&self.words, self.size_in);
        let start = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -width / 2.0,
            Anchor::End => -width,
        };
        let half = self.size_in * 0.55;
        let along = self.turn.vec();
        let at = |x: f64, y: f64| self.at + along * x + along.left() * y;
        [at(start, -half), at(start + width, -half), at(start + width, half), at(start, half)]
    }
}

impl Item {
    /// A shape that is about nothing in particular.
    #[must_use]
    pub fn new(shape: Shape) -> Self {
        Self { tag: Tag::default(), shape }
    }

    /// The same item with a tag.
    #[must_use]
    pub fn tagged(mut self, tag: Tag) -> Self {
        self.tag = tag;
        self
    }

    /// A filled polygon.
    #[must_use]
    pub fn fill(points: Vec<Point>, paint: Paint) -> Self {
        Self::new(Shape::Fill { region: Region { outer: points, holes: Vec::new() }, paint })
    }

    /// An open line.
    #[must_use]
    pub fn line(points: Vec<Point>, stroke: Stroke) -> Self {
        Self::new(Shape::Line { points, closed: false, stroke })
    }

    /// A closed line.
    #[must_use]
    pub fn closed(points: Vec<Point>, stroke: Stroke) -> Self {
        Self::new(Shape::Line { points, closed: true, stroke })
    }

    /// Words.
    #[must_use]
    pub fn text(text: TextItem) -> Self {
        Self::new(Shape::Text(text))
    }

    /// Items that belong together.
    #[must_use]
    pub fn group(class: &'static str, items: Vec<Self>) -> Self {
        Self::new(Shape::Group { clip: None, items }).tagged(Tag::class(class))
    }

    /// The item after a placement. Words move and turn, but are never mirrored: their middle goes
    /// where it belongs and they run as near as they can to the way they ran.
    #[must_use]
    pub fn placed(&self, by: Placement) -> Self {
        let shape = match &self.shape {
            Shape::Fill { region, paint } => Shape::Fill { region: placed_region(region, by), paint: *paint },
            Shape::Picture(picture) => Shape::Picture(PictureItem {
                placement: picture.placement.then(by),
                clip: placed_region(&picture.clip, by),
                ..picture.clone()
            }),
            Shape::Line { points, closed, stroke } => {
                Shape::Line { points: by.apply_all(points), closed: *closed, stroke: *stroke }
            }
            Shape::Thread(thread) => Shape::Thread(placed_thread(thread, by)),
            Shape::Text(text) => Shape::Text(placed_text(text, by)),
            Shape::Group { clip, items } => Shape::Group {
                clip: clip.as_ref().map(|clip| placed_region(clip, by)),
                items: items.iter().map(|item| item.placed(by)).collect(),
            },
        };
        Self { tag: self.tag.clone(), shape }
    }

    /// Calls `see` with every point that the item reaches. A clipped group reaches no further
    /// than its clip.
    pub fn each_point(&self, see: &mut impl FnMut(Point)) {
        match &self.shape {
            Shape::Fill { region, .. } => region.outer.iter().copied().for_each(see),
            Shape::Picture(picture) => picture.clip.outer.iter().copied().for_each(see),
            Shape::Line { points, .. } => points.iter().copied().for_each(see),
            Shape::Thread(thread) => {
                thread.strokes.iter().flat_map(|stroke| &stroke.points).copied().for_each(see);
            }
            Shape::Text(text) => text.corners().into_iter().for_each(see),
            Shape::Group { clip: Some(clip), .. } => clip.outer.iter().copied().for_each(see),
            Shape::Group { clip: None, items } => items.iter().for_each(|item| item.each_point(see)),
        }
    }
}

fn placed_region(region: &Region, by: Placement) -> Region {
    Region {
        outer: by.apply_all(&region.outer),
        holes: region.holes.iter().map(|hole| by.apply_all(hole)).collect(),
    }
}

fn placed_thread(thread: &ThreadItem, by: Placement) -> ThreadItem {
    let placed = |stroke: &fill::Stroke| fill::Stroke { points: by.apply_all(&stroke.points), ..*stroke };
    ThreadItem { strokes: thread.strokes.iter().map(placed).collect(), ..*thread }
}

fn placed_text(text: &TextItem, by: Placement) -> TextItem {
    let turn = by.turned(text.turn);
    let turn = if by.mirrored { turn.opposite() } else { turn };
    let anchor = match (by.mirrored, text.anchor) {
        (true, Anchor::Start) => Anchor::End,
        (true, Anchor::End) => Anchor::Start,
        (_, anchor) => anchor,
    };
    TextItem { at: by.apply(text.at), turn, anchor, ..text.clone() }
}
