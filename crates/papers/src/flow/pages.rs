//! Strips on pages.

use super::block::Block;
use super::columns::Columns;
use super::faces;
use super::set::{Run, Setter, Strip, grouped};
use crate::Paper;
use crate::press::{Letters, Part, Role, Sheet, Side};
use drawing::Stroke;
use plane::{Point, Vec2};
use std::sync::Arc;

/// The room that a document's pages have.
#[derive(Clone, Debug)]
pub struct Format {
    /// The paper.
    pub paper: Paper,
    /// What stays empty on all sides, in inches.
    pub margin_in: f64,
    /// What stands at the foot of every page beside its number; empty for nothing.
    pub foot: String,
    /// The number of the first page; `None` for pages without numbers.
    pub first_number: Option<usize>,
    /// Whether a chapter that has room on the page of the one before begins there; otherwise each begins a page.
    pub chapters_share: bool,
}

impl Format {
    /// Pages of a paper with a running foot, from page 1.
    #[must_use]
    pub fn new(paper: Paper, foot: impl Into<String>) -> Self {
        Self { paper, margin_in: 0.6, foot: foot.into(), first_number: Some(1), chapters_share: false }
    }

    /// Width of the room in inches.
    #[must_use]
    pub fn width_in(&self) -> f64 {
        self.paper.size_in()[0] - 2.0 * self.margin_in
    }

    /// Height of the room in inches.
    #[must_use]
    pub fn height_in(&self) -> f64 {
        self.paper.size_in()[1] - 2.0 * self.margin_in - FOOT_IN
    }
}

/// Between a chapter and another on its page.
const BETWEEN_CHAPTERS_IN: f64 = 0.45;
/// Room for the foot of a page.
const FOOT_IN: f64 = 0.3;
/// Room for a page's number.
const NUMBER_IN: f64 = 1.0;

/// The blocks on pages.
#[must_use]
pub fn pages(blocks: &[Block], format: &Format, letters: &Letters) -> Vec<Sheet> {
    let mut setter = Setter { letters, high_in: format.height_in(), groups: 0 };
    let strips = setter.all(blocks, format.width_in());
    let mut filling = Filling::default();
    for (i, strip) in strips.iter().enumerate() {
        if let Some(page) = &strip.page {
            filling.turn();
            filling.done.push(Page::Given(Arc::clone(page)));
            continue;
        }
        if strip.on_new_page {
            let chapter_in = BETWEEN_CHAPTERS_IN + chapter_height_in(strips.get(i + 1..).unwrap_or_default());
            let shares = format.chapters_share
                && strip.is_chapter
                && filling.used_in + chapter_in <= format.height_in();
            if shares && !filling.is_empty() {
                filling.used_in += BETWEEN_CHAPTERS_IN;
            } else {
                filling.turn();
            }
        }
        if strip.is_room && filling.is_empty() {
            continue;
        }
        // What must stand together is as high as this strip and all that it holds, one after the other.
        let held = strips.get(i..).unwrap_or_default();
        let chain = held.iter().take_while(|strip| strip.holds_next).count() + 1;
        let needed: f64 = held.iter().take(chain).map(|strip| strip.height_in).sum();
        if !strip.is_room && filling.used_in + needed > format.height_in() + 1e-6 && !filling.is_empty() {
            filling.turn();
            if let Some(head) = &strip.again {
                filling.add(head);
            }
        }
        match &strip.columns {
            Some(columns) => filling.add_columns(columns.clone(), format.height_in()),
            None => filling.add(strip),
        }
    }
    filling.turn();
    let total = filling.done.len();
    let done = filling.done.into_iter().enumerate();
    done.map(|(i, page)| match page {
        Page::Set(parts) => sheet(parts, i, total, format, letters),
        Page::Given(page) => Sheet::clone(&page),
    })
    .collect()
}

/// How high strips are together, up to what begins a page.
fn chapter_height_in(strips: &[Strip]) -> f64 {
    if strips.iter().take_while(|strip| !strip.on_new_page).any(|strip| strip.page.is_some()) {
        return f64::INFINITY;
    }
    let own = strips.iter().take_while(|strip| !strip.on_new_page);
    own.map(|strip| {
        let whole = strip.columns.clone().and_then(|mut columns| columns.take(f64::INFINITY, true));
        whole.as_ref().unwrap_or(strip).height_in
    })
    .sum()
}

/// A page of its own making, or one that was given as it is.
enum Page {
    Set(Vec<Part>),
    Given(Arc<Sheet>),
}

/// A page being filled, and those that are full.
#[derive(Default)]
struct Filling {
    done: Vec<Page>,
    runs: Vec<Run>,
    used_in: f64,
}

impl Filling {
    fn is_empty(&self) -> bool {
        self.runs.is_empty()
    }

    fn add(&mut self, strip: &Strip) {
        let by = Vec2::new(0.0, -self.used_in);
        let parts = strip.parts.iter().map(|part| part.clone().moved(by));
        match self.runs.last_mut().filter(|(group, _)| group.is_some() && *group == strip.group) {
            Some((_, held)) => held.extend(parts),
            None => self.runs.push((strip.group, parts.collect())),
        }
        self.used_in += strip.height_in;
    }

    fn add_columns(&mut self, mut columns: Columns, height_in: f64) {
        while !columns.items.is_empty() {
            match columns.take(height_in - self.used_in, self.is_empty()) {
                Some(strip) => self.add(&strip),
                None => self.turn(),
            }
        }
    }

    fn turn(&mut self) {
        if !self.is_empty() {
            let runs = std::mem::take(&mut self.runs);
            let parts = runs.into_iter().flat_map(|(group, parts)| grouped(group, parts));
            self.done.push(Page::Set(parts.collect()));
        }
        self.used_in = 0.0;
    }
}

fn sheet(parts: Vec<Part>, index: usize, total: usize, format: &Format, letters: &Letters) -> Sheet {
    let [width, height] = format.paper.size_in();
    let corner = Vec2::new(format.margin_in, height - format.margin_in);
    let mut parts: Vec<Part> = parts.into_iter().map(|part| part.moved(corner)).collect();
    let foot_at = Point::new(format.margin_in, format.margin_in + FOOT_IN * 0.5);
    let rule = [
        Point::new(format.margin_in, foot_at.y + 0.06),
        Point::new(width - format.margin_in, foot_at.y + 0.06),
    ];
    let mut furniture = Vec::new();
    let words = |words: &str, side: Side| {
        // The number stands at the other end of the same line.
        let room_in = format.width_in() - if side == Side::Start { NUMBER_IN } else { 0.0 };
        let words = letters.on_one_line(words, faces::SMALL.at(side), room_in);
        Part::Words { role: Role::Words, at: foot_at, words }
    };
    if !format.foot.is_empty() || format.first_number.is_some() {
        furniture.push(Part::Rule { points: rule.to_vec(), stroke: Stroke::Leader });
        furniture.push(words(&format.foot, Side::Start));
    }
    if let Some(first) = format.first_number {
        // Pages that begin later are part of something longer.
        let number = first + index;
        let said = if first == 1 { format!("{number} of {total}") } else { number.to_string() };
        furniture.push(words(&said, Side::End));
    }
    parts.push(Part::Furniture(furniture));
    Sheet { size_in: [width, height], parts }
}
