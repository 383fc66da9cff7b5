//! Everything on the table: the piece, and the other tops beside it.

use crate::back::back_items;
use crate::display::bounds;
use crate::front::front_items;
use crate::looks::Looks;
use crate::scene::Scene;
use crate::{Drawing, DrawingProblem, FrontOptions, Item, Placement, Shape, Tag};
use plane::{Point, Vec2};
use quilt::cloth::{Cloth, ClothId};
use quilt::table::Table;
use std::collections::BTreeMap;

/// All tops, none over another: the piece where it is, the others in columns beside it, in the
/// order in which they were begun. Their lines are as heavy as the piece's.
///
/// # Errors
/// When the table is empty.
pub fn table_drawing(
    table: &Table,
    cloths: &BTreeMap<ClothId, Cloth>,
    what: &FrontOptions,
) -> Result<Drawing, DrawingProblem> {
    let drawing = laid_out(table, cloths, what, &front_items)?;
    Ok(if what.ground { drawing.on_calico() } else { drawing })
}

/// The same from the back, turned over from left to right as a whole; always in raw shapes.
///
/// # Errors
/// When the table is empty.
pub fn table_back(
    table: &Table,
    cloths: &BTreeMap<ClothId, Cloth>,
    what: &FrontOptions,
) -> Result<Drawing, DrawingProblem> {
    let what = FrontOptions { finished: false, ..what.clone() };
    let back = laid_out(table, cloths, &what, &back_items)?.turned_over();
    Ok(if what.ground { back.on_calico() } else { back })
}

/// The tops in their places, each with its items.
fn laid_out(
    table: &Table,
    cloths: &BTreeMap<ClothId, Cloth>,
    what: &FrontOptions,
    items_of: &dyn Fn(&Scene<'_>) -> Vec<Item>,
) -> Result<Drawing, DrawingProblem> {
    let (piece, _) = table.piece().ok_or(DrawingProblem::EmptyTable)?;
    let looks = Looks::of(cloths);
    let main = Scene::of(table, piece, &looks, what)?;
    let mut items = vec![top_group(&items_of(&main), piece, Vec2::default())];
    let mut place = Columns::beside(&items, main.weight);
    let names = FrontOptions { accent: None, trims: Vec::new(), ..what.clone() };
    for mark in table.tops().keys().filter(|mark| **mark != piece) {
        let scene = Scene { weight: main.weight, ..Scene::of(table, *mark, &looks, &names)? };
        let own = items_of(&scene);
        if let Some(box_) = bounds(&own) {
            items.push(top_group(&own, *mark, place.next(box_)));
        }
    }
    Ok(Drawing::around("What lies on the table", items, main.weight, 0.5 * main.weight))
}

fn top_group(items: &[Item], mark: quilt::log::Mark, by: Vec2) -> Item {
    let items = items.iter().map(|item| item.placed(Placement::shifted(by))).collect();
    Item::new(Shape::Group { clip: None, items }).tagged(Tag::class("top").with("top", mark))
}

/// Places boxes in columns, from the top down, no lower than the piece reaches.
struct Columns {
    gap: f64,
    top: f64,
    bottom: f64,
    /// Upper left corner of the next box.
    next: Point,
    /// How far the column reaches.
    edge: f64,
}

impl Columns {
    fn beside(items: &[Item], weight: f64) -> Self {
        let (lo, hi) = bounds(items).unwrap_or_default();
        let gap = 0.8 * weight;
        Self { gap, top: hi.y, bottom: lo.y, next: Point::new(hi.x + gap, hi.y), edge: hi.x + gap }
    }

    /// The shift that brings the box with these corners to its place.
    fn next(&mut self, (lo, hi): (Point, Point)) -> Vec2 {
        let (width, height) = (hi.x - lo.x, hi.y - lo.y);
        if self.next.y - height < self.bottom && self.next.y < self.top {
            self.next = Point::new(self.edge + self.gap, self.top);
        }
        let by = self.next - Point::new(lo.x, hi.y);
        self.edge = self.edge.max(self.next.x + width);
        self.next.y -= height + self.gap;
        by
    }
}
