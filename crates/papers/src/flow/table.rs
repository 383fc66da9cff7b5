//! A table as strips, a row each.

use super::block::Table;
use super::faces;
use super::set::Strip;
use crate::press::{Face, GroupRole, Letters, Part, Role};
use drawing::Stroke;
use plane::Point;
use std::sync::Arc;

/// Between a cell's edge and its words.
const PAD_IN: f64 = 0.05;
/// The most that the words of a cell are high, so that every row has room on a page.
const MOST_IN: f64 = 4.0;

pub(super) fn strips(table: &Table, letters: &Letters, width_in: f64, number: usize) -> Vec<Strip> {
    let total: f64 = table.columns.iter().map(|column| column.share.max(0.0)).sum::<f64>().max(1e-9);
    let widths: Vec<f64> =
        table.columns.iter().map(|column| width_in * column.share.max(0.0) / total).collect();
    let group = Some((number, GroupRole::Table));
    let row = |words: &[&str], face: Face, role: GroupRole| -> Strip {
        let mut cells = Vec::new();
        let (mut left, mut high) = (0.0, 0.0_f64);
        for ((column, wide), words) in table.columns.iter().zip(&widths).zip(words) {
            let laid = letters.set_within(words, face.at(column.side), wide - 2.0 * PAD_IN, MOST_IN);
            high = high.max(laid.height_in);
            let at = Point::new(left + PAD_IN, -PAD_IN);
            let part = Part::Words { role: Role::Words, at, words: laid };
            cells.push(Part::Group { role, parts: vec![part] });
            left += wide;
        }
        let height_in = high + 2.0 * PAD_IN;
        let rule = vec![Point::new(0.0, -height_in), Point::new(width_in, -height_in)];
        let rule = Part::Rule { points: rule, stroke: Stroke::Leader };
        let parts = vec![Part::Group { role: GroupRole::Row, parts: cells }, rule];
        Strip { height_in, parts, group, ..Strip::default() }
    };
    let heads: Vec<&str> = table.columns.iter().map(|column| column.head.as_str()).collect();
    let mut head = row(&heads, faces::SMALL_BOLD, GroupRole::Head);
    head.holds_next = true;
    let again = Arc::new(head.clone());
    let rows = table.rows.iter().map(|cells| {
        let words: Vec<&str> =
            (0..table.columns.len()).map(|i| cells.get(i).map_or("", String::as_str)).collect();
        let mut strip = row(&words, Face { leading: 1.25, ..faces::BODY }, GroupRole::Cell);
        strip.again = Some(Arc::clone(&again));
        strip
    });
    std::iter::once(head).chain(rows).collect()
}
