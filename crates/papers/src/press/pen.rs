//! Draws a display list on a page, point for point: no scale is left to the format.

use super::letters::{Face, Laid, Letters, POINTS_PER_IN, Side};
use super::pictures::Pictures;
use colour::Srgb;
use drawing::{Anchor, Drawing, Item, Paint, Pass, PictureItem, Shape, Stroke, TextItem, ThreadItem};
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point as OnPage, Size, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke as Pen, StrokeDash};
use krilla::surface::Surface;
use plane::{Point, Region};

/// How pages are inked.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Inking {
    /// In the colours of the cloth.
    #[default]
    Colour,
    /// Cloth as a pale tint without its picture, and no ground.
    Saving,
}

/// How much of a colour is left where ink is saved.
const SAVED_SHARE: f64 = 0.22;

/// From inches, y up, to the page's points, y down.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    /// What of the drawing lies at `at`.
    pub(super) from: Point,
    pub(super) at: Point,
    pub(super) scale: f64,
    pub(super) height_in: f64,
    /// What of the drawing is seen: its lower left and upper right corner.
    pub(super) seen: [Point; 2],
}

impl Frame {
    /// Places on a sheet itself.
    pub(super) const fn sheet(height_in: f64) -> Self {
        let seen = [Point::new(f64::MIN, f64::MIN), Point::new(f64::MAX, f64::MAX)];
        Self { from: Point::ORIGIN, at: Point::ORIGIN, scale: 1.0, height_in, seen }
    }

    fn on_page(&self, p: Point) -> OnPage {
        let place = self.at + (p - self.from) * self.scale;
        let points = |inches: f64| if inches.is_finite() { (inches * POINTS_PER_IN) as f32 } else { 0.0 };
        OnPage::from_xy(points(place.x), points(self.height_in - place.y))
    }

    fn points(&self, inches: f64) -> f32 {
        (inches * self.scale * POINTS_PER_IN) as f32
    }

    /// How long words may be on the paper before the drawing's edge cuts them off.
    fn room_for(&self, text: &TextItem) -> f64 {
        let [low, high] = self.seen;
        let (left, right) = (text.at.x - low.x, high.x - text.at.x);
        let level = text.turn.sin.abs() < 0.01 && text.turn.cos > 0.0;
        let room = match text.anchor {
            _ if !level => (high - low).length(),
            Anchor::Start => right,
            Anchor::Middle => 2.0 * left.min(right),
            Anchor::End => left,
        };
        room * self.scale
    }
}

/// A pen over a surface, with what it draws from.
pub(super) struct Drawer<'a, 'b, 'f> {
    pub(super) surface: &'a mut Surface<'b>,
    pub(super) letters: &'a Letters,
    pub(super) pictures: &'a mut Pictures<'f>,
    pub(super) inking: Inking,
}

