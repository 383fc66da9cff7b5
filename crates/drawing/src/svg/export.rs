//! The display list, item by item, as elements.

use super::SvgOptions;
use super::definitions::{PictureKey, Wanted, define, key_of};
use super::thread;
use super::writer::{Attributes, Writer};
use crate::ink::THREAD;
use crate::words::FONT_FAMILY;
use crate::{Anchor, Drawing, Item, Paint, Pass, PictureItem, Shape, Stroke, Tag, TextItem};
use plane::{Point, Pose, Region};
use std::collections::BTreeMap;

/// The drawing as the text of a file.
pub(super) fn svg(drawing: &Drawing, options: &SvgOptions<'_>) -> String {
    let mut export = Export {
        to: Writer::default(),
        weight: drawing.weight,
        prefix: options.id_prefix,
        clips: 0,
        threads: 0,
        pictures: BTreeMap::new(),
    };
    let mut wanted = Wanted::default();
    drawing.items.iter().for_each(|item| wanted.see(item));
    export.page(drawing, &wanted, options);
    export.to.into_text()
}

struct Export<'d> {
    to: Writer,
    weight: f64,
    prefix: &'d str,
    clips: usize,
    threads: usize,
    /// Ids of the pictures that are there.
    pictures: BTreeMap<PictureKey<'d>, String>,
}

impl<'d> Export<'d> {
    fn page(&mut self, drawing: &Drawing, wanted: &Wanted<'d>, options: &SvgOptions<'_>) {
        let (width, height) = (drawing.width_in(), drawing.height_in());
        let mut to = std::mem::take(&mut self.to);
        to.element(
            "svg",
            |a| {
                a.text("xmlns", "http://www.w3.org/2000/svg");
                a.inches("width", width).inches("height", height);
                a.numbers("viewBox", &[drawing.lo.x, -drawing.hi.y, width, height]);
                a.text("role", "img").text("font-family", FONT_FAMILY);
            },
            |to| {
                to.line_break();
                if !drawing.title.is_empty() {
                    to.element("title", |_| {}, |to| to.words(&drawing.title));
                    to.line_break();
                }
                self.to = std::mem::take(to);
                self.pictures = define(&mut self.to, wanted, options);
                self.items(&drawing.items);
                *to = std::mem::take(&mut self.to);
            },
        );
        to.line_break();
        self.to = to;
    }

    fn items(&mut self, items: &[Item]) {
        let mut rest = items;
        while let Some(first) = rest.first() {
            let taken = if let Shape::Line { stroke, .. } = first.shape {
                let same =
                    |item: &&Item| matches!(&item.shape, Shape::Line { stroke: s, .. } if *s == stroke);
                let run = rest.iter().take_while(same).count();
                self.lines(&rest[..run], stroke);
                run
            } else {
                self.item(first);
                1
            };
            rest = rest.get(taken..).unwrap_or_default();
        }
    }

    fn item(&mut self, item: &Item) {
        match &item.shape {
            Shape::Fill { region, paint } => {
                self.fill(&item.tag, region, *paint);
                self.to.line_break();
            }
            Shape::Picture(picture) => self.picture(&item.tag, picture),
            Shape::Line { .. } => {}
            Shape::Thread(lines) => {
                self.threads += 1;
                let id = format!("{}t{}", self.prefix, self.threads);
                thread::write(&mut self.to, &id, &item.tag, lines);
            }
            Shape::Text(text) => self.text(&item.tag, text),
            Shape::Group { clip, items } => self.group(&item.tag, clip.as_ref(), items),
        }
    }

    fn group(&mut self, tag: &Tag, clip: Option<&Region>, items: &[Item]) {
        let clip = clip.map(|region| self.clip(region));
        let mut to = std::mem::take(&mut self.to);
        to.element(
            "g",
            |a| {
                tagged(a, tag);
                if let Some(clip) = &clip {
                    a.text("clip-path", clip);
                }
            },
            |to| {
                to.line_break();
                self.to = std::mem::take(to);
                self.items(items);
                *to = std::mem::take(&mut self.to);
            },
        );
        to.line_break();
        self.to = to;
    }

    /// Defines a clip and returns the reference to it.
    fn clip(&mut self, region: &Region) -> String {
        self.clips += 1;
        let id = format!("{}c{}", self.prefix, self.clips);
        self.to.element(
            "clipPath",
            |a| {
                a.text("id", &id);
            },
            |to| {
                to.empty("path", |a| {
                    a.region(region);
                    if !region.holes.is_empty() {
                        a.text("clip-rule", "evenodd");
                    }
                });
            },
        );
        format!("url(#{id})")
    }

