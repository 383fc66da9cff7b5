//! What stands once in a file and is used by reference: pictures, and the weave of calico.

use super::{SvgOptions, writer::Writer};
use crate::ink::CALICO;
use crate::{Item, Paint, Shape};
use quilt::cloth::Picture;
use std::collections::BTreeMap;

/// What a drawing needs to have defined.
#[derive(Default)]
pub(super) struct Wanted<'d> {
    calico: bool,
    pictures: BTreeMap<PictureKey<'d>, &'d Picture>,
}

/// A picture and how it lies on its cloth: the same file may be used at two scales. The numbers
/// are compared by their bits.
pub type PictureKey<'d> = (&'d str, [u64; 3]);

/// What tells a picture from all others of a drawing.
#[must_use]
pub fn key_of(picture: &Picture) -> PictureKey<'_> {
    let place = [picture.pixels_per_in, picture.top_left.x, picture.top_left.y];
    (&picture.hash, place.map(f64::to_bits))
}

impl<'d> Wanted<'d> {
    pub(super) fn see(&mut self, item: &'d Item) {
        match &item.shape {
            Shape::Fill { paint: Paint::Calico, .. } => self.calico = true,
            Shape::Picture(picture) => {
                self.pictures.entry(key_of(&picture.picture)).or_insert(&picture.picture);
            }
            Shape::Group { items, .. } => items.iter().for_each(|item| self.see(item)),
            Shape::Fill { .. } | Shape::Line { .. } | Shape::Thread(_) | Shape::Text(_) => {}
        }
    }
}

/// Writes what is wanted, and returns the ids of the pictures that are there.
pub(super) fn define<'d>(
    to: &mut Writer,
    wanted: &Wanted<'d>,
    options: &SvgOptions<'_>,
) -> BTreeMap<PictureKey<'d>, String> {
    let mut ids = BTreeMap::new();
    let mut found = Vec::new();
    for (key, picture) in &wanted.pictures {
        let sound = picture.pixels_per_in.is_finite() && picture.pixels_per_in > 0.0;
        if let Some(address) = options.pictures.address(picture).filter(|_| sound) {
            let id = format!("{}p{}", options.id_prefix, found.len() + 1);
            ids.insert(*key, id.clone());
            found.push((id, address, *picture));
        }
    }
    if found.is_empty() && !wanted.calico {
        return ids;
    }
    to.element(
        "defs",
        |_| {},
        |to| {
            to.line_break();
            if wanted.calico {
                calico(to, &format!("{}calico", options.id_prefix));
                to.line_break();
            }
            for (id, address, picture) in &found {
                image(to, id, address, picture);
                to.line_break();
            }
        },
    );
    to.line_break();
    ids
}

fn image(to: &mut Writer, id: &str, address: &str, picture: &Picture) {
    let [width, height] = picture.size_px.map(|px| f64::from(px) / picture.pixels_per_in);
    to.empty("image", |a| {
        a.text("id", id).number("x", picture.top_left.x).number("y", -picture.top_left.y);
        a.number("width", width).number("height", height);
        a.text("preserveAspectRatio", "none").text("href", address);
    });
}

/// Calico: threads over and under, a shade darker and lighter than the cloth.
fn calico(to: &mut Writer, id: &str) {
    let step = 0.08;
    to.element(
        "pattern",
        |a| {
            a.text("id", id).text("patternUnits", "userSpaceOnUse");
            a.number("width", step).number("height", step);
        },
        |to| {
            let mut square = |x: f64, y: f64, size: f64, fill: &str, opacity: f64| {
                to.empty("rect", |a| {
                    a.number("x", x).number("y", y).number("width", size).number("height", size);
                    a.text("fill", fill).number("fill-opacity", opacity);
                });
            };
            square(0.0, 0.0, step, &CALICO.to_string(), 1.0);
            square(0.0, 0.0, step / 2.0, "#8a7a5c", 0.035);
            square(step / 2.0, step / 2.0, step / 2.0, "#ffffff", 0.25);
        },
    );
}
