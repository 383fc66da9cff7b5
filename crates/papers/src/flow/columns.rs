//! Columns of items that aren't torn: the first column is filled downwards, then the next, then the next page.

use super::set::{GAP_IN, Strip};
use plane::Vec2;
use std::collections::VecDeque;
use std::ops::Range;

/// Between an item and the next under it, in inches.
const UNDER_IN: f64 = 0.16;
/// How exactly columns are made equally high, in inches.
const EVEN_IN: f64 = 1.0 / 32.0;

/// Items still to be set in columns.
#[derive(Clone, Debug)]
pub(super) struct Columns {
    /// How many columns stand beside each other.
    pub(super) count: usize,
    /// Width of one, in inches.
    pub(super) wide_in: f64,
    /// What comes next, in its order.
    pub(super) items: VecDeque<Strip>,
}

impl Columns {
    /// Columns in a room so wide, still without items.
    pub(super) fn new(count: usize, width_in: f64) -> Self {
        let count = count.max(1);
        let wide_in = (width_in - GAP_IN * (count - 1) as f64) / count as f64;
        Self { count, wide_in, items: VecDeque::new() }
    }

    /// As many items as a height holds, as one strip; at least one where `anyway`. The last columns are made
    /// equally high. Nothing when not even the first item has room.
    pub(super) fn take(&mut self, room_in: f64, anyway: bool) -> Option<Strip> {
        let first_in = self.items.front()?.height_in;
        if first_in > room_in + 1e-6 && !anyway {
            return None;
        }
        let all_in = self.items.iter().map(|item| item.height_in + UNDER_IN).sum::<f64>();
        let room_in = room_in.max(first_in).min(all_in);
        let mut columns = self.filled(room_in);
        if end(&columns) == self.items.len() {
            let (mut low, mut high) = (0.0, room_in);
            while high - low > EVEN_IN {
                let middle = f64::midpoint(low, high);
                let tried = self.filled(middle);
                if end(&tried) == self.items.len() {
                    (high, columns) = (middle, tried);
                } else {
                    low = middle;
                }
            }
        }
        let mut out = Strip::default();
        for (column, range) in columns.into_iter().enumerate() {
            let mut down_in = 0.0;
            for strip in self.items.drain(..range.len()) {
                let by = Vec2::new(column as f64 * (self.wide_in + GAP_IN), -down_in);
                out.parts.extend(strip.moved(by));
                down_in += strip.height_in + UNDER_IN;
            }
            out.height_in = out.height_in.max(down_in - UNDER_IN);
        }
        Some(out)
    }

    /// Which items stand in which column, when columns are so high at most.
    fn filled(&self, height_in: f64) -> Vec<Range<usize>> {
        let mut columns = Vec::with_capacity(self.count);
        let mut from = 0;
        for _ in 0..self.count {
            let (mut to, mut down_in) = (from, 0.0);
            while let Some(item) =
                self.items.get(to).filter(|item| down_in + item.height_in <= height_in + 1e-6)
            {
                down_in += item.height_in + UNDER_IN;
                to += 1;
            }
            columns.push(from..to);
            from = to;
        }
        columns
    }
}

fn end(columns: &[Range<usize>]) -> usize {
    columns.last().map_or(0, |last| last.end)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn columns(count: usize, heights: &[f64]) -> Columns {
        let items = heights.iter().map(|height| Strip { height_in: *height, ..Strip::default() });
        Columns { items: items.collect(), ..Columns::new(count, 7.0) }
    }

    #[test]
    fn what_has_room_on_one_page_is_spread_evenly() {
        let mut four = columns(2, &[1.0; 4]);
        let strip = four.take(9.0, false).expect("room");
        assert!((strip.height_in - (2.0 + UNDER_IN)).abs() < 1e-9, "{}", strip.height_in);
        assert!(four.items.is_empty());
    }

    #[test]
    fn without_a_page_they_are_as_low_as_they_can_be() {
        let strip = columns(3, &[1.0; 6]).take(f64::INFINITY, true).expect("set");
        assert!((strip.height_in - (2.0 + UNDER_IN)).abs() < 1e-9, "{}", strip.height_in);
    }

    #[test]
    fn what_has_no_room_waits_for_the_next_page_in_its_order() {
        let mut five = columns(2, &[2.0, 2.0, 3.0, 1.0, 4.0]);
        assert!(five.take(1.0, false).is_none());
        five.take(4.5, false).expect("room");
        assert_eq!(five.items.iter().map(|item| item.height_in).collect::<Vec<_>>(), [4.0]);
    }

    #[test]
    fn an_item_higher_than_any_page_is_set_all_the_same() {
        let mut high = columns(3, &[12.0, 1.0]);
        assert!(high.take(9.0, false).is_none());
        assert!((high.take(9.0, true).expect("set").height_in - 12.0).abs() < 1e-9);
    }
}
