//! Words as letters on lines: shaping, line breaks, both directions of writing.
//!
//! * A letter that no type has is replaced by an empty box: it is seen to be missing, and nothing fails.
//! * Fractions (`2 3/16`) are set as fractions where the type can; the text behind them stays as written.

use super::fractions::fractions;
use super::held::{Plain, hard_spaces, held};
use super::plain::{long_words, with_boxes, without_controls};
use crate::Fonts;
use colour::Srgb;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use parley::fontique::{Blob, Collection, CollectionOptions};
use parley::{
    Alignment, AlignmentOptions, FontContext, FontFamily, FontFamilyName, FontFeatures, FontWeight, Layout,
    LayoutContext, LineHeight, OverflowWrap, StyleProperty, TextWrapMode,
};
use std::borrow::Cow;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::ops::Range;
use std::sync::Arc;

/// Points in an inch: what type is measured in.
pub(crate) const POINTS_PER_IN: f64 = 72.0;

/// How words are set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Face {
    /// Size of the type in points.
    pub size_pt: f64,
    /// Whether it is bold.
    pub bold: bool,
    /// Colour of the letters.
    pub colour: Srgb,
    /// Height of a line as a share of the size.
    pub leading: f64,
    /// Where lines shorter than the room stand.
    pub side: Side,
}

/// Where a line stands in its room.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Side {
    /// Where its script begins.
    #[default]
    Start,
    /// In the middle.
    Middle,
    /// Where its script ends.
    End,
}

impl Face {
    /// Plain type of a size in ink.
    #[must_use]
    pub const fn plain(size_pt: f64) -> Self {
        Self { size_pt, bold: false, colour: drawing::INK, leading: 1.35, side: Side::Start }
    }

    /// Bold type of a size in ink, its lines nearer to each other.
    #[must_use]
    pub const fn bold(size_pt: f64) -> Self {
        Self { bold: true, leading: 1.2, ..Self::plain(size_pt) }
    }

    /// The same in another colour.
    #[must_use]
    pub const fn coloured(self, colour: Srgb) -> Self {
        Self { colour, ..self }
    }

    /// The same at another side of its room.
    #[must_use]
    pub const fn at(self, side: Side) -> Self {
        Self { side, ..self }
    }
}

/// Words set on lines. Lengths are inches, from the top left corner of their room.
#[derive(Clone, Debug)]
pub struct Laid {
    pub(super) text: Arc<str>,
    pub(super) lines: Vec<LaidLine>,
    pub(super) colour: Srgb,
    /// Width of the longest line.
    pub width_in: f64,
    /// Height of all lines.
    pub height_in: f64,
}

/// One line of words.
#[derive(Clone, Debug)]
pub(super) struct LaidLine {
    /// Top, foot of the letters and bottom, downwards.
    pub(super) top_in: f64,
    pub(super) foot_in: f64,
    pub(super) bottom_in: f64,
    pub(super) runs: Vec<LaidRun>,
}

/// Letters of one type beside each other.
#[derive(Clone, Debug)]
pub(super) struct LaidRun {
    pub(super) left_in: f64,
    pub(super) font: Font,
    pub(super) size_pt: f32,
    pub(super) glyphs: Vec<KrillaGlyph>,
}

impl Laid {
    /// How many lines there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.lines.len()
    }

    /// Some of the lines, from the top again.
    #[must_use]
    pub fn part(&self, lines: Range<usize>) -> Self {
        let lines = self.lines.get(lines).unwrap_or_default();
        let top_in = lines.first().map_or(0.0, |line| line.top_in);
        let lines: Vec<LaidLine> = lines
            .iter()
            .map(|line| LaidLine {
                top_in: line.top_in - top_in,
                foot_in: line.foot_in - top_in,
                bottom_in: line.bottom_in - top_in,
                runs: line.runs.clone(),
            })
            .collect();
        let height_in = lines.last().map_or(0.0, |line| line.bottom_in);
        Self { lines, height_in, ..self.clone() }
    }
}

/// The types that words are set in, and what was learnt about them.
pub struct Letters {
    inner: RefCell<Inner>,
}

struct Inner {
    fonts: FontContext,
    shaping: LayoutContext<()>,
    families: Vec<String>,
    held: BTreeMap<(u64, u32), Option<Font>>,
}

impl Letters {
    /// The types of `fonts`, in their order: what the first lacks is taken from the next.
    #[must_use]
    pub fn new(fonts: &Fonts) -> Self {
        let mut collection = Collection::new(CollectionOptions { shared: false, system_fonts: false });
        let mut families: Vec<String> = Vec::new();
        for file in fonts.files() {
            for (family, _) in collection.register_fonts(Blob::new(Arc::<Vec<u8>>::clone(file)), None) {
                let name = collection.family_name(family).unwrap_or_default().to_owned();
                if !families.contains(&name) {
                    families.push(name);
                }
            }
        }
        let fonts = FontContext { collection, source_cache: parley::fontique::SourceCache::default() };
        let inner = Inner { fonts, shaping: LayoutContext::new(), families, held: BTreeMap::new() };
        Self { inner: RefCell::new(inner) }
    }

    /// Words on lines no wider than `room_in`; without a room, on as many lines as they have breaks.
    #[must_use]
    pub fn set(&self, words: &str, face: Face, room_in: Option<f64>) -> Laid {
        let words = held(&without_controls(words));
        let mut inner = self.inner.borrow_mut();
        let mut layout = inner.layout(&words, face, room_in);
        let missing = missing(&layout, &words);
        let words = if missing.is_empty() {
            words
        } else {
            let boxed = with_boxes(&words, &missing, inner.box_letter(face));
            layout = inner.layout(&boxed, face, room_in);
            boxed
        };
        inner.laid(&layout, &words, face)
    }

