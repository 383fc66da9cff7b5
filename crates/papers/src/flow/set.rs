//! One block set in a room: strips that follow each other downwards and aren't torn.

use super::block::{Block, Fit};
use super::columns::Columns;
use super::{Face, faces, table};
use crate::press::{GroupRole, Laid, Letters, Part, Role, Sheet};
use drawing::{Drawing, Stroke};
use plane::{Point, Vec2};
use std::sync::Arc;

/// Something as high as it is, its top left corner at the origin, that no page break tears.
#[derive(Clone, Debug, Default)]
pub(super) struct Strip {
    pub(super) height_in: f64,
    pub(super) parts: Vec<Part>,
    /// Whether the next strip must stand on the same page.
    pub(super) holds_next: bool,
    /// Strips of one group that stand on one page are read as one.
    pub(super) group: Option<(usize, GroupRole)>,
    /// What is set again above this strip when it begins a page: the head of its table.
    pub(super) again: Option<Arc<Strip>>,
    /// Whether it begins a page.
    pub(super) on_new_page: bool,
    /// Whether it does so as the head of a chapter.
    pub(super) is_chapter: bool,
    /// A page as it is, in its place.
    pub(super) page: Option<Arc<Sheet>>,
    /// Items in columns, as many a page as have room there; the strip is as high as the first of them.
    pub(super) columns: Option<Columns>,
    /// Room that vanishes at the top of a page.
    pub(super) is_room: bool,
}

/// Parts of one group, or of none.
pub(super) type Run = (Option<(usize, GroupRole)>, Vec<Part>);

impl Strip {
    fn room(height_in: f64) -> Self {
        Self { height_in, is_room: true, ..Self::default() }
    }

    pub(super) fn moved(&self, by: Vec2) -> Vec<Part> {
        self.parts.iter().map(|part| part.clone().moved(by)).collect()
    }
}

/// Sets blocks; counts groups so that each has a number.
pub(super) struct Setter<'a> {
    pub(super) letters: &'a Letters,
    /// How high the room of a page is.
    pub(super) high_in: f64,
    pub(super) groups: usize,
}

/// Inside a frame, between it and what it holds.
const FRAME_IN: f64 = 0.14;
/// Between columns.
pub(super) const GAP_IN: f64 = 0.22;
/// The most that words are high which are not torn: an item of a list, a heading.
const MOST_IN: f64 = 4.0;
/// What a page keeps beside its highest figure: a title over it.
const OVER_IN: f64 = 1.0;
/// Where words of a list begin.
const INDENT_IN: f64 = 0.24;

