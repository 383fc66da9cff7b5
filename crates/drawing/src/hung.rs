//! What a piece hangs by, on its back: a sleeve or tabs, and the label. Tabs stand out above the edge,
//! so they are seen from the front too.

use crate::ink::THREAD;
use crate::looks::Looks;
use crate::made::made;
use crate::stages::{Hung, HungBy};
use crate::{Item, Paint, Placement, Stroke, Tag, TextItem, words_width_in};
use plane::{Point, Pose, Turn, polygon};
use quilt::stage::sleeve::{SleevePart, Tab};

/// Finished width of a tab, and how far it reaches down on the back (common practice, no source).
const TAB_IN: [f64; 2] = [1.5, 2.0];

/// Sleeve or tabs, and the label, still seen through the front.
pub(crate) fn hanging(looks: &Looks<'_>, hung: &Hung<'_>, flat: bool) -> Item {
    let mut items = match hung.by {
        HungBy::Sleeve => hung.plan.parts.iter().map(|part| sleeve(looks, hung, part, flat)).collect(),
        HungBy::Tabs => tabs(looks, hung, flat),
    };
    items.extend(hung.plan.label.map(|corners| label(corners, &hung.label)));
    Item::group("hanging", items)
}

/// The tabs; none when it hangs by a sleeve.
pub(crate) fn tabs(looks: &Looks<'_>, hung: &Hung<'_>, flat: bool) -> Vec<Item> {
    let level = hung.plan.parts.first().and_then(|part| Turn::towards(part.top[1] - part.top[0]));
    let tabs = hung.plan.tabs.iter().filter(|_| hung.by == HungBy::Tabs);
    tabs.zip(level.into_iter().cycle()).map(|(at, level)| tab(looks, hung, at, level, flat)).collect()
}

fn sleeve(looks: &Looks<'_>, hung: &Hung<'_>, part: &SleevePart, flat: bool) -> Item {
    let [left, right] = part.top;
    let level = Turn::towards(right - left).unwrap_or(Turn::NONE);
    let down = level.vec().left() * -hung.plan.flat_in;
    let corners = vec![left + down, right + down, right, left];
    Item::group("sleeve", sewn_on(looks, hung, corners, level, flat))
}

fn tab(looks: &Looks<'_>, hung: &Hung<'_>, tab: &Tab, level: Turn, flat: bool) -> Item {
    let [wide, below] = TAB_IN;
    let at = |across: f64, up: f64| tab.at + level.vec() * across + level.left().vec() * up;
    let (half, top) = (wide / 2.0, tab.finished_length_in);
    let corners = vec![at(-half, -below), at(half, -below), at(half, top), at(-half, top)];
    Item::group("tab", sewn_on(looks, hung, corners, level, flat))
}

/// A flat tube or loop with its edges.
fn sewn_on(looks: &Looks<'_>, hung: &Hung<'_>, corners: Vec<Point>, level: Turn, flat: bool) -> Vec<Item> {
    let lies = lies(looks, hung, &corners, level);
    let mut items =
        made(looks, hung.made, lies.unwrap_or(Placement::STAY), corners.clone(), flat || lies.is_none());
    items.push(Item::closed(corners, Stroke::CutLine));
    items
}

/// The middle of its cloth onto its own middle, upright from behind.
fn lies(looks: &Looks<'_>, hung: &Hung<'_>, corners: &[Point], level: Turn) -> Option<Placement> {
    let crate::Made::Of(cloth) = hung.made else { return Some(Placement::STAY) };
    let (lo, hi) = polygon::bounds(&looks.cloth(cloth)?.outline.outer)?;
    let there = polygon::centroid(corners)?.to_vec2();
    let middle = Placement::shifted(lo.midpoint(hi).to_vec2() * -1.0);
    Some(middle.then(Placement::TURN_OVER).then(Placement::moved(Pose::new(level, there))))
}

/// A label with its words, as large as they have room for.
fn label(corners: [Point; 4], words: &[String]) -> Item {
    let mut items = vec![
        Item::fill(corners.to_vec(), Paint::solid(THREAD)),
        Item::closed(corners.to_vec(), Stroke::CutLine),
    ];
    let [from, to, _, above] = corners;
    let (along, up) = (to - from, above - from);
    let (wide, high) = (along.length(), up.length());
    let widest = words.iter().map(|line| words_width_in(line, 1.0)).fold(0.0, f64::max);
    let rows = words.len() as f64;
    if let Some(turn) = Turn::towards(along).filter(|_| widest > 0.0) {
        let size = (0.85 * wide / widest).min(0.8 * high / (1.3 * rows)).min(0.5);
        let middle = from.midpoint(corners[2]);
        let place = |row: usize| middle + up * ((rows / 2.0 - row as f64 - 0.5) * 1.3 * size / high);
        let lines = words.iter().enumerate();
        items.extend(lines.map(|(row, line)| {
            Item::text(TextItem { turn, ..TextItem::level(place(row), size, line.as_str()) })
        }));
    }
    Item::group("label", items).tagged(Tag::class("label"))
}