    /// Width in inches of words on one line.
    #[must_use]
    pub fn width_in(&self, words: &str, face: Face) -> f64 {
        self.set(words, face, None).width_in
    }
}

impl Inner {
    fn layout(&mut self, words: &str, face: Face, room_in: Option<f64>) -> Layout<()> {
        let families: Vec<FontFamilyName<'_>> =
            self.families.iter().map(|name| FontFamilyName::Named(Cow::Borrowed(name))).collect();
        let mut builder = self.shaping.ranged_builder(&mut self.fonts, words, 1.0, false);
        builder.push_default(StyleProperty::FontFamily(FontFamily::List(Cow::Borrowed(&families))));
        builder.push_default(StyleProperty::FontSize(face.size_pt as f32));
        builder.push_default(StyleProperty::LineHeight(LineHeight::FontSizeRelative(face.leading as f32)));
        for long in long_words(words) {
            builder.push(StyleProperty::OverflowWrap(OverflowWrap::BreakWord), long);
        }
        for hard in hard_spaces(words) {
            builder.push(StyleProperty::TextWrapMode(TextWrapMode::NoWrap), hard);
        }
        if face.bold {
            builder.push_default(StyleProperty::FontWeight(FontWeight::BOLD));
        }
        for fraction in fractions(words) {
            let frac = StyleProperty::FontFeatures(FontFeatures::Source(Cow::Borrowed("\"frac\" on")));
            builder.push(frac, fraction.parts.clone());
            // Only what the type sets as one letter stands close: `1 7/8` must never be read as seventeen eighths.
            let set_as_one = matches!(words.get(fraction.parts), Some("1/2" | "1/4" | "3/4"));
            if let Some(gap) = fraction.gap.filter(|_| set_as_one) {
                builder.push(StyleProperty::LetterSpacing((-0.12 * face.size_pt) as f32), gap);
            }
        }
        let mut layout = builder.build(words);
        let room = room_in.map(|inches| (inches * POINTS_PER_IN) as f32);
        layout.break_all_lines(room);
        let side = match face.side {
            Side::Start => Alignment::Start,
            Side::Middle => Alignment::Center,
            Side::End => Alignment::End,
        };
        layout.align(side, AlignmentOptions::default());
        layout
    }

    fn laid(&mut self, layout: &Layout<()>, words: &str, face: Face) -> Laid {
        let inches = |points: f32| f64::from(points) / POINTS_PER_IN;
        let plain = Plain::of(words);
        let mut lines = Vec::new();
        for line in layout.lines() {
            let metrics = line.metrics();
            let mut runs = Vec::new();
            let mut left = metrics.offset;
            for run in line.runs() {
                let size_pt = run.font_size();
                let (mut glyphs, begins) = (Vec::new(), left);
                for cluster in run.visual_clusters() {
                    if cluster.is_ligature_continuation() {
                        if let Some(last) = glyphs.last_mut() {
                            let last: &mut KrillaGlyph = last;
                            last.text_range.end = plain.range(cluster.text_range()).end;
                        }
                        continue;
                    }
                    for glyph in cluster.glyphs() {
                        let share = |points: f32| points / size_pt;
                        glyphs.push(KrillaGlyph::new(
                            GlyphId::new(glyph.id),
                            share(glyph.advance),
                            share(glyph.x),
                            share(glyph.y),
                            0.0,
                            plain.range(cluster.text_range()),
                            None,
                        ));
                        left += glyph.advance;
                    }
                }
                let data = run.font().clone();
                let (file, id) = data.data.into_raw_parts();
                let font =
                    self.held.entry((id, data.index)).or_insert_with(|| Font::new(file.into(), data.index));
                if let Some(font) = font.clone().filter(|_| !glyphs.is_empty()) {
                    runs.push(LaidRun { left_in: inches(begins), font, size_pt, glyphs });
                }
            }
            let (top, bottom) = (metrics.block_min_coord, metrics.block_max_coord);
            lines.push(LaidLine {
                top_in: inches(top),
                foot_in: inches(metrics.baseline),
                bottom_in: inches(bottom),
                runs,
            });
        }
        Laid {
            text: plain.text.into(),
            lines,
            colour: face.colour,
            width_in: inches(layout.width()),
            height_in: inches(layout.height()),
        }
    }

    /// The first of some boxes that a type has; a question mark where none has any.
    fn box_letter(&mut self, face: Face) -> char {
        let boxes = ['\u{25a1}', '\u{25af}', '\u{fffd}'];
        boxes
            .into_iter()
            .find(|c| missing(&self.layout(&c.to_string(), face, None), &c.to_string()).is_empty())
            .unwrap_or('?')
    }
}

/// Letters that no type has, as places in the words.
fn missing(layout: &Layout<()>, words: &str) -> Vec<Range<usize>> {
    let mut found = Vec::new();
    for line in layout.lines() {
        for run in line.runs() {
            for cluster in run.clusters() {
                let range = cluster.text_range();
                let blank = words.get(range.clone()).is_none_or(|part| part.chars().all(char::is_whitespace));
                if !blank && cluster.glyphs().any(|glyph| glyph.id == 0) {
                    found.push(range);
                }
            }
        }
    }
    found.sort_by_key(|range| range.start);
    found
}
