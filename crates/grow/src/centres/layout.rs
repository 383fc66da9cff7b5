//! Parts in their places, and the seams that join them, in order. Finished inches; the layout's lower
//! left corner is the origin.

use super::coping::{is_short, outer};
use super::tree::{Sign, Sizes, Tree};
use serde::Serialize;

/// A rectangle of a layout, finished.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Rect {
    /// Left edge.
    pub x_in: f64,
    /// Lower edge.
    pub y_in: f64,
    /// Width.
    pub width_in: f64,
    /// Height.
    pub height_in: f64,
}

impl Rect {
    /// A rectangle by its corner and size.
    #[must_use]
    pub const fn new(x_in: f64, y_in: f64, width_in: f64, height_in: f64) -> Self {
        Self { x_in, y_in, width_in, height_in }
    }

    /// Area in square inches.
    #[must_use]
    pub fn area_sq_in(&self) -> f64 {
        self.width_in * self.height_in
    }

    /// Where it begins and ends along x (0) or y (1).
    pub(crate) fn span(&self, way: usize) -> [f64; 2] {
        if way == 0 {
            [self.x_in, self.x_in + self.width_in]
        } else {
            [self.y_in, self.y_in + self.height_in]
        }
    }

    /// The smallest rectangle around some.
    pub(crate) fn around(rects: impl Iterator<Item = Self>) -> Self {
        let mut lo = [f64::INFINITY; 2];
        let mut hi = [f64::NEG_INFINITY; 2];
        for rect in rects {
            for way in 0..2 {
                lo[way] = lo[way].min(rect.span(way)[0]);
                hi[way] = hi[way].max(rect.span(way)[1]);
            }
        }
        Self::new(lo[0], lo[1], hi[0] - lo[0], hi[1] - lo[1])
    }
}

/// What a part of a layout is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// A block, from 0.
    Block(usize),
    /// A coping strip, from 0.
    Strip(usize),
}

/// A block or a strip in its place.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Part {
    /// What it is.
    pub what: What,
    /// Where it lies, finished.
    pub at: Rect,
    /// Whether the block lies a quarter turn counter-clockwise.
    pub turned: bool,
}

/// Which way a seam runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Runs {
    /// Up and down: it joins the right edge of the first unit to the left edge of the second.
    Upright,
    /// Level: it joins the upper edge of the first unit to the lower edge of the second.
    Level,
}

impl Runs {
    /// Which coordinate is the same all along it: 0 for x, 1 for y.
    pub(crate) const fn across(self) -> usize {
        match self {
            Self::Upright => 0,
            Self::Level => 1,
        }
    }
}

/// How much of a seam is sewn at its place in the order.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Sewn {
    /// All of it.
    Whole,
    /// From one end only, up to so far along the layout's x or y; the rest is closed later.
    StopsShort {
        /// Where the sewing stops, in inches.
        stops_at_in: f64,
        /// Whether the open part is the one with the larger coordinate.
        open_at_far_end: bool,
        /// Length still open, finished.
        open_in: f64,
    },
    /// The open part of an earlier seam, by its place in the order from 0.
    Closes(usize),
}

/// One seam of the joining order.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CentreSeam {
    /// The parts of the unit left of it, or below it.
    pub first: Vec<usize>,
    /// The parts of the unit right of it, or above it.
    pub second: Vec<usize>,
    /// Which way it runs.
    pub runs: Runs,
    /// Where it lies: its x when upright, its y when level, finished.
    pub at_in: f64,
    /// Where it begins, along the other coordinate.
    pub from_in: f64,
    /// Where it ends.
    pub to_in: f64,
    /// Finished length sewn at this place in the order.
    pub length_in: f64,
    /// How much of it.
    pub sewn: Sewn,
}

impl CentreSeam {
    fn shift(&mut self, by: [f64; 2]) {
        let (across, along) = (by[self.runs.across()], by[1 - self.runs.across()]);
        self.at_in += across;
        self.from_in += along;
        self.to_in += along;
        if let Sewn::StopsShort { stops_at_in, .. } = &mut self.sewn {
            *stops_at_in += along;
        }
    }
}

/// Parts, and seams in order.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Layout {
    pub(super) parts: Vec<Part>,
    pub(super) seams: Vec<CentreSeam>,
    strips: usize,
}

/// Parts that are one unit by now, and how large it is.
#[derive(Clone, Debug)]
pub(super) struct Unit {
    pub(super) parts: Vec<usize>,
    pub(super) at: Rect,
}

impl Layout {
    /// A tree laid out and coped up to its final size.
    pub(super) fn of(tree: &Tree, sizes: &Sizes, end: [f64; 2]) -> Self {
        let mut layout = Self::default();
        let mut open: Vec<Unit> = Vec::new();
        for &sign in &tree.signs {
            let unit = match sign {
                Sign::Block(block) => layout.seated(block, tree.turned[block], sizes),
                _ => {
                    let (Some(b), Some(a)) = (open.pop(), open.pop()) else { continue };
                    layout.joined(a, b, sign, sizes.least)
                }
            };
            open.push(unit);
        }
        layout.settle(0);
        if let Some(unit) = open.pop() {
            layout.frame(unit, end, sizes.least);
        }
        layout
    }