impl Setter<'_> {
    pub(super) fn all(&mut self, blocks: &[Block], width_in: f64) -> Vec<Strip> {
        blocks.iter().flat_map(|block| self.block(block, width_in)).collect()
    }

    fn block(&mut self, block: &Block, width_in: f64) -> Vec<Strip> {
        match block {
            Block::Heading { level, words } => self.heading(*level, words, width_in),
            Block::Words { face, words } => {
                let mut strips =
                    paragraph(&self.letters.set(words, *face, Some(width_in)), &Role::Words, 0.0);
                strips.push(Strip::room(face.size_pt / 72.0 * 0.5));
                strips
            }
            Block::List { face, counted, items } => self.list(*face, *counted, items, width_in),
            Block::Table(rows) => {
                self.groups += 1;
                let mut strips = table::strips(rows, self.letters, width_in, self.groups);
                strips.push(Strip::room(0.14));
                strips
            }
            Block::Figure { drawing, alt, fit, caption } => {
                self.figure(drawing, alt, *fit, caption, width_in)
            }
            Block::Beside(columns) => vec![self.beside(columns, width_in), Strip::room(0.1)],
            Block::Columns { count, items } => {
                let mut columns = Columns::new(*count, width_in);
                columns.items = items.iter().map(|item| self.joined(item, columns.wide_in)).collect();
                let height_in = columns.items.front().map_or(0.0, |first| first.height_in);
                vec![Strip { height_in, columns: Some(columns), ..Strip::default() }, Strip::room(0.1)]
            }
            // What is higher than a page has to be torn, and stands without its frame.
            Block::Together(blocks) => match self.joined(blocks, width_in) {
                held if held.height_in > self.high_in => self.all(blocks, width_in),
                held => vec![held, Strip::room(0.14)],
            },
            Block::Framed(blocks) => {
                let held = self.joined(blocks, width_in - 2.0 * FRAME_IN);
                if held.height_in + 2.0 * FRAME_IN > self.high_in {
                    return self.all(blocks, width_in);
                }
                vec![framed(&held, width_in), Strip::room(0.14)]
            }
            Block::Caution(lines) => vec![self.caution(lines, width_in), Strip::room(0.12)],
            Block::Room(height) => vec![Strip::room(*height)],
            Block::Page(page) => vec![Strip { page: Some(Arc::clone(page)), ..Strip::default() }],
            Block::NewPage => vec![Strip { on_new_page: true, ..Strip::room(0.0) }],
        }
    }

    fn heading(&self, level: u8, words: &str, width_in: f64) -> Vec<Strip> {
        let (face, before, after) = match level {
            0 | 1 => (faces::CHAPTER, 0.0, 0.14),
            2 => (faces::SECTION, 0.16, 0.07),
            _ => (Face::bold(faces::BODY.size_pt), 0.08, 0.03),
        };
        let laid = self.letters.set_within(words, face, width_in, MOST_IN);
        let role = Role::Heading { level: level.max(1), mark: (level <= 2).then(|| words.to_owned()) };
        let mut strip = whole(&laid, role, 0.0);
        strip.height_in += after;
        strip.holds_next = true;
        let above = Strip { on_new_page: level <= 1, is_chapter: level <= 1, ..Strip::room(before) };
        vec![above, strip]
    }

    fn list(&mut self, face: Face, counted: bool, items: &[String], width_in: f64) -> Vec<Strip> {
        self.groups += 1;
        let mut strips = Vec::new();
        for (i, item) in items.iter().enumerate() {
            let label = if counted { format!("{}.", i + 1) } else { "•".to_owned() };
            let indent = if counted { INDENT_IN.max(face.size_pt / 72.0 * 1.9) } else { INDENT_IN };
            let words = self.letters.set_within(item, face, width_in - indent, MOST_IN);
            let label = self.letters.set(&label, face, None);
            let mut strip = whole(&words, Role::Words, indent);
            strip.parts.insert(0, at_left(&label, Role::Words, 0.0));
            strip.parts = vec![Part::Group { role: GroupRole::Item, parts: strip.parts }];
            strip.height_in += face.size_pt / 72.0 * 0.22;
            strip.group = Some((self.groups, GroupRole::List));
            strips.push(strip);
        }
        strips.push(Strip::room(0.06));
        strips
    }

    fn figure(
        &self,
        drawing: &Arc<Drawing>,
        alt: &str,
        fit: Fit,
        caption: &str,
        width_in: f64,
    ) -> Vec<Strip> {
        let (wide, high) = (drawing.width_in().max(1e-6), drawing.height_in().max(1e-6));
        let caption = (!caption.is_empty())
            .then(|| self.letters.set_within(caption, faces::SMALL, width_in, MOST_IN / 2.0));
        let room_in = self.high_in - OVER_IN - caption.as_ref().map_or(0.0, |words| words.height_in);
        let scale = match fit {
            Fit::Within { height_in } => (width_in / wide).min(height_in.min(room_in) / high).min(1.0),
            Fit::Filling { height_in } => (width_in / wide).min(height_in.min(room_in) / high),
            // True size is kept; what is drawn smaller may be smaller still.
            Fit::Scale(scale) if scale < 1.0 => scale.min(width_in / wide).min(room_in / high),
            Fit::Scale(scale) => scale,
        };
        let (drawn_wide, drawn_high) = (wide * scale, high * scale);
        let at = Point::new((width_in - drawn_wide) / 2.0, -drawn_high);
        let alt = if alt.trim().is_empty() { None } else { Some(alt.to_owned()) };
        let figure = Part::Figure { alt, at, scale, drawing: Arc::clone(drawing) };
        let mut strip = Strip { height_in: drawn_high + 0.06, parts: vec![figure], ..Strip::default() };
        if let Some(words) = caption {
            // Under the drawing's left edge, or further left where the words are longer than the room there.
            let left = ((width_in - drawn_wide) / 2.0).min(width_in - words.width_in).max(0.0);
            let at = Point::new(left, -strip.height_in);
            strip.height_in += words.height_in + 0.04;
            strip.parts.push(Part::Words { role: Role::Caption, at, words });
        }
        strip.height_in += 0.06;
        vec![strip]
    }

    /// Blocks under each other as one strip.
    fn joined(&mut self, blocks: &[Block], width_in: f64) -> Strip {
        let strips = self.all(blocks, width_in);
        let last = strips.iter().rposition(|strip| !strip.is_room).map_or(0, |i| i + 1);
        let mut out = Strip::default();
        let mut run: Vec<Run> = Vec::new();
        for strip in strips.iter().take(last) {
            if out.height_in == 0.0 && strip.is_room {
                continue;
            }
            let whole = strip.columns.clone().and_then(|mut columns| columns.take(f64::INFINITY, true));
            let strip = whole.as_ref().unwrap_or(strip);
            let parts = strip.moved(Vec2::new(0.0, -out.height_in));
            match run.last_mut().filter(|(group, _)| group.is_some() && *group == strip.group) {
                Some((_, held)) => held.extend(parts),
                None => run.push((strip.group, parts)),
            }
            out.height_in += strip.height_in;
        }
        out.parts = run.into_iter().flat_map(|(group, parts)| grouped(group, parts)).collect();
        out
    }

    fn beside(&mut self, columns: &[(f64, Vec<Block>)], width_in: f64) -> Strip {
        let gaps = GAP_IN * columns.len().saturating_sub(1) as f64;
        let total: f64 = columns.iter().map(|(share, _)| share.max(0.0)).sum::<f64>().max(1e-9);
        let mut out = Strip::default();
        let mut left = 0.0;
        for (share, blocks) in columns {
            let wide = (width_in - gaps) * share.max(0.0) / total;
            let column = self.joined(blocks, wide);
            out.parts.extend(column.moved(Vec2::new(left, 0.0)));
            out.height_in = out.height_in.max(column.height_in);
            left += wide + GAP_IN;
        }
        out
    }

    fn caution(&mut self, lines: &[String], width_in: f64) -> Strip {
        let blocks: Vec<Block> = std::iter::once(Block::set(Face::bold(10.0), "Take care"))
            .chain(lines.iter().map(|line| Block::set(faces::CAUTION, line)))
            .collect();
        let held = self.joined(&blocks, width_in - 2.0 * FRAME_IN - BAR_IN);
        let high = held.height_in + 2.0 * FRAME_IN;
        let corners = |left: f64, right: f64| {
            vec![
                Point::new(left, 0.0),
                Point::new(left, -high),
                Point::new(right, -high),
                Point::new(right, 0.0),
            ]
        };
        let ground = Part::Ground { points: corners(0.0, width_in), colour: drawing::CALICO };
        let bar = Part::Ground { points: corners(0.0, BAR_IN), colour: drawing::MADDER };
        let mut parts = vec![ground, bar];
        parts.extend(held.moved(Vec2::new(FRAME_IN + BAR_IN, -FRAME_IN)));
        Strip {
            height_in: high,
            parts: vec![Part::Group { role: GroupRole::Section, parts }],
            ..Strip::default()
        }
    }
}