    /// An area. A thin rim of its own colour closes the hair line of ground that smoothed edges
    /// would leave between neighbours.
    fn fill(&mut self, tag: &Tag, region: &Region, paint: Paint) {
        let prefix = self.prefix;
        self.to.empty("path", |a| {
            tagged(a, tag);
            match paint {
                Paint::Colour(colour, opacity) => {
                    a.text("fill", &colour.to_string());
                    if opacity < 1.0 {
                        a.number("fill-opacity", opacity);
                    } else {
                        a.text("stroke", &colour.to_string()).number("stroke-width", RIM_IN);
                    }
                }
                Paint::Calico => {
                    a.text("fill", &format!("url(#{prefix}calico)"));
                }
            }
            a.region(region);
            if !region.holes.is_empty() {
                a.text("fill-rule", "evenodd");
            }
        });
    }

    fn picture(&mut self, tag: &Tag, picture: &PictureItem) {
        let Some(id) = self.pictures.get(&key_of(&picture.picture)).map(|id| format!("#{id}")) else {
            return;
        };
        let clip = self.clip(&picture.clip);
        self.to.element(
            "g",
            |a| {
                tagged(a, tag);
                a.text("clip-path", &clip);
                if picture.opacity < 1.0 {
                    a.number("opacity", picture.opacity);
                }
            },
            |to| {
                to.empty("use", |a| {
                    a.text("href", &id).transform(picture.placement.matrix());
                });
            },
        );
        self.to.line_break();
    }

    /// Lines of one meaning that follow each other.
    fn lines(&mut self, items: &[Item], stroke: Stroke) {
        let weight = self.weight;
        let passes = stroke.passes();
        for (i, pass) in passes.iter().enumerate() {
            let last = i + 1 == passes.len();
            self.to.element(
                "g",
                |a| {
                    if last {
                        a.text("class", stroke.class());
                    }
                    stroked(a, pass, weight);
                },
                |to| {
                    to.line_break();
                    if last {
                        items.iter().for_each(|item| line(to, item));
                    } else {
                        to.empty("path", |a| {
                            a.lines(items.iter().filter_map(points_of));
                        });
                        to.line_break();
                    }
                },
            );
            self.to.line_break();
        }
    }

    fn text(&mut self, tag: &Tag, text: &TextItem) {
        // Letters stand on a line about a third of their square below their middle height.
        let drop = text.turn.vec().left() * (-0.35 * text.size_in);
        let pose = Pose::new(text.turn, text.at.to_vec2() + drop);
        self.to.element(
            "text",
            |a| {
                tagged(a, tag);
                if text.turn == plane::Turn::NONE {
                    a.number("x", pose.by.x).number("y", -pose.by.y);
                } else {
                    a.transform(crate::Placement::moved(pose).matrix());
                }
                a.number("font-size", text.size_in).text("fill", &text.colour.to_string());
                match text.anchor {
                    Anchor::Start => {}
                    Anchor::Middle => drop_ref(a.text("text-anchor", "middle")),
                    Anchor::End => drop_ref(a.text("text-anchor", "end")),
                }
                if text.bold {
                    a.text("font-weight", "bold");
                }
                if text.rim {
                    a.text("stroke", &THREAD.to_string()).number("stroke-width", text.size_in * 0.28);
                    a.text("stroke-linejoin", "round").text("paint-order", "stroke");
                }
            },
            |to| to.words(&text.words),
        );
        self.to.line_break();
    }
}

/// Width of the rim that closes hair lines, in inches: under half of it shows on either side.
const RIM_IN: f64 = 0.01;

pub(super) fn drop_ref(_: &mut Attributes<'_>) {}

pub(super) fn tagged(a: &mut Attributes<'_>, tag: &Tag) {
    if !tag.class.is_empty() {
        a.text("class", tag.class);
    }
    for (key, value) in &tag.data {
        a.data(key, value);
    }
}

fn stroked(a: &mut Attributes<'_>, pass: &Pass, weight: f64) {
    a.text("fill", "none").text("stroke", &pass.colour.to_string());
    a.number("stroke-width", pass.width_in * weight);
    if pass.opacity < 1.0 {
        a.number("stroke-opacity", pass.opacity);
    }
    if let Some(dash) = pass.dash_in {
        a.numbers("stroke-dasharray", &dash.map(|length| length * weight));
    }
    a.text("stroke-linecap", "round").text("stroke-linejoin", "round");
}

fn points_of(item: &Item) -> Option<(&[Point], bool)> {
    match &item.shape {
        Shape::Line { points, closed, .. } => Some((points, *closed)),
        _ => None,
    }
}

fn line(to: &mut Writer, item: &Item) {
    to.empty("path", |a| {
        tagged(a, &item.tag);
        a.lines(points_of(item).into_iter());
    });
    to.line_break();
}