    fn seated(&mut self, block: usize, turned: bool, sizes: &Sizes) -> Unit {
        let [w, h] = sizes.lying(block, turned);
        let unit = self.block(block, turned, Rect::new(0.0, 0.0, w, h));
        match sizes.place {
            Some([w, h]) => {
                let wide = self.cope(unit, 0, w);
                self.cope(wide, 1, h)
            }
            None => unit,
        }
    }

    /// A block laid somewhere.
    pub(super) fn block(&mut self, block: usize, turned: bool, at: Rect) -> Unit {
        self.parts.push(Part { what: What::Block(block), at, turned });
        Unit { parts: vec![self.parts.len() - 1], at }
    }

    fn joined(&mut self, a: Unit, b: Unit, sign: Sign, least: f64) -> Unit {
        let (across, runs) = if sign == Sign::Beside { (1, Runs::Upright) } else { (0, Runs::Level) };
        let length = |unit: &Unit| unit.at.span(across)[1] - unit.at.span(across)[0];
        let shared = super::coping::common(length(&a), length(&b), least);
        let a = self.cope(a, across, shared);
        let b = self.cope(b, across, shared);
        self.sewn(a, b, runs)
    }

    /// Brings a unit up to a length, with a strip at its far edge if it is too short.
    pub(super) fn cope(&mut self, unit: Unit, way: usize, length: f64) -> Unit {
        let [from, to] = unit.at.span(way);
        if is_short(to - from, length) { self.strip(unit, way, length - (to - from), true) } else { unit }
    }

    /// Sews a strip to the far or the near edge of a unit.
    fn strip(&mut self, unit: Unit, way: usize, wide: f64, far: bool) -> Unit {
        let mut at = unit.at;
        if way == 0 {
            at.width_in = wide;
        } else {
            at.height_in = wide;
        }
        self.parts.push(Part { what: What::Strip(self.strips), at, turned: false });
        self.strips += 1;
        let strip = Unit { parts: vec![self.parts.len() - 1], at };
        let runs = if way == 0 { Runs::Upright } else { Runs::Level };
        if far { self.sewn(unit, strip, runs) } else { self.sewn(strip, unit, runs) }
    }

    /// Lays the second unit right of the first, or above it, and sews it there.
    fn sewn(&mut self, a: Unit, b: Unit, runs: Runs) -> Unit {
        let way = runs.across();
        let by = [0, 1].map(|k| a.at.span(k)[usize::from(k == way)] - b.at.span(k)[0]);
        for &part in &b.parts {
            let at = &mut self.parts[part].at;
            at.x_in += by[0];
            at.y_in += by[1];
        }
        self.seams.push(CentreSeam {
            first: a.parts.clone(),
            second: b.parts.clone(),
            runs,
            at_in: 0.0,
            from_in: 0.0,
            to_in: 0.0,
            length_in: 0.0,
            sewn: Sewn::Whole,
        });
        let parts: Vec<usize> = a.parts.into_iter().chain(b.parts).collect();
        let at = Rect::around(parts.iter().map(|&part| self.parts[part].at));
        Unit { parts, at }
    }

    /// The strips round the outside; afterwards the lower left corner is the origin.
    pub(super) fn frame(&mut self, unit: Unit, end: [f64; 2], least: f64) {
        let corner =
            |layout: &Self| layout.parts.first().map_or([0.0; 2], |part| [part.at.x_in, part.at.y_in]);
        let (inside, before) = (self.seams.len(), corner(self));
        let mut unit = unit;
        for (way, want) in end.into_iter().enumerate() {
            let [from, to] = unit.at.span(way);
            let [near, far] = outer(to - from, want, least);
            if near > 0.0 {
                unit = self.strip(unit, way, near, false);
            }
            if far > 0.0 {
                unit = self.strip(unit, way, far, true);
            }
        }
        for part in &mut self.parts {
            part.at.x_in -= unit.at.x_in;
            part.at.y_in -= unit.at.y_in;
        }
        let after = corner(self);
        for seam in &mut self.seams[..inside] {
            seam.shift([after[0] - before[0], after[1] - before[1]]);
        }
        self.settle(inside);
    }

    /// Writes down where the seams from `from` on lie, each from edge to edge of its first unit.
    pub(super) fn settle(&mut self, from: usize) {
        for seam in &mut self.seams[from..] {
            let around = Rect::around(seam.first.iter().map(|&part| self.parts[part].at));
            let way = seam.runs.across();
            seam.at_in = around.span(way)[1];
            [seam.from_in, seam.to_in] = around.span(1 - way);
            seam.length_in = seam.to_in - seam.from_in;
        }
    }

    /// Finished size of the whole.
    pub(super) fn size(&self) -> [f64; 2] {
        let around = Rect::around(self.parts.iter().map(|part| part.at));
        [around.width_in, around.height_in]
    }

    /// The coping of a strip: whether its width lies along x.
    pub(super) fn strip_widths(&self, strip: usize) -> Option<(Rect, usize)> {
        let part = self.parts.iter().position(|part| part.what == What::Strip(strip))?;
        let alone = |seam: &&CentreSeam| seam.first == [part] || seam.second == [part];
        let way = self.seams.iter().find(alone)?.runs.across();
        Some((self.parts[part].at, way))
    }
}
