//! A whole drawing: a page of true size and what lies on it.

use crate::{Item, Placement};
use plane::Point;

/// The class of the calico under a drawing.
const GROUND: &str = "ground";

/// A drawing in true units.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// What it shows, in words, for those who can't see it.
    pub title: String,
    /// Lower left corner of the page.
    pub lo: Point,
    /// Upper right corner of the page.
    pub hi: Point,
    /// How heavy lines are drawn; 1 suits about 20 inches.
    pub weight: f64,
    /// What lies on the page, lowest first.
    pub items: Vec<Item>,
}

impl Drawing {
    /// A drawing on a page that holds all items with `margin_in` to spare. Without items the page
    /// is the margin alone.
    #[must_use]
    pub fn around(title: impl Into<String>, items: Vec<Item>, weight: f64, margin_in: f64) -> Self {
        let (lo, hi) = bounds(&items).unwrap_or_default();
        Self {
            title: title.into(),
            lo: Point::new(lo.x - margin_in, lo.y - margin_in),
            hi: Point::new(hi.x + margin_in, hi.y + margin_in),
            weight,
            items,
        }
    }

    /// Width of the page in inches.
    #[must_use]
    pub fn width_in(&self) -> f64 {
        self.hi.x - self.lo.x
    }

    /// Height of the page in inches.
    #[must_use]
    pub fn height_in(&self) -> f64 {
        self.hi.y - self.lo.y
    }

    /// The drawing as seen from behind: turned over from left to right, words still readable.
    #[must_use]
    pub fn turned_over(&self) -> Self {
        Self {
            title: self.title.clone(),
            lo: Point::new(-self.hi.x, self.lo.y),
            hi: Point::new(-self.lo.x, self.hi.y),
            weight: self.weight,
            items: self.items.iter().map(|item| item.placed(Placement::TURN_OVER)).collect(),
        }
    }

    /// The same drawing with calico under it, if there isn't any yet.
    #[must_use]
    pub fn on_calico(mut self) -> Self {
        if self.items.first().is_some_and(|item| item.tag.class == GROUND) {
            return self;
        }
        let (lo, hi) = (self.lo, self.hi);
        let page = vec![lo, Point::new(hi.x, lo.y), hi, Point::new(lo.x, hi.y)];
        let ground = Item::fill(page, crate::Paint::Calico).tagged(crate::Tag::class(GROUND));
        self.items.insert(0, ground);
        self
    }

    /// The same drawing with more items on top. The page, and calico under it, grow as far as
    /// they must.
    #[must_use]
    pub fn with(mut self, items: impl IntoIterator<Item = Item>) -> Self {
        let items: Vec<Item> = items.into_iter().collect();
        let calico = self.items.first().is_some_and(|item| item.tag.class == GROUND);
        self.items.drain(..usize::from(calico));
        if let Some((lo, hi)) = bounds(&items) {
            let margin = 0.25 * self.weight;
            self.lo = Point::new(self.lo.x.min(lo.x - margin), self.lo.y.min(lo.y - margin));
            self.hi = Point::new(self.hi.x.max(hi.x + margin), self.hi.y.max(hi.y + margin));
        }
        self.items.extend(items);
        if calico { self.on_calico() } else { self }
    }
}

/// Bounding box of all that the items reach; `None` without any point.
pub(crate) fn bounds(items: &[Item]) -> Option<(Point, Point)> {
    let mut found: Option<(Point, Point)> = None;
    for item in items {
        item.each_point(&mut |p| {
            if p.is_finite() {
                let (lo, hi) = found.unwrap_or((p, p));
                found = Some((
                    Point::new(lo.x.min(p.x), lo.y.min(p.y)),
                    Point::new(hi.x.max(p.x), hi.y.max(p.y)),
                ));
            }
        });
    }
    found
}

/// The weight of lines and words that suits something of this size in inches.
pub(crate) fn weight_for(width_in: f64, height_in: f64) -> f64 {
    let size = width_in.max(height_in);
    if size.is_finite() { (size / 20.0).clamp(0.3, 5.0) } else { 1.0 }
}
