//! Places for words round a shape, so that none lies on the shape or on other words.
//!
//! Places are tried outward from where the words belong and to both sides, the nearest first; what comes to lie
//! away from its mark has a line that leads to it. Lengths are those of the drawing.

use drawing::{Item, Stroke, TextItem, words_width_in};
use plane::{Point, Vec2, polygon};

/// A box: its lowest and its highest corner.
type Held = [Point; 2];

/// So far words go away from where they belong, outwards and to each side, in heights of their letters.
const FURTHEST: i32 = 7;

/// Where words lie already.
#[derive(Debug)]
pub(super) struct Places {
    shape: Vec<Point>,
    taken: Vec<Held>,
}

impl Places {
    /// Round a shape.
    pub(super) const fn round(shape: Vec<Point>) -> Self {
        Self { shape, taken: Vec::new() }
    }

    /// Keeps words away from what is drawn between points.
    pub(super) fn keep(&mut self, points: &[Point]) {
        if let Some((low, high)) = polygon::bounds(points) {
            self.taken.push([low, high]);
        }
    }

    /// Words that belong to a place, outside the shape on the way `out`; with a line where they lie away from it.
    pub(super) fn words(&mut self, at: Point, out: Vec2, text: TextItem) -> Vec<Item> {
        let size = text.size_in;
        let half = Vec2::new(words_width_in(&text.words, size) / 2.0 + 0.08 * size, 0.56 * size);
        let reach = out.x.abs() * half.x + out.y.abs() * half.y + 0.25 * size;
        let side = out.left();
        let mut tried: Vec<(i32, i32)> = (0..=2 * FURTHEST)
            .flat_map(|off| (-2 * FURTHEST..=2 * FURTHEST).map(move |along| (off, along)))
            .collect();
        tried.sort_by_key(|(off, along)| (off + along.abs(), along.abs(), *along));
        let place = |(off, along): (i32, i32)| {
            let steps = |count: i32| 0.5 * size * f64::from(count);
            at + out * (reach + steps(off)) + side * steps(along)
        };
        let around = |middle: Point| [middle - half, middle + half];
        let found = tried.into_iter().map(place).find(|middle| self.is_free(around(*middle)));
        let middle = found.unwrap_or_else(|| place((2 * FURTHEST, 0)));
        let held = around(middle);
        self.taken.push(held);
        let nearest = Point::new(at.x.clamp(held[0].x, held[1].x), at.y.clamp(held[0].y, held[1].y));
        let leader =
            (nearest.distance(at) > 0.5 * size).then(|| Item::line(vec![at, nearest], Stroke::Leader));
        leader.into_iter().chain([Item::text(TextItem { at: middle, ..text })]).collect()
    }

    fn is_free(&self, held: Held) -> bool {
        let apart = |other: &Held| {
            held[1].x <= other[0].x
                || other[1].x <= held[0].x
                || held[1].y <= other[0].y
                || other[1].y <= held[0].y
        };
        self.taken.iter().all(apart) && !touches(&self.shape, held)
    }
}

/// Whether a shape and a box have anything in common.
fn touches(shape: &[Point], [low, high]: Held) -> bool {
    let middle = low.midpoint(high);
    polygon::contains(shape, middle) || polygon::edges(shape).any(|(a, b)| crosses(a, b, low, high))
}

/// Whether a line from one point to another comes into a box: what is left of it between the box's sides.
fn crosses(a: Point, b: Point, low: Point, high: Point) -> bool {
    let way = b - a;
    let mut left = [0.0_f64, 1.0];
    for (from, by, low, high) in [(a.x, way.x, low.x, high.x), (a.y, way.y, low.y, high.y)] {
        if by.abs() < 1e-12 {
            if from < low || from > high {
                return false;
            }
            continue;
        }
        let (one, other) = ((low - from) / by, (high - from) / by);
        left = [left[0].max(one.min(other)), left[1].min(one.max(other))];
    }
    left[0] <= left[1]
}

#[cfg(test)]
mod tests {
    use super::*;
    use drawing::Shape;

    /// The box of the words that items hold.
    fn held(items: &[Item]) -> Held {
        let text = items.iter().find_map(|item| match &item.shape {
            Shape::Text(text) => Some(text.clone()),
            _ => None,
        });
        let text = text.expect("words");
        let half = Vec2::new(words_width_in(&text.words, text.size_in) / 2.0, text.size_in / 2.0);
        [text.at - half, text.at + half]
    }

    #[test]
    fn words_of_marks_that_lie_close_touch_neither_each_other_nor_the_cloth() {
        let shape =
            vec![Point::new(0.0, 0.0), Point::new(1.0, 0.0), Point::new(1.2, 0.8), Point::new(0.1, 1.0)];
        let mut places = Places::round(shape.clone());
        let mut boxes: Vec<Held> = Vec::new();
        for i in 0..6 {
            let at = Point::new(0.1 * f64::from(i), 0.0);
            let text = TextItem::level(at, 0.14, "2 3/8");
            boxes.push(held(&places.words(at, Vec2::new(0.0, -1.0), text)));
        }
        for (i, one) in boxes.iter().enumerate() {
            assert!(!touches(&shape, *one), "{i} lies on the cloth");
            for other in &boxes[i + 1..] {
                let apart = one[1].x <= other[0].x
                    || other[1].x <= one[0].x
                    || one[1].y <= other[0].y
                    || other[1].y <= one[0].y;
                assert!(apart, "{one:?} {other:?}");
            }
        }
    }

    #[test]
    fn words_with_room_lie_at_their_mark_without_a_line() {
        let mut places =
            Places::round(vec![Point::new(0.0, 0.0), Point::new(4.0, 0.0), Point::new(2.0, 3.0)]);
        let at = Point::new(2.0, 0.0);
        let items = places.words(at, Vec2::new(0.0, -1.0), TextItem::level(at, 0.14, "2"));
        assert_eq!(items.len(), 1, "words alone");
        // Half the letters' box and a quarter of their height below the edge.
        assert!((held(&items)[1].y + 0.31 * 0.14 - 0.0).abs() < 1e-9, "{:?}", held(&items));
    }

    #[test]
    fn a_line_that_passes_a_box_does_not_cross_it() {
        let (low, high) = (Point::new(1.0, 1.0), Point::new(2.0, 2.0));
        let cases = [
            ((0.0, 0.0), (3.0, 3.0), true),
            ((0.0, 1.5), (3.0, 1.5), true),
            ((1.2, 1.2), (1.4, 1.3), true),
            ((0.0, 2.5), (3.0, 2.5), false),
            ((0.0, 1.5), (0.9, 1.5), false),
            ((0.0, 2.0), (1.0, 3.2), false),
        ];
        for ((ax, ay), (bx, by), expect) in cases {
            assert_eq!(
                crosses(Point::new(ax, ay), Point::new(bx, by), low, high),
                expect,
                "{ax} {ay} {bx} {by}"
            );
        }
    }
}