impl Drawer<'_, '_, '_> {
    /// A whole drawing; only what lies on its page is seen.
    pub(super) fn drawing(&mut self, drawing: &Drawing, frame: Frame) {
        let (lo, hi) = (drawing.lo, drawing.hi);
        let page = [lo, Point::new(hi.x, lo.y), hi, Point::new(lo.x, hi.y)];
        let Some(page) = path([(&page[..], true)], frame) else { return };
        self.surface.push_clip_path(&page, &FillRule::NonZero);
        self.items(&drawing.items, Frame { seen: [lo, hi], ..frame }, drawing.weight);
        self.surface.pop();
    }

    fn items(&mut self, items: &[Item], frame: Frame, weight: f64) {
        let mut rest = items;
        while let Some(first) = rest.first() {
            // Lines of one meaning that follow each other are one path, pass by pass.
            let taken = if let Shape::Line { stroke, .. } = first.shape {
                let same =
                    |item: &&Item| matches!(&item.shape, Shape::Line { stroke: s, .. } if *s == stroke);
                let run = rest.iter().take_while(same).count();
                let ways = rest.iter().take(run).filter_map(|item| match &item.shape {
                    Shape::Line { points, closed, .. } => Some((points.as_slice(), *closed)),
                    _ => None,
                });
                let ways: Vec<(&[Point], bool)> = ways.collect();
                self.line(&ways, stroke, frame, weight);
                run
            } else {
                self.item(first, frame, weight);
                1
            };
            rest = rest.get(taken..).unwrap_or_default();
        }
    }

    fn item(&mut self, item: &Item, frame: Frame, weight: f64) {
        match &item.shape {
            Shape::Fill { region, paint } => self.fill(region, *paint, frame),
            Shape::Picture(picture) => self.picture(picture, frame),
            Shape::Line { points, closed, stroke } => self.line(&[(points, *closed)], *stroke, frame, weight),
            Shape::Thread(thread) => self.thread(thread, frame),
            Shape::Text(text) => self.text(text, frame),
            Shape::Group { clip, items } => {
                let clip = clip.as_ref().map(|region| region_path(region, frame));
                match clip {
                    None => self.items(items, frame, weight),
                    Some(None) => {}
                    Some(Some(clip)) => {
                        self.surface.push_clip_path(&clip, &FillRule::EvenOdd);
                        self.items(items, frame, weight);
                        self.surface.pop();
                    }
                }
            }
        }
    }

    fn fill(&mut self, region: &Region, paint: Paint, frame: Frame) {
        let (colour, opacity) = match (paint, self.inking) {
            (Paint::Calico, Inking::Saving) => return,
            (Paint::Calico, Inking::Colour) => (drawing::CALICO, 1.0),
            (Paint::Colour(colour, opacity), Inking::Colour) => (colour, opacity),
            (Paint::Colour(colour, opacity), Inking::Saving) => (colour, opacity * SAVED_SHARE),
        };
        self.area(region, colour, opacity, frame);
    }

    /// An area of one colour.
    pub(super) fn area(&mut self, region: &Region, colour: Srgb, opacity: f64, frame: Frame) {
        let Some(path) = region_path(region, frame) else { return };
        self.surface.set_stroke(None);
        let opacity = share(opacity);
        self.surface.set_fill(Some(Fill { paint: ink(colour).into(), opacity, rule: FillRule::EvenOdd }));
        self.surface.draw_path(&path);
    }

    /// Lines of one meaning.
    pub(super) fn line(&mut self, ways: &[(&[Point], bool)], stroke: Stroke, frame: Frame, weight: f64) {
        let Some(path) = path(ways.iter().copied(), frame) else { return };
        self.surface.set_fill(None);
        for pass in stroke.passes() {
            self.surface.set_stroke(Some(pen(pass, weight, frame)));
            self.surface.draw_path(&path);
        }
        self.surface.set_stroke(None);
    }

    fn thread(&mut self, thread: &ThreadItem, frame: Frame) {
        let per_in = PIXELS_PER_IN * frame.scale;
        let thread = thread.clone().told_apart(per_in);
        let ways = thread.strokes.iter().map(|stroke| (stroke.points.as_slice(), stroke.closed));
        let Some(path) = path(ways, frame) else { return };
        self.surface.set_fill(None);
        let plain = |colour, opacity, width_in, dash_in| Pass { colour, opacity, width_in, dash_in };
        let shade = (thread.shade_in > 0.0)
            .then(|| plain(drawing::INK, 0.22, thread.width_in + 2.0 * thread.shade_in, None));
        let lines = plain(thread.colour, 1.0, thread.width_in, thread.dash_in);
        for pass in shade.into_iter().chain([lines]) {
            self.surface.set_stroke(Some(pen(&pass, 1.0, frame)));
            self.surface.draw_path(&path);
        }
        self.surface.set_stroke(None);
    }

    fn picture(&mut self, item: &PictureItem, frame: Frame) {
        if self.inking == Inking::Saving {
            return;
        }
        let Some((picture, image)) = self.pictures.part(item, PIXELS_PER_IN * frame.scale) else { return };
        let Some(clip) = region_path(&item.clip, frame) else { return };
        let [width, height] = picture.size_px.map(|px| px as f32);
        let Some(size) = Size::from_wh(width, height) else { return };
        // From pixels, y down, to the cloth, to the drawing, to the page.
        let [a, b, c, d, e, f] = item.placement.matrix();
        let per_px = 1.0 / picture.pixels_per_in;
        let corner = frame.on_page(item.placement.apply(picture.top_left));
        debug_assert!([e, f].iter().all(|part| part.is_finite()));
        let along = |inches: f64| frame.points(inches * per_px);
        let place = Transform::from_row(along(a), -along(b), -along(c), along(d), corner.x, corner.y);
        self.surface.push_clip_path(&clip, &FillRule::EvenOdd);
        let pale = item.opacity < 1.0;
        if pale {
            self.surface.push_opacity(share(item.opacity));
        }
        self.surface.push_transform(&place);
        self.surface.draw_image(image, size);
        self.surface.pop();
        if pale {
            self.surface.pop();
        }
        self.surface.pop();
    }

    fn text(&mut self, text: &TextItem, frame: Frame) {
        let size_pt = text.size_in * frame.scale * POINTS_PER_IN;
        let face = Face { bold: text.bold, colour: text.colour, side: Side::Start, ..Face::plain(size_pt) };
        let mut laid = self.letters.set(&text.words, face, None);
        let room_in = frame.room_for(text);
        if text.words.chars().count() > SHORT && laid.width_in > room_in && room_in > 0.0 {
            laid = self.letters.on_one_line(&text.words, face, room_in);
        }
        let shift = match text.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -laid.width_in / 2.0,
            Anchor::End => -laid.width_in,
        };
        let at = frame.on_page(text.at);
        let (cos, sin) = (text.turn.cos as f32, text.turn.sin as f32);
        // Letters stand on a line about a third of their square below their middle height.
        let foot = laid.lines.first().map_or(0.0, |line| line.foot_in);
        let down = 0.35 * size_pt / POINTS_PER_IN - foot;
        self.surface.push_transform(&Transform::from_row(cos, -sin, sin, cos, at.x, at.y));
        if text.rim {
            let width = (0.28 * size_pt) as f32;
            let rim = Pen { paint: ink(PALE).into(), width, line_join: LineJoin::Round, ..Pen::default() };
            self.surface.set_stroke(Some(rim));
            self.letters_at(&laid, shift, down);
            self.surface.set_stroke(None);
        }
        self.letters_at(&laid, shift, down);
        self.surface.pop();
    }

    /// Words, the top left corner of their room at a place of a sheet.
    pub(super) fn words(&mut self, laid: &Laid, at: Point, frame: Frame) {
        let at = frame.on_page(at);
        self.surface.push_transform(&Transform::from_translate(at.x, at.y));
        self.letters_at(laid, 0.0, 0.0);
        self.surface.pop();
    }

    fn letters_at(&mut self, laid: &Laid, right_in: f64, down_in: f64) {
        self.surface.set_fill(Some(Fill { paint: ink(laid.colour).into(), ..Fill::default() }));
        let points = |inches: f64| (inches * POINTS_PER_IN) as f32;
        for line in &laid.lines {
            for run in &line.runs {
                let at = OnPage::from_xy(points(run.left_in + right_in), points(line.foot_in + down_in));
                self.surface.draw_glyphs(at, &run.glyphs, run.font.clone(), &laid.text, run.size_pt, false);
            }
        }
    }
}

