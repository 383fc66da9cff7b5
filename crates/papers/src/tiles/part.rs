//! What of a display list lies in a rectangle: lines are cut at its edges, so that a page of a large piece
//! holds only its own.

use drawing::{Item, Shape};
use plane::{Point, polygon};

/// Whether anything lies in it.
pub(super) fn shows(items: &[Item], low: Point, high: Point) -> bool {
    let window = Window { low, high };
    items.iter().any(|item| match &item.shape {
        Shape::Line { points, closed, .. } => {
            segments(points, *closed).any(|(a, b)| window.cut(a, b).is_some())
        }
        Shape::Group { items, .. } => shows(items, low, high),
        _ => window.meets(item),
    })
}

/// The items as they lie in it.
pub(super) fn on_it(items: &[Item], low: Point, high: Point) -> Vec<Item> {
    let window = Window { low, high };
    let mut kept = Vec::new();
    for item in items {
        match &item.shape {
            Shape::Line { points, closed, stroke } => {
                let parts = window.parts(segments(points, *closed));
                kept.extend(
                    parts.into_iter().map(|points| Item::line(points, *stroke).tagged(item.tag.clone())),
                );
            }
            Shape::Group { clip, items } => {
                let shape = Shape::Group { clip: clip.clone(), items: on_it(items, low, high) };
                kept.push(Item { tag: item.tag.clone(), shape });
            }
            _ if window.meets(item) => kept.push(item.clone()),
            _ => {}
        }
    }
    kept
}

fn segments(points: &[Point], closed: bool) -> Box<dyn Iterator<Item = (Point, Point)> + '_> {
    if closed {
        Box::new(polygon::edges(points))
    } else {
        Box::new(points.windows(2).map(|pair| (pair[0], pair[1])))
    }
}

struct Window {
    low: Point,
    high: Point,
}

impl Window {
    /// Whether the bounds of an item meet it.
    fn meets(&self, item: &Item) -> bool {
        let mut points = Vec::new();
        item.each_point(&mut |p| points.push(p));
        polygon::bounds(&points).is_some_and(|(low, high)| {
            low.x <= self.high.x && high.x >= self.low.x && low.y <= self.high.y && high.y >= self.low.y
        })
    }

    /// What of a line lies in it, each part in one.
    fn parts(&self, segments: impl Iterator<Item = (Point, Point)>) -> Vec<Vec<Point>> {
        let mut parts: Vec<Vec<Point>> = Vec::new();
        for (a, b) in segments {
            let Some((from, to)) = self.cut(a, b) else { continue };
            match parts.last_mut().filter(|part| part.last() == Some(&from)) {
                Some(part) => part.push(to),
                None => parts.push(vec![from, to]),
            }
        }
        parts
    }

    /// The part of a straight line that lies in it.
    fn cut(&self, a: Point, b: Point) -> Option<(Point, Point)> {
        let by = b - a;
        let mut ends = [0.0_f64, 1.0];
        for (at, step, low, high) in
            [(a.x, by.x, self.low.x, self.high.x), (a.y, by.y, self.low.y, self.high.y)]
        {
            if step.abs() < 1e-12 {
                if at < low || at > high {
                    return None;
                }
                continue;
            }
            let (first, last) = ((low - at) / step, (high - at) / step);
            ends = [ends[0].max(first.min(last)), ends[1].min(first.max(last))];
        }
        let place = |share: f64| if share == 1.0 { b } else { a + by * share };
        (ends[0] < ends[1]).then(|| (place(ends[0]), place(ends[1])))
    }
}
