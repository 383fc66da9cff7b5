//! Several drawings side by side at one scale, each with words under it.

use crate::display::weight_for;
use crate::{Drawing, Item, Placement, TextItem, words_width_in};
use plane::{Point, Vec2};

/// Height of the first line of words under a drawing, as a share of the drawing's weight.
const NAME: f64 = 0.6;
/// The same for the lines after it.
const WORDS: f64 = 0.45;

/// Drawings in rows, about as wide as high together, with lines of words under each. All keep their true
/// size; words that are wider than a drawing are set smaller.
#[must_use]
pub fn side_by_side(title: &str, drawings: Vec<(Vec<String>, &Drawing)>) -> Drawing {
    let most = |of: fn(&Drawing) -> f64| drawings.iter().map(|(_, drawn)| of(drawn)).fold(0.0, f64::max);
    let (wide, high) = (most(Drawing::width_in), most(Drawing::height_in));
    let weight = weight_for(wide, high);
    let lines = drawings.iter().map(|(words, _)| words.len()).max().unwrap_or(0);
    let under = weight * (0.5 + 1.3 * (NAME + WORDS * lines.saturating_sub(1) as f64));
    let columns = ((drawings.len() as f64 * (high + under) / wide.max(1e-9)).sqrt().round() as usize).max(1);
    let columns = columns.min(drawings.len().max(1));
    let mut items = Vec::with_capacity(drawings.len());
    for (i, (words, drawn)) in drawings.into_iter().enumerate() {
        let cell = Point::new((i % columns) as f64 * wide, -((i / columns) as f64) * (high + under));
        let middle = drawn.lo.midpoint(drawn.hi);
        let by = cell - Point::new(middle.x, drawn.hi.y);
        let mut shown: Vec<Item> =
            drawn.items.iter().map(|item| item.placed(Placement::shifted(by))).collect();
        let mut below = Point::new(cell.x, cell.y - drawn.height_in());
        for (line, words) in words.into_iter().enumerate() {
            let wished = weight * if line == 0 { NAME } else { WORDS };
            let size = wished.min(0.95 * wide / words_width_in(&words, 1.0).max(1e-9));
            below = below + Vec2::new(0.0, -1.3 * wished);
            let text = TextItem { bold: line == 0, ..TextItem::level(below, size, words) };
            shown.push(Item::text(text));
        }
        items.push(Item::group("design", shown));
    }
    Drawing::around(title, items, weight, 0.5 * weight)
}