/// Words of so many letters are drawn as they are: a number or a size must not become three dots.
const SHORT: usize = 16;

/// How fine pictures are kept on paper.
const PIXELS_PER_IN: f64 = 220.0;

/// The rim that keeps words readable on cloth.
const PALE: Srgb = drawing::CALICO;

fn ink(colour: Srgb) -> rgb::Color {
    rgb::Color::new(colour.r, colour.g, colour.b)
}

fn share(of_one: f64) -> NormalizedF32 {
    NormalizedF32::new(of_one.clamp(0.0, 1.0) as f32).unwrap_or(NormalizedF32::ONE)
}

fn pen(pass: &Pass, weight: f64, frame: Frame) -> Pen {
    let points = |inches: f64| frame.points(inches * weight);
    Pen {
        paint: ink(pass.colour).into(),
        width: points(pass.width_in).max(THINNEST_PT),
        line_cap: LineCap::Round,
        line_join: LineJoin::Round,
        opacity: share(pass.opacity),
        dash: pass.dash_in.map(|dash| StrokeDash { array: dash.map(points).to_vec(), offset: 0.0 }),
        ..Pen::default()
    }
}

/// A thinner line may be lost in print.
const THINNEST_PT: f32 = 0.25;

fn region_path(region: &Region, frame: Frame) -> Option<Path> {
    let rings = std::iter::once(&region.outer).chain(&region.holes);
    path(rings.map(|ring| (ring.as_slice(), true)), frame)
}

fn path<'p>(ways: impl IntoIterator<Item = (&'p [Point], bool)>, frame: Frame) -> Option<Path> {
    let mut builder = PathBuilder::new();
    for (points, closed) in ways {
        let mut steps = points.iter().map(|p| frame.on_page(*p));
        let Some(first) = steps.next().filter(|_| points.len() > 1) else { continue };
        builder.move_to(first.x, first.y);
        steps.for_each(|p| builder.line_to(p.x, p.y));
        if closed {
            builder.close();
        }
    }
    builder.finish()
}