/// Width of the bar beside a caution.
const BAR_IN: f64 = 0.06;

/// A paragraph as strips: a page break leaves no line alone.
pub(super) fn paragraph(laid: &Laid, role: &Role, left_in: f64) -> Vec<Strip> {
    let count = laid.count();
    if count <= 4 {
        return vec![whole(laid, role.clone(), left_in)];
    }
    let middle = (2..count - 2).map(|i| i..i + 1);
    let parts = std::iter::once(0..2).chain(middle).chain(std::iter::once(count - 2..count));
    parts.map(|lines| whole(&laid.part(lines), role.clone(), left_in)).collect()
}

/// Words as one strip.
pub(super) fn whole(laid: &Laid, role: Role, left_in: f64) -> Strip {
    Strip { height_in: laid.height_in, parts: vec![at_left(laid, role, left_in)], ..Strip::default() }
}

fn at_left(laid: &Laid, role: Role, left_in: f64) -> Part {
    Part::Words { role, at: Point::new(left_in, 0.0), words: laid.clone() }
}

fn framed(held: &Strip, width_in: f64) -> Strip {
    let high = held.height_in + 2.0 * FRAME_IN;
    let corners = [(0.0, 0.0), (width_in, 0.0), (width_in, -high), (0.0, -high), (0.0, 0.0)];
    let points = corners.map(|(x, y)| Point::new(x, y)).to_vec();
    let mut parts = vec![Part::Rule { points, stroke: Stroke::Leader }];
    parts.extend(held.moved(Vec2::new(FRAME_IN, -FRAME_IN)));
    Strip {
        height_in: high,
        parts: vec![Part::Group { role: GroupRole::Section, parts }],
        ..Strip::default()
    }
}

/// Parts as one group, if they are one.
pub(super) fn grouped(group: Option<(usize, GroupRole)>, parts: Vec<Part>) -> Vec<Part> {
    match group {
        Some((_, role)) => vec![Part::Group { role, parts }],
        None => parts,
    }
}
